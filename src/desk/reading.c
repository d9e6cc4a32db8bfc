/* Readings just made: what they mean. */
#include "desk/reading.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "desk/any_farm.h"
#include "desk/moment.h"
#include "json/reading.h"
#include "nature/water/base.h"
#include "nature/water/topup.h"
#include "sums/table.h"

static const double FRY_G = 1.0;
static const double STEP_PH = 0.2;

ReadingRange reading_range(int quantity)
{
    static const ReadingRange RANGES[WATER_QUANTITIES] = {
        [READ_TEMP] = {0.0, 45.0},       [READ_OXYGEN] = {0.0, 40.0},
        [READ_PH] = {3.0, 12.0},         [READ_TAN] = {0.0, 500.0},
        [READ_NITRITE] = {0.0, 500.0},   [READ_NITRATE] = {0.0, 5000.0},
        [READ_ALKALINITY] = {0.0, 2000}, [READ_CHLORIDE] = {0.0, 20000.0},
        [READ_IRON] = {0.0, 100.0},
    };
    return RANGES[quantity];
}

static bool is_any_told(const ReadingQuestion *question)
{
    bool is_any = false;
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        is_any = is_any || !isnan(question->told[q]);
    }
    return is_any;
}

static Err check_told(const ReadingQuestion *question)
{
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        double value = question->told[q];
        ReadingRange range = reading_range(q);
        if (isnan(value)) {
            continue;
        }
        if (!(value >= range.least && value <= range.most)) {
            return err_make(ERR_USAGE, "%s=%g: expected %g to %g",
                            FARM_WORDS[WORDS_QUANTITIES].words[q], value,
                            range.least, range.most);
        }
    }
    return ERR_NONE;
}

static void tell(ReadingAnswer *answer, const char *text)
{
    if (text && answer->notice_count < READING_NOTICES_MAX) {
        answer->notices[answer->notice_count++] = text;
    }
}

/* ---- Where ----------------------------------------------------------------
 */

static Err find_where(const ReadingQuestion *question, const Farm *farm,
                      Arena *arena, JudgeAsk *ask, ReadingAnswer *answer)
{
    AnyIds ids;
    ask->tank = -1;
    ask->loop = -1;
    if (question->loop) {
        ANY_IDS_OF(farm, arena, "loop", loops, &ids);
        TRY(any_farm_find(&ids, question->loop, arena, &ask->loop));
        answer->where = arena_say(arena, "loop %s", question->loop);
    }
    if (question->tank) {
        ANY_IDS_OF(farm, arena, "tank", tanks, &ids);
        TRY(any_farm_find(&ids, question->tank, arena, &ask->tank));
        int32_t own = farm->tanks[ask->tank].loop;
        if (ask->loop >= 0 && own != ask->loop) {
            return err_make(ERR_USAGE, "tank %.40s is not of loop %.40s",
                            question->tank, question->loop);
        }
        ask->loop = own >= 0 && own < farm->loops_count ? own : -1;
        answer->where = arena_say(arena, "tank %s", question->tank);
    }
    if (!question->tank && !question->loop) {
        bool is_one = farm->loops_count == 1;
        ask->loop = is_one ? 0 : -1;
        answer->where = is_one ? arena_say(arena, "loop %s", farm->loops[0].id)
                               : say(arena, "all tanks");
        tell(answer,
             is_one ? NULL
                    : say(arena, "Neither tank= nor loop= is told: judged for "
                                 "all fish, by the readings told alone."));
    }
    return ERR_NONE;
}

static double volume_of(const JudgeAsk *ask)
{
    const Farm *farm = ask->farm;
    double sum_m3 = 0.0;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        bool is_ours =
            ask->loop >= 0 ? farm->tanks[k].loop == ask->loop : k == ask->tank;
        double volume_m3 = farm->tanks[k].volume_m3;
        sum_m3 += is_ours && isfinite(volume_m3) ? volume_m3 : 0.0;
    }
    double sump_m3 = ask->loop >= 0 ? farm->loops[ask->loop].sump_m3 : 0.0;
    return sum_m3 + (isfinite(sump_m3) ? sump_m3 : 0.0);
}

static double change_most_m3(const ReadingAnswer *answer)
{
    const JudgeAsk *ask = &answer->judge.ask;
    const Farm *farm = ask->farm;
    if (ask->loop < 0 || farm->loops[ask->loop].source < 0 ||
        farm->loops[ask->loop].source >= farm->sources_count ||
        isnan(answer->judge.of[JUDGE_TEMP])) {
        return NAN;
    }
    const WaterSource *source = &farm->sources[farm->loops[ask->loop].source];
    TopUp top_up = {
        .volume_m3 = answer->volume_m3,
        .tank_degc = answer->judge.of[JUDGE_TEMP],
        .source_degc = source->temp_degc,
        .chlorine_mg_l = source->chlorine_mg_l,
        .chlorine_most_mg_l = water_chlorine_most_mg_l(),
        .change_most_degc = water_change_most_degc(),
    };
    TopUpLimit limit = {0};
    Err err = water_top_up_limit(&top_up, &limit);
    return err.kind == ERR_OK && isfinite(limit.most_m3) ? limit.most_m3 : NAN;
}

/* ---- Base, by the sum base-dose -------------------------------------------
 */

static const char *text_of(double value, Arena *arena)
{
    return arena_text(arena, "%.6g", value);
}

static double also_of(const SumAnswer *sum, const char *name)
{
    for (int i = 0; i < sum->also_count; i++) {
        if (strcmp(sum->also[i].name, name) == 0) {
            return sum->also[i].value;
        }
    }
    return NAN;
}

static void add_dose(const char *id, const char *kind, double strength_frac,
                     Arena *arena, ReadingAnswer *answer)
{
    const Judge *judge = &answer->judge;
    const double *of = judge->of;
    bool has_fry = false;
    for (int i = 0; i < judge->fish_count; i++) {
        has_fry = has_fry || judge->fish[i].least_g < FRY_G;
    }
    const SumFact facts[] = {
        {"base", kind},
        {"volume_m3", text_of(answer->volume_m3, arena)},
        {"alkalinity_mg_l", text_of(fmax(1.0, of[JUDGE_ALKALINITY]), arena)},
        {"ph", text_of(of[JUDGE_PH], arena)},
        {"target_ph", text_of(of[JUDGE_PH] + STEP_PH, arena)},
        {"temp_degc", text_of(of[JUDGE_TEMP], arena)},
        {"tan_mg_l", text_of(of[JUDGE_TAN], arena)},
        {"fry", has_fry ? "1" : "0"},
        {"strength_pct", text_of(100.0 * strength_frac, arena)},
    };
    const Sum *sum = NULL;
    SumAnswer *found = ARENA_NEW(arena, SumAnswer);
    JudgeDose dose = {.base = id};
    Err err = sum_find("base-dose", &sum);
    if (err.kind == ERR_OK) {
        err =
            sum_answer(sum, facts, sizeof facts / sizeof *facts, arena, found);
    }
    if (err.kind != ERR_OK) {
        dose.refused = arena_copy_text(arena, err.text);
    } else {
        dose.today_g = found->main.value;
        dose.portion_g = also_of(found, "each portion of it");
        dose.ph_after = also_of(found, "pH after the first day");
        dose.nh3_after_mg_l = also_of(found, "NH3-N after the first day");
        dose.cautions = found->cautions;
        dose.caution_count = found->caution_count;
    }
    if (answer->dose_count < READING_DOSES_MAX) {
        answer->doses[answer->dose_count++] = dose;
    }
}

/* Bases in stock, those that cannot burn first; else potassium bicarbonate of
 * the book. */
static void add_doses(const Farm *farm, Arena *arena, ReadingAnswer *answer)
{
    for (int is_caustic = 0; is_caustic < 2; is_caustic++) {
        for (int32_t i = 0; i < farm->bases_count; i++) {
            const Base *row = &farm->bases[i];
            const WaterBase *base = NULL;
            Err err = water_base_find(row->kind, &base);
            bool is_due = err.kind == ERR_OK &&
                          base->is_caustic == (is_caustic > 0) &&
                          row->strength_frac > 0.0;
            if (is_due) {
                add_dose(row->id, row->kind, row->strength_frac, arena, answer);
            }
        }
    }
    if (answer->dose_count == 0) {
        add_dose("potassium-bicarbonate", "potassium-bicarbonate", 1.0, arena,
                 answer);
    }
}

static void find_doses(const Farm *farm, Arena *arena, ReadingAnswer *answer)
{
    static const JudgeQuantity NEEDS[] = {JUDGE_PH, JUDGE_ALKALINITY, JUDGE_TAN,
                                          JUDGE_TEMP};
    if (!judge_wants_base(&answer->judge)) {
        return;
    }
    const char *lacks = "";
    for (size_t i = 0; i < sizeof NEEDS / sizeof *NEEDS; i++) {
        if (isnan(answer->judge.of[NEEDS[i]])) {
            lacks = arena_text(arena, "%s%s%s", lacks, *lacks ? ", " : "",
                               say(arena, judge_quantity_name(NEEDS[i])));
        }
    }
    lacks = answer->volume_m3 > 0.0
                ? lacks
                : arena_text(arena, "%s%s%s", lacks, *lacks ? ", " : "",
                             say(arena, "loop"));
    if (*lacks) {
        answer->dose_lacks = lacks;
        return;
    }
    add_doses(farm, arena, answer);
}

/* ---- All of it ------------------------------------------------------------
 */

static double usual_degc(const AnyFarm *any, const JudgeAsk *ask, int32_t day)
{
    int at = date_day_of_year(day) - 1;
    if (!any->climate) {
        return NAN;
    }
    return ask->tank >= 0   ? any->climate->tanks[ask->tank].mean_degc[at]
           : ask->loop >= 0 ? any->climate->loops[ask->loop].mean_degc[at]
                            : NAN;
}

static void find_fish(const AnyFarm *any, int32_t day, Arena *arena,
                      FishNow *out, ReadingAnswer *answer)
{
    if (any->climate) {
        Err err = fish_now_followed(any->farm, any->book, any->climate, day,
                                    arena, out);
        if (err.kind == ERR_OK) {
            return;
        }
    }
    fish_now_counted(any->farm, any->book->alarm, day, arena, out);
    tell(answer, say(arena, "Fish are taken as counted in fish.csv."));
}

Err reading_answer(const ReadingQuestion *question, Arena *arena,
                   ReadingAnswer *out)
{
    if (!is_any_told(question)) {
        return err_make(ERR_USAGE,
                        "tell at least one reading, as tan_mg_l=1.5");
    }
    TRY(reading_state(question, arena, out));
    find_doses(out->judge.ask.farm, arena, out);
    return ERR_NONE;
}

Err reading_state(const ReadingQuestion *question, Arena *arena,
                  ReadingAnswer *out)
{
    TRY(check_told(question));
    AnyFarm any;
    TRY(any_farm_read(question->dir, moment_day(question->at, question->today),
                      arena, &any));
    ReadingAnswer answer = {0};
    JudgeAsk ask = {.farm = any.farm, .book = any.book, .told = question->told};
    TRY(find_where(question, any.farm, arena, &ask, &answer));
    Moment moment;
    TRY(moment_find(any.farm, question->at, question->today, arena, &moment));
    answer.when = moment.text;
    ask.at = moment.at;
    ask.usual_degc = usual_degc(&any, &ask, moment.day);
    FishNow *fish = ARENA_NEW(arena, FishNow);
    find_fish(&any, moment.day, arena, fish, &answer);
    ask.fish = fish;
    judge_make(&ask, arena, &answer.judge);
    answer.volume_m3 = volume_of(&ask);
    answer.change_most_m3 = change_most_m3(&answer);
    tell(&answer, any.notice);
    tell(&answer, any.journal);
    tell(&answer, moment.notice);
    *out = answer;
    return ERR_NONE;
}

const char *reading_answer_json(const ReadingAnswer *answer, Arena *arena)
{
    ReadingJson json = {
        .where = answer->where,
        .when = answer->when,
        .judge = &answer->judge,
        .doses = answer->doses,
        .dose_count = answer->dose_count,
        .dose_lacks = answer->dose_lacks,
        .notices = answer->notices,
        .notice_count = answer->notice_count,
    };
    return reading_to_json(&json, arena);
}
