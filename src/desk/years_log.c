/* A logger's weather in the farm's folder. */
#include "desk/years_log.h"

#include <inttypes.h>

#include "base/date.h"
#include "desk/clock.h"
#include "desk/farm_folder.h"

enum { LOG_MAX_BYTES = 64 * 1024 * 1024, DAY_HOURS = 24 };

Err years_log_load(const char *dir, Arena *arena, FarmBuffer *out)
{
    *out = (FarmBuffer){0};
    Err err =
        farm_folder_read_file(dir, WEATHER_LOG_FILE, LOG_MAX_BYTES, arena, out);
    return err.kind == ERR_NOT_FOUND ? ERR_NONE : err;
}

static Err first_fault(const Faults *faults)
{
    const Fault *fault = &faults->items[0];
    return err_make(
        ERR_INPUT, "%s:%d: \"%.60s\": %.160s (%" PRId64 " %s in it)",
        WEATHER_LOG_FILE, (int)fault->place.line, fault->value, fault->expected,
        faults->count, faults->count == 1 ? "fault" : "faults");
}

Err years_log_read(const FarmBuffer *file, const Farm *farm, Arena *arena,
                   const WeatherLog **out, YearsLogTold *told)
{
    *out = NULL;
    if (!file->bytes) {
        return ERR_NONE;
    }
    WeatherLog *log = ARENA_NEW(arena, WeatherLog);
    WeatherLogAsk ask = {WEATHER_LOG_FILE, file->bytes, file->length, 0.0};
    Faults faults;
    /* Once for its first day, once more by that day's clock. */
    for (int pass = 0; pass < 2; pass++) {
        faults_init(&faults, arena, 1);
        weather_log_read(&ask, arena, &faults, log);
        if (faults.count > 0) {
            return first_fault(&faults);
        }
        int32_t day = (int32_t)(log->from_hour / DAY_HOURS);
        ask.clock_ahead_h = clock_ahead_of_sun_h(farm->farm, day);
    }
    enum { TOLD_MOST = sizeof told->texts / sizeof *told->texts };
    for (int i = 0; told && i < faults.notice_count && i < TOLD_MOST; i++) {
        told->texts[told->count++] = arena_text(
            arena, "%s:%d: %s", WEATHER_LOG_FILE,
            (int)faults.notices[i].place.line, faults.notices[i].expected);
    }
    *out = log;
    return ERR_NONE;
}
