/* A tunnel's heat from one step to the next: air and leaves, the ground's upper
 * layer, the ground below, and beds that stand dry. Beds that are flooded are
 * radiators of their loop's water, whose temperature is given.
 *
 * Each step solves all of them together at its end (implicit Euler), so that no
 * length of step makes it swing, and returns where the heat went; what came in,
 * went out and is stored closes to rounding. */
#ifndef LEAT_NATURE_HEAT_TUNNEL_H
#define LEAT_NATURE_HEAT_TUNNEL_H

#include <stdbool.h>

/* What stays the same. */
typedef struct TunnelHouse {
    double floor_m2;
    double ground_m2; /* floor without beds */
    double cover_m2;
    double volume_m3;
    double cover_w_m2_k;   /* the book's, in light wind */
    double sky_frac;       /* thermal infrared let through to the sky */
    double vent_m2;        /* of sides and ends, or all */
    double vent_height_m;  /* of an opening */
    double ridge_m2;       /* of the ridge, apart from the others */
    double ridge_over_m;   /* the ridge's middle over theirs */
    double vent_pass_frac; /* of the air, past nets and leaves */
    double vent_at_degc;   /* vents begin to open above this; -INFINITY: they
                              stand open by vent_most_frac whatever it is */
    double vent_most_frac; /* they open no more than this, 0..1 */
    double rim_m;          /* length of wall on the ground */
    double ground_w_m2_k; /* from the ground's top to the layer below, over 0 */
    double deep_degc;     /* of the ground far below, the year's mean */
    double heater_w;      /* 0: none */
    double heater_at_degc; /* on below this */
    double pressure_kpa;
} TunnelHouse;

/* Half an ellipse in section: floor, cover with both ends, volume.
 *     round = pi/2 (3(a + h) - sqrt((3a + h)(a + 3h))), a half the width
 * (the usual approximation of Ramanujan for the ellipse). Vents may open
 * wholly (vent_most_frac 1); other members 0. */
TunnelHouse tunnel_house_of(double length_m, double width_m, double height_m);

typedef struct TunnelState {
    double air_degc;
    double ground_degc;
    double deep_degc;
} TunnelState;

/* Beds that share a state. Dry gravel has its own temperature, flooded gravel
 * that of the water. */
typedef struct TunnelBed {
    double area_m2;
    double heat_j_k;    /* of gravel, dry */
    double light_frac;  /* sun on them over that on the floor's mean */
    double water_degc;  /* read where it is flooded */
    double gravel_degc; /* read and set where it is dry */
    double to_bed_w;    /* set: heat that the beds take from air and sun */
    double vapour_w;    /* set: what its wet stones evaporate */
    bool is_flooded;
} TunnelBed;

typedef struct TunnelBeds {
    TunnelBed *beds; /* Borrowed; NULL for none. */
    int count;
} TunnelBeds;

typedef struct TunnelHour {
    double step_s;
    double outside_degc;
    double vapour_kpa; /* outside */
    double wind_m_s;
    double clear_frac; /* of the sky, for its loss */
    double sun_w_m2;   /* on the floor, inside */
    double leaf_frac;  /* share of the beds below leaves */
    double tanks_w;    /* in: from tanks that stand inside */
    bool film_is_dry;  /* lets twice the wet film's loss to the sky */
} TunnelHour;

/* Mean W over the step. */
typedef struct TunnelFlows {
    double sun_w;     /* in: absorbed */
    double heater_w;  /* in */
    double tanks_w;   /* in */
    double latent_w;  /* out: turned into vapour by leaves and wet beds */
    double cover_w;   /* out */
    double air_w;     /* out: leaks and vents */
    double sky_w;     /* out */
    double rim_w;     /* out: ground to the outside and below */
    double beds_w;    /* out: to beds, dry or flooded */
    double stored_w;  /* air and ground */
    double vent_m3_s; /* air through the vents */
    double vent_frac; /* how far they stand open, of vent_most_frac 1; 0 where
                         it is warmer outside and they follow the warmth */
} TunnelFlows;

/* in - out - stored, W; zero but for rounding. */
double tunnel_flows_residual_w(const TunnelFlows *flows);

/* Floor below leaves, m2: 1.2 times the beds' share, no more than the floor. */
double tunnel_leaf_m2(const TunnelHouse *house, double leaf_frac,
                      double beds_m2);

/* Heat above 0 degC held by air and ground, J. */
double tunnel_held_j(const TunnelHouse *house, const TunnelState *state);

/* The equations, with T at the end of the step (a air, g ground, d deep, b dry
 * beds, w flooded ones), A areas, and o outside:
 *
 *     Ca dTa/dt = Sa - L + Qh - (U Ac + 0.33 (ACH V + 3600 Qv)) (Ta - To)
 *                 - hg Ag (Ta - Tg) - sum h Ab (Ta - Tb)
 *     Cg dTg/dt = f Sg + hg Ag (Ta - Tg) - kd Ag (Tg - Td)
 *     Cd dTd/dt = kd Ag (Tg - Td) - ku Ag (Td - Tu) - kr P (Td - To)
 *     Cb dTb/dt = Sb + h Ab (Ta - Tb)
 *     S = 0.85 sun - Qsky by area: leaves (1.2 times the beds' share c below
 *         leaves) warm the air; the beds' bare part and bare ground themselves
 *     L = D/(D + g) 0.85 sun of the leaves   (the equilibrium share of air)
 *         + 3 Ab (e(Tw) - ea) of flooded beds: vapour creeping through 5 cm of
 *         dry stones, 2.5 W/m2/kPa, and air drawn through them by flooding; it
 *         cools the water
 *     Qsky = sky x w Rnl Af  (w 0.5 for a film that is wet, 1 for a dry one)
 *     Qv such that Ta falls to where vents open, no more than the vents pass:
 *         vent_pass_frac vent_most_frac of heat_vent_m3_s at Cd 0.65, Cw 0.10;
 *         where ridge and others can both be opened, of heat_vent_two_m3_s
 *
 * hg = h kt / (h + kt), f = kt / (h + kt): the ground's top has no mass; the
 * rest of Sg goes to the air
 *
 * h 5.5 W/m2/K below leaves in still air with radiation; ground layer 0.15 m
 * and the layer below 1.0 m of 2.2 MJ/m3/K, kd 2.0, ku 0.3 W/m2/K; rim
 * kr 1.38 W/m/K [ASHRAE]; air with leaves and frame 15 kJ/m2/K of floor. All
 * but the rim are judged from usual soils (1-1.5 W/m/K). */
TunnelFlows tunnel_step(const TunnelHouse *house, const TunnelHour *hour,
                        const TunnelBeds *beds, TunnelState *state);

#endif
