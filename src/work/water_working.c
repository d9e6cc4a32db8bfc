/* How the figures of the water's page are made. */
#include "work/water_working.h"

#include <math.h>

enum { DAY_S = 86400 };

/* A reading of a place, and its units. */
typedef struct ReadingOf {
    const WaterDayAsk *ask;
    const char *place;
    const Judge *judge;
    const WaterReading *reading;
    const WaterRange *made;
    const char *key; /* "ph" */
    const char *unit;
} ReadingOf;

static const char *unit_of(int quantity)
{
    return quantity == READ_TEMP ? "degC" : quantity == READ_PH ? "" : "mg/L";
}

static Working *begin(const ReadingOf *of, const char *end)
{
    return working_begin(
        of->ask->workings, "water", of->place,
        arena_text(of->ask->workings->arena, "%s_%s", of->key, end));
}

/* "ph_low = ", and what it is. */
static void says(Working *working, const char *name, const char *words,
                 const char *right)
{
    if (working) {
        working_says(
            working, name, words,
            arena_text(working->arena, "%s = %s", working->key.figure, right));
    }
}

static void tell_value(const ReadingOf *of)
{
    Working *working = begin(of, "value");
    says(working, "last reading", "as it was read at the place itself", "r");
    working_value(
        working, "r", "read", of->reading->value,
        (WorkingInput){.unit = of->unit,
                       .from = WORKING_TOLD,
                       .on = (int32_t)(of->reading->read_at / DAY_S)});
    working_value(working, NULL, "hours ago", of->reading->age_h,
                  (WorkingInput){.unit = "h", .from = WORKING_WORKED});
    working_is(working, of->reading->value, of->unit);
}

static void tell_foreseen(const ReadingOf *of)
{
    Working *working = begin(of, "foreseen");
    says(working, "water of the day, foreseen",
         "the mean of that day in the typical year", "t");
    working_value(working, "t", "typical year's day", of->reading->foreseen,
                  (WorkingInput){.unit = "degC", .from = WORKING_FORESEEN});
    working_note(working, "Heat taken up from sun, air and heaters less what "
                          "is lost, by the hour of a year of the place's usual "
                          "months.");
    working_is(working, of->reading->foreseen, "degC");
}

/* ---- the range that suits ------------------------------------------------
 */

/* An end that is a limit of the book as it stands. */
static void tell_limit(Working *working, const WaterEnd *end, const char *unit)
{
    says(working, "end of what suits", "the limit of the book", "l");
    working_figure(working, "l", "limit", end->limit, unit);
}

static void tell_temp(const ReadingOf *of, Working *working, bool is_high)
{
    const double *quantity = of->judge->of;
    if (!is_high) {
        says(working, "least that suits",
             "feed stops below it, for the fish that bear least cold", "f");
        working_value(working, "f", "feed stops below",
                      quantity[JUDGE_FEED_DEGC],
                      (WorkingInput){.unit = "degC", .from = WORKING_GUESS});
        return;
    }
    says(working, "most that suits",
         "this water and the degrees by which it is under the heat in which "
         "all feed stops",
         "t + k");
    working_value(working, "t", "this water", quantity[JUDGE_TEMP],
                  (WorkingInput){.unit = "degC", .from = WORKING_WORKED});
    working_value(working, "k",
                  "degrees under the heat in which all feed stops",
                  quantity[JUDGE_UNDER_HEAT_K],
                  (WorkingInput){.unit = "degC", .from = WORKING_GUESS});
    working_source(working, "YI1998");
}

static void tell_oxygen(const ReadingOf *of, Working *working, bool is_high)
{
    const WaterEnd *end = is_high ? &of->made->high : &of->made->low;
    if (is_high) {
        says(working, "most that suits",
             "a share over what water of that warmth and height holds in "
             "balance with air",
             "s x full");
        working_value(working, "full", "oxygen in balance with air", end->other,
                      (WorkingInput){.unit = "mg/L", .from = WORKING_WORKED});
        working_figure(working, "s", "times that at most", end->limit, "");
        return;
    }
    says(working, "least that suits",
         "the limit under which nothing is netted, and what the heaviest fish "
         "need to eat all they can: the greater",
         "max(l, e)");
    working_figure(working, "l", "watch below", end->limit, "mg/L");
    working_value(working, "e", "the heaviest fish eat all they can from",
                  end->other,
                  (WorkingInput){.unit = "mg/L",
                                 .from = WORKING_BOOK,
                                 .source = "TRANDUY2012 TSADIK1987"});
}

static void tell_ammonia(const ReadingOf *of, Working *working)
{
    const double *quantity = of->judge->of;
    const WaterEnd *end = &of->made->high;
    if (isnan(end->other)) {
        says(working, "most that suits",
             "what piles up where gravel does not follow the feed; without "
             "ammonia and pH read together nothing is known of the poisonous "
             "part",
             "l");
        working_figure(working, "l", "piled up", end->limit, "mg/L");
        return;
    }
    says(working, "most that suits",
         "total ammonia at which its poisonous part reaches the caution for "
         "the lightest fish in this water, or what piles up: the less",
         "min(tan x c / nh3, l)");
    working_value(
        working, "tan", "total ammonia read", quantity[JUDGE_TAN],
        (WorkingInput){.unit = "mg/L",
                       .from = WORKING_TOLD,
                       .on = (int32_t)(of->reading->read_at / DAY_S)});
    working_value(working, "c", "caution for the lightest fish, NH3-N",
                  quantity[JUDGE_NH3_CAUTION],
                  (WorkingInput){.unit = "mg/L", .from = WORKING_GUESS});
    working_value(working, "nh3", "poisonous part now, NH3-N",
                  quantity[JUDGE_NH3],
                  (WorkingInput){.unit = "mg/L", .from = WORKING_WORKED});
    working_value(working, NULL, "pH", quantity[JUDGE_PH],
                  (WorkingInput){.unit = "",
                                 .from = WORKING_TOLD,
                                 .on = (int32_t)(of->ask->at / DAY_S)});
    working_value(working, NULL, "water", quantity[JUDGE_TEMP],
                  (WorkingInput){.unit = "degC", .from = WORKING_WORKED});
    working_figure(working, "l", "piled up", end->limit, "mg/L");
    working_source(working, "EMERSON1975");
}

static void tell_nitrite(const ReadingOf *of, Working *working)
{
    const double *quantity = of->judge->of;
    double chloride = quantity[JUDGE_CHLORIDE];
    says(working, "most that suits",
         "a twentieth of what kills half of small fish in four days at this "
         "chloride, 1 at most",
         "c");
    working_value(working, "c", "caution at this chloride",
                  quantity[JUDGE_NITRITE_CAUTION],
                  (WorkingInput){.unit = "mg/L",
                                 .from = WORKING_GUESS,
                                 .source = "WANG2006"});
    working_value(working, NULL,
                  isnan(chloride) ? "chloride, not read: taken as none"
                                  : "chloride",
                  isnan(chloride) ? 0.0 : chloride,
                  (WorkingInput){.unit = "mg/L", .from = WORKING_WORKED});
}

static void tell_end(const ReadingOf *of, bool is_high)
{
    double value = is_high ? of->reading->high : of->reading->low;
    if (isnan(value)) {
        return;
    }
    Working *working = begin(of, is_high ? "high" : "low");
    if (!working) {
        return;
    }
    switch (of->reading->quantity) {
    case READ_TEMP:
        tell_temp(of, working, is_high);
        break;
    case READ_OXYGEN:
        tell_oxygen(of, working, is_high);
        break;
    case READ_TAN:
        tell_ammonia(of, working);
        break;
    case READ_NITRITE:
        tell_nitrite(of, working);
        break;
    default:
        tell_limit(working, is_high ? &of->made->high : &of->made->low,
                   of->unit);
        break;
    }
    working_is(working, value, of->unit);
}

void water_working_tell(const WaterDayAsk *ask, const char *place,
                        const Judge *judge, const WaterReading *reading,
                        const WaterRange *made)
{
    if (!ask->workings) {
        return;
    }
    ReadingOf of = {.ask = ask,
                    .place = place,
                    .judge = judge,
                    .reading = reading,
                    .made = made,
                    .key =
                        FARM_WORDS[WORDS_QUANTITIES].words[reading->quantity],
                    .unit = unit_of(reading->quantity)};
    if (!isnan(reading->value)) {
        tell_value(&of);
    }
    if (!isnan(reading->foreseen)) {
        tell_foreseen(&of);
    }
    tell_end(&of, false);
    tell_end(&of, true);
}
