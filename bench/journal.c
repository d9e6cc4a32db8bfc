/* Times a journal of ten busy years: what stands today, any page, its size.
 *
 * usage: bench_journal DIR [ENTRIES]
 *
 * DIR is a copy of a farm's folder without leat.db; it is filled with invented
 * entries (500,000) of 3,650 days up to today, in the proportions of a farm
 * with a walk of twelve stops, forty pickings and thirty readings a day. Prints
 * each time beside the bar that is asked for (state 100 ms, a page 50 ms, 300
 * MB); exit 1 where one is missed. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/date.h"
#include "base/rng.h"
#include "desk/check_farm.h"
#include "desk/farm_today.h"
#include "desk/journal.h"

enum { YEARS_D = 3650, A_TIME = 500, RUNS = 7 };

static double now_ms(void)
{
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec * 1e3 + (double)at.tv_nsec / 1e6;
}

static void stop_on(Err err)
{
    if (err.kind != ERR_OK) {
        fprintf(stderr, "bench_journal: %s\n", err.text);
        exit(1);
    }
}

/* ---- Ten invented years ---------------------------------------------------
 */

typedef struct Years {
    const Farm *farm;
    StoreDb store;
    Rng rng;
    Told batch[A_TIME];
    StoreAdded added[A_TIME];
    char texts[A_TIME][5][48];
    int count;
    int64_t total;
    int32_t *standing; /* by tank */
    int set_at;        /* bed to be cleared and set next */
} Years;

static void flush(Years *years)
{
    if (years->count > 0) {
        stop_on(
            store_add(&years->store, years->batch, years->count, years->added));
    }
    years->total += years->count;
    years->count = 0;
}

static Told *tell(Years *years, ToldKind kind, int32_t day)
{
    static const char *const WHO[] = {"Ana", "Bo", "Chidi", "Dalia"};
    if (years->count == A_TIME) {
        flush(years);
    }
    char(*texts)[48] = years->texts[years->count];
    Told *told = &years->batch[years->count++];
    *told = told_blank(kind, day);
    snprintf(texts[0], sizeof texts[0], "phone-%08llx%08llx",
             (unsigned long long)rng_u64(&years->rng) >> 32,
             (unsigned long long)rng_u64(&years->rng) >> 32);
    told->uid = texts[0];
    told->happened_at = 360 + (int64_t)rng_below(&years->rng, 700);
    told->told_on = day;
    told->told_at = (int64_t)day * 86400 + told->happened_at * 60;
    told->who = WHO[rng_below(&years->rng, 4)];
    told->device = "phone";
    return told;
}

static const char *bed(Years *years)
{
    uint32_t beds = (uint32_t)years->farm->beds_count;
    return years->farm->beds[rng_below(&years->rng, beds)].id;
}

static const char *way(Years *years)
{
    uint32_t ways = (uint32_t)years->farm->ways_count;
    return years->farm->ways[rng_below(&years->rng, ways)].id;
}

static void tell_fish(Years *years, int32_t day)
{
    const Farm *farm = years->farm;
    for (int32_t t = 0; t < farm->tanks_count; t++) {
        if (farm->tanks[t].use != TANK_GROW) {
            continue;
        }
        Told *fed = tell(years, TOLD_FED, day);
        fed->place = farm->tanks[t].id;
        fed->grams = 900.0 + rng_below(&years->rng, 700);
        if (rng_below(&years->rng, 4) == 0 && years->standing[t] > 30) {
            Told *died = tell(years, TOLD_DIED, day);
            died->place = farm->tanks[t].id;
            died->count = 1;
            years->standing[t]--;
        }
        if (rng_below(&years->rng, 3) == 0 && years->standing[t] > 60) {
            Told *sold = tell(years, TOLD_SOLD, day);
            sold->place = farm->tanks[t].id;
            sold->count = 1 + (int64_t)rng_below(&years->rng, 8);
            years->standing[t] -= (int32_t)sold->count;
        }
        if (years->standing[t] <= 60) {
            Told *stocked = tell(years, TOLD_STOCKED, day);
            stocked->place = farm->tanks[t].id;
            stocked->count = 400;
            stocked->mean_g = 20.0;
            years->standing[t] += 400;
        }
        if (day % 28 == t) {
            Told *sampled = tell(years, TOLD_SAMPLED, day);
            sampled->place = farm->tanks[t].id;
            sampled->count = 30;
            sampled->mean_g = 250.0 + rng_below(&years->rng, 200);
        }
    }
}

static void tell_beds(Years *years, int32_t day)
{
    const char *place =
        years->farm->beds[years->set_at++ % years->farm->beds_count].id;
    tell(years, TOLD_CLEARED, day)->place = place;
    Told *set = tell(years, TOLD_SET, day);
    char(*set_texts)[48] = years->texts[years->count - 1];
    snprintf(set_texts[1], sizeof set_texts[1], "trays-%d", (int)day - 21);
    set->place = place;
    set->way = way(years);
    set->batch = set_texts[1];
    Told *sown = tell(years, TOLD_SOWN, day);
    char(*sown_texts)[48] = years->texts[years->count - 1];
    snprintf(sown_texts[1], sizeof sown_texts[1], "trays-%d", (int)day);
    sown->batch = sown_texts[1];
    sown->way = way(years);
    sown->quantity = 4.0;
    sown->unit = "tray";
    if (day % 4 == 0) {
        tell(years, TOLD_CLEANED, day)->place = place;
    }
    for (int i = 0; i < 40; i++) {
        Told *picked = tell(years, TOLD_PICKED, day);
        char(*texts)[48] = years->texts[years->count - 1];
        picked->place = bed(years);
        snprintf(texts[1], sizeof texts[1], "lot-%s-%d", picked->place,
                 (int)day);
        picked->lot = texts[1];
        picked->way = way(years);
        picked->grams = 200.0 + rng_below(&years->rng, 4000);
    }
}

static void tell_round(Years *years, int32_t day)
{
    static const char *const KEYS[] = {"temp_degc", "oxygen_mg_l", "ph"};
    static const double USUAL[] = {24.0, 6.0, 6.8};
    const Farm *farm = years->farm;
    for (int i = 0; i < 30; i++) {
        Told *read = tell(years, TOLD_READ, day);
        read->place = farm->tanks[i % farm->tanks_count].id;
        read->quantity_key = KEYS[i % 3];
        read->value = USUAL[i % 3] + rng_f64(&years->rng);
    }
    for (int i = 0; i < 12; i++) {
        Told *usual = tell(years, TOLD_AS_USUAL, day);
        char(*texts)[48] = years->texts[years->count - 1];
        snprintf(texts[1], sizeof texts[1], "stop-%d", i);
        usual->stop = texts[1];
    }
    for (int i = 0; i < 12; i++) {
        Told *worked = tell(years, TOLD_WORKED, day);
        worked->minutes = 15.0 + rng_below(&years->rng, 60);
        worked->place = bed(years);
    }
}

static void tell_rest(Years *years, int32_t day, int wanted)
{
    static const ToldKind KINDS[] = {TOLD_VENTED, TOLD_SEEN, TOLD_PRUNED,
                                     TOLD_DELIVERED};
    const Farm *farm = years->farm;
    for (int i = 0; years->count + i < 0 || i < wanted; i++) {
        Told *told = tell(years, KINDS[i % 4], day);
        if (told->kind == TOLD_VENTED) {
            told->place = farm->tunnels[i % farm->tunnels_count].id;
            told->value = 0.5;
        } else if (told->kind == TOLD_SEEN) {
            told->text = "Aphids on the north row, a few; look again Friday.";
            told->place = bed(years);
        } else if (told->kind == TOLD_PRUNED) {
            told->place = bed(years);
        } else {
            told->buyer = farm->buyers[i % farm->buyers_count].id;
            told->grams = 5000.0;
        }
    }
}

static void fill(const char *dir, const Farm *farm, int64_t entries,
                 int32_t until, Arena *arena)
{
    Years *years = ARENA_NEW(arena, Years);
    years->farm = farm;
    years->rng = rng_make(7, 1);
    years->standing = ARENA_ARRAY(arena, int32_t, farm->tanks_count);
    for (int32_t i = 0; i < farm->fish_count; i++) {
        years->standing[farm->fish[i].tank] += farm->fish[i].count;
    }
    stop_on(store_open(dir, STORE_CREATE, &years->store));
    int64_t made = 0;
    for (int32_t d = 0; d < YEARS_D; d++) {
        int32_t day = until - YEARS_D + 1 + d;
        int64_t wanted = entries * (d + 1) / YEARS_D;
        tell_round(years, day);
        tell_fish(years, day);
        tell_beds(years, day);
        made = years->total + years->count;
        tell_rest(years, day, (int)(wanted > made ? wanted - made : 0));
    }
    flush(years);
    store_close(&years->store);
}

/* ---- Times ----------------------------------------------------------------
 */

static bool is_over;

static void judge(const char *what, double value, double bar, const char *unit)
{
    bool is_bad = value > bar;
    is_over = is_over || is_bad;
    printf("%-44s %8.1f %s of %.0f%s\n", what, value, unit, bar,
           is_bad ? "  over" : "");
}

static int by_size(const void *one, const void *other)
{
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static double time_state(const char *dir, int32_t day)
{
    CLEANUP(arena_release) Arena arena = {0};
    FarmToday today;
    const Farm *farm = NULL;
    stop_on(check_farm_load(dir, &arena, &farm));
    double from = now_ms();
    stop_on(farm_today_sound(dir, farm, day, &arena, &today));
    return now_ms() - from;
}

static double time_page(const char *dir, const StoreFilter *filter)
{
    double times[RUNS];
    for (int i = 0; i < RUNS; i++) {
        CLEANUP(arena_release) Arena arena = {0};
        JournalPage page;
        double from = now_ms();
        stop_on(journal_page(dir, filter, &arena, &page));
        times[i] = now_ms() - from;
    }
    qsort(times, RUNS, sizeof *times, by_size);
    return times[RUNS / 2];
}

static void time_pages(const char *dir, const Farm *farm, int32_t day)
{
    StoreFilter filter = store_all();
    filter.limit = 50;
    judge("page: the newest", time_page(dir, &filter), 50.0, "ms");
    filter.until = day - 1800;
    judge("page: five years ago", time_page(dir, &filter), 50.0, "ms");
    filter.place = farm->beds[farm->beds_count / 2].id;
    judge("page: one bed, five years ago", time_page(dir, &filter), 50.0, "ms");
    filter.until = DATE_NEVER;
    filter.place = farm->tanks[0].id;
    judge("page: one tank", time_page(dir, &filter), 50.0, "ms");
    filter.kinds = UINT64_C(1) << TOLD_STOCKED;
    judge("page: stockings of one tank", time_page(dir, &filter), 50.0, "ms");
    filter.place = NULL;
    filter.kinds = UINT64_C(1) << TOLD_VISITED;
    judge("page: a kind that never came", time_page(dir, &filter), 50.0, "ms");
    filter.kinds |= UINT64_C(1) << TOLD_TRAINED;
    judge("page: two kinds that never came", time_page(dir, &filter), 50.0,
          "ms");
    filter.kinds = 0;
    filter.lot = "lot-none";
    judge("page: a lot", time_page(dir, &filter), 50.0, "ms");
    filter.lot = NULL;
    filter.who = "Ana";
    judge("page: one person", time_page(dir, &filter), 50.0, "ms");
    filter.who = "Nobody";
    judge("page: a person who never told", time_page(dir, &filter), 50.0, "ms");
}

static double size_mb(const char *dir)
{
    char path[1100];
    snprintf(path, sizeof path, "%s/" STORE_FILE, dir);
    FILE *file = fopen(path, "rb");
    long size = 0;
    if (file && fseek(file, 0, SEEK_END) == 0) {
        size = ftell(file);
    }
    if (file) {
        fclose(file);
    }
    return (double)size / 1e6;
}

int main(int argc, char **argv)
{
    if (argc < 2) {
        fprintf(stderr, "usage: bench_journal DIR [ENTRIES]\n");
        return 2;
    }
    CLEANUP(arena_release) Arena arena = {0};
    const char *dir = argv[1];
    const Farm *farm = NULL;
    stop_on(check_farm_load(dir, &arena, &farm));
    int32_t day = farm->farm[0].records_from + YEARS_D - 1;
    int64_t entries = argc > 2 ? strtoll(argv[2], NULL, 10) : 500000;
    if (!store_is_there(dir)) {
        double from = now_ms();
        fill(dir, farm, entries, day, &arena);
        printf("%lld entries told in %.0f s\n", (long long)entries,
               (now_ms() - from) / 1e3);
    }
    printf("state, from all entries: %.0f ms\n", time_state(dir, day));
    double times[RUNS];
    for (int i = 0; i < RUNS; i++) {
        times[i] = time_state(dir, day);
    }
    qsort(times, RUNS, sizeof *times, by_size);
    judge("state today", times[RUNS / 2], 100.0, "ms");
    time_pages(dir, farm, day);
    judge("file", size_mb(dir), 300.0, "MB");
    return is_over ? 1 : 0;
}
