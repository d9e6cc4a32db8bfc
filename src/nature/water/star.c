/* Amounts that go round between a hub and its vessels. */
#include "nature/water/star.h"

#include <assert.h>
#include <string.h>

/* 1 - 1/sqrt 2. */
static const double STAGE = 0.29289321881345247560;

/* One implicit stage of length g: (1 - g A) y = right. */
typedef struct Stage {
    int n;
    const double *through; /* 1/(1 + g loss), by vessel */
    const double *from;    /* g gain through */
    const double *to;      /* g back through */
    double hub;            /* 1 / what multiplies the hub's amount */
} Stage;

static void solve(const Stage *s, const double *right, double *y)
{
    double hub = right[0];
    for (int j = 1; j < s->n; j++) {
        hub += s->to[j] * right[j];
    }
    hub *= s->hub;
    y[0] = hub;
    for (int j = 1; j < s->n; j++) {
        y[j] = s->through[j] * right[j] + s->from[j] * hub;
    }
}

static Stage stage_of(const StarRates *rates, double g, double *room)
{
    int n = rates->vessel_count;
    double *through = room;
    double *from = room + n;
    double *to = room + 2 * n;
    double hub = 1.0 + g * rates->loss_h[0];
    for (int j = 1; j < n; j++) {
        through[j] = 1.0 / (1.0 + g * rates->loss_h[j]);
        from[j] = g * rates->gain_h[j] * through[j];
        to[j] = g * rates->back_h[j] * through[j];
        hub -= g * rates->back_h[j] * from[j];
    }
    return (Stage){n, through, from, to, 1.0 / hub};
}

static bool is_below(const double *values, int count)
{
    double least = 0.0;
    for (int j = 0; j < count; j++) {
        least = values[j] < least ? values[j] : least;
    }
    return least < 0.0;
}

static void euler(const StarRates *rates, double step_h, StarColumn *column,
                  double *room)
{
    int n = rates->vessel_count;
    double *right = room + 3 * n;
    Stage stage = stage_of(rates, step_h, room);
    for (int j = 0; j < n; j++) {
        right[j] = column->amount[j] + step_h * column->source[j];
    }
    solve(&stage, right, column->mean);
    memcpy(column->amount, column->mean, (size_t)n * sizeof *column->amount);
}

/* The two stages; false, and nothing done, where one falls below 0. */
static bool two_stages(const StarRates *rates, double step_h,
                       StarColumn *column, double *room)
{
    int n = rates->vessel_count;
    double g = STAGE * step_h;
    double *right = room + 3 * n;
    double *first = column->mean;
    Stage stage = stage_of(rates, g, room);
    for (int j = 0; j < n; j++) {
        right[j] = column->amount[j] + g * column->source[j];
    }
    solve(&stage, right, first);
    const double ahead = (1.0 - STAGE) / STAGE;
    for (int j = 0; j < n; j++) {
        right[j] = column->amount[j] + ahead * (first[j] - column->amount[j]) +
                   g * column->source[j];
    }
    double *last = right; /* solve reads each right before it is written */
    solve(&stage, right, last);
    if (!column->is_signed && (is_below(first, n) || is_below(last, n))) {
        return false;
    }
    for (int j = 0; j < n; j++) {
        column->mean[j] = (1.0 - STAGE) * first[j] + STAGE * last[j];
        column->amount[j] = last[j];
    }
    return true;
}

void star_step(const StarRates *rates, double step_h, StarColumn *column,
               double *room)
{
    assert(rates->vessel_count >= 1 && step_h > 0.0);
    enum { PARTS = 8 };
    int n = rates->vessel_count;
    if (two_stages(rates, step_h, column, room)) {
        return;
    }
    double *sum = room + 4 * n;
    memset(sum, 0, (size_t)n * sizeof *sum);
    for (int part = 0; part < PARTS; part++) {
        if (!two_stages(rates, step_h / PARTS, column, room)) {
            euler(rates, step_h / PARTS, column, room);
        }
        for (int j = 0; j < n; j++) {
            sum[j] += column->mean[j] / PARTS;
        }
    }
    memcpy(column->mean, sum, (size_t)n * sizeof *sum);
}

/* ---- Many at once: the same, a lane each ----------------------------------
 */

typedef double Row[STAR_WIDE];

typedef struct WideStage {
    const StarBlock *is;
    Row *through;
    Row hub;
    double g;
} WideStage;

static void wide_stage(const StarBlock *block, double g, WideStage *s)
{
    s->is = block;
    s->g = g;
    for (int c = 0; c < STAR_WIDE; c++) {
        s->hub[c] = 1.0 + g * block->loss_h[0][c];
    }
    for (int j = 1; j < block->vessel_count; j++) {
        double both = g * g * block->gain_h[j] * block->back_h[j];
        for (int c = 0; c < STAR_WIDE; c++) {
            s->through[j][c] = 1.0 / (1.0 + g * block->loss_h[j][c]);
            s->hub[c] -= both * s->through[j][c];
        }
    }
    for (int c = 0; c < STAR_WIDE; c++) {
        s->hub[c] = 1.0 / s->hub[c];
    }
}

static void wide_solve(const WideStage *s, Row *right, Row *y)
{
    int n = s->is->vessel_count;
    Row hub;
    memcpy(hub, right[0], sizeof hub);
    for (int j = 1; j < n; j++) {
        double to = s->g * s->is->back_h[j];
        for (int c = 0; c < STAR_WIDE; c++) {
            hub[c] += to * s->through[j][c] * right[j][c];
        }
    }
    for (int c = 0; c < STAR_WIDE; c++) {
        y[0][c] = hub[c] *= s->hub[c];
    }
    for (int j = 1; j < n; j++) {
        double from = s->g * s->is->gain_h[j];
        for (int c = 0; c < STAR_WIDE; c++) {
            y[j][c] = s->through[j][c] * (right[j][c] + from * hub[c]);
        }
    }
}

static void wide_euler(const StarBlock *block, double step_h, WideStage *s,
                       Row *right)
{
    wide_stage(block, step_h, s);
    for (int j = 0; j < block->vessel_count; j++) {
        for (int c = 0; c < STAR_WIDE; c++) {
            right[j][c] = block->amount[j][c] + step_h * block->source[j][c];
        }
    }
    wide_solve(s, right, block->mean);
    memcpy(block->amount, block->mean,
           (size_t)block->vessel_count * sizeof *block->amount);
}

void star_block_step(const StarBlock *block, double step_h, double *room)
{
    assert(block->vessel_count >= 1 && step_h > 0.0);
    int n = block->vessel_count;
    double g = STAGE * step_h;
    Row *right = (Row *)room + n;
    Row *first = block->mean;
    WideStage s = {.through = (Row *)room};
    wide_stage(block, g, &s);
    for (int j = 0; j < n; j++) {
        for (int c = 0; c < STAR_WIDE; c++) {
            right[j][c] = block->amount[j][c] + g * block->source[j][c];
        }
    }
    wide_solve(&s, right, first);
    const double ahead = (1.0 - STAGE) / STAGE;
    for (int j = 0; j < n; j++) {
        for (int c = 0; c < STAR_WIDE; c++) {
            right[j][c] = block->amount[j][c] +
                          ahead * (first[j][c] - block->amount[j][c]) +
                          g * block->source[j][c];
        }
    }
    wide_solve(&s, right, right);
    if (is_below(first[0], n * STAR_WIDE) ||
        is_below(right[0], n * STAR_WIDE)) {
        wide_euler(block, step_h, &s, right);
        return;
    }
    for (int j = 0; j < n; j++) {
        for (int c = 0; c < STAR_WIDE; c++) {
            block->mean[j][c] =
                (1.0 - STAGE) * first[j][c] + STAGE * right[j][c];
            block->amount[j][c] = right[j][c];
        }
    }
}
