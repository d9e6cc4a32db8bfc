/* Plans kept beside the accepted one. */
#include "desk/plan_kept.h"

#include <string.h>

#include "desk/farm_folder.h"
#include "farm/cell.h"
#include "farm/read.h"
#include "farm/write.h"

enum { PLAN_MAX_BYTES = 32 * 1024 * 1024 };

static const char *const WORDS[] = {
#define PLAN_NAME_WORD(name, word) [PLAN_##name] = word,
    PLAN_NAMES(PLAN_NAME_WORD)
#undef PLAN_NAME_WORD
};

const char *plan_name_word(PlanName name)
{
    return WORDS[name];
}

Err plan_name_read(const char *word, PlanName *out)
{
    for (int i = 0; i < PLAN_NAME_COUNT; i++) {
        if (strcmp(word, WORDS[i]) == 0) {
            *out = (PlanName)i;
            return ERR_NONE;
        }
    }
    return err_make(ERR_INPUT,
                    "\"%.40s\" names no plan: accepted, before, draft or "
                    "changed",
                    word);
}

static const char *folder_of(const char *dir, PlanName name, Arena *arena)
{
    return name == PLAN_ACCEPTED
               ? dir
               : arena_text(arena, "%s/plan-%s", dir, WORDS[name]);
}

Err plan_kept_write(const char *dir, PlanName name, const Farm *farm,
                    Arena *arena)
{
    const char *folder = folder_of(dir, name, arena);
    Err err = farm_folder_make(folder);
    if (err.kind != ERR_OK && err.kind != ERR_CONFLICT) {
        return err;
    }
    return farm_folder_write_tables(folder, farm, FARM_PLAN_TABLES,
                                    PLAN_TABLE_COUNT, arena);
}

/* The plan's tables from its folder, all others as they stand in memory. */
static Err buffers_of(const char *folder, const Farm *farm, Arena *arena,
                      FarmBuffer *out)
{
    for (int i = 0; i < TABLE_COUNT; i++) {
        const char *file = farm_table_file((TableId)i);
        if (farm_is_plan_table((TableId)i)) {
            TRY(farm_folder_read_file(folder, file, PLAN_MAX_BYTES, arena,
                                      &out[i]));
            out[i].file = file;
        } else {
            FarmBytes bytes = farm_write_table(farm, (TableId)i, arena);
            out[i] = (FarmBuffer){file, bytes.bytes, bytes.length};
        }
    }
    return ERR_NONE;
}

/* ---- Rows that no longer fit ----------------------------------------------
 */

/* A batch that was planned then and stands now has kept its id, also where it
 * was set from seedlings of another. */
static int32_t standing_of(const Farm *farm, const PlanPlant *row)
{
    int32_t standing = cell_row_of(farm, TABLE_plants, row->id);
    return standing >= 0 ? standing : REF_BLANK;
}

static int fit_plants(Farm *farm)
{
    int kept = 0;
    int all = farm->plan_plants_count;
    for (int i = 0; i < all; i++) {
        PlanPlant *row = &farm->plan_plants[i];
        if (row->way >= 0 && row->bed >= 0) {
            int32_t own = standing_of(farm, row);
            row->standing = own >= 0             ? own
                            : row->standing >= 0 ? row->standing
                                                 : REF_BLANK;
            farm->plan_plants[kept++] = *row;
        }
    }
    farm->plan_plants_count = kept;
    return all - kept;
}

/* Rows of plan_fish stay in their places: plan_moves names them by number. */
static int fit_moves(Farm *farm)
{
    int kept = 0;
    int all = farm->plan_moves_count;
    for (int i = 0; i < farm->plan_fish_count; i++) {
        PlanFish *row = &farm->plan_fish[i];
        row->standing = row->standing < 0 ? REF_BLANK : row->standing;
        row->source = row->source < 0 ? REF_BLANK : row->source;
    }
    for (int i = 0; i < all; i++) {
        const PlanMove *row = &farm->plan_moves[i];
        if (row->fish >= 0 && row->from_tank != REF_WRONG &&
            row->to_tank != REF_WRONG && row->product != REF_WRONG) {
            farm->plan_moves[kept++] = *row;
        }
    }
    farm->plan_moves_count = kept;
    return all - kept;
}

static int fit_rest(Farm *farm)
{
    int kept = 0;
    int all = farm->plan_cleans_count;
    for (int i = 0; i < all; i++) {
        if (farm->plan_cleans[i].bed >= 0) {
            farm->plan_cleans[kept++] = farm->plan_cleans[i];
        }
    }
    farm->plan_cleans_count = kept;
    int promises = 0;
    for (int i = 0; i < farm->plan_orders_count; i++) {
        if (farm->plan_orders[i].order >= 0) {
            farm->plan_orders[promises++] = farm->plan_orders[i];
        }
    }
    farm->plan_orders_count = promises;
    return all - kept;
}

Err plan_kept_bring(const char *dir, PlanName name, const Farm *farm,
                    Arena *arena, const Farm **out, int *out_lost)
{
    const char *folder = folder_of(dir, name, arena);
    FarmBuffer *buffers = ARENA_ARRAY(arena, FarmBuffer, TABLE_COUNT);
    Err err = buffers_of(folder, farm, arena, buffers);
    if (err.kind == ERR_NOT_FOUND) {
        return err_make(ERR_NOT_FOUND, "%.120s keeps no plan %s", dir,
                        WORDS[name]);
    }
    TRY(err);
    FarmRead *read = ARENA_NEW(arena, FarmRead);
    Faults faults;
    faults_init(&faults, arena, 1);
    farm_read(buffers, TABLE_COUNT, &faults, read);
    if (read->farm.plan_count != 1) {
        return err_make(ERR_INPUT, "%.120s holds no plan that can be read",
                        folder);
    }
    *out_lost = fit_plants(&read->farm) + fit_moves(&read->farm) +
                fit_rest(&read->farm);
    *out = &read->farm;
    return ERR_NONE;
}

bool plan_kept_is_same(const Farm *a, const Farm *b, Arena *arena)
{
    static const TableId CHOICES[] = {TABLE_plan_plants, TABLE_plan_fish,
                                      TABLE_plan_moves, TABLE_plan_cleans};
    for (size_t i = 0; i < sizeof CHOICES / sizeof *CHOICES; i++) {
        FarmBytes one = farm_write_table(a, CHOICES[i], arena);
        FarmBytes two = farm_write_table(b, CHOICES[i], arena);
        if (one.length != two.length ||
            memcmp(one.bytes, two.bytes, one.length) != 0) {
            return false;
        }
    }
    return true;
}

int plan_kept_all(const char *dir, Arena *arena, KeptPlan *out)
{
    int count = 0;
    for (int i = 0; i < PLAN_NAME_COUNT; i++) {
        const char *folder = folder_of(dir, (PlanName)i, arena);
        FarmBuffer buffer = {0};
        Err err = farm_folder_read_file(folder, farm_table_file(TABLE_plan),
                                        PLAN_MAX_BYTES, arena, &buffer);
        if (err.kind != ERR_OK) {
            continue;
        }
        buffer.file = farm_table_file(TABLE_plan);
        FarmRead *read = ARENA_NEW(arena, FarmRead);
        Faults faults;
        faults_init(&faults, arena, 1);
        farm_read(&buffer, 1, &faults, read);
        if (read->farm.plan_count == 1) {
            out[count++] = (KeptPlan){(PlanName)i, read->farm.plan[0]};
        }
    }
    return count;
}
