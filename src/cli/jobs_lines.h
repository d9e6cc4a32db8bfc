/* The jobs of a day as lines: one a job where it can be, by stop in walking
 * order, minutes and people at the right. */
#ifndef LEAT_CLI_JOBS_LINES_H
#define LEAT_CLI_JOBS_LINES_H

#include <stdio.h>

#include "desk/jobs.h"

typedef struct JobsPage {
    const JobsAnswer *answer;
    Arena *arena;
    FILE *out;
    int columns;
    bool is_brief_told; /* the few words of how, for every job; else only where
                           nothing can be done without them */
    bool is_glance;     /* all of one kind at a stop on one line, amounts by bed
                           only     where they are few */
    bool is_told[CAUTION_COUNT]; /* said on this page already */
} JobsPage;

/* Of the terminal that out is, 60 to 120; 80 where it is none. */
int jobs_page_columns(FILE *out);

/* Text in lines, the first behind head, all others indented by its width. */
void jobs_print_wrapped(const JobsPage *page, const char *head,
                        const char *text);

/* The same with a tail at the right of the first line. */
void jobs_print_between(const JobsPage *page, const char *head,
                        const char *text, const char *tail);

/* A person's first name where no other has it, else the whole. */
const char *jobs_short_name(const JobsPage *page, int hand);

/* Each caution in short at the first job of the page that it concerns. */
void jobs_print_day(JobsPage *page, int32_t day);

#endif
