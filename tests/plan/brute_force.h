/* The best plan of a problem so small that every plan can be tried. */
#ifndef LEAT_TESTS_BRUTE_FORCE_H
#define LEAT_TESTS_BRUTE_FORCE_H

#include "plan/generate.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* One bed in each of two kinds, two sections, one way, no fish, few weeks. */
GenerateCase brute_force_case(uint64_t seed);

/* The best of all plans that pass the checker. Returns how many were tried. */
int brute_force(const Problem *problem, Arena *arena, PlanSolution *out);

#endif
