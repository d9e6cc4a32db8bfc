/* Tell entries to a farm's journal. */
#include "desk/note.h"

#include <time.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/farm_today.h"

bool note_is_ours(int32_t kind)
{
    return kind == TOLD_TABLE || kind == TOLD_COUNTED ||
           kind == TOLD_PLAN_ACCEPTED;
}

static Err check_one(const Farm *farm, const Told *told, int32_t today)
{
    if (note_is_ours(told->kind)) {
        return err_make(ERR_INPUT, "kind=%s: Leat writes these itself",
                        told_kind_word(told->kind));
    }
    TRY(told_check(farm, told));
    if (told->happened_on > today) {
        char day[DATE_TEXT_SIZE];
        char now[DATE_TEXT_SIZE];
        date_format(told->happened_on, day);
        date_format(today, now);
        return err_make(ERR_INPUT, "happened_on=%s: lies ahead; today is %s",
                        day, now);
    }
    return ERR_NONE;
}

static Err complete(const NoteQuestion *question, const Farm *farm,
                    const NoteAnswer *answer, Told *tolds)
{
    int64_t now = (int64_t)time(NULL);
    for (int32_t i = 0; i < question->count; i++) {
        Told *told = &tolds[i];
        *told = question->tolds[i];
        told->told_at = now;
        told->told_on = answer->today;
        if (told->happened_on == DATE_ALWAYS) {
            told->happened_on = answer->today;
        }
        told->who = *told->who || !question->who ? told->who : question->who;
        told->device = *told->device || !question->device ? told->device
                                                          : question->device;
        Err err = check_one(farm, told, answer->today);
        if (err.kind != ERR_OK) {
            return question->count > 1 ? err_make(err.kind, "entry %d: %s",
                                                  (int)i + 1, err.text)
                                       : err;
        }
    }
    return ERR_NONE;
}

/* Doubts that these entries raise. */
static Err find_doubts(const NoteQuestion *question, Arena *arena,
                       NoteAnswer *answer)
{
    FarmToday today;
    TRY(farm_today_read(question->dir, answer->today, arena, &today));
    if (!today.state) {
        return ERR_NONE;
    }
    JournalDoubt *doubts =
        ARENA_ARRAY(arena, JournalDoubt, today.state->doubt_count);
    for (int32_t i = 0; i < today.state->doubt_count; i++) {
        const JournalDoubt *doubt = &today.state->doubts[i];
        for (int32_t k = 0; k < answer->tolds.count; k++) {
            if (doubt->number == answer->added[k].number) {
                doubts[answer->doubt_count++] = *doubt;
                break;
            }
        }
    }
    answer->doubts = doubts;
    return ERR_NONE;
}

Err note_add(const NoteQuestion *question, Arena *arena, NoteAnswer *out)
{
    FarmCheck check;
    TRY(check_farm(question->dir, FAULTS_USUAL_LIMIT, arena, &check));
    const Farm *farm = &check.read->farm;
    NoteAnswer answer = {.today = farm_today_day(farm, question->today)};
    if (answer.today == DATE_ALWAYS) {
        return err_make(ERR_INPUT,
                        "%.80s: farm.csv cannot be read (leat "
                        "check)",
                        question->dir);
    }
    Told *tolds = ARENA_ARRAY(arena, Told, question->count);
    TRY(complete(question, farm, &answer, tolds));
    answer.tolds = (Tolds){tolds, question->count};
    StoreAdded *added = ARENA_ARRAY(arena, StoreAdded, question->count);
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(question->dir, STORE_CREATE, &store));
    TRY(store_add(&store, tolds, question->count, added));
    for (int32_t i = 0; i < question->count; i++) {
        tolds[i].number = added[i].number;
    }
    answer.added = added;
    if (check.faults.count == 0) {
        TRY(find_doubts(question, arena, &answer));
    }
    *out = answer;
    return ERR_NONE;
}
