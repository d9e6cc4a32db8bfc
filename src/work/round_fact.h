/* One thing told at a stop of the round, or to be told there. Its keys are
 * those of the journal's entries. */
#ifndef LEAT_WORK_ROUND_FACT_H
#define LEAT_WORK_ROUND_FACT_H

#include <stdint.h>

typedef struct RoundFact {
    int64_t number;   /* of the entry, in the order told; 0: not told yet */
    const char *kind; /* "fed", "read", "died", "seen", "as_usual" .. */
    int32_t day;      /* on which it happened */
    /* "" where there is none, as all text below. */
    const char *stop;
    const char *place; /* bed, tank, tunnel, loop .. */
    const char *job;
    const char *batch;
    const char *way;
    const char *quantity_key; /* of a reading: "temp_degc" */
    const char *cause;
    const char *buyer;
    const char *unit;
    double grams; /* NAN where there is none, as all numbers below */
    double quantity;
    double value; /* of a reading */
    double count; /* fish, plants, seeds */
} RoundFact;

/* All texts "", all numbers NAN. */
RoundFact round_fact(const char *kind, int32_t day);

#endif
