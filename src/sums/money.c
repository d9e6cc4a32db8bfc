/* Sums of money and hands; money in whatever currency the facts are. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "sums/rows.h"

static Err bed_week_value(const SumInputs *in, SumAnswer *out)
{
    double sales = sum_number(in, "units") * sum_number(in, "price");
    double bed_weeks =
        (sum_number(in, "weeks") + sum_number(in, "turnaround_weeks")) *
        sum_number(in, "beds");
    sum_is(out, "value of a bed-week", sales / bed_weeks, "money");
    sum_also(out, "sales", sales, "money");
    sum_also(out, "bed-weeks", bed_weeks, "bed-weeks");
    sum_work(out, "(%.5g x %.4g) / ((%.4g + %.4g) x %.4g) = %.4g",
             sum_number(in, "units"), sum_number(in, "price"),
             sum_number(in, "weeks"), sum_number(in, "turnaround_weeks"),
             sum_number(in, "beds"), sales / bed_weeks);
    return ERR_NONE;
}

static Err bed_week_cost(const SumInputs *in, SumAnswer *out)
{
    double costs = sum_number(in, "fixed_week") + sum_number(in, "labour_week");
    double sold = sum_number(in, "bed_weeks_sold");
    sum_is(out, "a bed-week must earn", costs / sold, "money");
    sum_work(out, "(%.5g + %.5g) / %.4g = %.4g", sum_number(in, "fixed_week"),
             sum_number(in, "labour_week"), sold, costs / sold);
    return ERR_NONE;
}

static Err unit_cost(const SumInputs *in, SumAnswer *out)
{
    double hours = sum_number(in, "hours");
    double wage = sum_number(in, "wage_h");
    double inputs = sum_number(in, "inputs");
    double beds = sum_number(in, "bed_weeks") * sum_number(in, "bed_week_rate");
    double delivery = sum_number(in, "delivery");
    double units = sum_number(in, "units");
    double cost = (hours * wage + inputs + beds + delivery) / units;
    sum_is(out, "cost of a unit", cost, "money");
    sum_also(out, "of it, hands", hours * wage / units, "money");
    sum_also(out, "of it, bed-weeks", beds / units, "money");
    sum_work(out, "(%.4g x %.4g + %.4g + %.4g x %.4g + %.4g) / %.4g = %.4g",
             hours, wage, inputs, sum_number(in, "bed_weeks"),
             sum_number(in, "bed_week_rate"), delivery, units, cost);
    sum_work(out, "wholesale is about half of retail");
    return ERR_NONE;
}

static Err earned_an_hour(const SumInputs *in, SumAnswer *out)
{
    double left = sum_number(in, "sales") - sum_number(in, "inputs") -
                  sum_number(in, "packing");
    double hours = sum_number(in, "hours");
    sum_is(out, "earned an hour of work", left / hours, "money/h");
    sum_work(out, "(%.5g - %.5g - %.5g) / %.4g h = %.4g",
             sum_number(in, "sales"), sum_number(in, "inputs"),
             sum_number(in, "packing"), hours, left / hours);
    sum_work(out, "it ranks crops otherwise than value by bed-week: look at "
                  "both");
    return ERR_NONE;
}

static Err real_take(const SumInputs *in, SumAnswer *out)
{
    double ordered = sum_number(in, "ordered");
    double promised = sum_number(in, "promised");
    double share = ordered / promised;
    sum_is(out, "taken of what was promised", 100.0 * share, "%");
    sum_work(out, "%.4g / %.4g = %.3g, over the last 8 weeks if you can",
             ordered, promised, share);
    if (sum_is_given(in, "next_promise")) {
        double next = sum_number(in, "next_promise");
        sum_also(out, "to plant for the next promise", share * next, "units");
        sum_work(out, "%.4g x %.3g = %.4g", next, share, share * next);
    }
    return ERR_NONE;
}

static Err delivery_worth(const SumInputs *in, SumAnswer *out)
{
    double margin = sum_number(in, "margin_pct") / 100.0;
    double earned = sum_number(in, "order_value") * margin;
    double cost = sum_number(in, "minutes") / 60.0 * sum_number(in, "wage_h") +
                  sum_number(in, "km") * sum_number(in, "cost_km");
    sum_is(out, "left after the drive", earned - cost, "money");
    sum_also(out, "cost of the drive", cost, "money");
    sum_also(out, "least order that pays it", cost / margin, "money");
    sum_work(out, "%.4g x %.4g - (%.4g/60 x %.4g + %.4g x %.4g) = %.4g",
             sum_number(in, "order_value"), margin, sum_number(in, "minutes"),
             sum_number(in, "wage_h"), sum_number(in, "km"),
             sum_number(in, "cost_km"), earned - cost);
    if (earned < cost) {
        sum_caution(out, "The drive costs more than the order leaves.");
    }
    return ERR_NONE;
}

static Err safe_promise(const SumInputs *in, SumAnswer *out)
{
    double low = sum_number(in, "low_units_week");
    double reserve = sum_number(in, "reserve_pct") / 100.0;
    sum_is(out, "quantity to promise", floor(low * (1.0 - reserve) + 1e-9),
           "units/week");
    sum_work(out, "%.4g x (1 - %.4g) = %.4g, rounded down", low, reserve,
             low * (1.0 - reserve));
    return ERR_NONE;
}

enum { TASK_TEXT = 64 };

/* "120x0.5" as its two numbers. */
static Err parse_task(const char *item, double *out_count, double *out_min)
{
    char count[TASK_TEXT] = {0};
    const char *cross = strchr(item, 'x');
    size_t length = cross ? (size_t)(cross - item) : TASK_TEXT;
    bool is_right = length > 0 && length < TASK_TEXT;
    if (is_right) {
        memcpy(count, item, length);
        is_right = text_to_f64(count, out_count).kind == ERR_OK &&
                   text_to_f64(cross + 1, out_min).kind == ERR_OK &&
                   *out_count >= 0.0 && *out_min >= 0.0 && *out_count < 1e9 &&
                   *out_min < 1e6;
    }
    if (!is_right) {
        return err_make(ERR_INPUT,
                        "tasks: \"%.40s\" is not a count and its minutes; "
                        "give them as 120x0.5,40x3",
                        item);
    }
    return ERR_NONE;
}

static Err task_hours(const SumInputs *in, SumAnswer *out)
{
    const char *text = sum_word(in, "tasks");
    double total_min = 0.0;
    int shown = 0;
    while (*text) {
        size_t length = strcspn(text, ",");
        const char *item = arena_copy_bytes(out->arena, text, length);
        double count = 0.0;
        double minutes = 0.0;
        TRY(parse_task(item, &count, &minutes));
        total_min += count * minutes;
        if (++shown <= SUM_LINES_MAX / 2) {
            sum_work(out, "%.5g x %.4g min = %.4g h", count, minutes,
                     count * minutes / 60.0);
        }
        text += length + (text[length] == ',');
    }
    sum_is(out, "hours", total_min / 60.0, "h");
    if (sum_is_given(in, "people")) {
        double people = sum_number(in, "people");
        sum_also(out, "each of them", total_min / 60.0 / people, "h");
    }
    sum_work(out, "together %.5g min / 60 = %.4g h", total_min,
             total_min / 60.0);
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_MONEY[] = {
    {.name = "bed-week-value", .run = bed_week_value,
     .purpose = "what a crop earns by bed and week",
     .keys = KEYS(
        NEED("units", "units", 0, 1e9, "units sold of the crop"),
        NEED("price", "money", 0, 1e6, "of a unit"),
        NEED("weeks", "weeks", 0.1, 520, "in the bed"),
        USUAL("turnaround_weeks", "weeks", 0.5, 0, 52, "cleared to set again"),
        USUAL("beds", "beds", 1, 0.01, 100000, "beds they stood in")),
     .source = "",
     .example = "units=49.5 price=1.6 weeks=5 turnaround_weeks=0.5 beds=1"},
    {.name = "bed-week-cost", .run = bed_week_cost,
     .purpose = "what a bed-week must earn to break even",
     .keys = KEYS(
        NEED("fixed_week", "money", 0, 1e9, "fixed costs of a week"),
        NEED("labour_week", "money", 0, 1e9, "wages of a week"),
        NEED("bed_weeks_sold", "bed-weeks", 0.01, 1e6,
             "beds that earn in a week")),
     .source = "",
     .example = "fixed_week=310 labour_week=340 bed_weeks_sold=25"},
    {.name = "unit-cost", .run = unit_cost,
     .purpose = "what a unit costs to grow and bring",
     .keys = KEYS(
        NEED("hours", "h", 0, 1e6, "of work on the crop"),
        NEED("wage_h", "money/h", 0, 1e5, "of an hour"),
        USUAL("inputs", "money", 0, 0, 1e9, "seed, substrate, packing"),
        USUAL("bed_weeks", "bed-weeks", 0, 0, 1e6, "that it holds"),
        USUAL("bed_week_rate", "money", 0, 0, 1e6, "of a bed-week"),
        USUAL("delivery", "money", 0, 0, 1e9, "its share"),
        NEED("units", "units", 0.01, 1e9, "saleable units")),
     .source = "",
     .example = "hours=3.2 wage_h=15 inputs=9 bed_weeks=5.5 bed_week_rate=12 "
                "delivery=6 units=49.5"},
    {.name = "earned-an-hour", .run = earned_an_hour,
     .purpose = "what an hour of work on a crop earns",
     .keys = KEYS(
        NEED("sales", "money", 0, 1e9, "of the crop"),
        USUAL("inputs", "money", 0, 0, 1e9, "seed, substrate"),
        USUAL("packing", "money", 0, 0, 1e9, "boxes, bags"),
        NEED("hours", "h", 0.01, 1e6, "of work on it")),
     .source = "",
     .example = "sales=79 inputs=9 packing=4 hours=3.2"},
    {.name = "real-take", .run = real_take,
     .purpose = "what a buyer takes of what he promised",
     .keys = KEYS(
        NEED("ordered", "units", 0, 1e9, "really ordered"),
        NEED("promised", "units", 0.01, 1e9, "promised for the same weeks"),
        MAY("next_promise", "units", 0, 1e9, "what he promises now")),
     .source = "",
     .example = "ordered=7.5 promised=25 next_promise=20"},
    {.name = "delivery-worth", .run = delivery_worth,
     .purpose = "whether a delivery pays its drive",
     .keys = KEYS(
        NEED("order_value", "money", 0, 1e9, "of the order"),
        NEED("margin_pct", "%", 1, 100, "left of it before the drive"),
        NEED("minutes", "min", 0, 10000, "on the road and at the door"),
        NEED("wage_h", "money/h", 0, 1e5, "of an hour"),
        NEED("km", "km", 0, 10000, "there and back"),
        USUAL("cost_km", "money/km", 0.4, 0, 100, "of the van; yours is better")),
     .source = "",
     .example = "order_value=40 margin_pct=35 minutes=45 wage_h=15 km=24"},
    {.name = "safe-promise", .run = safe_promise,
     .purpose = "quantity to promise in a contract",
     .keys = KEYS(
        NEED("low_units_week", "units/week", 0, 1e9,
             "low forecast of the worst week"),
        USUAL("reserve_pct", "%", 20, 0, 90, "kept back")),
     .source = "",
     .example = "low_units_week=70"},
    {.name = "task-hours", .run = task_hours,
     .purpose = "hours of a list of tasks",
     .keys = KEYS(
        WORD("tasks", "120x0.5,40x3", "count x minutes, with commas"),
        MAY("people", "", 1, 1000, "who share them")),
     .source = "",
     .example = "tasks=134x0.4,12x15,6x35 people=2"},
    {.name = NULL},
};
/* clang-format on */
