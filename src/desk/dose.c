/* What to put into the water: base in days and portions, salts and iron. */
#include "desk/dose.h"

#include <math.h>
#include <string.h>

#include "base/tongue.h"
#include "desk/dose_working.h"
#include "nature/water/base.h"
#include "nature/water/topup.h"
#include "sums/table.h"

enum { DAY_S = 86400 };

static const double STEP_PH = 0.2;
static const double FRY_G = 1.0;
static const double NEAR_PH = 0.005;

typedef struct Work {
    const DoseQuestion *question;
    const ReadingAnswer *reading;
    const Farm *farm;
    Arena *arena;
    DosePlan *plan;
} Work;

static void tell(const Work *work, const char *text)
{
    if (text && work->plan->notice_count < DOSE_NOTICES_MAX) {
        work->plan->notices[work->plan->notice_count++] = text;
    }
}

static Err check_range(const char *key, double value, double least, double most)
{
    return isnan(value) || (value >= least && value <= most)
               ? ERR_NONE
               : err_make(ERR_USAGE, "%s=%g: expected %g to %g", key, value,
                          least, most);
}

static Err check_question(const DoseQuestion *q)
{
    TRY(check_range("target_ph", q->target_ph, 4.5, 8.3));
    TRY(check_range("yours_g", q->yours_g, 0.01, 1e6));
    TRY(check_range("yours_ph", q->yours_ph, 0.01, 2.0));
    TRY(check_range("potassium_mg_l", q->potassium_mg_l, 0.01, 200.0));
    TRY(check_range("calcium_mg_l", q->calcium_mg_l, 0.01, 200.0));
    TRY(check_range("iron_rise_mg_l", q->iron_mg_l, 0.01, 4.0));
    bool is_asked = !isnan(q->target_ph) || !isnan(q->potassium_mg_l) ||
                    !isnan(q->calcium_mg_l) || !isnan(q->iron_mg_l);
    if (!is_asked) {
        return err_make(ERR_USAGE, "tell what is wanted: target_ph=, "
                                   "potassium_mg_l=, calcium_mg_l= or "
                                   "iron_rise_mg_l=");
    }
    if (isnan(q->yours_g) != isnan(q->yours_ph)) {
        return err_make(ERR_USAGE, "yours_g= and yours_ph= go together: so "
                                   "many grams moved pH so much");
    }
    return ERR_NONE;
}

/* ---- Base -----------------------------------------------------------------
 */

/* Rows of bases.csv that the sums know, with some in stock, the harmless first.
 */
typedef struct Bases {
    const Base *rows[DOSE_SALTS_MAX];
    const WaterBase *are[DOSE_SALTS_MAX];
    int count;
} Bases;

static Bases bases_in_stock(const Farm *farm)
{
    Bases found = {.count = 0};
    for (int is_caustic = 0; is_caustic < 2; is_caustic++) {
        for (int32_t i = 0; i < farm->bases_count; i++) {
            const Base *row = &farm->bases[i];
            const WaterBase *base = NULL;
            Err err = water_base_find(row->kind, &base);
            if (err.kind == ERR_OK && base->is_caustic == (is_caustic > 0) &&
                row->strength_frac > 0.0 && row->stock_kg > 0.0 &&
                found.count < DOSE_SALTS_MAX) {
                found.rows[found.count] = row;
                found.are[found.count++] = base;
            }
        }
    }
    return found;
}

static const char *number(const Work *work, double value)
{
    return arena_text(work->arena, "%.8g", value);
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

static bool has_fry(const Judge *judge)
{
    bool has = false;
    for (int i = 0; i < judge->fish_count; i++) {
        has = has || judge->fish[i].least_g < FRY_G;
    }
    return has;
}

/* A day's step of one base from where the water stands. */
static Err step(const Work *work, const Bases *bases, int at,
                const DoseDay *from, SumAnswer *out_sum, DoseDay *out)
{
    const Base *row = bases->rows[at];
    const double *of = work->reading->judge.of;
    double target = fmin(from->ph + STEP_PH, work->plan->target_ph);
    const SumFact facts[] = {
        {"base", bases->are[at]->name},
        {"volume_m3", number(work, work->plan->volume_m3)},
        {"alkalinity_mg_l", number(work, fmax(1.0, from->alkalinity_mg_l))},
        {"ph", number(work, from->ph)},
        {"target_ph", number(work, target)},
        {"temp_degc", number(work, of[JUDGE_TEMP])},
        {"tan_mg_l", number(work, of[JUDGE_TAN])},
        {"fry", has_fry(&work->reading->judge) ? "1" : "0"},
        {"strength_pct", number(work, 100.0 * row->strength_frac)},
    };
    const Sum *sum = NULL;
    TRY(sum_find("base-dose", &sum));
    TRY(sum_answer(sum, facts, sizeof facts / sizeof *facts, work->arena,
                   out_sum));
    *out = (DoseDay){
        .base = row->id,
        .product_g = out_sum->main.value,
        .portion_g = also_of(out_sum, "each portion of it"),
        .ph = also_of(out_sum, "pH after the first day"),
        .alkalinity_mg_l = also_of(out_sum, "alkalinity after the last day"),
        .nh3_mg_l = also_of(out_sum, "NH3-N after the first day"),
    };
    return ERR_NONE;
}

/* The base whose turn it is: another element than yesterday's where there is
 * one, by equal strength since each day is a step of pH. */
static int turn_of(const Bases *bases, int yesterday)
{
    for (int i = 0; i < bases->count && yesterday >= 0; i++) {
        bool was_potassium = bases->are[yesterday]->potassium_frac > 0.0;
        bool is_potassium = bases->are[i]->potassium_frac > 0.0;
        bool feeds = is_potassium || bases->are[i]->calcium_frac > 0.0;
        if (feeds && was_potassium != is_potassium) {
            return i;
        }
    }
    return yesterday < 0 ? 0 : yesterday;
}

/* Each caution once, those of a second base too. */
static void add_cautions(const Work *work, const SumAnswer *sum)
{
    DosePlan *plan = work->plan;
    for (int i = 0; i < sum->caution_count; i++) {
        bool is_told = false;
        for (int k = 0; k < plan->caution_count; k++) {
            is_told =
                is_told || strcmp(plan->cautions[k], sum->cautions[i]) == 0;
        }
        if (!is_told) {
            plan->cautions = arena_grow(
                work->arena, plan->cautions, (size_t)plan->caution_count,
                (size_t)plan->caution_count + 1, sizeof *plan->cautions);
            plan->cautions[plan->caution_count++] = sum->cautions[i];
        }
    }
}

static void find_days(const Work *work, const Bases *bases)
{
    DosePlan *plan = work->plan;
    const double *of = work->reading->judge.of;
    DoseDay now = {.ph = of[JUDGE_PH], .alkalinity_mg_l = of[JUDGE_ALKALINITY]};
    int yesterday = -1;
    while (now.ph < plan->target_ph - NEAR_PH &&
           plan->day_count < DOSE_DAYS_MAX) {
        Err err = ERR_NONE;
        int first = turn_of(bases, yesterday);
        SumAnswer *sum = ARENA_NEW(work->arena, SumAnswer);
        for (int i = 0; i < bases->count; i++) {
            int at = (first + i) % bases->count;
            err =
                step(work, bases, at, &now, sum, &plan->days[plan->day_count]);
            if (err.kind == ERR_OK) {
                yesterday = at;
                break;
            }
        }
        if (err.kind != ERR_OK) {
            plan->stopped = arena_copy_text(work->arena, err.text);
            break;
        }
        add_cautions(work, sum);
        dose_working_day(plan, plan->day_count, bases->are[yesterday], sum,
                         (int32_t)(work->reading->judge.ask.at / DAY_S));
        now = plan->days[plan->day_count++];
    }
    if (plan->day_count == 0 && plan->stopped) {
        plan->none = plan->stopped;
        plan->stopped = NULL;
    }
}

static const char *lacks(const Work *work)
{
    static const JudgeQuantity NEEDS[] = {JUDGE_PH, JUDGE_ALKALINITY, JUDGE_TAN,
                                          JUDGE_TEMP};
    static const char *const NAMES[] = {SAY("ph"), SAY("alkalinity"),
                                        SAY("tan"), SAY("temp")};
    const char *text = "";
    for (size_t i = 0; i < sizeof NEEDS / sizeof *NEEDS; i++) {
        if (isnan(work->reading->judge.of[NEEDS[i]])) {
            text = arena_text(work->arena, "%s%s%s", text, *text ? ", " : "",
                              say(work->arena, NAMES[i]));
        }
    }
    return text;
}

static const char *clash(const Judge *judge)
{
    for (int i = 0; i < judge->finding_count; i++) {
        if (judge->findings[i].rule->class == JUDGE_CLASH) {
            return judge->findings[i].means;
        }
    }
    return NULL;
}

/* Why no base at all; NULL where some may be given. */
static const char *why_none(const Work *work, const Bases *bases)
{
    const Judge *judge = &work->reading->judge;
    const char *missing = lacks(work);
    if (!(work->plan->volume_m3 > 0.0)) {
        return say(work->arena,
                   "The water is not known: tell loop= (or tank=).");
    }
    if (*missing) {
        return arena_say(work->arena,
                         "No base before these are tested: %s. Raising pH "
                         "turns harmless ammonium into poisonous ammonia.",
                         missing);
    }
    if (clash(judge)) {
        return arena_say(work->arena, "Readings are in doubt. %s",
                         clash(judge));
    }
    if (work->plan->target_ph < judge->of[JUDGE_PH] - NEAR_PH) {
        return say(
            work->arena,
            "No acid is advised. Hard water holds pH: acid does nothing for "
            "weeks until alkalinity is gone, then pH falls off a cliff. "
            "Softer top-up (rain) first; let nitrification eat the "
            "alkalinity, and watch alkalinity, not pH.");
    }
    if (work->plan->target_ph < judge->of[JUDGE_PH] + NEAR_PH) {
        return say(work->arena, "pH stands at the target: no base is due.");
    }
    if (judge_has(judge, "hard-source")) {
        return say(
            work->arena,
            "Hard source water: each top-up brings alkalinity, no base is "
            "due. Potassium and calcium come as salts without alkalinity: "
            "ask with potassium_mg_l= and calcium_mg_l=.");
    }
    if (judge_has(judge, "carbon-dioxide")) {
        return say(
            work->arena,
            "pH is low by carbon dioxide, with alkalinity enough: more air "
            "and splash, no base.");
    }
    return bases->count == 0
               ? say(work->arena, "No base is in stock (bases.csv).")
               : NULL;
}

static void find_base(const Work *work)
{
    DosePlan *plan = work->plan;
    const Judge *judge = &work->reading->judge;
    Bases bases = bases_in_stock(work->farm);
    plan->ph = judge->of[JUDGE_PH];
    plan->target_ph = work->question->target_ph;
    if (isnan(plan->target_ph)) {
        return;
    }
    plan->none = why_none(work, &bases);
    if (plan->none) {
        return;
    }
    find_days(work, &bases);
    if (plan->day_count > 0 && !isnan(work->question->yours_g)) {
        double rise = plan->days[0].ph - plan->ph;
        double own_g =
            work->question->yours_g * rise / work->question->yours_ph;
        plan->yours_g = fmin(own_g, plan->days[0].product_g);
        tell(work,
             own_g > plan->days[0].product_g
                 ? say(work->arena,
                       "Your own response asks for more than the sum: the "
                       "sum is the ceiling. Test alkalinity again.")
                 : say(work->arena,
                       "Your own response is taken for today; the sum is "
                       "the ceiling."));
    }
    if (judge_has(judge, "co2-watch") || judge_has(judge, "co2-stop")) {
        tell(work,
             say(work->arena,
                 "Air first: shake a glass of this water in air; where its "
                 "pH rises by 0.3, air does what base would."));
    }
}

/* ---- Salts and iron -------------------------------------------------------
 */

/* A day's most, mg/L: common practice for iron, judged for salts. */
static const double IRON_DAY_MG_L = 0.5;
static const double SALT_DAY_MG_L = 10.0;

typedef struct Wanted {
    const char *element;
    double rise_mg_l;
    double day_mg_l;
} Wanted;

static double element_frac(const BookBase *base, const char *element)
{
    return strcmp(element, "potassium") == 0 ? base->k_frac.value
           : strcmp(element, "calcium") == 0 ? base->ca_frac.value
                                             : base->fe_frac.value;
}

/* Label strength of iron is the element's share itself; that of salts how much
 * of the product is the salt. */
static void find_salt(const Work *work, const Book *book, const Wanted *wanted)
{
    DosePlan *plan = work->plan;
    bool is_iron = strcmp(wanted->element, "iron") == 0;
    int before = plan->salt_count;
    for (int32_t i = 0; i < work->farm->bases_count; i++) {
        const Base *row = &work->farm->bases[i];
        const BookBase *base = book_base(book, row->kind);
        if (!base || base->caco3_g_g.value > 0.0 ||
            !(element_frac(base, wanted->element) > 0.0) ||
            !(row->strength_frac > 0.0) || plan->salt_count == DOSE_SALTS_MAX) {
            continue;
        }
        double share = row->strength_frac *
                       (is_iron ? 1.0 : element_frac(base, wanted->element));
        int portions = (int)ceil(wanted->rise_mg_l / wanted->day_mg_l - 1e-9);
        double product_g =
            water_iron_dose_g(plan->volume_m3, wanted->rise_mg_l, share);
        plan->salts[plan->salt_count++] =
            (DoseSalt){row->id,   wanted->element, wanted->rise_mg_l,
                       product_g, portions,        product_g / portions};
        dose_working_salt(plan, &plan->salts[plan->salt_count - 1], share);
    }
    if (plan->salt_count == before) {
        tell(work, arena_say(work->arena,
                             "Nothing in stock brings %s without alkalinity "
                             "(bases.csv).",
                             say(work->arena, wanted->element)));
    }
}

static void find_salts(const Work *work, const Book *book)
{
    const Wanted wanted[] = {
        {SAY("potassium"), work->question->potassium_mg_l, SALT_DAY_MG_L},
        {SAY("calcium"), work->question->calcium_mg_l, SALT_DAY_MG_L},
        {SAY("iron"), work->question->iron_mg_l, IRON_DAY_MG_L},
    };
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        if (isnan(wanted[i].rise_mg_l)) {
            continue;
        }
        if (!(work->plan->volume_m3 > 0.0)) {
            tell(work, say(work->arena,
                           "The water is not known: tell loop= (or tank=)."));
            return;
        }
        find_salt(work, book, &wanted[i]);
    }
}

Err dose_answer(const DoseQuestion *question, Arena *arena, DosePlan *out)
{
    TRY(check_question(question));
    ReadingAnswer *reading = ARENA_NEW(arena, ReadingAnswer);
    TRY(reading_state(&question->reading, arena, reading));
    DosePlan plan = {.where = reading->where,
                     .when = reading->when,
                     .volume_m3 = reading->volume_m3,
                     .ph = NAN,
                     .target_ph = NAN,
                     .yours_g = NAN,
                     .workings = {.arena = arena}};
    Work work = {question, reading, reading->judge.ask.farm, arena, &plan};
    find_base(&work);
    find_salts(&work, reading->judge.ask.book);
    for (int i = 0; i < reading->notice_count; i++) {
        tell(&work, reading->notices[i]);
    }
    *out = plan;
    return ERR_NONE;
}
