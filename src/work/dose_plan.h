/* Base and supplements as doses of days, in portions: what desk/dose.h fills.
 */
#ifndef LEAT_WORK_DOSE_PLAN_H
#define LEAT_WORK_DOSE_PLAN_H

#include "base/working.h"

enum { DOSE_DAYS_MAX = 24, DOSE_SALTS_MAX = 8, DOSE_NOTICES_MAX = 8 };

typedef struct DoseDay {
    const char *base; /* id of bases.csv */
    double product_g; /* of the day */
    double portion_g;
    double ph; /* after it */
    double alkalinity_mg_l;
    double nh3_mg_l;
} DoseDay;

/* A salt without alkalinity, or iron: a rise of its element. */
typedef struct DoseSalt {
    const char *id;
    const char *element; /* "potassium" */
    double rise_mg_l;
    double product_g; /* in all */
    int portions;     /* one a day */
    double portion_g;
} DoseSalt;

/* Texts and arrays are borrowed from the arena of who filled it. */
typedef struct DosePlan {
    const char *where;
    const char *when;
    double volume_m3;
    double ph, target_ph;
    const char *none;    /* why no base is given at all; NULL: some is */
    const char *stopped; /* why it stops before the target; NULL: it does not */
    DoseDay days[DOSE_DAYS_MAX];
    int day_count;
    double yours_g; /* today by the farm's own response, never over the sum's;
                       NAN where not told */
    DoseSalt salts[DOSE_SALTS_MAX];
    int salt_count;
    const char **cautions;
    int caution_count;
    const char *notices[DOSE_NOTICES_MAX];
    int notice_count;
    Workings workings; /* how the doses are made */
} DosePlan;

#endif
