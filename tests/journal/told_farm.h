/* A small farm with a plan, to tell entries to. */
#ifndef LEAT_TESTS_JOURNAL_TOLD_FARM_H
#define LEAT_TESTS_JOURNAL_TOLD_FARM_H

#include "journal/state.h"

enum { START = 20878 }; /* Monday 1 March 2027 */

/* Three tanks, two batches of fish, two beds, one way in trays and one sown in
 * place; the plan clears lettuce-1, sows and sets second and third, cleans S1,
 * grades 100 of june's heaviest into B and sells 60 of them. */
typedef struct ToldFarm {
    Farm farm;
    FarmSite site;
    Tank tanks[3];
    Bed beds[2];
    Way ways[2];
    Tray tray;
    Plant plants[2];
    Fish fish[2];
    Plan plan;
    PlanPlant plan_plants[3];
    PlanFish lanes[2];
    PlanMove moves[2];
    PlanClean clean;
} ToldFarm;

static inline void told_farm_plan(ToldFarm *f)
{
    f->plan = (Plan){.id = "accepted", .from = START, .weeks = 52};
    f->plan_plants[0] = (PlanPlant){.id = "lettuce-1",
                                    .sections = 4,
                                    .plants = 64,
                                    .sow_on = START - 60,
                                    .set_on = START - 30,
                                    .pick_from = START,
                                    .pick_until = START + 12,
                                    .clear_on = START + 14,
                                    .standing = 0};
    f->plan_plants[1] = (PlanPlant){.id = "second",
                                    .sections = 3,
                                    .plants = 48,
                                    .sow_on = START,
                                    .set_on = START + 21,
                                    .pick_from = START + 56,
                                    .pick_until = START + 68,
                                    .clear_on = START + 70,
                                    .standing = -1};
    f->plan_plants[2] = (PlanPlant){.id = "third",
                                    .way = 1,
                                    .bed = 1,
                                    .sections = 4,
                                    .plants = 400,
                                    .sow_on = START + 7,
                                    .set_on = START + 7,
                                    .pick_from = START + 49,
                                    .pick_until = START + 60,
                                    .clear_on = START + 63,
                                    .standing = -1};
    f->lanes[0] = (PlanFish){.id = "june-1",
                             .batch = "june",
                             .source = -1,
                             .lane = 1,
                             .count = 300,
                             .mean_g = 225.0};
    f->lanes[1] = (PlanFish){.id = "june-4",
                             .batch = "june",
                             .source = -1,
                             .lane = 4,
                             .count = 100,
                             .mean_g = 330.0};
    f->moves[0] = (PlanMove){.id = "m1",
                             .fish = 1,
                             .kind = MOVE_GRADE,
                             .on = START + 28,
                             .run = 1,
                             .started = 100,
                             .count = 99,
                             .to_tank = 1};
    f->moves[1] = (PlanMove){.id = "m2",
                             .fish = 1,
                             .kind = MOVE_SALE,
                             .on = START + 56,
                             .run = 1,
                             .started = 100,
                             .count = 98,
                             .from_tank = 1,
                             .to_tank = -1};
    f->clean = (PlanClean){.bed = 0, .on = START + 14};
}

static inline void told_farm_make(ToldFarm *f)
{
    *f = (ToldFarm){.site = {.id = "farm", .records_from = START}};
    f->tanks[0].id = "A";
    f->tanks[1].id = "B";
    f->tanks[2].id = "C";
    f->beds[0] = (Bed){.id = "S1", .sections = 4, .cleaned_on = DATE_ALWAYS};
    f->beds[1] = (Bed){.id = "S2", .sections = 4, .cleaned_on = DATE_ALWAYS};
    f->ways[0] = (Way){.id = "lettuce", .unit = "head"};
    f->ways[1] = (Way){.id = "rocket", .tray = -1, .unit = "kg"};
    f->tray = (Tray){.id = "tray-84", .cells = 84};
    f->plants[0] = (Plant){.id = "lettuce-1",
                           .sections = 4,
                           .set_on = START - 30,
                           .counted_on = START};
    f->plants[1] = (Plant){.id = "rocket-1",
                           .way = 1,
                           .bed = 1,
                           .sections = 4,
                           .set_on = START - 20,
                           .counted_on = START};
    f->fish[0] = (Fish){.id = "june",
                        .species = "nile-tilapia",
                        .counted_on = START,
                        .count = 400,
                        .mean_g = 251.25,
                        .cv_frac = 0.25};
    f->fish[1] = (Fish){.id = "breeders",
                        .species = "nile-tilapia",
                        .tank = 2,
                        .counted_on = START,
                        .count = 21,
                        .mean_g = 430.0,
                        .cv_frac = 0.1,
                        .is_kept = true};
    told_farm_plan(f);
    f->farm = (Farm){.farm = &f->site,
                     .farm_count = 1,
                     .tanks = f->tanks,
                     .tanks_count = 3,
                     .beds = f->beds,
                     .beds_count = 2,
                     .ways = f->ways,
                     .ways_count = 2,
                     .trays = &f->tray,
                     .trays_count = 1,
                     .plants = f->plants,
                     .plants_count = 2,
                     .fish = f->fish,
                     .fish_count = 2,
                     .plan = &f->plan,
                     .plan_count = 1,
                     .plan_plants = f->plan_plants,
                     .plan_plants_count = 3,
                     .plan_fish = f->lanes,
                     .plan_fish_count = 2,
                     .plan_moves = f->moves,
                     .plan_moves_count = 2,
                     .plan_cleans = &f->clean,
                     .plan_cleans_count = 1};
}

#endif
