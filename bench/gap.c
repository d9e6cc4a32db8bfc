/* How near the search comes to the ceiling, on an invented farm or on a farm's
 * folder.
 *
 * usage: gap BEDS|FOLDER [SEED [MOVES [STARTS [PARTS]]]]
 *
 * SEED is the invented farm's, or the first of a folder's searches; MOVES 0:
 * the default. PARTS: letters, p the search, c the ceiling, r its rounds told;
 * s the ceiling begins from the plan of a short search; f without beds, b
 * without fish. All seconds are of this process. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/plan_year.h"
#include "plan/evaluate.h"
#include "plan/generate.h"
#include "plan/linear.h"
#include "plan/search.h"
#include "plan/verify.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

typedef struct Bench {
    Arena arena;
    PlanYear year;
    Problem problem;
    uint64_t seed;
    int64_t moves;
    int starts;
    const char *parts;
    bool is_folder;
} Bench;

static bool has(const Bench *bench, char part)
{
    return strchr(bench->parts, part) != NULL;
}

static Err make(Bench *bench, const char *word)
{
    int beds = atoi(word);
    bench->is_folder = beds == 0;
    if (bench->is_folder) {
        const Farm *farm = NULL;
        TRY(check_farm_load(word, &bench->arena, &farm));
        PlanInputs wanted = {.from = week_of(farm->farm[0].records_from),
                             .weeks = 52};
        TRY(plan_year_make(farm, &wanted, &bench->arena, &bench->year));
        bench->problem = bench->year.problem;
    } else {
        GenerateCase farm = generate_case(beds, bench->seed);
        generate_problem(&bench->arena, &farm, &bench->problem);
    }
    if (has(bench, 'f')) {
        bench->problem.option_count = bench->problem.standing_count = 0;
        bench->problem.seedlings_count = bench->problem.bed_count = 0;
        bench->problem.kind_count = 0;
    }
    if (has(bench, 'b')) {
        bench->problem.stock_count = 0;
    }
    return ERR_NONE;
}

/* Heads that are caught and reach no buyer, those given up among them. */
static double fish_unsold(const Problem *problem, const PlanOutcome *outcome)
{
    double heads = 0.0;
    int weeks = problem->week_count;
    for (int i = 0; i < problem->goods_count * weeks; i++) {
        heads += problem->goods[i / weeks].is_fish ? outcome->made[i] : 0.0;
    }
    int part = 0;
    for (int p = 0; p < problem->product_count; p++) {
        for (int j = 0; j < problem->products[p].part_count; j++, part++) {
            int goods = problem->products[p].parts[j].goods;
            for (int t = 0; t < weeks && problem->goods[goods].is_fish; t++) {
                heads -= outcome->part_firm[part * weeks + t] +
                         outcome->part_rest[part * weeks + t];
            }
        }
    }
    return heads;
}

static double search_once(const Bench *bench, int start)
{
    CLEANUP(arena_release) Arena own = {0};
    const Problem *problem = &bench->problem;
    double from = seconds();
    SearchSetup setup = {.seed = bench->is_folder ? bench->seed : 1,
                         .start = start,
                         .moves = bench->moves};
    Search *search = search_open(&own, problem, &setup);
    while (search_step(search)) {
    }
    PlanSolution plan;
    double faults = 0.0;
    (void)search_take(search, &own, &plan, &faults);
    double took = seconds() - from;
    VerifyReport report;
    Err err = plan_evaluate(problem, &plan, &own, &plan.outcome);
    plan_verify(problem, &plan, &own, &report);
    if (err.kind != ERR_OK || report.count > 0) {
        printf("broken: %s %s\n", err.text,
               report.count > 0 ? report.texts[0] : "");
    }
    printf("start %d: %.2f in %.2f s, %lld moves, %d placements, %d runs, %.1f "
           "fish unsold\n",
           start, plan.outcome.value, took,
           (long long)search_progress(search).moves_all, plan.placement_count,
           plan.run_count, fish_unsold(problem, &plan.outcome));
    (void)fflush(stdout);
    return plan.outcome.value;
}

static bool tell_round(void *self, double value, double ceiling)
{
    const Bench *bench = self;
    if (has(bench, 'r')) {
        printf("  %.2f s: value %.2f, ceiling %.2f\n", seconds(), value,
               ceiling);
        (void)fflush(stdout);
    }
    return true;
}

static void tell_ceiling(Bench *bench, double best)
{
    static const int64_t SHORT_MOVES = 100000;
    LinearCeiling out;
    PlanSolution plan;
    LinearWatch watch = {bench, tell_round};
    double from = seconds();
    if (has(bench, 's')) {
        SearchSetup setup = {.seed = 1, .moves = SHORT_MOVES};
        Search *search = search_open(&bench->arena, &bench->problem, &setup);
        while (search_step(search)) {
        }
        double faults = 0.0;
        (void)search_take(search, &bench->arena, &plan, &faults);
    }
    Err err = linear_ceiling(&bench->problem, has(bench, 's') ? &plan : NULL,
                             &watch, &bench->arena, &out);
    if (err.kind != ERR_OK) {
        printf("%s\n", err.text);
        return;
    }
    printf("ceiling %.2f in %.2f s, %d rounds, %d steps, %d rows, %d columns, "
           "%d routes: gap %.2f %%\n",
           out.value, seconds() - from, out.round_count, out.step_count,
           out.row_count, out.column_count, out.route_count,
           100.0 * (out.value - best) / out.value);
}

int main(int count, char **words)
{
    Bench bench = {.seed = count > 2 ? (uint64_t)atoll(words[2]) : 1,
                   .moves = count > 3 ? atoll(words[3]) : 0,
                   .starts = count > 4 ? atoi(words[4]) : 1,
                   .parts = count > 5 ? words[5] : "pc"};
    Err err = make(&bench, count > 1 ? words[1] : "48");
    if (err.kind != ERR_OK) {
        printf("%s\n", err.text);
        return 1;
    }
    double best = 0.0;
    for (int i = 0; i < bench.starts && has(&bench, 'p'); i++) {
        double value = search_once(&bench, i);
        best = i == 0 || value > best ? value : best;
    }
    if (has(&bench, 'c')) {
        tell_ceiling(&bench, best);
    }
    arena_release(&bench.arena);
    return 0;
}
