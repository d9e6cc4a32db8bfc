/* The jobs as pages of text: a day at a glance, a whole week, the load list. */
#ifndef LEAT_CLI_JOBS_TEXT_H
#define LEAT_CLI_JOBS_TEXT_H

#include "cli/jobs_lines.h"

/* What is big or odd this week, the day, a line for each day after it. */
void jobs_text_day(JobsPage *page);

/* What is big or odd, who has how many hours, all days. */
void jobs_text_week(JobsPage *page);

/* What goes in the van: by delivery day and buyer; of the answer's day alone
 * where is_day. */
void jobs_text_loads(JobsPage *page, bool is_day);

/* All cautions of the week's jobs in full. */
void jobs_text_cautions(JobsPage *page);

#endif
