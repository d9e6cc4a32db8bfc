/* Warmth as a choice: what a water floor costs and brings, and what a hot
 * spell does to the plants. */
#ifndef LEAT_WORK_HEAT_H
#define LEAT_WORK_HEAT_H

#include "farm/book.h"
#include "farm/records.h"
#include "sim/climate_year.h"
#include "work/pressure.h"

enum { HEAT_FLOORS_MOST = 8, HEAT_MONTHS = 12 };

typedef struct HeatAsk {
    const Farm *farm;           /* Borrowed, as all of these. */
    const Book *book;           /* with the farm's own figures in it */
    const ClimateYear *climate; /* the typical year as the tables have it */
    int32_t first_week;         /* Monday */
    int weeks;
} HeatAsk;

/* ---- Floors of the water ---------------------------------------------------
 */

/* The weeks with the loops' heaters set to a floor, whatever their months.
 * Heaters keep their power; those of tanks and air stay as they are. Beds are
 * flooded as the tables say, so their share of the heat is in it. Plants are
 * not run anew: the water warms their air and roots a little. */
typedef struct HeatFloor {
    double floor_degc;   /* NAN: heaters as the tables have them */
    double coldest_degc; /* of the loops' water in the typical year */
    int under_d; /* days on which a heated loop's water is half a kelvin or
                    more below the floor: its heaters are too weak */
    double heater_kwh; /* the year, all heaters of the farm */
    double heater_cost;
    double feed_kg; /* these weeks, all fish */
    double feed_cost;
    double gained_kg;  /* fish alive or sold at the end, over those there at
                          the start or stocked since */
    double fish_value; /* of gained_kg at the farm's own price */
    /* fish_value - feed_cost - heater_cost of so many weeks: to be compared,
     * not a profit. */
    double margin;
} HeatFloor;

/* What a kg of live fish brings, net of tax, by the price list that holds for
 * everybody on that day; 0 where fish are not sold. */
double heat_fish_price(const Farm *farm, int32_t day);

/* One floor; NAN: as the tables have it. ERR_INPUT: no heater warms a loop;
 * else as climate_year_run and fish_stand_run. */
NODISCARD Err heat_floor_run(const HeatAsk *ask, double floor_degc,
                             Arena *arena, HeatFloor *out);

/* ---- Plants in the heat ----------------------------------------------------
 */

/* Days warmer by so much, all hours alike, in every tunnel and in the open. */
typedef struct HeatSpell {
    int32_t from_day;
    int days;
    double warmer_k;
    bool is_forecast; /* of the farm's table, not asked for */
} HeatSpell;

/* The hot days of the farm's forecast in these weeks: the longest run of days
 * whose maximum is 3 K or more over the typical one's (judged), by their mean.
 * false: there are not two such days running. */
bool heat_forecast_spell(const HeatAsk *ask, HeatSpell *out);

/* The hottest fortnight of the typical year inside that lies in the weeks, on
 * its first day. */
int32_t heat_hottest_day(const HeatAsk *ask, int days);

/* A batch that the spell changes: other trouble, or a tenth of its units. */
typedef struct HeatBatch {
    const char *id;      /* Borrowed, as all texts here. */
    int way;             /* row of farm->ways */
    int bed;             /* row of farm->beds */
    int32_t set_day;     /* */
    const char *usual;   /* its trouble in the typical year, "" for none */
    const char *trouble; /* and with the spell */
    int32_t bolts_on;    /* with the spell; DATE_NEVER: it does not */
    double usual_units;  /* in these weeks */
    double units;
} HeatBatch;

/* A way in a tunnel by the typical year's daily means. */
typedef struct HeatSide {
    int way, tunnel;
    int hot_weeks;  /* over the crop's heat_degc: it loses yield or quality */
    int cool_weeks; /* under its cool_degc; -1: the book knows none */
} HeatSide;

typedef enum HeatPlace {
    HEAT_ANYWHERE,  /* not too hot anywhere */
    HEAT_HOT_SIDE,  /* likes warmth: more weeks too cool than too hot */
    HEAT_COOL_SIDE, /* too hot for some weeks in every tunnel */
    HEAT_CHOOSE,    /* too hot in some tunnels, not in others */
} HeatPlace;

/* Cloth or wash over a tunnel: from the first to the last week in which a way
 * that stands there is too hot. */
typedef struct HeatShade {
    int tunnel;
    int way;          /* the one that suffers first; -1: none does */
    int32_t from;     /* Monday; DATE_NEVER: none needed */
    int32_t until;    /* the Monday after; as long as the weeks, at most */
    double most_degc; /* mean of the day's highest in the hottest week */
    double light_mol; /* least daily light in those weeks, as it is now */
    bool is_shaded;   /* the table has cloth or wash on in one of its months */
} HeatShade;

/* A way sown in trays in the nursery by month. */
typedef struct HeatSeed {
    int way;
    double most_degc;     /* above: less than half of the best comes up */
    unsigned hot_months;  /* months (bit 0 January) whose mean is above */
    unsigned noon_months; /* whose mean daily highest is above */
} HeatSeed;

typedef struct HeatPlants {
    HeatSpell spell;
    HeatBatch *batches; /* Owned by the arena, as all here. */
    int batch_count;
    HeatSide *sides;   /* by way, then tunnel: ways x tunnels */
    HeatPlace *places; /* by way */
    HeatShade *shades; /* by tunnel */
    HeatSeed *seeds;   /* those with hot months */
    int seed_count;
    PressureWeeks pressure; /* moulds, in the usual weather */
} HeatPlants;

/* ERR_NOT_FOUND: a way that the book lacks. */
NODISCARD Err heat_plants_run(const HeatAsk *ask, const HeatSpell *spell,
                              Arena *arena, HeatPlants *out);

#endif
