/* Sense of the accepted plan's tables, which a person may have edited. */
#include "base/date.h"
#include "farm/checker.h"

/* A plan is stored with all its tables, also those that have no rows. */
static void check_is_whole(const Checker *c)
{
    for (int i = 0; i < PLAN_TABLE_COUNT; i++) {
        TableId part = FARM_PLAN_TABLES[i];
        if (part != TABLE_plan && !c->read->sheets[part].is_there) {
            check_tell(
                c, part, NULL, NULL,
                "this table of the plan accepted in plan.csv (%s); it is "
                "missing: accept a plan anew, or take plan.csv away",
                FARM_TABLES[part].meaning);
        }
    }
}

/* Tables of the plan without a plan say what belongs to nothing. */
static void check_head(const Checker *c)
{
    int32_t plans = c->farm->plan_count;
    if (plans > 1) {
        check_tell(c, TABLE_plan, &c->farm->plan[1], "id",
                   "one accepted plan, not %d", (int)plans);
    }
    if (plans > 0 && c->farm->plan[0].from != DATE_WRONG &&
        date_weekday(c->farm->plan[0].from) != 0) {
        check_tell(c, TABLE_plan, &c->farm->plan[0], "from", "from: a Monday");
    }
    if (plans > 0) {
        check_is_whole(c);
        return;
    }
    if (c->farm->plan_plants_count > 0) {
        check_tell(c, TABLE_plan_plants, NULL, NULL,
                   "no rows without an accepted plan in plan.csv");
    }
    if (c->farm->plan_moves_count > 0 || c->farm->plan_fish_count > 0) {
        check_tell(c, TABLE_plan_fish, NULL, NULL,
                   "no rows without an accepted plan in plan.csv");
    }
}

static void check_batch(const Checker *c, const PlanPlant *batch)
{
    if (check_is_before(batch->set_on, batch->sow_on)) {
        check_tell(c, TABLE_plan_plants, batch, "set_on",
                   "set_on: not before sow_on");
    }
    if (check_is_before(batch->pick_until, batch->pick_from)) {
        check_tell(c, TABLE_plan_plants, batch, "pick_until",
                   "pick_until: not before pick_from");
    }
    if (check_is_before(batch->clear_on, batch->set_on)) {
        check_tell(c, TABLE_plan_plants, batch, "clear_on",
                   "clear_on: not before set_on");
    }
    if (batch->bed < 0) {
        return;
    }
    const Bed *bed = &c->farm->beds[batch->bed];
    if (batch->place == PLACE_FLOOR && bed->sections != COUNT_WRONG &&
        (int64_t)batch->first_section + batch->sections > bed->sections) {
        check_tell(c, TABLE_plan_plants, batch, "sections",
                   "sections of bed %s, which has %d", bed->id,
                   (int)bed->sections);
    }
    if (batch->place == PLACE_EDGE && bed->edge == EDGE_NONE) {
        check_tell(c, TABLE_plan_plants, batch, "place",
                   "place: floor; bed %s has no edge", bed->id);
    }
}

void check_accepted_plan(const Checker *c)
{
    check_head(c);
    for (int32_t i = 0; i < c->farm->plan_plants_count; i++) {
        check_batch(c, &c->farm->plan_plants[i]);
    }
}
