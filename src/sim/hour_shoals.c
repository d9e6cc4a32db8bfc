/* Fish from day to day: what stands, what the plan stocks, moves and sells, who
 * dies, and how each slice grows by what its school ate. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/fish/limits.h"
#include "nature/fish/respiration.h"
#include "sim/hour_parts.h"

enum { LANES_LEAST = 4, WEEK_D = 7 };

static const double N_OF_PROTEIN = 0.16;
static const double G_KG = 1000.0;
static const double NONE_LEFT = 1e-6; /* fish */

/* ---- Making ----------------------------------------------------------------
 */

/* The farm's feed of that protein as the book's nearest knows its minerals. */
static const BookFeed *nearest_feed(const Book *book, const char *id,
                                    double protein_frac)
{
    const BookFeed *best = book_feed(book, id);
    for (int i = 0; !best && i < book->feeds_count; i++) {
        best = &book->feeds[i];
    }
    for (int i = 0; best && !book_feed(book, id) && i < book->feeds_count;
         i++) {
        if (fabs(book->feeds[i].protein_frac.value - protein_frac) <
            fabs(best->protein_frac.value - protein_frac)) {
            best = &book->feeds[i];
        }
    }
    return best;
}

static FeedMix mix_of(const HourFarm *h, const char *id, double protein_frac)
{
    const BookFeed *like = nearest_feed(h->book, id, protein_frac);
    FeedMix mix = {.from_g = 0.0, .to_g = INFINITY};
    mix.g_kg[HOUR_N] = N_OF_PROTEIN * protein_frac * G_KG;
    mix.g_kg[HOUR_P] = like->phosphorus_frac.value * G_KG;
    mix.g_kg[HOUR_K] = like->potassium_frac.value * G_KG;
    mix.g_kg[HOUR_CA] = like->calcium_frac.value * G_KG;
    mix.g_kg[HOUR_MG] = h->water->feed_mg_frac.value * G_KG;
    mix.g_kg[HOUR_FE] = h->water->feed_fe_frac.value * G_KG;
    return mix;
}

static void make_feeds(HourFarm *h, Arena *arena)
{
    const Farm *farm = h->farm;
    static const double USUAL_PROTEIN = 0.32; /* where the farm tells none */
    h->feeds = ARENA_ARRAY(arena, FeedMix, farm->feeds_count + 1);
    for (int i = 0; i < farm->feeds_count; i++) {
        FeedMix *mix = &h->feeds[h->feed_count++];
        *mix = mix_of(h, farm->feeds[i].id, farm->feeds[i].protein_frac);
        mix->from_g = farm->feeds[i].from_g;
        mix->to_g = farm->feeds[i].to_g;
    }
    h->feeds[h->feed_count] = mix_of(h, "", USUAL_PROTEIN);
}

static int species_row(HourFarm *h, const FishSpecies *species)
{
    for (int i = 0; i < h->species_count; i++) {
        if (strcmp(h->species[i]->name, species->name) == 0) {
            return i;
        }
    }
    h->species[h->species_count] = species;
    return h->species_count++;
}

/* One part for each row of the plan that is of the batch, or one for all. */
static void add_parts(HourFarm *h, const FishYearCase *fish,
                      const FishSlices *slices, int standing, const char *batch,
                      int32_t tank)
{
    const Farm *farm = h->farm;
    int lanes = LANES_LEAST;
    int first = h->part_count;
    for (int i = 0; i < farm->plan_fish_count; i++) {
        const PlanFish *row = &farm->plan_fish[i];
        bool is_its = standing >= 0
                          ? row->standing == standing
                          : row->standing < 0 && strcmp(row->batch, batch) == 0;
        if (is_its) {
            h->parts[h->part_count++] = (FishPart){.plan_row = i};
            lanes = row->lane > lanes ? row->lane : lanes;
        }
    }
    if (h->part_count == first) {
        h->parts[h->part_count++] = (FishPart){.plan_row = -1};
    }
    int lane_of[FISH_SLICES];
    fish_slices_lanes(slices, lanes, lane_of);
    for (int p = first; p < h->part_count; p++) {
        FishPart *part = &h->parts[p];
        const PlanFish *row =
            part->plan_row >= 0 ? &farm->plan_fish[part->plan_row] : NULL;
        part->species = species_row(h, fish->species);
        part->appetite = fish->appetite * fish->ration_frac;
        part->death_scale = fish->death_scale;
        part->tank = tank;
        part->is_kept = standing >= 0 && fish_case_is_kept(farm, standing);
        part->all = row ? row->count : 0.0;
        part->slices = *slices;
        for (int k = 0; k < FISH_SLICES; k++) {
            if (row && lane_of[k] != row->lane - 1) {
                part->slices.at[k].count = 0.0;
            }
        }
    }
}

static Err make_standing(HourFarm *h, Arena *arena, int row)
{
    const Fish *fish = &h->farm->fish[row];
    const double *water = h->farm->tanks[fish->tank].loop >= 0
                              ? h->climate->tanks[fish->tank].mean_degc
                              : h->climate->outside_mean_degc;
    FishSpan span = {h->from_day, 1, water};
    FishYearCase is;
    TRY(fish_case_standing(arena, h->farm, row, &span, &is));
    FishYear year;
    TRY(fish_year_run(arena, &is, &year));
    FishSlices slices = fish_year_slices(&year, 0);
    FishSlices drawn = fish_slices_draw(&is.draw);
    for (int k = 0; k < FISH_SLICES; k++) {
        slices.at[k].vigour = drawn.at[k].vigour;
        slices.at[k].female_frac = drawn.at[k].female_frac;
    }
    add_parts(h, &is, &slices, row, "", fish->tank);
    return ERR_NONE;
}

static Err make_planned(HourFarm *h, Arena *arena, int row)
{
    const Farm *farm = h->farm;
    const PlanFish *lane = &farm->plan_fish[row];
    int count = 0;
    for (int i = 0; i < farm->plan_fish_count; i++) {
        const PlanFish *other = &farm->plan_fish[i];
        if (other->standing < 0 && strcmp(other->batch, lane->batch) == 0) {
            if (i < row) {
                return ERR_NONE;
            }
            count += other->count;
        }
    }
    if (lane->source < 0 || count < 1) {
        return ERR_NONE;
    }
    FishSpan span = {h->from_day, 1, h->climate->outside_mean_degc};
    FishYearCase is;
    TRY(fish_case_source(arena, farm, lane->source, count, &span, &is));
    FishSlices slices = fish_slices_draw(&is.draw);
    add_parts(h, &is, &slices, -1, lane->batch, -1);
    return ERR_NONE;
}

Err hour_make_fish(HourFarm *h, Arena *arena)
{
    const Farm *farm = h->farm;
    int species_count = 0;
    (void)fish_species_all(&species_count);
    h->species = ARENA_ARRAY(arena, const FishSpecies *, species_count);
    h->parts =
        ARENA_ARRAY(arena, FishPart, farm->fish_count + farm->plan_fish_count);
    make_feeds(h, arena);
    for (int i = 0; i < farm->fish_count; i++) {
        TRY(make_standing(h, arena, i));
    }
    for (int i = 0; i < farm->plan_fish_count; i++) {
        if (farm->plan_fish[i].standing < 0) {
            TRY(make_planned(h, arena, i));
        }
    }
    /* Each move may open a shoal of each slice that its part holds. */
    for (int p = 0; p < h->part_count; p++) {
        int held = 0;
        int places = h->parts[p].tank >= 0 ? 1 : 0;
        for (int k = 0; k < FISH_SLICES; k++) {
            held += h->parts[p].slices.at[k].count > 0.0 ? 1 : 0;
        }
        for (int i = 0; i < farm->plan_moves_count; i++) {
            const PlanMove *move = &farm->plan_moves[i];
            places += h->parts[p].plan_row >= 0 &&
                              move->fish == h->parts[p].plan_row &&
                              move->to_tank >= 0
                          ? 1
                          : 0;
        }
        places = places < farm->tanks_count ? places : farm->tanks_count;
        h->shoal_most += held * places;
    }
    const BookWater *w = h->water;
    double body[] = {w->fish_n_g_kg.value,  w->fish_p_g_kg.value,
                     w->fish_k_g_kg.value,  w->fish_ca_g_kg.value,
                     w->fish_mg_g_kg.value, w->fish_fe_g_kg.value};
    double solids[] = {w->solids_n_frac.value,  w->solids_p_frac.value,
                       w->solids_k_frac.value,  w->solids_ca_frac.value,
                       w->solids_mg_frac.value, w->solids_fe_frac.value};
    memcpy(h->body_g_kg, body, sizeof body);
    memcpy(h->solids_frac, solids, sizeof solids);
    h->stays = exp(-w->gut_rate_h.value);
    h->danger_g_m3 = fish_oxygen_danger_mg_l().value;
    return ERR_NONE;
}

/* ---- Shoals ----------------------------------------------------------------
 */

static const FeedMix *feed_for(const HourFarm *h, double weight_g)
{
    for (int i = 0; i < h->feed_count; i++) {
        if (weight_g >= h->feeds[i].from_g && weight_g < h->feeds[i].to_g) {
            return &h->feeds[i];
        }
    }
    return &h->feeds[h->feed_count];
}

static Shoal *shoal_in(const HourFarm *h, HourState *s, int part, int slice,
                       int tank)
{
    for (int i = 0; i < s->shoal_count; i++) {
        Shoal *is = &s->shoals[i];
        if (is->part == part && is->slice == slice && is->tank == tank) {
            return is;
        }
    }
    assert(s->shoal_count < h->shoal_most);
    Shoal *made = &s->shoals[s->shoal_count++];
    *made = (Shoal){
        .part = (int16_t)part, .slice = (int16_t)slice, .tank = (int16_t)tank};
    return made;
}

static void join(const HourFarm *h, Shoal *to, double count, double weight_g)
{
    const FishPart *part = &h->parts[to->part];
    double all = to->count + count;
    if (!(all > 0.0)) {
        return;
    }
    to->weight_g = (to->count * to->weight_g + count * weight_g) / all;
    to->count = all;
    to->school = (int16_t)(to->tank * h->species_count + part->species);
    to->appetite =
        part->appetite * fish_slice_appetite(h->species[part->species],
                                             &part->slices.at[to->slice]);
}

static void book_fish(const HourFarm *h, HourState *s, double count, double kg,
                      bool is_in)
{
    HourLedger *l = &s->ledger;
    double *to = is_in ? l->in : l->out;
    to[LEDGER_FISH_COUNT] += count;
    to[LEDGER_FISH_KG] += kg;
    to[LEDGER_N_G] += kg * h->body_g_kg[HOUR_N];
    to[LEDGER_P_G] += kg * h->body_g_kg[HOUR_P];
    to[LEDGER_K_G] += kg * h->body_g_kg[HOUR_K];
    to[LEDGER_CA_G] += kg * h->body_g_kg[HOUR_CA];
}

/* What a share of a school's gut holds goes where its fish go. */
static void move_gut(HourState *s, School *from, School *to, double share)
{
    static const int IN[4] = {LEDGER_N_G, LEDGER_P_G, LEDGER_K_G, LEDGER_CA_G};
    static const int OF[4] = {HOUR_N, HOUR_P, HOUR_K, HOUR_CA};
    for (int stage = 0; stage < 2; stage++) {
        double kg = share * from->gut_kg[stage];
        from->gut_kg[stage] -= kg;
        if (to) {
            to->gut_kg[stage] += kg;
        }
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            double g = share * from->gut_g[stage][e];
            from->gut_g[stage][e] -= g;
            if (to) {
                to->gut_g[stage][e] += g;
            }
            for (int i = 0; !to && i < 4; i++) {
                s->ledger.out[IN[i]] += OF[i] == e ? g : 0.0;
            }
        }
    }
}

static double sold_over_g(const Farm *farm, int32_t product)
{
    for (int i = 0; i < farm->parts_count; i++) {
        if (farm->parts[i].product == product && farm->parts[i].way < 0) {
            return farm->parts[i].fish_over_g;
        }
    }
    return 0.0;
}

static void move_part(const HourFarm *h, HourState *s, int p,
                      const PlanMove *move, double share_of_lane)
{
    const FishPart *part = &h->parts[p];
    double *shares = s->part_share + p * h->farm->tanks_count;
    double here = shares[move->from_tank];
    double take = fmin(share_of_lane, here);
    if (!(take > 0.0)) {
        return;
    }
    double frac = take / here;
    shares[move->from_tank] -= take;
    School *from =
        &s->schools[move->from_tank * h->species_count + part->species];
    School *to = NULL;
    if (move->to_tank >= 0) {
        shares[move->to_tank] += take;
        to = &s->schools[move->to_tank * h->species_count + part->species];
    }
    double count = 0.0, kg = 0.0;
    FishSlices gone = {0};
    for (int i = 0; i < s->shoal_count; i++) {
        Shoal shoal = s->shoals[i];
        if (shoal.part != p || shoal.tank != move->from_tank) {
            continue;
        }
        double moved = frac * shoal.count;
        gone.at[shoal.slice].count = moved;
        gone.at[shoal.slice].weight_g = shoal.weight_g;
        s->shoals[i].count -= moved;
        count += moved;
        kg += moved * shoal.weight_g / G_KG;
        if (move->to_tank >= 0) {
            join(h, shoal_in(h, s, p, shoal.slice, move->to_tank), moved,
                 shoal.weight_g);
        }
    }
    if (from->kg > 0.0) {
        move_gut(s, from, to, fmin(1.0, kg / from->kg));
    }
    from->kg = fmax(0.0, from->kg - kg);
    if (to) {
        to->kg += kg;
    } else {
        book_fish(h, s, count, kg, false);
        s->tank_now[move->from_tank].sold_count += count;
        if (move->product >= 0) {
            s->sold_over[move->product] +=
                fish_slices_over(&gone, sold_over_g(h->farm, move->product));
        }
    }
}

static void stock_part(const HourFarm *h, HourState *s, int p,
                       const PlanMove *move, double share)
{
    const FishPart *part = &h->parts[p];
    double *shares = s->part_share + p * h->farm->tanks_count;
    shares[move->to_tank] += share;
    for (int k = 0; k < FISH_SLICES; k++) {
        const FishSlice *slice = &part->slices.at[k];
        double count = share * slice->count;
        if (count > 0.0) {
            join(h, shoal_in(h, s, p, k, move->to_tank), count,
                 slice->weight_g);
            book_fish(h, s, count, count * slice->weight_g / G_KG, true);
            s->tank_now[move->to_tank].stocked_count += count;
        }
    }
}

/* Moves of a day; on the first day all that the plan had before it too. */
static bool follow_moves(const HourFarm *h, HourState *s, int32_t date)
{
    const Farm *farm = h->farm;
    bool is_any = false;
    for (int i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        int32_t on = week_of(move->on);
        bool is_now = on == date || (date == h->from_day && on < date);
        for (int p = 0; is_now && p < h->part_count; p++) {
            const FishPart *part = &h->parts[p];
            if (part->plan_row != move->fish || !(part->all > 0.0)) {
                continue;
            }
            is_any = true;
            double share = move->started / part->all;
            if (move->from_tank >= 0) {
                move_part(h, s, p, move, share);
            } else if (move->to_tank >= 0) {
                stock_part(h, s, p, move, share);
            }
        }
    }
    return is_any;
}

/* ---- The sums of a day ------------------------------------------------------
 */

static void add_to_school(const HourFarm *h, School *f, Shoal *shoal,
                          const FishSpecies *species, double degc)
{
    double kg = shoal->count * shoal->weight_g / G_KG;
    double w = shoal->weight_g;
    const FeedMix *feed = feed_for(h, w);
    shoal->ration_kg_d = kg * fish_ration_frac(species, w) * shoal->appetite;
    shoal->upkeep_kg_d =
        shoal->count * fish_upkeep_g_d(species, w, degc) / G_KG;
    f->count += shoal->count;
    f->kg += kg;
    f->ration_kg_d += shoal->ration_kg_d;
    double small = fmin(1.0, fmax(0.0, (200.0 - w) / 150.0));
    f->small_frac += small * shoal->ration_kg_d;
    f->rest_g_h += h->water->oxygen_rest_frac.value * species->oxygen_frac *
                   kg * fish_oxygen_allometric(w, 28.0) / G_KG;
    f->upkeep_kg_h += shoal->upkeep_kg_d / DAY_H;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        f->feed_g_kg[e] += shoal->ration_kg_d * feed->g_kg[e];
    }
}

void hour_schools(const HourFarm *h, HourState *s)
{
    int count = h->farm->tanks_count * h->species_count;
    for (int k = 0; k < count; k++) {
        School *f = &s->schools[k];
        School kept = {.gut_kg = {f->gut_kg[0], f->gut_kg[1]}};
        memcpy(kept.gut_g, f->gut_g, sizeof kept.gut_g);
        *f = kept;
    }
    for (int i = 0; i < s->shoal_count; i++) {
        Shoal *shoal = &s->shoals[i];
        if (shoal->count > 0.0) {
            int sp = h->parts[shoal->part].species;
            add_to_school(h, &s->schools[shoal->school], shoal, h->species[sp],
                          s->degc[h->tank_vessel[shoal->tank]]);
        }
    }
    for (int k = 0; k < count; k++) {
        School *f = &s->schools[k];
        if (!(f->count > 0.0)) {
            continue;
        }
        f->mean_g = G_KG * f->kg / f->count;
        double all = f->ration_kg_d > 0.0 ? f->ration_kg_d : 1.0;
        f->small_frac /= all;
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            f->feed_g_kg[e] /= all;
        }
        FishAmmonia limits = fish_ammonia_limits(f->mean_g);
        f->nh3_caution_g_m3 = limits.caution_mg_l;
        f->nh3_deadly_g_m3 = limits.deadly_mg_l;
    }
}

/* What the school grew, by what each shoal ate and needs; then the deaths of a
 * usual day, by the day's extremes of temperature. */
static void grow_shoals(const HourFarm *h, HourState *s)
{
    for (int i = 0; i < s->shoal_count; i++) {
        Shoal *shoal = &s->shoals[i];
        if (!(shoal->count > 0.0)) {
            continue;
        }
        const School *f = &s->schools[shoal->school];
        const FishSpecies *species = h->species[h->parts[shoal->part].species];
        double upkeep_d = f->upkeep_kg_h * DAY_H;
        double eaten = f->grown_kg + f->upkeep_kg;
        double kg =
            (f->ration_kg_d > 0.0 ? eaten * shoal->ration_kg_d / f->ration_kg_d
                                  : 0.0) -
            (upkeep_d > 0.0 ? f->upkeep_kg * shoal->upkeep_kg_d / upkeep_d
                            : 0.0);
        shoal->weight_g += G_KG * kg / shoal->count;
        const HourTankDay *day = &s->tank_now[shoal->tank];
        double frac = fmax(
            fish_death_frac_d(species, shoal->weight_g, day->temp_least_degc),
            fish_death_frac_d(species, shoal->weight_g, day->temp_most_degc));
        frac *= h->parts[shoal->part].death_scale;
        double dead = fmin(1.0, frac) * shoal->count;
        if (shoal->count - dead < NONE_LEFT) {
            dead = shoal->count;
        }
        shoal->count -= dead;
        s->tank_now[shoal->tank].dead_count += dead;
        book_fish(h, s, dead, dead * shoal->weight_g / G_KG, false);
    }
}

void hour_fish_day(const HourFarm *h, HourState *s)
{
    grow_shoals(h, s);
    hour_schools(h, s);
}

void hour_fish_moves(const HourFarm *h, HourState *s, int32_t date)
{
    if (date_weekday(date) == 0 && follow_moves(h, s, date)) {
        hour_schools(h, s);
    }
}

void hour_start_fish(const HourFarm *h, HourState *s)
{
    for (int p = 0; p < h->part_count; p++) {
        const FishPart *part = &h->parts[p];
        if (part->tank < 0) {
            continue;
        }
        s->part_share[p * h->farm->tanks_count + part->tank] = 1.0;
        for (int k = 0; k < FISH_SLICES; k++) {
            if (part->slices.at[k].count > 0.0) {
                join(h, shoal_in(h, s, p, k, part->tank),
                     part->slices.at[k].count, part->slices.at[k].weight_g);
            }
        }
    }
    hour_schools(h, s);
    (void)follow_moves(h, s, h->from_day);
    hour_schools(h, s);
}

/* ---- For those who ask -----------------------------------------------------
 */

int hour_species_count(const HourFarm *h)
{
    return h->species_count;
}

const FishSpecies *hour_species(const HourFarm *h, int row)
{
    return h->species[row];
}

double hour_tank_count(const HourFarm *h, const HourState *s, int tank)
{
    double count = 0.0;
    for (int sp = 0; sp < h->species_count; sp++) {
        count += s->schools[tank * h->species_count + sp].count;
    }
    return count;
}

double hour_fish_over(const HourFarm *h, HourState *s, double weight_g)
{
    int tanks = h->farm->tanks_count;
    size_t places = (size_t)(h->part_count * tanks);
    memset(s->over_room, 0, places * sizeof *s->over_room);
    for (int i = 0; i < s->shoal_count; i++) {
        const Shoal *shoal = &s->shoals[i];
        FishSlice *at =
            &s->over_room[shoal->part * tanks + shoal->tank].at[shoal->slice];
        at->count = shoal->count;
        at->weight_g = shoal->weight_g;
    }
    double over = 0.0;
    for (size_t k = 0; k < places; k++) {
        if (!h->parts[k / (size_t)tanks].is_kept) {
            over += fish_slices_over(&s->over_room[k], weight_g);
        }
    }
    return over;
}

const double *hour_sold_over(const HourState *s)
{
    return s->sold_over;
}
