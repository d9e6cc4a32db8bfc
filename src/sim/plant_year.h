/* One way in one bed kind's typical year: what a batch becomes by the day on
 * which it is set out.
 *
 * Growth on a day is thermal time (a sine between the day's minimum and
 * maximum) times the light's share of full growth. Everything is read off sums
 * made once for the year, so that a batch costs a few look-ups. The year turns
 * round for ever; day 366 counts as day 365. */
#ifndef LEAT_SIM_PLANT_YEAR_H
#define LEAT_SIM_PLANT_YEAR_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "sim/plant_rule.h"

enum { PLANT_YEAR_DAYS = 365 };

/* A typical year where the plants stand; arrays by day of the year, at least
 * PLANT_YEAR_DAYS long, 1 January first. Borrowed. */
typedef struct BedYear {
    const double *mean_degc;
    const double *min_degc; /* of the usual day; cold nights fall below */
    const double *max_degc;
    const double *dli_mol; /* at the plants, under cover and shade */
    const double *day_length_h;
    const double *nursery_degc; /* daily mean; NULL: what the book refers to */
} BedYear;

typedef enum PlantEnd {
    PLANT_GROWS,       /* picked to its end */
    PLANT_NO_SEEDLING, /* refused: germination impossible or too poor */
    PLANT_TOO_SLOW,    /* refused: too cold or dark to finish */
    PLANT_BOLTS,       /* refused before the first pick; else cut short */
    PLANT_FREEZES,     /* the same by frost */
    PLANT_CHILLS,      /* the same by cold nights above frost */
} PlantEnd;

typedef struct PlantYear {
    PlantRule rule;
    /* Sums from 1 January to the end of each of two years running:
     * PLANT_YEAR_DAYS x 2 + 1 entries. Owned by the arena. */
    double
        *growth_degc_d;   /* thermal time x light; the feed wanted follows it */
    double *quality_frac; /* share left by heat, cool and gloom */
    double *up;           /* emergence where the plants stand, 1 is up */
    double
        *nursery_d; /* progress in the nursery, in days at its usual warmth */
    double *nursery_up;       /* emergence in the nursery, 1 is up */
    double *bolt_degc_d;      /* warmth that makes bolt */
    double *cold_d;           /* days that make ready to bolt */
    double *long_d;           /* days long enough to bolt when ready */
    double *chill_d;          /* days with a night too cold */
    double *frost_d;          /* days with a killing frost */
    double *germination_frac; /* by day of the year, where it is sown */
} PlantYear;

/* One batch. Days are since 1970-01-01; arrays are by week from first_week. */
typedef struct PlantBatch {
    PlantEnd end;
    bool is_refused; /* no pick at all: only the days up to set_day hold */
    int end_month;   /* 1..12 of what kills or bolts it, else 0 */
    int32_t sow_day;
    int32_t emerge_day;
    int32_t set_day;        /* sown in place: its sowing */
    int32_t start_day;      /* growth in the bed counts from here on */
    int32_t pick_early_day; /* first pick one time in ten so early .. */
    int32_t pick_day;
    int32_t pick_late_day; /* .. and so late */
    int32_t last_pick_day;
    int32_t clear_day; /* free to be cleared */
    double germination_frac;
    double loss_frac;        /* share of the yield lost, mean of the picks */
    double spread_low_frac;  /* how far a poor batch falls below the mean */
    double spread_high_frac; /* and a good one rises above */
    int32_t first_week;      /* the Monday of set_day's week */
    int32_t week_count;
    double *units;       /* a plant set: mean; Borrowed from the arena */
    double *units_low;   /* one time in ten lower */
    double *units_high;  /* one time in ten higher */
    double *want_g_m2_d; /* mean of the week's days, a m2 of this crop */
} PlantBatch;

/* The year of a floor that loses that share of its light; under a full sunny
 * edge it is the book's edge_shade_frac. */
BedYear plant_shade_year(Arena *arena, const BedYear *bed, double lost_frac);

/* The sums of a way in a bed kind. */
void plant_year_init(Arena *arena, const PlantRule *rule, const BedYear *bed,
                     PlantYear *out);

/* The batch set out (or sown in place) on that day. pick_weeks 1..3 spreads a
 * single pick or cut over so many weeks as far as the crop stands that long;
 * a crop picked through the week has its own span. */
void plant_year_batch(const PlantYear *year, int32_t set_day, int pick_weeks,
                      Arena *arena, PlantBatch *out);

/* The same for a batch that was seen standing on seen_day: it came up, nothing
 * has killed it or made it bolt before then (what gathers towards that begins
 * anew), and a crop of one pick that should have been picked by then is still
 * there, ready on seen_day and for at least a week. */
void plant_year_standing(const PlantYear *year, int32_t set_day,
                         int32_t seen_day, int pick_weeks, Arena *arena,
                         PlantBatch *out);

/* The first day on which a seedling sown on that day is big enough to be set
 * out, as the nursery's warmth brings it on. */
int32_t plant_year_ready_day(const PlantYear *year, int32_t sow_day);

/* Growth from one day to another in the typical year: thermal time times the
 * light's share, degC d; 0 where there is no day between them. */
double plant_year_growth_degc_d(const PlantYear *year, int32_t from,
                                int32_t until);

/* Standard deviation of a way's yield, as a share of the mean, that all batches
 * of a season have in common. */
double plant_season_sd_frac(const PlantRule *rule);

/* Share of the mean that firm orders may count on: what many possible years
 * gave the farm, else less 0.84 standard deviations of a season's batches
 * (four seasons in five). */
double plant_counted_frac(const PlantRule *rule);

/* "winter kills it in November", "bolts in June before the first pick"; text
 * for a batch that is refused or cut short, "" for one that is not. */
const char *plant_end_text(const PlantBatch *batch, Arena *arena);

#endif
