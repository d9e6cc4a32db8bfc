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

/* Other weather than the typical year's for some days. */
typedef struct CarrySpell {
    int32_t from_day;
    int days;         /* 0: none */
    double warmer_k;  /* below 0: colder; mean of its days */
    bool is_forecast; /* of the farm's table, not asked for */
} CarrySpell;

enum { CARRY_LATER_MOST = 8 };

typedef struct CarryLater {
    int way;
    double days; /* mean of its batches; below 0: sooner */
} CarryLater;

/* What the spell does to a loop: the same hours with and without it. Days are
 * counted from first_week. */
typedef struct CarryChain {
    bool is_there;
    double water_k;    /* warmer in its days */
    double heater_kwh; /* more, of the loop's heaters, in its days */
    double feed_frac;  /* change of the feed given in its days */
    int element;       /* the first to run short by it within four weeks; -1 */
    int short_day;
    int usual_short_day;                /* without it; -1: not in that time */
    CarryLater later[CARRY_LATER_MOST]; /* a day or more; farthest first */
    int later_count;
    int frozen_count;   /* batches in tunnels that its frost kills */
    int frozen_way;     /* the first of them; -1: none */
    int frozen_day;     /* when */
    double frozen_degc; /* at the crop, then */
} CarryChain;

typedef struct Carry {
    const Farm *farm; /* Borrowed. */
    int32_t first_week;
    int weeks;
    double enough_frac; /* share of what roots would take that is enough */
    CarryLoop *loops;   /* as the farm's table */
    CarrySpell spell;
    CarryChain *chains; /* as the farm's table; all empty without a spell */
} Carry;

typedef struct CarryAsk {
    const Farm *farm;
    const HourDays *days; /* of weeks x 7 days */
    double **want_kg;     /* by loop and week: feed wanted */
    int32_t first_week;
    int weeks;
    double enough_frac;
    const Book *book; /* read with a spell only, as the next two */
    const HourFarm *hours;
    const HourDays *spelled; /* the same days with it */
    CarrySpell spell;        /* within the days */
} CarryAsk;

/* Errors as carry_chain_find. */
NODISCARD Err carry_make(const CarryAsk *ask, Arena *arena, Carry *out);

/* What a spell does, by itself; made by carry_make. ERR_NOT_FOUND: a way that
 * the book lacks. */
NODISCARD Err carry_chain_find(const CarryAsk *ask, const Carry *carry,
                               int loop, CarryChain *out);

/* "7 cold days from 2027-12-14 (8.0 K): water -1.9 K; feed -38 %; iron gone by
 * 2027-12-20; basil-bunch 6 days later."; NULL without a spell. */
const char *carry_chain_text(const Carry *carry, int loop, Arena *arena);

const char *carry_element_name(int element); /* "nitrogen" .. */

/* Lines about a loop, in words with their numbers; NULL at the end. */
const char *const *carry_words(const Carry *carry, int loop, Arena *arena);

#endif
