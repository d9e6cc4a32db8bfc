/* Columns of seedlings that stand in trays and may go to any bed: in the weeks
 * in which they are big enough and can still wait. */
#include "plan/build_columns.h"

#include "base/date.h"
#include "farm/seedlings.h"

enum { WEEK_D = 7, NEAREST_D = 3 };

/* Seedlings for any bed that are not too old by the book: nobody waits for
 * those left over from long ago. */
static bool is_free(const Build *build, const Plant *plant)
{
    if (!seedlings_are(plant) || plant->bed >= 0 || plant->plants < 1) {
        return false;
    }
    const BookWay *book =
        book_way(build->book, build->farm->ways[plant->way].book);
    double most_d =
        book->nursery_d.high + seedlings_wait_d(build->farm, plant->way, book);
    return build->from - plant->sown_on <= most_d;
}

void build_seedlings(Build *build)
{
    const Farm *farm = build->farm;
    PlanSeedlings *seedlings =
        ARENA_ARRAY(build->arena, PlanSeedlings, farm->plants_count);
    int *rows = ARENA_ARRAY(build->arena, int, farm->plants_count);
    int count = 0;
    for (int i = 0; i < farm->plants_count; i++) {
        const Plant *plant = &farm->plants[i];
        if (is_free(build, plant)) {
            rows[count] = i;
            seedlings[count++] = (PlanSeedlings){
                .id = plant->id, .way = plant->way, .plants = plant->plants};
        }
    }
    build->index->trays_rows = rows;
    build->problem->seedlings = seedlings;
    build->problem->seedlings_count = count;
}

/* Mondays in which the seedlings may be set: the nearest to the day on which
 * they are big enough, and those that come while they can wait. What has waited
 * too long is set in the first week or not at all. */
typedef struct Window {
    int32_t from;
    int32_t until;
} Window;

static Window window_of(const Build *build, const Growing *growing,
                        const Plant *plant)
{
    if (plant->set_on != DATE_NEVER) {
        return (Window){week_of(plant->set_on), week_of(plant->set_on)};
    }
    double wait_d = seedlings_wait_d(build->farm, growing->way, growing->book);
    int32_t ready = plant_year_ready_day(&growing->year, plant->sown_on);
    Window window = {week_of(ready + NEAREST_D), ready + (int32_t)wait_d};
    if (window.from < build->from) {
        window.from = build->from;
    }
    if (window.until < window.from) {
        window.until = window.from;
    }
    return window;
}

void build_from_trays(Columns *columns, const Growing *growing)
{
    Build *build = columns->build;
    for (int i = 0; i < build->problem->seedlings_count; i++) {
        const Plant *plant = &build->farm->plants[build->index->trays_rows[i]];
        if (plant->way != growing->way) {
            continue;
        }
        Growing standing = *growing;
        standing.trays = plant->trays / plant->plants * growing->plants;
        Window window = window_of(build, growing, plant);
        for (int32_t day = window.from; day <= window.until; day += WEEK_D) {
            PlantBatch last;
            build_setting(columns, &standing,
                          (Setting){.day = day,
                                    .trays_of = i + 1,
                                    .counted_on = plant->counted_on},
                          &last);
        }
    }
}

void build_tell_unused(Columns *columns)
{
    Build *build = columns->build;
    PlanIndex *index = build->index;
    for (int i = 0; i < build->problem->seedlings_count; i++) {
        bool is_used = false;
        for (int r = 0; r < columns->count; r++) {
            is_used |= columns->options[r].trays_of == i + 1;
        }
        const Plant *plant = &build->farm->plants[index->trays_rows[i]];
        if (!is_used) {
            index->unused[index->unused_count++] =
                (PlanUnused){plant->id, plant->way, plant->plants,
                             "no bed of this farm brings them on now"};
        }
    }
}
