/* The sense of a farm: the parts in order, and what they share. */
#include "farm/check.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "farm/cell.h"
#include "farm/checker.h"

enum { NEAR_MAX = 64 };

/* What stands in a field of a row. */
static const char *value_of(const Checker *checker, TableId table,
                            const void *row, const char *field)
{
    for (int i = 0; row && field && i < FARM_TABLES[table].field_count; i++) {
        const Field *described = &FARM_TABLES[table].fields[i];
        if (strcmp(described->name, field) == 0) {
            return cell_format(described, row, checker->farm, checker->arena);
        }
    }
    return "";
}

static FaultPlace place_of(const Checker *checker, TableId table,
                           const void *row, const char *field)
{
    int32_t line = row ? *(const int32_t *)row : 0;
    return farm_place(checker->read, table, line, field);
}

void check_tell(const Checker *checker, TableId table, const void *row,
                const char *field, const char *expected, ...)
{
    if (!faults_has_room(checker->faults)) {
        checker->faults->count++;
        return;
    }
    va_list args;
    va_start(args, expected);
    faults_add_list(checker->faults, place_of(checker, table, row, field),
                    value_of(checker, table, row, field), expected, args);
    va_end(args);
}

void check_notice(const Checker *checker, TableId table, const void *row,
                  const char *field, const char *text, ...)
{
    va_list args;
    va_start(args, text);
    faults_notice_list(checker->faults, place_of(checker, table, row, field),
                       "", text, args);
    va_end(args);
}

void check_doubt(const Checker *checker, TableId table, const void *row,
                 const char *field, const char *text, ...)
{
    va_list args;
    va_start(args, text);
    faults_doubt_list(checker->faults, place_of(checker, table, row, field),
                      value_of(checker, table, row, field), text, args);
    va_end(args);
}

const char *check_near(const Checker *checker, const char *book_table,
                       const char *name)
{
    const char *names[NEAR_MAX] = {0};
    int32_t count = 0;
    const char *id = NULL;
    while (count < NEAR_MAX &&
           (id = book_id(checker->book, book_table, count)) != NULL) {
        names[count++] = id;
    }
    const char *near = text_nearest(name, names, (size_t)count);
    return near ? arena_text(checker->arena, " (near: %s)", near) : "";
}

bool check_is_before(int32_t later, int32_t earlier)
{
    return later != DATE_WRONG && earlier != DATE_WRONG && later < earlier;
}

bool check_is_one(int32_t first, int32_t second, int32_t third)
{
    bool is_wrong =
        first == REF_WRONG || second == REF_WRONG || third == REF_WRONG;
    int count =
        (first != REF_BLANK) + (second != REF_BLANK) + (third != REF_BLANK);
    return is_wrong || count == 1;
}

int32_t check_first_day(const Checker *checker)
{
    bool has_site = checker->farm->farm_count == 1;
    return has_site ? checker->farm->farm[0].records_from : DATE_WRONG;
}

static int compare_keys(const void *left, const void *right)
{
    const CheckKey *a = left;
    const CheckKey *b = right;
    if (a->a != b->a) {
        return a->a < b->a ? -1 : 1;
    }
    if (a->b != b->b) {
        return a->b < b->b ? -1 : 1;
    }
    return (a->row > b->row) - (a->row < b->row);
}

void check_sort(CheckKey *keys, int32_t count)
{
    if (count > 1) {
        qsort(keys, (size_t)count, sizeof *keys, compare_keys);
    }
}

int32_t check_find(const CheckKey *keys, int32_t count, int64_t a)
{
    int32_t low = 0;
    int32_t high = count;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (keys[middle].a < a) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

void farm_check(const FarmRead *read, const Book *book, Faults *faults)
{
    Checker checker = {.read = read,
                       .farm = &read->farm,
                       .book = book,
                       .faults = faults,
                       .arena = faults->arena};
    check_site(&checker);
    check_water(&checker);
    check_links(&checker);
    check_fish(&checker);
    check_plants(&checker);
    check_sales(&checker);
    check_people(&checker);
    check_accepted_plan(&checker);
    check_doubts_site(&checker);
    check_doubts_sales(&checker);
    check_doubts_people(&checker);
}
