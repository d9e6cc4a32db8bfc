/* When and how wide to open the tunnels on a day, for heat and to dry the air,
 * with the wet hours and the moulds' pressure of seven days, opened and shut.
 *
 * The coupled hour (sim/hour.h) is run from the Monday of the week before, with
 * the weather told in the farm's table forecast and the typical year's where
 * none is told. Hours in here are by the sun; clock_ahead_h makes them the
 * clock's. */
#ifndef LEAT_WORK_VENT_H
#define LEAT_WORK_VENT_H

#include "base/working.h"
#include "sim/climate_year.h"
#include "sim/vent_rule.h"
#include "work/pressure.h"

enum { VENT_DAY_H = 24, VENT_SHUT = 0, VENT_OPENED = 1, VENT_WAYS = 2 };

/* Open around midday to dry, where its row tells no hours: common practice of
 * this trade, without a source. */
#define VENT_USUAL_MIDDAY_H 2.0

typedef struct VentAsk {
    const Farm *farm;           /* Borrowed, as all of these. */
    const Book *book;           /* with the farm's own figures in it */
    const ClimateYear *climate; /* the typical year */
    int32_t day;
    double clock_ahead_h; /* the clock's hour less the sun's */
    Workings *workings;   /* NULL for none */
} VentAsk;

/* from_h at or after until_h: none. */
typedef struct VentSpan {
    double from_h, until_h;
    double width_frac; /* of all openings, at most */
} VentSpan;

/* What becomes of the hours at midday. */
typedef enum VentMidday {
    VENT_AS_ASKED,   /* opened wide for so long */
    VENT_NARROWER,   /* for so long, not wide: the floor */
    VENT_SHORTER,    /* not for so long: the floor */
    VENT_TOO_COLD,   /* not at all: the floor */
    VENT_FOR_WARMTH, /* it is open for its warmth as long or longer */
    VENT_IN_WIND,    /* shut in such wind, by its row */
    VENT_IN_FROST,   /* shut in such cold, by its row */
    VENT_NO_OPENING, /* it has none */
    VENT_NOT_ASKED,  /* its row wants no hours in this month */
} VentMidday;

typedef struct VentAir {
    double outside_degc;
    double air_degc;
    double rh_frac;
    double open_frac;
    bool is_wet;
} VentAir;

typedef struct VentTunnel {
    VentSpan heat; /* for its warmth, by its rule */
    VentSpan dry;  /* at midday */
    VentMidday midday;
    double midday_h; /* asked for */
    bool is_usual;   /* by common practice: its row tells none */
    double floor_degc;
    int floor_way;          /* whose floor it is; -1: the row's, or frost */
    double wide_least_degc; /* inside, wide open in the hours asked for */
    double dry_least_degc;  /* inside, as advised */
    double dry_rh_frac;     /* humidity then, as advised: the least .. */
    double dry_shut_frac;   /* .. and in that hour shut */
    VentSpan morning;       /* dries leaves sooner, by at least an hour */
    double morning_saves_h;
    double shut_most_degc; /* inside today, never opened */
    bool is_windy;         /* so much that only the lee side may be opened */
    double night_out_degc; /* tonight's least outside */
    double night_degc;     /* and inside, opened as advised */
    double crop_degc;      /* and at the crop */
    bool is_fleeced;       /* its row has fleece on tonight */
    int tender_way; /* the first that tonight may kill, uncovered; -1: none */
    double tender_degc;
    VentAir hours[VENT_WAYS][VENT_DAY_H]; /* of the day */
    double wet_h[VENT_WAYS];              /* of the day */
    double rh_frac[VENT_WAYS];            /* its mean */
    double week_wet_h[VENT_WAYS];         /* a day, mean of the seven */
    Pressure pressure[VENT_WAYS][MOULD_COUNT];
} VentTunnel;

/* A batch that stands in one of the seven days. */
typedef struct VentBatch {
    const char *id; /* Borrowed. */
    int way, bed;
    int tunnel; /* -1: in the open */
} VentBatch;

typedef struct VentDay {
    const Farm *farm; /* Borrowed, as the book. */
    const Book *book;
    int32_t day;
    double clock_ahead_h;
    bool is_forecast;  /* the day is told in the table */
    int forecast_days; /* so many of the seven are */
    double outside_most_degc, outside_least_degc, wind_m_s;
    VentTunnel *tunnels; /* as the farm's table. Owned by the arena. */
    VentBatch *batches;  /* Owned by the arena. */
    int batch_count;
} VentDay;

/* Errors as hour_farm_make and plant_stand_run. */
NODISCARD Err vent_day_make(const VentAsk *ask, Arena *arena, VentDay *out);

/* ---- In words --------------------------------------------------------------
 */

/* "open wide 12:15-14:15": what is to be done, for a job's brief note. */
const char *vent_brief(const VentDay *day, int tunnel, Arena *arena);

/* The same for all tunnels, those alike together, and the moulds that press
 * high: "H1, H2: open wide 12:30-14:30; H3: keep shut. High: downy mildew of
 * lettuce (H1, H2)." */
const char *vent_note(const VentDay *day, Arena *arena);

/* What is to be done and why, a line each; NULL at the end. */
const char *const *vent_lines(const VentDay *day, int tunnel, Arena *arena);

/* Moulds that press on what stands there, opened as advised: one line for each
 * that is at least so high, with its batches; NULL at the end. The rules are
 * mould_rule. */
const char *const *vent_pressure_lines(const VentDay *day, int tunnel,
                                       PressureLevel least, Arena *arena);

/* Whether it presses so much on something in any tunnel. */
bool vent_mould_presses(const VentDay *day, Mould mould, PressureLevel least);

/* "12:15" by the clock, to the quarter hour. */
const char *vent_clock(const VentDay *day, double sun_h, Arena *arena);

#endif
