/* A linear model in memory: rows, columns, entries, each with a name made of
 * what it stands for. Gains are maximised.
 *
 * Entries may come in any order, for any row and column already there. */
#ifndef LEAT_PLAN_LINEAR_MODEL_H
#define LEAT_PLAN_LINEAR_MODEL_H

#include <stdbool.h>

#include "base/arena.h"

/* What rows and columns stand for; the word is its name in the exported
 * model. Numbers are those of docs/planning.md. */
#define LINEAR_PARTS(X)                                                        \
    X(LINEAR_FLOOR, "floor")            /* (1) kind, week */                   \
    X(LINEAR_EDGE, "edge")              /* (2) kind, week */                   \
    X(LINEAR_SHADE, "shade")            /* (3) kind, week */                   \
    X(LINEAR_NURSERY, "nursery")        /* (4) week */                         \
    X(LINEAR_SEEDLINGS, "seedlings")    /* (4) seedlings that stand */         \
    X(LINEAR_CLEAN_DUE, "cleandue")     /* (5) kind, week */                   \
    X(LINEAR_CLEAN_RATE, "cleanrate")   /* (5) loop, week */                   \
    X(LINEAR_LANE, "lane")              /* (6) stock, lane */                  \
    X(LINEAR_LEAST, "least")            /* (6) stock */                        \
    X(LINEAR_MOST, "most")              /* (6) stock */                        \
    X(LINEAR_DENSITY, "density")        /* (7) tank, week */                   \
    X(LINEAR_OXYGEN, "oxygen")          /* (8) tank, week */                   \
    X(LINEAR_HEADS, "heads")            /* (9) stock, tank, week */            \
    X(LINEAR_BATCHES, "batches")        /* (9) tank, week */                   \
    X(LINEAR_NEIGHBOURS, "neighbours")  /* (9) tank, number, week */           \
    X(LINEAR_GRADE_RATE, "graderate")   /* (10) tank, week */                  \
    X(LINEAR_GRADING, "grading")        /* (10) tank, week */                  \
    X(LINEAR_CATCH, "catch")            /* (10) tank, week */                  \
    X(LINEAR_CATCH_LEAST, "catchleast") /* (10) week */                        \
    X(LINEAR_POOL, "pool")              /* (11) loop, week */                  \
    X(LINEAR_SHORT, "short")            /* (11) loop, week */                  \
    X(LINEAR_OVER, "over")              /* (11) loop, week */                  \
    X(LINEAR_NITRIFY, "nitrify")        /* (12) loop, week */                  \
    X(LINEAR_MIX, "mix")                /* (14) product, firm 0 or 1, week */  \
    X(LINEAR_PART_LOW, "partlow")       /* (14) part, firm, week */            \
    X(LINEAR_PART_HIGH, "parthigh")     /* (14) part, firm, week */            \
    X(LINEAR_PART, "part")              /* (14) part, firm, week */            \
    X(LINEAR_GOODS, "goods")            /* (15) goods, week */                 \
    X(LINEAR_STORE, "store")            /* (15) goods, week */                 \
    X(LINEAR_ROOM, "room")              /* (15) week */                        \
    X(LINEAR_PROMISE, "promise")        /* (16) goods, week */                 \
    X(LINEAR_KEPT, "kept")              /* (17) order, week */                 \
    X(LINEAR_SOLD, "sold")              /* (17) outlet, week */                \
    X(LINEAR_HOURS, "hours")            /* (18) week */                        \
    X(LINEAR_EXTRA, "extra")            /* (18) week */                        \
    X(LINEAR_UNITS, "units")            /* option */                           \
    X(LINEAR_CLEAN, "clean")            /* kind, week */                       \
    X(LINEAR_RUN, "run")                /* number of the run */                \
    X(LINEAR_STOCKED, "stocked")        /* stock: fish */                      \
    X(LINEAR_IS_STOCKED, "isstocked")   /* stock: 0 or 1 */                    \
    X(LINEAR_GONE, "gone")              /* stock, lane: fish with no route */

typedef enum LinearPart {
#define LINEAR_ENUM(name, word) name,
    LINEAR_PARTS(LINEAR_ENUM)
#undef LINEAR_ENUM
} LinearPart;

typedef struct LinearTag {
    LinearPart part;
    int a;
    int b;
    int week;
} LinearTag;

typedef struct LinearRow {
    LinearTag tag;
    double lower; /* -INFINITY: none */
    double upper; /* INFINITY: none */
} LinearRow;

typedef struct LinearColumn {
    LinearTag tag;
    double lower;
    double upper;
    double gain;
    bool is_integer;
} LinearColumn;

typedef struct LinearEntry {
    int row;
    int column;
    double value;
} LinearEntry;

typedef struct LinearModel {
    Arena *arena; /* Borrowed. */
    LinearRow *rows;
    int row_count;
    int row_room;
    LinearColumn *columns;
    int column_count;
    int column_room;
    LinearEntry *entries;
    int entry_count;
    int entry_room;
    double constant; /* gain that no column carries */
} LinearModel;

/* The model by columns, as solvers take it. */
typedef struct LinearPacked {
    int *starts; /* column_count + 1 */
    int *rows;   /* entry_count; ascending within a column */
    double *values;
} LinearPacked;

void linear_model_init(LinearModel *model, Arena *arena);
int linear_model_row(LinearModel *model, LinearTag tag, double lower,
                     double upper);
int linear_model_column(LinearModel *model, const LinearColumn *column);

/* Adds value at (row, column); a row below 0 or a value 0 is passed over. Two
 * entries at one place add up. */
void linear_model_entry(LinearModel *model, int row, int column, double value);

/* Takes value off both limits of a row: what is fixed and stands in it. */
void linear_model_fixed(LinearModel *model, int row, double value);

void linear_model_pack(const LinearModel *model, Arena *arena,
                       LinearPacked *out);

/* Only the columns with a place, in the order of places 0 .. columns - 1;
 * places: by column, below 0: left out; NULL: each at its own. */
void linear_model_pack_some(const LinearModel *model, const int *places,
                            int columns, Arena *arena, LinearPacked *out);

const char *linear_part_word(LinearPart part);

#endif
