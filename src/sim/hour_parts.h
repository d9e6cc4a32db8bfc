/* What the files of the coupled hour share. No other file includes it. */
#ifndef LEAT_SIM_HOUR_PARTS_H
#define LEAT_SIM_HOUR_PARTS_H

#include "base/extremes.h"
#include "nature/fish/slices.h"
#include "nature/flow/turns.h"
#include "nature/water/star.h"
#include "nature/water/warmth.h"
#include "sim/climate_model.h"
#include "sim/fish_case.h"
#include "sim/hour.h"
#include "sim/plant_rule.h"

enum { HOUR_IRON_EVERY_D = 21 };
enum { DAY_H = 24, MONTHS = 12, HEATERS_MOST = 16, VESSELS_MOST = 64 };

/* Columns of the block of substances that only go round, come and are taken. */
typedef enum WideColumn {
    WIDE_NITRATE,
    WIDE_P,
    WIDE_K,
    WIDE_CA,
    WIDE_MG,
    WIDE_FE,
    WIDE_NA,
    WIDE_CL,
} WideColumn;

typedef double Wide[STAR_WIDE];
typedef double Elements[HOUR_ELEMENTS];

/* ---- What stays the same --------------------------------------------------
 */

typedef enum VesselKind { VESSEL_SUMP, VESSEL_TANK, VESSEL_ZONE } VesselKind;

typedef struct Vessel {
    VesselKind kind;
    int32_t row;         /* of farm->tanks or zones; a sump: of loops */
    double volume_m3;    /* at rest; a zone's: what stays between floods */
    double surface_m2;   /* of open water */
    double loss_w_k;     /* to the air around */
    int32_t tunnel;      /* whose air that is, -1 outside (through a room) */
    double vapour_m3_wh; /* water lost with a Wh of that heat */
    double air_1_h;      /* exchange by stones and surface at 20 degC */
    double gravel_m3;    /* a zone's gravel, as water of the same heat */
    double film_g_h;     /* TAN it turns at most at 20 degC, good water */
    double bed_m2;
    int32_t light; /* a zone's tunnel; -1 in the open, or it has no bed */
} Vessel;

/* Heat given to a vessel. */
typedef struct BodyHeater {
    int vessel; /* in the body, 0 its hub */
    double power_w;
    double target_degc;
    unsigned months;
} BodyHeater;

/* A loop, or a tank apart from every loop: water of its own. Vessels stand
 * together, the hub first. */
typedef struct Body {
    int32_t loop; /* -1: a tank apart */
    int first;
    int count;
    double pump_w;
    double source_degc;
    double source_oxygen_g_m3;
    double source_alkalinity_mol_m3;
    double source_dic_mol_m3;
    Wide source_g_m3;
    bool has_source;
    double top_up_most_m3_h;
    double total_m3; /* when full to its mark */
    double intake_m3;
    BodyHeater heaters[HEATERS_MOST];
    int heater_count;
    const int16_t *pattern; /* [month * 24 + hour]; Owned by the arena. */
} Body;

/* Flows of a body while the same zones flood; by vessel of the body. */
typedef struct Pattern {
    unsigned long long flooded; /* bit by the body's vessel */
    double *in_m3_h;            /* from the hub */
    double *volume_m3;          /* a zone's with its floods; hub: not read */
    double lowest_m3;           /* in a full sump */
    double together_m3;
    double pump_frac; /* of the pumps' power */
    bool is_uncovered;
    bool is_dry_together;
} Pattern;

/* Where a bed of the climate model gets its water. */
typedef struct Surface {
    int vessel; /* -1: none */
} Surface;

typedef struct PlantCase {
    HourPlantName name;
    PlantRule rule;
    int vessel;  /* whose water it has, -1 */
    int surface; /* the climate model's bed */
    int light;   /* row of the tunnel, or CLIMATE_ROWS: its mean */
    double light_frac;
    double start_degc_d; /* growth on from_day */
    double start_up;     /* emerged by so much */
    double first_degc_d; /* to the first pick */
    double total_degc_d; /* to the last */
    Elements per_degc_d; /* g taken by a degree-day of full-grown growth */
    bool is_sown;        /* in place: must come up first */
    bool is_open;        /* no plan clears it: stands until grown out */
} PlantCase;

/* A row of the plan's fish, or a standing batch that no plan moves. */
typedef struct FishPart {
    int plan_row;       /* of farm->plan_fish, or -1 */
    int species;        /* of the farm's list here */
    FishSlices slices;  /* those it holds, when it starts; others 0 */
    int32_t tank;       /* where it starts; -1: not yet here */
    double appetite;    /* with the ration that is given */
    double death_scale; /* times the book's deaths of a usual day */
    double all;         /* fish of the lane, as its plan counts them */
    bool is_kept;       /* breeders, never sold */
} FishPart;

typedef struct FeedMix {
    double from_g, to_g;
    Elements g_kg;
} FeedMix;

/* Water moved each hour of its months from one vessel to another's water; to
 * -1: to waste. */
typedef struct WaterLink {
    int from, to;
    unsigned months;
    double m3_h;
} WaterLink;

struct HourFarm {
    const Farm *farm;
    const Book *book;
    const BookWater *water;
    const ClimateYear *climate;
    ClimateModel *model;
    HourCare care;
    int32_t from_day;
    WarmthTable warmth;
    double pressure_kpa;

    Vessel *vessels;
    int vessel_count;
    Body *bodies;
    int body_count;
    Pattern *patterns;
    int pattern_count;
    int *vessel_body;
    int *tank_vessel; /* by row of tanks */
    int *zone_vessel; /* by row of zones */
    Surface *surfaces;
    WaterLink *links;
    int link_count;
    double **direct_frac; /* by tunnel: [(day * 24 + hour) * 3 + row] */

    PlantCase *plants;
    int plant_count;
    /* Plants that stand in a week or on the day before it, by rows: those of
     * week w from week_first[w] to week_first[w + 1] of week_plants. */
    int *week_first;
    int32_t *week_plants;
    int32_t *all_plants; /* every one of them, for weeks beyond */

    const FishSpecies **species;
    int species_count;
    FishPart *parts;
    int part_count;
    int shoal_most;
    FeedMix *feeds;
    int feed_count;
    const struct WaterBase *dose; /* NULL: the farm has no base */
    Elements dose_g_eq;           /* element that comes with an eq */
    double dose_dic_mol_eq;
    bool has_salt[HOUR_ELEMENTS]; /* of the element, without alkalinity */

    double stays;       /* exp(-gut rate) */
    double danger_g_m3; /* oxygen */
    Elements body_g_kg; /* of live fish */
    Elements solids_frac;
    Elements half_g_m3;
};

/* ---- What an hour changes -------------------------------------------------
 */

/* Fish of one slice of one part in one tank. */
typedef struct Shoal {
    int16_t part, slice, tank, school;
    double count;
    double weight_g;
    double appetite;    /* over the book's ration */
    double ration_kg_d; /* all of them at full warmth */
    double upkeep_kg_d;
} Shoal;

/* Fish of one species in one tank, as the hour sees them. */
typedef struct School {
    double count;
    double kg; /* at the day's beginning, those still alive */
    double mean_g;
    double ration_kg_d; /* at full warmth and appetite */
    double small_frac;  /* of the ration: of fish that want little oxygen */
    double rest_g_h;    /* oxygen at rest at 28 degC */
    double upkeep_kg_h;
    Elements feed_g_kg;
    double nh3_caution_g_m3;
    double nh3_deadly_g_m3;
    /* Gut, two stages: feed kg, then the elements in it, g. */
    double gut_kg[2];
    Elements gut_g[2];
    /* Since the day began. */
    double digested_kg;
    double upkeep_kg;
    double grown_kg; /* efficiency x digested - upkeep */
} School;

typedef struct PlantState {
    double up; /* emergence, 1 is up */
    double degc_d;
    double rate_degc_d; /* of yesterday's warmth and light, nutrients aside */
    double short_frac;
    int8_t scarcest;
    bool is_gone;
} PlantState;

/* Sums of the day that is running. */
typedef struct TunnelNow {
    double sum_degc, least_degc, most_degc;
    double sun_j_m2[CLIMATE_ROWS + 1]; /* rows, mean */
    double before_j_m2;                /* mean of the day before */
} TunnelNow;

/* A tunnel's openings. */
typedef struct TunnelVents {
    double held_frac; /* NAN: by the rule */
    bool was_open;    /* for its warmth, in the hour before */
    HourAir air;      /* as it was in that hour */
} TunnelVents;

struct HourState {
    /* One block of memory, so that copying is one move. */
    size_t bytes;
    int64_t hours;
    HourLedger ledger; /* of the last hour; held kept from hour to hour */
    /* By vessel. */
    double *volume_m3;
    double *heat; /* m3 degC of water, gravel as water */
    double *degc;
    double *oxygen_g, *tan_g, *nitrite_g, *alkalinity_mol, *dic_mol;
    Wide *wide_g;
    double *a; /* activity of H+ */
    double *co2_mol_m3, *co2_slope;
    double *solids_kg; /* settled: a zone's gravel, a tank's floor */
    Elements *solids_g;
    Elements *ask_g_d;  /* a zone's plants */
    Elements *taken_g;  /* since the day began */
    Elements *asked_g;  /* since the day began */
    int16_t *pattern;   /* by body */
    int16_t *iron_wait; /* by body: days to the next iron */
    /* By body: zones began to flood in this hour, or some came to rest. */
    bool *is_started, *is_stopped;
    double part_h; /* of the hour, that its water is taken through */
    /* By tank x species, tunnel, model's bed, plant, part x tank. */
    School *schools;
    TunnelState *tunnels;
    double *tanks_w;
    double *held_g_m3; /* water in a tunnel's air */
    TunnelVents *vents;
    TunnelNow *tunnel_now;
    TunnelBed *beds;
    PlantState *plants;
    double *part_share; /* [part * tanks + tank], of the plan's fish */
    double *plant_speed;
    HourFishLuck *fish_luck; /* by species */
    double *sold_over;       /* by product */
    double
        *way_degc_d; /* [way * (tunnels + 1) + tunnel] of a day, or below 0 */
    Shoal *shoals;
    int shoal_count;
    HourLoopDay *loop_now;
    HourTankDay *tank_now;
    HourTunnelDay *tunnel_day;

    /* Within an hour; by vessel. Not part of what a copy means. */
    double *in_m3_h, *out_m3_h, *vapour_m3_h, *heat_w, *ambient_degc;
    double *mid_m3;
    WaterWarmth *warm;
    double *gain_h, *back_h, *loss_h, *source, *mean, *before;
    Wide *wide_loss, *wide_source, *wide_mean;
    double *fish_oxygen_g_h, *rot_oxygen_g_h, *ammonia_g_h, *carbon_mol_h;
    double *charge_eq_h;
    double *room;
    FishSlices *over_room; /* [part * tanks + tank] */
};

/* ---- Between the files ----------------------------------------------------
 */

Err hour_make_vessels(HourFarm *h, Arena *arena);  /* hour_vessels.c */
Err hour_make_patterns(HourFarm *h, Arena *arena); /* hour_floods.c */
Err hour_make_fish(HourFarm *h, Arena *arena);     /* hour_shoals.c */
Err hour_make_plants(HourFarm *h, Arena *arena);   /* hour_plants.c */

void hour_start_water(const HourFarm *h, HourState *s);  /* hour_state.c */
void hour_start_fish(const HourFarm *h, HourState *s);   /* hour_shoals.c */
void hour_start_plants(const HourFarm *h, HourState *s); /* hour_plants.c */

void hour_make_links(HourFarm *h, Arena *arena); /* hour_links.c */

/* Moves water with all that is in it; gravel keeps its heat. */
void hour_move_water(const HourFarm *h, HourState *s, int from, int to,
                     double m3);

/* The parts of an hour, in their order; day is the day of the year from 0. */
typedef struct HourNow {
    const HourWeather *weather;
    int day;   /* of the year, 0..364 */
    int month; /* 0..11 */
    int hour;  /* 0..23 */
    int32_t date;
} HourNow;
HourNow hour_now(const HourFarm *h, const HourState *s,
                 const HourWeather *weather);

void hour_turn_floods(const HourFarm *h, HourState *s, const HourNow *now);
void hour_run_links(const HourFarm *h, HourState *s, const HourNow *now);
void hour_air(const HourFarm *h, HourState *s, const HourNow *now);
void hour_flows(const HourFarm *h, HourState *s, const HourNow *now);
void hour_heat(const HourFarm *h, HourState *s, const HourNow *now);
void hour_fish(const HourFarm *h, HourState *s, const HourNow *now);
void hour_solids(const HourFarm *h, HourState *s);
void hour_water(const HourFarm *h, HourState *s, const HourNow *now);
void hour_oxygen(const HourFarm *h, HourState *s, const Body *body);
void hour_carbon(const HourFarm *h, HourState *s, const Body *body);
void hour_settle_ph(const HourFarm *h, HourState *s, const Body *body);
void hour_harm(const HourFarm *h, HourState *s, const HourNow *now);

/* An hour whose dissolved substances another takes through it than hour_water:
 * so that its method can be judged by one that is slow and exact. */
typedef void HourWater(const HourFarm *h, HourState *s, const HourNow *now);
void hour_step_by(const HourFarm *h, HourState *s, const HourWeather *weather,
                  HourWater *water);

/* The losses of an hour as the tests of the method need them: f(pH) of films,
 * share of the day's uptake, iron and phosphorus that fall out, 1/h. */
double hour_film_ph(double ph);
double hour_share_of_day(const HourFarm *h, const HourState *s,
                         const HourNow *now, int vessel);
double hour_iron_loss_1_h(const HourFarm *h, double a);
double hour_phosphorus_loss_1_h(const HourFarm *h, double a);

/* The day's end: growth and deaths, plants of the day to come. */
void hour_fish_day(const HourFarm *h, HourState *s);
void hour_plants_day(const HourFarm *h, HourState *s, int32_t date);
bool hour_plant_stands(const PlantCase *plant, const PlantState *is,
                       int32_t date);
/* Its beginning. */
void hour_fish_moves(const HourFarm *h, HourState *s, int32_t date);
void hour_give_base(const HourFarm *h, HourState *s, int hour);
bool hour_has_salt(const HourFarm *h, int element);
void hour_care_day(const HourFarm *h, HourState *s, int32_t date);

/* The light of a tunnel's row (or of its mean) in an hour, W/m2. */
double hour_light_w_m2(const HourFarm *h, const HourNow *now, int32_t tunnel,
                       int row);

/* Settles what is held and closes the hour's ledger. */
void hour_ledger_open(HourState *s);
void hour_ledger_close(const HourFarm *h, HourState *s);
void hour_held(const HourFarm *h, const HourState *s, double held[]);

/* Flows as rates of amounts; an amount as a column of star_step; a signed
 * amount into a ledger. */
StarRates hour_flow_rates(HourState *s, const Body *body);
StarColumn hour_column(HourState *s, const Body *body, double *amount);
void hour_put(HourLedger *ledger, int quantity, double amount);

void hour_schools(const HourFarm *h, HourState *s); /* sums of shoals anew */

#endif
