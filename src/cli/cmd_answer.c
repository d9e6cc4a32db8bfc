/* leat answer DIR: a helper of `leat open`. */
#include <unistd.h>

#include "cli/commands.h"
#include "http/answer.h"

Err cmd_answer(const Arguments *arguments, FILE *out)
{
    (void)out;
    return answer_serve(arguments_word(arguments, 0), STDIN_FILENO,
                        STDOUT_FILENO);
}
