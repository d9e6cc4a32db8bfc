/* What the files of plan/search_blend share.
 *
 * A strip is a section of floor or a part of a bed's edge; its class is its bed
 * kind and which of the two it is. Rows are those of the state that plants
 * stand in and, after them, for each bed kind the sections whose sun is taken.
 */
#ifndef LEAT_PLAN_SEARCH_BLEND_H
#define LEAT_PLAN_SEARCH_BLEND_H

#include "plan/search_parts.h"

typedef struct BlendStrip {
    int bed;
    int slot;  /* PLAN_NONE: of the edge */
    int place; /* kind x 2, and 1 more on an edge */
} BlendStrip;

/* Strips of a class that are free in the same weeks. */
typedef struct BlendGroup {
    int strip; /* one of them */
    int count;
} BlendGroup;

/* Prices of what is above a limit, by week; and how steeply they rise. */
typedef struct BlendPrices {
    double *hours;
    double *trays;
    double *sun; /* [kind][week] */
    double hour_rise;
    double tray_rise;
    double *sun_rise; /* by kind */
    int *dear;        /* by week and the end: weeks before with a price, of
                         hours, trays and each kind's sun */
} BlendPrices;

typedef struct Blend {
    Search *search;
    BlendStrip *strips; /* by bed: edge first, then floor */
    int strip_count;
    int *bed_strip; /* by bed and the end */
    BlendGroup *groups;
    int group_count;
    int *place_strips; /* by class: strips that have still their share */
    int *rows;         /* of the state */
    int state_row_count;
    int row_count;
    int *goods_row; /* by goods: its row of what can be counted on, the mean
                       follows */
    double *base;   /* [row][week] what is there without the blend */
    double *shared; /* [class][row][week] */
    double *fresh;  /* as shared: of this round's paths */
    double *sun;    /* [kind][week] taken at present */
    double *sun_most;
    BlendPrices prices;
    double *worth; /* by option, at present prices */
    bool is_whole; /* whole strips are given out: a bed's sun is known */
    int *free_end; /* by week: end of the free weeks; itself: not free */
    int *sun_end;
    double *ahead; /* by week and the end: best from there on */
    int *choice;   /* by week: option that is set then, or PLAN_NONE */
} Blend;

/* The best path through a strip's free weeks, into choice. */
void blend_best_path(Blend *blend, const BlendStrip *strip);
/* The next option of the path from a week on; PLAN_NONE: none. */
int blend_next(const Blend *blend, int week);
/* Plants, or sections, of an option in a strip. */
int blend_units(const Blend *blend, const BlendStrip *strip, int option);
/* Adds units of an option to what is taken of the sun in a kind's row. */
void blend_take_sun(const Blend *blend, int option, double units, double *sun);

void blend_open_prices(Blend *blend, Arena *arena);
void blend_make_prices(Blend *blend);

/* Whole strips, bed after bed. */
void blend_give(Blend *blend, Arena *arena);

#endif
