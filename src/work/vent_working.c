/* How the figures of the tunnels' page are made. */
#include "work/vent_working.h"

#include "base/tongue.h"

/* "figure = min(h1, h2" as far as it goes; the n-th of them. */
static const char *add_hour(Working *working, int n, const char *between)
{
    const char *symbol = working_symbol(working, "h", n);
    working_joins(working, n == 1 ? "" : between);
    working_joins(working, symbol);
    return symbol;
}

static const char *hour_name(Working *working, const VentAsk *ask, int hour)
{
    VentDay day = {.clock_ahead_h = ask->clock_ahead_h};
    return arena_say(working->arena,
                     hour < VENT_DAY_H ? "at %s" : "tomorrow at %s",
                     vent_clock(&day, hour % VENT_DAY_H + 1.0, working->arena));
}

/* How the air of an hour comes about. */
static void tell_hour(Working *working)
{
    working_note(working,
                 "The air of each hour: heat and moisture that sun, cover, "
                 "openings, plants, water and heaters bring and take, from the "
                 "Monday of the week before.");
}

void vent_working_night(const VentAsk *ask, int32_t tunnel, const HourAir *air,
                        const VentTunnel *made)
{
    Working *working = working_begin(
        ask->workings, "tunnel", ask->farm->tunnels[tunnel].id, "night_degc");
    if (!working) {
        return;
    }
    working_says(working, "tonight's least inside",
                 "the coldest of the hours from this evening to tomorrow "
                 "morning, opened as advised",
                 "night_degc = min(");
    for (int hour = VENT_EVENING_H; hour < VENT_NIGHT_UNTIL_H; hour++) {
        working_value(working,
                      add_hour(working, hour - VENT_EVENING_H + 1, ", "),
                      hour_name(working, ask, hour), air[hour].air_degc,
                      (WorkingInput){.unit = "degC", .from = WORKING_FORESEEN});
    }
    working_joins(working, ")");
    working_value(working, NULL, "tonight's least outside",
                  made->night_out_degc,
                  (WorkingInput){.unit = "degC", .from = WORKING_FORESEEN});
    tell_hour(working);
    working_is(working, made->night_degc, "degC");
}

void vent_working_wet(const VentAsk *ask, int32_t tunnel, int way,
                      const VentTunnel *made)
{
    bool is_opened = way == VENT_OPENED;
    Working *working =
        working_begin(ask->workings, "tunnel", ask->farm->tunnels[tunnel].id,
                      is_opened ? "opened_wet_h" : "shut_wet_h");
    if (!working) {
        return;
    }
    working_says(working,
                 is_opened ? "hours with wet leaves, opened as advised"
                           : "hours with wet leaves, kept shut",
                 "the day's hours in which leaves are wet, 1 for each",
                 is_opened ? "opened_wet_h = " : "shut_wet_h = ");
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        const VentAir *is = &made->hours[way][hour];
        working_value(working, add_hour(working, hour + 1, " + "),
                      hour_name(working, ask, hour), is->is_wet ? 1.0 : 0.0,
                      (WorkingInput){.unit = "h", .from = WORKING_FORESEEN});
    }
    tell_hour(working);
    working_is(working, made->wet_h[way], "h");
}

/* The typical day's or the forecast's hours outside are the same in every
 * tunnel's. */
void vent_working_outside(const VentAsk *ask, const VentDay *made)
{
    for (int most = 0; most < 2 && ask->farm->tunnels_count > 0; most++) {
        Working *working =
            working_begin(ask->workings, "air", "day",
                          most ? "outside_most_degc" : "outside_least_degc");
        if (!working) {
            continue;
        }
        working_says(working, most ? "warmest outside" : "coldest outside",
                     most ? "the warmest of the day's hours"
                          : "the coldest of the day's hours",
                     most ? "outside_most_degc = max("
                          : "outside_least_degc = min(");
        for (int hour = 0; hour < VENT_DAY_H; hour++) {
            const VentAir *is = &made->tunnels[0].hours[VENT_SHUT][hour];
            working_value(working, add_hour(working, hour + 1, ", "),
                          hour_name(working, ask, hour), is->outside_degc,
                          (WorkingInput){.unit = "degC",
                                         .from = made->is_forecast
                                                     ? WORKING_TABLE
                                                     : WORKING_FORESEEN});
        }
        working_joins(working, ")");
        working_is(working,
                   most ? made->outside_most_degc : made->outside_least_degc,
                   "degC");
    }
}
