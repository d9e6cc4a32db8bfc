/* Work that comes every week on any farm, where tasks.csv has nothing of its
 * kind: a plan counts its hours and the jobs tell it. */
#ifndef LEAT_FARM_USUAL_WORK_H
#define LEAT_FARM_USUAL_WORK_H

#include "farm/book.h"
#include "farm/records.h"

enum { USUAL_WORK_MOST = 3 };

typedef struct UsualWork {
    const char *id;
    const char *name;
    int skill;      /* SKILL_... */
    double minutes; /* each time, by the book */
    int times_w;
} UsualWork;

/* Fills out and answers how many of them this farm has not written down. */
int usual_work(const Farm *farm, const Book *book,
               UsualWork out[USUAL_WORK_MOST]);

#endif
