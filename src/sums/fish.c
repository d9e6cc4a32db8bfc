/* Sums of fish: oxygen left, feed, growth, stocking, purge. */
#include <math.h>

#include "nature/fish/breeding.h"
#include "nature/fish/law.h"
#include "nature/fish/respiration.h"
#include "sums/rows.h"

static void pump_cautions(SumAnswer *out)
{
    sum_caution(out, "Keep out of the water. Is the air still running? Leave "
                     "it on. Switch this pump's circuit off at the board, dry "
                     "hands, dry floor. Only then pull the stopped pump's "
                     "plug. If the trip has gone again, do not keep resetting "
                     "it: electrician.");
    sum_caution(out, "Start air now, feed nothing, ring the next on the list. "
                     "Plan on the low end: this is no countdown.");
}

/* The laws' own reach; beyond it the nearest end is taken and the range is
 * doubled both ways, a judgement. */
static const double LAWS_FROM_G = 0.1;
static const double LAWS_TO_G = 5000.0;
static const double LAWS_FROM_DEGC = 10.0;
static const double LAWS_TO_DEGC = 38.0;

static Figure minutes_within_laws(const OxygenStop *stop, bool *is_widened,
                                  bool *is_beyond)
{
    OxygenStop held = *stop;
    held.weight_g = fmin(LAWS_TO_G, fmax(LAWS_FROM_G, stop->weight_g));
    held.temp_degc = fmin(LAWS_TO_DEGC, fmax(LAWS_FROM_DEGC, stop->temp_degc));
    OxygenLeft left = fish_oxygen_left(&held);
    Figure minutes = left.minutes;
    *is_beyond = stop->weight_g < LAWS_FROM_G || stop->weight_g > LAWS_TO_G ||
                 stop->temp_degc < LAWS_FROM_DEGC ||
                 stop->temp_degc > LAWS_TO_DEGC;
    *is_widened = left.is_widened || *is_beyond;
    if (*is_beyond) {
        minutes.low /= 2.0;
        minutes.high *= 2.0;
    }
    return minutes;
}

static OxygenStop stop_of(const SumInputs *in)
{
    return (OxygenStop){
        .density_kg_m3 = sum_number(in, "density_kg_m3"),
        .weight_g = sum_number(in, "weight_g"),
        .temp_degc = sum_number(in, "temp_degc"),
        .oxygen_mg_l = sum_number(in, "oxygen_mg_l"),
        .limit_mg_l = sum_number(in, "limit_mg_l"),
        .hours_since_meal = sum_is_given(in, "fed_hours_ago")
                                ? sum_number(in, "fed_hours_ago")
                                : -1.0,
        .bacteria_mg_l_h = sum_number(in, "bacteria_mg_l_h"),
    };
}

static Err oxygen_left(const SumInputs *in, SumAnswer *out)
{
    OxygenStop stop = stop_of(in);
    bool is_widened = false;
    bool is_beyond = false;
    Figure minutes = minutes_within_laws(&stop, &is_widened, &is_beyond);
    OxygenUse use = fish_oxygen_use(
        fmin(LAWS_TO_G, fmax(LAWS_FROM_G, stop.weight_g)),
        fmin(LAWS_TO_DEGC, fmax(LAWS_FROM_DEGC, stop.temp_degc)),
        stop.hours_since_meal);
    pump_cautions(out);
    sum_is_figure(out, "minutes to the limit", minutes, "min");
    sum_also_figure(out, "oxygen that a kilo uses in an hour", use.mg_kg_h,
                    "mg/kg/h");
    if (stop.oxygen_mg_l <= stop.limit_mg_l) {
        sum_caution(out, "Oxygen is at or under the limit already.");
    }
    if (is_widened) {
        sum_caution(out,
                    "Outside the range of a published law (150 g, 24-32 "
                    "degC): the answer is widened, not refused.%s",
                    is_beyond ? " Beyond all of them: doubled both ways." : "");
    }
    sum_work(out, "t = 60 (DO - limit)/(density x use/1000 + bacteria)");
    sum_work(out,
             "low: 60 (%.4g - %.4g)/(%.4g x %.0f/1000 + %.4g) = %.1f min, "
             "by the fastest law%s",
             stop.oxygen_mg_l, stop.limit_mg_l, stop.density_kg_m3,
             use.mg_kg_h.high, stop.bacteria_mg_l_h, minutes.low,
             stop.hours_since_meal < 8.0 ? " x 1.5, fed within 8 hours or not "
                                           "known"
                                         : "");
    sum_work(out,
             "high: 60 (%.4g - %.4g)/(%.4g x %.0f/1000 + %.4g) = %.1f "
             "min, by the slowest law",
             stop.oxygen_mg_l, stop.limit_mg_l, stop.density_kg_m3,
             use.mg_kg_h.low, stop.bacteria_mg_l_h, minutes.high);
    return ERR_NONE;
}

static Err species_of(const SumInputs *in, const FishSpecies **out)
{
    return fish_species_find(sum_word(in, "species"), out);
}

static Err feed_today(const SumInputs *in, SumAnswer *out)
{
    const FishSpecies *species = NULL;
    TRY(species_of(in, &species));
    double count = sum_number(in, "count");
    double weight_g = sum_number(in, "weight_g");
    double temp_degc = sum_number(in, "temp_degc");
    double ration = fish_ration_frac(species, weight_g);
    Figure warmth = fish_warmth_frac(species, temp_degc);
    Figure feed = sum_scaled(warmth, count * weight_g * ration);
    sum_is_figure(out, "feed for the day", feed, "g/d");
    sum_also(out, "each of three meals", feed.value / 3.0, "g");
    sum_also(out, "full ration at this weight", 100.0 * ration, "%/d");
    sum_also_figure(out, "share of it at this temperature",
                    sum_scaled(warmth, 100.0), "%");
    sum_also(out, "fish", count * weight_g / 1000.0, "kg");
    sum_work(out,
             "ration x warmth x count x weight = %.4g x %.4g x %.4g x "
             "%.4g g = %.4g g",
             ration, warmth.value, count, weight_g, feed.value);
    sum_work(out, "three meals of what is gone in 15 minutes; half the day "
                  "after netting, nothing before a purge; ration and warmth "
                  "are a guess until your own");
    if (!(feed.value > 0.0)) {
        sum_caution(out, "Nothing today: at %.4g degC %s take no feed.",
                    temp_degc, species->title);
    } else if (warmth.value < 0.5) {
        sum_caution(out, "Cool water: watch that it is eaten; what lies is "
                         "ammonia tomorrow.");
    }
    return ERR_NONE;
}

/* Days at the slow and the fast end of what temperature does; ten years where
 * the slow end never gets there. */
static double days_at(const FishSpecies *species, const SumInputs *in,
                      double appetite)
{
    static const double TEN_YEARS_D = 3653.0;
    FishWater water = fish_good_water(sum_number(in, "temp_degc"));
    FishPath path = {0};
    Err err =
        fish_days_to_weight(species, sum_number(in, "from_g"),
                            sum_number(in, "to_g"), &water, appetite, &path);
    return err.kind == ERR_OK ? path.days : TEN_YEARS_D;
}

static Err days_to_weight(const SumInputs *in, SumAnswer *out)
{
    const FishSpecies *species = NULL;
    TRY(species_of(in, &species));
    double temp_degc = sum_number(in, "temp_degc");
    double from_g = sum_number(in, "from_g");
    double to_g = sum_number(in, "to_g");
    FishWater water = fish_good_water(temp_degc);
    FishPath path = {0};
    TRY(fish_days_to_weight(species, from_g, to_g, &water, 1.0, &path));
    /* One growth with another tank differs by some 15 %, a guess. */
    static const double TANKS = 0.15;
    Figure warmth = fish_warmth_frac(species, temp_degc);
    double slow = fmin(1.0 - TANKS, warmth.low / warmth.value);
    double fast = fmax(1.0 + TANKS, warmth.high / warmth.value);
    double most_d = days_at(species, in, slow);
    sum_is_figure(out, "days to that weight",
                  sum_range(path.days, days_at(species, in, fast), most_d),
                  "d");
    sum_also(out, "feed that one fish eats", path.feed_g, "g");
    sum_also(out, "feed conversion", path.conversion, "");
    sum_also(out, "growth", fish_growth_pct_d(from_g, to_g, path.days), "%/d");
    sum_work(out,
             "day by day: intake = ration x W x warmth; growth = %.3f "
             "intake - k W^%.2f, k = %.5g exp(%.4g (T - %.4g))",
             species->efficiency, species->upkeep_power, species->upkeep_g,
             species->upkeep_rise, species->upkeep_degc);
    sum_work(out,
             "%.4g g to %.4g g at %.4g degC, all the feed they take, good "
             "water: %.0f days",
             from_g, to_g, temp_degc, path.days);
    sum_work(out, "low and high: other published effects of temperature, and "
                  "15 %% in appetite");
    if (temp_degc < 22.0) {
        sum_caution(out,
                    "Under 22 degC growth falls fast and sources "
                    "disagree%s: weigh a sample before you promise.",
                    most_d > 3650.0 ? "; by the slow ones they never get there"
                                    : "");
    }
    return ERR_NONE;
}

static Err growth_rate(const SumInputs *in, SumAnswer *out)
{
    double from_g = sum_number(in, "from_g");
    double to_g = sum_number(in, "to_g");
    double days = sum_number(in, "days");
    double pct = fish_growth_pct_d(from_g, to_g, days);
    sum_is(out, "specific growth", pct, "%/d");
    sum_also(out, "gain", (to_g - from_g) / days, "g/d");
    if (pct > 0.0) {
        sum_also(out, "days to double", 100.0 * log(2.0) / pct, "d");
    }
    sum_work(out, "100 ln(W2/W1)/days = 100 ln(%.4g/%.4g)/%.4g = %.4g %%/d",
             to_g, from_g, days, pct);
    if (sum_is_given(in, "temp_degc")) {
        double temp_degc = sum_number(in, "temp_degc");
        double thermal = fish_thermal_growth(from_g, to_g, temp_degc * days);
        sum_also(out, "thermal growth, g^(1/3) per 1000 degC d", thermal, "");
        sum_work(out, "1000 (W2^(1/3) - W1^(1/3))/(T days) = %.4g", thermal);
    }
    return ERR_NONE;
}

static Err tank_density(const SumInputs *in, SumAnswer *out)
{
    double count = sum_number(in, "count");
    double weight_g = sum_number(in, "weight_g");
    double volume_m3 = sum_number(in, "volume_m3");
    double limit_kg_m3 = sum_number(in, "limit_kg_m3");
    double fish_kg = count * weight_g / 1000.0;
    double room_kg = limit_kg_m3 * volume_m3 - fish_kg;
    sum_is(out, "density", fish_kg / volume_m3, "kg/m3");
    sum_also(out, "fish", fish_kg, "kg");
    sum_also(out, "room left", room_kg, "kg");
    sum_also(out, "room left for fish of this weight",
             floor(1000.0 * room_kg / weight_g + 1e-9), "fish");
    sum_work(out, "%.4g x %.4g g / %.4g m3 = %.4g kg/m3", count, weight_g,
             volume_m3, fish_kg / volume_m3);
    sum_work(out, "small farms with gravel beds 10-20 kg/m3; 60-70 only with "
                  "strong air and solids taken out");
    if (room_kg < 0.0) {
        sum_caution(out,
                    "Over %.4g kg/m3 by %.4g kg: move or sell before it grows "
                    "more; a pump that stops leaves them minutes.",
                    limit_kg_m3, -room_kg);
    }
    return ERR_NONE;
}

static Err feed_conversion(const SumInputs *in, SumAnswer *out)
{
    double feed_kg = sum_number(in, "feed_kg");
    double count = sum_number(in, "count");
    double gain_kg =
        (sum_number(in, "mean_after_g") - sum_number(in, "mean_before_g")) *
            count / 1000.0 +
        sum_number(in, "dead_kg") + sum_number(in, "sold_kg");
    if (!(gain_kg > 0.0)) {
        return err_make(ERR_RANGE,
                        "the fish gained %.4g kg: without a gain there is no "
                        "conversion; weigh again, count the dead and the sold",
                        gain_kg);
    }
    double ratio = feed_kg / gain_kg;
    sum_is(out, "feed conversion", ratio, "kg/kg");
    sum_also(out, "gained", gain_kg, "kg");
    sum_work(out,
             "gain = (%.4g - %.4g) g x %.4g / 1000 + dead %.4g + sold "
             "%.4g = %.4g kg",
             sum_number(in, "mean_after_g"), sum_number(in, "mean_before_g"),
             count, sum_number(in, "dead_kg"), sum_number(in, "sold_kg"),
             gain_kg);
    sum_work(out, "%.4g kg / %.4g kg = %.3f; published 1.7-1.8, plan 1.4-1.8",
             feed_kg, gain_kg, ratio);
    if (ratio > 2.2) {
        sum_caution(out, "Over 2.2: cold, waste, dead fish not counted, or a "
                         "wrong weight?");
    } else if (ratio < 1.0) {
        sum_caution(out, "Under 1.0 is hardly possible on dry feed: a wrong "
                         "weight or count?");
    }
    return ERR_NONE;
}

/* Share of its weight that a fish is fed a day: told, or by the law. */
static Err fed_frac(const SumInputs *in, Figure *out)
{
    if (sum_is_given(in, "ration_pct")) {
        double told = sum_number(in, "ration_pct") / 100.0;
        *out = sum_range(told, told, told);
        return ERR_NONE;
    }
    const FishSpecies *species = NULL;
    TRY(species_of(in, &species));
    double temp_degc = sum_number(in, "temp_degc");
    Figure fed =
        sum_scaled(fish_warmth_frac(species, temp_degc),
                   fish_ration_frac(species, sum_number(in, "weight_g")));
    if (!(fed.low > 0.0)) {
        return err_make(ERR_RANGE,
                        "at temp_degc=%.4g these fish take %s: no weight of "
                        "fish carries the beds for sure",
                        temp_degc,
                        fed.value > 0.0 ? "little or no feed" : "no feed");
    }
    *out = fed;
    return ERR_NONE;
}

static Err fish_for_beds(const SumInputs *in, SumAnswer *out)
{
    double feed_kg_d = sum_number(in, "feed_g_d") / 1000.0;
    Figure fed = {0};
    TRY(fed_frac(in, &fed));
    Figure fish_kg = sum_range(feed_kg_d / fed.value, feed_kg_d / fed.high,
                               feed_kg_d / fed.low);
    sum_is_figure(out, "fish needed", fish_kg, "kg");
    sum_also_figure(out, "fed a day", sum_scaled(fed, 100.0), "% of weight");
    sum_work(out, "feed / share of weight a day = %.4g kg / %.4g = %.4g kg",
             feed_kg_d, fed.value, fish_kg.value);
    if (sum_is_given(in, "volume_m3")) {
        double volume_m3 = sum_number(in, "volume_m3");
        sum_also_figure(out, "density", sum_scaled(fish_kg, 1.0 / volume_m3),
                        "kg/m3");
        sum_work(out, "%.4g kg / %.4g m3 = %.4g kg/m3", fish_kg.value,
                 volume_m3, fish_kg.value / volume_m3);
    }
    return ERR_NONE;
}

static Err fish_a_year(const SumInputs *in, SumAnswer *out)
{
    double gain_kg_d =
        sum_number(in, "feed_kg_d") / sum_number(in, "conversion");
    double fish_week =
        7.0 * gain_kg_d / (sum_number(in, "sale_weight_g") / 1000.0);
    sum_is(out, "fish that a year's feed grows", 365.0 * gain_kg_d, "kg");
    sum_also(out, "grown a day", gain_kg_d, "kg/d");
    sum_also(out, "fish for sale a week", fish_week, "fish/week");
    sum_work(out,
             "%.4g kg/d / %.4g = %.4g kg/d; x 365 = %.4g kg; %.4g fish "
             "of %.4g g a week",
             sum_number(in, "feed_kg_d"), sum_number(in, "conversion"),
             gain_kg_d, 365.0 * gain_kg_d, fish_week,
             sum_number(in, "sale_weight_g"));
    return ERR_NONE;
}

static Err fry_to_keep(const SumInputs *in, SumAnswer *out)
{
    double sale_count = sum_number(in, "sale_count");
    double fry_frac = 1.0 - sum_number(in, "fry_loss_pct") / 100.0;
    double young_frac = 1.0 - sum_number(in, "fingerling_loss_pct") / 100.0;
    double grow_frac = 1.0 - sum_number(in, "growout_loss_pct") / 100.0;
    double fry = sale_count / (fry_frac * young_frac * grow_frac);
    sum_is(out, "fry to keep", ceil(fry - 1e-9), "fish");
    sum_also(out, "fingerlings",
             ceil(sale_count / (young_frac * grow_frac) - 1e-9), "fish");
    sum_also(out, "fish into grow-out", ceil(sale_count / grow_frac - 1e-9),
             "fish");
    sum_work(out, "%.4g / (%.4g x %.4g x %.4g) = %.5g", sale_count, fry_frac,
             young_frac, grow_frac, fry);
    if (sum_is_given(in, "temp_degc")) {
        double temp_degc = sum_number(in, "temp_degc");
        const FishSpecies *species = NULL;
        TRY(species_of(in, &species));
        Figure each = fish_fry_per_female(species, temp_degc);
        if (!(each.value > 0.0)) {
            return err_make(ERR_RANGE,
                            "%s do not spawn on the farm at temp_degc=%.4g",
                            species->title, temp_degc);
        }
        sum_also_figure(out, "females for one cycle of 16-20 days",
                        sum_range(ceil(fry / each.value - 1e-9),
                                  ceil(fry / each.high - 1e-9),
                                  ceil(fry / each.low - 1e-9)),
                        "fish");
        sum_work(out,
                 "a female gives %.0f (%.0f-%.0f) fry a cycle at %.4g "
                 "degC",
                 each.value, each.low, each.high, temp_degc);
        sum_source(out, each.source);
    }
    return ERR_NONE;
}

static Err purge_date(const SumInputs *in, SumAnswer *out)
{
    int32_t sale_on = sum_day(in, "sale_on");
    int32_t days = sum_count(in, "purge_days");
    sum_is(out, "last feed the day before; off feed from", sale_on - days,
           "date");
    sum_work(out, "%s less %d days = %s", sum_date(out, sale_on), (int)days,
             sum_date(out, sale_on - days));
    sum_work(out, "handbook 3-5 days, in the trade 5-14");
    if (sum_is_given(in, "sale_weight_g")) {
        /* Fish lose 2-5 % in a purge: common practice. */
        double sale_g = sum_number(in, "sale_weight_g");
        sum_also_figure(out, "weight to net at",
                        sum_range(sale_g / 0.965, sale_g / 0.98, sale_g / 0.95),
                        "g");
        sum_work(out, "they lose 2-5 %%: %.4g g / 0.965 = %.4g g", sale_g,
                 sale_g / 0.965);
    }
    sum_caution(out, "In separate, clean, aerated water; in a shared tank the "
                     "unsold starve and the beds lose their feed. Welfare "
                     "rules of your place come first.");
    return ERR_NONE;
}

/* Keys that several of these take. ANY_WEIGHT may lie beyond the laws. */
#define SPECIES                                                                \
    WORD_USUAL(                                                                \
        "species", "nile-tilapia",                                             \
        "nile-tilapia, mozambique-tilapia, common-carp or african-catfish")
#define TANK_COUNT NEED("count", "", 0, 1e7, "fish in the tank")
#define ANY_WEIGHT NEED("weight_g", "g", 0.001, 100000, "mean weight of a fish")
#define WATER NEED("temp_degc", "degC", 0, 45, "temperature of the water")

/* clang-format off */
const Sum SUMS_FISH[] = {
    {.name = "oxygen-left", .run = oxygen_left,
     .purpose = "minutes until oxygen is low when pump and air stop",
     .keys = KEYS(
        NEED("density_kg_m3", "kg/m3", 0.01, 1000, "fish in the tank"),
        ANY_WEIGHT,
        WATER,
        NEED("oxygen_mg_l", "mg/L", 0, 40, "oxygen now"),
        USUAL("limit_mg_l", "mg/L", 3, 0, 20, "oxygen that is too low"),
        MAY("fed_hours_ago", "h", 0, 1000,
            "since the last meal; not given: taken as just fed"),
        USUAL("bacteria_mg_l_h", "mg/L/h", 0, 0, 50,
              "used by bacteria in the tank")),
     .source = "SCIREP2021 BOYD1985 FRANKLIN1995",
     .example = "density_kg_m3=10.9 weight_g=290 temp_degc=26 oxygen_mg_l=5.8 "
                "limit_mg_l=3 fed_hours_ago=9 bacteria_mg_l_h=0"},
    {.name = "feed-today", .run = feed_today,
     .purpose = "feed for a tank today",
     .keys = KEYS(
        TANK_COUNT,
        NEED("weight_g", "g", 0.02, 5000, "mean weight of a fish"),
        WATER,
        SPECIES),
     .source = "SRAC282 SRAC_TILAPIA YI1998",
     .example = "count=130 weight_g=420 temp_degc=26 species=nile-tilapia"},
    {.name = "days-to-weight", .run = days_to_weight,
     .purpose = "days until fish reach a weight in steady water",
     .keys = KEYS(
        NEED("from_g", "g", 0.02, 5000, "mean weight now"),
        NEED("to_g", "g", 0.02, 5000, "mean weight wanted"),
        WATER,
        SPECIES),
     .source = "YI1998 SRAC282 SRAC_TILAPIA",
     .example = "from_g=50 to_g=500 temp_degc=28 species=nile-tilapia"},
    {.name = "growth-rate", .run = growth_rate,
     .purpose = "growth between two weighings",
     .keys = KEYS(
        NEED("from_g", "g", 0.001, 100000, "mean weight at first"),
        NEED("to_g", "g", 0.001, 100000, "mean weight at last"),
        NEED("days", "d", 0.5, 5000, "between the two"),
        MAY("temp_degc", "degC", 1, 45, "mean temperature, for thermal growth")),
     .source = "",
     .example = "from_g=79.2 to_g=813.8 days=168 temp_degc=28"},
    {.name = "tank-density", .run = tank_density,
     .purpose = "kilos of fish in a cubic metre, and the room left",
     .keys = KEYS(
        TANK_COUNT,
        ANY_WEIGHT,
        NEED("volume_m3", "m3", 0.01, 1e5, "water in the tank"),
        USUAL("limit_kg_m3", "kg/m3", 20, 0.1, 150, "most you allow")),
     .source = "FAO589 RAKOCY2004",
     .example = "count=150 weight_g=290 volume_m3=4"},
    {.name = "feed-conversion", .run = feed_conversion,
     .purpose = "feed given over weight gained",
     .keys = KEYS(
        NEED("feed_kg", "kg", 0, 1e6, "feed given between two weighings"),
        NEED("count", "", 1, 1e7, "fish there at the end"),
        NEED("mean_before_g", "g", 0.001, 100000, "mean weight before"),
        NEED("mean_after_g", "g", 0.001, 100000, "mean weight after"),
        USUAL("dead_kg", "kg", 0, 0, 1e6, "what those that died had gained"),
        USUAL("sold_kg", "kg", 0, 0, 1e6, "what those that left had gained")),
     .source = "RAKOCY2004",
     .example = "feed_kg=38 count=150 mean_before_g=230 mean_after_g=375 "
                "dead_kg=0.4"},
    {.name = "fish-for-beds", .run = fish_for_beds,
     .purpose = "fish whose feed carries the beds",
     .keys = KEYS(
        NEED("feed_g_d", "g/d", 0.01, 1e7, "feed that the beds want"),
        MAY("ration_pct", "%", 0.1, 30, "fed a day, of weight; or from these:"),
        USUAL("weight_g", "g", 200, 0.02, 5000, "mean weight of a fish"),
        USUAL("temp_degc", "degC", 26, 0, 45, "temperature of the water"),
        SPECIES,
        MAY("volume_m3", "m3", 0.01, 1e5, "of the tanks, for the density")),
     .source = "SRAC282",
     .example = "feed_g_d=4800 ration_pct=1.5 volume_m3=16"},
    {.name = "fish-a-year", .run = fish_a_year,
     .purpose = "fish that a steady feed grows",
     .keys = KEYS(
        NEED("feed_kg_d", "kg/d", 0, 10000, "feed a day, mean of the year"),
        USUAL("conversion", "kg/kg", 1.7, 0.8, 5, "feed over gain"),
        NEED("sale_weight_g", "g", 1, 100000, "weight of a fish sold")),
     .source = "RAKOCY2004",
     .example = "feed_kg_d=4.8 sale_weight_g=500"},
    {.name = "fry-to-keep", .run = fry_to_keep,
     .purpose = "fry needed for a number of fish sold",
     .keys = KEYS(
        NEED("sale_count", "", 1, 1e7, "fish to sell"),
        USUAL("fry_loss_pct", "%", 20, 0, 95, "lost as fry"),
        USUAL("fingerling_loss_pct", "%", 5, 0, 95, "lost as fingerlings"),
        USUAL("growout_loss_pct", "%", 2, 0, 95, "lost in grow-out"),
        MAY("temp_degc", "degC", 0, 45, "of the breeders' water, for females"),
        SPECIES),
     .source = "",
     .example = "sale_count=40 temp_degc=27"},
    {.name = "purge-date", .run = purge_date,
     .purpose = "when fish for sale go off feed",
     .keys = KEYS(
        DAY("sale_on", "day of the sale"),
        COUNT_USUAL("purge_days", 4, 1, 21, "days off feed"),
        MAY("sale_weight_g", "g", 1, 100000, "weight to sell at")),
     .source = "FAO589",
     .example = "sale_on=2027-04-15 purge_days=4 sale_weight_g=450"},
    {.name = NULL},
};
/* clang-format on */
