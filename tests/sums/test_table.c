/* The table of sums itself: every row is whole, its example runs, and each of
 * its keys refuses by name what is out of range. */
#include <stdio.h>

#include "ask.h"

#include "base/rng.h"

typedef void EachSum(const Sum *sum);

static int each_sum(EachSum *visit)
{
    size_t count = 0;
    int sums = 0;
    const SumSubject *subjects = sum_subjects(&count);
    for (size_t i = 0; i < count; i++) {
        for (const Sum *s = subjects[i].sums; s->name; s++) {
            visit(s);
            sums++;
        }
    }
    return sums;
}

static void row_is_whole(const Sum *sum)
{
    const Sum *found = NULL;
    assert_ok(sum_find(sum->name, &found));
    assert_ptr_equal(found, sum); /* names are unique */
    assert_true(strlen(sum->purpose) > 10 && strlen(sum->purpose) < 70);
    int count = 0;
    for (const SumKey *k = sum->keys; k->name; k++) {
        assert_true(strlen(k->meaning) > 2);
        bool is_number = k->kind == SUM_NUMBER || k->kind == SUM_COUNT;
        assert_true(!is_number || k->least < k->most);
        assert_true(!is_number || k->need != SUM_USUAL ||
                    (k->usual >= k->least && k->usual <= k->most));
        count++;
    }
    assert_true(count > 0 && count <= SUM_KEYS_MAX);
}

static void every_row_is_whole_and_its_name_is_its_own(void **state)
{
    (void)state;
    assert_true(each_sum(row_is_whole) >= 55);
}

static void values_are_in_order(const SumValue *value)
{
    assert_true(isfinite(value->value));
    assert_true(isfinite(value->low) && isfinite(value->high));
    assert_true(value->low <= value->value && value->value <= value->high);
    assert_true(strlen(value->name) > 0);
}

static void example_runs(const Sum *sum)
{
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    Err err = ask(sum->name, sum->example, &arena, &answer);
    if (err.kind != ERR_OK) {
        print_error("%s %s: %s\n", sum->name, sum->example, err.text);
        fail();
    }
    values_are_in_order(&answer.main);
    for (int i = 0; i < answer.also_count; i++) {
        values_are_in_order(&answer.also[i]);
    }
    assert_true(answer.working_count > 0);
    /* What a shell would take for itself has no place in an example. */
    assert_null(strpbrk(sum->example, "()*&|;<>$'\""));
}

static void every_example_runs(void **state)
{
    (void)state;
    each_sum(example_runs);
}

/* The example with one key's value replaced, or that key added. */
static Err ask_with(const Sum *sum, const char *key, const char *value,
                    Arena *arena)
{
    SumFact facts[ASK_FACTS];
    size_t count = ask_facts(sum->example, arena, facts);
    size_t at = count;
    for (size_t i = 0; i < count; i++) {
        at = strcmp(facts[i].key, key) == 0 ? i : at;
    }
    facts[at] = (SumFact){key, value};
    SumAnswer answer;
    return sum_answer(sum, facts, at == count ? count + 1 : count, arena,
                      &answer);
}

static void is_refused(const Sum *sum, const char *key, const char *value,
                       ErrKind kind)
{
    CLEANUP(arena_release) Arena arena = {0};
    Err err = ask_with(sum, key, value, &arena);
    if (err.kind != kind || !strstr(err.text, key)) {
        print_error("%s %s=%s: kind %d, \"%s\"\n", sum->name, key, value,
                    (int)err.kind, err.text);
        fail();
    }
}

static void keys_are_guarded(const Sum *sum)
{
    for (const SumKey *k = sum->keys; k->name; k++) {
        char low[40];
        char high[40];
        snprintf(low, sizeof low, "%.17g", k->least - 1.0);
        snprintf(high, sizeof high, "%.17g", k->most + 1.0);
        is_refused(sum, k->name, "", ERR_INPUT);
        switch (k->kind) {
        case SUM_NUMBER:
        case SUM_COUNT:
        case SUM_FLAG:
            is_refused(sum, k->name, low, ERR_RANGE);
            is_refused(sum, k->name, high, ERR_RANGE);
            is_refused(sum, k->name, "nan", ERR_INPUT);
            is_refused(sum, k->name, "12,5", ERR_INPUT);
            break;
        case SUM_DATE:
            is_refused(sum, k->name, "2027-02-30", ERR_INPUT);
            break;
        case SUM_INSTANT:
            is_refused(sum, k->name, "2027-06-14T19:30", ERR_INPUT);
            break;
        case SUM_WORD:
            break;
        }
    }
}

static void each_key_refuses_by_name_what_is_out_of_range(void **state)
{
    (void)state;
    each_sum(keys_are_guarded);
}

/* At the ends of every key's range there is an answer or a refusal, never a
 * crash, and every number told is finite and in order. */
static void ends_hold(const Sum *sum)
{
    for (const SumKey *k = sum->keys; k->name; k++) {
        for (int end = 0; end < 2; end++) {
            if (k->kind != SUM_NUMBER && k->kind != SUM_COUNT) {
                continue;
            }
            CLEANUP(arena_release) Arena arena = {0};
            char value[40];
            snprintf(value, sizeof value, "%.17g", end ? k->most : k->least);
            SumFact facts[ASK_FACTS];
            size_t count = ask_facts(sum->example, &arena, facts);
            size_t at = count;
            for (size_t i = 0; i < count; i++) {
                at = strcmp(facts[i].key, k->name) == 0 ? i : at;
            }
            facts[at] = (SumFact){k->name, value};
            SumAnswer answer;
            Err err = sum_answer(sum, facts, at == count ? count + 1 : count,
                                 &arena, &answer);
            if (err.kind == ERR_OK) {
                values_are_in_order(&answer.main);
                for (int i = 0; i < answer.also_count; i++) {
                    values_are_in_order(&answer.also[i]);
                }
            }
        }
    }
}

static void at_the_ends_of_ranges_nothing_breaks(void **state)
{
    (void)state;
    each_sum(ends_hold);
}

/* A value within a key's range: even, or even in its logarithm, or an end. */
static const char *random_value(const SumKey *key, Rng *rng, Arena *arena)
{
    double at = rng_f64(rng);
    double kind = rng_f64(rng);
    double span = key->most - key->least;
    double value = key->least + at * span;
    if (kind < 0.4) {
        value = key->least + span * pow(10.0, -6.0 * at);
    } else if (kind < 0.5) {
        value = at < 0.5 ? key->least : key->most;
    }
    if (key->kind != SUM_NUMBER) {
        value = floor(value);
    }
    return arena_text(arena, "%.17g", fmin(key->most, value));
}

static void ask_at_random(const Sum *sum, Rng *rng)
{
    CLEANUP(arena_release) Arena arena = {0};
    SumFact example[ASK_FACTS];
    size_t shown = ask_facts(sum->example, &arena, example);
    SumFact facts[ASK_FACTS];
    size_t count = 0;
    for (const SumKey *k = sum->keys; k->name; k++) {
        bool is_number = k->kind == SUM_NUMBER || k->kind == SUM_COUNT ||
                         k->kind == SUM_FLAG;
        if (is_number && (k->need == SUM_REQUIRED || rng_f64(rng) < 0.5)) {
            facts[count++] = (SumFact){k->name, random_value(k, rng, &arena)};
        }
        for (size_t i = 0; i < shown && !is_number; i++) {
            if (strcmp(example[i].key, k->name) == 0) {
                facts[count++] = example[i];
            }
        }
    }
    SumAnswer answer;
    Err err = sum_answer(sum, facts, count, &arena, &answer);
    if (err.kind == ERR_OK) {
        values_are_in_order(&answer.main);
        for (int i = 0; i < answer.also_count; i++) {
            values_are_in_order(&answer.also[i]);
        }
    } else {
        assert_int_not_equal(err.kind, ERR_DEFECT);
        assert_true(strlen(err.text) > 10);
    }
}

static void random_questions_hold(const Sum *sum)
{
    enum { QUESTIONS = 300 };
    Rng rng = rng_make(20270301, strlen(sum->name));
    for (int i = 0; i < QUESTIONS; i++) {
        ask_at_random(sum, &rng);
    }
}

static void random_questions_are_answered_or_refused(void **state)
{
    (void)state;
    each_sum(random_questions_hold);
}

static void what_is_misspelt_is_told_its_neighbour(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Sum *sum = NULL;
    SumAnswer answer;
    assert_err(sum_find("unionised-amonia", &sum), ERR_USAGE,
               "did you mean unionised-ammonia?");
    assert_err(ask("trays", "seed=10 cells=72", &arena, &answer), ERR_USAGE,
               "did you mean seeds?");
    assert_err(ask("trays", "seeds=10", &arena, &answer), ERR_USAGE,
               "cells= is missing");
    assert_err(ask("trays", "seeds=10 seeds=11 cells=72", &arena, &answer),
               ERR_USAGE, "seeds= is given twice");
    assert_err(ask("trays", "seeds=10.5 cells=72", &arena, &answer), ERR_INPUT,
               "seeds=10.5 is not a whole number");
}

static void dates_beyond_the_calendar_are_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    SumAnswer answer;
    assert_err(ask("sow-date",
                   "deliver_on=1900-02-01 bed_days=30 "
                   "nursery_days=21",
                   &arena, &answer),
               ERR_RANGE, "between 1900 and 2199");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_is_whole_and_its_name_is_its_own),
        cmocka_unit_test(every_example_runs),
        cmocka_unit_test(each_key_refuses_by_name_what_is_out_of_range),
        cmocka_unit_test(at_the_ends_of_ranges_nothing_breaks),
        cmocka_unit_test(random_questions_are_answered_or_refused),
        cmocka_unit_test(what_is_misspelt_is_told_its_neighbour),
        cmocka_unit_test(dates_beyond_the_calendar_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
