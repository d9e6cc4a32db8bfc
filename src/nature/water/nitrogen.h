/* From feed to ammonia to nitrate: what feed makes and uses, what beds carry.
 *
 * Ammonia is TAN, mass of nitrogen. Ranges are what published sources span. */
#ifndef LEAT_NATURE_WATER_NITROGEN_H
#define LEAT_NATURE_WATER_NITROGEN_H

#include "base/figure.h"

/* TAN made by feed eaten, kg per kg of feed.
 *
 *     TAN = protein 0.16 0.80 0.80 0.90 = 0.092 protein
 *
 * protein_frac  crude protein, 0..1
 * Source: [TIMMONS2010] (memory). Low 25 g per kg of 32 % feed; high 0.16 x
 * 0.61 x protein [FAO589]. */
Figure water_feed_tan_kg_kg(double protein_frac);

/* Oxygen used per kg of feed, kg: by fish alone; and by the whole loop where
 * the gravel keeps the solids. Source: [TIMMONS2010] (memory). */
Figure water_feed_oxygen_fish_kg_kg(void);
Figure water_feed_oxygen_loop_kg_kg(void);

/* What turning a gram of ammonia nitrogen into nitrate takes, without growth of
 * cells: NH4+ + 2 O2 -> NO3- + 2 H+ + H2O.
 * Source: by stoichiometry; with growth 4.18 and 7.05 [EBELING2006]. */
double water_nitrify_oxygen_g_g(void);
double water_nitrify_alkalinity_g_g(void); /* g CaCO3 */

/* What plants or denitrification give back of it, g CaCO3 per g nitrate N. */
double water_uptake_alkalinity_g_g(void);

typedef struct NitrifyWater {
    double temp_degc; /* 5..35 */
    double tan_mg_l;
    double oxygen_mg_l;
    double ph;         /* 5.5..9 */
    double clean_frac; /* 1: clean film; a bed that keeps solids 0.3-0.5 */
} NitrifyWater;

/* TAN that a square metre of stone surface turns a day, g/m2/d.
 *
 *     r = r20 theta^(T - 20) S/(Ks + S) DO/(Ko + DO) f(pH) clean
 *
 * r20 2.4 (1.0-3.4), theta 1.027 (1.011-1.043), Ks 1.5 mg/L (1-2), Ko 1.3
 * mg/L; f(pH) runs between the perlite bed of [TYSON2008] (0.24, 0.39, 1.00 at
 * 6, 7, 8) and adapted films. r20 is a guess: set so that clean films at 25-30
 * degC come to the 1-2 of [TIMMONS2010] and a bed with its solids to
 * the 0.2-1 that surrounds the 0.57 of [FAO589].
 * Source: [ZHU2002] theta; [LING2005] solids; Ks, Ko from memory. */
Figure water_nitrify_g_m2_d(const NitrifyWater *water);

/* Most that a cubic metre of bed does whatever its surface, g/m3/d: 100
 * (31-171); surface in use is less than nominal. Source: [TYSON2008],
 * [FAO589] 0.57 on 300 m2/m3. */
Figure water_nitrify_most_g_m3_d(void);

/* Surface of stones taken as spheres, m2/m3: a = 6 (1 - n)/d. */
double water_gravel_surface_m2_m3(double porosity_frac, double stone_mm);

/* TAN a gravel bed carries a day, g/d: the lesser of surface and volume. */
Figure water_bed_carries_g_d(const NitrifyWater *water, double gravel_m3,
                             double surface_m2_m3);

#endif
