/* Sense of the plants: ways against the book, batches against their beds. */
#include <math.h>

#include "base/date.h"
#include "farm/checker.h"
#include "farm/fish_figures.h"
#include "farm/ids.h"
#include "farm/seedlings.h"

/* Room for rounding in lengths and weights that people type. */
#define TYPED_SLACK_FRAC 1e-6

static void check_crops(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->crops_count; i++) {
        const Crop *crop = &c->farm->crops[i];
        if (*crop->book && !book_crop(c->book, crop->book)) {
            check_tell(c, TABLE_crops, crop, "book",
                       "book: a crop of the book%s",
                       check_near(c, "crops", crop->book));
        }
    }
}

static void check_way(const Checker *c, const Way *way)
{
    const BookWay *book = book_way(c->book, way->book);
    if (!book) {
        if (*way->book) {
            check_tell(c, TABLE_ways, way, "book", "book: a way of the book%s",
                       check_near(c, "ways", way->book));
        }
        return;
    }
    if (way->crop >= 0) {
        const char *crop = c->farm->crops[way->crop].book;
        const BookCrop *theirs = book_crop(c->book, crop);
        if (theirs && theirs != book_crop_of(c->book, book)) {
            check_tell(c, TABLE_ways, way, "book",
                       "book: a way of %s; %s is one of %s", crop, way->book,
                       book->crop);
        }
    }
    if (book->start == START_SOWN && way->tray >= 0) {
        check_tell(c, TABLE_ways, way, "tray",
                   "tray: blank; the book sows %s in place", way->book);
    }
}

/* Own figures must fit the book; each is tried on a copy of it. */
static void check_figures(const Checker *c)
{
    if (c->farm->figures_count == 0) {
        return;
    }
    Book copy = {0};
    book_copy(c->arena, c->book, &copy);
    IdIndex told;
    id_index_init(&told, c->arena, c->farm->figures_count);
    for (int32_t i = 0; i < c->farm->figures_count; i++) {
        const OwnFigure *own = &c->farm->figures[i];
        if (isnan(own->value) || isnan(own->low) || isnan(own->high) ||
            !*own->about || !*own->figure) {
            continue;
        }
        const char *key =
            arena_text(c->arena, "%s %s", own->about, own->figure);
        int32_t earlier = id_index_put(&told, i, key);
        if (earlier >= 0) {
            check_tell(c, TABLE_figures, own, "figure",
                       "each figure once; line %d has it already",
                       (int)c->farm->figures[earlier].line);
        }
        Figure figure = {own->value, own->low, own->high, FIGURE_YOURS, ""};
        Err err = fish_figures_is_fish(own->about)
                      ? fish_figures_check(own)
                      : book_replace(&copy, own->about, own->figure, figure);
        if (err.kind != ERR_OK) {
            check_tell(c, TABLE_figures, own, "figure",
                       "a figure that fits the book: %s", err.text);
        }
    }
}

static void check_counted(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->counted_count; i++) {
        const Counted *row = &c->farm->counted[i];
        for (int32_t j = 0; j < i && row->way >= 0; j++) {
            if (c->farm->counted[j].way == row->way) {
                check_tell(c, TABLE_counted, row, "way",
                           "each way once; line %d has it already",
                           (int)c->farm->counted[j].line);
                break;
            }
        }
    }
}

/* ---- What stands in the beds today ----------------------------------------
 */

/* Whether the row is of seedlings; their days are check_seedlings' matter. */
static bool is_in_trays(const Plant *plant)
{
    return plant->counted_on != DATE_WRONG && seedlings_are(plant);
}

static void check_standing_dates(const Checker *c, const Plant *plant)
{
    int32_t first = check_first_day(c);
    if (check_is_before(first, plant->set_on)) {
        check_tell(c, TABLE_plants, plant, "set_on",
                   "set_on: no later than the farm's records_from; what stands "
                   "today was set before");
    }
    if (check_is_before(first, plant->counted_on) ||
        check_is_before(plant->counted_on, plant->set_on)) {
        check_tell(c, TABLE_plants, plant, "counted_on",
                   "counted_on: from set_on to the farm's records_from");
    }
    if (check_is_before(plant->set_on, plant->sown_on)) {
        check_tell(c, TABLE_plants, plant, "sown_on",
                   "sown_on: no later than set_on");
    }
    if (plant->bed == REF_BLANK) {
        check_tell(c, TABLE_plants, plant, "bed", "bed: where it stands");
    }
}

static void check_plant_dates(const Checker *c, const Plant *plant)
{
    int32_t first = check_first_day(c);
    if (!is_in_trays(plant)) {
        check_standing_dates(c, plant);
    }
    if (plant->bed < 0) {
        return;
    }
    const Bed *bed = &c->farm->beds[plant->bed];
    if (check_is_before(first, bed->from) ||
        check_is_before(bed->until, first)) {
        check_tell(c, TABLE_plants, plant, "bed",
                   "bed: one in use on the first day; see its from and until");
    }
}

static void check_plant_place(const Checker *c, const Plant *plant)
{
    if (plant->bed == REF_BLANK) {
        return; /* told, or for the plan to choose */
    }
    if (plant->place == PLACE_FLOOR && plant->sections == 0) {
        check_tell(c, TABLE_plants, plant, "sections",
                   "sections: 1 or more on the floor");
    }
    if (plant->place == PLACE_EDGE && plant->plants == 0) {
        check_tell(c, TABLE_plants, plant, "plants",
                   "plants: how many stand on the edge");
    }
    if (plant->place == PLACE_EDGE && plant->bed >= 0 &&
        c->farm->beds[plant->bed].edge == EDGE_NONE) {
        check_tell(c, TABLE_plants, plant, "place",
                   "place: floor; bed %s has no edge",
                   c->farm->beds[plant->bed].id);
    }
    const BookWay *book =
        plant->way >= 0 ? book_way(c->book, c->farm->ways[plant->way].book)
                        : NULL;
    if (book && (book->place == WAY_EDGE) != (plant->place == PLACE_EDGE)) {
        check_tell(c, TABLE_plants, plant, "place", "place: %s, where %s grows",
                   FARM_WORDS[WORDS_PLACES].words[book->place == WAY_EDGE],
                   c->farm->ways[plant->way].id);
    }
}

/* Metres of edge a batch takes; NAN when the book does not know its way. */
static double edge_taken_m(const Checker *c, const Plant *plant)
{
    const BookWay *book =
        plant->way >= 0 ? book_way(c->book, c->farm->ways[plant->way].book)
                        : NULL;
    return book ? plant->plants / book->plants_m.value : (double)NAN;
}

/* What batches take of each bed. */
typedef struct Taken {
    int64_t *sections;
    double *edge_m;
} Taken;

static void check_floor(const Checker *c, const Plant *plant, Taken *taken)
{
    const Bed *bed = &c->farm->beds[plant->bed];
    int64_t before = taken->sections[plant->bed];
    int64_t now = before + plant->sections;
    taken->sections[plant->bed] = now;
    if (bed->sections != COUNT_WRONG && before <= bed->sections &&
        now > bed->sections) {
        check_tell(c, TABLE_plants, plant, "sections",
                   "at most %d sections on the floor of bed %s, not %d",
                   (int)bed->sections, bed->id, (int)now);
    }
}

static void check_edge(const Checker *c, const Plant *plant, Taken *taken)
{
    const Bed *bed = &c->farm->beds[plant->bed];
    double *edge_m = &taken->edge_m[plant->bed];
    *edge_m += edge_taken_m(c, plant);
    if (*edge_m > bed->edge_m * (1.0 + TYPED_SLACK_FRAC)) {
        check_tell(c, TABLE_plants, plant, "plants",
                   "at most %.3g m taken of the edge of bed %s, not %.3g",
                   bed->edge_m, bed->id, *edge_m);
    }
}

static void check_taken(const Checker *c, const Plant *plant, Taken *taken)
{
    if (plant->place == PLACE_FLOOR) {
        check_floor(c, plant, taken);
    } else {
        check_edge(c, plant, taken);
    }
}

/* A batch is told that stands over its bed's room, given those before it.
 * Seedlings take the place of what stands there by then: in the first week both
 * must have room, later on only they. */
static void check_room(const Checker *c)
{
    int32_t beds = c->farm->beds_count;
    Taken standing = {ARENA_ARRAY(c->arena, int64_t, beds),
                      ARENA_ARRAY(c->arena, double, beds)};
    Taken coming = {ARENA_ARRAY(c->arena, int64_t, beds),
                    ARENA_ARRAY(c->arena, double, beds)};
    int32_t first = check_first_day(c);
    for (int turn = 0; turn < 2; turn++) {
        for (int32_t i = 0; i < c->farm->plants_count; i++) {
            const Plant *plant = &c->farm->plants[i];
            if (plant->bed < 0 || is_in_trays(plant) != (turn == 1)) {
                continue;
            }
            bool is_soon = turn == 1 && first != DATE_WRONG &&
                           week_of(plant->set_on) <= week_of(first);
            bool is_now = turn == 0 || is_soon;
            check_taken(c, plant, is_now ? &standing : &coming);
            coming.sections[plant->bed] += is_soon ? plant->sections : 0;
        }
    }
}

static void check_nursery(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->ways_count; i++) {
        if (c->farm->ways[i].tray >= 0 && c->farm->nursery_count == 0) {
            check_tell(c, TABLE_nursery, NULL, NULL,
                       "a nursery bench; way %s is raised in trays",
                       c->farm->ways[i].id);
            return;
        }
    }
}

void check_plants(const Checker *c)
{
    check_crops(c);
    for (int32_t i = 0; i < c->farm->ways_count; i++) {
        check_way(c, &c->farm->ways[i]);
    }
    check_figures(c);
    check_counted(c);
    check_nursery(c);
    for (int32_t i = 0; i < c->farm->plants_count; i++) {
        check_plant_dates(c, &c->farm->plants[i]);
        check_plant_place(c, &c->farm->plants[i]);
    }
    check_room(c);
    check_seedlings(c);
}
