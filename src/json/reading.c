/* What readings mean, as JSON. */
#include "json/reading.h"

#include <jansson.h>
#include <math.h>

#include "json/text.h"

static json_t *real_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *text_or_null(const char *text)
{
    return text ? json_string(text) : json_null();
}

static json_t *finding_json(const JudgeFinding *finding)
{
    json_t *object = json_object();
    json_object_set_new(object, "id", json_string(finding->rule->id));
    json_object_set_new(object, "class",
                        json_string(judge_class_word(finding->rule->class)));
    json_object_set_new(object, "means", text_or_null(finding->means));
    json_object_set_new(object, "act", text_or_null(finding->act));
    json_object_set_new(object, "feed_again", text_or_null(finding->again));
    json_object_set_new(object, "test_next", text_or_null(finding->next));
    json_object_set_new(object, "source", json_string(finding->rule->source));
    return object;
}

static json_t *fish_json(const JudgeFish *fish)
{
    json_t *object = json_object();
    json_object_set_new(object, "tank", json_string(fish->tank));
    json_object_set_new(object, "batch", json_string(fish->batch));
    json_object_set_new(object, "least_g", json_real(fish->least_g));
    json_object_set_new(object, "most_g", json_real(fish->most_g));
    json_object_set_new(object, "ammonia_caution_mg_l",
                        json_real(fish->ammonia_caution_mg_l));
    json_object_set_new(object, "ammonia_growth_halved_mg_l",
                        json_real(fish->ammonia_half_mg_l));
    json_object_set_new(object, "ammonia_half_die_in_4_d_mg_l",
                        json_real(fish->ammonia_deadly_mg_l));
    json_object_set_new(object, "oxygen_for_full_feed_mg_l",
                        json_real(fish->full_feed_mg_l));
    json_object_set_new(object, "would_eat_low_frac",
                        json_real(fish->eats_low_frac));
    json_object_set_new(object, "would_eat_high_frac",
                        json_real(fish->eats_high_frac));
    return object;
}

static json_t *dose_json(const JudgeDose *dose)
{
    json_t *object = json_object();
    bool is_given = !dose->refused;
    json_object_set_new(object, "base", json_string(dose->base));
    json_object_set_new(object, "refused", text_or_null(dose->refused));
    json_object_set_new(object, "today_g",
                        real_or_null(is_given ? dose->today_g : (double)NAN));
    json_object_set_new(object, "portion_g",
                        real_or_null(is_given ? dose->portion_g : (double)NAN));
    json_object_set_new(object, "ph_after",
                        real_or_null(is_given ? dose->ph_after : (double)NAN));
    json_object_set_new(
        object, "nh3_after_mg_l",
        real_or_null(is_given ? dose->nh3_after_mg_l : (double)NAN));
    json_t *cautions = json_array();
    for (int i = 0; i < dose->caution_count; i++) {
        json_array_append_new(cautions, json_string(dose->cautions[i]));
    }
    json_object_set_new(object, "cautions", cautions);
    return object;
}

static json_t *taken_json(const Judge *judge)
{
    json_t *list = json_array();
    for (int i = 0; i < judge->taken_count; i++) {
        const JudgeTaken *taken = &judge->taken[i];
        json_t *object = json_object();
        json_object_set_new(
            object, "quantity",
            json_string(FARM_WORDS[WORDS_QUANTITIES].words[taken->quantity]));
        json_object_set_new(object, "value", json_real(taken->value));
        json_object_set_new(object, "age_h", json_real(taken->age_h));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *quantities_json(const Judge *judge)
{
    json_t *object = json_object();
    for (int q = 0; q < JUDGE_COUNT; q++) {
        json_object_set_new(object, judge_quantity_name((JudgeQuantity)q),
                            real_or_null(judge->of[q]));
    }
    return object;
}

static json_t *texts_json(const char *const *texts, int count)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, json_string(texts[i]));
    }
    return list;
}

const char *reading_to_json(const ReadingJson *reading, Arena *arena)
{
    const Judge *judge = reading->judge;
    json_t *findings = json_array();
    for (int i = 0; i < judge->finding_count; i++) {
        json_array_append_new(findings, finding_json(&judge->findings[i]));
    }
    json_t *fish = json_array();
    for (int i = 0; i < judge->fish_count; i++) {
        json_array_append_new(fish, fish_json(&judge->fish[i]));
    }
    json_t *doses = json_array();
    for (int i = 0; i < reading->dose_count; i++) {
        json_array_append_new(doses, dose_json(&reading->doses[i]));
    }
    json_t *object = json_object();
    json_object_set_new(object, "where", json_string(reading->where));
    json_object_set_new(object, "when", json_string(reading->when));
    json_object_set_new(object, "feed",
                        json_string(judge_feed_word(judge->feed)));
    json_object_set_new(object, "findings", findings);
    json_object_set_new(object, "test_next",
                        texts_json(judge->needs, judge->need_count));
    json_object_set_new(object, "fish", fish);
    json_object_set_new(object, "water_change_frac",
                        json_real(judge->change_frac));
    json_object_set_new(object, "water_change_today_frac",
                        json_real(judge->change_today_frac));
    json_object_set_new(object, "doses", doses);
    json_object_set_new(object, "dose_waits_for",
                        text_or_null(reading->dose_lacks));
    json_object_set_new(object, "from_readings_csv", taken_json(judge));
    json_object_set_new(object, "is_temp_assumed",
                        json_boolean(judge->is_temp_assumed));
    json_object_set_new(object, "quantities", quantities_json(judge));
    json_object_set_new(object, "notices",
                        texts_json(reading->notices, reading->notice_count));
    return json_text_take(object, arena);
}
