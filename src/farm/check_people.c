/* Sense of the people: hours there can be, work somebody may do. */
#include "base/date.h"
#include "farm/checker.h"

enum { MONTHS = 12, MIN_PER_H = 60, WEEKDAYS = 7 };

/* More than this on each working day is a slip of the pen. */
#define HOURS_A_DAY_MOST 16.0

static int day_count(uint32_t days)
{
    int count = 0;
    for (int i = 0; i < WEEKDAYS; i++) {
        count += (int)(days >> i & 1u);
    }
    return count;
}

static void check_hand(const Checker *c, const Hand *hand)
{
    int days = day_count(hand->days);
    for (int month = 0; month < MONTHS; month++) {
        if (hand->hours_w[month] > HOURS_A_DAY_MOST * days) {
            check_tell(c, TABLE_hands, hand, "hours_w",
                       "hours_w: at most %.0f hours a day on %d working days, "
                       "%.4g a week",
                       HOURS_A_DAY_MOST, days, HOURS_A_DAY_MOST * days);
            return;
        }
    }
}

static void check_skills(const Checker *c)
{
    uint32_t may = 0;
    int net_count = 0;
    for (int32_t i = 0; i < c->farm->hands_count; i++) {
        may |= c->farm->hands[i].may;
        net_count += (int)(c->farm->hands[i].may >> SKILL_NET & 1u);
    }
    for (int32_t i = 0; i < c->farm->tasks_count; i++) {
        const Task *task = &c->farm->tasks[i];
        if (c->farm->hands_count > 0 && !(may >> task->skill & 1u)) {
            check_tell(c, TABLE_tasks, task, "skill",
                       "somebody who may %s; nobody may",
                       FARM_WORDS[WORDS_SKILLS].words[task->skill]);
        }
    }
    if (c->farm->fish_count > 0 && c->farm->hands_count > 0 && net_count < 2) {
        check_notice(c, TABLE_hands, NULL, NULL,
                     "netting takes two, and %d may do it", net_count);
    }
}

/* The work of every week must fit the hours there are. */
static void check_hours(const Checker *c)
{
    for (int month = 0; month < MONTHS; month++) {
        double have_h = 0.0;
        double want_h = 0.0;
        for (int32_t i = 0; i < c->farm->hands_count; i++) {
            have_h +=
                c->farm->hands[i].hours_w[month] + c->farm->hands[i].extra_h_w;
        }
        for (int32_t i = 0; i < c->farm->tasks_count; i++) {
            const Task *task = &c->farm->tasks[i];
            if (task->months >> month & 1u) {
                want_h += task->minutes * task->times_w / MIN_PER_H;
            }
        }
        if (want_h > have_h) {
            check_tell(c, TABLE_tasks, NULL, NULL,
                       "work of every week that fits the hours of hands.csv: "
                       "in %s it takes %.4g of %.4g",
                       date_month_name(month + 1), want_h, have_h);
            return;
        }
    }
}

static void check_contacts(const Checker *c)
{
    int32_t count = c->farm->contacts_count;
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    for (int32_t i = 0; i < count; i++) {
        keys[i] = (CheckKey){.a = c->farm->contacts[i].turn, .row = i};
    }
    check_sort(keys, count);
    for (int32_t i = 1; i < count; i++) {
        const Contact *contact = &c->farm->contacts[keys[i].row];
        if (keys[i].a == keys[i - 1].a && keys[i].a != COUNT_WRONG) {
            check_notice(c, TABLE_contacts, contact, "turn",
                         "%s and %s are to be rung at the same turn",
                         c->farm->contacts[keys[i - 1].row].id, contact->id);
        }
    }
}

void check_people(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->hands_count; i++) {
        check_hand(c, &c->farm->hands[i]);
    }
    check_skills(c);
    check_hours(c);
    check_contacts(c);
}
