/* Farms drawn by number, for the tests of the coupled hour: loops, tanks,
 * zones, fish, plants, a plan, all within what the tables allow. */
#ifndef LEAT_TESTS_HOUR_FARMS_H
#define LEAT_TESTS_HOUR_FARMS_H

#include "check.h"

#include "base/date.h"
#include "base/rng.h"
#include "farm/read.h"
#include "sim/hour.h"

#define HOUR_CLIMATE                                                           \
    "month,tmax_degc,tmin_degc,sun_mj_m2_d,rh_pct,wind_m_s\n"                  \
    "1,12.1,3.3,6.9,81,2.3\n2,13.9,4.1,10.1,76,2.5\n"                          \
    "3,17.2,6.2,14.8,70,2.6\n4,19.6,8.1,19.0,67,2.8\n"                         \
    "5,23.8,11.2,23.2,61,2.7\n6,28.3,14.6,25.7,56,2.6\n"                       \
    "7,31.4,16.8,26.3,51,2.6\n8,31.3,16.9,23.3,52,2.5\n"                       \
    "9,27.7,14.8,17.9,59,2.3\n10,22.1,11.6,12.1,69,2.2\n"                      \
    "11,16.4,7.2,8.1,77,2.1\n12,12.9,4.2,6.1,82,2.2\n"

/* Table text by table, "" for none. */
typedef struct HourTables {
    const char *loops, *tunnels, *tanks, *pumps, *zones, *beds;
    const char *aerators, *heaters, *fish, *plants, *readings, *sources;
    const char *plan, *plan_fish, *plan_moves, *plan_cleans;
    const char *figures, *fish_sources, *climate; /* climate NULL: usual */
    const char *latitude_deg;
} HourTables;

/* One loop, two tanks, two zones, a tunnel, fish and lettuce. */
static inline HourTables hour_tables_usual(void)
{
    return (HourTables){
        .latitude_deg = "38.9",
        .loops = "L,3.2,well\n",
        .tunnels = "T,24,7,3.1,90,pe-single,2,30,0.35,6-8\n",
        .tanks = "A,L,grow,5.5,2,yes,thick,\nB,L,grow,3.1,2,no,some,T\n",
        .pumps = "P,L,10.4,185,0.31\n",
        .zones = "Z1,L,P,1,20,9 9 24 24 24 24 24 24 24 24 24 9\n"
                 "Z2,L,P,2,25,24\n",
        .beds = "b1,T,south,1,9,1.3,0.3,0.25,gravel-8-20,Z1,1\n"
                "b2,T,middle,2,9,1.3,0.3,0.22,gravel-8-20,Z2,1\n",
        .aerators = "air,,L,170,0.9\n",
        .heaters = "boil,L,,,6,19,10-5\n",
        .fish = "old,nile-tilapia,A,2027-03-01,140,310,0.15,sexed\n"
                "young,nile-tilapia,B,2027-02-11,203,62,0.3,mixed\n",
        .plants = "p1,leaf,b1,floor,3,,2027-02-10,2027-03-01\n"
                  "p2,leaf,b2,floor,4,,2027-01-20,2027-03-01\n",
        .readings = "A,,2027-03-01T07:30+00:00,temp_degc,20.1\n"
                    ",L,2027-02-26T16:00+00:00,alkalinity_mg_l,95\n",
        .sources = "well,14.5,7.4,140,45,11,17,0\n",
        .plan = "",
        .plan_fish = "",
        .plan_moves = "",
        .plan_cleans = "",
        .figures = "",
        .fish_sources = "",
    };
}

static inline FarmBuffer hour_buffer(Arena *arena, const char *file,
                                     const char *head, const char *rows)
{
    const char *text = arena_text(arena, "%s\n%s", head, rows);
    return (FarmBuffer){file, text, strlen(text)};
}

static inline const Farm *hour_farm_of(Arena *arena, const HourTables *t)
{
    const char *climate = t->climate ? t->climate : HOUR_CLIMATE;
    FarmBuffer all[] = {
        hour_buffer(arena, "farm.csv",
                    "id,latitude_deg,longitude_deg,altitude_m,timezone,"
                    "currency,records_from",
                    arena_text(arena, "f,%s,5,130,Etc/UTC,EUR,2027-03-01\n",
                               t->latitude_deg)),
        {"climate.csv", climate, strlen(climate)},
        hour_buffer(arena, "figures.csv", "about,figure,value,low,high",
                    t->figures),
        hour_buffer(arena, "fish_sources.csv",
                    "id,species,kind,mean_g,cv_frac,sex,price,least,most",
                    t->fish_sources),
        hour_buffer(arena, "sources.csv",
                    "id,temp_degc,ph,alkalinity_mg_l,calcium_mg_l,"
                    "magnesium_mg_l,sodium_mg_l,chlorine_mg_l",
                    t->sources),
        hour_buffer(arena, "loops.csv", "id,sump_m3,source", t->loops),
        hour_buffer(arena, "tunnels.csv",
                    "id,length_m,width_m,height_m,axis_deg,cover,cover_years,"
                    "vent_m2,shade_frac,shade_months",
                    t->tunnels),
        hour_buffer(arena, "tanks.csv",
                    "id,loop,use,volume_m3,batches,has_lid,wall,tunnel",
                    t->tanks),
        hour_buffer(arena, "pumps.csv", "id,loop,flow_m3_h,power_w,tanks_frac",
                    t->pumps),
        hour_buffer(arena, "zones.csv", "id,loop,pump,turn,minutes,hours_d",
                    t->zones),
        hour_buffer(arena, "beds.csv",
                    "id,tunnel,side,walk,length_m,width_m,depth_m,flood_m,"
                    "gravel,zone,light_frac",
                    t->beds),
        hour_buffer(arena, "aerators.csv", "id,tank,loop,power_w,oxygen_kg_kwh",
                    t->aerators),
        hour_buffer(arena, "heaters.csv",
                    "id,loop,tank,tunnel,power_kw,target_degc,months",
                    t->heaters),
        hour_buffer(arena, "fish.csv",
                    "id,species,tank,counted_on,count,mean_g,cv_frac,sex",
                    t->fish),
        hour_buffer(arena, "crops.csv", "id,book",
                    "lettuce,lettuce\ncucumber,cucumber\nbasil,basil\n"),
        hour_buffer(arena, "ways.csv", "id,crop,book,unit,unit_g",
                    "leaf,lettuce,lettuce-leaf,kg,1000\n"
                    "cut,basil,basil-bunch,bunch,40\n"),
        hour_buffer(arena, "plants.csv",
                    "id,way,bed,place,sections,plants,set_on,counted_on",
                    t->plants),
        hour_buffer(arena, "readings.csv", "tank,loop,at,quantity,value",
                    t->readings),
        hour_buffer(arena, "plan.csv",
                    "id,from,weeks,accepted_on,seed,value,book", t->plan),
        hour_buffer(arena, "plan_fish.csv",
                    "id,batch,standing,source,lane,count,mean_g", t->plan_fish),
        hour_buffer(arena, "plan_moves.csv",
                    "id,fish,kind,on,run,started,count,mean_g,from_tank,"
                    "to_tank,product",
                    t->plan_moves),
        hour_buffer(arena, "plan_cleans.csv", "bed,on", t->plan_cleans),
        hour_buffer(arena, "feeds.csv", "id,protein_frac,from_g,to_g,price_kg",
                    "small,0.4,0,60,1.7\ngrow-32,0.32,60,9000,1.3\n"),
        hour_buffer(arena, "bases.csv", "id,kind",
                    "base,potassium-bicarbonate\n"),
    };
    Faults faults;
    faults_init(&faults, arena, 50);
    FarmRead *read = ARENA_NEW(arena, FarmRead);
    farm_read(all, sizeof all / sizeof *all, &faults, read);
    for (int32_t i = 0; i < faults.kept_count; i++) {
        print_error("%s line %d: %s, %s\n", faults.items[i].place.file,
                    (int)faults.items[i].place.line, faults.items[i].value,
                    faults.items[i].expected);
    }
    assert_int_equal(faults.count, 0);
    return &read->farm;
}

static inline double hour_between(Rng *rng, double least, double most)
{
    return least + (most - least) * rng_f64(rng);
}

/* The farm of a number: from one tank without beds up to two loops, several
 * zones in and out of a tunnel, water soft or hard, fish few or crowded, with
 * and without air, a boiler, and a plan that moves and sells. */
static inline HourTables hour_tables_drawn(Arena *arena, int number)
{
    Rng rng = rng_make(20270301, (uint64_t)number);
    HourTables t = hour_tables_usual();
    const char *beds = "";
    const char *zones = "";
    int zone_count = (int)rng_below(&rng, 5);
    for (int z = 0; z < zone_count; z++) {
        zones =
            arena_text(arena, "%sZ%d,L,P,%d,%d,%d\n", zones, z, z + 1,
                       (int)rng_below(&rng, 40) + 5, (int)rng_below(&rng, 25));
        int bed_count = (int)rng_below(&rng, 4) + 1;
        for (int b = 0; b < bed_count; b++) {
            beds = arena_text(
                arena, "%sb%d-%d,%s,middle,%d,%.2f,1.2,%.2f,%.2f,%s,Z%d,%.2f\n",
                beds, z, b, rng_below(&rng, 4) ? "T" : "", 100 * z + b,
                hour_between(&rng, 1.5, 9.0), 0.32,
                hour_between(&rng, 0.05, 0.3),
                rng_below(&rng, 2) ? "gravel-8-20" : "volcanic", z,
                hour_between(&rng, 0.6, 1.2));
        }
    }
    t.beds = arena_text(arena, "%sdry,T,north,999,3,1.2,0.3,0.2,volcanic,,1\n",
                        beds);
    t.zones = zones;
    t.plants = zone_count > 0 && rng_below(&rng, 4)
                   ? "p1,leaf,b0-0,floor,3,,2027-02-10,2027-03-01\n"
                     "p2,cut,b0-0,floor,1,,2027-01-20,2027-03-01\n"
                   : "";
    t.pumps = rng_below(&rng, 6)
                  ? arena_text(arena, "P,L,%.2f,%.0f,%.2f\n",
                               hour_between(&rng, 0.5, 30.0),
                               hour_between(&rng, 30.0, 600.0), rng_f64(&rng))
                  : t.pumps;
    t.loops = arena_text(arena, "L,%.2f,%s\n", hour_between(&rng, 0.0, 6.0),
                         rng_below(&rng, 5) ? "well" : "");
    t.sources = arena_text(
        arena, "well,%.1f,%.1f,%.0f,%.0f,%.0f,%.0f,%.1f\n",
        hour_between(&rng, 4.0, 25.0), hour_between(&rng, 6.0, 8.5),
        hour_between(&rng, 0.0, 350.0), hour_between(&rng, 0.0, 150.0),
        hour_between(&rng, 0.0, 40.0), hour_between(&rng, 0.0, 200.0),
        hour_between(&rng, 0.0, 0.6));
    t.tanks =
        arena_text(arena,
                   "A,L,grow,%.2f,2,yes,thick,\nB,L,grow,%.2f,2,no,bare,T"
                   "\nQ,,quarantine,0.7,1,no,some,\n",
                   hour_between(&rng, 0.4, 9.0), hour_between(&rng, 0.4, 9.0));
    t.aerators = rng_below(&rng, 4) ? t.aerators : "";
    t.heaters = rng_below(&rng, 2) ? t.heaters
                                   : "boil,L,,,4,22,all\ntub,,A,,1.5,25,all\n"
                                     "air,,,T,12,9,11-3\n";
    int count = (int)rng_below(&rng, 300) + 20;
    t.fish = arena_text(arena,
                        "old,nile-tilapia,A,2027-03-01,%d,%.0f,0.2,sexed\n"
                        "carp,common-carp,B,2027-03-01,%d,%.0f,0.3,mixed\n",
                        count, hour_between(&rng, 5.0, 500.0),
                        (int)rng_below(&rng, 200) + 1,
                        hour_between(&rng, 2.0, 300.0));
    if (rng_below(&rng, 2)) {
        int lane = count / 4;
        t.plan = "main,2027-03-01,52,2027-03-01,1,1000,x\n";
        t.plan_fish = arena_text(
            arena, "o1,old,old,,1,%d,50\no4,old,old,,4,%d,90\n", lane, lane);
        t.plan_moves = arena_text(arena,
                                  "m1,o4,grade,2027-04-05,1,%d,%d,80,A,B,\n"
                                  "m2,o4,sale,2027-07-05,1,%d,%d,200,B,,\n"
                                  "m3,o1,sale,2027-09-06,2,%d,%d,200,A,,\n",
                                  lane, lane, lane, lane, lane, lane);
        t.plan_cleans = "dry,2027-05-03\n";
    }
    return t;
}

typedef struct HourRun {
    const Farm *farm;
    HourFarm *hours;
    HourState *state;
    HourWeather *weather;
    HourDays days;
} HourRun;

/* Runs the farm's first days in its typical weather. */
static inline void hour_run_of(Arena *arena, const HourTables *tables,
                               const HourCare *care, int days, HourRun *out)
{
    Book *book = ARENA_NEW(arena, Book);
    ClimateYear *year = ARENA_NEW(arena, ClimateYear);
    assert_ok(book_load(arena, book));
    out->farm = hour_farm_of(arena, tables);
    assert_ok(climate_year_run(out->farm, book, arena, year));
    HourAsk ask = {out->farm, book, year,
                   week_of(out->farm->farm->records_from), *care};
    assert_ok(hour_farm_make(&ask, arena, &out->hours));
    assert_ok(hour_state_make(out->hours, arena, &out->state));
    out->weather = ARENA_ARRAY(arena, HourWeather, days * 24);
    hour_typical_weather(out->hours, 0, days * 24, out->weather);
    hour_days_make(out->hours, days, arena, &out->days);
    hour_run(out->hours, out->state, out->weather, &out->days);
}

#endif
