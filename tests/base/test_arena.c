/* The arena: zeroed, aligned, apart, and released twice without harm. */
#include "check.h"

#include "base/arena.h"

static void pieces_are_zeroed_aligned_and_apart(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    unsigned char *last = NULL;
    for (size_t size = 1; size < 40000; size = size * 3 + 1) {
        unsigned char *piece = arena_alloc(&arena, size, 1);
        assert_int_equal((uintptr_t)piece % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++) {
            assert_int_equal(piece[i], 0);
        }
        memset(piece, 0xab, size);
        assert_ptr_not_equal(piece, last);
        last = piece;
    }
}

static void a_grown_array_keeps_what_it_held(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    int *items = ARENA_ARRAY(&arena, int, 3);
    items[2] = 17;
    items = arena_grow(&arena, items, 3, 20000, sizeof *items);
    assert_int_equal(items[2], 17);
    assert_int_equal(items[19999], 0);
}

static void text_is_formatted_and_copied(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    assert_string_equal(arena_text(&arena, "bed %d of %s", 7, "H1"),
                        "bed 7 of H1");
    assert_string_equal(arena_copy_bytes(&arena, "thyme", 3), "thy");
    arena_release(&arena);
    assert_int_equal(arena.used_bytes, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_are_zeroed_aligned_and_apart),
        cmocka_unit_test(a_grown_array_keeps_what_it_held),
        cmocka_unit_test(text_is_formatted_and_copied),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
