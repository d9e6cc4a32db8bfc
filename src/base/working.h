/* How a shown figure was made: its equation, and each input with where it comes
 * from.
 *
 * The code that makes a figure writes its working where it makes it. A Workings
 * goes along with the question; it says which figures are asked for, and is
 * NULL in every run that asks for none. So a working is made by the run that
 * makes the figure, out of the same values.
 *
 * Every function takes NULL for the working and then does nothing. Texts are
 * borrowed: constant, or in the arena of the Workings. Names, equations in
 * words and notes are given in English and kept in the language of the arena
 * (base/tongue.h). */
#ifndef LEAT_BASE_WORKING_H
#define LEAT_BASE_WORKING_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/figure.h"

/* Where an input comes from. The first three are a figure's origins. */
typedef enum WorkingFrom {
    WORKING_BOOK,
    WORKING_YOURS,
    WORKING_GUESS,
    WORKING_TOLD,     /* told on a day */
    WORKING_TABLE,    /* stands in the farm's tables */
    WORKING_PLAN,     /* the accepted plan's */
    WORKING_FORESEEN, /* by the typical year */
    WORKING_WORKED,   /* worked out from others */
} WorkingFrom;

const char *working_from_word(WorkingFrom from); /* "book" .. "worked" */

/* What a figure is of ("tank"), which ("A"), and its name there ("feed_g"). */
typedef struct WorkingKey {
    const char *of; /* NULL: none */
    const char *id;
    const char *figure;
} WorkingKey;

typedef struct WorkingInput {
    const char *symbol; /* as in the equation; NULL: tells, is not put in */
    const char *name;   /* in words */
    double value, low, high; /* low = high = 0: no range */
    const char *unit;        /* "date": days since 1970-01-01; "" none */
    WorkingFrom from;
    int32_t on;         /* day it was told or counted on; 0: not said */
    const char *source; /* keys of docs/sources.md between spaces; NULL */
    WorkingKey opens;   /* where it is a figure with a working of its own */
} WorkingInput;

/* The value of symbols, put in, is the figure: "feed_g = share x (n1 x f1)".
 * Operators + - x / ^ and brackets; min, max, round, floor, sqrt, pow, hypot of
 * what stands in theirs. */
typedef struct Working {
    WorkingKey key;
    const char *name;        /* "feed of the day" */
    const char *words;       /* the equation in words */
    const char *symbols;     /* and in symbols */
    double value, low, high; /* low = high = value: no range */
    const char *unit;        /* "date": days */
    WorkingInput *inputs;    /* Owned by the arena, as all lists here. */
    int input_count;
    const char **notes; /* how it goes where the equation does not say it */
    int note_count;
    const char **sources; /* of the equation: keys */
    int source_count;
    Arena *arena;
} Working;

typedef struct Workings {
    Arena *arena;
    WorkingKey only; /* of NULL: all; id or figure NULL: any */
    Working **items; /* Owned by the arena; in the order they were made. */
    int32_t count;
} Workings;

/* Whether that figure is asked for; FALSE for NULL. */
bool workings_want(const Workings *all, const char *of, const char *id,
                   const char *figure);

/* A fresh working where the figure is asked for, else NULL. The texts of the
 * key are borrowed. */
Working *working_begin(Workings *all, const char *of, const char *id,
                       const char *figure);

/* What it is, the equation in words and in symbols. */
void working_says(Working *working, const char *name, const char *words,
                  const char *symbols);

/* Another symbol's term: " + n2 x f2", joined to the symbols so far. */
void working_joins(Working *working, const char *text);

/* What comes out. */
void working_is(Working *working, double value, const char *unit);
void working_range(Working *working, double low, double high);

/* An input; the same as a figure, with its range, origin and source. A symbol
 * with a number behind it: working_symbol(w, "n", 2) is "n2". */
void working_put(Working *working, const WorkingInput *input);
void working_figure(Working *working, const char *symbol, const char *name,
                    const Figure *figure, const char *unit);
/* The same with its symbol, name and value; rest: unit, origin and what else
 * there is. And a day. */
void working_value(Working *working, const char *symbol, const char *name,
                   double value, WorkingInput rest);
void working_date(Working *working, const char *symbol, const char *name,
                  int32_t day, WorkingFrom from);
const char *working_symbol(Working *working, const char *letter, int number);

void working_note(Working *working, const char *format, ...) PRINTF_LIKE(2, 3);
void working_source(Working *working, const char *key);

/* The working of exactly that figure; NULL: it was not made. */
const Working *workings_find(const Workings *all, const WorkingKey *key);

#endif
