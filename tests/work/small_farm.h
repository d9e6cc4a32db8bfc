/* A small invented farm with an accepted plan, read from its tables; what is
 * foreseen for it is typed in. */
#ifndef LEAT_TESTS_SMALL_FARM_H
#define LEAT_TESTS_SMALL_FARM_H

#include "check.h"

#include "base/date.h"
#include "farm/book.h"
#include "farm/read.h"
#include "work/jobs.h"

enum { SMALL_ROWS_MAX = 16, SMALL_TANKS = 4 };

typedef struct SmallFarm {
    Arena arena;
    FarmRead *read;
    Farm *farm;
    Book book;
    JobOutlook outlook;
    JobYield yields[SMALL_ROWS_MAX];
    double next_units[SMALL_ROWS_MAX];
    double lane_g[SMALL_ROWS_MAX];
    double lane_alive[SMALL_ROWS_MAX];
    double fish_g[SMALL_ROWS_MAX];
    double fish_alive[SMALL_ROWS_MAX];
    double tank_degc[SMALL_TANKS * JOBS_DAYS];
    double tunnel_min[JOBS_DAYS];
    double tunnel_max[JOBS_DAYS];
    double sow_degc[SMALL_ROWS_MAX];
} SmallFarm;

/* Monday of the plan's first week, 2027-W09, and of those after it. */
static inline int32_t small_week(int weeks)
{
    return date_from_civil((CivilDate){2027, 3, 1}) + 7 * weeks;
}

static const char SMALL_FARM[] =
    "id,latitude_deg,longitude_deg,timezone,currency,records_from,"
    "sow_confidence_frac,purge_days\n"
    "brook,38.6,-6.4,Europe/Lisbon,EUR,2027-03-01,0.9,3\n";
static const char SMALL_CLIMATE[] =
    "month,tmax_degc,tmin_degc,sun_mj_m2_d\n"
    "1,14,5,8\n2,15,5,10\n3,18,7,15\n4,20,8,19\n5,24,11,23\n6,29,14,26\n"
    "7,32,16,27\n8,32,16,24\n9,29,15,18\n10,23,12,12\n11,18,8,9\n12,14,6,7\n";
static const char SMALL_LOOPS[] = "id,sump_m3\nwater,4\n";
static const char SMALL_TUNNELS[] =
    "id,length_m,width_m,cover,walk,shade_frac,shade_months\n"
    "T,20,7,pe-single,100,0.4,5-9\n";
static const char SMALL_TANKS_CSV[] = "id,loop,use,volume_m3,batches,walk\n"
                                      "A,water,grow,6,2,10\n"
                                      "B,water,grow,6,2,20\n"
                                      "E,water,breeders,1.2,1,30\n"
                                      "tub,,purge,0.6,1,40\n";
static const char SMALL_BEDS[] =
    "id,tunnel,side,walk,length_m,width_m,depth_m,flood_m,gravel,edge_m,edge\n"
    "t1,T,south,110,2.4,1.2,0.3,0.25,gravel-8-20,2.4,sunny\n"
    "t2,T,south,120,2.4,1.2,0.3,0.25,gravel-8-20,2.4,sunny\n"
    "t3,T,north,130,2.4,1.2,0.3,0.25,gravel-8-20,0,none\n";
static const char SMALL_TRAYS[] = "id,cells\nt128,128\nt50,50\n";
static const char SMALL_CROPS[] =
    "id,book\nlettuce,lettuce\ncucumber,cucumber\nrocket,rocket\n";
static const char SMALL_WAYS[] =
    "id,crop,book,name,unit,unit_g,tray\n"
    "lettuce-head,lettuce,lettuce-head,head lettuce,head,200,t128\n"
    "cucumber-edge,cucumber,cucumber-edge,cucumber,cucumber,450,t50\n"
    "rocket-cut,rocket,rocket-cut,rocket,kg,1000,\n";
static const char SMALL_FISH[] =
    "id,species,tank,counted_on,count,mean_g,cv_frac,sex,is_kept\n"
    "june,nile-tilapia,A,2027-03-01,400,180,0.25,sexed,no\n"
    "parents,nile-tilapia,E,2027-03-01,20,430,0.1,mixed,yes\n";
static const char SMALL_PRODUCTS[] =
    "id,unit\nhead,head\ncucumber,piece\nrocket,kg\nfish,fish\n";
static const char SMALL_PARTS[] = "product,way,fish_over_g,units\n"
                                  "head,lettuce-head,,1\n"
                                  "cucumber,cucumber-edge,,1\n"
                                  "rocket,rocket-cut,,1\n"
                                  "fish,,450,1\n";
static const char SMALL_BUYERS[] = "id,name,days,drop_min\n"
                                   "inn,the Inn,tue fri,25\n"
                                   "school,the school,mon,30\n";
static const char SMALL_ORDERS[] =
    "id,buyer,product,quantity,firmness\n"
    "inn-head,inn,head,17,promised\nschool-head,school,head,24,firm\n"
    "inn-cucumber,inn,cucumber,20,promised\ninn-fish,inn,fish,9,promised\n";
static const char SMALL_HANDS[] =
    "id,name,hours_w,days,may,wage_h\n"
    "ada,Ada,40,all,sow set prune pick clear clean feed net dose spray test "
    "vent deliver office,11\n"
    "ben,Ben,30,mon tue wed thu fri,sow set prune pick clear clean feed net "
    "vent deliver,10\n"
    "cleo,Cleo,8,sat,pick,9\n";
static const char SMALL_TASKS[] = "id,name,skill,minutes,times_w\n"
                                  "round,the round,feed,70,7\n"
                                  "tests,water tests,test,60,2\n"
                                  "screens,pump screens,clean,45,0.5\n";
static const char SMALL_CLOSURES[] = "id,kind,buyer,hand,from,until\n"
                                     "ben-away,person,,ben,2027-03-03,"
                                     "2027-03-03\n";
static const char SMALL_PLAN[] = "id,from,weeks,accepted_on,seed,value,book\n"
                                 "accepted,2027-03-01,52,2027-03-01,1,1000,x\n";
static const char SMALL_PLAN_PLANTS[] =
    "id,way,bed,place,sections,first_section,plants,sow_on,set_on,pick_from,"
    "pick_until,clear_on\n"
    "L1,lettuce-head,t3,floor,4,0,63,2027-03-01,2027-03-29,2027-05-03,"
    "2027-05-16,2027-05-17\n"
    "L2,lettuce-head,t2,floor,4,0,63,2027-03-01,2027-03-29,2027-05-03,"
    "2027-05-23,2027-05-31\n"
    "C1,cucumber-edge,t1,edge,0,0,6,2027-03-22,2027-04-12,2027-05-10,"
    "2027-07-25,2027-08-02\n"
    "C2,cucumber-edge,t2,edge,0,0,6,2027-06-28,2027-07-19,2027-08-09,"
    "2027-10-03,2027-10-11\n"
    "R1,rocket-cut,t1,floor,2,0,900,2027-03-08,2027-03-08,2027-04-12,"
    "2027-05-02,2027-05-10\n";
static const char SMALL_PLAN_FISH[] =
    "id,batch,standing,lane,count,mean_g\n"
    "june-1,june,june,1,200,140\njune-2,june,june,2,200,220\n";
static const char SMALL_PLAN_MOVES[] =
    "id,fish,kind,on,run,started,count,mean_g,from_tank,to_tank,product\n"
    "m1,june-2,grade,2027-04-12,1,120,118,300,A,B,\n"
    "m2,june-2,sale,2027-05-10,2,9,9,460,A,,fish\n";
static const char SMALL_PLAN_CLEANS[] = "bed,on\nt3,2027-05-17\n";
static const char SMALL_PLAN_ORDERS[] =
    "order,week,wanted,kept\n"
    "inn-head,2027-05-10,17,17\nschool-head,2027-05-10,24,24\n"
    "inn-cucumber,2027-05-10,20,20\ninn-fish,2027-05-10,9,9\n";

#define SMALL_TABLE(file, text)                                                \
    {                                                                          \
        file, text, sizeof(text) - 1                                           \
    }

/* Reads all tables but those of the plan where has_plan is false. */
static inline void small_farm_open(SmallFarm *small, bool has_plan)
{
    *small = (SmallFarm){0};
    const FarmBuffer buffers[] = {
        SMALL_TABLE("farm.csv", SMALL_FARM),
        SMALL_TABLE("climate.csv", SMALL_CLIMATE),
        SMALL_TABLE("loops.csv", SMALL_LOOPS),
        SMALL_TABLE("tunnels.csv", SMALL_TUNNELS),
        SMALL_TABLE("tanks.csv", SMALL_TANKS_CSV),
        SMALL_TABLE("beds.csv", SMALL_BEDS),
        SMALL_TABLE("trays.csv", SMALL_TRAYS),
        SMALL_TABLE("crops.csv", SMALL_CROPS),
        SMALL_TABLE("ways.csv", SMALL_WAYS),
        SMALL_TABLE("fish.csv", SMALL_FISH),
        SMALL_TABLE("products.csv", SMALL_PRODUCTS),
        SMALL_TABLE("parts.csv", SMALL_PARTS),
        SMALL_TABLE("buyers.csv", SMALL_BUYERS),
        SMALL_TABLE("orders.csv", SMALL_ORDERS),
        SMALL_TABLE("hands.csv", SMALL_HANDS),
        SMALL_TABLE("tasks.csv", SMALL_TASKS),
        SMALL_TABLE("closures.csv", SMALL_CLOSURES),
        SMALL_TABLE("plan_plants.csv", SMALL_PLAN_PLANTS),
        SMALL_TABLE("plan_fish.csv", SMALL_PLAN_FISH),
        SMALL_TABLE("plan_moves.csv", SMALL_PLAN_MOVES),
        SMALL_TABLE("plan_cleans.csv", SMALL_PLAN_CLEANS),
        SMALL_TABLE("plan_orders.csv", SMALL_PLAN_ORDERS),
        SMALL_TABLE("plan.csv", SMALL_PLAN),
    };
    int count = (int)(sizeof buffers / sizeof *buffers) - (has_plan ? 0 : 6);
    small->read = ARENA_NEW(&small->arena, FarmRead);
    Faults faults;
    faults_init(&faults, &small->arena, 10);
    farm_read(buffers, count, &faults, small->read);
    for (int32_t i = 0; i < faults.kept_count; i++) {
        print_error("%s:%d: %s: %s\n", faults.items[i].place.file,
                    (int)faults.items[i].place.line, faults.items[i].value,
                    faults.items[i].expected);
    }
    assert_int_equal(faults.count, 0);
    small->farm = &small->read->farm;
    assert_ok(book_load(&small->arena, &small->book));
}

/* Steady water and air, yields and weights of one size; a test changes what it
 * is about. */
static inline void small_farm_foresee(SmallFarm *small, double water_degc)
{
    for (int i = 0; i < SMALL_TANKS * JOBS_DAYS; i++) {
        small->tank_degc[i] = water_degc;
    }
    for (int d = 0; d < JOBS_DAYS; d++) {
        small->tunnel_min[d] = 9.0;
        small->tunnel_max[d] = 26.0;
    }
    for (int i = 0; i < SMALL_ROWS_MAX; i++) {
        small->yields[i] = (JobYield){24.0, 31.0, 37.0};
        small->next_units[i] = 31.0;
        small->lane_g[i] = 140.0 + 80.0 * i;
        small->lane_alive[i] = 0.985;
        small->fish_g[i] = 430.0;
        small->fish_alive[i] = 1.0;
        small->sow_degc[i] = 18.0;
    }
    small->outlook = (JobOutlook){.yields = small->yields,
                                  .next_units = small->next_units,
                                  .lane_g = small->lane_g,
                                  .lane_alive_frac = small->lane_alive,
                                  .fish_g = small->fish_g,
                                  .fish_alive_frac = small->fish_alive,
                                  .tank_degc = small->tank_degc,
                                  .tunnel_min_degc = small->tunnel_min,
                                  .tunnel_max_degc = small->tunnel_max,
                                  .sow_degc = small->sow_degc};
}

static inline void small_farm_release(SmallFarm *small)
{
    arena_release(&small->arena);
}

/* Opened, foreseen at that water, and its jobs of a week. */
static inline JobsWeek small_farm_jobs(SmallFarm *small, int week)
{
    JobsWeek jobs = {0};
    JobsAsk ask = {.farm = small->farm,
                   .book = &small->book,
                   .outlook = &small->outlook,
                   .week = small_week(week)};
    assert_ok(jobs_of_week(&ask, &small->arena, &jobs));
    return jobs;
}

/* The first job of a kind on that day (Monday 0; -1 any), or NULL. */
static inline const Job *small_find(const JobsWeek *jobs, JobKind kind,
                                    const char *what, int day)
{
    for (int32_t i = 0; i < jobs->list.count; i++) {
        const Job *job = &jobs->list.jobs[i];
        bool is_day = day < 0 || job->day == jobs->week + day;
        bool is_place =
            job->place_count > 0 && strcmp(job->places[0].id, what) == 0;
        if (job->kind == kind && is_day &&
            (is_place || strstr(job->what, what))) {
            return job;
        }
    }
    return NULL;
}

#endif
