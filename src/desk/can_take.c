/* Can this order be taken? */
#include "desk/can_take.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "nature/plant/seeds.h"

/* Missing a unit of the asked order is priced at so many times its price: it
 * is kept if it can be, whatever it costs others; the cost is then told. */
static const double ASKED_MISS_FRAC = 3.0;
static const char ASKED_ID[] = "the-order-asked-about";

static Err find_product(const Farm *farm, const char *id, int32_t *out)
{
    const char **names = (const char *[1024]){NULL};
    for (int32_t i = 0; i < farm->products_count; i++) {
        if (strcmp(farm->products[i].id, id) == 0) {
            *out = i;
            return ERR_NONE;
        }
        if (i < 1024) {
            names[i] = farm->products[i].id;
        }
    }
    const char *near = text_nearest(id, names, 1024);
    return err_make(ERR_NOT_FOUND, "product=%.60s is not in products.csv%s%s",
                    id, near ? "; nearest: " : "", near ? near : "");
}

static Err find_buyer(const Farm *farm, const char *id, int32_t *out)
{
    const char **names = (const char *[1024]){NULL};
    for (int32_t i = 0; i < farm->buyers_count; i++) {
        if (strcmp(farm->buyers[i].id, id) == 0) {
            *out = i;
            return ERR_NONE;
        }
        if (i < 1024) {
            names[i] = farm->buyers[i].id;
        }
    }
    const char *near = text_nearest(id, names, 1024);
    return err_make(ERR_NOT_FOUND, "buyer=%.60s is not in buyers.csv%s%s", id,
                    near ? "; nearest: " : "", near ? near : "");
}

/* The farm with the asked order as its last row. */
static Err farm_with_order(const CanAsk *ask, const Farm *farm, Arena *arena,
                           Farm *out)
{
    int32_t product = -1;
    int32_t buyer = -1;
    TRY(find_product(farm, ask->product, &product));
    TRY(find_buyer(farm, ask->buyer, &buyer));
    *out = *farm;
    size_t count = (size_t)farm->orders_count;
    out->orders =
        arena_grow(arena, farm->orders, count, count + 1, sizeof *out->orders);
    out->orders[count] = (Order){.id = ASKED_ID,
                                 .buyer = buyer,
                                 .product = product,
                                 .quantity = ask->quantity,
                                 .firmness = ORDER_FIRM,
                                 .months = MONTHS_ALL,
                                 .from = ask->from,
                                 .until = ask->until,
                                 .miss_frac = ASKED_MISS_FRAC};
    out->orders_count++;
    if (ask->price_e4 > 0) {
        size_t prices = (size_t)farm->prices_count;
        out->prices = arena_grow(arena, farm->prices, prices, prices + 1,
                                 sizeof *out->prices);
        out->prices[prices] = (Price){.product = product,
                                      .buyer = buyer,
                                      .price_e4 = ask->price_e4,
                                      .from = DATE_ALWAYS,
                                      .until = DATE_NEVER};
        out->prices_count++;
    }
    return ERR_NONE;
}

static bool is_same(const PlanPlacement *a, const PlanPlacement *b)
{
    return a->option == b->option && a->bed == b->bed && a->units == b->units;
}

static bool has_placement(const PlanSolution *solution, const PlanPlacement *p)
{
    for (int i = 0; i < solution->placement_count; i++) {
        if (is_same(&solution->placements[i], p)) {
            return true;
        }
    }
    return false;
}

static int seeds_of(const PlanYear *year, const PlanOption *option, int plants)
{
    const Way *way = &year->farm->ways[option->way];
    const BookWay *book = book_way(year->book, way->book);
    double share = book_crop_of(year->book, book)->germination_frac.value *
                   (1.0 - year->book->common[0].seedling_loss_frac.value);
    return seeds_to_sow(plants, share, year->farm->farm[0].sow_confidence_frac);
}

/* New batches of ways that the asked product is made of. */
static void list_batches(const CanAnswer *answer, int product, Arena *arena,
                         CanBatch *batches, int *out_count)
{
    const PlanYear *year = &answer->after;
    const PlanProduct *made = &year->problem.products[product];
    int count = 0;
    for (int i = 0; i < year->solution.placement_count; i++) {
        const PlanPlacement *placed = &year->solution.placements[i];
        const PlanOption *option = &year->problem.options[placed->option];
        bool is_part = false;
        for (int k = 0; k < made->part_count; k++) {
            is_part |= made->parts[k].goods == option->goods;
        }
        if (!is_part || option->is_standing ||
            has_placement(&answer->before.solution, placed)) {
            continue;
        }
        int plants = (int)lround(option->plants * placed->units);
        batches[count++] =
            (CanBatch){.way = year->problem.way_names[option->way],
                       .bed = year->problem.beds[placed->bed].id,
                       .is_edge = option->is_edge,
                       .units = placed->units,
                       .plants = plants,
                       .seeds = seeds_of(year, option, plants < 1 ? 1 : plants),
                       .sow_on = year->index.from + 7 * option->sow_week,
                       .set_on = year->index.from + 7 * option->set_week,
                       .pick_from = year->index.from + 7 * option->pick_from};
    }
    (void)arena;
    *out_count = count;
}

/* Orders that get less than before; the asked one is not among them. */
static void list_losses(CanAnswer *answer, Arena *arena)
{
    const Problem *problem = &answer->before.problem;
    answer->losses = ARENA_ARRAY(arena, CanLoss, problem->order_count);
    for (int o = 0; o < problem->order_count; o++) {
        CanLoss loss = {.order = problem->orders[o].id};
        for (int t = 0; t < problem->horizon; t++) {
            int at = o * problem->week_count + t;
            double less = answer->before.solution.outcome.kept[at] -
                          answer->after.solution.outcome.kept[at];
            loss.units += less;
            loss.weeks += less > 0.01 * problem->orders[o].wanted[t];
        }
        if (loss.weeks > 0 && loss.units > 0.5) {
            answer->losses[answer->loss_count++] = loss;
        }
    }
}

static void sum_needs(CanAnswer *answer)
{
    const PlanOutcome *before = &answer->before.solution.outcome;
    const PlanOutcome *after = &answer->after.solution.outcome;
    const Problem *problem = &answer->after.problem;
    for (int t = 0; t < problem->horizon; t++) {
        double hours = after->hours[t] - before->hours[t];
        answer->more_hours += hours;
        answer->more_hours_w = fmax(answer->more_hours_w, hours);
        double feed = 0.0;
        for (int l = 0; l < problem->loop_count; l++) {
            int at = l * problem->week_count + t;
            feed += after->want_kg[at] - before->want_kg[at];
        }
        answer->more_feed_kg_d = fmax(answer->more_feed_kg_d, feed / 7.0);
    }
}

static void judge(CanAnswer *answer)
{
    const Problem *problem = &answer->after.problem;
    int o = problem->order_count - 1;
    answer->short_week = PLAN_NONE;
    for (int t = 0; t < problem->horizon; t++) {
        double wanted = problem->orders[o].wanted[t];
        double kept =
            answer->after.solution.outcome.kept[o * problem->week_count + t];
        answer->wanted += wanted;
        answer->kept += kept;
        if (answer->short_week == PLAN_NONE && kept < 0.99 * wanted) {
            answer->short_week = t;
        }
    }
    if (answer->short_week != PLAN_NONE || answer->wanted <= 0.0) {
        answer->verdict = CAN_NO;
    } else if (answer->loss_count > 0 || answer->value_change < 0.0) {
        answer->verdict = CAN_YES_IF;
    } else {
        answer->verdict = CAN_YES;
    }
}

static Err check_ask(const CanAsk *ask)
{
    if (!(ask->quantity > 0.0)) {
        return err_make(ERR_INPUT, "quantity=%g: a quantity is above 0",
                        ask->quantity);
    }
    if (ask->until < ask->from) {
        return err_make(ERR_INPUT, "until is before from");
    }
    return ERR_NONE;
}

/* The accepted plan as it stands, searched on for as long as the plan with
 * the order, so that what the order changes is not what searching gains. */
static Err plan_both(const CanAsk *ask, Arena *arena, CanAnswer *answer)
{
    PlanYearAsk plan = ask->plan;
    plan.is_from_plan = true;
    TRY(plan_year_open(&plan, arena, &answer->before));
    if (answer->before.farm->plan_count == 0) {
        return err_make(ERR_NOT_FOUND,
                        "%.80s holds no accepted plan (leat plan %.80s "
                        "--accept)",
                        plan.dir, plan.dir);
    }
    Farm *farm = ARENA_NEW(arena, Farm);
    TRY(farm_with_order(ask, answer->before.farm, arena, farm));
    TRY(plan_year_search(&plan, arena, &answer->before));
    TRY(plan_year_make(farm, answer->before.index.from, plan.weeks, arena,
                       &answer->after));
    return plan_year_search(&plan, arena, &answer->after);
}

Err can_take(const CanAsk *ask, Arena *arena, CanAnswer *out)
{
    TRY(check_ask(ask));
    CanAnswer answer = {.refuse_by = DATE_NEVER};
    TRY(plan_both(ask, arena, &answer));
    answer.value_change = answer.after.solution.outcome.value -
                          answer.before.solution.outcome.value;
    int product =
        answer.after.problem.orders[answer.after.problem.order_count - 1]
            .product;
    answer.batches =
        ARENA_ARRAY(arena, CanBatch, answer.after.solution.placement_count);
    list_batches(&answer, product, arena, answer.batches, &answer.batch_count);
    for (int i = 0; i < answer.batch_count; i++) {
        if (answer.batches[i].sow_on - 1 < answer.refuse_by) {
            answer.refuse_by = answer.batches[i].sow_on - 1;
        }
    }
    list_losses(&answer, arena);
    sum_needs(&answer);
    judge(&answer);
    *out = answer;
    return ERR_NONE;
}
