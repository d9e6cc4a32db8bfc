/* An entry of the journal as it was told, and the kinds of entries.
 *
 * One list of fields makes the struct, the columns of the store, the keys of
 * the JSON form and the words that `leat note` takes. One list of kinds says
 * what each needs and may have. What is not told is "" for text, NAN for a
 * number, and for whole numbers the value in the list (-1, or 0 where 0 says
 * nothing). */
#ifndef LEAT_JOURNAL_TOLD_H
#define LEAT_JOURNAL_TOLD_H

#include "base/arena.h"
#include "farm/records.h"

/* The lists are laid out by hand. */
/* clang-format off */

/* Type; name; value where it is not told; least; most (text: most bytes);
 * meaning. */
#define TOLD_FIELDS(F)                                                         \
    F(WHOLE, number, 0, 0, 9e15, "in the order told; the store gives it")      \
    F(TEXT, uid, 0, 0, 64, "chosen by the teller's device; told twice, kept once")\
    F(KIND, kind, 0, 0, 0, "what kind of entry")                               \
    F(DAY, happened_on, 0, 0, 0, "the civil day it happened")                  \
    F(WHOLE, happened_at, -1, 0, 1439, "minute of that day")                   \
    F(WHOLE, told_at, -1, 0, 9e15, "UTC seconds; the receiver's clock")        \
    F(DAY, told_on, 0, 0, 0, "the civil day it was told; the receiver's clock")\
    F(TEXT, who, 0, 0, 64, "a person: hands.csv, or a name")                   \
    F(TEXT, device, 0, 0, 64, "what it was told with")                         \
    F(TEXT, job, 0, 0, 160, "the job that it answers")                         \
    F(TEXT, stop, 0, 0, 64, "the stop of the round")                           \
    F(TEXT, place, 0, 0, 64, "a bed, tank, tunnel, loop, bench, store or machine")\
    F(WHOLE, section, 0, 0, 40, "the first section, from 1; 0 all of the bed") \
    F(WHOLE, sections, 0, 0, 40, "how many sections; 0 all, or one")           \
    F(FLAG, edge, 0, 0, 0, "on the edge of the bed")                           \
    F(TEXT, batch, 0, 0, 100, "a plant or fish batch")                         \
    F(TEXT, to_place, 0, 0, 64, "where it went")                               \
    F(TEXT, way, 0, 0, 64, "how it is grown: ways.csv")                        \
    F(TEXT, product, 0, 0, 64, "what it was sold or picked as: products.csv")  \
    F(TEXT, lot, 0, 0, 100, "a lot of seed, feed or produce")                  \
    F(TEXT, species, 0, 0, 64, "a fish of the book")                           \
    F(TEXT, sex, 0, 0, 16, "mixed, sexed, males or females")                   \
    F(WHOLE, count, -1, 0, 1000000, "fish, plants, seedlings or insects")      \
    F(REAL, mean_g, 0, 0.001, 20000, "mean weight of a fish, g")               \
    F(REAL, cv_frac, 0, 0, 1.5, "spread: standard deviation over mean")        \
    F(REAL, grams, 0, 0, 1e9, "weight of all of it, g")                        \
    F(REAL, quantity, 0, 0, 1e9, "how much, in the unit beside it")            \
    F(TEXT, unit, 0, 0, 16, "unit of quantity, or of value")                   \
    F(TEXT, quantity_key, 0, 0, 32, "what was read: temp_degc, ph, tan_mg_l ..")\
    F(REAL, value, 0, -1e9, 1e9, "the reading, or a setting")                  \
    F(TEXT, cause, 0, 0, 200, "why")                                           \
    F(TEXT, supplier, 0, 0, 100, "from whom")                                  \
    F(TEXT, buyer, 0, 0, 64, "for whom: buyers.csv")                           \
    F(REAL, minutes, 0, 0, 6000, "how long it took")                           \
    F(TEXT, text, 0, 0, 8000, "in words")                                      \
    F(TEXT, blob, 0, 0, 64, "SHA-256 of a photo or voice note, in hex")        \
    F(WHOLE, strikes, 0, 0, 9e15, "number of the entry that is struck through")

/* Name, word, fields it needs (all), fields of which it needs one, fields it
 * may have beside TOLD_ALWAYS; meaning. */
#define TOLD_KINDS(K)                                                          \
    /* plants */                                                               \
    K(SOWN, "sown", 0, B(batch) | B(way),                                      \
      B(batch) | B(way) | B(count) | B(quantity) | B(unit) | B(lot) | B(place) |\
      B(section) | B(sections) | B(edge) | B(grams),                           \
      "seed into trays, or in place in a bed")                                 \
    K(EMERGED, "emerged", B(batch) | B(count), 0, B(place) | B(lot),           \
      "seedlings counted in their trays")                                      \
    K(SET, "set", 0, B(batch) | B(way),                                        \
      B(batch) | B(way) | B(place) | B(section) | B(sections) | B(edge) |      \
      B(count) | B(lot), "seedlings set out into a bed")                       \
    K(PRUNED, "pruned", 0, B(batch) | B(place),                                \
      B(batch) | B(place) | B(edge), "pruned or strung")                       \
    K(PICKED, "picked", 0, B(batch) | B(way) | B(place),                       \
      B(batch) | B(place) | B(section) | B(edge) | B(way) | B(product) |       \
      B(lot) | B(count) | B(grams) | B(quantity) | B(unit) | B(buyer),         \
      "picked, a lot")                                                         \
    K(CLEARED, "cleared", 0, B(batch) | B(place),                              \
      B(batch) | B(place) | B(section) | B(sections) | B(edge) | B(cause) |    \
      B(grams), "pulled out, the place free")                                  \
    K(CLEANED, "cleaned", B(place), 0, B(quantity) | B(unit),                  \
      "a bed deep cleaned")                                                    \
    K(FLOODED, "flooded", B(place), 0, 0, "a bed or zone flooding again")      \
    /* fish */                                                                 \
    K(STOCKED, "stocked", B(place) | B(count), 0,                              \
      B(batch) | B(species) | B(sex) | B(mean_g) | B(cv_frac) | B(grams) |     \
      B(supplier) | B(lot), "young fish into a tank")                          \
    K(MOVED, "moved", B(place) | B(to_place) | B(count), 0,                    \
      B(batch) | B(mean_g) | B(grams), "fish to another tank")                 \
    K(GRADED, "graded", B(place) | B(to_place) | B(count), 0,                  \
      B(batch) | B(mean_g) | B(grams) | B(cause),                              \
      "fish cut by size to another tank; cause: big or small, which went")     \
    K(SAMPLED, "sampled", B(place), B(mean_g) | B(grams) | B(quantity),        \
      B(batch) | B(count) | B(mean_g) | B(cv_frac) | B(grams) | B(quantity) |  \
      B(unit), "mean weight of a sample; quantity: all counted anew")          \
    K(DIED, "died", B(place) | B(count), 0,                                    \
      B(batch) | B(cause) | B(mean_g) | B(grams) | B(to_place),                \
      "fish dead; why, and where they went")                                   \
    K(SOLD, "sold", B(place), B(count) | B(grams),                             \
      B(batch) | B(count) | B(mean_g) | B(grams) | B(product) | B(buyer) |     \
      B(lot) | B(quantity) | B(unit), "fish sold")                             \
    K(FASTED, "fasted", B(place), 0, B(cause), "a tank off feed for the day")  \
    K(PURGED, "purged", B(place), 0, B(batch) | B(count) | B(to_place) |       \
      B(mean_g) | B(grams), "fish off feed before a sale; to_place: moved there")\
    K(FED, "fed", B(place) | B(grams), 0, B(product) | B(lot) | B(quantity) |  \
      B(unit), "feed given to a tank")                                         \
    /* water and air */                                                        \
    K(READ, "read", B(place) | B(quantity_key) | B(value), 0, B(unit),         \
      "a reading of water or air")                                             \
    K(DOSED, "dosed", B(place) | B(product), B(grams) | B(quantity),           \
      B(grams) | B(quantity) | B(unit) | B(lot), "base, salt or iron given")   \
    K(TOPPED, "topped", B(place), 0, B(quantity) | B(unit),                    \
      "water topped up or changed")                                            \
    K(VENTED, "vented", B(place), 0, B(value) | B(unit) | B(cause),            \
      "vents set; value: share open")                                          \
    K(SHADED, "shaded", B(place), 0, B(value) | B(unit), "shade on (1) or off (0)")\
    K(FLEECED, "fleeced", B(place), 0, B(value) | B(unit), "fleece on (1) or off (0)")\
    /* pests */                                                                \
    K(SPRAYED, "sprayed", B(place) | B(product), 0,                            \
      B(batch) | B(quantity) | B(unit) | B(cause) | B(lot) | B(value),         \
      "a spray, as the label and local rules allow")                           \
    K(RELEASED, "released", B(place) | B(product), 0,                          \
      B(count) | B(quantity) | B(unit) | B(supplier) | B(lot) | B(cause),      \
      "beneficial insects let out")                                            \
    K(SCOUTED, "scouted", B(place), B(cause) | B(text),                        \
      B(batch) | B(cause) | B(count) | B(quantity) | B(unit),                  \
      "looked for pests: what (cause) and how many")                           \
    /* the rest of the day */                                                  \
    K(SEEN, "seen", 0, B(text) | B(blob), B(place) | B(batch) | B(cause),      \
      "a note, photo or voice")                                                \
    K(AS_USUAL, "as_usual", B(stop), 0, B(place), "a stop looked at: as usual")\
    K(EVENT, "event", B(cause), 0, B(place) | B(value) | B(unit),              \
      "pump, air, heat or power: stopped, started, tripped")                   \
    K(WORKED, "worked", B(minutes), 0, B(place) | B(batch) | B(cause),         \
      "time at work")                                                          \
    K(DELIVERED, "delivered", B(buyer), 0,                                     \
      B(product) | B(quantity) | B(unit) | B(count) | B(grams) | B(lot),       \
      "goods handed over")                                                     \
    K(BOUGHT, "bought", 0, B(product) | B(text),                               \
      B(product) | B(quantity) | B(unit) | B(grams) | B(count) | B(supplier) | \
      B(lot) | B(value), "goods bought")                                       \
    K(RECEIVED, "received", B(lot), B(product) | B(text),                      \
      B(product) | B(quantity) | B(unit) | B(grams) | B(count) | B(supplier),  \
      "a supplier's lot of seed or feed")                                      \
    K(CHECKED, "checked", 0, B(place) | B(product),                            \
      B(place) | B(product) | B(value) | B(unit) | B(quantity_key) | B(cause), \
      "a kit, a meter or a machine checked")                                   \
    K(TRAINED, "trained", B(text), 0, 0, "somebody trained")                   \
    K(VISITED, "visited", B(text), 0, 0, "a visitor")                          \
    /* about entries, tables and the plan */                                   \
    K(UNDONE, "undone", 0, B(job) | B(batch) | B(place), B(batch) | B(place) | \
      B(cause), "a planned step that was not done")                            \
    K(STRUCK, "struck", B(strikes) | B(text), 0, 0,                            \
      "an entry struck through, with the reason")                              \
    K(TABLE, "table", B(text), 0, B(product), "a table changed: its differences")\
    K(COUNTED, "counted", B(text), 0, 0,                                       \
      "the standing tables written as of a day, from all entries before this") \
    K(PLAN_ACCEPTED, "plan_accepted", 0, 0, B(batch) | B(value),               \
      "a plan accepted")

/* What was read: key, unit as people write it, least and most that a meter or
 * kit can show or water can be (judged; they catch slips of the pen). */
#define TOLD_QUANTITIES(Q)                                                     \
    Q("temp_degc", "degC", -5, 50)     Q("oxygen_mg_l", "mg/L", 0, 30)         \
    Q("ph", "", 2, 12)                 Q("tan_mg_l", "mg/L", 0, 200)           \
    Q("nitrite_mg_l", "mg/L", 0, 200)  Q("nitrate_mg_l", "mg/L", 0, 2000)      \
    Q("alkalinity_mg_l", "mg/L", 0, 2000) Q("chloride_mg_l", "mg/L", 0, 5000)  \
    Q("iron_mg_l", "mg/L", 0, 100)     Q("potassium_mg_l", "mg/L", 0, 2000)    \
    Q("calcium_mg_l", "mg/L", 0, 2000) Q("magnesium_mg_l", "mg/L", 0, 1000)    \
    Q("phosphorus_mg_l", "mg/L", 0, 500) Q("chlorine_mg_l", "mg/L", 0, 20)     \
    Q("conductivity_us_cm", "uS/cm", 0, 60000) Q("level_m", "m", 0, 10)        \
    Q("air_degc", "degC", -50, 60)     Q("air_min_degc", "degC", -50, 60)      \
    Q("air_max_degc", "degC", -50, 65) Q("rh_pct", "%", 0, 100)                \
    Q("store_degc", "degC", -40, 50)   Q("outside_degc", "degC", -60, 60)

/* clang-format on */

#define TOLD_MEMBER_TEXT(name) const char *name;
#define TOLD_MEMBER_WHOLE(name) int64_t name;
#define TOLD_MEMBER_REAL(name) double name;
#define TOLD_MEMBER_DAY(name) int32_t name;
#define TOLD_MEMBER_FLAG(name) bool name;
#define TOLD_MEMBER_KIND(name) int32_t name;

/* An entry. Text is borrowed, most often from the arena it was read into. A
 * day that is not told is DATE_ALWAYS. */
typedef struct Told {
#define TOLD_MEMBER(type, name, ...) TOLD_MEMBER_##type(name)
    TOLD_FIELDS(TOLD_MEMBER)
#undef TOLD_MEMBER
    int64_t struck_by;      /* 0, or the number of the entry that strikes it */
    const char *struck_why; /* NULL, or its reason */
    const char *struck_who; /* NULL, or who struck it */
} Told;

typedef struct Tolds {
    Told *items; /* Borrowed from the arena. */
    int32_t count;
} Tolds;

typedef enum ToldKind {
#define TOLD_KIND_ENUM(name, ...) TOLD_##name,
    TOLD_KINDS(TOLD_KIND_ENUM)
#undef TOLD_KIND_ENUM
        TOLD_KIND_COUNT
} ToldKind;

typedef enum ToldFieldId {
#define TOLD_FIELD_ENUM(type, name, ...) TOLD_AT_##name,
    TOLD_FIELDS(TOLD_FIELD_ENUM)
#undef TOLD_FIELD_ENUM
        TOLD_FIELD_COUNT
} ToldFieldId;

typedef enum ToldType {
    TOLD_TYPE_TEXT,
    TOLD_TYPE_WHOLE,
    TOLD_TYPE_REAL,
    TOLD_TYPE_DAY,
    TOLD_TYPE_FLAG,
    TOLD_TYPE_KIND,
} ToldType;

typedef struct ToldField {
    ToldType type;
    const char *name;
    int64_t absent; /* of WHOLE: the value where it is not told */
    double least;
    double most; /* of TEXT: bytes */
    size_t offset;
    const char *meaning;
} ToldField;

typedef struct ToldKindInfo {
    const char *word;
    uint64_t needs;     /* bit i: field i, all of them */
    uint64_t needs_one; /* one of these; 0: no such group */
    uint64_t may;       /* beside those and TOLD_ALWAYS */
    const char *meaning;
} ToldKindInfo;

typedef struct ToldQuantity {
    const char *key;
    const char *unit;
    double least;
    double most;
} ToldQuantity;

extern const ToldField TOLD_FIELD_TABLE[TOLD_FIELD_COUNT];
extern const ToldKindInfo TOLD_KIND_TABLE[TOLD_KIND_COUNT];
extern const uint64_t TOLD_ALWAYS; /* fields that every kind may have */

/* The quantities that can be read; the first are those of readings.csv, in the
 * order of its words. */
const ToldQuantity *told_quantities(int *out_count);

/* An entry of which nothing is told yet but its kind and day. */
Told told_blank(ToldKind kind, int32_t day);

/* Whether field says something in told. */
bool told_has(const Told *told, ToldFieldId field);

/* Told on a later day than it happened. */
bool told_is_late(const Told *told);

/* Words to numbers; ERR_USAGE names the nearest word. */
NODISCARD Err told_kind_find(const char *word, ToldKind *out);
NODISCARD Err told_field_find(const char *name, ToldFieldId *out);
const char *told_kind_word(int32_t kind); /* "?" where there is none */

/* Writes one field from text as people type it: days as 2027-03-01, times of
 * day as 07:30 or minutes, flags as yes or no. Text is borrowed. ERR_INPUT
 * names the field and what it expects. */
NODISCARD Err told_put_text(ToldFieldId field, const char *text, Told *told);

/* The text of a field, as told_put_text reads it; "" where it is not told. */
const char *told_text(const Told *told, ToldFieldId field, Arena *arena);

/* What can be known without the farm: the kind's fields, ranges, sizes, text
 * that is UTF-8. ERR_INPUT says which field and what is expected. */
NODISCARD Err told_check_alone(const Told *told);

/* The same, and against the farm: places, batches where they are said to be of
 * the tables, ways, products, buyers, units; the nearest name is offered. It
 * does not judge the balance of fish: what was told is kept and doubted later
 * (journal/ledger.h). ERR_INPUT. */
NODISCARD Err told_check(const Farm *farm, const Told *told);

#endif
