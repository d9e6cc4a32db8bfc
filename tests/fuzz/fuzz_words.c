/* Any text as a number, a date, a week, an origin, and a command line. */
#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/date.h"
#include "base/figure.h"
#include "base/text.h"
#include "cli/commands.h"
#include "farm/zones.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { TEXTS_MAX = 32 };

/* Escaped text is plain, plain text is as it was; and nothing overruns. */
static void escape_text(const uint8_t *data, size_t size, Arena *arena)
{
    const char *bytes = (const char *)data;
    size_t plain = text_plain(bytes, size);
    size_t room = 4 * size + 1;
    char *out = ARENA_ARRAY(arena, char, room);
    size_t length = text_escape(bytes, size, out, room);
    assert(text_plain(out, length) == length && out[length] == '\0');
    assert((plain == size) == (length == size));
    char small[9];
    length = text_escape(bytes, size, small, sizeof small);
    assert(length < sizeof small && text_plain(small, length) == length);
    zone_is_known(arena_copy_bytes(arena, bytes, size));
}

static void parse_values(const char *text)
{
    double number = 0.0;
    if (text_to_f64(text, &number).kind == ERR_OK) {
        assert(isfinite(number));
    }
    int32_t day = 0;
    char again[DATE_TEXT_SIZE];
    if (date_parse(text, &day).kind == ERR_OK) {
        date_format(day, again);
        assert(strcmp(again, text) == 0);
    }
    if (week_parse(text, &day).kind == ERR_OK) {
        week_format(day, again);
        assert(strcmp(again, text) == 0);
        assert(date_weekday(day) == 0);
    }
    FigureOrigin origin = FIGURE_BOOK;
    if (figure_origin_parse(text, &origin).kind == ERR_OK) {
        assert(strcmp(figure_origin_word(origin), text) == 0);
    }
}

/* The text cut at its spaces, as each command would take it. */
static void parse_line(char *text, Arena *arena)
{
    char *texts[TEXTS_MAX];
    size_t count = 0;
    while (*text && count < TEXTS_MAX) {
        texts[count++] = text;
        text += strcspn(text, " ");
        if (*text) {
            *text++ = '\0';
        }
    }
    size_t command_count = 0;
    const Command *commands = commands_all(&command_count);
    for (size_t i = 0; i < command_count; i++) {
        Arguments got = {0};
        Err err =
            arguments_parse(&commands[i].takes, count, texts, arena, &got);
        assert(err.kind == ERR_OK || err.kind == ERR_USAGE);
        assert(got.word_count + got.fact_count + got.option_count <= count);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    char *text = arena_copy_bytes(&arena, (const char *)data, size);
    escape_text(data, size, &arena);
    parse_values(text);
    parse_line(text, &arena);
    return 0;
}
