/* What is known of a tank's water at a moment. */
#include "sim/water_now.h"

#include <math.h>

#include "nature/water/oxygen.h"

static const double S_PER_H = 3600.0;
static const double COLDEST_DEGC = 0.0;
static const double HOTTEST_DEGC = 40.0;

double water_now_full_mg_l(double temp_degc, double altitude_m)
{
    double held = fmin(HOTTEST_DEGC, fmax(COLDEST_DEGC, temp_degc));
    double height_m = isfinite(altitude_m) ? altitude_m : 0.0;
    OxygenWater water = {held, water_pressure_kpa(height_m), 0.0};
    return water_oxygen_saturation_mg_l(&water);
}

/* Oxygen and temperature differ between a tank and its sump; what is dissolved
 * hardly does. */
static bool counts(const WaterAsk *ask, const Reading *row, int quantity)
{
    if (row->quantity != quantity || isnan(row->value) || row->at > ask->at) {
        return false;
    }
    if (ask->tank >= 0 && row->tank == ask->tank) {
        return true;
    }
    return quantity != READ_OXYGEN && row->tank < 0 && ask->loop >= 0 &&
           row->loop == ask->loop;
}

/* The latest that counts; of one moment the tank's own. */
static const Reading *latest(const WaterAsk *ask, int quantity)
{
    const Reading *found = NULL;
    for (int32_t i = 0; i < ask->farm->readings_count; i++) {
        const Reading *row = &ask->farm->readings[i];
        if (counts(ask, row, quantity) &&
            (!found || row->at > found->at ||
             (row->at == found->at && row->tank >= 0))) {
            found = row;
        }
    }
    return found;
}

static WaterKnown known(const WaterAsk *ask, int quantity)
{
    WaterKnown out = {NAN, NAN, NAN, 0.0, WATER_UNKNOWN};
    const Reading *row = latest(ask, quantity);
    if (ask->told && !isnan(ask->told[quantity])) {
        out.value = ask->told[quantity];
        out.from = WATER_TOLD;
    } else if (row) {
        out.value = row->value;
        out.age_h = (double)(ask->at - row->at) / S_PER_H;
        out.from = WATER_READ;
    }
    out.low = out.value;
    out.high = out.value;
    return out;
}

static bool has_value(const WaterKnown *is)
{
    return is->from == WATER_TOLD || is->from == WATER_READ;
}

/* Where the water is when nobody read it. */
static void usual_temp(const WaterAsk *ask, WaterKnown *temp)
{
    const BookAlarm *alarm = ask->alarm;
    bool is_usual = !isnan(ask->usual_degc);
    temp->from = is_usual ? WATER_USUAL : WATER_ASSUMED;
    temp->low = is_usual ? ask->usual_degc - alarm->temp_apart_degc.value
                         : alarm->temp_unread_degc.low;
    temp->high = is_usual ? ask->usual_degc + alarm->temp_apart_degc.value
                          : alarm->temp_unread_degc.high;
}

/* As wide as the thermometer and the hours since, until it reaches what it
 * would be without a reading. */
static void widen_temp(const WaterAsk *ask, WaterKnown *temp)
{
    WaterKnown usual = *temp;
    usual_temp(ask, &usual);
    if (has_value(temp)) {
        double error_k = ask->alarm->temp_error_degc.value;
        double apart_k =
            error_k + ask->alarm->temp_drift_degc_h.value * temp->age_h;
        temp->low =
            fmax(temp->value - apart_k, fmin(usual.low, temp->value - error_k));
        temp->high = fmin(temp->value + apart_k,
                          fmax(usual.high, temp->value + error_k));
    } else {
        *temp = usual;
    }
    temp->low = fmin(HOTTEST_DEGC, fmax(COLDEST_DEGC, temp->low));
    temp->high = fmin(HOTTEST_DEGC, fmax(temp->low, temp->high));
}

/* An old reading says no more than that tank and air were in order; one that
 * was low already may have gone on falling. */
static void widen_oxygen(const WaterAsk *ask, const WaterKnown *temp,
                         WaterKnown *oxygen)
{
    const BookAlarm *alarm = ask->alarm;
    double full = water_now_full_mg_l(temp->low, ask->altitude_m);
    if (!has_value(oxygen)) {
        oxygen->low = alarm->oxygen_unread_mg_l.value;
        oxygen->high = fmax(full, oxygen->low);
        oxygen->from = WATER_ASSUMED;
        return;
    }
    double error = alarm->oxygen_error_mg_l.value;
    double apart = error + alarm->oxygen_drift_mg_l_h.value * oxygen->age_h;
    double floor = fmin(alarm->oxygen_unread_mg_l.value, oxygen->value - 1.0);
    double top = fmax(full, oxygen->value);
    oxygen->low =
        fmax(oxygen->value - apart, fmin(floor, oxygen->value - error));
    oxygen->low = fmax(0.0, oxygen->low);
    oxygen->high =
        fmin(oxygen->value + apart, fmax(top, oxygen->value + error));
}

WaterNow water_now(const WaterAsk *ask)
{
    WaterNow now;
    for (int quantity = 0; quantity < WATER_QUANTITIES; quantity++) {
        now.of[quantity] = known(ask, quantity);
    }
    widen_temp(ask, &now.of[READ_TEMP]);
    widen_oxygen(ask, &now.of[READ_TEMP], &now.of[READ_OXYGEN]);
    return now;
}
