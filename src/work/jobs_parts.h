/* The pieces of work/jobs.c, each a file of its own. */
#ifndef LEAT_WORK_JOBS_PARTS_H
#define LEAT_WORK_JOBS_PARTS_H

#include "work/jobs.h"

/* What orders take, of the weeks that were asked for so far. */
typedef struct JobsDemand {
    struct DemandWeek *first;
} JobsDemand;

/* What all pieces share. */
typedef struct Jobs {
    const Farm *farm;
    const Book *book;
    const JobOutlook *outlook;
    int32_t week;
    Arena *arena;
    JobList *list;
    JobsDemand *demand; /* empty at first */
    int32_t day;        /* whose workings are asked for */
    Workings *workings;
} Jobs;

/* A way of the farm with its rows of the book. */
typedef struct WayFacts {
    const Way *way;
    const Crop *crop;
    const BookWay *book;
    const BookCrop *book_crop;
    const EmergenceRow *emergence;
    const char *name;
} WayFacts;

/* The farm's way of that row. */
NODISCARD Err jobs_way(const Jobs *jobs, int32_t way, WayFacts *out);

/* "withy-reach.pick.lettuce-head.H1.2027-03-04", from the three last parts. */
const char *jobs_id(const Jobs *jobs, JobKind kind, const char *what,
                    const char *where, int32_t when);

/* Whether a day lies in the week. */
bool jobs_has_day(const Jobs *jobs, int32_t day);

/* Minutes of a task of the book; 0 where it has none of that name. */
double jobs_task_minutes(const Jobs *jobs, const char *task);

/* The bed's tunnel's id, or "open". */
const char *jobs_tunnel_id(const Jobs *jobs, int32_t bed);

/* Units that orders take of a way (or, with way -1, of fish) on one day:
 * what the plan keeps, shared over the buyers' days, and outlets' room.
 */
double jobs_demand(const Jobs *jobs, int32_t way, int32_t day);

/* The same of orders alone, or of outlets alone. */
double jobs_demand_of(const Jobs *jobs, int32_t way, int32_t day,
                      bool is_outlet);

/* Sow, count, set, string, prune, renew, clear; deep cleans. */
NODISCARD Err jobs_add_plants(Jobs *jobs);
NODISCARD Err jobs_add_picks(Jobs *jobs);
void jobs_add_cleans(Jobs *jobs);

/* Feed, fast, grade, stock, catch, sale, order of young fish. */
NODISCARD Err jobs_add_fish(Jobs *jobs);

/* Gives every job its stop. */
void jobs_set_stops(Jobs *jobs);

/* What air that warm at its warmest asks for: "open by mid-morning". */
const char *jobs_vent_act(double most_degc);

/* The farm's weekly tasks, tests, vents, shade, deliveries. */
void jobs_add_rounds(Jobs *jobs);

#endif
