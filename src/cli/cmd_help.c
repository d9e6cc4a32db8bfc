/* leat help: what a command does, from the table of commands. */
#include "cli/commands.h"

#include <string.h>

static void print_specs(const char *title, const char *mark,
                        const ArgumentSpec *specs, FILE *out)
{
    size_t width = 0;
    for (const ArgumentSpec *s = specs; s && s->name; s++) {
        size_t value = s->value ? strlen(s->value) + 1 : 0;
        size_t length = strlen(mark) + strlen(s->name) + value;
        width = length > width ? length : width;
    }
    if (width == 0) {
        return;
    }
    fprintf(out, "\n%s\n", title);
    for (const ArgumentSpec *s = specs; s->name; s++) {
        int used = fprintf(out, "  %s%s", mark, s->name);
        if (s->value) {
            used += fprintf(out, "%c%s", *mark ? ' ' : '=', s->value);
        }
        fprintf(out, "%*s  %s\n", (int)width + 2 - used, "", s->meaning);
    }
}

static void print_fact(const ArgumentSpec *spec, FILE *out)
{
    fprintf(out, spec->is_required ? " %s=%s" : " [%s=%s]", spec->name,
            spec->value ? spec->value : "...");
}

void command_print_usage(const Command *command, FILE *out)
{
    const ArgumentSpecs *takes = &command->takes;
    fprintf(out, "leat %s", command->name);
    for (const ArgumentSpec *s = takes->words; s && s->name; s++) {
        fprintf(out, s->is_required ? " %s" : " [%s]", s->name);
    }
    for (const ArgumentSpec *s = takes->facts; s && s->name; s++) {
        print_fact(s, out);
    }
    if (takes->takes_any_fact) {
        fprintf(out, " [key=value ...]");
    }
    for (const ArgumentSpec *s = takes->options; s && s->name; s++) {
        fprintf(out, s->value ? " [--%s %s]" : " [--%s]", s->name, s->value);
    }
    fprintf(out, "\n");
}

void command_print_help(const Command *command, FILE *out)
{
    fprintf(out, "leat %s: %s\n\n  ", command->name, command->purpose);
    command_print_usage(command, out);
    print_specs("Words", "", command->takes.words, out);
    print_specs("Facts", "", command->takes.facts, out);
    print_specs("Options", "--", command->takes.options, out);
    if (command->examples) {
        fprintf(out, "\nFor example\n");
    }
    for (const char *const *e = command->examples; e && *e; e++) {
        fprintf(out, "  %s\n", *e);
    }
}

void command_print_overview(FILE *out)
{
    fprintf(out, "Leat plans and runs a farm where fish and plants share one "
                 "water.\n\n"
                 "  leat COMMAND [DIR] [key=value ...] [--option [value] ...]\n"
                 "\nCommands\n");
    size_t count = 0;
    const Command *all = commands_all(&count);
    for (size_t i = 0; i < count; i++) {
        if (!all[i].is_hidden) {
            fprintf(out, "  %-10s %s\n", all[i].name, all[i].purpose);
        }
    }
    fprintf(out,
            "\nFacts about the farm or the question are key=value; how the run "
            "goes is --option.\n"
            "DIR is a farm's folder. `leat help NAME` tells what a command "
            "takes.\n"
            "Exit code: 0 done, 1 something in the farm or the question is "
            "wrong, 2 wrongly\n"
            "called, 3 a file or the output failed, 5 somebody else is "
            "changing the folder.\n");
}

Err cmd_help(const Arguments *arguments, FILE *out)
{
    const char *name = arguments_word(arguments, 0);
    if (!name) {
        command_print_overview(out);
        return ERR_NONE;
    }
    const Command *command = NULL;
    TRY(commands_find(name, &command));
    command_print_help(command, out);
    return ERR_NONE;
}
