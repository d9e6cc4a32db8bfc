/* Oxygen that fish use. */
#include "nature/fish/respiration.h"

#include <math.h>

double fish_oxygen_regression(double weight_g, double temp_degc)
{
    double w = weight_g;
    double t = temp_degc;
    return 2014.45 + 2.75 * w - 165.2 * t + 0.007 * w * w + 3.93 * t * t -
           0.21 * w * t;
}

double fish_oxygen_boyd(double weight_g, double temp_degc)
{
    double w = fmin(weight_g, 800.0); /* the square turns it up beyond */
    double t = temp_degc;
    double log_mg_g = -0.999 - 0.000957 * w + 6e-7 * w * w + 0.0327 * t -
                      8.7e-6 * t * t + 3e-7 * t * t * t;
    return 1000.0 * pow(10.0, log_mg_g);
}

double fish_oxygen_allometric(double weight_g, double temp_degc)
{
    double base = temp_degc < 28.0 ? 2.0 : 1.2;
    return 331.0 * pow(weight_g / 50.0, -0.25) *
           pow(base, (temp_degc - 28.0) / 10.0);
}

/* The regression's range, and how far it still counts for the slow end. */
static const double FROM_DEGC = 24.0;
static const double TO_DEGC = 32.0;
static const double TO_G = 150.0;
static const double SLOW_TO_G = 300.0;

OxygenUse fish_oxygen_use(double weight_g, double temp_degc,
                          double hours_since_meal)
{
    static const double FED_H = 8.0;
    static const double FED = 1.5;
    bool is_warm = temp_degc >= FROM_DEGC && temp_degc <= TO_DEGC;
    double boyd = fish_oxygen_boyd(weight_g, temp_degc);
    double power = fish_oxygen_allometric(weight_g, temp_degc);
    double slow = fmin(boyd, power);
    double fast = fmax(boyd, power);
    double regression = fish_oxygen_regression(weight_g, temp_degc);
    if (is_warm && weight_g <= SLOW_TO_G) {
        slow = fmin(slow, regression);
    }
    if (is_warm && weight_g <= TO_G) {
        fast = fmax(fast, regression);
    }
    if (hours_since_meal < FED_H) {
        fast *= FED;
    }
    return (OxygenUse){
        .mg_kg_h = {.value = sqrt(slow * fast),
                    .low = slow,
                    .high = fast,
                    .origin = FIGURE_BOOK,
                    .source = "SCIREP2021"},
        .is_widened = !is_warm || weight_g > TO_G,
    };
}

static double minutes_at(const OxygenStop *stop, double mg_kg_h)
{
    double room_mg_l = fmax(0.0, stop->oxygen_mg_l - stop->limit_mg_l);
    double used_mg_l_h =
        stop->density_kg_m3 * mg_kg_h / 1000.0 + stop->bacteria_mg_l_h;
    return 60.0 * room_mg_l / used_mg_l_h;
}

OxygenLeft fish_oxygen_left(const OxygenStop *stop)
{
    OxygenUse use = fish_oxygen_use(stop->weight_g, stop->temp_degc,
                                    stop->hours_since_meal);
    return (OxygenLeft){
        .minutes = {.value = minutes_at(stop, use.mg_kg_h.value),
                    .low = minutes_at(stop, use.mg_kg_h.high),
                    .high = minutes_at(stop, use.mg_kg_h.low),
                    .origin = FIGURE_BOOK,
                    .source = use.mg_kg_h.source},
        .is_widened = use.is_widened,
    };
}
