/* leat work DIR DAY: a plan or many years for a Leat that is open. */
#include <stdlib.h>
#include <unistd.h>

#include "cli/commands.h"
#include "farm/fields.h"
#include "http/work_child.h"

Err cmd_work(const Arguments *arguments, FILE *out)
{
    (void)out;
    const char *day = arguments_word(arguments, 1);
    int32_t today = day ? (int32_t)strtol(day, NULL, 10) : DATE_ALWAYS;
    return work_child_serve(arguments_word(arguments, 0), today, STDIN_FILENO,
                            STDOUT_FILENO);
}
