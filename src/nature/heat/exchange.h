/* Ways heat takes: through a cover by wind, through gaps, through vents,
 * through the wall and top of a tank. */
#ifndef LEAT_NATURE_HEAT_EXCHANGE_H
#define LEAT_NATURE_HEAT_EXCHANGE_H

#include <stdbool.h>

/* Covers as measured on winter nights. */
typedef enum CoverBuild {
    COVER_GLASS,
    COVER_FILM,
    COVER_GLASS_FILM_CURTAIN, /* with a PVC curtain */
    COVER_GLASS_PE_CURTAIN,
    COVER_FILM_FILM_CURTAIN, /* PVC film with a PVC curtain */
    COVER_FILM_PE_CURTAIN,
    COVER_BUILD_COUNT,
} CoverBuild;

/* Heat through a cover, W/m2/K, at a wind of w m/s:
 *     k = 1.163 (a + b w), a and b by build:
 *     glass 4.41, 0.40; film 4.87, 0.54; glass and PVC curtain 2.93, 0.10;
 *     glass and PE curtain 3.00, 0.16; film and PVC curtain 2.91, 0.14;
 *     film and PE curtain 3.15, 0.17
 * wind_m_s  0..10
 * Source: [MIHARA1979]; 1.163 takes the lines as kcal/m2/h/K, which its
 * abstract does not say. */
double heat_cover_loss_w_m2_k(CoverBuild build, double wind_m_s);

/* The book's figure for a cover holds in light wind (2 m/s); at another wind it
 * follows the measured line nearest in kind: film where it loses over 5 W/m2/K,
 * film with a PE curtain where less. */
double heat_cover_loss_at_w_m2_k(double book_w_m2_k, double wind_m_s);

/* Air changes of a closed single-skin tunnel in an hour: 0.8 + 0.3 w, no more
 * than 4. A judgement of ours within the 1-3 that [ASHRAE] gives such houses
 * (from memory), rising with the wind. */
double heat_leak_changes_h(double wind_m_s);

/* Heat carried by air that is changed, W/K: 0.33 Wh/m3/K. */
double heat_air_w_k(double flow_m3_h);

/* One set of openings, roof only or sides only, m3/s.
 *     Q = (A/2) Cd sqrt(2 g (dT/T) (h/4) + Cw u^2)
 * T in kelvin; Cd 0.64-0.75, Cw 0.07-0.14.
 * Source: [BOULARD1995] (from memory). */
typedef struct VentSet {
    double area_m2;
    double height_m; /* h, of the opening itself */
    double outside_degc;
    double excess_k; /* dT, inside above outside; below 0 counts as 0 */
    double wind_m_s;
    double discharge;   /* Cd */
    double wind_effect; /* Cw */
} VentSet;
double heat_vent_m3_s(const VentSet *vent);

/* Roof and side openings together, m3/s.
 *     Q = Cd sqrt((Ar As / sqrt(Ar^2 + As^2))^2 2 g h dT/T
 *                 + ((Ar + As)/2)^2 Cw u^2)
 * height_m of set is then h between the middles of roof and side; area_m2 Ar.
 * Source: [KITTAS1997] (from memory). */
double heat_vent_two_m3_s(const VentSet *roof, double side_m2);

/* Rules of thumb: wind through openings, m3/s, Cv A U (Cv 0.5-0.6 square on,
 * 0.25-0.35 aslant); chimney effect Cd A sqrt(2 g H dT/Ti).
 * Source: [ASHRAE] (from memory). */
double heat_vent_wind_m3_s(double area_m2, double wind_m_s, double share);
double heat_vent_chimney_m3_s(double area_m2, double height_m, double excess_k,
                              double inside_degc);

/* A round tank as broad as it is deep is taken; heat through wall and floor
 * by insulation: bare 5, some 1.5, thick 0.5 W/m2/K; through the top 3 with a
 * lid, 20 without (air, radiation and vapour in still air at 10 K). Judged from
 * the usual resistances of still air and foam; W/K. */
typedef enum TankWall { TANK_BARE, TANK_SOME, TANK_THICK } TankWall;
double heat_tank_surface_m2(double volume_m3); /* wall, floor and top */
double heat_tank_loss_w_k(double volume_m3, TankWall wall, bool has_lid);

/* Heat that an open water surface gives off by vapour and by touch, W/m2.
 *     E = (6.43e6/86400) (1 + 0.536 u) (es(Tw) - ea)
 *     H = 0.0665 (Tw - Ta)/(es - ea) E
 * Source: [PENMAN1948] as in [SHUTTLEWORTH1993] (from memory). */
typedef struct OpenWater {
    double water_degc;
    double air_degc;
    double vapour_kpa;
    double wind_m_s;
} OpenWater;
double heat_open_vapour_w_m2(const OpenWater *water);
double heat_open_touch_w_m2(const OpenWater *water);

/* Radiation between water and what it faces, W/m2: 0.97 s (Tw^4 - Tf^4),
 * s = 5.670e-8. */
double heat_radiated_w_m2(double water_degc, double facing_degc);

#endif
