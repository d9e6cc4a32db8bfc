/* A disk that is full, writes short or cannot sync, at each call in turn: what
 * was acknowledged is there afterwards, whole tellings only, the file sound. */
#include <sqlite3.h>

#include "check.h"
#include "place.h"
#include "store/store.h"

enum { DAY = 20880, BATCH = 3, TELLINGS = 4, CALLS_MOST = 2000 };

/* ---- A layer over the real files that fails where it is told to -----------
 */

typedef enum Fault { FAULT_FULL, FAULT_SHORT, FAULT_SYNC, FAULTS } Fault;

static struct {
    Fault fault;
    int at;          /* the call that fails, from 1; 0 none */
    bool is_lasting; /* and all after it */
    int calls;
    bool has_failed;
} disk;

static sqlite3_vfs *real;

typedef struct FaultyFile {
    sqlite3_file base;
    sqlite3_file *real; /* behind it, in the same memory */
} FaultyFile;

static sqlite3_file *real_of(sqlite3_file *file)
{
    return ((FaultyFile *)(void *)file)->real;
}

/* Whether this call of the kind that is counted fails. */
static bool fails(bool is_counted)
{
    if (!is_counted || disk.at == 0) {
        return false;
    }
    disk.calls++;
    bool does =
        disk.calls == disk.at || (disk.is_lasting && disk.calls > disk.at);
    disk.has_failed = disk.has_failed || does;
    return does;
}

static int faulty_write(sqlite3_file *file, const void *bytes, int amount,
                        sqlite3_int64 offset)
{
    sqlite3_file *to = real_of(file);
    if (fails(disk.fault != FAULT_SYNC)) {
        if (disk.fault == FAULT_SHORT && amount > 1) {
            to->pMethods->xWrite(to, bytes, amount / 2, offset);
            return SQLITE_IOERR_WRITE;
        }
        return SQLITE_FULL;
    }
    return to->pMethods->xWrite(to, bytes, amount, offset);
}

static int faulty_sync(sqlite3_file *file, int flags)
{
    sqlite3_file *to = real_of(file);
    if (fails(disk.fault == FAULT_SYNC)) {
        return SQLITE_IOERR_FSYNC;
    }
    (void)to;
    (void)flags;
    return SQLITE_OK; /* no power is lost here: waiting would prove nothing */
}

static int faulty_close(sqlite3_file *file)
{
    sqlite3_file *to = real_of(file);
    return to->pMethods ? to->pMethods->xClose(to) : SQLITE_OK;
}

static int faulty_read(sqlite3_file *file, void *bytes, int amount,
                       sqlite3_int64 offset)
{
    return real_of(file)->pMethods->xRead(real_of(file), bytes, amount, offset);
}

static int faulty_truncate(sqlite3_file *file, sqlite3_int64 size)
{
    return real_of(file)->pMethods->xTruncate(real_of(file), size);
}

static int faulty_size(sqlite3_file *file, sqlite3_int64 *out)
{
    return real_of(file)->pMethods->xFileSize(real_of(file), out);
}

static int faulty_lock(sqlite3_file *file, int level)
{
    return real_of(file)->pMethods->xLock(real_of(file), level);
}

static int faulty_unlock(sqlite3_file *file, int level)
{
    return real_of(file)->pMethods->xUnlock(real_of(file), level);
}

static int faulty_reserved(sqlite3_file *file, int *out)
{
    return real_of(file)->pMethods->xCheckReservedLock(real_of(file), out);
}

static int faulty_control(sqlite3_file *file, int what, void *argument)
{
    return real_of(file)->pMethods->xFileControl(real_of(file), what, argument);
}

static int faulty_sector(sqlite3_file *file)
{
    return real_of(file)->pMethods->xSectorSize(real_of(file));
}

static int faulty_device(sqlite3_file *file)
{
    return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}

static int faulty_map(sqlite3_file *file, int page, int size, int extend,
                      void volatile **out)
{
    return real_of(file)->pMethods->xShmMap(real_of(file), page, size, extend,
                                            out);
}

static int faulty_shm_lock(sqlite3_file *file, int offset, int n, int flags)
{
    return real_of(file)->pMethods->xShmLock(real_of(file), offset, n, flags);
}

static void faulty_barrier(sqlite3_file *file)
{
    real_of(file)->pMethods->xShmBarrier(real_of(file));
}

static int faulty_unmap(sqlite3_file *file, int is_delete)
{
    return real_of(file)->pMethods->xShmUnmap(real_of(file), is_delete);
}

static const sqlite3_io_methods METHODS = {
    .iVersion = 2,
    .xClose = faulty_close,
    .xRead = faulty_read,
    .xWrite = faulty_write,
    .xTruncate = faulty_truncate,
    .xSync = faulty_sync,
    .xFileSize = faulty_size,
    .xLock = faulty_lock,
    .xUnlock = faulty_unlock,
    .xCheckReservedLock = faulty_reserved,
    .xFileControl = faulty_control,
    .xSectorSize = faulty_sector,
    .xDeviceCharacteristics = faulty_device,
    .xShmMap = faulty_map,
    .xShmLock = faulty_shm_lock,
    .xShmBarrier = faulty_barrier,
    .xShmUnmap = faulty_unmap,
};

static int faulty_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *file,
                       int flags, int *out_flags)
{
    (void)vfs;
    FaultyFile *faulty = (FaultyFile *)(void *)file;
    faulty->real = (sqlite3_file *)(void *)(faulty + 1);
    faulty->base.pMethods = NULL;
    int code = real->xOpen(real, name, faulty->real, flags, out_flags);
    if (code == SQLITE_OK) {
        faulty->base.pMethods = &METHODS;
    }
    return code;
}

static sqlite3_vfs faulty_vfs;

static void lay_over(void)
{
    real = sqlite3_vfs_find(NULL);
    faulty_vfs = *real;
    faulty_vfs.pNext = NULL;
    faulty_vfs.zName = "faulty";
    faulty_vfs.szOsFile = (int)sizeof(FaultyFile) + real->szOsFile;
    faulty_vfs.xOpen = faulty_open;
    assert_int_equal(sqlite3_vfs_register(&faulty_vfs, 1), SQLITE_OK);
}

/* ---- One life of a store --------------------------------------------------
 */

/* Tells until it is refused; how many tellings were acknowledged. */
static int tell(const char *dir)
{
    CLEANUP(store_close) StoreDb store = {0};
    Err err = store_open(dir, STORE_CREATE, &store);
    int acknowledged = 0;
    for (int n = 0; n < TELLINGS && err.kind == ERR_OK; n++) {
        Told told[BATCH];
        char uid[BATCH][40];
        StoreAdded added[BATCH];
        for (int i = 0; i < BATCH; i++) {
            snprintf(uid[i], sizeof uid[i], "%d-%d", n, i);
            told[i] = told_blank(TOLD_SEEN, DAY + n);
            told[i].uid = uid[i];
            told[i].text = "seen";
        }
        err = store_add(&store, told, BATCH, added);
        acknowledged += err.kind == ERR_OK;
    }
    if (err.kind != ERR_OK) {
        assert_true(err.kind == ERR_IO || err.kind == ERR_BUSY);
    }
    return acknowledged;
}

static void look(const char *dir, int acknowledged)
{
    CLEANUP(arena_release) Arena arena = {0};
    CLEANUP(store_close) StoreDb store = {0};
    assert_ok(store_open(dir, STORE_CREATE, &store));
    assert_ok(store_look_through(&store));
    StoreFilter filter = store_all();
    filter.is_told_order = true;
    Tolds tolds;
    assert_ok(store_read(&store, &filter, &arena, &tolds));
    assert_int_equal(tolds.count % BATCH, 0);
    assert_true(tolds.count >= acknowledged * BATCH);
    for (int32_t i = 0; i < tolds.count; i++) {
        char uid[40];
        snprintf(uid, sizeof uid, "%d-%d", i / BATCH, i % BATCH);
        assert_string_equal(tolds.items[i].uid, uid);
    }
}

/* Each call in turn, until a life has fewer calls. */
static int try_every_call(Fault fault, bool is_lasting)
{
    for (int at = 1; at < CALLS_MOST; at++) {
        Place place;
        place_make(&place);
        disk.fault = fault;
        disk.at = at;
        disk.is_lasting = is_lasting;
        disk.calls = 0;
        disk.has_failed = false;
        int acknowledged = tell(place.dir);
        bool has_failed = disk.has_failed;
        disk.at = 0; /* the disk is mended */
        look(place.dir, acknowledged);
        place_remove(&place);
        if (!has_failed) {
            assert_int_equal(acknowledged, TELLINGS);
            return at - 1;
        }
    }
    fail_msg("no end of calls");
    return 0;
}

static void nothing_acknowledged_is_lost_by_a_full_disk(void **state)
{
    (void)state;
    assert_true(try_every_call(FAULT_FULL, false) > 10);
    assert_true(try_every_call(FAULT_FULL, true) > 10);
}

static void nothing_acknowledged_is_lost_by_a_short_write(void **state)
{
    (void)state;
    assert_true(try_every_call(FAULT_SHORT, false) > 10);
    assert_true(try_every_call(FAULT_SHORT, true) > 10);
}

static void nothing_acknowledged_is_lost_by_a_failed_sync(void **state)
{
    (void)state;
    assert_true(try_every_call(FAULT_SYNC, false) > 4);
    assert_true(try_every_call(FAULT_SYNC, true) > 4);
}

int main(void)
{
    lay_over();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_acknowledged_is_lost_by_a_full_disk),
        cmocka_unit_test(nothing_acknowledged_is_lost_by_a_short_write),
        cmocka_unit_test(nothing_acknowledged_is_lost_by_a_failed_sync),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
