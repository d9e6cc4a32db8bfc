/* Faults and notices found in a farm's tables: all counted, the first kept.
 *
 * A fault stops the farm from being used; a notice does not. A doubt is a
 * notice about a value that can be right but looks like a slip of the pen. Text
 * is owned by the arena that the list was begun with. */
#ifndef LEAT_FARM_FAULTS_H
#define LEAT_FARM_FAULTS_H

#include <stdarg.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

enum { FAULTS_USUAL_LIMIT = 1000 };

/* Where something stands. */
typedef struct FaultPlace {
    const char *file; /* Borrowed: "beds.csv", or the folder itself. */
    int32_t line;     /* 1 is the header; 0 when no line is meant */
    int32_t column;   /* 1-based cell of the row; 0 when no cell is meant */
} FaultPlace;

typedef struct Fault {
    FaultPlace place;
    const char *value;    /* what stands there; "" when nothing does */
    const char *expected; /* what should stand there instead; else what is
                             told */
    bool is_doubt;        /* of a notice: asked whether the value is right */
} Fault;

typedef struct Faults {
    Arena *arena; /* Borrowed. */
    Fault *items; /* the first kept_count of count, then in file order */
    int64_t count;
    int32_t kept_count;
    int32_t room;
    int32_t limit;  /* of items kept */
    Fault *notices; /* the first notice_count of notice_total */
    int32_t notice_count;
    int32_t notice_room;
    int64_t notice_total; /* doubts among them */
    int64_t doubt_total;
} Faults;

void faults_init(Faults *faults, Arena *arena, int32_t limit);

/* Counts a fault and keeps it while there is room below the limit; expected is
 * a printf format. value may be NULL or long; it is cut to what fits a line. */
void faults_add(Faults *faults, FaultPlace place, const char *value,
                const char *expected, ...) PRINTF_LIKE(4, 5);
void faults_notice(Faults *faults, FaultPlace place, const char *value,
                   const char *text, ...) PRINTF_LIKE(4, 5);

/* A notice that asks whether value is right. */
void faults_doubt_list(Faults *faults, FaultPlace place, const char *value,
                       const char *text, va_list args) PRINTF_LIKE(4, 0);

/* The same with the format's values in a list. */
void faults_add_list(Faults *faults, FaultPlace place, const char *value,
                     const char *expected, va_list args) PRINTF_LIKE(4, 0);
void faults_notice_list(Faults *faults, FaultPlace place, const char *value,
                        const char *text, va_list args) PRINTF_LIKE(4, 0);

/* True while a further fault would be kept: what it costs to say more than
 * where it stands is worth it only then. */
bool faults_has_room(const Faults *faults);

/* Sorts what is kept, faults and notices apart, by file, line and column;
 * faults of one place stay in the order in which they were found. */
void faults_sort(Faults *faults);

#endif
