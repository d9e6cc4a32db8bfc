/* The sense of a farm: a sound one, and each way of making no sense. */
#include "sound_farm.h"

static void a_sound_farm_is_told_nothing(void **state)
{
    (void)state;
    check_case(&(Case){"none", NULL, "",
                       "none:0:0: \"\": expected a table "
                       "that Leat knows\n"});
}

static void the_place_makes_sense(void **state)
{
    (void)state;
    const Case cases[] = {
        {"farm.csv", "EUR", "Euro",
         "farm.csv:2:5: \"Euro\": expected currency: three capital letters of "
         "ISO 4217, as EUR\n"},
        {"farm.csv", "Europe/Lisbon", "Europe Lisbon",
         "farm.csv:2:4: \"Europe Lisbon\": expected timezone: an IANA zone as "
         "Europe/Lisbon\n"},
        {"climate.csv", "12,14.4", "11,14.4",
         "climate.csv:0:0: \"\": expected a row for month 12; all twelve are "
         "needed\n"
         "climate.csv:13:1: \"11\": expected each month once; line 12 has it "
         "already\n"},
        {"climate.csv", "1,14,4.6", "1,4,14.6",
         "climate.csv:2:3: \"14.6\": expected tmin_degc: at most tmax_degc, "
         "4\n"},
        {"tunnels.csv", "pe-single", "pe-singel",
         "tunnels.csv:2:4: \"pe-singel\": expected cover: a cover of the book "
         "(near: pe-single)\n"},
        {"tunnels.csv", "cover,vent_m2\nH1,27,7,pe-single,38",
         "cover,open_degc,close_degc\nH1,27,7,pe-single,20,22",
         "tunnels.csv:2:6: \"22\": expected close_degc: at most open_degc, "
         "20\n"},
        {"tunnels.csv", "cover,vent_m2\nH1,27,7,pe-single,38",
         "cover,vent_m2,close_degc\nH1,27,7,pe-single,38,22",
         "tunnels.csv:2:0: \"0\": expected open_degc: above which tunnel H1 is "
         "opened, "
         "where it says below which it is shut\n"},
        {"tunnels.csv", "27,7", "4,2",
         "tunnels.csv:2:2: \"4\": expected beds of at most 8 m2 in tunnel H1, "
         "not 8.64\n"},
        {"beds.csv", "0.25,gravel-8-20,z1", "0.31,gravel-8-20,z1",
         "beds.csv:2:7: \"0.31\": expected flood_m: at most the gravel's "
         "depth_m, 0.3\n"},
        {"beds.csv", "gravel-8-20,z1", "pebbles,z1",
         "beds.csv:2:8: \"pebbles\": expected gravel: a gravel of the book\n"},
        {"beds.csv", "sunny,2.4", "none,2.4",
         "beds.csv:3:11: \"2.4\": expected edge: sunny or back, where there is "
         "an edge of 2.4 m\n"
         "plants.csv:4:4: \"edge\": expected place: floor; bed b2 has no "
         "edge\n"},
        {"beds.csv", "z1,none,0", "z1,back,0",
         "beds.csv:2:11: \"0\": expected edge_m: the length of the edge of bed "
         "b1\n"},
        {"beds.csv", "b3,H1,3", "b3,H1,2",
         "notice: beds.csv:4: beds b2 and b3 have one place in the walk"},
    };
    CHECK_CASES(cases);
}

static void a_bed_in_no_zone_is_told(void **state)
{
    (void)state;
    check_case(&(Case){"beds.csv", NULL,
                       "b4,H1,4,2.4,1.2,0.3,0.25,gravel-8-20,,none,0\n",
                       "beds.csv:5:9: \"\": expected zone: the zone that "
                       "floods bed b4; it is in none\n"});
    /* A wrong reference is one fault, told when it was read. */
    check_case(&(Case){"beds.csv", NULL,
                       "b4,H1,4,2.4,1.2,0.3,0.25,gravel-8-20,y1,none,0\n",
                       "beds.csv:5:9: \"y1\": expected zone: an id of the "
                       "table zones (near: z1)\n"});
}

static void the_water_makes_sense(void **state)
{
    (void)state;
    /* A bed holds 2.4 x 1.2 x 0.25 x 0.4 = 0.288 m3. */
    const Case cases[] = {
        {"loops.csv", "l1,0.5", "l1,0.28",
         "zones.csv:2:4: \"1\": expected a sump that can supply and catch turn "
         "1: 1 zones hold 0.288 m3 when full, the sump of loop l1 0.28\n"
         "zones.csv:3:4: \"2\": expected a sump that can supply and catch turn "
         "2: 1 zones hold 0.288 m3 when full, the sump of loop l1 0.28\n"},
        {"loops.csv", "l2,3", "l2,0.3",
         "notice: zones.csv:4: turn 1 draws 0.288 of the 0.3 m3 in the sump of "
         "loop l2: the pump may run dry"},
        {"zones.csv", "z3,l2,p2,1,20", "z3,l2,p2,1,1",
         "notice: zones.csv:4: zone z3 does not fill: its turn brings 0.15 m3, "
         "its beds hold 0.288"},
        {"zones.csv", NULL, "z4,l2,p2,2,20\n",
         "notice: zones.csv:5: zone z4 has no beds"},
        {"zones.csv", "z3,l2,p2", "z3,l2,p1",
         "zones.csv:4:3: \"p1\": expected pump: a pump of loop l2; p1 lifts "
         "that of l1\n"},
        {"loops.csv", NULL, "l3,3\n",
         "loops.csv:4:1: \"l3\": expected a pump that lifts the water of loop "
         "l3\n"},
        {"tanks.csv", "P,,purge", "P,,grow",
         "notice: tanks.csv:5: tank P is for growing but on no loop: its fish "
         "feed no bed"},
        {"aerators.csv", "b3,P,", "b3,P,l1",
         "aerators.csv:4:2: \"P\": expected a tank or a loop for aerator b3, "
         "one of them\n"},
        {"aerators.csv", "b3,P,,30\n", "",
         "notice: tanks.csv:5: tank P has no air but what the water brings"},
        {"heaters.csv", "h1,l1,", "h1,,",
         "heaters.csv:2:2: \"\": expected a loop, a tank or a tunnel that "
         "heater h1 heats, one of them\n"},
        {"heaters.csv", "h1,l1,", "h1,l1,A",
         "heaters.csv:2:2: \"l1\": expected a loop, a tank or a tunnel that "
         "heater h1 heats, one of them\n"},
        {"bases.csv", "iron-dtpa-11", "iron-dtpa",
         "bases.csv:2:2: \"iron-dtpa\": expected kind: a base or supplement of "
         "the book (near: iron-dtpa-11)\n"},
        {"feeds.csv", NULL, "f2,0.4,30,10,1\n",
         "feeds.csv:3:4: \"10\": expected to_g: at least from_g, 30\n"},
        {"readings.csv", "ph,7.2", "ph,72",
         "readings.csv:2:5: \"72\": expected value: ph from 3 to 11\n"},
        {"readings.csv", "A,,", ",,",
         "readings.csv:2:1: \"\": expected a tank or a loop for the reading, "
         "one of them\n"},
    };
    CHECK_CASES(cases);
}

static void zones_of_one_turn_flood_together(void **state)
{
    (void)state;
    check_case(&(Case){"zones.csv", "z2,l1,p1,2", "z2,l1,p1,1",
                       "zones.csv:2:4: \"1\": expected a sump that can supply "
                       "and catch turn 1: 2 zones hold 0.576 m3 when full, the "
                       "sump of loop l1 0.5\n"});
}

static void links_have_two_ends_and_no_circle(void **state)
{
    (void)state;
    check_case(&(Case){"links.csv", "k1,overflow,A,,", "k1,overflow,,,",
                       "links.csv:2:3: \"\": expected a tank or a loop that "
                       "link k1 leaves, one of them\n"});
    check_case(&(Case){"links.csv", "A,,,l1,all", "A,,,,all",
                       "links.csv:2:5: \"\": expected a tank or a loop that "
                       "link k1 enters, one of them\n"});
    check_case(&(Case){"links.csv", NULL,
                       "k4,overflow,B,,P,,all\n"
                       "k5,drain,A,,B,,3-5\n",
                       "links.csv:4:1: \"k3\": expected water that ends "
                       "somewhere; link k3 is part of a circle: P, A, B, "
                       "P\n"});
    /* Open in other months, no circle. */
    check_case(&(Case){"links.csv", "k3,transfer,P,,A,,all",
                       "k3,transfer,P,,A,,6-7\nk4,transfer,A,,P,,all\n"
                       "k5,drain,P,,P,,1",
                       "links.csv:6:1: \"k5\": expected water that ends "
                       "somewhere; link k5 is part of a circle: P, P\n"});
    check_case(&(Case){"links.csv", "k3,transfer,P,,A,,all",
                       "k3,transfer,P,,A,,6-7\nk4,drain,A,,,,all\n"
                       "k5,drain,P,,,l1,1\nk6,drain,Q,,,,all",
                       "links.csv:7:3: \"Q\": expected from_tank: an id of the "
                       "table tanks (near: A)\n"});
}

static void the_fish_make_sense(void **state)
{
    (void)state;
    const Case cases[] = {
        {"fish.csv", "nile-tilapia,A", "nile-tilapa,A",
         "fish.csv:2:2: \"nile-tilapa\": expected species: "},
        {"fish.csv", "A,2027-03-01,250", "A,2027-03-01,350",
         "fish.csv:2:3: \"A\": expected at most 25 kg/m3 in tank A on the "
         "first day, not 25.67\n"},
        {"fish.csv", "A,2027-03-01", "A,2027-03-02",
         "fish.csv:2:4: \"2027-03-02\": expected counted_on: no later than the "
         "farm's records_from\n"},
        {"fish.csv", NULL, "g3,nile-tilapia,A,2027-03-01,20,300,0.1,mixed,no\n",
         "fish.csv:4:3: \"A\": expected at most 1 fish batches in tank A, not "
         "2\n"},
        {"fish.csv", "mixed,yes", "mixed,no",
         "notice: fish.csv:3: fish batch g2 stands in the breeders' tank but "
         "is not kept: the plan may sell it"},
        {"fish.csv", "250,440", "250,10",
         "notice: fish.csv:2: no feed is for fish of 10 g, as batch g1 is"},
        {"fish_sources.csv", "200,800", "900,800",
         "fish_sources.csv:2:9: \"800\": expected most: at least the least "
         "order, 900\n"},
        {"fish_sources.csv", "600,E", "600,A",
         "fish_sources.csv:3:10: \"A\": expected breeders: a tank whose use is "
         "breeders\n"},
        {"fish_sources.csv", "600,E,900", "600,,0",
         "fish_sources.csv:3:10: \"\": expected breeders: the tank that own "
         "young fish come from\n"
         "fish_sources.csv:3:11: \"0\": expected fry_cycle: the fry kept of "
         "each spawning\n"},
        {"fish_sources.csv", "males,0.8", "males,",
         "notice: fish_sources.csv:2: fish bought from s1 cost nothing"},
    };
    CHECK_CASES(cases);
}

static void the_plants_make_sense(void **state)
{
    (void)state;
    const Case cases[] = {
        {"crops.csv", "basil,basil", "basil,bazil",
         "crops.csv:2:2: \"bazil\": expected book: a crop of the book (near: "
         "basil)\n"},
        {"ways.csv", "basil-bunch", "basil-bunsh",
         "ways.csv:2:3: \"basil-bunsh\": expected book: a way of the book "
         "(near: basil-bunch)\n"},
        {"ways.csv", "rocket,rocket,rocket-cut", "rocket,basil,rocket-cut",
         "ways.csv:3:3: \"rocket-cut\": expected book: a way of basil; "
         "rocket-cut is one of rocket\n"},
        {"ways.csv", "kg,1000,", "kg,1000,t72",
         "ways.csv:3:6: \"t72\": expected tray: blank; the book sows "
         "rocket-cut in place\n"},
        {"nursery.csv", "n1,40\n", "",
         "nursery.csv:0:0: \"\": expected a nursery bench; way basil is raised "
         "in trays\n"},
        {"counted.csv", NULL, "basil,60,400,2027-03-01\n",
         "counted.csv:3:1: \"basil\": expected each way once; line 2 has it "
         "already\n"},
        {"figures.csv", "yield_g,30", "yield_g,60",
         "figures.csv:2:2: \"yield_g\": expected a figure that fits the "
         "book: "},
        {"figures.csv", NULL, "basil-bunch,yield_g,31,20,40\n",
         "figures.csv:3:2: \"yield_g\": expected each figure once; line 2 has "
         "it already\n"},
        {"figures.csv", NULL,
         "nile-tilapia,efficiency,0.61,0.58,0.66\n"
         "nile-tilapia,appetite,0.9,0.8,1.05\ncommon-carp,deaths,2,1,4\n",
         ""},
        {"figures.csv", NULL, "nile-tilapia,efficiency,1.61,1.5,1.7\n",
         "figures.csv:3:2: \"efficiency\": expected a figure that fits the "
         "book: efficiency from 0.2 to 1.2\n"},
        {"figures.csv", NULL, "nile-tilapia,appetite,0.9,1,1.05\n",
         "figures.csv:3:2: \"appetite\": expected a figure that fits the "
         "book: low, value and high rise\n"},
        {"figures.csv", NULL, "nile-tilapia,yield_g,30,20,40\n",
         "figures.csv:3:2: \"yield_g\": expected a figure that fits the book: "
         "of a fish appetite, efficiency, upkeep_g, female_frac, oxygen_frac "
         "or deaths, not yield_g\n"},
        {"plants.csv", "floor,3", "floor,4",
         "plants.csv:3:5: \"1\": expected at most 4 sections on the floor of "
         "bed b1, not 5\n"},
        {"plants.csv", "edge,,6", "edge,,9",
         "plants.csv:4:6: \"9\": expected at most 2.4 m taken of the edge of "
         "bed b2, not 3.6\n"},
        {"plants.csv", "a3,cucumber,b2", "a3,cucumber,b3",
         "plants.csv:4:4: \"edge\": expected place: floor; bed b3 has no "
         "edge\n"
         "plants.csv:4:6: \"6\": expected at most 0 m taken of the edge of bed "
         "b3, not 2.4\n"},
        {"plants.csv", "basil,b1,floor,3", "basil,b1,floor,",
         "plants.csv:2:5: \"0\": expected sections: 1 or more on the floor\n"},
        {"plants.csv", "a1,basil,b1,floor,3,", "a1,basil,b2,edge,,4",
         "plants.csv:2:4: \"edge\": expected place: floor, where basil "
         "grows\n"},
        {"plants.csv", "2027-02-22,2027-03-01", "2027-03-22,2027-04-01",
         "plants.csv:4:7: \"2027-03-22\": expected set_on: no later than the "
         "farm's records_from; what stands today was set before\n"
         "plants.csv:4:8: \"2027-04-01\": expected counted_on: from set_on to "
         "the farm's records_from\n"},
    };
    CHECK_CASES(cases);
}

/* The sound farm's plants with seedlings after them, in one table. */
#define WITH_SEEDLINGS(rows)                                                   \
    "plants.csv", PLANTS_CSV,                                                  \
        "id,way,bed,place,sections,plants,trays,sown_on,set_on,counted_on\n"   \
        "a1,basil,b1,floor,3,,,,2027-02-01,2027-03-01\n" rows

static void the_seedlings_make_sense(void **state)
{
    (void)state;
    const Case cases[] = {
        {WITH_SEEDLINGS("s1,basil,b1,floor,4,,2,2027-02-08,2027-03-15,"
                        "2027-03-01\ns2,cucumber,b2,edge,,6,,2027-02-22,"
                        "2027-03-22,2027-03-01\n"),
         ""},
        {WITH_SEEDLINGS("s1,basil,b1,floor,4,,2,,2027-03-15,2027-03-01\n"),
         "plants.csv:3:8: \"\": expected sown_on: the day; what is set out "
         "after counted_on stands in trays\n"},
        {WITH_SEEDLINGS("s1,basil,b1,floor,4,,2,,,2027-03-01\n"),
         "plants.csv:3:8: \"\": expected sown_on: the day, for seedlings in "
         "trays; or set_on, for what stands in a bed\n"
         "plants.csv:3:9: \"\": expected set_on: the day on which the "
         "seedlings are set in bed b1\n"},
        {WITH_SEEDLINGS("s1,basil,b1,floor,4,,2,2027-03-02,2027-03-29,"
                        "2027-03-01\n"),
         "plants.csv:3:8: \"2027-03-02\": expected sown_on: no later than "
         "counted_on\n"},
        {WITH_SEEDLINGS("s1,basil,b1,floor,4,,2,2026-10-01,2027-03-15,"
                        "2027-03-01\n"),
         "plants.csv:3:8: \"2026-10-01\": expected sown_on: no more than 52 "
         "days before counted_on; basil cannot wait longer in its trays\n"},
        {WITH_SEEDLINGS("s1,basil,b1,floor,1,,2,2027-02-22,2027-03-04,"
                        "2027-03-01\n"),
         "plants.csv:3:9: \"2027-03-04\": expected set_on: from 2027-03-18 to "
         "2027-04-15; seedlings of basil are set out so many days after their "
         "sowing\n"},
        {WITH_SEEDLINGS("s1,basil,b1,floor,1,,2,2027-01-20,2027-02-25,"
                        "2027-02-20\n"),
         "plants.csv:3:9: \"2027-02-25\": expected set_on: from the farm's "
         "records_from on; what was set before is counted in its bed\n"},
        {WITH_SEEDLINGS("s1,rocket,b1,floor,1,,2,2027-02-22,2027-03-15,"
                        "2027-03-01\n"),
         "plants.csv:3:9: \"2027-03-15\": expected set_on: no later than "
         "counted_on; rocket is sown in place, not raised in trays\n"},
        {WITH_SEEDLINGS("s1,basil,b1,floor,3,,2,2027-02-08,2027-03-15,"
                        "2027-03-01\ns2,basil,b1,floor,2,,41,2027-02-08,"
                        "2027-03-22,2027-03-01\n"),
         "plants.csv:4:5: \"2\": expected at most 4 sections on the floor of "
         "bed b1, not 5\n"
         "plants.csv:4:7: \"41\": expected at most 40 trays of seedlings "
         "together, as many as the nursery holds, not 43\n"},
        /* What stands until then must leave room in the week of counting. */
        {WITH_SEEDLINGS("s1,basil,b1,floor,2,,2,2027-02-01,2027-03-04,"
                        "2027-03-01\n"),
         "plants.csv:3:5: \"2\": expected at most 4 sections on the floor of "
         "bed b1, not 5\n"},
        {WITH_SEEDLINGS("s1,basil,,,,90,2,2027-02-08,,2027-03-01\n"
                        "s2,cucumber,,,,6,,2027-02-22,,2027-03-01\n"),
         ""},
        {WITH_SEEDLINGS("s1,basil,,,,,2,2027-02-08,,2027-03-01\n"),
         "plants.csv:3:6: \"0\": expected plants: how many stand, so that the "
         "plan can place them; or the bed and the sections that they go to\n"},
        {WITH_SEEDLINGS("s1,basil,,floor,2,,,,2027-02-01,2027-03-01\n"),
         "plants.csv:3:3: \"\": expected bed: where it stands\n"},
    };
    CHECK_CASES(cases);
}

static void the_selling_makes_sense(void **state)
{
    (void)state;
    const Case cases[] = {
        {"parts.csv", "pesto,rocket,,", "pesto,,,",
         "parts.csv:3:2: \"\": expected way: a way that is grown here, or "
         "fish_over_g for fish; nobody grows this part of pesto\n"},
        {"parts.csv", "pesto,rocket,,", "pesto,rocket,450,",
         "parts.csv:3:3: \"450\": expected a way or a weight of fish, one of "
         "them\n"},
        {"parts.csv", "pesto,rocket", "pesto,basil",
         "parts.csv:3:2: \"basil\": expected each way once in a product; line "
         "2 has it already\n"},
        {"products.csv", NULL, "soup,jar\n",
         "products.csv:4:1: \"soup\": expected parts: what a unit of soup is "
         "made of\n"},
        {"prices.csv", "pesto,,3.5,,\n", "",
         "orders.csv:2:3: \"pesto\": expected a price of pesto for buyer inn, "
         "or for everybody\n"},
        {"prices.csv", "fish,shop,5.5,,\n", "",
         "orders.csv:3:3: \"fish\": expected a price of fish for buyer shop, "
         "or for everybody\n"},
        {"prices.csv", "pesto,,3.5,,", "pesto,,3.5,,2027-07-15",
         "notice: orders.csv:2: order o1 has no price for pesto in 2027-W29: a "
         "plan that reaches that week stops"},
        {"prices.csv", "pesto,,3.5,,", "pesto,,3.5,,2027-10-31",
         "notice: orders.csv:2: order o1 has no price for pesto in 2028-W18: a "
         "plan that reaches that week stops"},
        {"prices.csv", "pesto,,3.5,,", "pesto,,3.5,2020-01-01,2032-12-31", ""},
        {"prices.csv", "2027-12-31", "2028-01-31",
         "prices.csv:4:4: \"2028-01-01\": expected one price at a time; line 3 "
         "holds on these days too\n"},
        {"orders.csv", "outlet,2,all", "outlet,5,6-8",
         "orders.csv:3:6: \"5\": expected least: at most the quantity, 4\n"
         "orders.csv:3:7: \"6-8\": expected months: one of those from its "
         "first to its last day\n"},
        {"orders.csv", "2027-05-13,2027-05-13", "2027-05-13,2027-05-12",
         "orders.csv:3:9: \"2027-05-12\": expected until: not before from\n"},
        {"orders.csv", "pesto,12", "pesto,0",
         "notice: orders.csv:2: order o1 is for nothing"},
        {"closures.csv", "buyer,inn,", "buyer,,",
         "closures.csv:2:3: \"\": expected buyer: the buyer that closes, where "
         "kind is buyer\n"},
        {"closures.csv", "person,,o", "farm,,o",
         "closures.csv:3:4: \"o\": expected hand: the person who is away, "
         "where kind is person\n"},
        {"closures.csv", "2027-02-28", "2027-01-28",
         "closures.csv:2:6: \"2027-01-28\": expected until: not before "
         "from\n"},
    };
    CHECK_CASES(cases);
}

static void the_hours_make_sense(void **state)
{
    (void)state;
    const Case cases[] = {
        {"hands.csv", "g,20", "g,40",
         "hands.csv:3:2: \"40\": expected hours_w: at most 16 hours a day on 2 "
         "working days, 32 a week\n"},
        {"hands.csv", "test feed", "test",
         "tasks.csv:2:2: \"feed\": expected somebody who may feed; nobody "
         "may\n"},
        {"hands.csv", "net pick", "pick",
         "notice: hands.csv:0: netting takes two, and 1 may do it"},
        {"tasks.csv", "75,7", "750,7",
         "tasks.csv:0:0: \"\": expected work of every week that fits the hours "
         "of hands.csv: in Jan it takes 87.5 of 60\n"},
        {"contacts.csv", "y,2", "y,1",
         "notice: contacts.csv:3: x and y are to be rung at the same turn"},
    };
    CHECK_CASES(cases);
}

#define LACKS(table, meaning)                                                  \
    table ".csv:0:0: \"\": expected this table of the plan accepted in "       \
          "plan.csv (" meaning                                                 \
          "); it is missing: accept a plan anew, or take "                     \
          "plan.csv away\n"

static void the_accepted_plan_makes_sense(void **state)
{
    (void)state;
    const char *head = "id,way,bed,place,sections,first_section,plants,sow_on,"
                       "set_on,pick_from,pick_until,clear_on\n";
    CLEANUP(arena_release) Arena arena = {0};
    const char *row = arena_text(
        &arena,
        "%sx1,basil,b1,floor,3,2,30,2027-05-03,2027-04-03,2027-06-01,"
        "2027-05-01,2027-03-01\n",
        head);
    check_case(&(Case){
        "plan_plants.csv", NULL, row,
        "plan_plants.csv:0:0: \"\": expected no rows without an accepted plan "
        "in plan.csv\n"
        "plan_plants.csv:2:5: \"3\": expected sections of bed b1, which has "
        "4\n"
        "plan_plants.csv:2:9: \"2027-04-03\": expected set_on: not before "
        "sow_on\n"
        "plan_plants.csv:2:11: \"2027-05-01\": expected pick_until: not before "
        "pick_from\n"
        "plan_plants.csv:2:12: \"2027-03-01\": expected clear_on: not before "
        "set_on\n"});
    check_case(&(Case){"plan.csv", NULL,
                       "id,from,weeks,accepted_on,seed,value,book\n"
                       "p,2027-03-02,52,2027-03-01,1,0,x\n"
                       "q,2027-03-01,52,2027-03-01,1,0,x\n",
                       "plan.csv:2:2: \"2027-03-02\": expected from: a "
                       "Monday\n"
                       "plan.csv:3:1: \"q\": expected one accepted plan, not "
                       "2\n" LACKS("plan_cleans", "its deep cleans")
                           LACKS("plan_fish", "its lanes of fish")
                               LACKS("plan_moves", "its fish moves") LACKS(
                                   "plan_orders", "its promises by week")
                                   LACKS("plan_plants", "its plant batches")});
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sound_farm_is_told_nothing),
        cmocka_unit_test(the_place_makes_sense),
        cmocka_unit_test(a_bed_in_no_zone_is_told),
        cmocka_unit_test(the_water_makes_sense),
        cmocka_unit_test(zones_of_one_turn_flood_together),
        cmocka_unit_test(links_have_two_ends_and_no_circle),
        cmocka_unit_test(the_fish_make_sense),
        cmocka_unit_test(the_plants_make_sense),
        cmocka_unit_test(the_seedlings_make_sense),
        cmocka_unit_test(the_selling_makes_sense),
        cmocka_unit_test(the_hours_make_sense),
        cmocka_unit_test(the_accepted_plan_makes_sense),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
