/* Sharing what is short among those who ordered it. */
#include "work/share.h"

#include <assert.h>
#include <math.h>

enum { ROUNDS = 64 };

static const double LEAST_UNITS = 1e-9;

/* One sharing of one amount among some of the lines. */
typedef struct Pot {
    const ShareLine *lines;
    int32_t count;
    bool is_in[SHARE_LINES_MOST]; /* still gets something */
    double given[SHARE_LINES_MOST];
} Pot;

static double basis_of(const ShareLine *line)
{
    return fmin(line->ordered, fmax(line->usual, 0.0));
}

/* Fills up to what each basis allows, then up to what is ordered: water into
 * vessels of unequal width. */
static void fill(Pot *pot, double have, bool by_order)
{
    double left = have;
    for (int round = 0; round < ROUNDS && left > LEAST_UNITS; round++) {
        double sum = 0.0;
        for (int32_t i = 0; i < pot->count; i++) {
            double room =
                (by_order ? pot->lines[i].ordered : basis_of(&pot->lines[i])) -
                pot->given[i];
            sum += pot->is_in[i] && room > LEAST_UNITS
                       ? basis_of(&pot->lines[i]) + LEAST_UNITS
                       : 0.0;
        }
        if (sum <= 0.0) {
            return;
        }
        double before = left;
        for (int32_t i = 0; i < pot->count; i++) {
            double top =
                by_order ? pot->lines[i].ordered : basis_of(&pot->lines[i]);
            double room = top - pot->given[i];
            if (!pot->is_in[i] || room <= LEAST_UNITS) {
                continue;
            }
            double share =
                before * (basis_of(&pot->lines[i]) + LEAST_UNITS) / sum;
            double part = fmin(share, room);
            pot->given[i] += part;
            left -= part;
        }
    }
}

static double sum_of(const Pot *pot)
{
    double sum = 0.0;
    for (int32_t i = 0; i < pot->count; i++) {
        sum += pot->given[i];
    }
    return sum;
}

/* Whole units: down, then the largest remainders up, so that the sum is the
 * whole part of what there was. */
static void round_all(Pot *pot)
{
    double sum = floor(sum_of(pot) + 1e-6);
    double rest[SHARE_LINES_MOST];
    for (int32_t i = 0; i < pot->count; i++) {
        double whole = floor(pot->given[i] + 1e-6);
        rest[i] = pot->given[i] - whole;
        pot->given[i] = whole;
    }
    while (sum_of(pot) < sum - 0.5) {
        int32_t best = -1;
        for (int32_t i = 0; i < pot->count; i++) {
            bool has_room = pot->is_in[i] &&
                            pot->given[i] + 1.0 <= pot->lines[i].ordered + 1e-6;
            if (has_room && (best < 0 || rest[i] > rest[best] + 1e-9)) {
                best = i;
            }
        }
        if (best < 0) {
            return;
        }
        pot->given[best] += 1.0;
        rest[best] -= 1.0;
    }
}

/* The line furthest under its least leaves; false where none is under it. */
static bool drop_least(Pot *pot)
{
    int32_t worst = -1;
    double lack = LEAST_UNITS;
    for (int32_t i = 0; i < pot->count; i++) {
        double under = pot->lines[i].least - pot->given[i];
        if (pot->is_in[i] && pot->given[i] > LEAST_UNITS && under > lack) {
            worst = i;
            lack = under;
        }
    }
    if (worst >= 0) {
        pot->is_in[worst] = false;
    }
    return worst >= 0;
}

static void share_pot(Pot *pot, double have, bool is_whole)
{
    do {
        for (int32_t i = 0; i < pot->count; i++) {
            pot->given[i] = 0.0;
        }
        fill(pot, have, false);
        fill(pot, have - sum_of(pot), true);
        if (is_whole) {
            round_all(pot);
        }
    } while (drop_least(pot));
}

enum { TIERS = 3 };

static int tier_of(const ShareLine *line)
{
    return line->is_firm ? 0 : line->cut_before > LEAST_UNITS ? 1 : 2;
}

void share_out(ShareLine *lines, int32_t count, double have, bool is_whole)
{
    assert(count >= 0 && count <= SHARE_LINES_MOST && have >= 0.0);
    Pot all = {.lines = lines, .count = count};
    for (int32_t i = 0; i < count; i++) {
        all.is_in[i] = true;
        lines[i].by_rule = 0.0;
    }
    share_pot(&all, have, is_whole);
    for (int32_t i = 0; i < count; i++) {
        lines[i].in_proportion = all.given[i];
    }
    double left = have;
    for (int tier = 0; tier < TIERS; tier++) {
        Pot pot = {.lines = lines, .count = count};
        for (int32_t i = 0; i < count; i++) {
            pot.is_in[i] = tier_of(&lines[i]) == tier;
        }
        share_pot(&pot, left, is_whole);
        left -= sum_of(&pot);
        for (int32_t i = 0; i < count; i++) {
            lines[i].by_rule += pot.given[i];
        }
    }
}
