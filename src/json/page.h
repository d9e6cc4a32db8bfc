/* What the pages of a day share: days, numbers that may not be known, texts. */
#ifndef LEAT_JSON_PAGE_H
#define LEAT_JSON_PAGE_H

#include <stdint.h>

struct json_t;

/* null for DATE_NEVER and DATE_ALWAYS. */
struct json_t *page_day(int32_t day);

/* null for NAN and the infinities. */
struct json_t *page_number(double value);

/* null for NULL. */
struct json_t *page_text(const char *text);

/* A list of texts. */
struct json_t *page_texts(const char *const *texts, int count);

#endif
