/* What the files of the possible years share. No other file includes it. */
#ifndef LEAT_WORK_YEARS_PARTS_H
#define LEAT_WORK_YEARS_PARTS_H

#include "sim/luck.h"
#include "sim/picks.h"
#include "sim/weather_forecast.h"
#include "work/years.h"

enum { DAY_H = 24, WEEK_H = YEARS_WEEK_D * DAY_H };

/* Days of a week in one place of plants, a tunnel or the open (the last). */
typedef struct PlaceWeek {
    double mean_degc[YEARS_WEEK_D];
    double least_degc[YEARS_WEEK_D];
    double dli_mol[YEARS_WEEK_D];
} PlaceWeek;

/* What a week of a place means to a way; weeks of the fortnight before. */
typedef struct WayWeek {
    double warm_frac[2]; /* quality by warmth of the two weeks before */
    double now_frac;
    PickWeek ends; /* heat, cold, chill, long day, frost of the week */
} WayWeek;

typedef struct Batch {
    PickCase is;
    int plant; /* of the hour */
    int way;
    int place;
    double light_frac; /* of its place's mean */
    bool is_coming;    /* its seed is not yet up, or not yet sown */
    double sown;       /* cells of it; 0: stands, or sown in place */
} Batch;

typedef struct Plants {
    Batch *batches;
    int batch_count;
    bool *is_used; /* [way * places + place] */
    int places;
    /* Of the year that is running. */
    PickState *states;
    double *yield;    /* by batch: plants times luck */
    double *speed;    /* by the hour's plant */
    double *before;   /* by batch: growth at the week's beginning */
    WayWeek *ways;    /* [way * places + place] */
    double (*dli)[2]; /* [place]: means of the two weeks before */
} Plants;

typedef struct Orders {
    YearsDue *due; /* [order * weeks + week] */
    int *turn;     /* orders in the turn in which they are served */
    int turn_count;
    double *keep;    /* by way: share that lasts a week in a store */
    double *unit_kg; /* by way */
    double room_kg;
    /* Of the year that is running. */
    double *store;    /* by way, units */
    double *there;    /* by way, units */
    double *fish;     /* by product, fish there */
    double *fish_had; /* by product, sold by the last week */
    double *made;     /* by order, of the week */
} Orders;

struct YearsFarm {
    YearsAsk ask;
    YearsShape shape;
    HourFarm *hours;
    HourState *first;
    HourState *state;
    HourDays days; /* seven */
    WeatherMaker *weather;
    WeatherForecast forecast; /* of the coming days */
    HourWeather *year;        /* weeks * 168 */
    PlaceWeek *place_weeks;
    HourFishLuck *fish_luck;
    Plants plants;
    Orders orders;
    double *counted_frac; /* by way, of the plan */
    double *tank_was;     /* by tank: fish at the week's beginning */
    /* Of the year that is running. */
    LuckYear luck;
    bool is_typical;
    int64_t log_hours;
    double *picked; /* by way, of the week */
    uint16_t *out;
};

/* Every code of a row for a week, or for the span (week = weeks). */
void years_put(YearsFarm *years, int series, int row, int week, double value);
/* The first week in which something breaks; later ones change nothing. */
void years_break(YearsFarm *years, int kind, int row, int week);

/* years_plants.c */
Err years_plants_open(YearsFarm *years, Arena *arena);
void years_plants_begin(YearsFarm *years);
void years_plants_week(YearsFarm *years, int week);

/* years_orders.c */
void years_orders_open(YearsFarm *years, Arena *arena);
void years_orders_begin(YearsFarm *years);
void years_orders_week(YearsFarm *years, int week);

#endif
