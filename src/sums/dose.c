/* Sums of what is put into the water: bases, iron, top-up.
 *
 * A dose is always split. Its cautions come first: what protects eyes and
 * hands, when to stop, and the most a day. */
#include <math.h>

#include "nature/water/ammonia.h"
#include "nature/water/base.h"
#include "nature/water/nitrogen.h"
#include "nature/water/topup.h"
#include "sums/rows.h"

/* A day's dose goes in by so many portions, an hour apart: common practice. */
enum { PORTIONS_A_DAY = 3 };

/* Phosphate and iron fall out and ammonia turns poisonous: a caustic day's
 * dose, weighed double by mistake, may not pass it. Judged. */
static const double GUARD_PH = 8.0;

static void base_cautions(const WaterBase *base, double step, SumAnswer *out)
{
    if (base->is_caustic) {
        sum_caution(out,
                    "Goggles, gloves and long sleeves first, water at hand: "
                    "%s burns eyes and skin.",
                    base->formula);
        sum_caution(out, "Powder into plenty of cold water, never water onto "
                         "powder. Plastic bucket and paddle, no galvanised or "
                         "aluminium tools: they give off hydrogen.");
    } else {
        sum_caution(out,
                    "Goggles and gloves: the dust of %s stings. Powder into "
                    "water, never water onto powder; no galvanised or "
                    "aluminium tools.",
                    base->formula);
    }
    sum_caution(out, "Pour it slowly into the sump or a base tank, never onto "
                     "fish. Feed off that day.");
    sum_caution(out,
                "At most %.2f pH a day, in %d portions an hour or more apart. "
                "Test pH before each portion; stop when pH is up %.2f, when "
                "fish gasp or crowd the inflow, or when ammonia is not known.",
                step, (int)PORTIONS_A_DAY, step);
    sum_caution(out, "Your own \"so many grams moved it 0.1\" is better than "
                     "this sum. The product's safety sheet and local rules "
                     "come first.");
}

static BaseQuestion question_of(const SumInputs *in, const WaterBase *base)
{
    bool is_fry = sum_number(in, "fry") > 0.0;
    return (BaseQuestion){
        .base = base,
        .strength_frac = sum_number(in, "strength_pct") / 100.0,
        .volume_m3 = sum_number(in, "volume_m3"),
        .temp_degc = sum_number(in, "temp_degc"),
        .alkalinity_mg_l = sum_number(in, "alkalinity_mg_l"),
        .ph = sum_number(in, "ph"),
        .target_ph = sum_number(in, "target_ph"),
        .tan_mg_l = sum_number(in, "tan_mg_l"),
        .ph_step = sum_number(in, "step_ph"),
        .nh3_limit_mg_l = water_ammonia_caution_mg_l(is_fry),
    };
}

/* A first step that would free too much ammonia is refused. */
static Err refuse_first_step(const BaseQuestion *q, const BaseDose *dose)
{
    if (dose->count > 0) {
        return ERR_NONE;
    }
    double ph = fmin(q->ph + q->ph_step, q->target_ph);
    double most_tan =
        q->nh3_limit_mg_l / water_unionised_frac(q->temp_degc, ph);
    return err_make(ERR_LIMIT,
                    "no base now: the first step, to pH %.2f, would make "
                    "%.3f mg/L NH3-N, over %.2f. Stop feeding, change water, "
                    "and wait until TAN is under %.2f mg/L",
                    ph, dose->refused_nh3_mg_l, q->nh3_limit_mg_l, most_tan);
}

/* A caustic base runs away once carbon dioxide is used up: no step may end
 * over the guard even if it were weighed double. Bicarbonate cannot. */
static Err refuse_overshoot(const BaseQuestion *q, const BaseDose *dose)
{
    double given_g = 0.0;
    for (int i = 0; q->base->is_caustic && i < dose->count; i++) {
        double step_g = dose->steps[i].product_g * q->strength_frac;
        double ph = water_base_ph_after(q, given_g + 2.0 * step_g);
        if (ph > GUARD_PH) {
            return err_make(ERR_LIMIT,
                            "refused: %s overshoots in this water. The step "
                            "to pH %.2f, weighed double by mistake, would end "
                            "at pH %.1f. Use KHCO3, or stop at a lower pH",
                            q->base->formula, dose->steps[i].ph, ph);
        }
        given_g += step_g;
    }
    return ERR_NONE;
}

static double first_day_g(const BaseQuestion *question, double alkalinity_part)
{
    BaseQuestion other = *question;
    other.alkalinity_mg_l *= alkalinity_part;
    BaseDose dose = {0};
    Err err = water_base_dose(&other, &dose);
    return err.kind == ERR_OK && dose.count > 0 ? dose.steps[0].product_g : NAN;
}

static void tell_steps(const BaseQuestion *q, const BaseDose *dose,
                       SumAnswer *out)
{
    sum_work(out,
             "closed water: A = HCO3- + 2 CO3-- + OH- - H+ with the "
             "carbon that is there; each day's dose is the one that "
             "lifts pH by %.2f at most",
             q->ph_step);
    for (int i = 0; i < dose->count; i++) {
        const BaseStep *step = &dose->steps[i];
        sum_work(out,
                 "day %d: %.4g g in %d portions of %.4g g, to pH %.2f; "
                 "alkalinity %.4g mg/L; NH3-N %.3f of at most %.2f mg/L",
                 i + 1, step->product_g, (int)PORTIONS_A_DAY,
                 step->product_g / PORTIONS_A_DAY, step->ph,
                 step->alkalinity_mg_l, step->nh3_mg_l, q->nh3_limit_mg_l);
    }
    if (dose->is_stopped) {
        double ph = fmin(dose->reached_ph + q->ph_step, q->target_ph);
        sum_work(out,
                 "the step to pH %.2f is refused: NH3-N would be %.3f mg/L, "
                 "over %.2f",
                 ph, dose->refused_nh3_mg_l, q->nh3_limit_mg_l);
        sum_caution(out,
                    "Stops at pH %.2f: one step more would free %.3f mg/L "
                    "NH3-N. Bring total ammonia down first.",
                    dose->reached_ph, dose->refused_nh3_mg_l);
    }
    sum_work(out, "air lets carbon dioxide out, so pH may go on rising by "
                  "itself; low and high: alkalinity 10 %% either way");
}

/* What all days together do to the water. */
static void tell_after(const BaseQuestion *q, const BaseDose *dose,
                       SumAnswer *out)
{
    const WaterBase *base = q->base;
    const BaseStep *last = &dose->steps[dose->count - 1];
    sum_also(out, "pH after the last day", last->ph, "");
    sum_also(out, "NH3-N after the last day", last->nh3_mg_l, "mg/L");
    sum_also(out, "alkalinity after the last day", last->alkalinity_mg_l,
             "mg/L CaCO3");
    double pure_mg_l = dose->total_g * q->strength_frac / q->volume_m3;
    double sodium_mg_l = pure_mg_l * base->sodium_frac;
    sum_also(out, "potassium added", pure_mg_l * base->potassium_frac, "mg/L");
    sum_also(out, "calcium added", pure_mg_l * base->calcium_frac, "mg/L");
    sum_also(out, "sodium added", sodium_mg_l, "mg/L");
    if (sodium_mg_l > 0.0) {
        sum_caution(out,
                    "%s leaves sodium, which nothing takes out: over 50 mg/L "
                    "harms many crops. Not as a routine.",
                    base->formula);
    }
    if (last->alkalinity_mg_l > 200.0) {
        sum_caution(out,
                    "Alkalinity would end at %.0f mg/L, over the 75-200 that "
                    "fish farms aim at: aim lower, or let carbon dioxide out "
                    "with air first.",
                    last->alkalinity_mg_l);
    }
}

static Err base_dose(const SumInputs *in, SumAnswer *out)
{
    const WaterBase *base = NULL;
    TRY(water_base_find(sum_word(in, "base"), &base));
    BaseQuestion q = question_of(in, base);
    BaseDose dose = {0};
    TRY(water_base_dose(&q, &dose));
    TRY(refuse_first_step(&q, &dose));
    TRY(refuse_overshoot(&q, &dose));
    base_cautions(base, q.ph_step, out);
    double today_g = dose.steps[0].product_g;
    double less_g = first_day_g(&q, 0.9);
    double more_g = first_day_g(&q, 1.1);
    sum_is_figure(
        out, "dose of the first day",
        sum_range(today_g, fmin(today_g, less_g), fmax(today_g, more_g)), "g");
    sum_also(out, "each portion of it", today_g / PORTIONS_A_DAY, "g");
    sum_also(out, "portions a day", PORTIONS_A_DAY, "");
    sum_also(out, "days", dose.count, "d");
    sum_also(out, "all days together, never at once", dose.total_g, "g");
    sum_also(out, "pH after the first day", dose.steps[0].ph, "");
    sum_also(out, "NH3-N after the first day", dose.steps[0].nh3_mg_l, "mg/L");
    double twice = water_base_ph_after(&q, 2.0 * today_g * q.strength_frac);
    sum_also(out, "pH if the first day's dose were weighed double", twice, "");
    tell_after(&q, &dose, out);
    tell_steps(&q, &dose, out);
    return ERR_NONE;
}

static Err base_swap(const SumInputs *in, SumAnswer *out)
{
    const WaterBase *from = NULL;
    const WaterBase *to = NULL;
    TRY(water_base_find(sum_word(in, "from"), &from));
    TRY(water_base_find(sum_word(in, "to"), &to));
    double mass_g = sum_number(in, "mass_g");
    double other_g = water_base_swap_g(from, to, mass_g);
    base_cautions(to, 0.2, out);
    sum_is(out, "as much alkalinity from the other base", other_g, "g");
    sum_also(out, "alkalinity", mass_g / water_base_g_per_g_caco3(from),
             "g CaCO3");
    sum_also(out, "potassium it brings", other_g * to->potassium_frac, "g");
    sum_also(out, "calcium it brings", other_g * to->calcium_frac, "g");
    sum_also(out, "sodium it brings", other_g * to->sodium_frac, "g");
    sum_work(out, "one equivalent weighs %.4g g of %s, %.4g g of %s",
             from->molar_g / from->eq_mol, from->formula,
             to->molar_g / to->eq_mol, to->formula);
    sum_work(out, "%.4g g x %.4g/%.4g = %.4g g", mass_g,
             to->molar_g / to->eq_mol, from->molar_g / from->eq_mol, other_g);
    if (from->is_caustic && !to->is_caustic) {
        sum_work(out, "a carbonate lifts pH less at once than a hydroxide of "
                      "the same alkalinity: it brings its own carbon");
    }
    if (!from->is_caustic && to->is_caustic) {
        sum_caution(out,
                    "%s lifts pH far more at once than as much alkalinity "
                    "from %s: ask base-dose before using it.",
                    to->formula, from->formula);
    }
    return ERR_NONE;
}

static Err base_for_feed(const SumInputs *in, SumAnswer *out)
{
    const WaterBase *base = NULL;
    TRY(water_base_find(sum_word(in, "base"), &base));
    double feed_kg_d = sum_number(in, "feed_kg_d");
    double protein_frac = sum_number(in, "protein_pct") / 100.0;
    double tan_g =
        1000.0 * feed_kg_d * water_feed_tan_kg_kg(protein_frac).value;
    double caco3_g = tan_g * water_nitrify_alkalinity_g_g();
    double most_g = caco3_g * water_base_g_per_g_caco3(base);
    /* Plants that take all nitrate give half of it back; feed and gravel may
     * give the rest. */
    double given_back =
        water_uptake_alkalinity_g_g() / water_nitrify_alkalinity_g_g();
    base_cautions(base, 0.2, out);
    sum_caution(out, "This is the most a day's feed can use up, never a dose "
                     "by itself: test alkalinity and ask base-dose.");
    sum_is_figure(out, "base that a day's feed may use up",
                  sum_range(most_g * (1.0 - given_back), 0.0, most_g), "g/d");
    sum_also(out, "alkalinity at the most", caco3_g, "g/d CaCO3");
    sum_also(out, "base at the most", most_g, "g/d");
    sum_work(out, "TAN = %.4g kg x %.4g x 0.092 = %.4g g/d", feed_kg_d,
             protein_frac, tan_g);
    sum_work(out, "alkalinity = %.2f x TAN = %.4g g/d CaCO3",
             water_nitrify_alkalinity_g_g(), caco3_g);
    sum_work(out,
             "%s: %.3f g per g CaCO3, %.4g g/d at most; half of it where "
             "plants take all nitrate; less where feed and gravel give "
             "alkalinity",
             base->formula, water_base_g_per_g_caco3(base), most_g);
    return ERR_NONE;
}

static Err iron_dose(const SumInputs *in, SumAnswer *out)
{
    static const double PORTION_MG_L = 0.5; /* a day; common practice */
    double volume_m3 = sum_number(in, "volume_m3");
    double target_mg_l = sum_number(in, "target_mg_l");
    double strength_frac = sum_number(in, "strength_pct") / 100.0;
    double dose_g = water_iron_dose_g(volume_m3, target_mg_l, strength_frac);
    double portions = ceil(target_mg_l / PORTION_MG_L - 1e-9);
    sum_caution(out, "Goggles, gloves, no dust in the air: iron chelate stains "
                     "and irritates. Powder into a plastic bucket of water, "
                     "no galvanised or aluminium tools; into the sump, never "
                     "onto fish.");
    sum_caution(out,
                "In %.0f portions, one a day, %.2f mg/L a day at most. Stop "
                "when fish gasp or turn from feed, or new leaves are green.",
                portions, PORTION_MG_L);
    sum_caution(out, "Take the strength from the label. EDTA fails above "
                     "about pH 6, DTPA above 7.5; EDDHA holds beyond. No pH "
                     "dose on the same day.");
    sum_is(out, "product in all", dose_g, "g");
    sum_also(out, "each portion", dose_g / portions, "g");
    sum_also(out, "portions, one a day", portions, "");
    sum_work(out,
             "target x volume / strength = %.4g g/m3 x %.4g m3 / %.4g = "
             "%.4g g",
             target_mg_l, volume_m3, strength_frac, dose_g);
    sum_work(out, "practice: 2 mg/L every three weeks, by the leaves");
    return ERR_NONE;
}

static Err top_up_limit(const SumInputs *in, SumAnswer *out)
{
    TopUp top_up = {
        .volume_m3 = sum_number(in, "volume_m3"),
        .tank_degc = sum_number(in, "tank_degc"),
        .source_degc = sum_number(in, "source_degc"),
        .chlorine_mg_l = sum_number(in, "chlorine_mg_l"),
        .chlorine_most_mg_l = water_chlorine_most_mg_l(),
        .change_most_degc = water_change_most_degc(),
    };
    TopUpLimit limit = {0};
    TRY(water_top_up_limit(&top_up, &limit));
    if (!isfinite(limit.most_m3)) {
        return err_make(ERR_RANGE,
                        "neither chlorine (%.4g mg/L, harmless to %.4g) nor "
                        "temperature (%.4g degC apart, harmless to %.4g) sets "
                        "a limit for this water",
                        top_up.chlorine_mg_l, top_up.chlorine_most_mg_l,
                        fabs(top_up.source_degc - top_up.tank_degc),
                        top_up.change_most_degc);
    }
    sum_caution(out, "A hose left running empties or floods a loop: set a "
                     "timer and stay. Chloramine does not leave with air: "
                     "ask the supplier. Stop when fish gasp.");
    sum_is(out, "most that may be added in an hour", limit.most_m3, "m3");
    sum_also(out, "by chlorine", limit.by_chlorine_m3, "m3");
    sum_also(out, "by temperature", limit.by_temperature_m3, "m3");
    sum_also(out, "share of the volume",
             100.0 * limit.most_m3 / top_up.volume_m3, "%");
    sum_work(out,
             "x = V L/(S - L): V %.4g m3, S over the tank's, L allowed "
             "after mixing",
             top_up.volume_m3);
    sum_work(out,
             "chlorine: S %.4g, L %.4g mg/L; temperature: S %.4g, L %.4g "
             "degC an hour; limits are common practice",
             top_up.chlorine_mg_l, top_up.chlorine_most_mg_l,
             fabs(top_up.source_degc - top_up.tank_degc),
             top_up.change_most_degc);
    return ERR_NONE;
}

static Err top_up_water(const SumInputs *in, SumAnswer *out)
{
    double volume_m3 = sum_number(in, "volume_m3");
    double loss_pct = sum_number(in, "loss_pct_d");
    double water_m3 = volume_m3 * loss_pct / 100.0;
    sum_is(out, "top-up water", water_m3, "m3/d");
    sum_also(out, "in a week", 7.0 * water_m3, "m3");
    sum_work(out, "%.4g m3 x %.4g %% = %.4g m3/d", volume_m3, loss_pct,
             water_m3);
    sum_work(out, "published losses: about 1 %% a day in one small farm, 1.5 "
                  "in the Virgin Islands system; your meter is better");
    return ERR_NONE;
}

#define BASE_KEY "KOH, Ca(OH)2, KHCO3, K2CO3, CaCO3, CaO, NaHCO3, NaOH or MgO"

/* clang-format off */
const Sum SUMS_DOSE[] = {
    {.name = "base-dose", .run = base_dose,
     .purpose = "base to lift pH, day by day, with the ammonia it frees",
     .keys = KEYS(
        WORD("base", "KHCO3", BASE_KEY),
        NEED("volume_m3", "m3", 0.05, 1e5, "water of the whole loop"),
        NEED("alkalinity_mg_l", "mg/L", 1, 500, "alkalinity, as CaCO3"),
        NEED("ph", "", 4.5, 8.5, "pH now"),
        NEED("target_ph", "", 4.5, 8.5, "pH wanted"),
        NEED("temp_degc", "degC", 5, 35, "temperature of the water"),
        NEED("tan_mg_l", "mg/L", 0, 100, "total ammonia nitrogen, tested today"),
        FLAG("fry", "1: fry in the loop, 0.02 mg/L NH3-N at most"),
        USUAL("strength_pct", "%", 100, 1, 100, "of the product"),
        USUAL("step_ph", "", 0.2, 0.05, 0.2, "most rise in a day")),
     .source = "PLUMMER1982 DAVIES1962 EMERSON1975 IFAS_FA16",
     .example = "base=KHCO3 volume_m3=33 alkalinity_mg_l=40 ph=6.4 "
                "target_ph=7.0 temp_degc=25 tan_mg_l=0.5"},
    {.name = "base-swap", .run = base_swap,
     .purpose = "as much alkalinity from another base",
     .keys = KEYS(
        WORD("from", "KOH", BASE_KEY),
        WORD("to", "Ca(OH)2", BASE_KEY),
        NEED("mass_g", "g", 0, 1e6, "mass of the first, pure")),
     .source = "",
     .example = "from=KOH to=calcium-hydroxide mass_g=100"},
    {.name = "base-for-feed", .run = base_for_feed,
     .purpose = "base that a day's feed can use up",
     .keys = KEYS(
        WORD_USUAL("base", "CaCO3", BASE_KEY),
        NEED("feed_kg_d", "kg/d", 0, 10000, "feed eaten in a day"),
        NEED("protein_pct", "%", 10, 60, "crude protein of the feed")),
     .source = "TIMMONS2010 EBELING2006",
     .example = "base=KOH feed_kg_d=2.7 protein_pct=32"},
    {.name = "iron-dose", .run = iron_dose,
     .purpose = "iron chelate for a rise of iron",
     .keys = KEYS(
        NEED("volume_m3", "m3", 0.05, 1e5, "water of the whole loop"),
        NEED("target_mg_l", "mg/L", 0.05, 4, "rise of iron wanted"),
        NEED("strength_pct", "%", 0.5, 30, "iron in the product, from its label")),
     .source = "RAKOCY2007",
     .example = "volume_m3=33 target_mg_l=2 strength_pct=11"},
    {.name = "top-up-limit", .run = top_up_limit,
     .purpose = "water that may be added in an hour",
     .keys = KEYS(
        NEED("chlorine_mg_l", "mg/L", 0, 10, "free chlorine of the source"),
        NEED("volume_m3", "m3", 0.05, 1e5, "water that receives it"),
        NEED("tank_degc", "degC", 0, 40, "temperature of the tank"),
        NEED("source_degc", "degC", 0, 40, "temperature of the source")),
     .source = "",
     .example = "chlorine_mg_l=0.3 volume_m3=4 tank_degc=26 source_degc=12"},
    {.name = "top-up-water", .run = top_up_water,
     .purpose = "water that a loop loses in a day",
     .keys = KEYS(
        NEED("volume_m3", "m3", 0.05, 1e5, "water of the whole loop"),
        USUAL("loss_pct_d", "%", 1, 0, 20, "of the volume a day")),
     .source = "RAKOCY2004",
     .example = "volume_m3=33"},
    {.name = NULL},
};
/* clang-format on */
