/* A linear model in memory. */
#include "plan/linear_model.h"

#include <math.h>

enum { FIRST_ROOM = 1024 };

void linear_model_init(LinearModel *model, Arena *arena)
{
    *model = (LinearModel){.arena = arena};
}

static void *room_for(LinearModel *model, void *items, int count, int *room,
                      size_t size)
{
    if (count < *room) {
        return items;
    }
    int more = *room == 0 ? FIRST_ROOM : 2 * *room;
    void *grown =
        arena_grow(model->arena, items, (size_t)count, (size_t)more, size);
    *room = more;
    return grown;
}

int linear_model_row(LinearModel *model, LinearTag tag, double lower,
                     double upper)
{
    model->rows = room_for(model, model->rows, model->row_count,
                           &model->row_room, sizeof *model->rows);
    model->rows[model->row_count] = (LinearRow){tag, lower, upper};
    return model->row_count++;
}

int linear_model_column(LinearModel *model, const LinearColumn *column)
{
    model->columns = room_for(model, model->columns, model->column_count,
                              &model->column_room, sizeof *model->columns);
    model->columns[model->column_count] = *column;
    return model->column_count++;
}

void linear_model_entry(LinearModel *model, int row, int column, double value)
{
    if (row < 0 || !(fabs(value) > 0.0)) {
        return;
    }
    model->entries = room_for(model, model->entries, model->entry_count,
                              &model->entry_room, sizeof *model->entries);
    model->entries[model->entry_count++] = (LinearEntry){row, column, value};
}

void linear_model_fixed(LinearModel *model, int row, double value)
{
    if (row >= 0) {
        model->rows[row].lower -= value;
        model->rows[row].upper -= value;
    }
}

/* Twice a counting sort: by row, then by column; so rows ascend. */
static void sort_entries(const LinearEntry *from, LinearEntry *to, int count,
                         int *starts, bool is_by_row)
{
    for (int i = 0; i < count; i++) {
        starts[(is_by_row ? from[i].row : from[i].column) + 1]++;
    }
    int keys = starts[0];
    starts[0] = 0;
    for (int i = 0; i < keys; i++) {
        starts[i + 1] += starts[i];
    }
    for (int i = 0; i < count; i++) {
        to[starts[is_by_row ? from[i].row : from[i].column]++] = from[i];
    }
}

/* Joins entries at one place; returns how many are left. */
static int join_entries(LinearEntry *entries, int count)
{
    int kept = 0;
    for (int i = 0; i < count; i++) {
        LinearEntry *last = kept > 0 ? &entries[kept - 1] : entries;
        if (kept > 0 && last->row == entries[i].row &&
            last->column == entries[i].column) {
            last->value += entries[i].value;
        } else {
            entries[kept++] = entries[i];
        }
    }
    return kept;
}

/* Copies the entries of the columns that have a place (NULL: all), their column
 * being that place; returns their count. */
static int chosen_entries(const LinearModel *model, const int *places,
                          LinearEntry *out)
{
    int count = 0;
    for (int e = 0; e < model->entry_count; e++) {
        LinearEntry entry = model->entries[e];
        entry.column = places ? places[entry.column] : entry.column;
        if (entry.column >= 0) {
            out[count++] = entry;
        }
    }
    return count;
}

void linear_model_pack_some(const LinearModel *model, const int *places,
                            int columns, Arena *arena, LinearPacked *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    int keys = model->row_count > columns ? model->row_count : columns;
    LinearEntry *by_column =
        ARENA_ARRAY(&scratch, LinearEntry, model->entry_count);
    int count = chosen_entries(model, places, by_column);
    LinearEntry *by_row = ARENA_ARRAY(&scratch, LinearEntry, count);
    int *starts = ARENA_ARRAY(&scratch, int, keys + 2);
    starts[0] = keys;
    sort_entries(by_column, by_row, count, starts, true);
    starts = ARENA_ARRAY(&scratch, int, keys + 2);
    starts[0] = keys;
    sort_entries(by_row, by_column, count, starts, false);
    count = join_entries(by_column, count);
    out->starts = ARENA_ARRAY(arena, int, columns + 1);
    out->rows = ARENA_ARRAY(arena, int, count);
    out->values = ARENA_ARRAY(arena, double, count);
    for (int i = 0; i < count; i++) {
        out->starts[by_column[i].column + 1]++;
        out->rows[i] = by_column[i].row;
        out->values[i] = by_column[i].value;
    }
    for (int j = 0; j < columns; j++) {
        out->starts[j + 1] += out->starts[j];
    }
}

void linear_model_pack(const LinearModel *model, Arena *arena,
                       LinearPacked *out)
{
    linear_model_pack_some(model, NULL, model->column_count, arena, out);
}

const char *linear_part_word(LinearPart part)
{
    static const char *const WORDS[] = {
#define LINEAR_WORD(name, word) word,
        LINEAR_PARTS(LINEAR_WORD)
#undef LINEAR_WORD
    };
    return WORDS[part];
}
