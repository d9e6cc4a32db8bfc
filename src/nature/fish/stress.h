/* What bad water does to fish in an hour. For foreseeing, not a vet's advice.
 */
#ifndef LEAT_NATURE_FISH_STRESS_H
#define LEAT_NATURE_FISH_STRESS_H

typedef struct FishHarm {
    double oxygen_mg_l;
    double nh3_mg_l;            /* NH3-N */
    double nitrite_mg_l;        /* NO2-N */
    double nh3_deadly_mg_l;     /* half die in four days; above 0 */
    double nitrite_deadly_mg_l; /* the same; above 0 */
} FishHarm;

/* Deaths by it, 1/h: the share that lives an hour is exp(-rate).
 *
 *     oxygen   ln 2 (2 D - C)/D below 2 D, D = 0.7 mg/L: half die in an hour
 *              at D, three in four without any
 *     ammonia, nitrite   ln 2 / 96 (c/LC50)^3 from half the LC50 on
 *
 * LC50 is what half die of in 96 h, where the rate is the published one; the
 * power is a guess. Source: fish_oxygen_deadly_mg_l, fish_ammonia_limits,
 * fish_nitrite_deadly_mg_l. */
double fish_harm_1_h(const FishHarm *harm);

/* One hour of feed through two stages of the gut, exactly:
 *
 *     g1' = -a g1,  g2' = a g1 - a g2,  digested = a g2
 *
 * stays = exp(-a), a in 1/h. first, second: amounts at the hour's start and
 * end. Returns what is digested in the hour. */
double fish_digest_h(double stays, double rate_h, double *first,
                     double *second);

#endif
