/* Times possible years of a farm on one core, and tells what a year costs.
 *
 * usage: bench_years DIR [YEARS] */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/typical.h"
#include "work/foresight.h"
#include "work/years_sum.h"

static double now_ms(void)
{
    struct timespec at;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &at);
    return (double)at.tv_sec * 1e3 + (double)at.tv_nsec / 1e6;
}

static void tell(const Farm *farm, const YearsSum *sum, const uint16_t *usual)
{
    for (int s = 0; s < YEARS_SERIES_COUNT; s++) {
        const YearsSeries *is = &YEARS_SERIES_TABLE[s];
        for (int row = 0; row < years_rows(farm, is->of); row++) {
            int weeks = sum->shape.weeks;
            Figure range = years_sum_range(sum, s, row, weeks);
            int at = sum->shape.series_at[s] + row * (weeks + 1) + weeks;
            printf("%-20s %3d %10.4g %10.4g %10.4g   typical %10.4g\n", is->key,
                   row, range.low, range.value, range.high,
                   spread_value(&is->scale, usual[at], 0.5));
        }
    }
    for (int b = 0; b < YEARS_BREAK_COUNT; b++) {
        printf("%-12s first %lld any %lld of %lld\n", YEARS_BREAK_TABLE[b].key,
               (long long)sum->first[b], (long long)sum->any[b],
               (long long)sum->count);
    }
}

static Err run(const char *path, int count, Arena *arena)
{
    const Farm *farm = NULL;
    Typical typical;
    TRY(check_farm_load(path, arena, &farm));
    double from = now_ms();
    TRY(typical_make(farm, arena, &typical));
    printf("typical year %.0f ms\n", now_ms() - from);
    YearsAsk ask = {.farm = farm,
                    .book = typical.book,
                    .climate = typical.climate,
                    .first_week = week_of(farm->farm->records_from),
                    .weeks = 52,
                    .sale_g = foresight_sale_g(farm),
                    .seed = 1};
    YearsFarm *years = NULL;
    from = now_ms();
    TRY(years_open(&ask, arena, &years));
    printf("opening %.0f ms\n", now_ms() - from);
    YearsSum sum;
    YearsShape shape = years_shape(farm, ask.weeks);
    years_sum_open(&shape, arena, &sum);
    uint16_t *codes = ARENA_ARRAY(arena, uint16_t, shape.code_count);
    uint16_t *usual = ARENA_ARRAY(arena, uint16_t, shape.code_count);
    years_run(years, YEARS_TYPICAL, usual);
    from = now_ms();
    for (int k = 0; k < count; k++) {
        years_run(years, k, codes);
        years_sum_add(&sum, farm, codes);
    }
    double ms = (now_ms() - from) / count;
    tell(farm, &sum, usual);
    printf("a year of 52 weeks: %.1f ms on one core; %d codes\n", ms,
           shape.code_count);
    return ERR_NONE;
}

int main(int count, char **words)
{
    if (count < 2 || count > 3) {
        fprintf(stderr, "usage: bench_years DIR [YEARS]\n");
        return 2;
    }
    CLEANUP(arena_release) Arena arena = {0};
    Err err = run(words[1], count == 3 ? atoi(words[2]) : 20, &arena);
    if (err.kind != ERR_OK) {
        fprintf(stderr, "%s\n", err.text);
        return err_exit_code(err.kind);
    }
    return 0;
}
