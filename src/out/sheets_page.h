/* The day's sheets as one page of HTML that prints on A4, each from a new
 * sheet: rows with numbers, plates and pictures, boxes to tick, blanks to fill;
 * without script or anything from elsewhere. */
#ifndef LEAT_OUT_SHEETS_PAGE_H
#define LEAT_OUT_SHEETS_PAGE_H

#include "work/sheets.h"

typedef struct SheetsPage {
    const char *farm_name;
    const char *day; /* "Mon 1 Mar 2027, 2027-W09" */
    const Sheet *sheets;
    int32_t count;
    const char *const *notices;
    int notice_count;
} SheetsPage;

/* Text in the arena. All that comes from tables is escaped. */
const char *sheets_page(const SheetsPage *page, Arena *arena);

#endif
