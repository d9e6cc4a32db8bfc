/* Sums of beds: plants, beds held, turnover, feed and area, cleaning. */
#include <math.h>

#include "farm/book.h"
#include "nature/plant/density.h"
#include "sums/rows.h"

static Err plants_in_bed(const SumInputs *in, SumAnswer *out)
{
    double area_m2 = sum_number(in, "area_m2");
    double row_m = sum_number(in, "row_cm") / 100.0;
    double in_row_m = sum_number(in, "in_row_cm") / 100.0;
    double density_m2 = density_square_m2(row_m, in_row_m);
    double plants = floor(area_m2 * density_m2 + 1e-9);
    sum_is(out, "plants on the floor of the bed", plants, "plants");
    sum_also(out, "density", density_m2, "plants/m2");
    sum_work(out,
             "1/(%.4g m x %.4g m) = %.4g/m2; x %.4g m2 = %.4g, rounded "
             "down",
             row_m, in_row_m, density_m2, area_m2, area_m2 * density_m2);
    if (sum_is_given(in, "edge_m")) {
        double edge_m = sum_number(in, "edge_m");
        double apart_m = sum_number(in, "edge_cm") / 100.0;
        sum_also(out, "climbers on its edge", floor(edge_m / apart_m + 1e-9),
                 "plants");
        sum_work(out, "edge: %.4g m / %.4g m = %.4g, rounded down", edge_m,
                 apart_m, edge_m / apart_m);
    }
    return ERR_NONE;
}

static Err beds_a_week(const SumInputs *in, SumAnswer *out)
{
    double plants = sum_number(in, "plants");
    double bed_units = sum_number(in, "density_m2") *
                       sum_number(in, "area_m2") *
                       sum_number(in, "saleable_pct") / 100.0;
    sum_is(out, "beds to plant a week", plants / bed_units, "beds/week");
    sum_also(out, "saleable units of a bed", bed_units, "units");
    sum_work(out, "%.4g/m2 x %.4g m2 x %.4g %% = %.4g; %.4g / %.4g = %.4g",
             sum_number(in, "density_m2"), sum_number(in, "area_m2"),
             sum_number(in, "saleable_pct"), bed_units, plants, bed_units,
             plants / bed_units);
    return ERR_NONE;
}

static Err beds_held(const SumInputs *in, SumAnswer *out)
{
    double units_week = sum_number(in, "units_week");
    double units_bed = sum_number(in, "units_bed");
    double stay_weeks =
        sum_number(in, "weeks_in_bed") + sum_number(in, "turnaround_weeks");
    double planted = units_week / units_bed;
    sum_is(out, "beds held all the time", planted * stay_weeks, "beds");
    sum_also(out, "beds planted a week", planted, "beds/week");
    sum_work(out, "(%.4g / %.4g) x (%.4g + %.4g) = %.4g beds", units_week,
             units_bed, sum_number(in, "weeks_in_bed"),
             sum_number(in, "turnaround_weeks"), planted * stay_weeks);
    return ERR_NONE;
}

static Err bed_turnover(const SumInputs *in, SumAnswer *out)
{
    double stay_weeks =
        sum_number(in, "weeks_in_bed") + sum_number(in, "turnaround_weeks");
    sum_is(out, "crops a year in one bed", 52.0 / stay_weeks, "crops/year");
    sum_work(out, "52 / (%.4g + %.4g) = %.4g", sum_number(in, "weeks_in_bed"),
             sum_number(in, "turnaround_weeks"), 52.0 / stay_weeks);
    return ERR_NONE;
}

/* What a square metre wants of feed a day, by the book. */
typedef struct BedFeed {
    Figure leafy_g_m2_d;
    Figure fruiting_g_m2_d;
} BedFeed;

static Err bed_feed(Arena *arena, BedFeed *out)
{
    Book book = {0};
    TRY(book_load(arena, &book));
    const Figure *leafy = book_figure(&book, "common", "feed_leafy_g_m2_d");
    const Figure *fruiting =
        book_figure(&book, "common", "feed_fruiting_g_m2_d");
    if (!leafy || !fruiting) {
        return err_make(ERR_DEFECT, "the book lacks the feed that beds want");
    }
    *out = (BedFeed){*leafy, *fruiting};
    return ERR_NONE;
}

static Err feed_for_beds(const SumInputs *in, SumAnswer *out)
{
    double leafy_m2 = sum_number(in, "leafy_m2");
    double fruiting_m2 = sum_number(in, "fruiting_m2");
    BedFeed want = {0};
    TRY(bed_feed(out->arena, &want));
    const Figure *leafy = &want.leafy_g_m2_d;
    const Figure *fruiting = &want.fruiting_g_m2_d;
    Figure feed =
        sum_range(leafy_m2 * leafy->value + fruiting_m2 * fruiting->value,
                  leafy_m2 * leafy->low + fruiting_m2 * fruiting->low,
                  leafy_m2 * leafy->high + fruiting_m2 * fruiting->high);
    sum_is_figure(out, "feed that the beds want at full growth", feed, "g/d");
    sum_also_figure(out, "in a week", sum_scaled(feed, 7.0 / 1000.0), "kg");
    sum_work(out, "%.4g m2 x %.4g + %.4g m2 x %.4g g/m2/d = %.5g g/d", leafy_m2,
             leafy->value, fruiting_m2, fruiting->value, feed.value);
    sum_work(out,
             "leafy %.4g (%.4g-%.4g), fruiting %.4g (%.4g-%.4g): %s, for "
             "gravel that keeps its solids; less when young, cold or "
             "dark; handbook 40-50 and 50-80 where solids are taken out",
             leafy->value, leafy->low, leafy->high, fruiting->value,
             fruiting->low, fruiting->high, figure_origin_word(leafy->origin));
    return ERR_NONE;
}

static Err beds_for_feed(const SumInputs *in, SumAnswer *out)
{
    double feed_g_d = sum_number(in, "feed_g_d");
    Figure ratio = {0};
    if (sum_is_given(in, "ratio_g_m2_d")) {
        double given = sum_number(in, "ratio_g_m2_d");
        ratio = sum_range(given, given, given);
    } else {
        BedFeed want = {0};
        TRY(bed_feed(out->arena, &want));
        ratio = want.leafy_g_m2_d;
        sum_work(out,
                 "%.4g (%.4g-%.4g) g/m2/d: leafy beds, a %s for gravel that "
                 "keeps its solids",
                 ratio.value, ratio.low, ratio.high,
                 figure_origin_word(ratio.origin));
    }
    double area_m2 = feed_g_d / ratio.value;
    sum_is_figure(
        out, "bed area that the feed carries",
        sum_range(area_m2, feed_g_d / ratio.high, feed_g_d / ratio.low), "m2");
    sum_work(out, "%.5g g/d / %.4g g/m2/d = %.4g m2", feed_g_d, ratio.value,
             area_m2);
    return ERR_NONE;
}

static Err clean_rota(const SumInputs *in, SumAnswer *out)
{
    double beds = sum_number(in, "beds");
    double months = sum_number(in, "months_between");
    double hours = sum_number(in, "hours_bed");
    double a_month = beds / months;
    sum_is(out, "beds to deep clean a month", a_month, "beds/month");
    sum_also(out, "hours a month", a_month * hours, "h");
    /* At most one bed in ten of a loop a fortnight: common practice. */
    double most = beds / 10.0 * 26.0 / 12.0;
    sum_also(out, "most a month for one loop", most, "beds/month");
    sum_work(out, "%.4g beds / %.4g months = %.4g; x %.4g h = %.4g h", beds,
             months, a_month, hours, a_month * hours);
    if (a_month > most) {
        sum_caution(out, "Over one bed in ten of a loop a fortnight: the film "
                         "that turns ammonia would suffer.");
    }
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_BEDS[] = {
    {.name = "plants-in-bed", .run = plants_in_bed,
     .purpose = "plants on a bed, and climbers on its edge",
     .keys = KEYS(
        NEED("area_m2", "m2", 0.01, 10000, "area that is planted"),
        NEED("row_cm", "cm", 1, 1000, "between rows"),
        NEED("in_row_cm", "cm", 1, 1000, "between plants of a row"),
        MAY("edge_m", "m", 0.1, 1000, "length of an edge with climbers"),
        USUAL("edge_cm", "cm", 40, 5, 500, "between climbers")),
     .source = "",
     .example = "area_m2=2.5 row_cm=20 in_row_cm=22.5 edge_m=2.4 edge_cm=40"},
    {.name = "beds-a-week", .run = beds_a_week,
     .purpose = "beds to plant each week for an order",
     .keys = KEYS(
        NEED("plants", "units/week", 0, 1e7, "saleable units wanted a week"),
        NEED("area_m2", "m2", 0.01, 10000, "of a bed"),
        NEED("density_m2", "plants/m2", 0.01, 2000, "plants set on it"),
        USUAL("saleable_pct", "%", 90, 1, 100, "share that can be sold")),
     .source = "",
     .example = "plants=120 area_m2=2.5 density_m2=22"},
    {.name = "beds-held", .run = beds_held,
     .purpose = "beds that a steady order holds",
     .keys = KEYS(
        NEED("units_week", "units/week", 0, 1e7, "units ordered a week"),
        NEED("units_bed", "units", 0.01, 1e6, "saleable units of one bed"),
        NEED("weeks_in_bed", "weeks", 0.1, 520, "from setting to clearing"),
        USUAL("turnaround_weeks", "weeks", 0.5, 0, 52, "cleared to set again")),
     .source = "",
     .example = "units_week=120 units_bed=49.5 weeks_in_bed=9 "
                "turnaround_weeks=0.5"},
    {.name = "bed-turnover", .run = bed_turnover,
     .purpose = "crops a year in one bed",
     .keys = KEYS(
        NEED("weeks_in_bed", "weeks", 0.1, 520, "from setting to clearing"),
        USUAL("turnaround_weeks", "weeks", 0.5, 0, 52, "cleared to set again")),
     .source = "",
     .example = "weeks_in_bed=5 turnaround_weeks=0.5"},
    {.name = "feed-for-beds", .run = feed_for_beds,
     .purpose = "feed whose nutrients the beds want",
     .keys = KEYS(
        USUAL("leafy_m2", "m2", 0, 0, 1e6, "beds of leaf crops"),
        USUAL("fruiting_m2", "m2", 0, 0, 1e6, "beds of fruiting crops")),
     .source = "FAO589",
     .example = "leafy_m2=90 fruiting_m2=30"},
    {.name = "beds-for-feed", .run = beds_for_feed,
     .purpose = "bed area that a day's feed carries",
     .keys = KEYS(
        NEED("feed_g_d", "g/d", 0, 1e7, "feed eaten in a day"),
        MAY("ratio_g_m2_d", "g/m2/d", 1, 500,
            "feed for a square metre; not given: leafy beds by the book")),
     .source = "FAO589 RAKOCY2007",
     .example = "feed_g_d=1000 ratio_g_m2_d=60"},
    {.name = "clean-rota", .run = clean_rota,
     .purpose = "deep cleans a month, and their hours",
     .keys = KEYS(
        NEED("beds", "beds", 1, 100000, "beds in the rota"),
        NEED("months_between", "months", 0.5, 240, "from clean to clean"),
        USUAL("hours_bed", "h", 1.5, 0.1, 100,
              "1.5 to rake and flush, 32 to wash out")),
     .source = "",
     .example = "beds=48 months_between=12 hours_bed=32"},
    {.name = NULL},
};
/* clang-format on */
