/* leat people DIR: who may log in to the pages. */
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/commands.h"
#include "desk/farm_folder.h"
#include "desk/people.h"

enum { LINE_SIZE = 512 };

/* One line from stdin, without its end. */
static Err read_line(char *line)
{
    if (!fgets(line, LINE_SIZE, stdin)) {
        return err_make(ERR_INPUT, "no passphrase came");
    }
    size_t length = strcspn(line, "\r\n");
    if (line[length] == '\0' && length + 1 == LINE_SIZE) {
        return err_make(ERR_USAGE, "the passphrase is too long");
    }
    line[length] = '\0';
    size_t plain = text_plain(line, length);
    return plain == length
               ? ERR_NONE
               : err_make(ERR_USAGE, "a passphrase is one line of plain text");
}

/* The same from a terminal, which does not show it. */
static Err ask_line(const char *question, char *line)
{
    struct termios shown;
    bool is_terminal = tcgetattr(STDIN_FILENO, &shown) == 0;
    if (is_terminal) {
        struct termios hidden = shown;
        hidden.c_lflag &= ~(tcflag_t)ECHO;
        fputs(question, stderr);
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden);
    }
    Err err = read_line(line);
    if (is_terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
        fputc('\n', stderr);
    }
    return err;
}

/* Asked twice on a terminal; from a pipe it is one line. */
static Err ask_passphrase(char *out)
{
    char again[LINE_SIZE];
    TRY(ask_line("Passphrase (not shown): ", out));
    if (isatty(STDIN_FILENO)) {
        TRY(ask_line("The same again: ", again));
        if (strcmp(out, again) != 0) {
            return err_make(ERR_INPUT, "the two are not the same");
        }
    }
    return ERR_NONE;
}

static Err list(const char *dir, Arena *arena, FILE *out)
{
    People people;
    TRY(people_read(dir, arena, &people));
    if (people.count == 0) {
        fprintf(out,
                "Nobody may log in yet: leat people %s add name=.. "
                "role=owner\n",
                text_escaped(dir, arena));
    }
    for (int32_t i = 0; i < people.count; i++) {
        const Person *person = &people.items[i];
        fprintf(out, "%-24s %-7s %s%s\n", person->name,
                people_role_word(person->role), person->hand,
                person->is_gone ? "  left" : "");
    }
    return ERR_NONE;
}

static Err add(const Arguments *arguments, FILE *out)
{
    char passphrase[LINE_SIZE];
    const char *role = arguments_fact(arguments, "role");
    const char *hand = arguments_fact(arguments, "hand");
    const char *language = arguments_fact(arguments, "language");
    Person person = {.name = arguments_fact(arguments, "name"),
                     .hand = hand ? hand : "",
                     .language = language ? language : ""};
    if (!role) {
        return err_make(ERR_USAGE, "role is missing: owner, grower, hand or "
                                   "reader");
    }
    TRY(people_role_named(role, &person.role));
    TRY(ask_passphrase(passphrase));
    TRY(people_put(arguments_word(arguments, 0), &person, passphrase,
                   (int64_t)time(NULL), arguments->arena));
    fprintf(out, "%s may log in: %s\n",
            text_escaped(person.name, arguments->arena), role);
    return ERR_NONE;
}

static Err erase(const Arguments *arguments, FILE *out)
{
    int64_t entries = 0;
    TRY(people_erase(arguments_word(arguments, 0),
                     arguments_fact(arguments, "name"), arguments->arena,
                     &entries));
    fprintf(out,
            "Erased; %" PRId64 " entries told in that name are now told by "
            "%s. Backups\nmade before still hold it.\n",
            entries, PEOPLE_SOMEBODY);
    return ERR_NONE;
}

/* Who may log in is kept beside a farm's tables, not in any folder. */
static Err need_farm(const char *dir, Arena *arena)
{
    enum { FARM_MAX_BYTES = 1 << 20 };
    FarmBuffer farm;
    Err err = farm_folder_read_file(dir, farm_table_file(TABLE_farm),
                                    FARM_MAX_BYTES, arena, &farm);
    return err.kind == ERR_NOT_FOUND
               ? err_make(ERR_NOT_FOUND, "%.150s: there is no farm here", dir)
               : err;
}

Err cmd_people(const Arguments *arguments, FILE *out)
{
    TRY(need_farm(arguments_word(arguments, 0), arguments->arena));
    const char *dir = arguments_word(arguments, 0);
    const char *what = arguments_word(arguments, 1);
    const char *name = arguments_fact(arguments, "name");
    if (!what) {
        return arguments->fact_count == 0
                   ? list(dir, arguments->arena, out)
                   : err_make(ERR_USAGE, "add, leave or erase?");
    }
    if (!name) {
        return err_make(ERR_USAGE, "name is missing");
    }
    if (strcmp(what, "add") == 0) {
        return add(arguments, out);
    }
    if (strcmp(what, "leave") == 0) {
        TRY(people_leave(dir, name, (int64_t)time(NULL), arguments->arena));
        fprintf(out, "%s may not log in any more\n",
                text_escaped(name, arguments->arena));
        return ERR_NONE;
    }
    if (strcmp(what, "erase") == 0) {
        return erase(arguments, out);
    }
    return err_make(ERR_USAGE, "\"%.40s\": add, leave or erase?", what);
}
