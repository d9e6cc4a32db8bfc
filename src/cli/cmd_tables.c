/* leat tables: the documentation of the tables. */
#include "cli/commands.h"
#include "farm/describe.h"

Err cmd_tables(const Arguments *arguments, FILE *out)
{
    fputs(farm_describe(arguments->arena), out);
    return ERR_NONE;
}
