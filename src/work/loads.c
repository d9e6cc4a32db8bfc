/* The load list: what goes in the van on which day for whom. */
#include "work/loads.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/tongue.h"
#include "work/due.h"

/* What is counted on, expected, hoped for: three stocks side by side. */
enum { LOW, MIDDLE, HIGH, VIEWS };

enum { HALVINGS = 50 };

static const double LEAST_UNITS = 1e-6;
/* A plan that gives so much more has it from a store, or sooner in the week. */
static const double LEAST_COUNTED_ON = 0.5;
static const double LEAST_GIVEN = 1e-3; /* a gram is nothing */
static const double LEAST_KG = 0.05;    /* less is not missed */
static const double WHOLE_SLACK = 0.05; /* a head short of a hair is a head */

typedef struct Loading {
    const Farm *farm;
    const JobsWeek *week;
    Arena *arena;
    double *stock[VIEWS]; /* by row of ways, the last is fish, and by day */
    int day;              /* that is served: what came up to it is there */
    Load *loads;
    double (*given)[VIEWS]; /* by load */
    int32_t count;
    int32_t *group; /* loads of one product, day and firmness */
    int32_t group_count;
    double *want[2]; /* of the group: the plan's, and what is left beside */
    double *share;   /* of the group */
} Loading;

static int32_t goods_of(const Farm *farm, const Part *part)
{
    return part->way >= 0 ? part->way : farm->ways_count;
}

/* ---- what is there ------------------------------------------------------- */

static void bring(Loading *loading)
{
    const JobList *list = &loading->week->list;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        bool is_pick =
            job->kind == JOB_PICK && job->way >= 0 && !job->is_stored;
        if (!is_pick && job->kind != JOB_SALE) {
            continue;
        }
        int32_t goods = is_pick ? job->way : loading->farm->ways_count;
        int32_t at = goods * JOBS_DAYS + (job->day - loading->week->week);
        loading->stock[LOW][at] += job->low;
        loading->stock[MIDDLE][at] += job->amount;
        loading->stock[HIGH][at] += job->high;
    }
}

/* What came up to the day and is not given away. */
static double there_of(const Loading *loading, int view, int32_t goods)
{
    double units = 0.0;
    for (int d = 0; d <= loading->day; d++) {
        units += loading->stock[view][goods * JOBS_DAYS + d];
    }
    return units;
}

/* The latest goes first: what was there before may serve an earlier day. */
static void remove_units(Loading *loading, int view, int32_t goods,
                         double units)
{
    for (int d = loading->day; d >= 0; d--) {
        double *left = &loading->stock[view][goods * JOBS_DAYS + d];
        double part = fmin(*left, units);
        *left -= part;
        units -= part;
    }
}

/* Units of each goods in so many units of a product. A part may give more or
 * less of its share, within the mix's limits, so long as the sum is whole: out
 * of what is there, the parts' least first. False where they do not reach. */
static bool blend(const Loading *loading, int view, int32_t product,
                  double units, double *out_taken)
{
    const Farm *farm = loading->farm;
    double missing = 0.0; /* of the sum, once all parts give their least */
    double room = 0.0;
    for (int32_t p = 0; p < farm->parts_count; p++) {
        const Part *part = &farm->parts[p];
        out_taken[p] = 0.0;
        if (part->product != product) {
            continue;
        }
        double there = there_of(loading, view, goods_of(farm, part));
        double least = part->low_frac * part->units * units;
        double most = fmin(part->high_frac * part->units * units, there);
        if (there < least - LEAST_UNITS) {
            return false;
        }
        out_taken[p] = least;
        missing += part->units * units - least;
        room += fmax(most - least, 0.0);
    }
    if (missing > room + LEAST_UNITS) {
        return false;
    }
    double filled = room > 0.0 ? fmin(missing / room, 1.0) : 0.0;
    for (int32_t p = 0; p < farm->parts_count; p++) {
        const Part *part = &farm->parts[p];
        if (part->product == product) {
            double most = fmin(part->high_frac * part->units * units,
                               there_of(loading, view, goods_of(farm, part)));
            out_taken[p] += filled * fmax(most - out_taken[p], 0.0);
        }
    }
    return true;
}

static bool is_whole(const Farm *farm, int32_t product)
{
    return strcmp(farm->products[product].unit, "kg") != 0;
}

/* Takes as many units as there are, at most so many; returns how many. */
static double take(Loading *loading, int view, int32_t product, double most)
{
    const Farm *farm = loading->farm;
    double *taken = ARENA_ARRAY(loading->arena, double, farm->parts_count);
    double low = 0.0;
    double high = most;
    if (!blend(loading, view, product, most, taken)) {
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2.0;
            bool is_there = blend(loading, view, product, middle, taken);
            low = is_there ? middle : low;
            high = is_there ? high : middle;
        }
        high = is_whole(farm, product) ? floor(low + WHOLE_SLACK) : low;
        if (!blend(loading, view, product, high, taken) &&
            !blend(loading, view, product, low, taken)) {
            return 0.0;
        }
    }
    for (int32_t p = 0; p < farm->parts_count; p++) {
        remove_units(loading, view, goods_of(farm, &farm->parts[p]), taken[p]);
    }
    return high;
}

/* ---- who gets it --------------------------------------------------------- */

static double sum(const double *values, int32_t count)
{
    double total = 0.0;
    for (int32_t i = 0; i < count; i++) {
        total += values[i];
    }
    return total;
}

/* Whole units: each its whole part, then one by one who lacks most. */
static void make_whole(double *share, int32_t count)
{
    int32_t left = (int32_t)lround(sum(share, count));
    double *rest = share + count;
    for (int32_t i = 0; i < count; i++) {
        double whole = floor(share[i] + LEAST_UNITS);
        rest[i] = share[i] - whole;
        share[i] = whole;
        left -= (int32_t)whole;
    }
    for (; left > 0; left--) {
        int32_t most = 0;
        for (int32_t i = 1; i < count; i++) {
            most = rest[i] > rest[most] ? i : most;
        }
        share[most] += 1.0;
        rest[most] -= 1.0;
    }
}

/* Shares out so many units in the group: what the plan gives each, then by what
 * each still lacks. */
static void share_out(Loading *loading, double units, bool whole)
{
    int32_t count = loading->group_count;
    double *share = loading->share;
    memset(share, 0, (size_t)count * sizeof *share);
    for (int i = 0; i < 2; i++) {
        double wanted = sum(loading->want[i], count);
        double frac = wanted > units ? units / wanted : 1.0;
        for (int32_t j = 0; j < count; j++) {
            share[j] += frac * loading->want[i][j];
        }
        units = fmax(0.0, units - frac * wanted); /* never a rounding below */
    }
    if (whole) {
        make_whole(share, count);
    }
}

/* Drops the last of the group that would get less than is of use to it; false
 * where there is none. */
static bool drop_useless(Loading *loading)
{
    for (int32_t i = loading->group_count; i-- > 0;) {
        const Load *load = &loading->loads[loading->group[i]];
        double least = loading->farm->orders[load->order].least;
        bool is_full = loading->share[i] >= load->ordered - LEAST_UNITS;
        if (loading->share[i] > 0.0 && loading->share[i] < least && !is_full) {
            loading->want[0][i] = 0.0;
            loading->want[1][i] = 0.0;
            return true;
        }
    }
    return false;
}

static void serve_group(Loading *loading, int view, int32_t product)
{
    double all = 0.0;
    for (int32_t i = 0; i < loading->group_count; i++) {
        const Load *load = &loading->loads[loading->group[i]];
        loading->want[0][i] = fmin(load->planned, load->ordered);
        loading->want[1][i] = load->ordered - loading->want[0][i];
        all += load->ordered;
    }
    double units = take(loading, view, product, all);
    do {
        share_out(loading, units, is_whole(loading->farm, product));
    } while (drop_useless(loading));
    for (int32_t i = 0; i < loading->group_count; i++) {
        double units_given = loading->share[i];
        loading->given[loading->group[i]][view] =
            units_given > LEAST_GIVEN ? units_given : 0.0;
    }
}

static void serve_day(Loading *loading, int32_t firmness)
{
    const Farm *farm = loading->farm;
    int32_t day = loading->week->week + loading->day;
    for (int32_t product = 0; product < farm->products_count; product++) {
        loading->group_count = 0;
        for (int32_t i = 0; i < loading->count; i++) {
            const Order *order = &farm->orders[loading->loads[i].order];
            if (loading->loads[i].day == day && order->product == product &&
                order->firmness == firmness) {
                loading->group[loading->group_count++] = i;
            }
        }
        for (int view = 0; view < VIEWS && loading->group_count > 0; view++) {
            serve_group(loading, view, product);
        }
    }
}

/* ---- the list ------------------------------------------------------------ */

static void add_due(Loading *loading)
{
    const Farm *farm = loading->farm;
    const Due *dues = due_of_week(farm, loading->week->week, loading->arena);
    for (int32_t o = 0; o < farm->orders_count; o++) {
        const Due *due = &dues[o];
        bool whole = is_whole(farm, farm->orders[o].product);
        for (int d = 0; d < JOBS_DAYS; d++) {
            double ordered = due_on_day(due, due->wanted, whole, d);
            if (ordered > 0.0) {
                loading->loads[loading->count++] =
                    (Load){.day = loading->week->week + d,
                           .order = o,
                           .ordered = ordered,
                           .planned = due_on_day(due, due->kept, false, d),
                           .from_day = DATE_NEVER};
            }
        }
    }
}

static bool is_part(const Farm *farm, int32_t product, const Job *job)
{
    for (int32_t p = 0; p < farm->parts_count; p++) {
        const Part *part = &farm->parts[p];
        bool is_way =
            job->kind == JOB_PICK && part->way == job->way && !job->is_stored;
        bool is_fish = job->kind == JOB_SALE && part->way < 0;
        if (part->product == product && (is_way || is_fish)) {
            return true;
        }
    }
    return false;
}

/* Where the last picking up to the day brings it from. */
static void find_from(const Loading *loading, Load *load)
{
    const JobList *list = &loading->week->list;
    int32_t product = loading->farm->orders[load->order].product;
    JobPlace *from = NULL;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (job->day > load->day || !is_part(loading->farm, product, job)) {
            continue;
        }
        if (load->from_day == DATE_NEVER || job->day > load->from_day) {
            load->from_day = job->day; /* the list goes by days */
            load->from_count = 0;
            from = NULL;
        }
        size_t had = (size_t)load->from_count;
        size_t has = had + (size_t)job->place_count;
        if (has > had) {
            from = arena_grow(loading->arena, from, had, has, sizeof *from);
            memcpy(from + had, job->places,
                   (size_t)job->place_count * sizeof *from);
            load->from_count = (int32_t)has;
        }
    }
    load->from = from;
}

/* What the plan gives beyond the week's picking was picked before and put by:
 * where there is a cold store, and no part of the product is picked now. */
static void take_from_store(const Loading *loading, Load *load)
{
    bool is_stored = loading->farm->stores_count > 0 &&
                     load->from_day == DATE_NEVER &&
                     load->planned > load->expected;
    if (is_stored) {
        load->is_stored = true;
        load->expected = fmin(load->planned, load->ordered);
        load->low = load->expected;
        load->high = load->expected;
    }
}

static void finish(Loading *loading)
{
    for (int32_t i = 0; i < loading->count; i++) {
        Load *load = &loading->loads[i];
        const double *given = loading->given[i];
        bool is_outlet =
            loading->farm->orders[load->order].firmness == ORDER_OUTLET;
        load->expected = given[MIDDLE];
        load->low = fmin(given[LOW], given[MIDDLE]);
        load->high = fmax(given[HIGH], given[MIDDLE]);
        find_from(loading, load);
        if (!is_outlet) {
            take_from_store(loading, load);
            load->short_by = load->ordered - load->expected;
        }
    }
}

typedef struct Ranked {
    Load load;
    int32_t buyer;
    int32_t firmness;
} Ranked;

static int compare(const void *left, const void *right)
{
    const Ranked *a = left;
    const Ranked *b = right;
    const int32_t keys[][2] = {{a->load.day, b->load.day},
                               {a->buyer, b->buyer},
                               {a->firmness, b->firmness},
                               {a->load.order, b->load.order}};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (keys[i][0] != keys[i][1]) {
            return keys[i][0] < keys[i][1] ? -1 : 1;
        }
    }
    return 0;
}

static void sort_loads(Loading *loading)
{
    Ranked *rows = ARENA_ARRAY(loading->arena, Ranked, loading->count);
    for (int32_t i = 0; i < loading->count; i++) {
        const Order *order = &loading->farm->orders[loading->loads[i].order];
        rows[i] = (Ranked){loading->loads[i], order->buyer, order->firmness};
    }
    if (loading->count > 1) {
        qsort(rows, (size_t)loading->count, sizeof *rows, compare);
    }
    for (int32_t i = 0; i < loading->count; i++) {
        loading->loads[i] = rows[i].load;
    }
}

JobLoads loads_of_week(const Farm *farm, const JobsWeek *week, Arena *arena)
{
    int32_t most = farm->orders_count * JOBS_DAYS;
    Loading loading = {.farm = farm, .week = week, .arena = arena};
    for (int view = 0; view < VIEWS; view++) {
        loading.stock[view] =
            ARENA_ARRAY(arena, double, (farm->ways_count + 1) * JOBS_DAYS);
    }
    loading.loads = ARENA_ARRAY(arena, Load, most);
    loading.given = arena_alloc(arena, (size_t)most, sizeof *loading.given);
    loading.group = ARENA_ARRAY(arena, int32_t, farm->orders_count);
    loading.want[0] = ARENA_ARRAY(arena, double, farm->orders_count);
    loading.want[1] = ARENA_ARRAY(arena, double, farm->orders_count);
    loading.share = ARENA_ARRAY(arena, double, 2 * farm->orders_count);
    add_due(&loading);
    bring(&loading);
    for (int32_t rule = ORDER_FIRM; rule <= ORDER_OUTLET; rule++) {
        for (int d = 0; d < JOBS_DAYS; d++) {
            loading.day = d;
            serve_day(&loading, rule);
        }
    }
    finish(&loading);
    sort_loads(&loading);
    return (JobLoads){loading.loads, loading.count};
}

const char *load_rule(const Farm *farm, const Load *load)
{
    return FARM_WORDS[WORDS_FIRMNESSES]
        .words[farm->orders[load->order].firmness];
}

static const char *range_text(double low, double high, const char *unit,
                              Arena *arena)
{
    const char *from = job_quantity(low, unit, arena);
    const char *until = job_quantity(high, unit, arena);
    return strcmp(from, until) == 0
               ? ""
               : arena_say(arena, " (%s to %s)", from, until);
}

bool load_is_short(const Farm *farm, const Load *load)
{
    int32_t product = farm->orders[load->order].product;
    return load->short_by >= (is_whole(farm, product) ? 0.5 : LEAST_KG);
}

const char *load_text(const Farm *farm, const Load *load, Arena *arena)
{
    const Product *product = &farm->products[farm->orders[load->order].product];
    const char *unit = product->unit;
    bool is_outlet = farm->orders[load->order].firmness == ORDER_OUTLET;
    bool is_short = load_is_short(farm, load);
    const char *of = is_short
                         ? arena_say(arena, " of %s",
                                     job_quantity(load->ordered, unit, arena))
                         : "";
    bool is_counted_on = load->planned >= load->expected + LEAST_COUNTED_ON;
    const char *more = is_counted_on
                           ? arena_say(arena, " (the plan counts on %s)",
                                       job_quantity(load->planned, unit, arena))
                           : "";
    const char *lacks =
        is_short    ? arena_say(arena, ", short %s%s",
                                job_quantity(load->short_by, unit, arena), more)
        : is_outlet ? say(arena, ", no order")
                    : "";
    return arena_text(
        arena, "%s %s%s %s%s%s", *product->name ? product->name : product->id,
        job_quantity(load->expected, unit, arena), of,
        job_unit(unit, fmax(load->expected, load->ordered), arena),
        range_text(load->low, load->high, unit, arena), lacks);
}
