/* Gives each job of a week its day and its people. */
#include "work/allot.h"

#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/closures.h"

enum { DAYS = 7 };

static const double MINUTES_AN_HOUR = 60.0;

typedef struct Allotment {
    const Farm *farm;
    int32_t week;
    const JobList *list;
    HandWeek *hands;
} Allotment;

static int working_days(const Hand *hand)
{
    int days = 0;
    for (int d = 0; d < DAYS; d++) {
        days += (hand->days >> d & 1u) != 0;
    }
    return days;
}

/* Hours of the month that holds the week's Thursday, as a plan counts them. */
static void fill_hours(const Allotment *allotment, int index)
{
    const Hand *hand = &allotment->farm->hands[index];
    HandWeek *week = &allotment->hands[index];
    *week = (HandWeek){0};
    int days = working_days(hand);
    double hours = hand->hours_w[date_month(allotment->week + 3) - 1];
    for (int d = 0; d < DAYS && days > 0; d++) {
        bool is_here =
            (hand->days >> d & 1u) &&
            !closures_keep_hand(allotment->farm, index, allotment->week + d);
        week->minutes_had[d] = is_here ? hours * MINUTES_AN_HOUR / days : 0.0;
    }
}

static bool may_do(const Allotment *allotment, int hand, int skill, int day)
{
    const HandWeek *week = &allotment->hands[hand];
    return (allotment->farm->hands[hand].may >> skill & 1u) &&
           week->minutes_had[day] > 0.0;
}

static double minutes_left(const HandWeek *week, int day)
{
    return week->minutes_had[day] - week->minutes_used[day];
}

/* One who is at that stop for that part of the day already, may do it and has
 * time for it; else -1. Nobody walks there twice. */
static int who_is_there(const Allotment *allotment, const Job *job, int day)
{
    for (int32_t i = 0; i < allotment->list->count; i++) {
        const Job *at = &allotment->list->jobs[i];
        bool is_there = at->hand_count == 1 && at->phase == job->phase &&
                        at->day == allotment->week + day &&
                        strcmp(at->stop, job->stop) == 0;
        if (is_there && may_do(allotment, at->hands[0], job->skill, day) &&
            minutes_left(&allotment->hands[at->hands[0]], day) >=
                job->minutes) {
            return at->hands[0];
        }
    }
    return -1;
}

/* The people with most time left on that day, at most job->people; returns how
 * many, and the least time any of them has left after it. */
static int choose(const Allotment *allotment, const Job *job, int day,
                  int out_hands[JOB_HANDS_MAX], double *out_left)
{
    int count = 0;
    int wanted = job->people < JOB_HANDS_MAX ? job->people : JOB_HANDS_MAX;
    double least = 0.0;
    int there = wanted == 1 ? who_is_there(allotment, job, day) : -1;
    if (there >= 0) {
        out_hands[count++] = there;
        least = minutes_left(&allotment->hands[there], day);
    }
    while (count < wanted) {
        int best = -1;
        double most = 0.0;
        for (int h = 0; h < allotment->farm->hands_count; h++) {
            bool is_taken = false;
            for (int i = 0; i < count; i++) {
                is_taken |= out_hands[i] == h;
            }
            double left = minutes_left(&allotment->hands[h], day);
            if (!is_taken && may_do(allotment, h, job->skill, day) &&
                (best < 0 || left > most)) {
                best = h;
                most = left;
            }
        }
        if (best < 0) {
            break;
        }
        out_hands[count++] = best;
        least = most;
    }
    *out_left = count ? least - job->minutes / count : 0.0;
    return count;
}

static void give(const Allotment *allotment, Job *job, int day,
                 const int *hands, int count)
{
    job->day = allotment->week + day;
    job->hand_count = count;
    for (int i = 0; i < count; i++) {
        job->hands[i] = hands[i];
        allotment->hands[hands[i]].minutes_used[day] += job->minutes / count;
    }
}

static void allot_job(const Allotment *allotment, Job *job)
{
    int best_hands[JOB_HANDS_MAX] = {0};
    int best_day = job->earliest - allotment->week;
    int best_count = 0;
    double best_left = 0.0;
    for (int32_t at = job->earliest; at <= job->latest; at++) {
        int hands[JOB_HANDS_MAX] = {0};
        double left = 0.0;
        int day = (int)(at - allotment->week);
        int count = choose(allotment, job, day, hands, &left);
        bool is_better = count > best_count ||
                         (count == best_count && count > 0 && left > best_left);
        if (is_better) {
            memcpy(best_hands, hands, sizeof hands);
            best_day = day;
            best_count = count;
            best_left = left;
        }
        if (count >= job->people && left >= 0.0) {
            break;
        }
    }
    give(allotment, job, best_day, best_hands, best_count);
}

/* Work that cannot wait first, the longest of it first; ties by id, so that
 * the order of the list does not matter. */
static int by_need(const void *left, const void *right)
{
    const Job *a = *(Job *const *)left;
    const Job *b = *(Job *const *)right;
    int32_t a_wait = a->latest - a->earliest;
    int32_t b_wait = b->latest - b->earliest;
    if (a_wait != b_wait) {
        return a_wait < b_wait ? -1 : 1;
    }
    if (a->people != b->people) {
        return a->people > b->people ? -1 : 1;
    }
    if (a->minutes < b->minutes || a->minutes > b->minutes) {
        return a->minutes > b->minutes ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

/* What is fed is part of the round: whoever walks it that day. */
static void join_round(JobList *list)
{
    for (int32_t i = 0; i < list->count; i++) {
        Job *job = &list->jobs[i];
        bool is_part = job->kind == JOB_FEED || job->kind == JOB_FAST;
        for (int32_t j = 0; j < list->count && is_part; j++) {
            const Job *round = &list->jobs[j];
            if (round->kind == JOB_ROUND && round->day == job->day) {
                memcpy(job->hands, round->hands, sizeof job->hands);
                job->hand_count = round->hand_count;
                break;
            }
        }
    }
}

void allot_week(const Farm *farm, int32_t week, JobList *list,
                HandWeek *out_hands)
{
    Allotment allotment = {farm, week, list, out_hands};
    for (int h = 0; h < farm->hands_count; h++) {
        fill_hours(&allotment, h);
    }
    Job **order = ARENA_ARRAY(list->arena, Job *, list->count);
    for (int32_t i = 0; i < list->count; i++) {
        order[i] = &list->jobs[i];
    }
    if (list->count > 1) {
        qsort(order, (size_t)list->count, sizeof *order, by_need);
    }
    for (int32_t i = 0; i < list->count; i++) {
        allot_job(&allotment, order[i]);
    }
    join_round(list);
}
