/* Reading a farm: what is read, and every kind of fault with its place. */
#include "check.h"

#include <stdlib.h>

#include "farm/cell.h"
#include "farm/read.h"
#include "tables.h"

#define READ(...) tables_read(&faults, (const char *const[]){__VA_ARGS__, NULL})

/* Begins a list of faults in an arena of the test. */
#define BEGIN                                                                  \
    (void)state;                                                               \
    CLEANUP(arena_release) Arena arena = {0};                                  \
    Faults faults;                                                             \
    faults_init(&faults, &arena, FAULTS_USUAL_LIMIT)

#define assert_faults(text) assert_string_equal(faults_text(&faults), text)

static void a_small_farm_is_read(void **state)
{
    BEGIN;
    const FarmRead *read =
        READ("loops.csv", "id,sump_m3\nl1,4\n", "tanks.csv",
             "volume_m3,loop,use,id\n6.25,l1,grow,a\n3.5,,purge,\" b \"\n");
    assert_faults("");
    assert_int_equal(faults.count, 0);
    assert_int_equal(read->row_count, 17);
    const Farm *farm = &read->farm;
    assert_int_equal(farm->tanks_count, 2);
    assert_near(farm->tanks[0].volume_m3, 6.25, 1e-12);
    assert_int_equal(farm->tanks[0].loop, 0);
    assert_int_equal(farm->tanks[1].loop, REF_BLANK);
    assert_int_equal(farm->tanks[1].use, TANK_PURGE);
    assert_string_equal(farm->tanks[1].id, "b");
    assert_int_equal(farm->tanks[1].line, 3);
    assert_int_equal(farm->tanks[1].wall, WALL_SOME);
    assert_near(farm->farm[0].density_ceiling_kg_m3, 25.0, 1e-12);
    assert_int_equal(farm->beds[0].until, DATE_NEVER);
    assert_int_equal(farm->beds[0].edge_months, MONTHS_ALL);
}

/* After a recount the plan's rows about what is gone are left out, with the
 * moves of lanes that are gone; the moves of the others stay theirs. */
static void rows_of_the_plan_about_what_is_gone_are_left_out(void **state)
{
    BEGIN;
    const FarmRead *read =
        READ("tanks.csv", "id,loop,use,volume_m3\nA,,grow,6\n", "crops.csv",
             "id,book\nbasil,basil\n", "ways.csv",
             "id,crop,book,unit,unit_g\nbasil,basil,basil-bunch,bunch,40\n",
             "plants.csv",
             "id,way,bed,sections,set_on,counted_on\n"
             "b,basil,b1,2,2027-02-01,2027-03-01\n",
             "fish.csv",
             "id,species,tank,counted_on,count,mean_g,cv_frac,sex\n"
             "young,nile-tilapia,A,2027-03-01,9,60,0.2,mixed\n",
             "plan_plants.csv",
             "id,way,bed,place,plants,sow_on,set_on,pick_from,"
             "pick_until,clear_on,standing\n"
             "a,basil,b1,floor,9,2027-01-01,2027-02-01,2027-03-01,2027-03-07,"
             "2027-03-15,a\n"
             "b,basil,b1,floor,9,2027-01-01,2027-02-01,2027-03-01,2027-03-07,"
             "2027-03-15,b\n",
             "plan_fish.csv",
             "id,batch,standing,lane,count,mean_g\n"
             "old-1,old,old,1,4,50\nyoung-1,young,young,1,4,50\n",
             "plan_moves.csv",
             "id,fish,kind,on,run,started,count,mean_g\n"
             "m1,old-1,sale,2027-04-05,1,4,4,400\n"
             "m2,young-1,sale,2027-05-03,2,3,3,410\n");
    assert_faults("");
    assert_int_equal(faults.notice_count, 2);
    const Farm *farm = &read->farm;
    assert_int_equal(farm->plan_plants_count, 1);
    assert_string_equal(farm->plan_plants[0].id, "b");
    assert_int_equal(farm->plan_plants[0].standing, 0);
    assert_int_equal(farm->plan_fish_count, 1);
    assert_string_equal(farm->plan_fish[0].id, "young-1");
    assert_int_equal(farm->plan_moves_count, 1);
    assert_string_equal(farm->plan_moves[0].id, "m2");
    assert_int_equal(farm->plan_moves[0].fish, 0);
}

static void every_kind_of_cell_is_read(void **state)
{
    BEGIN;
    const FarmRead *read = READ(
        "loops.csv", "id,sump_m3\nl1,4\n", "pumps.csv",
        "id,loop,flow_m3_h\np1,l1,12\n", "zones.csv",
        "id,loop,pump,turn,minutes,hours_d\n"
        "z1,l1,p1,1,20,8 8.5 24 24 24 24 24 24 24 24 24 8\nz2,l1,p1,2,20,24\n",
        "hands.csv", "id,hours_w,days,may,wage_h\no,40,mon thu,sow net,14.5\n",
        "readings.csv",
        "loop,at,quantity,value\nl1,2027-03-01T06:10+01:00,ph,7.35\n"
        "l1,2027-03-01T06:10:30Z,temp_degc,19\n",
        "feeds.csv", "id,protein_frac,price_kg\nf,0.36,1.3075\n", "tunnels.csv",
        "id,length_m,width_m,cover,shade_months\nt,27,7,film,11-2 6 8-9\n");
    assert_faults("");
    const Farm *farm = &read->farm;
    assert_near(farm->zones[0].hours_d[1], 8.5, 1e-12);
    assert_near(farm->zones[1].hours_d[11], 24.0, 1e-12);
    assert_int_equal(farm->hands[0].days, 1 | 8);
    assert_int_equal(farm->hands[0].may, 1u << SKILL_SOW | 1u << SKILL_NET);
    assert_int_equal(farm->hands[0].wage_h_e4, 145000);
    assert_int_equal(farm->readings[0].at, 1803877800);
    assert_int_equal(farm->readings[1].at - farm->readings[0].at, 3630);
    assert_int_equal(farm->feeds[0].price_kg_e4, 13075);
    assert_int_equal(farm->tunnels[0].shade_months,
                     1 << 10 | 1 << 11 | 1 | 2 | 1 << 5 | 1 << 7 | 1 << 8);
}

static void every_wrong_cell_is_told_with_its_place(void **state)
{
    BEGIN;
    READ("beds.csv", BEDS_HEAD "b1,1,2.4,1.2,0.3,0.25,basalt\n"
                               "b2,x,-2.4,1.2,0.3,0.25,\n"
                               "b 3,1.5,2.4,1e9,nan,0.25,basalt\n");
    assert_faults(
        "beds.csv:3:2: \"x\": expected walk: a whole number from 0 to 100000\n"
        "beds.csv:3:3: \"-2.4\": expected length_m: a number from 0.2 to 100\n"
        "beds.csv:3:7: \"\": expected gravel: text; it may not be blank\n"
        "beds.csv:4:1: \"b 3\": expected id: a word of at most 60 letters, "
        "digits, - _ or .\n"
        "beds.csv:4:2: \"1.5\": expected walk: a whole number from 0 to "
        "100000\n"
        "beds.csv:4:4: \"1e9\": expected width_m: a number from 0.2 to 20\n"
        "beds.csv:4:5: \"nan\": expected depth_m: a number from 0.05 to 1.5\n");
    assert_int_equal(faults.count, 7);
}

static void dates_are_iso_or_refused_with_the_line(void **state)
{
    BEGIN;
    READ("closures.csv", "id,kind,from,until\n"
                         "a,farm,1.3.2027,2027-02-30\n"
                         "b,farm,03/01/2027,2027-3-1\n"
                         "c,farm,2027-03-01,46082\n");
    assert_faults(
        "closures.csv:2:3: \"1.3.2027\": expected from: a date as 2027-03-01\n"
        "closures.csv:2:4: \"2027-02-30\": expected until: a date as "
        "2027-03-01\n"
        "closures.csv:3:3: \"03/01/2027\": expected from: a date as "
        "2027-03-01\n"
        "closures.csv:3:4: \"2027-3-1\": expected until: a date as "
        "2027-03-01\n"
        "closures.csv:4:4: \"46082\": expected until: a date as 2027-03-01\n");
}

static void words_months_days_flags_and_prices_are_checked(void **state)
{
    BEGIN;
    READ("buyers.csv", "id,days\nx,mon thy\ny,13\n", "products.csv",
         "id,unit\np,bag\n", "orders.csv",
         "id,buyer,product,quantity,firmness,months\n"
         "o1,x,p,4,frim,0\no2,x,p,4,firm,5-\no3,x,p,4,firm,10-13\n",
         "prices.csv", "product,price,has_tax\np,1.23456,maybe\np,-1,yes\n");
    assert_faults(
        "buyers.csv:2:2: \"mon thy\": expected days: all, or days as mon thu\n"
        "buyers.csv:3:2: \"13\": expected days: all, or days as mon thu\n"
        "orders.csv:2:5: \"frim\": expected firmness: one of: firm, promised, "
        "outlet (near: firm)\n"
        "orders.csv:2:6: \"0\": expected months: all, or months and spans of "
        "them as 5-10 or 11-3 7\n"
        "orders.csv:3:6: \"5-\": expected months: all, or months and spans of "
        "them as 5-10 or 11-3 7\n"
        "orders.csv:4:6: \"10-13\": expected months: all, or months and spans "
        "of them as 5-10 or 11-3 7\n"
        "prices.csv:2:2: \"1.23456\": expected price: an amount, at most four "
        "decimals, from 0 to 1000000\n"
        "prices.csv:2:3: \"maybe\": expected has_tax: yes or no\n"
        "prices.csv:3:2: \"-1\": expected price: an amount, at most four "
        "decimals, from 0 to 1000000\n");
}

static void wrong_references_offer_a_near_name(void **state)
{
    BEGIN;
    const FarmRead *read =
        READ("loops.csv", "id,sump_m3\nloop-1,4\nloop-2,4\n", "pumps.csv",
             "id,loop,flow_m3_h\np1,lop-2,12\np2,pond,12\n");
    assert_faults(
        "pumps.csv:2:2: \"lop-2\": expected loop: an id of the table loops "
        "(near: loop-2)\n"
        "pumps.csv:3:2: \"pond\": expected loop: an id of the table loops\n");
    assert_int_equal(read->farm.pumps[0].loop, REF_WRONG);
}

static void references_point_to_earlier_tables_with_ids(void **state)
{
    (void)state;
    for (int t = 0; t < TABLE_COUNT; t++) {
        for (int i = 0; i < FARM_TABLES[t].field_count; i++) {
            const Field *field = &FARM_TABLES[t].fields[i];
            if (field->kind == FIELD_REF) {
                assert_true(field->extra < t);
                assert_int_equal(FARM_TABLES[field->extra].fields[0].kind,
                                 FIELD_ID);
            }
        }
    }
}

static void a_reference_to_a_missing_table_is_told(void **state)
{
    BEGIN;
    READ("beds.csv",
         "id,walk,length_m,width_m,depth_m,flood_m,gravel,tunnel\n"
         "b1,1,2.4,1.2,0.3,0.25,basalt,\nb2,1,2.4,1.2,0.3,0.25,basalt,u\n");
    assert_faults("beds.csv:3:8: \"u\": expected tunnel: an id of the table "
                  "tunnels; the table is missing\n");
}

static void a_lack_of_ids_is_told_once(void **state)
{
    BEGIN;
    READ("loops.csv", "name,sump_m3\nl1,4\nl2,4\n", "pumps.csv",
         "id,loop,flow_m3_h\np1,l1,12\np2,l2,12\np3,l1,12\n", "zones.csv",
         "id,loop,pump,turn,minutes\nz1,l1,p1,1,20\nz2,l2,p9,1,20\n");
    assert_faults("loops.csv:1:0: \"\": expected a column \"id\" (tanks, sump, "
                  "pumps and beds on one water)\n"
                  "pumps.csv:2:2: \"l1\": expected loop: an id of the table "
                  "loops; it has no column id\n"
                  "zones.csv:3:3: \"p9\": expected pump: an id of the table "
                  "pumps (near: p1)\n");
}

static void ids_in_rows_that_are_lost_are_asked_for_once(void **state)
{
    BEGIN;
    READ("loops.csv", "id,sump_m3\nl1,\"4\"x\nl2,4\n", "pumps.csv",
         "id,loop,flow_m3_h\np1,l1,12\np2,l2,12\np3,l1,12\n");
    assert_faults(
        "loops.csv:2:2: \"4\"\": expected quotes around the whole cell, "
        "each quote within it doubled\n"
        "pumps.csv:2:2: \"l1\": expected loop: an id of the table "
        "loops; some of its rows cannot be read\n");
}

static void control_characters_are_refused_with_place_and_byte(void **state)
{
    BEGIN;
    READ("loops.csv",
         "id,name,sump_m3\nl\x1b[31m1,south,4\nl2,ma\xc3\xa7\xc3\xa3 \xc2\x9b"
         "2J,4\nl3,\"two\nlines\",4\nl4,turn \xe2\x80\xae over,4\n",
         "pumps.csv", "id,loop,flow_m3_h\np1,l\x1b[31m1,12\n");
    assert_faults(
        "loops.csv:2:1: \"l\\x1b[31m1\": expected id: one line of text without "
        "control characters; its byte 2 is \\x1b\n"
        "loops.csv:3:2: \"ma\xc3\xa7\xc3\xa3 \\u009b2J\": expected name: one "
        "line of text without control characters; its byte 8 is \\u009b\n"
        "loops.csv:4:2: \"two\\x0alines\": expected name: one line of text "
        "without control characters; its byte 4 is \\x0a\n"
        "loops.csv:6:2: \"turn \\u202e over\": expected name: one line of text "
        "without control characters; its byte 6 is \\u202e\n"
        "pumps.csv:2:2: \"l\\x1b[31m1\": expected loop: one line of text "
        "without control characters; its byte 2 is \\x1b\n");
}

static void names_of_files_and_columns_are_shown_escaped(void **state)
{
    BEGIN;
    READ("x\x1b[2J.csv", "id\n", "loops.csv", "id,sump_m3,a\tb\n");
    assert_faults(
        "loops.csv:1:3: \"a\\x09b\": expected a column of the table "
        "loops\n"
        "x\\x1b[2J.csv:0:0: \"\": expected a table that Leat knows\n");
}

static void ids_stand_once(void **state)
{
    BEGIN;
    READ("loops.csv", "sump_m3,id\n4,l1\n4,l2\n4,l1\n4,l1\n");
    assert_faults("loops.csv:4:2: \"l1\": expected an id of its own; line 2 "
                  "has it already\n"
                  "loops.csv:5:2: \"l1\": expected an id of its own; line 2 "
                  "has it already\n");
}

static void unknown_tables_and_columns_are_told(void **state)
{
    BEGIN;
    READ("bed.csv", "id\n", "pondweed.csv", "id\n", "loops.csv",
         "id,sump_m,sump_m3,id,x y z\nl1,1,4,l2,\n");
    assert_faults(
        "bed.csv:0:0: \"\": expected a table that Leat knows (near: "
        "beds.csv)\n"
        "loops.csv:1:2: \"sump_m\": expected a column of the table loops "
        "(near: sump_m3)\n"
        "loops.csv:1:4: \"id\": expected each column once; column 1 has this "
        "name too\n"
        "loops.csv:1:5: \"x y z\": expected a column of the table loops\n"
        "pondweed.csv:0:0: \"\": expected a table that Leat knows\n");
}

static void missing_columns_rows_and_tables_are_told(void **state)
{
    BEGIN;
    FarmBuffer buffers[] = {{"farm.csv", "id\na\nb\n", 7},
                            {"beds.csv", "\n\n", 2}};
    FarmRead *read = ARENA_NEW(&arena, FarmRead);
    farm_read(buffers, 2, &faults, read);
    const char *text = faults_text(&faults);
    assert_non_null(strstr(text, "farm.csv:1:0: \"\": expected a column "
                                 "\"latitude_deg\" (north is positive)"));
    assert_non_null(strstr(text, "farm.csv:0:0: \"\": expected exactly one row "
                                 "below the header, not 2"));
    assert_non_null(strstr(text, "beds.csv:1:0: \"\": expected a header row"));
    assert_non_null(strstr(text, "climate.csv:0:0: \"\": expected this table: "
                                 "monthly climate normals; it is missing"));
}

static void semicolons_are_read_with_one_notice(void **state)
{
    BEGIN;
    const FarmRead *read =
        READ("loops.csv", "id;sump_m3\r\nl1;4,25\r\nl2;3\r\n", "pumps.csv",
             "id;loop;flow_m3_h;name\n", "feeds.csv",
             "id;protein_frac;price_kg\nf;0,36;1,3\n");
    assert_faults("pumps.csv:1:4: \"name\": expected a column of the table "
                  "pumps\n");
    assert_near(read->farm.loops[0].sump_m3, 4.25, 1e-12);
    assert_int_equal(read->farm.feeds[0].price_kg_e4, 13000);
    assert_int_equal(faults.notice_count, 1);
    assert_non_null(strstr(faults.notices[0].expected, "(3 tables)"));
}

static void mixed_decimals_and_delimiters_are_faults(void **state)
{
    BEGIN;
    READ("loops.csv", "id;sump_m3\nl1;4,25\nl2;4.25\nl3;1.234,5\nl4,4\n",
         "feeds.csv", "id,protein_frac,price_kg\nf,\"0,36\",1.3\ng;0.3;1.3\n");
    assert_faults(
        "feeds.csv:2:2: \"0,36\": expected protein_frac: a number from 0.05 to "
        "0.7\n"
        "feeds.csv:3:0: \"g;0.3;1.3\": expected 3 cells as in the header, not "
        "1; commas and semicolons may not be mixed in a table\n"
        "loops.csv:3:2: \"4.25\": expected sump_m3: one decimal mark in a "
        "table, \",\" as on line 2\n"
        "loops.csv:4:2: \"1.234,5\": expected sump_m3: one decimal mark in a "
        "table, \",\" as on line 2\n"
        "loops.csv:5:0: \"l4,4\": expected 2 cells as in the header, not 1; "
        "commas and semicolons may not be mixed in a table\n");
}

static void a_damaged_row_is_told_once_and_keeps_its_id(void **state)
{
    BEGIN;
    READ("loops.csv", "id,sump_m3\nl1,\xff\nl2\n", "pumps.csv",
         "id,loop,flow_m3_h\np1,l1,12\np2,l2,12\n");
    assert_faults(
        "loops.csv:2:0: \"l1,\\xff\": expected text in UTF-8 (save the "
        "table as UTF-8)\n"
        "loops.csv:3:0: \"l2\": expected 2 cells as in the header, "
        "not 1\n");
}

static void all_faults_are_counted_and_the_first_kept(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults;
    faults_init(&faults, &arena, 5);
    const char *text = "id,sump_m3\n";
    for (int i = 0; i < 40; i++) {
        text = arena_text(&arena, "%sl%d,x%d\n", text, i, i);
    }
    tables_read(&faults, (const char *const[]){"loops.csv", text, NULL});
    assert_int_equal(faults.count, 40);
    assert_int_equal(faults.kept_count, 5);
    assert_string_equal(faults.items[4].value, "x4");
}

static void faults_are_sorted_by_place(void **state)
{
    BEGIN;
    const int32_t lines[] = {7, 3, 9, 3, 1, 8, 2};
    for (size_t i = 0; i < 7; i++) {
        faults_add(&faults, (FaultPlace){"b.csv", lines[i], 0}, "", "%zu", i);
    }
    faults_add(&faults, (FaultPlace){"a.csv", 99, 0}, "", "first");
    faults_sort(&faults);
    assert_string_equal(faults.items[0].expected, "first");
    const char *const order[] = {"4", "6", "1", "3", "0", "5", "2"};
    for (int i = 0; i < 7; i++) {
        assert_string_equal(faults.items[i + 1].expected, order[i]);
    }
}

static void fields_fit_a_sheet_and_are_described(void **state)
{
    (void)state;
    for (int t = 0; t < TABLE_COUNT; t++) {
        assert_true(FARM_TABLES[t].field_count <= FARM_FIELDS_MAX);
        assert_int_equal(farm_table_find(FARM_TABLES[t].name), t);
        for (int i = 0; i < FARM_TABLES[t].field_count; i++) {
            const Field *field = &FARM_TABLES[t].fields[i];
            char text[CELL_TEXT_SIZE] = "";
            cell_describe(field, text);
            assert_true(*text != '\0');
            assert_true(*field->meaning != '\0');
            assert_true(field->least <= field->most);
        }
    }
    assert_int_equal(farm_table_find("pond"), TABLE_COUNT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_farm_is_read),
        cmocka_unit_test(rows_of_the_plan_about_what_is_gone_are_left_out),
        cmocka_unit_test(every_kind_of_cell_is_read),
        cmocka_unit_test(every_wrong_cell_is_told_with_its_place),
        cmocka_unit_test(dates_are_iso_or_refused_with_the_line),
        cmocka_unit_test(words_months_days_flags_and_prices_are_checked),
        cmocka_unit_test(wrong_references_offer_a_near_name),
        cmocka_unit_test(references_point_to_earlier_tables_with_ids),
        cmocka_unit_test(a_reference_to_a_missing_table_is_told),
        cmocka_unit_test(a_lack_of_ids_is_told_once),
        cmocka_unit_test(ids_in_rows_that_are_lost_are_asked_for_once),
        cmocka_unit_test(control_characters_are_refused_with_place_and_byte),
        cmocka_unit_test(names_of_files_and_columns_are_shown_escaped),
        cmocka_unit_test(ids_stand_once),
        cmocka_unit_test(unknown_tables_and_columns_are_told),
        cmocka_unit_test(missing_columns_rows_and_tables_are_told),
        cmocka_unit_test(semicolons_are_read_with_one_notice),
        cmocka_unit_test(mixed_decimals_and_delimiters_are_faults),
        cmocka_unit_test(a_damaged_row_is_told_once_and_keeps_its_id),
        cmocka_unit_test(all_faults_are_counted_and_the_first_kept),
        cmocka_unit_test(faults_are_sorted_by_place),
        cmocka_unit_test(fields_fit_a_sheet_and_are_described),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
