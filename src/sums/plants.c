/* Sums of sowing and picking: how many, when, how sure. */
#include <math.h>

#include "base/date.h"
#include "nature/plant/seeds.h"
#include "sums/rows.h"

static Err plants_for_order(const SumInputs *in, SumAnswer *out)
{
    double units = sum_number(in, "units_week");
    double each = sum_number(in, "units_plant");
    double saleable = sum_number(in, "saleable_pct") / 100.0;
    double plants = ceil(units / (each * saleable) - 1e-9);
    sum_is(out, "plants to set", plants, "plants");
    sum_work(out,
             "units / (units a plant x saleable) = %.4g / (%.4g x %.4g) "
             "= %.4g, rounded up",
             units, each, saleable, units / (each * saleable));
    return ERR_NONE;
}

static Err seeds_sum(const SumInputs *in, SumAnswer *out)
{
    int32_t plants = sum_count(in, "plants");
    double germination = sum_number(in, "germination_pct") / 100.0;
    double survival = sum_number(in, "survival_pct") / 100.0;
    double confidence = sum_number(in, "confidence_pct") / 100.0;
    double share = germination * survival;
    int32_t seeds = seeds_to_sow(plants, share, confidence);
    int32_t average = seeds_on_average(plants, share);
    sum_is(out, "seeds to sow", seeds, "seeds");
    sum_also(out, "chance that they suffice",
             100.0 * seeds_chance_frac(seeds, plants, share), "%");
    sum_also(out, "enough only on average", average, "seeds");
    sum_also(out, "chance that those would suffice",
             100.0 * seeds_chance_frac(average, plants, share), "%");
    sum_also(out, "plants to expect", seeds * share, "plants");
    sum_work(out,
             "share that makes a plant = germination x survival = %.4g x "
             "%.4g = %.4g",
             germination, survival, share);
    sum_work(out, "fewest seeds n with P[Bin(n, %.4g) >= %d] >= %.4g: n = %d",
             share, (int)plants, confidence, (int)seeds);
    sum_work(out, "on average: %d / %.4g = %.4g, rounded up", (int)plants,
             share, plants / share);
    if (germination < 0.5) {
        sum_caution(out, "Under half comes up: old seed, heat, or the sower? "
                         "Test 50 seeds on paper before you sow them all.");
    }
    return ERR_NONE;
}

static Err trays(const SumInputs *in, SumAnswer *out)
{
    int32_t seeds = sum_count(in, "seeds");
    int32_t cells = sum_count(in, "cells");
    int32_t each = sum_count(in, "seeds_cell");
    int32_t count = seeds_trays(seeds, cells, each);
    double filled = ceil((double)seeds / each);
    sum_is(out, "trays", count, "trays");
    sum_also(out, "cells that stay free", (double)count * cells - filled,
             "cells");
    sum_work(out, "%d seeds / (%d cells x %d) = %.4g, rounded up", (int)seeds,
             (int)cells, (int)each, (double)seeds / ((double)cells * each));
    return ERR_NONE;
}

static Err sow_date(const SumInputs *in, SumAnswer *out)
{
    int32_t deliver_on = sum_day(in, "deliver_on");
    int32_t bed_d = sum_count(in, "bed_days");
    int32_t nursery_d = sum_count(in, "nursery_days");
    int32_t slack_d = sum_count(in, "slack_days");
    int32_t set_on = deliver_on - slack_d - bed_d;
    int32_t sow_on = set_on - nursery_d;
    sum_is(out, "sow on", sow_on, "date");
    sum_also(out, "set out on", set_on, "date");
    sum_also(out, "Monday of the week to sow in", week_of(sow_on), "date");
    sum_work(out, "%s less %d in the bed, %d in the nursery, %d slack = %s",
             sum_date(out, deliver_on), (int)bed_d, (int)nursery_d,
             (int)slack_d, sum_date(out, sow_on));
    sum_work(out, "days in the bed are those of that season: winter takes two "
                  "to three times the packet's");
    return ERR_NONE;
}

static Err next_sowing(const SumInputs *in, SumAnswer *out)
{
    int32_t first_pick = sum_day(in, "first_pick_on");
    int32_t bearing_weeks = sum_count(in, "bearing_weeks");
    int32_t overlap_weeks = sum_count(in, "overlap_weeks");
    int32_t days = sum_count(in, "days_to_first_pick");
    if (overlap_weeks >= bearing_weeks) {
        return err_make(ERR_RANGE,
                        "overlap_weeks=%d is not under bearing_weeks=%d: "
                        "sowings would never move on",
                        (int)overlap_weeks, (int)bearing_weeks);
    }
    int32_t step_d = 7 * (bearing_weeks - overlap_weeks);
    int32_t next_pick = first_pick + step_d;
    sum_is(out, "next sowing on", next_pick - days, "date");
    sum_also(out, "its first pick", next_pick, "date");
    sum_also(out, "this one ends", first_pick + 7 * bearing_weeks, "date");
    sum_work(out, "first pick %s + 7 (%d - %d) days - %d days = %s",
             sum_date(out, first_pick), (int)bearing_weeks, (int)overlap_weeks,
             (int)days, sum_date(out, next_pick - days));
    if (sum_is_given(in, "until")) {
        int32_t span_d = sum_day(in, "until") - first_pick;
        double sowings =
            1.0 +
            ceil(fmax(0.0, (span_d - 7.0 * bearing_weeks) / step_d) - 1e-9);
        sum_also(out, "sowings to bridge the season", sowings, "");
        sum_work(out, "1 + (%d days - 7 x %d)/%d, rounded up = %.0f sowings",
                 (int)span_d, (int)bearing_weeks, (int)step_d, sowings);
    }
    return ERR_NONE;
}

static Err harvest_window(const SumInputs *in, SumAnswer *out)
{
    int32_t left_d = sum_day(in, "over_ripe_on") - sum_day(in, "today");
    double units = sum_number(in, "units");
    if (left_d <= 0) {
        return err_make(ERR_RANGE,
                        "over_ripe_on=%s is not after today=%s: no window is "
                        "left",
                        sum_word(in, "over_ripe_on"), sum_word(in, "today"));
    }
    sum_is(out, "days left to pick", left_d, "d");
    sum_also(out, "units a day", units / left_d, "units/d");
    sum_work(out, "%s - %s = %d days; %.4g / %d = %.4g a day",
             sum_date(out, sum_day(in, "over_ripe_on")),
             sum_date(out, sum_day(in, "today")), (int)left_d, units,
             (int)left_d, units / left_d);
    return ERR_NONE;
}

static Err harvest_forecast(const SumInputs *in, SumAnswer *out)
{
    double ready = sum_number(in, "units_ready");
    double saleable = sum_number(in, "saleable_pct") / 100.0;
    double spread = sum_number(in, "spread_pct") / 100.0;
    double held = sum_number(in, "held_units");
    double middle = ready * saleable;
    double most = fmin(ready, middle * (1.0 + spread));
    sum_is_figure(out, "units to offer",
                  sum_range(fmax(0.0, middle - held),
                            fmax(0.0, middle * (1.0 - spread) - held),
                            fmax(0.0, most - held)),
                  "units");
    sum_work(out, "ready x saleable - held = %.4g x %.4g - %.4g = %.4g", ready,
             saleable, held, fmax(0.0, middle - held));
    sum_work(out, "spread %.4g %% either way%s; never more than is ready",
             100.0 * spread,
             sum_input(in, "spread_pct")->text ? ", yours"
                                               : ", a guess until you have "
                                                 "your own");
    return ERR_NONE;
}

static Err season_factor(const SumInputs *in, SumAnswer *out)
{
    double own_d = sum_number(in, "own_days");
    double book_d = sum_number(in, "book_days");
    double factor = own_d / book_d;
    sum_is(out, "your days over the packet's", factor, "");
    sum_work(out,
             "%.4g / %.4g = %.3g; 0.9 in June to 2.5 in December are "
             "guesses for a temperate place",
             own_d, book_d, factor);
    if (sum_is_given(in, "other_days")) {
        double other_d = sum_number(in, "other_days");
        sum_also(out, "days of the other crop this month", factor * other_d,
                 "d");
        sum_work(out, "%.4g x %.3g = %.4g days", other_d, factor,
                 factor * other_d);
    }
    return ERR_NONE;
}

/* "2027-03-01T10:10+01:00" of a moment, in the offset it was told in. */
static const char *moment_text(SumAnswer *out, int64_t utc_s, int offset_s)
{
    int64_t local_s = utc_s + offset_s;
    int64_t day = local_s / 86400 - (local_s % 86400 < 0);
    int second = (int)(local_s - day * 86400);
    int offset_min = (offset_s < 0 ? -offset_s : offset_s) / 60;
    return arena_text(out->arena, "%sT%02d:%02d%c%02d:%02d",
                      sum_date(out, (int32_t)day), second / 3600,
                      second / 60 % 60, offset_s < 0 ? '-' : '+',
                      offset_min / 60, offset_min % 60);
}

static Err spray_hold(const SumInputs *in, SumAnswer *out)
{
    const SumInput *sprayed = sum_input(in, "sprayed_at");
    double reentry_h = sum_number(in, "reentry_h");
    int32_t harvest_d = sum_count(in, "harvest_days");
    int64_t enter_s = sprayed->utc_s + (int64_t)ceil(reentry_h * 3600.0);
    int64_t local_s = enter_s + sprayed->offset_s;
    int32_t enter_on = (int32_t)(local_s / 86400 - (local_s % 86400 < 0));
    int32_t pick_on = sprayed->day + harvest_d;
    pick_on = pick_on < enter_on ? enter_on : pick_on;
    sum_caution(out, "From the label only, for this crop and this use; the "
                     "longest hold of all crops in the bed and within drift "
                     "counts. Sprays kill fish: licensed people, local rules.");
    int64_t free_s = sprayed->utc_s + (int64_t)harvest_d * 86400;
    free_s = free_s < enter_s ? enter_s : free_s;
    sum_caution(out, "On that day not before %s: days are whole ones.",
                moment_text(out, free_s, sprayed->offset_s));
    sum_is(out, "first day to pick", pick_on, "date");
    sum_also(out, "tunnel closed for", reentry_h, "h");
    sum_work(out, "enter again from %s",
             moment_text(out, enter_s, sprayed->offset_s));
    sum_work(out, "pick from %s + %d days, not before the tunnel is open: %s",
             sum_date(out, sprayed->day), (int)harvest_d,
             sum_date(out, pick_on));
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_PLANTS[] = {
    {.name = "plants-for-order", .run = plants_for_order,
     .purpose = "plants to set for an order",
     .keys = KEYS(
        NEED("units_week", "units/week", 0, 1e7, "units ordered a week"),
        USUAL("units_plant", "", 1, 0.001, 10000, "units that a plant gives"),
        USUAL("saleable_pct", "%", 90, 1, 100, "share that can be sold")),
     .source = "",
     .example = "units_week=120"},
    {.name = "seeds-to-sow", .run = seeds_sum,
     .purpose = "seeds that give enough plants, with a chosen confidence",
     .keys = KEYS(
        COUNT("plants", 1, 1000000, "plants to set"),
        NEED("germination_pct", "%", 5, 100, "of this seed lot"),
        USUAL("confidence_pct", "%", 90, 1, 99.99, "how sure"),
        USUAL("survival_pct", "%", 92, 10, 100,
              "of seedlings, in nursery and setting")),
     .source = "",
     .example = "plants=96 germination_pct=90 confidence_pct=90 "
                "survival_pct=92.15"},
    {.name = "trays", .run = trays,
     .purpose = "trays for a sowing",
     .keys = KEYS(
        COUNT("seeds", 0, 10000000, "seeds to sow"),
        COUNT("cells", 1, 2000, "cells of a tray"),
        COUNT_USUAL("seeds_cell", 1, 1, 50, "seeds in a cell")),
     .source = "",
     .example = "seeds=293 cells=128"},
    {.name = "sow-date", .run = sow_date,
     .purpose = "when to sow for a delivery",
     .keys = KEYS(
        DAY("deliver_on", "day of the first pick"),
        COUNT("bed_days", 0, 1000, "from setting out to the first pick"),
        COUNT("nursery_days", 0, 365, "from sowing to setting out"),
        COUNT_USUAL("slack_days", 0, 0, 100, "to spare")),
     .source = "",
     .example = "deliver_on=2027-05-03 bed_days=35 nursery_days=21 slack_days=3"},
    {.name = "next-sowing", .run = next_sowing,
     .purpose = "the sowing that takes over from one that bears",
     .keys = KEYS(
        DAY("first_pick_on", "first pick of this sowing"),
        COUNT("bearing_weeks", 1, 104, "weeks that it bears"),
        COUNT_USUAL("overlap_weeks", 0, 0, 52, "weeks that both bear"),
        COUNT("days_to_first_pick", 1, 400, "of the next sowing, from seed"),
        DAY_MAY("until", "end of the season, for the number of sowings")),
     .source = "",
     .example = "first_pick_on=2027-05-01 bearing_weeks=10 overlap_weeks=0 "
                "days_to_first_pick=49"},
    {.name = "harvest-window", .run = harvest_window,
     .purpose = "days left to pick, and units a day",
     .keys = KEYS(
        DAY("over_ripe_on", "day it is too late"),
        DAY("today", "from this day"),
        NEED("units", "units", 0, 1e7, "units that stand")),
     .source = "",
     .example = "over_ripe_on=2027-06-21 today=2027-06-14 units=190"},
    {.name = "harvest-forecast", .run = harvest_forecast,
     .purpose = "units to offer, low and high",
     .keys = KEYS(
        NEED("units_ready", "units", 0, 1e7, "units counted as ready"),
        USUAL("saleable_pct", "%", 90, 1, 100, "share that can be sold"),
        USUAL("spread_pct", "%", 25, 0, 100, "either way"),
        USUAL("held_units", "units", 0, 0, 1e7, "held after spraying")),
     .source = "",
     .example = "units_ready=85 saleable_pct=90 held_units=8"},
    {.name = "season-factor", .run = season_factor,
     .purpose = "how much longer your beds take than the packet says",
     .keys = KEYS(
        NEED("own_days", "d", 1, 1000, "your days, this month"),
        NEED("book_days", "d", 1, 1000, "the packet's days"),
        MAY("other_days", "d", 1, 1000, "packet's days of another crop")),
     .source = "",
     .example = "own_days=63 book_days=35 other_days=50"},
    {.name = "spray-hold", .run = spray_hold,
     .purpose = "when a sprayed bed may be entered and picked",
     .keys = KEYS(
        INSTANT("sprayed_at", "end of the spraying"),
        NEED("reentry_h", "h", 0, 2000, "re-entry, from the label"),
        COUNT("harvest_days", 0, 365, "pre-harvest interval, from the label")),
     .source = "",
     .example = "sprayed_at=2027-06-14T19:30+02:00 reentry_h=12 harvest_days=3"},
    {.name = NULL},
};
/* clang-format on */
