/* The emergency card as a page for paper. */
#include "out/card_page.h"

#include "out/html.h"

/* Large enough to read by torch; rows of tables keep their columns. */
static const char HEAD[] =
    "<head>\n<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<style>\n"
    "@page { size: A4; margin: 11mm 13mm; }\n"
    "body { font: 9.6pt/1.24 sans-serif; color: #000; background: #fff;\n"
    "  max-width: 184mm; margin: 0 auto; }\n"
    "h1 { font-size: 15pt; margin: 0; }\n"
    "h2 { font-size: 10.5pt; margin: 1.6mm 0 0; border-top: 0.4pt solid #000;\n"
    "  break-after: avoid; }\n"
    "p { margin: 0.5mm 0 0; }\n"
    "pre { font: 8.4pt/1.2 monospace; margin: 0.5mm 0 0; white-space: pre;\n"
    "  overflow-x: auto; }\n"
    "section:first-of-type { border: 1.2pt solid #000; padding: 0 2mm 1mm;\n"
    "  margin-top: 1.5mm; font-size: 10.6pt; }\n"
    "section:first-of-type h2 { border: 0; }\n"
    "footer { margin-top: 1.5mm; border-top: 0.4pt solid #000; }\n"
    "</style>\n";

static const char *step_page(const CardStep *step, int number, Arena *arena)
{
    const char *page = arena_text(arena, "<section>\n<h2>%d&ensp;%s</h2>\n",
                                  number, html_escaped(step->title, arena));
    bool is_in_rows = false;
    for (int i = 0; i < step->count; i++) {
        const CardLine *line = &step->lines[i];
        const char *text = html_escaped(line->text, arena);
        const char *open = line->is_row && !is_in_rows   ? "<pre dir=\"ltr\">"
                           : !line->is_row && is_in_rows ? "</pre>\n"
                                                         : "";
        page = line->is_row
                   ? arena_text(arena, "%s%s%s\n", page, open, text)
                   : arena_text(arena, "%s%s<p>%s</p>\n", page, open, text);
        is_in_rows = line->is_row;
    }
    return arena_text(arena, "%s%s</section>\n", page,
                      is_in_rows ? "</pre>\n" : "");
}

const char *card_page(const Card *card, const char *farm_name,
                      const char *const *notices, int notice_count,
                      Arena *arena)
{
    const char *title = html_escaped(
        arena_text(arena, "%s: %s", farm_name, card->title), arena);
    const char *page = arena_text(
        arena,
        "%s%s<title>%s</title>\n</head>\n<body>\n<h1>%s</h1>\n<p>%s. %s</p>\n",
        html_opening(arena), HEAD, title, title,
        html_escaped(card->when, arena), html_escaped(card->what, arena));
    int number = 0;
    for (int part = 0; part < CARD_PARTS; part++) {
        if (card->steps[part].count > 0) {
            page = arena_text(arena, "%s%s", page,
                              step_page(&card->steps[part], ++number, arena));
        }
    }
    page = arena_text(arena, "%s<footer>\n", page);
    for (int i = 0; i < notice_count; i++) {
        page = arena_text(arena, "%s<p>%s</p>\n", page,
                          html_escaped(notices[i], arena));
    }
    return arena_text(arena, "%s<p>%s</p>\n</footer>\n</body>\n</html>\n", page,
                      html_escaped(card->foot, arena));
}
