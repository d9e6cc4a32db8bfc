/* Whether a farm's folder has changed. */
#define _DEFAULT_SOURCE
#include "desk/folder_stamp.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stddef.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "farm/book_fields.h"

#define STORE_FILE "leat.db"
#define STORE_LOG "leat.db-wal"

static bool is_table(const char *name)
{
    size_t length = strlen(name);
    return length > 4 && strcmp(name + length - 4, ".csv") == 0 && *name != '.';
}

/* Tables and the store; its log only where it holds anything. */
static bool counts(const char *name)
{
    return is_table(name) || strcmp(name, STORE_FILE) == 0 ||
           strcmp(name, STORE_LOG) == 0;
}

static uint64_t mark_of(const char *name, const struct stat *file)
{
    int64_t facts[] = {(int64_t)file->st_ino, (int64_t)file->st_size,
                       (int64_t)file->st_mtim.tv_sec,
                       (int64_t)file->st_mtim.tv_nsec};
    uint64_t mark = book_hash_bytes(0, name, strlen(name));
    return book_hash_bytes(mark, (const char *)facts, sizeof facts);
}

static void take(int folder, const char *name, FolderStamp *stamp)
{
    enum { NS_PER_S = 1000000000 };
    struct stat file;
    if (!counts(name) || fstatat(folder, name, &file, 0) != 0 ||
        (strcmp(name, STORE_LOG) == 0 && file.st_size == 0)) {
        return;
    }
    int64_t written_ns =
        (int64_t)file.st_mtim.tv_sec * NS_PER_S + file.st_mtim.tv_nsec;
    uint64_t mark = mark_of(name, &file);
    stamp->mark += mark; /* in whatever order they come */
    stamp->tables += is_table(name) ? mark : 0;
    stamp->newest_ns =
        written_ns > stamp->newest_ns ? written_ns : stamp->newest_ns;
}

/* Plans kept in folders of their own: each is written with its plan.csv. */
static void take_kept(int folder, FolderStamp *stamp)
{
    static const char *const KEPT[] = {
        "plan-before/plan.csv", "plan-draft/plan.csv", "plan-changed/plan.csv"};
    struct stat file;
    for (size_t i = 0; i < sizeof KEPT / sizeof *KEPT; i++) {
        if (fstatat(folder, KEPT[i], &file, 0) == 0) {
            stamp->mark += mark_of(KEPT[i], &file);
        }
    }
}

Err folder_stamp(const char *path, FolderStamp *out)
{
    DIR *folder = opendir(path);
    if (!folder) {
        ErrKind kind = errno == ENOENT    ? ERR_NOT_FOUND
                       : errno == ENOTDIR ? ERR_INPUT
                                          : ERR_IO;
        return err_make(kind, "%.150s: %s", path, strerror(errno));
    }
    FolderStamp stamp = {.mark = 1};
    for (struct dirent *entry = readdir(folder); entry;
         entry = readdir(folder)) {
        take(dirfd(folder), entry->d_name, &stamp);
    }
    take_kept(dirfd(folder), &stamp);
    closedir(folder);
    *out = stamp;
    return ERR_NONE;
}
