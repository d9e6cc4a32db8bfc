/* The moisture of a tunnel's air from one step to the next: what leaves and wet
 * gravel give, what leaks and vents carry off, what runs down the film, and
 * whether leaves are wet.
 *
 * Goes after tunnel_step, whose air and vents it takes: water given is exactly
 * the heat that the tunnel lost as vapour, so that both ledgers tell one story.
 * Each step is solved at its end (implicit Euler): no length of step makes it
 * swing, and what came in, went out and is stored closes to rounding. */
#ifndef LEAT_NATURE_HEAT_DAMP_H
#define LEAT_NATURE_HEAT_DAMP_H

#include <stdbool.h>

#include "nature/heat/tunnel.h"

typedef struct DampHour {
    double step_s;
    double outside_degc; /* -30..60, as all temperatures here */
    double outside_kpa;  /* vapour pressure */
    double wind_m_s;
    double air_degc;   /* inside, at the end of the step */
    double vent_m3_s;  /* through the vents; leaks are worked out */
    double given_kg_s; /* by leaves, wet gravel, open water; 0 or more */
    double leaf_m3_s;  /* conductance of leaves in the dark; 0 by day, when
                          what they give is in given_kg_s */
} DampHour;

/* Means over the step, kg/s. */
typedef struct DampFlows {
    double given_kg_s;  /* in */
    double leaf_kg_s;   /* in: by leaves in the dark */
    double air_kg_s;    /* out by leaks and vents; below 0: comes in */
    double film_kg_s;   /* out: runs down the film */
    double fog_kg_s;    /* out: more than the air can hold; wets everything */
    double stored_kg_s; /* in the air */
    double rh_frac;     /* at the end, 0..1 */
    double back_w;      /* heat that dew and fog give back to the air, less
                           what leaves take from it in the dark */
    double film_degc;   /* inner side */
    bool is_film_wet;
    bool is_leaf_wet;
} DampFlows;

/* in - out - stored, kg/s; zero but for rounding. */
double damp_residual_kg_s(const DampFlows *flows);

/* Water that vapour takes with a W of heat, kg/s: 1/2.45e6.
 * Source: [FAO56] chapter 1. */
double damp_kg_s_of_w(double latent_w);

/* Share of the heat of what condenses on the film that comes back inside: the
 * film's two sides share it by what they pass.
 *     1 - U / h, 0 at least
 * h as in damp_film_degc, U the cover's loss at the wind of the hour. */
double damp_back_frac(double cover_w_m2_k);

/* What leaves pass in the dark, m3/s: two layers of them over a resistance of
 * 1200 s/m, which is geometrically about the middle of what was measured on
 * vegetables, 500-2000 s/m; the layers are judged.
 * leaf_m2  floor below leaves
 * Source: [SEGINER1990] (abstract). Checked against a night's use of cucumbers
 * of 120-200 g/m2 [MEDRANO2005]. */
double damp_leaf_m3_s(double leaf_m2);

/* Air at its share of saturation, g/m3, to begin with. */
double damp_of_humidity_g_m3(double air_degc, double rh_frac);

/* The film's inner side, degC: heat passes from air to film by h, through
 * both to the outside by U.
 *     Tf = Ta - (U / h) (Ta - To),  h 8 W/m2/K, Tf between Ta and To
 * h is judged: radiation and still air. */
double damp_film_degc(double cover_w_m2_k, double air_degc,
                      double outside_degc);

/* With A the water in the air (g/m3, *held_g_m3: read and set):
 *
 *     V dA/dt = E + gl (As(Ta) - A) - q (A - Ao)
 *               - gc Ac max(0, A - As(Tf)),  A at most As(Ta)
 *     q  = V ACH/3600 + Qv;  ACH of heat_leak_changes_h
 *     gc = 1.8e-3 (Ta - Tf)^(1/3)   m/s, 0 where the film is warmer
 *
 * What condenses gives its heat back, 2.45 MJ/kg: of the film's the share of
 * damp_back_frac, of fog all; what leaves give in the dark takes the same heat.
 * The difference is to be given to the tunnel in the next step.
 *
 * Leaves count as wet from a humidity of 0.90 on, as is usual where no wet-leaf
 * sensor stands, and in fog.
 * Source: gc [BONTSEMA] (from memory); 0.90 common practice. */
DampFlows damp_step(const TunnelHouse *house, const DampHour *hour,
                    double *held_g_m3);

#endif
