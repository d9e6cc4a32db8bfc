/* What a child that works does: one question in, progress and one answer out;
 * with a plan it then waits, and accepts it if it is told to. */
#ifndef LEAT_HTTP_WORK_CHILD_H
#define LEAT_HTTP_WORK_CHILD_H

#include <stdint.h>

#include "base/err.h"

/* The first part of a message, both ways. */
#define WORK_SAYS_PROGRESS "progress" /* share done, value */
#define WORK_SAYS_ANSWER "answer"     /* JSON */
#define WORK_SAYS_ERROR "error"       /* kind's number, text */
#define WORK_SAYS_ACCEPTED "accepted" /* */
#define WORK_ASKS_ACCEPT "accept"     /* */

/* Reads the question (JSON, one message) from descriptor in, writes to out.
 * SIGINT: answers with the best it has. Dies with its parent. today:
 * DATE_ALWAYS by the clock. */
NODISCARD Err work_child_serve(const char *dir, int32_t today, int in, int out);

#endif
