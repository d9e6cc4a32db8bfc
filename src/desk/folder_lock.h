/* Who may change a farm's folder, and when.
 *
 * Two locks of the operating system, which lets go of both when a process ends,
 * however it ends: nothing has to be cleaned up after a crash.
 *
 * The first is held for as long as somebody works towards a change (a search
 * whose plan is to be accepted): on the hidden file FOLDER_LOCK_FILE, which a
 * crash may leave behind without harm. The second is on the folder itself,
 * shared while tables are read and alone for the moment in which new ones take
 * their places: who reads sees all of the old tables or all of the new. */
#ifndef LEAT_DESK_FOLDER_LOCK_H
#define LEAT_DESK_FOLDER_LOCK_H

#include "base/err.h"

#define FOLDER_LOCK_FILE ".leat-lock"

typedef struct FolderLock {
    bool is_held;
    int fd;     /* Owned while is_held. */
    int folder; /* Owned while is_held. */
} FolderLock;

/* Waits for nobody. ERR_BUSY names the process that holds it; ERR_IO where the
 * folder or its file system allows no lock, which is before any work is lost.
 * ERR_NOT_FOUND, ERR_INPUT: there is no folder at path. */
NODISCARD Err folder_lock_open(const char *path, FolderLock *out);
void folder_lock_close(FolderLock *lock);

/* The lock on the folder itself, by its descriptor; given up when that is
 * closed. Sharing waits up to FOLDER_WAIT_MS for a writer and then reads
 * nevertheless, as it does where nothing can be locked; taking it alone waits
 * as long for readers and is then ERR_BUSY. */
enum { FOLDER_WAIT_MS = 2000 };
void folder_share(int fd);
NODISCARD Err folder_take_alone(int fd, const char *path);

#endif
