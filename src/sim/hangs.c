/* What hangs on a pump, an aerator, a heater, or on all power. */
#include "sim/hangs.h"

#include <math.h>

static bool is_row(int32_t row, int32_t count)
{
    return row >= 0 && row < count;
}

int32_t hangs_count(const bool *which, int32_t count)
{
    int32_t sum = 0;
    for (int32_t i = 0; i < count; i++) {
        sum += which[i] ? 1 : 0;
    }
    return sum;
}

bool hangs_tank(const Hangs *hangs, int32_t tank)
{
    return hangs->tanks_flow[tank] || hangs->tanks_air[tank] ||
           hangs->tanks_heat[tank];
}

bool hangs_aerator_serves(const Farm *farm, int32_t aerator, int32_t tank)
{
    const Aerator *air = &farm->aerators[aerator];
    if (is_row(air->tank, farm->tanks_count)) {
        return air->tank == tank;
    }
    return is_row(air->loop, farm->loops_count) &&
           farm->tanks[tank].loop == air->loop;
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

bool hangs_heater_serves(const Farm *farm, int32_t heater, int32_t tank)
{
    const Heater *heat = &farm->heaters[heater];
    if (is_row(heat->tank, farm->tanks_count)) {
        return heat->tank == tank;
    }
    return is_row(heat->loop, farm->loops_count) &&
           farm->tanks[tank].loop == heat->loop && !has_own_heater(farm, tank);
}

double hangs_share_frac(const Farm *farm, int32_t tank)
{
    double own_m3 = farm->tanks[tank].volume_m3;
    int32_t loop = farm->tanks[tank].loop;
    double sum_m3 = 0.0;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        double volume_m3 = farm->tanks[k].volume_m3;
        if (farm->tanks[k].loop == loop && isfinite(volume_m3)) {
            sum_m3 += volume_m3;
        }
    }
    bool is_shared = loop >= 0 && isfinite(own_m3) && sum_m3 > 0.0;
    return is_shared ? own_m3 / sum_m3 : 1.0;
}

bool hangs_link_helps(const Hangs *hangs, int32_t link, int month)
{
    const Farm *farm = hangs->farm;
    const Link *row = &farm->links[link];
    bool is_open = month < 1 || (row->months >> (month - 1) & 1u) != 0;
    if ((row->kind != LINK_VALVE && row->kind != LINK_TRANSFER) || !is_open) {
        return false;
    }
    int32_t from = row->from_loop;
    if (is_row(row->from_tank, farm->tanks_count)) {
        from = farm->tanks[row->from_tank].loop;
    }
    int32_t to = row->to_loop;
    if (is_row(row->to_tank, farm->tanks_count)) {
        to = farm->tanks[row->to_tank].loop;
    }
    bool is_for_us = is_row(to, farm->loops_count) && hangs->loops[to];
    bool is_well = !is_row(from, farm->loops_count) || !hangs->loops[from];
    return is_for_us && is_well && from != to;
}

/* ---- Finding --------------------------------------------------------------
 */

static void stop_pumps(Hangs *hangs)
{
    const Farm *farm = hangs->farm;
    for (int32_t i = 0; i < farm->pumps_count; i++) {
        int32_t loop = farm->pumps[i].loop;
        if (!hangs->pumps[i] || !is_row(loop, farm->loops_count)) {
            continue;
        }
        hangs->loops[loop] = true;
        for (int32_t k = 0; k < farm->tanks_count; k++) {
            hangs->tanks_flow[k] =
                hangs->tanks_flow[k] || farm->tanks[k].loop == loop;
        }
    }
    for (int32_t z = 0; z < farm->zones_count; z++) {
        int32_t pump = farm->zones[z].pump;
        hangs->zones[z] = is_row(pump, farm->pumps_count) && hangs->pumps[pump];
    }
    for (int32_t b = 0; b < farm->beds_count; b++) {
        int32_t zone = farm->beds[b].zone;
        hangs->beds[b] = is_row(zone, farm->zones_count) && hangs->zones[zone];
    }
    for (int32_t i = 0; i < farm->pumps_count; i++) {
        int32_t loop = farm->pumps[i].loop;
        hangs->other_pumps += !hangs->pumps[i] &&
                                      is_row(loop, farm->loops_count) &&
                                      hangs->loops[loop]
                                  ? 1
                                  : 0;
    }
}

static void stop_air(Hangs *hangs)
{
    const Farm *farm = hangs->farm;
    for (int32_t i = 0; i < farm->aerators_count; i++) {
        for (int32_t k = 0; k < farm->tanks_count && hangs->aerators[i]; k++) {
            hangs->tanks_air[k] =
                hangs->tanks_air[k] || hangs_aerator_serves(farm, i, k);
        }
    }
}

static void stop_heat(Hangs *hangs)
{
    const Farm *farm = hangs->farm;
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        if (!hangs->heaters[i]) {
            continue;
        }
        for (int32_t k = 0; k < farm->tanks_count; k++) {
            hangs->tanks_heat[k] =
                hangs->tanks_heat[k] || hangs_heater_serves(farm, i, k);
        }
        if (is_row(farm->heaters[i].loop, farm->loops_count)) {
            hangs->loops[farm->heaters[i].loop] = true;
        }
        if (is_row(farm->heaters[i].tunnel, farm->tunnels_count)) {
            hangs->tunnels[farm->heaters[i].tunnel] = true;
        }
    }
}

void hangs_find(const Farm *farm, HangsOn on, int32_t row, Arena *arena,
                Hangs *out)
{
    Hangs hangs = {
        .farm = farm,
        .pumps = ARENA_ARRAY(arena, bool, farm->pumps_count),
        .aerators = ARENA_ARRAY(arena, bool, farm->aerators_count),
        .heaters = ARENA_ARRAY(arena, bool, farm->heaters_count),
        .loops = ARENA_ARRAY(arena, bool, farm->loops_count),
        .tanks_flow = ARENA_ARRAY(arena, bool, farm->tanks_count),
        .tanks_air = ARENA_ARRAY(arena, bool, farm->tanks_count),
        .tanks_heat = ARENA_ARRAY(arena, bool, farm->tanks_count),
        .zones = ARENA_ARRAY(arena, bool, farm->zones_count),
        .beds = ARENA_ARRAY(arena, bool, farm->beds_count),
        .tunnels = ARENA_ARRAY(arena, bool, farm->tunnels_count),
    };
    bool is_all = on == HANGS_POWER;
    for (int32_t i = 0; i < farm->pumps_count; i++) {
        hangs.pumps[i] = is_all || (on == HANGS_PUMP && i == row);
    }
    for (int32_t i = 0; i < farm->aerators_count; i++) {
        hangs.aerators[i] = is_all || (on == HANGS_AERATOR && i == row);
    }
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        hangs.heaters[i] = is_all || (on == HANGS_HEATER && i == row);
    }
    stop_pumps(&hangs);
    stop_air(&hangs);
    stop_heat(&hangs);
    *out = hangs;
}
