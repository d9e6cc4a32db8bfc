/* Any text as the name and facts of a sum: an answer in order or a refusal,
 * and JSON of it. */
#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "json/json_sum.h"
#include "sums/table.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { FACTS_MAX = 32 };

static void check_value(const SumValue *value)
{
    assert(isfinite(value->value) && isfinite(value->low) &&
           isfinite(value->high));
    assert(value->low <= value->value && value->value <= value->high);
}

static void ask(const Sum *sum, const SumFact *facts, size_t count,
                Arena *arena)
{
    SumAnswer answer;
    Err err = sum_answer(sum, facts, count, arena, &answer);
    if (err.kind != ERR_OK) {
        assert(err.kind != ERR_DEFECT);
        assert(strlen(json_sum_error(&err, arena)) > 0);
        return;
    }
    check_value(&answer.main);
    for (int i = 0; i < answer.also_count; i++) {
        check_value(&answer.also[i]);
    }
    assert(strlen(json_sum(&answer)) > 0);
}

/* "name key=value ...": words without = are taken as the name. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    char *text = arena_copy_bytes(&arena, (const char *)data, size);
    const Sum *sum = NULL;
    SumFact facts[FACTS_MAX];
    size_t count = 0;
    while (*text && count < FACTS_MAX) {
        size_t length = strcspn(text, " ");
        char *word = arena_copy_bytes(&arena, text, length);
        char *equals = strchr(word, '=');
        if (equals) {
            *equals = '\0';
            facts[count++] = (SumFact){word, equals + 1};
        } else if (sum_find(word, &sum).kind != ERR_OK) {
            return 0;
        }
        text += length;
        text += strspn(text, " ");
    }
    if (sum) {
        ask(sum, facts, count, &arena);
    }
    return 0;
}
