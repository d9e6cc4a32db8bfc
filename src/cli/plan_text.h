/* The year's plan as a page of text. */
#ifndef LEAT_CLI_PLAN_TEXT_H
#define LEAT_CLI_PLAN_TEXT_H

#include <stdio.h>

#include "desk/plan_year.h"

/* All of it but the ceiling, which is printed when it comes. */
void plan_text_print(const PlanYear *year, FILE *out);

/* What else an acceptance wrote: tables that tell another day now; nothing
 * where it wrote the plan alone. */
void plan_text_accepted(const PlanYear *year, FILE *out);

/* What it changes of the accepted plan, and why. */
void plan_text_change(const PlanYear *year, FILE *out);

/* The ceiling, what binds, and what one more would earn. */
void plan_text_ceiling(const PlanYear *year, FILE *out);

#endif
