/* Bed kinds: what makes beds alike, and names that tell them apart. */
#include "sim/bed_kinds.h"

#include "check.h"

enum { BEDS = 5 };

typedef struct Place {
    Arena arena;
    Tunnel tunnels[1];
    Zone zones[2];
    Bed beds[BEDS];
    Farm farm;
} Place;

static void place_init(Place *place)
{
    *place = (Place){0};
    place->tunnels[0].id = "T7";
    for (int z = 0; z < 2; z++) {
        place->zones[z].loop = 0;
        for (int m = 0; m < 12; m++) {
            place->zones[z].hours_d[m] = 17.5;
        }
    }
    for (int b = 0; b < BEDS; b++) {
        place->beds[b] = (Bed){.id = "bed",
                               .side = "south",
                               .zone = b % 2,
                               .length_m = 2.4,
                               .width_m = 1.3,
                               .sections = 3,
                               .light_frac = 0.97};
    }
    place->farm.tunnels = place->tunnels;
    place->farm.zones = place->zones;
    place->farm.beds = place->beds;
    place->farm.beds_count = BEDS;
}

static void beds_alike_are_one_kind(void **state)
{
    (void)state;
    Place place;
    place_init(&place);
    BedKinds kinds;
    bed_kinds_find(&place.arena, &place.farm, &kinds);
    assert_int_equal(kinds.count, 1);
    assert_int_equal(kinds.bed_count[0], BEDS);
    assert_string_equal(kinds.names[0], "T7 south");
    arena_release(&place.arena);
}

static void hours_of_flooding_light_and_side_tell_beds_apart(void **state)
{
    (void)state;
    Place place;
    place_init(&place);
    place.zones[1].hours_d[11] = 9.5; /* day floods only in December */
    place.beds[2].light_frac = 0.91;
    place.beds[4].side = "";
    BedKinds kinds;
    bed_kinds_find(&place.arena, &place.farm, &kinds);
    assert_int_equal(kinds.count, 4);
    assert_int_equal(kinds.of_bed[3], kinds.of_bed[1]);
    assert_int_equal(kinds.first_bed[1], 1);
    assert_string_equal(kinds.names[1], "T7 south 2");
    assert_string_equal(kinds.names[2], "T7 south 3");
    assert_string_equal(kinds.names[3], "T7");
    arena_release(&place.arena);
}

static void a_bed_without_a_zone_has_no_loop(void **state)
{
    (void)state;
    Place place;
    place_init(&place);
    place.zones[1].loop = 1;
    place.beds[0].zone = -1;
    place.beds[0].tunnel = -1;
    assert_int_equal(bed_loop(&place.farm, &place.beds[0]), -1);
    assert_int_equal(bed_loop(&place.farm, &place.beds[1]), 1);
    assert_false(bed_kinds_alike(&place.farm, &place.beds[1], &place.beds[2]));
    BedKinds kinds;
    bed_kinds_find(&place.arena, &place.farm, &kinds);
    assert_string_equal(kinds.names[0], "open south");
    arena_release(&place.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(beds_alike_are_one_kind),
        cmocka_unit_test(hours_of_flooding_light_and_side_tell_beds_apart),
        cmocka_unit_test(a_bed_without_a_zone_has_no_loop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
