/* Tables of comma or semicolon separated values, by libcsv.
 *
 * libcsv is fed one physical line at a time, so that the line is known in its
 * callbacks; a long line in pieces, so that a cell beyond the limit is noticed
 * before much of it is kept. After a fault the parser is reset and goes on
 * after the line on which the faulty cell began: an unclosed quote then costs
 * its own row and not the rest of the file. No line is read more than twice
 * for it, save those within one cell's limit of a quote. */
#include "base/csv.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include <csv.h>

#include "base/text.h"

enum {
    PARSER_ROW_NOT_BEGUN = 0, /* libcsv's first state, between two rows */
    PIECE_BYTES = 16 * 1024,
    SHOWN_BYTES = 48,
    SHOWN_SIZE = 4 * SHOWN_BYTES + 4, /* each byte escaped, and "..." */
    FAULT_TEXT_BYTES = 160,
    FIRST_CELLS = 64,
    FIRST_BYTES = 4096
};

#define BYTE_ORDER_MARK "\xef\xbb\xbf"

typedef struct CsvReader {
    const CsvHandler *handler;
    struct csv_parser parser;
    Arena arena; /* cells and bytes of the row being read */
    const char *bytes;
    size_t length;
    size_t line_end;   /* offset of the line after the current one */
    size_t cell_next;  /* offset of the line after the cell's first one */
    int32_t line;      /* current */
    int32_t cell_line; /* on which the current cell began */
    CsvCell *cells;    /* text is set when the row ends */
    size_t *offsets;   /* of each cell's text in text */
    int32_t cell_count;
    int32_t cell_room;
    char *text;
    size_t text_length;
    size_t text_room;
    char delimiter;
    bool is_damaged;   /* the current row */
    bool is_row_open;  /* a quoted cell goes on over a line end */
    bool is_given_up;  /* the current row, its fault told */
    int32_t told_line; /* bytes no cell may hold are told up to here */
} CsvReader;

static int space_none(unsigned char byte)
{
    (void)byte;
    return 0;
}

/* Shows at most SHOWN_BYTES on one line. */
static void show(const char *bytes, size_t length, char out[SHOWN_SIZE])
{
    size_t shown = length < SHOWN_BYTES ? length : SHOWN_BYTES;
    size_t valid = text_utf8_valid(bytes, shown);
    if (length > SHOWN_BYTES && valid + 4 > shown) {
        shown = valid; /* the cut went through a letter */
    }
    size_t used = text_escape(bytes, shown, out, SHOWN_SIZE - 3);
    memcpy(out + used, length > shown ? "..." : "", length > shown ? 4 : 1);
}

static void tell(CsvReader *reader, CsvFault fault, const char *value,
                 size_t length)
{
    char shown[SHOWN_SIZE];
    show(value, length, shown);
    fault.value = shown;
    reader->handler->fault(reader->handler->self, &fault);
}

static void begin_row(CsvReader *reader)
{
    reader->cell_count = 0;
    reader->text_length = 0;
    reader->is_damaged = false;
    reader->is_given_up = false;
}

static void begin_cell(CsvReader *reader)
{
    reader->cell_line = reader->line;
    reader->cell_next = reader->line_end;
}

static void make_room(CsvReader *reader, size_t text_bytes)
{
    if (reader->cell_count == reader->cell_room) {
        int32_t room = reader->cell_room * 2;
        reader->cells = arena_grow(&reader->arena, reader->cells,
                                   (size_t)reader->cell_count, (size_t)room,
                                   sizeof *reader->cells);
        reader->offsets = arena_grow(&reader->arena, reader->offsets,
                                     (size_t)reader->cell_count, (size_t)room,
                                     sizeof *reader->offsets);
        reader->cell_room = room;
    }
    size_t needed = reader->text_length + text_bytes;
    if (needed > reader->text_room) {
        size_t room =
            reader->text_room * 2 > needed ? reader->text_room * 2 : needed * 2;
        reader->text = arena_grow(&reader->arena, reader->text,
                                  reader->text_length, room, 1);
        reader->text_room = room;
    }
}

static void give_up_row(CsvReader *reader, const char *expected,
                        const char *cell, size_t length)
{
    reader->is_given_up = true;
    tell(reader,
         (CsvFault){.line = reader->cell_line,
                    .column = reader->cell_count + 1,
                    .expected = expected},
         cell, length);
}

static void on_cell(void *bytes, size_t length, void *data)
{
    CsvReader *reader = data;
    if (reader->is_given_up) {
        return;
    }
    if (length > CSV_CELL_MAX_BYTES) {
        give_up_row(reader, "at most 65536 bytes in a cell", bytes, length);
        return;
    }
    if (reader->cell_count == CSV_ROW_MAX_CELLS) {
        give_up_row(reader, "at most 4096 cells in a row", bytes, length);
        return;
    }
    make_room(reader, length + 1);
    reader->offsets[reader->cell_count] = reader->text_length;
    reader->cells[reader->cell_count] =
        (CsvCell){.length = length,
                  .line = reader->cell_line,
                  .column = reader->cell_count + 1};
    if (length) {
        memcpy(reader->text + reader->text_length, bytes, length);
    }
    reader->text[reader->text_length + length] = '\0';
    reader->text_length += length + 1;
    reader->cell_count++;
    begin_cell(reader);
}

static void on_row(int byte, void *data)
{
    (void)byte;
    CsvReader *reader = data;
    if (reader->is_given_up || reader->cell_count == 0) {
        return;
    }
    for (int32_t i = 0; i < reader->cell_count; i++) {
        reader->cells[i].text = reader->text + reader->offsets[i];
    }
    CsvRow row = {.cells = reader->cells,
                  .count = reader->cell_count,
                  .line = reader->cells[0].line,
                  .delimiter = reader->delimiter,
                  .is_damaged = reader->is_damaged};
    reader->handler->row(reader->handler->self, &row);
    begin_row(reader);
}

/* Forgets the row and goes on after the line on which its last cell began. */
static void skip_row(CsvReader *reader)
{
    csv_fini(&reader->parser, NULL, NULL, NULL);
    begin_row(reader);
    reader->is_row_open = false;
    reader->line = reader->cell_line;
    reader->line_end = reader->cell_next;
}

static void tell_parse_fault(CsvReader *reader)
{
    const char *cell =
        reader->parser.entry_pos ? (const char *)reader->parser.entry_buf : "";
    char expected[FAULT_TEXT_BYTES];
    if (reader->line != reader->cell_line) {
        snprintf(expected, sizeof expected,
                 "a closing quote in this cell; the next quote stands on line "
                 "%d",
                 (int)reader->line);
    } else {
        snprintf(expected, sizeof expected,
                 "quotes around the whole cell, each quote within it doubled");
    }
    tell(reader,
         (CsvFault){.line = reader->cell_line,
                    .column = reader->cell_count + 1,
                    .expected = expected},
         cell, reader->parser.entry_pos);
}

/* Hands one physical line to libcsv; false when the row was given up. */
static bool feed_line(CsvReader *reader, const char *line, size_t length)
{
    for (size_t done = 0; done < length;) {
        size_t rest = length - done;
        size_t piece = rest < PIECE_BYTES ? rest : PIECE_BYTES;
        size_t taken = csv_parse(&reader->parser, line + done, piece, on_cell,
                                 on_row, reader);
        if (taken < piece) {
            tell_parse_fault(reader);
            skip_row(reader);
            return false;
        }
        done += piece;
        if (!reader->is_given_up &&
            reader->parser.entry_pos > CSV_CELL_MAX_BYTES) {
            give_up_row(reader, "at most 65536 bytes in a cell",
                        (const char *)reader->parser.entry_buf,
                        reader->parser.entry_pos);
        }
        if (reader->is_given_up) {
            skip_row(reader);
            return false;
        }
    }
    reader->is_row_open = reader->parser.pstate != PARSER_ROW_NOT_BEGUN;
    return true;
}

/* The first byte that no cell may hold, or length; what is expected there. */
static size_t find_bad_byte(const char *line, size_t length,
                            const char **out_expected)
{
    size_t valid = text_utf8_valid(line, length);
    if (valid < length) {
        *out_expected = "text in UTF-8 (save the table as UTF-8)";
        return valid;
    }
    const char *nul = memchr(line, '\0', length);
    if (nul) {
        *out_expected = "text without NUL bytes (is this a table?)";
        return (size_t)(nul - line);
    }
    size_t body = length - (line[length - 1] == '\n');
    body -= body > 0 && line[body - 1] == '\r';
    const char *cr = memchr(line, '\r', body);
    if (cr) {
        *out_expected = "lines that end with LF or CR LF, not with CR alone";
        return (size_t)(cr - line);
    }
    return length;
}

/* Tells of bytes that no cell may hold, once a line. Returns the line itself,
 * or a copy with a question mark for each of them. */
static const char *mend_line(CsvReader *reader, const char *line, size_t length)
{
    const char *expected = NULL;
    size_t bad = find_bad_byte(line, length, &expected);
    if (bad == length) {
        return line;
    }
    if (reader->line > reader->told_line) {
        size_t from = bad > SHOWN_BYTES / 2 ? bad - SHOWN_BYTES / 2 : 0;
        tell(reader, (CsvFault){.line = reader->line, .expected = expected},
             line + from, length - from - (line[length - 1] == '\n'));
        reader->told_line = reader->line;
    }
    reader->is_damaged = true;
    char *copy = arena_copy_bytes(&reader->arena, line, length);
    size_t valid = text_utf8_valid(line, length);
    for (size_t i = 0; i < length; i++) {
        bool is_line_end =
            copy[i] == '\n' || (i + 2 == length && copy[i + 1] == '\n');
        unsigned char byte = (unsigned char)copy[i];
        if ((byte >= 0x80 && i >= valid) || byte == '\0' ||
            (byte == '\r' && !is_line_end)) {
            copy[i] = '?';
        }
    }
    return copy;
}

/* Counts delimiters outside quotes in the first line. */
static char choose_delimiter(const char *bytes, size_t length)
{
    int32_t commas = 0;
    int32_t semicolons = 0;
    bool is_quoted = false;
    for (size_t i = 0; i < length && bytes[i] != '\n'; i++) {
        is_quoted ^= bytes[i] == '"';
        commas += !is_quoted && bytes[i] == ',';
        semicolons += !is_quoted && bytes[i] == ';';
    }
    return semicolons > commas ? ';' : ',';
}

/* The table ends inside quotes: told where they open, then read on from the
 * next line. False when the table has come to its end in good order. */
static bool reopen_at_end(CsvReader *reader)
{
    if (!reader->is_row_open) {
        return false;
    }
    tell(reader,
         (CsvFault){.line = reader->cell_line,
                    .column = reader->cell_count + 1,
                    .expected = "a closing quote before the end of the table"},
         (const char *)reader->parser.entry_buf, reader->parser.entry_pos);
    skip_row(reader);
    return true;
}

static void read_line(CsvReader *reader)
{
    const char *line = reader->bytes + reader->line_end;
    size_t rest = reader->length - reader->line_end;
    const char *newline = memchr(line, '\n', rest);
    size_t length = newline ? (size_t)(newline - line) + 1 : rest;
    reader->line++;
    reader->line_end += length;
    if (!reader->is_row_open) {
        begin_row(reader);
        begin_cell(reader);
    }
    const char *mended = mend_line(reader, line, length);
    if (!feed_line(reader, mended, length) || newline) {
        return;
    }
    /* The last line lacks its newline: lend it one, which ends the row unless
     * a quote is open. */
    feed_line(reader, "\n", 1);
}

void csv_read_bytes(const char *bytes, size_t length, const CsvHandler *handler)
{
    CsvReader reader = {.handler = handler, .bytes = bytes, .length = length};
    if (length >= 3 && memcmp(bytes, BYTE_ORDER_MARK, 3) == 0) {
        reader.line_end = 3;
    }
    reader.delimiter =
        choose_delimiter(bytes + reader.line_end, length - reader.line_end);
    reader.cell_room = FIRST_CELLS;
    reader.cells = ARENA_ARRAY(&reader.arena, CsvCell, FIRST_CELLS);
    reader.offsets = ARENA_ARRAY(&reader.arena, size_t, FIRST_CELLS);
    reader.text_room = FIRST_BYTES;
    reader.text = ARENA_ARRAY(&reader.arena, char, FIRST_BYTES);
    int failed = csv_init(&reader.parser, CSV_STRICT);
    assert(failed == 0);
    csv_set_delim(&reader.parser, (unsigned char)reader.delimiter);
    csv_set_space_func(&reader.parser, space_none);
    csv_set_blk_size(&reader.parser, FIRST_BYTES);
    do {
        while (reader.line_end < length) {
            read_line(&reader);
        }
    } while (reopen_at_end(&reader));
    csv_free(&reader.parser);
    arena_release(&reader.arena);
}

void csv_writer_init(CsvWriter *writer, Arena *arena)
{
    *writer = (CsvWriter){.arena = arena, .capacity = FIRST_BYTES};
    writer->bytes = ARENA_ARRAY(arena, char, FIRST_BYTES);
}

static void writer_make_room(CsvWriter *writer, size_t more)
{
    size_t needed = writer->length + more;
    if (needed <= writer->capacity) {
        return;
    }
    size_t capacity = writer->capacity;
    while (capacity < needed) {
        capacity *= 2;
    }
    writer->bytes =
        arena_grow(writer->arena, writer->bytes, writer->length, capacity, 1);
    writer->capacity = capacity;
}

void csv_writer_cell(CsvWriter *writer, const char *text)
{
    size_t length = strlen(text);
    /* At worst every byte is a quote, within quotes, after a comma. */
    writer_make_room(writer, length * 2 + 3);
    if (writer->is_mid_row) {
        writer->bytes[writer->length++] = ',';
    }
    writer->is_mid_row = true;
    /* A cell that begins with the byte order mark would lose it at the start
     * of a file. */
    if (strpbrk(text, ",;\"\r\n") || strncmp(text, BYTE_ORDER_MARK, 3) == 0) {
        writer->length +=
            csv_write(writer->bytes + writer->length,
                      writer->capacity - writer->length, text, length);
        return;
    }
    memcpy(writer->bytes + writer->length, text, length);
    writer->length += length;
}

void csv_writer_end_row(CsvWriter *writer)
{
    writer_make_room(writer, 3);
    bool is_blank =
        writer->length == 0 || writer->bytes[writer->length - 1] == '\n';
    if (writer->is_mid_row && is_blank) {
        /* One blank cell: without quotes it would be an empty line, no row. */
        writer->bytes[writer->length++] = '"';
        writer->bytes[writer->length++] = '"';
    }
    writer->bytes[writer->length++] = '\n';
    writer->is_mid_row = false;
}
