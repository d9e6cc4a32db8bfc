/* How much of full growth a day's light allows. */
#ifndef LEAT_NATURE_PLANT_LIGHT_H
#define LEAT_NATURE_PLANT_LIGHT_H

typedef struct LightRule {
    double least_mol; /* daily light integral without growth, mol/m2/d */
    double full_mol;  /* ... from which more light adds nothing */
} LightRule;

/* Growth as a share of that in full light:
 *
 *     f = x (2 - x),  x = (dli - least) / (full - least), held to 0..1
 *
 * 0 at least, 1 from full on, steepest where light is scarcest; smooth at full.
 * A judgement of ours between the two published limits, not a published curve;
 * at half way between them it gives 0.75. */
double light_growth_frac(const LightRule *rule, double dli_mol);

/* Daily light integral from a steady photon flux:
 *     dli = flux x 3600 x hours / 10^6 */
double light_dli_mol(double flux_umol_m2_s, double hours_h);

#endif
