/* The pages that the binary carries. */
#include "http/pages.h"

#include <string.h>

#include "base/embed.h"

extern const EmbeddedFile WEB_FILES[];
extern const size_t WEB_FILES_COUNT;

static const char UNBUILT[] =
    "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
    "<title>Leat</title>\n</head>\n<body>\n<h1>Leat</h1>\n"
    "<p>This Leat was built without its pages. To have them: "
    "<code>cd web &amp;&amp; npm ci &amp;&amp; npm run build</code>, then "
    "build "
    "Leat again.</p>\n<p>What can be asked here: <a href=\"/api\">/api</a>. "
    "<a href=\"/print/card?power=all\">What to do when the power is "
    "off</a>.</p>\n</body>\n</html>\n";

typedef struct Type {
    const char *ending;
    const char *type;
} Type;

static const Type TYPES[] = {
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".json", "application/json"},
    {".webmanifest", "application/manifest+json"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".woff2", "font/woff2"},
    {".txt", "text/plain; charset=utf-8"},
};

static bool ends_with(const char *name, const char *ending)
{
    size_t length = strlen(name);
    size_t end = strlen(ending);
    return length >= end && strcmp(name + length - end, ending) == 0;
}

static const char *type_of(const char *name)
{
    for (size_t i = 0; i < sizeof TYPES / sizeof *TYPES; i++) {
        if (ends_with(name, TYPES[i].ending)) {
            return TYPES[i].type;
        }
    }
    return "application/octet-stream";
}

/* The file "NAME.gz" of a file, or NULL: it comes right behind it where names
 * between them are rare, so all are looked through. */
static const EmbeddedFile *packed_of(const char *name)
{
    size_t length = strlen(name);
    for (size_t i = 0; i < WEB_FILES_COUNT; i++) {
        const char *other = WEB_FILES[i].name;
        if (strncmp(other, name, length) == 0 &&
            strcmp(other + length, ".gz") == 0) {
            return &WEB_FILES[i];
        }
    }
    return NULL;
}

static Page page_of(const EmbeddedFile *file)
{
    const EmbeddedFile *packed = packed_of(file->name);
    return (Page){.name = file->name,
                  .type = type_of(file->name),
                  .bytes = file->bytes,
                  .length = file->length,
                  .packed = packed ? packed->bytes : NULL,
                  .packed_length = packed ? packed->length : 0};
}

bool pages_are_built(void)
{
    for (size_t i = 0; i < WEB_FILES_COUNT; i++) {
        if (strcmp(WEB_FILES[i].name, "index.html") == 0) {
            return true;
        }
    }
    return false;
}

bool pages_find(const char *path, Page *out)
{
    const char *name = strcmp(path, "/") == 0 ? "index.html" : path + 1;
    for (size_t i = 0; *path == '/' && i < WEB_FILES_COUNT; i++) {
        if (strcmp(WEB_FILES[i].name, name) == 0 && !ends_with(name, ".gz")) {
            *out = page_of(&WEB_FILES[i]);
            return true;
        }
    }
    if (strcmp(path, "/") != 0) {
        return false;
    }
    *out = (Page){.name = "index.html",
                  .type = TYPES[0].type,
                  .bytes = UNBUILT,
                  .length = sizeof UNBUILT - 1};
    return true;
}
