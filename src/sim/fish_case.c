/* From a farm's rows to a fish batch. */
#include "sim/fish_case.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "farm/fish_figures.h"
#include "nature/fish/law.h"

_Static_assert((int)SEX_MIXED == (int)FISH_SEX_MIXED &&
                   (int)SEX_SEXED == (int)FISH_SEX_SEXED &&
                   (int)SEX_MALES == (int)FISH_SEX_MALES &&
                   (int)SEX_FEMALES == (int)FISH_SEX_FEMALES,
               "the farm's words for sex are those of the slices");

static const double USUAL_PROTEIN = 0.32;

/* Breeders are fed to condition, not to grow; judged. */
static const double KEPT_RATION_FRAC = 0.35;

const FishFeed *fish_case_feeds(Arena *arena, const Farm *farm, int *out_count)
{
    FishFeed *feeds = ARENA_ARRAY(arena, FishFeed, farm->feeds_count);
    for (int i = 0; i < farm->feeds_count; i++) {
        feeds[i] = (FishFeed){
            .from_g = farm->feeds[i].from_g,
            .to_g = farm->feeds[i].to_g,
            .protein_frac = farm->feeds[i].protein_frac,
        };
    }
    *out_count = farm->feeds_count;
    return feeds;
}

Figure fish_case_appetite(const Farm *farm, const char *species)
{
    const OwnFigure *own = fish_figures_own(farm, species, FISH_APPETITE);
    return own ? (Figure){own->value, own->low, own->high, FIGURE_YOURS, ""}
               : figure_exact(1.0, FIGURE_GUESS, "");
}

/* The farm's own value, or the book's. */
static double own_or(const Farm *farm, const char *species, FishFigure figure,
                     double book)
{
    const OwnFigure *own = fish_figures_own(farm, species, figure);
    return own ? own->value : book;
}

Err fish_case_species(Arena *arena, const Farm *farm, const char *species,
                      const FishSpecies **out)
{
    const FishSpecies *book = NULL;
    TRY(fish_species_find(species, &book));
    FishSpecies *made = ARENA_NEW(arena, FishSpecies);
    *made = *book;
    const OwnFigure *own = fish_figures_own(farm, species, FISH_EFFICIENCY);
    if (own) {
        made->efficiency = own->value;
        made->efficiency_end[0] = own->low;
        made->efficiency_end[1] = own->high;
    }
    made->upkeep_g = own_or(farm, species, FISH_UPKEEP, book->upkeep_g);
    made->female_frac = own_or(farm, species, FISH_FEMALE, book->female_frac);
    made->oxygen_frac = own_or(farm, species, FISH_OXYGEN, book->oxygen_frac);
    *out = made;
    return ERR_NONE;
}

static bool is_heated_on(const Heater *heater, int tank, int day_of_year)
{
    /* Months of a leap year, whose days number 366. */
    static const CivilDate LEAP = {2028, 1, 1};
    int month = date_month(date_from_civil(LEAP) + day_of_year);
    return heater->tank == tank && (heater->months >> (month - 1) & 1u) != 0;
}

static const double *heated(Arena *arena, const Farm *farm, int tank,
                            const double *water_degc)
{
    double *days = NULL;
    for (int i = 0; i < farm->heaters_count; i++) {
        const Heater *heater = &farm->heaters[i];
        for (int d = 0; d < FISH_YEAR_DAYS && heater->tank == tank; d++) {
            if (!days) {
                days = ARENA_ARRAY(arena, double, FISH_YEAR_DAYS);
                memcpy(days, water_degc, FISH_YEAR_DAYS * sizeof *days);
            }
            if (is_heated_on(heater, tank, d)) {
                days[d] = fmax(days[d], heater->target_degc);
            }
        }
    }
    return days ? days : water_degc;
}

const double *const *fish_case_water(Arena *arena, const Farm *farm,
                                     const double *const *loop_degc,
                                     const double *outside_degc)
{
    const double **tanks =
        ARENA_ARRAY(arena, const double *, farm->tanks_count);
    for (int k = 0; k < farm->tanks_count; k++) {
        const Tank *tank = &farm->tanks[k];
        const double *water = outside_degc;
        if (tank->loop >= 0) {
            water = loop_degc[tank->loop];
        } else if (tank->tunnel < 0 && farm->loops_count > 0) {
            water = loop_degc[0];
        }
        tanks[k] = heated(arena, farm, k, water);
    }
    return (const double *const *)tanks;
}

static Err make(Arena *arena, const Farm *farm, const char *species,
                const FishSpan *span, FishYearCase *out)
{
    const FishSpecies *found = NULL;
    TRY(fish_case_species(arena, farm, species, &found));
    int feed_count = 0;
    const FishFeed *feeds = fish_case_feeds(arena, farm, &feed_count);
    *out = (FishYearCase){
        .species = found,
        .from_day = span->first_week,
        .first_week = span->first_week,
        .weeks = span->weeks,
        .water_degc = span->water_degc,
        .appetite = fish_case_appetite(farm, species).value,
        .ration_frac = 1.0,
        .death_scale = own_or(farm, species, FISH_DEATHS, 1.0),
        .feeds = feeds,
        .feed_count = feed_count,
        .protein_frac = USUAL_PROTEIN,
    };
    return ERR_NONE;
}

bool fish_case_is_kept(const Farm *farm, int row)
{
    const Fish *fish = &farm->fish[row];
    return fish->is_kept || farm->tanks[fish->tank].use == TANK_BREEDERS;
}

double fish_case_ration_frac(const Farm *farm, int row)
{
    return fish_case_is_kept(farm, row) ? KEPT_RATION_FRAC : 1.0;
}

Err fish_case_standing(Arena *arena, const Farm *farm, int row,
                       const FishSpan *span, FishYearCase *out)
{
    assert(row >= 0 && row < farm->fish_count);
    const Fish *fish = &farm->fish[row];
    FishYearCase made;
    TRY(make(arena, farm, fish->species, span, &made));
    made.draw = (FishDraw){
        .count = fish->count,
        .mean_g = fish->mean_g,
        .cv_frac = fish->cv_frac,
        .sex = (FishSex)fish->sex,
    };
    made.from_day = fish->counted_on;
    made.ration_frac = fish_case_ration_frac(farm, row);
    *out = made;
    return ERR_NONE;
}

Err fish_case_source(Arena *arena, const Farm *farm, int row, int count,
                     const FishSpan *span, FishYearCase *out)
{
    assert(row >= 0 && row < farm->fish_sources_count);
    const FishSource *source = &farm->fish_sources[row];
    FishYearCase made;
    TRY(make(arena, farm, source->species, span, &made));
    made.draw = (FishDraw){
        .count = count,
        .mean_g = source->mean_g,
        .cv_frac = source->cv_frac,
        .sex = (FishSex)source->sex,
    };
    *out = made;
    return ERR_NONE;
}

FishYearCase fish_case_at(const Farm *farm, const FishYearCase *fish, int end,
                          FishSpecies *species_room)
{
    FishYearCase at = *fish;
    const char *species = fish->species->name;
    if (end == 0) {
        return at;
    }
    *species_room = fish_species_end(fish->species, end);
    const OwnFigure *own = fish_figures_own(farm, species, FISH_APPETITE);
    if (own) {
        at.appetite = end < 0 ? own->low : own->high;
        species_room->warmth[1] = fish->species->warmth[1];
    }
    own = fish_figures_own(farm, species, FISH_UPKEEP);
    if (own) {
        species_room->upkeep_g = end < 0 ? own->high : own->low;
    }
    at.species = species_room;
    return at;
}
