/* Spacing, density, and how heads shrink as plants stand closer. */
#ifndef LEAT_NATURE_PLANT_DENSITY_H
#define LEAT_NATURE_PLANT_DENSITY_H

#include <stdbool.h>
#include <stddef.h>

/* Plants per m2 on a rectangle: 1 / (row x in-row). */
double density_square_m2(double row_m, double in_row_m);

/* Plants per m2 on equal triangles of that side: 2 / (sqrt(3) side^2). */
double density_triangle_m2(double side_m);

/* Head weight by density p (plants/m2):
 *
 *     1 / w = a + b p
 *
 * so the yield p w rises towards 1 / b and never falls.
 * Source: [WESTCOTT1990] Westcott & Callan 1990, abstract: fitted
 * to broccoli at 2.2-8.6 plants/m2. */
typedef struct HeadLaw {
    double a_kg;    /* 1/kg: one over the weight of a plant alone */
    double b_m2_kg; /* m2/kg: one over the most that a m2 can bear */
} HeadLaw;

double density_head_kg(const HeadLaw *law, double plants_m2);

typedef struct HeadTrial {
    double plants_m2;
    double head_kg;
} HeadTrial;

/* Least squares of 1/w on p; false with fewer than two densities, or where the
 * fit would make a head grow with crowding. */
bool density_fit(const HeadTrial *trials, size_t count, HeadLaw *out);

#endif
