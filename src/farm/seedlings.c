/* Seedlings that stand in trays. */
#include "farm/seedlings.h"

#include <math.h>

bool seedlings_are(const Plant *plant)
{
    return plant->set_on > plant->counted_on;
}

bool seedlings_feed(const Farm *farm, const PlanPlant *row)
{
    return row->standing >= 0 && seedlings_are(&farm->plants[row->standing]);
}

double seedlings_wait_d(const Farm *farm, int32_t way, const BookWay *book)
{
    double own = farm->ways[way].wait_days;
    double days = own > 0.0 ? own : book->wait_d.value;
    return isnan(days) ? 0.0 : days;
}
