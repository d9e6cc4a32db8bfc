/* What is foreseen as a page of text: one function a section. */
#ifndef LEAT_CLI_FORESEE_TEXT_H
#define LEAT_CLI_FORESEE_TEXT_H

#include <stdbool.h>
#include <stdio.h>

#include "work/foresight.h"

enum { FORESEE_DAY_SIZE = 16 };

/* "15 Mar", with ' behind it for an earlier year than the first week's and +
 * for a later one; "-" for DATE_NEVER. */
void foresee_print_day(const Foresight *foresight, int32_t day,
                       char out[FORESEE_DAY_SIZE]);

/* "2027-W09" of a week. */
void foresee_print_week(const Foresight *foresight, int week,
                        char out[FORESEE_DAY_SIZE]);

/* What goes past a limit, before all tables. */
void foresee_print_first(const Foresight *foresight, Arena *arena, FILE *out);

/* A loop's water, feed, ammonia and oxygen by week. */
void foresee_print_loop(const Foresight *foresight, int loop, FILE *out);

/* The tanks of a loop (FORESIGHT_ALL: of all) by week; empty ones left out. */
void foresee_print_tanks(const Foresight *foresight, int loop, Arena *arena,
                         FILE *out);

/* One tank by week, and what each batch has in it. */
void foresee_print_tank(const Foresight *foresight, int tank, Arena *arena,
                        FILE *out);

/* Fish batches: growth, and when they are ready. tank: those that swim there in
 * some week, or FORESIGHT_ALL. */
void foresee_print_batches(const Foresight *foresight, int tank, FILE *out);

/* Units by way and week. way: a row, or FORESIGHT_ALL. */
void foresee_print_picks(const Foresight *foresight, int way, Arena *arena,
                         FILE *out);

/* Stage dates of plant batches; where they are many and is_all is not set,
 * those with something to do in the first weeks. */
void foresee_print_stages(const Foresight *foresight, int way, bool is_all,
                          Arena *arena, FILE *out);

/* Days from setting to first pick of the way that was asked for. */
void foresee_print_way_days(const Foresight *foresight, Arena *arena,
                            FILE *out);

/* The typical year inside by month. */
void foresee_print_year(const Foresight *foresight, FILE *out);

#endif
