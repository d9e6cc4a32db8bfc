/* Killed while it writes, again and again: what was acknowledged is there, a
 * telling is there whole or not at all, and the file is sound.
 *
 * usage: test_store_killed [ROUNDS]; 200 without. */
#include <errno.h>
#include <signal.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "base/rng.h"
#include "check.h"
#include "place.h"
#include "store/store.h"

enum { DAY = 20880, BATCH = 3, US_MOST = 40000, LOOK_EVERY = 50 };

static int rounds = 200;

static void tell_without_end(const char *dir, int round, int pipe_out)
{
    StoreDb store = {0};
    Err err = store_open(dir, STORE_CREATE, &store);
    for (uint32_t n = 1; err.kind == ERR_OK; n++) {
        Told told[BATCH];
        char uid[BATCH][40];
        StoreAdded added[BATCH];
        for (int i = 0; i < BATCH; i++) {
            snprintf(uid[i], sizeof uid[i], "r%d-%u-%d", round, n, i);
            told[i] = told_blank(TOLD_DIED, DAY + (int32_t)(n % 90));
            told[i].uid = uid[i];
            told[i].place = "A";
            told[i].count = i;
        }
        err = store_add(&store, told, BATCH, added);
        if (err.kind == ERR_OK && write(pipe_out, &n, sizeof n) != sizeof n) {
            break;
        }
    }
    _exit(1); /* only a kill ends it well */
}

/* How many tellings were acknowledged before the kill. */
static uint32_t kill_one(const char *dir, int round, Rng *rng)
{
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    pid_t child = fork();
    if (child == 0) {
        close(ends[0]);
        tell_without_end(dir, round, ends[1]);
    }
    close(ends[1]);
    struct timespec wait = {.tv_nsec =
                                1000L * (500 + (long)rng_below(rng, US_MOST))};
    nanosleep(&wait, NULL);
    kill(child, SIGKILL);
    uint32_t last = 0;
    uint32_t got = 0;
    while (read(ends[0], &got, sizeof got) == sizeof got) {
        last = got;
    }
    close(ends[0]);
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status));
    return last;
}

static void nothing_acknowledged_is_lost_by_a_kill(void **state)
{
    (void)state;
    Place place;
    place_make(&place);
    Rng rng = rng_make(42, 3);
    int64_t seen = 0;
    int64_t acknowledged = 0;
    for (int round = 0; round < rounds; round++) {
        CLEANUP(arena_release) Arena arena = {0};
        uint32_t last = kill_one(place.dir, round, &rng);
        CLEANUP(store_close) StoreDb store = {0};
        assert_ok(store_open(place.dir, STORE_CREATE, &store));
        if (round % LOOK_EVERY == 0) {
            assert_ok(store_look_through(&store));
        }
        StoreFilter filter = store_all();
        filter.after = seen;
        filter.is_told_order = true;
        Tolds tolds;
        assert_ok(store_read(&store, &filter, &arena, &tolds));
        assert_int_equal(tolds.count % BATCH, 0);
        assert_true((uint32_t)tolds.count >= last * BATCH);
        assert_true((uint32_t)tolds.count <= (last + 1) * BATCH);
        for (int32_t i = 0; i < tolds.count; i++) {
            char uid[40];
            snprintf(uid, sizeof uid, "r%d-%d-%d", round, i / BATCH + 1,
                     i % BATCH);
            assert_string_equal(tolds.items[i].uid, uid);
        }
        int64_t count = 0;
        assert_ok(store_newest(&store, &seen, &count));
        acknowledged += last;
    }
    assert_true(acknowledged > rounds / 4); /* kills came while it wrote */
    print_message("%d kills, %lld tellings acknowledged, none lost\n", rounds,
                  (long long)acknowledged);
    place_remove(&place);
}

int main(int argc, char **argv)
{
    if (argc > 1) {
        rounds = atoi(argv[1]);
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_acknowledged_is_lost_by_a_kill),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
