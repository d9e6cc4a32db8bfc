/* The openings of a day, as JSON. */
#include "json/vent.h"

#include <jansson.h>
#include <math.h>

#include "base/date.h"
#include "json/text.h"

const char *vent_midday_word(VentMidday midday)
{
    switch (midday) {
    case VENT_AS_ASKED:
        return "as-asked";
    case VENT_NARROWER:
        return "narrower";
    case VENT_SHORTER:
        return "shorter";
    case VENT_TOO_COLD:
        return "too-cold";
    case VENT_FOR_WARMTH:
        return "for-warmth";
    case VENT_IN_WIND:
        return "wind";
    case VENT_IN_FROST:
        return "frost";
    case VENT_NO_OPENING:
        return "no-opening";
    case VENT_NOT_ASKED:
        return "not-asked";
    }
    return "";
}

static json_t *number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *way_json(const VentDay *day, int way)
{
    return way >= 0 ? json_string(day->farm->ways[way].id) : json_null();
}

static json_t *texts(const char *const *lines)
{
    json_t *list = json_array();
    for (int i = 0; lines[i]; i++) {
        json_array_append_new(list, json_string(lines[i]));
    }
    return list;
}

static json_t *span_json(const VentDay *day, const VentSpan *span, Arena *arena)
{
    if (!(span->until_h > span->from_h)) {
        return json_null();
    }
    json_t *object = json_object();
    json_put(object, "from", json_string(vent_clock(day, span->from_h, arena)));
    json_put(object, "until",
             json_string(vent_clock(day, span->until_h, arena)));
    json_put(object, "from_h", number(span->from_h));
    json_put(object, "until_h", number(span->until_h));
    json_put(object, "width_frac", number(span->width_frac));
    return object;
}

static json_t *air_json(const VentDay *day, const VentTunnel *to, int way,
                        Arena *arena)
{
    json_t *object = json_object();
    json_t *hours = json_array();
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        const VentAir *is = &to->hours[way][hour];
        json_t *row = json_object();
        json_put(row, "clock", json_string(vent_clock(day, hour + 1.0, arena)));
        json_put(row, "air_degc", number(is->air_degc));
        json_put(row, "outside_degc", number(is->outside_degc));
        json_put(row, "rh_frac", number(is->rh_frac));
        json_put(row, "open_frac", number(is->open_frac));
        json_put(row, "is_wet", json_boolean(is->is_wet));
        json_array_append_new(hours, row);
    }
    json_put(object, "wet_h", number(to->wet_h[way]));
    json_put(object, "rh_frac", number(to->rh_frac[way]));
    json_put(object, "week_wet_h", number(to->week_wet_h[way]));
    json_put(object, "hours", hours);
    return object;
}

static json_t *batches_json(const VentDay *day, int tunnel, Mould mould)
{
    json_t *list = json_array();
    for (int b = 0; b < day->batch_count; b++) {
        const VentBatch *batch = &day->batches[b];
        if (batch->tunnel == tunnel &&
            mould_hits(mould, day->farm, day->book, batch->way)) {
            json_array_append_new(list, json_string(batch->id));
        }
    }
    return list;
}

static json_t *pressure_json(const VentDay *day, int tunnel)
{
    json_t *list = json_array();
    const VentTunnel *to = &day->tunnels[tunnel];
    for (int m = 0; m < MOULD_COUNT; m++) {
        json_t *batches = batches_json(day, tunnel, (Mould)m);
        if (json_array_size(batches) == 0) {
            json_decref(batches);
            continue;
        }
        const Pressure *opened = &to->pressure[VENT_OPENED][m];
        const Pressure *shut = &to->pressure[VENT_SHUT][m];
        json_t *object = json_object();
        json_put(object, "mould", json_string(mould_name((Mould)m)));
        json_put(object, "rule", json_string(mould_rule((Mould)m)));
        json_put(object, "opened", json_string(pressure_word(opened->level)));
        json_put(object, "shut", json_string(pressure_word(shut->level)));
        json_put(object, "opened_count", number(opened->count));
        json_put(object, "shut_count", number(shut->count));
        json_put(object, "batches", batches);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *tunnel_json(const VentDay *day, int tunnel, Arena *arena)
{
    const VentTunnel *to = &day->tunnels[tunnel];
    json_t *object = json_object();
    json_put(object, "id", json_string(day->farm->tunnels[tunnel].id));
    json_put(object, "brief", json_string(vent_brief(day, tunnel, arena)));
    json_put(object, "lines", texts(vent_lines(day, tunnel, arena)));
    json_put(object, "heat", span_json(day, &to->heat, arena));
    json_put(object, "dry", span_json(day, &to->dry, arena));
    json_put(object, "morning", span_json(day, &to->morning, arena));
    json_put(object, "midday", json_string(vent_midday_word(to->midday)));
    json_put(object, "midday_h", number(to->midday_h));
    json_put(object, "is_usual", json_boolean(to->is_usual));
    json_put(object, "floor_degc", number(to->floor_degc));
    json_put(object, "floor_way", way_json(day, to->floor_way));
    json_put(object, "night_degc", number(to->night_degc));
    json_put(object, "night_out_degc", number(to->night_out_degc));
    json_put(object, "crop_degc", number(to->crop_degc));
    json_put(object, "is_fleeced", json_boolean(to->is_fleeced));
    json_put(object, "tender_way", way_json(day, to->tender_way));
    json_put(object, "opened", air_json(day, to, VENT_OPENED, arena));
    json_put(object, "shut", air_json(day, to, VENT_SHUT, arena));
    json_put(object, "pressure", pressure_json(day, tunnel));
    return object;
}

const char *vent_to_json(const VentDay *day, const char *const *notices,
                         int notice_count, Arena *arena)
{
    json_t *root = json_object();
    json_t *told = json_array();
    json_t *tunnels = json_array();
    char text[DATE_TEXT_SIZE];
    date_format(day->day, text);
    for (int i = 0; i < notice_count; i++) {
        json_array_append_new(told, json_string(notices[i]));
    }
    for (int t = 0; t < day->farm->tunnels_count; t++) {
        json_array_append_new(tunnels, tunnel_json(day, t, arena));
    }
    json_put(root, "day", json_string(text));
    json_put(root, "is_forecast", json_boolean(day->is_forecast));
    json_put(root, "forecast_days", json_integer(day->forecast_days));
    json_put(root, "clock_ahead_h", number(day->clock_ahead_h));
    json_put(root, "outside_most_degc", number(day->outside_most_degc));
    json_put(root, "outside_least_degc", number(day->outside_least_degc));
    json_put(root, "wind_m_s", number(day->wind_m_s));
    json_put(root, "note", json_string(vent_note(day, arena)));
    json_put(root, "notices", told);
    json_put(root, "tunnels", tunnels);
    return json_text_take(root, arena);
}
