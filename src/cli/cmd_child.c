/* leat child: heavy work for another Leat, by JSON. */
#include "cli/commands.h"
#include "desk/child.h"

Err cmd_child(const Arguments *arguments, FILE *out)
{
    (void)arguments;
    return child_serve(stdin, out);
}
