/* The farm's own authority and the certificates that it signs. */
#include <string.h>

#include <gnutls/gnutls.h>
#include <gnutls/x509.h>

#include "check.h"
#include "out/certificate.h"

enum { DAY_S = 24 * 3600 };
static const int64_t NOW_S = INT64_C(1804000000); /* in March 2027 */

/* Whether a browser that trusts the authority would take the server's
 * certificate for that name; the clock is left aside. */
static bool is_taken(const CertificatePair *authority,
                     const CertificatePair *server, const char *name)
{
    gnutls_datum_t own = {(unsigned char *)server->certificate,
                          (unsigned)strlen(server->certificate)};
    gnutls_datum_t trusted = {(unsigned char *)authority->certificate,
                              (unsigned)strlen(authority->certificate)};
    gnutls_x509_trust_list_t list = NULL;
    gnutls_x509_crt_t *chain = NULL;
    gnutls_x509_crt_t root = NULL;
    unsigned count = 0;
    unsigned status = 0;
    assert_int_equal(gnutls_x509_trust_list_init(&list, 0), 0);
    assert_int_equal(gnutls_x509_crt_init(&root), 0);
    assert_int_equal(
        gnutls_x509_crt_import(root, &trusted, GNUTLS_X509_FMT_PEM), 0);
    assert_int_equal(gnutls_x509_trust_list_add_cas(list, &root, 1, 0), 1);
    assert_int_equal(gnutls_x509_crt_list_import2(&chain, &count, &own,
                                                  GNUTLS_X509_FMT_PEM, 0),
                     0);
    gnutls_typed_vdata_st data[] = {
        {GNUTLS_DT_DNS_HOSTNAME, (unsigned char *)name, 0}};
    int done = gnutls_x509_trust_list_verify_crt2(
        list, chain, count, data, 1, GNUTLS_VERIFY_DISABLE_TIME_CHECKS, &status,
        NULL);
    for (unsigned i = 0; i < count; i++) {
        gnutls_x509_crt_deinit(chain[i]);
    }
    gnutls_free(chain);
    gnutls_x509_trust_list_deinit(list, 1);
    return done == 0 && status == 0;
}

static void what_the_authority_signs_is_believed_for_its_names(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CertificateNames names = {.names = {"shed.local", "192.168.7.31"},
                              .count = 2};
    CertificatePair authority;
    CertificatePair server;
    CertificatePair other;
    assert_int_equal(
        certificate_authority("Otter Bank", &names, NOW_S, &arena, &authority)
            .kind,
        ERR_OK);
    assert_int_equal(
        certificate_server(&authority, &names, NOW_S, &arena, &server).kind,
        ERR_OK);
    assert_true(is_taken(&authority, &server, "shed.local"));
    assert_true(is_taken(&authority, &server, "192.168.7.31"));
    assert_false(is_taken(&authority, &server, "example.org"));
    assert_int_equal(
        certificate_authority("Otter Bank", &names, NOW_S, &arena, &other).kind,
        ERR_OK);
    assert_false(is_taken(&other, &server, "shed.local"));
}

/* Whoever steals the key cannot use it for the open network. */
static void it_cannot_vouch_for_places_of_the_open_network(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CertificateNames names = {.names = {"shed.local"}, .count = 1};
    CertificateNames stolen = {.names = {"example.org", "93.184.216.34"},
                               .count = 2};
    CertificatePair authority;
    CertificatePair server;
    assert_int_equal(
        certificate_authority("Otter Bank", &names, NOW_S, &arena, &authority)
            .kind,
        ERR_OK);
    assert_int_equal(
        certificate_server(&authority, &stolen, NOW_S, &arena, &server).kind,
        ERR_OK);
    assert_false(is_taken(&authority, &server, "example.org"));
    assert_false(is_taken(&authority, &server, "93.184.216.34"));
}

static void addresses_of_houses_are_private(void **state)
{
    (void)state;
    assert_true(certificate_is_private("192.168.7.31"));
    assert_true(certificate_is_private("10.20.30.40"));
    assert_true(certificate_is_private("172.31.255.1"));
    assert_false(certificate_is_private("172.32.0.1"));
    assert_false(certificate_is_private("93.184.216.34"));
    assert_false(certificate_is_private("shed.local"));
    assert_false(certificate_is_private("192.168.7.31.example.org"));
}

static void a_certificate_tells_its_end_and_its_print(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CertificateNames names = {.names = {"shed.local"}, .count = 1};
    CertificatePair authority;
    char print[CERTIFICATE_PRINT_SIZE];
    int64_t ends_s = 0;
    assert_int_equal(
        certificate_authority("Otter Bank", &names, NOW_S, &arena, &authority)
            .kind,
        ERR_OK);
    assert_int_equal(
        certificate_look(authority.certificate, &ends_s, print).kind, ERR_OK);
    assert_int_equal(strlen(print), 95);
    assert_true(ends_s > NOW_S + INT64_C(3650) * DAY_S &&
                ends_s < NOW_S + INT64_C(3653) * DAY_S);
    assert_int_equal(certificate_look("nothing", &ends_s, print).kind,
                     ERR_INPUT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_the_authority_signs_is_believed_for_its_names),
        cmocka_unit_test(it_cannot_vouch_for_places_of_the_open_network),
        cmocka_unit_test(addresses_of_houses_are_private),
        cmocka_unit_test(a_certificate_tells_its_end_and_its_print),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
