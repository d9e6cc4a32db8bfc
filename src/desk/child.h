/* What a child process does: one question in, progress and one answer out. */
#ifndef LEAT_DESK_CHILD_H
#define LEAT_DESK_CHILD_H

#include <stdio.h>

#include "base/err.h"

/* Reads the question from in to its end and writes the answer on out, one line
 * of JSON, an error as {"error":..}. SIGINT makes it answer with the best it
 * has. An error is returned only where in or out fail. */
NODISCARD Err child_serve(FILE *in, FILE *out);

#endif
