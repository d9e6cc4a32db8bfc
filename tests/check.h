/* What every test includes: cmocka with its four headers, and assert_near. */
#ifndef LEAT_TESTS_CHECK_H
#define LEAT_TESTS_CHECK_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/err.h"

/* cmocka 1.1.5 compares in single precision; this does not. */
#define assert_near(got, want, tolerance)                                      \
    do {                                                                       \
        double near_got = (got);                                               \
        double near_want = (want);                                             \
        if (!(fabs(near_got - near_want) <= (tolerance))) {                    \
            print_error("%s = %.12g, expected %.12g +- %g\n", #got, near_got,  \
                        near_want, (double)(tolerance));                       \
            fail();                                                            \
        }                                                                      \
    } while (0)

#define assert_ok(call)                                                        \
    do {                                                                       \
        Err ok_err = (call);                                                   \
        if (ok_err.kind != ERR_OK) {                                           \
            print_error("%s: %s\n", #call, ok_err.text);                       \
            fail();                                                            \
        }                                                                      \
    } while (0)

/* The call fails with that kind, and its text holds the words given. */
#define assert_err(call, want_kind, words)                                     \
    do {                                                                       \
        Err got_err = (call);                                                  \
        assert_int_equal(got_err.kind, want_kind);                             \
        if (!strstr(got_err.text, words)) {                                    \
            print_error("\"%s\" lacks \"%s\"\n", got_err.text, words);         \
            fail();                                                            \
        }                                                                      \
    } while (0)

#include <string.h>

#endif
