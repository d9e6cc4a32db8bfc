/* How the figures of the fish page are made. */
#include "work/fish_working.h"

#include "base/date.h"

static const char *part_id(const FishDayAsk *ask, const char *tank,
                           const char *batch)
{
    return arena_text(ask->workings->arena, "%s/%s", tank, batch);
}

/* ---- a batch in a tank ---------------------------------------------------
 */

static const WorkingInput FISH_FORESEEN = {.unit = "fish",
                                           .from = WORKING_FORESEEN};
static const WorkingInput KG_FORESEEN = {.unit = "kg",
                                         .from = WORKING_FORESEEN};

static void tell_count(Working *working, const FishMade *made)
{
    working_says(working, "fish of the batch in the tank",
                 "those of Monday after the week's moves, and those that the "
                 "plan nets later in the week and that still stand here",
                 "count = monday + net");
    working_value(working, "monday", "on Monday, after its moves",
                  made->monday_count, FISH_FORESEEN);
    working_value(
        working, "net", "leave later in the week, less those that come",
        made->net_count, (WorkingInput){.unit = "fish", .from = WORKING_PLAN});
    working_note(working,
                 "Monday's are those counted and told, less the usual deaths "
                 "of well kept fish since.");
    working_is(working, made->part.count, "fish");
}

static void put_kg(Working *working, const FishMade *made)
{
    working_value(working, "monday_kg", "kilos on Monday, after its moves",
                  made->monday_kg, KG_FORESEEN);
    working_value(working, "net_kg", "kilos that leave later in the week",
                  made->net_kg,
                  (WorkingInput){.unit = "kg", .from = WORKING_PLAN});
    working_value(
        working, "grown", "weight today over Monday's, as the batch grows",
        made->grown_frac, (WorkingInput){.from = WORKING_FORESEEN, .unit = ""});
}

static void tell_kg(Working *working, const FishMade *made)
{
    working_says(working, "kilos of the batch in the tank",
                 "Monday's kilos and those still to be netted, times what they "
                 "have grown since",
                 "kg = (monday_kg + net_kg) x grown");
    put_kg(working, made);
    working_is(working, made->part.kg, "kg");
}

static void tell_mean(Working *working, const FishMade *made)
{
    working_says(working, "mean weight", "kilos over how many they are",
                 "mean_g = 1000 x (monday_kg + net_kg) x grown / "
                 "(monday + net)");
    put_kg(working, made);
    working_value(working, "monday", "fish on Monday, after its moves",
                  made->monday_count, FISH_FORESEEN);
    working_value(working, "net",
                  "fish that leave later in the week, less those that "
                  "come",
                  made->net_count,
                  (WorkingInput){.unit = "fish", .from = WORKING_PLAN});
    working_is(working, made->part.mean_g, "g");
}

static void tell_spread(Working *working, const FishMade *made)
{
    bool is_counted = made->is_cv_counted;
    working_says(working, "spread of the weights",
                 is_counted
                     ? "as it was when they were counted: no fish left since"
                     : "standard deviation over mean of the weights of its "
                       "slices on Monday",
                 "cv_frac = c");
    working_value(
        working, "c", "standard deviation over mean", made->part.cv_frac,
        (WorkingInput){.unit = "share",
                       .from = is_counted ? WORKING_TABLE : WORKING_FORESEEN});
    if (!is_counted) {
        working_note(working, "sqrt(sum of n w^2 / sum of n / mean^2 - 1) over "
                              "the slices that stand in this tank.");
    }
    working_is(working, made->part.cv_frac, "share");
}

void fish_working_part(const FishDayAsk *ask, const char *tank,
                       const char *batch, const FishMade *made)
{
    if (!ask->workings) {
        return;
    }
    const char *id = part_id(ask, tank, batch);
    tell_count(working_begin(ask->workings, "in-tank", id, "count"), made);
    tell_kg(working_begin(ask->workings, "in-tank", id, "kg"), made);
    tell_mean(working_begin(ask->workings, "in-tank", id, "mean_g"), made);
    tell_spread(working_begin(ask->workings, "in-tank", id, "cv_frac"), made);
}

/* ---- a tank --------------------------------------------------------------
 */

/* A sum over the batches of a tank, each opening to its own. */
static void tell_sum(const FishDayAsk *ask, const FishTank *tank, bool is_kg)
{
    const char *id = ask->farm->tanks[tank->tank].id;
    const char *figure = is_kg ? "kg" : "count";
    Working *working = working_begin(ask->workings, "tank", id, figure);
    if (!working) {
        return;
    }
    working_says(working, is_kg ? "kilos in the tank" : "fish in the tank",
                 "its batches added up", is_kg ? "kg = 0" : "count = 0");
    for (int b = 0; b < tank->batch_count; b++) {
        const FishInTank *in = &tank->batches[b];
        const char *batch = ask->foresight->fish.batches[in->batch].id;
        const char *symbol = working_symbol(working, is_kg ? "kg" : "n", b + 1);
        working_joins(working, " + ");
        working_joins(working, symbol);
        working_value(
            working, symbol, batch, is_kg ? in->part.kg : in->part.count,
            (WorkingInput){
                .unit = is_kg ? "kg" : "fish",
                .from = WORKING_WORKED,
                .opens = {"in-tank", part_id(ask, id, batch), figure}});
    }
    working_is(working, is_kg ? tank->kg : tank->count, is_kg ? "kg" : "fish");
}

static void put_kilos(Working *working, const char *id, double kg)
{
    working_value(working, "kg", "kilos in the tank", kg,
                  (WorkingInput){.unit = "kg",
                                 .from = WORKING_WORKED,
                                 .opens = {"tank", id, "kg"}});
}

static void tell_tank_mean(const FishDayAsk *ask, const FishTank *tank)
{
    const char *id = ask->farm->tanks[tank->tank].id;
    Working *working = working_begin(ask->workings, "tank", id, "mean_g");
    if (tank->count <= 0.0) {
        working_says(working, "mean weight", "there are no fish", "mean_g = 0");
        working_is(working, 0.0, "g");
        return;
    }
    working_says(working, "mean weight", "kilos over how many they are",
                 "mean_g = 1000 x kg / count");
    put_kilos(working, id, tank->kg);
    working_value(working, "count", "fish in the tank", tank->count,
                  (WorkingInput){.unit = "fish",
                                 .from = WORKING_WORKED,
                                 .opens = {"tank", id, "count"}});
    working_is(working, tank->mean_g, "g");
}

static void tell_density(const FishDayAsk *ask, const FishTank *tank)
{
    const Tank *row = &ask->farm->tanks[tank->tank];
    Working *working =
        working_begin(ask->workings, "tank", row->id, "density_kg_m3");
    working_says(working, "density", "kilos of fish over the tank's water",
                 "density_kg_m3 = kg / volume_m3");
    put_kilos(working, row->id, tank->kg);
    working_value(working, "volume_m3", "water of the tank", row->volume_m3,
                  (WorkingInput){.unit = "m3", .from = WORKING_TABLE});
    working_value(working, NULL, "the farm's ceiling", tank->ceiling_kg_m3,
                  (WorkingInput){.unit = "kg/m3", .from = WORKING_TABLE});
    working_is(working, tank->density_kg_m3, "kg/m3");
}

static void tell_water(const FishDayAsk *ask, const FishTank *tank)
{
    const char *id = ask->farm->tanks[tank->tank].id;
    Working *working = working_begin(ask->workings, "tank", id, "temp_degc");
    bool is_told = tank->is_degc_told;
    working_says(working, "water of the day",
                 is_told ? "the last reading told today"
                         : "the mean of that day in the typical year",
                 "temp_degc = t");
    working_value(
        working, "t", is_told ? "as told" : "typical year's day", tank->degc,
        (WorkingInput){.unit = "degC",
                       .from = is_told ? WORKING_TOLD : WORKING_FORESEEN,
                       .on = is_told ? ask->day : 0});
    if (!is_told) {
        working_note(working,
                     "Its loop's water: heat taken up from sun, air and "
                     "heaters less what is lost, by the hour of a year of the "
                     "place's usual months.");
    }
    working_is(working, tank->degc, "degC");
}

static void tell_conversion(const FishDayAsk *ask, const FishTank *tank)
{
    const Conversion *made = &tank->conversion;
    Working *working =
        made->is_known
            ? working_begin(ask->workings, "tank",
                            ask->farm->tanks[tank->tank].id, "conversion")
            : NULL;
    working_says(working, "feed conversion",
                 "feed given between two samples over the weight gained: kilos "
                 "at the end less those at the start, and those that left "
                 "less those that came",
                 "conversion = feed / (last - first + left)");
    working_value(
        working, "feed", "feed told in between", made->feed_kg,
        (WorkingInput){.unit = "kg", .from = WORKING_TOLD, .on = made->until});
    working_value(
        working, "first", "kilos at the first sample or count", made->first_kg,
        (WorkingInput){.unit = "kg", .from = WORKING_TOLD, .on = made->from});
    working_value(
        working, "last", "kilos at the last sample", made->last_kg,
        (WorkingInput){.unit = "kg", .from = WORKING_TOLD, .on = made->until});
    working_value(
        working, "left", "kilos dead, sold or moved away, less those that came",
        made->left_kg,
        (WorkingInput){.unit = "kg", .from = WORKING_TOLD, .on = made->until});
    working_value(
        working, NULL, "days on which feed was told", made->fed_days,
        (WorkingInput){.unit = "d", .from = WORKING_TOLD, .on = made->until});
    working_is(working, made->value, "");
}

/* Where no feed job of the day told it. */
static void tell_no_feed(const FishDayAsk *ask, const FishTank *tank)
{
    const char *id = ask->farm->tanks[tank->tank].id;
    WorkingKey key = {"tank", id, "feed_g"};
    if (!ask->workings || workings_find(ask->workings, &key)) {
        return;
    }
    Working *working = working_begin(ask->workings, "tank", id, "feed_g");
    working_says(working, "feed of the day",
                 ask->week ? "nothing is fed here on that day"
                           : "no accepted plan holds this week: no feed is "
                             "worked out",
                 "feed_g = 0");
    working_is(working, tank->feed_g, "g");
}

void fish_working_tank(const FishDayAsk *ask, const FishTank *tank)
{
    if (!ask->workings) {
        return;
    }
    tell_sum(ask, tank, false);
    tell_sum(ask, tank, true);
    tell_tank_mean(ask, tank);
    tell_density(ask, tank);
    tell_water(ask, tank);
    tell_conversion(ask, tank);
    tell_no_feed(ask, tank);
}

/* ---- a batch in all tanks, the farm --------------------------------------
 */

/* A sum over the tanks that hold the batch, each opening to its own. */
static void tell_batch_sum(const FishDayAsk *ask, const FishPage *page,
                           const FishBatchDay *day, bool is_kg)
{
    const char *batch = ask->foresight->fish.batches[day->batch].id;
    const char *figure = is_kg ? "kg" : "count";
    Working *working = working_begin(ask->workings, "fish", batch, figure);
    working_says(working, is_kg ? "kilos of the batch" : "fish of the batch",
                 "what stands in each tank, added up",
                 is_kg ? "kg = 0" : "count = 0");
    int n = 0;
    for (int32_t t = 0; working && t < page->tank_count; t++) {
        const FishTank *tank = &page->tanks[t];
        const char *id = ask->farm->tanks[tank->tank].id;
        for (int b = 0; b < tank->batch_count; b++) {
            const FishInTank *in = &tank->batches[b];
            if (in->batch != day->batch) {
                continue;
            }
            const char *symbol =
                working_symbol(working, is_kg ? "kg" : "n", ++n);
            working_joins(working, " + ");
            working_joins(working, symbol);
            working_value(
                working, symbol, id, is_kg ? in->part.kg : in->part.count,
                (WorkingInput){
                    .unit = is_kg ? "kg" : "fish",
                    .from = WORKING_WORKED,
                    .opens = {"in-tank", part_id(ask, id, batch), figure}});
        }
    }
    working_is(working, is_kg ? day->part.kg : day->part.count,
               is_kg ? "kg" : "fish");
}

static void tell_batch_mean(const FishDayAsk *ask, const FishBatchDay *day)
{
    const char *batch = ask->foresight->fish.batches[day->batch].id;
    Working *working = working_begin(ask->workings, "fish", batch, "mean_g");
    working_says(working, "mean weight", "kilos over how many they are",
                 "mean_g = 1000 x kg / count");
    working_value(working, "kg", "kilos of the batch", day->part.kg,
                  (WorkingInput){.unit = "kg",
                                 .from = WORKING_WORKED,
                                 .opens = {"fish", batch, "kg"}});
    working_value(working, "count", "fish of the batch", day->part.count,
                  (WorkingInput){.unit = "fish",
                                 .from = WORKING_WORKED,
                                 .opens = {"fish", batch, "count"}});
    working_is(working, day->part.mean_g, "g");
}

void fish_working_batches(const FishDayAsk *ask, const FishPage *page)
{
    for (int32_t b = 0; ask->workings && b < page->batch_count; b++) {
        tell_batch_sum(ask, page, &page->batches[b], false);
        tell_batch_sum(ask, page, &page->batches[b], true);
        tell_batch_mean(ask, &page->batches[b]);
    }
}

void fish_working_feed(const FishDayAsk *ask, const FishPage *page)
{
    Working *working = working_begin(ask->workings, "farm", "all", "feed_g");
    working_says(working, "feed of the day, all tanks",
                 "what each tank is fed, added up",
                 page->tank_count > 0 ? "feed_g = " : "feed_g = 0");
    for (int32_t t = 0; working && t < page->tank_count; t++) {
        const char *id = ask->farm->tanks[page->tanks[t].tank].id;
        const char *symbol = working_symbol(working, "f", t + 1);
        working_joins(working, t > 0 ? " + " : "");
        working_joins(working, symbol);
        working_value(working, symbol, id, page->tanks[t].feed_g,
                      (WorkingInput){.unit = "g",
                                     .from = WORKING_WORKED,
                                     .opens = {"tank", id, "feed_g"}});
    }
    working_is(working, page->feed_g, "g");
}
