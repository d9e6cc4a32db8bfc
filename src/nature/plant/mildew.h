/* When a crop's usual moulds take hold, by published rules of temperature and
 * wet leaves. Rules tell a pressure, not a diagnosis. */
#ifndef LEAT_NATURE_PLANT_MILDEW_H
#define LEAT_NATURE_PLANT_MILDEW_H

#include <stdbool.h>

/* A morning over lettuce. */
typedef struct LettuceMorning {
    double wet_h;         /* leaves wet without a break from 06:00 on */
    double early_degc;    /* mean of the three hours after sunrise */
    double forenoon_degc; /* mean of the four hours after those */
} LettuceMorning;

/* Downy mildew of lettuce infects on a morning with wet_h >= 4, early <= 20
 * and forenoon <= 22 degC.
 * Source: [SCHERM1994] the four hours, [WU2002] the two limits of warmth. */
bool mildew_lettuce_infects(const LettuceMorning *morning);

/* Downy mildew of cucumbers and their kin: least hours of wet leaves at a
 * temperature, straight between the published points:
 *     2 h at 20; 6 h at 15; 12 h at 10; 24 h at 5 degC;
 * above 20 the 2 h hold up to 25. INFINITY below 5 and above 25 degC.
 * The points are the coolest at which that wetness still gave an infection
 * without a doubt: the source gives 6 h at 10-15 and 12 h at 5-10.
 * Source: [COHEN1977]. */
double mildew_cucumber_wet_h(double temp_degc);

/* Grey mould in a house without heating breaks out where leaves are wet for
 * more than 7 h a day in the week's mean and nights (18-8 h) spend more than
 * 9.5 h at 9-21 degC.
 * Source: [YUNIS1994], cucumbers. */
bool mildew_grey_breaks_out(double wet_h_d, double night_mild_h);

/* Powdery mildew of cucumbers (Podosphaera xanthii): how fast it goes, 1 at
 * best, by
 *     f = ((Tmax - T)/(Tmax - Topt)) ((T - Tmin)/(Topt - Tmin))
 *         ^((Topt - Tmin)/(Tmax - Topt))
 * from 10 over 25 to 35 degC; wetness is not needed.
 * Source: temperatures [TRECATE2019]; the form is that of [MAGAREY2005]; that
 * they go together is judged. */
double mildew_powdery_frac(double temp_degc);

/* Downy mildew of basil takes hold where leaves stay wet for 4 h without a
 * break, and bears spores after 7.5 h of the dark at a humidity of 0.95 or
 * more. Outbreaks are told of 12-25 degC (53-77 degF): outside that none.
 * Source: [COHEN2016] both spells; [MSUBASIL] the warmth. */
bool mildew_basil_infects(double wet_h, double temp_degc);
bool mildew_basil_bears(double dark_damp_h, double temp_degc);

#endif
