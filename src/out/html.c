/* Pages for paper: HTML text that grows. */
#include "out/html.h"

#include <string.h>

#include "base/tongue.h"

enum { FIRST_ROOM = 4096 };

static void append(Html *html, const char *bytes, size_t length)
{
    if (html->length + length + 1 > html->room) {
        size_t room = html->room ? html->room : FIRST_ROOM;
        while (room < html->length + length + 1) {
            room *= 2;
        }
        html->bytes =
            arena_grow(html->arena, html->bytes, html->length, room, 1);
        html->room = room;
    }
    memcpy(html->bytes + html->length, bytes, length);
    html->length += length;
    html->bytes[html->length] = '\0';
}

const char *html_opening(Arena *arena)
{
    const Tongue *tongue = arena_tongue(arena);
    return arena_text(arena, "<!doctype html>\n<html lang=\"%s\"%s>\n",
                      tongue->code, tongue->is_rtl ? " dir=\"rtl\"" : "");
}

void html_raw(Html *html, const char *markup)
{
    append(html, markup, strlen(markup));
}

static const char *sign_of(char is)
{
    switch (is) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return NULL;
    }
}

void html_text(Html *html, const char *text)
{
    for (const char *at = text; *at; at++) {
        const char *sign = sign_of(*at);
        if (sign) {
            html_raw(html, sign);
        } else {
            append(html, at, 1);
        }
    }
}

const char *html_escaped(const char *text, Arena *arena)
{
    Html html = {.arena = arena};
    html_text(&html, text);
    return html.bytes ? html.bytes : "";
}
