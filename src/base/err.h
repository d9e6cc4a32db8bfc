/* Errors as values: a kind and a text that names the value at fault.
 *
 * A function that can fail returns Err by value; ERR_NONE means it did what it
 * says. Out-parameters are written only on success. */
#ifndef LEAT_BASE_ERR_H
#define LEAT_BASE_ERR_H

#include <stdbool.h>

/* Every kind once: name, the word used in JSON answers, exit code. */
#define ERR_KINDS(X)                                                           \
    X(ERR_OK, "ok", 0)                                                         \
    X(ERR_INPUT, "input", 1)                                                   \
    X(ERR_RANGE, "range", 1)                                                   \
    X(ERR_NOT_FOUND, "not-found", 1)                                           \
    X(ERR_CONFLICT, "conflict", 1)                                             \
    X(ERR_USAGE, "usage", 2)                                                   \
    X(ERR_LIMIT, "limit", 1)                                                   \
    X(ERR_IO, "io", 3)                                                         \
    X(ERR_BUSY, "busy", 5)                                                     \
    X(ERR_STOPPED, "stopped", 130)                                             \
    X(ERR_DEFECT, "defect", 4)

typedef enum ErrKind {
#define ERR_ENUM(name, word, code) name,
    ERR_KINDS(ERR_ENUM)
#undef ERR_ENUM
} ErrKind;

enum { ERR_TEXT_SIZE = 256 };

typedef struct Err {
    ErrKind kind;
    char text[ERR_TEXT_SIZE]; /* one line of UTF-8, safe to print */
} Err;

#define ERR_NONE ((Err){.kind = ERR_OK})
#define NODISCARD __attribute__((warn_unused_result))
#define PRINTF_LIKE(fmt, first) __attribute__((format(printf, fmt, first)))

/* Passes an error up. */
#define TRY(call)                                                              \
    do {                                                                       \
        Err try_err = (call);                                                  \
        if (try_err.kind != ERR_OK) {                                          \
            return try_err;                                                    \
        }                                                                      \
    } while (0)

/* Releases a local when it goes out of scope: CLEANUP(arena_release) Arena a.
 */
#define CLEANUP(fn) __attribute__((cleanup(fn)))

/* An error of that kind; a text too long is cut. kind is never ERR_OK. What
 * people typed may stand in it: control characters and line ends are shown as
 * base/text.h escapes them. */
NODISCARD Err err_make(ErrKind kind, const char *format, ...) PRINTF_LIKE(2, 3);

bool err_is(const Err *err, ErrKind kind);

/* The word for JSON answers ("input") and the process's exit code. */
const char *err_kind_word(ErrKind kind);
int err_exit_code(ErrKind kind);

#endif
