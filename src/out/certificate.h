/* Certificates for pages on other devices: a small authority of the farm's own,
 * and the server's certificate that it signs. All in memory.
 *
 * The authority may only vouch for names and addresses of a house or farm
 * (localhost, NAME.local, private addresses and the names given when it was
 * made): whoever steals its key cannot use it for places of the open network.
 */
#ifndef LEAT_OUT_CERTIFICATE_H
#define LEAT_OUT_CERTIFICATE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

enum {
    CERTIFICATE_NAMES_MOST = 32,
    CERTIFICATE_PRINT_SIZE = 96, /* "AB:CD:..", SHA-256 */
};

/* PEM text, in the arena. */
typedef struct CertificatePair {
    const char *certificate;
    const char *key; /* unencrypted */
} CertificatePair;

typedef struct CertificateNames {
    const char *names[CERTIFICATE_NAMES_MOST]; /* "farm.local", "192.168.1.7" */
    int count;
} CertificateNames;

/* Whether it is an address of houses, for which every authority vouches. */
bool certificate_is_private(const char *name);

/* A new authority, for ten years. name: the farm's, shown by the phone. */
NODISCARD Err certificate_authority(const char *name,
                                    const CertificateNames *names,
                                    int64_t now_s, Arena *arena,
                                    CertificatePair *out);

/* A server's certificate by that authority, for 397 days (browsers take none
 * that is longer); certificate holds the authority's behind it. */
NODISCARD Err certificate_server(const CertificatePair *authority,
                                 const CertificateNames *names, int64_t now_s,
                                 Arena *arena, CertificatePair *out);

/* SHA-256 of a certificate, as phones show it, and when it ends. ERR_INPUT: it
 * is none. */
NODISCARD Err certificate_look(const char *certificate, int64_t *out_ends_s,
                               char out_print[CERTIFICATE_PRINT_SIZE]);

#endif
