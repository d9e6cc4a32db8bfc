/* Possible years as text. */
#ifndef LEAT_CLI_YEARS_TEXT_H
#define LEAT_CLI_YEARS_TEXT_H

#include <stdio.h>

#include "desk/years.h"

/* is_all: every week and every order, not each fourth week and those least
 * sure. */
void years_text_print(const YearsAnswer *answer, bool is_all, Arena *arena,
                      FILE *out);

#endif
