/* The years of a farm's ways in its beds. */
#include "sim/plant_years.h"

PlantYears plant_years(const Farm *farm, const Book *book, const BedYear *beds,
                       const BedKinds *kinds, Arena *arena)
{
    return (PlantYears){.farm = farm,
                        .book = book,
                        .beds = beds,
                        .kinds = kinds,
                        .arena = arena,
                        .made =
                            ARENA_ARRAY(arena, PlantYear *,
                                        farm->ways_count * kinds->count * 2)};
}

Err plant_years_of(PlantYears *years, int32_t way, int32_t bed, bool is_shaded,
                   const PlantYear **out)
{
    int kind = years->kinds->of_bed[bed];
    PlantYear **slot =
        &years->made[(way * years->kinds->count + kind) * 2 + is_shaded];
    if (!*slot) {
        PlantRule rule;
        TRY(plant_rule_of_farm(years->book, years->farm, way, &rule));
        BedYear light = years->beds[bed];
        if (is_shaded) {
            light =
                plant_shade_year(years->arena, &light,
                                 years->book->common->edge_shade_frac.value);
        }
        PlantYear *made = ARENA_NEW(years->arena, PlantYear);
        plant_year_init(years->arena, &rule, &light, made);
        *slot = made;
    }
    *out = *slot;
    return ERR_NONE;
}
