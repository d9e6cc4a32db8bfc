/* Errors as values. */
#include "base/err.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>

Err err_make(ErrKind kind, const char *format, ...)
{
    assert(kind != ERR_OK);
    Err err = {.kind = kind};
    va_list args;
    va_start(args, format);
    vsnprintf(err.text, sizeof err.text, format, args);
    va_end(args);
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
