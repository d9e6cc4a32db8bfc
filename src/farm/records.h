/* The records that describe a farm and its accepted plan: one list each.
 *
 * A list's columns are explained in farm/fields.h. Text and rows are borrowed
 * from the arena that the farm was read into. A Farm never changes once read.
 */
#ifndef LEAT_FARM_RECORDS_H
#define LEAT_FARM_RECORDS_H

#include "farm/fields.h"
#include "farm/plan_fields.h"

/* The lists are laid out by hand. */
/* clang-format off */

/* ---- Word lists: name, then the words in the order of the enum. ---------- */

#define TANK_USES(W)                                                           \
    W(TANK_GROW, "grow") W(TANK_FRY, "fry") W(TANK_BREEDERS, "breeders")       \
    W(TANK_PURGE, "purge") W(TANK_QUARANTINE, "quarantine")
#define WALLS(W)                                                               \
    W(WALL_BARE, "bare") W(WALL_SOME, "some") W(WALL_THICK, "thick")
#define LINK_KINDS(W)                                                          \
    W(LINK_VALVE, "valve") W(LINK_TRANSFER, "transfer")                        \
    W(LINK_DRAIN, "drain") W(LINK_OVERFLOW, "overflow")
#define EDGE_KINDS(W)                                                          \
    W(EDGE_NONE, "none") W(EDGE_SUNNY, "sunny") W(EDGE_BACK, "back")
#define SEXES(W)                                                               \
    W(SEX_MIXED, "mixed") W(SEX_SEXED, "sexed") W(SEX_MALES, "males")          \
    W(SEX_FEMALES, "females")
#define FISH_SOURCE_KINDS(W)                                                   \
    W(FISH_BOUGHT, "bought") W(FISH_OWN, "own")
#define PLACES(W) W(PLACE_FLOOR, "floor") W(PLACE_EDGE, "edge")
#define FIRMNESSES(W)                                                          \
    W(ORDER_FIRM, "firm") W(ORDER_PROMISED, "promised")                        \
    W(ORDER_OUTLET, "outlet")
#define CLOSURE_KINDS(W)                                                       \
    W(CLOSED_FARM, "farm") W(CLOSED_PERSON, "person")                          \
    W(CLOSED_BUYER, "buyer")
#define SKILLS(W)                                                              \
    W(SKILL_SOW, "sow") W(SKILL_SET, "set") W(SKILL_PRUNE, "prune")            \
    W(SKILL_PICK, "pick") W(SKILL_CLEAR, "clear") W(SKILL_CLEAN, "clean")      \
    W(SKILL_FEED, "feed") W(SKILL_NET, "net") W(SKILL_DOSE, "dose")            \
    W(SKILL_SPRAY, "spray") W(SKILL_TEST, "test") W(SKILL_VENT, "vent")        \
    W(SKILL_DELIVER, "deliver") W(SKILL_OFFICE, "office")
#define QUANTITIES(W)                                                          \
    W(READ_TEMP, "temp_degc") W(READ_OXYGEN, "oxygen_mg_l")                    \
    W(READ_PH, "ph") W(READ_TAN, "tan_mg_l") W(READ_NITRITE, "nitrite_mg_l")   \
    W(READ_NITRATE, "nitrate_mg_l") W(READ_ALKALINITY, "alkalinity_mg_l")      \
    W(READ_CHLORIDE, "chloride_mg_l") W(READ_IRON, "iron_mg_l")
#define MOVE_KINDS(W)                                                          \
    W(MOVE_STOCK, "stock") W(MOVE_GRADE, "grade") W(MOVE_SALE, "sale")

#define WORD_LISTS(L)                                                          \
    L(TANK_USES) L(WALLS) L(LINK_KINDS) L(EDGE_KINDS) L(SEXES)                 \
    L(FISH_SOURCE_KINDS) L(PLACES) L(FIRMNESSES) L(CLOSURE_KINDS) L(SKILLS)    \
    L(QUANTITIES) L(MOVE_KINDS)

/* ---- The farm, its weather, its water ------------------------------------ */

#define FARM_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "short word for the farm")                \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, NUMBER, latitude_deg, NEEDED, -66, 66, 0, 0, "north is positive")     \
    F(R, NUMBER, longitude_deg, NEEDED, -180, 180, 0, 0, "east is positive")   \
    F(R, NUMBER, altitude_m, MAY, -400, 4500, 0, 0, "above the sea")           \
    F(R, TEXT, timezone, NEEDED, 0, 0, 0, 0, "IANA zone, as Europe/Lisbon")    \
    F(R, TEXT, currency, NEEDED, 0, 0, 0, 0, "ISO 4217 letters")               \
    F(R, DATE, records_from, NEEDED, 0, 0, 0, 0,                               \
      "first day that the tables describe; a plan starts in its week")         \
    F(R, NUMBER, density_ceiling_kg_m3, MAY, 1, 150, 25, 0,                    \
      "most fish a tank may hold")                                             \
    F(R, NUMBER, clean_every_months, MAY, 0, 120, 12, 0,                       \
      "months between deep cleans of a bed; 0 never")                          \
    F(R, NUMBER, sow_confidence_frac, MAY, 0.5, 0.999, 0.9, 0,                 \
      "chance with which a sowing shall give the plants wanted")               \
    F(R, NUMBER, feed_leafy_g_m2_d, MAY, 0, 100, 0, 0,                         \
      "feed wanted by leafy beds at full growth; 0 takes the book's")          \
    F(R, NUMBER, feed_fruiting_g_m2_d, MAY, 0, 150, 0, 0,                      \
      "feed wanted by fruiting beds at full growth; 0 takes the book's")       \
    F(R, COUNT, purge_days, MAY, 0, 21, 3, 0, "days off feed before a sale")   \
    F(R, COUNT, turnaround_days, MAY, 0, 60, 4, 0,                             \
      "from the last pick until a section is cleared, raked and flooding")

#define CLIMATE_FIELDS(F, R)                                                   \
    F(R, COUNT, month, NEEDED, 1, 12, 0, 0, "1 is January; all twelve stand")  \
    F(R, NUMBER, tmax_degc, NEEDED, -50, 55, 0, 0, "mean daily maximum")       \
    F(R, NUMBER, tmin_degc, NEEDED, -60, 45, 0, 0, "mean daily minimum")       \
    F(R, NUMBER, sun_mj_m2_d, NEEDED, 0, 45, 0, 0, "mean daily sun on the flat")\
    F(R, NUMBER, rh_pct, MAY, 5, 100, 70, 0, "mean relative humidity")         \
    F(R, NUMBER, wind_m_s, MAY, 0, 30, 2, 0, "mean wind at 2 m")               \
    F(R, NUMBER, wet_days, MAY, 0, 31, 8, 0, "days with rain")                 \
    F(R, NUMBER, rain_mm, MAY, 0, 2000, 50, 0, "rain in the month")

#define FORECAST_FIELDS(F, R)                                                  \
    F(R, DATE, date, NEEDED, 0, 0, 0, 0, "the day; each once")                 \
    F(R, NUMBER, tmax_degc, NEEDED, -50, 55, 0, 0, "maximum told for it")      \
    F(R, NUMBER, tmin_degc, NEEDED, -60, 45, 0, 0,                             \
      "minimum before its sunrise")                                            \
    F(R, NUMBER, cloud_pct, MAY, 0, 100, -1, 0, "of the sky; blank: as usual") \
    F(R, NUMBER, rh_pct, MAY, 5, 100, -1, 0,                                   \
      "mean relative humidity; blank: as usual")                               \
    F(R, NUMBER, wind_m_s, MAY, 0, 40, -1, 0,                                  \
      "mean wind at 2 m; blank: as usual")

#define SOURCE_FIELDS(F, R)                                                    \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a source of water")                      \
    F(R, NUMBER, temp_degc, NEEDED, 0, 40, 0, 0, "as it arrives")              \
    F(R, NUMBER, ph, NEEDED, 4, 10, 0, 0, "as it arrives")                     \
    F(R, NUMBER, alkalinity_mg_l, NEEDED, 0, 1000, 0, 0, "as CaCO3")           \
    F(R, NUMBER, calcium_mg_l, MAY, 0, 600, 0, 0, "calcium")                   \
    F(R, NUMBER, magnesium_mg_l, MAY, 0, 400, 0, 0, "magnesium")               \
    F(R, NUMBER, sodium_mg_l, MAY, 0, 2000, 0, 0, "sodium")                    \
    F(R, NUMBER, chlorine_mg_l, MAY, 0, 10, 0, 0, "free chlorine")             \
    F(R, PRICE, price_m3, MAY, 0, 1000, 0, 0, "cost of a cubic metre")

#define LOOP_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "tanks, sump, pumps and beds on one water")\
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, NUMBER, sump_m3, NEEDED, 0, 1000, 0, 0, "volume of the sump")         \
    F(R, REF, source, MAY, 0, 0, 0, TABLE_sources, "where top-up comes from")

#define TANK_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a tank or tub")                          \
    F(R, REF, loop, MAY, 0, 0, 0, TABLE_loops, "blank: outside every loop")    \
    F(R, WORD, use, NEEDED, 0, 0, 0, WORDS_TANK_USES, "what it is for")        \
    F(R, NUMBER, volume_m3, NEEDED, 0.05, 1000, 0, 0, "water in it")           \
    F(R, COUNT, batches, MAY, 0, 4, 1, 0, "fish batches allowed at one time")  \
    F(R, FLAG, has_lid, MAY, 0, 0, 0, 0, "covered at night")                   \
    F(R, WORD, wall, MAY, 0, 0, 1, WORDS_WALLS, "how its wall is insulated")   \
    F(R, REF, tunnel, MAY, 0, 0, 0, TABLE_tunnels,                             \
      "the tunnel it stands in; blank: an insulated room")                     \
    F(R, COUNT, walk, MAY, 0, 100000, 0, 0, "place in the walk")

#define PUMP_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a pump")                                 \
    F(R, REF, loop, NEEDED, 0, 0, 0, TABLE_loops, "whose water it lifts")      \
    F(R, NUMBER, flow_m3_h, NEEDED, 0.01, 1000, 0, 0, "flow at its head")      \
    F(R, NUMBER, head_m, MAY, 0, 100, 2, 0, "lift with friction")              \
    F(R, NUMBER, power_w, MAY, 0, 100000, 0, 0, "drawn from the board")        \
    F(R, NUMBER, tanks_frac, MAY, 0, 1, 0, 0,                                  \
      "share of its flow to the tanks while a zone floods")

#define ZONE_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "beds that flood together")               \
    F(R, REF, loop, NEEDED, 0, 0, 0, TABLE_loops, "whose water floods it")     \
    F(R, REF, pump, NEEDED, 0, 0, 0, TABLE_pumps, "the pump that floods it")   \
    F(R, COUNT, turn, NEEDED, 1, 100, 0, 0, "its turn in the loop's order")    \
    F(R, NUMBER, minutes, NEEDED, 1, 240, 0, 0, "minutes of its turn")         \
    F(R, MONTHLY, hours_d, MAY, 0, 24, 24, 0, "hours a day with flooding")

#define LINK_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a way for water between vessels")        \
    F(R, WORD, kind, NEEDED, 0, 0, 0, WORDS_LINK_KINDS, "what it is")          \
    F(R, REF, from_tank, MAY, 0, 0, 0, TABLE_tanks, "blank: from a sump")      \
    F(R, REF, from_loop, MAY, 0, 0, 0, TABLE_loops, "whose sump it leaves")    \
    F(R, REF, to_tank, MAY, 0, 0, 0, TABLE_tanks, "blank: to a sump or waste") \
    F(R, REF, to_loop, MAY, 0, 0, 0, TABLE_loops, "whose sump it enters")      \
    F(R, MONTHS, months, MAY, 0, 0, MONTHS_ALL, 0, "months it is open")        \
    F(R, NUMBER, flow_m3_d, MAY, 0, 100000, 0, 0,                              \
      "moved in a day while it is open, from one water to another or to waste")

#define AERATOR_FIELDS(F, R)                                                   \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a blower or stone")                      \
    F(R, REF, tank, MAY, 0, 0, 0, TABLE_tanks, "blank: shared by its loop")    \
    F(R, REF, loop, MAY, 0, 0, 0, TABLE_loops, "whose tanks share it by volume")\
    F(R, NUMBER, power_w, NEEDED, 1, 100000, 0, 0, "drawn from the board")     \
    F(R, NUMBER, oxygen_kg_kwh, MAY, 0.1, 5, 0.9, 0,                           \
      "standard transfer, kg of oxygen a kWh")                                 \
    F(R, NUMBER, battery_h, MAY, 0, 200, 0, 0, "hours it runs without power")

#define HEATER_FIELDS(F, R)                                                    \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a heater")                               \
    F(R, REF, loop, MAY, 0, 0, 0, TABLE_loops, "the water it heats, or")       \
    F(R, REF, tank, MAY, 0, 0, 0, TABLE_tanks, "the tank it heats, or")        \
    F(R, REF, tunnel, MAY, 0, 0, 0, TABLE_tunnels, "the air it heats")         \
    F(R, NUMBER, power_kw, NEEDED, 0.01, 2000, 0, 0, "heat it gives")          \
    F(R, NUMBER, target_degc, NEEDED, 0, 40, 0, 0, "on below this")            \
    F(R, MONTHS, months, MAY, 0, 0, MONTHS_ALL, 0, "months it is in service")  \
    F(R, PRICE, price_kwh, MAY, 0, 100, 0, 0, "cost of a kWh of heat")

/* ---- Tunnels and beds ---------------------------------------------------- */

#define TUNNEL_FIELDS(F, R)                                                    \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a tunnel or house")                      \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, NUMBER, length_m, NEEDED, 1, 500, 0, 0, "along its axis")             \
    F(R, NUMBER, width_m, NEEDED, 1, 200, 0, 0, "across its axis")             \
    F(R, NUMBER, height_m, MAY, 1, 15, 3, 0, "at the ridge")                   \
    F(R, NUMBER, axis_deg, MAY, 0, 180, 90, 0, "0 north-south, 90 east-west")  \
    F(R, TEXT, cover, NEEDED, 0, 0, 0, 0, "a cover of the book")               \
    F(R, NUMBER, cover_years, MAY, 0, 40, 1, 0, "age of the cover")            \
    F(R, NUMBER, vent_m2, MAY, 0, 2000, 0, 0, "openings, all of them")         \
    F(R, NUMBER, side_m2, MAY, 0, 2000, 0, 0,                                  \
      "openings of the sides; where side, end or ridge is told, these count "  \
      "and vent_m2 does not")                                                  \
    F(R, NUMBER, end_m2, MAY, 0, 1000, 0, 0, "doors and ends")                 \
    F(R, NUMBER, ridge_m2, MAY, 0, 1000, 0, 0, "openings of the ridge")        \
    F(R, NUMBER, open_degc, MAY, 0, 45, 0, 0,                                  \
      "opened above this, inside; 0 takes the book's by the season")           \
    F(R, NUMBER, close_degc, MAY, 0, 45, 0, 0,                                 \
      "once open, shut below this; 0: below open_degc")                        \
    F(R, MONTHLY, midday_h, MAY, 0, 12, -1, 0,                                 \
      "hours open around midday however cool, to dry; blank: two in leat vent "\
      "(common practice), none in the year's air")                             \
    F(R, NUMBER, floor_degc, MAY, 0, 25, -1, 0,                                \
      "opening at midday does not cool the inside below this; blank: by the "  \
      "crops in leat vent, frost-free in the year's air")                      \
    F(R, NUMBER, shut_wind_m_s, MAY, 0, 60, -1, 0,                             \
      "kept shut in more wind than this (mean, at 2 m); blank: never")         \
    F(R, NUMBER, shut_outside_degc, MAY, -40, 20, -41, 0,                      \
      "kept shut while it is colder outside; blank: never")                    \
    F(R, NUMBER, fleece_degc, MAY, -20, 20, -21, 0,                            \
      "fleece lies on its beds while the air inside is under this; blank: none")\
    F(R, MONTHS, fleece_months, MAY, 0, 0, MONTHS_ALL, 0,                      \
      "months in which there is fleece")                                       \
    F(R, NUMBER, shade_frac, MAY, 0, 0.95, 0, 0, "light kept out by the cloth")\
    F(R, MONTHS, shade_months, MAY, 0, 0, 0, 0, "months the cloth is on")      \
    F(R, NUMBER, whitewash_frac, MAY, 0, 0.9, 0, 0, "light kept out by wash")  \
    F(R, MONTHS, whitewash_months, MAY, 0, 0, 0, 0, "months the wash is on")   \
    F(R, COUNT, walk, MAY, 0, 100000, 0, 0, "place in the walk")

#define BED_FIELDS(F, R)                                                       \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a bed")                                  \
    F(R, REF, tunnel, MAY, 0, 0, 0, TABLE_tunnels, "blank: in the open")       \
    F(R, TEXT, side, MAY, 0, 0, 0, 0, "row in the tunnel: south, middle, north")\
    F(R, COUNT, walk, NEEDED, 0, 100000, 0, 0, "place in the walk")            \
    F(R, NUMBER, length_m, NEEDED, 0.2, 100, 0, 0, "inside")                   \
    F(R, NUMBER, width_m, NEEDED, 0.2, 20, 0, 0, "inside")                     \
    F(R, NUMBER, depth_m, NEEDED, 0.05, 1.5, 0, 0, "of gravel")                \
    F(R, NUMBER, flood_m, NEEDED, 0.02, 1.5, 0, 0, "depth flooded each turn")  \
    F(R, TEXT, gravel, NEEDED, 0, 0, 0, 0, "a gravel of the book")             \
    F(R, NUMBER, porosity_frac, MAY, 0.1, 0.9, 0.4, 0, "space between stones") \
    F(R, REF, zone, MAY, 0, 0, 0, TABLE_zones, "what it floods with")          \
    F(R, COUNT, sections, MAY, 1, 40, 4, 0, "parts planted whole")             \
    F(R, NUMBER, light_frac, MAY, 0.1, 1.5, 1, 0,                              \
      "light of this row as a share of the tunnel's mean")                     \
    F(R, NUMBER, edge_m, MAY, 0, 200, 0, 0, "edge for climbers")               \
    F(R, WORD, edge, MAY, 0, 0, 0, WORDS_EDGE_KINDS,                           \
      "a sunny edge shades its own bed, a back edge nobody")                   \
    F(R, MONTHS, edge_months, MAY, 0, 0, MONTHS_ALL, 0,                        \
      "months in which the edge may be planted")                               \
    F(R, DATE, cleaned_on, MAY, 0, 0, DATE_ALWAYS, 0, "last deep clean")       \
    F(R, DATE, from, MAY, 0, 0, DATE_ALWAYS, 0, "in use from")                 \
    F(R, DATE, until, MAY, 0, 0, DATE_NEVER, 0, "in use until")

/* ---- What goes in -------------------------------------------------------- */

#define FEED_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a feed")                                 \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "as on the bag")                         \
    F(R, NUMBER, protein_frac, NEEDED, 0.05, 0.7, 0, 0, "crude protein")       \
    F(R, NUMBER, from_g, MAY, 0, 5000, 0, 0, "for fish from this weight")      \
    F(R, NUMBER, to_g, MAY, 0, 10000, 10000, 0, "to this weight")              \
    F(R, NUMBER, bag_kg, MAY, 0.1, 2000, 25, 0, "a bag")                       \
    F(R, PRICE, price_kg, NEEDED, 0, 1000, 0, 0, "cost of a kg")               \
    F(R, NUMBER, scoop_g, MAY, 0, 50000, 0, 0,                                 \
      "yours: a level scoop of it; 0 none is used")

#define BASE_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a base or supplement in stock")          \
    F(R, TEXT, kind, NEEDED, 0, 0, 0, 0, "a base or supplement of the book")   \
    F(R, NUMBER, strength_frac, MAY, 0.005, 1, 1, 0, "label strength")         \
    F(R, NUMBER, stock_kg, MAY, 0, 100000, 0, 0, "in the store")               \
    F(R, PRICE, price_kg, MAY, 0, 10000, 0, 0, "cost of a kg")

/* ---- Fish ---------------------------------------------------------------- */

#define FISH_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a fish batch standing today")            \
    F(R, TEXT, species, NEEDED, 0, 0, 0, 0, "a fish of the book")              \
    F(R, REF, tank, NEEDED, 0, 0, 0, TABLE_tanks, "where it swims")            \
    F(R, DATE, counted_on, NEEDED, 0, 0, 0, 0, "the day of the figures")       \
    F(R, COUNT, count, NEEDED, 1, 1000000, 0, 0, "fish")                       \
    F(R, NUMBER, mean_g, NEEDED, 0.01, 20000, 0, 0, "mean weight")             \
    F(R, NUMBER, cv_frac, NEEDED, 0, 1.5, 0, 0,                                \
      "spread: standard deviation over mean")                                  \
    F(R, WORD, sex, NEEDED, 0, 0, 0, WORDS_SEXES, "sexed is by hand")          \
    F(R, FLAG, is_kept, MAY, 0, 0, 0, 0, "breeders: never sold by the plan")

#define FISH_SOURCE_FIELDS(F, R)                                               \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "where young fish come from")             \
    F(R, TEXT, species, NEEDED, 0, 0, 0, 0, "a fish of the book")              \
    F(R, WORD, kind, NEEDED, 0, 0, 0, WORDS_FISH_SOURCE_KINDS, "bought or own")\
    F(R, NUMBER, mean_g, NEEDED, 0.01, 5000, 0, 0, "at stocking")              \
    F(R, NUMBER, cv_frac, NEEDED, 0, 1.5, 0, 0, "spread at stocking")          \
    F(R, WORD, sex, NEEDED, 0, 0, 0, WORDS_SEXES, "as delivered")              \
    F(R, PRICE, price, MAY, 0, 1000, 0, 0, "cost of a fish")                   \
    F(R, COUNT, least, NEEDED, 1, 1000000, 0, 0, "least order")                \
    F(R, COUNT, most, NEEDED, 1, 1000000, 0, 0, "most that can be had at a time")\
    F(R, COUNT, lead_weeks, MAY, 0, 52, 0, 0, "from order to arrival")         \
    F(R, MONTHS, months, MAY, 0, 0, MONTHS_ALL, 0, "months of delivery")       \
    F(R, REF, breeders, MAY, 0, 0, 0, TABLE_tanks, "own: the breeders' tank")  \
    F(R, COUNT, fry_cycle, MAY, 0, 1000000, 0, 0, "own: fry kept in a cycle")  \
    F(R, NUMBER, cycle_weeks, MAY, 1, 52, 4, 0, "own: weeks between spawnings")

/* ---- Plants -------------------------------------------------------------- */

#define CROP_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a crop this farm grows")                 \
    F(R, TEXT, book, NEEDED, 0, 0, 0, 0, "the crop of the book it follows")    \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, NUMBER, germination_frac, MAY, 0, 1, 0, 0, "yours; 0 takes the book's")\
    F(R, PRICE, seed, MAY, 0, 100, 0, 0, "cost of a seed")

#define WAY_FIELDS(F, R)                                                       \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "how a crop is grown for a product")      \
    F(R, REF, crop, NEEDED, 0, 0, 0, TABLE_crops, "the crop")                  \
    F(R, TEXT, book, NEEDED, 0, 0, 0, 0, "the way of the book it follows")     \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, TEXT, unit, NEEDED, 0, 0, 0, 0, "what is counted: head, bunch, kg")   \
    F(R, NUMBER, unit_g, NEEDED, 0.1, 50000, 0, 0, "a unit's weight")          \
    F(R, MONTHS, set_months, MAY, 0, 0, MONTHS_ALL, 0,                         \
      "months in which it may be set out or sown in place")                    \
    F(R, REF, tray, MAY, 0, 0, 0, TABLE_trays, "blank: sown in place")         \
    F(R, NUMBER, keep_days, MAY, 0, 400, 0, 0, "yours; 0 takes the book's")    \
    F(R, NUMBER, wait_days, MAY, 0, 120, 0, 0,                                 \
      "days a seedling can wait; 0 takes the book's")

#define FIGURE_FIELDS(F, R)                                                    \
    F(R, TEXT, about, NEEDED, 0, 0, 0, 0, "a row of the book, common, or a fish")\
    F(R, TEXT, figure, NEEDED, 0, 0, 0, 0,                                     \
      "the figure it replaces; of a fish appetite (1 by the book), efficiency,"\
      " upkeep_g, female_frac, oxygen_frac or deaths (1 by the book)")         \
    F(R, NUMBER, value, NEEDED, -1e9, 1e9, 0, 0, "yours")                      \
    F(R, NUMBER, low, NEEDED, -1e9, 1e9, 0, 0, "one time in ten lower")        \
    F(R, NUMBER, high, NEEDED, -1e9, 1e9, 0, 0, "one time in ten higher")      \
    F(R, TEXT, note, MAY, 0, 0, 0, 0, "where it comes from")

#define COUNTED_FIELDS(F, R)                                                   \
    F(R, REF, way, NEEDED, 0, 0, 0, TABLE_ways, "a way of growing; each once") \
    F(R, NUMBER, counted_pct, NEEDED, 0, 100, 0, 0,                            \
      "of what the typical year brings, what firm orders may count on")        \
    F(R, COUNT, years, NEEDED, 1, 1000000, 0, 0, "possible years behind it")   \
    F(R, DATE, from, NEEDED, 0, 0, 0, 0, "the first Monday of those years")

#define PLANT_FIELDS(F, R)                                                     \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a plant batch standing today")           \
    F(R, REF, way, NEEDED, 0, 0, 0, TABLE_ways, "how it is grown")             \
    F(R, REF, bed, MAY, 0, 0, 0, TABLE_beds,                                   \
      "where it stands; seedlings: where they will, blank the plan chooses")   \
    F(R, WORD, place, MAY, 0, 0, 0, WORDS_PLACES, "floor or edge")             \
    F(R, COUNT, sections, MAY, 0, 40, 0, 0, "floor: sections it fills")        \
    F(R, COUNT, plants, MAY, 0, 100000, 0, 0,                                  \
      "edge: plants; floor: 0 full; seedlings without a bed: how many stand")  \
    F(R, NUMBER, trays, MAY, 0, 100000, 0, 0,                                  \
      "seedlings: trays they stand in; 0 is reckoned from their number")       \
    F(R, DATE, sown_on, MAY, 0, 0, DATE_ALWAYS, 0, "seedlings: sown")          \
    F(R, DATE, set_on, MAY, 0, 0, DATE_NEVER, 0,                               \
      "set out, or sown in place; after counted_on: seedlings still in trays, "\
      "blank: the plan chooses")                                               \
    F(R, DATE, counted_on, NEEDED, 0, 0, 0, 0, "the day of the figures")

#define TRAY_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a tray kind")                            \
    F(R, COUNT, cells, NEEDED, 1, 2000, 0, 0, "cells in it")                   \
    F(R, NUMBER, room_frac, MAY, 0.01, 10, 1, 0,                               \
      "bench it takes, in trays of the nursery's count")                       \
    F(R, PRICE, price, MAY, 0, 1000, 0, 0, "cost of filling it")

#define NURSERY_FIELDS(F, R)                                                   \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a bench")                                \
    F(R, MONTHLY, trays, NEEDED, 0, 100000, 0, 0, "trays it holds")            \
    F(R, NUMBER, floor_degc, MAY, 0, 35, 15, 0, "kept at least as warm")       \
    F(R, REF, tunnel, MAY, 0, 0, 0, TABLE_tunnels, "where it stands")

/* ---- Selling ------------------------------------------------------------- */

#define PRODUCT_FIELDS(F, R)                                                   \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "what is sold")                           \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, TEXT, unit, NEEDED, 0, 0, 0, 0, "what is counted")

#define PART_FIELDS(F, R)                                                      \
    F(R, REF, product, NEEDED, 0, 0, 0, TABLE_products, "the product")         \
    F(R, REF, way, MAY, 0, 0, 0, TABLE_ways, "blank: fish")                    \
    F(R, NUMBER, fish_over_g, MAY, 0, 20000, 0, 0, "fish of this weight or more")\
    F(R, NUMBER, units, NEEDED, 0.0001, 100000, 0, 0,                          \
      "units of the way (or fish) in one unit of the product")                 \
    F(R, NUMBER, low_frac, MAY, 0, 1, 1, 0, "least share of that, in a mix")   \
    F(R, NUMBER, high_frac, MAY, 1, 10, 1, 0, "most share of that, in a mix")

#define BUYER_FIELDS(F, R)                                                     \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a buyer")                                \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, NUMBER, take_frac, MAY, 0, 2, 1, 0, "usual take of what it promises") \
    F(R, WEEKDAYS, days, MAY, 0, 0, WEEKDAYS_ALL, 0, "days of delivery")       \
    F(R, NUMBER, drop_min, MAY, 0, 600, 0, 0, "minutes for a delivery")

#define ORDER_FIELDS(F, R)                                                     \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "an order, standing or dated")            \
    F(R, REF, buyer, NEEDED, 0, 0, 0, TABLE_buyers, "who")                     \
    F(R, REF, product, NEEDED, 0, 0, 0, TABLE_products, "what")                \
    F(R, NUMBER, quantity, NEEDED, 0, 1000000, 0, 0, "units a week")           \
    F(R, WORD, firmness, NEEDED, 0, 0, 0, WORDS_FIRMNESSES,                    \
      "firm, promised, or an outlet that takes up to this much")               \
    F(R, NUMBER, least, MAY, 0, 1000000, 0, 0, "least useful quantity")        \
    F(R, WEEKDAYS, days, MAY, 0, 0, 0, 0, "days; blank: the buyer's")          \
    F(R, MONTHS, months, MAY, 0, 0, MONTHS_ALL, 0, "months in which it runs")  \
    F(R, DATE, from, MAY, 0, 0, DATE_ALWAYS, 0, "first day")                   \
    F(R, DATE, until, MAY, 0, 0, DATE_NEVER, 0,                                \
      "last day; the same as from for a dated order")                          \
    F(R, NUMBER, miss_frac, MAY, 0, 20, -1, 0,                                 \
      "price of missing a unit, in its own price; blank: firm 1, else 0.25")

#define PRICE_FIELDS(F, R)                                                     \
    F(R, REF, product, NEEDED, 0, 0, 0, TABLE_products, "what")                \
    F(R, REF, buyer, MAY, 0, 0, 0, TABLE_buyers, "blank: everybody else")      \
    F(R, PRICE, price, NEEDED, 0, 1000000, 0, 0, "of a unit")                  \
    F(R, NUMBER, tax_frac, MAY, 0, 1, 0, 0, "value added tax")                 \
    F(R, FLAG, has_tax, MAY, 0, 0, 0, 0, "the price includes the tax")         \
    F(R, DATE, from, MAY, 0, 0, DATE_ALWAYS, 0, "first day")                   \
    F(R, DATE, until, MAY, 0, 0, DATE_NEVER, 0, "last day")

#define CLOSURE_FIELDS(F, R)                                                   \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "days off")                               \
    F(R, WORD, kind, NEEDED, 0, 0, 0, WORDS_CLOSURE_KINDS, "whose")            \
    F(R, REF, buyer, MAY, 0, 0, 0, TABLE_buyers, "the buyer that closes")      \
    F(R, REF, hand, MAY, 0, 0, 0, TABLE_hands, "the person who is away")       \
    F(R, DATE, from, NEEDED, 0, 0, 0, 0, "first day")                          \
    F(R, DATE, until, NEEDED, 0, 0, 0, 0, "last day")

/* ---- People and things ---------------------------------------------------- */

#define HAND_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a person")                               \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call them")                 \
    F(R, MONTHLY, hours_w, NEEDED, 0, 168, 0, 0, "hours a week")               \
    F(R, NUMBER, extra_h_w, MAY, 0, 80, 0, 0, "more at need, hours a week")    \
    F(R, WEEKDAYS, days, MAY, 0, 0, WEEKDAYS_ALL, 0, "working days")           \
    F(R, WORDS, may, NEEDED, 0, 0, 0, WORDS_SKILLS, "what they may do")        \
    F(R, PRICE, wage_h, NEEDED, 0, 10000, 0, 0, "cost of an hour")

#define TASK_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "work that comes every week")             \
    F(R, TEXT, name, MAY, 0, 0, 0, 0, "what people call it")                   \
    F(R, WORD, skill, NEEDED, 0, 0, 0, WORDS_SKILLS, "who may do it")          \
    F(R, NUMBER, minutes, NEEDED, 0, 6000, 0, 0, "each time")                  \
    F(R, NUMBER, times_w, NEEDED, 0, 200, 0, 0, "times a week")                \
    F(R, MONTHS, months, MAY, 0, 0, MONTHS_ALL, 0, "months in which it comes")

#define STORE_FIELDS(F, R)                                                     \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a cold store")                           \
    F(R, NUMBER, temp_degc, NEEDED, -30, 20, 0, 0, "kept at")                  \
    F(R, NUMBER, room_kg, NEEDED, 0, 1000000, 0, 0, "produce it holds")

#define READING_FIELDS(F, R)                                                   \
    F(R, REF, tank, MAY, 0, 0, 0, TABLE_tanks, "where; blank: the loop's sump")\
    F(R, REF, loop, MAY, 0, 0, 0, TABLE_loops, "where")                        \
    F(R, INSTANT, at, NEEDED, 0, 0, 0, 0, "when, with the offset")             \
    F(R, WORD, quantity, NEEDED, 0, 0, 0, WORDS_QUANTITIES, "what was read")   \
    F(R, NUMBER, value, NEEDED, -10, 10000, 0, 0, "the reading")

#define CONTACT_FIELDS(F, R)                                                   \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "whom to ring")                           \
    F(R, COUNT, turn, NEEDED, 1, 100, 0, 0, "first, second, ...")              \
    F(R, TEXT, name, NEEDED, 0, 0, 0, 0, "who")                                \
    F(R, TEXT, role, MAY, 0, 0, 0, 0, "for what")                              \
    F(R, TEXT, phone, NEEDED, 0, 0, 0, 0, "number")

/* ---- Every table once: name, struct, list, needed, single, meaning -------- */

#define TABLES(T)                                                              \
    T(farm, FarmSite, FARM_FIELDS, 1, 1, "the farm itself")                    \
    T(climate, ClimateMonth, CLIMATE_FIELDS, 1, 0, "monthly climate normals")  \
    T(forecast, ForecastRow, FORECAST_FIELDS, 0, 0,                            \
      "weather told for the coming days, at most 31")                          \
    T(sources, WaterSource, SOURCE_FIELDS, 0, 0, "source waters")              \
    T(loops, Loop, LOOP_FIELDS, 0, 0, "loops of water")                        \
    T(tunnels, Tunnel, TUNNEL_FIELDS, 0, 0, "tunnels and houses")              \
    T(tanks, Tank, TANK_FIELDS, 0, 0, "fish tanks and tubs")                   \
    T(pumps, Pump, PUMP_FIELDS, 0, 0, "pumps")                                 \
    T(zones, Zone, ZONE_FIELDS, 0, 0, "zones of beds")                         \
    T(links, Link, LINK_FIELDS, 0, 0, "valves, transfers, drains, overflows")  \
    T(aerators, Aerator, AERATOR_FIELDS, 0, 0, "blowers and stones")           \
    T(heaters, Heater, HEATER_FIELDS, 0, 0, "heaters")                         \
    T(beds, Bed, BED_FIELDS, 1, 0, "beds")                                     \
    T(feeds, Feed, FEED_FIELDS, 0, 0, "fish feeds")                            \
    T(bases, Base, BASE_FIELDS, 0, 0, "bases and supplements")                 \
    T(fish, Fish, FISH_FIELDS, 0, 0, "fish standing today")                    \
    T(fish_sources, FishSource, FISH_SOURCE_FIELDS, 0, 0, "young fish")        \
    T(trays, Tray, TRAY_FIELDS, 0, 0, "tray kinds")                            \
    T(nursery, Nursery, NURSERY_FIELDS, 0, 0, "nursery benches")               \
    T(crops, Crop, CROP_FIELDS, 0, 0, "crops this farm grows")                 \
    T(ways, Way, WAY_FIELDS, 0, 0, "ways of growing them")                     \
    T(figures, OwnFigure, FIGURE_FIELDS, 0, 0, "your own figures")             \
    T(counted, Counted, COUNTED_FIELDS, 0, 0,                                  \
      "what possible years let firm orders count on")                          \
    T(plants, Plant, PLANT_FIELDS, 0, 0, "plant batches standing today")       \
    T(products, Product, PRODUCT_FIELDS, 0, 0, "what is sold")                 \
    T(parts, Part, PART_FIELDS, 0, 0, "what a product is made of")             \
    T(buyers, Buyer, BUYER_FIELDS, 0, 0, "buyers")                             \
    T(orders, Order, ORDER_FIELDS, 0, 0, "orders and outlets")                 \
    T(prices, Price, PRICE_FIELDS, 0, 0, "price lists")                        \
    T(hands, Hand, HAND_FIELDS, 0, 0, "people who work here")                  \
    T(closures, Closure, CLOSURE_FIELDS, 0, 0, "closed weeks and days off")    \
    T(tasks, Task, TASK_FIELDS, 0, 0, "work of every week")                    \
    T(stores, Store, STORE_FIELDS, 0, 0, "cold stores")                        \
    T(readings, Reading, READING_FIELDS, 0, 0, "latest readings")              \
    T(contacts, Contact, CONTACT_FIELDS, 0, 0, "whom to ring, in order")       \
    T(plan, Plan, PLAN_FIELDS, 0, 0, "the accepted plan")                      \
    T(plan_plants, PlanPlant, PLAN_PLANT_FIELDS, 0, 0, "its plant batches")    \
    T(plan_fish, PlanFish, PLAN_FISH_FIELDS, 0, 0, "its lanes of fish")        \
    T(plan_moves, PlanMove, PLAN_MOVE_FIELDS, 0, 0, "its fish moves")          \
    T(plan_cleans, PlanClean, PLAN_CLEAN_FIELDS, 0, 0, "its deep cleans")      \
    T(plan_orders, PlanPromise, PLAN_ORDER_FIELDS, 0, 0, "its promises by week")

/* clang-format on */

/* ---- What the lists make --------------------------------------------------
 */

typedef enum TableId {
#define TABLE_ENUM(name, ...) TABLE_##name,
    TABLES(TABLE_ENUM)
#undef TABLE_ENUM
        TABLE_COUNT
} TableId;

typedef enum WordListId {
#define WORDS_ENUM(list) WORDS_##list,
    WORD_LISTS(WORDS_ENUM)
#undef WORDS_ENUM
        WORD_LIST_COUNT
} WordListId;

/* One enum a word list: TankUse values TANK_GROW .. and so on. */
#define WORD_ENUM(name, word) name,
enum { TANK_USES(WORD_ENUM) };
enum { WALLS(WORD_ENUM) };
enum { LINK_KINDS(WORD_ENUM) };
enum { EDGE_KINDS(WORD_ENUM) };
enum { SEXES(WORD_ENUM) };
enum { FISH_SOURCE_KINDS(WORD_ENUM) };
enum { PLACES(WORD_ENUM) };
enum { FIRMNESSES(WORD_ENUM) };
enum { CLOSURE_KINDS(WORD_ENUM) };
enum { SKILLS(WORD_ENUM) };
enum { QUANTITIES(WORD_ENUM) };
enum { MOVE_KINDS(WORD_ENUM) };
#undef WORD_ENUM

#define TABLE_STRUCT(name, type, list, ...)                                    \
    typedef struct type {                                                      \
        int32_t line; /* of its table, 1 is the header; 0 when made here */    \
        list(FIELD_STRUCT_ROW, type)                                           \
    } type;
TABLES(TABLE_STRUCT)
#undef TABLE_STRUCT

/* A whole farm: the rows of every table. */
typedef struct Farm {
#define TABLE_ROWS(name, type, ...)                                            \
    type *name; /* Borrowed from the arena it was read into. */                \
    int32_t name##_count;
    TABLES(TABLE_ROWS)
#undef TABLE_ROWS
} Farm;

/* Days that a forecast may hold. */
enum { FORECAST_DAYS_MOST = 31 };

/* What a tunnel's openings come to, m2. */
double tunnel_openings_m2(const Tunnel *row);

/* The tables and word lists as data, indexed by TableId and WordListId. */
extern const Table FARM_TABLES[TABLE_COUNT];
extern const WordList FARM_WORDS[WORD_LIST_COUNT];

/* The accepted plan's tables, the plan's own first; written only together. */
enum { PLAN_TABLE_COUNT = 6 };
extern const TableId FARM_PLAN_TABLES[PLAN_TABLE_COUNT];
bool farm_is_plan_table(TableId table);

#endif
