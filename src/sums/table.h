/* The one table of sums, by subject; and answering one of them.
 *
 * To add a sum: write its function and its row in the file of its subject
 * (sums/water.c and so on), with its keys, sources and an example. List, help,
 * documentation and tests are made from the table. */
#ifndef LEAT_SUMS_TABLE_H
#define LEAT_SUMS_TABLE_H

#include "sums/sum.h"

typedef struct SumSubject {
    const char *title; /* "Water" */
    const Sum *sums;   /* ends with a sum whose name is NULL */
} SumSubject;

/* All subjects, in the order of the list. */
const SumSubject *sum_subjects(size_t *out_count);

/* ERR_USAGE with the nearest name where there is none of that name. */
NODISCARD Err sum_find(const char *name, const Sum **out);

typedef struct SumFact {
    const char *key;
    const char *value;
} SumFact;

/* Checks the facts against the sum's keys and works it out. Texts of the
 * answer live in the arena; those of the facts are borrowed.
 *
 * ERR_USAGE: an unknown key (with the nearest), one given twice, one missing.
 * ERR_INPUT: a value that is not of the key's kind. ERR_RANGE: a value or an
 * answer beyond what the equation holds for. ERR_LIMIT: refused as dangerous.
 */
NODISCARD Err sum_answer(const Sum *sum, const SumFact *facts, size_t count,
                         Arena *arena, SumAnswer *out);

/* "0 to 40 degC", "2027-03-01": what a key expects. */
const char *sum_key_expects(const SumKey *key, Arena *arena);

/* "leat sum NAME key=value ..." of its example. */
const char *sum_example_line(const Sum *sum, Arena *arena);

#endif
