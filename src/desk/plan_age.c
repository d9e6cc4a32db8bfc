/* Whether the accepted plan was made from the tables and the book as they are.
 */
#include "desk/plan_age.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/book_fields.h"
#include "farm/write.h"
#include "sim/plant_rule.h"

enum { MARK_SIZE = 9, TABLES_NAMED = 4 };

static bool is_planned_from(TableId table)
{
    return !farm_is_plan_table(table) && table != TABLE_readings &&
           table != TABLE_counted && table != TABLE_contacts;
}

static void mark_of(const Farm *farm, TableId table, Arena *arena,
                    char out[MARK_SIZE])
{
    FarmBytes bytes = farm_write_table(farm, table, arena);
    uint64_t hash = book_hash_bytes(0, bytes.bytes, bytes.length);
    snprintf(out, MARK_SIZE, "%08" PRIx32, (uint32_t)(hash ^ hash >> 32));
}

const char *plan_age_marks(const Farm *farm, Arena *arena)
{
    const char *marks = "";
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (is_planned_from((TableId)i)) {
            char mark[MARK_SIZE];
            mark_of(farm, (TableId)i, arena, mark);
            marks = arena_text(arena, "%s%s%s=%s", marks, *marks ? " " : "",
                               FARM_TABLES[i].name, mark);
        }
    }
    return marks;
}

/* Whether the plan's marks hold another one of that table. A table that the
 * plan does not know came later: it is not named. */
static bool has_changed(const Farm *farm, TableId table, Arena *arena)
{
    const char *key = arena_text(arena, "%s=", FARM_TABLES[table].name);
    size_t length = strlen(key);
    const char *marks = farm->plan[0].tables;
    for (const char *at = marks; at; at = strchr(at, ' ')) {
        at += *at == ' ';
        if (strncmp(at, key, length) == 0) {
            char mark[MARK_SIZE];
            mark_of(farm, table, arena, mark);
            return strncmp(at + length, mark, MARK_SIZE - 1) != 0;
        }
    }
    return false;
}

/* "orders.csv, beds.csv and 2 more"; "" where none changed. */
static const char *changed_tables(const Farm *farm, Arena *arena)
{
    const char *text = "";
    int count = 0;
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (!is_planned_from((TableId)i) ||
            !has_changed(farm, (TableId)i, arena)) {
            continue;
        }
        if (++count <= TABLES_NAMED) {
            text = arena_text(arena, "%s%s%s.csv", text, *text ? ", " : "",
                              FARM_TABLES[i].name);
        }
    }
    return count > TABLES_NAMED
               ? arena_say(arena, "%s and %d more", text, count - TABLES_NAMED)
               : text;
}

const char *plan_age_notice(const Farm *farm, const Book *own, const char *dir,
                            Arena *arena)
{
    if (farm->plan_count < 1) {
        return NULL;
    }
    const Plan *plan = &farm->plan[0];
    const char *changed = changed_tables(farm, arena);
    char now[sizeof "0123456789abcdef"];
    snprintf(now, sizeof now, "%016" PRIx64, own->hash);
    bool is_book = strcmp(now, plan->book) != 0;
    if (!*changed && !is_book) {
        return NULL;
    }
    bool is_figures = strstr(changed, "figures.csv") != NULL;
    const char *book = !is_book || is_figures
                           ? ""
                           : say(arena, *changed ? " and the book's figures"
                                                 : "the book's figures");
    char day[DATE_TEXT_SIZE];
    date_format(plan->accepted_on, day);
    return arena_say(arena,
                     "Since the plan was accepted (%s) %s%s changed: plan "
                     "again (leat plan %s --keep-weeks 2 --accept).",
                     day, changed, book, dir);
}

Err plan_age_of(const Farm *farm, const char *dir, Arena *arena,
                const char **out_notice)
{
    Book *printed = ARENA_NEW(arena, Book);
    Book *own = ARENA_NEW(arena, Book);
    TRY(book_load(arena, printed));
    TRY(plant_book_of_farm(arena, printed, farm, own));
    *out_notice = plan_age_notice(farm, own, dir, arena);
    return ERR_NONE;
}
