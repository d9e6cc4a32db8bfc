/* The coupled farm by the hour: making it, its state, and one step. */
#include "sim/hour.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/heat/damp.h"
#include "nature/water/base.h"
#include "nature/water/oxygen.h"
#include "sim/hour_parts.h"

enum { START_BACK_D = 60 };

static const double CACO3_G_EQ = 50.0435;
static const double IONIC_MOL_L = 0.004; /* water of 2.5 eq/m3 */

HourCare hour_usual_care(void)
{
    return (HourCare){.feed_frac = 1.0, .gives_base = true};
}

/* ---- Making the farm --------------------------------------------------------
 */

/* Shares of the direct sun on each row, by hour of the year. */
static void make_light(HourFarm *h, Arena *arena)
{
    const ClimateModel *m = h->model;
    h->direct_frac = ARENA_ARRAY(arena, double *, h->farm->tunnels_count);
    ClimateSun one = {{0}, {0}};
    for (int hour = 0; hour < DAY_H; hour++) {
        one.direct_w_m2[hour] = 1.0;
    }
    for (int32_t t = 0; t < h->farm->tunnels_count; t++) {
        if (m->tunnels[t].lit_as != t) {
            continue;
        }
        double *to = ARENA_ARRAY(arena, double, CLIMATE_HOURS *CLIMATE_ROWS);
        h->direct_frac[t] = to;
        for (int at = 0; at < CLIMATE_HOURS; at++) {
            int hour = at % DAY_H;
            SunDirection sun = sun_direction(
                m->normals.latitude_deg, m->days[at / DAY_H].declination_rad,
                SUN_PI / 12.0 * (hour + 1.0 / 2.0 - 12.0));
            for (int row = 0; row < CLIMATE_ROWS; row++) {
                to[at * CLIMATE_ROWS + row] =
                    fmax(0.0, climate_row_w_m2(&m->tunnels[t].cover, &one, &sun,
                                               hour, row));
            }
        }
    }
}

/* The first base in the farm's store that brings alkalinity. */
static void make_dose(HourFarm *h)
{
    for (int i = 0; i < h->farm->bases_count && !h->dose; i++) {
        const WaterBase *base = NULL;
        Err err = water_base_find(h->farm->bases[i].kind, &base);
        if (err.kind != ERR_OK || !(base->eq_mol > 0.0)) {
            continue;
        }
        h->dose = base;
        double g_eq = base->molar_g / base->eq_mol;
        h->dose_g_eq[HOUR_K] = g_eq * base->potassium_frac;
        h->dose_g_eq[HOUR_CA] = g_eq * base->calcium_frac;
        h->dose_g_eq[HOUR_MG] = g_eq * base->magnesium_frac;
        h->dose_dic_mol_eq = base->dic_mol / base->eq_mol;
    }
}

Err hour_farm_make(const HourAsk *ask, Arena *arena, HourFarm **out)
{
    HourFarm *h = ARENA_NEW(arena, HourFarm);
    *h = (HourFarm){.farm = ask->farm,
                    .book = ask->book,
                    .water = ask->book->waters,
                    .climate = ask->climate,
                    .care = ask->care,
                    .from_day = ask->from_day};
    if (date_weekday(ask->from_day) != 0) {
        return err_make(ERR_RANGE, "the hours begin on a Monday");
    }
    h->model = ARENA_NEW(arena, ClimateModel);
    TRY(climate_model_make(ask->farm, ask->book, arena, h->model));
    h->pressure_kpa = water_pressure_kpa(h->model->normals.altitude_m);
    WarmthCase warmth = {h->pressure_kpa, IONIC_MOL_L,
                         h->water->air_co2_ppm.value,
                         h->water->mineral_rise.value};
    warmth_fill(&warmth, &h->warmth);
    make_light(h, arena);
    TRY(hour_make_vessels(h, arena));
    TRY(hour_make_patterns(h, arena));
    hour_make_links(h, arena);
    TRY(hour_make_fish(h, arena));
    TRY(hour_make_plants(h, arena));
    make_dose(h);
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        h->has_salt[e] = hour_has_salt(h, e);
    }
    *out = h;
    return ERR_NONE;
}

/* ---- The state's memory -----------------------------------------------------
 */

/* With at NULL only counts. */
typedef struct Room {
    char *at;
    size_t bytes;
} Room;

static void *take(Room *room, size_t count, size_t size)
{
    void *here = room->at ? room->at + room->bytes : NULL;
    room->bytes += (count * size + 15) / 16 * 16;
    return here;
}

#define TAKE(member, count)                                                    \
    s->member = take(room, (size_t)(count), sizeof *s->member)

static void lay_out(const HourFarm *h, HourState *s, Room *room)
{
    int v = h->vessel_count;
    int tunnels = h->farm->tunnels_count;
    double **const by_vessel[] = {
        &s->volume_m3,       &s->heat,           &s->degc,
        &s->oxygen_g,        &s->tan_g,          &s->nitrite_g,
        &s->alkalinity_mol,  &s->dic_mol,        &s->a,
        &s->co2_mol_m3,      &s->co2_slope,      &s->solids_kg,
        &s->in_m3_h,         &s->out_m3_h,       &s->vapour_m3_h,
        &s->heat_w,          &s->ambient_degc,   &s->mid_m3,
        &s->gain_h,          &s->back_h,         &s->loss_h,
        &s->source,          &s->mean,           &s->before,
        &s->fish_oxygen_g_h, &s->rot_oxygen_g_h, &s->ammonia_g_h,
        &s->carbon_mol_h,    &s->charge_eq_h};
    for (size_t i = 0; i < sizeof by_vessel / sizeof *by_vessel; i++) {
        *by_vessel[i] = take(room, (size_t)v, sizeof(double));
    }
    TAKE(wide_g, v);
    TAKE(wide_loss, v);
    TAKE(wide_source, v);
    TAKE(wide_mean, v);
    TAKE(solids_g, v);
    TAKE(ask_g_d, v);
    TAKE(taken_g, v);
    TAKE(asked_g, v);
    TAKE(warm, v);
    TAKE(room, 4 * STAR_WIDE * v);
    TAKE(pattern, h->body_count);
    TAKE(iron_wait, h->body_count);
    TAKE(is_started, h->body_count);
    TAKE(is_stopped, h->body_count);
    TAKE(schools, h->farm->tanks_count * h->species_count);
    TAKE(tunnels, tunnels);
    TAKE(tanks_w, tunnels);
    TAKE(held_g_m3, tunnels);
    TAKE(vents, tunnels);
    TAKE(tunnel_now, tunnels + 1); /* the last: in the open */
    TAKE(beds, h->model->bed_count);
    TAKE(plants, h->plant_count);
    TAKE(part_share, h->part_count * h->farm->tanks_count);
    TAKE(plant_speed, h->plant_count);
    TAKE(fish_luck, h->species_count);
    TAKE(sold_over, h->farm->products_count);
    TAKE(over_room, h->part_count * h->farm->tanks_count);
    TAKE(way_degc_d, h->farm->ways_count * (tunnels + 1));
    TAKE(shoals, h->shoal_most);
    TAKE(loop_now, h->farm->loops_count);
    TAKE(tank_now, h->farm->tanks_count);
    TAKE(tunnel_day, tunnels);
}

void hour_state_copy(const HourFarm *h, const HourState *from, HourState *to)
{
    assert(from->bytes == to->bytes);
    (void)h;
    /* Volumes are the first of the block. */
    memcpy(to->volume_m3, from->volume_m3, from->bytes);
    to->hours = from->hours;
    to->ledger = from->ledger;
    to->shoal_count = from->shoal_count;
}

int64_t hour_state_hours(const HourState *state)
{
    return state->hours;
}

void hour_state_luck(const HourFarm *h, HourState *s, const double *plant_speed,
                     const HourFishLuck *fish)
{
    memcpy(s->plant_speed, plant_speed,
           (size_t)h->plant_count * sizeof *plant_speed);
    memcpy(s->fish_luck, fish, (size_t)h->species_count * sizeof *fish);
}

/* ---- The first hour's state
 * -------------------------------------------------- */

/* The latest reading of a quantity, of a tank or (tank -1) of a loop, not older
 * than START_BACK_D; NAN where there is none. */
static double reading(const HourFarm *h, int32_t tank, int32_t loop,
                      int quantity)
{
    int64_t until = ((int64_t)h->from_day + 1) * 86400;
    int64_t best = until - (int64_t)START_BACK_D * 86400;
    double value = NAN;
    for (int i = 0; i < h->farm->readings_count; i++) {
        const Reading *row = &h->farm->readings[i];
        bool is_its =
            tank >= 0 ? row->tank == tank : row->tank < 0 && row->loop == loop;
        if (is_its && row->quantity == quantity && row->at < until &&
            row->at >= best) {
            best = row->at;
            value = row->value;
        }
    }
    return value;
}

static double first_of(double a, double b, double c)
{
    return !isnan(a) ? a : !isnan(b) ? b : c;
}

/* A loop's own reading, else the mean of its tanks'. */
static double loop_reading(const HourFarm *h, const Body *body, int quantity)
{
    double own = body->loop >= 0 ? reading(h, -1, body->loop, quantity) : NAN;
    double sum = 0.0;
    int count = 0;
    for (int j = 0; j < body->count; j++) {
        const Vessel *v = &h->vessels[body->first + j];
        double one =
            v->kind == VESSEL_TANK ? reading(h, v->row, -1, quantity) : NAN;
        if (!isnan(one)) {
            sum += one;
            count++;
        }
    }
    return first_of(own, count > 0 ? sum / count : NAN, NAN);
}

static double usual_degc(const HourFarm *h, const Vessel *v, int32_t loop)
{
    int doy = date_day_of_year(h->from_day) - 1;
    return v->kind == VESSEL_TANK ? h->climate->tanks[v->row].mean_degc[doy]
           : loop >= 0            ? h->climate->loops[loop].mean_degc[doy]
                                  : h->climate->outside_mean_degc[doy];
}

static double held_to(double value, double least, double most)
{
    return value < least ? least : value > most ? most : value;
}

/* Amounts of a vessel from the readings of it, its loop, or the book. */
static void start_vessel(const HourFarm *h, HourState *s, const Body *body,
                         int v)
{
    const Vessel *is = &h->vessels[v];
    const BookWater *w = h->water;
    int32_t tank = is->kind == VESSEL_TANK ? is->row : -2;
#define READ(quantity, usual)                                                  \
    first_of(tank >= 0 ? reading(h, tank, -1, quantity) : NAN,                 \
             loop_reading(h, body, quantity), usual)
    double m3 = s->volume_m3[v];
    double degc = tank >= 0 ? reading(h, tank, -1, READ_TEMP) : NAN;
    s->degc[v] = first_of(degc, usual_degc(h, is, body->loop), NAN);
    s->heat[v] = s->degc[v] * (m3 + is->gravel_m3);
    s->warm[v] = warmth_at(&h->warmth, s->degc[v]);
    s->oxygen_g[v] = m3 * fmin(READ(READ_OXYGEN, s->warm[v].oxygen_g_m3),
                               s->warm[v].oxygen_g_m3);
    s->tan_g[v] = m3 * READ(READ_TAN, w->start_tan_g_m3.value);
    s->nitrite_g[v] = m3 * READ(READ_NITRITE, w->start_nitrite_g_m3.value);
    double usual_mg_l = body->source_alkalinity_mol_m3 > 0.0
                            ? body->source_alkalinity_mol_m3 * CACO3_G_EQ
                            : 60.0;
    double alkalinity = READ(READ_ALKALINITY, usual_mg_l) / CACO3_G_EQ;
    double ph = held_to(READ(READ_PH, 7.0), 3.5, 11.5);
    s->alkalinity_mol[v] = m3 * alkalinity;
    s->a[v] = pow(10.0, -ph);
    s->dic_mol[v] = m3 * warmth_dic(&s->warm[v], alkalinity, ph);
    double *wide = s->wide_g[v];
    wide[WIDE_NITRATE] = m3 * READ(READ_NITRATE, w->start_nitrate_g_m3.value);
    wide[WIDE_FE] = m3 * READ(READ_IRON, w->start_fe_g_m3.value);
    wide[WIDE_P] = m3 * w->start_p_g_m3.value;
    wide[WIDE_K] = m3 * w->start_k_g_m3.value;
    wide[WIDE_CA] = m3 * fmax(body->source_g_m3[WIDE_CA], 20.0);
    wide[WIDE_MG] = m3 * fmax(body->source_g_m3[WIDE_MG], 5.0);
    wide[WIDE_NA] = m3 * body->source_g_m3[WIDE_NA];
    wide[WIDE_CL] = m3 * READ(READ_CHLORIDE, body->source_g_m3[WIDE_CL]);
#undef READ
    if (is->kind == VESSEL_ZONE) {
        double kg = w->solids_start_kg_m2.value * is->bed_m2;
        double eaten_kg = kg / w->solids_kg_kg.value;
        s->solids_kg[v] = kg;
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            s->solids_g[v][e] =
                eaten_kg * h->solids_frac[e] * h->feeds[h->feed_count].g_kg[e];
        }
    }
}

void hour_start_water(const HourFarm *h, HourState *s)
{
    for (int b = 0; b < h->body_count; b++) {
        const Body *body = &h->bodies[b];
        s->pattern[b] = body->pattern[(date_month(h->from_day) - 1) * DAY_H];
        const Pattern *p = &h->patterns[s->pattern[b]];
        for (int j = 0; j < body->count; j++) {
            s->volume_m3[body->first + j] = p->volume_m3[j];
            start_vessel(h, s, body, body->first + j);
            PhPoint at =
                warmth_ph(&s->warm[body->first + j],
                          s->alkalinity_mol[body->first + j] / p->volume_m3[j],
                          s->dic_mol[body->first + j] / p->volume_m3[j],
                          s->a[body->first + j]);
            s->a[body->first + j] = at.a;
            s->co2_mol_m3[body->first + j] = at.co2_mol_m3;
        }
        s->iron_wait[b] = HOUR_IRON_EVERY_D;
    }
}

static void start_air(const HourFarm *h, HourState *s)
{
    int doy = date_day_of_year(h->from_day) - 1;
    for (int32_t t = 0; t < h->farm->tunnels_count; t++) {
        const ClimateTunnel *air = &h->climate->tunnels[t];
        s->tunnels[t] = h->model->tunnels[t].state;
        s->tunnels[t].air_degc = air->min_degc[doy];
        s->held_g_m3[t] =
            damp_of_humidity_g_m3(air->min_degc[doy], air->rh_frac[doy]);
        s->tunnels[t].ground_degc = air->mean_degc[doy];
        /* The layer below lags by about a month. */
        s->tunnels[t].deep_degc = air->mean_degc[(doy + 335) % 365];
        s->tunnel_now[t].before_j_m2 = 0.0;
        s->vents[t] =
            (TunnelVents){.held_frac = NAN, .air = {.is_film_wet = true}};
    }
    memcpy(s->beds, h->model->beds,
           (size_t)h->model->bed_count * sizeof *s->beds);
    for (int i = 0; i < h->model->bed_count; i++) {
        s->beds[i].gravel_degc = h->climate->outside_mean_degc[doy];
    }
}

static void open_day(const HourFarm *h, HourState *s)
{
    for (int t = 0; t <= h->farm->tunnels_count; t++) {
        TunnelNow *now = &s->tunnel_now[t];
        *now = (TunnelNow){.least_degc = INFINITY,
                           .most_degc = -INFINITY,
                           .before_j_m2 = now->sun_j_m2[CLIMATE_ROWS]};
    }
    for (int t = 0; t < h->farm->tunnels_count; t++) {
        s->tunnel_day[t] = (HourTunnelDay){.air_least_degc = INFINITY,
                                           .crop_least_degc = INFINITY,
                                           .air_most_degc = -INFINITY};
    }
    for (int i = 0; i < h->farm->loops_count; i++) {
        s->loop_now[i] = (HourLoopDay){.temp_least_degc = INFINITY,
                                       .temp_most_degc = -INFINITY,
                                       .ph_least = INFINITY,
                                       .sump_least_m3 = INFINITY};
    }
    for (int i = 0; i < h->farm->tanks_count; i++) {
        s->tank_now[i] = (HourTankDay){.temp_least_degc = INFINITY,
                                       .temp_most_degc = -INFINITY,
                                       .oxygen_least_g_m3 = INFINITY};
    }
}

Err hour_state_make(const HourFarm *h, Arena *arena, HourState **out)
{
    HourState *s = ARENA_NEW(arena, HourState);
    Room room = {0};
    lay_out(h, s, &room);
    size_t bytes = room.bytes;
    room = (Room){.at = arena_alloc(arena, 1, bytes)};
    lay_out(h, s, &room);
    s->bytes = bytes;
    open_day(h, s);
    for (int i = 0; i < h->plant_count; i++) {
        s->plant_speed[i] = 1.0;
    }
    for (int i = 0; i < h->species_count; i++) {
        s->fish_luck[i] = (HourFishLuck){0.0, 1.0, 1.0};
    }
    hour_start_water(h, s);
    start_air(h, s);
    hour_start_fish(h, s);
    hour_start_plants(h, s);
    hour_held(h, s, s->ledger.held);
    *out = s;
    return ERR_NONE;
}

/* ---- Typical weather
 * ---------------------------------------------------------- */

static int day_of_year(int32_t date)
{
    int doy = date_day_of_year(date) - 1;
    return doy < CLIMATE_YEAR_DAYS ? doy : CLIMATE_YEAR_DAYS - 1;
}

void hour_typical_weather(const HourFarm *h, int64_t from, int count,
                          HourWeather *out)
{
    for (int i = 0; i < count; i++) {
        int64_t at = from + i;
        int day = day_of_year(h->from_day + (int32_t)(at / DAY_H));
        int hour = (int)(at % DAY_H);
        const ClimateDay *is = &h->model->days[day];
        out[i] = (HourWeather){
            .outside_degc = h->model->hour_degc[day * DAY_H + hour],
            .vapour_kpa = is->vapour_kpa,
            .wind_m_s = is->wind_m_s,
            .clear_frac = is->clear_frac,
            .direct_w_m2 = h->model->suns[day].direct_w_m2[hour],
            .diffuse_w_m2 = h->model->suns[day].diffuse_w_m2[hour]};
    }
}

/* ---- One hour
 * -------------------------------------------------------------------- */

HourNow hour_now(const HourFarm *h, const HourState *s,
                 const HourWeather *weather)
{
    HourNow now = {.weather = weather,
                   .hour = (int)(s->hours % DAY_H),
                   .date = h->from_day + (int32_t)(s->hours / DAY_H)};
    now.day = day_of_year(now.date);
    now.month = climate_month_of(now.day);
    return now;
}

static void clear_hour(const HourFarm *h, HourState *s)
{
    size_t bytes = (size_t)h->vessel_count * sizeof(double);
    memset(s->fish_oxygen_g_h, 0, bytes);
    memset(s->rot_oxygen_g_h, 0, bytes);
    memset(s->ammonia_g_h, 0, bytes);
    memset(s->carbon_mol_h, 0, bytes);
    memset(s->charge_eq_h, 0, bytes);
    memset(s->wide_source, 0, (size_t)h->vessel_count * sizeof(Wide));
}

/* A loop's sump in the hour that was. */
static void note_loops(const HourFarm *h, HourState *s)
{
    for (int b = 0; b < h->body_count; b++) {
        const Body *body = &h->bodies[b];
        if (body->loop < 0) {
            continue;
        }
        int v = body->first;
        double m3 = s->volume_m3[v];
        double part = 1.0 / DAY_H;
        HourLoopDay *to = &s->loop_now[body->loop];
        double ph = -log10(s->a[v]);
        double tan = s->tan_g[v] / m3;
        double nitrite = s->nitrite_g[v] / m3;
        to->temp_degc += part * s->degc[v];
        to->temp_least_degc = lesser(to->temp_least_degc, s->degc[v]);
        to->temp_most_degc = greater(to->temp_most_degc, s->degc[v]);
        to->tan_g_m3 += part * tan;
        to->tan_most_g_m3 = greater(to->tan_most_g_m3, tan);
        to->nitrite_g_m3 += part * nitrite;
        to->nitrite_most_g_m3 = greater(to->nitrite_most_g_m3, nitrite);
        to->nitrate_g_m3 += part * s->wide_g[v][WIDE_NITRATE] / m3;
        to->ph += part * ph;
        to->ph_least = lesser(to->ph_least, ph);
        to->alkalinity_mg_l += part * CACO3_G_EQ * s->alkalinity_mol[v] / m3;
        to->co2_g_m3 += part * 44.0095 * s->co2_mol_m3[v];
    }
}

void hour_step_by(const HourFarm *h, HourState *s, const HourWeather *weather,
                  HourWater *water)
{
    HourNow now = hour_now(h, s, weather);
    hour_ledger_open(s);
    if (now.hour == 0) {
        open_day(h, s);
        if (s->hours > 0) {
            hour_fish_moves(h, s, now.date);
        }
        hour_care_day(h, s, now.date);
    }
    hour_give_base(h, s, now.hour);
    clear_hour(h, s);
    hour_turn_floods(h, s, &now);
    hour_run_links(h, s, &now);
    hour_air(h, s, &now);
    hour_flows(h, s, &now);
    hour_heat(h, s, &now);
    clear_hour(h, s);
    hour_fish(h, s, &now);
    hour_solids(h, s);
    water(h, s, &now);
    hour_harm(h, s, &now);
    note_loops(h, s);
    if (now.hour == DAY_H - 1) {
        hour_fish_day(h, s);
        hour_plants_day(h, s, now.date + 1);
    }
    hour_ledger_close(h, s);
    s->hours++;
}

void hour_step(const HourFarm *h, HourState *s, const HourWeather *weather,
               HourLedger *out)
{
    hour_step_by(h, s, weather, hour_water);
    if (out) {
        *out = s->ledger;
    }
}
