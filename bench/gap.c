/* How near the search comes to the ceiling on invented farms.
 *
 * gap BEDS SEED MOVES STARTS [noceiling] */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

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

int main(int count, char **words)
{
    int beds = count > 1 ? atoi(words[1]) : 48;
    uint64_t seed = count > 2 ? (uint64_t)atoll(words[2]) : 1;
    int64_t moves = count > 3 ? atoll(words[3]) : 0;
    int starts = count > 4 ? atoi(words[4]) : 1;
    bool has_ceiling = count <= 5;
    Arena arena = {0};
    GenerateCase farm = generate_case(beds, seed);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    double best = 0.0, ceiling = 0.0;
    for (int i = 0; i < starts; i++) {
        Arena own = {0};
        double from = seconds();
        SearchSetup setup = {.seed = 1, .start = i, .moves = moves};
        Search *search = search_open(&own, &problem, &setup);
        double opened = seconds() - from;
        while (search_step(search)) {
        }
        PlanSolution plan;
        double faults = 0.0;
        double value = search_take(search, &own, &plan, &faults);
        double took = seconds() - from;
        Err err = plan_evaluate(&problem, &plan, &own, &plan.outcome);
        VerifyReport report;
        plan_verify(&problem, &plan, &own, &report);
        if (err.kind != ERR_OK || report.count > 0) {
            printf("%s %s\n", err.text, report.texts[0]);
        }
        printf("exact %.2f; ", plan.outcome.value);
        value = plan.outcome.value;
        int64_t all = search_progress(search).moves_all;
        printf("start %d: value %.2f faults %g, %d placements, %d runs, open "
               "%.2f s, %.2f s, %lld moves, %.0f ns a move\n",
               i, value, faults, plan.placement_count, plan.run_count, opened,
               took, (long long)all, 1e9 * (took - opened) / (double)all);
        best = i == 0 || value > best ? value : best;
        arena_release(&own);
    }
    if (has_ceiling) {
        LinearCeiling out;
        double from = seconds();
        Err err = linear_ceiling(&problem, NULL, &arena, &out);
        if (err.kind != ERR_OK) {
            printf("%s\n", err.text);
            return 1;
        }
        ceiling = out.value;
        printf("ceiling %.2f in %.1f s: gap %.2f %%\n", ceiling,
               seconds() - from, 100.0 * (ceiling - best) / ceiling);
    }
    arena_release(&arena);
    return 0;
}
