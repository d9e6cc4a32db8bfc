/* The coupled farm by the hour: air, water, fish, gravel and plants of every
 * loop together, from the farm's tables and its accepted plan.
 *
 * A HourFarm is what stays the same; a HourState is what an hour changes. Both
 * are made once; a step allocates nothing, reads no clock and gives the same
 * bits for the same state and weather. States can be copied, so that many years
 * start from one. Equations and their order: docs/hour.md.
 *
 * Hours are by the sun, counted from the first hour of from_day, which is a
 * Monday. Amounts are g of the element or molecule named (nitrogen for TAN,
 * nitrite and nitrate), alkalinity eq, carbon mol; g/m3 is mg/L. */
#ifndef LEAT_SIM_HOUR_H
#define LEAT_SIM_HOUR_H

#include "base/arena.h"
#include "farm/book.h"
#include "farm/records.h"
#include "sim/climate_year.h"
#include "sim/weather.h"

/* Nutrients that are followed from feed to plant. */
typedef enum HourElement {
    HOUR_N,
    HOUR_P,
    HOUR_K,
    HOUR_CA,
    HOUR_MG,
    HOUR_FE,
    HOUR_ELEMENTS,
} HourElement;

/* What the ledger closes, each hour. */
typedef enum HourQuantity {
    LEDGER_WATER_M3,
    LEDGER_HEAT_MJ,
    LEDGER_N_G,
    LEDGER_OXYGEN_G,
    LEDGER_ALKALINITY_EQ,
    LEDGER_CARBON_MOL,
    LEDGER_P_G,
    LEDGER_K_G,
    LEDGER_CA_G,
    LEDGER_FISH_COUNT,
    LEDGER_FISH_KG,
    LEDGER_COUNT,
} HourQuantity;

typedef struct HourLedger {
    double in[LEDGER_COUNT];     /* came in or was made; 0 or more */
    double out[LEDGER_COUNT];    /* left or was used; 0 or more */
    double stored[LEDGER_COUNT]; /* change of what is there */
    double held[LEDGER_COUNT];   /* what is there at the end */
} HourLedger;

/* in - out - stored, over what moved: in + out and a ten-thousandth of what is
 * held, so that an hour in which nothing moves is judged by what rounding may
 * do to the sums. */
double hour_ledger_residual_frac(const HourLedger *ledger, int quantity);

/* Adds an hour to a sum of hours. */
void hour_ledger_add(HourLedger *sum, const HourLedger *hour);

const char *hour_quantity_name(int quantity); /* "water", "heat" .. */

/* Typical or drawn: see sim/weather.h. */
typedef WeatherHour HourWeather;

/* What the grower does beside the plan. A zeroed one feeds nothing. */
typedef struct HourCare {
    double feed_frac; /* of what the fish would take: 1 */
    bool gives_base;  /* base of the farm's own store when the pH is low */
    bool gives_iron;  /* iron to 2 mg/L every three weeks */
    bool gives_salts; /* on Mondays: potassium, calcium, magnesium by the salts
                         of the farm's own store, up to what the book says */
} HourCare;
HourCare hour_usual_care(void); /* feeds, gives base, gives no supplement */

typedef struct HourFarm HourFarm;
typedef struct HourState HourState;

typedef struct HourAsk {
    const Farm *farm;           /* Borrowed, as all of these. */
    const Book *book;           /* with the farm's own figures in it */
    const ClimateYear *climate; /* the typical year: what came before */
    int32_t from_day;           /* Monday, not before the farm's tables */
    HourCare care;
} HourAsk;

/* Everything in the arena. ERR_INPUT as climate_year_run; ERR_NOT_FOUND for a
 * way, gravel, feed or fish that the book lacks; ERR_RANGE for a day that is
 * no Monday or fish counted after it. */
NODISCARD Err hour_farm_make(const HourAsk *ask, Arena *arena, HourFarm **out);

/* The farm as it stands on from_day: standing tables, readings, else the book's
 * start figures. */
NODISCARD Err hour_state_make(const HourFarm *farm, Arena *arena,
                              HourState **out);

/* Makes to, a state of the same farm, a copy of from. */
void hour_state_copy(const HourFarm *farm, const HourState *from,
                     HourState *to);

/* The hours that the state has lived. */
int64_t hour_state_hours(const HourState *state);

/* One hour. out may be NULL: then the ledger is not summed up for the caller,
 * though it is kept all the same. */
void hour_step(const HourFarm *farm, HourState *state, const HourWeather *now,
               HourLedger *out);

/* Typical weather of count hours, the first being that of hour from since
 * from_day: the year of the monthly normals. */
void hour_typical_weather(const HourFarm *farm, int64_t from, int count,
                          HourWeather *out);

/* ---- Air of a tunnel -------------------------------------------------------
 */

/* In the last hour. */
typedef struct HourAir {
    double air_degc;
    double rh_frac;
    double vent_frac; /* how far it stood open, 0..1 */
    double vent_m3_s;
    bool is_leaf_wet;
    bool is_film_wet;
    bool is_fleeced;
} HourAir;
HourAir hour_air_of(const HourState *state, int tunnel);

/* From now on the openings stand so far open, 0..1, whatever their rule says;
 * NAN: by their rule again. */
void hour_hold_vents(HourState *state, int tunnel, double open_frac);

/* ---- By the day ------------------------------------------------------------
 */

/* A loop's day: means unless said. Concentrations are the sump's. */
typedef struct HourLoopDay {
    double temp_degc, temp_least_degc, temp_most_degc;
    double tan_g_m3, nitrite_g_m3, nitrate_g_m3; /* nitrogen */
    double tan_most_g_m3, nitrite_most_g_m3;
    double ph, ph_least;
    double alkalinity_mg_l; /* as CaCO3 */
    double co2_g_m3;
    double element_g_m3[HOUR_ELEMENTS]; /* at the day's end; N: nitrate */
    double sodium_g_m3, chloride_g_m3;  /* at the day's end */
    double solids_kg;                   /* dry, in the gravel, at the end */
    double feed_kg;                     /* given in the day */
    double eaten_kg;
    double fish_g[HOUR_ELEMENTS];    /* dissolved, from fish */
    double mineral_g[HOUR_ELEMENTS]; /* freed from solids */
    double source_g[HOUR_ELEMENTS];  /* with top-up */
    double dosed_g[HOUR_ELEMENTS];
    double asked_g[HOUR_ELEMENTS]; /* by the plants, in full growth */
    double taken_g[HOUR_ELEMENTS];
    double lost_g[HOUR_ELEMENTS]; /* denitrified, fallen out, drained away */
    double nitrified_g;
    double dosed_eq; /* base */
    double top_up_m3, vapour_m3;
    double heater_kwh;
    double sump_least_m3; /* lowest within a round of floods */
    double uncovered_h;   /* the pump's intake drew air */
} HourLoopDay;

typedef struct HourTankDay {
    double count, kg; /* at the day's end */
    double temp_degc, temp_least_degc, temp_most_degc;
    double oxygen_g_m3, oxygen_least_g_m3;
    int oxygen_least_hour; /* 0..23 */
    double nh3_most_g_m3;  /* NH3-N */
    double feed_kg, eaten_kg;
    double dead_count, sold_count, stocked_count;
    double suffered_h; /* oxygen in danger, or ammonia over caution */
    /* Hours in which fish are there and .. */
    double low_oxygen_h; /* .. oxygen is in danger */
    double ammonia_h;    /* .. un-ionised ammonia is over caution */
    double nitrite_h;    /* .. nitrite is over caution for this chloride */
    double cold_h;       /* .. it is too cold to eat */
    double hot_h;        /* .. it is too hot to eat */
} HourTankDay;

typedef struct HourTunnelDay {
    double air_degc, air_least_degc, air_most_degc;
    double crop_least_degc; /* below fleece where that lies */
    double dli_mol;
    double heater_kwh;
    double rh_frac; /* humidity, mean of the hours */
    double wet_h;   /* hours with wet leaves */
} HourTunnelDay;

/* A plant batch over the days run. */
typedef struct HourPlantDay {
    double grown_frac; /* of the growth from setting to its last pick, so far */
    double short_frac; /* of the day's growth, lost to the scarcest nutrient */
    int8_t scarcest;   /* HourElement, or -1 */
    bool is_there;     /* set, and neither cleared nor grown out */
} HourPlantDay;

/* Tables of days x rows; made by hour_days_make. */
typedef struct HourDays {
    int count;
    HourLoopDay *loops;         /* [day * farm->loops_count + loop] */
    HourTankDay *tanks;         /* [day * farm->tanks_count + tank] */
    HourTunnelDay *tunnels;     /* [day * farm->tunnels_count + tunnel] */
    HourPlantDay *plants;       /* [day * hour_plant_count + plant] */
    bool plants_at_end;         /* of the last day alone */
    HourLedger ledger;          /* of all these days */
    double worst_residual_frac; /* of any hour and quantity */
    int worst_quantity;
} HourDays;

void hour_days_make(const HourFarm *farm, int days, Arena *arena,
                    HourDays *out);

/* Runs whole days from the state on; weather has out->count * 24 hours. */
void hour_run(const HourFarm *farm, HourState *state,
              const HourWeather *weather, HourDays *out);

/* ---- What stands behind ---------------------------------------------------
 */

/* What a year may bring beside its weather. */
typedef struct HourFishLuck {
    double warmth;     /* feed by temperature: -1 the low table, 0 the middle,
                          1 the high one; between and beyond by straight lines,
                          never below 0 */
    double appetite;   /* times the farm's */
    double efficiency; /* times growth per feed */
} HourFishLuck;

/* Sets how fast each plant batch grows (times the book's; hour_plant_count of
 * them) and how each species eats and grows (hour_species_count). Without it
 * all is as the book and the farm have it. */
void hour_state_luck(const HourFarm *farm, HourState *state,
                     const double *plant_speed, const HourFishLuck *fish);
int hour_species_count(const HourFarm *farm);
const struct FishSpecies *hour_species(const HourFarm *farm, int row);

/* Growth of a plant batch so far, degC d from setting out or emergence. */
double hour_plant_degc_d(const HourState *state, int plant);
const struct PlantRule *hour_plant_rule(const HourFarm *farm, int plant);

/* Living fish in a tank. */
double hour_tank_count(const HourFarm *farm, const HourState *state, int tank);

/* Living fish of that weight or more that a plan may sell: no breeders. */
double hour_fish_over(const HourFarm *farm, HourState *state, double weight_g);

/* Fish sold so far as each product (row of farm->products) that were heavy
 * enough for it, by row. Borrowed from the state. */
const double *hour_sold_over(const HourState *state);

typedef struct HourPlantName {
    const char *id;   /* Borrowed. */
    int32_t planned;  /* row of farm->plan_plants, or -1 */
    int32_t standing; /* row of farm->plants, or -1 */
    double plants;
    int32_t way;  /* row of farm->ways */
    int32_t bed;  /* row of farm->beds */
    int32_t loop; /* -1: no water */
    int32_t set_day, clear_day;
} HourPlantName;
int hour_plant_count(const HourFarm *farm);
HourPlantName hour_plant_name(const HourFarm *farm, int plant);

/* Floods of a loop in an hour of a month (0..11, 0..23), for cards. */
typedef struct HourFlood {
    double to_tanks_m3_h;
    double to_beds_m3_h;   /* mean */
    double sump_m3;        /* in it when beds are empty */
    double sump_lowest_m3; /* within a round */
    double together_m3;    /* with all zones full at once; below 0: dry */
    bool is_uncovered;
    bool is_dry_together;
} HourFlood;
HourFlood hour_flood(const HourFarm *farm, int loop, int month, int hour);

#endif
