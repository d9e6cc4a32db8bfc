/* An emergency as JSON. */
#include "json/emergency.h"

#include <jansson.h>
#include <math.h>

#include "json/text.h"

static const double MIN_PER_H = 60.0;

static json_t *real_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *range_json(double low, double high)
{
    json_t *object = json_object();
    json_object_set_new(object, "low", real_or_null(low));
    json_object_set_new(object, "high", real_or_null(high));
    return object;
}

static json_t *span_json(const AlarmSpan *span)
{
    return range_json(span->low_h * MIN_PER_H, span->high_h * MIN_PER_H);
}

static json_t *hours_json(const AlarmHours *hours)
{
    json_t *object = json_object();
    json_object_set_new(object, "act_min", span_json(&hours->act));
    json_object_set_new(object, "gasp_min", span_json(&hours->gasp));
    json_object_set_new(object, "dying_min", span_json(&hours->dying));
    return object;
}

static json_t *known_json(const WaterKnown *known)
{
    static const char *const FROM[] = {
        [WATER_UNKNOWN] = "unknown", [WATER_TOLD] = "told",
        [WATER_READ] = "read",       [WATER_USUAL] = "usual",
        [WATER_ASSUMED] = "assumed",
    };
    json_t *object = range_json(known->low, known->high);
    json_object_set_new(object, "from", json_string(FROM[known->from]));
    json_object_set_new(object, "age_h",
                        known->from == WATER_READ ? json_real(known->age_h)
                                                  : json_null());
    return object;
}

static json_t *tank_json(const Farm *farm, const EmergencyTank *tank)
{
    const AlarmAir *air = &tank->air;
    json_t *object = json_object();
    json_object_set_new(object, "id", json_string(farm->tanks[tank->tank].id));
    json_object_set_new(object, "fish_kg",
                        range_json(air->kg.low, air->kg.high));
    json_object_set_new(object, "fish_g",
                        range_json(tank->least_g, tank->most_g));
    json_object_set_new(object, "density_most_kg_m3",
                        real_or_null(air->density_most_kg_m3));
    json_object_set_new(object, "temp_degc",
                        known_json(&tank->water.of[READ_TEMP]));
    json_object_set_new(object, "oxygen_mg_l",
                        known_json(&tank->water.of[READ_OXYGEN]));
    json_object_set_new(object, "oxygen_use_g_h",
                        range_json(air->low_g_h, air->high_g_h));
    json_object_set_new(object, "is_widened", json_boolean(air->is_widened));
    json_object_set_new(object, "has_air", json_boolean(air->has_air));
    json_object_set_new(
        object, "battery_h",
        air->is_on_battery ? range_json(air->battery_low_h, air->battery_high_h)
                           : json_null());
    bool is_told = air->has_fish && air->has_volume;
    json_object_set_new(object, "with_air",
                        is_told && air->has_air ? hours_json(&air->with_air)
                                                : json_null());
    json_object_set_new(object, "without_air",
                        is_told ? hours_json(&air->without) : json_null());
    return object;
}

static json_t *limits_json(const AlarmCold *cold)
{
    json_t *object = json_object();
    json_object_set_new(object, "no_feed_min", span_json(&cold->feed));
    json_object_set_new(object, "danger_min", span_json(&cold->danger));
    json_object_set_new(object, "lethal_min", span_json(&cold->lethal));
    json_object_set_new(
        object, "after_12_h_degc",
        range_json(cold->morning_low_degc, cold->morning_high_degc));
    return object;
}

static json_t *cold_json(const Farm *farm, const EmergencyCold *cold)
{
    const AlarmColdLimits *at = &cold->limits;
    json_t *object = json_object();
    json_object_set_new(
        object, "loop",
        cold->loop < 0 ? json_null() : json_string(farm->loops[cold->loop].id));
    json_object_set_new(
        object, "tank",
        cold->tank < 0 ? json_null() : json_string(farm->tanks[cold->tank].id));
    json_object_set_new(object, "water_m3", json_real(cold->heat.water_m3));
    json_object_set_new(
        object, "temp_degc",
        range_json(cold->start_low_degc, cold->start_high_degc));
    json_object_set_new(object, "no_feed_degc",
                        range_json(at->feed_low_degc, at->feed_high_degc));
    json_object_set_new(object, "danger_degc",
                        range_json(at->danger_low_degc, at->danger_high_degc));
    json_object_set_new(object, "lethal_degc",
                        range_json(at->lethal_low_degc, at->lethal_high_degc));
    json_object_set_new(object, "beds_off", limits_json(&cold->heat.off));
    json_object_set_new(object, "beds_flooding",
                        cold->loop < 0 ? json_null()
                                       : limits_json(&cold->heat.on));
    json_object_set_new(object, "beds_off_all_lidded",
                        limits_json(&cold->heat.lidded));
    return object;
}

#define MARKED_JSON(object, key, farm, table, marked)                          \
    do {                                                                       \
        json_t *list = json_array();                                           \
        for (int32_t i = 0; i < (farm)->table##_count; i++) {                  \
            if ((marked)[i]) {                                                 \
                json_array_append_new(list, json_string((farm)->table[i].id)); \
            }                                                                  \
        }                                                                      \
        json_object_set_new(object, key, list);                                \
    } while (0)

static json_t *hangs_json(const Hangs *hangs)
{
    const Farm *farm = hangs->farm;
    json_t *object = json_object();
    MARKED_JSON(object, "loops", farm, loops, hangs->loops);
    MARKED_JSON(object, "pumps", farm, pumps, hangs->pumps);
    MARKED_JSON(object, "aerators", farm, aerators, hangs->aerators);
    MARKED_JSON(object, "heaters", farm, heaters, hangs->heaters);
    MARKED_JSON(object, "zones", farm, zones, hangs->zones);
    MARKED_JSON(object, "beds", farm, beds, hangs->beds);
    MARKED_JSON(object, "tunnels", farm, tunnels, hangs->tunnels);
    return object;
}

static json_t *steps_json(const Card *card)
{
    json_t *steps = json_array();
    for (int part = 0; part < CARD_PARTS; part++) {
        const CardStep *step = &card->steps[part];
        if (step->count == 0) {
            continue;
        }
        json_t *lines = json_array();
        for (int i = 0; i < step->count; i++) {
            json_array_append_new(lines, json_string(step->lines[i].text));
        }
        json_t *object = json_object();
        json_object_set_new(object, "title", json_string(step->title));
        json_object_set_new(object, "lines", lines);
        json_array_append_new(steps, object);
    }
    return steps;
}

const char *emergency_to_json(const Emergency *emergency, const Card *card,
                              Arena *arena)
{
    const Farm *farm = emergency->ask.farm;
    json_t *object = json_object();
    json_object_set_new(object, "title", json_string(card->title));
    json_object_set_new(object, "when", json_string(card->when));
    json_t *notices = json_array();
    for (int i = 0; i < emergency->notice_count; i++) {
        json_array_append_new(notices, json_string(emergency->notices[i]));
    }
    json_object_set_new(object, "notices", notices);
    json_object_set_new(object, "hangs", hangs_json(&emergency->hangs));
    json_t *tanks = json_array();
    for (int i = 0; i < emergency->tank_count; i++) {
        json_array_append_new(tanks, tank_json(farm, &emergency->tanks[i]));
    }
    json_object_set_new(object, "tanks", tanks);
    json_t *colds = json_array();
    for (int i = 0; i < emergency->cold_count; i++) {
        json_array_append_new(colds, cold_json(farm, &emergency->colds[i]));
    }
    json_object_set_new(object, "cold", colds);
    json_object_set_new(
        object, "outside_degc",
        range_json(emergency->night_low_degc, emergency->night_high_degc));
    json_object_set_new(object, "plants_min", span_json(&emergency->plants));
    json_object_set_new(object, "young_plants_min",
                        span_json(&emergency->young));
    json_object_set_new(object, "steps", steps_json(card));
    return json_text_take(object, arena);
}
