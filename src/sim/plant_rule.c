/* One way of growing as numbers. */
#include "sim/plant_rule.h"

#include <math.h>
#include <string.h>

enum { WEEK_DAYS = 7 };

static Figure scaled(Figure figure, double factor)
{
    figure.value *= factor;
    figure.low *= factor;
    figure.high *= factor;
    return figure;
}

/* Grams a plant and pick: by the head law at the way's density where the book
 * has one, so that a density of your own changes the head. */
static Figure yield_of(const BookWay *way)
{
    double a_kg = way->head_a_per_kg.value;
    double density = way->plants_m2.value;
    if (isnan(a_kg) || isnan(density)) {
        return way->yield_g;
    }
    HeadLaw law = {.a_kg = a_kg, .b_m2_kg = way->head_b_m2_per_kg.value};
    double yield_g = 1000.0 * density_head_kg(&law, density);
    return scaled(way->yield_g, yield_g / way->yield_g.value);
}

static void put_picks(const BookWay *way, PlantRule *rule)
{
    rule->first_pick_degc_d = way->first_pick_degc_d;
    rule->every_degc_d = way->pick_every_degc_d.value;
    rule->picks = way->picks.value;
    rule->span_d = way->span_weeks.value * WEEK_DAYS;
    rule->stand_degc_d = way->stand_degc_d.value;
    rule->saleable_frac = way->saleable_frac;
    rule->unit_g = way->unit_g.value;
    bool is_head = way->sold_by == SOLD_HEAD;
    rule->units =
        is_head ? figure_exact(1.0, way->yield_g.origin, way->yield_g.source)
                : scaled(yield_of(way), 1.0 / rule->unit_g);
}

static void put_losses(const BookCrop *crop, PlantRule *rule)
{
    rule->heat_degc = crop->heat_degc.value;
    rule->heat_loss_frac = crop->heat_loss_frac.value;
    rule->cool_degc = crop->cool_degc.value;
    rule->cool_loss_frac = crop->cool_loss_frac.value;
    rule->dull_loss_frac = crop->dull_loss_frac.value;
    rule->frost_kill_degc = crop->frost_kill_degc.value;
    rule->chill_degc = crop->chill_degc.value;
    rule->chill_d = crop->chill_d.value;
}

static void put_feed(const BookCommon *common, const BookCrop *crop,
                     const BookWay *way, PlantRule *rule)
{
    rule->feed_class = (FeedClass)crop->feed_class;
    rule->want_g_m2_d = rule->feed_class == FEED_LEAFY
                            ? common->feed_leafy_g_m2_d.value
                            : common->feed_fruiting_g_m2_d.value;
    rule->young_frac = crop->feed_young_frac.value;
    rule->full_at_frac = crop->feed_full_at_frac.value;
    rule->area_m2_plant = way->place == WAY_EDGE ? way->area_m2_plant.value
                                                 : 1.0 / way->plants_m2.value;
}

static void put_common(const BookCommon *common, PlantRule *rule)
{
    rule->germination_least_frac = common->germination_least_frac.value;
    rule->nursery_degc = common->nursery_degc.value;
    rule->mat_degc = common->mat_degc.value;
    rule->season_share_frac = common->season_share_frac.value;
    rule->slow_most_d = rule->life == LIFE_YEARS
                            ? common->slow_most_years_d.value
                            : common->slow_most_d.value;
    rule->cold_night_drop_degc = common->cold_night_drop_degc.value;
    rule->flow_start = common->flow_start_frac.value;
    rule->flow_rise = common->flow_rise_frac.value;
    rule->flow_fall = common->flow_fall_frac.value;
    rule->flow_end = common->flow_end_frac.value;
    bool is_set = rule->start == START_SET;
    rule->kept_frac = is_set ? 1.0 - common->transplant_loss_frac.value : 1.0;
}

Err plant_rule_make(const Book *book, const char *way_id, PlantRule *out)
{
    const BookWay *way = book_way(book, way_id);
    if (!way) {
        return err_make(ERR_NOT_FOUND, "the book has no way \"%.60s\"", way_id);
    }
    const BookCrop *crop = book_crop_of(book, way);
    PlantRule rule = {.id = way->id,
                      .way = way,
                      .crop = crop,
                      .place = (WayPlace)way->place,
                      .shape = (WayShape)way->shape,
                      .start = (WayStart)way->start,
                      .life = (CropLife)crop->life,
                      .thermal = book_thermal(crop),
                      .light = book_light(crop),
                      .bolt = book_bolt(crop),
                      .line = book_emergence_line(crop),
                      .row = book->emergence[crop - book->crops],
                      .germination_frac = crop->germination_frac.value,
                      .nursery_d = way->nursery_d,
                      .counted_frac = NAN};
    put_picks(way, &rule);
    put_losses(crop, &rule);
    put_feed(book->common, crop, way, &rule);
    put_common(book->common, &rule);
    *out = rule;
    return ERR_NONE;
}

Err plant_rule_of_farm(const Book *book, const Farm *farm, int32_t way,
                       PlantRule *out)
{
    const Way *own = &farm->ways[way];
    PlantRule rule = {0};
    TRY(plant_rule_make(book, own->book, &rule));
    const Crop *crop = &farm->crops[own->crop];
    const BookCrop *by_way = book_crop_of(book, book_way(book, own->book));
    if (book_crop(book, crop->book) != by_way) {
        return err_make(ERR_NOT_FOUND, "way %.60s: the book's %.60s is %.60s",
                        own->id, own->book, by_way->id);
    }
    rule.id = own->id;
    if (book_way(book, own->book)->sold_by == SOLD_WEIGHT) {
        rule.units = scaled(rule.units, rule.unit_g / own->unit_g);
    }
    rule.unit_g = own->unit_g;
    if (crop->germination_frac > 0.0) {
        rule.germination_frac = crop->germination_frac;
    }
    if (farm->farm_count > 0) {
        double want = rule.feed_class == FEED_LEAFY
                          ? farm->farm->feed_leafy_g_m2_d
                          : farm->farm->feed_fruiting_g_m2_d;
        rule.want_g_m2_d = want > 0.0 ? want : rule.want_g_m2_d;
    }
    for (int32_t i = 0; i < farm->counted_count; i++) {
        if (farm->counted[i].way == way) {
            rule.counted_frac = farm->counted[i].counted_pct / 100.0;
        }
    }
    *out = rule;
    return ERR_NONE;
}

static bool is_of_book(const Book *book, const char *id)
{
    return book_crop(book, id) || book_way(book, id) || book_tray(book, id) ||
           book_cover(book, id) || book_gravel(book, id) ||
           book_feed(book, id) || book_base(book, id) || book_task(book, id) ||
           book_limit(book, id) || strcmp(id, book->common->id) == 0 ||
           strcmp(id, book->alarm->id) == 0 ||
           strcmp(id, book->waters->id) == 0;
}

Err plant_book_of_farm(Arena *arena, const Book *book, const Farm *farm,
                       Book *out)
{
    Book own;
    book_copy(arena, book, &own);
    for (int32_t i = 0; i < farm->figures_count; i++) {
        const OwnFigure *figure = &farm->figures[i];
        const Figure yours = {.value = figure->value,
                              .low = figure->low,
                              .high = figure->high,
                              .origin = FIGURE_YOURS,
                              .source = figure->note};
        if (is_of_book(&own, figure->about)) {
            TRY(book_replace(&own, figure->about, figure->figure, yours));
        } else {
            book_note(&own, figure->about, figure->figure, yours);
        }
    }
    *out = own;
    return ERR_NONE;
}

static double bounded(double value)
{
    return value < 0.0 ? 0.0 : value > 1.0 ? 1.0 : value;
}

double plant_quality_frac(const PlantRule *rule, double mean_degc,
                          double light_frac)
{
    double over = fmax(mean_degc - rule->heat_degc, 0.0);
    double heat = bounded(1.0 - rule->heat_loss_frac * over);
    double cool = 1.0;
    if (!isnan(rule->cool_degc)) {
        double under = fmax(rule->cool_degc - mean_degc, 0.0);
        cool = bounded(1.0 - rule->cool_loss_frac * under);
    }
    return heat * cool * (1.0 - rule->dull_loss_frac * (1.0 - light_frac));
}

double plant_flow_shape(const PlantRule *rule, double x)
{
    double rise = rule->flow_rise, fall = rule->flow_fall;
    double mean = rise * (rule->flow_start + 1.0) / 2.0 + (fall - rise) +
                  (1.0 - fall) * (1.0 + rule->flow_end) / 2.0;
    double height = 1.0;
    if (x < rise) {
        height = rule->flow_start + (1.0 - rule->flow_start) * x / rise;
    } else if (x > fall) {
        double down = fmin((x - fall) / (1.0 - fall), 1.0);
        height = 1.0 - (1.0 - rule->flow_end) * down;
    }
    return height / mean;
}
