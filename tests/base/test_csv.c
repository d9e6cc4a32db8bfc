/* Tables of separated values: places, limits, quotes, and every fault. */
#include "check.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/csv.h"

/* What a reading told, as text: cells in brackets with their place, a row a
 * line; faults begin with "!". */
typedef struct Told {
    char text[4096];
    size_t used;
    long row_count;
    long fault_count;
    long damaged_count;
} Told;

static void told_add(Told *told, const char *format, ...) PRINTF_LIKE(2, 3);

static void told_add(Told *told, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    size_t room = sizeof told->text - told->used;
    int length = vsnprintf(told->text + told->used, room, format, args);
    va_end(args);
    told->used += (size_t)length < room ? (size_t)length : room - 1;
}

static void told_row(void *self, const CsvRow *row)
{
    Told *told = self;
    told->row_count++;
    told->damaged_count += row->is_damaged;
    for (int32_t i = 0; i < row->count && i < 8; i++) {
        const CsvCell *cell = &row->cells[i];
        assert_int_equal(strlen(cell->text), cell->length);
        told_add(told, "[%d:%d %.20s]", (int)cell->line, (int)cell->column,
                 cell->text);
    }
    told_add(told, "\n");
}

static void told_fault(void *self, const CsvFault *fault)
{
    Told *told = self;
    told->fault_count++;
    told_add(told, "!%d:%d \"%s\" %s\n", (int)fault->line, (int)fault->column,
             fault->value, fault->expected);
}

static Told read_bytes(const char *bytes, size_t length)
{
    Told told = {0};
    csv_read_bytes(bytes, length, &(CsvHandler){&told, told_row, told_fault});
    return told;
}

static Told read_text(const char *text)
{
    return read_bytes(text, strlen(text));
}

static void cells_come_with_their_place(void **state)
{
    (void)state;
    Told told = read_text("bed,depth_m\nH1,0.25\n\n H2 ,\n");
    assert_string_equal(told.text, "[1:1 bed][1:2 depth_m]\n"
                                   "[2:1 H1][2:2 0.25]\n"
                                   "[4:1  H2 ][4:2 ]\n");
    assert_int_equal(told.fault_count, 0);
}

static void the_last_line_needs_no_newline(void **state)
{
    (void)state;
    assert_string_equal(read_text("a,b").text, "[1:1 a][1:2 b]\n");
    assert_string_equal(read_text("a,").text, "[1:1 a][1:2 ]\n");
    assert_string_equal(read_text("\"a\"").text, "[1:1 a]\n");
    assert_string_equal(read_text("").text, "");
    assert_string_equal(read_text("\n\n").text, "");
}

static void quotes_hold_delimiters_quotes_and_lines(void **state)
{
    (void)state;
    Told told = read_text("a,\"b,c\"\n\"d \"\"e\"\"\",\"f\ng\"\nh,i\n");
    assert_string_equal(told.text, "[1:1 a][1:2 b,c]\n"
                                   "[2:1 d \"e\"][2:2 f\ng]\n"
                                   "[4:1 h][4:2 i]\n");
}

static void line_ends_of_windows_and_a_mark_are_passed_over(void **state)
{
    (void)state;
    Told told = read_text("\xef\xbb\xbf"
                          "a,b\r\n1,\"x\r\ny\"\r\n2,3\r\n");
    assert_string_equal(told.text, "[1:1 a][1:2 b]\n"
                                   "[2:1 1][2:2 x\r\ny]\n"
                                   "[4:1 2][4:2 3]\n");
}

static void the_first_line_decides_on_semicolons(void **state)
{
    (void)state;
    assert_string_equal(read_text("a;b\n1,5;2\n").text,
                        "[1:1 a][1:2 b]\n[2:1 1,5][2:2 2]\n");
    assert_string_equal(read_text("\"a;;\",b\n1;2,3\n").text,
                        "[1:1 a;;][1:2 b]\n[2:1 1;2][2:2 3]\n");
}

static void a_wrong_quote_costs_its_own_row_only(void **state)
{
    (void)state;
    Told told = read_text("a,b\n1,x\"y\n2,\"u\"v\n3,4\n");
    assert_string_equal(
        told.text, "[1:1 a][1:2 b]\n"
                   "!2:2 \"x\" quotes around the whole cell, each quote within "
                   "it doubled\n"
                   "!3:2 \"u\"\" quotes around the whole cell, each quote "
                   "within it doubled\n"
                   "[4:1 3][4:2 4]\n");
}

static void an_unclosed_quote_is_told_where_it_opens(void **state)
{
    (void)state;
    Told told = read_text("a,b\n1,\"x\n2,y\n3,z\n");
    assert_string_equal(
        told.text,
        "[1:1 a][1:2 b]\n"
        "!2:2 \"x\\x0a2,y\\x0a3,z\\x0a\" a closing quote before the end of "
        "the table\n"
        "[3:1 2][3:2 y]\n[4:1 3][4:2 z]\n");
    told = read_text("a,b\n1,\"x\n2,y\n3,\"z\"\n4,w\n");
    assert_string_equal(
        told.text,
        "[1:1 a][1:2 b]\n"
        "!2:2 \"x\\x0a2,y\\x0a3,\"\" a closing quote in this cell; the "
        "next quote stands on line 4\n"
        "[3:1 2][3:2 y]\n[4:1 3][4:2 z]\n[5:1 4][5:2 w]\n");
}

static void bytes_that_no_cell_may_hold_are_told_once_a_line(void **state)
{
    (void)state;
    Told told = read_bytes("a,b\n1,x\0y\0\n2,3\n", 15);
    assert_string_equal(
        told.text, "[1:1 a][1:2 b]\n"
                   "!2:0 \"1,x\\x00y\\x00\" text without NUL bytes (is this a "
                   "table?)\n"
                   "[2:1 1][2:2 x?y?]\n[3:1 2][3:2 3]\n");
    assert_int_equal(told.damaged_count, 1);
    told = read_text("a,b\nS\xe3o,3\n");
    assert_non_null(strstr(told.text, "!2:0 \"S\\xe3o,3\" text in UTF-8"));
    told = read_text("a,b\r1,2\r3,4");
    assert_non_null(strstr(told.text, "CR alone"));
    assert_int_equal(told.fault_count, 1);
}

/* Found by fuzzing: a NUL before the first byte that is not UTF-8 was left. */
static void every_bad_byte_of_a_line_is_mended(void **state)
{
    (void)state;
    const char bytes[] = "a\0b\rc,\xc3\xa9,\xff\0d\n";
    Told told = read_bytes(bytes, sizeof bytes - 1);
    assert_int_equal(told.fault_count, 1);
    assert_non_null(strstr(told.text, "[1:1 a?b?c][1:2 \xc3\xa9][1:3 ??d]\n"));
}

static void a_cell_may_hold_64_kb_and_no_byte_more(void **state)
{
    (void)state;
    enum { ROOM = CSV_CELL_MAX_BYTES + 32 };
    char *bytes = test_malloc(ROOM);
    for (size_t extra = 0; extra < 2; extra++) {
        size_t cell = CSV_CELL_MAX_BYTES + extra;
        memcpy(bytes, "a,b\n1,", 6);
        memset(bytes + 6, 'x', cell);
        memcpy(bytes + 6 + cell, "\n2,3\n", 5);
        Told told = read_bytes(bytes, 6 + cell + 5);
        assert_int_equal(told.row_count, 3 - (long)extra);
        assert_int_equal(told.fault_count, (long)extra);
        assert_non_null(strstr(told.text, "[3:1 2][3:2 3]"));
        assert_int_equal(!strstr(told.text, "65536 bytes"), extra == 0);
    }
    test_free(bytes);
}

static void a_line_of_100_mb_is_one_fault(void **state)
{
    (void)state;
    size_t length = 100u << 20;
    char *bytes = malloc(length);
    assert_non_null(bytes);
    memset(bytes, 'x', length);
    memcpy(bytes, "a,b\n", 4);
    memcpy(bytes + length - 5, "\n1,2\n", 5);
    Told told = read_bytes(bytes, length);
    assert_int_equal(told.fault_count, 1);
    assert_non_null(strstr(told.text, "!2:1"));
    assert_non_null(strstr(told.text, "[3:1 1][3:2 2]"));
    memset(bytes + 4, ',', length - 9);
    told = read_bytes(bytes, length);
    assert_int_equal(told.fault_count, 1);
    assert_non_null(strstr(told.text, "!2:4097 \"\" at most 4096 cells"));
    assert_non_null(strstr(told.text, "[3:1 1][3:2 2]"));
    free(bytes);
}

static void
an_open_quote_before_a_long_table_is_told_where_it_opens(void **state)
{
    (void)state;
    size_t length = 1u << 20;
    char *bytes = malloc(length);
    assert_non_null(bytes);
    for (size_t i = 0; i < length; i++) {
        bytes[i] = "12,34567\n"[i % 9];
    }
    bytes[9] = '"';
    Told told = read_bytes(bytes, length);
    assert_int_equal(told.fault_count, 1);
    assert_non_null(strstr(told.text, "!2:1"));
    assert_int_equal(told.row_count, (long)((length + 8) / 9) - 1);
    free(bytes);
}

static void what_is_written_reads_back(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CsvWriter writer;
    csv_writer_init(&writer, &arena);
    const char *const cells[] = {"plain", "a,b", "c \"d\"", "e\nf",
                                 "",      " g ", "h;i"};
    for (int row = 0; row < 1000; row++) {
        for (size_t i = 0; i < 7; i++) {
            csv_writer_cell(&writer, cells[i]);
        }
        csv_writer_end_row(&writer);
    }
    const char *first = "plain,\"a,b\",\"c \"\"d\"\"\",\"e\nf\",, g ,\"h;i\"\n";
    assert_memory_equal(writer.bytes, first, strlen(first));
    Told told = read_bytes(writer.bytes, writer.length);
    assert_int_equal(told.row_count, 1000);
    assert_int_equal(told.fault_count, 0);
    const char *row = "[1:1 plain][1:2 a,b][1:3 c \"d\"][1:4 e\nf][2:5 ]"
                      "[2:6  g ][2:7 h;i]\n";
    assert_memory_equal(told.text, row, strlen(row));
}

/* Found by fuzzing: a row of one blank cell was written as an empty line. */
static void a_row_of_one_blank_cell_reads_back(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CsvWriter writer;
    csv_writer_init(&writer, &arena);
    for (int row = 0; row < 3; row++) {
        csv_writer_cell(&writer, "");
        csv_writer_end_row(&writer);
    }
    Told told = read_bytes(writer.bytes, writer.length);
    assert_string_equal(told.text, "[1:1 ]\n[2:1 ]\n[3:1 ]\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cells_come_with_their_place),
        cmocka_unit_test(a_row_of_one_blank_cell_reads_back),
        cmocka_unit_test(the_last_line_needs_no_newline),
        cmocka_unit_test(quotes_hold_delimiters_quotes_and_lines),
        cmocka_unit_test(line_ends_of_windows_and_a_mark_are_passed_over),
        cmocka_unit_test(the_first_line_decides_on_semicolons),
        cmocka_unit_test(a_wrong_quote_costs_its_own_row_only),
        cmocka_unit_test(an_unclosed_quote_is_told_where_it_opens),
        cmocka_unit_test(bytes_that_no_cell_may_hold_are_told_once_a_line),
        cmocka_unit_test(every_bad_byte_of_a_line_is_mended),
        cmocka_unit_test(a_cell_may_hold_64_kb_and_no_byte_more),
        cmocka_unit_test(a_line_of_100_mb_is_one_fault),
        cmocka_unit_test(
            an_open_quote_before_a_long_table_is_told_where_it_opens),
        cmocka_unit_test(what_is_written_reads_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
