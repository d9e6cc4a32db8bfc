/* A year's line survives the way from a child; what is no line is refused. */
#include "check.h"

#include "json/years.h"

/* A farm of one loop alone, three weeks. */
static YearsShape shape_of(Farm *farm)
{
    *farm = (Farm){.loops_count = 1};
    return years_shape(farm, 3);
}

static void a_year_comes_back_as_it_was(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Farm farm;
    YearsShape shape = shape_of(&farm);
    uint16_t *codes = ARENA_ARRAY(&arena, uint16_t, shape.code_count);
    uint16_t *got = ARENA_ARRAY(&arena, uint16_t, shape.code_count);
    for (int i = 0; i < shape.code_count; i++) {
        codes[i] = (uint16_t)(i < shape.break_at[0] ? (37 * i) % 200 : i % 4);
    }
    int64_t year = 0;
    const char *line =
        json_years_line(123456789012, codes, shape.code_count, &arena);
    assert_ok(json_years_line_read(line, &shape, got, &year));
    assert_true(year == 123456789012);
    assert_memory_equal(got, codes, (size_t)shape.code_count * sizeof *codes);
}

static void what_does_not_fit_is_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Farm farm;
    YearsShape shape = shape_of(&farm);
    uint16_t *codes = ARENA_ARRAY(&arena, uint16_t, shape.code_count + 1);
    int64_t year = 0;
    const char *const lines[] = {
        "",
        "{}",
        "{\"year\":1,\"codes\":\"00\"}",
        "{\"year\":1}",
        json_years_line(1, codes, shape.code_count + 1, &arena),
        json_years_line(1, codes, shape.code_count - 1, &arena)};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        assert_err(json_years_line_read(lines[i], &shape, codes, &year),
                   ERR_DEFECT, "year");
    }
    /* A week that is not among the span's. */
    codes[shape.break_at[0]] = 5;
    const char *line = json_years_line(1, codes, shape.code_count, &arena);
    assert_err(json_years_line_read(line, &shape, codes, &year), ERR_DEFECT,
               "year");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_year_comes_back_as_it_was),
        cmocka_unit_test(what_does_not_fit_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
