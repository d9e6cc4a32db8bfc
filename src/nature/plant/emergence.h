/* Germination and days to emergence by temperature: a published table, and the
 * straight line through its rates.
 *
 * Rows are for seed lots of a trial; a farm's own lots replace them. */
#ifndef LEAT_NATURE_PLANT_EMERGENCE_H
#define LEAT_NATURE_PLANT_EMERGENCE_H

#include <stdbool.h>

/* The table's temperatures: 0, 5 .. 40 degC. */
enum { EMERGENCE_STEPS = 9 };

double emergence_step_degc(int step); /* step 0..8 */

/* One crop's row. NAN stands for "not tested"; a germination of 0 for "none".
 */
typedef struct EmergenceRow {
    double germination_frac[EMERGENCE_STEPS];
    double days_d[EMERGENCE_STEPS];
} EmergenceRow;

/* The line 1 / days = (T - base) / sum, from base to most. */
typedef struct EmergenceLine {
    double base_degc;
    double most_degc; /* no germination above */
    double sum_degc_d;
} EmergenceLine;

/* Share of normal seedlings at temp_degc, straight between the tested steps
 * around it; NAN outside them or where the row has no entry. */
double emergence_germination_frac(const EmergenceRow *row, double temp_degc);

/* Days to emergence: the rate 1 / days runs straight between the two tested
 * steps around temp_degc (a step without emergence counts as rate 0). NAN
 * outside the tested steps; INFINITY where the rate is 0. */
double emergence_table_d(const EmergenceRow *row, double temp_degc);

/* Days by the line; INFINITY at or below the base and above the most. */
double emergence_line_d(const EmergenceLine *line, double temp_degc);

/* The line through the row's rates by least squares, over steps where both the
 * days are given and the rate still rises. False when fewer than two. */
bool emergence_fit_line(const EmergenceRow *row, EmergenceLine *out);

#endif
