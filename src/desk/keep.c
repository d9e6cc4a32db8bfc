/* Keep a farm's journal safe. */
#include "desk/keep.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "desk/folder_lock.h"
#include "store/store.h"

enum { PATH_SIZE = 1024 };

/* The list of backups must name them wherever Leat is called from next. */
static const char *whole_path(const char *file, Arena *arena)
{
    char here[PATH_SIZE];
    if (*file == '/' || !getcwd(here, sizeof here)) {
        return file;
    }
    return arena_text(arena, "%s/%s", here, file);
}

Err keep_backup(const char *dir, const char *file, Arena *arena,
                KeepAnswer *out)
{
    KeepAnswer answer = {.file = whole_path(file, arena), .aside = ""};
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_READ, &store));
    TRY(store_backup(&store, answer.file));
    TRY(store_verify(answer.file, &answer.entries));
    *out = answer;
    return ERR_NONE;
}

Err keep_restore(const char *dir, const char *file, Arena *arena,
                 KeepAnswer *out)
{
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    TRY(folder_lock_open(dir, &lock));
    KeepAnswer answer = {.file = file};
    char aside[PATH_SIZE] = "";
    TRY(store_verify(file, &answer.entries));
    TRY(store_restore(dir, file, aside));
    answer.aside = arena_copy_text(arena, aside);
    *out = answer;
    return ERR_NONE;
}
