/* What may not be picked. */
#include "work/hold.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"

const uint64_t HOLD_KINDS = UINT64_C(1) << TOLD_SPRAYED |
                            UINT64_C(1) << TOLD_SEEN |
                            UINT64_C(1) << TOLD_CHECKED;

static bool is_there(const Farm *farm, int32_t bed, const char *place)
{
    int32_t tunnel = farm->beds[bed].tunnel;
    return strcmp(farm->beds[bed].id, place) == 0 ||
           (tunnel >= 0 && strcmp(farm->tunnels[tunnel].id, place) == 0);
}

static void take(const Told *told, int32_t day, Arena *arena, Hold *hold)
{
    bool is_splash =
        told->kind == TOLD_SEEN && strcmp(told->cause, "splash") == 0;
    bool is_release =
        told->kind == TOLD_CHECKED && strcmp(told->cause, "release") == 0;
    if (is_release) {
        *hold = (Hold){NULL, DATE_NEVER};
        return;
    }
    if (told->kind != TOLD_SPRAYED && !is_splash) {
        return;
    }
    bool has_days = told->kind == TOLD_SPRAYED && !isnan(told->value);
    int32_t until =
        has_days ? told->happened_on + (int32_t)ceil(told->value) : DATE_NEVER;
    if (until <= day || (hold->why && hold->until > until)) {
        return;
    }
    char text[DATE_TEXT_SIZE];
    date_format(told->happened_on, text);
    hold->until = until;
    hold->why =
        is_splash
            ? arena_say(arena, "tank water over the leaves on %s", text)
            : arena_say(arena, "sprayed on %s with %s", text, told->product);
}

Hold hold_of_bed(const Farm *farm, int32_t bed, const Tolds *facts, int32_t day,
                 Arena *arena)
{
    Hold hold = {NULL, DATE_NEVER};
    for (int32_t i = 0; i < facts->count; i++) {
        const Told *told = &facts->items[i];
        if (told->happened_on <= day && is_there(farm, bed, told->place)) {
            take(told, day, arena, &hold);
        }
    }
    return hold;
}

const char *hold_text(const Hold *hold, Arena *arena)
{
    char day[DATE_TEXT_SIZE] = "";
    if (hold->until != DATE_NEVER) {
        date_format(hold->until, day);
    }
    return arena_say(arena, "not to be picked until %s: %s",
                     *day ? day : say(arena, "somebody releases it"),
                     hold->why);
}
