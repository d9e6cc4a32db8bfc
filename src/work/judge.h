/* What readings of the water mean for the fish that stand in it: what to stop,
 * why it is so, what to test next, and which readings cannot all be true.
 *
 * From the readings other quantities are worked out (un-ionised ammonia, carbon
 * dioxide, ..); the rules (work/judge_rules.c) are one table of conditions on
 * them, against limits that stand in the book (data/limits.csv). */
#ifndef LEAT_WORK_JUDGE_H
#define LEAT_WORK_JUDGE_H

#include "base/arena.h"
#include "farm/book.h"
#include "farm/records.h"
#include "sim/fish_now.h"
#include "sim/water_now.h"

/* Name in texts, decimals shown. What cannot be known is NAN. */
#define JUDGE_QUANTITIES(Q)                                                    \
    Q(TEMP, "temp", 1)     /* degC */                                          \
    Q(OXYGEN, "oxygen", 1) /* mg/L */                                          \
    Q(PH, "ph", 2)                                                             \
    Q(TAN, "tan", 2) /* mg/L of nitrogen, as the next two */                   \
    Q(NITRITE, "nitrite", 2)                                                   \
    Q(NITRATE, "nitrate", 0)                                                   \
    Q(ALKALINITY, "alkalinity", 0) /* mg/L CaCO3 */                            \
    Q(CHLORIDE, "chloride", 0)     /* mg/L */                                  \
    Q(IRON, "iron", 1)                                                         \
    Q(NH3, "nh3", 3)                 /* mg/L NH3-N */                          \
    Q(NH3_CAUTION, "nh3_caution", 3) /* mg/L for the lightest fish */          \
    Q(NH3_SHARE, "nh3_share", 1)     /* of that */                             \
    Q(NH3_DEADLY_SHARE, "nh3_deadly_share", 2)                                 \
    Q(NITRITE_CAUTION, "nitrite_caution", 2) /* mg/L at this chloride */       \
    Q(NITRITE_SHARE, "nitrite_share", 1)                                       \
    Q(NITRITE_DEADLY_SHARE, "nitrite_deadly_share", 2)                         \
    Q(FULL, "full", 1)             /* mg/L oxygen at saturation */             \
    Q(FULL_SHARE, "full_share", 2) /* oxygen over it */                        \
    Q(FULL_PCT, "full_pct", 0)                                                 \
    Q(CO2, "co2", 0)       /* mg/L */                                          \
    Q(CARBON, "carbon", 3) /* meq/L of alkalinity that is carbonate */         \
    Q(PH_AIR, "ph_air", 1) /* of that alkalinity in air */                     \
    Q(PH_OVER_AIR, "ph_over_air", 1)                                           \
    Q(NITRIFY_PCT, "nitrify_pct", 0)     /* of what gravel does at pH 7.5 */   \
    Q(FEED_DEGC, "feed_degc", 1)         /* feed stops below */                \
    Q(OVER_FEED_K, "over_feed_k", 1)     /* water over that */                 \
    Q(OVER_DANGER_K, "over_danger_k", 1) /* over where cold endangers */       \
    Q(UNDER_HEAT_K, "under_heat_k", 1)   /* under where all feed stops */      \
    Q(TEMP_APART, "temp_apart", 1)       /* from the loop's other tanks, K */  \
    Q(TEMP_JUMP, "temp_jump", 1)         /* since the last reading, K */       \
    Q(SOURCE_ALKALINITY, "source_alkalinity", 0)                               \
    Q(HAS_FISH, "has_fish", 0) /* 1 or 0 */

typedef enum JudgeQuantity {
#define JUDGE_ENUM(name, text, decimals) JUDGE_##name,
    JUDGE_QUANTITIES(JUDGE_ENUM)
#undef JUDGE_ENUM
        JUDGE_COUNT
} JudgeQuantity;

/* In the order in which they are told. */
typedef enum JudgeClass {
    JUDGE_CLASH,  /* cannot all be true */
    JUDGE_DANGER, /* fish may die */
    JUDGE_STOP,   /* stop feeding */
    JUDGE_WATCH,
    JUDGE_CAUSE, /* why it may be so */
    JUDGE_CLASSES,
} JudgeClass;

typedef enum JudgeFeed { FEED_AS_USUAL, FEED_HALF, FEED_NONE } JudgeFeed;

typedef enum JudgeSide { JUDGE_NOTHING, JUDGE_UNDER, JUDGE_OVER } JudgeSide;

/* quantity is under or over the limit of the book; limit NULL: 0. Not met where
 * the quantity is unknown. */
typedef struct JudgeTest {
    JudgeQuantity quantity;
    JudgeSide side;
    const char *limit; /* id of data/limits.csv */
} JudgeTest;

enum { JUDGE_TESTS = 4 };

/* Texts may hold {name} of a quantity; NULL where there is nothing to say. */
typedef struct JudgeRule {
    const char *id;
    JudgeClass class;
    JudgeTest tests[JUDGE_TESTS]; /* all are met */
    const char *unless;           /* id of a rule that says it better */
    JudgeFeed feed;
    const char *means;
    const char *act;
    const char *again; /* when to feed again */
    const char *next;  /* what to test */
    const char *source;
} JudgeRule;

extern const JudgeRule JUDGE_RULES[]; /* ends with a NULL id */

/* A reading that says little without another. */
typedef struct JudgeNeed {
    JudgeQuantity has;
    JudgeQuantity lacks;
    const char *text;
} JudgeNeed;

extern const JudgeNeed JUDGE_NEEDS[]; /* ends with a NULL text */

typedef struct JudgeAsk {
    const Farm *farm;    /* Borrowed. */
    const Book *book;    /* Borrowed. */
    const FishNow *fish; /* Borrowed. */
    int32_t loop;        /* or -1 */
    int32_t tank;        /* or -1: all tanks of the loop, or of the farm */
    int64_t at;          /* UTC seconds */
    const double *told;  /* Borrowed: WATER_QUANTITIES values, NAN where not
                            told */
    double usual_degc;   /* of this water on this day, NAN: not known */
} JudgeAsk;

typedef struct JudgeFinding {
    const JudgeRule *rule;
    const char *means, *act, *again, *next; /* filled in; NULL as the rule's */
} JudgeFinding;

/* What the water is for one batch of one tank. */
typedef struct JudgeFish {
    const char *tank;  /* id */
    const char *batch; /* id */
    double least_g, most_g;
    double ammonia_caution_mg_l; /* for its lightest, as the next */
    double ammonia_half_mg_l;
    double ammonia_deadly_mg_l;
    double full_feed_mg_l; /* oxygen below which its heaviest eat less */
    double eats_low_frac;  /* of the full ration by these readings, */
    double eats_high_frac; /* as far as they are known */
} JudgeFish;

/* A reading that was taken from the table. */
typedef struct JudgeTaken {
    int quantity; /* READ_.. */
    double value;
    double age_h;
} JudgeTaken;

enum { JUDGE_FINDINGS_MAX = 40, JUDGE_NEEDS_MAX = 12 };

typedef struct Judge {
    JudgeAsk ask;
    double of[JUDGE_COUNT];
    JudgeTaken taken[WATER_QUANTITIES];
    int taken_count;
    bool is_temp_assumed; /* neither told nor read: the warm end is taken */
    JudgeFinding findings[JUDGE_FINDINGS_MAX]; /* by class */
    int finding_count;
    const char *needs[JUDGE_NEEDS_MAX];
    int need_count;
    JudgeFish *fish; /* Owned by the arena. */
    int fish_count;
    JudgeFeed feed;
    /* Where ammonia or nitrite is over its caution: share of the water whose
     * change brings it there, and how much of that in a day; else 0. */
    double change_frac;
    double change_today_frac;
} Judge;

/* A day's base by the sum base-dose, where base is due: in portions, or refused
 * with the reason. */
typedef struct JudgeDose {
    const char *base; /* id of bases.csv, or of the book where none is told */
    const char *refused; /* NULL: it may be given */
    double today_g;
    double portion_g;
    double ph_after;
    double nh3_after_mg_l;
    const char **cautions; /* to be read first */
    int caution_count;
} JudgeDose;

/* Whether base is due by these findings: alkalinity short or pH fallen, and
 * neither carbon dioxide nor hard source water the reason, no reading in
 * doubt. */
bool judge_wants_base(const Judge *judge);

bool judge_has(const Judge *judge, const char *rule);

void judge_make(const JudgeAsk *ask, Arena *arena, Judge *out);

/* The text with {name} replaced; unknown names are a defect. */
const char *judge_fill(const double *of, const char *text, Arena *arena);

/* "means for fish": one word for a share of a caution. */
const char *judge_class_word(JudgeClass class);
const char *judge_feed_word(JudgeFeed feed);
const char *judge_quantity_name(JudgeQuantity quantity);

#endif
