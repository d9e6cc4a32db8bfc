/* The farm at a glance, and what of it can stop, as JSON. */
#ifndef LEAT_JSON_FARM_PAGE_H
#define LEAT_JSON_FARM_PAGE_H

#include "base/arena.h"
#include "farm/records.h"

typedef enum FarmStopKind { STOP_TUNNEL, STOP_TANK } FarmStopKind;

/* A row of tunnels.csv or tanks.csv as the walk meets it. */
typedef struct FarmStop {
    FarmStopKind kind;
    int32_t row;
    int32_t walk;
} FarmStop;

typedef struct FarmPage {
    const Farm *farm; /* Borrowed from the arena, as all of this. A cell at
                         fault holds what farm/read.h says. */
    int32_t today;    /* civil day at the farm */
    int64_t fault_count;
    FarmStop *walk; /* in order; a tunnel without a number where its first bed
                       is */
    int32_t walk_count;
    int32_t *beds; /* rows of beds in use today, as the walk meets them */
    int32_t bed_count;
} FarmPage;

/* {"id","name","today","timezone","currency","latitude_deg","longitude_deg",
 * "records_from","fault_count","plan":{"from","weeks","accepted_on"} or null,
 * "walk":[{"kind":"tunnel|tank","id"}],
 * "loops":[{"id","name","sump_m3"}],
 * "tunnels":[{"id","name","length_m","width_m"}],
 * "beds":[{"id","tunnel","side","zone","loop","length_m","width_m","sections",
 * "edge","edge_m","cleaned_on"}] in walking order,
 * "tanks":[{"id","loop","tunnel","use","volume_m3"}],
 * "people":[{"id","name"}], "feeds", "products", "buyers", "ways", "species",
 * "trays": [{"id","name"}], "languages":["en",..]}
 *
 * A cell that is blank or at fault is null. */
const char *json_farm_page(const FarmPage *page, Arena *arena);

/* {"name","stops":[{"what":"pump|heater|aerator|power","id","loop","tank",
 * "tunnel","ask":"pump=pump-1"}], "contacts":[{"name","role","phone"}]}; ask is
 * what stands after the ? of /api/card. */
const char *json_farm_stops(const FarmPage *page, Arena *arena);

#endif
