/* A folder of its own for a test, removed with all that is in it. */
#ifndef LEAT_TESTS_STORE_PLACE_H
#define LEAT_TESTS_STORE_PLACE_H

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct Place {
    char dir[600];
} Place;

static inline void place_make(Place *place)
{
    const char *root = getenv("TMPDIR");
    snprintf(place->dir, sizeof place->dir, "%.500s/leat-store-XXXXXX",
             root && *root ? root : "/tmp");
    if (!mkdtemp(place->dir)) {
        abort();
    }
}

static inline void place_remove(const Place *place)
{
    DIR *dir = opendir(place->dir);
    struct dirent *entry = NULL;
    char path[1200];
    while (dir && (entry = readdir(dir)) != NULL) {
        snprintf(path, sizeof path, "%s/%s", place->dir, entry->d_name);
        unlink(path);
    }
    if (dir) {
        closedir(dir);
    }
    rmdir(place->dir);
}

#endif
