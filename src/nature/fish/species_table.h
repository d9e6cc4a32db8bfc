/* The table that the build makes from data/fish.csv. Only species.c uses it. */
#ifndef LEAT_NATURE_FISH_SPECIES_TABLE_H
#define LEAT_NATURE_FISH_SPECIES_TABLE_H

#include "nature/fish/species.h"

extern const FishSpecies FISH_SPECIES[];
extern const int FISH_SPECIES_COUNT;

#endif
