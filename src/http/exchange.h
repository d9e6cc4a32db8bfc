/* One request from its first header to its answer: what the HTTP library calls.
 */
#ifndef LEAT_HTTP_EXCHANGE_H
#define LEAT_HTTP_EXCHANGE_H

#include <microhttpd.h>

#include "http/server.h"

/* server: a Server. */
enum MHD_Result exchange_handle(void *server, struct MHD_Connection *connection,
                                const char *path, const char *method,
                                const char *version, const char *bytes,
                                size_t *length, void **exchange);
void exchange_completed(void *server, struct MHD_Connection *connection,
                        void **context, enum MHD_RequestTerminationCode code);
void exchange_connection(void *server, struct MHD_Connection *connection,
                         void **socket_context,
                         enum MHD_ConnectionNotificationCode code);

#endif
