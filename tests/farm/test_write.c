/* Writing a farm: what is written reads back to the same bytes. */
#include "check.h"

#include "farm/write.h"
#include "tables.h"

static void every_kind_of_cell_reads_back_the_same(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults;
    faults_init(&faults, &arena, FAULTS_USUAL_LIMIT);
    const FarmRead *first = tables_read(
        &faults,
        (const char *const[]){
            "loops.csv", "id,sump_m3,name\nl1,0.1,\"a, \"\"b\"\"\"\n",
            "hands.csv",
            "id,hours_w,days,may,wage_h\n"
            "o,40 30 30 30 30 30 30 30 30 30 30 26.05,mon thu,sow net,14.5\n"
            "p,18,all,vent,0.0001\n",
            "readings.csv",
            "loop,at,quantity,value\nl1,2027-03-01T06:10:07-03:30,ph,7.35\n"
            "l1,1969-12-31T23:00Z,ph,0.30000000000000004\n",
            "tunnels.csv",
            "id,length_m,width_m,cover,shade_months,walk\n"
            "t,27,7,film,11-2 6 8-9,3\nu,27,7,film,,\nv,27,7,film,all,\n",
            "buyers.csv", "id\nx\n", "products.csv", "id,unit\np,bag\n",
            "orders.csv",
            "id,buyer,product,quantity,firmness,from,miss_frac\n"
            "o1,x,p,4,outlet,2027-03-01,\no2,x,p,4,firm,,0\n",
            NULL});
    assert_string_equal(faults_text(&faults), "");
    const TableId tables[] = {TABLE_farm,    TABLE_climate, TABLE_beds,
                              TABLE_loops,   TABLE_hands,   TABLE_readings,
                              TABLE_tunnels, TABLE_buyers,  TABLE_products,
                              TABLE_orders};
    enum { COUNT = sizeof tables / sizeof *tables };
    FarmBuffer buffers[COUNT];
    for (int i = 0; i < COUNT; i++) {
        FarmBytes bytes = farm_write_table(&first->farm, tables[i], &arena);
        buffers[i] =
            (FarmBuffer){farm_table_file(tables[i]), bytes.bytes, bytes.length};
    }
    FarmRead *second = ARENA_NEW(&arena, FarmRead);
    farm_read(buffers, COUNT, &faults, second);
    assert_string_equal(faults_text(&faults), "");
    assert_int_equal(second->row_count, first->row_count);
    for (int i = 0; i < COUNT; i++) {
        FarmBytes bytes = farm_write_table(&second->farm, tables[i], &arena);
        assert_int_equal(bytes.length, buffers[i].length);
        assert_memory_equal(bytes.bytes, buffers[i].bytes, bytes.length);
    }
    assert_near(second->farm.orders[0].miss_frac, -1.0, 0.0);
    assert_near(second->farm.orders[1].miss_frac, 0.0, 0.0);
    assert_int_equal(second->farm.readings[0].at, first->farm.readings[0].at);
    assert_near(second->farm.readings[1].value, 0.30000000000000004, 0.0);
    assert_int_equal(second->farm.tunnels[1].shade_months, 0);
    assert_int_equal(second->farm.tunnels[0].shade_months,
                     first->farm.tunnels[0].shade_months);
}

static void months_are_written_as_spans(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults;
    faults_init(&faults, &arena, 5);
    const FarmRead *read = tables_read(
        &faults,
        (const char *const[]){"tunnels.csv",
                              "id,length_m,width_m,cover,shade_months\n"
                              "t,27,7,film,1 2 12 6 8-9 11\n",
                              NULL});
    FarmBytes bytes = farm_write_table(&read->farm, TABLE_tunnels, &arena);
    assert_non_null(strstr(bytes.bytes, ",6 8-9 11-2,"));
}

static void a_header_holds_every_column(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    FarmBytes bytes = farm_write_header(TABLE_loops, &arena);
    assert_int_equal(bytes.length, 23);
    assert_memory_equal(bytes.bytes, "id,name,sump_m3,source\n", 23);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_kind_of_cell_reads_back_the_same),
        cmocka_unit_test(months_are_written_as_spans),
        cmocka_unit_test(a_header_holds_every_column),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
