/* A small farm with fish, for the tests of this layer. */
#ifndef LEAT_TESTS_POND_H
#define LEAT_TESTS_POND_H

#include "check.h"

#include "../farm/tables.h"
#include "base/date.h"
#include "sim/fish_year.h"

#define LOOPS_CSV "id,sump_m3\nl1,3\nl2,3\n"
#define TANKS_CSV                                                              \
    "id,loop,use,volume_m3,batches\n"                                          \
    "A,l1,grow,6,2\nC,l1,grow,3,2\nB,l2,grow,4,2\nP,,purge,0.6,1\n"
#define PUMPS_CSV "id,loop,flow_m3_h,tanks_frac\np1,l1,9,0.3333\n"
#define ZONES_CSV                                                              \
    "id,loop,pump,turn,minutes,hours_d\n"                                      \
    "z1,l1,p1,1,20,10 10 24 24 24 24 24 24 24 24 24 10\n"
#define POND_BEDS_CSV                                                          \
    "id,walk,length_m,width_m,depth_m,flood_m,gravel,zone,from\n"              \
    "b1,1,2.4,1.2,0.3,0.25,gravel-8-20,z1,\n"                                  \
    "b2,2,2.4,1.2,0.3,0.25,gravel-8-20,z1,2027-06-01\n"
#define AERATORS_CSV                                                           \
    "id,tank,loop,power_w,oxygen_kg_kwh\n"                                     \
    "a1,,l1,180,0.9\na2,C,,40,0.9\na3,B,,5,0.5\n"
#define FISH_CSV                                                               \
    "id,species,tank,counted_on,count,mean_g,cv_frac,sex\n"                    \
    "old,nile-tilapia,A,2027-03-01,250,310,0.15,sexed\n"                       \
    "young,nile-tilapia,C,2027-02-11,403,60,0.3,mixed\n"                       \
    "crowd,nile-tilapia,B,2027-03-01,400,230,0.2,males\n"
#define FISH_SOURCES_CSV                                                       \
    "id,species,kind,mean_g,cv_frac,sex,price,least,most\n"                    \
    "hatchery,nile-tilapia,bought,25,0.2,males,0.85,100,800\n"
/* The old fish: the two heavy lanes sold, the lightest moved to C on 29 March.
 * Bought fish arrive in A on 3 May. */
#define PLAN_FISH_CSV                                                          \
    "id,batch,standing,source,lane,count,mean_g\n"                             \
    "o1,old,old,,1,62,250\no2,old,old,,2,62,290\n"                             \
    "o3,old,old,,3,63,320\no4,old,old,,4,63,370\n"                             \
    "n1,new,,hatchery,1,75,19\nn2,new,,hatchery,2,75,23\n"                     \
    "n3,new,,hatchery,3,75,26\nn4,new,,hatchery,4,75,32\n"
#define PLAN_MOVES_CSV                                                         \
    "id,fish,kind,on,run,started,count,mean_g,from_tank,to_tank\n"             \
    "m1,o4,sale,2027-04-05,1,30,30,400,A,\n"                                   \
    "m2,o4,sale,2027-04-12,2,33,33,410,A,\n"                                   \
    "m3,o1,grade,2027-03-29,3,62,62,280,A,C\n"                                 \
    "m4,n1,stock,2027-05-03,4,75,75,19,,A\n"                                   \
    "m5,n2,stock,2027-05-03,5,75,75,23,,A\n"                                   \
    "m6,n3,stock,2027-05-03,6,75,75,26,,A\n"                                   \
    "m7,n4,stock,2027-05-03,7,75,75,32,,A\n"

/* The farm without (NULL ends early) or with its plan. */
static inline const Farm *pond(Arena *arena, bool has_plan)
{
    Faults *faults = ARENA_NEW(arena, Faults);
    faults_init(faults, arena, FAULTS_USUAL_LIMIT);
    const FarmRead *read = tables_read(
        faults, (const char *const[]){"beds.csv",
                                      POND_BEDS_CSV,
                                      "loops.csv",
                                      LOOPS_CSV,
                                      "tanks.csv",
                                      TANKS_CSV,
                                      "pumps.csv",
                                      PUMPS_CSV,
                                      "zones.csv",
                                      ZONES_CSV,
                                      "aerators.csv",
                                      AERATORS_CSV,
                                      "fish.csv",
                                      FISH_CSV,
                                      "fish_sources.csv",
                                      FISH_SOURCES_CSV,
                                      has_plan ? "plan_fish.csv" : NULL,
                                      PLAN_FISH_CSV,
                                      "plan_moves.csv",
                                      PLAN_MOVES_CSV,
                                      NULL});
    assert_string_equal(faults_text(faults), "");
    return &read->farm;
}

/* Water of every tank: the same each year, between 19 and 28 degC. */
static inline const double *const *pond_water(Arena *arena, const Farm *farm)
{
    double *days = ARENA_ARRAY(arena, double, FISH_YEAR_DAYS);
    for (int d = 0; d < FISH_YEAR_DAYS; d++) {
        days[d] = 23.5 - 4.5 * cos(2.0 * acos(-1.0) * (d - 20) / 365.0);
    }
    const double **tanks =
        ARENA_ARRAY(arena, const double *, farm->tanks_count);
    for (int k = 0; k < farm->tanks_count; k++) {
        tanks[k] = days;
    }
    return (const double *const *)tanks;
}

static inline int32_t pond_day(int year, int month, int day)
{
    return date_from_civil((CivilDate){year, month, day});
}

#endif
