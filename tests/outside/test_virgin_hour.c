/* The Virgin Islands raft system through a year by the coupled hour.
 *
 * Published [RAKOCY2004]: four tanks of 7.8 m3, one harvested and stocked every
 * six weeks after 24 weeks; 77 Nile tilapia a m3, 813.8 g at harvest, 98.3 %
 * alive, 61.5 kg/m3, conversion 1.7, 4.16 t a year; 214 m2 of rafts, 110 m3 in
 * all, 100 L/min through each tank; feed of 32 % protein, 60-100 g a m2 and day
 * [RAKOCY2007]. The weight at stocking, 79.2 g, is from memory; 28 degC and the
 * climate of a trade-wind island are assumed.
 *
 * Fitted: one number, appetite, to the weight at harvest alone. Rafts stand
 * always in water, which counts here with the sump's; their film is that of
 * beds of gravel of the same area. No plants: they do not move the fish. */
#include "../sim/hour_farms.h"
#include "sim/plant_rule.h"

enum { TANKS = 4, EVERY_WEEKS = 6, GROW_WEEKS = 24, BATCHES = 13, LANES = 4 };
enum { SETTLED_WEEKS = GROW_WEEKS, RUN_WEEKS = SETTLED_WEEKS + 52 };
static const double TANK_M3 = 7.8, RAFT_M2 = 214.0, STOCKED = 601.0;

#define ISLAND_CLIMATE                                                         \
    "month,tmax_degc,tmin_degc,sun_mj_m2_d,rh_pct,wind_m_s\n"                  \
    "1,28.6,22.1,15.2,76,4\n2,28.6,22.0,17.4,75,4\n"                           \
    "3,28.9,22.3,19.8,74,4\n4,29.5,23.1,21.0,75,4\n"                           \
    "5,30.2,24.3,20.8,77,4\n6,30.9,25.2,21.4,77,4\n"                           \
    "7,31.2,25.4,21.5,77,4\n8,31.4,25.3,20.9,77,4\n"                           \
    "9,31.3,25.0,19.2,78,4\n10,30.9,24.5,17.2,78,4\n"                          \
    "11,30.0,23.8,15.2,78,4\n12,29.1,22.9,14.3,77,4\n"

typedef struct Island {
    double mean_g, alive_frac, kg_m3, t_year, conversion, feed_kg_d;
    double oxygen_least, tan_most, nh3_most;
    double residual;
} Island;

static int32_t week_day(int week)
{
    return date_from_civil((CivilDate){2027, 3, 1}) + 7 * week;
}

/* Batch b is stocked in week 6 b into tank b modulo 4 and sold 24 weeks on. */
static void plan_of(Arena *arena, HourTables *t)
{
    char from[DATE_TEXT_SIZE], until[DATE_TEXT_SIZE];
    t->plan_fish = t->plan_moves = "";
    for (int b = 0; b < BATCHES; b++) {
        date_format(week_day(EVERY_WEEKS * b), from);
        date_format(week_day(EVERY_WEEKS * b + GROW_WEEKS), until);
        for (int lane = 1; lane <= LANES; lane++) {
            int count = (int)STOCKED / LANES + (lane == 1);
            t->plan_fish =
                arena_text(arena, "%sb%d-%d,b%d,,hatchery,%d,%d,79\n",
                           t->plan_fish, b, lane, b, lane, count);
            t->plan_moves = arena_text(
                arena,
                "%ss%d-%d,b%d-%d,stock,%s,%d,%d,%d,79,,T%d,\n"
                "h%d-%d,b%d-%d,sale,%s,%d,%d,%d,800,T%d,,\n",
                t->plan_moves, b, lane, b, lane, from, LANES * b + lane, count,
                count, b % TANKS, b, lane, b, lane, until, LANES * b + lane,
                count, count, b % TANKS);
        }
    }
}

static HourTables tables_of(Arena *arena, double appetite)
{
    HourTables t = hour_tables_usual();
    t.latitude_deg = "17.7";
    t.climate = ISLAND_CLIMATE;
    t.loops = "L,78,well\n";
    t.tanks = "T0,L,grow,7.8,1,yes,thick,\nT1,L,grow,7.8,1,yes,thick,\n"
              "T2,L,grow,7.8,1,yes,thick,\nT3,L,grow,7.8,1,yes,thick,\n";
    t.pumps = "P,L,48,370,0.5\n";
    t.zones = "Z1,L,P,1,60,24\n";
    t.tunnels = "";
    t.beds = "";
    for (int b = 0; b < 6; b++) {
        t.beds = arena_text(
            arena, "%sr%d,,middle,%d,29.72,1.2,0.3,0.25,gravel-8-20,Z1,0.2\n",
            t.beds, b, b);
    }
    t.aerators = "air,,L,1100,1.2\n";
    t.heaters = "warm,L,,,40,28,all\n";
    t.fish = "";
    t.plants = "";
    t.readings = ",L,2027-02-27T08:00+00:00,temp_degc,28\n"
                 ",L,2027-02-27T08:00+00:00,alkalinity_mg_l,90\n";
    t.sources = "well,27,7.4,120,40,10,20,0\n";
    t.fish_sources = "hatchery,nile-tilapia,bought,79.2,0.2,males,0.5,1,5000\n";
    t.figures = arena_text(arena,
                           "nile-tilapia,appetite,%.9f,0.5,2\n"
                           "water,dose_ph,7,6.9,7.1\n",
                           appetite);
    t.plan = "main,2027-03-01,104,2027-03-01,1,1000,x\n";
    plan_of(arena, &t);
    return t;
}

/* With the farm's own figures in the book. */
static void run_hours(Arena *arena, const HourTables *tables, HourRun *out)
{
    Book *printed = ARENA_NEW(arena, Book);
    Book *book = ARENA_NEW(arena, Book);
    ClimateYear *year = ARENA_NEW(arena, ClimateYear);
    out->farm = hour_farm_of(arena, tables);
    assert_ok(book_load(arena, printed));
    assert_ok(plant_book_of_farm(arena, printed, out->farm, book));
    assert_ok(climate_year_run(out->farm, book, arena, year));
    HourAsk ask = {out->farm, book, year, week_day(0), hour_usual_care()};
    assert_ok(hour_farm_make(&ask, arena, &out->hours));
    assert_ok(hour_state_make(out->hours, arena, &out->state));
    enum { DAYS = 7 * RUN_WEEKS };
    out->weather = ARENA_ARRAY(arena, HourWeather, DAYS * 24);
    hour_typical_weather(out->hours, 0, DAYS * 24, out->weather);
    hour_days_make(out->hours, DAYS, arena, &out->days);
    hour_run(out->hours, out->state, out->weather, &out->days);
}

static Island run_island(double appetite)
{
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = tables_of(&arena, appetite);
    HourRun run;
    run_hours(&arena, &tables, &run);
    Island told = {.oxygen_least = INFINITY,
                   .residual = run.days.worst_residual_frac};
    double sold = 0.0, sold_kg = 0.0, stocked_kg = 0.0;
    int harvests = 0;
    for (int day = 7 * SETTLED_WEEKS; day < 7 * RUN_WEEKS; day++) {
        for (int k = 0; k < TANKS; k++) {
            const HourTankDay *t = &run.days.tanks[day * TANKS + k];
            told.feed_kg_d += t->feed_kg / (7.0 * 52);
            told.oxygen_least = fmin(told.oxygen_least, t->oxygen_least_g_m3);
            told.nh3_most = fmax(told.nh3_most, t->nh3_most_g_m3);
            sold += t->sold_count;
            harvests += t->sold_count > 0.0;
            stocked_kg += t->stocked_count * 0.0792;
            /* A harvest is on a Monday morning: weighed the evening before. */
            const HourTankDay *before = &run.days.tanks[(day - 1) * TANKS + k];
            sold_kg += t->sold_count > 0.0
                           ? before->kg * t->sold_count / before->count
                           : 0.0;
        }
        told.tan_most = fmax(told.tan_most, run.days.loops[day].tan_most_g_m3);
    }
    told.mean_g = 1000.0 * sold_kg / sold;
    told.alive_frac = sold / (STOCKED * harvests);
    told.kg_m3 = sold_kg / harvests / TANK_M3;
    told.t_year = told.kg_m3 * TANK_M3 / 1000.0 * 52.0 / EVERY_WEEKS;
    told.conversion = told.feed_kg_d * 7.0 * 52 / (sold_kg - stocked_kg);
    return told;
}

static void with_one_appetite_fitted_the_year_follows(void **state)
{
    (void)state;
    double low = 0.5, high = 2.0;
    Island island = {0};
    for (int i = 0; i < 16; i++) {
        double appetite = (low + high) / 2.0;
        island = run_island(appetite);
        *(island.mean_g < 813.8 ? &low : &high) = appetite;
    }
    print_message("appetite %.3f: %.1f g, alive %.3f, %.1f kg/m3, %.2f t a "
                  "year, conversion %.2f, feed %.2f kg/d; least oxygen %.1f, "
                  "most TAN %.2f, most NH3-N %.3f mg/L\n",
                  low, island.mean_g, island.alive_frac, island.kg_m3,
                  island.t_year, island.conversion, island.feed_kg_d,
                  island.oxygen_least, island.tan_most, island.nh3_most);
    assert_near(island.mean_g, 813.8, 2.0);
    assert_true(low > 0.6 && low < 1.6);
    /* The bands: mass and density 5 %, feed 10 %, feed by area 60-100. */
    assert_near(island.kg_m3, 61.5, 0.05 * 61.5);
    assert_near(island.t_year, 4.16, 0.05 * 4.16);
    assert_near(island.alive_frac, 0.983, 0.01);
    assert_near(island.feed_kg_d, 17.5, 0.10 * 17.5);
    assert_near(island.conversion, 1.7, 0.17);
    double per_m2 = 1000.0 * island.feed_kg_d / RAFT_M2;
    assert_true(per_m2 > 60.0 && per_m2 < 100.0);
    /* It ran for years without loss: no fish in danger. */
    assert_true(island.oxygen_least > 3.0);
    assert_true(island.residual < 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(with_one_appetite_fitted_the_year_follows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
