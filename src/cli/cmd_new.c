/* leat new DIR: a folder to begin with. */
#include "base/text.h"
#include "cli/commands.h"
#include "desk/new_farm.h"

Err cmd_new(const Arguments *arguments, FILE *out)
{
    const char *path = arguments_word(arguments, 0);
    bool is_blank = arguments_has(arguments, "blank");
    TRY(new_farm(path, is_blank, arguments->arena));
    path = text_escaped(path, arguments->arena);
    if (is_blank) {
        fprintf(out,
                "%s holds a table for each thing, with headers only; filled "
                "ones to look at are in %s/examples.\nThe columns are "
                "explained in docs/tables.md. Next: leat check %s\n",
                path, path, path);
    } else {
        fprintf(out, "%s holds the demo farm. Next: leat check %s\n", path,
                path);
    }
    return ERR_NONE;
}
