/* Small farms as text for tests: the needed tables, and one's own beside. */
#ifndef LEAT_TESTS_TABLES_H
#define LEAT_TESTS_TABLES_H

#include <stdio.h>
#include <string.h>

#include "farm/read.h"

#define FARM_CSV                                                               \
    "id,latitude_deg,longitude_deg,timezone,currency,records_from\n"           \
    "f,38.6,-6.4,Europe/Lisbon,EUR,2027-03-01\n"
#define CLIMATE_CSV                                                            \
    "month,tmax_degc,tmin_degc,sun_mj_m2_d\n"                                  \
    "1,14,4.6,7.6\n2,15.2,5.2,10.4\n3,18,6.9,15\n4,20.2,8.4,19.2\n"            \
    "5,24.3,11,23.4\n6,28.9,14.2,26\n7,32,15.9,26.9\n8,32.1,16.2,23.8\n"       \
    "9,28.6,14.9,18\n10,23,12,12.4\n11,17.6,8.2,8.6\n12,14.4,5.6,6.8\n"
#define BEDS_HEAD "id,walk,length_m,width_m,depth_m,flood_m,gravel\n"
#define BEDS_CSV BEDS_HEAD "b1,1,2.4,1.2,0.3,0.25,basalt\n"

enum { TABLES_MAX = 16 };

/* Reads the needed tables with the given ones (file, text pairs, NULL at the
 * end), which take the place of a needed one of the same name. */
static inline FarmRead *tables_read(Faults *faults, const char *const *pairs)
{
    FarmBuffer buffers[TABLES_MAX];
    int count = 0;
    for (; pairs[2 * count]; count++) {
        const char *text = pairs[2 * count + 1];
        buffers[count] = (FarmBuffer){pairs[2 * count], text, strlen(text)};
    }
    static const char *const NEEDED_TABLES[3][2] = {
        {"farm.csv", FARM_CSV},
        {"climate.csv", CLIMATE_CSV},
        {"beds.csv", BEDS_CSV}};
    for (int i = 0; i < 3; i++) {
        bool is_given = false;
        for (int j = 0; pairs[2 * j]; j++) {
            is_given |= strcmp(pairs[2 * j], NEEDED_TABLES[i][0]) == 0;
        }
        if (!is_given) {
            buffers[count++] =
                (FarmBuffer){NEEDED_TABLES[i][0], NEEDED_TABLES[i][1],
                             strlen(NEEDED_TABLES[i][1])};
        }
    }
    FarmRead *read = ARENA_NEW(faults->arena, FarmRead);
    farm_read(buffers, count, faults, read);
    faults_sort(faults);
    return read;
}

/* The faults as a person reads them, a line each. */
static inline const char *faults_text(const Faults *faults)
{
    const char *text = "";
    for (int32_t i = 0; i < faults->kept_count; i++) {
        const Fault *fault = &faults->items[i];
        text =
            arena_text(faults->arena, "%s%s:%d:%d: \"%s\": expected %s\n", text,
                       fault->place.file, (int)fault->place.line,
                       (int)fault->place.column, fault->value, fault->expected);
    }
    return text;
}

#endif
