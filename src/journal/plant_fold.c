/* Plants told of, onto the rows of plants. */
#include "journal/plant_fold.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "farm/cell.h"
#include "farm/seedlings.h"
#include "journal/entry.h"

enum { WEEK_D = 7 };

static void remove_plant(Farm *farm, int32_t at)
{
    memmove(&farm->plants[at], &farm->plants[at + 1],
            (size_t)(farm->plants_count - at - 1) * sizeof *farm->plants);
    farm->plants_count--;
}

void plant_fold_add(StateFold *fold, const Plant *plant)
{
    Farm *farm = fold->farm;
    int32_t at = cell_row_of(farm, TABLE_plants, plant->id);
    if (at >= 0) {
        farm->plants[at] = *plant;
        return;
    }
    if (farm->plants_count == fold->plant_room) {
        int32_t room = 2 * fold->plant_room + 16;
        farm->plants =
            arena_grow(fold->arena, farm->plants, (size_t)fold->plant_room,
                       (size_t)room, sizeof *farm->plants);
        fold->plant_room = room;
    }
    farm->plants[farm->plants_count++] = *plant;
}

/* An id for what nothing planned: "h1-s1-2027-03-02", told apart by a number
 * where it is taken. */
static const char *new_id(const StateFold *fold, const char *what, int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    char *id = arena_text(fold->arena, "%s-%s", what, text);
    for (char *at = id; *at; at++) {
        *at = (char)(*at >= 'A' && *at <= 'Z' ? *at - 'A' + 'a' : *at);
    }
    const char *free_id = id;
    for (int i = 2; cell_row_of(fold->farm, TABLE_plants, free_id) >= 0; i++) {
        free_id = arena_text(fold->arena, "%s-%d", id, i);
    }
    return free_id;
}

/* ---- Trays ----------------------------------------------------------------
 */

/* Seedlings leave their trays. Trays whose number nobody counted are emptied by
 * their first setting; batches are told in whole plants, so that the last of
 * them may find one too few. */
static void leave_trays(StateFold *fold, const char *batch, int32_t plants)
{
    int32_t at = cell_row_of(fold->farm, TABLE_plants, batch);
    if (at < 0) {
        return;
    }
    Plant *trays = &fold->farm->plants[at];
    if (trays->plants > plants && trays->bed < 0) {
        int32_t left = trays->plants - plants;
        trays->trays *= (double)left / trays->plants;
        trays->plants = left;
    } else {
        remove_plant(fold->farm, at);
    }
}

/* Where the seedlings of a row of the plan stand before they are set. */
static const char *trays_of(const StateFold *fold, const PlanPlant *row)
{
    const Farm *opening = fold->opening;
    return seedlings_feed(opening, row)
               ? opening->plants[row->standing].id
               : entries_sowing(opening, row, fold->arena);
}

static void add_trays(StateFold *fold, const Plant *sown)
{
    int32_t at = cell_row_of(fold->farm, TABLE_plants, sown->id);
    if (at < 0) {
        plant_fold_add(fold, sown);
    } else {
        fold->farm->plants[at].plants += sown->plants;
        fold->farm->plants[at].trays += sown->trays;
    }
}

static Plant trays_for(int32_t way, const char *id, int32_t day, int32_t plants)
{
    return (Plant){.id = id,
                   .way = way,
                   .bed = -1,
                   .plants = plants,
                   .sown_on = day,
                   .set_on = DATE_NEVER,
                   .counted_on = day};
}

/* ---- Sown -----------------------------------------------------------------
 */

static double tray_count(const Told *told)
{
    bool is_trays = strcmp(told->unit, "tray") == 0;
    return is_trays && !isnan(told->quantity) ? told->quantity : 0.0;
}

static int32_t cells_of(const Farm *farm, int32_t way, double trays)
{
    int32_t tray = farm->ways[way].tray;
    return tray >= 0 ? (int32_t)lround(trays * farm->trays[tray].cells) : 0;
}

static int32_t index_of(const Tolds *tolds, const Told *told)
{
    return (int32_t)(told - tolds->items);
}

/* Seedlings that the matched rows of the plan want, and their sowing's name. */
static int32_t wanted_of(const StateFold *fold, const Steps *steps,
                         int32_t told, const char **out_name, int32_t *out_way)
{
    int32_t wanted = 0;
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        if (step->kind == STEP_SOW && step->told == told) {
            const PlanPlant *row = &fold->opening->plan_plants[step->row];
            wanted += row->plants;
            *out_name = entries_sowing(fold->opening, row, fold->arena);
            *out_way = row->way;
        }
    }
    return wanted;
}

static void sow(StateFold *fold, const Tolds *tolds, const Told *told,
                const Steps *steps)
{
    const char *name = NULL;
    int32_t way = cell_row_of(fold->farm, TABLE_ways, told->way);
    int32_t wanted = wanted_of(fold, steps, index_of(tolds, told), &name, &way);
    if (way < 0) {
        fold_doubt(fold, told,
                   "sown: neither its way nor a batch of the plan "
                   "is named");
        return;
    }
    if (!name) {
        name = *told->batch ? told->batch
                            : new_id(fold,
                                     arena_text(fold->arena, "%s-sown",
                                                fold->farm->ways[way].id),
                                     told->happened_on);
    }
    double trays = tray_count(told);
    int32_t cells = cells_of(fold->farm, way, trays);
    int32_t plants = told->count >= 0 ? (int32_t)told->count
                     : wanted > 0     ? wanted
                                      : cells;
    Plant sown = trays_for(way, name, told->happened_on, plants);
    sown.trays = trays;
    add_trays(fold, &sown);
}

/* A tray batch by its name, by the plan's row it is for, or by its way. */
static int32_t find_trays(const StateFold *fold, const Told *told)
{
    const Farm *farm = fold->farm;
    int32_t at = cell_row_of(farm, TABLE_plants, told->batch);
    if (at >= 0) {
        return at;
    }
    for (int32_t i = 0; i < fold->opening->plan_plants_count; i++) {
        const PlanPlant *row = &fold->opening->plan_plants[i];
        if (strcmp(row->id, told->batch) == 0) {
            return cell_row_of(farm, TABLE_plants, trays_of(fold, row));
        }
    }
    for (int32_t i = farm->plants_count - 1; i >= 0; i--) {
        if (farm->plants[i].bed < 0 &&
            strcmp(farm->ways[farm->plants[i].way].id, told->batch) == 0) {
            return i;
        }
    }
    return -1;
}

static void emerge(StateFold *fold, const Told *told)
{
    int32_t at = find_trays(fold, told);
    if (at < 0) {
        fold_doubt(fold, told, "emerged: no trays of %s stand", told->batch);
        return;
    }
    Plant *trays = &fold->farm->plants[at];
    trays->plants = (int32_t)told->count;
    trays->counted_on = told->happened_on;
    if (trays->plants == 0) {
        remove_plant(fold->farm, at); /* nothing came up */
    }
}

/* ---- Set ------------------------------------------------------------------
 */

static void stand(StateFold *fold, const Told *told, const PlanPlant *row,
                  int32_t plants)
{
    Plant plant = entries_planned_plant(row, told->happened_on);
    int32_t bed = cell_row_of(fold->farm, TABLE_beds, told->place);
    if (bed >= 0) {
        plant.bed = bed;
        plant.place = told->edge ? PLACE_EDGE : row->place;
    }
    plant.sections =
        told->sections > 0 ? (int32_t)told->sections : plant.sections;
    plant.plants = plants > 0 ? plants : plant.plants;
    leave_trays(fold, trays_of(fold, row), plant.plants);
    plant_fold_add(fold, &plant);
}

/* Set without a plan: into the bed that is told, from trays or bought in. */
static void stand_unplanned(StateFold *fold, const Told *told)
{
    const Farm *farm = fold->farm;
    int32_t bed = cell_row_of(farm, TABLE_beds, told->place);
    int32_t trays = cell_row_of(farm, TABLE_plants, told->batch);
    int32_t way = cell_row_of(farm, TABLE_ways, told->way);
    way = way < 0 && trays >= 0 ? farm->plants[trays].way : way;
    if (bed < 0 || way < 0) {
        fold_doubt(fold, told, "%s: its bed or its way is not told",
                   told_kind_word(told->kind));
        return;
    }
    bool is_from_trays = trays >= 0 && seedlings_are(&farm->plants[trays]);
    const char *id = *told->batch && !is_from_trays
                         ? told->batch
                         : new_id(fold, told->place, told->happened_on);
    Plant plant = {.id = id,
                   .way = way,
                   .bed = bed,
                   .place = told->edge ? PLACE_EDGE : PLACE_FLOOR,
                   .sections = told->edge           ? 0
                               : told->sections > 0 ? (int32_t)told->sections
                               : told->section > 0  ? 1
                                                    : farm->beds[bed].sections,
                   .plants = told->count > 0 ? (int32_t)told->count : 0,
                   .sown_on = DATE_ALWAYS,
                   .set_on = told->happened_on,
                   .counted_on = told->happened_on};
    if (is_from_trays) {
        leave_trays(fold, told->batch,
                    plant.plants > 0 ? plant.plants : INT32_MAX);
    }
    plant_fold_add(fold, &plant);
}

static void set(StateFold *fold, const Tolds *tolds, const Told *told,
                const Steps *steps)
{
    int32_t matched = 0;
    int32_t planned = 0;
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        if (step->kind == STEP_SET && step->told == index_of(tolds, told)) {
            matched++;
            planned += fold->opening->plan_plants[step->row].plants;
        }
    }
    if (matched == 0) {
        stand_unplanned(fold, told);
        return;
    }
    double share =
        told->count >= 0 && planned > 0 ? (double)told->count / planned : 1.0;
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        if (step->kind == STEP_SET && step->told == index_of(tolds, told)) {
            const PlanPlant *row = &fold->opening->plan_plants[step->row];
            stand(fold, told, row, (int32_t)lround(share * row->plants));
        }
    }
}

/* ---- Cleared --------------------------------------------------------------
 */

static bool is_cleared_by(const Farm *farm, const Plant *plant,
                          const Told *told)
{
    if (*told->batch) {
        return strcmp(plant->id, told->batch) == 0;
    }
    return plant->bed >= 0 &&
           strcmp(farm->beds[plant->bed].id, told->place) == 0 &&
           (plant->place == PLACE_EDGE) == told->edge;
}

static void clear(StateFold *fold, const Told *told)
{
    Farm *farm = fold->farm;
    bool is_any = false;
    for (int32_t i = farm->plants_count - 1; i >= 0; i--) {
        if (!is_cleared_by(farm, &farm->plants[i], told)) {
            continue;
        }
        is_any = true;
        bool is_part =
            told->sections > 0 && farm->plants[i].sections > told->sections;
        if (is_part) {
            farm->plants[i].sections -= (int32_t)told->sections;
        } else {
            remove_plant(farm, i);
        }
    }
    if (!is_any) {
        fold_doubt(fold, told, "cleared: nothing of %s stands there",
                   *told->batch ? told->batch : told->place);
    }
}

void plant_fold_told(StateFold *fold, const Tolds *tolds, const Told *told,
                     const Steps *steps)
{
    int32_t bed = cell_row_of(fold->farm, TABLE_beds, told->place);
    switch (told->kind) {
    case TOLD_SOWN:
        if (bed >= 0) {
            set(fold, tolds, told, steps); /* sown in place */
        } else {
            sow(fold, tolds, told, steps);
        }
        return;
    case TOLD_EMERGED:
        emerge(fold, told);
        return;
    case TOLD_SET:
        set(fold, tolds, told, steps);
        return;
    case TOLD_CLEARED:
        clear(fold, told);
        return;
    case TOLD_CLEANED:
        if (bed >= 0) {
            fold->farm->beds[bed].cleaned_on = told->happened_on;
        }
        return;
    default:
        return;
    }
}

/* ---- Steps taken as done --------------------------------------------------
 */

/* Whether the row is out of its trays by now. */
static bool is_set(const Steps *steps, int32_t row)
{
    const Step *step = steps_find(steps, STEP_SET, row);
    return step && (step->is_told || step->is_assumed);
}

void plant_fold_planned(StateFold *fold, const Step *step)
{
    const Farm *opening = fold->opening;
    const PlanPlant *row = &opening->plan_plants[step->row];
    if (step->kind == STEP_SOW) {
        Plant sown =
            trays_for(row->way, trays_of(fold, row), row->sow_on, row->plants);
        add_trays(fold, &sown);
    } else if (step->kind == STEP_SET) {
        leave_trays(fold, trays_of(fold, row), row->plants);
        Plant plant = entries_planned_plant(row, row->set_on);
        plant_fold_add(fold, &plant);
    } else {
        bool is_old = row->standing >= 0 && !seedlings_feed(opening, row);
        int32_t at =
            cell_row_of(fold->farm, TABLE_plants,
                        is_old ? opening->plants[row->standing].id : row->id);
        if (at >= 0) {
            remove_plant(fold->farm, at);
        }
    }
}

/* ---- The plan from here on ------------------------------------------------
 */

static void shift(PlanPlant *row, int32_t to)
{
    int32_t days = to - row->set_on;
    int32_t weeks = (int32_t)lround((double)days / WEEK_D) * WEEK_D;
    row->set_on = to;
    row->pick_from += weeks;
    row->pick_until += weeks;
    row->clear_on += weeks;
}

/* A row tells whole plants of what its sections take; sown was for a few more,
 * as long as nobody counted. */
static void add_spare(Plant *trays)
{
    if (trays->bed < 0 && trays->sown_on == trays->counted_on &&
        trays->set_on == DATE_NEVER) {
        trays->plants++;
    }
}

/* Seedlings that came up are fewer than the rows want: the first get theirs,
 * the last what is left. */
static void share_trays(const Plant *trays, int32_t *left, PlanPlant *row)
{
    if (trays->bed >= 0 || trays->plants <= 0 || row->plants <= 0) {
        return;
    }
    int32_t given = *left < row->plants ? *left : row->plants;
    double share = (double)given / row->plants;
    if (row->place == PLACE_FLOOR && row->sections > 0) {
        row->sections = (int32_t)ceil(share * row->sections);
    }
    row->plants = given;
    *left -= given;
}

static PlanPlant follow_row(StateFold *fold, const Steps *steps, int32_t index,
                            int32_t *left)
{
    const Farm *opening = fold->opening;
    PlanPlant row = opening->plan_plants[index];
    const Step *sown = steps_find(steps, STEP_SOW, index);
    const Step *step = steps_find(steps, STEP_SET, index);
    bool is_fed = seedlings_feed(opening, &row);
    if (sown && sown->is_told) {
        row.sow_on = sown->told_day;
    }
    if (is_set(steps, index)) {
        row.standing = cell_row_of(fold->farm, TABLE_plants, row.id);
        if (row.standing >= 0 && step->is_told) {
            const Plant *plant = &fold->farm->plants[row.standing];
            shift(&row, plant->set_on);
            row.bed = plant->bed;
            row.place = plant->place;
            row.sections = plant->sections;
            row.plants = plant->plants > 0 ? plant->plants : row.plants;
        }
        return row;
    }
    if (row.standing >= 0 && !is_fed) {
        row.standing = cell_row_of(fold->farm, TABLE_plants,
                                   opening->plants[row.standing].id);
        return row;
    }
    int32_t week = week_of(fold->state->day);
    if (row.set_on < week) {
        shift(&row, week); /* undone: due now */
    }
    row.standing = cell_row_of(fold->farm, TABLE_plants,
                               trays_of(fold, &opening->plan_plants[index]));
    if (row.standing >= 0) {
        share_trays(&fold->farm->plants[row.standing], &left[row.standing],
                    &row);
        add_spare(&fold->farm->plants[row.standing]);
    }
    return row;
}

/* Whether its plants were there and are not any more. */
static bool is_gone(const StateFold *fold, const Steps *steps, int32_t index,
                    const PlanPlant *row)
{
    const Step *clear = steps_find(steps, STEP_CLEAR, index);
    bool was_there =
        is_set(steps, index) ||
        (fold->opening->plan_plants[index].standing >= 0 &&
         !seedlings_feed(fold->opening, &fold->opening->plan_plants[index]));
    if (clear && clear->is_assumed) {
        return true;
    }
    return (was_there && row->standing < 0) || row->plants <= 0;
}

void plant_fold_follow(StateFold *fold, const Steps *steps)
{
    const Farm *opening = fold->opening;
    Farm *farm = fold->farm;
    PlanPlant *rows =
        ARENA_ARRAY(fold->arena, PlanPlant, opening->plan_plants_count);
    int32_t *left = ARENA_ARRAY(fold->arena, int32_t, farm->plants_count);
    for (int32_t i = 0; i < farm->plants_count; i++) {
        left[i] = farm->plants[i].plants;
    }
    int32_t week = week_of(fold->state->day);
    int32_t count = 0;
    for (int32_t i = 0; i < opening->plan_plants_count; i++) {
        bool had_plants = opening->plan_plants[i].plants > 0;
        PlanPlant row = follow_row(fold, steps, i, left);
        if (had_plants && is_gone(fold, steps, i, &row)) {
            continue;
        }
        if (row.clear_on <= week) {
            row.clear_on = week + WEEK_D; /* it stands, so it is due now */
        }
        rows[count++] = row;
    }
    farm->plan_plants = rows;
    farm->plan_plants_count = count;
}
