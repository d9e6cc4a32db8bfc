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
            put(w, is_marked ? " m MARKER INTEND\n" : " m MARKER INTORG\n");
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
    put(w, is_marked ? " m MARKER INTEND\n" : "");
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
    put(&w, "NAME plan\n");
    put_rows(&w, model);
    put_columns(&w, model);
    put_limits(&w, model);
    put_bounds(&w, model);
    put(&w, "ENDATA\n");
    *out = (PlanMps){w.bytes, w.length, model->row_count, model->column_count};
}

static void build(LinearPlan *plan, const PlanRun *runs, int count)
{
    linear_add_hours(plan);
    linear_add_sales(plan);
    linear_add_pools(plan);
    linear_add_plants(plan);
    linear_add_fish(plan);
    linear_add_events(plan, runs, count);
    for (int i = 0; i < count; i++) {
        linear_add_run(plan, &runs[i]);
    }
}

void plan_mps_model(const Problem *problem, const PlanRun *routes, int count,
                    Arena *arena, PlanMps *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan plan;
    linear_plan_init(&plan, &scratch, problem, true);
    build(&plan, routes, count);
    write_model(&plan.model, arena, out);
}

/* What the choices of a plan come to, by column. */
typedef struct Chosen {
    int *units;   /* [option] */
    int *cleans;  /* [kind][week] */
    int *stocked; /* [stock] */
    int *lanes;   /* [stock][lane] */
} Chosen;

static void count_choices(const Problem *problem, const PlanSolution *solution,
                          Arena *arena, Chosen *out)
{
    *out = (Chosen){
        ARENA_ARRAY(arena, int, problem->option_count),
        ARENA_ARRAY(arena, int, problem->kind_count * problem->week_count),
        ARENA_ARRAY(arena, int, problem->stock_count),
        ARENA_ARRAY(arena, int, problem->stock_count *PLAN_LANES)};
    for (int i = 0; i < solution->placement_count; i++) {
        out->units[solution->placements[i].option] +=
            solution->placements[i].units;
    }
    for (int i = 0; i < solution->cleaning_count; i++) {
        const PlanCleaning *clean = &solution->cleanings[i];
        int kind = problem->beds[clean->bed].kind;
        out->cleans[kind * problem->week_count + clean->week]++;
    }
    for (int i = 0; i < solution->run_count; i++) {
        const PlanRun *run = &solution->runs[i];
        out->stocked[run->stock] += run->count;
        out->lanes[run->stock * PLAN_LANES + run->lane] += run->count;
    }
}

/* The value that the plan gives to a choice; false: the column is no choice. */
static bool chosen_value(const Chosen *chosen, const PlanSolution *solution,
                         int weeks, LinearTag tag, double *out)
{
    switch ((int)tag.part) {
    case LINEAR_UNITS:
        *out = chosen->units[tag.a];
        return true;
    case LINEAR_CLEAN:
        *out = chosen->cleans[tag.a * weeks + tag.week];
        return true;
    case LINEAR_STOCKED:
        *out = chosen->stocked[tag.a];
        return true;
    case LINEAR_IS_STOCKED:
        *out = chosen->stocked[tag.a] > 0;
        return true;
    case LINEAR_LANE:
        *out = chosen->lanes[tag.a * PLAN_LANES + tag.b];
        return true;
    case LINEAR_RUN:
        *out = solution->runs[tag.a].count;
        return true;
    case LINEAR_HEADS:
    case LINEAR_GRADING:
    case LINEAR_CATCH:
        /* Only runs of the plan have brought these in. */
        *out = 1.0;
        return true;
    default:
        return false;
    }
}

void plan_mps_proof(const Problem *problem, const PlanSolution *solution,
                    Arena *arena, PlanMps *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan plan;
    Chosen chosen;
    PlanSolution used = *solution;
    used.runs = ARENA_ARRAY(&scratch, PlanRun, solution->run_count);
    used.run_count = 0;
    for (int i = 0; i < solution->run_count; i++) {
        if (solution->runs[i].count > 0) {
            used.runs[used.run_count++] = solution->runs[i];
        }
    }
    linear_plan_init(&plan, &scratch, problem, true);
    build(&plan, used.runs, used.run_count);
    count_choices(problem, &used, &scratch, &chosen);
    for (int j = 0; j < plan.model.column_count; j++) {
        LinearColumn *column = &plan.model.columns[j];
        double value = 0.0;
        if (chosen_value(&chosen, &used, plan.weeks, column->tag, &value)) {
            column->lower = value;
            column->upper = value;
        }
    }
    write_model(&plan.model, arena, out);
}
