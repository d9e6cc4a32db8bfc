/* Asks a sum as a person would type it. */
#ifndef LEAT_TESTS_SUMS_ASK_H
#define LEAT_TESTS_SUMS_ASK_H

#include "check.h"

#include "sums/table.h"

enum { ASK_FACTS = 24 };

/* "a=1 b=2" to facts in the arena. */
static inline size_t ask_facts(const char *line, Arena *arena,
                               SumFact out[ASK_FACTS])
{
    size_t count = 0;
    while (*line) {
        size_t length = strcspn(line, " ");
        char *item = arena_copy_bytes(arena, line, length);
        char *equals = strchr(item, '=');
        assert_non_null(equals);
        assert_true(count < ASK_FACTS);
        *equals = '\0';
        out[count++] = (SumFact){item, equals + 1};
        line += length;
        line += strspn(line, " ");
    }
    return count;
}

static inline Err ask(const char *name, const char *line, Arena *arena,
                      SumAnswer *out)
{
    const Sum *sum = NULL;
    TRY(sum_find(name, &sum));
    SumFact facts[ASK_FACTS];
    size_t count = ask_facts(line, arena, facts);
    return sum_answer(sum, facts, count, arena, out);
}

/* The main value, or the other of that name. */
static inline const SumValue *ask_value(const SumAnswer *answer,
                                        const char *name)
{
    if (!name) {
        return &answer->main;
    }
    for (int i = 0; i < answer->also_count; i++) {
        if (strcmp(answer->also[i].name, name) == 0) {
            return &answer->also[i];
        }
    }
    print_error("%s has no \"%s\"\n", answer->inputs.sum->name, name);
    fail();
    return NULL;
}

static inline bool ask_says(const SumAnswer *answer, const char *words)
{
    for (int i = 0; i < answer->caution_count; i++) {
        if (strstr(answer->cautions[i], words)) {
            return true;
        }
    }
    for (int i = 0; i < answer->working_count; i++) {
        if (strstr(answer->working[i], words)) {
            return true;
        }
    }
    return false;
}

#endif
