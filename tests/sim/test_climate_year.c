/* The typical year: what must hold on any farm. The farm is invented. */
#include "sim/climate_year.h"

#include <stdlib.h>

#include "base/rng.h"
#include "farm/read.h"
#include "sim/climate_days.h"
#include "sim/climate_range.h"

#include "check.h"

static const char CLIMATE_NORTH[] =
    "month,tmax_degc,tmin_degc,sun_mj_m2_d,rh_pct,wind_m_s\n"
    "1,12.1,3.3,6.9,81,2.3\n2,13.9,4.1,10.1,76,2.5\n3,17.2,6.2,14.8,70,2.6\n"
    "4,19.6,8.1,19.0,67,2.8\n5,23.8,11.2,23.2,61,2.7\n"
    "6,28.3,14.6,25.7,56,2.6\n7,31.4,16.8,26.3,51,2.6\n"
    "8,31.3,16.9,23.3,52,2.5\n9,27.7,14.8,17.9,59,2.3\n"
    "10,22.1,11.6,12.1,69,2.2\n11,16.4,7.2,8.1,77,2.1\n"
    "12,12.9,4.2,6.1,82,2.2\n";

/* The same months half a year later. */
static const char CLIMATE_SOUTH[] =
    "month,tmax_degc,tmin_degc,sun_mj_m2_d,rh_pct,wind_m_s\n"
    "7,12.1,3.3,6.9,81,2.3\n8,13.9,4.1,10.1,76,2.5\n9,17.2,6.2,14.8,70,2.6\n"
    "10,19.6,8.1,19.0,67,2.8\n11,23.8,11.2,23.2,61,2.7\n"
    "12,28.3,14.6,25.7,56,2.6\n1,31.4,16.8,26.3,51,2.6\n"
    "2,31.3,16.9,23.3,52,2.5\n3,27.7,14.8,17.9,59,2.3\n"
    "4,22.1,11.6,12.1,69,2.2\n5,16.4,7.2,8.1,77,2.1\n"
    "6,12.9,4.2,6.1,82,2.2\n";

/* Near the pole: two months without sun. */
static const char CLIMATE_POLAR[] =
    "month,tmax_degc,tmin_degc,sun_mj_m2_d,rh_pct,wind_m_s\n"
    "1,-7.5,-13.2,0,75,4\n2,-7.1,-13.4,0.4,74,4\n3,-8.6,-14.8,4.1,73,4\n"
    "4,-4.3,-9.9,12.2,73,4\n5,0.5,-3.6,18.7,75,3\n6,5.3,1.4,20.3,76,3\n"
    "7,9.2,5.1,15.1,79,3\n8,8.1,4.3,9.2,80,3\n9,3.9,0.4,4.1,80,4\n"
    "10,-1.6,-6.1,0.8,78,4\n11,-4.1,-9.4,0,76,4\n12,-6.3,-11.9,0,75,4\n";

typedef struct Given {
    const char *latitude_deg;
    const char *climate;
    const char *tunnels; /* rows */
    const char *beds;    /* rows */
    const char *tanks;   /* rows */
    const char *heaters; /* rows */
    const char *zone_hours;
} Given;

static Given usual(void)
{
    return (Given){
        .latitude_deg = "39.3",
        .climate = CLIMATE_NORTH,
        .tunnels = "T,26,7.5,3.1,90,pe-single,3,36,0.35,6-8\n",
        .beds = "S1,T,south,1,9,1.3,0.3,0.25,gravel-8-20,Z,1\n"
                "M1,T,middle,2,9,1.3,0.3,0.25,gravel-8-20,Z,1\n"
                "N1,T,north,3,9,1.3,0.3,0.25,gravel-8-20,Z,0.9\n",
        .tanks = "A,L,grow,5.5,yes,thick\n",
        .heaters = "",
        .zone_hours = "24",
    };
}

static FarmBuffer buffer_of(Arena *arena, const char *file, const char *head,
                            const char *rows)
{
    const char *text = arena_text(arena, "%s%s", head, rows);
    return (FarmBuffer){file, text, strlen(text)};
}

static const Farm *farm_of(Arena *arena, const Given *given)
{
    FarmBuffer tables[9];
    tables[0] =
        buffer_of(arena, "farm.csv",
                  "id,latitude_deg,longitude_deg,altitude_m,timezone,"
                  "currency,records_from\n",
                  arena_text(arena, "f,%s,5,130,Etc/UTC,EUR,2027-03-01\n",
                             given->latitude_deg));
    tables[1] = buffer_of(arena, "climate.csv", "", given->climate);
    tables[2] = buffer_of(arena, "tunnels.csv",
                          "id,length_m,width_m,height_m,axis_deg,cover,"
                          "cover_years,vent_m2,shade_frac,shade_months\n",
                          given->tunnels);
    tables[3] =
        buffer_of(arena, "beds.csv",
                  "id,tunnel,side,walk,length_m,width_m,depth_m,flood_m,gravel,"
                  "zone,light_frac\n",
                  given->beds);
    tables[4] = buffer_of(arena, "tanks.csv",
                          "id,loop,use,volume_m3,has_lid,wall\n", given->tanks);
    tables[5] = buffer_of(arena, "heaters.csv",
                          "id,loop,tank,tunnel,power_kw,target_degc,months,"
                          "price_kwh\n",
                          given->heaters);
    tables[6] = buffer_of(arena, "loops.csv", "id,sump_m3\n", "L,3.5\n");
    tables[7] = buffer_of(arena, "pumps.csv", "id,loop,flow_m3_h,power_w\n",
                          "P,L,11,180\n");
    tables[8] =
        buffer_of(arena, "zones.csv", "id,loop,pump,turn,minutes,hours_d\n",
                  arena_text(arena, "Z,L,P,1,20,%s\n", given->zone_hours));
    Faults faults;
    faults_init(&faults, arena, 50);
    FarmRead *read = ARENA_NEW(arena, FarmRead);
    farm_read(tables, 9, &faults, read);
    for (int32_t i = 0; i < faults.kept_count; i++) {
        print_error("%s line %d: %s, %s\n", faults.items[i].place.file,
                    (int)faults.items[i].place.line, faults.items[i].value,
                    faults.items[i].expected);
    }
    assert_int_equal(faults.count, 0);
    return &read->farm;
}

static ClimateYear year_of(Arena *arena, const Given *given)
{
    Book book;
    assert_ok(book_load(arena, &book));
    ClimateYear year;
    assert_ok(climate_year_run(farm_of(arena, given), &book, arena, &year));
    return year;
}

static double mean_of(const double *days, int from, int to)
{
    double sum = 0;
    for (int day = from; day < to; day++) {
        sum += days[day];
    }
    return sum / (to - from);
}

static double least_of(const double *days)
{
    double least = days[0];
    for (int day = 1; day < CLIMATE_DAYS; day++) {
        least = fmin(least, days[day]);
    }
    return least;
}

static double sum_of(const double *days)
{
    return mean_of(days, 0, CLIMATE_YEAR_DAYS) * CLIMATE_YEAR_DAYS;
}

static void months_keep_their_means(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    ClimateYear year = year_of(&arena, &given);
    static const int starts[] = {0,   31,  59,  90,  120, 151, 181,
                                 212, 243, 273, 304, 334, 365};
    const Farm *farm = farm_of(&arena, &given);
    for (int i = 0; i < 12; i++) {
        const ClimateMonth *row = &farm->climate[i];
        assert_near(mean_of(year.outside_max_degc, starts[i], starts[i + 1]),
                    row->tmax_degc, 1e-9);
        assert_near(mean_of(year.outside_min_degc, starts[i], starts[i + 1]),
                    row->tmin_degc, 1e-9);
        assert_near(mean_of(year.outside_dli_mol, starts[i], starts[i + 1]),
                    0.45 * 4.57 * row->sun_mj_m2_d, 1e-6);
    }
}

/* From each day to the next no jump: the year is one line that closes. */
static void days_follow_each_other_smoothly(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    ClimateYear year = year_of(&arena, &given);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        int next = (day + 1) % CLIMATE_YEAR_DAYS;
        assert_near(year.outside_mean_degc[day], year.outside_mean_degc[next],
                    0.35);
        assert_near(year.loops[0].mean_degc[day], year.loops[0].mean_degc[next],
                    0.6);
    }
    assert_near(year.outside_mean_degc[365], year.outside_mean_degc[364], 0);
}

static void heat_of_the_year_closes(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.zone_hours = "9 9 24 24 24 24 24 24 24 24 24 9";
    given.heaters = "H,L,,,12,20,10-5,0.08\nT1,,A,,4,24,all,0.2\n"
                    "W,,,T,6,5,11-3,0.1\n";
    given.tanks = "A,L,grow,5.5,yes,thick\nB,L,grow,2.5,no,bare\n"
                  "Q,,quarantine,0.7,no,some\n";
    ClimateYear year = year_of(&arena, &given);
    const ClimateLedger *sum = &year.ledger;
    double through = sum->sun_kwh + sum->heater_kwh + sum->pump_kwh;
    assert_true(fabs(sum->residual_kwh) < 1e-9 * through);
    assert_true(fabs(sum->stored_kwh) < 1e-4 * through);
    assert_near(sum->pump_kwh, 0.18 * 8760, 1e-6);
    double told = sum_of(year.loops[0].heater_kwh) +
                  sum_of(year.tanks[0].heater_kwh) +
                  sum_of(year.tunnels[0].heater_kwh);
    assert_near(year.heater_kwh / told, 1, 1e-9);
    assert_true(year.heater_cost > 0.08 * year.heater_kwh);
    assert_true(year.heater_cost < 0.2 * year.heater_kwh);
    assert_null(year.tanks[1].heater_kwh);
    assert_ptr_equal(year.tanks[1].mean_degc, year.loops[0].mean_degc);
    assert_true(least_of(year.tanks[0].mean_degc) > 23.9);
}

static void a_large_heater_keeps_the_floor_and_none_does_not(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    assert_true(least_of(year_of(&arena, &given).loops[0].min_degc) < 12);
    given.heaters = "H,L,,,60,20,all,0.08\n";
    ClimateYear year = year_of(&arena, &given);
    assert_true(least_of(year.loops[0].min_degc) > 20 - 1e-6);
    assert_true(mean_of(year.loops[0].heater_kwh, 0, 31) > 20);
    assert_near(mean_of(year.loops[0].heater_kwh, 195, 225), 0, 1e-9);
    given.heaters = "H,L,,,60,20,5-9,0.08\n";
    assert_true(least_of(year_of(&arena, &given).loops[0].min_degc) < 12);
}

/* Beds that flood by day only lose less at night. */
static void beds_off_at_night_save_heat(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.heaters = "H,L,,,60,20,all,0.08\n";
    double always = year_of(&arena, &given).heater_kwh;
    given.zone_hours = "9 9 9 9 24 24 24 24 24 24 9 9";
    double by_day = year_of(&arena, &given).heater_kwh;
    assert_true(by_day < 0.9 * always);
    given.zone_hours = "0";
    assert_true(year_of(&arena, &given).heater_kwh < by_day);
}

static void more_loss_cools_winter_nights(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    double single = mean_of(year_of(&arena, &given).tunnels[0].min_degc, 0, 31);
    given.tunnels = "T,26,7.5,3.1,90,pe-double,3,36,0.35,6-8\n";
    ClimateYear year = year_of(&arena, &given);
    assert_true(mean_of(year.tunnels[0].min_degc, 0, 31) > single + 0.3);
    assert_true(single > mean_of(year.outside_min_degc, 0, 31));
}

static void vents_keep_summer_near_outside(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    ClimateYear year = year_of(&arena, &given);
    for (int day = 160; day < 240; day++) {
        double over =
            year.tunnels[0].max_degc[day] - year.outside_max_degc[day];
        assert_true(over > -1 && over < 4);
    }
    given.tunnels = "T,26,7.5,3.1,90,pe-single,3,0,0.35,6-8\n";
    ClimateYear shut = year_of(&arena, &given);
    assert_true(mean_of(shut.tunnels[0].max_degc, 160, 240) >
                mean_of(year.tunnels[0].max_degc, 160, 240) + 3);
}

static void shade_lowers_light_in_its_months_only(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    ClimateYear shaded = year_of(&arena, &given);
    given.tunnels = "T,26,7.5,3.1,90,pe-single,3,36,0,6-8\n";
    ClimateYear open = year_of(&arena, &given);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        bool is_shaded = day >= 151 && day < 243;
        assert_near(shaded.tunnels[0].dli_mol[day],
                    open.tunnels[0].dli_mol[day] * (is_shaded ? 0.65 : 1),
                    1e-9);
        double let_in =
            open.tunnels[0].dli_mol[day] / open.outside_dli_mol[day];
        assert_true(let_in > 0.5 && let_in < 0.75);
    }
}

static void a_bed_has_the_light_told_or_that_of_its_side(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    ClimateYear year = year_of(&arena, &given);
    const Farm *farm = farm_of(&arena, &given);
    assert_near(year.bed_light_frac[2], 0.9, 1e-12);
    assert_near(climate_bed_dli_mol(&year, farm, 2, 77),
                0.9 * year.tunnels[0].dli_mol[77], 1e-12);
    assert_near(climate_bed_dli_mol(&year, farm, 0, 77),
                year.tunnels[0].row_dli_mol[ROW_SOUTH][77], 1e-12);
    double south = sum_of(year.tunnels[0].row_dli_mol[ROW_SOUTH]);
    double north = sum_of(year.tunnels[0].row_dli_mol[ROW_NORTH]);
    assert_true(south > north);
    assert_int_equal(climate_row_of("south", 90), ROW_SOUTH);
    assert_int_equal(climate_row_of("north", 90), ROW_NORTH);
    assert_int_equal(climate_row_of("south", 100), ROW_SOUTH);
    assert_int_equal(climate_row_of("east", 0), ROW_SOUTH);
    assert_int_equal(climate_row_of("west", 0), ROW_NORTH);
    assert_int_equal(climate_row_of("west", 180), ROW_NORTH);
    assert_int_equal(climate_row_of("south", 0), ROW_MIDDLE);
    assert_int_equal(climate_row_of("by the door", 90), ROW_MIDDLE);
}

static void across_the_equator_the_year_is_turned_by_half(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.heaters = "H,L,,,30,18,all,0.08\n";
    given.tunnels = "T,26,7.5,3.1,90,pe-single,3,36,0,1\n";
    ClimateYear north = year_of(&arena, &given);
    given.latitude_deg = "-39.3";
    given.climate = CLIMATE_SOUTH;
    ClimateYear south = year_of(&arena, &given);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        int later = (day + 182) % CLIMATE_YEAR_DAYS;
        assert_near(north.day_length_h[day], south.day_length_h[later], 0.2);
        assert_near(south.outside_dli_mol[later] / north.outside_dli_mol[day],
                    1, 0.08);
        assert_near(south.tunnels[0].mean_degc[later],
                    north.tunnels[0].mean_degc[day], 1.0);
        assert_near(south.loops[0].mean_degc[later],
                    north.loops[0].mean_degc[day], 1.0);
    }
}

static void a_year_near_the_pole_is_finite(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.latitude_deg = "66";
    given.climate = CLIMATE_POLAR;
    given.heaters = "H,L,,,3,18,all,0.08\n";
    ClimateYear year = year_of(&arena, &given);
    for (int day = 0; day < CLIMATE_DAYS; day++) {
        assert_true(year.tunnels[0].mean_degc[day] > -25);
        assert_true(year.tunnels[0].max_degc[day] < 45);
        assert_true(year.loops[0].mean_degc[day] > -25);
        assert_true(year.tunnels[0].dli_mol[day] >= 0);
        assert_true(year.outside_min_degc[day] <= year.outside_mean_degc[day]);
    }
    ClimateNormals normals = {.latitude_deg = 84};
    ClimateDay days[CLIMATE_YEAR_DAYS];
    for (int i = 0; i < 12; i++) {
        normals.sun_mj_m2_d[i] = i > 2 && i < 8 ? 9 : 0;
        normals.rh_frac[i] = 0.7;
    }
    climate_days_fill(&normals, days);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        assert_true(isfinite(days[day].sun_mj_m2_d));
        assert_true(isfinite(climate_hour_degc(days, day, 3.5)));
    }
}

/* No tanks, no tunnels, beds in the open, tanks without beds: each runs. */
static void farms_with_parts_missing_have_a_year(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.tanks = "";
    assert_true(least_of(year_of(&arena, &given).loops[0].min_degc) > -5);
    given.tunnels = "";
    given.beds = "O1,,,1,9,1.3,0.3,0.25,gravel-8-20,Z,1\n"
                 "O2,,,2,9,1.3,0.3,0.25,gravel-8-20,,1\n";
    ClimateYear open = year_of(&arena, &given);
    assert_near(open.ledger.residual_kwh, 0, 1e-5);
    assert_near(mean_of(open.loops[0].mean_degc, 0, 365),
                mean_of(open.outside_mean_degc, 0, 365), 4);
    given = usual();
    given.beds = "N1,T,north,3,9,1.3,0.3,0.25,gravel-8-20,,0.9\n";
    ClimateYear dry = year_of(&arena, &given);
    assert_near(dry.ledger.residual_kwh, 0, 1e-5);
    assert_true(dry.loops[0].mean_degc[20] > dry.outside_mean_degc[20] - 2);
}

/* What the book judges about tunnels a farm may know better. */
static void a_figure_of_your_own_changes_the_year(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    const Farm *farm = farm_of(&arena, &given);
    Book book, own;
    assert_ok(book_load(&arena, &book));
    book_copy(&arena, &book, &own);
    ClimateYear usually, hotter;
    assert_ok(climate_year_run(farm, &book, &arena, &usually));
    own.common->tunnel_vent_degc.value = 27;
    own.common->tunnel_vent_mild_degc.value = 24;
    own.common->tunnel_leaf_frac.value = 0.3;
    assert_ok(climate_year_run(farm, &own, &arena, &hotter));
    assert_true(mean_of(hotter.tunnels[0].mean_degc, 90, 270) >
                mean_of(usually.tunnels[0].mean_degc, 90, 270) + 0.5);
    assert_true(mean_of(hotter.loops[0].mean_degc, 90, 270) >
                mean_of(usually.loops[0].mean_degc, 90, 270) + 0.5);
}

static void the_years_numbers_have_a_low_and_a_high(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.heaters = "H,L,,,9,19,10-4,0.08\n";
    const Farm *farm = farm_of(&arena, &given);
    Book book;
    assert_ok(book_load(&arena, &book));
    ClimateYear year;
    assert_ok(climate_year_run(farm, &book, &arena, &year));
    ClimateRange range;
    assert_ok(climate_range_make(farm, &book, &arena, &range));
    assert_near(range.heater_kwh.value, year.heater_kwh, 1e-9);
    assert_near(range.water_least_degc[0].value,
                least_of(year.loops[0].mean_degc), 1e-12);
    const Figure *all[] = {
        &range.heater_kwh,          &range.heater_cost,
        &range.water_least_degc[0], &range.water_most_degc[0],
        &range.air_least_degc[0],   &range.air_most_degc[0]};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        assert_true(all[i]->low < all[i]->value);
        assert_true(all[i]->high > all[i]->value);
    }
    /* A figure known exactly leaves less doubt. */
    Book sure;
    book_copy(&arena, &book, &sure);
    for (int32_t i = 0; i < sure.covers_count; i++) {
        Figure *loss = &sure.covers[i].loss_w_m2_k;
        *loss = figure_exact(loss->value, FIGURE_YOURS, "");
    }
    ClimateRange less;
    assert_ok(climate_range_make(farm, &sure, &arena, &less));
    assert_true(less.heater_kwh.high < range.heater_kwh.high);
    assert_true(less.heater_kwh.low > range.heater_kwh.low);
}

/* A bed out of use before the tables begin is not there. */
static void a_bed_that_is_gone_gives_no_heat(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    Farm *farm = ARENA_NEW(&arena, Farm);
    *farm = *farm_of(&arena, &given);
    Book book;
    assert_ok(book_load(&arena, &book));
    ClimateYear all, none;
    assert_ok(climate_year_run(farm, &book, &arena, &all));
    for (int32_t i = 0; i < farm->beds_count; i++) {
        farm->beds[i].until = farm->farm->records_from - 1;
    }
    assert_ok(climate_year_run(farm, &book, &arena, &none));
    /* Without beds the water's day is flat. */
    assert_true(all.loops[0].max_degc[200] - all.loops[0].min_degc[200] > 1);
    assert_near(none.loops[0].max_degc[200], none.loops[0].min_degc[200], 0.5);
}

/* Farms of any latitude, size and fit-out: finite, ordered, closed. */
static void any_farm_has_a_year_that_closes(void **state)
{
    (void)state;
    static const char *const covers[] = {"pe-single", "pe-double", "glass",
                                         "polycarbonate"};
    static const char *const heaters[] = {
        "", "H,L,,,9,19,10-4,0.08\n", "H,,,T,25,12,all,0.1\n",
        "H,L,,,4,22,all,0.08\nI,L,,,8,18,all,0.1\nJ,,A,,2,27,all,0.2\n"};
    Rng rng = rng_make(20270301, 0);
    for (int i = 0; i < 24; i++) {
        CLEANUP(arena_release) Arena arena = {0};
        Given given = usual();
        double latitude = -66 + 132 * rng_f64(&rng);
        given.latitude_deg = arena_text(&arena, "%.2f", latitude);
        given.climate = latitude < 0 ? CLIMATE_SOUTH : CLIMATE_NORTH;
        given.climate = fabs(latitude) > 60 ? CLIMATE_POLAR : given.climate;
        given.tunnels = arena_text(
            &arena, "T,%.1f,%.1f,%.1f,%.0f,%s,%.0f,%.0f,%.2f,5-9\n",
            1 + 90 * rng_f64(&rng), 1 + 20 * rng_f64(&rng),
            1 + 5 * rng_f64(&rng), 180 * rng_f64(&rng), covers[i % 4],
            10 * rng_f64(&rng), 100 * rng_f64(&rng), 0.9 * rng_f64(&rng));
        given.heaters = heaters[i / 4 % 4];
        given.zone_hours = arena_text(&arena, "%.1f", 24 * rng_f64(&rng));
        given.tanks = arena_text(
            &arena, "A,L,grow,%.2f,%s,%s\n", 0.05 + 40 * rng_f64(&rng),
            i % 2 ? "yes" : "no", i % 3 ? "bare" : "thick");
        ClimateYear year = year_of(&arena, &given);
        const ClimateLedger *sum = &year.ledger;
        assert_true(fabs(sum->residual_kwh) < 1e-9 * (sum->sun_kwh + 1e3));
        for (int day = 0; day < CLIMATE_DAYS; day++) {
            const ClimateTunnel *in = &year.tunnels[0];
            const ClimateLoop *water = &year.loops[0];
            assert_true(in->min_degc[day] <= in->mean_degc[day] &&
                        in->mean_degc[day] <= in->max_degc[day]);
            assert_true(water->min_degc[day] <= water->mean_degc[day] + 1e-9 &&
                        water->mean_degc[day] <= water->max_degc[day] + 1e-9);
            assert_true(in->min_degc[day] > year.outside_min_degc[day] - 4);
            assert_true(in->max_degc[day] < 75);
            assert_true(in->dli_mol[day] <= year.outside_dli_mol[day]);
            assert_true(water->heater_kwh[day] <= 24 * 12 + 1e-9);
        }
    }
}

static void an_unknown_cover_or_month_is_told(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    Book book;
    assert_ok(book_load(&arena, &book));
    ClimateYear year;
    given.tunnels = "T,26,7.5,3.1,90,straw,3,36,0,1\n";
    assert_err(climate_year_run(farm_of(&arena, &given), &book, &arena, &year),
               ERR_INPUT, "straw");
    given = usual();
    Farm *farm = ARENA_NEW(&arena, Farm);
    *farm = *farm_of(&arena, &given);
    farm->climate_count = 11;
    assert_err(climate_year_run(farm, &book, &arena, &year), ERR_INPUT,
               "twelve");
}

static void tunnels_alike_have_one_light_and_others_their_own(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    given.tunnels = "T,26,7.5,3.1,90,pe-single,3,36,0.35,6-8\n"
                    "U,13,7.5,3.1,90,pe-single,3,9,0.35,6-8\n"
                    "V,26,7.5,3.1,90,pe-single,7,36,0.35,6-8\n"
                    "W,26,7.5,3.1,90,pe-single,3,36,0.35,5-8\n";
    ClimateYear year = year_of(&arena, &given);
    for (int day = 0; day < CLIMATE_DAYS; day++) {
        double dli = year.tunnels[0].dli_mol[day];
        assert_near(year.tunnels[1].dli_mol[day], dli, 1e-12);
        assert_near(year.tunnels[2].dli_mol[day] / dli, pow(0.98, 4), 1e-9);
        bool is_may = day >= 120 && day < 151;
        assert_near(year.tunnels[3].dli_mol[day] / dli, is_may ? 0.65 : 1,
                    1e-9);
    }
}

static void the_same_farm_gives_the_same_year(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Given given = usual();
    ClimateYear one = year_of(&arena, &given);
    ClimateYear two = year_of(&arena, &given);
    assert_memory_equal(one.loops[0].mean_degc, two.loops[0].mean_degc,
                        CLIMATE_DAYS * sizeof(double));
    assert_memory_equal(one.tunnels[0].max_degc, two.tunnels[0].max_degc,
                        CLIMATE_DAYS * sizeof(double));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(months_keep_their_means),
        cmocka_unit_test(days_follow_each_other_smoothly),
        cmocka_unit_test(heat_of_the_year_closes),
        cmocka_unit_test(a_large_heater_keeps_the_floor_and_none_does_not),
        cmocka_unit_test(beds_off_at_night_save_heat),
        cmocka_unit_test(more_loss_cools_winter_nights),
        cmocka_unit_test(vents_keep_summer_near_outside),
        cmocka_unit_test(shade_lowers_light_in_its_months_only),
        cmocka_unit_test(a_bed_has_the_light_told_or_that_of_its_side),
        cmocka_unit_test(across_the_equator_the_year_is_turned_by_half),
        cmocka_unit_test(a_year_near_the_pole_is_finite),
        cmocka_unit_test(farms_with_parts_missing_have_a_year),
        cmocka_unit_test(a_figure_of_your_own_changes_the_year),
        cmocka_unit_test(the_years_numbers_have_a_low_and_a_high),
        cmocka_unit_test(a_bed_that_is_gone_gives_no_heat),
        cmocka_unit_test(any_farm_has_a_year_that_closes),
        cmocka_unit_test(an_unknown_cover_or_month_is_told),
        cmocka_unit_test(tunnels_alike_have_one_light_and_others_their_own),
        cmocka_unit_test(the_same_farm_gives_the_same_year),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
