/* Times a farm's year by the hour: air, water, fish, gravel, plants, ledger.
 *
 * usage: bench_hour DIR [--days]
 *
 * Prints the least and the median of 11 runs of 365 days from the farm's first
 * Monday, in milliseconds of processor time, beside what is asked for (80 ms
 * for the demo), and the ledger's worst residual. --days tells each week's
 * water as well. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/typical.h"
#include "sim/hour.h"

enum { RUNS = 11, DAYS = 364, DAY_HOURS = 24, WEEK_D = 7 };

static double now_ms(void)
{
    struct timespec at;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &at);
    return (double)at.tv_sec * 1e3 + (double)at.tv_nsec / 1e6;
}

static int by_size(const void *one, const void *other)
{
    double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static void tell(const Farm *farm, const HourDays *days, int day)
{
    for (int i = 0; i < farm->loops_count; i++) {
        const HourLoopDay *l = &days->loops[day * farm->loops_count + i];
        printf("%4d %s %5.1f C tan %.2f no2 %.2f no3 %.0f pH %.2f alk %.0f "
               "co2 %.1f K %.0f Ca %.0f Mg %.0f Fe %.2f P %.1f Na %.0f sol "
               "%.1f feed %.2f topup %.2f sump %.2f dose %.1f heat %.0f\n",
               day, farm->loops[i].id, l->temp_degc, l->tan_g_m3,
               l->nitrite_g_m3, l->nitrate_g_m3, l->ph, l->alkalinity_mg_l,
               l->co2_g_m3, l->element_g_m3[HOUR_K], l->element_g_m3[HOUR_CA],
               l->element_g_m3[HOUR_MG], l->element_g_m3[HOUR_FE],
               l->element_g_m3[HOUR_P], l->sodium_g_m3, l->solids_kg,
               l->feed_kg, l->top_up_m3, l->sump_least_m3, l->dosed_eq,
               l->heater_kwh);
        printf("      N made %.0f freed %.0f asked %.0f taken %.0f lost %.0f"
               " | K made %.1f freed %.1f asked %.1f taken %.1f | Fe %.2f %.2f"
               " %.2f %.2f %.2f\n",
               l->fish_g[0], l->mineral_g[0], l->asked_g[0], l->taken_g[0],
               l->lost_g[0], l->fish_g[HOUR_K], l->mineral_g[HOUR_K],
               l->asked_g[HOUR_K], l->taken_g[HOUR_K], l->fish_g[HOUR_FE],
               l->mineral_g[HOUR_FE], l->asked_g[HOUR_FE], l->taken_g[HOUR_FE],
               l->lost_g[HOUR_FE]);
    }
    for (int i = 0; i < farm->tanks_count; i++) {
        const HourTankDay *t = &days->tanks[day * farm->tanks_count + i];
        printf("      %s n %.0f kg %.1f T %.1f O2 %.1f least %.1f at %d nh3 "
               "%.4f feed %.2f dead %.2f\n",
               farm->tanks[i].id, t->count, t->kg, t->temp_degc, t->oxygen_g_m3,
               t->oxygen_least_g_m3, t->oxygen_least_hour, t->nh3_most_g_m3,
               t->feed_kg, t->dead_count);
    }
}

static Err time_runs(const char *path, bool tells, Arena *arena,
                     double out[RUNS])
{
    const Farm *farm = NULL;
    Typical typical;
    TRY(check_farm_load(path, arena, &farm));
    TRY(typical_make(farm, arena, &typical));
    HourAsk ask = {farm, typical.book, typical.climate,
                   week_of(farm->farm->records_from), hour_usual_care()};
    HourFarm *h = NULL;
    HourState *first = NULL;
    HourState *state = NULL;
    TRY(hour_farm_make(&ask, arena, &h));
    TRY(hour_state_make(h, arena, &first));
    TRY(hour_state_make(h, arena, &state));
    HourWeather *weather = ARENA_ARRAY(arena, HourWeather, DAYS * DAY_HOURS);
    hour_typical_weather(h, 0, DAYS * DAY_HOURS, weather);
    HourDays days;
    for (int run = 0; run < RUNS; run++) {
        hour_days_make(h, DAYS, arena, &days);
        hour_state_copy(h, first, state);
        double from = now_ms();
        hour_run(h, state, weather, &days);
        out[run] = (now_ms() - from) * 365.0 / DAYS;
    }
    for (int day = 0; tells && day < DAYS; day += 2 * WEEK_D) {
        tell(farm, &days, day);
    }
    printf("worst residual of an hour: %.1e of what moved (%s)\n",
           days.worst_residual_frac, hour_quantity_name(days.worst_quantity));
    return ERR_NONE;
}

int main(int count, char **words)
{
    bool tells = count == 3 && strcmp(words[2], "--days") == 0;
    if (count != 2 && !tells) {
        fprintf(stderr, "usage: bench_hour DIR [--days]\n");
        return 2;
    }
    CLEANUP(arena_release) Arena arena = {0};
    double runs_ms[RUNS];
    Err err = time_runs(words[1], tells, &arena, runs_ms);
    if (err.kind != ERR_OK) {
        fprintf(stderr, "%s\n", err.text);
        return err_exit_code(err.kind);
    }
    qsort(runs_ms, RUNS, sizeof runs_ms[0], by_size);
    printf("farm-year by the hour: least %.1f ms, median %.1f ms (asked: 80 "
           "ms)\n",
           runs_ms[0], runs_ms[RUNS / 2]);
    return 0;
}
