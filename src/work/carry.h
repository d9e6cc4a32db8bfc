/* Do the fish carry the beds? What the coupled hour says by week and loop: feed
 * offered and wanted; each nutrient made, taken, lost, in store; what runs
 * short or gathers; the dips of feed and what follows from them. Feed is never
 * raised for the beds. */
#ifndef LEAT_WORK_CARRY_H
#define LEAT_WORK_CARRY_H

#include "sim/hour.h"

enum { CARRY_WEEK_D = 7, CARRY_DIPS_MOST = 6 };

typedef struct CarryElement {
    double *fish_g;    /* by week: dissolved, from fish */
    double *mineral_g; /* freed from solids */
    double *source_g;  /* with top-up and doses */
    double *asked_g;   /* by the plants, in full growth */
    double *taken_g;
    double *lost_g;
    double *store_g_m3; /* in the water, at the week's end */
    int short_week;  /* the first of two weeks running in which plants get less
                        than is enough for full growth; -1 */
    int short_weeks; /* so many in all */
    int least_week;  /* with the least share of what is enough; -1 */
    double least_frac;  /* of what is enough, then */
    double missing_g_w; /* in a short week, mean */
    bool gathers;       /* store at the end over twice the start, and rising */
} CarryElement;

/* A week in which feed falls well below that of the weeks before. */
typedef struct CarryDip {
    int week;
    double drop_frac;  /* below the mean of the four weeks before */
    double sold_count; /* fish sold in that week and the one before */
    double colder_k;   /* water, below those weeks */
    int back_week;     /* feed again at nine tenths of before; -1 */
    int short_element; /* first to run short from then on; -1 none */
    int short_week;    /* when */
} CarryDip;

typedef struct CarryLoop {
    double *offered_kg; /* by week, as fed */
    double *wanted_kg;  /* by the beds; Borrowed */
    double *temp_degc;
    double *growth_frac; /* of the plants, left by the scarcest nutrient */
    CarryElement elements[HOUR_ELEMENTS];
    CarryDip dips[CARRY_DIPS_MOST];
    int dip_count;
    double nitrogen_kg_feed; /* dissolved and mineral, g a kg of feed given */
    double fish_kg;          /* mean over the weeks */
    double beds_m2;
} CarryLoop;

typedef struct Carry {
    const Farm *farm; /* Borrowed. */
    int32_t first_week;
    int weeks;
    double enough_frac; /* share of what roots would take that is enough */
    CarryLoop *loops;   /* as the farm's table */
} Carry;

typedef struct CarryAsk {
    const Farm *farm;
    const HourDays *days; /* of weeks x 7 days */
    double **want_kg;     /* by loop and week: feed wanted */
    int32_t first_week;
    int weeks;
    double enough_frac;
} CarryAsk;

void carry_make(const CarryAsk *ask, Arena *arena, Carry *out);

const char *carry_element_name(int element); /* "nitrogen" .. */

/* Lines about a loop, in words with their numbers; NULL at the end. */
const char *const *carry_words(const Carry *carry, int loop, Arena *arena);

#endif
