/* Sums of water: ammonia, oxygen, carbon dioxide, what feed makes and what
 * stones turn. */
#include <math.h>

#include "nature/water/ammonia.h"
#include "nature/water/carbonate.h"
#include "nature/water/nitrogen.h"
#include "nature/water/oxygen.h"
#include "sums/rows.h"

static Err unionised_ammonia(const SumInputs *in, SumAnswer *out)
{
    double temp_degc = sum_number(in, "temp_degc");
    double ph = sum_number(in, "ph");
    double tan_mg_l = sum_number(in, "tan_mg_l");
    bool is_fry = sum_number(in, "fry") > 0.0;
    double frac = water_unionised_frac(temp_degc, ph);
    double nh3 = frac * tan_mg_l;
    double limit = water_ammonia_caution_mg_l(is_fry);
    /* Ions of farm water lower the share by under 5 %; other published
     * constants raise it by under 1 %. */
    Figure figure = sum_range(nh3, 0.95 * nh3, 1.01 * nh3);
    sum_is_figure(out, "un-ionised ammonia, NH3-N", figure, "mg/L");
    sum_also(out, "share of the total", 100.0 * frac, "%");
    sum_also(out, "caution from", limit, "mg/L NH3-N");
    sum_also(out, "total that would reach it at this pH", limit / frac,
             "mg/L TAN");
    sum_work(out, "pKa = 0.09018 + 2729.92/(273.15 + %.4g) = %.4f", temp_degc,
             water_ammonia_pka(temp_degc));
    sum_work(out,
             "share = 1/(1 + 10^(pKa - pH)) = 1/(1 + 10^(%.4f - %.4g)) = "
             "%.4g",
             water_ammonia_pka(temp_degc), ph, frac);
    sum_work(out, "NH3-N = share x TAN = %.4g x %.4g = %.4g mg/L", frac,
             tan_mg_l, nh3);
    if (nh3 > limit) {
        sum_caution(out,
                    "Over %.2f mg/L NH3-N%s: stop feeding, more air, change "
                    "part of the water; no base today. Watch the fish; a vet "
                    "if they fail.",
                    limit, is_fry ? " (fry)" : "");
    }
    return ERR_NONE;
}

static Err oxygen_saturation(const SumInputs *in, SumAnswer *out)
{
    double altitude_m = sum_number(in, "altitude_m");
    OxygenWater water = {
        .temp_degc = sum_number(in, "temp_degc"),
        .pressure_kpa = water_pressure_kpa(altitude_m),
        .salinity_g_kg = sum_number(in, "salinity_g_kg"),
    };
    double full = water_oxygen_saturation_mg_l(&water);
    /* Published solubilities differ by 0.3 %. */
    sum_is_figure(out, "oxygen at saturation", sum_about(full, 0.003), "mg/L");
    sum_also(out, "half of saturation", full / 2.0, "mg/L");
    sum_also(out, "pressure of the air", water.pressure_kpa, "kPa");
    sum_work(out, "P = 101.325 (1 - 2.25577e-5 x %.4g)^5.25588 = %.2f kPa",
             altitude_m, water.pressure_kpa);
    sum_work(out,
             "ln C* = -139.34411 + 1.575701e5/T - 6.642308e7/T^2 + "
             "1.2438e10/T^3 - 8.621949e11/T^4 - S (0.017674 - 10.754/T + "
             "2140.7/T^2), T = %.2f K, S = %.4g",
             273.15 + water.temp_degc, water.salinity_g_kg);
    sum_work(out,
             "C = C* P (1 - Pw/P)(1 - th P)/((1 - Pw)(1 - th)) = %.3f "
             "mg/L",
             full);
    return ERR_NONE;
}

static Err carbon_dioxide(const SumInputs *in, SumAnswer *out)
{
    double temp_degc = sum_number(in, "temp_degc");
    double ph = sum_number(in, "ph");
    double alkalinity_mg_l = sum_number(in, "alkalinity_mg_l");
    double eq_l = eq_l_from_mg_l_caco3(alkalinity_mg_l);
    CarbonateConstants ideal = carbonate_constants(temp_degc, 0.0);
    CarbonateConstants salty =
        carbonate_constants(temp_degc, carbonate_ionic_mol_l(eq_l));
    CarbonateWater water = carbonate_from_ph(&ideal, eq_l, ph);
    CarbonateWater other = carbonate_from_ph(&salty, eq_l, ph);
    double co2 = mg_l_co2_from_mol_l(water.co2_mol_l);
    double low = mg_l_co2_from_mol_l(other.co2_mol_l);
    if (!(co2 > 0.0)) {
        return err_make(ERR_RANGE,
                        "alkalinity of %.4g mg/L is less than pH %.2f alone "
                        "gives: one of the two is wrong",
                        alkalinity_mg_l, ph);
    }
    sum_is_figure(out, "dissolved carbon dioxide",
                  sum_range(co2, fmin(low, co2), fmax(low, co2)), "mg/L");
    sum_also(out, "all dissolved carbon", 1000.0 * water.dic_mol_l, "mmol/L");
    sum_work(out, "pK1 = %.3f at %.4g degC", -ideal.log_k1, temp_degc);
    sum_work(out,
             "HCO3- = A - 2 CO3-- - OH- + H+ = %.4g mmol/L, from A = "
             "%.4g/50.04 = %.4g meq/L",
             1000.0 * water.hco3_mol_l, alkalinity_mg_l, 1000.0 * eq_l);
    sum_work(out,
             "CO2 = 44.01 HCO3- 10^(pK1 - pH) = 44.01 x %.4g x "
             "10^(%.3f - %.4g) = %.4g mg/L",
             1000.0 * water.hco3_mol_l, -ideal.log_k1, ph, co2);
    sum_work(out, "low: with the activity of ions of such water, %.4g mg/L",
             low);
    if (co2 > 20.0) {
        sum_caution(out, "Growth suffers from about 20 mg/L, tilapia are kept "
                         "under 30-40: more air and splash before any base.");
    }
    return ERR_NONE;
}

static Err ammonia_made(const SumInputs *in, SumAnswer *out)
{
    double feed_kg_d = sum_number(in, "feed_kg_d");
    double protein_frac = sum_number(in, "protein_pct") / 100.0;
    Figure tan =
        sum_scaled(water_feed_tan_kg_kg(protein_frac), 1000.0 * feed_kg_d);
    sum_is_figure(out, "ammonia made, TAN", tan, "g/d");
    sum_also_figure(out, "oxygen that turning it to nitrate takes",
                    sum_scaled(tan, water_nitrify_oxygen_g_g()), "g/d");
    sum_also_figure(out, "alkalinity that it takes",
                    sum_scaled(tan, water_nitrify_alkalinity_g_g()),
                    "g/d CaCO3");
    sum_also_figure(
        out, "oxygen that fish and loop use",
        sum_scaled(water_feed_oxygen_loop_kg_kg(), 1000.0 * feed_kg_d), "g/d");
    sum_work(out,
             "TAN = feed x protein x 0.092 = %.4g kg x %.4g x 0.092 = "
             "%.4g g/d",
             feed_kg_d, protein_frac, tan.value);
    sum_work(out, "0.092 = 0.16 N in protein x 0.80 taken up x 0.80 given off "
                  "x 0.90 as ammonia");
    sum_work(out, "low: 25 g per kg of feed of 32 %% protein; high: 0.16 x "
                  "0.61 of the protein");
    return ERR_NONE;
}

static Err nitrification(const SumInputs *in, SumAnswer *out)
{
    double area_m2 = sum_number(in, "area_m2");
    NitrifyWater water = {
        .temp_degc = sum_number(in, "temp_degc"),
        .tan_mg_l = sum_number(in, "tan_mg_l"),
        .oxygen_mg_l = sum_number(in, "oxygen_mg_l"),
        .ph = sum_number(in, "ph"),
        .clean_frac = sum_number(in, "clean_pct") / 100.0,
    };
    Figure rate = water_nitrify_g_m2_d(&water);
    sum_is_figure(out, "ammonia turned, TAN", sum_scaled(rate, area_m2), "g/d");
    sum_also_figure(out, "a square metre of stone surface", rate, "g/m2/d");
    Figure feed = water_feed_tan_kg_kg(0.32);
    sum_also(out, "feed of 32 % protein that makes as much",
             rate.value * area_m2 / (1000.0 * feed.value), "kg/d");
    double stones_m2_m3 = water_gravel_surface_m2_m3(0.4, 20.0);
    sum_also(out, "gravel of 20 mm with that surface", area_m2 / stones_m2_m3,
             "m3");
    sum_work(out, "r = r20 theta^(T - 20) S/(Ks + S) DO/(Ko + DO) f(pH) clean");
    sum_work(out,
             "r20 2.4 (1.0-3.4), theta 1.027 (1.011-1.043), Ks 1.5 (1-2), "
             "Ko 1.3; T %.4g, S %.4g, DO %.4g, pH %.4g, clean %.4g",
             water.temp_degc, water.tan_mg_l, water.oxygen_mg_l, water.ph,
             water.clean_frac);
    sum_work(out, "%.4g g/m2/d x %.4g m2 = %.4g g/d", rate.value, area_m2,
             rate.value * area_m2);
    sum_work(out,
             "stones as spheres: 6 (1 - 0.4)/0.020 m = %.0f m2/m3; the "
             "surface in use is less",
             stones_m2_m3);
    sum_work(out, "r20 is a guess between published sizes");
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_WATER[] = {
    {.name = "unionised-ammonia", .run = unionised_ammonia,
     .purpose = "how much of the total ammonia is the poisonous kind",
     .keys = KEYS(
        NEED("temp_degc", "degC", 0, 50, "temperature of the water"),
        NEED("ph", "", 4, 11, "pH of the water"),
        NEED("tan_mg_l", "mg/L", 0, 1000,
             "total ammonia nitrogen, as the kit tells it"),
        FLAG("fry", "1: judged for fry")),
     .source = "EMERSON1975 IFAS_FA16",
     .example = "temp_degc=24 ph=8.0 tan_mg_l=1.0"},
    {.name = "oxygen-saturation", .run = oxygen_saturation,
     .purpose = "how much oxygen water holds against air",
     .keys = KEYS(
        NEED("temp_degc", "degC", 0, 40, "temperature of the water"),
        USUAL("altitude_m", "m", 0, -400, 4500, "height over the sea"),
        USUAL("salinity_g_kg", "g/kg", 0, 0, 40, "salt in the water")),
     .source = "BENSON1984 APHA4500O ICAO7488",
     .example = "temp_degc=26 altitude_m=850 salinity_g_kg=0"},
    {.name = "carbon-dioxide", .run = carbon_dioxide,
     .purpose = "carbon dioxide in the water, from pH and alkalinity",
     .keys = KEYS(
        NEED("temp_degc", "degC", 0, 40, "temperature of the water"),
        NEED("ph", "", 5, 9, "pH of the water"),
        NEED("alkalinity_mg_l", "mg/L", 1, 500, "alkalinity, as CaCO3")),
     .source = "PLUMMER1982 TUCKER1984",
     .example = "temp_degc=25 ph=6.8 alkalinity_mg_l=50"},
    {.name = "ammonia-made", .run = ammonia_made,
     .purpose = "ammonia that a day's feed makes",
     .keys = KEYS(
        NEED("feed_kg_d", "kg/d", 0, 10000, "feed eaten in a day"),
        NEED("protein_pct", "%", 10, 60, "crude protein of the feed")),
     .source = "TIMMONS2010 FAO589",
     .example = "feed_kg_d=4.8 protein_pct=32"},
    {.name = "nitrification", .run = nitrification,
     .purpose = "ammonia that the surface of stones turns into nitrate",
     .keys = KEYS(
        NEED("area_m2", "m2", 0.01, 1e6,
             "surface of the stones, not of the bed"),
        NEED("temp_degc", "degC", 5, 35, "temperature of the water"),
        NEED("ph", "", 5.5, 9, "pH of the water"),
        NEED("oxygen_mg_l", "mg/L", 0, 20, "oxygen in the bed's water"),
        NEED("tan_mg_l", "mg/L", 0, 20, "total ammonia nitrogen"),
        USUAL("clean_pct", "%", 40, 10, 100,
              "share left by solids on the film; 100: clean stones")),
     .source = "ZHU2002 LING2005 TYSON2008 TIMMONS2010 FAO589",
     .example = "area_m2=500 temp_degc=24 ph=6.8 oxygen_mg_l=5.5 tan_mg_l=1.2"},
    {.name = NULL},
};
/* clang-format on */
