/* A figure: a parameter that a person could argue with. */
#ifndef LEAT_BASE_FIGURE_H
#define LEAT_BASE_FIGURE_H

#include "base/err.h"

typedef enum FigureOrigin {
    FIGURE_BOOK,  /* read in the source */
    FIGURE_YOURS, /* the farm's own */
    FIGURE_GUESS, /* a practitioner's judgement, or derived from one */
} FigureOrigin;

/* low and high hold the middle 80 % of what is met in practice. */
typedef struct Figure {
    double value;
    double low;
    double high;
    FigureOrigin origin;
    const char *source; /* Borrowed: a key of docs/sources.md, or "" */
} Figure;

/* A figure without spread: low = value = high. */
Figure figure_exact(double value, FigureOrigin origin, const char *source);

const char *figure_origin_word(FigureOrigin origin); /* "book" ... */
NODISCARD Err figure_origin_parse(const char *word, FigureOrigin *out);

#endif
