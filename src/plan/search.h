/* The search for a good plan: annealing on a plan under search
 * (plan/state.h), from an empty plan or from a given one.
 *
 * search_open, then search_step until it says that it is done, then
 * search_take. Between steps a caller may watch, and may stop: what search_take
 * gives is the best plan met. The same problem, seed, start and moves give the
 * same bytes. Starts are independent of each other: a caller runs starts 0, 1,
 * 2 ... side by side and keeps the best, the lowest number among equals. */
#ifndef LEAT_PLAN_SEARCH_H
#define LEAT_PLAN_SEARCH_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

typedef struct Search Search;

typedef struct SearchSetup {
    uint64_t seed;
    int start;                /* number of this start, from 0 */
    int64_t moves;            /* 0: search_default_moves */
    const PlanSolution *from; /* Borrowed; NULL: from an empty plan. Its
                                 stores are taken over where its outcome
                                 has them */
    int keep_weeks;           /* choices before this week stay as in from */
} SearchSetup;

typedef struct SearchProgress {
    int64_t moves;
    int64_t moves_all;
    double value; /* of the present plan, sales by the search's own rule */
    double best;
} SearchProgress;

/* Moves that a farm of this size deserves. */
int64_t search_default_moves(const Problem *problem);

/* All memory is taken here; the problem stays in use. */
Search *search_open(Arena *arena, const Problem *problem,
                    const SearchSetup *setup);

/* Some more moves (a few milliseconds); false when all are done. */
bool search_step(Search *search);

SearchProgress search_progress(const Search *search);

/* How many choices of setup.from did not fit and were left out. */
int search_refused(const Search *search);

/* The best plan met, choices only (its outcome is for plan_evaluate). Its value
 * by the search's own rule, or less than any plan's when limits that the search
 * could not mend are broken: out_faults is then above 0. */
double search_take(Search *search, Arena *arena, PlanSolution *out,
                   double *out_faults);

#endif
