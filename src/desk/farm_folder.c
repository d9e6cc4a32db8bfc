/* A farm's folder: tables in, tables out. */
#include "desk/farm_folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "desk/folder_lock.h"
#include "farm/write.h"
#include "json/datapackage.h"

enum { BYTES_PER_MB = 1024 * 1024, NAME_SIZE = 320 };

static void close_fd(const int *fd)
{
    if (*fd >= 0) {
        close(*fd);
    }
}

static void close_dir(DIR *const *dir)
{
    if (*dir) {
        closedir(*dir);
    }
}

static Err open_folder(const char *path, int *out_fd)
{
    if (!*path) {
        return err_make(ERR_INPUT, "\"\" is not a folder");
    }
    int fd = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd >= 0) {
        *out_fd = fd;
        return ERR_NONE;
    }
    if (errno == ENOENT) {
        return err_make(ERR_NOT_FOUND, "%s: there is no such folder", path);
    }
    if (errno == ENOTDIR) {
        return err_make(ERR_INPUT, "%s is not a folder", path);
    }
    return err_make(ERR_IO, "%s cannot be read: %s", path, strerror(errno));
}

/* ---- Reading --------------------------------------------------------------
 */

static Err read_all(int fd, const char *file, size_t size, Arena *arena,
                    FarmBuffer *out)
{
    /* One byte more than its size shows whether the file still grows. */
    char *bytes = arena_alloc(arena, size + 1, 1);
    size_t length = 0;
    for (;;) {
        ssize_t got = read(fd, bytes + length, size + 1 - length);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            return err_make(ERR_IO, "%s cannot be read: %s", file,
                            strerror(errno));
        }
        length += (size_t)got;
        if (got == 0 || length > size) {
            break;
        }
    }
    if (length > size) {
        return err_make(ERR_IO, "%s grew while it was read", file);
    }
    bytes[length] = '\0';
    *out = (FarmBuffer){.file = file, .bytes = bytes, .length = length};
    return ERR_NONE;
}

static Err read_file_at(int folder, const char *file, size_t max_bytes,
                        Arena *arena, FarmBuffer *out)
{
    /* Without O_NONBLOCK a pipe of that name would be waited for. */
    CLEANUP(close_fd)
    int fd = openat(folder, file, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (fd < 0) {
        ErrKind kind = errno == ENOENT ? ERR_NOT_FOUND : ERR_IO;
        return err_make(kind, "%s cannot be read: %s", file, strerror(errno));
    }
    struct stat about = {0};
    if (fstat(fd, &about) != 0) {
        return err_make(ERR_IO, "%s cannot be read: %s", file, strerror(errno));
    }
    if (!S_ISREG(about.st_mode)) {
        return err_make(ERR_INPUT, "%s is no plain file", file);
    }
    if (about.st_size < 0 || (size_t)about.st_size > max_bytes) {
        return err_make(ERR_LIMIT, "%s holds more than %zu MB", file,
                        max_bytes / BYTES_PER_MB);
    }
    return read_all(fd, file, (size_t)about.st_size, arena, out);
}

Err farm_folder_read_file(const char *path, const char *file, size_t max_bytes,
                          Arena *arena, FarmBuffer *out)
{
    CLEANUP(close_fd) int folder = -1;
    TRY(open_folder(path, &folder));
    return read_file_at(folder, file, max_bytes, arena, out);
}

static bool is_table_name(const char *name)
{
    size_t length = strlen(name);
    return name[0] != '.' && length > 4 &&
           strcmp(name + length - 4, ".csv") == 0 &&
           strcmp(name, FARM_NO_TABLE_FILE) != 0;
}

/* The names of the folder's tables; sorted when the tables are read. */
static Err list_tables(int folder, const char *path, Arena *arena,
                       const char **names, int *out_count)
{
    /* fdopendir owns what it is given. */
    int copy = dup(folder);
    CLEANUP(close_dir) DIR *dir = copy >= 0 ? fdopendir(copy) : NULL;
    if (!dir) {
        close_fd(&copy);
        return err_make(ERR_IO, "%s cannot be read: %s", path, strerror(errno));
    }
    int count = 0;
    const struct dirent *entry = NULL;
    while ((entry = readdir(dir)) != NULL) {
        if (!is_table_name(entry->d_name)) {
            continue;
        }
        if (count == FOLDER_MAX_FILES) {
            return err_make(ERR_LIMIT, "%s holds more than %d tables", path,
                            FOLDER_MAX_FILES);
        }
        names[count++] = arena_copy_text(arena, entry->d_name);
    }
    *out_count = count;
    return ERR_NONE;
}

Err farm_folder_read(const char *path, Faults *faults, FarmRead *out)
{
    CLEANUP(close_fd) int folder = -1;
    TRY(open_folder(path, &folder));
    folder_share(folder);
    Arena *arena = faults->arena;
    const char **names = ARENA_ARRAY(arena, const char *, FOLDER_MAX_FILES);
    int count = 0;
    TRY(list_tables(folder, path, arena, names, &count));
    FarmBuffer *buffers = ARENA_ARRAY(arena, FarmBuffer, count);
    size_t room = (size_t)FOLDER_MAX_MB * BYTES_PER_MB;
    for (int i = 0; i < count; i++) {
        size_t most = (size_t)FOLDER_TABLE_MAX_MB * BYTES_PER_MB;
        buffers[i] = (FarmBuffer){.file = names[i]};
        Err err = read_file_at(folder, names[i], most < room ? most : room,
                               arena, &buffers[i]);
        if (err.kind != ERR_OK) {
            faults_add(faults, (FaultPlace){.file = names[i]}, "",
                       "a table that can be read; %s", err.text);
        }
        room -= buffers[i].length;
    }
    farm_read(buffers, count, faults, out);
    return ERR_NONE;
}

/* ---- Writing --------------------------------------------------------------
 */

static Err write_all(int fd, const char *file, const char *bytes, size_t length)
{
    for (size_t done = 0; done < length;) {
        ssize_t put = write(fd, bytes + done, length - done);
        if (put < 0 && errno != EINTR) {
            return err_make(ERR_IO, "%s cannot be written: %s", file,
                            strerror(errno));
        }
        done += put < 0 ? 0 : (size_t)put;
    }
    if (fsync(fd) != 0) {
        return err_make(ERR_IO, "%s cannot be written: %s", file,
                        strerror(errno));
    }
    return ERR_NONE;
}

/* The name under which a file is written before it takes its place. */
static void name_new(const char *file, char out[NAME_SIZE])
{
    snprintf(out, NAME_SIZE, ".%.250s.%ld.new", file, (long)getpid());
}

/* Writes a file beside the one it shall replace. */
static Err write_new(int folder, const char *file, FarmBytes bytes)
{
    char name[NAME_SIZE];
    name_new(file, name);
    CLEANUP(close_fd)
    int fd =
        openat(folder, name,
               O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (fd < 0) {
        return err_make(ERR_IO, "%s cannot be written: %s", file,
                        strerror(errno));
    }
    Err err = write_all(fd, file, bytes.bytes, bytes.length);
    if (err.kind != ERR_OK) {
        unlinkat(folder, name, 0);
    }
    return err;
}

/* Puts what write_new wrote in its place. */
static Err take_place(int folder, const char *file)
{
    char name[NAME_SIZE];
    name_new(file, name);
    if (renameat(folder, name, folder, file) != 0) {
        Err err =
            err_make(ERR_IO, "%s cannot be written: %s", file, strerror(errno));
        unlinkat(folder, name, 0);
        return err;
    }
    return ERR_NONE;
}

Err farm_folder_write_file(const char *path, const char *file,
                           const char *bytes, size_t length)
{
    CLEANUP(close_fd) int folder = -1;
    TRY(open_folder(path, &folder));
    TRY(write_new(folder, file, (FarmBytes){bytes, length}));
    TRY(take_place(folder, file));
    fsync(folder);
    return ERR_NONE;
}

/* A farm's id as the name of a package: small letters, digits, - _ and . */
static const char *package_name(const Farm *farm, Arena *arena)
{
    const char *id = farm->farm_count > 0 ? farm->farm[0].id : "farm";
    char *name = arena_copy_text(arena, id);
    for (char *at = name; *at; at++) {
        bool is_big = *at >= 'A' && *at <= 'Z';
        *at = (char)(is_big ? *at - 'A' + 'a' : *at);
        *at = (unsigned char)*at >= 0x80 ? '-' : *at;
    }
    return name;
}

/* The package for what the folder holds and for what is about to be there. */
static Err package_of(int folder, const char *path, const Farm *farm,
                      const TableId *tables, int count, Arena *arena,
                      FarmBytes *out)
{
    bool has_table[TABLE_COUNT] = {false};
    for (int i = 0; i < count; i++) {
        has_table[tables[i]] = true;
    }
    const char **names = ARENA_ARRAY(arena, const char *, FOLDER_MAX_FILES);
    int name_count = 0;
    TRY(list_tables(folder, path, arena, names, &name_count));
    for (int i = 0; i < name_count; i++) {
        for (int t = 0; t < TABLE_COUNT; t++) {
            has_table[t] |= strcmp(names[i], farm_table_file((TableId)t)) == 0;
        }
    }
    *out = datapackage_write(package_name(farm, arena), has_table, arena);
    return ERR_NONE;
}

static void name_old(const char *file, char out[NAME_SIZE])
{
    snprintf(out, NAME_SIZE, ".%.250s.%ld.old", file, (long)getpid());
}

/* Takes the first table away; false where there is none of that name. */
static bool put_aside(int folder, const char *file)
{
    struct stat about = {0};
    char old[NAME_SIZE];
    name_old(file, old);
    bool is_file = fstatat(folder, file, &about, AT_SYMLINK_NOFOLLOW) == 0 &&
                   !S_ISDIR(about.st_mode);
    bool is_aside = is_file && renameat(folder, file, folder, old) == 0;
    fsync(folder);
    return is_aside;
}

/* Puts all that was written in its place, the first table last: were the
 * machine to stop in between, a table would be missing, which is told, and not
 * some tables be new and some old, which is not. One table alone is the old one
 * or the new at every moment. */
static Err take_places(int folder, const TableId *tables, int count)
{
    const char *first = farm_table_file(tables[0]);
    bool is_aside = count > 1 && put_aside(folder, first);
    Err err = ERR_NONE;
    for (int i = count - 1; i >= 0 && err.kind == ERR_OK; i--) {
        err = take_place(folder, farm_table_file(tables[i]));
    }
    if (err.kind == ERR_OK) {
        err = take_place(folder, FARM_PACKAGE_FILE);
    }
    char old[NAME_SIZE];
    name_old(first, old);
    if (is_aside && err.kind == ERR_OK) {
        unlinkat(folder, old, 0);
    } else if (is_aside) {
        renameat(folder, old, folder, first);
    }
    fsync(folder);
    return err;
}

Err farm_folder_write_tables(const char *path, const Farm *farm,
                             const TableId *tables, int count, Arena *arena)
{
    CLEANUP(close_fd) int folder = -1;
    TRY(open_folder(path, &folder));
    FarmBytes package = {0};
    TRY(package_of(folder, path, farm, tables, count, arena, &package));
    Err err = write_new(folder, FARM_PACKAGE_FILE, package);
    int written = 0;
    for (; written < count && err.kind == ERR_OK; written++) {
        err = write_new(folder, farm_table_file(tables[written]),
                        farm_write_table(farm, tables[written], arena));
    }
    if (err.kind == ERR_OK) {
        err = folder_take_alone(folder, path);
    }
    if (err.kind == ERR_OK) {
        err = take_places(folder, tables, count);
    }
    char name[NAME_SIZE];
    for (int i = 0; i < written && err.kind != ERR_OK; i++) {
        name_new(farm_table_file(tables[i]), name);
        unlinkat(folder, name, 0);
    }
    if (err.kind != ERR_OK) {
        name_new(FARM_PACKAGE_FILE, name);
        unlinkat(folder, name, 0);
    }
    return err;
}

Err farm_folder_make(const char *path)
{
    if (mkdir(path, 0777) == 0) {
        return ERR_NONE;
    }
    if (errno != EEXIST) {
        return err_make(ERR_IO, "%s cannot be made: %s", path, strerror(errno));
    }
    CLEANUP(close_fd) int folder = -1;
    TRY(open_folder(path, &folder));
    int copy = dup(folder);
    CLEANUP(close_dir) DIR *dir = copy >= 0 ? fdopendir(copy) : NULL;
    if (!dir) {
        close_fd(&copy);
        return err_make(ERR_IO, "%s cannot be read: %s", path, strerror(errno));
    }
    const struct dirent *entry = NULL;
    while ((entry = readdir(dir)) != NULL) {
        if (strcmp(entry->d_name, ".") != 0 &&
            strcmp(entry->d_name, "..") != 0) {
            return err_make(ERR_CONFLICT,
                            "%s is not empty (it holds %.60s); nothing was "
                            "written",
                            path, entry->d_name);
        }
    }
    return ERR_NONE;
}
