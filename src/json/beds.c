/* The beds of a day as JSON. */
#include "json/beds.h"

#include <jansson.h>
#include <string.h>

#include "base/tongue.h"
#include "json/page.h"
#include "json/text.h"
#include "json/told.h"

static json_t *batch_json(const Farm *farm, const BedBatch *batch)
{
    const Way *way = &farm->ways[batch->way];
    json_t *object = json_object();
    json_put(object, "batch", json_string(batch->id));
    json_put(object, "way", json_string(way->id));
    json_put(object, "name", json_string(*way->name ? way->name : way->id));
    json_put(object, "place", json_string(batch->is_edge ? "edge" : "floor"));
    json_put(object, "first_section",
             batch->first_section > 0 ? json_integer(batch->first_section)
                                      : json_null());
    json_put(object, "sections", json_integer(batch->sections));
    json_put(object, "plants", page_number(batch->plants));
    json_put(object, "stage", json_string(bed_stage_word(batch->stage)));
    json_put(object, "sow_on", page_day(batch->sow_on));
    json_put(object, "set_on", page_day(batch->set_on));
    json_put(object, "age_d", json_integer(batch->age_d));
    json_put(object, "pick_early", page_day(batch->pick_early));
    json_put(object, "pick_on", page_day(batch->pick_on));
    json_put(object, "pick_late", page_day(batch->pick_late));
    json_put(object, "last_pick_on", page_day(batch->last_pick_on));
    json_put(object, "clear_on", page_day(batch->clear_on));
    json_put(object, "age_degc_d", page_number(batch->age_degc_d));
    json_put(object, "units_low", page_number(batch->units.low));
    json_put(object, "units", page_number(batch->units.value));
    json_put(object, "units_high", page_number(batch->units.high));
    json_put(object, "trouble", json_string(batch->trouble));
    return object;
}

static json_t *batches_json(const Farm *farm, const BedBatches *batches)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < batches->count; i++) {
        json_array_append_new(list, batch_json(farm, &batches->items[i]));
    }
    return list;
}

static json_t *job_json(const Job *job)
{
    if (!job) {
        return json_null();
    }
    json_t *object = json_object();
    json_put(object, "id", json_string(job->id));
    json_put(object, "day", page_day(job->day));
    json_put(object, "kind", json_string(job_kind_word(job->kind)));
    json_put(object, "what", json_string(job->what));
    return object;
}

static json_t *hold_json(const BedState *state)
{
    if (!state->hold) {
        return json_null();
    }
    json_t *object = json_object();
    json_put(object, "why", json_string(state->hold));
    json_put(object, "until", page_day(state->hold_until));
    return object;
}

static const char *state_word(const Farm *farm, const BedState *state)
{
    int32_t sections = farm->beds[state->bed].sections;
    return state->is_cleaning                 ? "cleaning"
           : state->free_sections == 0        ? "full"
           : state->free_sections >= sections ? "free"
                                              : "part free";
}

static void put_place(const Farm *farm, const Bed *bed, json_t *object)
{
    const Zone *zone = bed->zone < 0 ? NULL : &farm->zones[bed->zone];
    json_put(object, "id", json_string(bed->id));
    json_put(object, "walk", json_integer(bed->walk));
    json_put(object, "side", json_string(bed->side));
    json_put(object, "zone", page_text(zone ? zone->id : NULL));
    json_put(object, "pump",
             page_text(zone ? farm->pumps[zone->pump].id : NULL));
    json_put(object, "sections", json_integer(bed->sections));
    json_put(object, "edge_m", json_real(bed->edge_m));
    json_put(object, "edge",
             json_string(FARM_WORDS[WORDS_EDGE_KINDS].words[bed->edge]));
}

static json_t *bed_json(const BedsJson *page, const BedState *state)
{
    const Farm *farm = page->farm;
    json_t *object = json_object();
    put_place(farm, &farm->beds[state->bed], object);
    json_put(object, "plate", json_integer(state->plate));
    json_put(object, "state", json_string(state_word(farm, state)));
    json_put(object, "free_sections", json_integer(state->free_sections));
    json_put(object, "now", batches_json(farm, &state->now));
    json_put(object, "next", batches_json(farm, &state->next));
    json_put(object, "past", batches_json(farm, &state->past));
    json_put(object, "job", job_json(state->job));
    json_put(object, "cleaned_on", page_day(state->cleaned_on));
    json_put(object, "clean_due", page_day(state->clean_due));
    json_put(object, "hold", hold_json(state));
    json_t *history = json_array();
    for (int32_t i = 0; page->only >= 0 && i < state->history_count; i++) {
        json_array_append_new(history, told_json(state->history[i]));
    }
    json_put(object, "history", history);
    return object;
}

/* The beds of one tunnel, or in the open for -1; NULL where there are none. */
static json_t *stop_json(const BedsJson *page, int32_t tunnel,
                         const Arena *arena)
{
    const Farm *farm = page->farm;
    json_t *beds = json_array();
    int32_t walk = 0;
    for (int32_t i = 0; i < page->beds->count; i++) {
        const BedState *state = &page->beds->beds[i];
        if (farm->beds[state->bed].tunnel == tunnel &&
            (page->only < 0 || page->only == i)) {
            walk = json_array_size(beds) ? walk : farm->beds[state->bed].walk;
            json_array_append_new(beds, bed_json(page, state));
        }
    }
    if (json_array_size(beds) == 0) {
        json_decref(beds);
        return NULL;
    }
    const Tunnel *row = tunnel < 0 ? NULL : &farm->tunnels[tunnel];
    json_t *object = json_object();
    json_put(object, "id", json_string(row ? row->id : "open"));
    json_put(object, "name",
             json_string(!row         ? say(arena, "in the open")
                         : *row->name ? row->name
                                      : row->id));
    json_put(object, "walk", json_integer(walk));
    json_put(object, "beds", beds);
    return object;
}

/* Tunnels in the order in which the walk comes to their first bed. */
static json_t *stops_json(const BedsJson *page, const Arena *arena)
{
    json_t *list = json_array();
    const Farm *farm = page->farm;
    for (int32_t i = 0; i < page->beds->count; i++) {
        int32_t tunnel = farm->beds[page->beds->beds[i].bed].tunnel;
        bool is_first = true;
        for (int32_t j = 0; j < i; j++) {
            is_first &= farm->beds[page->beds->beds[j].bed].tunnel != tunnel;
        }
        json_t *stop = is_first ? stop_json(page, tunnel, arena) : NULL;
        if (stop) {
            json_array_append_new(list, stop);
        }
    }
    return list;
}

const char *beds_to_json(const BedsJson *page, Arena *arena)
{
    const Beds *beds = page->beds;
    json_t *trays = json_array();
    for (int32_t i = 0; i < beds->trays.count; i++) {
        json_t *batch = batch_json(page->farm, &beds->trays.items[i]);
        int32_t bed = beds->tray_beds[i];
        json_put(batch, "for_bed",
                 page_text(bed < 0 ? NULL : page->farm->beds[bed].id));
        json_array_append_new(trays, batch);
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(beds->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "notices", page_texts(page->notices, page->notice_count));
    json_put(object, "stops", stops_json(page, arena));
    json_put(object, "trays", trays);
    return json_text_take(object, arena);
}
