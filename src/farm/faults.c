/* Faults and notices found in a farm's tables. */
#include "farm/faults.h"

#include <stdarg.h>
#include <string.h>

#include "base/text.h"
#include "base/tongue.h"

enum { FIRST_ROOM = 16, VALUE_BYTES = 60, TEXT_BYTES = 1000 };

void faults_init(Faults *faults, Arena *arena, int32_t limit)
{
    *faults = (Faults){.arena = arena, .limit = limit};
}

bool faults_has_room(const Faults *faults)
{
    return faults->kept_count < faults->limit;
}

/* A copy that prints on one line and is short. */
static const char *copy_value(Arena *arena, const char *value)
{
    if (!value || !*value) {
        return "";
    }
    size_t length = strlen(value);
    bool is_cut = length > VALUE_BYTES;
    size_t shown = is_cut ? VALUE_BYTES : length;
    size_t valid = text_utf8_valid(value, shown);
    if (is_cut && shown - valid < 4) {
        shown = valid; /* the cut split a letter */
    }
    return arena_text(
        arena, "%s%s",
        text_escaped(arena_copy_bytes(arena, value, shown), arena),
        is_cut ? "..." : "");
}

/* What keeps filled in texts apart in writing from the right (tools/tongues.py)
 * would be shown as escaped below. */
static void drop_isolates(char *text)
{
    static const char FIRST_STRONG[] = "\xe2\x81\xa8";
    static const char POP[] = "\xe2\x81\xa9";
    char *to = text;
    while (*text) {
        bool is_mark = strncmp(text, FIRST_STRONG, strlen(FIRST_STRONG)) == 0 ||
                       strncmp(text, POP, strlen(POP)) == 0;
        if (is_mark) {
            text += strlen(POP);
        } else {
            *to++ = *text++;
        }
    }
    *to = '\0';
}

PRINTF_LIKE(4, 0)
static Fault make_fault(Arena *arena, FaultPlace place, const char *value,
                        const char *format, va_list args)
{
    char *text = arena_text_list(arena, say(arena, format), args);
    drop_isolates(text);
    size_t length = strlen(text);
    if (length >= TEXT_BYTES) {
        length = TEXT_BYTES - 1;
        text[length] = '\0';
    }
    text[text_utf8_valid(text, length)] = '\0';
    place.file = text_escaped(place.file, arena);
    return (Fault){.place = place,
                   .value = copy_value(arena, value),
                   .expected =
                       arena_copy_text(arena, text_escaped(text, arena))};
}

static Fault *append(Arena *arena, Fault *items, int32_t count, int32_t *room)
{
    if (count < *room) {
        return items;
    }
    int32_t more = *room ? *room * 2 : FIRST_ROOM;
    *room = more;
    return arena_grow(arena, items, (size_t)count, (size_t)more, sizeof *items);
}

void faults_add_list(Faults *faults, FaultPlace place, const char *value,
                     const char *expected, va_list args)
{
    faults->count++;
    if (!faults_has_room(faults)) {
        return;
    }
    faults->items =
        append(faults->arena, faults->items, faults->kept_count, &faults->room);
    faults->items[faults->kept_count++] =
        make_fault(faults->arena, place, value, expected, args);
}

void faults_add(Faults *faults, FaultPlace place, const char *value,
                const char *expected, ...)
{
    va_list args;
    va_start(args, expected);
    faults_add_list(faults, place, value, expected, args);
    va_end(args);
}

void faults_notice_list(Faults *faults, FaultPlace place, const char *value,
                        const char *text, va_list args)
{
    faults->notice_total++;
    if (faults->notice_count >= faults->limit) {
        return;
    }
    faults->notices = append(faults->arena, faults->notices,
                             faults->notice_count, &faults->notice_room);
    faults->notices[faults->notice_count++] =
        make_fault(faults->arena, place, value, text, args);
}

void faults_doubt_list(Faults *faults, FaultPlace place, const char *value,
                       const char *text, va_list args)
{
    int32_t before = faults->notice_count;
    faults_notice_list(faults, place, value, text, args);
    faults->doubt_total++;
    if (faults->notice_count > before) {
        faults->notices[before].is_doubt = true;
    }
}

void faults_notice(Faults *faults, FaultPlace place, const char *value,
                   const char *text, ...)
{
    va_list args;
    va_start(args, text);
    faults_notice_list(faults, place, value, text, args);
    va_end(args);
}

static int compare_places(const FaultPlace *a, const FaultPlace *b)
{
    int files = strcmp(a->file, b->file);
    if (files != 0) {
        return files;
    }
    if (a->line != b->line) {
        return a->line < b->line ? -1 : 1;
    }
    return (a->column > b->column) - (a->column < b->column);
}

/* Merge sort, since qsort need not keep the order of equals. */
static void sort_span(Fault *items, Fault *spare, int32_t count)
{
    if (count < 2) {
        return;
    }
    int32_t half = count / 2;
    sort_span(items, spare, half);
    sort_span(items + half, spare, count - half);
    memcpy(spare, items, (size_t)half * sizeof *items);
    int32_t left = 0;
    int32_t right = half;
    for (int32_t i = 0; left < half; i++) {
        bool is_right = right < count && compare_places(&items[right].place,
                                                        &spare[left].place) < 0;
        items[i] = is_right ? items[right++] : spare[left++];
    }
}

void faults_sort(Faults *faults)
{
    int32_t most = faults->kept_count > faults->notice_count
                       ? faults->kept_count
                       : faults->notice_count;
    Fault *spare = ARENA_ARRAY(faults->arena, Fault, most / 2 + 1);
    sort_span(faults->items, spare, faults->kept_count);
    sort_span(faults->notices, spare, faults->notice_count);
}
