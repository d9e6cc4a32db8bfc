/* What readings mean, as text. */
#ifndef LEAT_CLI_READING_TEXT_H
#define LEAT_CLI_READING_TEXT_H

#include <stdio.h>

#include "desk/reading.h"

void reading_print(const ReadingAnswer *answer, Arena *arena, FILE *out);

#endif
