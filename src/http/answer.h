/* What a helper does: requests in, replies out, one after the other, until its
 * input ends. */
#ifndef LEAT_HTTP_ANSWER_H
#define LEAT_HTTP_ANSWER_H

#include "base/err.h"

/* Reads messages from descriptor in, writes to out. Dies with its parent. */
NODISCARD Err answer_serve(const char *dir, int in, int out);

#endif
