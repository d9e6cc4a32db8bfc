/* The ceiling in a grower's words. */
#include "plan/scarce.h"

#include <stdlib.h>
#include <string.h>

/* Below this a week's price is the solver's dust. */
static const double DUST = 0.005;

typedef struct Scarcity {
    const Problem *problem;
    PlanCeiling *out;
} Scarcity;

/* prices: by week, times scale, over the horizon. */
static void add(const Scarcity *scarcity, const char *what,
                const double *prices, double scale)
{
    PlanScarce line = {.what = what, .first_week = PLAN_NONE};
    for (int t = 0; t < scarcity->problem->horizon; t++) {
        double price = prices[t] * scale;
        if (price <= DUST) {
            continue;
        }
        line.first_week = line.weeks == 0 ? t : line.first_week;
        line.last_week = t;
        line.weeks++;
        line.total += price;
        if (price > line.peak) {
            line.peak = price;
            line.peak_week = t;
        }
    }
    if (line.weeks > 0) {
        scarcity->out->scarce[scarcity->out->scarce_count++] = line;
    }
}

static int by_total(const void *left, const void *right)
{
    const PlanScarce *a = left;
    const PlanScarce *b = right;
    if (a->total < b->total) {
        return 1;
    }
    return a->total > b->total ? -1 : strcmp(a->what, b->what);
}

static void add_beds(const Scarcity *scarcity, const LinearPrices *prices,
                     Arena *arena)
{
    const Problem *problem = scarcity->problem;
    for (int c = 0; c < problem->kind_count; c++) {
        const PlanKind *kind = &problem->kinds[c];
        int at = c * problem->week_count;
        add(scarcity, arena_text(arena, "a bed of %s", kind->name),
            prices->section + at, kind->sections_per_bed);
        add(scarcity, arena_text(arena, "a metre of edge, %s", kind->name),
            prices->edge_m + at, 1.0);
        add(scarcity, arena_text(arena, "a bed of %s in the sun", kind->name),
            prices->sun + at, kind->sections_per_bed);
    }
}

static void add_water(const Scarcity *scarcity, const LinearPrices *prices,
                      Arena *arena)
{
    const Problem *problem = scarcity->problem;
    for (int l = 0; l < problem->loop_count; l++) {
        const char *name = problem->loops[l].name;
        int at = l * problem->week_count;
        add(scarcity, arena_text(arena, "a kg of feed given, %s", name),
            prices->feed_kg + at, 1.0);
        add(scarcity, arena_text(arena, "10 g a day more nitrified, %s", name),
            prices->nitrify_g_d + at, 10.0);
    }
    for (int k = 0; k < problem->tank_count; k++) {
        const char *id = problem->tanks[k].id;
        int at = k * problem->week_count;
        add(scarcity, arena_text(arena, "room for a kg of fish, tank %s", id),
            prices->fish_kg + at, 1.0);
        add(scarcity, arena_text(arena, "10 g/h more air, tank %s", id),
            prices->air_g_h + at, 10.0);
    }
}

void plan_scarce(const Problem *problem, const LinearCeiling *ceiling,
                 Arena *arena, PlanCeiling *out)
{
    int room = 3 * problem->kind_count + 2 * problem->loop_count +
               2 * problem->tank_count + 2;
    *out = (PlanCeiling){.value = ceiling->value,
                         .scarce = ARENA_ARRAY(arena, PlanScarce, room),
                         .row_count = ceiling->row_count,
                         .column_count = ceiling->column_count};
    Scarcity scarcity = {problem, out};
    add_beds(&scarcity, &ceiling->prices, arena);
    add_water(&scarcity, &ceiling->prices, arena);
    add(&scarcity, "an hour of work", ceiling->prices.hours, 1.0);
    add(&scarcity, "a tray on the nursery bench", ceiling->prices.trays, 1.0);
    if (out->scarce_count > 1) {
        qsort(out->scarce, (size_t)out->scarce_count, sizeof *out->scarce,
              by_total);
    }
}
