/* Begin a farm: the demo in a folder, or blank tables. */
#include "desk/new_farm.h"

#include <string.h>

#include "base/embed.h"
#include "desk/farm_folder.h"
#include "farm/write.h"
#include "json/datapackage.h"

/* Made at build from demo/withy-reach/. */
extern const EmbeddedFile DEMO_FILES[];
extern const size_t DEMO_FILES_COUNT;

static Err write_demo(const char *path)
{
    for (size_t i = 0; i < DEMO_FILES_COUNT; i++) {
        const EmbeddedFile *file = &DEMO_FILES[i];
        TRY(farm_folder_write_file(path, file->name, file->bytes,
                                   file->length));
    }
    return ERR_NONE;
}

/* The tables of a plan come with the plan. */
static bool is_written_by_people(TableId table)
{
    const char *name = FARM_TABLES[table].name;
    return strcmp(name, "plan") != 0 && strncmp(name, "plan_", 5) != 0;
}

static Err write_blank(const char *path, Arena *arena)
{
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (is_written_by_people((TableId)i)) {
            FarmBytes header = farm_write_header((TableId)i, arena);
            TRY(farm_folder_write_file(path, farm_table_file((TableId)i),
                                       header.bytes, header.length));
        }
    }
    const char *examples = arena_text(arena, "%s/examples", path);
    TRY(farm_folder_make(examples));
    return write_demo(examples);
}

static bool is_in_demo(TableId table)
{
    for (size_t i = 0; i < DEMO_FILES_COUNT; i++) {
        if (strcmp(DEMO_FILES[i].name, farm_table_file(table)) == 0) {
            return true;
        }
    }
    return false;
}

Err new_farm(const char *path, bool is_blank, Arena *arena)
{
    TRY(farm_folder_make(path));
    TRY(is_blank ? write_blank(path, arena) : write_demo(path));
    bool has_table[TABLE_COUNT];
    for (int i = 0; i < TABLE_COUNT; i++) {
        has_table[i] = is_blank ? is_written_by_people((TableId)i)
                                : is_in_demo((TableId)i);
    }
    FarmBytes package =
        datapackage_write(is_blank ? "farm" : "withy-reach", has_table, arena);
    return farm_folder_write_file(path, FARM_PACKAGE_FILE, package.bytes,
                                  package.length);
}
