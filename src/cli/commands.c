/* The one table of commands. */
#include "cli/commands.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"

/* A list of specs: {name, value or NULL, meaning, is it required}. */
#define SPECS(...)                                                             \
    (const ArgumentSpec[])                                                     \
    {                                                                          \
        __VA_ARGS__,                                                           \
        {                                                                      \
            NULL, NULL, NULL, false                                            \
        }                                                                      \
    }
#define LINES(...)                                                             \
    (const char *const[])                                                      \
    {                                                                          \
        __VA_ARGS__, NULL                                                      \
    }

/* The option of commands that people on the farm read. */
#define LANGUAGE                                                               \
    {                                                                          \
        "language", "pt", "say it in es, fr, pt or ar (drafts)", false         \
    }

/* clang-format off */
static const Command COMMANDS[] = {
    {
        .name = "new", .run = cmd_new,
        .purpose = "write the demo farm, or blank tables, into a new folder",
        .takes.words = SPECS({"DIR", NULL, "a new or empty folder", true}),
        .takes.options = SPECS(
            {"blank", NULL, "tables with headers only, and examples/", false}),
        .examples = LINES("leat new farm", "leat new farm --blank"),
    },
    {
        .name = "open", .run = cmd_open,
        .purpose = "open the farm in a browser, here or on other devices too",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"port", "8137", "where it listens", false},
            {"lan", NULL, "on other devices too, over TLS; people log in",
             false},
            {"cert", "FILE", "with --lan: a certificate instead of its own",
             false},
            {"key", "FILE", "and its key", false},
            {"host", "farm.example", "with --lan: one more name it has", false},
            {"today", "2027-04-07", "as if it were that day", false}),
        .examples = LINES("leat open farm", "leat open farm --port 8200",
                          "leat open farm --lan"),
    },
    {
        .name = "people", .run = cmd_people,
        .purpose = "tell who may log in; add, let go or erase somebody",
        .takes.words = SPECS(
            {"DIR", NULL, "the farm's folder", true},
            {"WHAT", NULL, "add, leave or erase; without it all are listed", false}),
        .takes.facts = SPECS(
            {"name", "Ana", "what they log in with", false},
            {"role", "hand", "owner, grower, hand or reader", false},
            {"hand", "ana", "who that is in hands.csv", false},
            {"language", "pt", "en, es, fr, pt or ar", false}),
        .examples = LINES("leat people farm",
                          "leat people farm add name=Ana role=owner hand=ana",
                          "leat people farm leave name=Ana",
                          "leat people farm erase name=Ana"),
    },
    {
        .name = "check", .run = cmd_check,
        .purpose = "tell every fault of a farm's folder, with its place",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"all", NULL, "print all faults, not only the first 1,000", false},
            {"json", NULL, "print them as JSON", false}),
        .examples = LINES("leat check farm", "leat check farm --all --json"),
    },
    {
        .name = "sum", .run = cmd_sum,
        .purpose = "answer one calculation, with its working",
        .takes.words = SPECS({"NAME", NULL, "a sum; without it all are listed",
                              false}),
        .takes.takes_any_fact = true,
        .takes.options = SPECS({"json", NULL, "print the answer as JSON",
                                false}),
        .examples = LINES(
            "leat sum", "leat sum unionised-ammonia",
            "leat sum unionised-ammonia temp_degc=24 ph=8.0 tan_mg_l=1 --json"),
    },
    {
        .name = "foresee", .run = cmd_foresee,
        .purpose = "tell what the weeks bring: picks, fish, feed, water, air",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"way", "lettuce-head", "one way, and its days by month and bed",
             false},
            {"tank", "A", "one tank, and its batches", false},
            {"loop", "loop-1", "one loop, and its tanks", false},
            {"over_g", "450", "fish are ready from this weight", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "from the week of that day", false},
            {"weeks", "26", "so many weeks, up to 104; with --years 52", false},
            {"years", "400", "run so many possible years: how sure each week "
                             "is, what breaks first", false},
            {"seed", "1", "draw other possible years", false},
            {"keep", NULL, "keep what firm orders can count on, for plans to come",
             false},
            {"all", NULL, "print all plant batches; with --years every week and "
                          "order",
             false},
            {"json", NULL, "print all of it by week as JSON", false}),
        .examples = LINES("leat foresee farm",
                          "leat foresee farm way=lettuce-head",
                          "leat foresee farm tank=A --today 2027-04-07",
                          "leat foresee farm --years 400",
                          "leat foresee farm --years 400 --keep"),
    },
    {
        .name = "heat", .run = cmd_heat,
        .purpose = "compare floors of the water, and see plants in a hot spell",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"floors", "16,18,20,22", "water floors in degC, up to 8", false},
            {"spell_k", "6", "so many K over the usual; without: the "
             "forecast, or 6 K", false},
            {"spell_d", "14", "for so many days", false},
            {"spell_from", "2027-06-21", "from then; else the hottest days",
             false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "from the week of that day", false},
            {"weeks", "52", "so many weeks, 4 to 104", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat heat farm",
                          "leat heat farm floors=18,21 spell_k=8"),
    },
    {
        .name = "vent", .run = cmd_vent,
        .purpose = "tell when to open the tunnels and how wide, and why",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "on that day", false},
            {"hours", NULL, "tell the air by the hour, too", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat vent farm", "leat vent farm --today 2027-12-14"),
    },
    {
        .name = "carry", .run = cmd_carry,
        .purpose = "tell whether the fish carry the beds: what runs short, when",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"loop", "loop-1", "one loop", false},
            {"spell_k", "-8", "what other weather does: so many K warmer; "
             "without: forecast.csv", false},
            {"spell_d", "7", "for so many days", false},
            {"spell_from", "2027-12-13", "from then; else where it is most",
             false}),
        .takes.options = SPECS(
            {"weeks", "52", "so many weeks, up to 104", false},
            {"iron", NULL, "as if iron is given every three weeks", false},
            {"json", NULL, "print all of it by week as JSON", false}),
        .examples = LINES("leat carry farm", "leat carry farm loop=loop-1 --iron",
                          "leat carry farm spell_k=-8 spell_d=7"),
    },
    {
        .name = "plan", .run = cmd_plan,
        .purpose = "plan the year: what to sow, set, clear, stock and sell",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"weeks", "52", "weeks to plan, 4 to 104", false},
            {"seed", "1", "another search of the same length", false},
            {"moves", "N", "length of the search; by the farm's size", false},
            {"today", "2027-04-07", "plan from that day's week on", false},
            {"keep-weeks", "N", "weeks of the accepted plan that stay", false},
            {"accept", NULL, "store the plan in the folder", false},
            {"draft", NULL, "keep it beside the accepted one, to compare",
             false},
            {"show", NULL, "show the accepted plan; search nothing", false},
            {"no-ceiling", NULL, "do not work out the ceiling", false},
            {"anew", NULL, "plan from nothing, whatever was accepted", false},
            {"freeze-fish", NULL, "neither stock nor grade: what are they worth?",
             false},
            {"json", NULL, "print it as JSON", false},
            {"mps", "FILE", "write the plan's proof as an MPS file", false}),
        .examples = LINES("leat plan farm", "leat plan farm --accept",
                          "leat plan farm --show",
                          "leat plan farm --weeks 104 --json"),
    },
    {
        .name = "alter", .run = cmd_alter,
        .purpose = "change a planned batch by hand: see at once what breaks",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"batch", "ID", "a planned batch of plan_plants.csv, or", false},
            {"way", "ID", "a new batch of that way, or", false},
            {"step", "ID", "a stocking, grading or sale of plan_moves.csv, or",
             false},
            {"clean", "H1-S3", "the deep clean of that bed", false},
            {"weeks", "+1", "so many weeks later; -1: earlier", false},
            {"sow_on", "2027-05-03", "sown in that day's week", false},
            {"set_on", "2027-05-24", "set out in that day's week", false},
            {"clear_on", "2027-07-12", "its place is free by then", false},
            {"on", "2027-05-03", "a step or clean: in that day's week", false},
            {"bed", "H1-S3", "in that bed", false},
            {"section", "2", "from that section on; without: where there is room",
             false},
            {"sections", "2", "so many sections of the floor", false},
            {"plants", "60", "so many plants; floor: in whole sections", false},
            {"tank", "B", "a stocking or grading: into that tank", false}),
        .takes.options = SPECS(
            {"drop", NULL, "leave it out", false},
            {"plan", "accepted", "change that plan; or before, draft, changed",
             false},
            {"keep", NULL, "keep it as the plan \"changed\", to go on from", false},
            {"accept", NULL, "accept it; \"before\" is then the plan till now",
             false},
            {"even-so", NULL, "though hands, light or cleaning fall short",
             false},
            {"stdin", NULL, "read the changes as JSON from the input", false},
            {"today", "2027-04-07", "as if it were that day", false},
            {"json", NULL, "print the answer as JSON", false}),
        .examples = LINES(
            "leat alter farm batch=rocket-bunch-H1-S1-27W14 weeks=+1",
            "leat alter farm batch=rocket-bunch-H1-S1-27W14 bed=H1-S3 "
            "section=2 --accept",
            "leat alter farm batch=rocket-bunch-H1-S1-27W14 --drop",
            "leat alter farm way=lettuce-head bed=H1-S3 set_on=2027-05-24 "
            "sections=2",
            "leat alter farm step=move-12 weeks=-2 --keep",
            "leat alter farm --plan before --accept"),
    },
    {
        .name = "compare", .run = cmd_compare,
        .purpose = "two plans side by side: value, weeks kept, what differs",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"one", "before", "accepted, before, draft or changed", false},
            {"two", "accepted", "the same", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as they go on from that day", false},
            {"all", NULL, "print all batches that differ", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat compare farm",
                          "leat compare farm one=accepted two=draft"),
    },
    {
        .name = "can", .run = cmd_can,
        .purpose = "tell whether an order can be taken, and what gives way",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"product", "ID", "of products.csv", true},
            {"buyer", "ID", "of buyers.csv", true},
            {"quantity", "N", "units a week", true},
            {"from", "2027-05-03", "first day", true},
            {"until", "2027-09-30", "last day; without: no end", false},
            {"price", "N", "of a unit; without: the price list's", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "asked on that day", false},
            {"seed", "1", "another search of the same length", false},
            {"moves", "N", "length of the search; by the farm's size", false},
            {"no-ceiling", NULL, "do not work out what binds", false},
            {"json", NULL, "print the answer as JSON", false}),
        .examples = LINES("leat can farm product=cucumber buyer=hotel "
                          "quantity=20 from=2027-05-03",
                          "leat can farm product=basil buyer=stall "
                          "quantity=10 from=2027-06-07 until=2027-08-29"),
    },
    {
        .name = "round", .run = cmd_round,
        .purpose = "tell today's walk: first with the eyes, then the hands",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            LANGUAGE,
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat round farm",
                          "leat round farm --today 2027-04-07 --json"),
    },
    {
        .name = "beds", .run = cmd_beds,
        .purpose = "tell what stands in the beds along the walk, what is next",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS({"bed", "H1-S3", "one bed, with its history",
                              false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat beds farm", "leat beds farm bed=H1-S3"),
    },
    {
        .name = "fish", .run = cmd_fish,
        .purpose = "tell tanks and batches, sale weight, what grading would do",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"tank", "B", "one tank, and what grading it would do", false},
            {"cut_g", "240", "grade it so: those heavier go", false},
            {"to", "D", "into this tank", false},
            {"sale_g", "450", "fish are ready from this weight", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat fish farm", "leat fish farm tank=B",
                          "leat fish farm tank=B cut_g=240 to=D"),
    },
    {
        .name = "orders", .run = cmd_orders,
        .purpose = "tell the weeks kept and short, what to offer, how to share",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"product", "ID", "of which less is there than ordered", false},
            {"have", "69", "so many units this week, as counted", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"weeks", "10", "so many weeks, 1 to 26", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat orders farm", "leat orders farm --weeks 4",
                          "leat orders farm product=head-lettuce have=69"),
    },
    {
        .name = "lots", .run = cmd_lots,
        .purpose = "tell what is left in the cold store; trace what was picked",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"lot", "ID", "one lot: one step back and one forward", false},
            {"way", "basil-bunch", "lots of one way", false},
            {"place", "H1-S1", "picked at that bed", false},
            {"buyer", "hotel", "of which that buyer got", false},
            {"from", "2027-03-01", "picked on that day or later", false},
            {"until", "2027-03-31", "picked on that day or before", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat lots farm", "leat lots farm buyer=hotel",
                          "leat lots farm place=H1-S1 from=2027-03-01"),
    },
    {
        .name = "sheets", .run = cmd_sheets,
        .purpose = "write the day's sheets for paper, in walking order",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"kind", "round,pick", "of round, feed, water, pick, sow", false},
            {"out", "FILE", "write the page to a file (HTML for A4)", false},
            LANGUAGE,
            {"json", NULL, "print the rows, to key a filled sheet in", false}),
        .examples = LINES("leat sheets farm --out today.html",
                          "leat sheets farm --kind pick --out pick.html"),
    },
    {
        .name = "water", .run = cmd_water,
        .purpose = "tell readings against what suits the fish, what to do",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"tank", "A", "one tank", false},
            {"at", "07:30", "when; or 2027-03-02T07:30; without: now", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"json", NULL, "print it as JSON, with the readings told before",
             false}),
        .examples = LINES("leat water farm", "leat water farm tank=A --json"),
    },
    {
        .name = "working", .run = cmd_working,
        .purpose = "tell how a figure was made: equation, inputs, sources",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"of", "tank", "what it is of; a word it does not know: all it does", true},
            {"id", "A", "which; without: all", false},
            {"figure", "feed_g", "its name in --json; without: all", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"full", NULL, "all, each with its working (with --json)", false},
            LANGUAGE,
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat working farm of=tank id=A",
                          "leat working farm of=tank id=A figure=feed_g"),
    },
    {
        .name = "jobs", .run = cmd_jobs,
        .purpose = "tell the jobs of a day or week in walking order, and loads",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as if it were that day", false},
            {"day", "tue", "that day: mon to sun, today, tomorrow or a date",
             false},
            {"week", "2027-W14", "all of that week; also: this, next", false},
            {"loads", NULL, "what goes in the van, by day and buyer", false},
            {"cautions", NULL, "tell all cautions in full, too", false},
            LANGUAGE,
            {"json", NULL, "print the whole week as JSON", false},
            {"csv", NULL, "print its jobs as a table", false},
            {"ics", "FILE", "write the week to a calendar file as well", false},
            {"events", "person", "its events: by person, stop or job", false}),
        .examples = LINES("leat jobs farm", "leat jobs farm --day tomorrow",
                          "leat jobs farm --week 2027-W14",
                          "leat jobs farm --loads --day thu",
                          "leat jobs farm --week next --ics week.ics"),
    },
    {
        .name = "note", .run = cmd_note,
        .purpose = "tell what happened; without facts, what can be told",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.takes_any_fact = true,
        .takes.options = SPECS(
            {"today", "2027-04-07", "told on that day", false},
            {"stdin", NULL, "read entries as JSON from the input", false},
            {"json", NULL, "print what was kept as JSON", false}),
        .examples = LINES(
            "leat note farm",
            "leat note farm kind=died place=A count=2 cause=unknown",
            "leat note farm kind=read place=A quantity_key=ph value=6.8 "
            "happened_at=07:30",
            "leat note farm strikes=12 text='wrong tank' who=Ana",
            "leat note farm --stdin < entries.json"),
    },
    {
        .name = "journal", .run = cmd_journal,
        .purpose = "read what was told, newest first, and what is to settle",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"from", "2027-03-01", "happened on that day or later", false},
            {"until", "2027-03-31", "on that day or before", false},
            {"kind", "picked", "one kind of entry", false},
            {"place", "A", "there, or moved to there", false},
            {"who", "Ana", "told of by that person", false},
            {"batch", "ID", "a batch of plants or fish", false},
            {"lot", "ID", "a lot, back to its bed and on to its buyers", false},
            {"before", "N", "entries with a number below that", false}),
        .takes.options = SPECS(
            {"limit", "100", "at most so many", false},
            {"settle", NULL, "planned steps nobody told of, and doubts", false},
            {"today", "2027-04-07", "with --settle: as of that day", false},
            {"csv", NULL, "print them as a table", false},
            {"json", NULL, "print them as JSON", false}),
        .examples = LINES("leat journal farm",
                          "leat journal farm place=A from=2027-03-01",
                          "leat journal farm kind=picked --csv",
                          "leat journal farm --settle"),
    },
    {
        .name = "export", .run = cmd_export,
        .purpose = "write what stands today, by the journal, into the tables",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "as of the end of that day", false}),
        .examples = LINES("leat export farm"),
    },
    {
        .name = "import", .run = cmd_import,
        .purpose = "take changed tables in, and tell the journal what differs",
        .takes.words = SPECS(
            {"DIR", NULL, "the farm's folder", true},
            {"FROM", NULL, "a folder of tables, or one table", true}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "told on that day", false}),
        .examples = LINES("leat import farm changed",
                          "leat import farm changed/orders.csv"),
    },
    {
        .name = "backup", .run = cmd_backup,
        .purpose = "copy the journal whole into a file, also while Leat is open",
        .takes.words = SPECS(
            {"DIR", NULL, "the farm's folder", true},
            {"FILE", NULL, "a new file, best on another disk", true}),
        .examples = LINES("leat backup farm farm-2027-03-01.db"),
    },
    {
        .name = "restore", .run = cmd_restore,
        .purpose = "put a backup of the journal back; the old one is kept",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true},
                             {"FILE", NULL, "the backup", true}),
        .examples = LINES("leat restore farm farm-2027-03-01.db"),
    },
    {
        .name = "emergency", .run = cmd_emergency,
        .purpose = "tell what to do, in order, when a pump, heater or all stops",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"pump", "ID", "this pump stands still, or", false},
            {"heater", "ID", "this heater is cold, or", false},
            {"aerator", "ID", "this blower has stopped, or", false},
            {"power", "all", "there is no power", false},
            {"at", "02:10", "when; or 2027-03-02T02:10; without: now", false},
            {"tank", "A", "the tank of the next two; without: all", false},
            {"oxygen_mg_l", "5.8", "oxygen as just read", false},
            {"temp_degc", "26", "water as just read", false},
            {"fed_hours_ago", "9", "since the last meal; without: just fed",
             false},
            {"outside_degc", "-2", "the night's air; without: by the season",
             false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "on that day", false},
            {"print", "FILE", "write it as a page for an A4 sheet as well (HTML)",
             false},
            LANGUAGE,
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat emergency farm pump=pump-1 at=02:10",
                          "leat emergency farm heater=pellets-1 "
                          "outside_degc=-3",
                          "leat emergency farm power=all"),
    },
    {
        .name = "reading", .run = cmd_reading,
        .purpose = "tell what readings of the water mean, and what to stop",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"tank", "A", "where it was read, or", false},
            {"loop", "loop-1", "where", false},
            {"tan_mg_l", "1.5", "total ammonia nitrogen", false},
            {"nitrite_mg_l", "0.3", "nitrite nitrogen", false},
            {"nitrate_mg_l", "60", "nitrate nitrogen", false},
            {"chloride_mg_l", "60", "chloride", false},
            {"ph", "6.4", "pH", false},
            {"alkalinity_mg_l", "30", "alkalinity, as CaCO3", false},
            {"temp_degc", "24", "temperature", false},
            {"oxygen_mg_l", "5.8", "oxygen", false},
            {"iron_mg_l", "1", "iron", false},
            {"at", "07:30", "when; or 2027-03-02T07:30; without: now", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "on that day", false},
            LANGUAGE,
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat reading farm loop=loop-1 tan_mg_l=1.5 ph=6.1 "
                          "alkalinity_mg_l=25 temp_degc=24",
                          "leat reading farm tank=A oxygen_mg_l=3.4 "
                          "temp_degc=28"),
    },
    {
        .name = "dose", .run = cmd_dose,
        .purpose = "tell grams of base by day and portion, of salts and iron",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .takes.facts = SPECS(
            {"loop", "loop-1", "whose water, or", false},
            {"tank", "A", "of whose loop", false},
            {"target_ph", "6.8", "pH wanted", false},
            {"ph", "6.2", "pH now, as the next from today's test", false},
            {"alkalinity_mg_l", "30", "alkalinity, as CaCO3", false},
            {"tan_mg_l", "0.5", "total ammonia nitrogen", false},
            {"temp_degc", "24", "temperature", false},
            {"nitrite_mg_l", "0.1", "nitrite nitrogen", false},
            {"nitrate_mg_l", "60", "nitrate nitrogen", false},
            {"chloride_mg_l", "60", "chloride", false},
            {"oxygen_mg_l", "6", "oxygen", false},
            {"iron_mg_l", "1", "iron", false},
            {"yours_g", "200", "so many grams of the first base ..", false},
            {"yours_ph", "0.1", ".. moved pH by so much here", false},
            {"potassium_mg_l", "10", "rise of potassium wanted", false},
            {"calcium_mg_l", "10", "rise of calcium wanted", false},
            {"iron_rise_mg_l", "2", "rise of iron wanted", false},
            {"at", "07:30", "when; or 2027-03-02T07:30; without: now", false}),
        .takes.options = SPECS(
            {"today", "2027-04-07", "on that day", false},
            LANGUAGE,
            {"json", NULL, "print it as JSON", false}),
        .examples = LINES("leat dose farm loop=loop-1 ph=6.2 target_ph=6.8 "
                          "alkalinity_mg_l=30 tan_mg_l=0.5 temp_degc=24",
                          "leat dose farm loop=loop-1 potassium_mg_l=10 "
                          "iron_rise_mg_l=2"),
    },
    {
        .name = "help", .run = cmd_help,
        .purpose = "tell what a command does and what it takes",
        .takes.words = SPECS({"NAME", NULL, "a command", false}),
        .examples = LINES("leat help", "leat help version"),
    },
    {
        .name = "version", .run = cmd_version,
        .purpose = "print which Leat this is",
        .examples = LINES("leat version"),
    },
    {
        .name = "answer", .run = cmd_answer, .is_hidden = true,
        .purpose = "answer questions of a Leat that is open",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true}),
        .examples = LINES("leat answer farm < questions"),
    },
    {
        .name = "work", .run = cmd_work, .is_hidden = true,
        .purpose = "plan, or run many years, for a Leat that is open",
        .takes.words = SPECS({"DIR", NULL, "the farm's folder", true},
                             {"DAY", NULL, "days since 1970-01-01", false}),
        .examples = LINES("leat work farm < question"),
    },
    {
        .name = "child", .run = cmd_child, .is_hidden = true,
        .purpose = "answer one question of another Leat, both as JSON",
        .examples = LINES("leat child < question.json"),
    },
    {
        .name = "tables", .run = cmd_tables, .is_hidden = true,
        .purpose = "write the page of the tables, as docs/tables.md holds it",
        .examples = LINES("leat tables > docs/tables.md"),
    },
    {
        .name = "sums", .run = cmd_sums, .is_hidden = true,
        .purpose = "write the page of the sums, as docs/sums.md holds it",
        .examples = LINES("leat sums > docs/sums.md"),
    },
    {
        .name = "manual", .run = cmd_manual, .is_hidden = true,
        .purpose = "write the manual page, as man/leat.1 holds it",
        .examples = LINES("leat manual > man/leat.1"),
    },
};
/* clang-format on */

enum { COMMAND_COUNT = sizeof COMMANDS / sizeof *COMMANDS };

const Command *commands_all(size_t *out_count)
{
    *out_count = COMMAND_COUNT;
    return COMMANDS;
}

/* The one command that begins so, or NULL. */
static const char *only_start(const char *start, const char *const *names)
{
    const char *found = NULL;
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        if (names[i] && *start &&
            strncmp(names[i], start, strlen(start)) == 0) {
            if (found) {
                return NULL;
            }
            found = names[i];
        }
    }
    return found;
}

static Err tell_unknown(const char *name, const char *const *names)
{
    const char *nearest = text_nearest(name, names, COMMAND_COUNT);
    if (!nearest) {
        nearest = only_start(name, names);
    }
    if (nearest) {
        return err_make(ERR_USAGE, "no command \"%.60s\"; did you mean %s?",
                        name, nearest);
    }
    char list[ERR_TEXT_SIZE] = "";
    size_t used = 0;
    for (size_t i = 0; i < COMMAND_COUNT && used < sizeof list; i++) {
        if (names[i]) {
            used += (size_t)snprintf(list + used, sizeof list - used, "%s%s",
                                     used ? " " : "", names[i]);
        }
    }
    return err_make(ERR_USAGE, "no command \"%.60s\"; there are: %s", name,
                    list);
}

Err commands_find(const char *name, const Command **out)
{
    const char *names[COMMAND_COUNT];
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(COMMANDS[i].name, name) == 0) {
            *out = &COMMANDS[i];
            return ERR_NONE;
        }
        names[i] = COMMANDS[i].is_hidden ? NULL : COMMANDS[i].name;
    }
    return tell_unknown(name, names);
}
