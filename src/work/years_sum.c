/* Many possible years together. */
#include "work/years_sum.h"

#include <assert.h>

static const double LOW = 0.1, MIDDLE = 0.5, HIGH = 0.9;

void years_sum_open(const YearsShape *shape, Arena *arena, YearsSum *out)
{
    *out = (YearsSum){.shape = *shape};
    out->counts = ARENA_ARRAY(arena, uint32_t, shape->counts_count);
}

/* The gravest of what broke in the earliest week. */
static void add_breaks(YearsSum *sum, const Farm *farm, const uint16_t *codes)
{
    int first = -1;
    uint16_t first_week = SPREAD_CODES;
    for (int b = 0; b < YEARS_BREAK_COUNT; b++) {
        int rows = years_rows(farm, YEARS_BREAK_TABLE[b].of);
        uint16_t week = SPREAD_CODES;
        for (int row = 0; row < rows; row++) {
            uint16_t is = codes[sum->shape.break_at[b] + row];
            week = is && is < week ? is : week;
        }
        sum->any[b] += week < SPREAD_CODES;
        if (week < first_week) {
            first = b;
            first_week = week;
        }
    }
    *(first < 0 ? &sum->unbroken : &sum->first[first]) += 1;
}

void years_sum_add(YearsSum *sum, const Farm *farm, const uint16_t *codes)
{
    const YearsShape *shape = &sum->shape;
    uint32_t *counts = sum->counts;
    for (int i = 0, s = 0; i < shape->code_count; i++) {
        while (s + 1 < YEARS_SERIES_COUNT && i >= shape->series_at[s + 1]) {
            s++;
        }
        int codes_here = i >= shape->break_at[0]
                             ? shape->weeks + 1
                             : YEARS_SERIES_TABLE[s].scale.codes;
        assert(codes[i] < codes_here);
        counts[codes[i]]++;
        counts += codes_here;
    }
    add_breaks(sum, farm, codes);
    sum->count++;
}

static const uint32_t *counts_of(const YearsSum *sum, int series, int row,
                                 int week)
{
    size_t cells = (size_t)sum->shape.weeks + 1;
    size_t cell = (size_t)row * cells + (size_t)week;
    return sum->counts + sum->shape.series_counts[series] +
           cell * (size_t)YEARS_SERIES_TABLE[series].scale.codes;
}

double years_sum_quantile(const YearsSum *sum, int series, int row, int week,
                          double share_frac)
{
    const SpreadScale *scale = &YEARS_SERIES_TABLE[series].scale;
    return spread_quantile(scale, counts_of(sum, series, row, week),
                           share_frac);
}

Figure years_sum_range(const YearsSum *sum, int series, int row, int week)
{
    return (Figure){.low = years_sum_quantile(sum, series, row, week, LOW),
                    .value = years_sum_quantile(sum, series, row, week, MIDDLE),
                    .high = years_sum_quantile(sum, series, row, week, HIGH),
                    .origin = FIGURE_GUESS,
                    .source = ""};
}

int64_t years_sum_kept(const YearsSum *sum, int order, int week)
{
    const SpreadScale *scale = &YEARS_SERIES_TABLE[YEARS_KEPT].scale;
    return (int64_t)spread_count_from(scale,
                                      counts_of(sum, YEARS_KEPT, order, week),
                                      spread_code(scale, 1.0));
}

int64_t years_sum_broken(const YearsSum *sum, int kind, int row, int *out_week)
{
    const uint32_t *counts = sum->counts + sum->shape.break_counts[kind] +
                             (size_t)row * ((size_t)sum->shape.weeks + 1);
    int64_t all = 0;
    int64_t below = 0;
    *out_week = -1;
    for (int code = 1; code <= sum->shape.weeks; code++) {
        all += counts[code];
    }
    for (int code = 1; code <= sum->shape.weeks && all > 0; code++) {
        below += counts[code];
        if (2 * below >= all) {
            *out_week = code - 1;
            break;
        }
    }
    return all;
}
