/* Heavy work in child processes: this same program as `leat child`.
 *
 * A child reads its problem (JSON) to the end of its input, may write lines of
 * progress, and writes its answer as the last line. The answers come back in
 * the order of the jobs, whatever the order in which children end, so that the
 * outcome does not depend on the number of cores. */
#ifndef LEAT_DESK_CHILD_POOL_H
#define LEAT_DESK_CHILD_POOL_H

#include <signal.h>

#include "base/arena.h"
#include "base/err.h"

typedef struct ChildJob {
    const char *problem; /* Borrowed: what the child reads */
    const char *answer;  /* out: the last line it wrote, without newline */
} ChildJob;

/* Called for every line but the last; job is its number. */
typedef void ChildProgress(void *context, int job, const char *line);

typedef struct ChildPool {
    int at_once;             /* children at one time, at least 1 */
    ChildProgress *progress; /* NULL: lines are dropped */
    void *context;
    /* Once this is not 0 each child is asked (SIGINT) to answer with the best
     * it has; the pool still waits for the answers. NULL: never. */
    const volatile sig_atomic_t *stop;
} ChildPool;

/* Runs all jobs. ERR_IO where a child cannot be started, ERR_DEFECT where one
 * crashed or gave no answer; then all others are ended first. */
NODISCARD Err child_pool_run(const ChildPool *pool, ChildJob *jobs, int count,
                             Arena *arena);

/* Cores that this process may use, at least 1. */
int child_pool_cores(void);

#endif
