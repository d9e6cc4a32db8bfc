/* The accepted plan after a recount. */
#include "farm/gone.h"

static void tell(Faults *faults, const char *plan, const char *stands,
                 int32_t count)
{
    if (count > 0) {
        faults_notice(faults, (FaultPlace){.file = plan}, "",
                      "%d rows of the accepted plan are about batches that are "
                      "no longer in %s: they are left out; leat plan makes the "
                      "plan anew",
                      (int)count, stands);
    }
}

static int32_t leave_out_plants(Farm *farm)
{
    int32_t kept = 0;
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        if (farm->plan_plants[i].standing != REF_GONE) {
            farm->plan_plants[kept++] = farm->plan_plants[i];
        }
    }
    int32_t gone = farm->plan_plants_count - kept;
    farm->plan_plants_count = kept;
    return gone;
}

/* Moves of a lane that is gone go too; those of the others follow their lane to
 * its new row. */
static void follow_lane(Farm *farm, int32_t lane, int32_t row)
{
    int32_t kept = 0;
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        PlanMove move = farm->plan_moves[i];
        if (move.fish == lane && row < 0) {
            continue;
        }
        move.fish = move.fish == lane ? row : move.fish;
        farm->plan_moves[kept++] = move;
    }
    farm->plan_moves_count = kept;
}

static int32_t leave_out_fish(Farm *farm)
{
    int32_t kept = 0;
    for (int32_t i = 0; i < farm->plan_fish_count; i++) {
        bool is_gone = farm->plan_fish[i].standing == REF_GONE;
        if (!is_gone) {
            farm->plan_fish[kept] = farm->plan_fish[i];
        }
        if (is_gone || kept != i) {
            follow_lane(farm, i, is_gone ? -1 : kept);
        }
        kept += !is_gone;
    }
    int32_t gone = farm->plan_fish_count - kept;
    farm->plan_fish_count = kept;
    return gone;
}

void gone_leave_out(Farm *farm, Faults *faults)
{
    tell(faults, "plan_plants.csv", "plants.csv", leave_out_plants(farm));
    tell(faults, "plan_fish.csv", "fish.csv", leave_out_fish(farm));
}
