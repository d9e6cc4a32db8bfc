/* Errors as values. */
#include "base/err.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

Err err_make(ErrKind kind, const char *format, ...)
{
    assert(kind != ERR_OK);
    Err err = {.kind = kind};
    char text[ERR_TEXT_SIZE];
    va_list args;
    va_start(args, format);
    int length = vsnprintf(text, sizeof text, format, args);
    va_end(args);
    size_t kept = strlen(text);
    if ((size_t)length > kept) {
        size_t valid = text_utf8_valid(text, kept);
        kept = kept - valid < 4 ? valid : kept; /* the cut split a letter */
    }
    text_escape(text, kept, err.text, sizeof err.text);
    return err;
}

bool err_is(const Err *err, ErrKind kind)
{
    return err->kind == kind;
}

const char *err_kind_word(ErrKind kind)
{
    switch (kind) {
#define ERR_WORD(name, word, code)                                             \
    case name:                                                                 \
        return word;
        ERR_KINDS(ERR_WORD)
#undef ERR_WORD
    }
    return "defect";
}

int err_exit_code(ErrKind kind)
{
    switch (kind) {
#define ERR_CODE(name, word, code)                                             \
    case name:                                                                 \
        return code;
        ERR_KINDS(ERR_CODE)
#undef ERR_CODE
    }
    return 4;
}
