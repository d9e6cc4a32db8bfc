/* The planning problem: everything that search, ceiling, proof and checker
 * know.
 *
 * It is made from a farm by plan/build.c, or generated for tests and bench; it
 * names no file and no date but week numbers. Weeks are t = 0 .. week_count -
 * 1; those from horizon on are the tail, in which nothing new starts but all
 * limits hold. Money is in units of the currency (double inside plan/; rounded
 * once at its edge). All arrays "by week" have week_count entries. Everything
 * is borrowed from the arena the problem was built in and is never changed
 * afterwards. The model: docs/planning.md. */
#ifndef LEAT_PLAN_PROBLEM_H
#define LEAT_PLAN_PROBLEM_H

#include <stdbool.h>
#include <stdint.h>

enum { PLAN_LANES = 4, PLAN_NONE = -1 };

/* Beds alike for planting: tunnel, side, light, edge, loop, winter state. */
typedef struct PlanKind {
    const char *name;        /* "H1 south" */
    int loop;                /* PLAN_NONE: on no loop */
    const double *sections;  /* by week: sections of its beds in use */
    const double *edge_m;    /* by week: metres of edge that may be planted */
    int cleans_due;          /* deep cleans its beds need before the horizon */
    double sections_per_bed; /* of a bed in deep cleaning */
} PlanKind;

typedef struct PlanBed {
    const char *id;
    int kind;
    int sections;
    double edge_m;
    int first_week;          /* in use from */
    int last_week;           /* last week in use */
    int clean_by;            /* week by which a deep clean must have begun, or
                                PLAN_NONE; never due while a batch that stands past
                                the end holds the bed */
    const uint8_t *has_edge; /* by week: 1 where its edge may be planted */
} PlanBed;

/* A column: one way set out in one week in one bed kind, per unit (a whole
 * section on the floor, one plant on an edge). Weekly profiles have weeks
 * entries; entry 0 is week first_week (the sowing week). */
typedef struct PlanOption {
    int way;
    int kind;
    int goods; /* what it gives */
    bool is_edge;
    bool wants_sun;   /* floor: may not stand where an edge shades */
    bool is_standing; /* already in the ground: fixed, not for the search */
    int trays_of;     /* set from seedlings that stand: their row, counted from
                         1; 0: sown for it */
    int sow_week;     /* before 0 only when standing or set from seedlings */
    int set_week;
    int clear_week; /* the place is free from here; > the last: to the end */
    int pick_from;  /* first and last week with a yield */
    int pick_until;
    double place;  /* floor: sections (1); edge: metres a plant takes */
    double plants; /* plants a unit */
    int first_week;
    int weeks;
    const double *trays;   /* nursery bench */
    const double *hours;   /* work, picking included */
    const double *want_kg; /* feed wanted, kg a week */
    const double *low;   /* yield that can be counted on, in the goods' unit */
    const double *mean;  /* yield to be expected */
    const double *shade; /* edge: sections of its own bed it shades, a plant */
    double cost;         /* seed, tray */
} PlanOption;

/* A standing batch: x fixed at units on that bed. */
typedef struct PlanStanding {
    int option;
    int bed;
    int first_section; /* floor */
    int units;
    const char *id;
} PlanStanding;

/* Seedlings in trays on the first day that may go to any bed: the options that
 * are set from them take so many plants together at most. */
typedef struct PlanSeedlings {
    const char *id;
    int way;
    double plants;
} PlanSeedlings;

typedef struct PlanLoop {
    const char *name;
    double pool_start_kg; /* feed that the water's stores stand for today */
    double pool_max_kg;
    double pool_keep;          /* share that lasts a week */
    double short_price;        /* lost yield for a kg of feed short */
    const double *lost_frac;   /* by week: share of feed lost to handling */
    const double *nitrify_g_d; /* by week: TAN the beds carry */
} PlanLoop;

typedef struct PlanTank {
    const char *id;
    int loop;       /* PLAN_NONE: outside the loops */
    double most_kg; /* density ceiling x volume */
    int most_batches;
    double most_heads;     /* for readers that need some bound; not a limit */
    const double *air_g_h; /* by week: oxygen its air carries */
    const uint8_t *may_grade; /* by week: water allows grading */
    const uint8_t *may_catch; /* by week: water allows a catch for sale */
    bool is_stockable;        /* young fish may start here */
} PlanTank;

/* A quarter of a fish batch by weight, per fish at its start. Arrays by week;
 * 0 before the batch starts. */
typedef struct PlanLane {
    double share;             /* of the batch's heads */
    const double *weight_g;   /* mean of the lane on that Monday */
    const double *alive;      /* share of the started fish */
    const double *feed_kg;    /* a week, thinned by survival */
    const double *oxygen_g_h; /* at the worst hour, thinned */
    const double *tan_g_d;    /* thinned */
} PlanLane;

/* A fish batch: standing today, or one that may be stocked. */
typedef struct PlanStock {
    const char *id;
    bool is_standing;
    bool is_kept; /* breeders: stay where they are */
    int source;   /* index of the farm's fish source, or PLAN_NONE */
    int start_week;
    int tank;  /* standing: where it is; else PLAN_NONE */
    int loop;  /* whose water its lanes were grown in */
    int least; /* fish; standing: least = most = its count */
    int most;
    double cost;  /* of a fish at the start */
    double hours; /* of stocking */
    PlanLane lanes[PLAN_LANES];
} PlanStock;

/* A size of fish that is sold, as goods: heads of this weight or more. */
typedef struct PlanGoods {
    const char *name;
    bool is_fish;
    double over_g; /* fish: sold at this weight or more */
    double kg_per_unit;
    double keep; /* share of a store that lasts to the next week; 0: none */
    double store_max; /* most units in store */
} PlanGoods;

typedef struct PlanPart {
    int goods;
    double units; /* in one unit of the product */
    double low;   /* least and most share of it; both 1: fixed */
    double high;
} PlanPart;

/* Every product is a mix; a simple one has one part. */
typedef struct PlanProduct {
    const char *name;
    const PlanPart *parts;
    int part_count;
} PlanProduct;

typedef struct PlanOrder {
    const char *id;
    int product;
    bool is_firm;         /* met from what can be counted on */
    const double *wanted; /* by week; 0 in closed weeks */
    const double *price;  /* by week, a unit, without tax */
    double miss;          /* price of missing a unit */
    double least;         /* least useful quantity; told, not planned */
} PlanOrder;

/* A step of an outlet: room at a price. Steps of an outlet fall in price. */
typedef struct PlanOutlet {
    const char *id;
    int product;
    const double *room; /* by week */
    const double *price;
} PlanOutlet;

typedef struct PlanFishRules {
    int weeks_between;      /* between two grading events of a tank */
    double catch_hours;     /* netting a tank for a sale */
    double grade_hours;     /* netting a tank to grade it */
    double feed_lost_frac;  /* of the tank's week of feed, at an event */
    double feed_price_kg;   /* of all feed given, told under fish_cost */
    double end_price_kg;    /* living fish at the end, already x 0.7 */
    double unsold_price;    /* of a fish that is caught and no buyer takes */
    double purge_feed_frac; /* share of the last week's feed not given */
    double purge_loss_frac; /* weight lost in purging */
    /* Sizes are neighbours where the larger mean is at most this many times
     * the smaller: only then may two batches share a tank. */
    double neighbour_ratio;
} PlanFishRules;

/* Fish in a unit of a product: the units of its parts that are fish. */
static inline double plan_fish_units(const PlanProduct *product,
                                     const PlanGoods *goods)
{
    double units = 0.0;
    for (int j = 0; j < product->part_count; j++) {
        units += goods[product->parts[j].goods].is_fish
                     ? product->parts[j].units
                     : 0.0;
    }
    return units;
}

typedef struct Problem {
    int horizon;    /* T: weeks in which something new may start (be sown) */
    int32_t from;   /* Monday of week 0; 0: none, as where it is generated */
    int week_count; /* T + tail */
    int way_count;
    const char *const *way_names;
    const PlanKind *kinds;
    int kind_count;
    const PlanBed *beds;
    int bed_count;
    const PlanOption *options;
    int option_count;
    const PlanStanding *standing;
    int standing_count;
    const PlanSeedlings *seedlings;
    int seedlings_count;
    const PlanLoop *loops;
    int loop_count;
    const PlanTank *tanks;
    int tank_count;
    const PlanStock *stocks;
    int stock_count;
    PlanFishRules fish;
    const PlanGoods *goods;
    int goods_count;
    const PlanProduct *products;
    int product_count;
    const PlanOrder *orders;
    int order_count;
    const PlanOutlet *outlets;
    int outlet_count;
    const double *trays;       /* by week: nursery bench, in trays */
    const double *hours_fixed; /* by week: rounds, tests, deliveries */
    const double *hours_paid;
    const double *hours_extra; /* most that can be had above paid */
    double wage_extra_h;
    double wages_paid; /* whole span; a constant, told but not planned */
    double heat_cost;  /* whole span; a constant */
    /* What a section, or an edge batch, of an accepted plan that is not as it
     * was counts for in the search: in week 0, and the weeks ahead after which
     * it counts for half. It is not in the value. */
    double change_price;
    double change_half_weeks;
    double store_room_kg;      /* 0: no store */
    const double *clean_hours; /* by kind: work of one bed's deep clean */
    double clean_share;        /* of a loop's beds in deep cleaning in a
                                  fortnight, at most */
} Problem;

#endif
