/* Seedlings sown as the plan says, for those who follow the plan. */
#ifndef LEAT_JOURNAL_TRAYS_H
#define LEAT_JOURNAL_TRAYS_H

#include "journal/state.h"

/* Trays of a sowing of the plan that nobody counted yet, and of as many plants
 * as it wants, are left to its rows: so the rows that they are for still ask to
 * be counted, and are set as they were planned. */
void trays_follow(const Farm *opening, Arena *arena, Farm *farm);

#endif
