/* The fish of a day as JSON. */
#include "json/fish.h"

#include <jansson.h>
#include <math.h>

#include "json/page.h"
#include "json/text.h"

static void put_part(json_t *object, const FishPart *part)
{
    json_put(object, "count", json_real(round(part->count)));
    json_put(object, "mean_g", page_number(part->mean_g));
    json_put(object, "cv_frac", page_number(part->cv_frac));
    json_put(object, "kg", page_number(part->kg));
}

static json_t *part_json(const FishPart *part)
{
    json_t *object = json_object();
    put_part(object, part);
    return object;
}

static json_t *tank_id(const Farm *farm, int32_t tank)
{
    return page_text(tank < 0 ? NULL : farm->tanks[tank].id);
}

static json_t *grading_json(const Farm *farm, const FishGrading *grading)
{
    json_t *object = json_object();
    json_put(object, "over_g", json_real(grading->over_g));
    json_put(object, "before", part_json(&grading->before));
    json_put(object, "moved", part_json(&grading->moved));
    json_put(object, "left", part_json(&grading->left));
    json_put(object, "to", tank_id(farm, grading->to_tank));
    json_put(object, "from_density_kg_m3",
             page_number(grading->from_density_kg_m3));
    json_put(object, "to_density_kg_m3",
             page_number(grading->to_density_kg_m3));
    json_put(object, "doubt", json_string(grading->doubt));
    return object;
}

static json_t *conversion_json(const Conversion *conversion)
{
    json_t *object = json_object();
    json_put(object, "value", page_number(conversion->value));
    json_put(object, "from", page_day(conversion->from));
    json_put(object, "until", page_day(conversion->until));
    json_put(object, "feed_kg", page_number(conversion->feed_kg));
    json_put(object, "gain_kg", page_number(conversion->gain_kg));
    json_put(object, "fed_days", json_integer(conversion->fed_days));
    json_put(object, "lacking", json_string(conversion->lacking));
    return object;
}

static json_t *batches_json(const FishJson *page, const FishTank *tank)
{
    json_t *list = json_array();
    for (int b = 0; b < tank->batch_count; b++) {
        const FishInTank *in = &tank->batches[b];
        json_t *gradings = json_array();
        for (int g = 0; g < in->grading_count; g++) {
            json_array_append_new(gradings,
                                  grading_json(page->farm, &in->gradings[g]));
        }
        json_t *object = json_object();
        json_put(object, "batch",
                 json_string(page->foresight->fish.batches[in->batch].id));
        put_part(object, &in->part);
        json_put(object, "gradings", gradings);
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *moves_json(const Farm *farm, const FishTank *tank)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < tank->move_count; i++) {
        const FishMove *move = &tank->moves[i];
        json_t *object = json_object();
        json_put(object, "week", page_day(move->on));
        json_put(object, "kind",
                 json_string(FARM_WORDS[WORDS_MOVE_KINDS].words[move->kind]));
        json_put(object, "batch", json_string(move->batch));
        json_put(object, "count", json_real(move->count));
        json_put(object, "mean_g", json_real(move->mean_g));
        json_put(object, "from", tank_id(farm, move->from_tank));
        json_put(object, "to", tank_id(farm, move->to_tank));
        json_put(object, "product",
                 page_text(move->product < 0
                               ? NULL
                               : farm->products[move->product].id));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *tank_json(const FishJson *page, const FishTank *tank)
{
    const Farm *farm = page->farm;
    const Tank *row = &farm->tanks[tank->tank];
    json_t *object = json_object();
    json_put(object, "id", json_string(row->id));
    json_put(object, "loop",
             page_text(row->loop < 0 ? NULL : farm->loops[row->loop].id));
    json_put(object, "use",
             json_string(FARM_WORDS[WORDS_TANK_USES].words[row->use]));
    json_put(object, "volume_m3", json_real(row->volume_m3));
    json_put(object, "count", json_real(round(tank->count)));
    json_put(object, "kg", json_real(tank->kg));
    json_put(object, "mean_g", page_number(tank->mean_g));
    json_put(object, "density_kg_m3", json_real(tank->density_kg_m3));
    json_put(object, "ceiling_kg_m3", json_real(tank->ceiling_kg_m3));
    json_put(object, "crowded_on", page_day(tank->crowded_on));
    json_put(object, "temp_degc", page_number(tank->degc));
    json_put(object, "temp_from",
             json_string(tank->is_degc_told ? "told" : "plan"));
    json_put(object, "feed_g", json_real(tank->feed_g));
    json_put(object, "grade_hold", page_text(tank->grade_hold));
    json_put(object, "conversion", conversion_json(&tank->conversion));
    json_put(object, "batches", batches_json(page, tank));
    json_put(object, "moves", moves_json(farm, tank));
    return object;
}

static json_t *batch_json(const FishJson *page, const FishBatchDay *day)
{
    const FishStandBatch *batch = &page->foresight->fish.batches[day->batch];
    const Farm *farm = page->farm;
    const char *species =
        batch->standing >= 0 ? farm->fish[batch->standing].species
        : batch->source >= 0 ? farm->fish_sources[batch->source].species
                             : "";
    json_t *object = json_object();
    json_put(object, "batch", json_string(batch->id));
    json_put(object, "species", json_string(species));
    json_put(object, "standing", json_boolean(batch->standing >= 0));
    put_part(object, &day->part);
    json_put(object, "over_count", json_real(round(day->over_count)));
    json_put(object, "ready_early", page_day(day->ready_early));
    json_put(object, "ready_on", page_day(day->ready_on));
    json_put(object, "ready_late", page_day(day->ready_late));
    json_put(object, "planned_sold", json_real(round(day->sold_count)));
    return object;
}

const char *fish_to_json(const FishJson *page, Arena *arena)
{
    const FishPage *fish = page->page;
    json_t *tanks = json_array();
    for (int32_t t = 0; t < fish->tank_count; t++) {
        if (page->only < 0 || page->only == fish->tanks[t].tank) {
            json_array_append_new(tanks, tank_json(page, &fish->tanks[t]));
        }
    }
    json_t *batches = json_array();
    for (int32_t b = 0; b < fish->batch_count; b++) {
        json_array_append_new(batches, batch_json(page, &fish->batches[b]));
    }
    json_t *asked = json_null();
    if (fish->asked_batch >= 0) {
        asked = grading_json(page->farm, &fish->asked);
        json_put(
            asked, "batch",
            json_string(page->foresight->fish.batches[fish->asked_batch].id));
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(fish->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "notices", page_texts(page->notices, page->notice_count));
    json_put(object, "sale_g", json_real(fish->sale_g));
    json_put(object, "feed_g", json_real(fish->feed_g));
    json_put(object, "tanks", tanks);
    json_put(object, "batches", batches);
    json_put(object, "asked", asked);
    return json_text_take(object, arena);
}
