/* How long openings must stay open until the air inside is dry enough. */
#ifndef LEAT_NATURE_AIR_VENTING_H
#define LEAT_NATURE_AIR_VENTING_H

/* Air that stays well mixed; the tunnel warms what comes in to its own
 * temperature, and gives off no water meanwhile. */
typedef struct Venting {
    double inside_degc;
    double inside_rh_frac; /* 0..1, over water */
    double outside_degc;
    double outside_rh_frac;
    double air_changes_h; /* over 0 */
} Venting;

/* Water that an exchange of all air would take out, g/m3; below 0 it would
 * bring some in. */
double air_vent_dries_g_m3(const Venting *venting);

/* Humidity inside once all air is exchanged and warmed, 0.. ; over 1: fog. */
double air_vent_end_rh_frac(const Venting *venting);

/* Hours to a humidity inside.
 *     A(t) = Ao + (Ai - Ao) exp(-n t),  A in g/m3, n air changes per hour
 *     t = ln((Ai - Ao)/(At - Ao))/n,  At = target x Asat(inside)
 * 0 where it is dry enough already; INFINITY where the air outside cannot dry
 * it so far. By the balance of well-mixed air, without a source. */
double air_vent_hours(const Venting *venting, double target_rh_frac);

#endif
