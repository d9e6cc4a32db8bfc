/* Foresee a farm's weeks. */
#include "desk/foresee.h"

#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "desk/farm_today.h"
#include "desk/plan_age.h"
#include "desk/typical.h"
#include "desk/week_choice.h"
#include "farm/seedlings.h"

enum { YEAR_WEEKS = 52, WEEK_D = 7 };

static void tell(ForeseeAnswer *answer, const char *text)
{
    if (text && answer->notice_count < FORESEE_NOTICES_MAX) {
        answer->notices[answer->notice_count++] = text;
    }
}

/* Seedlings without a bed have no place until a plan finds one. */
static void tell_trays(const Farm *farm, Arena *arena, ForeseeAnswer *answer)
{
    int count = 0;
    for (int i = 0; i < farm->plants_count; i++) {
        count += seedlings_are(&farm->plants[i]) && farm->plants[i].bed < 0;
    }
    if (count > 0) {
        tell(answer, arena_text(arena,
                                "%d %s of seedlings in trays %s no bed: a plan "
                                "finds it.",
                                count, count == 1 ? "batch" : "batches",
                                count == 1 ? "has" : "have"));
    }
}

static void tell_what_it_stands_on(const Farm *farm, int32_t week, int weeks,
                                   Arena *arena, ForeseeAnswer *answer)
{
    if (farm->plan_count < 1) {
        tell(answer, "No plan is accepted: what stands is followed to "
                     "its end; nothing new is set, stocked or sold.");
        tell_trays(farm, arena, answer);
        return;
    }
    tell(answer, week_untold(farm, week, arena));
    const Plan *plan = &farm->plan[0];
    int32_t until = week_of(plan->from) + WEEK_D * plan->weeks;
    if (week + WEEK_D * weeks > until) {
        char last[DATE_TEXT_SIZE];
        date_format(until - 1, last);
        tell(answer, arena_text(arena,
                                "The accepted plan ends on %s: after it "
                                "nothing new is set, stocked or sold.",
                                last));
    }
}

/* ---- Ids to rows ----------------------------------------------------------
 */

typedef struct Names {
    const char *what;
    const char **ids;
    int count;
} Names;

static Err find(const Names *names, const char *id, int *out)
{
    *out = FORESIGHT_ALL;
    if (!id) {
        return ERR_NONE;
    }
    for (int i = 0; i < names->count; i++) {
        if (strcmp(names->ids[i], id) == 0) {
            *out = i;
            return ERR_NONE;
        }
    }
    const char *nearest = text_nearest(id, names->ids, (size_t)names->count);
    return nearest ? err_make(ERR_NOT_FOUND,
                              "the farm has no %s \"%.60s\"; did you mean %s?",
                              names->what, id, nearest)
                   : err_make(ERR_NOT_FOUND, "the farm has no %s \"%.60s\"",
                              names->what, id);
}

#define NAMES_OF(farm, arena, what, table, out)                                \
    do {                                                                       \
        *(out) = (Names){                                                      \
            what, ARENA_ARRAY(arena, const char *, (farm)->table##_count),     \
            (farm)->table##_count};                                            \
        for (int row = 0; row < (farm)->table##_count; row++) {                \
            (out)->ids[row] = (farm)->table[row].id;                           \
        }                                                                      \
    } while (0)

static Err find_rows(const ForeseeQuestion *question, const Farm *farm,
                     Arena *arena, ForeseeAnswer *answer)
{
    Names names;
    NAMES_OF(farm, arena, "way", ways, &names);
    TRY(find(&names, question->way, &answer->way));
    NAMES_OF(farm, arena, "tank", tanks, &names);
    TRY(find(&names, question->tank, &answer->tank));
    NAMES_OF(farm, arena, "loop", loops, &names);
    return find(&names, question->loop, &answer->loop);
}

Err foresee_answer(const ForeseeQuestion *question, Arena *arena,
                   ForeseeAnswer *out)
{
    ForeseeAnswer answer = {0};
    FarmToday today;
    TRY(farm_today_read(question->dir, question->day, arena, &today));
    const Farm *farm = today.farm;
    TRY(find_rows(question, farm, arena, &answer));
    Typical typical;
    TRY(typical_make(farm, arena, &typical));
    tell(&answer,
         plan_age_notice(today.opening, typical.book, question->dir, arena));
    for (int i = 0; i < today.notice_count; i++) {
        tell(&answer, today.notices[i]);
    }
    WeekChoice choice =
        week_choose(farm, question->day, week_of(farm->farm->records_from),
                    YEAR_WEEKS, "the year after the farm's tables", arena);
    tell(&answer, choice.notice);
    ForesightAsk ask = {
        .farm = farm,
        .book = typical.book,
        .climate = typical.climate,
        .first_week = choice.week,
        .weeks = question->weeks,
        .sale_g = question->sale_g,
        .way = answer.way,
    };
    TRY(foresight_make(&ask, arena, &answer.foresight));
    tell_what_it_stands_on(farm, ask.first_week, ask.weeks, arena, &answer);
    *out = answer;
    return ERR_NONE;
}
