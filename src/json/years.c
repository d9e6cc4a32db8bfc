/* Possible years as JSON. */
#include "json/years.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include <jansson.h>

#include "base/date.h"
#include "json/text.h"
#include "work/carry.h"

static const char LETTERS[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                              "abcdefghijklmnopqrstuvwxyz-_";
enum { BASE = 64, LETTERS_A_CODE = 2 };

/* ---- A year's line ---------------------------------------------------------
 */

char *json_years_line(int64_t year, const uint16_t *codes, int count,
                      Arena *arena)
{
    char *text = arena_alloc(arena, (size_t)count * LETTERS_A_CODE + 1, 1);
    for (int i = 0; i < count; i++) {
        text[LETTERS_A_CODE * i] = LETTERS[codes[i] / BASE % BASE];
        text[LETTERS_A_CODE * i + 1] = LETTERS[codes[i] % BASE];
    }
    return arena_text(arena, "{\"year\":%" PRId64 ",\"codes\":\"%s\"}", year,
                      text);
}

static int value_of(char letter)
{
    const char *at = letter ? strchr(LETTERS, letter) : NULL;
    return at ? (int)(at - LETTERS) : -1;
}

/* The codes that a place may hold. */
static int codes_at(const YearsShape *shape, int place)
{
    if (place >= shape->break_at[0]) {
        return shape->weeks + 1;
    }
    int series = 0;
    while (series + 1 < YEARS_SERIES_COUNT &&
           place >= shape->series_at[series + 1]) {
        series++;
    }
    return YEARS_SERIES_TABLE[series].scale.codes;
}

static bool read_codes(const char *text, const YearsShape *shape, uint16_t *out)
{
    if (strlen(text) != (size_t)shape->code_count * LETTERS_A_CODE) {
        return false;
    }
    for (int i = 0; i < shape->code_count; i++) {
        int high = value_of(text[LETTERS_A_CODE * i]);
        int low = value_of(text[LETTERS_A_CODE * i + 1]);
        if (high < 0 || low < 0 || high * BASE + low >= codes_at(shape, i)) {
            return false;
        }
        out[i] = (uint16_t)(high * BASE + low);
    }
    return true;
}

Err json_years_line_read(const char *line, const YearsShape *shape,
                         uint16_t *out_codes, int64_t *out_year)
{
    json_t *json = json_loads(line, 0, NULL);
    const char *codes = NULL;
    json_int_t year = 0;
    bool is_sound =
        json &&
        json_unpack(json, "{s:I, s:s}", "year", &year, "codes", &codes) == 0 &&
        read_codes(codes, shape, out_codes);
    *out_year = year;
    json_decref(json);
    return is_sound ? ERR_NONE
                    : err_make(ERR_DEFECT, "a child's year cannot be read");
}

/* ---- The page ---------------------------------------------------------------
 */

/* Four digits are more than the years can know. */
static json_t *rounded(double value)
{
    if (!isfinite(value)) {
        return json_null();
    }
    if (fabs(value) < 1e-12) {
        return json_real(0.0);
    }
    double unit = pow(10.0, floor(log10(fabs(value))) - 3.0);
    double whole = round(value / unit);
    return json_real(unit < 1.0 ? whole / round(1.0 / unit) : whole * unit);
}

static json_t *week_json(const YearsPage *page, int week)
{
    char text[DATE_TEXT_SIZE];
    week_format(page->first_week + YEARS_WEEK_D * week, text);
    return json_string(text);
}

static json_t *row_json(const YearsPage *page, int series, int row)
{
    const YearsSum *sum = page->sum;
    json_t *object = json_object();
    json_t *lists[4] = {json_array(), json_array(), json_array(), json_array()};
    json_t *whole = json_object();
    static const char *const KEYS[4] = {"low", "middle", "high", "typical"};
    for (int w = 0; w <= sum->shape.weeks; w++) {
        Figure range = years_sum_range(sum, series, row, w);
        double values[4] = {
            range.low, range.value, range.high,
            years_value(&sum->shape, page->typical, series, row, w)};
        for (int i = 0; i < 4; i++) {
            if (w < sum->shape.weeks) {
                json_array_append_new(lists[i], rounded(values[i]));
            } else {
                json_put(whole, KEYS[i], rounded(values[i]));
            }
        }
    }
    json_put(object, "id",
             json_string(
                 years_row_id(page->farm, YEARS_SERIES_TABLE[series].of, row)));
    for (int i = 0; i < 4; i++) {
        json_put(object, KEYS[i], lists[i]);
    }
    json_put(object, "whole", whole);
    return object;
}

static json_t *series_json(const YearsPage *page)
{
    static const char *const OF[] = {"farm", "way",    "order",  "loop",
                                     "tank", "tunnel", "element"};
    static const char *const FOLD[] = {"sum", "least", "most", "mean"};
    json_t *list = json_array();
    for (int s = 0; s < YEARS_SERIES_COUNT; s++) {
        const YearsSeries *is = &YEARS_SERIES_TABLE[s];
        if (s == YEARS_KEPT) { /* told by order below */
            continue;
        }
        json_t *object = json_object();
        json_t *rows = json_array();
        for (int row = 0; row < years_rows(page->farm, is->of); row++) {
            json_array_append_new(rows, row_json(page, s, row));
        }
        json_put(object, "key", json_string(is->key));
        json_put(object, "of", json_string(OF[is->of]));
        json_put(object, "meaning", json_string(is->meaning));
        json_put(object, "whole_is", json_string(FOLD[is->fold]));
        json_put(object, "rows", rows);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *order_json(const YearsPage *page, int order,
                          const YearsOrder *told)
{
    static const char *const FIRM[] = {"firm", "promised", "outlet"};
    const Farm *farm = page->farm;
    const Order *row = &farm->orders[order];
    json_t *object = json_object();
    json_t *weeks = json_array();
    for (int w = 0; w < page->sum->shape.weeks; w++) {
        YearsDue due = years_due(page->years, order, w);
        if (!(due.wanted > 0.0)) {
            continue;
        }
        json_t *week = json_object();
        json_put(week, "week", week_json(page, w));
        json_put(week, "wanted", rounded(due.wanted));
        json_put(week, "planned", rounded(due.planned));
        json_put(week, "chance",
                 rounded((double)years_sum_kept(page->sum, order, w) /
                         (double)page->sum->count));
        json_put(week, "low_frac",
                 rounded(years_sum_range(page->sum, YEARS_KEPT, order, w).low));
        json_array_append_new(weeks, week);
    }
    json_put(object, "id", json_string(row->id));
    json_put(object, "buyer", json_string(farm->buyers[row->buyer].id));
    json_put(object, "product", json_string(farm->products[row->product].id));
    json_put(object, "firmness", json_string(FIRM[row->firmness]));
    json_put(object, "chance", rounded(told->chance));
    json_put(object, "plan_keeps_frac", rounded(told->planned));
    json_put(object, "typical_keeps_frac", rounded(told->typical));
    json_put(object, "weeks", weeks);
    return object;
}

static json_t *orders_json(const YearsPage *page)
{
    json_t *list = json_array();
    for (int o = 0; o < page->farm->orders_count; o++) {
        YearsOrder told = years_order(page->sum, page->years, o, page->typical);
        if (told.due_weeks > 0) {
            json_array_append_new(list, order_json(page, o, &told));
        }
    }
    return list;
}

static json_t *counted_json(const YearsPage *page)
{
    json_t *list = json_array();
    for (int way = 0; way < page->farm->ways_count; way++) {
        YearsCounted counted = years_counted(page->sum, way, page->typical);
        if (isnan(counted.by_week)) {
            continue;
        }
        json_t *object = json_object();
        json_put(object, "way", json_string(page->farm->ways[way].id));
        json_put(object, "plan_frac",
                 rounded(years_plan_counted_frac(page->years, way)));
        json_put(object, "by_week_frac", rounded(counted.by_week));
        json_put(object, "by_span_frac", rounded(counted.by_span));
        json_array_append_new(list, object);
    }
    return list;
}

static void add_break(const YearsPage *page, int kind, int row, json_t *list)
{
    int week = -1;
    int64_t count = years_sum_broken(page->sum, kind, row, &week);
    if (count < 1) {
        return;
    }
    YearsOf of = YEARS_BREAK_TABLE[kind].of;
    json_t *object = json_object();
    json_put(object, "id", json_string(years_row_id(page->farm, of, row)));
    if (of == OF_ELEMENTS) {
        json_put(object, "element",
                 json_string(carry_element_name(row % HOUR_ELEMENTS)));
    }
    json_put(object, "years", json_integer(count));
    json_put(object, "middle_first_week", week_json(page, week));
    json_array_append_new(list, object);
}

static json_t *breaks_json(const YearsPage *page)
{
    json_t *list = json_array();
    for (int b = 0; b < YEARS_BREAK_COUNT; b++) {
        json_t *object = json_object();
        json_t *rows = json_array();
        for (int row = 0; row < years_rows(page->farm, YEARS_BREAK_TABLE[b].of);
             row++) {
            add_break(page, b, row, rows);
        }
        json_put(object, "what", json_string(YEARS_BREAK_TABLE[b].key));
        json_put(object, "years", json_integer(page->sum->any[b]));
        json_put(object, "years_first", json_integer(page->sum->first[b]));
        json_put(object, "rows", rows);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *texts_json(const char *const *texts, int count)
{
    json_t *list = json_array();
    for (int i = 0; count < 0 ? texts[i] != NULL : i < count; i++) {
        json_array_append_new(list, json_string(texts[i]));
    }
    return list;
}

const char *json_years(const YearsPage *page, Arena *arena)
{
    json_t *object = json_object();
    json_t *weeks = json_array();
    char day[DATE_TEXT_SIZE];
    date_format(page->first_week, day);
    for (int w = 0; w < page->sum->shape.weeks; w++) {
        json_array_append_new(weeks, week_json(page, w));
    }
    json_put(object, "from", json_string(day));
    json_put(object, "weeks", weeks);
    json_put(object, "years", json_integer(page->sum->count));
    json_put(object, "years_asked", json_integer(page->asked));
    json_put(object, "seed", json_integer(page->seed));
    json_put(object, "notices", texts_json(page->notices, page->notice_count));
    json_put(object, "words", texts_json(page->words, -1));
    json_put(object, "years_unbroken", json_integer(page->sum->unbroken));
    json_put(object, "breaks", breaks_json(page));
    json_put(object, "orders", orders_json(page));
    json_put(object, "counted_on", counted_json(page));
    json_put(object, "series", series_json(page));
    return json_text_take(object, arena);
}
