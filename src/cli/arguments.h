/* What was typed after a command's name, sorted and checked by its specs.
 *
 *     leat COMMAND WORD ... key=value ... --option [value]
 *
 * Facts about the farm or the question are key=value; how the run goes is an
 * option. Their order is free, each is given at most once. "--option=value"
 * is the same as "--option value". After "--" everything is a word, so that a
 * folder may have any name. What a spec does not name is ERR_USAGE, with the
 * nearest name that it does. */
#ifndef LEAT_CLI_ARGUMENTS_H
#define LEAT_CLI_ARGUMENTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

/* One word, fact or option that a command takes. Lists end with a spec whose
 * name is NULL. */
typedef struct ArgumentSpec {
    const char *name;    /* "DIR", "product", "week" (without its dashes) */
    const char *value;   /* shown in help: "2027-W14"; NULL: a flag or word */
    const char *meaning; /* one line */
    bool is_required;    /* words and facts only */
} ArgumentSpec;

typedef struct ArgumentSpecs {
    const ArgumentSpec *words;   /* in order; NULL for none */
    const ArgumentSpec *facts;   /* NULL for none */
    const ArgumentSpec *options; /* NULL for none */
    bool takes_any_fact;         /* the command checks its keys itself */
} ArgumentSpecs;

typedef struct ArgumentFact {
    const char *key;
    const char *value;
} ArgumentFact;

typedef struct Arguments {
    const ArgumentSpecs *specs; /* Borrowed from the table of commands. */
    Arena *arena;               /* Borrowed: lives as long as the process */
    const char **words;         /* Borrowed from the command line, as below. */
    size_t word_count;
    ArgumentFact *facts; /* in the order typed */
    size_t fact_count;
    ArgumentFact *options; /* a flag's value is "" */
    size_t option_count;
    bool is_help; /* --help was among them; nothing else was checked */
} Arguments;

/* texts: the count arguments after the command's name. */
NODISCARD Err arguments_parse(const ArgumentSpecs *specs, size_t count,
                              char *const *texts, Arena *arena, Arguments *out);

/* The word at that place, the fact of that key, the option's value ("" for a
 * flag); NULL where it was not given. Asking for an option that is not in the
 * specs is a defect. */
const char *arguments_word(const Arguments *arguments, size_t place);
const char *arguments_fact(const Arguments *arguments, const char *key);
const char *arguments_option(const Arguments *arguments, const char *name);

/* Whether the command has an option of that name. */
bool arguments_takes(const Arguments *arguments, const char *name);
bool arguments_has(const Arguments *arguments, const char *name);

/* An option as a whole number from min to max (*out is left as it is where
 * the option was not given), or as a day. Faults are ERR_USAGE. */
NODISCARD Err arguments_integer(const Arguments *arguments, const char *name,
                                int64_t min, int64_t max, int64_t *out);
NODISCARD Err arguments_day(const Arguments *arguments, const char *name,
                            int32_t *out);

/* A fact as a day, or as a number; *out is left as it is where the fact was not
 * given. ERR_USAGE names the key and the value. */
NODISCARD Err arguments_fact_day(const Arguments *arguments, const char *key,
                                 int32_t *out);
NODISCARD Err arguments_fact_number(const Arguments *arguments, const char *key,
                                    double *out);

#endif
