/* What the demo's year asks for and what is there, by simple sums on the
 * planning problem: a yardstick that shares no code with search or ceiling. */
#ifndef LEAT_TESTS_DEMO_MEASURES_H
#define LEAT_TESTS_DEMO_MEASURES_H

#include "desk/plan_year.h"

typedef struct Demo {
    Arena arena;
    PlanYear year; /* the demo's farm, book, climate and problem */
} Demo;

/* Reads the demo from dir and builds its problem over weeks. */
void demo_open(const char *dir, int weeks, Demo *out);
void demo_close(Demo *demo);

/* What all orders (no outlets) would hold if each week's units came from the
 * column that holds its place least long for a unit, all of its yield used. */
typedef struct Wanted {
    double *floor_beds; /* by week */
    double *edge_m;
    double *hours; /* of those columns, without the fixed ones */
} Wanted;

void wanted_by_orders(Demo *demo, Wanted *out);

/* Floor beds in use, by week. */
double *beds_there(Demo *demo);

/* Mean of a week series over the weeks whose Thursday lies in that month and
 * year. */
double month_mean(const Demo *demo, const double *weeks, int year, int month);

/* Units of a way that the standing batches bring, by week. */
double *standing_units(Demo *demo, const char *way);

/* Units of a product ordered (no outlets), by week. */
double *ordered_units(Demo *demo, const char *product);

/* Most that a bed-week of a way brings: price of its first order's product x
 * yield, less seed, in its best column. Floor ways only. */
double best_bed_week(Demo *demo, const char *way);

int way_of(const Demo *demo, const char *way);
int product_of(const Demo *demo, const char *product);

/* A plan of few moves, evaluated and verified. */
void short_plan(Demo *demo, int64_t moves, PlanSolution *out);

#endif
