/* The sense of a farm. */
#include "farm/check.h"

void farm_check(const FarmRead *read, Faults *faults)
{
    const Farm *farm = &read->farm;
    uint32_t months = 0;
    for (int32_t i = 0; i < farm->climate_count; i++) {
        int32_t month = farm->climate[i].month;
        if (months >> month & 1u) {
            faults_add(
                faults,
                farm_place(read, TABLE_climate, farm->climate[i].line, "month"),
                "", "each month once");
        }
        months |= 1u << month;
    }
    for (int month = 1; month <= 12 && farm->climate_count > 0; month++) {
        if (!(months >> month & 1u)) {
            faults_add(faults, farm_place(read, TABLE_climate, 0, NULL), "",
                       "a row for month %d; all twelve are needed", month);
        }
    }
}
