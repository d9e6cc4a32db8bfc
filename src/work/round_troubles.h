/* What can be wrong at a stop, one tap each, and what hangs on one pump. */
#ifndef LEAT_WORK_ROUND_TROUBLES_H
#define LEAT_WORK_ROUND_TROUBLES_H

#include "work/round.h"

/* Each ends with a NULL cause. */
extern const RoundTrouble ROUND_TANK_TROUBLES[];
extern const RoundTrouble ROUND_SUMP_TROUBLES[];
extern const RoundTrouble ROUND_BED_TROUBLES[];
extern const RoundTrouble ROUND_NURSERY_TROUBLES[];

#endif
