/* Whether an order can be taken, as JSON. */
#include "json/can.h"

#include <jansson.h>

#include "base/date.h"
#include "json/text.h"

static const char *const VERDICTS[] = {"yes", "yes-if", "no"};

static json_t *day_json(int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return json_string(text);
}

static json_t *batches_json(const WhatIf *found)
{
    json_t *rows = json_array();
    for (int i = 0; i < found->batch_count; i++) {
        const WhatIfBatch *batch = &found->batches[i];
        json_array_append_new(
            rows,
            json_pack("{s:s, s:s, s:s, s:i, s:i, s:i, s:s?, s:o, s:o, s:o}",
                      "way", batch->way, "bed", batch->bed, "place",
                      batch->is_edge ? "edge" : "floor", "units", batch->units,
                      "plants", batch->plants, "seeds", batch->seeds, "trays",
                      batch->trays, "sow_on",
                      batch->trays ? json_null() : day_json(batch->sow_on),
                      "set_on", day_json(batch->set_on), "pick_from",
                      day_json(batch->pick_from)));
    }
    return rows;
}

static json_t *losses_json(const WhatIf *found)
{
    json_t *rows = json_array();
    for (int i = 0; i < found->loss_count; i++) {
        json_array_append_new(rows, json_pack("{s:s, s:f, s:i}", "product",
                                              found->losses[i].product, "units",
                                              found->losses[i].units, "weeks",
                                              found->losses[i].weeks));
    }
    return rows;
}

const char *json_can(const WhatIf *found, int32_t from, const char *age,
                     Arena *arena)
{
    json_t *short_in = found->short_week == PLAN_NONE
                           ? json_null()
                           : day_json(from + 7 * found->short_week);
    json_t *refuse = found->refuse_by == DATE_NEVER
                         ? json_null()
                         : day_json(found->refuse_by);
    json_t *json = json_pack(
        "{s:s, s:f, s:f, s:o, s:f, s:o, s:o, s:f, s:f, s:f, s:o}", "answer",
        VERDICTS[found->verdict], "wanted", found->wanted, "kept", found->kept,
        "short_in", short_in, "value_change", found->value_change, "batches",
        batches_json(found), "gives_way", losses_json(found), "more_feed_kg_d",
        found->more_feed_kg_d, "more_hours_w", found->more_hours_w,
        "more_hours", found->more_hours, "refuse_free_until", refuse);
    json_put(json, "age", age ? json_string(age) : json_null());
    return json_text_take(json, arena);
}
