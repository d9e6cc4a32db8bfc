/* The exact form and its proof, solved by CLP: worth what the plan is worth,
 * and infeasible when a choice breaks a limit by kind. */
#include "check.h"

#include "brute_force.h"
#include "plan/linear.h"
#include "plan/linear_parts.h"
#include "plan/linear_solver.h"
#include "plan/mps.h"
#include "random_plan.h"

static void solver_release(LinearSolver *solver)
{
    linear_solver_close(solver);
}

static Err prove(const Problem *problem, const PlanSolution *plan, double *out)
{
    CLEANUP(arena_release) Arena arena = {0};
    CLEANUP(solver_release) LinearSolver solver = {0};
    LinearPlan linear;
    linear_exact_proof(&linear, &arena, problem, plan);
    linear_solver_load(&solver, &linear.model);
    TRY(linear_solver_dual(&solver));
    *out = linear_solver_value(&solver);
    return ERR_NONE;
}

static void the_proof_is_worth_what_the_plan_is_worth(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 7; seed++) {
        CLEANUP(arena_release) Arena arena = {0};
        GenerateCase farm = generate_tiny_case(seed);
        Rng rng = rng_make(seed, 5);
        Problem problem;
        PlanSolution plan;
        double value = 0.0;
        generate_problem(&arena, &farm, &problem);
        random_plan(&problem, &rng, 100, &arena, &plan);
        assert_ok(prove(&problem, &plan, &value));
        assert_near(value, plan.outcome.value, 1e-5);
        plan.placements[0].units += 9;
        assert_err(prove(&problem, &plan, &value), ERR_CONFLICT, "no plan");
        plan.placements[0].units -= 9;
        plan.runs[0].count += 1;
        assert_err(prove(&problem, &plan, &value), ERR_CONFLICT, "no plan");
    }
}

static void the_best_of_all_plans_is_proven_and_under_the_ceiling(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 4; seed++) {
        CLEANUP(arena_release) Arena arena = {0};
        GenerateCase farm = brute_force_case(seed);
        Problem problem;
        PlanSolution best;
        LinearCeiling ceiling;
        double value = 0.0;
        generate_problem(&arena, &farm, &problem);
        assert_true(brute_force(&problem, &arena, &best) > 10);
        assert_ok(prove(&problem, &best, &value));
        assert_near(value, best.outcome.value, 1e-5);
        assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &ceiling));
        assert_true(ceiling.value >= value - 1e-6);
        /* The relaxation is tight enough to be of use. */
        assert_true(ceiling.value - value < 0.5 * fabs(value) + 30.0);
    }
}

static void bytes_hold_every_section_row_and_column(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_tiny_case(2);
    Problem problem;
    PlanMps mps;
    generate_problem(&arena, &farm, &problem);
    plan_mps_model(&problem, NULL, 0, &arena, &mps);
    assert_int_equal(strlen(mps.bytes), mps.length);
    const char *at = mps.bytes;
    static const char *const WORDS[] = {
        "NAME plan FREE\n",  "\nROWS\n N cost\n", "\nCOLUMNS\n",
        "'MARKER' 'INTORG'", "'MARKER' 'INTEND'", "\nRHS\n",
        "\nRANGES\n",        "\nBOUNDS\n",        "\nENDATA\n"};
    for (int i = 0; i < 9; i++) {
        at = strstr(at, WORDS[i]);
        assert_non_null(at);
        at++;
    }
    int rows = 0;
    for (at = mps.bytes; at < strstr(mps.bytes, "COLUMNS"); at++) {
        rows += *at == '\n';
    }
    /* NAME, ROWS and the objective are lines as well. */
    assert_int_equal(rows - 3, mps.row_count);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_proof_is_worth_what_the_plan_is_worth),
        cmocka_unit_test(the_best_of_all_plans_is_proven_and_under_the_ceiling),
        cmocka_unit_test(bytes_hold_every_section_row_and_column),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
