/* Sums of air and light: sun, moist air, water that plants lose, venting,
 * wetness. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/air/evapo.h"
#include "nature/air/vapour.h"
#include "nature/air/venting.h"
#include "nature/plant/infection.h"
#include "nature/plant/mildew.h"
#include "nature/sun/position.h"
#include "nature/sun/solar.h"
#include "sums/rows.h"

static Err day_length(const SumInputs *in, SumAnswer *out)
{
    double latitude_deg = sum_number(in, "latitude_deg");
    int day = date_day_of_year(sum_day(in, "date"));
    double declination = sun_declination_rad(day);
    double sunset = sun_sunset_angle_rad(latitude_deg, declination);
    double hours = sun_day_length_h(latitude_deg, day);
    sum_is(out, "from sunrise to sunset", hours, "h");
    sum_also(out, "sunrise, hours before solar noon", hours / 2.0, "h");
    sum_also(out, "declination of the sun", 180.0 / SUN_PI * declination,
             "deg");
    sum_work(out, "J %d: delta = 0.409 sin(2 pi J/365 - 1.39) = %.4f rad", day,
             declination);
    sum_work(out,
             "ws = arccos(-tan(%.4g deg) tan delta) = %.4f rad; N = 24 "
             "ws/pi = %.3f h",
             latitude_deg, sunset, hours);
    return ERR_NONE;
}

static Err sun_today(const SumInputs *in, SumAnswer *out)
{
    double latitude_deg = sum_number(in, "latitude_deg");
    int day = date_day_of_year(sum_day(in, "date"));
    double altitude_m = sum_number(in, "altitude_m");
    double cover_frac = sum_number(in, "cover_pct") / 100.0;
    double above = sun_above_air_mj_m2_d(latitude_deg, day);
    double clear = sun_clear_sky_mj_m2(above, altitude_m);
    double dull = sun_from_sunshine_mj_m2_d(above, 0.0);
    sum_is(out, "sun above the air", above, "MJ/m2/d");
    sum_also(out, "on the ground below a clear sky", clear, "MJ/m2/d");
    sum_also(out, "on the ground without sunshine", dull, "MJ/m2/d");
    sum_also(out, "light for plants outside, clear", sun_dli_mol_m2_d(clear),
             "mol/m2/d");
    sum_also(out, "light for plants under the cover, clear",
             cover_frac * sun_dli_mol_m2_d(clear), "mol/m2/d");
    sum_also(out, "light for plants under the cover, dull",
             cover_frac * sun_dli_mol_m2_d(dull), "mol/m2/d");
    sum_work(out,
             "Ra = (24 x 60/pi) 0.0820 dr (ws sin phi sin delta + cos phi "
             "cos delta sin ws), J %d: %.3f MJ/m2/d",
             day, above);
    sum_work(out,
             "clear: (0.75 + 2e-5 x %.4g) Ra = %.4g; dull: 0.25 Ra = "
             "%.4g",
             altitude_m, clear, dull);
    sum_work(out, "light: 0.45 x 4.57 = 2.06 mol/MJ; cover lets in %.4g %%",
             100.0 * cover_frac);
    return ERR_NONE;
}

static Err sun_from_temperatures(const SumInputs *in, SumAnswer *out)
{
    static const double INLAND = 0.16, SEA = 0.19; /* of equation 50 */
    double latitude_deg = sum_number(in, "latitude_deg");
    int day = date_day_of_year(sum_day(in, "date"));
    DayTemps temps = {.max_degc = sum_number(in, "temp_max_degc"),
                      .min_degc = sum_number(in, "temp_min_degc")};
    if (temps.max_degc < temps.min_degc) {
        return err_make(ERR_RANGE, "temp_max_degc lies below temp_min_degc");
    }
    double above = sun_above_air_mj_m2_d(latitude_deg, day);
    double inland = sun_from_temps_mj_m2_d(above, temps, INLAND);
    sum_is(out, "on the flat ground, inland", inland, "MJ/m2/d");
    sum_also(out, "by the sea", sun_from_temps_mj_m2_d(above, temps, SEA),
             "MJ/m2/d");
    sum_work(out, "Ra of J %d: %.3f MJ/m2/d (sun-today)", day, above);
    sum_work(out, "Rs = %.2f sqrt(%.4g - %.4g) Ra = %.3f, by the sea %.2f",
             INLAND, temps.max_degc, temps.min_degc, inland, SEA);
    return ERR_NONE;
}

static Err sun_position_sum(const SumInputs *in, SumAnswer *out)
{
    const SumInput *time = sum_input(in, "time");
    int year = date_to_civil(time->day).year;
    if (year < 1950 || year > 2050) {
        return err_make(ERR_RANGE, "time=%.40s is out of range: 1950 to 2050",
                        time->text);
    }
    SunPlace place = {
        .latitude_deg = sum_number(in, "latitude_deg"),
        .longitude_deg = sum_number(in, "longitude_deg"),
        .pressure_kpa = air_pressure_kpa(sum_number(in, "altitude_m")),
        .temp_degc = sum_number(in, "temp_degc"),
    };
    SunPosition sun = sun_position(&place, time->utc_s);
    sum_is_figure(out, "height of the sun",
                  sum_range(sun.elevation_deg, sun.elevation_deg - 0.02,
                            sun.elevation_deg + 0.02),
                  "deg");
    sum_also(out, "from north, eastward", sun.azimuth_deg, "deg");
    sum_also(out, "from the zenith", sun.zenith_deg, "deg");
    sum_also(out, "declination", sun.declination_deg, "deg");
    sum_also(out, "sundial ahead of the clock", sun.equation_of_time_min,
             "min");
    sum_work(out,
             "apparent longitude of the sun from L0, M and C; sidereal "
             "time; then height and direction, refraction for %.4g kPa "
             "and %.4g degC",
             place.pressure_kpa, place.temp_degc);
    sum_work(out,
             "declination %.4f deg, right ascension %.4f deg, good to "
             "0.02 deg",
             sun.declination_deg, sun.right_ascension_deg);
    if (sun.elevation_deg < 0.0) {
        sum_work(out, "below the horizon");
    }
    return ERR_NONE;
}

static Err reference_et(const SumInputs *in, SumAnswer *out)
{
    double max_degc = sum_number(in, "temp_max_degc");
    double min_degc = sum_number(in, "temp_min_degc");
    if (max_degc < min_degc) {
        return err_make(ERR_INPUT,
                        "temp_max_degc=%.4g is under temp_min_degc=%.4g",
                        max_degc, min_degc);
    }
    double es =
        (air_saturation_kpa(max_degc) + air_saturation_kpa(min_degc)) / 2.0;
    EvapoAir air = {
        .temp_degc = (max_degc + min_degc) / 2.0,
        .saturation_kpa = es,
        .vapour_kpa = es * sum_number(in, "rh_pct") / 100.0,
        .wind_2m_m_s = sum_number(in, "wind_m_s"),
        .pressure_kpa = air_pressure_kpa(sum_number(in, "altitude_m")),
        .net_mj_m2 = sum_number(in, "net_radiation_mj_m2_d"),
    };
    double et = air_reference_et_mm_d(&air);
    sum_is(out, "reference evapotranspiration", et, "mm/d");
    sum_also(out, "the same air in a plastic tunnel", air_tunnel_et_mm_d(&air),
             "mm/d");
    sum_also(out, "deficit", es - air.vapour_kpa, "kPa");
    sum_work(out,
             "es = (e(Tmax) + e(Tmin))/2 = %.4f kPa, ea = %.4g %% of it = "
             "%.4f kPa; g = 0.665e-3 x %.4g = %.5f kPa/K",
             es, sum_number(in, "rh_pct"), air.vapour_kpa, air.pressure_kpa,
             air_psychrometric_kpa_k(air.pressure_kpa));
    sum_work(out,
             "ETo = (0.408 D Rn + g 900/(T + 273) u2 (es - ea))/(D + g "
             "(1 + 0.34 u2)), D %.4f, Rn %.4g, T %.4g, u2 %.4g: %.3f mm/d",
             air_saturation_slope_kpa_k(air.temp_degc), air.net_mj_m2,
             air.temp_degc, air.wind_2m_m_s, et);
    sum_work(out, "1 mm is 1 litre a square metre; a crop takes 0.5 to 1.15 of "
                  "it by its stage");
    return ERR_NONE;
}

/* What moist air holds, from its vapour pressure. */
static void tell_air(double temp_degc, double vapour_kpa, double pressure_kpa,
                     SumAnswer *out)
{
    double ratio = air_humidity_ratio(vapour_kpa, pressure_kpa);
    sum_also(out, "dew point", air_dew_point_degc(vapour_kpa), "degC");
    sum_also(out, "water in the air",
             air_absolute_humidity_g_m3(vapour_kpa, temp_degc), "g/m3");
    sum_also(out, "humidity ratio", ratio, "kg/kg");
    sum_also(out, "heat held", air_enthalpy_kj_kg(temp_degc, ratio), "kJ/kg");
}

static Err vapour(const SumInputs *in, SumAnswer *out)
{
    MoistAir air = {
        .temp_degc = sum_number(in, "temp_degc"),
        .rh_frac = sum_number(in, "rh_pct") / 100.0,
        .pressure_kpa = air_pressure_kpa(sum_number(in, "altitude_m")),
    };
    double full = air_saturation_ice_kpa(air.temp_degc);
    double simple = air_saturation_kpa(air.temp_degc);
    double vapour_kpa = full * air.rh_frac;
    double other_kpa = simple * air.rh_frac;
    if (vapour_kpa >= air.pressure_kpa) {
        return err_make(ERR_RANGE, "temp_degc=%.4g: water boils there",
                        air.temp_degc);
    }
    sum_is_figure(out, "vapour pressure",
                  sum_range(vapour_kpa, fmin(vapour_kpa, other_kpa),
                            fmax(vapour_kpa, other_kpa)),
                  "kPa");
    sum_also(out, "deficit", full - vapour_kpa, "kPa");
    sum_also(out, "wet bulb", air_wet_bulb_degc(&air), "degC");
    tell_air(air.temp_degc, vapour_kpa, air.pressure_kpa, out);
    sum_work(out,
             "saturation at %.4g degC: %.4f kPa (Hyland & Wexler), %.4f "
             "(0.6108 exp(17.27 T/(T + 237.3)))",
             air.temp_degc, full, simple);
    sum_work(out, "x %.4g %% = %.4f kPa; air at %.2f kPa", 100.0 * air.rh_frac,
             vapour_kpa, air.pressure_kpa);
    return ERR_NONE;
}

typedef struct Draught {
    const char *word;
    double coefficient_1_k;
} Draught;

/* Source: [FAO56] chapter 3, equation 15. */
static const Draught DRAUGHTS[] = {
    {"aspirated", 0.000662}, {"natural", 0.000800}, {"still", 0.0012}};

static Err find_draught(const char *word, double *out)
{
    for (size_t i = 0; i < sizeof DRAUGHTS / sizeof *DRAUGHTS; i++) {
        if (strcmp(DRAUGHTS[i].word, word) == 0) {
            *out = DRAUGHTS[i].coefficient_1_k;
            return ERR_NONE;
        }
    }
    return err_make(ERR_INPUT,
                    "draught=%.40s: there are aspirated, natural and still",
                    word);
}

/* Vapour pressure by the heat balance of a perfect wet thermometer, from its
 * humidity ratio W = 0.621945 pw/(p - pw). */
static double vapour_by_heat_kpa(const Psychrometer *read)
{
    static const double WATER_OVER_AIR = 0.621945; /* [ASHRAE2017] chapter 1 */
    double ratio = air_humidity_ratio_from_wet(read->dry_degc, read->wet_degc,
                                               read->pressure_kpa);
    return ratio * read->pressure_kpa / (WATER_OVER_AIR + ratio);
}

static Err air_state(const SumInputs *in, SumAnswer *out)
{
    Psychrometer read = {
        .dry_degc = sum_number(in, "dry_degc"),
        .wet_degc = sum_number(in, "wet_degc"),
        .pressure_kpa = air_pressure_kpa(sum_number(in, "altitude_m")),
    };
    TRY(find_draught(sum_word(in, "draught"), &read.coefficient_1_k));
    if (read.wet_degc > read.dry_degc) {
        return err_make(ERR_INPUT,
                        "wet_degc=%.4g is over dry_degc=%.4g: the two are "
                        "swapped, or one is wrong",
                        read.wet_degc, read.dry_degc);
    }
    double vapour_kpa = air_vapour_from_wet_kpa(&read);
    if (!(vapour_kpa > 0.0)) {
        return err_make(ERR_RANGE,
                        "wet_degc=%.4g is too far under dry_degc=%.4g: air "
                        "cannot be so dry",
                        read.wet_degc, read.dry_degc);
    }
    double full = air_saturation_kpa(read.dry_degc);
    double rh_pct = 100.0 * vapour_kpa / full;
    double heat_rh_pct = 100.0 * vapour_by_heat_kpa(&read) / full;
    sum_is_figure(
        out, "relative humidity",
        sum_range(rh_pct, fmin(rh_pct, heat_rh_pct), fmax(rh_pct, heat_rh_pct)),
        "%");
    sum_also(out, "vapour pressure", vapour_kpa, "kPa");
    sum_also(out, "deficit", full - vapour_kpa, "kPa");
    tell_air(read.dry_degc, vapour_kpa, read.pressure_kpa, out);
    sum_work(out,
             "ea = e(Tw) - a P (T - Tw) = %.4f - %.6f x %.2f x %.4g = "
             "%.4f kPa",
             air_saturation_kpa(read.wet_degc), read.coefficient_1_k,
             read.pressure_kpa, read.dry_degc - read.wet_degc, vapour_kpa);
    sum_work(out, "RH = ea/e(T) = %.4f/%.4f = %.1f %%", vapour_kpa, full,
             rh_pct);
    sum_work(out,
             "the balance of heat of a perfect wet thermometer gives %.1f %%",
             heat_rh_pct);
    return ERR_NONE;
}

static Err vent_minutes(const SumInputs *in, SumAnswer *out)
{
    Venting venting = {
        .inside_degc = sum_number(in, "inside_degc"),
        .inside_rh_frac = sum_number(in, "inside_rh_pct") / 100.0,
        .outside_degc = sum_number(in, "outside_degc"),
        .outside_rh_frac = sum_number(in, "outside_rh_pct") / 100.0,
        .air_changes_h = sum_number(in, "air_changes_h"),
    };
    double target = sum_number(in, "target_rh_pct") / 100.0;
    double dries = air_vent_dries_g_m3(&venting);
    double end = air_vent_end_rh_frac(&venting);
    double hours = air_vent_hours(&venting, target);
    if (!isfinite(hours)) {
        return err_make(ERR_RANGE,
                        "the air outside cannot dry it to %.4g %%: all of it "
                        "in and warmed would stand at %.0f %%",
                        100.0 * target, 100.0 * end);
    }
    sum_is(out, "minutes with the vents open", 60.0 * hours, "min");
    sum_also(out, "water taken out by all new air", dries, "g/m3");
    sum_also(out, "humidity with all new air, warmed", 100.0 * end, "%");
    sum_also(out, "share of the air exchanged",
             100.0 * (1.0 - exp(-venting.air_changes_h * hours)), "%");
    sum_work(out,
             "A = 1000 pw/(461.5 (T + 273.15)): all new air takes %.3g "
             "g/m3 and stands at %.1f %% once warmed",
             dries, 100.0 * end);
    sum_work(out,
             "t = 60/n ln((RHin - RHend)/(target - RHend)) = 60/%.4g "
             "ln((%.1f - %.1f)/(%.1f - %.1f)) = %.1f min",
             venting.air_changes_h, 100.0 * venting.inside_rh_frac, 100.0 * end,
             100.0 * target, 100.0 * end, 60.0 * hours);
    sum_work(out, "well-mixed air that the tunnel warms again, and no leaves "
                  "or gravel giving water meanwhile");
    if (dries < 1.0) {
        sum_caution(out, "Less than 1 g/m3 to win: at dusk it only trades "
                         "humidity for cold.");
    }
    return ERR_NONE;
}

static Err infection_hours(const SumInputs *in, SumAnswer *out)
{
    double temp_degc = sum_number(in, "temp_degc");
    InfectionRule rule = {
        .min_degc = sum_number(in, "min_degc"),
        .optimum_degc = sum_number(in, "optimum_degc"),
        .max_degc = sum_number(in, "max_degc"),
        .min_wet_h = sum_number(in, "min_wet_h"),
        .max_wet_h = sum_number(in, "max_wet_h"),
    };
    if (!(rule.min_degc < rule.optimum_degc &&
          rule.optimum_degc < rule.max_degc &&
          rule.min_wet_h <= rule.max_wet_h)) {
        return err_make(ERR_INPUT,
                        "min_degc=%.4g, optimum_degc=%.4g, max_degc=%.4g must "
                        "rise, and min_wet_h=%.4g be no more than "
                        "max_wet_h=%.4g",
                        rule.min_degc, rule.optimum_degc, rule.max_degc,
                        rule.min_wet_h, rule.max_wet_h);
    }
    double hours = infection_wet_h(&rule, temp_degc);
    if (!isfinite(hours)) {
        return err_make(ERR_RANGE,
                        "temp_degc=%.4g: no infection at or beyond %.4g and "
                        "%.4g degC",
                        temp_degc, rule.min_degc, rule.max_degc);
    }
    sum_is(out, "wet hours for an infection", hours, "h");
    sum_work(out,
             "f = (Tmax - T)/(Tmax - Topt) ((T - Tmin)/(Topt - "
             "Tmin))^((Topt - Tmin)/(Tmax - Topt)); W = Wmin/f, at most "
             "%.4g: %.2f h",
             rule.max_wet_h, hours);
    sum_work(out, "for 20 %% of leaves or 5 %% of their area");
    if (hours >= rule.max_wet_h) {
        sum_work(out, "at the most hours asked for: the temperature itself "
                      "holds it back");
    }
    sum_caution(out, "A figure for looking and airing, not advice to spray.");
    return ERR_NONE;
}

static Err mould_rules(const SumInputs *in, SumAnswer *out)
{
    double temp_degc = sum_number(in, "temp_degc");
    double wet_h = sum_number(in, "wet_h");
    double mild_h = sum_number(in, "night_mild_h");
    LettuceMorning morning = {sum_number(in, "morning_wet_h"),
                              sum_number(in, "early_degc"),
                              sum_number(in, "forenoon_degc")};
    double need_h = mildew_cucumber_wet_h(temp_degc);
    double share = isfinite(need_h) ? wet_h / need_h : 0.0;
    sum_is(out, "wet hours over those cucumber downy mildew needs", share, "");
    sum_also(out, "cucumber powdery mildew, 1 at its fastest",
             mildew_powdery_frac(temp_degc), "");
    if (isfinite(need_h)) {
        sum_work(out,
                 "cucumber downy mildew at %.4g degC needs %.3g wet hours: %s",
                 temp_degc, need_h, share >= 1.0 ? "infects" : "does not yet");
    } else {
        sum_work(out, "cucumber downy mildew infects from 5 to 25 degC only");
    }
    sum_work(out,
             "lettuce downy mildew: 4 h wet from 06:00, then at most 20 and 22 "
             "degC: %s",
             mildew_lettuce_infects(&morning) ? "infects" : "does not");
    sum_work(out,
             "basil downy mildew: 4 h wet at 12-25 degC: %s; it bears spores "
             "after 7.5 dark hours over 95 %%",
             mildew_basil_infects(wet_h, temp_degc) ? "infects" : "does not");
    sum_work(out,
             "grey mould without heating: over 7 wet hours a day in the week's "
             "mean and over 9.5 h of the night at 9-21 degC: %s",
             mildew_grey_breaks_out(wet_h, mild_h) ? "breaks out" : "does not");
    sum_caution(out, "A figure for looking and airing, not advice to spray.");
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_CLIMATE[] = {
    {.name = "day-length", .run = day_length,
     .purpose = "hours from sunrise to sunset",
     .keys = KEYS(
        NEED("latitude_deg", "deg", -90, 90, "north positive"),
        DAY("date", "day")),
     .source = "FAO56",
     .example = "latitude_deg=52.1 date=2027-03-21"},
    {.name = "sun-today", .run = sun_today,
     .purpose = "sun above the air, on the ground and under a cover",
     .keys = KEYS(
        NEED("latitude_deg", "deg", -90, 90, "north positive"),
        DAY("date", "day"),
        USUAL("altitude_m", "m", 0, -400, 4500, "height over the sea"),
        USUAL("cover_pct", "%", 60, 5, 100, "light that a tunnel lets in")),
     .source = "FAO56 MCCREE1972",
     .example = "latitude_deg=52.1 date=2027-12-21"},
    {.name = "sun-from-temperatures", .run = sun_from_temperatures,
     .purpose = "mean daily sun of a place without a record of it",
     .keys = KEYS(
        NEED("latitude_deg", "deg", -90, 90, "north positive"),
        DAY("date", "day, the middle of a month for its mean"),
        NEED("temp_max_degc", "degC", -40, 60, "highest of the day, mean"),
        NEED("temp_min_degc", "degC", -50, 50, "lowest of the day, mean")),
     .source = "FAO56",
     .example = "latitude_deg=45.72 date=2027-07-15 temp_max_degc=26.6 "
                "temp_min_degc=14.8"},
    {.name = "sun-position", .run = sun_position_sum,
     .purpose = "where the sun stands at an hour",
     .keys = KEYS(
        NEED("latitude_deg", "deg", -90, 90, "north positive"),
        NEED("longitude_deg", "deg", -180, 180, "east positive"),
        INSTANT("time", "with its offset"),
        USUAL("altitude_m", "m", 0, -400, 4500, "height over the sea"),
        USUAL("temp_degc", "degC", 15, -60, 60, "of the air, for refraction")),
     .source = "MEEUS1998",
     .example = "latitude_deg=52.1 longitude_deg=-2.3 "
                "time=2027-06-21T12:00+01:00"},
    {.name = "reference-et", .run = reference_et,
     .purpose = "water that a short green sward loses in a day",
     .keys = KEYS(
        NEED("temp_max_degc", "degC", -20, 60, "highest of the day"),
        NEED("temp_min_degc", "degC", -30, 50, "lowest of the day"),
        NEED("rh_pct", "%", 1, 100, "mean relative humidity"),
        NEED("wind_m_s", "m/s", 0, 30, "at 2 m"),
        USUAL("altitude_m", "m", 0, -400, 4500, "height over the sea"),
        NEED("net_radiation_mj_m2_d", "MJ/m2/d", -10, 40, "net of the day")),
     .source = "FAO56 FERNANDEZ2010",
     .example = "temp_max_degc=21.5 temp_min_degc=12.3 rh_pct=70.6 "
                "wind_m_s=2.08 altitude_m=100 net_radiation_mj_m2_d=13.28"},
    {.name = "vapour", .run = vapour,
     .purpose = "what moist air holds: vapour, dew point, deficit",
     .keys = KEYS(
        NEED("temp_degc", "degC", -40, 60, "of the air"),
        NEED("rh_pct", "%", 1, 100, "relative humidity"),
        USUAL("altitude_m", "m", 0, -400, 4500, "height over the sea")),
     .source = "HYLAND1983 ASHRAE2017 FAO56",
     .example = "temp_degc=20 rh_pct=80 altitude_m=0"},
    {.name = "air-state", .run = air_state,
     .purpose = "humidity from a dry and a wet thermometer",
     .keys = KEYS(
        NEED("dry_degc", "degC", 0, 60, "dry thermometer"),
        NEED("wet_degc", "degC", 0, 60, "wet thermometer"),
        USUAL("altitude_m", "m", 0, -400, 4500, "height over the sea"),
        WORD_USUAL("draught", "aspirated", "aspirated, natural or still")),
     .source = "FAO56 ASHRAE2017",
     .example = "dry_degc=25.6 wet_degc=19.5 altitude_m=1200"},
    {.name = "vent-minutes", .run = vent_minutes,
     .purpose = "how long to open a tunnel until it is dry enough",
     .keys = KEYS(
        NEED("inside_degc", "degC", -10, 60, "inside"),
        NEED("inside_rh_pct", "%", 1, 100, "inside"),
        NEED("outside_degc", "degC", -40, 60, "outside"),
        NEED("outside_rh_pct", "%", 1, 100, "outside"),
        NEED("air_changes_h", "1/h", 0.05, 200, "with the vents open"),
        USUAL("target_rh_pct", "%", 85, 1, 100, "wanted inside")),
     .source = "",
     .example = "inside_degc=8 inside_rh_pct=95 outside_degc=0 "
                "outside_rh_pct=90 air_changes_h=10 target_rh_pct=75"},
    {.name = "infection-hours", .run = infection_hours,
     .purpose = "wet hours that a disease of leaves needs",
     .keys = KEYS(
        NEED("temp_degc", "degC", -10, 60, "while leaves are wet"),
        NEED("min_degc", "degC", -10, 60, "none at or below"),
        NEED("optimum_degc", "degC", -10, 60, "fastest"),
        NEED("max_degc", "degC", -10, 60, "none at or above"),
        NEED("min_wet_h", "h", 0.1, 500, "wet hours needed at the optimum"),
        NEED("max_wet_h", "h", 0.1, 1000, "most hours asked for")),
     .source = "MAGAREY2005",
     .example = "temp_degc=12 min_degc=7 optimum_degc=18 max_degc=30 "
                "min_wet_h=10 max_wet_h=42"},
    {.name = "mould-rules", .run = mould_rules,
     .purpose = "what published rules say of mildews and grey mould",
     .keys = KEYS(
        NEED("temp_degc", "degC", -10, 60, "while leaves are wet"),
        NEED("wet_h", "h", 0, 24, "wet hours a day, mean of the week"),
        USUAL("morning_wet_h", "h", 0, 0, 24, "wet without a break from 06:00"),
        USUAL("early_degc", "degC", 15, -10, 60, "three hours after sunrise"),
        USUAL("forenoon_degc", "degC", 18, -10, 60, "the four hours after"),
        USUAL("night_mild_h", "h", 0, 0, 14, "of 18-8 h at 9-21 degC")),
     .source = "COHEN1977",
     .example = "temp_degc=15 wet_h=7.5 morning_wet_h=4.5 night_mild_h=11"},
    {.name = NULL},
};
/* clang-format on */
