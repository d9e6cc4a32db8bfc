/* A farm as bodies of air and water that exchange heat, for climate_year. */
#ifndef LEAT_SIM_CLIMATE_MODEL_H
#define LEAT_SIM_CLIMATE_MODEL_H

#include "base/arena.h"
#include "farm/book.h"
#include "farm/records.h"
#include "nature/heat/tunnel.h"
#include "nature/heat/water.h"
#include "sim/climate_light.h"
#include "sim/vent_rule.h"

enum { CLIMATE_HOURS = CLIMATE_YEAR_DAYS * 24 };

/* Beds of one tunnel and zone, beside their TunnelBed. */
typedef struct ModelBed {
    int32_t tunnel; /* -1 in the open */
    int32_t zone;   /* -1: never flooded */
    int32_t loop;   /* -1 */
} ModelBed;

typedef struct ModelTunnel {
    TunnelHouse house;
    VentRule rule;
    ClimateCover cover;
    TunnelState state;
    bool was_open; /* for its warmth, in the hour before */
    int first_bed; /* of the model's beds, which stand by tunnel */
    int bed_count;
    double beds_m2;
    double heater_w[12];
    double heater_price; /* of a kWh, currency */
    int32_t lit_as;   /* the first tunnel with the same light; itself if none */
    double *sun_w_m2; /* CLIMATE_HOURS: mean of the floor, shared with lit_as.
                         Owned by the arena. */
    double tanks_w;   /* from tanks inside, of the hour before */
} ModelTunnel;

/* Water of one temperature: a loop's, or that of a tank apart. */
typedef struct ModelWater {
    int32_t tank;       /* a tank apart; -1: a loop's water */
    int32_t loop;       /* itself, or the loop it changes water with, or -1 */
    double water_j_k;   /* without flooded beds */
    double room_w_k;    /* to the outside, by way of the room */
    double *tunnel_w_k; /* to the air of each tunnel. Owned by the arena. */
    double pump_w;
    double exchange_m3_h; /* a tank apart, with its loop */
    double make_up_degc;
    const Heater *heaters[WATER_HEATERS_MAX]; /* Borrowed. */
    int heater_count;
    double temp_degc;
} ModelWater;

typedef struct ClimateModel {
    const Farm *farm;         /* Borrowed. */
    const BookCommon *common; /* Borrowed from the book. */
    ClimateNormals normals;
    ClimateDay days[CLIMATE_YEAR_DAYS];
    ClimateSun suns[CLIMATE_YEAR_DAYS];
    double hour_degc[CLIMATE_HOURS];
    double open_w_m2[CLIMATE_HOURS]; /* sun in the open */
    double mean_degc;                /* of the year, outside */
    ModelTunnel *tunnels;            /* as the farm's table */
    TunnelBed *beds;                 /* by tunnel, those in the open last */
    ModelBed *bed_kinds;             /* beside beds */
    int bed_count;
    int open_first;     /* first bed in the open */
    ModelWater *waters; /* loops as the farm's table, then tanks apart */
    int water_count;
    int32_t *tank_water; /* by tank: index of its water */
} ClimateModel;

/* ERR_INPUT: no row of the farm's own, or not twelve months of climate. */
NODISCARD Err climate_normals_read(const Farm *farm, ClimateNormals *out);

/* Errors as climate_year_run. */
NODISCARD Err climate_model_make(const Farm *farm, const Book *book,
                                 Arena *arena, ClimateModel *out);

#endif
