/* Invented problems: bed kinds, beds and their cleanings. */
#include <math.h>

#include "plan/generate_parts.h"

static const struct {
    double edge_m;      /* of a bed with an edge */
    double clean_share; /* of beds that are due before the horizon */
    int clean_from;     /* no cleaning is due before this share (1 / n) of the
                           horizon */
} BEDS = {2.4, 0.5, 3};

static void make_bed(Generator *g, int number, PlanBed *bed)
{
    const GenerateCase *farm = g->farm;
    int kind = number % farm->kinds;
    uint8_t *edge = ARENA_ARRAY(g->arena, uint8_t, g->weeks);
    bool has_edge = kind % 2 == 0;
    for (int t = 0; t < g->weeks; t++) {
        edge[t] = has_edge;
    }
    *bed = (PlanBed){.id = arena_text(g->arena, "bed-%d", number + 1),
                     .kind = kind,
                     .sections = farm->sections,
                     .edge_m = has_edge ? BEDS.edge_m : 0.0,
                     .first_week = 0,
                     .last_week = g->weeks - 1,
                     .clean_by = PLAN_NONE,
                     .has_edge = edge};
    if (rng_f64(&g->rng) < BEDS.clean_share) {
        int from = farm->horizon / BEDS.clean_from;
        bed->clean_by =
            from + (int)rng_below(&g->rng, (uint32_t)(farm->horizon - from));
    }
}

static void make_kind(Generator *g, int number, PlanKind *kind)
{
    double sections = 0.0;
    double edge_m = 0.0;
    int cleans = 0;
    for (int b = 0; b < g->out->bed_count; b++) {
        const PlanBed *bed = &g->out->beds[b];
        if (bed->kind == number) {
            sections += bed->sections;
            edge_m += bed->edge_m;
            cleans += bed->clean_by != PLAN_NONE;
        }
    }
    *kind = (PlanKind){.name = arena_text(g->arena, "row-%d", number + 1),
                       .loop = number % g->farm->loops,
                       .sections = generate_flat(g, sections),
                       .edge_m = generate_flat(g, edge_m),
                       .cleans_due = cleans,
                       .sections_per_bed = g->farm->sections};
}

void generate_beds(Generator *g)
{
    const GenerateCase *farm = g->farm;
    PlanBed *beds = ARENA_ARRAY(g->arena, PlanBed, farm->beds);
    for (int b = 0; b < farm->beds; b++) {
        make_bed(g, b, &beds[b]);
    }
    g->out->beds = beds;
    g->out->bed_count = farm->beds;
    PlanKind *kinds = ARENA_ARRAY(g->arena, PlanKind, farm->kinds);
    for (int c = 0; c < farm->kinds; c++) {
        make_kind(g, c, &kinds[c]);
    }
    g->out->kinds = kinds;
    g->out->kind_count = farm->kinds;
}
