/* A planning model as MPS bytes. */
#include "plan/mps.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "plan/linear_parts.h"

enum { NAME_SIZE = 64, FIRST_ROOM = 1 << 16 };

typedef struct MpsWriter {
    Arena *arena;
    char *bytes;
    size_t length;
    size_t room;
} MpsWriter;

static void put(MpsWriter *w, const char *text)
{
    size_t length = strlen(text);
    if (w->length + length + 1 > w->room) {
        size_t more = w->room == 0 ? FIRST_ROOM : 2 * w->room;
        w->bytes = arena_grow(w->arena, w->bytes, w->length, more, 1);
        w->room = more;
    }
    memcpy(w->bytes + w->length, text, length + 1);
    w->length += length;
}

/* The shortest of two forms that reads back as the same number. */
static void put_number(MpsWriter *w, double value)
{
    char text[NAME_SIZE];
    (void)snprintf(text, sizeof text, "%.12g", value);
    double back = strtod(text, NULL);
    if (back < value || back > value) {
        (void)snprintf(text, sizeof text, "%.17g", value);
    }
    put(w, text);
}

static void put_name(MpsWriter *w, LinearTag tag)
{
    char text[NAME_SIZE];
    (void)snprintf(text, sizeof text, "%s_%d_%d_%d", linear_part_word(tag.part),
                   tag.a, tag.b, tag.week);
    put(w, text);
}

/* " NAME NUMBER\n" */
static void put_value(MpsWriter *w, LinearTag tag, double value)
{
    put(w, " ");
    put_name(w, tag);
    put(w, " ");
    put_number(w, value);
    put(w, "\n");
}

static bool is_equal(const LinearRow *row)
{
    return !(row->lower < row->upper);
}

static void put_rows(MpsWriter *w, const LinearModel *model)
{
    put(w, "ROWS\n N cost\n");
    for (int i = 0; i < model->row_count; i++) {
        const LinearRow *row = &model->rows[i];
        const char *sense = is_equal(row)       ? " E "
                            : isinf(row->upper) ? " G "
                                                : " L ";
        put(w, sense);
        put_name(w, row->tag);
        put(w, "\n");
    }
}

static void put_columns(MpsWriter *w, const LinearModel *model)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPacked packed;
    linear_model_pack(model, &scratch, &packed);
    bool is_marked = false;
    put(w, "COLUMNS\n");
    for (int j = 0; j < model->column_count; j++) {
        const LinearColumn *column = &model->columns[j];
        if (column->is_integer != is_marked) {
            put(w, is_marked ? " m 'MARKER' 'INTEND'\n"
                             : " m 'MARKER' 'INTORG'\n");
            is_marked = !is_marked;
        }
        put(w, " ");
        put_name(w, column->tag);
        put(w, " cost ");
        put_number(w, -column->gain);
        put(w, "\n");
        for (int e = packed.starts[j]; e < packed.starts[j + 1]; e++) {
            put(w, " ");
            put_name(w, column->tag);
            put_value(w, model->rows[packed.rows[e]].tag, packed.values[e]);
        }
    }
    put(w, is_marked ? " m 'MARKER' 'INTEND'\n" : "");
}

static void put_limits(MpsWriter *w, const LinearModel *model)
{
    put(w, "RHS\n rhs cost ");
    put_number(w, model->constant);
    put(w, "\n");
    for (int i = 0; i < model->row_count; i++) {
        const LinearRow *row = &model->rows[i];
        put(w, " rhs");
        put_value(w, row->tag, isinf(row->upper) ? row->lower : row->upper);
    }
    put(w, "RANGES\n");
    for (int i = 0; i < model->row_count; i++) {
        const LinearRow *row = &model->rows[i];
        if (!isinf(row->lower) && !isinf(row->upper) && !is_equal(row)) {
            put(w, " range");
            put_value(w, row->tag, row->upper - row->lower);
        }
    }
}

/* Every column has both its limits told: readers differ in what they take when
 * none is told for a whole number. */
static void put_bounds(MpsWriter *w, const LinearModel *model)
{
    put(w, "BOUNDS\n");
    for (int j = 0; j < model->column_count; j++) {
        const LinearColumn *column = &model->columns[j];
        if (!(column->lower < column->upper)) {
            put(w, " FX bound");
            put_value(w, column->tag, column->lower);
            continue;
        }
        put(w, " LO bound");
        put_value(w, column->tag, column->lower);
        if (isinf(column->upper)) {
            put(w, " PL bound ");
            put_name(w, column->tag);
            put(w, "\n");
            continue;
        }
        put(w, " UP bound");
        put_value(w, column->tag, column->upper);
    }
}

static void write_model(const LinearModel *model, Arena *arena, PlanMps *out)
{
    MpsWriter w = {.arena = arena};
    /* One reader takes fields for columns of a card unless told. */
    put(&w, "NAME plan FREE\n");
    put_rows(&w, model);
    put_columns(&w, model);
    put_limits(&w, model);
    put_bounds(&w, model);
    put(&w, "ENDATA\n");
    *out = (PlanMps){w.bytes, w.length, model->row_count, model->column_count};
}

void plan_mps_model(const Problem *problem, const PlanRun *routes, int count,
                    Arena *arena, PlanMps *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan plan;
    linear_exact_model(&plan, &scratch, problem, routes, count);
    write_model(&plan.model, arena, out);
}

void plan_mps_proof(const Problem *problem, const PlanSolution *solution,
                    Arena *arena, PlanMps *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan plan;
    linear_exact_proof(&plan, &scratch, problem, solution);
    write_model(&plan.model, arena, out);
}
