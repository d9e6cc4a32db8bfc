/* The plan of a year as JSON. */
#include "json/plan.h"

#include <jansson.h>

#include "base/date.h"
#include "json/text.h"
#include "plan/record.h"
#include "plan/trays.h"

static json_t *day_json(const PlanAnswer *answer, int week, int plus)
{
    char text[DATE_TEXT_SIZE];
    date_format(answer->index->from + 7 * week + plus, text);
    return json_string(text);
}

static json_t *week_json(const PlanAnswer *answer, int week)
{
    char text[DATE_TEXT_SIZE];
    if (week == PLAN_NONE) {
        return json_null();
    }
    week_format(answer->index->from + 7 * week, text);
    return json_string(text);
}

json_t *json_plan_money(const PlanOutcome *money)
{
    return json_pack("{s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f}", "sales",
                     money->sales, "fish_at_end", money->end_fish, "missed",
                     money->missed, "seed_and_trays", money->plant_cost,
                     "young_fish_and_feed", money->fish_cost,
                     "fish_without_buyer", money->unsold_cost, "extra_hours",
                     money->extra_wages, "yield_for_feed", money->short_cost);
}

/* An order's units by week: what is wanted, what the plan delivers. */
static void put_weeks(const PlanAnswer *answer, int o, json_t *row)
{
    const Problem *problem = answer->problem;
    json_t *wanted = json_array();
    json_t *delivered = json_array();
    for (int t = 0; t < problem->horizon; t++) {
        json_array_append_new(wanted, json_real(problem->orders[o].wanted[t]));
        json_array_append_new(
            delivered,
            json_real(
                answer->solution->outcome.kept[o * problem->week_count + t]));
    }
    json_put(row, "wanted_by_week", wanted);
    json_put(row, "delivered_by_week", delivered);
}

/* What sums of doubles leave where nothing is over. */
static const double DUST_UNITS = 1e-6;

/* Made and neither sold nor stored, by week; only what there is any of. */
static json_t *over_json(const PlanAnswer *answer)
{
    const Problem *problem = answer->problem;
    json_t *rows = json_array();
    for (int w = 0; w < problem->way_count; w++) {
        const double *over = &answer->report->over[w * problem->week_count];
        json_t *weeks = json_array();
        double total = 0.0;
        for (int t = 0; t < problem->horizon; t++) {
            total += over[t];
            json_array_append_new(weeks, json_real(over[t]));
        }
        json_t *row = json_object();
        json_put(row, "way", json_string(problem->way_names[w]));
        json_put(row, "units", json_real(total));
        json_put(row, "by_week", weeks);
        if (total > DUST_UNITS) {
            json_array_append_new(rows, row);
        } else {
            json_decref(row);
        }
    }
    return rows;
}

static json_t *promises_json(const PlanAnswer *answer)
{
    json_t *rows = json_array();
    for (int o = 0; o < answer->problem->order_count; o++) {
        const PlanPromiseLine *line = &answer->report->promises[o];
        const PlanOrder *order = &answer->problem->orders[o];
        if (line->weeks == 0) {
            continue;
        }
        json_t *row = json_pack(
            "{s:s, s:s, s:b, s:i, s:i, s:f, s:f, s:o, s:f}", "order", order->id,
            "product", answer->problem->products[order->product].name,
            "is_firm", (int)order->is_firm, "weeks", line->weeks, "kept_weeks",
            line->kept_weeks, "wanted", line->wanted, "delivered",
            line->delivered, "worst_week", week_json(answer, line->worst_week),
            "worst_short", line->worst_short);
        put_weeks(answer, o, row);
        json_array_append_new(rows, row);
    }
    return rows;
}

static json_t *ways_json(const PlanAnswer *answer)
{
    json_t *rows = json_array();
    for (int w = 0; w < answer->problem->way_count; w++) {
        const PlanWayLine *line = &answer->report->ways[w];
        json_array_append_new(
            rows,
            json_pack("{s:s, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f}", "way",
                      answer->problem->way_names[w], "bed_weeks",
                      line->bed_weeks, "edge_m_weeks", line->edge_weeks,
                      "hours", line->hours, "units", line->units, "units_sold",
                      line->units_sold, "money", line->money, "per_bed_week",
                      line->per_bed_week, "per_hour", line->per_hour));
    }
    return rows;
}

static json_t *not_grown_json(const PlanAnswer *answer)
{
    json_t *rows = json_array();
    for (int w = 0; w < answer->problem->way_count; w++) {
        if (answer->index->refused[w]) {
            json_array_append_new(rows,
                                  json_pack("{s:s, s:s}", "way",
                                            answer->problem->way_names[w],
                                            "why", answer->index->refused[w]));
        }
    }
    return rows;
}

/* Of a plan that was recalled; else NULL. */
static const char *batch_id(const PlanAnswer *answer, int placement)
{
    const int *rows = answer->solution->placement_rows;
    return rows && rows[placement] != PLAN_NONE
               ? answer->farm->plan_plants[rows[placement]].id
               : NULL;
}

static json_t *batches_json(const PlanAnswer *answer)
{
    json_t *rows = json_array();
    for (int i = 0; i < answer->solution->placement_count; i++) {
        const PlanPlacement *placed = &answer->solution->placements[i];
        const PlanOption *option = &answer->problem->options[placed->option];
        json_array_append_new(
            rows,
            json_pack(
                "{s:s?, s:s, s:s, s:s, s:i, s:i, s:f, s:b, s:o, s:o, s:o, "
                "s:o, s:o}",
                "id", batch_id(answer, i), "way",
                answer->problem->way_names[option->way], "bed",
                answer->problem->beds[placed->bed].id, "place",
                option->is_edge ? "edge" : "floor", "section",
                option->is_edge ? 0 : placed->first_section + 1, "units",
                placed->units, "plants", placed->units * option->plants,
                "is_standing", (int)option->is_standing, "sow_on",
                day_json(answer, option->sow_week, 0), "set_on",
                day_json(answer, option->set_week, 0), "pick_from",
                day_json(answer, option->pick_from, 0), "pick_until",
                day_json(answer, option->pick_until, 6), "clear_on",
                day_json(answer, option->clear_week, 0)));
    }
    return rows;
}

static json_t *trays_json(const PlanAnswer *answer, Arena *arena)
{
    json_t *rows = json_array();
    PlanTrays *lines = NULL;
    int count = plan_trays(answer->problem, answer->index, answer->solution,
                           arena, &lines);
    for (int i = 0; i < count; i++) {
        const PlanTrays *line = &lines[i];
        json_array_append_new(
            rows,
            json_pack("{s:s, s:s, s:i, s:i, s:o, s:s?}", "trays", line->id,
                      "way", answer->problem->way_names[line->way], "plants",
                      line->plants, "set", line->set, "first_week",
                      week_json(answer, line->first_week), "why", line->why));
    }
    return rows;
}

static json_t *tank_json(const PlanAnswer *answer, int tank)
{
    return tank == PLAN_NONE ? json_null()
                             : json_string(answer->problem->tanks[tank].id);
}

static json_t *fish_json(const PlanAnswer *answer)
{
    const Problem *problem = answer->problem;
    json_t *rows = json_array();
    for (int i = 0; i < answer->solution->run_count; i++) {
        const PlanRun *run = &answer->solution->runs[i];
        bool is_sold = run->sale_week < problem->week_count;
        json_t *grams = is_sold ? json_real(problem->stocks[run->stock]
                                                .lanes[run->lane]
                                                .weight_g[run->sale_week])
                                : json_null();
        json_array_append_new(
            rows,
            json_pack("{s:s, s:i, s:i, s:o, s:o, s:o, s:o, s:o}", "batch",
                      problem->stocks[run->stock].id, "lane", run->lane + 1,
                      "count", run->count, "tank", tank_json(answer, run->tank),
                      "moved_in", week_json(answer, run->move_week), "to_tank",
                      tank_json(answer, run->to_tank), "sold_in",
                      week_json(answer, is_sold ? run->sale_week : PLAN_NONE),
                      "sold_at_g", grams));
    }
    return rows;
}

/* What is to be done with the fish, of a plan that was recalled: the rows that
 * can be changed by hand. */
static json_t *steps_json(const PlanAnswer *answer)
{
    const Farm *farm = answer->farm;
    json_t *rows = json_array();
    int count = answer->solution->run_numbers ? farm->plan_moves_count : 0;
    for (int i = 0; i < count; i++) {
        const PlanMove *row = &farm->plan_moves[i];
        int week = plan_week_at(answer->index, row->on);
        int tank = row->kind == MOVE_STOCK ? row->to_tank : row->from_tank;
        if (week < 0) {
            continue;
        }
        json_array_append_new(
            rows,
            json_pack("{s:s, s:s, s:o, s:s, s:o, s:o, s:i, s:f}", "id", row->id,
                      "step", FARM_WORDS[WORDS_MOVE_KINDS].words[row->kind],
                      "week", week_json(answer, week), "batch",
                      farm->plan_fish[row->fish].batch, "tank",
                      tank_json(answer, tank < 0 ? PLAN_NONE : tank), "to_tank",
                      tank_json(answer, row->kind == MOVE_GRADE ? row->to_tank
                                                                : PLAN_NONE),
                      "count", (int)row->count, "mean_g", row->mean_g));
    }
    return rows;
}

static json_t *ceiling_json(const PlanAnswer *answer)
{
    json_t *rows = json_array();
    for (int i = 0; i < answer->ceiling->scarce_count; i++) {
        const PlanScarce *line = &answer->ceiling->scarce[i];
        json_array_append_new(
            rows, json_pack("{s:s, s:i, s:o, s:o, s:o, s:f, s:f}", "what",
                            line->what, "weeks", line->weeks, "first_week",
                            week_json(answer, line->first_week), "last_week",
                            week_json(answer, line->last_week), "peak_week",
                            week_json(answer, line->peak_week), "peak",
                            line->peak, "total", line->total));
    }
    return json_pack("{s:f, s:i, s:i, s:o}", "value", answer->ceiling->value,
                     "rows", answer->ceiling->row_count, "columns",
                     answer->ceiling->column_count, "one_more_would_earn",
                     rows);
}

static json_t *cleans_json(const PlanAnswer *answer)
{
    json_t *rows = json_array();
    for (int i = 0; i < answer->solution->cleaning_count; i++) {
        const PlanCleaning *clean = &answer->solution->cleanings[i];
        json_array_append_new(
            rows,
            json_pack("{s:s, s:o}", "bed", answer->problem->beds[clean->bed].id,
                      "week", week_json(answer, clean->week)));
    }
    return rows;
}

static json_t *change_json(const PlanAnswer *answer)
{
    const PlanChange *change = answer->change;
    json_t *lines = json_array();
    for (int i = 0; i < change->line_count; i++) {
        const PlanChangeLine *line = &change->lines[i];
        json_array_append_new(
            lines, json_pack("{s:s, s:o, s:s, s:i, s:i}", "way",
                             answer->problem->way_names[line->way], "set_in",
                             week_json(answer, line->set_week), "place",
                             line->is_edge ? "edge" : "floor", "before",
                             line->before, "after", line->after));
    }
    json_t *sales = json_array();
    for (int i = 0; i < change->sale_count; i++) {
        const PlanChangeSale *sale = &change->sales[i];
        json_array_append_new(
            sales,
            json_pack("{s:s, s:s, s:f, s:f, s:f}", "sale", sale->id, "product",
                      answer->problem->products[sale->product].name, "before",
                      sale->before, "after", sale->after, "money",
                      sale->money));
    }
    return json_pack("{s:i, s:i, s:i, s:i, s:i, s:s?, s:f, s:o, s:o}", "stayed",
                     change->stayed, "added", change->added, "dropped",
                     change->dropped, "no_longer_possible", change->left_out,
                     "limits_broken", change->broken, "one_of_them",
                     change->break_of, "value_before", change->value_before,
                     "batches", lines, "sales", sales);
}

const char *json_plan(const PlanAnswer *answer, Arena *arena)
{
    const PlanOutcome *money = &answer->solution->outcome;
    json_t *json = json_pack(
        "{s:o, s:i, s:s, s:f, s:o, s:f, s:f}", "from", day_json(answer, 0, 0),
        "weeks", answer->problem->horizon, "currency",
        answer->farm->farm[0].currency, "value", money->value, "money",
        json_plan_money(money), "wages", answer->problem->wages_paid, "heat",
        answer->problem->heat_cost);
    json_object_set_new(json, "promises", promises_json(answer));
    json_object_set_new(json, "over", over_json(answer));
    json_object_set_new(json, "ways", ways_json(answer));
    json_object_set_new(json, "not_grown", not_grown_json(answer));
    json_object_set_new(json, "batches", batches_json(answer));
    json_object_set_new(json, "seedlings", trays_json(answer, arena));
    json_object_set_new(json, "fish", fish_json(answer));
    json_object_set_new(json, "fish_steps", steps_json(answer));
    json_object_set_new(json, "cleans", cleans_json(answer));
    json_object_set_new(json, "change",
                        answer->change ? change_json(answer) : json_null());
    json_object_set_new(json, "ceiling",
                        answer->ceiling ? ceiling_json(answer) : json_null());
    json_put(json, "age", answer->age ? json_string(answer->age) : json_null());
    return json_text_take(json, arena);
}
