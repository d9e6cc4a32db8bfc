/* One week's sales: the small simplex against CLP, ladders and mixes by hand.
 */
#include "plan/sales.h"

#include <coin/Clp_C_Interface.h>

#include "base/rng.h"
#include "check.h"
#include "plan/generate.h"

enum { ROWS = 7, COLUMNS = 11, CASES = 60, RIGHTS = 25 };

typedef struct SmallProgramme {
    double matrix[ROWS * COLUMNS];
    double gain[COLUMNS];
    double upper[COLUMNS];
} SmallProgramme;

static void draw_programme(Rng *rng, SmallProgramme *out)
{
    for (int i = 0; i < ROWS * COLUMNS; i++) {
        bool is_empty = rng_f64(rng) < 0.6;
        out->matrix[i] = is_empty ? 0.0 : 3.0 * rng_f64(rng) - 0.7;
    }
    for (int j = 0; j < COLUMNS; j++) {
        out->gain[j] = 5.0 * rng_f64(rng) - 0.8;
        out->upper[j] = rng_f64(rng) < 0.1 ? 0.0 : 9.3 * rng_f64(rng);
    }
}

static double solve_by_clp(const SmallProgramme *p, const double *right)
{
    int starts[COLUMNS + 1] = {0};
    int index[ROWS * COLUMNS];
    double value[ROWS * COLUMNS];
    double lower[COLUMNS] = {0}, low_row[ROWS];
    int count = 0;
    for (int j = 0; j < COLUMNS; j++) {
        for (int i = 0; i < ROWS; i++) {
            index[count] = i;
            value[count++] = p->matrix[i * COLUMNS + j];
        }
        starts[j + 1] = count;
    }
    for (int i = 0; i < ROWS; i++) {
        low_row[i] = -1e30;
    }
    Clp_Simplex *clp = Clp_newModel();
    Clp_setLogLevel(clp, 0);
    Clp_loadProblem(clp, COLUMNS, ROWS, starts, index, value, lower, p->upper,
                    p->gain, low_row, right);
    Clp_setOptimizationDirection(clp, -1.0);
    Clp_primal(clp, 0);
    assert_int_equal(Clp_status(clp), 0);
    double best = Clp_objectiveValue(clp);
    Clp_deleteModel(clp);
    return best;
}

static void the_small_simplex_agrees_with_clp_for_any_right_side(void **state)
{
    (void)state;
    Rng rng = rng_make(7, 1);
    for (int i = 0; i < CASES; i++) {
        Arena arena = {0};
        SmallProgramme p;
        draw_programme(&rng, &p);
        SalesSimplex shape = {.rows = ROWS,
                              .columns = COLUMNS,
                              .matrix = p.matrix,
                              .gain = p.gain,
                              .upper = p.upper};
        SalesSimplex simplex;
        sales_simplex_open(&simplex, &shape, &arena);
        for (int j = 0; j < RIGHTS; j++) {
            double right[ROWS];
            for (int k = 0; k < ROWS; k++) {
                bool is_none = rng_f64(&rng) < 0.2;
                right[k] = is_none ? 0.0 : 12.5 * rng_f64(&rng);
            }
            double bound = sales_simplex_bound(&simplex, right);
            double got = sales_simplex_solve(&simplex, right);
            double want = solve_by_clp(&p, right);
            assert_near(got, want, 1e-7 * (1.0 + fabs(want)));
            assert_true(bound >= want - 1e-7 * (1.0 + fabs(want)));
        }
        arena_release(&arena);
    }
}

static void prices_and_amounts_of_the_small_simplex_add_up(void **state)
{
    (void)state;
    /* max 3x + 2y, x + y <= 4, x <= 2.5: x 2.5, y 1.5, worth 10.5. */
    double matrix[] = {1.0, 1.0}, gain[] = {3.0, 2.0}, upper[] = {2.5, 9.0};
    SalesSimplex shape = {.rows = 1,
                          .columns = 2,
                          .matrix = matrix,
                          .gain = gain,
                          .upper = upper};
    Arena arena = {0};
    SalesSimplex simplex;
    sales_simplex_open(&simplex, &shape, &arena);
    double right[] = {4.0};
    assert_near(sales_simplex_solve(&simplex, right), 10.5, 1e-12);
    assert_near(sales_simplex_amount(&simplex, 0), 2.5, 1e-12);
    assert_near(sales_simplex_amount(&simplex, 1), 1.5, 1e-12);
    assert_near(sales_simplex_price(&simplex, 0), 2.0, 1e-12);
    arena_release(&arena);
}

static void a_ladder_fills_from_the_top_and_firm_orders_up_to_the_sure(void **s)
{
    (void)s;
    double wanted[] = {6.0}, price[] = {2.0}, second[] = {1.5}, room[] = {5.0};
    double outlet_price[] = {0.5};
    PlanPart part = {.goods = 0, .units = 2.0, .low = 1.0, .high = 1.0};
    PlanProduct product = {"pair", &part, 1};
    PlanGoods goods = {.name = "head"};
    PlanOrder orders[] = {
        {.is_firm = true, .wanted = wanted, .price = price, .miss = 1.0},
        {.is_firm = false, .wanted = wanted, .price = second, .miss = 0.1}};
    PlanOutlet outlet = {.room = room, .price = outlet_price};
    Problem problem = {.week_count = 1,
                       .goods = &goods,
                       .goods_count = 1,
                       .products = &product,
                       .product_count = 1,
                       .orders = orders,
                       .order_count = 2,
                       .outlets = &outlet,
                       .outlet_count = 1};
    Arena arena = {0};
    Sales sales;
    sales_open(&sales, &problem, &arena);
    assert_near(sales.missed_all, 6.6, 1e-12);
    /* 20 heads expected, 9 sure: 4.5 pairs for the firm order, 5.5 of the 6 of
     * the other. */
    double low = 9.0, mean = 20.0;
    SalesSupply supply = {.low = &low, .mean = &mean};
    assert_near(sales_week(&sales, 0, 0, &supply), 4.5 * 3.0 + 5.5 * 1.6,
                1e-12);
    arena_release(&arena);
}

static void more_goods_never_bring_less(void **state)
{
    (void)state;
    Arena arena = {0};
    GenerateCase farm = generate_case(12, 5);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    Sales sales;
    sales_open(&sales, &problem, &arena);
    int most = sales_most_goods(&sales);
    assert_true(most > 1);
    double *low = ARENA_ARRAY(&arena, double, most);
    double *mean = ARENA_ARRAY(&arena, double, most);
    SalesSupply supply = {.low = low, .mean = mean};
    Rng rng = rng_make(3, 2);
    for (int i = 0; i < 400; i++) {
        int family = (int)rng_below(&rng, (uint32_t)sales.family_count);
        int week = (int)rng_below(&rng, (uint32_t)problem.week_count);
        int count = sales.families[family].goods_count;
        for (int g = 0; g < count; g++) {
            mean[g] = 7.3 * rng_f64(&rng);
            low[g] = mean[g] * rng_f64(&rng);
        }
        double before = sales_week(&sales, family, week, &supply);
        mean[rng_below(&rng, (uint32_t)count)] += 1.7;
        double after = sales_week(&sales, family, week, &supply);
        assert_true(after >= before - 1e-9);
    }
    arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_small_simplex_agrees_with_clp_for_any_right_side),
        cmocka_unit_test(prices_and_amounts_of_the_small_simplex_add_up),
        cmocka_unit_test(
            a_ladder_fills_from_the_top_and_firm_orders_up_to_the_sure),
        cmocka_unit_test(more_goods_never_bring_less),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
