/* Monthly normals to days and hours. */
#include "sim/climate_days.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "nature/air/vapour.h"
#include "nature/sun/solar.h"
#include "nature/sun/split.h"

static const int MONTH_STARTS[13] = {0,   31,  59,  90,  120, 151, 181,
                                     212, 243, 273, 304, 334, 365};

int climate_month_of(int day)
{
    int month = 0;
    while (month < 11 && day >= MONTH_STARTS[month + 1]) {
        month++;
    }
    return month;
}

int climate_month_days(int month)
{
    return MONTH_STARTS[month + 1] - MONTH_STARTS[month];
}

static double middle_of(int month)
{
    int turn = month < 0 ? -1 : month > 11 ? 1 : 0;
    int in = month - 12 * turn;
    return (MONTH_STARTS[in] + MONTH_STARTS[in + 1]) / 2.0 +
           turn * CLIMATE_YEAR_DAYS;
}

/* A day lies between two points: before (0..11, cyclic), and how far on. */
typedef struct Between {
    int before;
    double part;
} Between;

static Between between_points(int day)
{
    double at = day + 1.0 / 2.0;
    int month = climate_month_of(day);
    int before = at < middle_of(month) ? month - 1 : month;
    double from = middle_of(before), to = middle_of(before + 1);
    return (Between){(before + 12) % 12, (at - from) / (to - from)};
}

/* Gaussian elimination with the largest pivot; rows of 13, the last the right
 * hand side. */
static void solve_twelve(double rows[12][13], double out[12])
{
    for (int col = 0; col < 12; col++) {
        int best = col;
        for (int row = col + 1; row < 12; row++) {
            best = fabs(rows[row][col]) > fabs(rows[best][col]) ? row : best;
        }
        for (int k = 0; k < 13; k++) {
            double swapped = rows[col][k];
            rows[col][k] = rows[best][k];
            rows[best][k] = swapped;
        }
        for (int row = col + 1; row < 12; row++) {
            double factor = rows[row][col] / rows[col][col];
            for (int k = col; k < 13; k++) {
                rows[row][k] -= factor * rows[col][k];
            }
        }
    }
    for (int row = 11; row >= 0; row--) {
        double sum = rows[row][12];
        for (int k = row + 1; k < 12; k++) {
            sum -= rows[row][k] * out[k];
        }
        out[row] = sum / rows[row][row];
    }
}

/* Days between twelve points such that the weighted days of each month have its
 * mean. A month without weight (polar night) lies between its neighbours. */
static void course(const double means[12],
                   const double weights[CLIMATE_YEAR_DAYS],
                   double out[CLIMATE_YEAR_DAYS])
{
    double rows[12][13] = {{0}}, points[12];
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        int month = climate_month_of(day);
        int days = MONTH_STARTS[month + 1] - MONTH_STARTS[month];
        Between at = between_points(day);
        double weight = (weights ? weights[day] : 1.0) / days;
        rows[month][at.before] += weight * (1.0 - at.part);
        rows[month][(at.before + 1) % 12] += weight * at.part;
    }
    for (int month = 0; month < 12; month++) {
        rows[month][12] = means[month];
        if (rows[month][month] < 1e-3) {
            for (int k = 0; k < 13; k++) {
                rows[month][k] = 0.0;
            }
            rows[month][month] = 1.0;
            rows[month][(month + 11) % 12] = -1.0 / 2.0;
            rows[month][(month + 1) % 12] = -1.0 / 2.0;
        }
    }
    solve_twelve(rows, points);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        Between at = between_points(day);
        out[day] = points[at.before] * (1.0 - at.part) +
                   points[(at.before + 1) % 12] * at.part;
    }
}

void climate_course(const double means[12], double out[CLIMATE_YEAR_DAYS])
{
    course(means, NULL, out);
}

static void fill_sun(const ClimateNormals *normals,
                     ClimateDay out[CLIMATE_YEAR_DAYS])
{
    double above[CLIMATE_YEAR_DAYS], clear[CLIMATE_YEAR_DAYS];
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        above[day] = sun_above_air_mj_m2_d(normals->latitude_deg, day + 1);
    }
    course(normals->sun_mj_m2_d, above, clear);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        ClimateDay *to = &out[day];
        to->above_air_mj_m2_d = above[day];
        to->sun_mj_m2_d = above[day] * fmin(fmax(clear[day], 0.0), 1.0);
        double sky = sun_clear_sky_mj_m2(above[day], normals->altitude_m);
        double share = sky > 0.0 ? to->sun_mj_m2_d / sky : 0.6;
        to->clear_frac = fmin(fmax(share, 0.3), 1.0);
        to->declination_rad = sun_declination_rad(day + 1);
        to->sunset_rad =
            sun_sunset_angle_rad(normals->latitude_deg, to->declination_rad);
        to->day_length_h = 24.0 / SUN_PI * to->sunset_rad;
    }
}

void climate_days_fill(const ClimateNormals *normals,
                       ClimateDay out[CLIMATE_YEAR_DAYS])
{
    double max[CLIMATE_YEAR_DAYS], min[CLIMATE_YEAR_DAYS];
    double rh[CLIMATE_YEAR_DAYS], wind[CLIMATE_YEAR_DAYS];
    course(normals->max_degc, NULL, max);
    course(normals->min_degc, NULL, min);
    course(normals->rh_frac, NULL, rh);
    course(normals->wind_m_s, NULL, wind);
    fill_sun(normals, out);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        double full_kpa =
            (air_saturation_kpa(max[day]) + air_saturation_kpa(min[day])) / 2.0;
        out[day].max_degc = fmax(max[day], min[day]);
        out[day].min_degc = min[day];
        out[day].vapour_kpa = full_kpa * fmin(fmax(rh[day], 0.0), 1.0);
        out[day].wind_m_s = fmax(wind[day], 0.0);
    }
}

static double held_length_h(const ClimateDay *day)
{
    return fmin(fmax(day->day_length_h, 3.0), 21.0);
}

static double by_day_degc(const ClimateDay *day, double since_rise_h)
{
    return day->min_degc +
           (day->max_degc - day->min_degc) *
               sin(SUN_PI * since_rise_h / (held_length_h(day) + 2.0 * 1.86));
}

double climate_between_degc(const ClimateThree *days, double solar_h)
{
    double length_h = held_length_h(days->today);
    double rise_h = 12.0 - length_h / 2.0, set_h = 12.0 + length_h / 2.0;
    if (solar_h >= rise_h && solar_h <= set_h) {
        return by_day_degc(days->today, solar_h - rise_h);
    }
    bool is_early = solar_h < rise_h;
    const ClimateDay *before = is_early ? days->before : days->today;
    const ClimateDay *after = is_early ? days->today : days->after;
    double before_length_h = held_length_h(before);
    double since_set_h =
        solar_h + (is_early ? 24.0 : 0.0) - (12.0 + before_length_h / 2.0);
    double night_h = 24.0 - before_length_h / 2.0 - held_length_h(after) / 2.0;
    double set_degc = by_day_degc(before, before_length_h);
    double rest = exp(-2.20), now = exp(-2.20 * since_set_h / night_h);
    double end_degc = after->min_degc;
    return (end_degc - set_degc * rest + (set_degc - end_degc) * now) /
           (1.0 - rest);
}

double climate_hour_degc(const ClimateDay days[CLIMATE_YEAR_DAYS], int day,
                         double solar_h)
{
    ClimateThree three = {
        &days[(day + CLIMATE_YEAR_DAYS - 1) % CLIMATE_YEAR_DAYS], &days[day],
        &days[(day + 1) % CLIMATE_YEAR_DAYS]};
    return climate_between_degc(&three, solar_h);
}

ClimateSun climate_day_sun(const ClimateDay *day, double latitude_deg,
                           int day_of_year)
{
    ClimateSun sun = {{0}, {0}};
    double shares[24], all = 0.0;
    for (int hour = 0; hour < 24; hour++) {
        double angle = SUN_PI / 12.0 * (hour + 1.0 / 2.0 - 12.0);
        shares[hour] = sun_hour_share(angle, day->sunset_rad);
        all += shares[hour];
    }
    if (all <= 0.0) {
        /* A day shorter than an hour about noon. */
        sun.diffuse_w_m2[12] = day->sun_mj_m2_d * 1e6 / 3600.0;
        return sun;
    }
    for (int hour = 0; hour < 24; hour++) {
        if (shares[hour] <= 0.0) {
            continue;
        }
        double angle = SUN_PI / 12.0 * (hour + 1.0 / 2.0 - 12.0);
        double flat = day->sun_mj_m2_d * 1e6 / 3600.0 * shares[hour] / all;
        double up = sun_direction(latitude_deg, day->declination_rad, angle).up;
        double diffuse =
            sun_diffuse_frac_hour(sun_clearness(flat, up, day_of_year));
        sun.diffuse_w_m2[hour] = flat * diffuse;
        sun.direct_w_m2[hour] = flat * (1.0 - diffuse);
    }
    return sun;
}
