/* Plants from day to day: what each batch would take in full growth, and how
 * far it got by warmth, light and the nutrient that was short. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/sun/solar.h"
#include "sim/hour_parts.h"

static const double G_KG = 1000.0;
enum { HISTORY_D = 800, WEEK_D = 7, LISTED_WEEKS = 106 };

/* ---- Making ----------------------------------------------------------------
 */

/* Growth to the last pick, and what a degree-day of it takes once grown:
 * young plants less, as the book's feed wanted does. */
static void set_growth(const HourFarm *h, double plants, PlantCase *p)
{
    const PlantRule *rule = &p->rule;
    double every = isnan(rule->every_degc_d) ? 0.0 : rule->every_degc_d;
    p->first_degc_d = rule->first_pick_degc_d.value;
    p->total_degc_d = p->first_degc_d + fmax(0.0, rule->picks - 1.0) * every;
    double young_degc_d =
        (1.0 - rule->young_frac) * rule->full_at_frac * p->first_degc_d / 2.0;
    double picked_kg = plants * rule->kept_frac * rule->units.value *
                       rule->picks * rule->unit_g / G_KG;
    double sold = rule->feed_class == FEED_LEAFY
                      ? h->water->sold_leafy_frac.value
                      : h->water->sold_fruiting_frac.value;
    double kg_degc_d = picked_kg / sold / (p->total_degc_d - young_degc_d);
    const BookCrop *crop = rule->crop;
    double g_kg[] = {crop->n_g_kg.value,  crop->p_g_kg.value,
                     crop->k_g_kg.value,  crop->ca_g_kg.value,
                     crop->mg_g_kg.value, crop->fe_g_kg.value};
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        p->per_degc_d[e] = kg_degc_d * g_kg[e];
    }
}

static void set_place(const HourFarm *h, PlantCase *p)
{
    const Bed *bed = &h->farm->beds[p->name.bed];
    int32_t zone = bed->zone;
    p->name.loop = zone >= 0 ? h->farm->zones[zone].loop : -1;
    p->vessel = zone >= 0 ? h->zone_vessel[zone] : -1;
    p->surface = -1;
    for (int i = 0; i < h->model->bed_count; i++) {
        if (h->model->bed_kinds[i].tunnel == bed->tunnel &&
            h->model->bed_kinds[i].zone == zone) {
            p->surface = i;
        }
    }
    bool is_told = fabs(bed->light_frac - 1.0) > 1e-9;
    p->light_frac = bed->light_frac;
    p->light =
        is_told || bed->tunnel < 0
            ? CLIMATE_ROWS
            : climate_row_of(bed->side, h->farm->tunnels[bed->tunnel].axis_deg);
}

static double day_growth(const PlantRule *rule, double least_degc,
                         double most_degc, double dli_mol)
{
    return thermal_day_sine_degc_d(&rule->thermal, least_degc, most_degc) *
           light_growth_frac(&rule->light, dli_mol);
}

static double emerge_1_d(const PlantRule *rule, double mean_degc)
{
    const EmergenceLine *line = &rule->line;
    return mean_degc > line->base_degc && mean_degc < line->most_degc
               ? (mean_degc - line->base_degc) / line->sum_degc_d
               : 0.0;
}

/* What came before from_day, in the typical year. */
static void set_start(const HourFarm *h, PlantCase *p)
{
    const Bed *bed = &h->farm->beds[p->name.bed];
    const ClimateYear *year = h->climate;
    p->is_sown = p->rule.start == START_SOWN;
    int32_t from = p->name.set_day;
    from = from < h->from_day - HISTORY_D ? h->from_day - HISTORY_D : from;
    p->start_up = p->is_sown ? 0.0 : 1.0;
    for (int32_t day = from; day < h->from_day; day++) {
        int doy = date_day_of_year(day) - 1;
        const ClimateTunnel *air =
            bed->tunnel >= 0 ? &year->tunnels[bed->tunnel] : NULL;
        double least =
            air ? air->crop_min_degc[doy] : year->outside_min_degc[doy];
        double most = air ? air->max_degc[doy] : year->outside_max_degc[doy];
        double mean = air ? air->mean_degc[doy] : year->outside_mean_degc[doy];
        if (p->start_up < 1.0) {
            p->start_up += emerge_1_d(&p->rule, mean);
            continue;
        }
        p->start_degc_d +=
            day_growth(&p->rule, least, most,
                       climate_bed_dli_mol(year, h->farm, p->name.bed, doy));
    }
}

static Err add_plant(HourFarm *h, const HourPlantName *name, double plants)
{
    PlantCase *p = &h->plants[h->plant_count];
    *p = (PlantCase){.name = *name};
    p->name.plants = plants;
    TRY(plant_rule_of_farm(h->book, h->farm, name->way, &p->rule));
    set_place(h, p);
    set_growth(h, plants, p);
    set_start(h, p);
    p->is_open = name->clear_day == DATE_NEVER;
    h->plant_count++;
    return ERR_NONE;
}

static double plants_of(const HourFarm *h, const Plant *row)
{
    if (row->plants > 0) {
        return row->plants;
    }
    const Bed *bed = &h->farm->beds[row->bed];
    const BookWay *way = book_way(h->book, h->farm->ways[row->way].book);
    return way ? way->plants_m2.value * row->sections * bed->length_m *
                     bed->width_m / bed->sections
               : 0.0;
}

static const PlanPlant *plan_of(const Farm *farm, int standing)
{
    for (int i = 0; i < farm->plan_plants_count; i++) {
        if (farm->plan_plants[i].standing == standing) {
            return &farm->plan_plants[i];
        }
    }
    return NULL;
}

/* The day before a week counts, as its growth is told on Monday. */
static bool stands_in(const PlantCase *p, int32_t monday)
{
    return p->name.set_day < monday + WEEK_D && p->name.clear_day >= monday - 1;
}

static void list_weeks(HourFarm *h, Arena *arena)
{
    int count = 0;
    h->week_first = ARENA_ARRAY(arena, int, LISTED_WEEKS + 1);
    h->all_plants = ARENA_ARRAY(arena, int32_t, h->plant_count);
    for (int pass = 0; pass < 2; pass++) {
        count = 0;
        for (int w = 0; w < LISTED_WEEKS; w++) {
            h->week_first[w] = count;
            for (int i = 0; i < h->plant_count; i++) {
                if (stands_in(&h->plants[i], h->from_day + WEEK_D * w)) {
                    if (pass == 1) {
                        h->week_plants[count] = i;
                    }
                    count++;
                }
            }
        }
        h->week_first[LISTED_WEEKS] = count;
        if (pass == 0) {
            h->week_plants = ARENA_ARRAY(arena, int32_t, count);
        }
    }
    for (int i = 0; i < h->plant_count; i++) {
        h->all_plants[i] = i;
    }
}

Err hour_make_plants(HourFarm *h, Arena *arena)
{
    const Farm *farm = h->farm;
    h->plants = ARENA_ARRAY(arena, PlantCase,
                            farm->plants_count + farm->plan_plants_count);
    for (int i = 0; i < farm->plants_count; i++) {
        const Plant *row = &farm->plants[i];
        const PlanPlant *plan = plan_of(farm, i);
        HourPlantName name = {
            .id = row->id,
            .way = row->way,
            .bed = row->bed,
            .planned = plan ? (int32_t)(plan - farm->plan_plants) : -1,
            .standing = i,
            .set_day = row->set_on,
            .clear_day = plan ? plan->clear_on : DATE_NEVER};
        if (plan && row->set_on > row->counted_on) { /* still in trays */
            name.set_day = plan->set_on;
        }
        if (row->bed >= 0) { /* trays in the nursery drink no loop's water */
            TRY(add_plant(h, &name, plants_of(h, row)));
        }
    }
    for (int i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        HourPlantName name = {.id = row->id,
                              .way = row->way,
                              .bed = row->bed,
                              .planned = i,
                              .standing = -1,
                              .set_day = row->set_on,
                              .clear_day = row->clear_on};
        bool is_new = row->standing < 0 || farm->plants[row->standing].bed < 0;
        if (is_new && row->clear_on > h->from_day) {
            TRY(add_plant(h, &name, row->plants));
        }
    }
    const BookWater *w = h->water;
    double half[] = {w->half_n_g_m3.value,  w->half_p_g_m3.value,
                     w->half_k_g_m3.value,  w->half_ca_g_m3.value,
                     w->half_mg_g_m3.value, w->half_fe_g_m3.value};
    memcpy(h->half_g_m3, half, sizeof half);
    list_weeks(h, arena);
    return ERR_NONE;
}

typedef struct PlantList {
    const int32_t *rows;
    int count;
} PlantList;

/* Plants that may stand on a day or stood on the day before it. */
static PlantList plants_on(const HourFarm *h, int32_t date)
{
    int week = (int)((date - h->from_day) / WEEK_D);
    if (week >= LISTED_WEEKS) {
        return (PlantList){h->all_plants, h->plant_count};
    }
    int from = h->week_first[week];
    return (PlantList){h->week_plants + from, h->week_first[week + 1] - from};
}

int hour_plant_count(const HourFarm *h)
{
    return h->plant_count;
}

HourPlantName hour_plant_name(const HourFarm *h, int plant)
{
    return h->plants[plant].name;
}

double hour_plant_degc_d(const HourState *s, int plant)
{
    return s->plants[plant].degc_d;
}

const PlantRule *hour_plant_rule(const HourFarm *h, int plant)
{
    return &h->plants[plant].rule;
}

/* ---- A day -----------------------------------------------------------------
 */

bool hour_plant_stands(const PlantCase *p, const PlantState *is, int32_t date)
{
    return !is->is_gone && date >= p->name.set_day && date < p->name.clear_day;
}

/* Growth yesterday, by the air of its tunnel and its row's light. */
static double grew_degc_d(const HourFarm *h, HourState *s, const PlantCase *p,
                          PlantState *is)
{
    int32_t t = h->farm->beds[p->name.bed].tunnel;
    const TunnelNow *air = &s->tunnel_now[t >= 0 ? t : h->farm->tunnels_count];
    if (is->up < 1.0) {
        is->up += emerge_1_d(&p->rule, air->sum_degc / DAY_H);
        return 0.0;
    }
    double j_m2 = air->sun_j_m2[p->light];
    double frac = p->light == CLIMATE_ROWS ? p->light_frac : 1.0;
    int places = h->farm->tunnels_count + 1;
    double *degc_d =
        &s->way_degc_d[p->name.way * places + (t >= 0 ? t : places - 1)];
    if (*degc_d < 0.0) { /* the same for all of a way in a tunnel */
        *degc_d = thermal_day_sine_degc_d(&p->rule.thermal, air->least_degc,
                                          air->most_degc);
    }
    return *degc_d * light_growth_frac(&p->rule.light,
                                       frac * sun_dli_mol_m2_d(j_m2 / 1e6));
}

/* The scarcest of what a zone's plants took over what they asked, over what is
 * enough for full growth. */
static double got_frac(const HourFarm *h, const HourState *s, int v,
                       int8_t *out_scarcest)
{
    double least = 1.0;
    *out_scarcest = -1;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        if (!(s->asked_g[v][e] > 0.0)) {
            continue;
        }
        double got =
            s->taken_g[v][e] / s->asked_g[v][e] / h->water->enough_frac.value;
        if (got < least) {
            least = got;
            *out_scarcest = (int8_t)e;
        }
    }
    return least;
}

static void ask(const PlantCase *p, const PlantState *is, Elements to)
{
    const PlantRule *rule = &p->rule;
    double full = rule->full_at_frac * p->first_degc_d;
    double part = full > 0.0 ? fmin(1.0, is->degc_d / full) : 1.0;
    double shape = rule->young_frac + (1.0 - rule->young_frac) * part;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        to[e] += shape * is->rate_degc_d * p->per_degc_d[e];
    }
}

void hour_plants_day(const HourFarm *h, HourState *s, int32_t date)
{
    for (int i = 0; i < h->farm->ways_count * (h->farm->tunnels_count + 1);
         i++) {
        s->way_degc_d[i] = -1.0;
    }
    for (int v = 0; v < h->vessel_count; v++) {
        memset(s->ask_g_d[v], 0, sizeof s->ask_g_d[v]);
    }
    PlantList list = plants_on(h, date);
    for (int k = 0; k < list.count; k++) {
        int32_t i = list.rows[k];
        const PlantCase *p = &h->plants[i];
        PlantState *is = &s->plants[i];
        if (!hour_plant_stands(p, is, date - 1)) {
            is->rate_degc_d = 0.0;
        } else {
            double before = is->rate_degc_d;
            double got = 1.0;
            if (p->vessel >= 0) {
                got = got_frac(h, s, p->vessel, &is->scarcest);
            }
            is->rate_degc_d = s->plant_speed[i] * grew_degc_d(h, s, p, is);
            is->degc_d += got * is->rate_degc_d;
            is->short_frac = before > 0.0 ? 1.0 - got : 0.0;
            double stands = p->total_degc_d + p->rule.stand_degc_d;
            is->is_gone = p->is_open && is->degc_d > stands;
        }
        if (hour_plant_stands(p, is, date) && p->vessel >= 0 &&
            is->degc_d < p->total_degc_d + p->rule.stand_degc_d) {
            ask(p, is, s->ask_g_d[p->vessel]);
        }
    }
    for (int v = 0; v < h->vessel_count; v++) {
        int32_t loop = h->bodies[h->vessel_body[v]].loop;
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            if (loop >= 0) {
                s->loop_now[loop].asked_g[e] += s->asked_g[v][e];
            }
            s->asked_g[v][e] = s->taken_g[v][e] = 0.0;
        }
    }
}

/* The first day asks by the typical day's growth. */
void hour_start_plants(const HourFarm *h, HourState *s)
{
    int doy = date_day_of_year(h->from_day) - 1;
    for (int i = 0; i < h->plant_count; i++) {
        const PlantCase *p = &h->plants[i];
        PlantState *is = &s->plants[i];
        *is = (PlantState){
            .up = p->start_up, .degc_d = p->start_degc_d, .scarcest = -1};
        const Bed *bed = &h->farm->beds[p->name.bed];
        const ClimateYear *year = h->climate;
        double least = bed->tunnel >= 0
                           ? year->tunnels[bed->tunnel].crop_min_degc[doy]
                           : year->outside_min_degc[doy];
        double most = bed->tunnel >= 0
                          ? year->tunnels[bed->tunnel].max_degc[doy]
                          : year->outside_max_degc[doy];
        if (is->up >= 1.0 && hour_plant_stands(p, is, h->from_day)) {
            is->rate_degc_d = day_growth(
                &p->rule, least, most,
                climate_bed_dli_mol(year, h->farm, p->name.bed, doy));
            if (p->vessel >= 0) {
                ask(p, is, s->ask_g_d[p->vessel]);
            }
        }
    }
}
