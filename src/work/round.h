/* Today's walk through the farm, in its own order: first with the eyes (tanks,
 * sumps, nursery, tunnels), then with the hands (picking before fish).
 *
 * Made of the day's jobs by the accepted plan and of what was told today. A
 * tank whose water is out of line is not fed until somebody has looked; fish
 * told dead lower the count that is fed; troubles that hang on one pump are
 * told as maybe one. Nothing is made up: what must be read or counted is never
 * part of "as usual". */
#ifndef LEAT_WORK_ROUND_H
#define LEAT_WORK_ROUND_H

#include "journal/told.h"
#include "work/jobs.h"
#include "work/judge.h"

/* The list is laid out by hand. Kind; word in JSON. */
/* clang-format off */
#define ROUND_KINDS(X)                                                         \
    X(ROUND_LOOK, "look") X(ROUND_READ, "read") X(ROUND_FEED, "feed")          \
    X(ROUND_FAST, "fast") X(ROUND_VENT, "vent") X(ROUND_DO, "do")              \
    X(ROUND_PICK, "pick")
/* clang-format on */

typedef enum RoundKind {
#define ROUND_ENUM(kind, word) kind,
    ROUND_KINDS(ROUND_ENUM)
#undef ROUND_ENUM
} RoundKind;

const char *round_kind_word(RoundKind kind);

/* The number that belongs to an item; NAN where one is not known. */
typedef struct RoundValue {
    const char *key;  /* of the entry: "grams", "count", "quantity", or the
                         quantity read, "temp_degc"; NULL: no number */
    const char *unit; /* "g", "heads", "degC" */
    double amount;    /* to be done; NAN: to be read */
    double expected;  /* of a reading, as foreseen */
    double low;
    double high;
    double yesterday;       /* or when it was last read, */
    int32_t yesterday_on;   /* on this day */
    bool is_yesterday_told; /* else as the plan foresaw it */
    double told;      /* told today, all entries together: what two pickers took
                         adds up; of a reading the last; NAN: none */
    double odd_below; /* a number outside is asked about once */
    double odd_above;
} RoundValue;

/* What can be wrong at an item, one tap each; ends with a NULL cause. */
typedef struct RoundTrouble {
    const char *cause; /* of the entry: "not-draining" */
    const char *text;  /* "does not drain" */
    bool hangs_on_pump;
} RoundTrouble;

typedef struct RoundItem {
    const char *id; /* "feed-A", or the job's id */
    RoundKind kind;
    const char *text;  /* "Feed A 391 g in 2 meals of 195 g (1.2 scoops)" */
    const char *place; /* tank, bed, tunnel ..; "" none */
    const JobPlace *places; /* where it is more than one */
    int32_t place_count;
    const Job *job; /* the job it comes from; NULL */
    RoundValue value;
    const char *detail;  /* "" none, as the next two */
    const char *caution; /* whole sentences */
    const char *warning; /* why not to do it as planned */
    const char *hold;    /* why it must not be done yet; NULL */
    double then_amount;  /* what it will be once somebody has seen; NAN */
    int meals;           /* of a feed; 0 elsewhere */
    const char *batch;   /* whose seedlings are counted; "" elsewhere */
    const RoundTrouble *troubles; /* NULL */
    const Told *facts;            /* to be told for "as usual" */
    int32_t fact_count;  /* 0: there is a number that only the doer knows */
    const int64_t *told; /* entries of today that answer it */
    int32_t told_count;
} RoundItem;

typedef struct RoundStop {
    const char *id;   /* "tanks-loop-1", "pick-H1" */
    const char *name; /* "Tanks A, C" */
    int32_t walk;
    bool is_hands;
    RoundItem *items;
    int32_t item_count;
    bool is_as_usual; /* told so today */
} RoundStop;

/* Troubles that hang on one pump, or one that stands alone and matters before
 * everything else. */
typedef struct RoundSuspect {
    const char *text;
    const char *pump; /* id; NULL: no pump */
} RoundSuspect;

/* What a loop's fish are given today and what its beds want. */
typedef struct RoundFeed {
    double given_g;
    double wanted_g; /* NAN: not known */
} RoundFeed;

typedef struct Round {
    int32_t day;
    RoundStop *stops; /* eyes by walk, then hands in the order of their jobs */
    int32_t stop_count;
    const RoundSuspect *suspects; /* to be read before everything */
    int32_t suspect_count;
    double feed_g;      /* of all tanks, as held or lowered */
    RoundFeed *loops;   /* by row of farm->loops */
    int32_t told_count; /* entries told for today */
} Round;

typedef struct RoundAsk {
    const Farm *farm;          /* Borrowed, as all of these. */
    const Book *book;          /* with the farm's own figures in it */
    const JobOutlook *outlook; /* of the week */
    const JobsWeek *week;      /* of the day */
    const JobsWeek *before;    /* of the day before; NULL: none is planned */
    const Told *facts;         /* of the day and the day before, struck ones
                                       left out, in the order told */
    int32_t fact_count;
    int32_t day;
    /* By tank: what the readings told today mean; NULL entries, or NULL: none
     * was told. */
    const Judge *const *judges;
    /* What may hold a bed from being picked (work/hold.h), by day. */
    Tolds hold_facts;
    const double *wanted_g; /* by loop: feed its beds want today; NULL */
    /* By tunnel: "open wide 12:15-14:15"; NULL: by the usual rule. */
    const char *const *vents;
} RoundAsk;

/* Fails as jobs_of_week does. */
NODISCARD Err round_make(const RoundAsk *ask, Arena *arena, Round *out);

/* Taps for "as usual" at every stop of the eyes. */
int32_t round_taps(const Round *round);

#endif
