/* A farm for questions that must be answered tonight. */
#include "desk/any_farm.h"

#include <string.h>

#include "base/text.h"
#include "desk/farm_today.h"
#include "desk/typical.h"

/* A reading whose row has a fault may be of another quantity than it seems: it
 * is left out, all of them where not every fault was kept. */
static void drop_readings(const FarmCheck *check, Arena *arena, Farm *farm)
{
    bool is_all_kept = check->faults.count == check->faults.kept_count;
    Reading *kept = ARENA_ARRAY(arena, Reading, farm->readings_count);
    int32_t count = 0;
    for (int32_t i = 0; i < farm->readings_count && is_all_kept; i++) {
        bool is_bad = false;
        for (int32_t f = 0; f < check->faults.kept_count; f++) {
            const FaultPlace *place = &check->faults.items[f].place;
            is_bad =
                is_bad ||
                (strcmp(place->file, "readings.csv") == 0 &&
                 (place->line == farm->readings[i].line || place->line <= 1));
        }
        if (!is_bad) {
            kept[count++] = farm->readings[i];
        }
    }
    farm->readings = kept;
    farm->readings_count = count;
}

/* What was told, where it can be read: tonight's answer does not wait for a
 * database to be mended. */
static const Farm *with_told(const char *dir, const Farm *farm, int32_t today,
                             Arena *arena, AnyFarm *any)
{
    FarmToday told;
    Err err = any->fault_count == 0
                  ? farm_today_sound(dir, farm, today, arena, &told)
                  : farm_today_of(dir, farm, today, arena, &told);
    if (err.kind != ERR_OK) {
        any->journal =
            arena_text(arena, "What was told is left out: %s.", err.text);
        return farm;
    }
    return told.farm;
}

Err any_farm_read(const char *dir, int32_t today, Arena *arena, AnyFarm *out)
{
    FarmCheck check;
    TRY(check_farm(dir, FAULTS_USUAL_LIMIT, arena, &check));
    AnyFarm any = {.farm = &check.read->farm,
                   .fault_count = check.faults.count};
    if (any.fault_count == 0) {
        any.farm = with_told(dir, any.farm, today, arena, &any);
        Typical typical;
        Err err = typical_make(any.farm, arena, &typical);
        if (err.kind == ERR_OK) {
            any.book = typical.book;
            any.climate = typical.climate;
            *out = any;
            return ERR_NONE;
        }
    }
    Book *book = ARENA_NEW(arena, Book);
    TRY(book_load(arena, book));
    any.book = book;
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = check.read->farm;
    drop_readings(&check, arena, farm);
    any.farm = with_told(dir, farm, today, arena, &any);
    any.notice = arena_text(arena,
                            "The farm's tables have %lld %s (leat check): "
                            "what cannot be read is assumed, at the widest.",
                            (long long)any.fault_count,
                            any.fault_count == 1 ? "fault" : "faults");
    *out = any;
    return ERR_NONE;
}

static const char *list_of(const AnyIds *ids, Arena *arena)
{
    enum { SHOWN = 8 };
    const char *text = "";
    for (int32_t i = 0; i < ids->count && i < SHOWN; i++) {
        text = arena_text(arena, "%s%s%.24s", text, i > 0 ? ", " : "",
                          ids->ids[i]);
    }
    return ids->count > SHOWN ? arena_text(arena, "%s ..", text) : text;
}

Err any_farm_find(const AnyIds *ids, const char *id, Arena *arena, int32_t *out)
{
    for (int32_t i = 0; i < ids->count; i++) {
        if (strcmp(ids->ids[i], id) == 0) {
            *out = i;
            return ERR_NONE;
        }
    }
    if (ids->count == 0) {
        return err_make(ERR_NOT_FOUND, "the farm's tables name no %s at all",
                        ids->what);
    }
    const char *nearest = text_nearest(id, ids->ids, (size_t)ids->count);
    return nearest
               ? err_make(ERR_NOT_FOUND,
                          "the farm has no %s \"%.40s\"; did you mean %.40s?",
                          ids->what, id, nearest)
               : err_make(ERR_NOT_FOUND,
                          "the farm has no %s \"%.40s\"; there are: %.150s",
                          ids->what, id, list_of(ids, arena));
}
