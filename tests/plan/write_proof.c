/* Writes models for another solver to check: write_proof FOLDER.
 *
 * Each NAME.mps has a line in cases.csv: name, status wanted, value wanted (as
 * it is minimised, so with its sign turned), rows, columns. */
#include <stdio.h>

#include "check.h"

#include "brute_force.h"
#include "plan/mps.h"
#include "random_plan.h"

enum { SEEDS = 3 };

typedef struct Output {
    const char *folder;
    FILE *list;
} Output;

static void write_case(const Output *output, const char *name,
                       const char *status, double value, const PlanMps *mps)
{
    char path[4096];
    (void)snprintf(path, sizeof path, "%s/%s.mps", output->folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(mps->bytes, 1, mps->length, file), mps->length);
    assert_int_equal(fclose(file), 0);
    (void)fprintf(output->list, "%s,%s,%.9f,%d,%d\n", name, status, -value,
                  mps->row_count, mps->column_count);
}

static void write_seed(const Output *output, uint64_t seed)
{
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_tiny_case(seed);
    Rng rng = rng_make(seed, 5);
    Problem problem;
    PlanSolution plan;
    PlanMps mps;
    int number = (int)seed;
    generate_problem(&arena, &farm, &problem);
    random_plan(&problem, &rng, 100, &arena, &plan);
    plan_mps_proof(&problem, &plan, &arena, &mps);
    write_case(output, arena_text(&arena, "sound-%d", number), "Optimal",
               plan.outcome.value, &mps);
    plan.placements[0].units += 9;
    plan_mps_proof(&problem, &plan, &arena, &mps);
    write_case(output, arena_text(&arena, "broken-bed-%d", number),
               "Infeasible", 0.0, &mps);
    plan.placements[0].units -= 9;
    plan.runs[0].count++;
    plan_mps_proof(&problem, &plan, &arena, &mps);
    write_case(output, arena_text(&arena, "broken-lane-%d", number),
               "Infeasible", 0.0, &mps);
    farm = brute_force_case(seed);
    generate_problem(&arena, &farm, &problem);
    (void)brute_force(&problem, &arena, &plan);
    plan_mps_model(&problem, NULL, 0, &arena, &mps);
    write_case(output, arena_text(&arena, "whole-%d", number), "Optimal",
               plan.outcome.value, &mps);
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        (void)fprintf(stderr, "usage: write_proof FOLDER\n");
        return 2;
    }
    char path[4096];
    (void)snprintf(path, sizeof path, "%s/cases.csv", argv[1]);
    Output output = {argv[1], fopen(path, "wb")};
    if (!output.list) {
        (void)fprintf(stderr, "write_proof: %s cannot be written\n", path);
        return 3;
    }
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        write_seed(&output, seed);
    }
    return fclose(output.list) == 0 ? 0 : 3;
}
