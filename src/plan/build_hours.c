/* Hands, fixed work and the nursery of the planning problem. */
#include "plan/build_parts.h"

#include "farm/closures.h"
#include "farm/usual_work.h"

/* Share of a person's working days of a week that no closure takes. */
static double present_share(const Farm *farm, int hand, int32_t monday)
{
    int all = 0;
    int here = 0;
    for (int d = 0; d < 7; d++) {
        if (!(farm->hands[hand].days >> d & 1u)) {
            continue;
        }
        all++;
        here += !closures_keep_hand(farm, hand, monday + d);
    }
    return all == 0 ? 0.0 : (double)here / all;
}

static double usual_minutes(const Build *build)
{
    UsualWork usual[USUAL_WORK_MOST];
    int count = usual_work(build->farm, build->book, usual);
    double minutes = 0.0;
    for (int i = 0; i < count; i++) {
        minutes += usual[i].minutes * usual[i].times_w;
    }
    return minutes;
}

/* Work that no choice of a plan changes, in the week of a Monday. */
static double fixed_hours(const Build *build, int month, int32_t monday)
{
    const Farm *farm = build->farm;
    double minutes = usual_minutes(build);
    for (int i = 0; i < farm->tasks_count; i++) {
        const Task *task = &farm->tasks[i];
        if (task->months >> (month - 1) & 1u) {
            minutes += task->minutes * task->times_w;
        }
    }
    for (int i = 0; i < farm->buyers_count; i++) {
        int days = 0;
        for (int d = 0; d < 7; d++) {
            days += (farm->buyers[i].days >> d & 1u) &&
                    !closures_shut_buyer(farm, i, monday + d);
        }
        minutes += farm->buyers[i].drop_min * days;
    }
    return minutes / 60.0;
}

void build_hours(Build *build)
{
    const Farm *farm = build->farm;
    Problem *problem = build->problem;
    double *fixed = build_weeks(build);
    double *paid = build_weeks(build);
    double *extra = build_weeks(build);
    double *trays = build_weeks(build);
    double wages = 0.0;
    double extra_wage = 0.0;
    double extra_hours = 0.0;
    for (int t = 0; t < build->week_count; t++) {
        int month = build_month(build, t);
        fixed[t] = fixed_hours(build, month, build_monday(build, t));
        for (int h = 0; h < farm->hands_count; h++) {
            const Hand *hand = &farm->hands[h];
            double wage = (double)hand->wage_h_e4 / 10000.0;
            double share = present_share(farm, h, build_monday(build, t));
            paid[t] += hand->hours_w[month - 1] * share;
            extra[t] += hand->extra_h_w * share;
            extra_wage += wage * hand->extra_h_w;
            extra_hours += hand->extra_h_w;
            if (t < build->horizon) {
                wages += wage * hand->hours_w[month - 1];
            }
        }
        for (int n = 0; n < farm->nursery_count; n++) {
            trays[t] += farm->nursery[n].trays[month - 1];
        }
    }
    problem->hours_fixed = fixed;
    problem->hours_paid = paid;
    problem->hours_extra = extra;
    problem->wage_extra_h = extra_hours > 0.0 ? extra_wage / extra_hours : 0.0;
    const BookCommon *common = &build->book->common[0];
    problem->change_price = common->change_h.value * problem->wage_extra_h;
    problem->change_half_weeks = common->change_half_weeks.value;
    problem->wages_paid = wages;
    problem->trays = trays;
}
