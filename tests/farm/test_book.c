/* The book that the binary carries, and what its reader refuses. */
#include "check.h"

#include <stdio.h>

#include "farm/book.h"
#include "nature/plant/density.h"

static void the_book_reads_whole(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    static const char *const WAYS[] = {
        "lettuce-head",     "lettuce-leaf",   "rocket-cut",
        "chard-bunch",      "chard-baby",     "spinach-leaf",
        "basil-bunch",      "parsley-bunch",  "coriander-bunch",
        "celery-head",      "thyme-bunch",    "nasturtium-flower",
        "borage-flower",    "tagetes-flower", "calendula-flower",
        "viola-flower",     "broccoli-wide",  "broccoli-close",
        "cauliflower-head", "cucumber-edge",  "tomato-edge",
        "sweet-pepper-red", "paprika-red",    "aubergine-fruit",
        "courgette-fruit",  "papaya-fruit"};
    for (size_t i = 0; i < sizeof WAYS / sizeof *WAYS; i++) {
        const BookWay *way = book_way(&book, WAYS[i]);
        assert_non_null(way);
        assert_non_null(book_crop_of(&book, way));
    }
    assert_null(book_way(&book, "lettuce"));
    assert_string_equal(book_id(&book, "ways", 0), "lettuce-head");
    assert_null(book_id(&book, "ways", book.ways_count));
}

/* The row of spinach in the germination table.
 * Source: [HARRINGTON1954]. */
static void germination_rows_stand_beside_their_crop(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    const BookCrop *spinach = book_crop(&book, "spinach");
    const EmergenceRow *row = &book.emergence[spinach - book.crops];
    assert_near(emergence_germination_frac(row, 15.0), 0.82, 0.0);
    assert_near(emergence_table_d(row, 10.0), 12.0, 1e-9);
    assert_near(emergence_germination_frac(row, 35.0), 0.0, 0.0);
    const BookCrop *thyme = book_crop(&book, "thyme");
    row = &book.emergence[thyme - book.crops];
    assert_true(isnan(emergence_germination_frac(row, 15.0)));
}

/* The law in the book is the one fitted to the trial, and its two broccolis
 * weigh what the law says at their densities. */
static void broccoli_heads_follow_the_fitted_law(void **state)
{
    (void)state;
    const HeadTrial trial[3] = {{1.0 / (0.60 * 0.40), 1.88 * 0.60 * 0.40},
                                {1.0 / (0.60 * 0.50), 1.76 * 0.60 * 0.50},
                                {1.0 / (0.60 * 0.60), 1.60 * 0.60 * 0.60}};
    HeadLaw law = {0};
    assert_true(density_fit(trial, 3, &law));
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    static const char *const WAYS[2] = {"broccoli-wide", "broccoli-close"};
    for (int i = 0; i < 2; i++) {
        const BookWay *way = book_way(&book, WAYS[i]);
        assert_near(way->head_a_per_kg.value, law.a_kg, 5e-3);
        assert_near(way->head_b_m2_per_kg.value, law.b_m2_kg, 2e-3);
        double kg = density_head_kg(&law, way->plants_m2.value);
        assert_near(way->yield_g.value, 1000.0 * kg, 8.0);
    }
}

/* The chemistry of the bases: a gram of KOH stands for 0.66 g of hydrated lime
 * and 0.89 g of calcium carbonate. */
static void bases_are_equal_by_their_molar_masses(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    double koh = book_base(&book, "potassium-hydroxide")->caco3_g_g.value;
    double lime = book_base(&book, "calcium-hydroxide")->caco3_g_g.value;
    assert_near(koh, 0.892, 1e-3);
    assert_near(koh / lime, 0.660, 1e-3);
    const BookBase *potash = book_base(&book, "potassium-bicarbonate");
    assert_near(potash->k_frac.value, 0.3905, 5e-4);
}

static void your_figure_replaces_the_books_and_changes_its_hash(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0}, mine = {0};
    assert_ok(book_load(&arena, &book));
    book_copy(&arena, &book, &mine);
    const Figure yours = {611.3, 540.2, 702.9, FIGURE_BOOK, "log of beds"};
    assert_ok(book_replace(&mine, "lettuce-head", "first_pick_degc_d", yours));
    const Figure *got = book_figure(&mine, "lettuce-head", "first_pick_degc_d");
    assert_near(got->value, 611.3, 0.0);
    assert_int_equal(got->origin, FIGURE_YOURS);
    assert_near(book_way(&book, "lettuce-head")->first_pick_degc_d.value, 528.0,
                0.0);
    assert_true(mine.hash != book.hash);
    assert_err(book_replace(&mine, "lettuce-hed", "first_pick_degc_d", yours),
               ERR_NOT_FOUND, "lettuce-hed");
    assert_err(book_replace(&mine, "lettuce-head", "shape", yours),
               ERR_NOT_FOUND, "shape");
    const Figure fallen = {1.5, 1.2, 1.9, FIGURE_YOURS, ""};
    assert_err(book_replace(&mine, "lettuce-head", "saleable_frac", fallen),
               ERR_RANGE, "saleable_frac");
    const Figure crossed = {0.8, 0.9, 0.95, FIGURE_YOURS, ""};
    assert_err(book_replace(&mine, "lettuce-head", "saleable_frac", crossed),
               ERR_RANGE, "do not rise");
}

/* One changed line in one file, and what must be said. */
static void refused(const char *file, const char *from, const char *to,
                    const char *words)
{
    CLEANUP(arena_release) Arena arena = {0};
    EmbeddedFile files[16] = {{0}};
    assert_true(BOOK_FILES_COUNT <= 16);
    for (size_t i = 0; i < BOOK_FILES_COUNT; i++) {
        files[i] = BOOK_FILES[i];
        if (strcmp(files[i].name, file) != 0) {
            continue;
        }
        const char *at = strstr(files[i].bytes, from);
        assert_non_null(at);
        files[i].bytes =
            arena_text(&arena, "%.*s%s%s", (int)(at - files[i].bytes),
                       files[i].bytes, to, at + strlen(from));
        files[i].length = strlen(files[i].bytes);
    }
    Book book = {0};
    assert_err(book_parse(&arena, files, BOOK_FILES_COUNT, &book), ERR_INPUT,
               words);
}

static void a_broken_book_is_refused_with_its_place(void **state)
{
    (void)state;
    refused("ways.csv", "lettuce-head,picks,1,1,1", "lettuce-head,picks,1,2,1",
            "do not rise");
    refused("ways.csv", "lettuce-head,picks,1,1,1,1,",
            "lettuce-head,picks,1,1,1,kg,", "unit");
    refused("ways.csv", "lettuce-head,picks,1,1,1,1,guess",
            "lettuce-head,picks,1,1,1,1,heard", "heard");
    refused("ways.csv", "lettuce-head,picks", "lettuce-head,pecks", "pecks");
    refused("ways.csv", "lettuce-head,crop,lettuce,",
            "lettuce-head,crop,letuce,", "no crop letuce");
    refused("ways.csv", "lettuce-head,tray,t128,", "lettuce-head,tray,t129,",
            "t129");
    refused("ways.csv", "lettuce-head,shape,once,", "lettuce-head,shape,twice,",
            "twice");
    refused("ways.csv", "lettuce-head,plants_m2", "lettuce-head,plants_m",
            "unit");
    refused("ways.csv", "lettuce-leaf,pick_every_degc_d",
            "lettuce-head,pick_every_degc_d", "pick_every_degc_d");
    refused("crops.csv", "lettuce,base_degc,3.5,3,4.5",
            "lettuce,base_degc,x,3,4", "x");
    refused("crops.csv", "lettuce,base_degc,3.5,3,4.5",
            "lettuce,optimum_degc,3.5,3,4.5", "expected 10 to 32");
    refused("crops.csv", "lettuce,germ_05_frac", "lettuce,germ_00_frac",
            "germ_00_frac");
    refused("common.csv", "id,figure", "figure,id", "columns");
    refused("trays.csv", "t50,cells", "t50,fill_min", "");
}

/* Every figure of every record, by its bytes: low <= value <= high was checked
 * in reading; here that none of the guesses poses as read. */
static void guesses_name_themselves(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    int books = 0;
    for (int32_t i = 0; i < book.crops_count; i++) {
        const BookCrop *crop = &book.crops[i];
        const Figure *figures[] = {&crop->base_degc, &crop->keep_d,
                                   &crop->n_g_kg, &crop->frost_kill_degc};
        for (size_t k = 0; k < sizeof figures / sizeof *figures; k++) {
            if (figures[k]->origin == FIGURE_BOOK) {
                assert_true(figures[k]->source[0] != '\0');
                books++;
            }
        }
    }
    assert_true(books > 40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_book_reads_whole),
        cmocka_unit_test(germination_rows_stand_beside_their_crop),
        cmocka_unit_test(broccoli_heads_follow_the_fitted_law),
        cmocka_unit_test(bases_are_equal_by_their_molar_masses),
        cmocka_unit_test(your_figure_replaces_the_books_and_changes_its_hash),
        cmocka_unit_test(a_broken_book_is_refused_with_its_place),
        cmocka_unit_test(guesses_name_themselves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
