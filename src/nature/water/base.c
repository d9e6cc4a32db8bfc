/* Bases and their doses. */
#include "nature/water/base.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>

#include "nature/water/ammonia.h"
#include "nature/water/carbonate.h"

static const double CACO3_G_EQ = 50.0435;

/* Molar masses from standard atomic weights; shares are their ratios. */
static const WaterBase BASES[] = {
    {.name = "potassium-hydroxide",
     .formula = "KOH",
     .molar_g = 56.1056,
     .eq_mol = 1.0,
     .potassium_frac = 0.6969,
     .is_caustic = true},
    {.name = "calcium-hydroxide",
     .formula = "Ca(OH)2",
     .molar_g = 74.0927,
     .eq_mol = 2.0,
     .calcium_frac = 0.5409,
     .is_caustic = true},
    {.name = "potassium-bicarbonate",
     .formula = "KHCO3",
     .molar_g = 100.1151,
     .eq_mol = 1.0,
     .dic_mol = 1.0,
     .potassium_frac = 0.3905},
    {.name = "potassium-carbonate",
     .formula = "K2CO3",
     .molar_g = 138.2055,
     .eq_mol = 2.0,
     .dic_mol = 1.0,
     .potassium_frac = 0.5658,
     .is_caustic = true},
    {.name = "calcium-carbonate",
     .formula = "CaCO3",
     .molar_g = 100.0869,
     .eq_mol = 2.0,
     .dic_mol = 1.0,
     .calcium_frac = 0.4004},
    {.name = "calcium-oxide",
     .formula = "CaO",
     .molar_g = 56.0774,
     .eq_mol = 2.0,
     .calcium_frac = 0.7147,
     .is_caustic = true},
    {.name = "sodium-bicarbonate",
     .formula = "NaHCO3",
     .molar_g = 84.0066,
     .eq_mol = 1.0,
     .dic_mol = 1.0,
     .sodium_frac = 0.2737},
    {.name = "sodium-hydroxide",
     .formula = "NaOH",
     .molar_g = 39.9971,
     .eq_mol = 1.0,
     .sodium_frac = 0.5748,
     .is_caustic = true},
    {.name = "magnesium-oxide",
     .formula = "MgO",
     .molar_g = 40.3044,
     .eq_mol = 2.0,
     .magnesium_frac = 0.6030},
};

enum { BASE_COUNT = (int)(sizeof BASES / sizeof *BASES) };

const WaterBase *water_bases(int *out_count)
{
    *out_count = BASE_COUNT;
    return BASES;
}

static bool same_word(const char *a, const char *b)
{
    while (*a && *b &&
           tolower((unsigned char)*a) == tolower((unsigned char)*b)) {
        a++;
        b++;
    }
    return !*a && !*b;
}

Err water_base_find(const char *name, const WaterBase **out)
{
    for (int i = 0; i < BASE_COUNT; i++) {
        if (same_word(name, BASES[i].name) ||
            same_word(name, BASES[i].formula)) {
            *out = &BASES[i];
            return ERR_NONE;
        }
    }
    return err_make(ERR_NOT_FOUND,
                    "no base is called \"%.40s\"; there are KOH, Ca(OH)2, "
                    "KHCO3, K2CO3, CaCO3, CaO, NaHCO3, NaOH, MgO",
                    name);
}

double water_base_g_per_g_caco3(const WaterBase *base)
{
    return base->molar_g / base->eq_mol / CACO3_G_EQ;
}

double water_base_swap_g(const WaterBase *from, const WaterBase *to,
                         double mass_g)
{
    return mass_g * water_base_g_per_g_caco3(to) /
           water_base_g_per_g_caco3(from);
}

/* The water before, kept while doses are tried. */
typedef struct Bath {
    CarbonateConstants constants;
    CarbonateWater start;
    double litres;
} Bath;

static Bath bath_of(const BaseQuestion *q)
{
    double alkalinity_eq_l = eq_l_from_mg_l_caco3(q->alkalinity_mg_l);
    Bath bath = {.litres = 1000.0 * q->volume_m3};
    bath.constants = carbonate_constants(
        q->temp_degc, carbonate_ionic_mol_l(alkalinity_eq_l));
    bath.start = carbonate_from_ph(&bath.constants, alkalinity_eq_l, q->ph);
    return bath;
}

static CarbonateWater after(const Bath *bath, const WaterBase *base,
                            double pure_g)
{
    double mol_l = pure_g / base->molar_g / bath->litres;
    return carbonate_solve(&bath->constants,
                           bath->start.alkalinity_eq_l + mol_l * base->eq_mol,
                           bath->start.dic_mol_l + mol_l * base->dic_mol);
}

double water_base_ph_after(const BaseQuestion *question, double pure_g)
{
    Bath bath = bath_of(question);
    return after(&bath, question->base, pure_g).ph;
}

/* Most that is ever tried: 20 meq/L, ten times a farm's alkalinity. */
static double most_g(const Bath *bath, const WaterBase *base)
{
    return 0.020 * bath->litres * base->molar_g / base->eq_mol;
}

static double pure_g_for(const Bath *bath, const WaterBase *base, double ph)
{
    double low = 0.0;
    double high = most_g(bath, base);
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2.0;
        if (after(bath, base, middle).ph < ph) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}

static Err question_check(const BaseQuestion *q, const Bath *bath)
{
    if (q->target_ph <= q->ph) {
        return err_make(ERR_RANGE, "pH %.2f is already at or over %.2f", q->ph,
                        q->target_ph);
    }
    double reach = after(bath, q->base, most_g(bath, q->base)).ph;
    if (q->target_ph > reach) {
        return err_make(ERR_RANGE,
                        "%s alone brings this water to pH %.2f, "
                        "not %.2f",
                        q->base->formula, reach, q->target_ph);
    }
    double now = q->tan_mg_l * water_unionised_frac(q->temp_degc, q->ph);
    if (now > q->nh3_limit_mg_l) {
        return err_make(ERR_LIMIT,
                        "NH3-N is %.3f mg/L before any dose, over %.2f: stop "
                        "feeding, change water; no base now",
                        now, q->nh3_limit_mg_l);
    }
    double steps = ceil((q->target_ph - q->ph) / q->ph_step - 1e-9);
    if (steps > BASE_STEPS_MAX) {
        return err_make(ERR_LIMIT,
                        "%.0f steps of %.2f pH: too far for one "
                        "plan of doses",
                        steps, q->ph_step);
    }
    return ERR_NONE;
}

Err water_base_dose(const BaseQuestion *question, BaseDose *out)
{
    assert(question->volume_m3 > 0.0 && question->ph_step > 0.0 &&
           question->strength_frac > 0.0);
    Bath bath = bath_of(question);
    TRY(question_check(question, &bath));
    const WaterBase *base = question->base;
    BaseDose dose = {.reached_ph = question->ph};
    double given_g = 0.0;
    while (dose.reached_ph < question->target_ph - 1e-9) {
        double ph =
            fmin(dose.reached_ph + question->ph_step, question->target_ph);
        double nh3 =
            question->tan_mg_l * water_unionised_frac(question->temp_degc, ph);
        if (nh3 > question->nh3_limit_mg_l) {
            dose.is_stopped = true;
            dose.refused_nh3_mg_l = nh3;
            break;
        }
        double upto_g = pure_g_for(&bath, base, ph);
        CarbonateWater water = after(&bath, base, upto_g);
        dose.steps[dose.count++] = (BaseStep){
            .product_g = (upto_g - given_g) / question->strength_frac,
            .ph = ph,
            .alkalinity_mg_l = mg_l_caco3_from_eq_l(water.alkalinity_eq_l),
            .nh3_mg_l = nh3,
        };
        given_g = upto_g;
        dose.reached_ph = ph;
    }
    dose.total_g = given_g / question->strength_frac;
    *out = dose;
    return ERR_NONE;
}
