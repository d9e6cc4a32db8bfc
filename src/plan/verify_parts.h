/* What the files of verify share. */
#ifndef LEAT_PLAN_VERIFY_PARTS_H
#define LEAT_PLAN_VERIFY_PARTS_H

#include "plan/verify.h"

typedef struct Verifier {
    const Problem *problem;
    const PlanSolution *solution;
    Arena *arena; /* texts and working arrays */
    VerifyReport *report;
    int weeks;
    double *hours; /* [week] */
    double *given; /* [loop][week] before losses */
    double *want;  /* [loop][week] */
    double *mean;  /* [goods][week] with fish */
    double *low;   /* [goods][week] with fish */
    double costs;  /* of plants and fish */
    double end_fish;
    double caught; /* fish, less those that buyers take */
} Verifier;

/* Tells one broken limit. */
void verify_break(Verifier *v, const VerifyBreak *what, const char *format, ...)
    PRINTF_LIKE(3, 4);

/* True when got is above most by more than rounding; both are told by the
 * caller. */
bool verify_is_over(double got, double most);

/* False, and told, when some index or week of the choices is out of range: no
 * more is checked then. */
bool verify_indices(Verifier *v);

void verify_beds(Verifier *v);  /* (1)-(5), adds hours, feed, goods, costs */
void verify_fish(Verifier *v);  /* (6)-(10), (12), the same */
void verify_sales(Verifier *v); /* (13)-(17) and the value */

#endif
