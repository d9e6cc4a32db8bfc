/* leat version. */
#include "cli/commands.h"

Err cmd_version(const Arguments *arguments, FILE *out)
{
    fprintf(out, "leat %s\n", LEAT_VERSION);
    return ERR_NONE;
}
