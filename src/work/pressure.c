/* Seven days of a tunnel's air against the rules. */
#include "work/pressure.h"

#include <math.h>
#include <string.h>

#include "base/tongue.h"
#include "nature/plant/mildew.h"

enum { DAY_H = 24, MORNING_H = 6, EARLY_H = 3, FORENOON_H = 4, NOON_H = 12 };

/* Where none, some and high part; judged, as the rules' words say. */
static const double OFTEN = 3.0;
static const double POWDERY_SOME_FRAC = 0.2;
static const double POWDERY_HIGH_FRAC = 0.5;
static const double GREY_WET_H = 7.0;
static const double DAMP_FRAC = 0.95;

const char *mould_name(Mould mould)
{
#define MOULD_NAME(name, text, ...) text,
    static const char *const NAMES[MOULD_COUNT] = {MOULDS(MOULD_NAME)};
    return NAMES[mould];
}

const char *mould_rule(Mould mould)
{
#define MOULD_RULE(name, text, count, rule) rule,
    static const char *const RULES[MOULD_COUNT] = {MOULDS(MOULD_RULE)};
    return RULES[mould];
}

const char *pressure_word(PressureLevel level)
{
    static const char *const WORDS[] = {SAY("none"), SAY("some"), SAY("high")};
    return WORDS[level];
}

const char *pressure_text(Mould mould, const Pressure *pressure, Arena *arena)
{
#define MOULD_COUNTED(name, text, counted, rule) counted,
    static const char *const COUNTED[MOULD_COUNT] = {MOULDS(MOULD_COUNTED)};
    const char *word = say(arena, pressure_word(pressure->level));
    if (mould == MOULD_POWDERY) {
        return arena_say(arena, "%s: %.0f %% of its best pace", word,
                         100.0 * pressure->count);
    }
    if (mould == MOULD_GREY) {
        return arena_text(arena, "%s: %.0f %s", word, pressure->count,
                          say(arena, COUNTED[mould]));
    }
    return arena_say(arena, "%s: %.0f %s in 7 days", word, pressure->count,
                     say(arena, COUNTED[mould]));
}

/* ---- The rules -------------------------------------------------------------
 */

static double mean_degc(const PressureAir *air, int from, int count)
{
    double sum = 0.0;
    for (int i = from; i < from + count; i++) {
        sum += air[i].air_degc / count;
    }
    return sum;
}

/* Hours that stay wet from an hour on. */
static int wet_from(const PressureAir *air, int from)
{
    int count = 0;
    while (from + count < PRESSURE_HOURS && air[from + count].is_wet) {
        count++;
    }
    return count;
}

static double lettuce_mornings(const PressureAir *air)
{
    double count = 0.0;
    for (int day = 0; day < PRESSURE_DAYS; day++) {
        const PressureAir *today = air + (ptrdiff_t)DAY_H * day;
        int rise = 0;
        while (rise < NOON_H && today[rise].is_dark) {
            rise++;
        }
        LettuceMorning morning = {
            .wet_h = wet_from(air, DAY_H * day + MORNING_H),
            .early_degc = mean_degc(today, rise, EARLY_H),
            .forenoon_degc = mean_degc(today, rise + EARLY_H, FORENOON_H)};
        count += mildew_lettuce_infects(&morning) ? 1.0 : 0.0;
    }
    return count;
}

typedef bool SpellRule(double wet_h, double temp_degc);

static bool cucurbit_spell(double wet_h, double temp_degc)
{
    return wet_h >= mildew_cucumber_wet_h(temp_degc);
}

/* Wet spells long enough for their warmth. */
static double spells(const PressureAir *air, SpellRule *rule)
{
    double count = 0.0;
    for (int at = 0; at < PRESSURE_HOURS;) {
        int wet = wet_from(air, at);
        if (wet > 0 && rule(wet, mean_degc(air, at, wet))) {
            count += 1.0;
        }
        at += wet + 1;
    }
    return count;
}

/* Dark damp hours in a row long enough for spores. */
static bool is_bearing(const PressureAir *air)
{
    for (int at = 0; at < PRESSURE_HOURS;) {
        int damp = 0;
        while (at + damp < PRESSURE_HOURS && air[at + damp].is_dark &&
               air[at + damp].rh_frac >= DAMP_FRAC) {
            damp++;
        }
        if (damp > 0 && mildew_basil_bears(damp, mean_degc(air, at, damp))) {
            return true;
        }
        at += damp + 1;
    }
    return false;
}

static PressureLevel level_of(double count)
{
    return count >= OFTEN ? PRESSURE_HIGH
           : count > 0.0  ? PRESSURE_SOME
                          : PRESSURE_NONE;
}

static Pressure grey_of(const PressureAir *air)
{
    const int night_from = 18, night_until = 8;
    double wet_h = 0.0, mild_h = 0.0;
    for (int i = 0; i < PRESSURE_HOURS; i++) {
        int hour = i % DAY_H;
        bool is_night = hour >= night_from || hour < night_until;
        bool is_mild = air[i].air_degc >= 9.0 && air[i].air_degc <= 21.0;
        wet_h += air[i].is_wet ? 1.0 / PRESSURE_DAYS : 0.0;
        mild_h += is_night && is_mild ? 1.0 / PRESSURE_DAYS : 0.0;
    }
    return (Pressure){mildew_grey_breaks_out(wet_h, mild_h) ? PRESSURE_HIGH
                      : wet_h > GREY_WET_H                  ? PRESSURE_SOME
                                                            : PRESSURE_NONE,
                      wet_h};
}

static Pressure powdery_of(const PressureAir *air)
{
    double pace = 0.0;
    for (int i = 0; i < PRESSURE_HOURS; i++) {
        pace += mildew_powdery_frac(air[i].air_degc) / PRESSURE_HOURS;
    }
    return (Pressure){pace >= POWDERY_HIGH_FRAC   ? PRESSURE_HIGH
                      : pace >= POWDERY_SOME_FRAC ? PRESSURE_SOME
                                                  : PRESSURE_NONE,
                      pace};
}

void pressure_of_week(const PressureAir air[PRESSURE_HOURS],
                      Pressure out[MOULD_COUNT])
{
    double cucurbit = spells(air, cucurbit_spell);
    double lettuce = lettuce_mornings(air);
    double basil = spells(air, mildew_basil_infects);
    out[MOULD_POWDERY] = powdery_of(air);
    out[MOULD_DOWNY_CUCURBIT] = (Pressure){level_of(cucurbit), cucurbit};
    out[MOULD_DOWNY_LETTUCE] = (Pressure){level_of(lettuce), lettuce};
    PressureLevel level = basil <= 0.0      ? PRESSURE_NONE
                          : is_bearing(air) ? PRESSURE_HIGH
                                            : PRESSURE_SOME;
    out[MOULD_DOWNY_BASIL] = (Pressure){level, basil};
    out[MOULD_GREY] = grey_of(air);
}

bool mould_hits(Mould mould, const Farm *farm, const Book *book, int way)
{
    const BookCrop *crop =
        book_crop(book, farm->crops[farm->ways[way].crop].book);
    if (!crop) {
        return false;
    }
    switch (mould) {
    case MOULD_POWDERY:
    case MOULD_DOWNY_CUCURBIT:
        return strcmp(crop->kin, "gourd") == 0;
    case MOULD_DOWNY_LETTUCE:
        return strcmp(crop->id, "lettuce") == 0;
    case MOULD_DOWNY_BASIL:
        return strcmp(crop->id, "basil") == 0;
    case MOULD_GREY:
        return crop->life != LIFE_YEARS;
    case MOULD_COUNT:
        break;
    }
    return false;
}
