/* leat beds DIR: what stands in the beds along the walk, and what is next. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/beds.h"

enum { COLUMNS = 79, ID_WIDTH = 8, WHAT_WIDTH = 26 };

static const char *short_day(int32_t day, Arena *arena)
{
    if (day == DATE_NEVER || day == DATE_ALWAYS) {
        return "-";
    }
    CivilDate civil = date_to_civil(day);
    return arena_text(arena, "%d %s", civil.day, date_month_name(civil.month));
}

static const char *long_day(int32_t day, Arena *arena)
{
    const char *text = short_day(day, arena);
    return *text == '-'
               ? text
               : arena_text(arena, "%s %d", text, date_to_civil(day).year);
}

static const char *way_name(const Farm *farm, const BedBatch *batch)
{
    const Way *way = &farm->ways[batch->way];
    return *way->name ? way->name : way->id;
}

/* "edge cucumber", "2/4 spinach": which part of the bed it fills. */
static const char *what_text(const Farm *farm, const Bed *bed,
                             const BedBatch *batch, Arena *arena)
{
    const char *name = way_name(farm, batch);
    if (batch->is_edge) {
        return arena_text(arena, "edge: %s", name);
    }
    return batch->sections == bed->sections
               ? name
               : arena_text(arena, "%d/%d %s", (int)batch->sections,
                            (int)bed->sections, name);
}

static const char *picks_text(const BedBatch *batch, Arena *arena)
{
    if (batch->pick_on == DATE_NEVER) {
        return "no pick";
    }
    return arena_text(arena, "%s-%s", short_day(batch->pick_on, arena),
                      short_day(batch->last_pick_on, arena));
}

static const char *job_text_of(const BedState *state, int32_t day, Arena *arena)
{
    const Job *job = state->job;
    if (!job) {
        return "";
    }
    const char *when = job->day == day ? "today" : short_day(job->day, arena);
    return arena_text(arena, "%s %s", when, job_kind_word(job->kind));
}

static void print_bed(const BedsAnswer *answer, const BedState *state,
                      FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    const Bed *bed = &farm->beds[state->bed];
    const char *job = job_text_of(state, answer->today.day, arena);
    for (int32_t i = 0; i < state->now.count; i++) {
        const BedBatch *batch = &state->now.items[i];
        fprintf(out, "  %-*s %-*.*s %4d d %-8s %-15s %s\n", ID_WIDTH,
                i == 0 ? bed->id : "", WHAT_WIDTH, WHAT_WIDTH,
                what_text(farm, bed, batch, arena), (int)batch->age_d,
                bed_stage_word(batch->stage), picks_text(batch, arena),
                i == 0 ? job : "");
    }
    if (state->now.count == 0) {
        const BedBatch *next =
            state->next.count > 0 ? &state->next.items[0] : NULL;
        const char *what =
            next ? arena_text(arena, "%s; %s %s",
                              state->is_cleaning ? "deep clean" : "free",
                              short_day(next->set_on, arena),
                              way_name(farm, next))
                 : (state->is_cleaning ? "deep clean" : "free");
        fprintf(out, "  %-*s %-*s %s\n", ID_WIDTH, bed->id, WHAT_WIDTH + 32,
                what, job);
    }
    if (state->hold) {
        fprintf(out, "  %-*s ! not to be picked until %s: %s\n", ID_WIDTH, "",
                state->hold_until == DATE_NEVER
                    ? "released"
                    : short_day(state->hold_until, arena),
                state->hold);
    }
}

static void print_all(const BedsAnswer *answer, FILE *out)
{
    const Farm *farm = answer->today.farm;
    int32_t tunnel = -2;
    for (int32_t i = 0; i < answer->beds.count; i++) {
        const BedState *state = &answer->beds.beds[i];
        const Bed *bed = &farm->beds[state->bed];
        if (bed->tunnel != tunnel) {
            tunnel = bed->tunnel;
            fprintf(out, "\n%s\n",
                    tunnel < 0 ? "In the open" : farm->tunnels[tunnel].id);
        }
        print_bed(answer, state, out);
    }
    if (answer->beds.trays.count > 0) {
        fputs("\nIn trays\n", out);
    }
    for (int32_t i = 0; i < answer->beds.trays.count; i++) {
        const BedBatch *batch = &answer->beds.trays.items[i];
        int32_t bed = answer->beds.tray_beds[i];
        fprintf(out, "  %-*s %-*s %4.0f plants, to be set %s\n", ID_WIDTH,
                bed < 0 ? "-" : farm->beds[bed].id, WHAT_WIDTH,
                way_name(farm, batch), batch->plants,
                short_day(batch->set_on, answer->today.arena));
    }
}

/* ---- one bed -------------------------------------------------------------
 */

static void print_batches(const BedsAnswer *answer, const char *head,
                          const Bed *bed, const BedBatches *batches, FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    for (int32_t i = 0; i < batches->count; i++) {
        const BedBatch *batch = &batches->items[i];
        const char *first =
            batch->pick_on == DATE_NEVER
                ? "no pick"
                : arena_text(arena, "first pick %s (%s to %s), last %s",
                             short_day(batch->pick_on, arena),
                             short_day(batch->pick_early, arena),
                             short_day(batch->pick_late, arena),
                             short_day(batch->last_pick_on, arena));
        const char *text = arena_text(
            arena, "%s, %.0f plants, %s; set %s, %s, clear %s%s%s",
            what_text(farm, bed, batch, arena), batch->plants,
            bed_stage_word(batch->stage), short_day(batch->set_on, arena),
            first, short_day(batch->clear_on, arena),
            *batch->trouble ? "; " : "", batch->trouble);
        fprintf(out, "%-8s", i == 0 ? head : "");
        wrap_print(text, &(Wrap){COLUMNS - 8, 0, 8}, out);
    }
}

static void print_history(const BedState *state, FILE *out)
{
    for (int32_t i = 0; i < state->history_count; i++) {
        const Told *told = state->history[i];
        char day[DATE_TEXT_SIZE];
        date_format(told->happened_on, day);
        fprintf(out, "%-8s%s %s%s%s%s%s\n", i == 0 ? "Told" : "", day,
                told_kind_word(told->kind), *told->way ? " " : "", told->way,
                *told->text ? ": " : "", told->text);
    }
}

static void print_one(const BedsAnswer *answer, const BedState *state,
                      FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    const Bed *bed = &farm->beds[state->bed];
    const Zone *zone = bed->zone < 0 ? NULL : &farm->zones[bed->zone];
    fprintf(out, "Bed %s, plate %d: %s%s%s%s\n", bed->id, (int)state->plate,
            bed->tunnel < 0 ? "in the open" : farm->tunnels[bed->tunnel].id,
            *bed->side ? " " : "", bed->side,
            zone ? arena_text(arena, "; zone %s, %s", zone->id,
                              farm->pumps[zone->pump].id)
                 : "");
    if (state->hold) {
        fprintf(out, "! Not to be picked until %s: %s\n",
                state->hold_until == DATE_NEVER
                    ? "released"
                    : short_day(state->hold_until, arena),
                state->hold);
    }
    print_batches(answer, "Now", bed, &state->now, out);
    if (state->now.count == 0) {
        fprintf(out, "%-8s%s\n", "Now",
                state->is_cleaning ? "deep clean" : "free");
    }
    if (state->job) {
        fprintf(out, "%-8s%s: %s\n", "Job",
                state->job->day == answer->today.day
                    ? "today"
                    : short_day(state->job->day, arena),
                state->job->what);
    }
    print_batches(answer, "Next", bed, &state->next, out);
    print_batches(answer, "Before", bed, &state->past, out);
    fprintf(out, "%-8s%s, due %s\n", "Cleaned",
            long_day(state->cleaned_on, arena),
            long_day(state->clean_due, arena));
    print_history(state, out);
}

Err cmd_beds(const Arguments *arguments, FILE *out)
{
    BedsQuestion question = {.dir = arguments_word(arguments, 0),
                             .today = DATE_ALWAYS,
                             .bed = arguments_fact(arguments, "bed")};
    TRY(arguments_day(arguments, "today", &question.today));
    BedsAnswer answer;
    TRY(beds_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(beds_answer_json(&answer, arguments->arena), out);
        return ERR_NONE;
    }
    if (answer.only >= 0) {
        print_one(&answer, &answer.beds.beds[answer.only], out);
        return ERR_NONE;
    }
    fprintf(out, "Beds, %s\n", answer.today.title);
    for (int i = 0; i < answer.today.notice_count; i++) {
        wrap_print(answer.today.notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    print_all(&answer, out);
    return ERR_NONE;
}
