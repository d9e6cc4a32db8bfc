/* From the tunnel's row to what its openings do in an hour. */
#include "sim/vent_rule.h"

#include <math.h>

static const double MIDDAY_H = 13.0; /* when it is warmest, by the sun */
static const double DOOR_M = 2.0;

VentRule vent_rule_of(const Tunnel *row, const BookCommon *common)
{
    VentRule rule = {
        .open_degc = row->open_degc > 0.0 ? row->open_degc : NAN,
        .close_degc = row->close_degc > 0.0 ? row->close_degc : NAN,
        .cold_degc = common->tunnel_vent_degc.value,
        .mild_degc = common->tunnel_vent_mild_degc.value,
        .floor_degc = fmax(row->floor_degc, 0.0),
        .shut_wind_m_s =
            row->shut_wind_m_s >= 0.0 ? row->shut_wind_m_s : INFINITY,
        .shut_outside_degc = row->shut_outside_degc >= -40.0
                                 ? row->shut_outside_degc
                                 : -INFINITY,
        .fleece_degc = row->fleece_degc >= -20.0 ? row->fleece_degc : -INFINITY,
        .fleece_over_k = common->fleece_over_k.value,
        .fleece_months = (unsigned)row->fleece_months,
        .has_floor = row->floor_degc >= 0.0,
    };
    for (int month = 0; month < VENT_MONTHS; month++) {
        rule.midday_h[month] = fmax(row->midday_h[month], 0.0);
        rule.has_midday = rule.has_midday || row->midday_h[month] >= 0.0;
    }
    return rule;
}

void vent_rule_openings(const Tunnel *row, const BookCommon *common,
                        TunnelHouse *house)
{
    double high_m = common->tunnel_vent_high_m.value;
    bool is_apart = row->side_m2 + row->end_m2 + row->ridge_m2 > 0.0;
    house->vent_m2 = is_apart ? row->side_m2 + row->end_m2 : row->vent_m2;
    house->vent_height_m = high_m;
    if (!is_apart) {
        return;
    }
    if (house->vent_m2 > 0.0) {
        double door_m = fmin(DOOR_M, row->height_m);
        house->vent_height_m =
            (row->side_m2 * high_m + row->end_m2 * door_m) / house->vent_m2;
    }
    house->ridge_m2 = row->ridge_m2;
    house->ridge_over_m =
        fmax(row->height_m - house->vent_height_m / 2.0, 1.0 / 2.0);
}

double vent_midday_share(double midday_h, int hour)
{
    double from = fmax(MIDDAY_H - midday_h / 2.0, hour);
    double until = fmin(MIDDAY_H + midday_h / 2.0, hour + 1.0);
    return fmax(until - from, 0.0);
}

/* Where nights are mild vents stay open. */
static double open_above_degc(const VentRule *rule, double night_degc)
{
    double mild = fmin(fmax((night_degc - 10.0) / 5.0, 0.0), 1.0);
    return isnan(rule->open_degc)
               ? rule->cold_degc * (1.0 - mild) + rule->mild_degc * mild
               : rule->open_degc;
}

bool vent_rule_set(const VentRule *rule, const VentHour *hour,
                   TunnelHouse *house)
{
    house->vent_most_frac = 1.0;
    house->vent_at_degc = open_above_degc(rule, hour->night_degc);
    if (hour->wind_m_s > rule->shut_wind_m_s ||
        hour->outside_degc < rule->shut_outside_degc) {
        house->vent_most_frac = 0.0;
        return false;
    }
    if (hour->was_open && rule->close_degc < house->vent_at_degc) {
        house->vent_at_degc = rule->close_degc;
    }
    double share = vent_midday_share(rule->midday_h[hour->month], hour->hour);
    bool is_midday = share > 0.0 && rule->floor_degc < house->vent_at_degc &&
                     (share >= 1.0 || !hour->was_open);
    if (is_midday) {
        house->vent_at_degc = rule->floor_degc;
        house->vent_most_frac = fmin(share, 1.0);
    }
    return is_midday;
}

bool vent_rule_fleeced(const VentRule *rule, int month, double air_degc)
{
    return air_degc < rule->fleece_degc && (rule->fleece_months >> month & 1u);
}
