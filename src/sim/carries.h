/* What a farm's air and beds carry: oxygen a tank can be given, ammonia that a
 * loop's beds turn into nitrate. */
#ifndef LEAT_SIM_CARRIES_H
#define LEAT_SIM_CARRIES_H

#include <stdint.h>

#include "farm/book.h"
#include "farm/records.h"

/* Oxygen below which a tank is not let fall, mg/L; common practice of the
 * trade: no netting under it, and large fish eat less. */
double carries_oxygen_floor_mg_l(void);

/* Oxygen that a tank's fish may use in an hour while its water is held at the
 * floor, g/h: its own aerators, its share by volume of its loop's, and what the
 * pumps' flow to the tanks brings, taken at nine tenths of saturation.
 *
 * tank  row of farm->tanks; temp_degc 0..40 */
double carries_oxygen_g_h(const Farm *farm, int tank, double temp_degc);

/* TAN that the beds of a loop turn in a day, g/d: the flooded part of each bed
 * that stands on that day, at the book's rate for its gravel, by temperature,
 * no more than a cubic metre of bed is known to do, for the hours a day with
 * flooding.
 *
 * loop  row of farm->loops; a gravel that the book lacks counts as none */
Figure carries_tan_g_d(const Farm *farm, const Book *book, int loop,
                       int32_t day, double temp_degc);

#endif
