/* Lots: what was picked, where it went and what is left; one step back to bed
 * and seed, one step forward to buyers.
 *
 * A lot is what was told with one lot id, else what was picked of a way at a
 * bed on a day. What is handed over with a lot told comes out of that lot; else
 * out of the oldest that still kept on the day, and is marked so. */
#ifndef LEAT_WORK_LOTS_H
#define LEAT_WORK_LOTS_H

#include "farm/book.h"
#include "journal/told.h"

enum { LOTS_BACK_D = 730 }; /* two years of entries stand behind a trace */

/* The kinds of entries that lots are made from, bit i is kind i. */
extern const uint64_t LOTS_KINDS;

/* Units of a lot that somebody got. */
typedef struct LotTo {
    const char *buyer;
    const char *product;
    int32_t on;
    double units;    /* of the lot's way */
    bool is_assumed; /* no lot was told: out of the oldest first */
} LotTo;

typedef struct Lot {
    const char *id;
    int32_t way; /* row of ways */
    const char *place;
    const char *batch; /* "" unknown */
    const char *who;   /* who picked first */
    int32_t picked_on;
    int32_t keeps_until; /* last day on which it keeps in the cold */
    double picked;       /* units of the way, of all its entries */
    double left;         /* not handed over; at least 0 */
    bool is_past;        /* left, but kept too long on the day */
    /* One step back, as told, once lots_trace has looked; "" and DATE_NEVER
     * where nothing was told. */
    int32_t sown_on;
    const char *seed_lot;
    const char *seed_from; /* its supplier */
    const char *hold;      /* that the pick did not wait for; NULL */
    const LotTo *to;       /* by day */
    int32_t to_count;
} Lot;

typedef struct LotsAsk {
    const Farm *farm; /* Borrowed, as all of these. */
    const Book *book;
    const Tolds *facts; /* LOTS_KINDS by day and time, those struck out left
                           out; of the day and LOTS_BACK_D before */
    int32_t day;
} LotsAsk;

/* Units handed over that no lot had: more was told to go than to come. */
typedef struct LotLack {
    int32_t way;
    const char *buyer;
    int32_t on;
    double units;
} LotLack;

typedef struct Lots {
    Lot *lots; /* by day of picking */
    int32_t count;
    const LotLack *lacks; /* by day */
    int32_t lack_count;
} Lots;

void lots_make(const LotsAsk *ask, Arena *arena, Lots *out);

/* Looks one step back: when it was sown, of which seed, and whether it was
 * picked while its bed was held. */
void lots_trace(const LotsAsk *ask, Arena *arena, Lot *lot);

/* Units of a way that are left: that keep on the day, or are past it. */
double lots_left(const Lots *lots, int32_t way, bool is_past);

#endif
