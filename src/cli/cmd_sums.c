/* leat sums: the page of the sums, from their table. */
#include "cli/commands.h"

#include <string.h>

#include "json/json_sum.h"
#include "sums/table.h"

/* A bar would end a cell. */
static void put_cell(const char *text, FILE *out)
{
    for (const char *c = text; *c; c++) {
        fputs(*c == '|' ? "\\|" : (char[]){*c, '\0'}, out);
    }
}

static void put_key(const SumKey *key, Arena *arena, FILE *out)
{
    fprintf(out, "| `%s` | ", key->name);
    put_cell(key->meaning, out);
    fprintf(out, " | %s | ", sum_key_expects(key, arena));
    switch (key->need) {
    case SUM_REQUIRED:
        fputs("needed", out);
        break;
    case SUM_USUAL:
        if (key->kind == SUM_WORD) {
            fprintf(out, "usually %s", key->unit);
        } else {
            fprintf(out, "usually %.10g", key->usual);
        }
        break;
    case SUM_MAY:
        fputs("may be left out", out);
        break;
    }
    fputs(" |\n", out);
}

static void put_sum(const Sum *sum, Arena *arena, FILE *out)
{
    fprintf(out, "\n### %s\n\n%s.\n\n", sum->name, sum->purpose);
    fputs("| key | meaning | takes | |\n|---|---|---|---|\n", out);
    for (const SumKey *k = sum->keys; k->name; k++) {
        put_key(k, arena, out);
    }
    fprintf(out, "\n    %s\n", sum_example_line(sum, arena));
    if (*sum->source) {
        fprintf(out, "\nSource: %s.\n", sum->source);
    }
}

Err cmd_sums(const Arguments *arguments, FILE *out)
{
    fputs("# Sums\n\n"
          "Made by `leat sums`; do not edit. `leat sum` lists them, `leat sum "
          "NAME` tells\nthe keys of one, `leat sum NAME key=value ... "
          "[--json]` answers with its working.\nWhere nothing stands as source "
          "it is arithmetic or common practice of the trade;\nkeys are those "
          "of `docs/sources.md`. What is outside the range of an equation is\n"
          "refused with that range; `oxygen-left` widens instead and says "
          "so.\n",
          out);
    size_t count = 0;
    const SumSubject *subjects = sum_subjects(&count);
    for (size_t i = 0; i < count; i++) {
        fprintf(out, "\n## %s\n", subjects[i].title);
        for (const Sum *s = subjects[i].sums; s->name; s++) {
            put_sum(s, arguments->arena, out);
        }
    }
    return ERR_NONE;
}
