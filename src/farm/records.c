/* The field tables as data, made from the lists of farm/records.h. */
#include "farm/records.h"

enum { MAY = 0, NEEDED = 1 };

#define FIELD_ROW(type, kind, name, need, least, most, fallback, extra, text)  \
    {FIELD_##kind, #name,    need,  least,                                     \
     most,         fallback, extra, FIELD_AT_##kind(type, name),               \
     text},

#define TABLE_FIELDS(name, type, list, ...)                                    \
    static const Field FIELDS_##name[] = {list(FIELD_ROW, type)};
TABLES(TABLE_FIELDS)

#define TABLE_ROW(name, type, list, need, single, text)                        \
    {#name,                                                                    \
     need,                                                                     \
     single,                                                                   \
     FIELDS_##name,                                                            \
     (int)(sizeof FIELDS_##name / sizeof *FIELDS_##name),                      \
     sizeof(type),                                                             \
     offsetof(Farm, name),                                                     \
     offsetof(Farm, name##_count),                                             \
     text},
const Table FARM_TABLES[TABLE_COUNT] = {TABLES(TABLE_ROW)};

#define WORD_TEXT(name, word) word,
#define WORD_ARRAY(list)                                                       \
    static const char *const TEXTS_##list[] = {list(WORD_TEXT)};
WORD_LISTS(WORD_ARRAY)

#define WORD_LIST_ROW(list)                                                    \
    {TEXTS_##list, (int)(sizeof TEXTS_##list / sizeof *TEXTS_##list)},
const WordList FARM_WORDS[WORD_LIST_COUNT] = {WORD_LISTS(WORD_LIST_ROW)};

double tunnel_openings_m2(const Tunnel *row)
{
    double parts_m2 = row->side_m2 + row->end_m2 + row->ridge_m2;
    return parts_m2 > 0.0 ? parts_m2 : row->vent_m2;
}

const TableId FARM_PLAN_TABLES[PLAN_TABLE_COUNT] = {
    TABLE_plan,       TABLE_plan_plants, TABLE_plan_fish,
    TABLE_plan_moves, TABLE_plan_cleans, TABLE_plan_orders};

bool farm_is_plan_table(TableId table)
{
    for (int i = 0; i < PLAN_TABLE_COUNT; i++) {
        if (FARM_PLAN_TABLES[i] == table) {
            return true;
        }
    }
    return false;
}
