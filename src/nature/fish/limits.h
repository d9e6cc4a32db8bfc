/* What fish bear: handling, ammonia, nitrite, oxygen, carbon dioxide. For
 * judging readings; no vet's advice, and local rules come first. */
#ifndef LEAT_NATURE_FISH_LIMITS_H
#define LEAT_NATURE_FISH_LIMITS_H

#include <stdbool.h>

#include "base/figure.h"

/* Grading and moving back: 20-30 degC and over 5 mg/L; a catch for sale: 17-30
 * degC. Common practice of the trade; deaths on handling below 18.3 degC
 * [SRAC_TILAPIA]. */
bool fish_may_grade(double temp_degc, double oxygen_mg_l);
bool fish_may_catch(double temp_degc);

/* No fish handled and put back twice within so many weeks: 4. */
int fish_weeks_between_handlings(void);

/* Share of the day's feed: 0.5 on the day after netting, common practice of the
 * trade. */
double fish_feed_after_netting_frac(void);

/* Un-ionised ammonia by size, mg/L NH3-N. */
typedef struct FishAmmonia {
    double caution_mg_l; /* stop and look: 0.05, fry under 1 g 0.02 */
    double half_mg_l;    /* growth halved: 0.73, less for fry */
    double deadly_mg_l;  /* half die in four days */
} FishAmmonia;

/* weight_g above 0. Deadly: 1.01 larvae, 1.36 at 3 g, 2.25 at 11 g, 2.65 at 45
 * g and over. Source: [ABDALLA1998], [BENLI2005]; fry's halving a guess. */
FishAmmonia fish_ammonia_limits(double weight_g);

/* Nitrite in which half of small tilapia die in four days, mg/L NO2-N, by
 * chloride: 28.18 mg/L nitrite at 35 mg/L chloride, 44.67 at 70, straight
 * between and beyond. The basis (mass of nitrite or of nitrogen) is not said:
 * mass of nitrite is taken, the cautious reading. Source: [WANG2006]. */
double fish_nitrite_deadly_mg_l(double chloride_mg_l);

/* Nitrite at which to stop feeding and look, mg/L NO2-N: a twentieth of that,
 * 1 at most. A guess. */
double fish_nitrite_caution_mg_l(double chloride_mg_l);

/* Oxygen, mg/L: no feed below; in danger; dying within an hour or two (value
 * with low and high). Source: [TRANDUY2012], [TSADIK1987] and extension guides.
 */
Figure fish_oxygen_no_feed_mg_l(void); /* 3 (3-5.5) */
Figure fish_oxygen_danger_mg_l(void);  /* 2 (1.5-2.3) */
Figure fish_oxygen_deadly_mg_l(void);  /* 0.7 (0.3-0.7) */

/* Carbon dioxide that slows tilapia, mg/L: 20 and over; design 30-40.
 * Source: [TIMMONS2010] (memory). */
Figure fish_carbon_dioxide_mg_l(void);

#endif
