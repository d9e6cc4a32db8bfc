/* From the farm's tables to bodies of air and water. */
#include "sim/climate_model.h"

#include <math.h>
#include <string.h>

#include "nature/air/vapour.h"
#include "nature/heat/exchange.h"

/* What is taken for granted; see climate_year.h. */
static const double ROOM_TIMES = 3.0;
static const double LEAST_WATER_M3 = 0.05;

Err climate_normals_read(const Farm *farm, ClimateNormals *out)
{
    unsigned seen = 0;
    if (farm->farm_count < 1) {
        return err_make(ERR_INPUT, "the farm's own row is missing");
    }
    out->latitude_deg = farm->farm[0].latitude_deg;
    out->altitude_m = farm->farm[0].altitude_m;
    for (int32_t i = 0; i < farm->climate_count; i++) {
        const ClimateMonth *row = &farm->climate[i];
        if (row->month < 1 || row->month > 12) {
            return err_make(ERR_INPUT, "climate: month %d", (int)row->month);
        }
        int month = row->month - 1;
        seen |= 1u << month;
        out->max_degc[month] = row->tmax_degc;
        out->min_degc[month] = row->tmin_degc;
        out->sun_mj_m2_d[month] = row->sun_mj_m2_d;
        out->rh_frac[month] = row->rh_pct / 100.0;
        out->wind_m_s[month] = row->wind_m_s;
        out->wet_frac[month] =
            fmin(row->wet_days / climate_month_days(month), 1.0);
    }
    if (seen != MONTHS_ALL) {
        return err_make(ERR_INPUT, "climate: all twelve months are needed");
    }
    return ERR_NONE;
}

static void fill_weather(ClimateModel *model)
{
    climate_days_fill(&model->normals, model->days);
    double sum = 0.0;
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        ClimateSun *sun = &model->suns[day];
        *sun = climate_day_sun(&model->days[day], model->normals.latitude_deg,
                               day + 1);
        for (int hour = 0; hour < 24; hour++) {
            int at = day * 24 + hour;
            model->hour_degc[at] =
                climate_hour_degc(model->days, day, hour + 1.0 / 2.0);
            model->open_w_m2[at] =
                sun->direct_w_m2[hour] + sun->diffuse_w_m2[hour];
            sum += model->hour_degc[at];
        }
    }
    model->mean_degc = sum / CLIMATE_HOURS;
}

static Err make_tunnel(const ClimateModel *model, const Book *book,
                       const Tunnel *row, ModelTunnel *out)
{
    const BookCover *cover = book_cover(book, row->cover);
    if (!cover) {
        return err_make(ERR_INPUT, "tunnel %s: the book has no cover %s",
                        row->id, row->cover);
    }
    out->house = tunnel_house_of(row->length_m, row->width_m, row->height_m);
    out->house.cover_w_m2_k = cover->loss_w_m2_k.value;
    out->house.sky_frac = cover->infrared_frac.value;
    vent_rule_openings(row, model->common, &out->house);
    out->rule = vent_rule_of(row, model->common);
    out->house.vent_pass_frac = model->common->tunnel_vent_pass_frac.value;
    out->house.ground_w_m2_k = model->common->tunnel_ground_w_m2_k.value;
    out->house.deep_degc = model->mean_degc;
    out->house.pressure_kpa = air_pressure_kpa(model->normals.altitude_m);
    out->state =
        (TunnelState){model->mean_degc, model->mean_degc, model->mean_degc};
    ClimateCoverCase given = {
        .roof = cover_roof_of(row->width_m, row->height_m, row->axis_deg),
        .straight_frac = cover->light_frac.value,
        .diffuse_frac = cover->diffuse_frac.value,
        .ageing_frac_year = cover->ageing_frac_year.value,
        .age_years = row->cover_years,
    };
    for (int month = 0; month < 12; month++) {
        bool shaded = row->shade_months >> month & 1u;
        bool washed = row->whitewash_months >> month & 1u;
        given.kept_frac[month] = (shaded ? 1.0 - row->shade_frac : 1.0) *
                                 (washed ? 1.0 - row->whitewash_frac : 1.0);
    }
    climate_cover_fill(&given, &out->cover);
    return ERR_NONE;
}

static bool is_alike(double one, double other)
{
    return fabs(one - other) < 1e-9;
}

/* Tunnels of one section, cover and shade have one light, whatever their
 * length. */
static bool is_lit_alike(const Tunnel *one, const Tunnel *other)
{
    return strcmp(one->cover, other->cover) == 0 &&
           is_alike(one->width_m, other->width_m) &&
           is_alike(one->height_m, other->height_m) &&
           is_alike(one->axis_deg, other->axis_deg) &&
           is_alike(one->cover_years, other->cover_years) &&
           is_alike(one->shade_frac, other->shade_frac) &&
           is_alike(one->whitewash_frac, other->whitewash_frac) &&
           one->shade_months == other->shade_months &&
           one->whitewash_months == other->whitewash_months;
}

static void share_light(const Farm *farm, ClimateModel *model, int32_t index,
                        Arena *arena)
{
    ModelTunnel *tunnel = &model->tunnels[index];
    for (int32_t i = 0; i < index; i++) {
        if (is_lit_alike(&farm->tunnels[i], &farm->tunnels[index])) {
            tunnel->lit_as = model->tunnels[i].lit_as;
            tunnel->sun_w_m2 = model->tunnels[i].sun_w_m2;
            return;
        }
    }
    tunnel->lit_as = index;
    tunnel->sun_w_m2 = ARENA_ARRAY(arena, double, CLIMATE_HOURS);
}

static void add_air_heaters(const Farm *farm, ClimateModel *model)
{
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        const Heater *heater = &farm->heaters[i];
        if (heater->tunnel < 0) {
            continue;
        }
        ModelTunnel *tunnel = &model->tunnels[heater->tunnel];
        tunnel->house.heater_at_degc =
            fmax(tunnel->house.heater_at_degc, heater->target_degc);
        /* Where there are several the dearest price is taken for all. */
        tunnel->heater_price =
            fmax(tunnel->heater_price, (double)heater->price_kwh_e4 / 10000.0);
        for (int month = 0; month < 12; month++) {
            if (heater->months >> month & 1u) {
                tunnel->heater_w[month] += heater->power_kw * 1000.0;
            }
        }
    }
}

static int kind_of(const ClimateModel *model, int32_t tunnel, int32_t zone)
{
    for (int i = 0; i < model->bed_count; i++) {
        if (model->bed_kinds[i].tunnel == tunnel &&
            model->bed_kinds[i].zone == zone) {
            return i;
        }
    }
    return -1;
}

static void add_bed(const Farm *farm, const Bed *row, ClimateModel *model)
{
    int at = kind_of(model, row->tunnel, row->zone);
    if (at < 0) {
        at = model->bed_count++;
        model->bed_kinds[at] =
            (ModelBed){row->tunnel, row->zone,
                       row->zone < 0 ? -1 : farm->zones[row->zone].loop};
        model->beds[at] = (TunnelBed){.gravel_degc = model->mean_degc};
    }
    TunnelBed *bed = &model->beds[at];
    double area_m2 = row->length_m * row->width_m;
    bed->light_frac =
        (bed->light_frac * bed->area_m2 + row->light_frac * area_m2) /
        (bed->area_m2 + area_m2);
    bed->area_m2 += area_m2;
    bed->heat_j_k +=
        heat_gravel_j_k(area_m2 * row->depth_m, row->porosity_frac);
}

/* Beds stand by tunnel, those in the open last; what they cover is not ground.
 * More beds than floor leave no ground. */
static void make_beds(const Farm *farm, Arena *arena, ClimateModel *model)
{
    model->beds = ARENA_ARRAY(arena, TunnelBed, farm->beds_count);
    model->bed_kinds = ARENA_ARRAY(arena, ModelBed, farm->beds_count);
    for (int32_t tunnel = 0; tunnel <= farm->tunnels_count; tunnel++) {
        int32_t wanted = tunnel < farm->tunnels_count ? tunnel : -1;
        int first = model->bed_count;
        for (int32_t i = 0; i < farm->beds_count; i++) {
            bool is_gone = farm->beds[i].until <= farm->farm->records_from;
            if (farm->beds[i].tunnel == wanted && !is_gone) {
                add_bed(farm, &farm->beds[i], model);
            }
        }
        if (wanted < 0) {
            model->open_first = first;
            continue;
        }
        ModelTunnel *to = &model->tunnels[tunnel];
        to->first_bed = first;
        to->bed_count = model->bed_count - first;
        for (int i = first; i < model->bed_count; i++) {
            to->beds_m2 += model->beds[i].area_m2;
        }
        to->house.ground_m2 = fmax(to->house.floor_m2 - to->beds_m2, 0.0);
    }
}

static bool has_own_heater(const Farm *farm, int32_t tank)
{
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        if (farm->heaters[i].tank == tank) {
            return true;
        }
    }
    return false;
}

/* A tank's or sump's loss, to the air of its tunnel or through the room. */
static void add_vessel(const BookCommon *common, const Tank *tank,
                       ModelWater *water)
{
    TankWall wall = tank->wall == WALL_BARE   ? TANK_BARE
                    : tank->wall == WALL_SOME ? TANK_SOME
                                              : TANK_THICK;
    double own_w_k = heat_tank_loss_w_k(tank->volume_m3, wall, tank->has_lid);
    water->water_j_k += HEAT_WATER_J_M3_K * tank->volume_m3;
    if (tank->tunnel >= 0) {
        water->tunnel_w_k[tank->tunnel] += own_w_k;
        return;
    }
    double room_w_k = common->tank_room_w_m2_k.value * ROOM_TIMES *
                      heat_tank_surface_m2(tank->volume_m3);
    water->room_w_k += own_w_k * room_w_k / (own_w_k + room_w_k);
}

static void make_loop_water(const Farm *farm, const BookCommon *common,
                            int32_t loop, ModelWater *water)
{
    const Loop *row = &farm->loops[loop];
    Tank sump = {.volume_m3 = fmax(row->sump_m3, LEAST_WATER_M3),
                 .has_lid = true,
                 .wall = WALL_SOME,
                 .tunnel = -1};
    water->loop = loop;
    add_vessel(common, &sump, water);
    if (row->source >= 0) {
        water->make_up_degc = farm->sources[row->source].temp_degc;
    }
    for (int32_t i = 0; i < farm->pumps_count; i++) {
        if (farm->pumps[i].loop == loop) {
            water->pump_w += farm->pumps[i].power_w;
        }
    }
}

static void add_water_heaters(const Farm *farm, ClimateModel *model)
{
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        const Heater *heater = &farm->heaters[i];
        int32_t at =
            heater->tank >= 0 ? model->tank_water[heater->tank] : heater->loop;
        if (heater->tunnel >= 0 || at < 0) {
            continue;
        }
        ModelWater *water = &model->waters[at];
        if (water->heater_count < WATER_HEATERS_MAX) {
            water->heaters[water->heater_count++] = heater;
        }
    }
}

static void make_waters(const Farm *farm, Arena *arena, ClimateModel *model)
{
    int most = farm->loops_count + farm->tanks_count;
    model->waters = ARENA_ARRAY(arena, ModelWater, most);
    model->tank_water = ARENA_ARRAY(arena, int32_t, farm->tanks_count);
    for (int i = 0; i < most; i++) {
        model->waters[i].tank = -1;
        model->waters[i].loop = -1;
        model->waters[i].temp_degc = model->mean_degc;
        model->waters[i].make_up_degc = model->mean_degc;
        model->waters[i].tunnel_w_k =
            ARENA_ARRAY(arena, double, farm->tunnels_count);
    }
    model->water_count = farm->loops_count;
    for (int32_t i = 0; i < farm->loops_count; i++) {
        make_loop_water(farm, model->common, i, &model->waters[i]);
    }
    for (int32_t i = 0; i < farm->tanks_count; i++) {
        const Tank *tank = &farm->tanks[i];
        int32_t at = tank->loop;
        if (tank->loop < 0 || has_own_heater(farm, i)) {
            at = model->water_count++;
            model->waters[at].tank = i;
            model->waters[at].loop = tank->loop;
            if (tank->loop >= 0) {
                model->waters[at].exchange_m3_h =
                    tank->volume_m3 *
                    model->common->tank_apart_changes_d.value / 24.0;
            }
        }
        model->tank_water[i] = at;
        add_vessel(model->common, tank, &model->waters[at]);
    }
    add_water_heaters(farm, model);
}

Err climate_model_make(const Farm *farm, const Book *book, Arena *arena,
                       ClimateModel *out)
{
    memset(out, 0, sizeof *out);
    out->farm = farm;
    out->common = book->common;
    TRY(climate_normals_read(farm, &out->normals));
    fill_weather(out);
    out->tunnels = ARENA_ARRAY(arena, ModelTunnel, farm->tunnels_count);
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        TRY(make_tunnel(out, book, &farm->tunnels[i], &out->tunnels[i]));
        share_light(farm, out, i, arena);
    }
    add_air_heaters(farm, out);
    make_beds(farm, arena, out);
    make_waters(farm, arena, out);
    return ERR_NONE;
}
