/* Coefficients and flows by which heat leaves. */
#include "nature/heat/exchange.h"

#include <assert.h>
#include <math.h>

#include "base/extremes.h"
#include "nature/air/vapour.h"

static const double GRAVITY_M_S2 = 9.81;
static const double ZERO_DEGC_K = 273.15;

typedef struct WindLine {
    double calm;
    double per_m_s;
} WindLine;

static const WindLine WIND_LINES[COVER_BUILD_COUNT] = {
    [COVER_GLASS] = {4.41, 0.40},
    [COVER_FILM] = {4.87, 0.54},
    [COVER_GLASS_FILM_CURTAIN] = {2.93, 0.10},
    [COVER_GLASS_PE_CURTAIN] = {3.00, 0.16},
    [COVER_FILM_FILM_CURTAIN] = {2.91, 0.14},
    [COVER_FILM_PE_CURTAIN] = {3.15, 0.17},
};

double heat_cover_loss_w_m2_k(CoverBuild build, double wind_m_s)
{
    assert(build >= 0 && build < COVER_BUILD_COUNT);
    WindLine line = WIND_LINES[build];
    return 1.163 *
           (line.calm + line.per_m_s * lesser(greater(wind_m_s, 0.0), 10.0));
}

double heat_cover_loss_at_w_m2_k(double book_w_m2_k, double wind_m_s)
{
    CoverBuild build = book_w_m2_k > 5.0 ? COVER_FILM : COVER_FILM_PE_CURTAIN;
    return book_w_m2_k * heat_cover_loss_w_m2_k(build, wind_m_s) /
           heat_cover_loss_w_m2_k(build, 2.0);
}

double heat_leak_changes_h(double wind_m_s)
{
    return lesser(0.8 + 0.3 * greater(wind_m_s, 0.0), 4.0);
}

double heat_air_w_k(double flow_m3_h)
{
    return 0.33 * flow_m3_h;
}

double heat_vent_m3_s(const VentSet *vent)
{
    double k = vent->outside_degc + ZERO_DEGC_K;
    double chimney = 2.0 * GRAVITY_M_S2 * (greater(vent->excess_k, 0.0) / k) *
                     (vent->height_m / 4.0);
    double wind = vent->wind_effect * vent->wind_m_s * vent->wind_m_s;
    return vent->area_m2 / 2.0 * vent->discharge * sqrt(chimney + wind);
}

double heat_vent_two_m3_s(const VentSet *roof, double side_m2)
{
    double k = roof->outside_degc + ZERO_DEGC_K;
    double both_m2 = hypot(roof->area_m2, side_m2);
    if (both_m2 <= 0.0) {
        return 0.0;
    }
    double series_m2 = roof->area_m2 * side_m2 / both_m2;
    double half_m2 = (roof->area_m2 + side_m2) / 2.0;
    double chimney = series_m2 * series_m2 * 2.0 * GRAVITY_M_S2 *
                     roof->height_m * greater(roof->excess_k, 0.0) / k;
    double wind =
        half_m2 * half_m2 * roof->wind_effect * roof->wind_m_s * roof->wind_m_s;
    return roof->discharge * sqrt(chimney + wind);
}

double heat_vent_wind_m3_s(double area_m2, double wind_m_s, double share)
{
    return share * area_m2 * wind_m_s;
}

double heat_vent_chimney_m3_s(double area_m2, double height_m, double excess_k,
                              double inside_degc)
{
    return 0.65 * area_m2 *
           sqrt(2.0 * GRAVITY_M_S2 * height_m * greater(excess_k, 0.0) /
                (inside_degc + ZERO_DEGC_K));
}

double heat_tank_surface_m2(double volume_m3)
{
    const double pi = acos(-1.0);
    double across_m = cbrt(4.0 * volume_m3 / pi);
    return (1.0 + 1.0 / 2.0) * pi * across_m * across_m;
}

double heat_tank_loss_w_k(double volume_m3, TankWall wall, bool has_lid)
{
    static const double WALL_W_M2_K[] = {
        [TANK_BARE] = 5.0, [TANK_SOME] = 1.5, [TANK_THICK] = 0.5};
    const double pi = acos(-1.0);
    double across_m = cbrt(4.0 * volume_m3 / pi);
    double round_m2 = pi * across_m * across_m / 4.0;
    double side_m2 = pi * across_m * across_m;
    return WALL_W_M2_K[wall] * (side_m2 + round_m2) +
           (has_lid ? 3.0 : 20.0) * round_m2;
}

double heat_open_vapour_w_m2(const OpenWater *water)
{
    return 6.43e6 / 86400.0 * (1.0 + 0.536 * water->wind_m_s) *
           (air_saturation_kpa(water->water_degc) - water->vapour_kpa);
}

double heat_open_touch_w_m2(const OpenWater *water)
{
    /* The vapour difference of the quoted ratio cancels against that of E. */
    return 0.0665 * (water->water_degc - water->air_degc) * 6.43e6 / 86400.0 *
           (1.0 + 0.536 * water->wind_m_s);
}

double heat_radiated_w_m2(double water_degc, double facing_degc)
{
    return 0.97 * 5.670e-8 *
           (pow(water_degc + ZERO_DEGC_K, 4.0) -
            pow(facing_degc + ZERO_DEGC_K, 4.0));
}
