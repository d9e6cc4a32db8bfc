/* The day's sheets for paper: what the round tells, as rows in walking order
 * with boxes to tick and blanks to fill, numbered so that a filled sheet is
 * keyed back in the same order. */
#ifndef LEAT_WORK_SHEETS_H
#define LEAT_WORK_SHEETS_H

#include "base/tongue.h"
#include "work/round.h"

/* The list is laid out by hand. Kind; word; title. */
/* clang-format off */
#define SHEET_KINDS(X)                                                         \
    X(SHEET_ROUND, "round", SAY("Round"))                                           \
    X(SHEET_FEED, "feed", SAY("Feed"))                                              \
    X(SHEET_WATER, "water", SAY("Water"))                                           \
    X(SHEET_PICK, "pick", SAY("Picking"))                                           \
    X(SHEET_SOW, "sow", SAY("Sowing"))
/* clang-format on */

typedef enum SheetKind {
#define SHEET_ENUM(kind, ...) kind,
    SHEET_KINDS(SHEET_ENUM)
#undef SHEET_ENUM
        SHEET_KIND_COUNT
} SheetKind;

const char *sheet_kind_word(SheetKind kind);
const char *sheet_kind_title(SheetKind kind);

/* What is drawn beside the words, for those who do not read them. */
typedef enum SheetPicture {
    PICTURE_NONE,
    PICTURE_EYE,
    PICTURE_FISH,
    PICTURE_DROP,
    PICTURE_LEAF,
    PICTURE_FRUIT,
    PICTURE_FLOWER,
    PICTURE_SEED,
} SheetPicture;

/* A box to tick (fill NULL) or a blank to write a number in. */
typedef struct SheetField {
    const char *label; /* "degC", "dead", "meal 1" */
    const char *fill;  /* the key of the entry that the number becomes */
    const char *usual; /* what stands in small print: "391", "about 20.5"; "" */
    Told entry;        /* as it is keyed, but for that number; a box that only
                          marks part of another's entry has no kind: -1 */
} SheetField;

enum { SHEET_FIELDS_MOST = 9 };

typedef struct SheetRow {
    int32_t number;    /* from 1 through the sheet; 0: a heading */
    const char *stop;  /* id */
    const char *plate; /* the id painted on the thing: "A", "H1-S3"; "" */
    SheetPicture picture;
    const char *text;
    const char *note; /* "" none */
    SheetField fields[SHEET_FIELDS_MOST];
    int field_count;
} SheetRow;

typedef struct Sheet {
    SheetKind kind;
    SheetRow *rows; /* Owned by the arena. */
    int32_t count;
    bool has_caution[CAUTION_COUNT];
    const char *const *warnings; /* what must be read first */
    int32_t warning_count;
} Sheet;

typedef struct SheetsAsk {
    const Farm *farm; /* Borrowed, as all of these. */
    const Round *round;
} SheetsAsk;

void sheet_make(const SheetsAsk *ask, SheetKind kind, Arena *arena, Sheet *out);

#endif
