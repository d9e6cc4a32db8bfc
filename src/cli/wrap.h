/* Text in lines, cut at spaces. */
#ifndef LEAT_CLI_WRAP_H
#define LEAT_CLI_WRAP_H

#include <stdio.h>

typedef struct Wrap {
    int columns; /* most in a line */
    int first;   /* spaces before the first line */
    int further; /* and before the others */
} Wrap;

/* A word longer than a line stands whole in a line of its own. Nothing is
 * printed for an empty text. */
void wrap_print(const char *text, const Wrap *wrap, FILE *out);

#endif
