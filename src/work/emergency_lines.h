/* The sentences of the card that hold on every farm: one table. */
#ifndef LEAT_WORK_EMERGENCY_LINES_H
#define LEAT_WORK_EMERGENCY_LINES_H

#include "work/emergency_card.h"

/* In which emergencies a sentence stands; bit HangsOn. */
enum {
    ON_PUMP = 1 << HANGS_PUMP,
    ON_AIR = 1 << HANGS_AERATOR,
    ON_HEAT = 1 << HANGS_HEATER,
    ON_POWER = 1 << HANGS_POWER,
    ON_ALL = ON_PUMP | ON_AIR | ON_HEAT | ON_POWER,
};

typedef struct EmergencyLine {
    CardPart part;
    int on;
    bool needs_beds; /* only where beds hang on it */
    bool needs_fish; /* only where fish do */
    const char *text;
} EmergencyLine;

/* All of them, in the order of the card; ends with a NULL text. Common practice
 * of the trade; electricity, fire and gas by the usual caution. */
extern const EmergencyLine EMERGENCY_LINES[];

/* Titles of the parts. */
extern const char *const EMERGENCY_TITLES[CARD_PARTS];

#endif
