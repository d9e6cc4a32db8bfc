/* Readings just made: what they mean for the fish, what to stop, what to test
 * next. */
#ifndef LEAT_DESK_READING_H
#define LEAT_DESK_READING_H

#include "work/judge.h"

enum { READING_NOTICES_MAX = 6, READING_DOSES_MAX = 3 };

typedef struct ReadingQuestion {
    const char *dir;
    const char *tank;              /* id or NULL */
    const char *loop;              /* id or NULL */
    const char *at;                /* see desk/moment.h; NULL: now */
    int32_t today;                 /* DATE_ALWAYS: by the clock */
    double told[WATER_QUANTITIES]; /* NAN where not told */
} ReadingQuestion;

typedef struct ReadingAnswer {
    const char *where; /* "tank A", "loop loop-1", "all tanks"; in the arena, as
                          all of this */
    const char *when;
    Judge judge;
    double volume_m3;      /* of the water that is judged */
    double change_most_m3; /* fresh water at once, by chlorine and cold; NAN */
    JudgeDose doses[READING_DOSES_MAX];
    int dose_count;
    const char *dose_lacks; /* what a dose waits for; NULL */
    const char *notices[READING_NOTICES_MAX];
    int notice_count;
} ReadingAnswer;

/* ERR_USAGE: nothing told, a value out of range, tank and loop that do not go
 * together; ERR_NOT_FOUND: a tank or loop that the farm lacks. Faults in the
 * farm are told, not refused. */
NODISCARD Err reading_answer(const ReadingQuestion *question, Arena *arena,
                             ReadingAnswer *out);

/* The same, also where nothing is told but what stands in readings.csv, and
 * without the doses. */
NODISCARD Err reading_state(const ReadingQuestion *question, Arena *arena,
                            ReadingAnswer *out);

/* What a quantity may be told as. */
typedef struct ReadingRange {
    double least, most;
} ReadingRange;
ReadingRange reading_range(int quantity);

/* As JSON, see json/reading.h. */
const char *reading_answer_json(const ReadingAnswer *answer, Arena *arena);

#endif
