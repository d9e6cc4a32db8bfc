/* The one table of commands. Help, the manual page and the contract test are
 * made from it; to add a command, write cli/cmd_NAME.c, name its function
 * below and give it a row in commands.c. */
#ifndef LEAT_CLI_COMMANDS_H
#define LEAT_CLI_COMMANDS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/err.h"
#include "cli/arguments.h"

/* A command decodes its arguments, calls one function of desk/ and prints the
 * answer on out. Errors are returned: main prints them on stderr and turns
 * their kind into the exit code. */
typedef Err CommandRun(const Arguments *arguments, FILE *out);

typedef struct Command {
    const char *name;
    CommandRun *run;
    const char *purpose; /* one line, in the imperative */
    ArgumentSpecs takes;
    const char *const *examples; /* whole lines; ends with NULL */
    bool is_hidden;              /* for scripts and for Leat itself */
} Command;

/* All commands in the order of the help. */
const Command *commands_all(size_t *out_count);

/* ERR_USAGE with the nearest name where there is none of that name. */
NODISCARD Err commands_find(const char *name, const Command **out);

/* "leat jobs DIR [--week 2027-W14] [--json]", from the specs. */
void command_print_usage(const Command *command, FILE *out);

/* What `leat help` and `leat help NAME` print. */
void command_print_overview(FILE *out);
void command_print_help(const Command *command, FILE *out);

CommandRun cmd_alter;
CommandRun cmd_answer;
CommandRun cmd_beds;
CommandRun cmd_backup;
CommandRun cmd_check;
CommandRun cmd_can;
CommandRun cmd_carry;
CommandRun cmd_child;
CommandRun cmd_compare;
CommandRun cmd_dose;
CommandRun cmd_emergency;
CommandRun cmd_fish;
CommandRun cmd_export;
CommandRun cmd_foresee;
CommandRun cmd_import;
CommandRun cmd_heat;
CommandRun cmd_help;
CommandRun cmd_jobs;
CommandRun cmd_journal;
CommandRun cmd_manual;
CommandRun cmd_note;
CommandRun cmd_open;
CommandRun cmd_lots;
CommandRun cmd_orders;
CommandRun cmd_people;
CommandRun cmd_plan;
CommandRun cmd_new;
CommandRun cmd_reading;
CommandRun cmd_restore;
CommandRun cmd_round;
CommandRun cmd_sheets;
CommandRun cmd_sum;
CommandRun cmd_sums;
CommandRun cmd_tables;
CommandRun cmd_vent;
CommandRun cmd_version;
CommandRun cmd_water;
CommandRun cmd_working;
CommandRun cmd_work;

#endif
