/* leat manual: the manual page in the man macros, from the table of commands.
 */
#include "cli/commands.h"

/* Text in roff: a backslash and a dash are escaped; a line that begins with a
 * dot or an apostrophe would be read as a request. */
static void put_roff(const char *text, FILE *out)
{
    if (*text == '.' || *text == '\'') {
        fprintf(out, "\\&");
    }
    for (const char *c = text; *c; c++) {
        if (*c == '\\') {
            fprintf(out, "\\e");
        } else if (*c == '-') {
            fprintf(out, "\\-");
        } else {
            fputc(*c, out);
        }
    }
}

static void put_specs(const char *mark, const ArgumentSpec *specs, FILE *out)
{
    for (const ArgumentSpec *s = specs; s && s->name; s++) {
        fprintf(out, ".TP\n.B ");
        put_roff(mark, out);
        put_roff(s->name, out);
        if (s->value) {
            fputc(*mark ? ' ' : '=', out);
            put_roff(s->value, out);
        }
        fputc('\n', out);
        put_roff(s->meaning, out);
        fputc('\n', out);
    }
}

static void put_usage(const Command *command, FILE *out)
{
    const ArgumentSpecs *takes = &command->takes;
    fprintf(out, ".SS leat %s", command->name);
    for (const ArgumentSpec *s = takes->words; s && s->name; s++) {
        fprintf(out, s->is_required ? " %s" : " [%s]", s->name);
    }
    fprintf(out,
            takes->facts || takes->takes_any_fact ? " key=value ...\n" : "\n");
}

static void put_command(const Command *command, FILE *out)
{
    put_usage(command, out);
    put_roff(command->purpose, out);
    fprintf(out, ".\n");
    put_specs("", command->takes.words, out);
    put_specs("", command->takes.facts, out);
    put_specs("--", command->takes.options, out);
    if (command->examples) {
        fprintf(out, ".PP\n.nf\n.RS\n");
        for (const char *const *e = command->examples; *e; e++) {
            put_roff(*e, out);
            fputc('\n', out);
        }
        fprintf(out, ".RE\n.fi\n");
    }
}

Err cmd_manual(const Arguments *arguments, FILE *out)
{
    fprintf(out,
            ".\\\" Made by `leat manual`; do not edit.\n"
            ".TH LEAT 1 \"\" \"leat %s\"\n"
            ".SH NAME\n"
            "leat \\- plan and run a farm where fish and plants share one "
            "water\n"
            ".SH SYNOPSIS\n"
            ".B leat\n"
            ".I COMMAND\n"
            "[DIR] [key=value ...] [\\-\\-option [value] ...]\n"
            ".SH DESCRIPTION\n"
            "Facts about the farm or the question are key=value; how the "
            "run goes is an option. "
            "Their order is free. After \\-\\- everything is a word. "
            "\\-\\-help anywhere tells what a command takes.\n"
            ".SH COMMANDS\n",
            LEAT_VERSION);
    size_t count = 0;
    const Command *all = commands_all(&count);
    for (size_t i = 0; i < count; i++) {
        if (!all[i].is_hidden) {
            put_command(&all[i], out);
        }
    }
    fprintf(out, ".SH EXIT STATUS\n"
                 "0 done; 1 something in the farm or the question is wrong; 2 "
                 "wrongly called; 3 a file or the output failed; 4 a defect of "
                 "Leat; 130 stopped by Ctrl\\-C.\n");
    return ERR_NONE;
}
