/* What the pages of a day share. */
#include "json/page.h"

#include <jansson.h>
#include <math.h>

#include "base/date.h"
#include "farm/fields.h"

json_t *page_day(int32_t day)
{
    if (day == DATE_NEVER || day == DATE_ALWAYS) {
        return json_null();
    }
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return json_string(text);
}

json_t *page_number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

json_t *page_text(const char *text)
{
    return text ? json_string(text) : json_null();
}

json_t *page_texts(const char *const *texts, int count)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, json_string(texts[i]));
    }
    return list;
}
