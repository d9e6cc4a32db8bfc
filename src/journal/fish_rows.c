/* Arithmetic of rows of fish. */
#include "journal/fish_rows.h"

#include <math.h>
#include <string.h>

FishSums fish_sums_of(const Fish *row)
{
    double mean = row->mean_g;
    double spread = row->cv_frac * mean;
    return (FishSums){row->count, row->count * mean,
                      row->count * (mean * mean + spread * spread)};
}

static void put_sums(Fish *row, const FishSums *sums)
{
    row->count = (int32_t)lround(sums->heads);
    if (row->count == 0) {
        return;
    }
    double mean = sums->sum_g / sums->heads;
    double variance = sums->squares_g2 / sums->heads - mean * mean;
    row->mean_g = mean;
    row->cv_frac = variance > 0.0 ? sqrt(variance) / mean : 0.0;
}

void fish_row_change(Fish *row, const Fish *part, double sign)
{
    FishSums now = fish_sums_of(row);
    FishSums add = fish_sums_of(part);
    now.heads += sign * add.heads;
    now.sum_g += sign * add.sum_g;
    now.squares_g2 += sign * add.squares_g2;
    put_sums(row, &now);
}

void fish_rows_tell_apart(Farm *farm, Arena *arena)
{
    for (int32_t i = 1; i < farm->fish_count; i++) {
        for (int32_t j = 0; j < i; j++) {
            if (strcmp(farm->fish[i].id, farm->fish[j].id) == 0) {
                farm->fish[i].id =
                    arena_text(arena, "%s-%s", farm->fish[i].id,
                               farm->tanks[farm->fish[i].tank].id);
            }
        }
    }
}
