/* The rules by which readings are judged, and what each reading lacks. */
#include "work/judge.h"

#include "base/tongue.h"

#define OVER(quantity, limit)                                                  \
    {                                                                          \
        JUDGE_##quantity, JUDGE_OVER, limit                                    \
    }
#define UNDER(quantity, limit)                                                 \
    {                                                                          \
        JUDGE_##quantity, JUDGE_UNDER, limit                                   \
    }

/* The lists are laid out by hand. Source "": common practice of the trade. */
/* clang-format off */
const JudgeRule JUDGE_RULES[] = {
    /* ---- Cannot all be true ---- */
    {.id = "oxygen-absurd", .class = JUDGE_CLASH,
     .tests = {OVER(FULL_SHARE, "oxygen-absurd")},
     .means = SAY("Oxygen {oxygen} mg/L at {temp} degC would be {full_pct} % of what "
              "such water holds ({full} mg/L): one of the two is wrong, or the "
              "probe tells percent."),
     .next = SAY("oxygen again, with the probe set in moist air; temperature with "
             "another thermometer"),
     .source = "BENSON1984"},
    {.id = "ph-over-air", .class = JUDGE_CLASH,
     .tests = {OVER(PH_OVER_AIR, "ph-over-air")},
     .means = SAY("pH {ph} does not go with alkalinity {alkalinity} mg/L: in air "
              "such water comes to pH {ph_air}. One of the two is wrong, or "
              "algae or a base has just taken its carbon dioxide."),
     .next = SAY("pH with a fresh buffer, alkalinity with a fresh kit, in the "
             "morning before light"),
     .source = "PLUMMER1982"},
    {.id = "alkalinity-short", .class = JUDGE_CLASH,
     .tests = {UNDER(CARBON, NULL)},
     .means = SAY("Alkalinity {alkalinity} mg/L is less than pH {ph} alone gives: "
              "one of the two is wrong."),
     .next = SAY("pH and alkalinity again"),
     .source = "PLUMMER1982"},
    {.id = "co2-absurd", .class = JUDGE_CLASH,
     .tests = {OVER(CO2, "co2-absurd")},
     .means = SAY("pH {ph} with alkalinity {alkalinity} mg/L would be {co2} mg/L of "
              "carbon dioxide: fish would lie on their side. One of the two is "
              "wrong."),
     .next = SAY("pH and alkalinity again, in one sample, at once"),
     .source = "PLUMMER1982"},
    {.id = "temp-apart", .class = JUDGE_CLASH,
     .tests = {OVER(TEMP_APART, "temp-apart")},
     .feed = FEED_NONE,
     .means = SAY("{temp} degC is {temp_apart} K from the loop's other tanks: "
              "heater, flow, or the thermometer?"),
     .act = SAY("Look at flow and fish before you feed."),
     .again = SAY("when flow and temperature are right"),
     .source = ""},
    {.id = "temp-jump", .class = JUDGE_CLASH,
     .tests = {OVER(TEMP_JUMP, "temp-jump")}, .unless = "temp-apart",
     .means = SAY("{temp} degC is {temp_jump} K from what was read here within half "
              "a day: water hardly moves so fast."),
     .next = SAY("temperature with another thermometer"),
     .source = ""},

    /* ---- Danger ---- */
    {.id = "oxygen-danger", .class = JUDGE_DANGER,
     .tests = {UNDER(OXYGEN, "oxygen-danger"), OVER(HAS_FISH, NULL)},
     .feed = FEED_NONE,
     .means = SAY("Oxygen {oxygen} mg/L: fish are in danger now."),
     .act = SAY("Air first: blower, splash, flow. See leat emergency."),
     .again = SAY("after a whole day over 5 mg/L"),
     .next = SAY("oxygen every 15 minutes, by hand, dry"),
     .source = "TSADIK1987"},
    {.id = "nh3-danger", .class = JUDGE_DANGER,
     .tests = {OVER(NH3_DEADLY_SHARE, "nh3-danger"), OVER(HAS_FISH, NULL)},
     .feed = FEED_NONE,
     .means = SAY("Un-ionised ammonia {nh3} mg/L NH3-N is {nh3_deadly_share} of what "
              "kills half of such fish in four days."),
     .act = SAY("More air, change water in parts, no base of any kind. Fish that "
            "fail: vet."),
     .again = SAY("under {nh3_caution} mg/L NH3-N on two days"),
     .next = SAY("ammonia, pH and temperature every 4 hours"),
     .source = "ABDALLA1998 BENLI2005"},
    {.id = "nitrite-danger", .class = JUDGE_DANGER,
     .tests = {OVER(NITRITE_DEADLY_SHARE, "nitrite-danger"),
               OVER(HAS_FISH, NULL)},
     .feed = FEED_NONE,
     .means = SAY("Nitrite {nitrite} mg/L NO2-N at this chloride is "
              "{nitrite_deadly_share} of what kills half of small tilapia in "
              "four days; gills brown."),
     .act = SAY("More air, change water in parts. Salt protects, and harms plants: "
            "ask a fish vet first."),
     .again = SAY("under {nitrite_caution} mg/L NO2-N on two days"),
     .next = SAY("nitrite and chloride twice a day"),
     .source = "WANG2006"},
    {.id = "cold-danger", .class = JUDGE_DANGER,
     .tests = {UNDER(OVER_DANGER_K, NULL), OVER(HAS_FISH, NULL)},
     .feed = FEED_NONE,
     .means = SAY("{temp} degC: young fish begin to die of cold."),
     .act = SAY("Heat, lids on, beds off at night. No netting, no moving. See leat "
            "emergency heater=."),
     .again = SAY("over {feed_degc} degC for two days"),
     .next = SAY("temperature every hour"),
     .source = "CHAROKARISA2005"},
    {.id = "ph-acid", .class = JUDGE_DANGER,
     .tests = {UNDER(PH, "ph-acid"), OVER(HAS_FISH, NULL)},
     .feed = FEED_NONE,
     .means = SAY("pH {ph} harms fish, roots and the gravel's life."),
     .act = SAY("Bring it up slowly, 0.2 a day, with ammonia worked out after each "
            "step (leat sum base-dose)."),
     .again = SAY("over pH 6.2 with ammonia and nitrite good"),
     .next = SAY("alkalinity and ammonia now; pH before each portion"),
     .source = ""},

    /* ---- Stop feeding ---- */
    {.id = "oxygen-stop", .class = JUDGE_STOP,
     .tests = {UNDER(OXYGEN, "oxygen-stop"), OVER(HAS_FISH, NULL)},
     .unless = "oxygen-danger", .feed = FEED_NONE,
     .means = SAY("Oxygen {oxygen} mg/L: fed fish would use more than there is."),
     .act = SAY("More air; screens, stones and flow; are there too many fish?"),
     .again = SAY("over 5 mg/L for a day"),
     .next = SAY("oxygen every hour, also 2-6 h after the next meal and at dawn"),
     .source = "TRANDUY2012"},
    {.id = "nh3-stop", .class = JUDGE_STOP,
     .tests = {OVER(NH3_SHARE, "nh3-stop"), OVER(HAS_FISH, NULL)},
     .unless = "nh3-danger", .feed = FEED_NONE,
     .means = SAY("Un-ionised ammonia {nh3} mg/L NH3-N is over {nh3_caution}, the "
              "caution for the lightest fish here."),
     .act = SAY("Stop feeding, more air, change part of the water; no base today: a "
            "higher pH frees more of it. Spoiled feed or dead fish? Out."),
     .again = SAY("under {nh3_caution} mg/L NH3-N two days running: then half"),
     .next = SAY("ammonia, pH and temperature morning and evening"),
     .source = "IFAS_FA16 EMERSON1975"},
    {.id = "nitrite-stop", .class = JUDGE_STOP,
     .tests = {OVER(NITRITE_SHARE, "nitrite-stop"), OVER(HAS_FISH, NULL)},
     .unless = "nitrite-danger", .feed = FEED_NONE,
     .means = SAY("Nitrite {nitrite} mg/L NO2-N is over {nitrite_caution}, the "
              "caution at this chloride."),
     .act = SAY("Stop feeding, more air, change part of the water."),
     .again = SAY("under {nitrite_caution} mg/L NO2-N two days running: then half"),
     .next = SAY("nitrite and chloride daily"),
     .source = "WANG2006"},
    {.id = "cold-stop", .class = JUDGE_STOP,
     .tests = {UNDER(OVER_FEED_K, NULL), OVER(HAS_FISH, NULL)},
     .unless = "cold-danger", .feed = FEED_NONE,
     .means = SAY("{temp} degC: under {feed_degc} degC these fish take no feed; it "
              "would rot."),
     .act = SAY("No netting, no moving."),
     .again = SAY("over {feed_degc} degC for two days, a little at first"),
     .source = "SRAC_TILAPIA"},
    {.id = "heat-stop", .class = JUDGE_STOP,
     .tests = {UNDER(UNDER_HEAT_K, NULL), OVER(HAS_FISH, NULL)},
     .feed = FEED_NONE,
     .means = SAY("{temp} degC: too hot to feed; water this warm holds {full} mg/L "
              "of oxygen at the most."),
     .act = SAY("Shade, more air, flow by night; cold water only by the hour's "
            "limit (leat sum top-up-limit)."),
     .again = SAY("when it is two degrees cooler"),
     .next = SAY("oxygen at dawn and 2-6 h after meals"),
     .source = ""},
    {.id = "co2-stop", .class = JUDGE_STOP,
     .tests = {OVER(CO2, "co2-stop"), OVER(HAS_FISH, NULL)},
     .unless = "co2-absurd", .feed = FEED_NONE,
     .means = SAY("Carbon dioxide about {co2} mg/L by pH and alkalinity: more than "
              "tilapia are kept in."),
     .act = SAY("More air and splash, vents open above the tanks; no base: it is "
            "not lack of base."),
     .again = SAY("under 30 mg/L"),
     .next = SAY("pH before and after a glass of it has been shaken in air: a rise "
             "says carbon dioxide"),
     .source = "TIMMONS2010"},

    /* ---- Watch ---- */
    {.id = "oxygen-watch", .class = JUDGE_WATCH,
     .tests = {UNDER(OXYGEN, "oxygen-watch"), OVER(HAS_FISH, NULL)},
     .unless = "oxygen-stop", .feed = FEED_HALF,
     .means = SAY("Oxygen {oxygen} mg/L: large fish eat less, and nothing is netted "
              "under 5."),
     .act = SAY("More air before more feed."),
     .next = SAY("oxygen 2-6 h after the last meal and at dawn"),
     .source = "TRANDUY2012"},
    {.id = "nh3-watch", .class = JUDGE_WATCH,
     .tests = {OVER(NH3_SHARE, "nh3-watch"), OVER(HAS_FISH, NULL)},
     .unless = "nh3-stop", .feed = FEED_HALF,
     .means = SAY("Un-ionised ammonia {nh3} mg/L NH3-N is over half of the caution "
              "({nh3_caution})."),
     .act = SAY("Half feed; no base until it falls."),
     .next = SAY("ammonia and pH tomorrow"),
     .source = "IFAS_FA16"},
    {.id = "nitrite-watch", .class = JUDGE_WATCH,
     .tests = {OVER(NITRITE_SHARE, "nitrite-watch"), OVER(HAS_FISH, NULL)},
     .unless = "nitrite-stop", .feed = FEED_HALF,
     .means = SAY("Nitrite {nitrite} mg/L NO2-N is over half of the caution "
              "({nitrite_caution})."),
     .act = SAY("Half feed, more air."),
     .next = SAY("nitrite and chloride tomorrow"),
     .source = "WANG2006"},
    {.id = "oxygen-over", .class = JUDGE_WATCH,
     .tests = {OVER(FULL_SHARE, "oxygen-over"), OVER(HAS_FISH, NULL)},
     .unless = "oxygen-absurd",
     .means = SAY("Oxygen at {full_pct} % of saturation: algae by day, or air drawn "
              "in before a pump; at night it may fall far."),
     .next = SAY("oxygen before light"),
     .source = ""},
    {.id = "ph-high", .class = JUDGE_WATCH,
     .tests = {OVER(PH, "ph-high")},
     .feed = FEED_HALF,
     .means = SAY("pH {ph}: any ammonia is mostly poison here, iron is out of reach "
              "and the gravel slows."),
     .act = SAY("No base. Shade algae. Acid only by small trials: hard water does "
            "nothing for long and then falls off a cliff."),
     .next = SAY("ammonia; alkalinity of water and source"),
     .source = "FAO589"},
    {.id = "ph-lockout", .class = JUDGE_WATCH,
     .tests = {OVER(PH, "ph-lockout")}, .unless = "ph-high",
     .means = SAY("pH {ph}: iron and phosphate fall out, and EDTA and DTPA chelates "
              "fail; leaves pale first."),
     .next = SAY("iron; look at the newest leaves"),
     .source = ""},
    {.id = "alkalinity-least", .class = JUDGE_WATCH,
     .tests = {UNDER(ALKALINITY, "alkalinity-least")},
     .means = SAY("Alkalinity {alkalinity} mg/L: pH can fall within days."),
     .act = SAY("Base in small portions, bicarbonate first, if ammonia allows."),
     .next = SAY("pH daily, alkalinity every second day"),
     .source = "BOYD_ALKALINITY"},
    {.id = "alkalinity-low", .class = JUDGE_WATCH,
     .tests = {UNDER(ALKALINITY, "alkalinity-low")},
     .unless = "alkalinity-least",
     .means = SAY("Alkalinity {alkalinity} mg/L is low: it, not pH, is the early "
              "sign."),
     .next = SAY("alkalinity weekly"),
     .source = "BOYD_ALKALINITY"},
    {.id = "co2-watch", .class = JUDGE_WATCH,
     .tests = {OVER(CO2, "co2-watch"), OVER(HAS_FISH, NULL)},
     .unless = "co2-stop",
     .means = SAY("Carbon dioxide about {co2} mg/L by pH and alkalinity: growth "
              "begins to suffer from 20."),
     .act = SAY("More air and splash before any base."),
     .source = "TIMMONS2010"},
    {.id = "nitrate-high", .class = JUDGE_WATCH,
     .tests = {OVER(NITRATE, "nitrate-high")},
     .feed = FEED_HALF,
     .means = SAY("Nitrate {nitrate} mg/L NO3-N: young tilapia lose growth beyond "
              "500."),
     .act = SAY("More plants or fewer fish; change part of the water, to land that "
            "may take it."),
     .source = "MONSEES2017"},
    {.id = "nitrate-gathers", .class = JUDGE_WATCH,
     .tests = {OVER(NITRATE, "nitrate-gathers")}, .unless = "nitrate-high",
     .means = SAY("Nitrate {nitrate} mg/L gathers: more is fed than the plants "
              "take."),
     .act = SAY("Plant what is empty before cutting feed."),
     .source = ""},
    {.id = "nitrate-short", .class = JUDGE_WATCH,
     .tests = {UNDER(NITRATE, "nitrate-short")},
     .means = SAY("Nitrate {nitrate} mg/L: the plants take all of it; leaves may "
              "pale. Feed is never raised for the beds."),
     .source = ""},
    {.id = "iron-short", .class = JUDGE_WATCH,
     .tests = {UNDER(IRON, "iron-short")},
     .means = SAY("Iron {iron} mg/L is short: young leaves pale first."),
     .act = SAY("Chelate by its label's strength, in portions (leat sum "
            "iron-dose)."),
     .source = "RAKOCY2007"},
    {.id = "chloride-salt", .class = JUDGE_WATCH,
     .tests = {OVER(CHLORIDE, "chloride-salt")},
     .means = SAY("Chloride {chloride} mg/L: salt-shy crops begin to suffer."),
     .source = ""},

    /* ---- Likely causes ---- */
    {.id = "ph-stall", .class = JUDGE_CAUSE,
     .tests = {UNDER(PH, "ph-stall"), OVER(TAN, "tan-sign")},
     .feed = FEED_NONE,
     .means = SAY("The fallen pH stalls nitrification: at pH {ph} gravel turns about "
              "{nitrify_pct} % of what it does at 7.5. Ammonia rises because "
              "base is missing, not because there are too many fish."),
     .act = SAY("Feed off; pH up by 0.2 a day at most, bicarbonate first, NH3 worked "
            "out before each portion."),
     .again = SAY("over pH 6.6 with total ammonia falling two days running: then "
              "half"),
     .next = SAY("pH and ammonia daily, before each portion"),
     .source = "TYSON2008"},
    {.id = "alkalinity-eaten", .class = JUDGE_CAUSE,
     .tests = {UNDER(PH, "ph-low"), UNDER(ALKALINITY, "alkalinity-low")},
     .means = SAY("Nitrification has eaten the alkalinity (7 g of it for each gram "
              "of ammonia): base is due, daily and little."),
     .source = "EBELING2006"},
    {.id = "carbon-dioxide", .class = JUDGE_CAUSE,
     .tests = {UNDER(PH, "ph-low"), OVER(ALKALINITY, "alkalinity-low"),
               OVER(CO2, "co2-watch")},
     .unless = "co2-absurd",
     .means = SAY("pH is low with alkalinity enough: carbon dioxide, not lack of "
              "base. Air and splash, no base."),
     .source = "PLUMMER1982"},
    {.id = "both-steps", .class = JUDGE_CAUSE,
     .tests = {OVER(TAN, "tan-sign"), OVER(NITRITE, "nitrite-sign"),
               OVER(PH, "ph-stall")},
     .means = SAY("Ammonia and nitrite together: the gravel does not follow. New, "
              "just cleaned, dried out or chlorinated beds; too little oxygen "
              "in them; more feed than before; something dead."),
     .source = ""},
    {.id = "first-step", .class = JUDGE_CAUSE,
     .tests = {OVER(TAN, "tan-sign"), UNDER(NITRITE, "nitrite-sign"),
               OVER(PH, "ph-stall")},
     .means = SAY("Ammonia without nitrite: feed or a dead fish since yesterday, "
              "beds that do not flood, or gravel that has hardly begun."),
     .act = SAY("Does every bed flood and drain? Count the fish."),
     .source = ""},
    {.id = "second-step", .class = JUDGE_CAUSE,
     .tests = {OVER(NITRITE, "nitrite-sign"), UNDER(TAN, "tan-sign")},
     .means = SAY("Nitrite without ammonia: the second step lags; beds of three to "
              "six weeks, after a cleaning, or short of oxygen."),
     .source = ""},
    {.id = "piled", .class = JUDGE_CAUSE,
     .tests = {OVER(TAN, "tan-piled"), OVER(PH, "ph-stall")},
     .means = SAY("Total ammonia {tan} mg/L is more than gravel in order leaves; "
              "count fish, feed, and beds that flood."),
     .source = "FAO589"},
    {.id = "hard-source", .class = JUDGE_CAUSE,
     .tests = {OVER(SOURCE_ALKALINITY, "alkalinity-hard"),
               OVER(ALKALINITY, "alkalinity-low"), OVER(PH, "ph-low")},
     .means = SAY("Hard source water ({source_alkalinity} mg/L): each top-up brings "
              "alkalinity, no base is due; potassium and calcium come as other "
              "salts."),
     .source = ""},
    {.id = NULL},
};

const JudgeNeed JUDGE_NEEDS[] = {
    {JUDGE_TAN, JUDGE_PH, SAY("pH in the same sample: total ammonia says nothing "
                          "without it")},
    {JUDGE_TAN, JUDGE_NITRITE, SAY("nitrite: ammonia turns into it")},
    {JUDGE_NITRITE, JUDGE_CHLORIDE, SAY("chloride: nitrite is judged with it (none "
                                    "was taken)")},
    {JUDGE_PH, JUDGE_ALKALINITY, SAY("alkalinity: the early sign behind pH")},
    {JUDGE_PH, JUDGE_TAN, SAY("ammonia, before any base")},
    {JUDGE_ALKALINITY, JUDGE_PH, SAY("pH in the same sample")},
    {JUDGE_NITRATE, JUDGE_NITRITE, SAY("nitrite in the same sample")},
    {JUDGE_TEMP, JUDGE_OXYGEN, SAY("oxygen")},
    {JUDGE_TEMP, JUDGE_COUNT, NULL},
};
/* clang-format on */
