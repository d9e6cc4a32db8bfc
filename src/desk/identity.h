/* How the server shows who it is to other devices: a given certificate, or one
 * of the farm's own authority, kept in the hidden folder .leat-tls of the
 * farm's folder, readable by its owner alone. */
#ifndef LEAT_DESK_IDENTITY_H
#define LEAT_DESK_IDENTITY_H

#include "out/certificate.h"

typedef struct Identity {
    const char *certificate; /* PEM, with its chain; in the arena, as all */
    const char *key;
    const char *authority;              /* PEM of the farm's own; NULL: given */
    char print[CERTIFICATE_PRINT_SIZE]; /* of the authority, else of the
                                           certificate */
} Identity;

/* By the farm's own authority, which is made where there is none, or it ends
 * within a year. name: the farm's. */
NODISCARD Err identity_own(const char *dir, const char *name,
                           const CertificateNames *names, int64_t now_s,
                           Arena *arena, Identity *out);

/* From files. ERR_NOT_FOUND, ERR_INPUT, ERR_IO. */
NODISCARD Err identity_given(const char *certificate_file, const char *key_file,
                             Arena *arena, Identity *out);

/* Names and addresses by which this machine can be reached from others, its
 * own name first; extra: one more, or NULL. */
void identity_names(const char *extra, Arena *arena, CertificateNames *out);

#endif
