/* One entry against the farm it is about. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "farm/cell.h"
#include "journal/told.h"

enum { NAMES_MAX = 4000 };

/* Which tables a place may be of. */
#define IS(table) (UINT64_C(1) << TABLE_##table)
static const uint64_t ANY_PLACE = IS(beds) | IS(tanks) | IS(tunnels) |
                                  IS(loops) | IS(stores) | IS(nursery) |
                                  IS(pumps) | IS(heaters) | IS(aerators) |
                                  IS(zones) | IS(sources) | IS(links);

static uint64_t places_of(int32_t kind)
{
    switch (kind) {
    case TOLD_STOCKED:
    case TOLD_MOVED:
    case TOLD_GRADED:
    case TOLD_SAMPLED:
    case TOLD_DIED:
    case TOLD_SOLD:
    case TOLD_FASTED:
    case TOLD_PURGED:
    case TOLD_FED:
        return IS(tanks);
    case TOLD_SOWN:
        return IS(beds) | IS(nursery);
    case TOLD_EMERGED:
        return IS(beds) | IS(nursery);
    case TOLD_SET:
    case TOLD_PRUNED:
    case TOLD_PICKED:
    case TOLD_CLEARED:
    case TOLD_CLEANED:
        return IS(beds);
    case TOLD_FLOODED:
        return IS(beds) | IS(zones);
    case TOLD_DOSED:
    case TOLD_TOPPED:
        return IS(loops) | IS(tanks);
    case TOLD_READ:
        return ANY_PLACE;
    case TOLD_VENTED:
    case TOLD_SHADED:
        return IS(tunnels);
    case TOLD_FLEECED:
        return IS(tunnels) | IS(beds);
    case TOLD_SPRAYED:
    case TOLD_RELEASED:
    case TOLD_SCOUTED:
        return IS(tunnels) | IS(beds) | IS(nursery);
    case TOLD_SEEN:
    case TOLD_AS_USUAL:
    case TOLD_EVENT:
    case TOLD_WORKED:
    case TOLD_DELIVERED:
    case TOLD_BOUGHT:
    case TOLD_RECEIVED:
    case TOLD_CHECKED:
    case TOLD_TRAINED:
    case TOLD_VISITED:
    case TOLD_UNDONE:
    case TOLD_STRUCK:
    case TOLD_TABLE:
    case TOLD_COUNTED:
    case TOLD_PLAN_ACCEPTED:
    case TOLD_KIND_COUNT:
        break;
    }
    return ANY_PLACE;
}

static int32_t rows_of(const Farm *farm, int table)
{
    int32_t count = 0;
    memcpy(&count, (const char *)farm + FARM_TABLES[table].count_offset,
           sizeof count);
    return count;
}

/* ERR_INPUT with the nearest id of those tables, unless id is in one. */
static Err check_id(const Farm *farm, uint64_t tables, const char *field,
                    const char *id)
{
    const char *names[NAMES_MAX];
    size_t count = 0;
    const char *first = NULL;
    for (int t = 0; t < TABLE_COUNT; t++) {
        if (!(tables >> t & 1)) {
            continue;
        }
        if (cell_row_of(farm, t, id) >= 0) {
            return ERR_NONE;
        }
        first = first ? first : FARM_TABLES[t].name;
        for (int32_t i = 0; i < rows_of(farm, t) && count < NAMES_MAX; i++) {
            names[count++] = cell_row_id(farm, t, i);
        }
    }
    const char *nearest = text_nearest(id, names, count);
    if (nearest) {
        return err_make(ERR_INPUT,
                        "%s=%.40s: the farm has none of that name; did you "
                        "mean %.40s?",
                        field, id, nearest);
    }
    return err_make(ERR_INPUT, "%s=%.40s: expected an id of %s.csv%s", field,
                    id, first,
                    tables & (tables - 1) ? " or another place" : "");
}

static Err check_places(const Farm *farm, const Told *told)
{
    if (*told->place) {
        TRY(check_id(farm, places_of(told->kind), "place", told->place));
    }
    if (*told->to_place && told->kind != TOLD_DIED) {
        TRY(check_id(farm, places_of(told->kind), "to_place", told->to_place));
    }
    if (*told->to_place && strcmp(told->place, told->to_place) == 0) {
        return err_make(ERR_INPUT,
                        "to_place=%.40s: expected another tank than place",
                        told->to_place);
    }
    int32_t bed =
        *told->place ? cell_row_of(farm, TABLE_beds, told->place) : -1;
    int64_t most = bed >= 0 ? farm->beds[bed].sections : 0;
    int64_t last =
        told->section + (told->sections > 0 ? told->sections - 1 : 0);
    if (bed >= 0 && (last > most || told->sections > most)) {
        return err_make(ERR_INPUT, "section=%lld: bed %.40s has %lld sections",
                        (long long)last, told->place, (long long)most);
    }
    return ERR_NONE;
}

static Err check_sale(const Farm *farm, const Told *told)
{
    if (*told->buyer) {
        TRY(check_id(farm, IS(buyers), "buyer", told->buyer));
    }
    bool is_ours = told->kind == TOLD_SOLD || told->kind == TOLD_PICKED ||
                   told->kind == TOLD_DELIVERED;
    if (*told->product && is_ours) {
        TRY(check_id(farm, IS(products) | IS(ways), "product", told->product));
    }
    if (*told->product && told->kind == TOLD_FED) {
        TRY(check_id(farm, IS(feeds), "product", told->product));
    }
    if (*told->way) {
        TRY(check_id(farm, IS(ways), "way", told->way));
    }
    return ERR_NONE;
}

/* A batch must be known where nothing else tells what it is. */
static Err check_batch(const Farm *farm, const Told *told)
{
    bool is_known_needed =
        (told->kind == TOLD_SET || told->kind == TOLD_SOWN) && !*told->way;
    if (!*told->batch || !is_known_needed) {
        return ERR_NONE;
    }
    return check_id(farm, IS(plants) | IS(plan_plants), "batch", told->batch);
}

static Err check_reading(const Told *told)
{
    int count = 0;
    const ToldQuantity *all = told_quantities(&count);
    const char *keys[64];
    for (int i = 0; i < count; i++) {
        keys[i] = all[i].key;
        if (strcmp(told->quantity_key, all[i].key) != 0) {
            continue;
        }
        if (*told->unit && strcmp(told->unit, all[i].unit) != 0) {
            return err_make(ERR_INPUT, "unit=%.16s: %s is told in %s",
                            told->unit, all[i].key,
                            *all[i].unit ? all[i].unit : "no unit");
        }
        if (!(told->value >= all[i].least && told->value <= all[i].most)) {
            return err_make(ERR_INPUT, "value=%g: expected %s from %g to %g %s",
                            told->value, all[i].key, all[i].least, all[i].most,
                            all[i].unit);
        }
        return ERR_NONE;
    }
    const char *nearest = text_nearest(told->quantity_key, keys, (size_t)count);
    return err_make(ERR_INPUT,
                    "quantity_key=%.32s: nothing of that name is "
                    "read%s%s",
                    told->quantity_key, nearest ? "; did you mean " : "",
                    nearest ? nearest : "");
}

/* Weight, number and mean of fish must be of one world: within a tenth. */
static Err check_weights(const Told *told)
{
    static const double APART_FRAC = 0.1;
    double of_mean = (double)told->count * told->mean_g;
    if (told->count > 0 && !isnan(told->mean_g) && !isnan(told->grams) &&
        told->kind != TOLD_SAMPLED &&
        fabs(told->grams - of_mean) > APART_FRAC * of_mean) {
        return err_make(ERR_INPUT,
                        "grams=%g: %lld fish of %g g are %g g; is one of them "
                        "in another unit?",
                        told->grams, (long long)told->count, told->mean_g,
                        of_mean);
    }
    bool is_share = told->kind == TOLD_VENTED || told->kind == TOLD_SHADED ||
                    told->kind == TOLD_FLEECED;
    if (is_share && !isnan(told->value) &&
        !(told->value >= 0.0 && told->value <= 1.0)) {
        return err_make(ERR_INPUT, "value=%g: expected a share from 0 to 1",
                        told->value);
    }
    return ERR_NONE;
}

/* Units of quantity: those of weight, volume and number, trays, and the units
 * of the farm's own products and ways. */
static Err check_unit(const Farm *farm, const Told *told)
{
    static const char *const USUAL[] = {
        "kg",   "g",    "mg",     "L",    "mL",    "m3",   "tray",
        "bag",  "box",  "m2",     "head", "bunch", "fish", "plant",
        "seed", "pack", "bottle", "min",  "h",     "unit"};
    enum { USUAL_COUNT = sizeof USUAL / sizeof *USUAL };
    if (!*told->unit || told->kind == TOLD_READ) {
        return ERR_NONE;
    }
    const char *names[NAMES_MAX];
    size_t count = 0;
    for (; count < USUAL_COUNT; count++) {
        names[count] = USUAL[count];
    }
    for (int32_t i = 0; i < farm->products_count && count < NAMES_MAX; i++) {
        names[count++] = farm->products[i].unit;
    }
    for (int32_t i = 0; i < farm->ways_count && count < NAMES_MAX; i++) {
        names[count++] = farm->ways[i].unit;
    }
    for (size_t i = 0; i < count; i++) {
        if (strcmp(names[i], told->unit) == 0) {
            return ERR_NONE;
        }
    }
    const char *nearest = text_nearest(told->unit, names, count);
    return err_make(ERR_INPUT,
                    "unit=%.16s: expected kg, g, L, mL, m3, tray .. "
                    "or a unit of products.csv%s%s",
                    told->unit, nearest ? "; did you mean " : "",
                    nearest ? nearest : "");
}

Err told_check(const Farm *farm, const Told *told)
{
    TRY(told_check_alone(told));
    TRY(check_places(farm, told));
    TRY(check_batch(farm, told));
    TRY(check_sale(farm, told));
    if (told->kind == TOLD_READ) {
        TRY(check_reading(told));
    }
    TRY(check_unit(farm, told));
    return check_weights(told);
}
