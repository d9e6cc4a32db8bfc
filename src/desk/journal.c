/* Read a farm's journal. */
#include "desk/journal.h"

#include "desk/check_farm.h"
#include "desk/farm_today.h"

Err journal_page(const char *dir, const StoreFilter *filter, Arena *arena,
                 JournalPage *out)
{
    JournalPage page = {0};
    if (!store_is_there(dir)) {
        FarmCheck check; /* a folder that is none is told */
        TRY(check_farm(dir, 1, arena, &check));
        *out = page;
        return ERR_NONE;
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_READ, &store));
    int64_t count = 0;
    TRY(store_newest(&store, &page.newest, &count));
    StoreFilter one_more = *filter;
    one_more.limit = filter->limit > 0 ? filter->limit + 1 : 0;
    TRY(store_read(&store, &one_more, arena, &page.tolds));
    if (filter->limit > 0 && page.tolds.count > filter->limit) {
        page.tolds.count = filter->limit;
        page.has_more = true;
    }
    *out = page;
    return ERR_NONE;
}

Err journal_look_through(const char *dir)
{
    if (!store_is_there(dir)) {
        return ERR_NONE;
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_READ, &store));
    return store_look_through(&store);
}

void journal_check(const char *dir, const Farm *farm, Arena *arena,
                   Faults *faults)
{
    FaultPlace place = {.file = STORE_FILE};
    if (!store_is_there(dir)) {
        return;
    }
    Err err = journal_look_through(dir);
    FarmToday today = {0};
    if (err.kind == ERR_OK && faults->count == 0) {
        err = farm_today_sound(dir, farm, DATE_ALWAYS, arena, &today);
    }
    if (err.kind != ERR_OK) {
        faults_add(faults, place, "", "a database that can be read; %s",
                   err.text);
        return;
    }
    int32_t doubts = today.state ? today.state->doubt_count : 0;
    for (int32_t i = 0; i < doubts; i++) {
        const JournalDoubt *doubt = &today.state->doubts[i];
        faults_notice(faults, place, "", "entry %lld: %s",
                      (long long)doubt->number, doubt->text);
    }
    if (today.state && today.state->unsettled_count > 0) {
        faults_notice(faults, place, "",
                      "%d planned steps of earlier weeks were not told of "
                      "(leat journal --settle)",
                      (int)today.state->unsettled_count);
    }
}

Err journal_settle(const char *dir, int32_t today, Arena *arena,
                   JournalSettle *out)
{
    FarmToday farm;
    TRY(farm_today_read(dir, today, arena, &farm));
    JournalSettle settle = {.today = farm.day};
    if (farm.state) {
        settle.unsettled = farm.state->unsettled;
        settle.unsettled_count = farm.state->unsettled_count;
        settle.doubts = farm.state->doubts;
        settle.doubt_count = farm.state->doubt_count;
        settle.fish = farm.state->fish;
    }
    *out = settle;
    return ERR_NONE;
}
