/* Ways out of a tank or bed: hole, weir, standpipe, bell siphon. */
#ifndef LEAT_NATURE_FLOW_OUTLET_H
#define LEAT_NATURE_FLOW_OUTLET_H

/* Through a sharp hole under a head of water, m3/h: Q = 0.6 A sqrt(2 g h).
 * Source: [CHOW1959] sharp-edged orifice and weir, Cd 0.6 (memory). */
double flow_orifice_m3_h(double bore_mm, double head_m);

/* Over a straight sharp edge, m3/h: Q = 0.6 2/3 sqrt(2 g) b h^1.5. */
double flow_weir_m3_h(double width_m, double head_m);

/* Into an open standpipe, m3/h: a weir around its rim until the hole in its
 * middle is the narrower, that is the lesser of the two. */
double flow_standpipe_m3_h(double bore_mm, double head_m);

/* Head over a standpipe's rim that carries the flow, m. */
double flow_standpipe_head_m(double bore_mm, double flow_m3_h);

typedef struct Siphon {
    double bore_mm;
    double drop_m; /* from water level in the bed to the pipe's outlet */
    double length_m;
    double loss;       /* K of entry and bends; 1.5 for a bell */
    double friction;   /* Darcy's f; 0.025 */
    double start_frac; /* least inflow that starts it over full flow; 0.3 */
} Siphon;

/* Running full, m3/h: Q = A sqrt(2 g dH/(1 + K + f L/D)). */
double flow_siphon_m3_h(const Siphon *siphon);

typedef enum SiphonState {
    SIPHON_WORKS,    /* fills, starts, empties, breaks */
    SIPHON_TRICKLES, /* inflow too small to start it */
    SIPHON_STUCK,    /* inflow over its full flow: never breaks */
} SiphonState;

/* What a bell siphon does with a steady inflow. Start share 0.25-0.40 of full
 * flow, from memory. */
SiphonState flow_siphon_state(const Siphon *siphon, double inflow_m3_h);

#endif
