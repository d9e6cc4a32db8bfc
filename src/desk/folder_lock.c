/* Who may change a farm's folder, and when. */
#include "desk/folder_lock.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { STEP_MS = 20, NS_PER_MS = 1000000, NUMBER_SIZE = 32 };

/* Tries until the time is up; errno tells why it did not succeed. */
static bool lock_within(int fd, int how, int wait_ms)
{
    const struct timespec step = {.tv_nsec = (long)STEP_MS * NS_PER_MS};
    for (int waited_ms = 0;; waited_ms += STEP_MS) {
        if (flock(fd, how | LOCK_NB) == 0) {
            return true;
        }
        bool is_worth_it = errno == EWOULDBLOCK || errno == EINTR;
        if (!is_worth_it || waited_ms >= wait_ms) {
            return false;
        }
        nanosleep(&step, NULL);
    }
}

void folder_share(int fd)
{
    lock_within(fd, LOCK_SH, FOLDER_WAIT_MS);
}

Err folder_take_alone(int fd, const char *path)
{
    if (lock_within(fd, LOCK_EX, FOLDER_WAIT_MS) || errno != EWOULDBLOCK) {
        return ERR_NONE; /* or a file system on which nobody can lock */
    }
    return err_make(ERR_BUSY,
                    "%.160s is being read or written by somebody else; try "
                    "again",
                    path);
}

/* " (process 4711)" where the holder has left its number, else "". */
static void read_holder(int fd, char out[NUMBER_SIZE])
{
    char digits[NUMBER_SIZE / 2] = "";
    ssize_t got = pread(fd, digits, sizeof digits - 1, 0);
    size_t length = got > 0 ? strspn(digits, "0123456789") : 0;
    digits[length] = '\0';
    snprintf(out, NUMBER_SIZE, length ? " (process %s)" : "%s", digits);
}

/* Only for who comes next to read; that it fails does no harm. */
static void write_holder(int fd)
{
    char number[NUMBER_SIZE];
    int length = snprintf(number, sizeof number, "%ld\n", (long)getpid());
    if (ftruncate(fd, 0) == 0 && pwrite(fd, number, (size_t)length, 0) < 0) {
        errno = 0;
    }
}

static Err open_folder(const char *path, int *out_fd)
{
    int folder = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder < 0 && errno == ENOENT) {
        return err_make(ERR_NOT_FOUND, "%s: there is no such folder", path);
    }
    if (folder < 0 && errno == ENOTDIR) {
        return err_make(ERR_INPUT, "%s is not a folder", path);
    }
    if (folder < 0) {
        return err_make(ERR_IO, "%.160s cannot be read: %s", path,
                        strerror(errno));
    }
    *out_fd = folder;
    return ERR_NONE;
}

/* Whether the file is still the one of that name: who held it before may have
 * taken it away. */
static bool is_in_place(int folder, int fd)
{
    struct stat held = {0};
    struct stat named = {0};
    return fstat(fd, &held) == 0 &&
           fstatat(folder, FOLDER_LOCK_FILE, &named, AT_SYMLINK_NOFOLLOW) ==
               0 &&
           held.st_ino == named.st_ino && held.st_dev == named.st_dev;
}

static Err tell_busy(int fd, const char *path)
{
    char holder[NUMBER_SIZE];
    read_holder(fd, holder);
    return err_make(ERR_BUSY,
                    "%.120s is being changed by another leat%s; nothing was "
                    "done, try again when it has ended",
                    path, holder);
}

static Err lock_file_in(int folder, const char *path, int *out_fd)
{
    for (;;) {
        int fd = openat(folder, FOLDER_LOCK_FILE,
                        O_RDWR | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC,
                        0666);
        if (fd < 0) {
            return err_make(ERR_IO, "%.120s cannot be changed: %s: %s", path,
                            FOLDER_LOCK_FILE, strerror(errno));
        }
        if (!lock_within(fd, LOCK_EX, 0)) {
            int reason = errno;
            Err err = reason == EWOULDBLOCK
                          ? tell_busy(fd, path)
                          : err_make(ERR_IO, "%.160s cannot be locked: %s",
                                     path, strerror(reason));
            close(fd);
            return err;
        }
        if (is_in_place(folder, fd)) {
            *out_fd = fd;
            return ERR_NONE;
        }
        close(fd);
    }
}

Err folder_lock_open(const char *path, FolderLock *out)
{
    FolderLock lock = {.is_held = true};
    TRY(open_folder(path, &lock.folder));
    Err err = lock_file_in(lock.folder, path, &lock.fd);
    if (err.kind != ERR_OK) {
        close(lock.folder);
        return err;
    }
    write_holder(lock.fd);
    *out = lock;
    return ERR_NONE;
}

void folder_lock_close(FolderLock *lock)
{
    if (lock->is_held) {
        unlinkat(lock->folder, FOLDER_LOCK_FILE, 0);
        close(lock->fd);
        close(lock->folder);
    }
    *lock = (FolderLock){0};
}
