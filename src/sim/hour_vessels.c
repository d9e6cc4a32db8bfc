/* From the farm's tables to vessels of water, loop by loop. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/heat/exchange.h"
#include "nature/water/topup.h"
#include "sim/hour_parts.h"

static const double LEAST_M3 = 0.05;
static const double ROOM_TIMES = 3.0; /* as the climate year has it */
static const double LATENT_WH_M3 = 2.45e9 / 3600.0;
static const double CHLORIDE_OF_SALT = 35.453 / 22.990;
static const double CACO3_G_EQ = 50.0435;

static double top_m2(double volume_m3)
{
    const double pi = acos(-1.0);
    double across_m = cbrt(4.0 * volume_m3 / pi);
    return pi * across_m * across_m / 4.0;
}

static double stones_kg_h(const Farm *farm, int32_t tank)
{
    const Tank *row = &farm->tanks[tank];
    double loop_m3 = 0.0;
    for (int i = 0; i < farm->tanks_count; i++) {
        loop_m3 +=
            farm->tanks[i].loop == row->loop ? farm->tanks[i].volume_m3 : 0.0;
    }
    double sum = 0.0;
    for (int i = 0; i < farm->aerators_count; i++) {
        const Aerator *air = &farm->aerators[i];
        double kg_h = air->power_w / 1000.0 * air->oxygen_kg_kwh;
        bool is_shared =
            air->tank < 0 && air->loop >= 0 && air->loop == row->loop;
        sum += air->tank == tank ? kg_h
               : is_shared       ? kg_h * row->volume_m3 / loop_m3
                                 : 0.0;
    }
    return sum;
}

/* Exchange with the air at 20 degC, 1/h: stones and the still surface. */
static double exchange_1_h(const HourFarm *h, const Vessel *v, double kg_h)
{
    const BookWater *w = h->water;
    double at_20 = warmth_at(&h->warmth, 20.0).oxygen_g_m3;
    return (1000.0 * kg_h * w->air_alpha_frac.value / at_20 +
            w->still_air_m_h.value * v->surface_m2) /
           v->volume_m3;
}

static void make_tub(const HourFarm *h, const Tank *row, double kg_h, Vessel *v)
{
    TankWall wall = row->wall == WALL_BARE   ? TANK_BARE
                    : row->wall == WALL_SOME ? TANK_SOME
                                             : TANK_THICK;
    v->volume_m3 = fmax(row->volume_m3, LEAST_M3);
    v->surface_m2 = top_m2(v->volume_m3);
    v->tunnel = row->tunnel;
    double own_w_k = heat_tank_loss_w_k(v->volume_m3, wall, row->has_lid);
    double share = row->has_lid ? 0.0 : h->water->vapour_frac.value;
    v->loss_w_k = own_w_k;
    v->vapour_m3_wh = share / LATENT_WH_M3;
    if (row->tunnel < 0) {
        double room_w_k = h->book->common->tank_room_w_m2_k.value * ROOM_TIMES *
                          heat_tank_surface_m2(v->volume_m3);
        v->loss_w_k = own_w_k * room_w_k / (own_w_k + room_w_k);
    }
    v->air_1_h = exchange_1_h(h, v, kg_h);
}

static Err make_zone(const HourFarm *h, int32_t zone, Vessel *v)
{
    const BookWater *w = h->water;
    for (int i = 0; i < h->farm->beds_count; i++) {
        const Bed *bed = &h->farm->beds[i];
        if (bed->zone != zone || bed->until <= h->from_day) {
            continue;
        }
        const BookGravel *gravel = book_gravel(h->book, bed->gravel);
        if (!gravel) {
            return err_make(ERR_NOT_FOUND, "bed %s: the book has no gravel %s",
                            bed->id, bed->gravel);
        }
        double area_m2 = bed->length_m * bed->width_m;
        double m3 = area_m2 * bed->depth_m;
        double wet = fmin(1.0, bed->flood_m / bed->depth_m);
        /* The figure is of 25 degC. */
        double rate_g_m3_d =
            fmin(gravel->nitrify_g_m2_d.value * gravel->surface_m2_m3.value,
                 100.0) /
            warmth_at(&h->warmth, 25.0).film;
        v->bed_m2 += area_m2;
        v->volume_m3 += w->pore_left_frac.value * m3 * bed->porosity_frac;
        v->gravel_m3 +=
            heat_gravel_j_k(m3, bed->porosity_frac) / HEAT_WATER_J_M3_K;
        v->film_g_h += rate_g_m3_d * m3 * wet / DAY_H;
    }
    v->volume_m3 = fmax(v->volume_m3, LEAST_M3 / 10.0);
    v->tunnel = v->light = -1;
    v->air_1_h = w->bed_air_h.value;
    return ERR_NONE;
}

static void make_source(const HourFarm *h, const WaterSource *row, Body *body)
{
    WaterWarmth at = warmth_at(&h->warmth, row->temp_degc);
    body->has_source = true;
    body->source_degc = row->temp_degc;
    body->source_oxygen_g_m3 = at.oxygen_g_m3;
    body->source_alkalinity_mol_m3 = row->alkalinity_mg_l / CACO3_G_EQ;
    body->source_dic_mol_m3 =
        warmth_dic(&at, body->source_alkalinity_mol_m3, row->ph);
    body->source_g_m3[WIDE_CA] = row->calcium_mg_l;
    body->source_g_m3[WIDE_MG] = row->magnesium_mg_l;
    body->source_g_m3[WIDE_NA] = row->sodium_mg_l;
    body->source_g_m3[WIDE_CL] = row->sodium_mg_l * CHLORIDE_OF_SALT;
    body->top_up_most_m3_h = body->total_m3;
    double most = water_chlorine_most_mg_l();
    if (row->chlorine_mg_l > most) {
        body->top_up_most_m3_h =
            body->total_m3 * most / (row->chlorine_mg_l - most);
    }
}

static void add_heater(Body *body, int vessel, const Heater *row)
{
    if (body->heater_count < HEATERS_MOST) {
        body->heaters[body->heater_count++] =
            (BodyHeater){vessel, row->power_kw * 1000.0, row->target_degc,
                         (unsigned)row->months};
    }
}

static void close_body(HourFarm *h, Body *body)
{
    const Farm *farm = h->farm;
    body->count = h->vessel_count - body->first;
    for (int i = 0; i < body->count; i++) {
        const Vessel *v = &h->vessels[body->first + i];
        body->total_m3 += v->volume_m3;
        h->vessel_body[body->first + i] = (int)(body - h->bodies);
    }
    for (int i = 0; i < farm->heaters_count; i++) {
        const Heater *row = &farm->heaters[i];
        if (row->tunnel >= 0) {
            continue;
        }
        for (int j = 0; j < body->count; j++) {
            const Vessel *v = &h->vessels[body->first + j];
            bool is_tank = v->kind == VESSEL_TANK && row->tank == v->row;
            bool is_sump =
                v->kind == VESSEL_SUMP && row->tank < 0 && row->loop == v->row;
            if (is_tank || is_sump) {
                add_heater(body, j, row);
            }
        }
    }
}

static Err make_loop(HourFarm *h, int32_t loop)
{
    const Farm *farm = h->farm;
    Body *body = &h->bodies[h->body_count++];
    *body = (Body){.loop = loop, .first = h->vessel_count};
    Vessel *sump = &h->vessels[h->vessel_count++];
    Tank like = {.volume_m3 = fmax(farm->loops[loop].sump_m3, LEAST_M3),
                 .has_lid = true,
                 .wall = WALL_SOME,
                 .tunnel = -1};
    make_tub(h, &like, 0.0, sump);
    sump->kind = VESSEL_SUMP;
    sump->row = loop;
    for (int i = 0; i < farm->tanks_count; i++) {
        if (farm->tanks[i].loop == loop) {
            Vessel *tank = &h->vessels[h->vessel_count];
            make_tub(h, &farm->tanks[i], stones_kg_h(farm, i), tank);
            tank->kind = VESSEL_TANK;
            tank->row = i;
            h->tank_vessel[i] = h->vessel_count++;
        }
    }
    for (int i = 0; i < farm->zones_count; i++) {
        if (farm->zones[i].loop == loop) {
            Vessel *zone = &h->vessels[h->vessel_count];
            TRY(make_zone(h, i, zone));
            zone->kind = VESSEL_ZONE;
            zone->row = i;
            h->zone_vessel[i] = h->vessel_count++;
        }
    }
    close_body(h, body);
    for (int i = 0; i < farm->pumps_count; i++) {
        body->pump_w +=
            farm->pumps[i].loop == loop ? farm->pumps[i].power_w : 0.0;
    }
    body->intake_m3 = h->water->intake_frac.value * sump->volume_m3;
    if (farm->loops[loop].source >= 0) {
        make_source(h, &farm->sources[farm->loops[loop].source], body);
    }
    return ERR_NONE;
}

static void make_apart(HourFarm *h, int32_t tank)
{
    Body *body = &h->bodies[h->body_count++];
    *body = (Body){.loop = -1, .first = h->vessel_count};
    Vessel *v = &h->vessels[h->vessel_count];
    make_tub(h, &h->farm->tanks[tank], stones_kg_h(h->farm, tank), v);
    v->kind = VESSEL_TANK;
    v->row = tank;
    h->tank_vessel[tank] = h->vessel_count++;
    close_body(h, body);
    if (h->farm->sources_count > 0) {
        make_source(h, &h->farm->sources[0], body);
    }
}

Err hour_make_vessels(HourFarm *h, Arena *arena)
{
    const Farm *farm = h->farm;
    int most = farm->loops_count + farm->tanks_count + farm->zones_count;
    h->vessels = ARENA_ARRAY(arena, Vessel, most);
    h->bodies = ARENA_ARRAY(arena, Body, farm->loops_count + farm->tanks_count);
    h->vessel_body = ARENA_ARRAY(arena, int, most);
    h->tank_vessel = ARENA_ARRAY(arena, int, farm->tanks_count);
    h->zone_vessel = ARENA_ARRAY(arena, int, farm->zones_count);
    for (int i = 0; i < farm->loops_count; i++) {
        TRY(make_loop(h, i));
    }
    for (int i = 0; i < farm->tanks_count; i++) {
        if (farm->tanks[i].loop < 0) {
            make_apart(h, i);
        }
    }
    h->surfaces = ARENA_ARRAY(arena, Surface, h->model->bed_count);
    for (int i = 0; i < h->model->bed_count; i++) {
        int32_t zone = h->model->bed_kinds[i].zone;
        h->surfaces[i].vessel = zone >= 0 ? h->zone_vessel[zone] : -1;
        if (zone >= 0) {
            h->vessels[h->zone_vessel[zone]].light =
                h->model->bed_kinds[i].tunnel;
        }
    }
    return ERR_NONE;
}
