/* Reading a typed forecast and laying it over the weather. */
#include "sim/weather_forecast.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/sun/solar.h"
#include "sim/weather_cells.h"
#include "sim/weather_parts.h"

enum { DAY_DATE, DAY_MAX, DAY_MIN, DAY_CLOUD, DAY_RH, DAY_WIND, DAY_COLUMNS };

static const WeatherColumn COLUMNS[DAY_COLUMNS] = {
    {"date", true, 0, 0},         {"tmax_degc", true, -50, 55},
    {"tmin_degc", true, -60, 45}, {"cloud_pct", false, 0, 100},
    {"rh_pct", false, 5, 100},    {"wind_m_s", false, 0, 40}};

typedef struct ForecastReading {
    WeatherSheet sheet;
    WeatherForecast *out;
} ForecastReading;

static bool read_date(ForecastReading *r, const CsvRow *row, int32_t *out)
{
    const CsvCell *cell = weather_cell(&r->sheet, row, DAY_DATE);
    FaultPlace place = {r->sheet.file, row->line, cell ? cell->column : 0};
    const char *text = cell ? cell->text : "";
    Err err = date_parse(text, out);
    if (err.kind != ERR_OK) {
        faults_add(r->sheet.faults, place, text, "a date as 2027-03-01");
        return false;
    }
    const WeatherForecast *so_far = r->out;
    if (so_far->count > 0 && *out <= so_far->days[so_far->count - 1].date) {
        faults_add(r->sheet.faults, place, text,
                   "a date after that of the row before");
        return false;
    }
    return true;
}

static void take_row(void *self, const CsvRow *row)
{
    ForecastReading *r = self;
    if (!r->sheet.has_header) {
        weather_sheet_header(&r->sheet, row);
        return;
    }
    if (!r->sheet.is_usable || row->is_damaged) {
        return;
    }
    FaultPlace place = {r->sheet.file, row->line, 0};
    if (r->out->count == WEATHER_FORECAST_MAX) {
        faults_add(r->sheet.faults, place, "", "no more than %d days",
                   (int)WEATHER_FORECAST_MAX);
        r->sheet.is_usable = false;
        return;
    }
    double value[DAY_COLUMNS] = {0};
    WeatherForecastDay day = {0};
    bool is_sound = read_date(r, row, &day.date);
    for (int i = DAY_MAX; i < DAY_COLUMNS; i++) {
        is_sound = weather_number(&r->sheet, row, i, &value[i]) && is_sound;
    }
    if (!is_sound) {
        return;
    }
    if (!(value[DAY_MAX] >= value[DAY_MIN])) {
        faults_add(r->sheet.faults, place, "",
                   "a maximum and a minimum that is not above it");
        return;
    }
    day.max_degc = value[DAY_MAX];
    day.min_degc = value[DAY_MIN];
    day.cloud_frac = value[DAY_CLOUD] / 100.0;
    day.rh_frac = value[DAY_RH] / 100.0;
    day.wind_m_s = value[DAY_WIND];
    r->out->days[r->out->count++] = day;
}

static void take_fault(void *self, const CsvFault *fault)
{
    const ForecastReading *r = self;
    weather_sheet_fault(&r->sheet, fault);
}

void weather_forecast_read(const WeatherLogAsk *ask, Faults *faults,
                           WeatherForecast *out)
{
    memset(out, 0, sizeof *out);
    ForecastReading r = {weather_sheet(ask->file, COLUMNS, DAY_COLUMNS, faults),
                         out};
    CsvHandler handler = {&r, take_row, take_fault};
    csv_read_bytes(ask->bytes, ask->length, &handler);
    if (!r.sheet.has_header) {
        faults_add(faults, (FaultPlace){ask->file, 0, 0}, "",
                   "a header and a row for each day");
    }
}

static double said_or_nan(double value, double per)
{
    return value >= 0.0 ? value / per : NAN;
}

void weather_forecast_of_farm(const Farm *farm, WeatherForecast *out)
{
    memset(out, 0, sizeof *out);
    for (int32_t i = 0; i < farm->forecast_count; i++) {
        const ForecastRow *row = &farm->forecast[i];
        if (out->count == WEATHER_FORECAST_MAX) {
            return;
        }
        int at = out->count++;
        while (at > 0 && out->days[at - 1].date > row->date) {
            out->days[at] = out->days[at - 1];
            at--;
        }
        out->days[at] =
            (WeatherForecastDay){.date = row->date,
                                 .max_degc = row->tmax_degc,
                                 .min_degc = row->tmin_degc,
                                 .cloud_frac = said_or_nan(row->cloud_pct, 100),
                                 .rh_frac = said_or_nan(row->rh_pct, 100),
                                 .wind_m_s = said_or_nan(row->wind_m_s, 1)};
    }
}

static WeatherDay day_of(const WeatherMaker *maker,
                         const WeatherForecastDay *said, int32_t date)
{
    int doy = weather_day_of_year(date);
    WeatherDay day = {.day = maker->typical[doy],
                      .rh_frac =
                          fmin(fmax(maker->typical_rh_frac[doy], 0.05), 1.0)};
    if (!said) {
        return day;
    }
    const WeatherSky *sky = &maker->skies[doy];
    day.day.max_degc = said->max_degc;
    day.day.min_degc = said->min_degc;
    if (!isnan(said->cloud_frac)) {
        day.day.sun_mj_m2_d = sun_from_sunshine_mj_m2_d(
            day.day.above_air_mj_m2_d, 1.0 - said->cloud_frac);
        if (sky->clear_mj_m2_d > 0.0) {
            double clear = day.day.sun_mj_m2_d / sky->clear_mj_m2_d;
            day.day.clear_frac = fmin(fmax(clear, 0.3), 1.0);
        }
    }
    if (!isnan(said->rh_frac)) {
        day.rh_frac = said->rh_frac;
    }
    if (!isnan(said->wind_m_s)) {
        day.day.wind_m_s = said->wind_m_s;
    }
    return day;
}

const WeatherForecastDay *weather_forecast_day(const WeatherForecast *forecast,
                                               int32_t date)
{
    for (int i = 0; i < forecast->count; i++) {
        if (forecast->days[i].date == date) {
            return &forecast->days[i];
        }
    }
    return NULL;
}

int weather_forecast_apply(const WeatherMaker *maker,
                           const WeatherForecast *forecast,
                           const WeatherHours *to)
{
    int written = 0;
    for (int i = 0; i < forecast->count; i++) {
        const WeatherForecastDay *said = &forecast->days[i];
        int32_t at = said->date - to->from_day;
        if (at < 0 || at >= to->days) {
            continue;
        }
        const WeatherForecastDay *before =
            weather_forecast_day(forecast, said->date - 1);
        const WeatherForecastDay *after =
            weather_forecast_day(forecast, said->date + 1);
        /* Nights before and after the forecast are like its own. */
        WeatherDay three[3] = {
            day_of(maker, before ? before : said, said->date - 1),
            day_of(maker, said, said->date),
            day_of(maker, after ? after : said, said->date + 1)};
        weather_fill_hours(maker, three, said->date, to->hours + 24L * at);
        written++;
    }
    return written;
}
