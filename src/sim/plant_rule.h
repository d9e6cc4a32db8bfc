/* One way of growing as numbers: the book's figures of the way and its crop,
 * with what a farm knows better put in their place. */
#ifndef LEAT_SIM_PLANT_RULE_H
#define LEAT_SIM_PLANT_RULE_H

#include "farm/book.h"
#include "farm/records.h"

typedef struct PlantRule {
    const char *id;       /* Borrowed: the way's. */
    const BookWay *way;   /* Borrowed: minutes, tray, spacing, shade .. */
    const BookCrop *crop; /* Borrowed: kin, keeping, nutrients .. */
    WayPlace place;
    WayShape shape;
    WayStart start;
    CropLife life;
    FeedClass feed_class;

    ThermalRule thermal;
    LightRule light;
    BoltRule bolt;
    EmergenceLine line;
    EmergenceRow row;
    double germination_frac;       /* of a good lot at a good temperature */
    double germination_least_frac; /* refused below */
    double nursery_degc;           /* what nursery_d refers to */
    double mat_degc;               /* warm bench for germination */
    Figure nursery_d;              /* from sowing to setting out */

    Figure first_pick_degc_d; /* from setting out, or emergence in place */
    double every_degc_d;      /* between picks */
    double picks;
    double slow_most_d; /* refused when the first pick takes longer */
    double span_d;      /* most days from the first pick to the last */
    double stand_degc_d;
    Figure units; /* a plant and pick, before what is not saleable */
    Figure saleable_frac;
    double season_share_frac; /* of the spread: common to a season's batches */
    double counted_frac;      /* what firm orders count on, of the mean, by many
                                 years; NAN: by the spread */
    double kept_frac;         /* plants that outlive their setting out */
    double flow_start, flow_rise, flow_fall, flow_end;

    double heat_degc, heat_loss_frac; /* NAN: none */
    double cool_degc, cool_loss_frac;
    double dull_loss_frac;
    double frost_kill_degc;
    double chill_degc, chill_d; /* NAN: none */
    double cold_night_drop_degc;

    double area_m2_plant; /* bed that a plant feeds from */
    double want_g_m2_d;   /* feed wanted at full growth */
    double young_frac;
    double full_at_frac;
    double unit_g;
} PlantRule;

/* By the book. ERR_NOT_FOUND: no such way. */
NODISCARD Err plant_rule_make(const Book *book, const char *way,
                              PlantRule *out);

/* Row way of the farm's ways. book is the book with the farm's own figures
 * already in it (plant_book_of_farm); the farm's unit weight, germination and
 * feed wanted go before the book's. ERR_NOT_FOUND: its way or its crop is not
 * in the book. */
NODISCARD Err plant_rule_of_farm(const Book *book, const Farm *farm,
                                 int32_t way, PlantRule *out);

/* The book with every row of the farm's figures that names a crop, way or
 * material of it in place; rows about anything else (fish) are noted in its
 * hash alone. ERR_NOT_FOUND: a figure that the book does not have for what it
 * is about; ERR_RANGE: a number outside its range. */
NODISCARD Err plant_book_of_farm(Arena *arena, const Book *book,
                                 const Farm *farm, Book *out);

/* Share of the yield that a day's weather leaves fit to sell: warm, cool and
 * dull days take from it. light_frac: light_growth_frac of its light. */
double plant_quality_frac(const PlantRule *rule, double mean_degc,
                          double light_frac);

/* Rate of picking at x of its way, 0..1, with a mean of 1: up to the peak,
 * along it, and down. */
double plant_flow_shape(const PlantRule *rule, double x);

#endif
