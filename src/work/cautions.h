/* What may hurt people, fish or eaters in a piece of work: a short form that
 * stands beside the job, and all of it. One list. */
#ifndef LEAT_WORK_CAUTIONS_H
#define LEAT_WORK_CAUTIONS_H

#include "base/tongue.h"

/* The list is laid out by hand: name, short form, full text. */
/* clang-format off */
#define CAUTIONS(X)                                                            \
    X(CAUTION_NONE, "", "")                                                    \
    X(CAUTION_BASE,                                                            \
      SAY("base: goggles, gloves; powder into water; small steps"),                 \
      SAY("If a base is due: goggles, gloves, long sleeves; powder into water, "   \
      "never water onto powder; never in aluminium or zinc; in small steps, "  \
      "and stop if ammonia is up (leat sum base-dose)."))                       \
    X(CAUTION_PICK,                                                            \
      SAY("clean dry hands, clean boxes, before any work with fish; chill"),        \
      SAY("Before any work with fish, or after a wash: dry clean hands, clean "    \
      "boxes; tank water never touches what is eaten; chill at once."))         \
    X(CAUTION_SPRAY,                                                           \
      SAY("no spray without its label and interval: fish share the water"),         \
      SAY("Fish and filter share the water with the plants: no spray without its " \
      "label, its interval before picking, and somebody licensed where the "   \
      "law asks for it."))                                                      \
    X(CAUTION_CLEAN,                                                           \
      SAY("pump off at the board first; small loads; mask"),                        \
      SAY("Switch the zone's pump off at the board before hands or shovel go "     \
      "near cables; lift small loads; mask against mould dust."))               \
    X(CAUTION_NET,                                                             \
      SAY("oxygen over 5 first; wet hands; never alone; pumps off at the board"),   \
      SAY("Measure oxygen first: over 5 mg/L. Wet hands, knotless net, small "     \
      "loads, seconds out of the water, the cool of the day; never alone at "  \
      "a deep tank; pumps off at the board before anyone reaches in. Half "    \
      "feed tomorrow."))                                                        \
    X(CAUTION_SALE,                                                            \
      SAY("stun, then kill, by somebody trained; chilling is no stun"),             \
      SAY("Chilling is not a stun: fish are stunned to lasting unconsciousness "   \
      "and then killed, by somebody trained, as local rules say; cutting and " \
      "cleaning fish has rules of its own."))                                   \
    X(CAUTION_CROWD,                                                           \
      SAY("crowded fish: watch oxygen at night, feed no more than they eat"),       \
      SAY("Crowded fish run out of oxygen sooner, above all in warm water some "   \
      "hours after a meal and before dawn: check air and spare air, measure "  \
      "oxygen in the evening, feed no more than they eat, and thin them out "  \
      "within the handling limits. Welfare has limits of its own by law."))
/* clang-format on */

typedef enum Caution {
#define CAUTION_ENUM(name, ...) name,
    CAUTIONS(CAUTION_ENUM)
#undef CAUTION_ENUM
        CAUTION_COUNT
} Caution;

/* Under 72 characters; "" for CAUTION_NONE. In English: for say(). */
const char *caution_short(Caution caution);

/* Whole sentences; "" for CAUTION_NONE. */
const char *caution_text(Caution caution);

#endif
