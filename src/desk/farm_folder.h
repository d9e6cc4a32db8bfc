/* A farm's folder: the only place where its tables are read and written.
 *
 * Every *.csv file of the folder that does not begin with a point is a table,
 * but the weather's log (desk/years_log.h).
 * Symbolic links are followed; pipes, devices and folders of that name are
 * faults, and none of them is waited for. */
#ifndef LEAT_DESK_FARM_FOLDER_H
#define LEAT_DESK_FARM_FOLDER_H

#include <stddef.h>

#include "farm/read.h"

#define FARM_PACKAGE_FILE "datapackage.json"
#define FARM_NO_TABLE_FILE "weather_log.csv"

enum {
    FOLDER_TABLE_MAX_MB = 128,
    FOLDER_MAX_MB = 256,
    FOLDER_MAX_FILES = 1000
};

/* Reads all tables. Files at fault are told in faults, as is all that is wrong
 * in them. ERR_NOT_FOUND: nothing is at path. ERR_INPUT: it is no folder.
 * ERR_IO: it may not be read. */
NODISCARD Err farm_folder_read(const char *path, Faults *faults, FarmRead *out);

/* The bytes of one file of the folder, with a NUL behind them. ERR_NOT_FOUND,
 * ERR_INPUT (no plain file), ERR_LIMIT (over max_bytes) or ERR_IO. */
NODISCARD Err farm_folder_read_file(const char *path, const char *file,
                                    size_t max_bytes, Arena *arena,
                                    FarmBuffer *out);

/* Writes a file whole: a reader sees the old bytes or the new ones, never a
 * part, also when the machine stops in between. */
NODISCARD Err farm_folder_write_file(const char *path, const char *file,
                                     const char *bytes, size_t length);

/* Writes these tables of a farm, and a datapackage.json that names all tables
 * the folder now holds. All are written beside the old ones first and put in
 * their place at the end, so that a full disk leaves the folder as it was, and
 * a reader sees all of them or none. count is at least 1. ERR_BUSY: the folder
 * is kept from being written by somebody who reads it and does not end. */
NODISCARD Err farm_folder_write_tables(const char *path, const Farm *farm,
                                       const TableId *tables, int count,
                                       Arena *arena);

/* Makes a folder; one that is there already must be empty (ERR_CONFLICT). */
NODISCARD Err farm_folder_make(const char *path);

#endif
