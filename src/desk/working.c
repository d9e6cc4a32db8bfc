/* How a shown figure was made. */
#include "desk/working.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "desk/beds.h"
#include "desk/fish.h"
#include "desk/orders.h"
#include "desk/vent.h"
#include "desk/water.h"
#include "json/working.h"

/* The pages that show figures. */
typedef Err MakePage(const WorkingQuestion *question, Arena *arena,
                     WorkingAnswer *answer);

static void take_day(const Today *today, WorkingAnswer *answer)
{
    answer->day = today->day;
    answer->title = today->title;
}

static Err make_fish(const WorkingQuestion *question, Arena *arena,
                     WorkingAnswer *answer)
{
    FishQuestion asked = {.dir = question->dir,
                          .today = question->today,
                          .sale_g = NAN,
                          .cut_g = NAN,
                          .workings = &answer->workings};
    FishAnswer page;
    TRY(fish_answer(&asked, arena, &page));
    take_day(&page.today, answer);
    return ERR_NONE;
}

static Err make_beds(const WorkingQuestion *question, Arena *arena,
                     WorkingAnswer *answer)
{
    BedsQuestion asked = {.dir = question->dir,
                          .today = question->today,
                          .workings = &answer->workings};
    BedsAnswer page;
    TRY(beds_answer(&asked, arena, &page));
    take_day(&page.today, answer);
    return ERR_NONE;
}

/* As many weeks as the page usually shows, all where it is not among them. */
static Err make_orders(const WorkingQuestion *question, Arena *arena,
                       WorkingAnswer *answer)
{
    bool is_one = question->key.id != NULL;
    OrdersQuestion asked = {.dir = question->dir,
                            .today = question->today,
                            .weeks =
                                is_one ? ORDERS_WEEKS_USUAL : ORDERS_WEEKS_MOST,
                            .have = NAN,
                            .workings = &answer->workings};
    OrdersAnswer page;
    TRY(orders_answer(&asked, arena, &page));
    if (is_one && answer->workings.count == 0) {
        asked.weeks = ORDERS_WEEKS_MOST;
        TRY(orders_answer(&asked, arena, &page));
    }
    take_day(&page.today, answer);
    return ERR_NONE;
}

static Err make_water(const WorkingQuestion *question, Arena *arena,
                      WorkingAnswer *answer)
{
    WaterQuestion asked = {.dir = question->dir,
                           .today = question->today,
                           .workings = &answer->workings};
    WaterAnswer page;
    TRY(water_answer(&asked, arena, &page));
    take_day(&page.today, answer);
    return ERR_NONE;
}

static Err make_vent(const WorkingQuestion *question, Arena *arena,
                     WorkingAnswer *answer)
{
    VentQuestion asked = {.dir = question->dir,
                          .day = question->today,
                          .workings = &answer->workings};
    VentAnswer page;
    TRY(vent_answer(&asked, arena, &page));
    answer->day = page.day.day;
    answer->title = "";
    return ERR_NONE;
}

/* What figures are of, and the page that shows them. */
static const struct {
    const char *of;
    MakePage *make;
} PAGES[] = {
    {"farm", make_fish},    {"tank", make_fish},       {"in-tank", make_fish},
    {"fish", make_fish},    {"bed", make_beds},        {"batch", make_beds},
    {"order", make_orders}, {"shortage", make_orders}, {"offer", make_orders},
    {"water", make_water},  {"tunnel", make_vent},     {"air", make_vent},
};
enum { PAGE_COUNT = sizeof PAGES / sizeof *PAGES, LIST_BYTES = 200 };

static Err find_page(const char *of, MakePage **out)
{
    const char *words[PAGE_COUNT];
    for (size_t i = 0; i < PAGE_COUNT; i++) {
        words[i] = PAGES[i].of;
        if (of && strcmp(of, words[i]) == 0) {
            *out = PAGES[i].make;
            return ERR_NONE;
        }
    }
    const char *nearest = of ? text_nearest(of, words, PAGE_COUNT) : NULL;
    char all[LIST_BYTES] = "";
    for (size_t i = 0, at = 0; i < PAGE_COUNT; i++) {
        int length = snprintf(all + at, sizeof all - at, "%s%s", i ? ", " : "",
                              words[i]);
        at += length > 0 ? (size_t)length : 0;
    }
    return err_make(ERR_USAGE, "of=%.40s: figures are of %s%s%s", of ? of : "",
                    all, nearest ? "; did you mean " : "",
                    nearest ? nearest : "");
}

/* Why nothing was found: the nearest id, or the nearest figure of it. */
static Err not_found(const WorkingQuestion *question, const Workings *all,
                     Arena *arena)
{
    const WorkingKey *key = &question->key;
    const char **ids = ARENA_ARRAY(arena, const char *, all->count + 1);
    const char **figures = ARENA_ARRAY(arena, const char *, all->count + 1);
    size_t id_count = 0;
    size_t figure_count = 0;
    for (int32_t i = 0; i < all->count; i++) {
        const WorkingKey *made = &all->items[i]->key;
        if (strcmp(made->of, key->of) != 0) {
            continue;
        }
        ids[id_count++] = made->id;
        if (key->id && strcmp(made->id, key->id) == 0) {
            figures[figure_count++] = made->figure;
        }
    }
    bool is_known = figure_count > 0;
    const char *asked = is_known ? key->figure : key->id;
    const char *nearest = asked
                              ? text_nearest(asked, is_known ? figures : ids,
                                             is_known ? figure_count : id_count)
                              : NULL;
    return err_make(ERR_NOT_FOUND, "%s: no figure%s %.60s%s%s", key->of,
                    is_known ? "" : " of", asked ? asked : "",
                    nearest ? "; did you mean " : "", nearest ? nearest : "");
}

Err working_answer(const WorkingQuestion *question, Arena *arena,
                   WorkingAnswer *out)
{
    MakePage *make = NULL;
    TRY(find_page(question->key.of, &make));
    WorkingAnswer answer = {
        .workings = {.arena = arena, .only = question->key}};
    TRY(make(question, arena, &answer));
    if (answer.workings.count == 0) {
        Workings all = {.arena = arena, .only = {.of = question->key.of}};
        WorkingAnswer again = {.workings = all};
        TRY(make(question, arena, &again));
        return not_found(question, &again.workings, arena);
    }
    if (question->key.id && question->key.figure) {
        answer.only = answer.workings.items[answer.workings.count - 1];
    }
    *out = answer;
    return ERR_NONE;
}

const char *working_answer_json(const WorkingAnswer *answer, Arena *arena)
{
    WorkingJson page = {.day = answer->day,
                        .title = answer->title,
                        .all = &answer->workings,
                        .only = answer->only,
                        .is_full = answer->is_full};
    return working_to_json(&page, arena);
}
