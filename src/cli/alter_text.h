/* A plan changed by hand, and two plans side by side, as pages of text. */
#ifndef LEAT_CLI_ALTER_TEXT_H
#define LEAT_CLI_ALTER_TEXT_H

#include <stdio.h>

#include "desk/alter.h"

/* dir: as it was typed. */
void alter_text_print(const AlterAnswer *answer, const char *dir, FILE *out);

/* is_all: all batches and steps that differ, not only the first. */
void compare_text_print(const CompareAnswer *answer, bool is_all, FILE *out);

#endif
