/* Dual simplex with bounded columns on a full tableau. */
#include "plan/sales_simplex.h"

#include <assert.h>
#include <math.h>
#include <string.h>

typedef enum SalesPlace { AT_LOWER, AT_UPPER, BASIC } SalesPlace;

enum { PIVOTS_UNTIL_AFRESH = 400, PIVOTS_MOST = 2000 };

/* Below these an entry counts as nothing. */
static const double LEVEL_NOISE = 1e-9;
static const double PIVOT_NOISE = 1e-9;
static const double ENTRY_NOISE = 1e-14;

static double upper_of(const SalesSimplex *s, int column)
{
    return column < s->columns ? s->upper[column] : INFINITY;
}

static double gain_of(const SalesSimplex *s, int column)
{
    return column < s->columns ? s->gain[column] : 0.0;
}

static int width_of(const SalesSimplex *s)
{
    return s->columns + s->rows;
}

/* The tableau of the basis of slacks alone. */
static void reset_table(SalesSimplex *s)
{
    int width = width_of(s);
    for (int i = 0; i < s->rows; i++) {
        double *row = s->table + i * width;
        memset(row, 0, (size_t)width * sizeof *row);
        memcpy(row, s->matrix + i * s->columns,
               (size_t)s->columns * sizeof *row);
        row[s->columns + i] = 1.0;
        s->basis[i] = s->columns + i;
        s->most[i] = INFINITY;
    }
    for (int j = 0; j < width; j++) {
        s->reduced[j] = gain_of(s, j);
    }
}

/* Divides the pivot's row and lists its columns that are not 0; how many. */
static int scale_row(SalesSimplex *s, double *row, int column)
{
    int width = width_of(s);
    double scale = 1.0 / row[column];
    int count = 0;
    for (int j = 0; j < width; j++) {
        double entry = row[j] * scale;
        bool is_filled = fabs(entry) > ENTRY_NOISE;
        row[j] = is_filled ? entry : 0.0;
        s->filled[count] = j;
        count += is_filled;
    }
    row[column] = 1.0;
    return count;
}

static void subtract_row(const SalesSimplex *s, double *to, const double *from,
                         int count, int column)
{
    double factor = to[column];
    if (fabs(factor) < ENTRY_NOISE) {
        to[column] = 0.0;
        return;
    }
    for (int i = 0; i < count; i++) {
        int j = s->filled[i];
        to[j] -= factor * from[j];
    }
    to[column] = 0.0;
}

/* Makes the column the basic one of that row, in the tableau alone. */
static void pivot_table(SalesSimplex *s, int row, int column)
{
    int width = width_of(s);
    double *from = s->table + row * width;
    int count = scale_row(s, from, column);
    for (int i = 0; i < s->rows; i++) {
        if (i != row) {
            subtract_row(s, s->table + i * width, from, count, column);
        }
    }
    subtract_row(s, s->reduced, from, count, column);
    s->basis[row] = column;
    s->most[row] = upper_of(s, column);
}

static double gain_now(const SalesSimplex *s)
{
    double gain = 0.0;
    for (int i = 0; i < s->rows; i++) {
        gain += gain_of(s, s->basis[i]) * s->level[i];
    }
    for (int j = 0; j < s->columns; j++) {
        if (s->place[j] == AT_UPPER) {
            gain += s->gain[j] * s->upper[j];
        }
    }
    return gain;
}

/* Levels of the basic variables from the right side and the upper bounds. */
static void set_levels(SalesSimplex *s)
{
    int width = width_of(s);
    for (int i = 0; i < s->rows; i++) {
        const double *row = s->table + i * width;
        double level = 0.0;
        for (int k = 0; k < s->rows; k++) {
            level += row[s->columns + k] * s->right[k];
        }
        for (int j = 0; j < s->columns; j++) {
            if (s->place[j] == AT_UPPER) {
                level -= row[j] * s->upper[j];
            }
        }
        s->level[i] = level;
    }
    s->worth = gain_now(s);
}

/* Every column at the bound that its gain asks for, all slacks basic. */
static void start_afresh(SalesSimplex *s)
{
    reset_table(s);
    for (int j = 0; j < s->columns; j++) {
        s->place[j] = s->gain[j] > 0.0 ? AT_UPPER : AT_LOWER;
    }
    for (int i = 0; i < s->rows; i++) {
        s->place[s->columns + i] = BASIC;
    }
    s->pivots = 0;
    set_levels(s);
}

/* The row, of those whose slack has left or will, that takes the column best:
 * rows that already hold a column of the wanted basis stay. */
static int best_row_for(const SalesSimplex *s, int column)
{
    int width = width_of(s);
    int best = -1;
    for (int i = 0; i < s->rows; i++) {
        bool is_free =
            s->basis[i] >= s->columns && s->place[s->basis[i]] != BASIC;
        double size = fabs(s->table[i * width + column]);
        if (is_free && size > PIVOT_NOISE &&
            (best < 0 || size > fabs(s->table[best * width + column]))) {
            best = i;
        }
    }
    return best;
}

/* The same basis from the matrix again, which drops what rounding has added. */
static void refresh(SalesSimplex *s)
{
    reset_table(s);
    for (int j = 0; j < s->columns; j++) {
        if (s->place[j] != BASIC) {
            continue;
        }
        int row = best_row_for(s, j);
        if (row < 0) {
            start_afresh(s);
            return;
        }
        pivot_table(s, row, j);
    }
    s->pivots = 0;
    set_levels(s);
}

void sales_simplex_open(SalesSimplex *simplex, const SalesSimplex *shape,
                        Arena *arena)
{
    int rows = shape->rows, width = rows + shape->columns;
    *simplex = *shape;
    simplex->right = ARENA_ARRAY(arena, double, rows);
    simplex->table = ARENA_ARRAY(arena, double, rows *width);
    simplex->reduced = ARENA_ARRAY(arena, double, width);
    simplex->level = ARENA_ARRAY(arena, double, rows);
    simplex->most = ARENA_ARRAY(arena, double, rows);
    simplex->filled = ARENA_ARRAY(arena, int, width);
    simplex->basis = ARENA_ARRAY(arena, int, rows);
    simplex->place = ARENA_ARRAY(arena, uint8_t, width);
    start_afresh(simplex);
}

/* The row furthest out of its bounds, or -1. */
static int worst_row(const SalesSimplex *s)
{
    int worst = -1;
    double most = 0.0;
    for (int i = 0; i < s->rows; i++) {
        double low = -s->level[i], high = s->level[i] - s->most[i];
        double out = low > high ? low : high;
        if (out <= LEVEL_NOISE) {
            continue;
        }
        double noise = LEVEL_NOISE * (1.0 + fabs(s->level[i]));
        if (out > noise && out > most) {
            worst = i;
            most = out;
        }
    }
    return worst;
}

/* The column that may enter for that row at the least loss, or -1. */
static int entering_column(const SalesSimplex *s, int row, bool is_low)
{
    const double *entries = s->table + row * width_of(s);
    int best = -1;
    double least = INFINITY;
    for (int j = 0; j < width_of(s); j++) {
        double entry = entries[j];
        if (s->place[j] == BASIC || fabs(entry) < PIVOT_NOISE ||
            (j < s->columns && s->upper[j] <= 0.0)) {
            continue;
        }
        bool wants_negative = (s->place[j] == AT_LOWER) == is_low;
        if ((entry < 0.0) != wants_negative) {
            continue;
        }
        double ratio = fabs(s->reduced[j] / entry);
        bool is_tie = best >= 0 && ratio < least + 1e-12 &&
                      fabs(entry) > fabs(entries[best]);
        if (ratio < least - 1e-12 || is_tie) {
            best = j;
            least = ratio < least ? ratio : least;
        }
    }
    return best;
}

static void enter(SalesSimplex *s, int row, int column, bool is_low)
{
    int width = width_of(s);
    int leaving = s->basis[row];
    double target = is_low ? 0.0 : s->most[row];
    double step = (s->level[row] - target) / s->table[row * width + column];
    for (int i = 0; i < s->rows; i++) {
        s->level[i] -= step * s->table[i * width + column];
    }
    s->worth += step * s->reduced[column];
    double start = s->place[column] == AT_UPPER ? upper_of(s, column) : 0.0;
    s->place[leaving] = is_low ? AT_LOWER : AT_UPPER;
    s->place[column] = BASIC;
    pivot_table(s, row, column);
    s->level[row] = start + step;
    s->pivots++;
}

static void take_right(SalesSimplex *s, const double *right)
{
    int width = width_of(s);
    for (int k = 0; k < s->rows; k++) {
        double change = right[k] - s->right[k];
        if (fabs(change) < 1e-300) {
            continue;
        }
        s->right[k] = right[k];
        s->worth -= change * s->reduced[s->columns + k];
        for (int i = 0; i < s->rows; i++) {
            s->level[i] += change * s->table[i * width + s->columns + k];
        }
    }
}

double sales_simplex_solve(SalesSimplex *simplex, const double *right)
{
    if (simplex->pivots > PIVOTS_UNTIL_AFRESH) {
        refresh(simplex);
    }
    take_right(simplex, right);
    for (int round = 0; round < PIVOTS_MOST; round++) {
        int row = worst_row(simplex);
        if (row < 0) {
            break;
        }
        bool is_low = simplex->level[row] < 0.0;
        int column = entering_column(simplex, row, is_low);
        if (column < 0) {
            /* Nothing at all is always allowed: only rounding gets here. */
            start_afresh(simplex);
            continue;
        }
        enter(simplex, row, column, is_low);
    }
    return simplex->worth;
}

double sales_simplex_bound(const SalesSimplex *simplex, const double *right)
{
    double bound = simplex->worth;
    for (int k = 0; k < simplex->rows; k++) {
        bound -= (right[k] - simplex->right[k]) *
                 simplex->reduced[simplex->columns + k];
    }
    return bound;
}

double sales_simplex_amount(const SalesSimplex *simplex, int column)
{
    for (int i = 0; i < simplex->rows; i++) {
        if (simplex->basis[i] == column) {
            return simplex->level[i];
        }
    }
    return simplex->place[column] == AT_UPPER ? simplex->upper[column] : 0.0;
}

double sales_simplex_price(const SalesSimplex *simplex, int row)
{
    return -simplex->reduced[simplex->columns + row];
}
