/* The tables of a farm written from its journal. */
#include "desk/export.h"

#include <string.h>
#include <time.h>

#include "base/date.h"
#include "base/text.h"
#include "desk/farm_folder.h"
#include "desk/farm_today.h"
#include "desk/folder_lock.h"
#include "desk/plan_age.h"
#include "desk/typical.h"
#include "journal/lanes.h"
#include "store/store.h"

enum { CHANGES_MAX_BYTES = 7500 };

static Told ours(ToldKind kind, int32_t day, const char *text)
{
    Told told = told_blank(kind, day);
    told.told_at = (int64_t)time(NULL);
    told.told_on = day;
    told.who = "Leat";
    told.text = text;
    return told;
}

Err export_tell(const char *dir, const Farm *farm, int32_t day,
                const char *plan)
{
    if (!store_is_there(dir)) {
        return ERR_NONE;
    }
    CLEANUP(arena_release) Arena arena = {0};
    Told tolds[2];
    int32_t count = 0;
    if (farm) {
        tolds[count++] =
            ours(TOLD_COUNTED, day, journal_standing_mark(farm, &arena));
    }
    if (plan) {
        tolds[count++] = ours(TOLD_PLAN_ACCEPTED, day, plan);
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_WRITE, &store));
    StoreAdded added[2];
    return store_add(&store, tolds, count, added);
}

Err export_tell_changes(const char *dir, const TableChange *changes, int count,
                        int64_t *out_numbers)
{
    Told tolds[TABLE_COUNT];
    StoreAdded added[TABLE_COUNT];
    char texts[TABLE_COUNT][CHANGES_MAX_BYTES + 1];
    for (int i = 0; i < count && i < TABLE_COUNT; i++) {
        size_t length =
            text_utf8_valid(changes[i].changes, strlen(changes[i].changes));
        length = length < CHANGES_MAX_BYTES ? length : CHANGES_MAX_BYTES;
        length = text_utf8_valid(changes[i].changes, length);
        memcpy(texts[i], changes[i].changes, length);
        texts[i][length] = '\0';
        tolds[i] = ours(TOLD_TABLE, changes[i].day, texts[i]);
        tolds[i].who = changes[i].who;
        tolds[i].product = FARM_TABLES[changes[i].table].name;
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_CREATE, &store));
    TRY(store_add(&store, tolds, count, added));
    for (int i = 0; i < count; i++) {
        out_numbers[i] = added[i].number;
    }
    return ERR_NONE;
}

/* What the tables told before, once a day they are of. */
static Err keep_before(const char *dir, const Farm *opening, Arena *arena,
                       const char **out)
{
    static const TableId STANDING[] = {TABLE_farm, TABLE_beds, TABLE_fish,
                                       TABLE_plants, TABLE_readings};
    char day[DATE_TEXT_SIZE];
    date_format(opening->farm[0].records_from, day);
    const char *folder = arena_text(arena, "%s/told-%s", dir, day);
    Err err = farm_folder_make(folder);
    if (err.kind == ERR_CONFLICT) {
        *out = NULL;
        return ERR_NONE;
    }
    TRY(err);
    *out = folder;
    return farm_folder_write_tables(folder, opening, STANDING,
                                    sizeof STANDING / sizeof *STANDING, arena);
}

/* The plan is no older than it was: its tables' marks follow the tables. */
static Err follow_marks(const char *dir, const Farm *opening, Arena *arena,
                        Farm *farm)
{
    Typical typical;
    if (farm->plan_count < 1) {
        return ERR_NONE;
    }
    TRY(typical_make(opening, arena, &typical));
    if (!plan_age_notice(opening, typical.book, dir, arena)) {
        Plan *plan = ARENA_NEW(arena, Plan);
        *plan = farm->plan[0];
        plan->tables = plan_age_marks(farm, arena);
        farm->plan = plan;
    }
    return ERR_NONE;
}

static void add_table(ExportAnswer *answer, TableId table)
{
    answer->tables[answer->table_count++] = table;
}

static void choose_tables(const Farm *farm, ExportAnswer *answer)
{
    add_table(answer, TABLE_farm);
    add_table(answer, TABLE_beds);
    add_table(answer, TABLE_fish);
    add_table(answer, TABLE_plants);
    add_table(answer, TABLE_readings);
    if (farm->plan_count > 0) {
        add_table(answer, TABLE_plan);
        add_table(answer, TABLE_plan_plants);
        add_table(answer, TABLE_plan_fish);
        add_table(answer, TABLE_plan_moves);
        add_table(answer, TABLE_plan_cleans);
    }
}

Err export_tables(const char *dir, int32_t today, Arena *arena,
                  ExportAnswer *out)
{
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    TRY(folder_lock_open(dir, &lock));
    FarmToday now;
    TRY(farm_today_read(dir, today, arena, &now));
    if (!now.state) {
        return err_make(ERR_NOT_FOUND,
                        "%.120s: nothing was told that changes what stands; "
                        "the tables are as they were",
                        dir);
    }
    JournalState followed = *now.state;
    lanes_follow(now.opening, arena, &followed);
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = followed.farm;
    farm->readings = now.farm->readings;
    farm->readings_count = now.farm->readings_count;
    TRY(follow_marks(dir, now.opening, arena, farm));
    ExportAnswer answer = {.day = now.day};
    choose_tables(farm, &answer);
    TRY(keep_before(dir, now.opening, arena, &answer.before));
    /* Told first: tables that bear another mark are not taken for these. */
    TRY(export_tell(dir, farm, now.day, NULL));
    TRY(farm_folder_write_tables(dir, farm, answer.tables, answer.table_count,
                                 arena));
    *out = answer;
    return ERR_NONE;
}
