/* Zones of beds that flood in turn from one sump: what each turn moves, how far
 * the sump falls, and what happens when all flood at once. In closed form. */
#ifndef LEAT_NATURE_FLOW_TURNS_H
#define LEAT_NATURE_FLOW_TURNS_H

#include <stdbool.h>

/* Beds that flood together, or that share one overflow: one body of water of
 * one level over the floor of the beds. */
typedef struct TurnZone {
    double space_m2;  /* area x porosity of all its beds; above 0 */
    double depth_m;   /* level of its overflow */
    double hole_m3_h; /* through all its drains under 1 m of head */
    double turn_h;
    double flow_m3_h; /* while it floods */
} TurnZone;

typedef struct TurnsCase {
    const TurnZone *zones; /* Borrowed; in their order. */
    int count;
    double sump_m3;   /* in the sump when every bed has drained */
    double intake_m3; /* left in it when the pump draws air */
} TurnsCase;

typedef struct TurnTold {
    double depth_m;  /* reached at the end of its turn */
    double fill_h;   /* until it overflows, or the turn's end */
    double drain_h;  /* after its turn; may outlast the round */
    double moved_m3; /* into it and back in a round */
    double over_m3;  /* of that, over the overflow */
    double mean_m3;  /* standing in it, mean of a round */
    bool is_short;   /* the sump could not fill it */
    bool stays_wet;  /* not empty when its turn comes again */
} TurnTold;

typedef struct TurnsTold {
    double round_h;        /* all turns once */
    double moved_m3_h;     /* through all zones, mean of a round */
    double lowest_m3;      /* in the sump, at its lowest */
    bool is_uncovered;     /* the intake draws air in every round */
    double together_m3;    /* in the sump when all stand full at once, as after
                              a power cut; below 0: it cannot fill them */
    bool is_dry_together;  /* the intake would draw air then */
    double dry_together_h; /* after so long, with drains shut; INFINITY */
} TurnsTold;

/* With q the flow into a zone of space S and c its drains under 1 m:
 *
 *     filling  S dh/dt = q             (drains shut while the turn lasts)
 *     draining S dh/dt = -c sqrt h, so sqrt h falls straight with time:
 *              t = 2 S sqrt h / c;  standing, mean of the drain: S h / 3
 *
 * out_zones has room for count. A zone that cannot be filled to its overflow
 * takes what the sump has over the intake, its forerunner's rest still out. */
void flow_turns(const TurnsCase *turns, TurnTold *out_zones, TurnsTold *out);

#endif
