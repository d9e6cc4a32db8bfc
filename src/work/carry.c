/* Do the fish carry the beds? */
#include "work/carry.h"

#include <math.h>

#include "base/date.h"
#include "base/tongue.h"

enum { BEFORE_WEEKS = 4 };

static const double DIP_FRAC = 0.25; /* a fall that is told; judged */
static const double BACK_FRAC = 0.9;
static const double SHORT_FRAC = 0.95; /* of what is enough; judged */
static const double ASKED_LEAST_G = 1e-3;

const char *carry_element_name(int element)
{
    static const char *const NAMES[HOUR_ELEMENTS] = {
        SAY("nitrogen"), SAY("phosphorus"), SAY("potassium"),
        SAY("calcium"),  SAY("magnesium"),  SAY("iron")};
    return NAMES[element];
}

/* ---- Sums by week ----------------------------------------------------------
 */

static void make_room(const CarryAsk *ask, Arena *arena, CarryLoop *to)
{
    size_t weeks = (size_t)ask->weeks;
    to->offered_kg = ARENA_ARRAY(arena, double, weeks);
    to->temp_degc = ARENA_ARRAY(arena, double, weeks);
    to->growth_frac = ARENA_ARRAY(arena, double, weeks);
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        CarryElement *of = &to->elements[e];
        double **const all[] = {&of->fish_g,    &of->mineral_g, &of->source_g,
                                &of->asked_g,   &of->taken_g,   &of->lost_g,
                                &of->store_g_m3};
        for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
            *all[i] = ARENA_ARRAY(arena, double, weeks);
        }
    }
}

static void add_day(const HourLoopDay *day, int week, CarryLoop *to)
{
    to->offered_kg[week] += day->feed_kg;
    to->temp_degc[week] += day->temp_degc / CARRY_WEEK_D;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        CarryElement *of = &to->elements[e];
        of->fish_g[week] += day->fish_g[e];
        of->mineral_g[week] += day->mineral_g[e];
        of->source_g[week] += day->source_g[e] + day->dosed_g[e];
        of->asked_g[week] += day->asked_g[e];
        of->taken_g[week] += day->taken_g[e];
        of->lost_g[week] += day->lost_g[e];
        of->store_g_m3[week] = day->element_g_m3[e];
    }
}

/* Share of what is enough that the plants got, 1 where they asked nothing. */
static double got_frac(const Carry *carry, const CarryElement *of, int week)
{
    return of->asked_g[week] > ASKED_LEAST_G
               ? fmin(1.0, of->taken_g[week] / of->asked_g[week] /
                               carry->enough_frac)
               : 1.0;
}

static void find_shortage(const Carry *carry, CarryElement *of)
{
    of->short_week = of->least_week = -1;
    of->least_frac = 1.0;
    bool was_short = false;
    double missing_g = 0.0;
    for (int week = 0; week < carry->weeks; week++) {
        double got = got_frac(carry, of, week);
        bool is_short = got < SHORT_FRAC;
        if (is_short && was_short && of->short_week < 0) {
            of->short_week = week - 1;
        }
        if (is_short) {
            of->short_weeks++;
            missing_g +=
                carry->enough_frac * of->asked_g[week] - of->taken_g[week];
        }
        if (got < of->least_frac) {
            of->least_frac = got;
            of->least_week = week;
        }
        was_short = is_short;
    }
    of->missing_g_w = of->short_weeks > 0 ? missing_g / of->short_weeks : 0.0;
    int last = carry->weeks - 1;
    int third = last - carry->weeks / 3;
    of->gathers = last > 0 && of->store_g_m3[last] > 2.0 * of->store_g_m3[0] &&
                  of->store_g_m3[last] > of->store_g_m3[third];
}

/* ---- Dips ------------------------------------------------------------------
 */

static double sold_in(const CarryAsk *ask, int loop, int week)
{
    double sold = 0.0;
    int from = (week > 0 ? week - 1 : 0) * CARRY_WEEK_D;
    for (int day = from; day < (week + 1) * CARRY_WEEK_D; day++) {
        for (int k = 0; k < ask->farm->tanks_count; k++) {
            if (ask->farm->tanks[k].loop == loop) {
                sold += ask->days->tanks[day * ask->farm->tanks_count + k]
                            .sold_count;
            }
        }
    }
    return sold;
}

static double mean_before(const double *values, int week)
{
    double sum = 0.0;
    for (int i = 1; i <= BEFORE_WEEKS; i++) {
        sum += values[week - i] / BEFORE_WEEKS;
    }
    return sum;
}

static void follow_dip(const Carry *carry, const CarryLoop *loop, double before,
                       CarryDip *dip)
{
    dip->back_week = dip->short_element = dip->short_week = -1;
    int until = carry->weeks;
    for (int week = dip->week; week < carry->weeks; week++) {
        if (loop->offered_kg[week] >= BACK_FRAC * before) {
            dip->back_week = until = week;
            break;
        }
    }
    for (int week = dip->week; week < until; week++) {
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            const CarryElement *of = &loop->elements[e];
            double now = got_frac(carry, of, week);
            bool was_enough = got_frac(carry, of, dip->week - 1) >= SHORT_FRAC;
            if (dip->short_element < 0 && was_enough && now < SHORT_FRAC) {
                dip->short_element = e;
                dip->short_week = week;
            }
        }
    }
}

static void find_dips(const CarryAsk *ask, const Carry *carry, int l)
{
    CarryLoop *loop = &carry->loops[l];
    int free_from = BEFORE_WEEKS;
    for (int week = BEFORE_WEEKS; week < carry->weeks; week++) {
        double before = mean_before(loop->offered_kg, week);
        double drop = before > 0.0 ? 1.0 - loop->offered_kg[week] / before : 0;
        if (week < free_from || drop < DIP_FRAC ||
            loop->dip_count >= CARRY_DIPS_MOST) {
            continue;
        }
        CarryDip *dip = &loop->dips[loop->dip_count++];
        *dip = (CarryDip){.week = week,
                          .drop_frac = drop,
                          .sold_count = sold_in(ask, l, week),
                          .colder_k = mean_before(loop->temp_degc, week) -
                                      loop->temp_degc[week]};
        follow_dip(carry, loop, before, dip);
        free_from = week + BEFORE_WEEKS;
    }
}

/* ---- Making ----------------------------------------------------------------
 */

static void finish_loop(const CarryAsk *ask, const Carry *carry, int l)
{
    const Farm *farm = ask->farm;
    CarryLoop *loop = &carry->loops[l];
    double feed_kg = 0.0, nitrogen_g = 0.0;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        find_shortage(carry, &loop->elements[e]);
    }
    for (int week = 0; week < carry->weeks; week++) {
        loop->growth_frac[week] = 1.0;
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            loop->growth_frac[week] =
                fmin(loop->growth_frac[week],
                     got_frac(carry, &loop->elements[e], week));
        }
        feed_kg += loop->offered_kg[week];
        nitrogen_g += loop->elements[HOUR_N].fish_g[week] +
                      loop->elements[HOUR_N].mineral_g[week];
    }
    loop->nitrogen_kg_feed = feed_kg > 0.0 ? nitrogen_g / feed_kg : 0.0;
    int days = carry->weeks * CARRY_WEEK_D;
    for (int day = 0; day < days; day++) {
        for (int k = 0; k < farm->tanks_count; k++) {
            if (farm->tanks[k].loop == l) {
                loop->fish_kg +=
                    ask->days->tanks[day * farm->tanks_count + k].kg / days;
            }
        }
    }
    for (int i = 0; i < farm->beds_count; i++) {
        const Bed *bed = &farm->beds[i];
        if (bed->zone >= 0 && farm->zones[bed->zone].loop == l) {
            loop->beds_m2 += bed->length_m * bed->width_m;
        }
    }
    find_dips(ask, carry, l);
}

Err carry_make(const CarryAsk *ask, Arena *arena, Carry *out)
{
    int loops = ask->farm->loops_count;
    *out = (Carry){.farm = ask->farm,
                   .first_week = ask->first_week,
                   .weeks = ask->weeks,
                   .enough_frac = ask->enough_frac,
                   .loops = ARENA_ARRAY(arena, CarryLoop, loops),
                   .spell = ask->spell,
                   .chains = ARENA_ARRAY(arena, CarryChain, loops)};
    for (int l = 0; l < loops; l++) {
        make_room(ask, arena, &out->loops[l]);
        out->loops[l].wanted_kg = ask->want_kg[l];
        for (int day = 0; day < ask->weeks * CARRY_WEEK_D; day++) {
            add_day(&ask->days->loops[day * loops + l], day / CARRY_WEEK_D,
                    &out->loops[l]);
        }
        finish_loop(ask, out, l);
        if (ask->spell.days > 0) {
            TRY(carry_chain_find(ask, out, l, &out->chains[l]));
        }
    }
    return ERR_NONE;
}

/* ---- In words --------------------------------------------------------------
 */

enum { LINES_MOST = 32 };

typedef struct Words {
    const Carry *carry;
    const CarryLoop *loop;
    Arena *arena;
    const char **lines;
    int count;
} Words;

static void add_line(Words *w, const char *line)
{
    if (w->count < LINES_MOST - 1) {
        w->lines[w->count++] = line;
    }
}

static const char *week_text(const Words *w, int week)
{
    char text[DATE_TEXT_SIZE];
    week_format(w->carry->first_week + CARRY_WEEK_D * week, text);
    return arena_copy_text(w->arena, text);
}

static void say_feed(Words *w)
{
    double offered = 0.0, wanted = 0.0;
    int short_weeks = 0;
    for (int week = 0; week < w->carry->weeks; week++) {
        offered += w->loop->offered_kg[week];
        wanted += w->loop->wanted_kg[week];
        short_weeks +=
            w->loop->offered_kg[week] < w->loop->wanted_kg[week] ? 1 : 0;
    }
    add_line(w,
             arena_say(w->arena,
                       "Feed given %.0f kg, wanted by the beds %.0f kg; less "
                       "than wanted in %d of %d weeks.",
                       offered, wanted, short_weeks, w->carry->weeks));
}

static void say_shortages(Words *w)
{
    bool is_any = false;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        const CarryElement *of = &w->loop->elements[e];
        if (of->short_week < 0) {
            continue;
        }
        is_any = true;
        add_line(
            w,
            arena_say(w->arena,
                      "Short: %s from %s, in %d weeks; worst in %s, when "
                      "plants get %.0f %% of what is enough (%.2f mg/L left); "
                      "about %.2g g a week is missing.",
                      say(w->arena, carry_element_name(e)),
                      week_text(w, of->short_week), of->short_weeks,
                      week_text(w, of->least_week), 100.0 * of->least_frac,
                      of->store_g_m3[of->least_week], of->missing_g_w));
    }
    if (!is_any) {
        add_line(w,
                 say(w->arena, "Nothing is short: the fish carry the beds."));
    }
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        const CarryElement *of = &w->loop->elements[e];
        if (of->gathers) {
            add_line(w,
                     arena_say(w->arena,
                               "Gathers: %s, %.1f mg/L at first, %.1f at the "
                               "end.",
                               say(w->arena, carry_element_name(e)),
                               of->store_g_m3[0],
                               of->store_g_m3[w->carry->weeks - 1]));
        }
    }
}

static const char *cause_of(const Words *w, const CarryDip *dip)
{
    if (dip->sold_count >= 1.0) {
        return arena_say(w->arena, "%.0f fish sold", dip->sold_count);
    }
    return dip->colder_k > 0.5
               ? arena_say(w->arena, "water %.1f K colder", dip->colder_k)
               : say(w->arena, "fish moved or smaller");
}

static void say_dips(Words *w)
{
    for (int i = 0; i < w->loop->dip_count; i++) {
        const CarryDip *dip = &w->loop->dips[i];
        const char *back =
            dip->back_week >= 0
                ? arena_say(w->arena, "feed is back in %s",
                            week_text(w, dip->back_week))
                : say(w->arena, "feed does not come back in these weeks");
        const char *then =
            dip->short_element >= 0
                ? arena_say(
                      w->arena, "%s runs short %d weeks later",
                      say(w->arena, carry_element_name(dip->short_element)),
                      dip->short_week - dip->week)
                : say(w->arena,
                      "the water's store fills it: nothing more runs short");
        add_line(w, arena_say(w->arena, "%s: %s, feed -%.0f %%; %s; %s.",
                              week_text(w, dip->week), cause_of(w, dip),
                              100.0 * dip->drop_frac, then, back));
    }
}

/* Fish or plants for nitrogen and phosphorus; a salt for the rest, which no
 * number of fish brings. */
static void say_remedy(Words *w)
{
    const CarryElement *n = &w->loop->elements[HOUR_N];
    bool needs_salt = false;
    if (n->short_week >= 0 && w->loop->nitrogen_kg_feed > 0.0) {
        double feed_kg_w = n->missing_g_w / w->loop->nitrogen_kg_feed;
        double mean_kg_w = 0.0, asked_g = 0.0;
        for (int week = 0; week < w->carry->weeks; week++) {
            mean_kg_w += w->loop->offered_kg[week] / w->carry->weeks;
            asked_g += n->asked_g[week] / w->carry->weeks;
        }
        double fish_kg =
            mean_kg_w > 0.0 ? feed_kg_w / mean_kg_w * w->loop->fish_kg : 0.0;
        double m2 = asked_g > 0.0
                        ? fmin(1.0, n->missing_g_w /
                                        (w->carry->enough_frac * asked_g)) *
                              w->loop->beds_m2
                        : 0.0;
        add_line(w,
                 arena_say(w->arena,
                           "In the weeks short of nitrogen about %.0f kg more "
                           "of fish would fill it, or %.0f m2 less of plants. "
                           "Feed only what they eat.",
                           fish_kg, m2));
    }
    for (int e = HOUR_K; e < HOUR_ELEMENTS; e++) {
        needs_salt = needs_salt || w->loop->elements[e].short_week >= 0;
    }
    if (needs_salt) {
        add_line(w,
                 say(w->arena,
                     "Potassium, calcium, magnesium and iron come from salts "
                     "and chelate, not from more fish: see the amounts missing "
                     "above."));
    }
}

const char *const *carry_words(const Carry *carry, int loop, Arena *arena)
{
    Words w = {.carry = carry,
               .loop = &carry->loops[loop],
               .arena = arena,
               .lines = ARENA_ARRAY(arena, const char *, LINES_MOST)};
    say_feed(&w);
    say_shortages(&w);
    say_dips(&w);
    const char *chain = carry_chain_text(carry, loop, arena);
    if (chain) {
        add_line(&w, chain);
    }
    say_remedy(&w);
    return w.lines;
}
