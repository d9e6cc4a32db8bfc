/* Invented problems: ways, options, standing batches and the nursery. */
#include <math.h>

#include "plan/generate_parts.h"

static const InventedWay WAYS[GENERATE_MOST_WAYS] = {
    /* name, form, edge, sun, nursery, need, pick, warm, plants, yield, kg,
       price, cost, set h, pick h, want, low, keep, share */
    {"big head", FORM_HEAD, 0, 1, 3, 4.2, 1, 0, 11, 10, .35, 1.6, .07, .30,
     .012, .09, .86, .7, .20},
    {"cutting leaf", FORM_CUT, 0, 1, 0, 3.0, 6, 0, 60, .55, 1, 15, .004, .2,
     .30, .08, .84, .6, .06},
    {"climber", FORM_FRUIT, 1, 0, 3, 4.5, 12, .35, 1, 3.2, .45, 1.4, .6, .20,
     .012, .05, .82, .75, .5},
    {"red leaf", FORM_CUT, 0, 1, 0, 3.1, 5, 0, 60, .5, 1, 16, .004, .2, .32,
     .08, .83, .6, .05},
    {"hot leaf", FORM_CUT, 0, 1, 0, 2.4, 5, 0, 70, .45, 1, 17, .003, .2, .35,
     .08, .83, .6, .05},
    {"tender herb", FORM_CUT, 0, 1, 4, 3.2, 9, .42, 12, 5, .04, 2.1, .08, .35,
     .02, .09, .84, 0, .08},
    {"stalk leaf", FORM_CUT, 0, 0, 3, 4.0, 12, 0, 9, 2.0, .3, 2.6, .06, .3, .02,
     .09, .88, .7, .08},
    {"curled herb", FORM_CUT, 0, 0, 5, 4.8, 14, 0, 14, 3.2, .05, 1.6, .05, .3,
     .02, .07, .87, .6, .05},
    {"broad leaf", FORM_CUT, 0, 1, 0, 3.2, 4, 0, 50, 3.5, .2, 2.8, .004, .2,
     .03, .08, .82, .6, .06},
    {"spice leaf", FORM_CUT, 0, 1, 0, 3.4, 3, 0, 60, 5.5, .04, 1.7, .004, .2,
     .02, .07, .80, .5, .04},
    {"stem head", FORM_HEAD, 0, 1, 6, 8.0, 1, 0, 6, 6, .6, 3.0, .1, .3, .015,
     .09, .85, .8, .04},
    {"white head", FORM_HEAD, 0, 1, 5, 7.5, 1, 0, 2, 2, 1.2, 3.2, .15, .3, .02,
     .11, .78, .8, .04},
    {"green head", FORM_HEAD, 0, 1, 5, 7.0, 1, 0, 2, 2, .65, 2.6, .15, .3, .02,
     .11, .78, .8, .04},
    {"small fruit", FORM_FRUIT, 0, 1, 7, 7.0, 14, .30, 2, 1.1, 1, 4.6, .4, .5,
     .10, .14, .84, .7, .08},
    {"pod fruit", FORM_FRUIT, 0, 1, 8, 7.5, 12, .36, 3, .9, 1, 5.0, .4, .4, .09,
     .14, .82, .7, .06},
    {"dark fruit", FORM_FRUIT, 0, 1, 8, 7.0, 12, .38, 2, .9, 1, 4.2, .4, .4,
     .08, .14, .82, .7, .04},
    {"flower tub", FORM_CUT, 0, 1, 4, 3.5, 12, 0, 9, 1.2, .03, 6.5, .08, .3,
     .12, .05, .80, .5, .03},
    {"edge flower", FORM_CUT, 1, 0, 3, 3.6, 10, .25, 1, .45, .03, 6.0, .08, .1,
     .12, .02, .80, .5, .3},
    {"sticky herb", FORM_CUT, 0, 0, 6, 5.0, 20, 0, 8, 1.6, .025, 2.0, .1, .3,
     .02, .05, .88, .7, .02},
    {"young leaf", FORM_HEAD, 0, 1, 0, 2.6, 1, 0, 90, 1.1, 1, 13, .004, .2, .30,
     .08, .82, .6, .03},
};

/* What does not differ between ways. */
static const struct {
    int longest;          /* weeks in the bed */
    double winter_yield;  /* yield at no growth against full growth */
    double plants_a_tray; /* of the nursery */
    double tray_slack;    /* trays against what the demand needs */
    double edge_plant_m;
    double edge_shade; /* sections of its bed that an edge plant shades */
    double shape_loss; /* of the yield for each week that a pick is spread */
    double clear_hours;
    double taken;      /* share of beds under a standing batch */
    int tray_sections; /* of seedlings in trays, at most */
    int wait_weeks;    /* in which they may be set */
} PLANTS = {28, 0.7, 40.0, 1.15, 0.4, 0.25, 0.03, 0.1, 0.7, 6, 2};

const InventedWay *generate_way(int way)
{
    return &WAYS[way];
}

/* The first week with a pick, or -1 when it never comes so far. */
static int first_pick(const Generator *g, int way, int kind, int set_week)
{
    double grown = 0.0;
    for (int t = set_week; t < set_week + PLANTS.longest; t++) {
        if (grown >= WAYS[way].need) {
            return t;
        }
        grown += generate_way_growth(g, way, kind, t);
    }
    return -1;
}

/* The last week with a pick for a picking shape 0, 1, 2. */
static int last_pick(const Generator *g, int way, int kind, int from, int shape)
{
    const InventedWay *w = &WAYS[way];
    if (w->form == FORM_HEAD) {
        return from + shape;
    }
    int most = w->pick_weeks - shape * (w->pick_weeks / GENERATE_MOST_SHAPES);
    int until = from;
    while (until + 1 < from + most &&
           generate_way_growth(g, way, kind, until + 1) > 0.0) {
        until++;
    }
    return until;
}

/* Yield of one unit in one week of its picking. */
static double pick_yield(const Generator *g, const PlanOption *option, int week)
{
    const InventedWay *w = &WAYS[option->way];
    if (w->form != FORM_HEAD) {
        return w->yield *
               generate_way_growth(g, option->way, option->kind, week);
    }
    int spread = option->pick_until - option->pick_from;
    double season = PLANTS.winter_yield +
                    (1.0 - PLANTS.winter_yield) * generate_growth(week);
    return w->yield * season * (1.0 - PLANTS.shape_loss * spread) /
           (spread + 1);
}

static void fill_profiles(Generator *g, PlanOption *option)
{
    const InventedWay *w = &WAYS[option->way];
    int weeks = option->weeks;
    double *trays = ARENA_ARRAY(g->arena, double, weeks);
    double *hours = ARENA_ARRAY(g->arena, double, weeks);
    double *want = ARENA_ARRAY(g->arena, double, weeks);
    double *low = ARENA_ARRAY(g->arena, double, weeks);
    double *mean = ARENA_ARRAY(g->arena, double, weeks);
    double *shade = ARENA_ARRAY(g->arena, double, weeks);
    for (int i = 0; i < weeks; i++) {
        int week = option->first_week + i;
        if (week < option->set_week) {
            trays[i] = option->plants / PLANTS.plants_a_tray;
            continue;
        }
        want[i] = w->want_kg_wk *
                  generate_way_growth(g, option->way, option->kind, week);
        shade[i] = option->is_edge ? PLANTS.edge_shade : 0.0;
        if (week >= option->pick_from && week <= option->pick_until) {
            mean[i] = pick_yield(g, option, week);
            low[i] = mean[i] * w->low_frac;
            hours[i] = mean[i] * w->pick_hours;
        }
        hours[i] += week == option->set_week ? w->set_hours : 0.0;
        hours[i] += week == option->pick_until ? PLANTS.clear_hours : 0.0;
    }
    option->trays = trays;
    option->hours = hours;
    option->want_kg = want;
    option->low = low;
    option->mean = mean;
    option->shade = shade;
}

/* False when the way cannot be set out there in that week. */
static bool make_option(Generator *g, PlanOption *option, int shape)
{
    const InventedWay *w = &WAYS[option->way];
    int from = first_pick(g, option->way, option->kind, option->set_week);
    if (from < 0) {
        return false;
    }
    option->sow_week = option->set_week - w->nursery_weeks;
    option->pick_from = from;
    option->pick_until = last_pick(g, option->way, option->kind, from, shape);
    option->clear_week = option->pick_until + 1;
    option->goods = option->way;
    option->is_edge = w->is_edge;
    option->wants_sun = w->wants_sun;
    option->place = w->is_edge ? PLANTS.edge_plant_m : 1.0;
    option->plants = w->plants;
    option->first_week = option->sow_week;
    option->weeks = option->clear_week - option->sow_week;
    bool is_sunk = option->is_standing || option->trays_of > 0;
    option->cost = is_sunk ? 0.0 : w->plants * w->cost;
    fill_profiles(g, option);
    return true;
}

static int make_free_options(Generator *g, PlanOption *options)
{
    const GenerateCase *farm = g->farm;
    int count = 0;
    for (int way = 0; way < farm->ways; way++) {
        for (int i = 0; i < farm->kinds * farm->horizon * farm->shapes; i++) {
            PlanOption option = {.way = way,
                                 .kind = i / farm->shapes / farm->horizon,
                                 .set_week = i / farm->shapes % farm->horizon};
            bool has_place = !WAYS[way].is_edge || option.kind % 2 == 0;
            bool is_late = option.set_week < WAYS[way].nursery_weeks;
            if (has_place && !is_late &&
                make_option(g, &option, i % farm->shapes)) {
                options[count++] = option;
            }
        }
    }
    return count;
}

/* Standing batches: a floor way of the cool half of the list on most beds,
 * set out some weeks ago. */
static int make_standing(Generator *g, PlanOption *options, int count)
{
    static const int WEEKS_AGO = 9;
    Problem *out = g->out;
    PlanStanding *standing =
        ARENA_ARRAY(g->arena, PlanStanding, out->bed_count);
    for (int b = 0; b < out->bed_count; b++) {
        int way = (int)rng_below(&g->rng, (uint32_t)g->farm->ways);
        int ago = 1 + (int)rng_below(&g->rng, (uint32_t)WEEKS_AGO);
        PlanOption option = {.way = way,
                             .kind = out->beds[b].kind,
                             .set_week = -ago,
                             .is_standing = true};
        bool is_taken = rng_f64(&g->rng) < PLANTS.taken;
        if (!is_taken || WAYS[way].is_edge || WAYS[way].warm > 0.0 ||
            !make_option(g, &option, 0) || option.clear_week < 1 ||
            option.clear_week > g->farm->horizon / 3) {
            continue;
        }
        standing[out->standing_count] =
            (PlanStanding){.option = count,
                           .bed = b,
                           .units = out->beds[b].sections,
                           .id = arena_text(g->arena, "standing-%d", b + 1)};
        out->standing_count++;
        options[count++] = option;
    }
    out->standing = standing;
    return count;
}

/* Options of one batch of seedlings in each kind. */
static int make_from_trays(Generator *g, int trays_of, int way,
                           PlanOption *options, int count)
{
    for (int i = 0; i < g->farm->kinds * PLANTS.wait_weeks; i++) {
        PlanOption option = {.way = way,
                             .kind = i / PLANTS.wait_weeks,
                             .trays_of = trays_of,
                             .set_week = i % PLANTS.wait_weeks};
        bool has_place = !WAYS[way].is_edge || option.kind % 2 == 0;
        if (has_place && make_option(g, &option, 0)) {
            options[count++] = option;
        }
    }
    return count;
}

/* Seedlings in trays: of ways that are raised there, so many that they fill a
 * few sections and some are left over. */
static int make_seedlings(Generator *g, PlanOption *options, int count)
{
    PlanSeedlings *seedlings =
        ARENA_ARRAY(g->arena, PlanSeedlings, g->farm->seedlings);
    for (int i = 0; i < g->farm->seedlings; i++) {
        int way = (int)rng_below(&g->rng, (uint32_t)g->farm->ways);
        while (WAYS[way].nursery_weeks == 0) {
            way = (way + 1) % g->farm->ways;
        }
        int sections = (int)rng_below(&g->rng, (uint32_t)PLANTS.tray_sections);
        seedlings[i] = (PlanSeedlings){
            .id = arena_text(g->arena, "trays-%d", i + 1),
            .way = way,
            .plants = (sections + rng_f64(&g->rng)) * WAYS[way].plants};
        count = make_from_trays(g, i + 1, way, options, count);
    }
    g->out->seedlings = seedlings;
    g->out->seedlings_count = g->farm->seedlings;
    return count;
}

void generate_options(Generator *g)
{
    const GenerateCase *farm = g->farm;
    int most = farm->ways * farm->kinds * farm->horizon * farm->shapes +
               farm->seedlings * farm->kinds * PLANTS.wait_weeks;
    PlanOption *options = ARENA_ARRAY(g->arena, PlanOption, most + farm->beds);
    int count = make_free_options(g, options);
    count = make_standing(g, options, count);
    count = make_seedlings(g, options, count);
    g->out->options = options;
    g->out->option_count = count;
    const char **names = ARENA_ARRAY(g->arena, const char *, farm->ways);
    double trays = 1.0;
    for (int way = 0; way < farm->ways; way++) {
        const InventedWay *w = &WAYS[way];
        names[way] = w->name;
        double rounds = w->form == FORM_HEAD ? 1.0 : w->pick_weeks;
        trays += PLANTS.tray_slack * generate_weekly_demand(g, way) /
                 (w->yield * rounds) * w->plants * w->nursery_weeks /
                 PLANTS.plants_a_tray;
    }
    g->out->way_names = names;
    g->out->trays = generate_flat(g, ceil(trays));
}

double generate_weekly_demand(const Generator *g, int way)
{
    static const double MEAN_GROWTH = 0.62;
    const InventedWay *w = &WAYS[way];
    double beds = 0.0;
    double edge_m = 0.0;
    for (int b = 0; b < g->out->bed_count; b++) {
        beds += g->out->beds[b].sections;
        edge_m += g->out->beds[b].edge_m;
    }
    double growth = (MEAN_GROWTH - w->warm) / (1.0 - w->warm);
    double grow_weeks = w->need / growth;
    double yield = w->form == FORM_HEAD ? w->yield / (grow_weeks + 1.0)
                                        : w->yield * growth * w->pick_weeks /
                                              (grow_weeks + w->pick_weeks);
    double units = w->is_edge ? edge_m / PLANTS.edge_plant_m : beds;
    return g->farm->crowding * w->share * units * yield;
}
