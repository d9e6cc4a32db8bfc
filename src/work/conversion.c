/* Feed conversion of a tank from what was told. */
#include "work/conversion.h"

#include <math.h>
#include <string.h>

#include "base/tongue.h"

/* A tank followed through its entries. */
typedef struct Run {
    const char *tank;
    double count;
    double mean_g; /* as last counted or sampled */
    double feed_kg;
    double left_kg; /* that left, less what came */
    int32_t fed_days;
    int32_t last_fed;
} Run;

typedef struct Mark {
    int32_t day; /* DATE_NEVER: none */
    double kg;
    double feed_kg;
    double left_kg;
    int32_t fed_days;
} Mark;

static Mark mark_of(const Run *run, int32_t day)
{
    return (Mark){day, run->count * run->mean_g / 1000.0, run->feed_kg,
                  run->left_kg, run->fed_days};
}

static Run open_run(const Farm *farm, int32_t tank, Mark *out_first)
{
    Run run = {.tank = farm->tanks[tank].id, .last_fed = DATE_ALWAYS};
    double kg = 0.0;
    int32_t day = DATE_NEVER;
    for (int32_t i = 0; i < farm->fish_count; i++) {
        const Fish *fish = &farm->fish[i];
        if (fish->tank == tank) {
            run.count += fish->count;
            kg += fish->count * fish->mean_g / 1000.0;
            day = fish->counted_on;
        }
    }
    run.mean_g = run.count > 0.0 ? 1000.0 * kg / run.count : 0.0;
    *out_first = mark_of(&run, day);
    return run;
}

static double told_kg(const Run *run, const Told *told)
{
    double each_g = isnan(told->mean_g) ? run->mean_g : told->mean_g;
    return !isnan(told->grams) ? told->grams / 1000.0
           : told->count >= 0  ? (double)told->count * each_g / 1000.0
                               : 0.0;
}

static double told_count(const Run *run, const Told *told)
{
    return told->count >= 0    ? (double)told->count
           : run->mean_g > 0.0 ? 1000.0 * told_kg(run, told) / run->mean_g
                               : 0.0;
}

/* Fish that leave the tank (sign 1) or come to it (-1). */
static void pass(Run *run, const Told *told, double sign)
{
    double count = told_count(run, told);
    double kg = told_kg(run, told);
    double left = run->count - sign * count;
    double left_kg = run->count * run->mean_g / 1000.0 - sign * kg;
    run->left_kg += sign * kg;
    run->count = fmax(0.0, left);
    run->mean_g =
        run->count > 0.5 && left_kg > 0.0 ? 1000.0 * left_kg / run->count : 0.0;
}

static void feed(Run *run, const Told *told)
{
    run->feed_kg += isnan(told->grams) ? 0.0 : told->grams / 1000.0;
    run->fed_days += told->happened_on != run->last_fed;
    run->last_fed = told->happened_on;
}

/* Whether the entry is a sample that gives a mean; the tank counted anew where
 * it says so. */
static bool take_sample(Run *run, const Told *told)
{
    if (!isnan(told->quantity)) {
        run->count = told->quantity;
    }
    double mean_g = !isnan(told->mean_g) ? told->mean_g
                    : !isnan(told->grams) && told->count > 0
                        ? told->grams / (double)told->count
                        : NAN;
    if (isnan(mean_g)) {
        return false;
    }
    run->mean_g = mean_g;
    return true;
}

static bool is_here(const Run *run, const char *place)
{
    return strcmp(place, run->tank) == 0;
}

/* Takes an entry into the run; true where it is a sample. */
static bool take(Run *run, const Told *told)
{
    bool leaves = is_here(run, told->place);
    switch (told->kind) {
    case TOLD_FED:
        if (leaves) {
            feed(run, told);
        }
        return false;
    case TOLD_DIED:
    case TOLD_SOLD:
        if (leaves) {
            pass(run, told, 1.0);
        }
        return false;
    case TOLD_MOVED:
    case TOLD_GRADED:
    case TOLD_PURGED:
        if (leaves && *told->to_place) {
            pass(run, told, 1.0);
        } else if (is_here(run, told->to_place)) {
            pass(run, told, -1.0);
        }
        return false;
    case TOLD_STOCKED:
        if (leaves) {
            pass(run, told, -1.0);
        }
        return false;
    case TOLD_SAMPLED:
        return leaves && take_sample(run, told);
    default:
        return false;
    }
}

Conversion conversion_of(const Farm *farm, int32_t tank, const Told *facts,
                         int32_t fact_count)
{
    Mark first;
    Run run = open_run(farm, tank, &first);
    Mark last = {.day = DATE_NEVER};
    for (int32_t i = 0; i < fact_count; i++) {
        const Told *told = &facts[i];
        bool is_sample = take(&run, told);
        if (!is_sample) {
            continue;
        }
        if (last.day != DATE_NEVER) {
            first = last;
        }
        last = mark_of(&run, told->happened_on);
        if (first.day == DATE_NEVER) {
            first = last;
            last.day = DATE_NEVER;
        }
    }
    Conversion made = {
        .from = first.day, .until = last.day, .value = NAN, .lacking = ""};
    if (first.day == DATE_NEVER || last.day == DATE_NEVER) {
        made.lacking = SAY("a sample: weigh 30 fish or more");
        return made;
    }
    made.feed_kg = last.feed_kg - first.feed_kg;
    made.first_kg = first.kg;
    made.last_kg = last.kg;
    made.left_kg = last.left_kg - first.left_kg;
    made.gain_kg = made.last_kg - made.first_kg + made.left_kg;
    made.fed_days = last.fed_days - first.fed_days;
    made.is_known = made.feed_kg > 0.0 && made.gain_kg > 0.0;
    made.value = made.is_known ? made.feed_kg / made.gain_kg : NAN;
    made.lacking = made.feed_kg <= 0.0 ? SAY("feed told between the samples")
                   : made.gain_kg <= 0.0
                       ? SAY("a gain: the samples say that the fish "
                             "weigh no more than before")
                       : "";
    return made;
}
