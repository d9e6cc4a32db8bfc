/* The typical year, hour by hour. */
#include "sim/climate_year.h"

#include <math.h>

#include "nature/air/evapo.h"
#include "nature/heat/damp.h"
#include "nature/sun/solar.h"
#include "sim/climate_model.h"
#include "sim/climate_tables.h"

static const double HOUR_S = 3600.0;
static const double FLOOD_ABOUT_H = 13.0;
static const double LATENT_J_M3 = 2.45e9;
/* Air, wind and sky over beds in the open; judged. */
static const double OPEN_W_M2_K = 12.0;
static const double OPEN_ABSORBED_FRAC = 0.8;
/* The year before is run from this day on, and again while a state differs
 * from that at the end of the year by more than this. */
static const int SPIN_UP_FROM_DAY = 285;
static const double CLOSED_K = 0.02;
enum { YEARS_MOST = 6 };

typedef struct Run {
    ClimateModel *model;
    ClimateYear *year;
    double *tunnel_latent_w;  /* by tunnel, of this hour */
    double *tunnel_held_g_m3; /* by tunnel, water in its air */
    double *water_steady_w;   /* by water, of this hour */
    double *make_up_m3_h;     /* by water, of this hour */
    bool is_counted;          /* not in the spin-up */
} Run;

/* ---- Light, once ------------------------------------------------------- */

static void light_tunnel_hour(Run *run, int32_t index, int day, int hour,
                              const SunDirection *to)
{
    ModelTunnel *tunnel = &run->model->tunnels[index];
    double kept = tunnel->cover.kept_frac[climate_month_of(day)];
    for (int row = 0; row < CLIMATE_ROWS; row++) {
        double w_m2 =
            kept * climate_row_w_m2(&tunnel->cover, &run->model->suns[day], to,
                                    hour, row);
        tunnel->sun_w_m2[day * 24 + hour] += w_m2 / CLIMATE_ROWS;
        run->year->tunnels[index].row_dli_mol[row][day] +=
            sun_dli_mol_m2_d(w_m2 * HOUR_S / 1e6);
    }
}

static void light_day(Run *run, int day)
{
    ClimateModel *model = run->model;
    const ClimateDay *today = &model->days[day];
    for (int hour = 0; hour < 24; hour++) {
        if (model->open_w_m2[day * 24 + hour] <= 0.0) {
            continue;
        }
        SunDirection to =
            sun_direction(model->normals.latitude_deg, today->declination_rad,
                          SUN_PI / 12.0 * (hour + 1.0 / 2.0 - 12.0));
        for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
            if (model->tunnels[i].lit_as == i) {
                light_tunnel_hour(run, i, day, hour, &to);
            }
        }
    }
    for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
        ClimateTunnel *tunnel = &run->year->tunnels[i];
        int32_t as = model->tunnels[i].lit_as;
        for (int row = 0; row < CLIMATE_ROWS; row++) {
            tunnel->row_dli_mol[row][day] =
                run->year->tunnels[as].row_dli_mol[row][day];
            tunnel->dli_mol[day] +=
                tunnel->row_dli_mol[row][day] / CLIMATE_ROWS;
        }
    }
}

/* ---- One hour ---------------------------------------------------------- */

static bool zone_floods(const Zone *zone, int month, int hour)
{
    double hours = zone->hours_d[month];
    double since =
        fmod(hour + 1.0 / 2.0 - (FLOOD_ABOUT_H - hours / 2.0) + 48.0, 24.0);
    return since < hours;
}

static double water_heat_j_k(const ClimateModel *model, int water)
{
    double heat = model->waters[water].water_j_k;
    for (int i = 0; i < model->bed_count; i++) {
        bool same = model->bed_kinds[i].loop == water;
        heat +=
            same && model->beds[i].is_flooded ? model->beds[i].heat_j_k : 0.0;
    }
    return heat;
}

/* Gravel that is flooded takes on one temperature with the water. */
static void set_floods(ClimateModel *model, int month, int hour)
{
    for (int i = 0; i < model->bed_count; i++) {
        TunnelBed *bed = &model->beds[i];
        const ModelBed *kind = &model->bed_kinds[i];
        if (kind->zone < 0) {
            continue;
        }
        ModelWater *water = &model->waters[kind->loop];
        bool floods = zone_floods(&model->farm->zones[kind->zone], month, hour);
        if (floods && !bed->is_flooded) {
            double heat = water_heat_j_k(model, kind->loop);
            water->temp_degc =
                (heat * water->temp_degc + bed->heat_j_k * bed->gravel_degc) /
                (heat + bed->heat_j_k);
        }
        if (!floods && bed->is_flooded) {
            bed->gravel_degc = water->temp_degc;
        }
        bed->is_flooded = floods;
    }
    for (int i = 0; i < model->bed_count; i++) {
        int32_t loop = model->bed_kinds[i].loop;
        if (model->beds[i].is_flooded) {
            model->beds[i].water_degc = model->waters[loop].temp_degc;
        }
    }
}

static double kwh(double power_w)
{
    return power_w * HOUR_S / 3.6e6;
}

static void count_tunnel(Run *run, int32_t tunnel, int day,
                         const TunnelFlows *flows)
{
    ClimateLedger *ledger = &run->year->ledger;
    ledger->sun_kwh += kwh(flows->sun_w);
    ledger->heater_kwh += kwh(flows->heater_w);
    ledger->latent_kwh += kwh(flows->latent_w);
    ledger->cover_kwh += kwh(flows->cover_w);
    ledger->air_kwh += kwh(flows->air_w);
    ledger->sky_kwh += kwh(flows->sky_w);
    ledger->ground_kwh += kwh(flows->rim_w);
    run->year->tunnels[tunnel].heater_kwh[day] += kwh(flows->heater_w);
    run->year->heater_cost +=
        kwh(flows->heater_w) * run->model->tunnels[tunnel].heater_price;
}

/* Day's mean, least and most of hourly values. */
static void note(ClimateLoop *to, int day, int hour, double temp_degc)
{
    to->mean_degc[day] += temp_degc / 24.0;
    to->min_degc[day] = hour ? fmin(to->min_degc[day], temp_degc) : temp_degc;
    to->max_degc[day] = hour ? fmax(to->max_degc[day], temp_degc) : temp_degc;
}

/* The air's moisture after its heat: the vapour is what the heat paid for. */
static DampFlows step_damp(Run *run, int32_t index, const TunnelHour *now,
                           const TunnelFlows *flows)
{
    const ModelTunnel *tunnel = &run->model->tunnels[index];
    DampHour hour = {.step_s = now->step_s,
                     .outside_degc = now->outside_degc,
                     .outside_kpa = now->vapour_kpa,
                     .wind_m_s = now->wind_m_s,
                     .air_degc = tunnel->state.air_degc,
                     .vent_m3_s = flows->vent_m3_s,
                     .given_kg_s = damp_kg_s_of_w(flows->latent_w),
                     .leaf_m3_s = now->sun_w_m2 > 0.0
                                      ? 0.0
                                      : damp_leaf_m3_s(tunnel_leaf_m2(
                                            &tunnel->house, now->leaf_frac,
                                            tunnel->beds_m2))};
    return damp_step(&tunnel->house, &hour, &run->tunnel_held_g_m3[index]);
}

/* The least at the crop. */
static void note_crop(ClimateTunnel *to, const VentRule *rule, int day,
                      int hour, double air_degc)
{
    bool is_below = vent_rule_fleeced(rule, climate_month_of(day), air_degc);
    double crop_degc = air_degc + (is_below ? rule->fleece_over_k : 0.0);
    to->crop_min_degc[day] =
        hour ? fmin(to->crop_min_degc[day], crop_degc) : crop_degc;
}

static void step_tunnel(Run *run, int32_t index, int day, int hour)
{
    ClimateModel *model = run->model;
    ModelTunnel *tunnel = &model->tunnels[index];
    const ClimateDay *today = &model->days[day];
    int month = climate_month_of(day);
    tunnel->house.heater_w = tunnel->heater_w[month];
    VentHour vents = {.month = month,
                      .hour = hour,
                      .night_degc = today->min_degc,
                      .outside_degc = model->hour_degc[day * 24 + hour],
                      .wind_m_s = today->wind_m_s,
                      .was_open = tunnel->was_open};
    bool is_midday = vent_rule_set(&tunnel->rule, &vents, &tunnel->house);
    TunnelHour now = {.step_s = HOUR_S,
                      .outside_degc = model->hour_degc[day * 24 + hour],
                      .vapour_kpa = today->vapour_kpa,
                      .wind_m_s = today->wind_m_s,
                      .clear_frac = today->clear_frac,
                      .sun_w_m2 = tunnel->sun_w_m2[day * 24 + hour],
                      .leaf_frac = model->common->tunnel_leaf_frac.value,
                      .tanks_w = tunnel->tanks_w};
    TunnelBeds beds = {model->beds + tunnel->first_bed, tunnel->bed_count};
    TunnelFlows flows =
        tunnel_step(&tunnel->house, &now, &beds, &tunnel->state);
    tunnel->was_open = flows.vent_m3_s > 0.0 && !is_midday;
    run->tunnel_latent_w[index] = flows.latent_w;
    DampFlows damp = step_damp(run, index, &now, &flows);
    tunnel->tanks_w = 0.0;
    if (run->is_counted) {
        ClimateTunnel *to = &run->year->tunnels[index];
        ClimateLoop air = {to->mean_degc, to->min_degc, to->max_degc, NULL};
        double air_degc = tunnel->state.air_degc;
        note(&air, day, hour, air_degc);
        note_crop(to, &tunnel->rule, day, hour, air_degc);
        to->rh_frac[day] += damp.rh_frac / 24.0;
        to->wet_h[day] += damp.is_leaf_wet ? 1.0 : 0.0;
        count_tunnel(run, index, day, &flows);
    }
}

static void step_open_beds(Run *run, int day, int hour)
{
    ClimateModel *model = run->model;
    double outside = model->hour_degc[day * 24 + hour];
    SkyHour sky = {.temp_degc = outside,
                   .vapour_kpa = model->days[day].vapour_kpa,
                   .clear_frac = model->days[day].clear_frac};
    double bare = 1.0 - model->common->tunnel_leaf_frac.value;
    double sky_w_m2 = air_sky_loss_mj_m2_h(&sky) * 1e6 / HOUR_S;
    for (int i = model->open_first; i < model->bed_count; i++) {
        TunnelBed *bed = &model->beds[i];
        double by_w_k = OPEN_W_M2_K * bed->area_m2;
        double sun_w = OPEN_ABSORBED_FRAC * bare * bed->light_frac *
                       bed->area_m2 * model->open_w_m2[day * 24 + hour];
        double sky_w = bare * bed->area_m2 * sky_w_m2;
        double at = bed->water_degc;
        if (!bed->is_flooded) {
            double rate = bed->heat_j_k / HOUR_S;
            at = (rate * bed->gravel_degc + by_w_k * outside + sun_w - sky_w) /
                 (rate + by_w_k);
            bed->gravel_degc = at;
        }
        bed->to_bed_w = by_w_k * (outside - at) + sun_w - sky_w;
        if (run->is_counted) {
            run->year->ledger.sun_kwh += kwh(sun_w);
            run->year->ledger.sky_kwh += kwh(sky_w);
            run->year->ledger.air_kwh += kwh(by_w_k * (at - outside));
        }
    }
}

/* What beds give their loops' water, and what their plants drink. */
static void gather_beds(Run *run)
{
    ClimateModel *model = run->model;
    for (int i = 0; i < model->water_count; i++) {
        run->water_steady_w[i] = model->waters[i].pump_w;
        run->make_up_m3_h[i] = 0.0;
    }
    for (int i = 0; i < model->bed_count; i++) {
        const ModelBed *kind = &model->bed_kinds[i];
        const TunnelBed *bed = &model->beds[i];
        if (kind->loop < 0) {
            continue;
        }
        if (bed->is_flooded) {
            run->water_steady_w[kind->loop] += bed->to_bed_w;
        }
        if (kind->tunnel >= 0) {
            run->make_up_m3_h[kind->loop] +=
                run->tunnel_latent_w[kind->tunnel] * bed->area_m2 /
                model->tunnels[kind->tunnel].beds_m2 * HOUR_S / LATENT_J_M3;
        }
    }
}

static void count_water(Run *run, int water, int day, int hour,
                        const WaterBody *body)
{
    ClimateYear *year = run->year;
    const ModelWater *from = &run->model->waters[water];
    ClimateLoop *to =
        from->tank < 0 ? &year->loops[water] : &year->tanks[from->tank];
    note(to, day, hour, from->temp_degc);
    for (int i = 0; i < from->heater_count; i++) {
        double given_kwh = kwh(body->heaters[i].given_w);
        to->heater_kwh[day] += given_kwh;
        year->ledger.heater_kwh += given_kwh;
        year->heater_cost +=
            given_kwh * (double)from->heaters[i]->price_kwh_e4 / 10000.0;
    }
}

static bool is_apart(const Run *run, int water)
{
    return water >= run->model->farm->loops_count &&
           run->model->waters[water].loop >= 0;
}

/* A water's heat in this hour: losses to the room and to the tunnels. */
static WaterBody body_of(const Run *run, int index, int day, int hour)
{
    const ClimateModel *model = run->model;
    const ModelWater *water = &model->waters[index];
    WaterBody body = {.heat_j_k = water_heat_j_k(model, index),
                      .loss_w_k = water->room_w_k,
                      .ambient_degc = model->hour_degc[day * 24 + hour],
                      .make_up_m3_h = run->make_up_m3_h[index],
                      .make_up_degc = water->make_up_degc,
                      .steady_w = run->water_steady_w[index],
                      .heater_count = water->heater_count};
    double pull_w = water->room_w_k * body.ambient_degc;
    for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
        body.loss_w_k += water->tunnel_w_k[i];
        pull_w += water->tunnel_w_k[i] * model->tunnels[i].state.air_degc;
    }
    if (body.loss_w_k > 0.0) {
        body.ambient_degc = pull_w / body.loss_w_k;
    }
    if (is_apart(run, index)) {
        body.make_up_m3_h = water->exchange_m3_h;
        body.make_up_degc = model->waters[water->loop].temp_degc;
    }
    for (int i = 0; i < water->heater_count; i++) {
        const Heater *heater = water->heaters[i];
        bool is_on = heater->months >> climate_month_of(day) & 1u;
        body.heaters[i] = (WaterHeater){is_on ? heater->power_kw * 1000.0 : 0.0,
                                        heater->target_degc, 0.0};
    }
    return body;
}

/* Gives tunnels what tanks inside them lose; returns what is lost outside. */
static double share_loss(Run *run, const ModelWater *water,
                         const WaterBody *body, double loss_w)
{
    if (body->loss_w_k <= 0.0) {
        return 0.0;
    }
    /* The mean over the step, from what the step lost. */
    double mean_degc = body->ambient_degc + loss_w / body->loss_w_k;
    double outside_w = loss_w;
    for (int32_t i = 0; i < run->model->farm->tunnels_count; i++) {
        ModelTunnel *tunnel = &run->model->tunnels[i];
        double to_w =
            water->tunnel_w_k[i] * (mean_degc - tunnel->state.air_degc);
        tunnel->tanks_w += to_w;
        outside_w -= to_w;
    }
    return outside_w;
}

static void step_water(Run *run, int index, int day, int hour)
{
    ModelWater *water = &run->model->waters[index];
    WaterBody body = body_of(run, index, day, hour);
    WaterFlows flows = water_heat_step(&body, HOUR_S, &water->temp_degc);
    double outside_w = share_loss(run, water, &body, flows.loss_w);
    bool to_loop = is_apart(run, index);
    if (to_loop) {
        run->water_steady_w[water->loop] += flows.make_up_w;
    }
    if (run->is_counted) {
        ClimateLedger *ledger = &run->year->ledger;
        ledger->pump_kwh += kwh(water->pump_w);
        ledger->tank_kwh += kwh(outside_w);
        ledger->make_up_kwh += to_loop ? 0.0 : kwh(flows.make_up_w);
        count_water(run, index, day, hour, &body);
    }
}

static void step_hour(Run *run, int day, int hour)
{
    ClimateModel *model = run->model;
    set_floods(model, climate_month_of(day), hour);
    for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
        step_tunnel(run, i, day, hour);
    }
    step_open_beds(run, day, hour);
    gather_beds(run);
    /* Tanks apart first: what they lose to their loop the loop gains. */
    for (int i = model->water_count - 1; i >= 0; i--) {
        step_water(run, i, day, hour);
    }
}

/* ---- The year ---------------------------------------------------------- */

/* Heat above 0 degC held by all bodies, kWh. */
static double held_kwh(const ClimateModel *model)
{
    double held_j = 0.0;
    for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
        held_j +=
            tunnel_held_j(&model->tunnels[i].house, &model->tunnels[i].state) +
            model->tunnels[i].tanks_w * HOUR_S;
    }
    for (int i = 0; i < model->bed_count; i++) {
        const TunnelBed *bed = &model->beds[i];
        held_j += bed->is_flooded ? 0.0 : bed->heat_j_k * bed->gravel_degc;
    }
    for (int i = 0; i < model->water_count; i++) {
        held_j += water_heat_j_k(model, i) * model->waters[i].temp_degc;
    }
    return held_j / 3.6e6;
}

static int states_of(const ClimateModel *model, double *out)
{
    int count = 0;
    for (int32_t i = 0; i < model->farm->tunnels_count; i++) {
        out[count++] = model->tunnels[i].state.ground_degc;
        out[count++] = model->tunnels[i].state.deep_degc;
    }
    for (int i = 0; i < model->water_count; i++) {
        out[count++] = model->waters[i].temp_degc;
    }
    for (int i = 0; i < model->bed_count; i++) {
        out[count++] =
            model->beds[i].is_flooded ? 0.0 : model->beds[i].gravel_degc;
    }
    return count;
}

static void close_ledger(ClimateLedger *sum, double stored_kwh)
{
    sum->stored_kwh = stored_kwh;
    sum->residual_kwh = sum->sun_kwh + sum->heater_kwh + sum->pump_kwh -
                        sum->latent_kwh - sum->cover_kwh - sum->air_kwh -
                        sum->sky_kwh - sum->ground_kwh - sum->tank_kwh -
                        sum->make_up_kwh - stored_kwh;
}

static void run_heat(Run *run, Arena *arena)
{
    ClimateModel *model = run->model;
    int most =
        2 * model->farm->tunnels_count + model->water_count + model->bed_count;
    double *before = ARENA_ARRAY(arena, double, most);
    double *after = ARENA_ARRAY(arena, double, most);
    for (int day = SPIN_UP_FROM_DAY; day < CLIMATE_YEAR_DAYS; day++) {
        for (int hour = 0; hour < 24; hour++) {
            step_hour(run, day, hour);
        }
    }
    run->is_counted = true;
    double apart_k = 2.0 * CLOSED_K;
    for (int year = 0; year < YEARS_MOST && apart_k > CLOSED_K; year++) {
        climate_tables_clear(model, run->year);
        double held = held_kwh(model);
        int count = states_of(model, before);
        for (int at = 0; at < CLIMATE_HOURS; at++) {
            step_hour(run, at / 24, at % 24);
        }
        (void)states_of(model, after);
        close_ledger(&run->year->ledger, held_kwh(model) - held);
        apart_k = 0.0;
        for (int i = 0; i < count; i++) {
            apart_k = fmax(apart_k, fabs(after[i] - before[i]));
        }
    }
    run->year->heater_kwh = run->year->ledger.heater_kwh;
}

Err climate_year_run(const Farm *farm, const Book *book, Arena *arena,
                     ClimateYear *out)
{
    ClimateModel *model = ARENA_NEW(arena, ClimateModel);
    TRY(climate_model_make(farm, book, arena, model));
    ClimateYear year;
    climate_tables_make(farm, arena, model, &year);
    Run run = {
        .model = model,
        .year = &year,
        .tunnel_latent_w = ARENA_ARRAY(arena, double, farm->tunnels_count),
        .tunnel_held_g_m3 = ARENA_ARRAY(arena, double, farm->tunnels_count),
        .water_steady_w = ARENA_ARRAY(arena, double, model->water_count),
        .make_up_m3_h = ARENA_ARRAY(arena, double, model->water_count)};
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        light_day(&run, day);
    }
    run_heat(&run, arena);
    climate_tables_outside(model, &year);
    climate_tables_beds(farm, &year);
    climate_tables_leap_day(farm, &year);
    *out = year;
    return ERR_NONE;
}
