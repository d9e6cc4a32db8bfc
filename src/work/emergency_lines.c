/* The sentences of the card that hold on every farm. */
#include "work/emergency_lines.h"

#include "base/tongue.h"

const char *const EMERGENCY_TITLES[CARD_PARTS] = {
    [CARD_SAFETY] = SAY("You first"),
    [CARD_AIR] = SAY("Air"),
    [CARD_TIME] = SAY("How long the fish have"),
    [CARD_WATER] = SAY("Water"),
    [CARD_WARMTH] = SAY("Warmth"),
    [CARD_FEED] = SAY("Feed"),
    [CARD_BEDS] = SAY("Beds and seedlings"),
    [CARD_RING] = SAY("Ring, in this order, until one comes"),
    [CARD_RESTART] = SAY("When it runs again"),
    [CARD_AFTER] = SAY("Afterwards"),
};

/* The lists are laid out by hand. */
/* clang-format off */
const EmergencyLine EMERGENCY_LINES[] = {
    {CARD_SAFETY, ON_PUMP, false, false,
     SAY("Keep out of the water. Is the air still running? Leave it on. Switch "
     "this pump's circuit off at the board, dry hands, dry floor. Only then "
     "pull the stopped pump's plug. If the trip has gone again, do not keep "
     "resetting it: electrician.")},
    {CARD_SAFETY, ON_AIR, false, false,
     SAY("Keep out of the water. Is the pump still running? Leave it on. Switch "
     "this blower's circuit off at the board, dry hands, dry floor; only then "
     "pull its plug. If the trip has gone again, do not keep resetting it: "
     "electrician.")},
    {CARD_SAFETY, ON_POWER, false, false,
     SAY("Keep out of the water: power may come back at any moment. Take a torch. "
     "At the board, dry hands, dry floor: has the trip gone? Once only; if it "
     "goes again, leave it: electrician. Switch off the circuits of pumps and "
     "heaters, so that not all start at once.")},
    {CARD_SAFETY, ON_POWER, false, false,
     SAY("A generator stands in the open, never indoors (its fumes kill), and "
     "feeds only its own sockets or a change-over switch that an electrician "
     "fitted, with a residual-current device.")},
    {CARD_SAFETY, ON_HEAT, false, false,
     SAY("Smoke, or a smell of gas or burning: everybody out, touch no switch, "
     "ring the emergency number from outside. At a burner or stove: door open "
     "(fumes kill), never alone. Dry hands, dry floor. One reset, no more: "
     "heating engineer.")},
    {CARD_SAFETY, ON_HEAT, false, false,
     SAY("Nothing with a plug goes into a tank by hand: heaters stay fixed, on a "
     "residual-current device, off at the board before a hand goes in.")},

    {CARD_AIR, ON_AIR, false, true,
     SAY("No other air: pour tank water back from waist height with a bucket, "
     "standing dry outside the tank, or let it splash in from the pump.")},
    {CARD_AIR, ON_PUMP | ON_POWER, false, true,
     SAY("Fish that gasp at the top or the inflow lack air now, whatever stands "
     "here.")},
    {CARD_AIR, ON_HEAT, false, true,
     SAY("Leave the air on, all night: fish under a lid need it.")},

    {CARD_WATER, ON_PUMP, false, false,
     SAY("Look without reaching in: is the sump low, the screen blocked, a valve "
     "shut, a pipe off? Shut the valve behind the stopped pump before it is "
     "lifted out.")},
    {CARD_WATER, ON_PUMP | ON_POWER, false, false,
     SAY("Watch the sump: what drains back from beds and pipes must find room.")},

    {CARD_WARMTH, ON_HEAT, false, false,
     SAY("Stop flooding the beds now: wet gravel in a cold tunnel is the largest "
     "radiator of the farm. Leave flow and air to the tanks on.")},
    {CARD_WARMTH, ON_HEAT | ON_POWER, false, false,
     SAY("Lids on; film or insulation board where a lid lacks, a gap for air. No "
     "cold top-up. Doors and vents shut.")},
    {CARD_WARMTH, ON_HEAT, false, true,
     SAY("Warm up again slowly: 1 degC an hour at most.")},

    {CARD_FEED, ON_PUMP | ON_AIR | ON_POWER, false, true,
     SAY("No feed now, and none before a whole day of good oxygen: fed fish need "
     "half as much air again. No netting, no moving.")},
    {CARD_FEED, ON_HEAT, false, true,
     SAY("No feed while water falls, and none below the first limit above. No "
     "netting, no moving in the cold.")},

    {CARD_BEDS, ON_PUMP | ON_POWER, true, false,
     SAY("Trays and seedlings: water by hand from a can, morning and evening; "
     "leaves that are eaten stay dry.")},
    {CARD_BEDS, ON_HEAT, true, false,
     SAY("Plants in gravel bear a night without water. Frost in the tunnel: fleece "
     "over tender crops and seedlings.")},

    {CARD_RESTART, ON_PUMP | ON_POWER, false, false,
     SAY("Air first; then the pump, all flow to the tanks, ten minutes, watch "
     "levels.")},
    {CARD_RESTART, ON_PUMP | ON_POWER, true, false,
     SAY("Then zone by zone, the next when one has drained: never all at once.")},
    {CARD_RESTART, ON_AIR, false, false,
     SAY("Bubbles at every stone? Clean or change those without.")},
    {CARD_RESTART, ON_HEAT, true, false,
     SAY("Flood the beds again by day, when the tunnel is warmer than the water, "
     "zone by zone.")},

    {CARD_AFTER, ON_PUMP | ON_AIR | ON_POWER, false, true,
     SAY("Oxygen after 1 h. Ammonia, nitrite and pH morning and evening for 3 days "
     "(leat reading). Count and take out the dead; many, or for days: vet.")},
    {CARD_AFTER, ON_HEAT, false, true,
     SAY("Temperature every hour until it rises. Look for fish on their side or "
     "with fungus for 2 weeks; ammonia and nitrite morning and evening for 3 "
     "days: the gravel's life is slow too (leat reading).")},
    {CARD_AFTER, ON_ALL, false, false,
     SAY("Feed again, half a meal, when ammonia and nitrite are good. Write it all "
     "down.")},
    {CARD_PARTS, 0, false, false, NULL},
};
/* clang-format on */
