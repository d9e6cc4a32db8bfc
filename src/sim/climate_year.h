/* The typical year of a farm by the hour: sun, air and water inside.
 *
 * Tables hold CLIMATE_DAYS values by day of the year, 1 January first; the last
 * repeats 31 December for leap years. The hours are by the sun, which is within
 * an hour or so of the farm's clock. The year closes on itself. */
#ifndef LEAT_SIM_CLIMATE_YEAR_H
#define LEAT_SIM_CLIMATE_YEAR_H

#include "base/arena.h"
#include "farm/book.h"
#include "farm/records.h"
#include "sim/climate_days.h"
#include "sim/climate_light.h"

typedef struct ClimateTunnel {
    double *mean_degc; /* inside air */
    double *min_degc;
    double *max_degc;
    double *crop_min_degc; /* at the crop: below fleece where that lies */
    double *dli_mol;       /* mean over the floor, below cover, shade, wash */
    double *row_dli_mol[CLIMATE_ROWS];
    double *heater_kwh; /* a day, its air heaters */
    double *rh_frac;    /* humidity inside, mean of the hours */
    double *wet_h;      /* hours of the day with wet leaves */
} ClimateTunnel;

typedef struct ClimateLoop {
    double *mean_degc; /* its water */
    double *min_degc;
    double *max_degc;
    double *heater_kwh; /* a day */
} ClimateLoop;

/* Heat through the whole year, kWh: what came in, went out, stays. */
typedef struct ClimateLedger {
    double sun_kwh;     /* in: absorbed inside tunnels and by open beds */
    double heater_kwh;  /* in */
    double pump_kwh;    /* in: what pumps draw ends as heat of the water */
    double latent_kwh;  /* out: evaporated by leaves */
    double cover_kwh;   /* out */
    double air_kwh;     /* out: leaks, vents, the air over open beds */
    double sky_kwh;     /* out */
    double ground_kwh;  /* out */
    double tank_kwh;    /* out: tanks, sumps */
    double make_up_kwh; /* out: water replaced */
    double stored_kwh;
    double residual_kwh; /* in - out - stored */
} ClimateLedger;

typedef struct ClimateYear {
    double *day_length_h;
    double *outside_mean_degc;
    double *outside_min_degc;
    double *outside_max_degc;
    double *outside_dli_mol;
    ClimateTunnel *tunnels; /* as the farm's table */
    ClimateLoop *loops;     /* as the farm's table */
    ClimateLoop *tanks;     /* as the farm's table: a tank of a loop without a
                               heater of its own has the loop's tables, with no
                               heater_kwh (NULL) */
    double *bed_light_frac; /* by bed: its light over its tunnel's mean, of the
                               whole year */
    double heater_kwh;      /* the year, all heaters */
    double heater_cost;     /* currency, by the heaters' prices */
    ClimateLedger ledger;
} ClimateYear;

/* ERR_INPUT: a cover that the book lacks, or not twelve months of climate.
 *
 * What it takes for granted stands in the book's common figures (tunnel_..,
 * tank_..), which a farm can replace. Besides: zones flood about one o'clock
 * for their hours; sumps have lids; tanks without a tunnel stand in a room,
 * sumps too; heat of fish is left out. */
NODISCARD Err climate_year_run(const Farm *farm, const Book *book, Arena *arena,
                               ClimateYear *out);

/* Light of a bed on a day, mol/m2/d: the light_frac of its row in the table
 * where one is given (not 1), else by its side. */
double climate_bed_dli_mol(const ClimateYear *year, const Farm *farm, int bed,
                           int day);

#endif
