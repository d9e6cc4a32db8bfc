/* Facts that are numbers. */
#include "cli/water_facts.h"

#include <math.h>

#include "base/text.h"
#include "farm/records.h"

Err facts_number(const Arguments *arguments, const char *key, double *out)
{
    const char *text = arguments_fact(arguments, key);
    *out = NAN;
    if (!text) {
        return ERR_NONE;
    }
    Err err = text_to_f64(text, out);
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(ERR_USAGE, "%s=%.60s: expected a number", key, text);
}

Err facts_readings(const Arguments *arguments, double *out_told)
{
    const WordList *words = &FARM_WORDS[WORDS_QUANTITIES];
    for (int q = 0; q < words->count; q++) {
        TRY(facts_number(arguments, words->words[q], &out_told[q]));
    }
    return ERR_NONE;
}
