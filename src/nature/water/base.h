/* Bases: what each does to alkalinity and carbon, and doses in small steps.
 *
 * Strong bases burn skin and eyes and can overshoot: a plan of doses is always
 * split, each step judged by the ammonia it would free. Raising pH turns
 * harmless ammonium into poisonous ammonia. */
#ifndef LEAT_NATURE_WATER_BASE_H
#define LEAT_NATURE_WATER_BASE_H

#include <stdbool.h>

#include "base/err.h"

typedef struct WaterBase {
    const char *name;    /* "potassium-hydroxide" */
    const char *formula; /* "KOH" */
    double molar_g;      /* g/mol */
    double eq_mol;       /* alkalinity it brings, eq/mol */
    double dic_mol;      /* carbon it brings, mol/mol */
    double potassium_frac, calcium_frac, sodium_frac, magnesium_frac;
    bool is_caustic; /* burns; can overshoot */
} WaterBase;

/* All of them; *out_count of them. */
const WaterBase *water_bases(int *out_count);

/* By name or formula, capitals or not. ERR_NOT_FOUND names those there are. */
NODISCARD Err water_base_find(const char *name, const WaterBase **out);

/* Mass of pure base for a mass of CaCO3 of alkalinity, g per g. */
double water_base_g_per_g_caco3(const WaterBase *base);

/* Same alkalinity from another base, g. */
double water_base_swap_g(const WaterBase *from, const WaterBase *to,
                         double mass_g);

typedef struct BaseQuestion {
    const WaterBase *base;
    double strength_frac; /* of the product, 0..1 */
    double volume_m3;
    double temp_degc;
    double alkalinity_mg_l; /* as CaCO3 */
    double ph;
    double target_ph;
    double tan_mg_l;
    double ph_step;        /* most rise a step, which is a day's: 0.2 */
    double nh3_limit_mg_l; /* NH3-N that no step may pass */
} BaseQuestion;

typedef struct BaseStep {
    double product_g;
    double ph;              /* after it, in closed water */
    double alkalinity_mg_l; /* after it, as CaCO3 */
    double nh3_mg_l;        /* NH3-N after it, TAN unchanged */
} BaseStep;

enum { BASE_STEPS_MAX = 32 };

typedef struct BaseDose {
    BaseStep steps[BASE_STEPS_MAX];
    int count;
    double total_g;
    double reached_ph;
    bool is_stopped; /* the step after the last would pass the NH3 limit */
    double refused_nh3_mg_l; /* what that step would have made */
} BaseDose;

/* Doses to a target pH, each a rise of ph_step at most; carbon dioxide is taken
 * to stay in the water, which makes the rise the largest possible: air lets
 * some out and pH may go on rising by itself.
 *
 * ERR_RANGE: target below pH, or beyond what this base reaches by itself.
 * ERR_LIMIT: more than BASE_STEPS_MAX steps, or the water is past the ammonia
 * limit before the first. */
NODISCARD Err water_base_dose(const BaseQuestion *question, BaseDose *out);

/* pH after a mass of pure base in closed water. */
double water_base_ph_after(const BaseQuestion *question, double pure_g);

#endif
