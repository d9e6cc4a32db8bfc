/* The farm as it stands on a day: the folder's tables, and what was told since
 * (leat.db beside them), for every command and page that asks about today.
 *
 * Where nothing was told the tables are given as they are, and whoever follows
 * them takes the plan as done. Where something was, the standing tables are
 * those of the day, the accepted plan follows them (steps told or over are
 * gone, lanes of fish are drawn anew in the tanks where they stand), and
 * readings told replace the readings table. */
#ifndef LEAT_DESK_FARM_TODAY_H
#define LEAT_DESK_FARM_TODAY_H

#include "journal/state.h"

enum { FARM_TODAY_NOTICES_MAX = 4 };

typedef struct FarmToday {
    const Farm *farm;    /* as of day. Borrowed from the arena, as all of this;
                            without a journal the tables as they are */
    const Farm *opening; /* the tables as they are */
    int32_t day;         /* asked for; else today by the clock, or the first day
                            that the tables describe where that lies ahead */
    bool has_journal;    /* something was told that changes the state, or a
                            reading */
    const JournalState *state; /* NULL without a journal; its farm has the
                                  plan's moves of fish as they were accepted,
                                  for planning anew */
    int64_t newest;            /* number of the newest entry; 0: none */
    const char *notices[FARM_TODAY_NOTICES_MAX];
    int notice_count;
} FarmToday;

/* ERR_INPUT for a farm with faults; ERR_IO where leat.db is damaged. */
NODISCARD Err farm_today_read(const char *dir, int32_t day, Arena *arena,
                              FarmToday *out);

/* The same as the day begins: what was told for the day itself is left out, so
 * that its work still stands in the list and can be ticked. */
NODISCARD Err farm_today_morning(const char *dir, int32_t day, Arena *arena,
                                 FarmToday *out);

/* The same for tables that were read already (and may have faults: then only
 * readings are told). */
NODISCARD Err farm_today_of(const char *dir, const Farm *opening, int32_t day,
                            Arena *arena, FarmToday *out);

/* The same for tables that passed the check. */
NODISCARD Err farm_today_sound(const char *dir, const Farm *opening,
                               int32_t day, Arena *arena, FarmToday *out);

/* The day that is meant: the one asked for, or as told above. */
int32_t farm_today_day(const Farm *farm, int32_t asked);

/* The mark of a farm's tables, the plan's among them: a change of any of them
 * changes it. */
const char *farm_today_mark(const Farm *farm, Arena *arena);

#endif
