/* What every look ahead stands on. */
#include "desk/typical.h"

#include "sim/plant_rule.h"

Err typical_make(const Farm *farm, Arena *arena, Typical *out)
{
    Book *printed = ARENA_NEW(arena, Book);
    Book *own = ARENA_NEW(arena, Book);
    TRY(book_load(arena, printed));
    TRY(plant_book_of_farm(arena, printed, farm, own));
    ClimateYear *climate = ARENA_NEW(arena, ClimateYear);
    TRY(climate_year_run(farm, own, arena, climate));
    *out = (Typical){own, climate};
    return ERR_NONE;
}
