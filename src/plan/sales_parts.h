/* What the files of plan/sales share. */
#ifndef LEAT_PLAN_SALES_PARTS_H
#define LEAT_PLAN_SALES_PARTS_H

#include "plan/sales.h"

/* Sales of any kind, read the same way: number i of order_count +
 * outlet_count. */
typedef struct SalesOffer {
    int product;
    bool is_firm;
    const double *room;
    const double *price;
    double miss; /* what a unit is worth beside its price */
} SalesOffer;

static inline SalesOffer sales_offer(const Problem *p, int number)
{
    SalesOffer offer = {0};
    if (number < p->order_count) {
        const PlanOrder *o = &p->orders[number];
        offer =
            (SalesOffer){o->product, o->is_firm, o->wanted, o->price, o->miss};
    } else {
        const PlanOutlet *v = &p->outlets[number - p->order_count];
        offer = (SalesOffer){v->product, false, v->room, v->price, 0.0};
    }
    offer.miss += p->fish.unsold_price *
                  plan_fish_units(&p->products[offer.product], p->goods);
    return offer;
}

/* A mix whose shares are fixed takes its units of each part. */
bool sales_is_fixed(const PlanProduct *product);

void sales_open_joined(Sales *sales, SalesFamily *family, Arena *arena);

#endif
