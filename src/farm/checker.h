/* What the parts of farm/check.c share; only they include this. */
#ifndef LEAT_FARM_CHECKER_H
#define LEAT_FARM_CHECKER_H

#include "farm/book.h"
#include "farm/read.h"

typedef struct Checker {
    const FarmRead *read;
    const Farm *farm;
    const Book *book;
    Faults *faults;
    Arena *arena;
} Checker;

/* Tells of a field of a row, showing what stands there. field may be NULL for
 * the row as a whole; row may be NULL for the table as a whole. */
void check_tell(const Checker *checker, TableId table, const void *row,
                const char *field, const char *expected, ...) PRINTF_LIKE(5, 6);
void check_notice(const Checker *checker, TableId table, const void *row,
                  const char *field, const char *text, ...) PRINTF_LIKE(5, 6);

/* Asks whether what stands there is right, showing it. */
void check_doubt(const Checker *checker, TableId table, const void *row,
                 const char *field, const char *text, ...) PRINTF_LIKE(5, 6);

/* " (near: basil)" or "", for a name that the book lacks. */
const char *check_near(const Checker *checker, const char *book_table,
                       const char *name);

/* Whether both days stand and the second is before the first. */
bool check_is_before(int32_t later, int32_t earlier);

/* Whether exactly one of three references is given; true as well where one of
 * them is wrong, since it was told. */
bool check_is_one(int32_t first, int32_t second, int32_t third);

/* The farm's first day, or DATE_WRONG. */
int32_t check_first_day(const Checker *checker);

/* Rows to be looked at in an order: sorted by a, then b, then row. */
typedef struct CheckKey {
    int64_t a;
    int64_t b;
    int32_t row;
} CheckKey;

void check_sort(CheckKey *keys, int32_t count);

/* The first of count sorted keys whose a is at least a. */
int32_t check_find(const CheckKey *keys, int32_t count, int64_t a);

/* The parts, a file each. */
void check_site(const Checker *checker);
void check_water(const Checker *checker);
void check_links(const Checker *checker);
void check_fish(const Checker *checker);
void check_plants(const Checker *checker);
void check_seedlings(const Checker *checker); /* of check_plants */
void check_sales(const Checker *checker);
void check_people(const Checker *checker);
void check_accepted_plan(const Checker *checker);
void check_doubts_site(const Checker *checker);
void check_doubts_sales(const Checker *checker);
void check_doubts_people(const Checker *checker);

#endif
