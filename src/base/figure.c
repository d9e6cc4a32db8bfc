/* A figure: a parameter that a person could argue with. */
#include "base/figure.h"

#include <string.h>

static const char *const WORDS[] = {"book", "yours", "guess"};

Figure figure_exact(double value, FigureOrigin origin, const char *source)
{
    return (Figure){value, value, value, origin, source};
}

const char *figure_origin_word(FigureOrigin origin)
{
    return WORDS[origin];
}

Err figure_origin_parse(const char *word, FigureOrigin *out)
{
    for (int i = 0; i < 3; i++) {
        if (strcmp(word, WORDS[i]) == 0) {
            *out = (FigureOrigin)i;
            return ERR_NONE;
        }
    }
    return err_make(ERR_INPUT, "\"%.40s\": expected book, yours or guess",
                    word);
}
