/* Zones of beds that flood in turn. */
#include "nature/flow/turns.h"

#include <assert.h>
#include <math.h>

static double drain_h(const TurnZone *zone, double depth_m)
{
    return zone->hole_m3_h > 0.0
               ? 2.0 * zone->space_m2 * sqrt(depth_m) / zone->hole_m3_h
               : INFINITY;
}

/* What stands in a zone some hours after its turn ended. */
static double left_m3(const TurnZone *zone, const TurnTold *told,
                      double after_h)
{
    double share = fmax(0.0, 1.0 - after_h / told->drain_h);
    return zone->space_m2 * told->depth_m * share * share;
}

static void tell_zone(const TurnZone *zone, double room_m3, double round_h,
                      TurnTold *out)
{
    double full_m3 = zone->space_m2 * zone->depth_m;
    double given_m3 = zone->flow_m3_h * zone->turn_h;
    double up_m3 = fmin(fmin(full_m3, given_m3), fmax(0.0, room_m3));
    double fill_h = zone->flow_m3_h > 0.0
                        ? fmin(zone->turn_h, up_m3 / zone->flow_m3_h)
                        : zone->turn_h;
    *out = (TurnTold){
        .depth_m = up_m3 / zone->space_m2,
        .fill_h = fill_h,
        .is_short = up_m3 < fmin(full_m3, given_m3),
    };
    out->drain_h = drain_h(zone, out->depth_m);
    /* A zone that the sump fills no further passes on what it gets only where
     * it overflows. */
    out->moved_m3 = up_m3 < full_m3 ? up_m3 : given_m3;
    out->over_m3 = out->moved_m3 - up_m3;
    double rest_h = round_h - zone->turn_h;
    out->stays_wet = out->drain_h > rest_h && out->depth_m > 0.0;
    double wet_h = up_m3 * (zone->turn_h - fill_h / 2.0);
    double gone = fmin(1.0, rest_h / fmax(out->drain_h, rest_h));
    double left = 1.0 - gone;
    /* Integral of S h (1 - t/T)^2 to the end of the round. */
    double drain = isfinite(out->drain_h)
                       ? up_m3 * out->drain_h / 3.0 * (1.0 - left * left * left)
                       : up_m3 * rest_h;
    if (out->drain_h <= rest_h) {
        drain = up_m3 * out->drain_h / 3.0;
    }
    out->mean_m3 = round_h > 0.0 ? (wet_h + drain) / round_h : 0.0;
}

void flow_turns(const TurnsCase *turns, TurnTold *out_zones, TurnsTold *out)
{
    assert(turns->count >= 0);
    TurnsTold told = {.lowest_m3 = turns->sump_m3,
                      .together_m3 = turns->sump_m3,
                      .dry_together_h = INFINITY};
    double flow_m3_h = 0.0;
    double moved_m3 = 0.0;
    for (int i = 0; i < turns->count; i++) {
        told.round_h += turns->zones[i].turn_h;
    }
    for (int i = 0; i < turns->count; i++) {
        const TurnZone *zone = &turns->zones[i];
        assert(zone->space_m2 > 0.0);
        /* Where there are others, the one before still runs back. */
        double before_m3 = i > 0 ? left_m3(&turns->zones[i - 1],
                                           &out_zones[i - 1], zone->turn_h)
                                 : 0.0;
        double room_m3 = turns->sump_m3 - turns->intake_m3 - before_m3;
        tell_zone(zone, room_m3, told.round_h, &out_zones[i]);
        double standing_m3 = zone->space_m2 * out_zones[i].depth_m + before_m3;
        told.lowest_m3 = fmin(told.lowest_m3, turns->sump_m3 - standing_m3);
        told.is_uncovered = told.is_uncovered || out_zones[i].is_short;
        told.together_m3 -= zone->space_m2 * zone->depth_m;
        flow_m3_h = fmax(flow_m3_h, zone->flow_m3_h);
        moved_m3 += out_zones[i].moved_m3;
    }
    told.moved_m3_h = told.round_h > 0.0 ? moved_m3 / told.round_h : 0.0;
    told.is_dry_together =
        turns->count > 0 && told.together_m3 < turns->intake_m3;
    if (told.is_dry_together && flow_m3_h > 0.0) {
        told.dry_together_h =
            fmax(0.0, turns->sump_m3 - turns->intake_m3) / flow_m3_h;
    }
    *out = told;
}
