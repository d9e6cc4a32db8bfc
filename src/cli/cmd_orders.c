/* leat orders DIR: the weeks to come kept and short, what can be offered, how
 * to share what is short. */
#include <math.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/orders.h"

enum { COLUMNS = 79, NAME_WIDTH = 18, WHOM_MOST = 3, BLOCK_WEEKS = 6 };

static const char *product_name(const Farm *farm, int32_t product)
{
    const Product *row = &farm->products[product];
    return *row->name ? row->name : row->id;
}

static const char *buyer_name(const Farm *farm, int32_t buyer)
{
    return farm->buyers[buyer].id;
}

static const char *units_text(const Farm *farm, int32_t product, double units,
                              Arena *arena)
{
    return job_quantity(units, farm->products[product].unit, arena);
}

/* A product's orders of a week together, outlets apart: "55", "40/55" where
 * less is expected, "-" where none is ordered. */
static const char *cell(const OrdersAnswer *answer, int32_t product, int week)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    double ordered = 0.0;
    double short_by = 0.0;
    for (int32_t i = 0; i < answer->ahead.order_count; i++) {
        const OrderAhead *at = &answer->ahead.orders[i];
        const Order *order = &farm->orders[at->order];
        if (order->product == product && order->firmness != ORDER_OUTLET) {
            ordered += at->weeks[week].ordered;
            short_by += at->weeks[week].short_by;
        }
    }
    if (ordered <= 0.0) {
        return "-";
    }
    const char *all = units_text(farm, product, ordered, arena);
    double there = ordered > short_by ? ordered - short_by : 0.0;
    return short_by < 0.05
               ? all
               : arena_text(arena, "%s/%s",
                            units_text(farm, product, there, arena), all);
}

/* So many weeks from one on, as many as stand side by side. */
static void print_block(const OrdersAnswer *answer, int from, FILE *out)
{
    const Farm *farm = answer->today.farm;
    const OrdersAhead *ahead = &answer->ahead;
    int until = from + BLOCK_WEEKS < ahead->week_count ? from + BLOCK_WEEKS
                                                       : ahead->week_count;
    fprintf(out, "\n%-*s", NAME_WIDTH, "week");
    for (int w = from; w < until; w++) {
        char week[DATE_TEXT_SIZE];
        week_format(ahead->first_week + w * JOBS_DAYS, week);
        fprintf(out, " %9s", week + 5);
    }
    fputc('\n', out);
    for (int32_t p = 0; p < farm->products_count; p++) {
        bool is_ordered = false;
        for (int w = from; w < until; w++) {
            is_ordered |= *cell(answer, p, w) != '-';
        }
        if (!is_ordered) {
            continue;
        }
        fprintf(out, "%-*.*s", NAME_WIDTH, NAME_WIDTH, product_name(farm, p));
        for (int w = from; w < until; w++) {
            fprintf(out, " %9s", cell(answer, p, w));
        }
        fputc('\n', out);
    }
}

static void print_weeks(const OrdersAnswer *answer, FILE *out)
{
    fputs("\nOrdered, and before the stroke what is expected where it is "
          "less\n",
          out);
    for (int w = 0; w < answer->ahead.week_count; w += BLOCK_WEEKS) {
        print_block(answer, w, out);
    }
}

static const char *whom_text(const OrdersAnswer *answer, const Offer *offer)
{
    Arena *arena = answer->today.arena;
    const char *text = "";
    for (int32_t i = 0; i < offer->to_count && i < WHOM_MOST; i++) {
        text = arena_text(arena, "%s%s%s (%s)", text, i ? ", " : "",
                          buyer_name(answer->today.farm, offer->to[i].buyer),
                          offer->to[i].why);
    }
    return text;
}

static void print_offers(const OrdersAnswer *answer, FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    char week[DATE_TEXT_SIZE];
    week_format(answer->ahead.offer_week, week);
    fprintf(out,
            "\nFor Sunday's list, %s, beside what is ordered: low to high\n",
            week);
    for (int32_t i = 0; i < answer->ahead.offer_count; i++) {
        const Offer *offer = &answer->ahead.offers[i];
        if (offer->high <= 0.0) {
            continue;
        }
        fprintf(
            out, "  %-*.*s %6s to %-6s %s\n", NAME_WIDTH, NAME_WIDTH,
            product_name(farm, offer->product),
            units_text(farm, offer->product, offer->low, arena),
            units_text(farm, offer->product, offer->high, arena),
            job_unit(farm->products[offer->product].unit, offer->high, arena));
        const char *whom = whom_text(answer, offer);
        if (*whom) {
            wrap_print(arena_text(arena, "first to %s", whom),
                       &(Wrap){COLUMNS, 4, 6}, out);
        }
    }
}

/* "box 52 of 55, hotel 0 of 14": shared by the rule, on one line. */
static void print_shared(const OrdersAnswer *answer, const Shortage *shortage,
                         FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    int32_t product = shortage->product;
    char week[DATE_TEXT_SIZE];
    week_format(answer->ahead.first_week + shortage->week * JOBS_DAYS, week);
    const char *text = arena_text(
        arena, "%s %s, %s of %s", week + 5, product_name(farm, product),
        units_text(farm, product, shortage->have, arena),
        units_text(farm, product, shortage->ordered, arena));
    for (int32_t i = 0; i < shortage->share_count; i++) {
        const ShortShare *share = &shortage->shares[i];
        text =
            arena_text(arena, "%s%s %s %s of %s", text, i ? "," : ":",
                       buyer_name(farm, farm->orders[share->order].buyer),
                       units_text(farm, product, share->line.by_rule, arena),
                       units_text(farm, product, share->line.ordered, arena));
    }
    wrap_print(text, &(Wrap){COLUMNS, 2, 6}, out);
}

static void print_shortage(const OrdersAnswer *answer, const Shortage *shortage,
                           FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    int32_t product = shortage->product;
    char week[DATE_TEXT_SIZE];
    week_format(answer->ahead.first_week + shortage->week * JOBS_DAYS, week);
    fprintf(out, "%s, %s: %s of %s %s\n", product_name(farm, product), week,
            units_text(farm, product, shortage->have, arena),
            units_text(farm, product, shortage->ordered, arena),
            job_unit(farm->products[product].unit, shortage->ordered, arena));
    for (int32_t i = 0; i < shortage->share_count; i++) {
        const ShortShare *share = &shortage->shares[i];
        fprintf(out, "  %-14s %6s ordered; in proportion %6s; by rule %6s%s\n",
                buyer_name(farm, farm->orders[share->order].buyer),
                units_text(farm, product, share->line.ordered, arena),
                units_text(farm, product, share->line.in_proportion, arena),
                units_text(farm, product, share->line.by_rule, arena),
                share->line.is_firm            ? " (firm)"
                : share->line.cut_before > 0.0 ? " (cut last time)"
                                               : "");
    }
    const char *instead = "";
    for (int32_t i = 0; i < shortage->instead_count; i++) {
        const Substitute *at = &shortage->instead[i];
        instead = arena_text(arena, "%s%s%s %s", instead, i ? ", " : "",
                             product_name(farm, at->product),
                             units_text(farm, at->product, at->units, arena));
    }
    if (*instead) {
        wrap_print(arena_text(arena, "over, to give instead: %s", instead),
                   &(Wrap){COLUMNS, 2, 4}, out);
    }
}

static void print_text(const OrdersAnswer *answer, FILE *out)
{
    const OrdersAhead *ahead = &answer->ahead;
    fprintf(out, "Orders, %s\n", answer->today.title);
    for (int i = 0; i < answer->today.notice_count; i++) {
        wrap_print(answer->today.notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    if (answer->product < 0) {
        print_weeks(answer, out);
        print_offers(answer, out);
    }
    bool is_headed = false;
    for (int32_t i = 0; i < ahead->shortage_count; i++) {
        const Shortage *at = &ahead->shortages[i];
        bool is_asked = answer->product < 0 || at->product == answer->product;
        if (at->share_count == 0 || !is_asked) {
            continue;
        }
        fputs(is_headed
                  ? ""
                  : "\nShort, this week and next: firm orders first, then "
                    "who was cut last time\n",
              out);
        is_headed = true;
        if (answer->product < 0) {
            print_shared(answer, at, out);
            continue;
        }
        print_shortage(answer, at, out);
        for (int32_t s = 0; s < at->share_count; s++) {
            wrap_print(at->shares[s].message, &(Wrap){COLUMNS, 2, 4}, out);
        }
    }
}

static Err read_question(const Arguments *arguments, OrdersQuestion *out)
{
    int64_t weeks = ORDERS_WEEKS_USUAL;
    TRY(arguments_day(arguments, "today", &out->today));
    TRY(arguments_integer(arguments, "weeks", 1, ORDERS_WEEKS_MOST, &weeks));
    out->weeks = (int)weeks;
    const char *have = arguments_fact(arguments, "have");
    if (have) {
        Err err = text_to_f64(have, &out->have);
        if (err.kind != ERR_OK || !(out->have >= 0.0) || out->have > 1e6) {
            return err_make(ERR_USAGE, "have=%.40s: units, 0 or more", have);
        }
    }
    return ERR_NONE;
}

Err cmd_orders(const Arguments *arguments, FILE *out)
{
    OrdersQuestion question = {.dir = arguments_word(arguments, 0),
                               .today = DATE_ALWAYS,
                               .product = arguments_fact(arguments, "product"),
                               .have = NAN};
    TRY(read_question(arguments, &question));
    OrdersAnswer answer;
    TRY(orders_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(orders_answer_json(&answer, arguments->arena), out);
    } else {
        print_text(&answer, out);
    }
    return ERR_NONE;
}
