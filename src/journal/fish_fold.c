/* Fish told of, onto the rows of fish. */
#include "journal/fish_fold.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "farm/cell.h"
#include "journal/fish_rows.h"
#include "nature/fish/slices.h"

/* Batches in one tank that are told apart. */
enum { ROWS_A_TANK = 32 };

static double grams_of(const Fish *fish)
{
    return fish->count * fish->mean_g;
}

static double grown(const StateFold *fold, const Fish *row, int32_t day)
{
    double factor = fold->grow.factor && day > row->counted_on
                        ? fold->grow.factor(fold->grow.self, row, day)
                        : 1.0;
    return isfinite(factor) && factor > 0.0 ? factor : 1.0;
}

/* "june-fry-B" is the batch june-fry in tank B. */
static bool is_in_tank(const char *shown, const char *id, const char *tank)
{
    size_t length = strlen(id);
    return strncmp(shown, id, length) == 0 && shown[length] == '-' &&
           strcmp(shown + length + 1, tank) == 0;
}

/* A batch by its id, or by the name that one in several tanks is shown under:
 * the id, a dash and the tank's. */
static bool is_batch(const Farm *farm, const Fish *row, const char *asked)
{
    const char *tank = farm->tanks[row->tank].id;
    return strcmp(row->id, asked) == 0 || is_in_tank(asked, row->id, tank) ||
           is_in_tank(row->id, asked, tank);
}

/* ---- Rows -----------------------------------------------------------------
 */

void fish_fold_open(StateFold *fold, const Fish *row)
{
    fold->farm->fish[fold->farm->fish_count++] = *row;
    fold->state->fish.opened += row->count;
    fold->state->fish.opened_g += grams_of(row);
}

static void remove_row(Farm *farm, int32_t at)
{
    memmove(&farm->fish[at], &farm->fish[at + 1],
            (size_t)(farm->fish_count - at - 1) * sizeof *farm->fish);
    farm->fish_count--;
}

/* Puts a part into a tank, with the others of its batch there: weights as of
 * the day on which those were weighed. */
static void add_part(StateFold *fold, const Fish *part, int32_t tank,
                     int32_t day)
{
    Farm *farm = fold->farm;
    for (int32_t i = 0; i < farm->fish_count; i++) {
        Fish *row = &farm->fish[i];
        if (row->tank == tank && strcmp(row->id, part->id) == 0) {
            Fish same = *part;
            if (part->counted_on != row->counted_on) {
                same.mean_g *= grown(fold, part, day) / grown(fold, row, day);
                fold->state->fish.growth_g += grams_of(&same) - grams_of(part);
            }
            fish_row_change(row, &same, 1.0);
            return;
        }
    }
    if (farm->fish_count == fold->fish_room) {
        int32_t room = 2 * fold->fish_room + 16;
        farm->fish =
            arena_grow(fold->arena, farm->fish, (size_t)fold->fish_room,
                       (size_t)room, sizeof *farm->fish);
        fold->fish_room = room;
    }
    farm->fish[farm->fish_count] = *part;
    farm->fish[farm->fish_count].tank = tank;
    farm->fish_count++;
}

/* ---- Which fish of a row --------------------------------------------------
 */

typedef enum Which { WHICH_ANY, WHICH_HEAVIEST, WHICH_LIGHTEST } Which;

/* Heaviest or lightest fish of a row, by its slices. */
static Fish cut(const Fish *row, int32_t count, Which which)
{
    FishDraw draw = {row->count, row->mean_g, row->cv_frac, FISH_SEX_MALES};
    FishSlices from = fish_slices_draw(&draw);
    FishSlices to = {0};
    bool is_heavy = which == WHICH_HEAVIEST;
    fish_slices_move_heaviest(&from, &to,
                              is_heavy ? count : row->count - count);
    const FishSlices *taken = is_heavy ? &to : &from;
    Fish part = *row;
    part.count = count;
    part.mean_g = fish_slices_mean_g(taken);
    part.cv_frac = fish_slices_cv_frac(taken);
    return part;
}

/* Whether those left would have a weight: what they would weigh on the mean is
 * at least a tenth of what they did (judged), and their spread is no less than
 * none. */
static bool fits(const Fish *row, const Fish *part)
{
    static const double LEAST_FRAC = 0.1;
    if (part->count >= row->count) {
        return true;
    }
    FishSums rest = fish_sums_of(row);
    FishSums gone = fish_sums_of(part);
    rest.heads -= gone.heads;
    rest.sum_g -= gone.sum_g;
    rest.squares_g2 -= gone.squares_g2;
    double mean = rest.sum_g / rest.heads;
    return mean >= LEAST_FRAC * row->mean_g &&
           rest.squares_g2 / rest.heads >= 0.98 * mean * mean;
}

/* The part that leaves. mean_g: as told on the day, or NAN. */
static Fish part_of(StateFold *fold, const Fish *row, const Told *told,
                    int32_t count, Which which)
{
    Fish part = *row;
    part.count = count;
    double mean_g = told->mean_g;
    if (isnan(mean_g) && !isnan(told->grams) && told->count > 0) {
        mean_g = told->grams / (double)told->count;
    }
    if (count >= row->count) {
        return part; /* all of them: whatever they weigh, they are gone */
    }
    if (isnan(mean_g)) {
        return which == WHICH_ANY || count < 1 ? part : cut(row, count, which);
    }
    part.mean_g = mean_g / grown(fold, row, told->happened_on);
    double off = fabs(part.mean_g - row->mean_g);
    part.cv_frac = off > row->cv_frac * row->mean_g / 2.0 ? 0.0 : row->cv_frac;
    if (!fits(row, &part)) {
        part.cv_frac = 0.0;
    }
    if (!fits(row, &part)) {
        Which side =
            part.mean_g > row->mean_g ? WHICH_HEAVIEST : WHICH_LIGHTEST;
        fold_doubt(fold, told,
                   "%d of %d fish of %s in %s at %.0f g each: the others "
                   "would weigh nothing; taken as the %s",
                   (int)count, (int)row->count, row->id,
                   fold->farm->tanks[row->tank].id, mean_g,
                   side == WHICH_HEAVIEST ? "heaviest" : "lightest");
        return cut(row, count, side);
    }
    return part;
}

/* ---- Which row ------------------------------------------------------------
 */

/* The row that an entry means: of the batch it names; else the one in the tank,
 * of several the one whose fish weigh nearest to what was told, or the most
 * fish. -1: none is there. */
static int32_t row_of(const StateFold *fold, const Told *told, int32_t tank)
{
    const Farm *farm = fold->farm;
    int32_t rows[ROWS_A_TANK];
    int count = 0;
    for (int32_t i = 0; i < farm->fish_count && count < ROWS_A_TANK; i++) {
        const Fish *row = &farm->fish[i];
        if (row->tank == tank &&
            (!*told->batch || is_batch(farm, row, told->batch))) {
            rows[count++] = i;
        }
    }
    int32_t best = count > 0 ? rows[0] : -1;
    double best_off = INFINITY;
    for (int i = 0; i < count && count > 1; i++) {
        const Fish *row = &farm->fish[rows[i]];
        double now_g = row->mean_g;
        now_g *=
            isnan(told->mean_g) ? 1.0 : grown(fold, row, told->happened_on);
        double off = isnan(told->mean_g) ? -(double)row->count
                                         : fabs(log(now_g / told->mean_g));
        if (off < best_off) {
            best = rows[i];
            best_off = off;
        }
    }
    return best;
}

static int32_t told_count(const StateFold *fold, const Told *told,
                          const Fish *row)
{
    if (told->count >= 0) {
        return (int32_t)told->count;
    }
    double each_g = !isnan(told->mean_g)
                        ? told->mean_g
                        : row->mean_g * grown(fold, row, told->happened_on);
    double heads = isnan(told->grams) ? row->count : told->grams / each_g;
    return (int32_t)lround(fmin(fmax(heads, 0.0), 1e6));
}

/* ---- One entry ------------------------------------------------------------
 */

static bool opens_later(const StateFold *fold, int32_t tank, int32_t day)
{
    for (int32_t i = 0; i < fold->opening->fish_count; i++) {
        if (fold->opening->fish[i].tank == tank &&
            fold->opening->fish[i].counted_on > day) {
            return true;
        }
    }
    return false;
}

/* Takes what the entry says out of its tank; false where nothing is there. */
static bool take(StateFold *fold, const Told *told, Which which, Fish *out)
{
    int32_t tank = cell_row_of(fold->farm, TABLE_tanks, told->place);
    int32_t at = row_of(fold, told, tank);
    FishAccount *account = &fold->state->fish;
    if (at < 0) {
        if (!opens_later(fold, tank, told->happened_on)) {
            account->missing += told->count > 0 ? told->count : 0;
            fold_doubt(fold, told, "%s: no fish%s%s stand in %s",
                       told_kind_word(told->kind), *told->batch ? " of " : "",
                       told->batch, told->place);
        }
        return false;
    }
    Fish *row = &fold->farm->fish[at];
    int32_t count = told_count(fold, told, row);
    if (count > row->count) {
        account->missing += count - row->count;
        fold_doubt(fold, told, "%s: %d fish of %s leave %s, where only %d are",
                   told_kind_word(told->kind), (int)count, row->id, told->place,
                   (int)row->count);
        count = row->count;
    }
    *out = part_of(fold, row, told, count, which);
    if (count == row->count) {
        remove_row(fold->farm, at);
    } else {
        fish_row_change(row, out, -1.0);
    }
    return count > 0;
}

static void move(StateFold *fold, const Told *told, Which which)
{
    int32_t to = cell_row_of(fold->farm, TABLE_tanks, told->to_place);
    Fish part;
    if (to >= 0 && take(fold, told, which, &part)) {
        add_part(fold, &part, to, told->happened_on);
    }
}

static const char *first_text(const char *a, const char *b)
{
    return a && *a ? a : b;
}

static void stock(StateFold *fold, const Told *told, const PlanMove *step)
{
    const Farm *farm = fold->farm;
    const PlanFish *lane = step ? &farm->plan_fish[step->fish] : NULL;
    const FishSource *source =
        lane && lane->source >= 0 ? &farm->fish_sources[lane->source] : NULL;
    const FishSource *any =
        farm->fish_sources_count > 0 ? &farm->fish_sources[0] : NULL;
    const FishSource *like = source ? source : any;
    Fish row = {.species = first_text(told->species,
                                      like ? like->species : "nile-tilapia"),
                .tank = cell_row_of(farm, TABLE_tanks, told->place),
                .counted_on = told->happened_on,
                .count = (int32_t)told->count,
                .sex = like ? like->sex : SEX_MIXED};
    const char *day = NULL;
    char text[DATE_TEXT_SIZE];
    date_format(told->happened_on, text);
    day = arena_text(fold->arena, "stocked-%s", text);
    row.id = first_text(told->batch, lane ? lane->batch : day);
    double each_g = !isnan(told->grams) && told->count > 0
                        ? told->grams / (double)told->count
                        : (like ? like->mean_g : 1.0);
    row.mean_g = isnan(told->mean_g) ? each_g : told->mean_g;
    row.cv_frac =
        isnan(told->cv_frac) ? (like ? like->cv_frac : 0.0) : told->cv_frac;
    if (*told->sex) {
        const WordList *sexes = &FARM_WORDS[WORDS_SEXES];
        for (int i = 0; i < sexes->count; i++) {
            row.sex = strcmp(sexes->words[i], told->sex) == 0 ? i : row.sex;
        }
    }
    if (row.tank < 0 || row.count < 1) {
        return;
    }
    fold->state->fish.stocked += row.count;
    fold->state->fish.stocked_g += grams_of(&row);
    add_part(fold, &row, row.tank, told->happened_on);
}

/* Counted anew: what is missing is lost, what is too many was found. */
static void recount(StateFold *fold, const Told *told, Fish *row)
{
    FishAccount *account = &fold->state->fish;
    int32_t count = (int32_t)lround(told->quantity);
    int32_t more = count - row->count;
    if (more != 0) {
        fold_doubt(fold, told, "%s in %s: %d counted, %d by the journal",
                   row->id, told->place, (int)count, (int)row->count);
    }
    *(more > 0 ? &account->found : &account->lost) += more > 0 ? more : -more;
    *(more > 0 ? &account->found_g : &account->lost_g) +=
        fabs((double)more) * row->mean_g;
    row->count = count;
}

static void sample(StateFold *fold, const Told *told)
{
    int32_t tank = cell_row_of(fold->farm, TABLE_tanks, told->place);
    int32_t at = row_of(fold, told, tank);
    if (at < 0) {
        if (!opens_later(fold, tank, told->happened_on)) {
            fold_doubt(fold, told, "sampled: no fish%s%s stand in %s",
                       *told->batch ? " of " : "", told->batch, told->place);
        }
        return;
    }
    Fish *row = &fold->farm->fish[at];
    bool is_counted = !isnan(told->quantity) && !*told->unit;
    if (is_counted) {
        recount(fold, told, row);
    }
    double mean_g = told->mean_g;
    if (isnan(mean_g) && !isnan(told->grams) && told->count > 0) {
        mean_g = told->grams / (double)told->count;
    }
    if (!isnan(mean_g)) {
        fold->state->fish.growth_g += row->count * (mean_g - row->mean_g);
        row->mean_g = mean_g;
        row->counted_on = told->happened_on;
    }
    row->cv_frac = isnan(told->cv_frac) ? row->cv_frac : told->cv_frac;
    if (row->count == 0) {
        remove_row(fold->farm, at);
    }
}

void fish_fold_told(StateFold *fold, const Told *told, const PlanMove *step)
{
    FishAccount *account = &fold->state->fish;
    Fish part;
    switch (told->kind) {
    case TOLD_STOCKED:
        stock(fold, told, step);
        return;
    case TOLD_MOVED:
        move(fold, told, WHICH_ANY);
        return;
    case TOLD_GRADED:
        move(fold, told,
             strcmp(told->cause, "small") == 0 ? WHICH_LIGHTEST
                                               : WHICH_HEAVIEST);
        return;
    case TOLD_PURGED:
        move(fold, told, WHICH_HEAVIEST);
        return;
    case TOLD_SAMPLED:
        sample(fold, told);
        return;
    case TOLD_DIED:
        if (take(fold, told, WHICH_ANY, &part)) {
            account->died += part.count;
            account->died_g += grams_of(&part);
        }
        return;
    case TOLD_SOLD:
        if (take(fold, told, WHICH_HEAVIEST, &part)) {
            account->sold += part.count;
            account->sold_g += grams_of(&part);
        }
        return;
    default:
        return;
    }
}

/* ---- A step taken as done -------------------------------------------------
 */

static int32_t planned_row(const StateFold *fold, const PlanMove *step)
{
    const Farm *farm = fold->farm;
    const char *batch = farm->plan_fish[step->fish].batch;
    for (int32_t i = 0; i < farm->fish_count; i++) {
        if (farm->fish[i].tank == step->from_tank &&
            is_batch(farm, &farm->fish[i], batch)) {
            return i;
        }
    }
    return -1;
}

/* Weight of a lane beside its batch's mean, as the plan began. */
static double lane_over_batch(const Farm *farm, const PlanFish *lane)
{
    double heads = 0.0;
    double grams = 0.0;
    for (int32_t i = 0; i < farm->plan_fish_count; i++) {
        const PlanFish *other = &farm->plan_fish[i];
        if (strcmp(other->batch, lane->batch) == 0) {
            heads += other->count;
            grams += other->count * other->mean_g;
        }
    }
    return grams > 0.0 ? lane->mean_g * heads / grams : 1.0;
}

void fish_fold_planned(StateFold *fold, const PlanMove *step)
{
    Farm *farm = fold->farm;
    const PlanFish *lane = &farm->plan_fish[step->fish];
    if (step->kind == MOVE_STOCK) {
        Told told = told_blank(TOLD_STOCKED, step->on);
        told.place = farm->tanks[step->to_tank].id;
        told.batch = lane->batch;
        told.count = step->started;
        told.mean_g = lane->mean_g;
        stock(fold, &told, step);
        return;
    }
    int32_t at = planned_row(fold, step);
    if (at < 0) {
        return;
    }
    Fish *row = &farm->fish[at];
    Fish part = *row;
    part.count = step->started < row->count ? step->started : row->count;
    part.mean_g = row->mean_g * lane_over_batch(farm, lane);
    part.cv_frac = 0.0;
    if (part.count == row->count || !fits(row, &part)) {
        part.mean_g = row->mean_g;
        part.cv_frac = row->cv_frac;
    }
    if (part.count == row->count) {
        part = *row;
        remove_row(farm, at);
    } else {
        fish_row_change(row, &part, -1.0);
    }
    if (step->to_tank >= 0) {
        add_part(fold, &part, step->to_tank, step->on);
    } else {
        fold->state->fish.sold += part.count;
        fold->state->fish.sold_g += grams_of(&part);
    }
}

void fish_fold_close(StateFold *fold)
{
    FishAccount *account = &fold->state->fish;
    for (int32_t i = 0; i < fold->farm->fish_count; i++) {
        account->standing += fold->farm->fish[i].count;
        account->standing_g += grams_of(&fold->farm->fish[i]);
    }
}
