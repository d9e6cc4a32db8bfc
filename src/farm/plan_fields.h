/* Fields of the accepted plan's tables; see records.h, which includes this. */
#ifndef LEAT_FARM_PLAN_FIELDS_H
#define LEAT_FARM_PLAN_FIELDS_H

/* The lists are laid out by hand. */
/* clang-format off */
#define PLAN_FIELDS(F, R)                                                      \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "the accepted plan")                      \
    F(R, DATE, from, NEEDED, 0, 0, 0, 0, "its first Monday")                   \
    F(R, COUNT, weeks, NEEDED, 1, 520, 0, 0, "its horizon")                    \
    F(R, DATE, accepted_on, NEEDED, 0, 0, 0, 0, "the day it was accepted")     \
    F(R, COUNT, seed, NEEDED, 0, INT32_MAX, 0, 0, "seed of its search")        \
    F(R, PRICE, value, NEEDED, -1e11, 1e11, 0, 0, "what it is to bring")       \
F(R, TEXT, book, NEEDED, 0, 0, 0, 0, "hash of the book and your figures")    \
    F(R, TEXT, tables, MAY, 0, 0, 0, 0, "marks of the tables it was made from")

#define PLAN_PLANT_FIELDS(F, R)                                                \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a planned batch")                        \
    F(R, REF, way, NEEDED, 0, 0, 0, TABLE_ways, "how it is grown")             \
    F(R, REF, bed, NEEDED, 0, 0, 0, TABLE_beds, "where")                       \
    F(R, WORD, place, NEEDED, 0, 0, 0, WORDS_PLACES, "floor or edge")          \
    F(R, COUNT, sections, MAY, 0, 40, 0, 0, "floor: sections it fills")        \
    F(R, COUNT, first_section, MAY, 0, 40, 0, 0, "floor: the first, from 0")   \
    F(R, COUNT, plants, NEEDED, 1, 100000, 0, 0, "plants set")                 \
    F(R, FLAG, is_shaded, MAY, 0, 0, 0, 0, "grown for the shade of an edge")   \
    F(R, DATE, sow_on, NEEDED, 0, 0, 0, 0, "sown")                             \
    F(R, DATE, set_on, NEEDED, 0, 0, 0, 0, "set out; sown in place: the same") \
    F(R, DATE, pick_from, NEEDED, 0, 0, 0, 0, "first pick")                    \
    F(R, DATE, pick_until, NEEDED, 0, 0, 0, 0, "last pick")                    \
    F(R, DATE, clear_on, NEEDED, 0, 0, 0, 0, "cleared; free from here")        \
    F(R, REF, standing, MAY, 0, 0, 1, TABLE_plants,                            \
      "the batch it already is, or the seedlings it is set from")

#define PLAN_FISH_FIELDS(F, R)                                                 \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a lane of a fish batch in the plan")     \
    F(R, TEXT, batch, NEEDED, 0, 0, 0, 0, "the fish batch it is part of")      \
    F(R, REF, standing, MAY, 0, 0, 1, TABLE_fish, "the batch it already is, or")\
    F(R, REF, source, MAY, 0, 0, 0, TABLE_fish_sources, "where it comes from") \
    F(R, COUNT, lane, NEEDED, 1, 16, 0, 0, "1 holds the lightest fish")        \
    F(R, COUNT, count, NEEDED, 0, 1000000, 0, 0, "fish at the start")          \
    F(R, NUMBER, mean_g, NEEDED, 0, 20000, 0, 0, "mean weight at the start")

#define PLAN_MOVE_FIELDS(F, R)                                                 \
    F(R, ID, id, NEEDED, 0, 0, 0, 0, "a stocking, a grading or a sale")        \
    F(R, REF, fish, NEEDED, 0, 0, 0, TABLE_plan_fish, "the lane")              \
    F(R, WORD, kind, NEEDED, 0, 0, 0, WORDS_MOVE_KINDS, "what is done")        \
    F(R, DATE, on, NEEDED, 0, 0, 0, 0, "the Monday of its week")               \
    F(R, COUNT, run, NEEDED, 0, 1000000, 0, 0,                                 \
      "rows of one number are the same fish")                                  \
    F(R, COUNT, started, NEEDED, 0, 1000000, 0, 0,                             \
      "of the lane's fish at its start")                                       \
    F(R, COUNT, count, NEEDED, 0, 1000000, 0, 0, "fish")                       \
    F(R, NUMBER, mean_g, NEEDED, 0, 20000, 0, 0, "mean weight then")           \
    F(R, REF, from_tank, MAY, 0, 0, 0, TABLE_tanks, "blank: from outside")     \
    F(R, REF, to_tank, MAY, 0, 0, 0, TABLE_tanks, "blank: sold")               \
    F(R, REF, product, MAY, 0, 0, 0, TABLE_products, "sold as")

#define PLAN_CLEAN_FIELDS(F, R)                                                \
    F(R, REF, bed, NEEDED, 0, 0, 0, TABLE_beds, "the bed")                     \
    F(R, DATE, on, NEEDED, 0, 0, 0, 0, "the Monday of its deep clean")

#define PLAN_ORDER_FIELDS(F, R)                                                \
    F(R, REF, order, NEEDED, 0, 0, 0, TABLE_orders, "the order")               \
    F(R, DATE, week, NEEDED, 0, 0, 0, 0, "the Monday of its week")             \
    F(R, NUMBER, wanted, NEEDED, 0, 1e7, 0, 0, "units ordered")                \
    F(R, NUMBER, kept, NEEDED, 0, 1e7, 0, 0, "units the plan delivers")
/* clang-format on */

#endif
