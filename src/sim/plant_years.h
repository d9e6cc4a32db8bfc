/* The years of a farm's ways in its beds, each made when it is first wanted:
 * beds of a kind share one. */
#ifndef LEAT_SIM_PLANT_YEARS_H
#define LEAT_SIM_PLANT_YEARS_H

#include "farm/book.h"
#include "farm/records.h"
#include "sim/bed_kinds.h"
#include "sim/plant_year.h"

/* Everything is borrowed. */
typedef struct PlantYears {
    const Farm *farm;
    const Book *book; /* with the farm's own figures in it */
    const BedYear *beds;
    const BedKinds *kinds;
    Arena *arena;
    PlantYear **made; /* by way, kind, open or shaded; NULL until wanted */
} PlantYears;

/* beds: by row of beds. What is made lives in the arena. */
PlantYears plant_years(const Farm *farm, const Book *book, const BedYear *beds,
                       const BedKinds *kinds, Arena *arena);

/* The year of a way (row of ways) in a bed (row of beds), in the shade of what
 * climbs at its edge or not. ERR_NOT_FOUND: the book lacks the way. */
NODISCARD Err plant_years_of(PlantYears *years, int32_t way, int32_t bed,
                             bool is_shaded, const PlantYear **out);

#endif
