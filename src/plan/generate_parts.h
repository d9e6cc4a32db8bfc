/* What the files of generate share. */
#ifndef LEAT_PLAN_GENERATE_PARTS_H
#define LEAT_PLAN_GENERATE_PARTS_H

#include "base/rng.h"
#include "plan/generate.h"

typedef enum WayForm {
    FORM_HEAD,  /* stands, then is picked whole within some weeks */
    FORM_CUT,   /* is cut again and again */
    FORM_FRUIT, /* bears for months */
} WayForm;

/* An invented way of growing. Growth 1 is midsummer's. */
typedef struct InventedWay {
    const char *name;
    WayForm form;
    bool is_edge;
    bool wants_sun;
    int nursery_weeks; /* 0: sown in place */
    double need;       /* growth from setting out to the first pick */
    int pick_weeks;    /* cut, fruit: weeks of picking at the longest */
    double warm;       /* growth of the year below which it stands still */
    double plants;     /* in a section; edge: 1 */
    double yield; /* of a section: head in all, others a week at growth 1 */
    double unit_kg;
    double price;
    double cost;       /* of a plant */
    double set_hours;  /* of a section or edge plant */
    double pick_hours; /* of a unit */
    double want_kg_wk; /* feed wanted at growth 1 */
    double low_frac;   /* of the mean that can be counted on */
    double keep;
    double share; /* of beds (or edges) that its demand is made for */
} InventedWay;

typedef struct Generator {
    Arena *arena;
    const GenerateCase *farm;
    Problem *out;
    Rng rng;
    int weeks;
    double scale; /* beds against 48 */
} Generator;

const InventedWay *generate_way(int way);

/* Growth of the year in a week: 1 in July, 0.24 in January. */
double generate_growth(int week);

/* Growth of a way in a bed kind in a week, 0 while it is too cold for it. */
double generate_way_growth(const Generator *g, int way, int kind, int week);

/* value in every week. */
double *generate_flat(Generator *g, double value);

void generate_beds(Generator *g);    /* kinds, beds, cleanings */
void generate_options(Generator *g); /* options, standing batches, nursery */
void generate_fish(Generator *g);    /* loops, tanks, stocks, rules */
void generate_sales(Generator *g);   /* goods, products, orders, outlets */
void generate_hours(Generator *g);   /* after all others */

/* Units a week that a way's share of the beds gives at mean growth. */
double generate_weekly_demand(const Generator *g, int way);

#endif
