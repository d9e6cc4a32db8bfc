/* Our search on an invented farm beside the proven ceiling, and the same farm
 * as a model for other solvers.
 *
 * usage: plan_gap BEDS SECONDS FOLDER [SEED]
 *
 * Prints one line of words and numbers. FOLDER/plan.mps is the whole model with
 * its whole numbers, by bed kinds (so easier than ours, which is on real beds),
 * with all routes of fish that the ceiling priced in and those of our plan;
 * FOLDER/proof.mps has our choices fixed. SECONDS are of this process. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "plan/evaluate.h"
#include "plan/generate.h"
#include "plan/linear.h"
#include "plan/mps.h"
#include "plan/search.h"
#include "plan/verify.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* The search until its seconds are over: moves by what a short trial took, so
 * that the cooling ends with the time. */
static double search_for(const Problem *problem, double most_s, Arena *arena,
                         PlanSolution *out)
{
    static const double TRIAL_FRAC = 0.15, SPARE_FRAC = 0.97;
    double from = seconds();
    SearchSetup setup = {.seed = 1, .moves = search_default_moves(problem)};
    for (int i = 0; i < 2; i++) {
        CLEANUP(arena_release) Arena scratch = {0};
        double begun = seconds();
        Search *search = search_open(&scratch, problem, &setup);
        double opened = seconds();
        double until = i == 0 ? opened + TRIAL_FRAC * most_s : from + most_s;
        while (search_step(search) && seconds() < until) {
        }
        double each =
            (seconds() - opened) / (double)search_progress(search).moves;
        double left =
            SPARE_FRAC * most_s - (seconds() - from) - (opened - begun);
        if (i == 1) {
            double faults = 0.0;
            (void)search_take(search, arena, out, &faults);
        }
        double moves = left > 0.0 && each > 0.0 ? left / each : 1.0;
        setup.moves = (int64_t)(moves < 1.0 ? 1.0 : moves);
    }
    return seconds() - from;
}

static int write_file(const char *folder, const char *name, const PlanMps *mps)
{
    char path[4096];
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    if (!file || fwrite(mps->bytes, 1, mps->length, file) != mps->length ||
        fclose(file) != 0) {
        (void)fprintf(stderr, "plan_gap: %s cannot be written\n", path);
        return 3;
    }
    return 0;
}

static int write_models(const Problem *problem, const PlanSolution *plan,
                        const LinearCeiling *ceiling, const char *folder)
{
    CLEANUP(arena_release) Arena arena = {0};
    PlanMps mps;
    int count = ceiling->route_count;
    PlanRun *routes = ARENA_ARRAY(&arena, PlanRun, count + plan->run_count);
    for (int i = 0; i < count; i++) {
        routes[i] = ceiling->routes[i];
    }
    for (int i = 0; i < plan->run_count; i++) {
        routes[count++] = plan->runs[i];
    }
    plan_mps_model(problem, routes, count, &arena, &mps);
    int fault = write_file(folder, "plan.mps", &mps);
    plan_mps_proof(problem, plan, &arena, &mps);
    return fault ? fault : write_file(folder, "proof.mps", &mps);
}

int main(int count, char **words)
{
    if (count < 4) {
        (void)fprintf(stderr, "usage: plan_gap BEDS SECONDS FOLDER [SEED]\n");
        return 2;
    }
    CLEANUP(arena_release) Arena arena = {0};
    uint64_t seed = count > 4 ? (uint64_t)atoll(words[4]) : 1;
    GenerateCase farm = generate_case(atoi(words[1]), seed);
    Problem problem;
    PlanSolution plan = {0};
    VerifyReport report;
    LinearCeiling ceiling;
    generate_problem(&arena, &farm, &problem);
    double search_s = search_for(&problem, atof(words[2]), &arena, &plan);
    Err err = plan_evaluate(&problem, &plan, &arena, &plan.outcome);
    double from = seconds();
    if (err.kind == ERR_OK) {
        err = linear_ceiling(&problem, &plan, NULL, &arena, &ceiling);
    }
    double ceiling_s = seconds() - from;
    if (err.kind != ERR_OK) {
        (void)fprintf(stderr, "plan_gap: %s\n", err.text);
        return 1;
    }
    plan_verify(&problem, &plan, &arena, &report);
    printf("beds %d ours %.2f in %.1f s, broken limits %d, ceiling %.2f in "
           "%.1f s, ours of ceiling %.4f\n",
           farm.beds, plan.outcome.value, search_s, report.count, ceiling.value,
           ceiling_s, plan.outcome.value / ceiling.value);
    if (report.count > 0) {
        printf("  broken: %s\n", report.texts[0]);
    }
    return write_models(&problem, &plan, &ceiling, words[3]);
}
