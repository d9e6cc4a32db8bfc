/* Columns of plants while a problem is built: a batch of a way in a bed kind
 * with its weekly profiles. Only the plants' pieces of build include it. */
#ifndef LEAT_PLAN_BUILD_COLUMNS_H
#define LEAT_PLAN_BUILD_COLUMNS_H

#include "plan/build_parts.h"
#include "sim/plant_year.h"

enum {
    BUILD_SHAPES = 3 /* picking over 1, 2, 3 weeks; or whole, short spans */
};

typedef struct Columns {
    Build *build;
    PlanOption *options; /* grows in the arena */
    int count;
    int room;
    const double *zeros; /* week_count of them, shared by all columns */
} Columns;

/* One way in one bed kind and light. */
typedef struct Growing {
    int way;
    int kind;
    const BookWay *book;
    const BookCrop *crop;
    PlantYear year;
    bool is_edge;
    bool wants_sun;
    double plants;  /* a unit */
    double area_m2; /* a unit */
    double place;   /* sections or metres a unit */
    double trays;   /* that a unit stands in; 0: as many as it is sown in */
} Growing;

/* The weeks of a column and where its arrays begin. */
typedef struct Span {
    int sow;
    int set;
    int clear; /* first week in which the place is free again */
    int pick_from;
    int pick_until;
} Span;

/* A way in a kind with that share of its light shaded away. */
NODISCARD Err build_growing(Build *build, int way, int kind, double shaded_frac,
                            Growing *out);

/* The weeks of a batch that is not refused; false where it brings nothing. */
bool build_span(const Build *build, const PlantBatch *batch, Span *out);

/* What a column is made of beside its growth. */
typedef enum ColumnOrigin {
    COLUMN_SOWN,     /* anew */
    COLUMN_STANDS,   /* fixed, in its bed or soon to be */
    COLUMN_SEEDLINGS /* set from trays that stand */
} ColumnOrigin;

/* The column is the last of columns. */
void build_column(Columns *columns, const Growing *growing,
                  const PlantBatch *batch, const Span *span,
                  ColumnOrigin origin);

/* A day on which a batch may be set out, or sown in place. */
typedef struct Setting {
    int32_t day;
    int trays_of;       /* as in PlanOption */
    int32_t counted_on; /* seedlings */
    int pick_weeks;     /* filled in */
} Setting;

/* Columns of one day of setting, one for each picking shape; *out_last is the
 * last batch grown, which tells why there is none. */
void build_setting(Columns *columns, const Growing *growing, Setting setting,
                   PlantBatch *out_last);

/* Columns of the seedlings of the growing's way that may go to any bed, in the
 * weeks in which they can be set. */
void build_from_trays(Columns *columns, const Growing *growing);

/* Numbers the seedlings that may go to any bed, before their columns. */
void build_seedlings(Build *build);

/* Tells the seedlings that no column was made for. */
void build_tell_unused(Columns *columns);

/* The batches that stand in beds and the seedlings with a bed to go to, each a
 * column of its own. */
NODISCARD Err build_standing(Columns *columns);

#endif
