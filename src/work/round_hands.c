/* The stops of the hands: the day's jobs in their own order, picking first. */
#include "work/round_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/cell.h"
#include "work/hold.h"

/* A number told outside these shares of what was reckoned is asked about once;
 * judged. */
static const double ODD_LOW_FRAC = 0.5;
static const double ODD_HIGH_FRAC = 1.5;
/* Fewer than this share of what usually comes up is warned of; judged. */
static const double FEW_FRAC = 0.8;

enum { NOTHING = -1 };

static const char *phase_word(JobPhase phase)
{
    static const char *const WORDS[] = {[PHASE_ROUND] = "round",
                                        [PHASE_PICK] = "pick",
                                        [PHASE_PLANTS] = "plants",
                                        [PHASE_OUT] = "out",
                                        [PHASE_WET] = "wet"};
    return WORDS[phase];
}

static const char *stop_name(const RoundWork *work, const Job *job)
{
    switch (job->phase) {
    case PHASE_PICK:
        return arena_say(work->arena, "Pick, %s",
                         jobs_stop_name(job->stop, work->arena));
    case PHASE_WET:
        return arena_say(work->arena, "Nets and gravel, %s",
                         jobs_stop_name(job->stop, work->arena));
    case PHASE_PLANTS:
        return arena_say(work->arena, "Plants, %s",
                         jobs_stop_name(job->stop, work->arena));
    case PHASE_ROUND:
    case PHASE_OUT:
        break;
    }
    return arena_say(work->arena, "At the %s",
                     jobs_stop_name(job->stop, work->arena));
}

/* What is told of a job done as it stands in the list; NOTHING where there is a
 * number that only the doer knows. */
static int fact_kind(JobKind kind)
{
    switch (kind) {
    case JOB_PICK:
        return TOLD_PICKED;
    case JOB_SOW:
        return TOLD_SOWN;
    case JOB_SET:
        return TOLD_SET;
    case JOB_CLEAR:
        return TOLD_CLEARED;
    case JOB_STRING:
    case JOB_PRUNE:
        return TOLD_PRUNED;
    case JOB_SHADE:
        return TOLD_SHADED;
    case JOB_DELIVER:
        return TOLD_DELIVERED;
    case JOB_TASK:
    case JOB_ORDER:
    case JOB_CLEAN:
    case JOB_ROUND:
    case JOB_TEST:
    case JOB_VENT:
    case JOB_COUNT:
    case JOB_RENEW:
    case JOB_FEED:
    case JOB_FAST:
    case JOB_CROWD:
    case JOB_SALE:
    case JOB_STOCK:
    case JOB_GRADE:
    case JOB_CATCH:
    case JOB_KIND_COUNT:
        return NOTHING;
    }
    return NOTHING;
}

/* The last part of a bed's deep clean: the bed is clean after it. */
static bool is_last_part(const RoundWork *work, const Job *job)
{
    const JobList *list = &work->ask->week->list;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *other = &list->jobs[i];
        bool is_later =
            other->day > job->day ||
            (other->day == job->day && strcmp(other->id, job->id) > 0);
        if (other->kind == JOB_CLEAN && other->place_count > 0 && is_later &&
            strcmp(other->places[0].id, job->places[0].id) == 0) {
            return false;
        }
    }
    return true;
}

/* The planned batch that such a job is about at that bed; "" where there are
 * several or none. */
static const char *batch_of(const RoundWork *work, const Job *job,
                            const char *bed)
{
    const Farm *farm = work->farm;
    int32_t week = work->ask->week->week;
    const char *found = "";
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        bool is_due =
            job->kind == JOB_SET ? week_of(row->set_on) == week
            : job->kind == JOB_CLEAR
                ? week_of(row->clear_on - 1) == week
                : row->set_on < week + JOBS_DAYS && row->clear_on > week;
        if (row->way == job->way && is_due && job->kind != JOB_SOW &&
            strcmp(farm->beds[row->bed].id, bed) == 0) {
            if (*found) {
                return "";
            }
            found = row->standing >= 0 && job->kind != JOB_SET
                        ? farm->plants[row->standing].id
                        : row->id;
        }
    }
    return found;
}

static void fill_fact(const RoundWork *work, const Job *job, double amount,
                      Told *fact)
{
    fact->job = job->id;
    if (job->way >= 0) {
        fact->way = work->farm->ways[job->way].id;
        fact->batch = *fact->place ? batch_of(work, job, fact->place) : "";
    }
    if (job->kind == JOB_PICK) {
        fact->quantity = amount;
        fact->unit = job->unit;
    } else if (job->kind == JOB_DELIVER) {
        fact->buyer = work->farm->buyers[job->buyer].id;
    } else if (amount > 0.0) {
        fact->count = lround(amount);
    }
}

static bool may_have(const Told *told, ToldFieldId field)
{
    const ToldKindInfo *kind = &TOLD_KIND_TABLE[told->kind];
    return (kind->needs | kind->needs_one | kind->may) >> field & 1u;
}

/* What that kind of entry has no room for is left out. */
static Told allowed(const Told *told)
{
    Told fact = *told;
    fact.way = may_have(told, TOLD_AT_way) ? told->way : "";
    fact.batch = may_have(told, TOLD_AT_batch) ? told->batch : "";
    fact.place = may_have(told, TOLD_AT_place) ? told->place : "";
    fact.count = may_have(told, TOLD_AT_count) ? told->count : -1;
    return fact;
}

/* Why a bed must not be picked today; NULL: it may be. */
static const char *held(const RoundWork *work, const Job *job, const char *bed)
{
    int32_t row =
        job->kind == JOB_PICK ? cell_row_of(work->farm, TABLE_beds, bed) : -1;
    if (row < 0) {
        return NULL;
    }
    Hold hold = hold_of_bed(work->farm, row, &work->ask->hold_facts,
                            work->ask->day, work->arena);
    return hold.why ? arena_text(work->arena, "%s %s", bed,
                                 hold_text(&hold, work->arena))
                    : NULL;
}

static void add_facts(RoundWork *work, const Job *job, RoundItem *item)
{
    int kind = fact_kind(job->kind);
    if (job->kind == JOB_CLEAN && job->place_count > 0 &&
        is_last_part(work, job)) {
        kind = TOLD_CLEANED;
    }
    if (kind == NOTHING) {
        return;
    }
    Told fact = told_blank((ToldKind)kind, work->ask->day);
    for (int32_t i = 0; i < job->place_count; i++) {
        const JobPlace *place = &job->places[i];
        const char *hold = held(work, job, place->id);
        if (hold) {
            item->hold =
                item->hold ? arena_text(work->arena, "%s; %s", item->hold, hold)
                           : hold;
            continue;
        }
        fact.place = place->id;
        double amount = job->place_count > 1 ? place->amount : job->amount;
        fact.count = -1;
        fill_fact(work, job, place->amount > 0.0 ? place->amount : amount,
                  &fact);
        Told entry = allowed(&fact);
        round_add_fact(work, item, &entry);
    }
    if (job->place_count == 0) {
        fill_fact(work, job, job->amount, &fact);
        Told entry = allowed(&fact);
        round_add_fact(work, item, &entry);
    }
}

/* What goes to the buyer that day: told with one tap as it is listed. */
static void add_handed(RoundWork *work, const Job *job, RoundItem *item)
{
    const Farm *farm = work->farm;
    for (int32_t i = 0; i < work->loads.count; i++) {
        const Load *load = &work->loads.loads[i];
        const Order *order = &farm->orders[load->order];
        const Product *product = &farm->products[order->product];
        bool is_weighed = strcmp(product->unit, "kg") == 0;
        double units = is_weighed ? round(10.0 * load->expected) / 10.0
                                  : round(load->expected);
        if (load->day != work->ask->day || order->buyer != job->buyer ||
            !(units > 0.0)) {
            continue;
        }
        Told fact = told_blank(TOLD_DELIVERED, work->ask->day);
        fact.job = job->id;
        fact.buyer = farm->buyers[order->buyer].id;
        fact.product = product->id;
        fact.quantity = units;
        fact.unit = product->unit;
        round_add_fact(work, item, &fact);
        item->detail = arena_text(work->arena, "%s%s%s", item->detail,
                                  *item->detail ? "; " : "",
                                  load_text(farm, load, work->arena));
    }
}

static void set_number(const Job *job, RoundItem *item)
{
    if (job->amount <= 0.0) {
        return;
    }
    item->value =
        round_value(job->kind == JOB_PICK ? "quantity" : "count", job->unit);
    item->value.amount = job->amount;
    item->value.low = job->low;
    item->value.high = job->high;
    item->value.odd_below = ODD_LOW_FRAC * fmin(job->low, job->amount);
    item->value.odd_above = ODD_HIGH_FRAC * fmax(job->high, job->amount);
}

/* The warmest that was told of a bench today; NAN. */
static double bench_degc(const RoundWork *work)
{
    double most = NAN;
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        bool is_degc = strcmp(fact->quantity_key, "temp_degc") == 0 ||
                       strncmp(fact->quantity_key, "air_", 4) == 0;
        for (int32_t n = 0; n < work->farm->nursery_count; n++) {
            if (fact->kind == TOLD_READ && is_degc &&
                round_is_today(work, fact) &&
                strcmp(fact->place, work->farm->nursery[n].id) == 0) {
                most = isnan(most) ? fact->value : fmax(most, fact->value);
            }
        }
    }
    return most;
}

/* A bench so warm that far fewer come up: said before the seed is spent. */
static void warn_sowing(RoundWork *work, const Job *job, RoundItem *item)
{
    double degc = bench_degc(work);
    WayFacts facts;
    if (job->kind != JOB_SOW || isnan(degc) || job->way < 0) {
        return;
    }
    Err err = jobs_way(work->usual.jobs, job->way, &facts);
    if (err.kind != ERR_OK) {
        return;
    }
    double share = emergence_germination_frac(facts.emergence, degc);
    double usual = facts.book_crop->germination_frac.value;
    bool is_over = degc > facts.book_crop->germ_most_degc.value;
    if (is_over || share < FEW_FRAC * usual) {
        item->warning = arena_say(
            work->arena,
            "The bench was %.0f degC: %s come up so warm. Sow in the evening, "
            "in the shade.%s%s",
            degc,
            is_over || isnan(share)
                ? say(work->arena, "few or none")
                : arena_say(work->arena, "%.0f of 100", 100.0 * share),
            *item->warning ? " " : "", item->warning);
    }
}

static void add_job(RoundWork *work, RoundStop *stop, const Job *job)
{
    RoundItem item =
        round_item(job->kind == JOB_PICK ? ROUND_PICK : ROUND_DO, job->id,
                   job->place_count > 0 ? job->places[0].id : "");
    item.job = job;
    item.text = job_text(job, work->arena);
    item.detail = job->note;
    item.caution = job_caution_text(job, work->arena);
    item.warning = job->warning;
    item.places = job->places;
    item.place_count = job->place_count;
    set_number(job, &item);
    if (job->kind == JOB_DELIVER) {
        add_handed(work, job, &item);
    }
    if (item.fact_count == 0) {
        add_facts(work, job, &item);
    }
    warn_sowing(work, job, &item);
    round_add(work, stop, &item);
}

void round_add_hands(RoundWork *work)
{
    const JobList *list = &work->ask->week->list;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (job->day != work->ask->day || job->phase == PHASE_ROUND) {
            continue;
        }
        const char *id =
            arena_text(work->arena, "%s-%s", phase_word(job->phase), job->stop);
        RoundStop *stop = round_stop(work, id, stop_name(work, job), i);
        stop->is_hands = true;
        add_job(work, stop, job);
    }
}
