/* A farm for questions that must be answered tonight, faults or not. */
#ifndef LEAT_DESK_ANY_FARM_H
#define LEAT_DESK_ANY_FARM_H

#include "desk/check_farm.h"
#include "farm/book.h"
#include "sim/climate_year.h"

typedef struct AnyFarm {
    const Farm *farm;           /* Borrowed from the arena, as all of this;
                                   rows of readings at fault are left out */
    const Book *book;           /* with the farm's own figures where it is
                                   sound */
    const ClimateYear *climate; /* NULL: the farm has faults */
    int64_t fault_count;
    const char *notice;  /* what the faults mean for the answer; NULL: none */
    const char *journal; /* why what was told is left out; NULL: it is not */
} AnyFarm;

/* As of today (DATE_ALWAYS: farm_today_day), with what was told. An error only
 * where the folder itself cannot be read. */
NODISCARD Err any_farm_read(const char *dir, int32_t today, Arena *arena,
                            AnyFarm *out);

/* A row of a table by its id; ERR_NOT_FOUND names what there is. ids: count of
 * them, in the table's order. */
typedef struct AnyIds {
    const char *what; /* "pump" */
    const char **ids; /* Borrowed. */
    int32_t count;
} AnyIds;
NODISCARD Err any_farm_find(const AnyIds *ids, const char *id, Arena *arena,
                            int32_t *out);

#define ANY_IDS_OF(farm, arena, name, table, out)                              \
    do {                                                                       \
        *(out) = (AnyIds){                                                     \
            name, ARENA_ARRAY(arena, const char *, (farm)->table##_count),     \
            (farm)->table##_count};                                            \
        for (int32_t row_ = 0; row_ < (farm)->table##_count; row_++) {         \
            (out)->ids[row_] = (farm)->table[row_].id;                         \
        }                                                                      \
    } while (0)

#endif
