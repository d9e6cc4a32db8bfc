/* The book's crops against calendars, trials and yields that were not used to
 * fit them. Each row names its source; SEEN rows were read in the source or a
 * quotation of it, MEMORY rows were not looked up again.
 *
 * Climates are monthly normals of the places, from memory, to about a degree:
 * what is checked is that the book's thermal sums give the published days in
 * that place and season, within the published range and 15 % of it. */
#include "check.h"

#include "base/date.h"
#include "bed_climate.h"

/* San Jose, California, USDA zone 9b. Normals from memory. */
static const Normals SAN_JOSE = {
    37.3,
    {15.0, 16.9, 19.2, 21.4, 24.1, 27.1, 28.4, 28.3, 27.9, 24.4, 18.8, 15.0},
    {5.9, 7.2, 8.3, 9.4, 11.6, 13.6, 14.9, 14.9, 14.2, 11.7, 8.3, 5.8},
    {8.6, 11.9, 16.7, 21.6, 25.4, 27.8, 27.7, 24.7, 20.0, 14.4, 9.9, 7.8}};
/* South Florida. Normals from memory. */
static const Normals MIAMI = {
    25.8,
    {24.6, 25.7, 27.0, 28.8, 30.6, 31.9, 32.7, 32.8, 31.9, 30.1, 27.3, 25.5},
    {15.7, 16.8, 18.3, 20.6, 22.9, 24.5, 25.2, 25.3, 24.8, 23.0, 19.9, 17.3},
    {13.5, 16.0, 19.5, 22.0, 22.5, 21.0, 21.5, 20.5, 18.5, 16.5, 14.0, 12.5}};
/* Southern England. Normals from memory. */
static const Normals LONDON = {
    51.5,
    {8.4, 9.0, 11.7, 15.0, 18.4, 21.6, 23.9, 23.4, 20.2, 15.8, 11.5, 8.8},
    {2.7, 2.7, 4.0, 5.8, 8.7, 11.7, 13.9, 13.7, 11.4, 8.6, 5.3, 3.1},
    {2.5, 4.7, 8.6, 13.8, 17.5, 19.0, 18.3, 15.4, 11.0, 6.3, 3.2, 2.0}};
/* Southern Michigan. Normals from memory. */
static const Normals MICHIGAN = {
    42.3,
    {-0.6, 1.2, 7.2, 14.4, 20.9, 26.1, 28.4, 27.2, 23.2, 16.1, 8.7, 2.4},
    {-8.2, -7.6, -3.2, 2.5, 8.6, 13.9, 16.2, 15.5, 11.3, 5.4, 0.2, -4.8},
    {5.8, 8.8, 12.9, 16.9, 20.4, 22.3, 21.9, 18.9, 14.6, 9.7, 5.9, 4.7}};
/* A glasshouse bench at 18 degC all the year, in good light. */
static const Normals BENCH = {40.0,
                              {21, 21, 21, 21, 21, 21, 21, 21, 21, 21, 21, 21},
                              {15, 15, 15, 15, 15, 15, 15, 15, 15, 15, 15, 15},
                              {14, 14, 14, 14, 14, 14, 14, 14, 14, 14, 14, 14}};
/* A tropical lowland at 24.5 degC. */
static const Normals LOWLAND = {
    20.0,
    {28.5, 28.5, 28.5, 28.5, 28.5, 28.5, 28.5, 28.5, 28.5, 28.5, 28.5, 28.5},
    {20.5, 20.5, 20.5, 20.5, 20.5, 20.5, 20.5, 20.5, 20.5, 20.5, 20.5, 20.5},
    {18, 18, 18, 18, 18, 18, 18, 18, 18, 18, 18, 18}};

typedef enum From { FROM_SOWING, FROM_SETTING, FROM_SHOOTS } From;

typedef struct Row {
    const char *way;
    const Normals *place;
    int month; /* set out, or sown in place */
    int day;
    From from;
    double least_d;
    double most_d;
    const char *source;
} Row;

/* The zone 9b schedule counts from seed, or from transplants where it says so;
 * the days here are taken within its planting dates. */
static const Row ROWS[] = {
    {"rocket-cut", &SAN_JOSE, 9, 20, FROM_SOWING, 21, 28,
     "[PURDUEBABY] baby leaf 3-4 weeks in an autumn tunnel; SEEN"},
    {"chard-baby", &SAN_JOSE, 9, 1, FROM_SOWING, 21, 28,
     "[PURDUEBABY] baby leaf 3-4 weeks in an autumn tunnel; SEEN"},
    {"broccoli-wide", &SAN_JOSE, 11, 1, FROM_SOWING, 120, 130,
     "[GARDENORACLE] broccoli 120-130, set 15 Sep to 15 Jan; SEEN"},
    {"broccoli-close", &SAN_JOSE, 11, 1, FROM_SOWING, 120, 130,
     "[GARDENORACLE] as broccoli; SEEN"},
    {"cauliflower-head", &SAN_JOSE, 10, 1, FROM_SOWING, 120, 130,
     "[GARDENORACLE] cauliflower 120-130, sown 16 Aug to 15 Jan; SEEN"},
    {"cauliflower-head", &MIAMI, 11, 15, FROM_SETTING, 55, 70,
     "[SEFLORIDA] cauliflower 55-70 from transplants, Oct to Jan; SEEN"},
    {"chard-bunch", &SAN_JOSE, 10, 15, FROM_SOWING, 60, 90,
     "[GARDENORACLE] chard 60-90, sown 16 Aug to 30 Jan; SEEN"},
    {"chard-bunch", &MIAMI, 12, 1, FROM_SOWING, 50, 60,
     "[SEFLORIDA] chard 50-60 from seed, Sep to Apr; SEEN"},
    {"chard-bunch", &BENCH, 4, 1, FROM_SETTING, 35, 45,
     "[CHARDSA] 35-45 days from transplanting to the first leaves; SEEN"},
    {"lettuce-leaf", &SAN_JOSE, 10, 15, FROM_SOWING, 50, 90,
     "[GARDENORACLE] leaf lettuce 50-90, sown 16 Aug to 15 Feb; SEEN"},
    {"lettuce-head", &SAN_JOSE, 11, 15, FROM_SOWING, 50, 100,
     "[GARDENORACLE] head lettuce 50-100; SEEN"},
    {"spinach-leaf", &SAN_JOSE, 11, 1, FROM_SOWING, 40, 90,
     "[GARDENORACLE] spinach 40-90, sown 1 Sep to 28 Feb; SEEN"},
    {"cucumber-edge", &SAN_JOSE, 5, 10, FROM_SOWING, 60, 90,
     "[GARDENORACLE] cucumber 60-90, sown 15 Feb to 30 Apr; SEEN"},
    {"courgette-fruit", &SAN_JOSE, 5, 1, FROM_SOWING, 60, 90,
     "[GARDENORACLE] summer squash 60-90, sown 1 Mar to 30 Apr; SEEN"},
    {"tomato-edge", &SAN_JOSE, 3, 15, FROM_SETTING, 50, 120,
     "[GARDENORACLE] tomato 50-120 from transplants, from 15 Feb; SEEN"},
    {"aubergine-fruit", &SAN_JOSE, 3, 30, FROM_SETTING, 70, 120,
     "[GARDENORACLE] eggplant 70-120 from transplants, March; SEEN"},
    {"sweet-pepper-red", &SAN_JOSE, 3, 30, FROM_SETTING, 90, 120,
     "[GARDENORACLE] pepper 90-120 from transplants, to 30 Mar; SEEN"},
    {"celery-head", &MIAMI, 11, 15, FROM_SETTING, 80, 105,
     "[SEFLORIDA] celery 80-105 from transplants, Oct to Jan; SEEN"},
    {"paprika-red", &BENCH, 4, 1, FROM_SHOOTS, 90, 150,
     "[PAPRIKACLASSES] 90, 120, 150 from shoots: early to late sorts; SEEN"},
    {"parsley-bunch", &BENCH, 4, 1, FROM_SOWING, 70, 80,
     "[KNOTT] days to maturity from seed, parsley 70-80; MEMORY"},
    {"viola-flower", &BENCH, 4, 1, FROM_SOWING, 70, 112,
     "[PANSYWEEKS] sowing to first flower 10-16 weeks; SEEN"},
    {"nasturtium-flower", &MICHIGAN, 5, 20, FROM_SOWING, 60, 60,
     "[NATURENURTURE] 60 days, three weeks of them in flats; SEEN"},
    {"borage-flower", &LONDON, 5, 15, FROM_SOWING, 56, 70,
     "[BORAGELEAF] from 8 weeks to the first flowers; SEEN"},
    {"tagetes-flower", &BENCH, 4, 1, FROM_SOWING, 56, 70,
     "[BALL] French marigold 8-10 weeks from sowing at 18-21 degC; MEMORY"},
    {"calendula-flower", &BENCH, 4, 1, FROM_SOWING, 50, 60,
     "[JSSCALENDULA] 50-60 days from sowing; MEMORY"},
    {"papaya-fruit", &LOWLAND, 4, 1, FROM_SETTING, 270, 365,
     "[NAKASONE1998] 9-12 months from planting to first fruit; MEMORY"},
};

typedef struct Scene {
    Arena arena;
    Book book;
} Scene;

static int set_up(void **state)
{
    static Scene scene;
    scene = (Scene){0};
    assert_ok(book_load(&scene.arena, &scene.book));
    *state = &scene;
    return 0;
}

static int tear_down(void **state)
{
    Scene *scene = *state;
    arena_release(&scene->arena);
    return 0;
}

static PlantBatch grow(Scene *scene, const Row *row)
{
    BedClimate climate;
    bed_climate_init(row->place, &OPEN_AIR, &climate);
    PlantRule rule;
    PlantYear year;
    PlantBatch batch;
    assert_ok(plant_rule_make(&scene->book, row->way, &rule));
    plant_year_init(&scene->arena, &rule, &climate.year, &year);
    int32_t day = date_from_civil((CivilDate){2027, row->month, row->day});
    plant_year_batch(&year, day, 1, &scene->arena, &batch);
    return batch;
}

static void first_picks_fall_within_published_calendars(void **state)
{
    Scene *scene = *state;
    int faults = 0;
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        const Row *row = &ROWS[i];
        PlantBatch batch = grow(scene, row);
        int32_t start = row->from == FROM_SOWING    ? batch.sow_day
                        : row->from == FROM_SETTING ? batch.set_day
                                                    : batch.emerge_day;
        double days = batch.pick_day - start;
        bool is_in = !batch.is_refused && days >= 0.85 * row->least_d &&
                     days <= 1.15 * row->most_d;
        if (!is_in) {
            faults++;
            print_error("%s: %g days%s, expected %g to %g: %s\n", row->way,
                        days, batch.is_refused ? " (refused)" : "",
                        row->least_d, row->most_d, row->source);
        }
    }
    assert_int_equal(faults, 0);
}

/* Every way has its row, or a test of its own below. */
static void every_way_of_the_book_is_checked(void **state)
{
    Scene *scene = *state;
    static const char *const ELSEWHERE[] = {"basil-bunch", "coriander-bunch",
                                            "thyme-bunch"};
    for (int32_t i = 0; i < scene->book.ways_count; i++) {
        const char *way = scene->book.ways[i].id;
        bool is_found = false;
        for (size_t k = 0; k < sizeof ROWS / sizeof *ROWS; k++) {
            is_found = is_found || strcmp(ROWS[k].way, way) == 0;
        }
        for (size_t k = 0; k < 3; k++) {
            is_found = is_found || strcmp(ELSEWHERE[k], way) == 0;
        }
        if (!is_found) {
            print_error("%s is checked nowhere\n", way);
        }
        assert_true(is_found);
    }
}

/* Fresh weight in equal time at two steady temperatures in 30 mol/m2/d: what
 * our growth says of the ratio. To which temperature they rise went into the
 * book; how far they rise did not.
 * Source: [MORTENSEN2014] basil +106 %, rocket +62 % from 18 to 27 degC,
 * coriander +41 %, thyme +58 % from 18 to 24 degC; SEEN (abstract). */
static void herbs_grow_faster_in_warmth_as_measured(void **state)
{
    Scene *scene = *state;
    static const struct {
        const char *crop;
        double warm_degc;
        double ratio;
    } TRIAL[] = {{"basil", 27.0, 2.06},
                 {"rocket", 27.0, 1.62},
                 {"coriander", 24.0, 1.41},
                 {"thyme", 24.0, 1.58}};
    for (size_t i = 0; i < sizeof TRIAL / sizeof *TRIAL; i++) {
        const BookCrop *crop = book_crop(&scene->book, TRIAL[i].crop);
        ThermalRule rule = book_thermal(crop);
        double ratio = thermal_rate_degc_d(&rule, TRIAL[i].warm_degc) /
                       thermal_rate_degc_d(&rule, 18.0);
        assert_near(ratio / TRIAL[i].ratio, 1.0, 0.12);
    }
}

/* "Doubled and tripled" for lettuce under cover from September to February.
 * Source: [COLEMAN1995] page 47; SEEN (quotation). */
static void lettuce_takes_two_to_three_times_as_long_in_winter(void **state)
{
    Scene *scene = *state;
    BedClimate cool;
    bed_climate_init(&VALLEY, &COOL_SIDE, &cool);
    PlantRule rule;
    PlantYear year;
    assert_ok(plant_rule_make(&scene->book, "lettuce-head", &rule));
    plant_year_init(&scene->arena, &rule, &cool.year, &year);
    int32_t least = INT32_MAX, most = 0;
    for (int month = 1; month <= 12; month++) {
        PlantBatch batch;
        int32_t day = date_from_civil((CivilDate){2027, month, 20});
        plant_year_batch(&year, day, 1, &scene->arena, &batch);
        int32_t days = batch.pick_day - batch.set_day;
        least = days < least ? days : least;
        most = days > most ? days : most;
    }
    assert_true(most >= 2 * least && most <= 3 * least);
}

/* Terminal heads and side shoots of three cultivars: 12, 23 and 16 t/ha at
 * 2.8, 8.3 and 16.7 plants/m2. The law knows heads alone and no falling yield;
 * it meets the middle and is within 1.6 times at the ends.
 * Source: [CHUNG1985]; SEEN (abstract). */
static void the_head_law_meets_a_second_density_trial(void **state)
{
    Scene *scene = *state;
    const BookWay *way = book_way(&scene->book, "broccoli-wide");
    HeadLaw law = {way->head_a_per_kg.value, way->head_b_m2_per_kg.value};
    assert_near(8.3 * density_head_kg(&law, 8.3), 2.3, 0.1);
    double thin = 2.8 * density_head_kg(&law, 2.8) / 1.2;
    double dense = 16.7 * density_head_kg(&law, 16.7) / 1.6;
    assert_true(thin > 1.0 / 1.6 && thin < 1.6);
    assert_true(dense > 1.0 / 1.6 && dense < 1.6);
}

/* Kilos a plant of a whole season in the demo's valley under film. */
static double kilos(Scene *scene, const char *way, CivilDate set, int weeks)
{
    BedClimate tunnel;
    bed_climate_init(&VALLEY, &TUNNEL, &tunnel);
    PlantRule rule;
    PlantYear year;
    PlantBatch batch;
    assert_ok(plant_rule_make(&scene->book, way, &rule));
    plant_year_init(&scene->arena, &rule, &tunnel.year, &year);
    plant_year_batch(&year, date_from_civil(set), 1, &scene->arena, &batch);
    assert_false(batch.is_refused);
    double units = 0.0;
    int32_t first = (batch.pick_day - batch.first_week) / 7;
    for (int32_t i = first; i < first + weeks && i < batch.week_count; i++) {
        units += batch.units[i];
    }
    return units * rule.unit_g / 1000.0;
}

/* Yields of unheated tunnels, a plant. Sources, all SEEN as abstracts:
 * [REID2012] cucumber over 10 lb (4.5 kg) in ten weeks, no figure above 15 lb
 * is told; [NDSU] bell pepper 1.24 kg in a short northern season;
 * [OCONNELL2012] tomato 10 kg/m2, here at 2.5 plants/m2 (their spacing was not
 * seen); [ABAK1995] tomato 11-19 kg/m2 at 5 degC least. */
static void tunnel_yields_are_of_the_published_size(void **state)
{
    Scene *scene = *state;
    double cucumber =
        kilos(scene, "cucumber-edge", (CivilDate){2027, 5, 10}, 10);
    assert_true(cucumber > 4.5 && cucumber < 6.8);
    double pepper =
        kilos(scene, "sweet-pepper-red", (CivilDate){2027, 5, 10}, 40);
    assert_near(pepper / 1.24, 1.0, 0.35);
    double tomato = kilos(scene, "tomato-edge", (CivilDate){2027, 4, 5}, 40);
    assert_true(tomato * 2.5 > 8.0 && tomato * 2.5 < 19.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_picks_fall_within_published_calendars),
        cmocka_unit_test(every_way_of_the_book_is_checked),
        cmocka_unit_test(herbs_grow_faster_in_warmth_as_measured),
        cmocka_unit_test(lettuce_takes_two_to_three_times_as_long_in_winter),
        cmocka_unit_test(the_head_law_meets_a_second_density_trial),
        cmocka_unit_test(tunnel_yields_are_of_the_published_size),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
