/* What one move of the search costs on farms of 50, 500 and 5,000 beds: it
 * should not grow with the beds. */
#include <stdio.h>
#include <time.h>

#include "plan/generate.h"
#include "plan/search.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void measure(int beds, int tanks)
{
    Arena arena = {0};
    GenerateCase farm = generate_case(beds, 1);
    Problem problem;
    farm.tanks = tanks;
    generate_problem(&arena, &farm, &problem);
    static const int64_t MOVES = 200000;
    SearchSetup setup = {.seed = 1, .moves = MOVES};
    Search *search = search_open(&arena, &problem, &setup);
    double from = seconds();
    while (search_step(search)) {
    }
    double ns = 1e9 * (seconds() - from) / (double)MOVES;
    printf("%5d beds, %2d tanks a loop: %6.0f ns a move\n", beds, tanks, ns);
    fflush(stdout);
    arena_release(&arena);
}

int main(void)
{
    static const int BEDS[] = {50, 500, 5000};
    for (int tanks = 0; tanks <= 4; tanks += 4) {
        for (int i = 0; i < 3; i++) {
            measure(BEDS[i], tanks);
        }
    }
    return 0;
}
