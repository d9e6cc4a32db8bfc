/* How the server shows who it is to other devices. */
#define _GNU_SOURCE
#include "desk/identity.h"

#include <arpa/inet.h>
#include <errno.h>
#include <fcntl.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "desk/farm_folder.h"

#define TLS_FOLDER ".leat-tls"
#define AUTHORITY_FILE "authority.crt"
#define KEY_FILE "authority.key"
#define NAMES_FILE "names"

enum { PEM_MAX_BYTES = 1024 * 1024, YEAR_S = 365 * 24 * 3600 };

static Err read_pem(const char *folder, const char *file, Arena *arena,
                    const char **out)
{
    FarmBuffer bytes;
    TRY(farm_folder_read_file(folder, file, PEM_MAX_BYTES, arena, &bytes));
    *out = bytes.bytes;
    return ERR_NONE;
}

/* A file that only its owner can read, also while it is written. */
static Err write_secret(const char *folder, const char *file, const char *text)
{
    char path[4096];
    int length = snprintf(path, sizeof path, "%s/%s", folder, file);
    if (length < 0 || (size_t)length >= sizeof path) {
        return err_make(ERR_LIMIT, "the folder's name is too long");
    }
    int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW,
                  S_IRUSR | S_IWUSR);
    if (fd < 0) {
        return err_make(ERR_IO, "%.150s: %s", path, strerror(errno));
    }
    size_t size = strlen(text);
    bool is_whole = fchmod(fd, S_IRUSR | S_IWUSR) == 0 &&
                    write(fd, text, size) == (ssize_t)size && fsync(fd) == 0;
    Err err = is_whole ? ERR_NONE
                       : err_make(ERR_IO, "%.150s: %s", path, strerror(errno));
    close(fd);
    return err;
}

static Err make_authority(const char *folder, const char *name,
                          const CertificateNames *names, int64_t now_s,
                          Arena *arena, CertificatePair *out)
{
    TRY(certificate_authority(name, names, now_s, arena, out));
    if (mkdir(folder, S_IRWXU) != 0 && errno != EEXIST) {
        return err_make(ERR_IO, "%.150s: %s", folder, strerror(errno));
    }
    const char *list = "\n";
    for (int i = 0; i < names->count; i++) {
        list = arena_text(arena, "%s%s\n", list, names->names[i]);
    }
    TRY(write_secret(folder, KEY_FILE, out->key));
    TRY(write_secret(folder, NAMES_FILE, list));
    return write_secret(folder, AUTHORITY_FILE, out->certificate);
}

/* An authority may only vouch for the names that it was made for, and for
 * private addresses. */
static Err check_names(const char *folder, const CertificateNames *names,
                       Arena *arena)
{
    const char *list = NULL;
    TRY(read_pem(folder, NAMES_FILE, arena, &list));
    for (int i = 0; i < names->count; i++) {
        const char *name = names->names[i];
        if (!certificate_is_private(name) &&
            !strstr(list, arena_text(arena, "\n%s\n", name))) {
            return err_make(ERR_NOT_FOUND, "it was not made for %.60s", name);
        }
    }
    return ERR_NONE;
}

static Err find_authority(const char *folder, const CertificateNames *names,
                          int64_t now_s, Arena *arena, CertificatePair *out)
{
    TRY(check_names(folder, names, arena));
    int64_t ends_s = 0;
    char print[CERTIFICATE_PRINT_SIZE];
    TRY(read_pem(folder, AUTHORITY_FILE, arena, &out->certificate));
    TRY(read_pem(folder, KEY_FILE, arena, &out->key));
    TRY(certificate_look(out->certificate, &ends_s, print));
    return ends_s - now_s > YEAR_S
               ? ERR_NONE
               : err_make(ERR_NOT_FOUND, "the authority ends soon");
}

Err identity_own(const char *dir, const char *name,
                 const CertificateNames *names, int64_t now_s, Arena *arena,
                 Identity *out)
{
    const char *folder = arena_text(arena, "%s/" TLS_FOLDER, dir);
    CertificatePair authority;
    CertificatePair own;
    Err err = find_authority(folder, names, now_s, arena, &authority);
    if (err.kind == ERR_NOT_FOUND) {
        err = make_authority(folder, name, names, now_s, arena, &authority);
    }
    TRY(err);
    TRY(certificate_server(&authority, names, now_s, arena, &own));
    int64_t ends_s = 0;
    Identity identity = {.certificate = own.certificate,
                         .key = own.key,
                         .authority = authority.certificate};
    TRY(certificate_look(authority.certificate, &ends_s, identity.print));
    *out = identity;
    return ERR_NONE;
}

static Err read_path(const char *path, Arena *arena, const char **out)
{
    const char *slash = strrchr(path, '/');
    const char *folder =
        !slash          ? "."
        : slash == path ? "/"
                        : arena_copy_bytes(arena, path, (size_t)(slash - path));
    return read_pem(folder, slash ? slash + 1 : path, arena, out);
}

Err identity_given(const char *certificate_file, const char *key_file,
                   Arena *arena, Identity *out)
{
    Identity identity = {0};
    int64_t ends_s = 0;
    TRY(read_path(certificate_file, arena, &identity.certificate));
    TRY(read_path(key_file, arena, &identity.key));
    TRY(certificate_look(identity.certificate, &ends_s, identity.print));
    *out = identity;
    return ERR_NONE;
}

static void add(CertificateNames *names, const char *name)
{
    for (int i = 0; i < names->count; i++) {
        if (strcmp(names->names[i], name) == 0) {
            return;
        }
    }
    if (*name && names->count < CERTIFICATE_NAMES_MOST) {
        names->names[names->count++] = name;
    }
}

void identity_names(const char *extra, Arena *arena, CertificateNames *out)
{
    char host[256] = "";
    *out = (CertificateNames){.count = 0};
    if (extra) {
        add(out, extra);
    }
    if (gethostname(host, sizeof host - 1) == 0 && *host) {
        add(out, arena_copy_text(arena, host));
        if (!strchr(host, '.')) {
            add(out, arena_text(arena, "%s.local", host));
        }
    }
    add(out, "localhost");
    struct ifaddrs *all = NULL;
    if (getifaddrs(&all) != 0) {
        return;
    }
    for (const struct ifaddrs *one = all; one; one = one->ifa_next) {
        char text[INET_ADDRSTRLEN];
        if (!one->ifa_addr || one->ifa_addr->sa_family != AF_INET) {
            continue;
        }
        const struct sockaddr_in *four =
            (const struct sockaddr_in *)one->ifa_addr;
        if (inet_ntop(AF_INET, &four->sin_addr, text, sizeof text)) {
            add(out, arena_copy_text(arena, text));
        }
    }
    freeifaddrs(all);
}
