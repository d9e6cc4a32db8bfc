/* The day's sheets as one page of HTML for paper. */
#include "out/sheets_page.h"

#include "base/tongue.h"
#include "out/html.h"

static const char HEAD[] =
    "<head>\n<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<style>\n"
    "@page { size: A4; margin: 11mm 12mm;\n"
    "  @bottom-center { content: counter(page) \" / \" counter(pages);\n"
    "    font: 7pt sans-serif; color: #444; } }\n"
    "body { font: 9.5pt/1.2 sans-serif; color: #000; background: #fff;\n"
    "  max-width: 186mm; margin: 0 auto; }\n"
    "section + section { break-before: page; }\n"
    "header { display: flex; flex-wrap: wrap; align-items: baseline;\n"
    "  column-gap: 5mm;\n"
    "  white-space: nowrap;\n"
    "  border-bottom: 1pt solid #000; padding-bottom: 1mm; }\n"
    "h1 { font-size: 16pt; margin: 0; }\n"
    "header p { margin: 0; }\n"
    "header .who { margin-inline-start: auto; }\n"
    "p.warn { border: 1.2pt solid #000; padding: 0.6mm 2mm; margin: 1mm 0 0;\n"
    "  font-weight: bold; }\n"
    ".row { display: flex; flex-wrap: wrap; align-items: center;\n"
    "  gap: 0.6mm 1.5mm;\n"
    "  border-bottom: 0.4pt solid #888; padding: 0.5mm 0;\n"
    "  break-inside: avoid; }\n"
    ".stop { border-bottom: 0.8pt solid #000; font-weight: bold;\n"
    "  padding: 1.2mm 0 0.4mm; break-after: avoid; }\n"
    ".no { width: 6mm; text-align: end; color: #444; font-size: 8pt;\n"
    "  flex: none; }\n"
    ".plate { width: 16mm; text-align: center; flex: none; }\n"
    ".plate b { display: inline-block; border: 1.2pt solid #000;\n"
    "  border-radius: 1.5mm; padding: 0.6mm 1.2mm; font-size: 11pt;\n"
    "  white-space: nowrap; }\n"
    ".long b { font-size: 7pt; }\n"
    ".pic { width: 8mm; flex: none; }\n"
    ".pic svg { width: 7mm; height: 7mm; display: block; }\n"
    ".what { flex: 1 1 48mm; }\n"
    ".what small { color: #333; font-size: 8pt; display: block; }\n"
    ".boxes { display: flex; gap: 1.5mm; flex: none;\n"
    "  margin-inline-start: auto; }\n"
    "span.box, span.blank { display: flex; flex-direction: column;\n"
    "  align-items: center; font-size: 7pt; line-height: 1.1;\n"
    "  white-space: nowrap; }\n"
    "span.box i { width: 6mm; margin-bottom: 0.3mm; height: 5.6mm; border: 1pt "
    "solid #000; }\n"
    "span.blank i { min-width: 14mm; height: 5.6mm; margin-bottom: 0.3mm;\n"
    "  border: 0.6pt solid #000;\n"
    "  font-style: normal; color: #666; display: flex;\n"
    "  align-items: flex-end; justify-content: flex-end;\n"
    "  padding: 0 0.5mm; box-sizing: border-box; font-size: 6.5pt; }\n"
    "span.words i { min-width: 30mm; }\n"
    "section.wide .what { flex: none; }\n"
    "section.wide .boxes { margin-inline-start: 0; }\n"
    "footer { margin-top: 2mm; font-size: 8pt; }\n"
    "footer p { margin: 0.5mm 0 0; }\n"
    "</style>\n";

/* Our own, plain enough to be read when copied twice. */
static const char PICTURES[] =
    "<svg width=\"0\" height=\"0\" style=\"position:absolute\" "
    "aria-hidden=\"true\"><defs>"
    "<g id=\"p1\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<path d=\"M2 16Q16 4 30 16Q16 28 2 16Z\"/><circle cx=\"16\" cy=\"16\" "
    "r=\"4\" fill=\"#000\"/></g>"
    "<g id=\"p2\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<path d=\"M3 16Q13 5 23 16Q13 27 3 16ZM22 16L30 9V23Z\"/>"
    "<circle cx=\"9\" cy=\"14\" r=\"1.5\" fill=\"#000\"/></g>"
    "<g id=\"p3\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<path d=\"M16 3Q27 17 25 22A9 9 0 0 1 7 22Q5 17 16 3Z\"/></g>"
    "<g id=\"p4\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<path d=\"M5 27Q3 7 28 4Q29 26 9 25ZM5 29Q12 17 22 10\"/></g>"
    "<g id=\"p5\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<circle cx=\"16\" cy=\"19\" r=\"10\"/><path d=\"M16 9V3M16 "
    "8Q22 2 26 5\"/></g>"
    "<g id=\"p6\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<circle cx=\"16\" cy=\"16\" r=\"4\" fill=\"#000\"/>"
    "<circle cx=\"16\" cy=\"7\" r=\"5\"/><circle cx=\"16\" cy=\"25\" r=\"5\"/>"
    "<circle cx=\"7\" cy=\"16\" r=\"5\"/><circle cx=\"25\" cy=\"16\" r=\"5\"/>"
    "</g>"
    "<g id=\"p7\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\">"
    "<path d=\"M4 22H28V29H4ZM16 22V12M16 14Q8 14 8 6Q16 6 16 14Q24 14 24 "
    "6Q16 6 16 14\"/></g>"
    "</defs></svg>\n";

static void put_tag(Html *html, const char *before, const char *text,
                    const char *after)
{
    html_raw(html, before);
    html_text(html, text);
    html_raw(html, after);
}

static void put_field(Html *html, const SheetField *field)
{
    if (!field->fill) {
        put_tag(html, "<span class=\"box\"><i></i>", field->label, "</span>");
        return;
    }
    bool is_words = field->fill[0] == 't' || field->fill[0] == 'l';
    html_raw(html, is_words ? "<span class=\"blank words\"><i>"
                            : "<span class=\"blank\"><i>");
    html_text(html, field->usual);
    put_tag(html, "</i>", field->label, "</span>");
}

/* Plates longer than a bed's id are set smaller. */
static bool is_long(const char *plate)
{
    enum { USUAL_LENGTH = 6 };
    int length = 0;
    while (plate[length]) {
        length++;
    }
    return length > USUAL_LENGTH;
}

static void put_picture(Html *html, SheetPicture picture)
{
    html_raw(html, "<span class=\"pic\">");
    if (picture != PICTURE_NONE) {
        html_raw(html, arena_text(html->arena,
                                  "<svg viewBox=\"0 0 32 32\" "
                                  "aria-hidden=\"true\"><use href=\"#p%d\"/>"
                                  "</svg>",
                                  (int)picture));
    }
    html_raw(html, "</span>");
}

static void put_row(Html *html, const SheetRow *row)
{
    if (row->number == 0) {
        put_tag(html, "<div class=\"stop\">", row->text, "</div>\n");
        return;
    }
    html_raw(html, arena_text(html->arena,
                              "<div class=\"row\"><span class=\"no\">%d"
                              "</span>",
                              (int)row->number));
    html_raw(html, is_long(row->plate) ? "<span class=\"plate long\">"
                                       : "<span class=\"plate\">");
    if (*row->plate) {
        put_tag(html, "<b dir=\"ltr\">", row->plate, "</b>");
    }
    html_raw(html, "</span>");
    put_picture(html, row->picture);
    put_tag(html, "<span class=\"what\">", row->text, "");
    if (*row->note) {
        put_tag(html, "<small>", row->note, "</small>");
    }
    html_raw(html, "</span><span class=\"boxes\">");
    for (int f = 0; f < row->field_count; f++) {
        put_field(html, &row->fields[f]);
    }
    html_raw(html, "</span></div>\n");
}

/* Notices are told once, under the first sheet. */
static void put_foot(Html *html, const SheetsPage *page, const Sheet *sheet)
{
    html_raw(html, "<footer>\n");
    for (int c = 0; c < CAUTION_COUNT; c++) {
        if (sheet->has_caution[c]) {
            put_tag(html, "<p>", say(html->arena, caution_text((Caution)c)),
                    "</p>\n");
        }
    }
    for (int i = 0; i < page->notice_count && sheet == page->sheets; i++) {
        put_tag(html, "<p>", page->notices[i], "</p>\n");
    }
    put_tag(html, "<p>",
            say(html->arena,
                "Write at once, leave blank what was not done, strike out once "
                "and initial. The numbers at the margin are for keying in, in "
                "this order."),
            "</p>\n</footer>\n");
}

static void put_sheet(Html *html, const SheetsPage *page, const Sheet *sheet)
{
    html_raw(html, sheet->kind == SHEET_WATER ? "<section class=\"wide\">\n"
                                              : "<section>\n");
    put_tag(html, "<header><h1>",
            say(html->arena, sheet_kind_title(sheet->kind)), "</h1>");
    put_tag(html, "<p>", page->day, "</p>");
    put_tag(html, "<p>", page->farm_name, "</p>");
    put_tag(html, "<p class=\"who\">",
            say(html->arena, "who ____________ from _____ to _____"),
            "</p></header>\n");
    for (int32_t i = 0; i < sheet->warning_count; i++) {
        put_tag(html, "<p class=\"warn\">", sheet->warnings[i], "</p>\n");
    }
    for (int32_t i = 0; i < sheet->count; i++) {
        put_row(html, &sheet->rows[i]);
    }
    if (sheet->count == 0) {
        put_tag(html, "<p>", say(html->arena, "Nothing today."), "</p>\n");
    }
    put_foot(html, page, sheet);
    html_raw(html, "</section>\n");
}

const char *sheets_page(const SheetsPage *page, Arena *arena)
{
    Html html = {.arena = arena};
    html_raw(&html, html_opening(arena));
    html_raw(&html, HEAD);
    put_tag(&html, "<title>", page->farm_name, "");
    put_tag(&html, ": ", page->day, "</title>\n</head>\n<body>\n");
    html_raw(&html, PICTURES);
    for (int32_t i = 0; i < page->count; i++) {
        put_sheet(&html, page, &page->sheets[i]);
    }
    html_raw(&html, "</body>\n</html>\n");
    return html.bytes;
}
