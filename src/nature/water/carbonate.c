/* The carbonate system, solved by bisection. */
#include "nature/water/carbonate.h"

#include <assert.h>
#include <math.h>

static const double KELVIN = 273.15;
static const double CACO3_G_EQ = 50.0435; /* half of 100.087 g/mol */
static const double CO2_G_MOL = 44.0095;
static const double PH_LOW = 3.0;
static const double PH_HIGH = 12.0;

double eq_l_from_mg_l_caco3(double mg_l)
{
    return mg_l / (1000.0 * CACO3_G_EQ);
}

double mg_l_caco3_from_eq_l(double eq_l)
{
    return eq_l * 1000.0 * CACO3_G_EQ;
}

double mg_l_co2_from_mol_l(double mol_l)
{
    return mol_l * 1000.0 * CO2_G_MOL;
}

double mol_l_from_mg_l_co2(double mg_l)
{
    return mg_l / (1000.0 * CO2_G_MOL);
}

double carbonate_ionic_mol_l(double alkalinity_eq_l)
{
    return 1.5 * fmax(0.0, alkalinity_eq_l);
}

/* Davies, for one unit of charge squared. */
static double log_activity(double t, double ionic_mol_l)
{
    double eps = 2727.586 + 0.6224107 * t - 466.9151 * log(t) - 52000.87 / t;
    double a = 1.82483e6 / pow(eps * t, 1.5);
    double root = sqrt(fmax(0.0, ionic_mol_l));
    return -a * (root / (1.0 + root) - 0.3 * ionic_mol_l);
}

CarbonateConstants carbonate_constants(double temp_degc, double ionic_mol_l)
{
    assert(temp_degc > -5.0 && temp_degc < 60.0);
    double t = temp_degc + KELVIN;
    double t2 = t * t;
    double lt = log10(t);
    double k2 = -(107.8871 + 0.03252849 * t - 5151.79 / t - 38.92561 * lt +
                  563713.9 / t2);
    double k1k2 = -(464.1965 + 0.09344813 * t - 26986.16 / t - 165.75951 * lt +
                    2248628.9 / t2);
    double lg = log_activity(t, ionic_mol_l);
    return (CarbonateConstants){
        .log_k1 = k1k2 - k2,
        .log_k2 = k2,
        .log_kh = 108.3865 + 0.01985076 * t - 6919.53 / t - 40.45154 * lt +
                  669365.0 / t2,
        .log_kw = 293.29227 + 0.1360833 * t - 10576.913 / t - 123.73158 * lt -
                  6.996455e-5 * t2,
        .log_ksp = -171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * lt,
        .g1 = pow(10.0, lg),
        .g2 = pow(10.0, 4.0 * lg), /* charge 2, squared */
    };
}

/* Ratios to CO2 and the water's own ions at a pH. */
typedef struct Shares {
    double hco3; /* mol per mol CO2 */
    double co3;
    double own_eq_l; /* [OH-] - [H+] */
} Shares;

static Shares shares_at(const CarbonateConstants *k, double ph)
{
    double hco3 = pow(10.0, k->log_k1 + ph) / k->g1;
    double hydroxide = pow(10.0, k->log_kw + ph) / k->g1;
    return (Shares){
        .hco3 = hco3,
        .co3 = hco3 * pow(10.0, k->log_k2 + ph) * k->g1 / k->g2,
        .own_eq_l = hydroxide - pow(10.0, -ph) / k->g1,
    };
}

static CarbonateWater water_of(const Shares *s, double ph, double co2_mol_l)
{
    CarbonateWater water = {
        .ph = ph,
        .co2_mol_l = co2_mol_l,
        .hco3_mol_l = co2_mol_l * s->hco3,
        .co3_mol_l = co2_mol_l * s->co3,
        .dic_mol_l = co2_mol_l * (1.0 + s->hco3 + s->co3),
    };
    water.alkalinity_eq_l =
        water.hco3_mol_l + 2.0 * water.co3_mol_l + s->own_eq_l;
    return water;
}

static CarbonateWater at_dic(const CarbonateConstants *k, double dic_mol_l,
                             double ph)
{
    Shares s = shares_at(k, ph);
    return water_of(&s, ph, dic_mol_l / (1.0 + s.hco3 + s.co3));
}

static CarbonateWater at_co2(const CarbonateConstants *k, double co2_mol_l,
                             double ph)
{
    Shares s = shares_at(k, ph);
    return water_of(&s, ph, co2_mol_l);
}

/* Alkalinity rises with pH both at fixed DIC and at fixed CO2. */
static CarbonateWater
bisect(CarbonateWater (*at)(const CarbonateConstants *, double, double),
       const CarbonateConstants *k, double carbon_mol_l, double alkalinity_eq_l)
{
    double low = PH_LOW;
    double high = PH_HIGH;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2.0;
        if (at(k, carbon_mol_l, middle).alkalinity_eq_l < alkalinity_eq_l) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return at(k, carbon_mol_l, (low + high) / 2.0);
}

CarbonateWater carbonate_solve(const CarbonateConstants *constants,
                               double alkalinity_eq_l, double dic_mol_l)
{
    assert(dic_mol_l >= 0.0);
    return bisect(at_dic, constants, dic_mol_l, alkalinity_eq_l);
}

CarbonateWater carbonate_in_air(const CarbonateConstants *constants,
                                double alkalinity_eq_l, double co2_atm)
{
    double co2_mol_l = pow(10.0, constants->log_kh) * co2_atm;
    return bisect(at_co2, constants, co2_mol_l, alkalinity_eq_l);
}

CarbonateWater carbonate_from_ph(const CarbonateConstants *constants,
                                 double alkalinity_eq_l, double ph)
{
    assert(ph >= PH_LOW && ph <= PH_HIGH);
    Shares s = shares_at(constants, ph);
    double carbon_eq_l = fmax(0.0, alkalinity_eq_l - s.own_eq_l);
    return water_of(&s, ph, carbon_eq_l / (s.hco3 + 2.0 * s.co3));
}

double carbonate_calcite_index(const CarbonateConstants *constants,
                               const CarbonateWater *water,
                               double calcium_mol_l)
{
    double product =
        calcium_mol_l * constants->g2 * water->co3_mol_l * constants->g2;
    return log10(product) - constants->log_ksp;
}
