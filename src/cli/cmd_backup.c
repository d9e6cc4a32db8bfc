/* leat backup DIR FILE, leat restore DIR FILE: keep the journal safe. */
#include "base/text.h"
#include "cli/commands.h"
#include "desk/keep.h"

Err cmd_backup(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    KeepAnswer answer;
    TRY(keep_backup(arguments_word(arguments, 0), arguments_word(arguments, 1),
                    arena, &answer));
    fprintf(out, "%lld entries kept in %s, which was checked whole.\n",
            (long long)answer.entries, text_escaped(answer.file, arena));
    return ERR_NONE;
}

Err cmd_restore(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    KeepAnswer answer;
    TRY(keep_restore(arguments_word(arguments, 0), arguments_word(arguments, 1),
                     arena, &answer));
    fprintf(out, "%lld entries put back from %s.\n", (long long)answer.entries,
            text_escaped(answer.file, arena));
    if (*answer.aside) {
        fprintf(out, "What was there is now %s.\n",
                text_escaped(answer.aside, arena));
    }
    return ERR_NONE;
}
