/* The Virgin Islands raft system, reproduced.
 *
 * Published [RAKOCY2004]: four tanks of 7.8 m3, one harvested every six weeks
 * after 24 weeks. Nile: 77 fish/m3, 813.8 g at harvest, 98.3 % alive, 61.5
 * kg/m3, conversion 1.7, 4.16 t a year. Red: 154/m3, 512.5 g, 89.9 %, 70.7
 * kg/m3, 1.8, 4.78 t. 214 m2 of rafts; 60-100 g of feed per m2 and day
 * [RAKOCY2007]. Feed of 32 % protein. Weights at the start, 79.2 and 58.8 g,
 * are from memory; 28 degC is assumed.
 *
 * Fitted: one number, appetite, to the Nile's weight at harvest alone; and for
 * the red run one more, its appetite, to its weight. The red's reported
 * survival goes in as it is; everything else is predicted. */
#include "check.h"

#include "base/date.h"
#include "nature/water/nitrogen.h"
#include "sim/fish_year.h"

static const double TANK_M3 = 7.8;
static const double RAFT_M2 = 214.0;
static const double BETWEEN_D = 42.0;
enum { GROW_WEEKS = 24 };

typedef struct Run {
    double per_m3;
    double start_g;
    double harvest_g;  /* reported: what appetite is fitted to */
    double alive_frac; /* reported; 0: by the book */
    double appetite;   /* fitted */
    double feed_kg_d;  /* of the farm, four tanks in turn */
    double mean_g;
    double alive_out_frac;
    double kg_m3;
    double t_year;
    double conversion;
} Run;

static FishYearCase case_of(const Run *run, const double *water)
{
    const FishSpecies *species = NULL;
    assert_ok(fish_species_find("nile-tilapia", &species));
    int32_t day = date_from_civil((CivilDate){2003, 1, 6});
    return (FishYearCase){
        .species = species,
        .draw = {(int)lround(run->per_m3 * TANK_M3), run->start_g, 0.20,
                 FISH_SEX_MALES},
        .from_day = day,
        .first_week = day,
        .weeks = GROW_WEEKS,
        .water_degc = water,
        .appetite = run->appetite,
        .ration_frac = 1.0,
        .death_scale = 1.0,
        .protein_frac = 0.32,
    };
}

/* Deaths of the book scaled so that the reported share is alive. */
static double death_scale(const Run *run, const FishYearCase *fish)
{
    CLEANUP(arena_release) Arena arena = {0};
    FishYear year;
    assert_ok(fish_year_run(&arena, fish, &year));
    double book = fish_year_count(&year, GROW_WEEKS) / year.start_count;
    return log(run->alive_frac) / log(book);
}

static void grow(Run *run)
{
    CLEANUP(arena_release) Arena arena = {0};
    double water[FISH_YEAR_DAYS];
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        water[d] = 28.0;
    }
    FishYearCase fish = case_of(run, water);
    if (run->alive_frac > 0.0) {
        fish.death_scale = death_scale(run, &fish);
    }
    FishYear year;
    assert_ok(fish_year_run(&arena, &fish, &year));
    double harvest_kg = fish_year_kg(&year, GROW_WEEKS);
    run->mean_g = fish_year_mean_g(&year, GROW_WEEKS);
    run->alive_out_frac = fish_year_count(&year, GROW_WEEKS) / year.start_count;
    run->kg_m3 = harvest_kg / TANK_M3;
    run->t_year = harvest_kg / 1000.0 * 52.0 / 6.0;
    run->conversion = year.feed_kg / (harvest_kg - year.start_kg);
    run->feed_kg_d = year.feed_kg / BETWEEN_D;
}

static void fit_appetite(Run *run)
{
    double low = 0.3;
    double high = 3.0;
    for (int i = 0; i < 40; i++) {
        run->appetite = (low + high) / 2.0;
        grow(run);
        if (run->mean_g < run->harvest_g) {
            low = run->appetite;
        } else {
            high = run->appetite;
        }
    }
    grow(run);
}

static void with_appetite_fitted_to_the_nile_weight_the_rest_follows(void **s)
{
    (void)s;
    Run nile = {.per_m3 = 77.0, .start_g = 79.2, .harvest_g = 813.8};
    fit_appetite(&nile);
    print_message("Nile: appetite %.3f, conversion %.2f, feed %.2f kg/d, %.1f "
                  "kg/m3, alive %.3f\n",
                  nile.appetite, nile.conversion, nile.feed_kg_d, nile.kg_m3,
                  nile.alive_out_frac);
    assert_near(nile.mean_g, 813.8, 0.1);
    assert_true(nile.appetite > 0.7 && nile.appetite < 1.5);
    assert_true(nile.conversion > 1.5 && nile.conversion < 1.9);
    assert_near(nile.feed_kg_d, 17.5, 0.10 * 17.5);
    assert_near(nile.alive_out_frac, 0.983, 0.01);
    assert_near(nile.kg_m3, 61.5, 0.05 * 61.5);
    assert_near(nile.t_year, 4.16, 0.05 * 4.16);
    double per_m2 = 1000.0 * nile.feed_kg_d / RAFT_M2;
    assert_true(per_m2 > 60.0 && per_m2 < 100.0);
    /* 514 g TAN a day: worked from 17.46 kg of feed, not published. */
    double tan_g = 1000.0 * nile.feed_kg_d * water_feed_tan_kg_kg(0.32).value;
    assert_near(tan_g, 514.0, 0.10 * 514.0);
}

static void with_one_more_appetite_fitted_the_red_run_follows(void **s)
{
    (void)s;
    Run red = {.per_m3 = 154.0,
               .start_g = 58.8,
               .harvest_g = 512.5,
               .alive_frac = 0.899};
    fit_appetite(&red);
    print_message("Red: appetite %.3f, conversion %.2f, feed %.2f kg/d, %.1f "
                  "kg/m3\n",
                  red.appetite, red.conversion, red.feed_kg_d, red.kg_m3);
    assert_near(red.mean_g, 512.5, 0.1);
    assert_near(red.alive_out_frac, 0.899, 0.005);
    assert_true(red.conversion > 1.5 && red.conversion < 2.0);
    assert_near(red.kg_m3, 70.7, 0.05 * 70.7);
    assert_near(red.t_year, 4.78, 0.05 * 4.78);
    assert_true(red.appetite < 1.2);
}

/* The published numbers agree with each other: counts, weights and volumes. */
static void the_published_numbers_close(void **s)
{
    (void)s;
    assert_near(77.0 * 0.983 * 0.8138, 61.5, 0.005 * 61.5);
    assert_near(154.0 * 0.899 * 0.5125, 70.7, 0.005 * 70.7);
    assert_near(TANK_M3 * 61.5 * 52.0 / 6.0 / 1000.0, 4.16, 0.005 * 4.16);
    assert_near(TANK_M3 * 70.7 * 52.0 / 6.0 / 1000.0, 4.78, 0.005 * 4.78);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_published_numbers_close),
        cmocka_unit_test(
            with_appetite_fitted_to_the_nile_weight_the_rest_follows),
        cmocka_unit_test(with_one_more_appetite_fitted_the_red_run_follows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
