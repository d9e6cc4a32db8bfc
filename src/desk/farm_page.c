/* The farm at a glance. */
#include "desk/farm_page.h"

#include <stdlib.h>

#include "desk/check_farm.h"
#include "desk/clock.h"

typedef struct Numbered {
    int32_t row;
    int32_t walk;
} Numbered;

static int by_walk(const void *a, const void *b)
{
    const Numbered *one = a;
    const Numbered *other = b;
    if (one->walk != other->walk) {
        return one->walk < other->walk ? -1 : 1;
    }
    return one->row < other->row ? -1 : one->row > other->row;
}

static int by_stop(const void *a, const void *b)
{
    const FarmStop *one = a;
    const FarmStop *other = b;
    if (one->walk != other->walk) {
        return one->walk < other->walk ? -1 : 1;
    }
    if (one->kind != other->kind) {
        return one->kind < other->kind ? -1 : 1;
    }
    return one->row < other->row ? -1 : one->row > other->row;
}

static void put_beds(const Farm *farm, Arena *arena, FarmPage *page)
{
    Numbered *beds = ARENA_ARRAY(arena, Numbered, farm->beds_count);
    int32_t count = 0;
    for (int32_t i = 0; i < farm->beds_count; i++) {
        const Bed *bed = &farm->beds[i];
        if (bed->from <= page->today && page->today <= bed->until) {
            beds[count++] = (Numbered){i, bed->walk};
        }
    }
    if (count > 0) {
        qsort(beds, (size_t)count, sizeof *beds, by_walk);
    }
    page->beds = ARENA_ARRAY(arena, int32_t, count);
    page->bed_count = count;
    for (int32_t i = 0; i < count; i++) {
        page->beds[i] = beds[i].row;
    }
}

/* Where a tunnel comes in the walk. */
static int32_t tunnel_walk(const FarmPage *page, int32_t tunnel)
{
    const Farm *farm = page->farm;
    if (farm->tunnels[tunnel].walk > 0) {
        return farm->tunnels[tunnel].walk;
    }
    for (int32_t i = 0; i < page->bed_count; i++) {
        if (farm->beds[page->beds[i]].tunnel == tunnel) {
            return farm->beds[page->beds[i]].walk;
        }
    }
    return INT32_MAX;
}

static void put_walk(const Farm *farm, Arena *arena, FarmPage *page)
{
    int32_t most = farm->tunnels_count + farm->tanks_count;
    page->walk = ARENA_ARRAY(arena, FarmStop, most);
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        page->walk[page->walk_count++] =
            (FarmStop){STOP_TUNNEL, i, tunnel_walk(page, i)};
    }
    for (int32_t i = 0; i < farm->tanks_count; i++) {
        page->walk[page->walk_count++] =
            (FarmStop){STOP_TANK, i, farm->tanks[i].walk};
    }
    if (page->walk_count > 0) {
        qsort(page->walk, (size_t)page->walk_count, sizeof *page->walk,
              by_stop);
    }
}

/* By the clock; the day its tables begin where that is still to come. */
static int32_t today_of(const Farm *farm)
{
    const FarmSite *row = farm->farm_count > 0 ? &farm->farm[0] : NULL;
    bool has_zone = row && row->timezone && *row->timezone;
    int32_t today = clock_today(has_zone ? row->timezone : "UTC");
    return row && row->records_from > today ? row->records_from : today;
}

Err farm_page_make(const char *dir, int32_t today, Arena *arena, FarmPage *out)
{
    FarmCheck check;
    TRY(check_farm(dir, 1, arena, &check));
    const Farm *farm = &check.read->farm;
    FarmPage page = {
        .farm = farm, .today = today, .fault_count = check.faults.count};
    if (today == DATE_ALWAYS) {
        page.today = today_of(farm);
    }
    put_beds(farm, arena, &page);
    put_walk(farm, arena, &page);
    *out = page;
    return ERR_NONE;
}
