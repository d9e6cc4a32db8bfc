/* Two plans side by side as JSON. */
#include "json/compare.h"

#include <jansson.h>

#include "base/date.h"
#include "json/plan.h"
#include "json/text.h"

static json_t *week_json(const CompareSides *sides, int week)
{
    char text[DATE_TEXT_SIZE];
    if (week == PLAN_NONE) {
        return json_null();
    }
    week_format(sides->index->from + 7 * week, text);
    return json_string(text);
}

static json_t *day_json(const CompareSides *sides, int week)
{
    char text[DATE_TEXT_SIZE];
    date_format(sides->index->from + 7 * week, text);
    return json_string(text);
}

static json_t *text_or_null(const char *text)
{
    return text ? json_string(text) : json_null();
}

static json_t *break_json(const CompareSides *sides, const CompareBreak *line)
{
    const VerifyBreak *what = &line->what;
    return json_pack(
        "{s:s, s:b, s:b, s:o, s:o, s:o, s:i, s:i, s:o, s:o, s:o, s:f, s:f, "
        "s:s}",
        "kind", verify_word(what->kind), "is_hard",
        (int)verify_is_hard(what->kind), "is_new", (int)line->is_new, "place",
        text_or_null(what->place), "way", text_or_null(what->way), "other",
        text_or_null(what->other), "first_section", what->section,
        "last_section", line->last_section, "first_week",
        week_json(sides, line->first_week), "last_week",
        week_json(sides, line->last_week), "worst_week",
        week_json(sides, what->week), "got", what->got, "most", what->most,
        "text", line->text);
}

static json_t *breaks_json(const CompareSides *sides)
{
    json_t *rows = json_array();
    for (int i = 0; i < sides->compare->break_count; i++) {
        json_array_append_new(rows,
                              break_json(sides, &sides->compare->breaks[i]));
    }
    return rows;
}

static json_t *weeks_json(const CompareSides *sides, const CompareOrder *line)
{
    static const char *const TURNS[] = {[TURN_LOST] = "lost",
                                        [TURN_LESS] = "less",
                                        [TURN_MORE] = "more",
                                        [TURN_GAINED] = "gained"};
    json_t *rows = json_array();
    for (int i = 0; i < line->change_count; i++) {
        const CompareWeek *week = &line->changes[i];
        json_array_append_new(
            rows, json_pack("{s:o, s:s, s:f, s:f, s:f}", "week",
                            week_json(sides, week->week), "turn",
                            TURNS[week->turn], "wanted", week->wanted, "before",
                            week->before, "after", week->after));
    }
    return rows;
}

static json_t *orders_json(const CompareSides *sides)
{
    const Problem *problem = sides->problem;
    json_t *rows = json_array();
    for (int i = 0; i < sides->compare->order_count; i++) {
        const CompareOrder *line = &sides->compare->orders[i];
        const PlanOrder *order = &problem->orders[line->order];
        json_array_append_new(
            rows,
            json_pack("{s:s, s:s, s:b, s:i, s:i, s:i, s:f, s:f, s:o}", "order",
                      order->id, "product",
                      problem->products[order->product].name, "is_firm",
                      (int)order->is_firm, "weeks", line->weeks, "kept_before",
                      line->kept_before, "kept_after", line->kept_after,
                      "delivered_before", line->delivered_before,
                      "delivered_after", line->delivered_after, "changes",
                      weeks_json(sides, line)));
    }
    return rows;
}

static json_t *batches_json(const CompareSides *sides)
{
    const Problem *problem = sides->problem;
    json_t *rows = json_array();
    for (int i = 0; i < sides->compare->batch_count; i++) {
        const CompareBatch *line = &sides->compare->batches[i];
        json_array_append_new(
            rows,
            json_pack("{s:o, s:s, s:s, s:s, s:o, s:o, s:i, s:i, s:f, s:f}",
                      "week", week_json(sides, line->week), "way",
                      problem->way_names[line->way], "bed",
                      problem->beds[line->bed].id, "place",
                      line->is_edge ? "edge" : "floor", "sow_on",
                      line->sow_week < 0 ? json_null()
                                         : day_json(sides, line->sow_week),
                      "clear_on", day_json(sides, line->clear_week),
                      "units_before", line->units_before, "units_after",
                      line->units_after, "plants_before", line->plants_before,
                      "plants_after", line->plants_after));
    }
    return rows;
}

static json_t *fish_json(const CompareSides *sides)
{
    const Problem *problem = sides->problem;
    json_t *rows = json_array();
    for (int i = 0; i < sides->compare->step_count; i++) {
        const CompareStep *line = &sides->compare->steps[i];
        const char *to = line->to_tank == PLAN_NONE
                             ? NULL
                             : problem->tanks[line->to_tank].id;
        json_array_append_new(
            rows, json_pack("{s:o, s:s, s:s, s:s, s:o, s:i, s:i}", "week",
                            week_json(sides, line->week), "step",
                            FARM_WORDS[WORDS_MOVE_KINDS].words[line->kind],
                            "batch", problem->stocks[line->stock].id, "tank",
                            problem->tanks[line->tank].id, "to_tank",
                            text_or_null(to), "before", line->before, "after",
                            line->after));
    }
    return rows;
}

static json_t *cleans_json(const CompareSides *sides)
{
    json_t *rows = json_array();
    for (int i = 0; i < sides->compare->clean_count; i++) {
        const CompareClean *line = &sides->compare->cleans[i];
        json_array_append_new(
            rows, json_pack("{s:s, s:o, s:o}", "bed",
                            sides->problem->beds[line->bed].id, "week_before",
                            week_json(sides, line->week_before), "week_after",
                            week_json(sides, line->week_after)));
    }
    return rows;
}

static json_t *feed_json(const CompareSides *sides)
{
    json_t *rows = json_array();
    for (int i = 0; i < sides->compare->feed_count; i++) {
        const CompareFeed *line = &sides->compare->feed[i];
        json_array_append_new(
            rows, json_pack("{s:s, s:f, s:f, s:o, s:f}", "loop",
                            sides->problem->loops[line->loop].name,
                            "short_before_kg", line->short_before_kg,
                            "short_after_kg", line->short_after_kg,
                            "worst_week", week_json(sides, line->worst_week),
                            "worst_kg", line->worst_kg));
    }
    return rows;
}

void json_compare_put(json_t *object, const CompareSides *sides)
{
    static const char *const VERDICTS[] = {[COMPARE_FITS] = "fits",
                                           [COMPARE_SOFT] = "soft",
                                           [COMPARE_HARD] = "hard"};
    const PlanCompare *compare = sides->compare;
    json_put(object, "from", day_json(sides, 0));
    json_put(object, "weeks", json_integer(sides->problem->horizon));
    json_put(object, "currency", json_string(sides->farm->farm[0].currency));
    json_put(object, "verdict", json_string(VERDICTS[compare->verdict]));
    json_put(object, "value_before", json_real(compare->value_before));
    json_put(object, "value_after", json_real(compare->value_after));
    json_put(object, "money_before", json_plan_money(&sides->before->outcome));
    json_put(object, "money_after", json_plan_money(&sides->after->outcome));
    json_put(object, "breaks", breaks_json(sides));
    json_put(object, "mended", json_integer(compare->mended));
    json_put(object, "orders", orders_json(sides));
    json_put(object, "batches", batches_json(sides));
    json_put(object, "fish", fish_json(sides));
    json_put(object, "cleans", cleans_json(sides));
    json_put(object, "feed", feed_json(sides));
}

const char *json_compare(const CompareSides *sides, const char *one,
                         const char *two, int left_out, Arena *arena)
{
    json_t *object = json_object();
    json_put(object, "one", json_string(one));
    json_put(object, "two", json_string(two));
    json_compare_put(object, sides);
    json_put(object, "left_out", json_integer(left_out));
    return json_text_take(object, arena);
}

const char *json_plans(const NamedPlan *plans, int count, Arena *arena)
{
    static const double E4 = 1e4;
    json_t *rows = json_array();
    for (int i = 0; i < count; i++) {
        const Plan *row = plans[i].row;
        char from[DATE_TEXT_SIZE];
        char made[DATE_TEXT_SIZE];
        date_format(row->from, from);
        date_format(row->accepted_on, made);
        json_array_append_new(
            rows, json_pack("{s:s, s:s, s:i, s:s, s:f}", "name", plans[i].name,
                            "from", from, "weeks", (int)row->weeks, "made_on",
                            made, "value", (double)row->value_e4 / E4));
    }
    json_t *object = json_object();
    json_put(object, "plans", rows);
    return json_text_take(object, arena);
}
