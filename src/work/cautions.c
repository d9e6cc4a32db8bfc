/* What may hurt in a piece of work, short and in full. */
#include "work/cautions.h"

typedef struct CautionRow {
    const char *in_short;
    const char *text;
} CautionRow;

static const CautionRow ROWS[CAUTION_COUNT] = {
#define CAUTION_ROW(name, ...) [name] = {__VA_ARGS__},
    CAUTIONS(CAUTION_ROW)
#undef CAUTION_ROW
};

const char *caution_short(Caution caution)
{
    return ROWS[caution].in_short;
}

const char *caution_text(Caution caution)
{
    return ROWS[caution].text;
}
