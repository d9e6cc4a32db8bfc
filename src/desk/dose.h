/* What to put into the water: base in days and portions, salts and iron. */
#ifndef LEAT_DESK_DOSE_H
#define LEAT_DESK_DOSE_H

#include "desk/reading.h"
#include "work/dose_plan.h"

typedef struct DoseQuestion {
    ReadingQuestion reading; /* folder, place, moment, readings */
    double target_ph;        /* NAN: no base is asked for, as the next */
    double yours_g;          /* so much of the first base in stock .. */
    double yours_ph;         /* .. moved pH by so much here */
    double potassium_mg_l;   /* rise wanted */
    double calcium_mg_l;
    double iron_mg_l;
} DoseQuestion;

/* Bases in stock are taken in turns of potassium and calcium; each day is the
 * sum base-dose with its guards. ERR_USAGE: nothing asked for, a value out of
 * range; else as reading_answer. */
NODISCARD Err dose_answer(const DoseQuestion *question, Arena *arena,
                          DosePlan *out);

#endif
