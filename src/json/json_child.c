/* What goes to a child and what comes back, as JSON. */
#include "json/json_child.h"

#include <string.h>

#include <jansson.h>

#include "json/text.h"

static const char *const KINDS[] = {"search", "ceiling", "years"};

static void drop(json_t **json)
{
    json_decref(*json);
}

char *json_child_question(const ChildQuestion *question, Arena *arena)
{
    CLEANUP(drop) json_t *tables = json_array();
    for (int i = 0; i < question->table_count; i++) {
        const FarmBuffer *table = &question->tables[i];
        json_array_append_new(tables,
                              json_pack("{s:s, s:s%}", "file", table->file,
                                        "text", table->bytes, table->length));
    }
    CLEANUP(drop)
    json_t *json = json_pack(
        "{s:s, s:O, s:i, s:i, s:I, s:i, s:I, s:i, s:b, s:b, s:I, s:i}",
        "question", KINDS[question->kind], "tables", tables, "from",
        (int)question->from, "weeks", question->weeks, "seed",
        (json_int_t)question->seed, "start", question->start, "moves",
        (json_int_t)question->moves, "keep_weeks", question->keep_weeks,
        "is_from_plan", (int)question->is_from_plan, "is_fish_frozen",
        (int)question->is_fish_frozen, "year", (json_int_t)question->year,
        "years", question->years);
    return json_text_line(json, arena);
}

static Err load(const char *text, json_t **out)
{
    json_error_t fault;
    *out = json_loads(text, 0, &fault);
    if (!*out) {
        return err_make(ERR_INPUT, "not JSON: %s at byte %d", fault.text,
                        fault.position);
    }
    return ERR_NONE;
}

static Err read_tables(json_t *tables, Arena *arena, ChildQuestion *out)
{
    int count = (int)json_array_size(tables);
    FarmBuffer *buffers = ARENA_ARRAY(arena, FarmBuffer, count);
    for (int i = 0; i < count; i++) {
        const char *file = NULL;
        const char *text = NULL;
        size_t length = 0;
        if (json_unpack(json_array_get(tables, (size_t)i), "{s:s, s:s%}",
                        "file", &file, "text", &text, &length) != 0) {
            return err_make(ERR_INPUT, "table %d needs file and text", i);
        }
        buffers[i] =
            (FarmBuffer){.file = arena_copy_text(arena, file),
                         .bytes = arena_copy_bytes(arena, text, length),
                         .length = length};
    }
    out->tables = buffers;
    out->table_count = count;
    return ERR_NONE;
}

Err json_child_question_read(const char *text, Arena *arena, ChildQuestion *out)
{
    CLEANUP(drop) json_t *json = NULL;
    TRY(load(text, &json));
    ChildQuestion question = {0};
    const char *kind = NULL;
    json_t *tables = NULL;
    int from = 0;
    json_int_t seed = 0;
    json_int_t moves = 0;
    int is_from_plan = 0;
    int is_fish_frozen = 0;
    json_int_t year = 0;
    json_error_t fault;
    if (json_unpack_ex(json, &fault, 0,
                       "{s:s, s:o, s:i, s:i, s:I, s:i, s:I, s:i, s:b, s:b, "
                       "s?I, s?i}",
                       "question", &kind, "tables", &tables, "from", &from,
                       "weeks", &question.weeks, "seed", &seed, "start",
                       &question.start, "moves", &moves, "keep_weeks",
                       &question.keep_weeks, "is_from_plan", &is_from_plan,
                       "is_fish_frozen", &is_fish_frozen, "year", &year,
                       "years", &question.years) != 0) {
        return err_make(ERR_INPUT, "question: %s", fault.text);
    }
    if (question.weeks < 1 || question.start < 0 || moves < 0 ||
        question.keep_weeks < 0 || question.keep_weeks > question.weeks ||
        year < 0 || question.years < 0) {
        return err_make(ERR_INPUT,
                        "question: weeks from 1, start and moves from 0, "
                        "keep_weeks up to the weeks");
    }
    question.from = from;
    question.seed = seed;
    question.moves = moves;
    question.year = year;
    question.is_from_plan = is_from_plan != 0;
    question.is_fish_frozen = is_fish_frozen != 0;
    if (strcmp(kind, KINDS[CHILD_SEARCH]) == 0) {
        question.kind = CHILD_SEARCH;
    } else if (strcmp(kind, KINDS[CHILD_CEILING]) == 0) {
        question.kind = CHILD_CEILING;
    } else if (strcmp(kind, KINDS[CHILD_YEARS]) == 0) {
        question.kind = CHILD_YEARS;
    } else {
        return err_make(ERR_INPUT, "question \"%.40s\" is none", kind);
    }
    TRY(read_tables(tables, arena, &question));
    *out = question;
    return ERR_NONE;
}

char *json_child_choices(const PlanSolution *solution, Arena *arena)
{
    CLEANUP(drop) json_t *placements = json_array();
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *p = &solution->placements[i];
        json_array_append_new(placements,
                              json_pack("[i, i, i, i]", p->option, p->bed,
                                        p->first_section, p->units));
    }
    CLEANUP(drop) json_t *runs = json_array();
    for (int i = 0; i < solution->run_count; i++) {
        const PlanRun *r = &solution->runs[i];
        json_array_append_new(
            runs, json_pack("[i, i, i, i, i, i, i, i]", r->stock, r->lane,
                            r->tank, r->move_week, r->to_tank, r->sale_week,
                            r->goods, r->count));
    }
    CLEANUP(drop) json_t *cleanings = json_array();
    for (int i = 0; i < solution->cleaning_count; i++) {
        const PlanCleaning *c = &solution->cleanings[i];
        json_array_append_new(cleanings, json_pack("[i, i]", c->bed, c->week));
    }
    CLEANUP(drop)
    json_t *json = json_pack("{s:O, s:O, s:O, s:f}", "placements", placements,
                             "runs", runs, "cleanings", cleanings, "value",
                             solution->outcome.value);
    return json_text_line(json, arena);
}

/* Reads rows of count whole numbers into out. */
static Err read_rows(json_t *rows, const char *name, int count, int *out)
{
    size_t index;
    json_t *row;
    json_array_foreach(rows, index, row)
    {
        for (int i = 0; i < count; i++) {
            json_t *cell = json_array_get(row, (size_t)i);
            if (!json_is_integer(cell)) {
                return err_make(ERR_INPUT, "%s %d: number %d is missing", name,
                                (int)index, i);
            }
            *out++ = (int)json_integer_value(cell);
        }
    }
    return ERR_NONE;
}

static Err read_choices(json_t *placements, json_t *runs, json_t *cleanings,
                        Arena *arena, PlanSolution *out)
{
    /* The structs are rows of int in this order; a test holds them so. */
    _Static_assert(sizeof(PlanPlacement) == 4 * sizeof(int), "four numbers");
    _Static_assert(sizeof(PlanRun) == 8 * sizeof(int), "eight numbers");
    _Static_assert(sizeof(PlanCleaning) == 2 * sizeof(int), "two numbers");
    out->placement_count = (int)json_array_size(placements);
    out->placements = ARENA_ARRAY(arena, PlanPlacement, out->placement_count);
    TRY(read_rows(placements, "placement", 4, (int *)out->placements));
    out->run_count = (int)json_array_size(runs);
    out->runs = ARENA_ARRAY(arena, PlanRun, out->run_count);
    TRY(read_rows(runs, "run", 8, (int *)out->runs));
    out->cleaning_count = (int)json_array_size(cleanings);
    out->cleanings = ARENA_ARRAY(arena, PlanCleaning, out->cleaning_count);
    return read_rows(cleanings, "cleaning", 2, (int *)out->cleanings);
}

/* The error that an answer is, if it is one. */
static Err read_error(json_t *json)
{
    const char *kind = NULL;
    const char *text = NULL;
    if (json_unpack(json, "{s:{s:s, s:s}}", "error", "kind", &kind, "text",
                    &text) != 0) {
        return ERR_NONE;
    }
#define ERR_FROM_WORD(name, word, code)                                        \
    if (name != ERR_OK && strcmp(kind, word) == 0) {                           \
        return err_make(name, "%s", text);                                     \
    }
    ERR_KINDS(ERR_FROM_WORD)
#undef ERR_FROM_WORD
    return err_make(ERR_DEFECT, "%s", text);
}

Err json_child_choices_read(const char *text, Arena *arena, PlanSolution *out)
{
    CLEANUP(drop) json_t *json = NULL;
    TRY(load(text, &json));
    TRY(read_error(json));
    json_t *placements = NULL;
    json_t *runs = NULL;
    json_t *cleanings = NULL;
    PlanSolution solution = {0};
    json_error_t fault;
    if (json_unpack_ex(json, &fault, 0, "{s:o, s:o, s:o, s:F}", "placements",
                       &placements, "runs", &runs, "cleanings", &cleanings,
                       "value", &solution.outcome.value) != 0) {
        return err_make(ERR_INPUT, "choices: %s", fault.text);
    }
    TRY(read_choices(placements, runs, cleanings, arena, &solution));
    *out = solution;
    return ERR_NONE;
}

char *json_child_ceiling(const PlanCeiling *ceiling, Arena *arena)
{
    CLEANUP(drop) json_t *rows = json_array();
    for (int i = 0; i < ceiling->scarce_count; i++) {
        const PlanScarce *line = &ceiling->scarce[i];
        json_array_append_new(
            rows, json_pack("[s, i, i, i, i, f, f]", line->what, line->weeks,
                            line->first_week, line->last_week, line->peak_week,
                            line->peak, line->total));
    }
    CLEANUP(drop)
    json_t *json = json_pack("{s:f, s:i, s:i, s:O}", "value", ceiling->value,
                             "rows", ceiling->row_count, "columns",
                             ceiling->column_count, "scarce", rows);
    return json_text_line(json, arena);
}

Err json_child_ceiling_read(const char *text, Arena *arena, PlanCeiling *out)
{
    CLEANUP(drop) json_t *json = NULL;
    TRY(load(text, &json));
    TRY(read_error(json));
    PlanCeiling ceiling = {0};
    json_t *rows = NULL;
    json_error_t fault;
    if (json_unpack_ex(json, &fault, 0, "{s:F, s:i, s:i, s:o}", "value",
                       &ceiling.value, "rows", &ceiling.row_count, "columns",
                       &ceiling.column_count, "scarce", &rows) != 0) {
        return err_make(ERR_INPUT, "ceiling: %s", fault.text);
    }
    ceiling.scarce_count = (int)json_array_size(rows);
    ceiling.scarce = ARENA_ARRAY(arena, PlanScarce, ceiling.scarce_count);
    for (int i = 0; i < ceiling.scarce_count; i++) {
        PlanScarce *line = &ceiling.scarce[i];
        const char *what = NULL;
        if (json_unpack_ex(json_array_get(rows, (size_t)i), &fault, 0,
                           "[s, i, i, i, i, F, F]", &what, &line->weeks,
                           &line->first_week, &line->last_week,
                           &line->peak_week, &line->peak, &line->total) != 0) {
            return err_make(ERR_INPUT, "ceiling: line %d: %s", i, fault.text);
        }
        line->what = arena_copy_text(arena, what);
    }
    *out = ceiling;
    return ERR_NONE;
}

Err json_child_end_read(const char *text)
{
    CLEANUP(drop) json_t *json = NULL;
    TRY(load(text, &json));
    return read_error(json);
}

char *json_child_error(const Err *err, Arena *arena)
{
    CLEANUP(drop)
    json_t *json = json_pack("{s:{s:s, s:s}}", "error", "kind",
                             err_kind_word(err->kind), "text", err->text);
    return json_text_line(json, arena);
}

char *json_child_progress(double done_frac, double value, Arena *arena)
{
    CLEANUP(drop)
    json_t *json = json_pack("{s:f, s:f}", "done", done_frac, "value", value);
    return json_text_line(json, arena);
}

bool json_child_progress_read(const char *text, double *out_done_frac,
                              double *out_value)
{
    CLEANUP(drop) json_t *json = json_loads(text, 0, NULL);
    return json && json_unpack(json, "{s:F, s:F}", "done", out_done_frac,
                               "value", out_value) == 0;
}
