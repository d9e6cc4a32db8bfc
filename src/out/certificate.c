/* Certificates for pages on other devices. */
#include "out/certificate.h"

#include <stdio.h>
#include <string.h>

#include <gnutls/crypto.h>
#include <gnutls/gnutls.h>
#include <gnutls/x509-ext.h>
#include <gnutls/x509.h>

enum {
    DAY_S = 24 * 3600,
    AUTHORITY_DAYS = 3652,
    SERVER_DAYS = 397,
    BEFORE_S = DAY_S, /* clocks that go behind */
    SERIAL_BYTES = 16,
    KEY_ID_MOST = 64,
    ADDRESS_FOUR = 4,
    ADDRESS_SIX = 16,
};

#define GNUTLS_TRY(call)                                                       \
    do {                                                                       \
        int failed_ = (call);                                                  \
        if (failed_ < 0) {                                                     \
            return err_make(ERR_IO, "certificate: %s",                         \
                            gnutls_strerror(failed_));                         \
        }                                                                      \
    } while (0)

static void release_key(gnutls_x509_privkey_t *key)
{
    gnutls_x509_privkey_deinit(*key);
}

static void release_certificate(gnutls_x509_crt_t *certificate)
{
    gnutls_x509_crt_deinit(*certificate);
}

static void release_limits(gnutls_x509_name_constraints_t *limits)
{
    gnutls_x509_name_constraints_deinit(*limits);
}

/* ---- PEM ------------------------------------------------------------------
 */

static Err text_of(const gnutls_datum_t *bytes, Arena *arena, const char **out)
{
    *out = arena_copy_bytes(arena, (const char *)bytes->data, bytes->size);
    return ERR_NONE;
}

static Err pem_of_certificate(gnutls_x509_crt_t certificate, Arena *arena,
                              const char **out)
{
    gnutls_datum_t bytes = {0};
    GNUTLS_TRY(
        gnutls_x509_crt_export2(certificate, GNUTLS_X509_FMT_PEM, &bytes));
    Err err = text_of(&bytes, arena, out);
    gnutls_free(bytes.data);
    return err;
}

static Err pem_of_key(gnutls_x509_privkey_t key, Arena *arena, const char **out)
{
    gnutls_datum_t bytes = {0};
    GNUTLS_TRY(gnutls_x509_privkey_export2(key, GNUTLS_X509_FMT_PEM, &bytes));
    Err err = text_of(&bytes, arena, out);
    gnutls_memset(bytes.data, 0, bytes.size);
    gnutls_free(bytes.data);
    return err;
}

static gnutls_datum_t datum_of(const char *text)
{
    return (gnutls_datum_t){(unsigned char *)text, (unsigned)strlen(text)};
}

/* ---- Addresses ------------------------------------------------------------
 */

/* "192.168.1.7" or "fe80::1" as bytes; the length, 0 for a name. */
static int address_bytes(const char *text, unsigned char *out)
{
    unsigned part[ADDRESS_FOUR];
    char rest = 0;
    if (sscanf(text, "%3u.%3u.%3u.%3u%c", &part[0], &part[1], &part[2],
               &part[3], &rest) == ADDRESS_FOUR) {
        for (int i = 0; i < ADDRESS_FOUR; i++) {
            out[i] = (unsigned char)part[i];
        }
        return ADDRESS_FOUR;
    }
    return 0;
}

static Err add_name(gnutls_x509_crt_t certificate, const char *name)
{
    unsigned char address[ADDRESS_SIX];
    int length = address_bytes(name, address);
    if (length > 0) {
        GNUTLS_TRY(gnutls_x509_crt_set_subject_alt_name(
            certificate, GNUTLS_SAN_IPADDRESS, address, (unsigned)length,
            GNUTLS_FSAN_APPEND));
    } else if (!strchr(name, ':')) {
        GNUTLS_TRY(gnutls_x509_crt_set_subject_alt_name(
            certificate, GNUTLS_SAN_DNSNAME, name, (unsigned)strlen(name),
            GNUTLS_FSAN_APPEND));
    }
    return ERR_NONE;
}

/* ---- What an authority may vouch for ---------------------------------------
 */

typedef struct Range {
    unsigned char bytes[2 * ADDRESS_FOUR]; /* address and mask */
} Range;

/* Addresses of houses.
 * Source: [RFC1918] section 3; [RFC3927] section 2; [RFC1122] section 3.2.1.3;
 * [RFC6598] section 7. */
static const Range PRIVATE[] = {
    {{10, 0, 0, 0, 255, 0, 0, 0}},      {{172, 16, 0, 0, 255, 240, 0, 0}},
    {{192, 168, 0, 0, 255, 255, 0, 0}}, {{169, 254, 0, 0, 255, 255, 0, 0}},
    {{127, 0, 0, 0, 255, 0, 0, 0}},     {{100, 64, 0, 0, 255, 192, 0, 0}},
};

bool certificate_is_private(const char *name)
{
    unsigned char address[ADDRESS_SIX];
    bool is_in = false;
    int length = address_bytes(name, address);
    for (size_t i = 0; length > 0 && i < sizeof PRIVATE / sizeof *PRIVATE;
         i++) {
        const unsigned char *range = PRIVATE[i].bytes;
        bool is_same = true;
        for (int b = 0; b < ADDRESS_FOUR; b++) {
            is_same = is_same && (address[b] & range[ADDRESS_FOUR + b]) ==
                                     (range[b] & range[ADDRESS_FOUR + b]);
        }
        is_in = is_in || is_same;
    }
    return is_in;
}

/* A name, or an address by itself. */
static Err permit(gnutls_x509_name_constraints_t limits, const char *text)
{
    unsigned char range[2 * ADDRESS_SIX];
    int length = address_bytes(text, range);
    if (length > 0) {
        memset(range + length, 0xff, (size_t)length);
        gnutls_datum_t one = {range, (unsigned)(2 * length)};
        GNUTLS_TRY(gnutls_x509_name_constraints_add_permitted(
            limits, GNUTLS_SAN_IPADDRESS, &one));
        return ERR_NONE;
    }
    gnutls_datum_t name = datum_of(text);
    GNUTLS_TRY(gnutls_x509_name_constraints_add_permitted(
        limits, GNUTLS_SAN_DNSNAME, &name));
    return ERR_NONE;
}

static Err limit(gnutls_x509_crt_t certificate, const CertificateNames *names)
{
    CLEANUP(release_limits) gnutls_x509_name_constraints_t limits = NULL;
    GNUTLS_TRY(gnutls_x509_name_constraints_init(&limits));
    gnutls_datum_t local = datum_of("local");
    GNUTLS_TRY(gnutls_x509_name_constraints_add_permitted(
        limits, GNUTLS_SAN_DNSNAME, &local));
    for (int i = 0; i < names->count; i++) {
        if (!certificate_is_private(names->names[i]) &&
            !strchr(names->names[i], ':')) {
            TRY(permit(limits, names->names[i]));
        }
    }
    for (size_t i = 0; i < sizeof PRIVATE / sizeof *PRIVATE; i++) {
        gnutls_datum_t range = {(unsigned char *)PRIVATE[i].bytes,
                                sizeof PRIVATE[i].bytes};
        GNUTLS_TRY(gnutls_x509_name_constraints_add_permitted(
            limits, GNUTLS_SAN_IPADDRESS, &range));
    }
    GNUTLS_TRY(gnutls_x509_crt_set_name_constraints(certificate, limits, 1));
    return ERR_NONE;
}

/* ---- Making ---------------------------------------------------------------
 */

static Err make_key(gnutls_x509_privkey_t *out)
{
    GNUTLS_TRY(gnutls_x509_privkey_init(out));
    GNUTLS_TRY(gnutls_x509_privkey_generate(
        *out, GNUTLS_PK_ECDSA, GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1),
        0));
    return ERR_NONE;
}

static Err set_key_id(gnutls_x509_crt_t certificate, gnutls_x509_crt_t issuer)
{
    unsigned char id[KEY_ID_MOST];
    size_t length = sizeof id;
    GNUTLS_TRY(gnutls_x509_crt_get_key_id(certificate, 0, id, &length));
    GNUTLS_TRY(gnutls_x509_crt_set_subject_key_id(certificate, id, length));
    length = sizeof id;
    GNUTLS_TRY(gnutls_x509_crt_get_key_id(issuer, 0, id, &length));
    GNUTLS_TRY(gnutls_x509_crt_set_authority_key_id(certificate, id, length));
    return ERR_NONE;
}

/* What every certificate has. */
static Err begin(gnutls_x509_privkey_t key, const char *name, int days,
                 int64_t now_s, gnutls_x509_crt_t *out)
{
    unsigned char serial[SERIAL_BYTES];
    GNUTLS_TRY(gnutls_rnd(GNUTLS_RND_NONCE, serial, sizeof serial));
    serial[0] &= 0x7f; /* a positive number */
    GNUTLS_TRY(gnutls_x509_crt_init(out));
    gnutls_x509_crt_t made = *out;
    GNUTLS_TRY(gnutls_x509_crt_set_version(made, 3));
    GNUTLS_TRY(gnutls_x509_crt_set_serial(made, serial, sizeof serial));
    GNUTLS_TRY(gnutls_x509_crt_set_activation_time(made, now_s - BEFORE_S));
    GNUTLS_TRY(gnutls_x509_crt_set_expiration_time(
        made, now_s - BEFORE_S + (int64_t)days * DAY_S));
    GNUTLS_TRY(gnutls_x509_crt_set_key(made, key));
    GNUTLS_TRY(gnutls_x509_crt_set_dn_by_oid(made, GNUTLS_OID_X520_COMMON_NAME,
                                             0, name, (unsigned)strlen(name)));
    return ERR_NONE;
}

Err certificate_authority(const char *name, const CertificateNames *names,
                          int64_t now_s, Arena *arena, CertificatePair *out)
{
    CLEANUP(release_key) gnutls_x509_privkey_t key = NULL;
    CLEANUP(release_certificate) gnutls_x509_crt_t made = NULL;
    CertificatePair pair = {0};
    TRY(make_key(&key));
    TRY(begin(key, arena_text(arena, "%.40s (Leat)", name), AUTHORITY_DAYS,
              now_s, &made));
    GNUTLS_TRY(gnutls_x509_crt_set_basic_constraints(made, 1, 0));
    GNUTLS_TRY(gnutls_x509_crt_set_key_usage(made, GNUTLS_KEY_KEY_CERT_SIGN |
                                                       GNUTLS_KEY_CRL_SIGN));
    TRY(limit(made, names));
    TRY(set_key_id(made, made));
    GNUTLS_TRY(gnutls_x509_crt_sign2(made, made, key, GNUTLS_DIG_SHA256, 0));
    TRY(pem_of_certificate(made, arena, &pair.certificate));
    TRY(pem_of_key(key, arena, &pair.key));
    *out = pair;
    return ERR_NONE;
}

static Err sign(gnutls_x509_crt_t made, const CertificatePair *authority)
{
    CLEANUP(release_key) gnutls_x509_privkey_t key = NULL;
    CLEANUP(release_certificate) gnutls_x509_crt_t issuer = NULL;
    gnutls_datum_t certificate = datum_of(authority->certificate);
    gnutls_datum_t secret = datum_of(authority->key);
    GNUTLS_TRY(gnutls_x509_crt_init(&issuer));
    GNUTLS_TRY(
        gnutls_x509_crt_import(issuer, &certificate, GNUTLS_X509_FMT_PEM));
    GNUTLS_TRY(gnutls_x509_privkey_init(&key));
    GNUTLS_TRY(gnutls_x509_privkey_import(key, &secret, GNUTLS_X509_FMT_PEM));
    TRY(set_key_id(made, issuer));
    GNUTLS_TRY(gnutls_x509_crt_sign2(made, issuer, key, GNUTLS_DIG_SHA256, 0));
    return ERR_NONE;
}

Err certificate_server(const CertificatePair *authority,
                       const CertificateNames *names, int64_t now_s,
                       Arena *arena, CertificatePair *out)
{
    CLEANUP(release_key) gnutls_x509_privkey_t key = NULL;
    CLEANUP(release_certificate) gnutls_x509_crt_t made = NULL;
    CertificatePair pair = {0};
    const char *own = NULL;
    TRY(make_key(&key));
    TRY(begin(key, names->count > 0 ? names->names[0] : "leat", SERVER_DAYS,
              now_s, &made));
    GNUTLS_TRY(gnutls_x509_crt_set_basic_constraints(made, 0, -1));
    GNUTLS_TRY(
        gnutls_x509_crt_set_key_usage(made, GNUTLS_KEY_DIGITAL_SIGNATURE));
    GNUTLS_TRY(
        gnutls_x509_crt_set_key_purpose_oid(made, GNUTLS_KP_TLS_WWW_SERVER, 0));
    for (int i = 0; i < names->count; i++) {
        TRY(add_name(made, names->names[i]));
    }
    TRY(sign(made, authority));
    TRY(pem_of_certificate(made, arena, &own));
    TRY(pem_of_key(key, arena, &pair.key));
    pair.certificate = arena_text(arena, "%s%s", own, authority->certificate);
    *out = pair;
    return ERR_NONE;
}

Err certificate_look(const char *certificate, int64_t *out_ends_s,
                     char out_print[CERTIFICATE_PRINT_SIZE])
{
    enum { SHA256_BYTES = 32 };
    CLEANUP(release_certificate) gnutls_x509_crt_t read = NULL;
    gnutls_datum_t bytes = datum_of(certificate);
    unsigned char print[SHA256_BYTES];
    size_t length = sizeof print;
    GNUTLS_TRY(gnutls_x509_crt_init(&read));
    if (gnutls_x509_crt_import(read, &bytes, GNUTLS_X509_FMT_PEM) < 0) {
        return err_make(ERR_INPUT, "that is no certificate in PEM");
    }
    GNUTLS_TRY(gnutls_x509_crt_get_fingerprint(read, GNUTLS_DIG_SHA256, print,
                                               &length));
    for (int i = 0; i < SHA256_BYTES; i++) {
        (void)snprintf(out_print + (ptrdiff_t)3 * i,
                       CERTIFICATE_PRINT_SIZE - (size_t)(3 * i), "%02X%s",
                       print[i], i + 1 < SHA256_BYTES ? ":" : "");
    }
    *out_ends_s = (int64_t)gnutls_x509_crt_get_expiration_time(read);
    return ERR_NONE;
}
