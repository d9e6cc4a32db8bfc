/* What of water depends on its temperature alone. */
#include "nature/water/warmth.h"

#include <math.h>

#include "nature/fish/respiration.h"
#include "nature/water/ammonia.h"
#include "nature/water/carbonate.h"
#include "nature/water/oxygen.h"

static const double STEP_DEGC = 0.25;
static const double MOL_M3 = 1000.0; /* in a mol/L */
static const double A_LEAST = 1e-12; /* pH 12 */
static const double A_MOST = 1e-3;   /* pH 3 */

static WaterWarmth row_of(const WarmthCase *given, double temp_degc)
{
    static const double FILM = 1.027;
    static const double TRANSFER = 1.024;
    OxygenWater water = {temp_degc, given->pressure_kpa, 0.0};
    CarbonateConstants k = carbonate_constants(temp_degc, given->ionic_mol_l);
    double k1 = pow(10.0, k.log_k1);
    double k2 = pow(10.0, k.log_k2);
    double like_g = 50.0;
    return (WaterWarmth){
        .oxygen_g_m3 = water_oxygen_saturation_mg_l(&water),
        .k1 = k1 / k.g1,
        .k12 = k1 * k2 / k.g2,
        .kw_mol_m3 = MOL_M3 * pow(10.0, k.log_kw) / k.g1,
        .proton = MOL_M3 / k.g1,
        .co2_mol_m3 = MOL_M3 * pow(10.0, k.log_kh) * given->co2_ppm * 1e-6 *
                      given->pressure_kpa / 101.325,
        .ammonia = pow(10.0, -water_ammonia_pka(temp_degc)),
        .film = pow(FILM, temp_degc - 20.0),
        .mineral = pow(given->mineral_rise, temp_degc - 20.0),
        .transfer = pow(TRANSFER, temp_degc - 20.0),
        .breath = fish_oxygen_allometric(like_g, temp_degc) /
                  fish_oxygen_allometric(like_g, 28.0),
        .calcite = MOL_M3 * MOL_M3 * pow(10.0, k.log_ksp) / (k.g2 * k.g2),
    };
}

void warmth_fill(const WarmthCase *given, WarmthTable *out)
{
    for (int i = 0; i < WARMTH_ROWS; i++) {
        out->rows[i] = row_of(given, i * STEP_DEGC);
    }
}

WaterWarmth warmth_at(const WarmthTable *table, double temp_degc)
{
    double at = temp_degc / STEP_DEGC;
    at = at > 0.0 ? at : 0.0;
    at = at < WARMTH_ROWS - 1 ? at : WARMTH_ROWS - 1;
    int low = at < WARMTH_ROWS - 2 ? (int)at : WARMTH_ROWS - 2;
    double part = at - low;
    const WaterWarmth *a = &table->rows[low];
    const WaterWarmth *b = a + 1;
#define BETWEEN(name) .name = a->name + part * (b->name - a->name)
    return (WaterWarmth){
        BETWEEN(oxygen_g_m3), BETWEEN(k1),     BETWEEN(k12),
        BETWEEN(kw_mol_m3),   BETWEEN(proton), BETWEEN(co2_mol_m3),
        BETWEEN(ammonia),     BETWEEN(film),   BETWEEN(mineral),
        BETWEEN(transfer),    BETWEEN(breath), BETWEEN(calcite),
    };
#undef BETWEEN
}

PhPoint warmth_ph(const WaterWarmth *at, double alkalinity_mol_m3,
                  double dic_mol_m3, double near_a)
{
    enum { ROUNDS = 60 };
    static const double FAR = 1.0;   /* most that ln a moves in a round */
    static const double NEAR = 1e-3; /* the move after it is its square */
    double a = near_a;
    double share = 0.0;
    double slope = 0.0;
    double turned = 0.0; /* what the last move made of the share */
    for (int i = 0; i < ROUNDS; i++) {
        double k1a = at->k1 * a;
        double under = a * a + k1a + at->k12;
        double both = 1.0 / (a * under); /* one division for two */
        double below = both * a;
        double carbonate = k1a + 2.0 * at->k12;
        double charge = carbonate * below;
        double hydroxide = at->kw_mol_m3 * both * under;
        double acid = at->proton * a;
        /* d(charge)/d(ln a), which is never above 0. */
        double turn = (k1a - charge * (2.0 * a * a + k1a)) * below;
        double per = 1.0 / (dic_mol_m3 * turn - hydroxide - acid);
        double off = dic_mol_m3 * charge + hydroxide - acid - alkalinity_mol_m3;
        share = a * a * below;
        /* CO2 = C share; at constant A, d(ln a) = -charge per dC. */
        slope = share - dic_mol_m3 * share * charge * charge * per;
        double move = -off * per;
        move = move > FAR ? FAR : move < -FAR ? -FAR : move;
        a *= (2.0 + move) / (2.0 - move); /* exp(move) to second order */
        a = a < A_LEAST ? A_LEAST : a > A_MOST ? A_MOST : a;
        turned = charge * move;
        if (fabs(move) < NEAR) {
            break;
        }
    }
    return (PhPoint){a, dic_mol_m3 * share * (1.0 + turned), slope};
}

double warmth_dic(const WaterWarmth *at, double alkalinity_mol_m3, double ph)
{
    double a = pow(10.0, -ph);
    double own = at->kw_mol_m3 / a - at->proton * a;
    double charge =
        (at->k1 * a + 2.0 * at->k12) / (a * a + at->k1 * a + at->k12);
    return fmax(0.0, alkalinity_mol_m3 - own) / charge;
}
