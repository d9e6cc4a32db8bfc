/* What readings of the water mean for the fish that stand in it. */
#include "work/judge.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/tongue.h"
#include "nature/fish/law.h"
#include "nature/fish/limits.h"
#include "nature/water/ammonia.h"
#include "nature/water/carbonate.h"
#include "nature/water/nitrogen.h"
#include "sim/alarm_heat.h"

static const double HALF_DAY_H = 12.0;
static const double PH_LEAST = 3.0;
static const double PH_MOST = 12.0;

static const struct {
    const char *name;
    int decimals;
} QUANTITIES_SHOWN[JUDGE_COUNT] = {
#define JUDGE_SHOWN(name, text, decimals) {text, decimals},
    JUDGE_QUANTITIES(JUDGE_SHOWN)
#undef JUDGE_SHOWN
};

static const JudgeQuantity OF_READING[WATER_QUANTITIES] = {
    [READ_TEMP] = JUDGE_TEMP,
    [READ_OXYGEN] = JUDGE_OXYGEN,
    [READ_PH] = JUDGE_PH,
    [READ_TAN] = JUDGE_TAN,
    [READ_NITRITE] = JUDGE_NITRITE,
    [READ_NITRATE] = JUDGE_NITRATE,
    [READ_ALKALINITY] = JUDGE_ALKALINITY,
    [READ_CHLORIDE] = JUDGE_CHLORIDE,
    [READ_IRON] = JUDGE_IRON,
};

const char *judge_quantity_name(JudgeQuantity quantity)
{
    return QUANTITIES_SHOWN[quantity].name;
}

const char *judge_class_word(JudgeClass class)
{
    static const char *const WORDS[] = {
        [JUDGE_CLASH] = "cannot-all-be-true", [JUDGE_DANGER] = "danger",
        [JUDGE_STOP] = "stop-feeding",        [JUDGE_WATCH] = "watch",
        [JUDGE_CAUSE] = "likely-cause",
    };
    return WORDS[class];
}

const char *judge_feed_word(JudgeFeed feed)
{
    static const char *const WORDS[] = {[FEED_AS_USUAL] = "as usual",
                                        [FEED_HALF] = "half",
                                        [FEED_NONE] = "none"};
    return WORDS[feed];
}

static double limit_of(const Book *book, const char *id)
{
    const BookLimit *row = book_limit(book, id);
    assert(row);
    return row->limit.value;
}

/* ---- Which tanks and fish -------------------------------------------------
 */

static bool is_asked(const JudgeAsk *ask, int32_t tank)
{
    if (ask->tank >= 0) {
        return tank == ask->tank;
    }
    return ask->loop < 0 || ask->farm->tanks[tank].loop == ask->loop;
}

static WaterNow water_at(const JudgeAsk *ask, int32_t tank, int32_t loop)
{
    WaterAsk water = {
        .farm = ask->farm,
        .alarm = ask->book->alarm,
        .tank = tank,
        .loop = loop,
        .at = ask->at,
        .usual_degc = ask->usual_degc,
        .altitude_m =
            ask->farm->farm_count > 0 ? ask->farm->farm[0].altitude_m : 0.0,
    };
    return water_now(&water);
}

/* ---- Told, read, or not known --------------------------------------------
 */

static bool is_fresh(const Book *book, int quantity, double age_h)
{
    bool is_fast = quantity == READ_TEMP || quantity == READ_OXYGEN ||
                   quantity == READ_PH || quantity == READ_TAN;
    return age_h <= limit_of(book, is_fast ? "stale-fast" : "stale-slow");
}

static bool is_sane(int quantity, double value)
{
    return quantity == READ_PH ? value >= PH_LEAST && value <= PH_MOST
                               : value >= 0.0 && isfinite(value);
}

/* The latest fresh reading of the tank, or of the loop and any of its tanks. */
static WaterKnown read_of(const JudgeAsk *ask, int quantity)
{
    WaterKnown found = {.from = WATER_UNKNOWN};
    for (int32_t k = -1; k < ask->farm->tanks_count; k++) {
        bool is_loop = k < 0;
        if (is_loop ? ask->loop < 0 : !is_asked(ask, k)) {
            continue;
        }
        if (ask->loop < 0 && ask->tank < 0) {
            break; /* the whole farm is no one water */
        }
        WaterNow now = water_at(ask, k, ask->loop);
        const WaterKnown *at = &now.of[quantity];
        bool is_better = found.from != WATER_READ || at->age_h < found.age_h;
        if (at->from == WATER_READ && is_better &&
            is_fresh(ask->book, quantity, at->age_h) &&
            is_sane(quantity, at->value)) {
            found = *at;
        }
    }
    return found;
}

static void put_readings(Judge *judge)
{
    const JudgeAsk *ask = &judge->ask;
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        if (!isnan(ask->told[q])) {
            judge->of[OF_READING[q]] = ask->told[q];
            continue;
        }
        WaterKnown read = read_of(ask, q);
        if (read.from == WATER_READ) {
            judge->of[OF_READING[q]] = read.value;
            judge->taken[judge->taken_count++] =
                (JudgeTaken){q, read.value, read.age_h};
        }
    }
}

/* ---- What follows from them -----------------------------------------------
 */

/* The warm end where nobody read it: ammonia is judged the safe way. */
static double temp_for_water(Judge *judge)
{
    double temp = judge->of[JUDGE_TEMP];
    const BookAlarm *alarm = judge->ask.book->alarm;
    if (isnan(temp)) {
        judge->is_temp_assumed = true;
        temp = isnan(judge->ask.usual_degc)
                   ? alarm->temp_unread_degc.high
                   : judge->ask.usual_degc + alarm->temp_apart_degc.value;
    }
    return fmin(40.0, fmax(0.0, temp));
}

static void put_ammonia(Judge *judge, double temp_degc)
{
    double *of = judge->of;
    double caution = water_ammonia_caution_mg_l(false);
    double deadly = INFINITY;
    for (int i = 0; i < judge->fish_count; i++) {
        caution = fmin(caution, judge->fish[i].ammonia_caution_mg_l);
        deadly = fmin(deadly, judge->fish[i].ammonia_deadly_mg_l);
    }
    of[JUDGE_NH3_CAUTION] = caution;
    if (!isnan(of[JUDGE_TAN]) && !isnan(of[JUDGE_PH])) {
        of[JUDGE_NH3] =
            of[JUDGE_TAN] * water_unionised_frac(temp_degc, of[JUDGE_PH]);
        of[JUDGE_NH3_SHARE] = of[JUDGE_NH3] / caution;
        of[JUDGE_NH3_DEADLY_SHARE] = of[JUDGE_NH3] / deadly;
    }
    double chloride = isnan(of[JUDGE_CHLORIDE]) ? 0.0 : of[JUDGE_CHLORIDE];
    of[JUDGE_NITRITE_CAUTION] = fish_nitrite_caution_mg_l(chloride);
    of[JUDGE_NITRITE_SHARE] = of[JUDGE_NITRITE] / of[JUDGE_NITRITE_CAUTION];
    of[JUDGE_NITRITE_DEADLY_SHARE] =
        of[JUDGE_NITRITE] / fish_nitrite_deadly_mg_l(chloride);
}

static void put_carbon(Judge *judge, double temp_degc)
{
    double *of = judge->of;
    if (isnan(of[JUDGE_ALKALINITY])) {
        return;
    }
    double eq_l = eq_l_from_mg_l_caco3(of[JUDGE_ALKALINITY]);
    CarbonateConstants constants = carbonate_constants(temp_degc, 0.0);
    double air_atm = limit_of(judge->ask.book, "air-co2") * 1e-6;
    of[JUDGE_PH_AIR] = carbonate_in_air(&constants, eq_l, air_atm).ph;
    if (isnan(of[JUDGE_PH])) {
        return;
    }
    CarbonateWater water = carbonate_from_ph(&constants, eq_l, of[JUDGE_PH]);
    of[JUDGE_CARBON] = water.dic_mol_l > 0.0 ? 1000.0 * water.dic_mol_l : -1.0;
    of[JUDGE_PH_OVER_AIR] = of[JUDGE_PH] - of[JUDGE_PH_AIR];
    if (water.dic_mol_l > 0.0) {
        of[JUDGE_CO2] = mg_l_co2_from_mol_l(water.co2_mol_l);
    }
}

static void put_gas_and_gravel(Judge *judge, double temp_degc)
{
    double *of = judge->of;
    double altitude_m = judge->ask.farm->farm_count > 0
                            ? judge->ask.farm->farm[0].altitude_m
                            : 0.0;
    of[JUDGE_FULL] = water_now_full_mg_l(temp_degc, altitude_m);
    if (!judge->is_temp_assumed) {
        of[JUDGE_FULL_SHARE] = of[JUDGE_OXYGEN] / of[JUDGE_FULL];
        of[JUDGE_FULL_PCT] = 100.0 * of[JUDGE_FULL_SHARE];
    }
    if (!isnan(of[JUDGE_PH])) {
        NitrifyWater best = {.temp_degc = temp_degc,
                             .tan_mg_l = 1.0,
                             .oxygen_mg_l = 6.0,
                             .ph = 7.5,
                             .clean_frac = 1.0};
        NitrifyWater here = best;
        here.ph = of[JUDGE_PH];
        of[JUDGE_NITRIFY_PCT] = 100.0 * water_nitrify_g_m2_d(&here).value /
                                water_nitrify_g_m2_d(&best).value;
    }
}

static void put_temps(Judge *judge)
{
    const JudgeAsk *ask = &judge->ask;
    double *of = judge->of;
    AlarmColdLimits at = {.lethal_high_degc = -INFINITY};
    double heat_degc = INFINITY;
    for (int32_t k = 0; k < ask->farm->tanks_count; k++) {
        const FishNowTank *tank = &ask->fish->tanks[k];
        if (!is_asked(ask, k) || tank->count == 0) {
            continue;
        }
        AlarmColdLimits here = alarm_cold_limits(ask->book->alarm, tank, 1);
        at = here.lethal_high_degc > at.lethal_high_degc ? here : at;
        for (int i = 0; i < tank->count; i++) {
            const FishCurve *warmth = &tank->groups[i].species->warmth[1];
            heat_degc = fmin(heat_degc, warmth->x[warmth->count - 1]);
        }
    }
    if (!isfinite(at.lethal_high_degc) || isnan(of[JUDGE_TEMP])) {
        return;
    }
    of[JUDGE_FEED_DEGC] = at.feed_low_degc;
    of[JUDGE_OVER_FEED_K] = of[JUDGE_TEMP] - at.feed_low_degc;
    of[JUDGE_OVER_DANGER_K] = of[JUDGE_TEMP] - at.danger_high_degc;
    of[JUDGE_UNDER_HEAT_K] = heat_degc - of[JUDGE_TEMP];
}

/* Against the loop's other tanks without a heater of their own, and against the
 * same tank within half a day. Only what is told now is compared. */
static void put_temp_apart(Judge *judge)
{
    const JudgeAsk *ask = &judge->ask;
    double told = ask->told[READ_TEMP];
    if (ask->tank < 0 || isnan(told)) {
        return;
    }
    WaterNow own = water_at(ask, ask->tank, -1);
    const WaterKnown *last = &own.of[READ_TEMP];
    if (last->from == WATER_READ && last->age_h <= HALF_DAY_H) {
        judge->of[JUDGE_TEMP_JUMP] = fabs(told - last->value);
    }
    double sum = 0.0;
    int count = 0;
    for (int32_t k = 0; k < ask->farm->tanks_count; k++) {
        bool is_other = k != ask->tank && ask->loop >= 0 &&
                        ask->farm->tanks[k].loop == ask->loop;
        bool is_heated = false;
        for (int32_t h = 0; h < ask->farm->heaters_count; h++) {
            int32_t at = ask->farm->heaters[h].tank;
            is_heated = is_heated || at == k || at == ask->tank;
        }
        WaterNow now = water_at(ask, k, -1);
        const WaterKnown *temp = &now.of[READ_TEMP];
        if (is_other && !is_heated && temp->from == WATER_READ &&
            is_fresh(ask->book, READ_TEMP, temp->age_h)) {
            sum += temp->value;
            count++;
        }
    }
    if (count > 0) {
        judge->of[JUDGE_TEMP_APART] = fabs(told - sum / count);
    }
}

static void put_source(Judge *judge)
{
    const Farm *farm = judge->ask.farm;
    int32_t loop = judge->ask.loop;
    if (loop >= 0 && farm->loops[loop].source >= 0 &&
        farm->loops[loop].source < farm->sources_count) {
        judge->of[JUDGE_SOURCE_ALKALINITY] =
            farm->sources[farm->loops[loop].source].alkalinity_mg_l;
    }
}

/* ---- The fish -------------------------------------------------------------
 */

static void find_fish(Judge *judge, Arena *arena)
{
    const JudgeAsk *ask = &judge->ask;
    for (int32_t k = 0; k < ask->farm->tanks_count; k++) {
        const FishNowTank *tank = &ask->fish->tanks[k];
        for (int i = 0; i < tank->count && is_asked(ask, k); i++) {
            FishNowTank one = {&tank->groups[i], 1};
            JudgeFish fish = {.tank = ask->farm->tanks[k].id,
                              .batch = tank->groups[i].batch};
            fish_now_weights(&one, &fish.least_g, &fish.most_g);
            FishAmmonia limits = fish_ammonia_limits(fish.least_g);
            fish.ammonia_caution_mg_l = limits.caution_mg_l;
            fish.ammonia_half_mg_l = limits.half_mg_l;
            fish.ammonia_deadly_mg_l = limits.deadly_mg_l;
            judge->fish =
                arena_grow(arena, judge->fish, (size_t)judge->fish_count,
                           (size_t)judge->fish_count + 1, sizeof *judge->fish);
            judge->fish[judge->fish_count++] = fish;
        }
    }
    judge->of[JUDGE_HAS_FISH] = judge->fish_count > 0 ? 1.0 : 0.0;
}

/* Oxygen from which a fish of that weight eats all it would, mg/L. */
static double full_feed_mg_l(double weight_g)
{
    enum { LEAST_TENTHS = 30, MOST_TENTHS = 80 };
    for (int tenths = LEAST_TENTHS; tenths < MOST_TENTHS; tenths++) {
        if (fish_air_frac(tenths / 10.0, weight_g) > 1.0 - 1e-9) {
            return tenths / 10.0;
        }
    }
    return MOST_TENTHS / 10.0;
}

static void put_appetite(Judge *judge)
{
    const JudgeAsk *ask = &judge->ask;
    const double *of = judge->of;
    int at = 0;
    for (int32_t k = 0; k < ask->farm->tanks_count; k++) {
        const FishNowTank *tank = &ask->fish->tanks[k];
        for (int i = 0; i < tank->count && is_asked(ask, k); i++) {
            JudgeFish *fish = &judge->fish[at++];
            Figure warm = {1.0, 0.0, 1.0, FIGURE_GUESS, ""};
            if (!isnan(of[JUDGE_TEMP])) {
                warm =
                    fish_warmth_frac(tank->groups[i].species, of[JUDGE_TEMP]);
            }
            double air = isnan(of[JUDGE_OXYGEN])
                             ? 1.0
                             : fish_air_frac(of[JUDGE_OXYGEN], fish->most_g);
            double calm =
                isnan(of[JUDGE_NH3]) ? 1.0 : fish_calm_frac(of[JUDGE_NH3]);
            fish->full_feed_mg_l = full_feed_mg_l(fish->most_g);
            fish->eats_low_frac = warm.low * air * calm;
            fish->eats_high_frac = warm.high * air * calm;
        }
    }
}

/* ---- Rules ----------------------------------------------------------------
 */

static bool is_met(const Judge *judge, const JudgeTest *test)
{
    double value = judge->of[test->quantity];
    double limit = test->limit ? limit_of(judge->ask.book, test->limit) : 0.0;
    switch (test->side) {
    case JUDGE_NOTHING:
        return true;
    case JUDGE_UNDER:
        return value < limit; /* false where unknown */
    case JUDGE_OVER:
        return value > limit;
    }
    return false;
}

static bool holds(const Judge *judge, const JudgeRule *rule)
{
    for (int i = 0; i < JUDGE_TESTS; i++) {
        if (!is_met(judge, &rule->tests[i])) {
            return false;
        }
    }
    return true;
}

static bool is_said_better(const Judge *judge, const JudgeRule *rule)
{
    for (const JudgeRule *other = JUDGE_RULES; rule->unless && other->id;
         other++) {
        if (strcmp(other->id, rule->unless) == 0 &&
            (holds(judge, other) || is_said_better(judge, other))) {
            return true;
        }
    }
    return false;
}

const char *judge_fill(const double *of, const char *text, Arena *arena)
{
    const char *done = "";
    while (text && *text) {
        size_t plain = strcspn(text, "{");
        done = arena_text(arena, "%s%.*s", done, (int)plain, text);
        text += plain;
        if (*text != '{') {
            break;
        }
        size_t length = strcspn(text, "}");
        int found = -1;
        for (int q = 0; q < JUDGE_COUNT; q++) {
            const char *name = QUANTITIES_SHOWN[q].name;
            if (strlen(name) == length - 1 &&
                memcmp(name, text + 1, length - 1) == 0) {
                found = q;
            }
        }
        assert(found >= 0);
        done = isnan(of[found])
                   ? arena_text(arena, "%s?", done)
                   : arena_text(arena, "%s%.*f", done,
                                QUANTITIES_SHOWN[found].decimals, of[found]);
        text += length + 1;
    }
    return done;
}

static const char *filled(const Judge *judge, const char *text, Arena *arena)
{
    return text ? judge_fill(judge->of, say(arena, text), arena) : NULL;
}

static void find_findings(Judge *judge, Arena *arena)
{
    for (const JudgeRule *rule = JUDGE_RULES; rule->id; rule++) {
        bool is_told = holds(judge, rule) && !is_said_better(judge, rule);
        if (!is_told || judge->finding_count == JUDGE_FINDINGS_MAX) {
            continue;
        }
        judge->findings[judge->finding_count++] = (JudgeFinding){
            rule, filled(judge, rule->means, arena),
            filled(judge, rule->act, arena), filled(judge, rule->again, arena),
            filled(judge, rule->next, arena)};
        judge->feed = rule->feed > judge->feed ? rule->feed : judge->feed;
    }
    for (const JudgeNeed *need = JUDGE_NEEDS; need->text; need++) {
        if (!isnan(judge->of[need->has]) && isnan(judge->of[need->lacks]) &&
            judge->need_count < JUDGE_NEEDS_MAX) {
            judge->needs[judge->need_count++] = say(arena, need->text);
        }
    }
}

/* Fresh water without any of it: the share whose change leaves the caution. */
static void find_change(Judge *judge)
{
    double worst = 0.0;
    if (judge->of[JUDGE_NH3_SHARE] > worst) {
        worst = judge->of[JUDGE_NH3_SHARE];
    }
    if (judge->of[JUDGE_NITRITE_SHARE] > worst) {
        worst = judge->of[JUDGE_NITRITE_SHARE];
    }
    if (worst > 1.0 && judge->fish_count > 0) {
        judge->change_frac = 1.0 - 1.0 / worst;
        judge->change_today_frac =
            fmin(judge->change_frac, limit_of(judge->ask.book, "change-most"));
    }
}

void judge_make(const JudgeAsk *ask, Arena *arena, Judge *out)
{
    *out = (Judge){.ask = *ask};
    for (int q = 0; q < JUDGE_COUNT; q++) {
        out->of[q] = NAN;
    }
    find_fish(out, arena);
    put_readings(out);
    double temp_degc = temp_for_water(out);
    put_ammonia(out, temp_degc);
    put_carbon(out, temp_degc);
    put_gas_and_gravel(out, temp_degc);
    put_temps(out);
    put_temp_apart(out);
    put_source(out);
    put_appetite(out);
    find_findings(out, arena);
    find_change(out);
}

bool judge_has(const Judge *judge, const char *rule)
{
    for (int i = 0; i < judge->finding_count; i++) {
        if (strcmp(judge->findings[i].rule->id, rule) == 0) {
            return true;
        }
    }
    return false;
}

bool judge_wants_base(const Judge *judge)
{
    static const char *const DUE[] = {"alkalinity-least", "alkalinity-low",
                                      "alkalinity-eaten", "ph-stall",
                                      "ph-acid"};
    bool is_due = false;
    for (size_t i = 0; i < sizeof DUE / sizeof *DUE; i++) {
        is_due = is_due || judge_has(judge, DUE[i]);
    }
    for (int i = 0; i < judge->finding_count; i++) {
        if (judge->findings[i].rule->class == JUDGE_CLASH) {
            return false;
        }
    }
    return is_due && !judge_has(judge, "carbon-dioxide") &&
           !judge_has(judge, "hard-source") && !judge_has(judge, "ph-high");
}
