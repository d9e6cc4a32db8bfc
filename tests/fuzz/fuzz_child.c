/* Any bytes as what goes to a child and what comes back: read, or one error.
 * What is read is written and read again the same. */
#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "json/json_child.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void read_question(const char *text, Arena *arena)
{
    ChildQuestion question;
    if (json_child_question_read(text, arena, &question).kind != ERR_OK) {
        return;
    }
    assert(question.weeks > 0 && question.moves >= 0 && question.start >= 0);
    const char *once = json_child_question(&question, arena);
    ChildQuestion again;
    Err err = json_child_question_read(once, arena, &again);
    assert(err.kind == ERR_OK);
    assert(strcmp(json_child_question(&again, arena), once) == 0);
}

static void read_choices(const char *text, Arena *arena)
{
    PlanSolution solution;
    if (json_child_choices_read(text, arena, &solution).kind != ERR_OK) {
        return;
    }
    assert(isfinite(solution.outcome.value));
    const char *once = json_child_choices(&solution, arena);
    PlanSolution again;
    Err err = json_child_choices_read(once, arena, &again);
    assert(err.kind == ERR_OK);
    assert(again.placement_count == solution.placement_count);
    assert(again.run_count == solution.run_count);
    assert(strcmp(json_child_choices(&again, arena), once) == 0);
}

static void read_ceiling(const char *text, Arena *arena)
{
    PlanCeiling ceiling;
    if (json_child_ceiling_read(text, arena, &ceiling).kind != ERR_OK) {
        return;
    }
    const char *once = json_child_ceiling(&ceiling, arena);
    PlanCeiling again;
    Err err = json_child_ceiling_read(once, arena, &again);
    assert(err.kind == ERR_OK);
    assert(strcmp(json_child_ceiling(&again, arena), once) == 0);
}

static void read_progress(const char *text)
{
    double done_frac = -1.0;
    double value = 0.0;
    if (json_child_progress_read(text, &done_frac, &value)) {
        assert(isfinite(done_frac) && isfinite(value));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    const char *text = arena_copy_bytes(&arena, (const char *)data, size);
    read_question(text, &arena);
    read_choices(text, &arena);
    read_ceiling(text, &arena);
    read_progress(text);
    return 0;
}
