/* Fish that may not share a tank.
 *
 * Stocks no two of which are neighbours in size: at most one of them is in the
 * tank, so the sum of (heads / most heads) is at most 1. Ordered by weight the
 * heaviest such chain is found stock by stock. */
#include "plan/linear_cliques.h"

#include <math.h>

typedef struct CliqueWork {
    LinearPlan *plan;
    double *share; /* [tank][week][stock] of the most heads */
    int *order;    /* stocks by weight */
    double *mean_g;
    double *chain; /* most share of a chain that ends with the stock */
    int *before;   /* the stock before it in that chain, or PLAN_NONE */
} CliqueWork;

static const double BROKEN = 1e-4;

static void sum_shares(CliqueWork *work, const double *x)
{
    const LinearPlan *plan = work->plan;
    const Problem *problem = plan->problem;
    for (int i = 0; i < plan->run_count; i++) {
        double count = x[plan->run_columns[i]];
        const PlanRun *run = &plan->runs[i];
        int t = problem->stocks[run->stock].start_week;
        for (; t < run->sale_week && count > 0.0; t++) {
            int k = linear_run_tank(run, t);
            int at = k * plan->weeks + t;
            work->share[at * problem->stock_count + run->stock] +=
                count / linear_most_heads(problem, run->stock, k, t);
        }
    }
}

/* Those with a share in the tank that week, lightest first. */
static int sort_stocks(CliqueWork *work, const double *share, int week)
{
    const Problem *problem = work->plan->problem;
    int count = 0;
    for (int i = 0; i < problem->stock_count; i++) {
        if (!(share[i] > 0.0)) {
            continue;
        }
        work->mean_g[i] = linear_stock_mean_g(&problem->stocks[i], week);
        int at = count++;
        for (; at > 0 && work->mean_g[work->order[at - 1]] > work->mean_g[i];
             at--) {
            work->order[at] = work->order[at - 1];
        }
        work->order[at] = i;
    }
    return count;
}

/* The last stock of the chain with the largest share. */
static int longest_chain(CliqueWork *work, const double *share, int count)
{
    double ratio = work->plan->problem->fish.neighbour_ratio;
    int best = PLAN_NONE;
    for (int a = 0; a < count; a++) {
        int i = work->order[a];
        work->chain[i] = share[i];
        work->before[i] = PLAN_NONE;
        for (int b = 0; b < a; b++) {
            int j = work->order[b];
            if (work->mean_g[i] > ratio * work->mean_g[j] * (1.0 + 1e-9) &&
                work->chain[j] + share[i] > work->chain[i]) {
                work->chain[i] = work->chain[j] + share[i];
                work->before[i] = j;
            }
        }
        if (best == PLAN_NONE || work->chain[i] > work->chain[best]) {
            best = i;
        }
    }
    return best;
}

static void add_clique(CliqueWork *work, int tank, int week, int last)
{
    LinearPlan *plan = work->plan;
    int count = 0;
    for (int i = last; i != PLAN_NONE; i = work->before[i]) {
        count++;
    }
    LinearClique clique = {.tank = tank, .week = week};
    clique.stocks = ARENA_ARRAY(plan->arena, int, count);
    for (int i = last; i != PLAN_NONE; i = work->before[i]) {
        clique.stocks[clique.count++] = i;
    }
    clique.row = linear_model_row(
        &plan->model,
        (LinearTag){LINEAR_NEIGHBOURS, tank, plan->clique_count, week},
        -INFINITY, 1.0);
    for (int i = 0; i < plan->run_count; i++) {
        const PlanRun *run = &plan->runs[i];
        bool is_there = week >= plan->problem->stocks[run->stock].start_week &&
                        week < run->sale_week &&
                        linear_run_tank(run, week) == tank;
        for (int j = 0; j < clique.count && is_there; j++) {
            if (clique.stocks[j] == run->stock) {
                linear_model_entry(
                    &plan->model, clique.row, plan->run_columns[i],
                    1.0 / linear_most_heads(plan->problem, run->stock, tank,
                                            week));
            }
        }
    }
    if (plan->clique_count == plan->clique_room) {
        int more = plan->clique_room == 0 ? 64 : 2 * plan->clique_room;
        plan->cliques =
            arena_grow(plan->arena, plan->cliques, (size_t)plan->clique_count,
                       (size_t)more, sizeof *plan->cliques);
        plan->clique_room = more;
    }
    plan->cliques[plan->clique_count++] = clique;
}

int linear_add_cliques(LinearPlan *plan, const double *x)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const Problem *problem = plan->problem;
    int stocks = problem->stock_count;
    int places = problem->tank_count * plan->weeks;
    CliqueWork work = {.plan = plan,
                       .share = ARENA_ARRAY(&scratch, double, places *stocks),
                       .order = ARENA_ARRAY(&scratch, int, stocks),
                       .mean_g = ARENA_ARRAY(&scratch, double, stocks),
                       .chain = ARENA_ARRAY(&scratch, double, stocks),
                       .before = ARENA_ARRAY(&scratch, int, stocks)};
    int added = 0;
    sum_shares(&work, x);
    for (int at = 0; at < places; at++) {
        const double *share = &work.share[at * stocks];
        int count = sort_stocks(&work, share, at % plan->weeks);
        int last = longest_chain(&work, share, count);
        if (last != PLAN_NONE && work.chain[last] > 1.0 + BROKEN) {
            add_clique(&work, at / plan->weeks, at % plan->weeks, last);
            added++;
        }
    }
    return added;
}
