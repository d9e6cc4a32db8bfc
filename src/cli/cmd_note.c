/* leat note DIR kind=... place=... ...: tell an entry of the journal. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/commands.h"
#include "desk/note.h"
#include "json/journal.h"

/* ---- What can be told -----------------------------------------------------
 */

static void print_fields(uint64_t bits, const char *before, FILE *out)
{
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        if (bits >> i & 1) {
            fprintf(out, "%s%s", before, TOLD_FIELD_TABLE[i].name);
            before = ", ";
        }
    }
}

static void print_kinds(FILE *out)
{
    for (int i = 0; i < TOLD_KIND_COUNT; i++) {
        const ToldKindInfo *kind = &TOLD_KIND_TABLE[i];
        if (note_is_ours(i)) {
            continue;
        }
        fprintf(out, "%-10s %s", kind->word, kind->meaning);
        print_fields(kind->needs, "\n           needs ", out);
        print_fields(kind->needs_one, "\n           needs one of ", out);
        print_fields(kind->may & ~(kind->needs | kind->needs_one),
                     "\n           may have ", out);
        fputc('\n', out);
    }
    fputs("All may have ", out);
    print_fields(TOLD_ALWAYS, "", out);
    fputs(".\nThe day is today unless happened_on says otherwise.\n", out);
}

/* ---- From the command line or from JSON -----------------------------------
 */

static Err from_facts(const Arguments *arguments, Told *out)
{
    *out = told_blank(TOLD_SEEN, DATE_ALWAYS);
    bool has_kind = false;
    for (size_t i = 0; i < arguments->fact_count; i++) {
        const ArgumentFact *fact = &arguments->facts[i];
        ToldFieldId id = TOLD_AT_number;
        TRY(told_field_find(fact->key, &id));
        if (id == TOLD_AT_number || id == TOLD_AT_told_at ||
            id == TOLD_AT_told_on) {
            return err_make(ERR_USAGE, "%s: is written by Leat", fact->key);
        }
        TRY(told_put_text(id, fact->value, out));
        has_kind = has_kind || id == TOLD_AT_kind;
    }
    if (!has_kind && out->strikes > 0) {
        out->kind = TOLD_STRUCK;
    } else if (!has_kind) {
        return err_make(ERR_USAGE,
                        "kind: is missing (leat note %.60s lists the kinds)",
                        arguments_word(arguments, 0));
    }
    return ERR_NONE;
}

static Err read_input(Arena *arena, char **out_text, size_t *out_length)
{
    char *text = arena_alloc(arena, TOLD_JSON_MAX_BYTES + 1, 1);
    size_t length = fread(text, 1, TOLD_JSON_MAX_BYTES + 1, stdin);
    if (ferror(stdin)) {
        return err_make(ERR_IO, "entries cannot be read from the input");
    }
    *out_text = text;
    *out_length = length;
    return ERR_NONE;
}

static Err from_input(Arena *arena, Tolds *out)
{
    char *text = NULL;
    size_t length = 0;
    TRY(read_input(arena, &text, &length));
    /* Entries without a day are of today, which the desk knows. */
    return tolds_from_json(text, length, DATE_ALWAYS, arena, out);
}

/* ---- What was kept --------------------------------------------------------
 */

static void print_json(const NoteAnswer *answer, Arena *arena, FILE *out)
{
    bool *is_new = ARENA_ARRAY(arena, bool, answer->tolds.count);
    for (int32_t i = 0; i < answer->tolds.count; i++) {
        is_new[i] = answer->added[i].is_new;
    }
    JournalAddedJson json = {&answer->tolds, is_new, answer->doubts,
                             answer->doubt_count};
    fputs(journal_added_to_json(&json, arena), out);
}

static void print_kept(const NoteAnswer *answer, Arena *arena, FILE *out)
{
    for (int32_t i = 0; i < answer->tolds.count; i++) {
        const Told *told = &answer->tolds.items[i];
        fprintf(out, "%s %lld: %s %s%s%s%s\n",
                answer->added[i].is_new ? "Entry" : "Told before, as entry",
                (long long)answer->added[i].number,
                told_text(told, TOLD_AT_happened_on, arena),
                told_kind_word(told->kind), *told->place ? " " : "",
                text_escaped(told->place, arena),
                told_is_late(told) ? " (told late)" : "");
    }
    for (int32_t i = 0; i < answer->doubt_count; i++) {
        fprintf(out, "In doubt: entry %lld, %s\n",
                (long long)answer->doubts[i].number,
                text_escaped(answer->doubts[i].text, arena));
    }
}

Err cmd_note(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    bool is_input = arguments_has(arguments, "stdin");
    if (arguments->fact_count == 0 && !is_input) {
        if (arguments_has(arguments, "json")) {
            return err_make(ERR_USAGE, "--json: of what is told; what can be "
                                       "told is text");
        }
        print_kinds(out);
        return ERR_NONE;
    }
    NoteQuestion question = {.dir = arguments_word(arguments, 0),
                             .today = DATE_ALWAYS,
                             .device = "command line"};
    TRY(arguments_day(arguments, "today", &question.today));
    Told one;
    Tolds many;
    if (is_input && arguments->fact_count > 0) {
        return err_make(ERR_USAGE, "--stdin: the entries come from the input, "
                                   "not from the command line as well");
    }
    if (is_input) {
        TRY(from_input(arena, &many));
    } else {
        TRY(from_facts(arguments, &one));
        many = (Tolds){&one, 1};
    }
    question.tolds = many.items;
    question.count = many.count;
    NoteAnswer answer;
    TRY(note_add(&question, arena, &answer));
    if (arguments_has(arguments, "json")) {
        print_json(&answer, arena, out);
    } else {
        print_kept(&answer, arena, out);
    }
    return ERR_NONE;
}
