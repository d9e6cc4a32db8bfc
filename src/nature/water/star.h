/* Something dissolved in water that goes round between one hub (a sump) and the
 * vessels it feeds, through one step, whatever the step's length.
 *
 * Amounts, not concentrations, are carried: what leaves one vessel arrives in
 * another, so amounts close to rounding. Index 0 is the hub, 1..vessel_count -
 * 1 are the vessels. With m amounts and all rates constant through the step:
 *
 *     dm_j/dt = gain_j m_0 - loss_j m_j + source_j,           j > 0
 *     dm_0/dt = sum of back_j m_j - loss_0 m_0 + source_0
 *
 * Solved by the two-stage, stiffly accurate diagonally implicit method of order
 * 2 (g = 1 - 1/sqrt 2): stable for any step, damped at infinity. The mean
 * returned is the one for which
 *
 *     m(end) - m(start) = step (gain, loss, back of mean + source)
 *
 * holds exactly, so that whatever a rate takes or gives in the step is rate x
 * mean x step. Source: [ALEXANDER1977]. */
#ifndef LEAT_NATURE_WATER_STAR_H
#define LEAT_NATURE_WATER_STAR_H

#include <stdbool.h>

/* Arrays of vessel_count; entry 0 of gain and back is not read. Borrowed. */
typedef struct StarRates {
    int vessel_count; /* at least 1 */
    const double *gain_h;
    const double *back_h;
    const double *loss_h;
} StarRates;

/* One substance. amount is taken to the step's end; mean gets the step's mean.
 *
 * Where an amount below 0 would come out and is_signed is false, the step is
 * made again in eight parts, those that still would by the implicit Euler
 * method, which cannot. room holds 5 * vessel_count doubles. */
typedef struct StarColumn {
    const double *source; /* amount/h */
    double *amount;
    double *mean;
    bool is_signed;
} StarColumn;
void star_step(const StarRates *rates, double step_h, StarColumn *column,
               double *room);

/* STAR_WIDE substances at once, [vessel][STAR_WIDE], each with its own loss;
 * gain and back are shared; where one would fall below 0 all are made again by
 * the implicit Euler method.
 * room holds 4 * vessel_count * STAR_WIDE doubles. */
enum { STAR_WIDE = 8 };
typedef struct StarBlock {
    int vessel_count;
    const double *gain_h;
    const double *back_h;
    const double (*loss_h)[STAR_WIDE];
    const double (*source)[STAR_WIDE];
    double (*amount)[STAR_WIDE];
    double (*mean)[STAR_WIDE];
} StarBlock;
void star_block_step(const StarBlock *block, double step_h, double *room);

#endif
