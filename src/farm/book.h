/* The book: what is published or judged about crops, ways of growing them and
 * materials, each figure with its low, high, origin and source.
 *
 * The tables of data/ are carried in the binary, one figure a row:
 *     id,figure,value,low,high,unit,origin,source,note
 * Each record has one list below; it makes the struct, the reader and the check
 * that every needed figure stands there once, in its unit and in its range. A
 * farm's own figures replace the book's by id and figure name. */
#ifndef LEAT_FARM_BOOK_H
#define LEAT_FARM_BOOK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/embed.h"
#include "base/figure.h"
#include "nature/plant/bolt.h"
#include "nature/plant/density.h"
#include "nature/plant/emergence.h"
#include "nature/plant/light.h"
#include "nature/plant/thermal.h"

typedef enum CropLife { LIFE_ONCE, LIFE_MANY, LIFE_YEARS } CropLife;
typedef enum FeedClass { FEED_LEAFY, FEED_FRUITING } FeedClass;
typedef enum WayPlace { WAY_FLOOR, WAY_EDGE } WayPlace;
/* once: one pick; cuts: a few whole cuts; flow: picked through the week. */
typedef enum WayShape { SHAPE_ONCE, SHAPE_CUTS, SHAPE_FLOW } WayShape;
typedef enum WayStart { START_SET, START_SOWN } WayStart;
/* head: one plant is one unit, whatever it weighs; weight: yield / unit. */
typedef enum WaySold { SOLD_HEAD, SOLD_WEIGHT } WaySold;

/* The lists are laid out by hand. */
/* clang-format off */

/* T text: (record, name). W word: (record, name, words).
 * F figure: (record, name, unit, NEEDED or MAY, least, most). An absent figure
 * has the value NAN. */
#define BOOK_CROP_FIELDS(R, T, W, F)                                           \
    T(R, name) T(R, kin)                                                       \
    W(R, life, "once many years") W(R, feed_class, "leafy fruiting")           \
    F(R, germination_frac, "frac", NEEDED, 0.05, 1)                            \
    F(R, emerge_base_degc, "degC", NEEDED, -5, 20)                             \
    F(R, emerge_sum_degc_d, "degC d", NEEDED, 5, 500)                          \
    F(R, germ_most_degc, "degC", NEEDED, 15, 45)                               \
    F(R, base_degc, "degC", NEEDED, -10, 18)                                   \
    F(R, optimum_degc, "degC", NEEDED, 10, 32)                                 \
    F(R, ceiling_degc, "degC", NEEDED, 15, 40)                                 \
    F(R, dli_least_mol, "mol/m2/d", NEEDED, 0, 12)                             \
    F(R, dli_full_mol, "mol/m2/d", NEEDED, 5, 50)                              \
    F(R, heat_degc, "degC", NEEDED, 12, 40)                                    \
    F(R, heat_loss_frac, "frac/degC", NEEDED, 0, 0.5)                          \
    F(R, dull_loss_frac, "frac", NEEDED, 0, 0.8)                               \
    F(R, frost_kill_degc, "degC", NEEDED, -40, 6)                              \
    F(R, cool_degc, "degC", MAY, 2, 25)                                        \
    F(R, cool_loss_frac, "frac/degC", MAY, 0, 0.5)                             \
    F(R, chill_degc, "degC", MAY, 0, 18)                                       \
    F(R, chill_d, "d", MAY, 1, 90)                                             \
    F(R, bolt_heat_day_h, "h", MAY, 8, 18)                                     \
    F(R, bolt_heat_degc, "degC", MAY, 8, 35)                                   \
    F(R, bolt_heat_sum_degc_d, "degC d", MAY, 20, 2000)                        \
    F(R, bolt_cold_degc, "degC", MAY, 2, 16)                                   \
    F(R, bolt_cold_d, "d", MAY, 3, 200)                                        \
    F(R, bolt_cold_day_h, "h", MAY, 8, 18)                                     \
    F(R, keep_d, "d", NEEDED, 0, 400)                                          \
    F(R, keep_degc, "degC", NEEDED, -2, 20)                                    \
    F(R, n_g_kg, "g/kg", NEEDED, 0.1, 30)                                      \
    F(R, p_g_kg, "g/kg", NEEDED, 0.01, 5)                                      \
    F(R, k_g_kg, "g/kg", NEEDED, 0.1, 20)                                      \
    F(R, ca_g_kg, "g/kg", NEEDED, 0.01, 10)                                    \
    F(R, mg_g_kg, "g/kg", NEEDED, 0.01, 5)                                     \
    F(R, fe_g_kg, "g/kg", NEEDED, 0.0005, 1)                                   \
    F(R, feed_young_frac, "frac", NEEDED, 0, 1)                                \
    F(R, feed_full_at_frac, "frac", NEEDED, 0.05, 1)                           \
    F(R, shade_borne_frac, "frac", NEEDED, 0, 0.8)                             \
    F(R, piece_g, "g", MAY, 0.01, 100)

#define BOOK_WAY_FIELDS(R, T, W, F)                                            \
    T(R, name) T(R, crop)                                                      \
    W(R, place, "floor edge") W(R, shape, "once cuts flow")                    \
    W(R, start, "set sown") W(R, sold_by, "head weight")                       \
    F(R, nursery_d, "d", MAY, 5, 200)                                          \
    F(R, wait_d, "d", MAY, 0, 120)                                             \
    F(R, seeds_cell, "1", MAY, 1, 30)                                          \
    F(R, plants_m2, "1/m2", MAY, 0.05, 3000)                                   \
    F(R, plants_m, "1/m", MAY, 0.1, 50)                                        \
    F(R, first_pick_degc_d, "degC d", NEEDED, 50, 10000)                       \
    F(R, picks, "1", NEEDED, 1, 500)                                           \
    F(R, pick_every_degc_d, "degC d", MAY, 1, 5000)                            \
    F(R, span_weeks, "week", NEEDED, 1, 260)                                   \
    F(R, stand_degc_d, "degC d", NEEDED, 1, 2000)                              \
    F(R, yield_g, "g", NEEDED, 0.05, 50000)                                    \
    F(R, head_a_per_kg, "1/kg", MAY, 0.01, 100)                                \
    F(R, head_b_m2_per_kg, "m2/kg", MAY, 0, 100)                               \
    F(R, saleable_frac, "frac", NEEDED, 0.05, 1)                               \
    F(R, unit_g, "g", NEEDED, 0.1, 50000)                                      \
    F(R, area_m2_plant, "m2", MAY, 0.01, 20)                                   \
    F(R, shade_cast_frac, "frac", NEEDED, 0, 0.95)                             \
    F(R, sow_min_tray, "min", MAY, 0, 240)                                     \
    F(R, sow_min_m2, "min", MAY, 0, 240)                                       \
    F(R, set_min_plant, "min", MAY, 0, 60)                                     \
    F(R, prune_min_plant_week, "min", NEEDED, 0, 60)                           \
    F(R, pick_min_unit, "min", NEEDED, 0, 240)                                 \
    F(R, clear_min_m2, "min", NEEDED, 0, 240)                                  \
    T(R, tray)

#define BOOK_TRAY_FIELDS(R, T, W, F)                                           \
    F(R, cells, "1", NEEDED, 1, 2000)                                          \
    F(R, room_frac, "1", NEEDED, 0.01, 10)                                     \
    F(R, fill_min, "min", NEEDED, 0, 120)

#define BOOK_COVER_FIELDS(R, T, W, F)                                          \
    T(R, name)                                                                 \
    F(R, light_frac, "frac", NEEDED, 0.1, 1)                                   \
    F(R, diffuse_frac, "frac", NEEDED, 0.1, 1)                                 \
    F(R, loss_w_m2_k, "W/m2/K", NEEDED, 0.5, 15)                               \
    F(R, infrared_frac, "frac", NEEDED, 0, 1)                                  \
    F(R, ageing_frac_year, "frac", NEEDED, 0, 0.3)                             \
    F(R, life_years, "year", NEEDED, 1, 60)

#define BOOK_GRAVEL_FIELDS(R, T, W, F)                                         \
    T(R, name)                                                                 \
    F(R, porosity_frac, "frac", NEEDED, 0.1, 0.9)                              \
    F(R, surface_m2_m3, "m2/m3", NEEDED, 20, 2000)                             \
    F(R, bulk_kg_m3, "kg/m3", NEEDED, 50, 3000)                                \
    F(R, nitrify_g_m2_d, "g/m2/d", NEEDED, 0.01, 5)

#define BOOK_FEED_FIELDS(R, T, W, F)                                           \
    T(R, name)                                                                 \
    F(R, protein_frac, "frac", NEEDED, 0.05, 0.7)                              \
    F(R, phosphorus_frac, "frac", NEEDED, 0, 0.05)                             \
    F(R, potassium_frac, "frac", NEEDED, 0, 0.05)                              \
    F(R, calcium_frac, "frac", NEEDED, 0, 0.1)

#define BOOK_BASE_FIELDS(R, T, W, F)                                           \
    T(R, name)                                                                 \
    F(R, caco3_g_g, "g/g", NEEDED, 0, 2)                                       \
    F(R, k_frac, "frac", NEEDED, 0, 1)                                         \
    F(R, ca_frac, "frac", NEEDED, 0, 1)                                        \
    F(R, mg_frac, "frac", NEEDED, 0, 1)                                        \
    F(R, fe_frac, "frac", NEEDED, 0, 1)

/* The unit of a task's minutes differs by task and stands in data/tasks.csv. */
#define BOOK_TASK_FIELDS(R, T, W, F)                                           \
    T(R, name)                                                                 \
    F(R, minutes, "", NEEDED, 0, 10000)

#define BOOK_COMMON_FIELDS(R, T, W, F)                                         \
    F(R, feed_leafy_g_m2_d, "g/m2/d", NEEDED, 1, 100)                          \
    F(R, feed_fruiting_g_m2_d, "g/m2/d", NEEDED, 1, 150)                       \
    F(R, cold_night_drop_degc, "degC", NEEDED, 0, 15)                          \
    F(R, nursery_degc, "degC", NEEDED, 10, 30)                                 \
    F(R, mat_degc, "degC", NEEDED, 10, 35)                                     \
    F(R, slow_most_d, "d", NEEDED, 30, 1000)                                   \
    F(R, slow_most_years_d, "d", NEEDED, 30, 1500)                             \
    F(R, change_h, "h", NEEDED, 0, 100)                                        \
    F(R, change_half_weeks, "week", NEEDED, 0.5, 104)                          \
    F(R, fish_unsold_h, "h", NEEDED, 0, 10)                                    \
    F(R, flow_start_frac, "frac", NEEDED, 0, 1)                                \
    F(R, flow_rise_frac, "frac", NEEDED, 0.01, 0.49)                           \
    F(R, flow_fall_frac, "frac", NEEDED, 0.5, 0.99)                            \
    F(R, flow_end_frac, "frac", NEEDED, 0, 1)                                  \
    F(R, germination_least_frac, "frac", NEEDED, 0, 1)                         \
    F(R, season_share_frac, "frac", NEEDED, 0, 1)                              \
    F(R, tunnel_leaf_frac, "frac", NEEDED, 0, 1)                               \
    F(R, tunnel_vent_degc, "degC", NEEDED, 5, 40)                              \
    F(R, tunnel_vent_mild_degc, "degC", NEEDED, 0, 40)                         \
    F(R, tunnel_vent_high_m, "m", NEEDED, 0.05, 10)                            \
    F(R, tunnel_vent_pass_frac, "frac", NEEDED, 0.05, 1)                       \
    F(R, tunnel_ground_w_m2_k, "W/m2/K", NEEDED, 0.5, 50)                      \
    F(R, fleece_over_k, "K", NEEDED, 0, 6)                                     \
    F(R, tank_room_w_m2_k, "W/m2/K", NEEDED, 0.05, 20)                         \
    F(R, tank_apart_changes_d, "1/d", NEEDED, 0, 500)                          \
    F(R, weather_max_sd_k, "K", NEEDED, 0, 15)                                 \
    F(R, weather_min_sd_k, "K", NEEDED, 0, 15)                                 \
    F(R, weather_wet_max_frac, "frac", NEEDED, -0.5, 1)                        \
    F(R, weather_wet_min_k, "K", NEEDED, -5, 10)                               \
    F(R, weather_wet_sun_frac, "frac", NEEDED, 0.05, 1)                        \
    F(R, weather_sun_sd_frac, "frac", NEEDED, 0.01, 0.5)                       \
    F(R, weather_wet_rh_frac, "frac", NEEDED, 0, 0.5)                          \
    F(R, weather_rh_sd_frac, "frac", NEEDED, 0.005, 0.3)                       \
    F(R, weather_wind_shape, "1", NEEDED, 0, 1)                                \
    F(R, transplant_loss_frac, "frac", NEEDED, 0, 0.5)                         \
    F(R, seedling_loss_frac, "frac", NEEDED, 0, 0.5)                           \
    F(R, nutrient_store_kg_m3, "kg/m3", NEEDED, 0, 20)                         \
    F(R, nutrient_start_frac, "frac", NEEDED, 0, 1)                            \
    F(R, nutrient_kept_frac, "frac", NEEDED, 0, 1)                             \
    F(R, short_feed_loss_frac, "frac", NEEDED, 0, 2)                           \
    F(R, end_fish_price_frac, "frac", NEEDED, 0, 1)                            \
    F(R, edge_shade_frac, "frac", NEEDED, 0, 0.9)                              \
    F(R, purge_loss_frac, "frac", NEEDED, 0, 0.3)                              \
    F(R, handled_off_feed_d, "d", NEEDED, 0, 7)                                \
    F(R, neighbour_weight_ratio, "1", NEEDED, 1, 10)

/* Where a reading of the water begins to matter; its unit stands in
 * data/limits.csv. */
#define BOOK_LIMIT_FIELDS(R, T, W, F)                                          \
    F(R, limit, "", NEEDED, -100, 100000)

/* What an emergency is reckoned with; one row. */
#define BOOK_ALARM_FIELDS(R, T, W, F)                                          \
    F(R, oxygen_act_mg_l, "mg/L", NEEDED, 1, 8)                                \
    F(R, oxygen_gasp_mg_l, "mg/L", NEEDED, 0.5, 6)                             \
    F(R, oxygen_dying_mg_l, "mg/L", NEEDED, 0.1, 5)                            \
    F(R, oxygen_error_mg_l, "mg/L", NEEDED, 0, 3)                              \
    F(R, oxygen_drift_mg_l_h, "mg/L/h", NEEDED, 0, 5)                          \
    F(R, oxygen_unread_mg_l, "mg/L", NEEDED, 0.5, 10)                          \
    F(R, temp_error_degc, "degC", NEEDED, 0, 5)                                \
    F(R, temp_drift_degc_h, "degC/h", NEEDED, 0, 2)                            \
    F(R, temp_apart_degc, "degC", NEEDED, 0, 15)                               \
    F(R, temp_unread_degc, "degC", NEEDED, 5, 40)                              \
    F(R, bacteria_frac, "frac", NEEDED, 0, 2)                                  \
    F(R, aerator_frac, "frac", NEEDED, 0, 1.5)                                 \
    F(R, flow_frac, "frac", NEEDED, 0, 1.5)                                    \
    F(R, surface_1_h, "1/h", NEEDED, 0, 0.5)                                   \
    F(R, battery_frac, "frac", NEEDED, 0.05, 1)                                \
    F(R, unread_weight_g, "g", NEEDED, 0.1, 2000)                              \
    F(R, grown_degc, "degC", NEEDED, 15, 35)                                   \
    F(R, foul_h, "h", NEEDED, 0.5, 48)                                         \
    F(R, gravel_held_frac, "frac", NEEDED, 0.005, 0.3)                         \
    F(R, young_root_frac, "frac", NEEDED, 0.02, 1)                             \
    F(R, cold_lethal_k, "K", NEEDED, -5, 5)                                    \
    F(R, cold_danger_k, "K", NEEDED, 0, 10)                                    \
    F(R, night_degc, "degC", NEEDED, -40, 20)                                  \
    F(R, tunnel_over_k, "K", NEEDED, -3, 10)                                   \
    F(R, bed_w_m2_k, "W/m2/K", NEEDED, 1, 30)                                  \
    F(R, bed_vapour_w_m2_kpa, "W/m2/kPa", NEEDED, 0, 60)                       \
    F(R, lid_w_m2_k, "W/m2/K", NEEDED, 0.5, 20)

/* What water, fish and gravel do by the hour; one record. */
#define BOOK_WATER_FIELDS(R, T, W, F)                                          \
    T(R, name)                                                                 \
    F(R, solids_kg_kg, "kg/kg", NEEDED, 0, 5)                                  \
    F(R, feed_mg_frac, "frac", NEEDED, 0, 1)                                   \
    F(R, feed_fe_frac, "frac", NEEDED, 0, 1)                                   \
    F(R, feed_na_frac, "frac", NEEDED, 0, 1)                                   \
    F(R, feed_cl_frac, "frac", NEEDED, 0, 1)                                   \
    F(R, fish_n_g_kg, "g/kg", NEEDED, 0, 100)                                  \
    F(R, fish_p_g_kg, "g/kg", NEEDED, 0, 100)                                  \
    F(R, fish_k_g_kg, "g/kg", NEEDED, 0, 100)                                  \
    F(R, fish_ca_g_kg, "g/kg", NEEDED, 0, 100)                                 \
    F(R, fish_mg_g_kg, "g/kg", NEEDED, 0, 100)                                 \
    F(R, fish_fe_g_kg, "g/kg", NEEDED, 0, 100)                                 \
    F(R, solids_n_frac, "frac", NEEDED, 0, 1)                                  \
    F(R, solids_p_frac, "frac", NEEDED, 0, 1)                                  \
    F(R, solids_k_frac, "frac", NEEDED, 0, 1)                                  \
    F(R, solids_ca_frac, "frac", NEEDED, 0, 1)                                 \
    F(R, solids_mg_frac, "frac", NEEDED, 0, 1)                                 \
    F(R, solids_fe_frac, "frac", NEEDED, 0, 1)                                 \
    F(R, uneaten_frac, "frac", NEEDED, 0, 1)                                   \
    F(R, oxygen_rest_frac, "frac", NEEDED, 0, 1)                               \
    F(R, oxygen_digest_kg_kg, "kg/kg", NEEDED, 0, 5)                           \
    F(R, breath_mol_mol, "mol/mol", NEEDED, 0, 2)                              \
    F(R, gut_rate_h, "1/h", NEEDED, 0.01, 5)\
    F(R, solids_oxygen_kg_kg, "kg/kg", NEEDED, 0, 5)                           \
    F(R, mineral_d, "1/d", NEEDED, 0, 50)                                      \
    F(R, mineral_rise, "1", NEEDED, 1, 1.2)\
    F(R, solids_start_kg_m2, "kg/m2", NEEDED, 0, 50)                           \
    F(R, solids_gone_frac, "frac", NEEDED, 0, 1)                               \
    F(R, denitrify_frac, "frac", NEEDED, 0, 1)                                 \
    F(R, nitrite_times, "1", NEEDED, 0, 20)                                    \
    F(R, nitrite_half_g_m3, "g/m3", NEEDED, 0.01, 100)\
    F(R, bed_air_h, "1/h", NEEDED, 0, 1000)                                    \
    F(R, still_air_m_h, "m/h", NEEDED, 0, 10)                                  \
    F(R, fall_frac, "frac", NEEDED, 0, 1)                                      \
    F(R, strip_frac, "frac", NEEDED, 0, 1)                                     \
    F(R, air_alpha_frac, "frac", NEEDED, 0, 1)                                 \
    F(R, air_beta_frac, "frac", NEEDED, 0, 1)                                  \
    F(R, air_co2_ppm, "ppm", NEEDED, 0, 5000)                                  \
    F(R, pore_left_frac, "frac", NEEDED, 0, 1)                                 \
    F(R, drain_mm, "mm", NEEDED, 0, 500)                                       \
    F(R, intake_frac, "frac", NEEDED, 0, 1)                                    \
    F(R, vapour_frac, "frac", NEEDED, 0, 1)                                    \
    F(R, sold_leafy_frac, "frac", NEEDED, 0.05, 1)\
    F(R, sold_fruiting_frac, "frac", NEEDED, 0.05, 1)\
    F(R, half_n_g_m3, "g/m3", NEEDED, 0.001, 1000)\
    F(R, half_p_g_m3, "g/m3", NEEDED, 0.001, 1000)\
    F(R, half_k_g_m3, "g/m3", NEEDED, 0.001, 1000)\
    F(R, half_ca_g_m3, "g/m3", NEEDED, 0.001, 1000)\
    F(R, half_mg_g_m3, "g/m3", NEEDED, 0.001, 1000)\
    F(R, half_fe_g_m3, "g/m3", NEEDED, 0.001, 1000)\
    F(R, enough_frac, "frac", NEEDED, 0.05, 1)\
    F(R, dark_uptake_frac, "frac", NEEDED, 0, 1)                               \
    F(R, iron_loss_d, "1/d", NEEDED, 0, 50)                                    \
    F(R, iron_loss_high_d, "1/d", NEEDED, 0, 50)                               \
    F(R, phosphorus_loss_high_d, "1/d", NEEDED, 0, 50)                         \
    F(R, scale_over, "1", NEEDED, 1, 100)\
    F(R, scale_h, "1/h", NEEDED, 0, 1000)                                      \
    F(R, start_tan_g_m3, "g/m3", NEEDED, 0, 1000)                              \
    F(R, start_nitrite_g_m3, "g/m3", NEEDED, 0, 1000)                          \
    F(R, start_nitrate_g_m3, "g/m3", NEEDED, 0, 1000)                          \
    F(R, start_k_g_m3, "g/m3", NEEDED, 0, 1000)                                \
    F(R, start_p_g_m3, "g/m3", NEEDED, 0, 1000)                                \
    F(R, start_fe_g_m3, "g/m3", NEEDED, 0, 1000)                               \
    F(R, dose_ph, "1", NEEDED, 5, 8)\
    F(R, dose_alkalinity_g_m3, "g/m3", NEEDED, 0, 1000)\
    F(R, dose_portions_d, "1/d", NEEDED, 1, 5)\
    F(R, salt_k_g_m3, "g/m3", NEEDED, 0, 1000)\
    F(R, salt_ca_g_m3, "g/m3", NEEDED, 0, 1000)\
    F(R, salt_mg_g_m3, "g/m3", NEEDED, 0, 1000)

/* table (and file <table>.csv), record, list */
#define BOOK_TABLES(B)                                                         \
    B(crops, BookCrop, BOOK_CROP_FIELDS)                                       \
    B(ways, BookWay, BOOK_WAY_FIELDS)                                          \
    B(trays, BookTray, BOOK_TRAY_FIELDS)                                       \
    B(covers, BookCover, BOOK_COVER_FIELDS)                                    \
    B(gravels, BookGravel, BOOK_GRAVEL_FIELDS)                                 \
    B(feeds, BookFeed, BOOK_FEED_FIELDS)                                       \
    B(bases, BookBase, BOOK_BASE_FIELDS)                                       \
    B(tasks, BookTask, BOOK_TASK_FIELDS)                                       \
    B(common, BookCommon, BOOK_COMMON_FIELDS)                                  \
    B(alarm, BookAlarm, BOOK_ALARM_FIELDS)                                     \
    B(limits, BookLimit, BOOK_LIMIT_FIELDS)                                    \
    B(waters, BookWater, BOOK_WATER_FIELDS)

/* clang-format on */

#define BOOK_TEXT_MEMBER(R, name) const char *name; /* Borrowed. */
#define BOOK_WORD_MEMBER(R, name, words) int name;
#define BOOK_FIGURE_MEMBER(R, name, ...) Figure name;
#define BOOK_RECORD(table, record, list)                                       \
    typedef struct record {                                                    \
        const char *id; /* Borrowed. */                                        \
        list(record, BOOK_TEXT_MEMBER, BOOK_WORD_MEMBER, BOOK_FIGURE_MEMBER)   \
    } record;
BOOK_TABLES(BOOK_RECORD)
#undef BOOK_RECORD

/* The germination rows of data/crops.csv stand beside their crop: figures
 * germ_00_frac .. germ_40_frac and emerge_00_d .. emerge_40_d, all may lack. */
typedef struct Book {
#define BOOK_ROWS(table, record, list)                                         \
    record *table; /* Owned by the arena. */                                   \
    int32_t table##_count;
    BOOK_TABLES(BOOK_ROWS)
#undef BOOK_ROWS
    EmergenceRow *emergence; /* by crop */
    uint64_t hash;           /* of the tables read and of what replaced them */
} Book;

/* The tables that the binary carries. */
extern const EmbeddedFile BOOK_FILES[];
extern const size_t BOOK_FILES_COUNT;

/* The book that the binary carries; a fault in it is ERR_DEFECT. */
NODISCARD Err book_load(Arena *arena, Book *out);

/* A book from tables in memory. The first fault is ERR_INPUT with file, line
 * and what is wrong: a figure unknown, told twice or lacking, a unit that is
 * not the list's, low <= value <= high broken, a value out of range, a way of
 * an unknown crop or tray, a floor way without plants_m2 and the like. */
NODISCARD Err book_parse(Arena *arena, const EmbeddedFile *files, size_t count,
                         Book *out);

/* Rows by id, or NULL. */
const BookCrop *book_crop(const Book *book, const char *id);
const BookWay *book_way(const Book *book, const char *id);
const BookTray *book_tray(const Book *book, const char *id);
const BookCover *book_cover(const Book *book, const char *id);
const BookGravel *book_gravel(const Book *book, const char *id);
const BookFeed *book_feed(const Book *book, const char *id);
const BookBase *book_base(const Book *book, const char *id);
const BookTask *book_task(const Book *book, const char *id);
const BookLimit *book_limit(const Book *book, const char *id);

/* The crop of a way of the same book; never NULL for a book that was parsed. */
const BookCrop *book_crop_of(const Book *book, const BookWay *way);

/* A copy that can be changed without touching the first. */
void book_copy(Arena *arena, const Book *book, Book *out);

/* Figures of your own about what the book keeps elsewhere, its fish: its hash
 * knows them too. */
void book_note(Book *book, const char *id, const char *figure, Figure yours);

/* Replaces a figure of a row of any table, its origin now FIGURE_YOURS.
 * ERR_NOT_FOUND names an unknown row or figure; ERR_RANGE a value outside what
 * the list allows, or low <= value <= high broken. */
NODISCARD Err book_replace(Book *book, const char *id, const char *figure,
                           Figure yours);

/* The figure of that name of a row, or NULL: for showing where it comes from.
 */
const Figure *book_figure(const Book *book, const char *id, const char *figure);

/* Ids of crops, ways .. of one table ("ways"), for near names; NULL at the end
 * of the table. */
const char *book_id(const Book *book, const char *table, int32_t row);

/* The equations' structs from a crop's figures. */
ThermalRule book_thermal(const BookCrop *crop);
LightRule book_light(const BookCrop *crop);
EmergenceLine book_emergence_line(const BookCrop *crop);
BoltRule book_bolt(const BookCrop *crop);

#endif
