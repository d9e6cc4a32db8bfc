/* The separate checker of plans: every limit of docs/planning.md and the value,
 * from the problem and the plan alone.
 *
 * It shares no code with the search, the ceiling or the evaluation, so that a
 * fault in one of them shows here. */
#ifndef LEAT_PLAN_VERIFY_H
#define LEAT_PLAN_VERIFY_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* What may be broken, with its word. Hard: it cannot be done so, or would harm
 * fish. The others cost hands, light or cleanliness, and a grower may want them
 * all the same. */
/* clang-format off */
#define VERIFY_KINDS(K)                                                        \
    K(PLACE, "place", true)           /* a section held twice */               \
    K(SECTIONS, "sections", true)     /* more than the bed has */              \
    K(SIZE, "size", true)             /* of nothing */                         \
    K(BED_KIND, "bed-kind", true)     /* no column for such a bed */           \
    K(BED_WEEK, "bed-week", true)     /* the bed is not in use */              \
    K(START, "start", true)           /* outside the plan */                   \
    K(EDGE, "edge", true)             /* more metres than it has */            \
    K(EDGE_WEEK, "edge-week", true)   /* may not be planted then */            \
    K(SUN, "sun", false)              /* shaded sections want sun */           \
    K(CLEAN_HELD, "clean-held", true) /* plants stand on a bed in cleaning */  \
    K(CLEAN_DUE, "clean-due", false)  /* too late, or not once */              \
    K(CLEAN_RATE, "clean-rate", false) /* too many beds at one time */         \
    K(SEEDLINGS, "seedlings", true)   /* more set than stand */                \
    K(NURSERY, "nursery", false)      /* trays on the bench */                 \
    K(HOURS, "hours", false)                                                   \
    K(FISH_START, "fish-start", true) /* where or when they cannot begin */    \
    K(FISH_ROUTE, "fish-route", true) /* moved or sold out of order */         \
    K(FISH_WATER, "fish-water", true) /* too cold or warm to be handled */     \
    K(FISH_SIZE, "fish-size", true)   /* sold below the weight */              \
    K(FISH_COUNT, "fish-count", true)                                          \
    K(COMPANY, "company", true)       /* batches in a tank */                  \
    K(NEIGHBOURS, "neighbours", true) /* sizes too far apart */                \
    K(TANK_KG, "tank-kg", true)                                                \
    K(OXYGEN, "oxygen", true)                                                  \
    K(GRADING, "grading", true)       /* graded again too soon */              \
    K(TAN, "tan", true)               /* more than the beds carry */           \
    K(SALES, "sales", true)           /* sums that do not agree */             \
    K(CHOICE, "choice", true)         /* names what is not there */
/* clang-format on */

typedef enum VerifyKind {
#define VERIFY_ENUM(name, word, is_hard) VERIFY_##name,
    VERIFY_KINDS(VERIFY_ENUM)
#undef VERIFY_ENUM
} VerifyKind;

const char *verify_word(VerifyKind kind);
bool verify_is_hard(VerifyKind kind);

/* One broken limit in one week. Names are the problem's. */
typedef struct VerifyBreak {
    VerifyKind kind;
    int week;          /* PLAN_NONE: of no week */
    const char *place; /* bed, tank, loop or store; NULL: of the farm */
    const char *way;   /* of plants, or the fish batch; NULL: of none */
    const char *other; /* held twice: the way that holds it; else NULL */
    int section;       /* held twice: from 1; else 0 */
    double got;        /* both 0: not a quantity */
    double most;
} VerifyBreak;

enum { VERIFY_MOST_TEXTS = 400 };

typedef struct VerifyReport {
    int count;                             /* broken limits */
    VerifyBreak breaks[VERIFY_MOST_TEXTS]; /* the first of them */
    const char *texts[VERIFY_MOST_TEXTS];  /* the same in words, with
                                              names and weeks */
    double value;                          /* as added up here */
} VerifyReport;

/* Checks the choices and the outcome of solution: that choices keep all limits,
 * that the sales told can be made from the goods, parts and stores told, and
 * that the value is what they come to. Texts live in arena. */
void plan_verify(const Problem *problem, const PlanSolution *solution,
                 Arena *arena, VerifyReport *out);

/* The same for the choices alone: the outcome is not read, value is 0. */
void plan_verify_choices(const Problem *problem, const PlanSolution *solution,
                         Arena *arena, VerifyReport *out);

#endif
