/* How hard moulds press on crops in a tunnel's air, by published rules of
 * temperature and wet leaves (nature/plant/mildew.h): a pressure in words, with
 * the rule that it goes by. It is no diagnosis, and no product follows from
 * it. */
#ifndef LEAT_WORK_PRESSURE_H
#define LEAT_WORK_PRESSURE_H

#include "base/arena.h"
#include "base/err.h"
#include "base/tongue.h"
#include "farm/book.h"
#include "farm/records.h"

enum { PRESSURE_DAYS = 7, PRESSURE_HOURS = 24 * PRESSURE_DAYS };

/* The list is laid out by hand: name, in words, what is counted in the seven
 * days, the rule. */
/* clang-format off */
#define MOULDS(X)                                                              \
    X(MOULD_POWDERY, SAY("powdery mildew of cucurbits"), "",                        \
      "pace by warmth, 0 under 10 and over 35 degC, best at 25, wet leaves "   \
      "not needed (TRECATE2019, form MAGAREY2005); some from a fifth of its "  \
      "best, high from half: judged")                                          \
    X(MOULD_DOWNY_CUCURBIT, SAY("downy mildew of cucurbits"), SAY("wet spells"),         \
      "wet for 2 h at 20-25 degC, 6 at 15, 12 at 10, 24 at 5 (COHEN1977); "    \
      "high from three spells a week: judged")                                 \
    X(MOULD_DOWNY_LETTUCE, SAY("downy mildew of lettuce"), SAY("mornings"),              \
      "wet for 4 h from 06:00 on, first hours not over 20 degC, then not "     \
      "over 22 (SCHERM1994, WU2002); high from three mornings a week: judged") \
    X(MOULD_DOWNY_BASIL, SAY("downy mildew of basil"), SAY("wet spells"),                \
      "wet for 4 h at 12-25 degC takes hold; high where a night has 7.5 dark " \
      "hours over 95 % too, which bears spores (COHEN2016, MSUBASIL)")         \
    X(MOULD_GREY, SAY("grey mould"), SAY("wet hours a day"),                             \
      "wet for over 7 h a day in the week's mean: some; and over 9.5 h of "    \
      "the night at 9-21 degC: high (YUNIS1994, cucumbers without heating; "   \
      "of other crops judged)")
/* clang-format on */

typedef enum Mould {
#define MOULD_ENUM(name, ...) name,
    MOULDS(MOULD_ENUM)
#undef MOULD_ENUM
        MOULD_COUNT
} Mould;

typedef enum PressureLevel {
    PRESSURE_NONE,
    PRESSURE_SOME,
    PRESSURE_HIGH,
} PressureLevel;

/* Of a tunnel, by the sun. */
typedef struct PressureAir {
    double air_degc;
    double rh_frac;
    bool is_wet;  /* leaves */
    bool is_dark; /* the sun is down for most of it */
} PressureAir;

typedef struct Pressure {
    PressureLevel level;
    double count; /* mornings, spells, hours a day; powdery: 0..1 of its best */
} Pressure;

/* Seven days from midnight on. */
void pressure_of_week(const PressureAir air[PRESSURE_HOURS],
                      Pressure out[MOULD_COUNT]);

const char *mould_name(Mould mould);
const char *mould_rule(Mould mould);
const char *pressure_word(PressureLevel level); /* "none", "some", "high" */

/* "high: 5 mornings of 7"; borrowed from the arena. */
const char *pressure_text(Mould mould, const Pressure *pressure, Arena *arena);

/* Whether it troubles a way: its crop is a cucurbit, lettuce, basil; grey
 * mould all soft crops (not woody herbs). */
bool mould_hits(Mould mould, const Farm *farm, const Book *book, int way);

/* ---- By weeks --------------------------------------------------------------
 */

typedef struct PressureAsk {
    const Farm *farm; /* Borrowed, as all of these. */
    const Book *book; /* with the farm's own figures in it */
    const struct ClimateYear *climate;
    int32_t first_week; /* Monday */
    int weeks;
} PressureAsk;

/* A mould on a way in a tunnel: the weeks in which it presses high while a
 * batch of that way stands there. */
typedef struct PressureRun {
    int tunnel;
    Mould mould;
    int way;
    int first_week, last_week; /* from 0; the first and the last such week */
    int high_weeks;            /* so many in all */
    int standing_weeks;        /* weeks in which a batch stands there */
} PressureRun;

typedef struct PressureWeeks {
    int weeks, tunnels;
    Pressure *all; /* [(week * tunnels + tunnel) * MOULD_COUNT + mould]; Owned
                      by the arena */
    PressureRun *runs; /* Owned by the arena. */
    int run_count;
} PressureWeeks;

/* The air as the grower's rows open the tunnels, in the typical year with the
 * farm's forecast over it. stand: batches of those weeks. Errors as
 * hour_farm_make. */
struct PlantStand;
NODISCARD Err pressure_weeks_make(const PressureAsk *ask,
                                  const struct PlantStand *stand, Arena *arena,
                                  PressureWeeks *out);

#endif
