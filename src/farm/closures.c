/* Who is closed or away on a day. */
#include "farm/closures.h"

static bool holds(const Closure *closure, int32_t day)
{
    return day >= closure->from && day <= closure->until;
}

bool closures_shut_buyer(const Farm *farm, int32_t buyer, int32_t day)
{
    for (int32_t i = 0; i < farm->closures_count; i++) {
        const Closure *closure = &farm->closures[i];
        bool concerns =
            closure->kind == CLOSED_FARM ||
            (closure->kind == CLOSED_BUYER && closure->buyer == buyer);
        if (concerns && holds(closure, day)) {
            return true;
        }
    }
    return false;
}

bool closures_keep_hand(const Farm *farm, int32_t hand, int32_t day)
{
    for (int32_t i = 0; i < farm->closures_count; i++) {
        const Closure *closure = &farm->closures[i];
        bool concerns =
            closure->kind == CLOSED_FARM ||
            (closure->kind == CLOSED_PERSON && closure->hand == hand);
        if (concerns && holds(closure, day)) {
            return true;
        }
    }
    return false;
}
