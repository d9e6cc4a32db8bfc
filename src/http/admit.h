/* Which request is let in: its headers, who asks, what it takes. */
#ifndef LEAT_HTTP_ADMIT_H
#define LEAT_HTTP_ADMIT_H

#include "http/server.h"

/* Finds the route (NULL: a page) and who asks. *out_status: what a refusal is
 * answered with, 0: by its kind. */
NODISCARD Err admit_request(Exchange *exchange, int *out_status);

/* The client's address, ADDRESS_SIZE bytes; of IPv6 the part that one house has
 * for itself. */
void admit_address(const Exchange *exchange, unsigned char *out);

/* The length of the body that is announced; 0: none is. */
size_t admit_bytes(const Exchange *exchange);

#endif
