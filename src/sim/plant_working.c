/* How the figures of a batch of plants are made. */
#include "sim/plant_working.h"

#include <math.h>
#include <stdio.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/seedlings.h"

enum { SPAN_D = 28, WEEK_D = 7 };

static Working *begin(const PlantWorking *of, const char *figure)
{
    return working_begin(of->stand->workings, "batch", of->told->id, figure);
}

static void put_days(Working *working, const char *symbol, const char *name,
                     int32_t days)
{
    working_put(working, &(WorkingInput){.symbol = symbol,
                                         .name = name,
                                         .value = days,
                                         .unit = "d",
                                         .from = WORKING_WORKED});
}

static void put_sum(Working *working, const char *name, double degc_d)
{
    working_put(working, &(WorkingInput){.name = name,
                                         .value = degc_d,
                                         .unit = "degC d",
                                         .from = WORKING_FORESEEN});
}

static const Plant *standing_row(const PlantWorking *of)
{
    return of->told->standing >= 0
               ? &of->stand->farm->plants[of->told->standing]
               : NULL;
}

static const PlanPlant *plan_row(const PlantWorking *of)
{
    return of->told->planned >= 0
               ? &of->stand->farm->plan_plants[of->told->planned]
               : NULL;
}

/* ---- sown and set --------------------------------------------------------
 */

static void tell_sown(const PlantWorking *of)
{
    Working *working = begin(of, "sow_on");
    const Plant *plant = standing_row(of);
    working_is(working, of->told->sow_day, "date");
    if (!plant || seedlings_are(plant)) {
        working_says(working, "day of sowing",
                     plant ? "the day on which the trays were sown"
                           : "the accepted plan's day of sowing",
                     "sow_on = s");
        working_date(working, "s", "sown", of->told->sow_day,
                     plant ? WORKING_TABLE : WORKING_PLAN);
        return;
    }
    working_says(working, "day of sowing",
                 "the day of setting out less the days in the nursery",
                 "sow_on = set_on - n");
    working_date(working, "set_on", "set out", of->told->set_day,
                 WORKING_TABLE);
    put_days(working, "n", SAY("days in the nursery in that season's warmth"),
             of->told->set_day - of->told->sow_day);
    if (of->year->rule.start == START_SET) {
        working_figure(working, NULL, "days in the nursery at its usual warmth",
                       &of->year->rule.nursery_d, "d");
    }
}

static void tell_set(const PlantWorking *of)
{
    Working *working = begin(of, "set_on");
    bool is_standing = of->told->standing >= 0;
    working_says(working, "set out, or sown in place",
                 is_standing ? "the day that the table of plants has"
                             : "the accepted plan's day of setting",
                 "set_on = s");
    working_date(working, "s", "set", of->told->set_day,
                 is_standing ? WORKING_TABLE : WORKING_PLAN);
    working_is(working, of->told->set_day, "date");
}

/* ---- the first pick ------------------------------------------------------
 */

/* What a day's growth is, with the crop's figures. */
static void put_law(const PlantWorking *of, Working *working)
{
    const BookCrop *crop = of->year->rule.crop;
    working_note(working,
                 "A day's growth is its thermal time (how far a sine between "
                 "the day's least and most warmth lies over the base, flat "
                 "between optimum and ceiling) times the share that its light "
                 "allows.");
    working_figure(working, NULL, "no growth below", &crop->base_degc, "degC");
    working_figure(working, NULL, "full growth from", &crop->optimum_degc,
                   "degC");
    working_figure(working, NULL, "and up to", &crop->ceiling_degc, "degC");
    working_figure(working, NULL, "no growth under this light",
                   &crop->dli_least_mol, "mol/m2/d");
    working_figure(working, NULL, "full growth from this light",
                   &crop->dli_full_mol, "mol/m2/d");
}

static void put_need(const PlantWorking *of, Working *working, int32_t day)
{
    const PlantRule *rule = &of->year->rule;
    int32_t start = of->grown->start_day;
    working_figure(working, NULL, "growth to the first pick",
                   &rule->first_pick_degc_d, "degC d");
    put_sum(working, SAY("gathered by the day before"),
            plant_year_growth_degc_d(of->year, start, day - 1));
    put_sum(working, SAY("gathered by that day"),
            plant_year_growth_degc_d(of->year, start, day));
    put_law(of, working);
}

/* end -1: early, 0: the middle, 1: late. */
static void tell_pick(const PlantWorking *of, const char *figure, int end)
{
    static const char *const NAMES[] = {
        SAY("first pick, one time in ten so early"), SAY("first pick"),
        SAY("first pick, one time in ten so late")};
    static const char *const WORDS[] = {
        SAY("the day on which growth begins plus the days until the sum of "
            "growth "
            "reaches the low end of what the crop needs"),
        SAY("the day on which growth begins plus the days until the sum of "
            "growth "
            "reaches what the crop needs"),
        SAY("the day on which growth begins plus the days until the sum of "
            "growth "
            "reaches the high end of what the crop needs")};
    int32_t days[] = {of->told->early_day, of->told->pick_day,
                      of->told->late_day};
    int32_t day = days[end + 1];
    Working *working = day == DATE_NEVER ? NULL : begin(of, figure);
    int32_t start = of->grown->start_day;
    char symbols[64];
    snprintf(symbols, sizeof symbols, "%s = begun + d", figure);
    working_says(working, NAMES[end + 1], WORDS[end + 1],
                 working ? arena_copy_text(working->arena, symbols) : "");
    working_date(working, "begun", "growth begins", start,
                 of->told->standing >= 0 ? WORKING_TABLE : WORKING_PLAN);
    put_days(working, "d", SAY("days until then"), day - start);
    put_need(of, working, day);
    const Plant *plant = standing_row(of);
    if (plant && day == plant->counted_on &&
        of->year->rule.shape == SHAPE_ONCE) {
        working_note(working, "It was seen standing on that day, past its "
                              "time: ready then.");
    }
    working_is(working, day, "date");
    if (end == 0) {
        working_range(working, of->told->early_day, of->told->late_day);
    }
}

/* ---- the end -------------------------------------------------------------
 */

static void tell_last(const PlantWorking *of)
{
    Working *working = begin(of, "last_pick_on");
    bool is_kept = plan_row(of) != NULL;
    bool is_grown = !is_kept && !of->grown->is_refused;
    const PlantRule *rule = &of->year->rule;
    working_is(working, of->told->last_day, "date");
    working_says(
        working, "last pick",
        is_kept    ? "the last day of picking that the accepted plan keeps"
        : is_grown ? "the first pick plus the days over which it is picked"
                   : "there is no pick: the day on which it was last seen",
        is_grown ? "last_pick_on = pick_on + d" : "last_pick_on = l");
    if (!is_grown) {
        working_date(working, "l", "last pick", of->told->last_day,
                     is_kept ? WORKING_PLAN : WORKING_TABLE);
        return;
    }
    working_date(working, "pick_on", "first pick", of->told->pick_day,
                 WORKING_WORKED);
    put_days(working, "d", SAY("days of picking"),
             of->told->last_day - of->told->pick_day);
    working_figure(working, NULL, "picks of a plant", &rule->way->picks, "");
    working_figure(working, NULL, "weeks of picking at most",
                   &rule->way->span_weeks, "weeks");
    working_note(working, "%s",
                 of->grown->end == PLANT_GROWS
                     ? "It is picked until its picks are done, or for so many "
                       "weeks at most."
                     : of->told->trouble);
}

static void tell_clear(const PlantWorking *of)
{
    Working *working = begin(of, "clear_on");
    bool is_kept = plan_row(of) != NULL;
    working_is(working, of->told->clear_day, "date");
    working_says(working, "cleared",
                 is_kept ? "the accepted plan's day of clearing"
                         : "the day after the last pick",
                 is_kept ? "clear_on = c" : "clear_on = last_pick_on + 1");
    working_date(working, is_kept ? "c" : "last_pick_on",
                 is_kept ? "cleared" : "last pick",
                 is_kept ? of->told->clear_day : of->told->last_day,
                 is_kept ? WORKING_PLAN : WORKING_WORKED);
}

/* ---- age -----------------------------------------------------------------
 */

static void tell_age(const PlantWorking *of)
{
    Working *working = begin(of, "age_degc_d");
    if (!working) {
        return;
    }
    int32_t today = of->stand->today;
    int32_t start = of->grown->start_day;
    working_says(working, "age in thermal time",
                 "the growth of all days since growth began, by four weeks",
                 "age_degc_d = 0");
    int n = 0;
    for (int32_t from = start; from < today; from += SPAN_D) {
        int32_t until = from + SPAN_D < today ? from + SPAN_D : today;
        char date[DATE_TEXT_SIZE];
        date_format(from, date);
        const char *symbol = working_symbol(working, "g", ++n);
        working_joins(working, n == 1 ? "" : " + ");
        if (n == 1) {
            working->symbols = "age_degc_d = ";
        }
        working_joins(working, symbol);
        working_put(
            working,
            &(WorkingInput){.symbol = symbol,
                            .name = arena_say(working->arena, "%d days from %s",
                                              (int)(until - from), date),
                            .value =
                                plant_year_growth_degc_d(of->year, from, until),
                            .unit = "degC d",
                            .from = WORKING_FORESEEN});
    }
    working_figure(working, NULL, "growth to the first pick",
                   &of->year->rule.first_pick_degc_d, "degC d");
    put_law(of, working);
    working_is(working, of->told->age_degc_d, "degC d");
}

/* ---- units ---------------------------------------------------------------
 */

static void put_yield(const PlantWorking *of, Working *working)
{
    const PlantRule *rule = &of->year->rule;
    working_put(working,
                &(WorkingInput){.name = SAY("plants"),
                                .value = of->told->plants,
                                .unit = "",
                                .from = WORKING_WORKED,
                                .opens = {"batch", of->told->id, "plants"}});
    working_figure(working, NULL, "units of a plant and pick", &rule->units,
                   "units");
    working_figure(working, NULL, "of it fit to sell", &rule->saleable_frac,
                   "share");
    working_put(working,
                &(WorkingInput){.name = SAY("lost by heat, cold and gloom"),
                                .value = of->grown->loss_frac,
                                .unit = "share",
                                .from = WORKING_FORESEEN});
    working_note(
        working,
        "A week brings: plants x picks that its growth allows x units "
        "of a plant and pick x share fit to sell x share left by heat, "
        "cold and gloom.");
    working_note(working,
                 "Low and high: a poor batch falls short by the hypotenuse of "
                 "what yield and saleable share fall short by, a good one "
                 "likewise; all weeks of a batch together.");
}

static void tell_units(const PlantWorking *of)
{
    Working *working = begin(of, "units");
    if (!working) {
        return;
    }
    const PlantStandUnits *pick = &of->told->pick;
    working_says(working, "units still to be picked",
                 "what each of the weeks ahead brings, added up", "units = ");
    int n = 0;
    for (int week = 0; week < of->stand->weeks; week++) {
        if (!(pick->value[week] > 0.0)) {
            continue;
        }
        char date[DATE_TEXT_SIZE];
        date_format(of->stand->first_week + WEEK_D * week, date);
        const char *symbol = working_symbol(working, "u", ++n);
        working_joins(working, n == 1 ? "" : " + ");
        working_joins(working, symbol);
        working_put(working,
                    &(WorkingInput){
                        .symbol = symbol,
                        .name = arena_say(working->arena, "week of %s", date),
                        .value = pick->value[week],
                        .low = pick->low[week],
                        .high = pick->high[week],
                        .unit = "units",
                        .from = WORKING_FORESEEN});
    }
    working_joins(working, n == 0 ? "0" : "");
    put_yield(of, working);
    working_is(working, of->told->units.value, "units");
    working_range(working, of->told->units.low, of->told->units.high);
}

static void tell_plants(const PlantWorking *of)
{
    Working *working = begin(of, "plants");
    const PlantRule *rule = &of->year->rule;
    const PlanPlant *plan = plan_row(of);
    const Plant *plant = standing_row(of);
    double full = rule->way->plants_m2.value * of->told->area_m2;
    bool is_full = !of->told->is_edge && fabs(full - of->told->plants) < 1e-9;
    working_is(working, of->told->plants, "plants");
    if (!is_full) {
        working_says(working, "plants",
                     plant ? "as many as were counted"
                           : "as many as the accepted plan sets",
                     "plants = n");
        working_put(working, &(WorkingInput){
                                 .symbol = "n",
                                 .name = SAY("plants"),
                                 .value = of->told->plants,
                                 .unit = "plants",
                                 .from = plant ? WORKING_TABLE : WORKING_PLAN,
                                 .on = plant ? plant->counted_on : 0});
        return;
    }
    working_says(working, "plants", "plants on a square metre times the area",
                 "plants = d x a");
    working_figure(working, "d", "plants on a square metre",
                   &rule->way->plants_m2, "1/m2");
    working_put(working,
                &(WorkingInput){.symbol = "a",
                                .name = SAY("area of its sections"),
                                .value = of->told->area_m2,
                                .unit = "m2",
                                .from = plan ? WORKING_PLAN : WORKING_TABLE});
}

void plant_working_tell(const PlantWorking *of)
{
    if (!of->stand->workings) {
        return;
    }
    tell_sown(of);
    tell_set(of);
    tell_pick(of, "pick_early", -1);
    tell_pick(of, "pick_on", 0);
    tell_pick(of, "pick_late", 1);
    tell_last(of);
    tell_clear(of);
    tell_age(of);
    tell_units(of);
    tell_plants(of);
}
