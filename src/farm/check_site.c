/* Sense of the place: farm, climate, tunnels, beds in them. */
#include <string.h>

#include "base/date.h"
#include "farm/checker.h"

enum { MONTHS = 12 };

/* A plan and its tail run for years from there; dates end with 2199. */
static bool is_usable_day(int32_t day)
{
    const CivilDate least = {.year = 1970, .month = 1, .day = 2};
    const CivilDate most = {.year = 2190, .month = 12, .day = 31};
    return day >= date_from_civil(least) && day <= date_from_civil(most);
}

static void check_farm_row(const Checker *c)
{
    if (c->farm->farm_count != 1) {
        return;
    }
    const FarmSite *site = &c->farm->farm[0];
    if (site->records_from != DATE_WRONG &&
        !is_usable_day(site->records_from)) {
        check_tell(c, TABLE_farm, site, "records_from",
                   "records_from: a day from 1970 to 2190");
    }
    const char *currency = site->currency;
    bool is_code = strlen(currency) == 3;
    for (int i = 0; is_code && i < 3; i++) {
        is_code = currency[i] >= 'A' && currency[i] <= 'Z';
    }
    if (*currency && !is_code) {
        check_tell(c, TABLE_farm, site, "currency",
                   "currency: three capital letters of ISO 4217, as EUR");
    }
    const char *letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                          "0123456789_+-/";
    const char *zone = site->timezone;
    if (zone[strspn(zone, letters)] || *zone == '/') {
        check_tell(c, TABLE_farm, site, "timezone",
                   "timezone: an IANA zone as Europe/Lisbon");
    }
}

static void check_climate(const Checker *c)
{
    int32_t line_of[MONTHS + 1] = {0};
    bool is_told = c->farm->climate_count == 0;
    for (int32_t i = 0; i < c->farm->climate_count; i++) {
        const ClimateMonth *row = &c->farm->climate[i];
        if (row->month < 1 || row->month > MONTHS) {
            is_told = true; /* which one it is, is not known */
            continue;
        }
        if (line_of[row->month]) {
            check_tell(c, TABLE_climate, row, "month",
                       "each month once; line %d has it already",
                       (int)line_of[row->month]);
        }
        line_of[row->month] = row->line;
        if (row->tmin_degc > row->tmax_degc) {
            check_tell(c, TABLE_climate, row, "tmin_degc",
                       "tmin_degc: at most tmax_degc, %.4g", row->tmax_degc);
        }
    }
    for (int month = 1; month <= MONTHS && !is_told; month++) {
        if (!line_of[month]) {
            check_tell(c, TABLE_climate, NULL, NULL,
                       "a row for month %d; all twelve are needed", month);
        }
    }
}

static void check_openings(const Checker *c, const Tunnel *row)
{
    if (row->open_degc > 0.0 && row->close_degc > row->open_degc) {
        check_tell(c, TABLE_tunnels, row, "close_degc",
                   "close_degc: at most open_degc, %.4g", row->open_degc);
    }
    if (row->close_degc > 0.0 && !(row->open_degc > 0.0)) {
        check_tell(c, TABLE_tunnels, row, "open_degc",
                   "open_degc: above which tunnel %s is opened, where it says "
                   "below which it is shut",
                   row->id);
    }
    double parts_m2 = row->side_m2 + row->end_m2 + row->ridge_m2;
    if (parts_m2 > 0.0 && row->vent_m2 > 0.0) {
        check_notice(c, TABLE_tunnels, row, "vent_m2",
                     "tunnel %s: the openings of side, end and ridge count, "
                     "%.4g m2; vent_m2 does not",
                     row->id, parts_m2);
    }
}

/* Rows in any order; each day once. */
static void check_forecast(const Checker *c)
{
    int32_t count = c->farm->forecast_count;
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    for (int32_t i = 0; i < count; i++) {
        const ForecastRow *row = &c->farm->forecast[i];
        keys[i] = (CheckKey){.a = row->date, .row = i};
        if (row->tmin_degc > row->tmax_degc) {
            check_tell(c, TABLE_forecast, row, "tmin_degc",
                       "tmin_degc: at most tmax_degc, %.4g", row->tmax_degc);
        }
    }
    if (count > FORECAST_DAYS_MOST) {
        check_tell(c, TABLE_forecast, &c->farm->forecast[FORECAST_DAYS_MOST],
                   "date", "no more than %d days of forecast",
                   (int)FORECAST_DAYS_MOST);
    }
    check_sort(keys, count);
    for (int32_t i = 1; i < count; i++) {
        const ForecastRow *row = &c->farm->forecast[keys[i].row];
        if (keys[i].a == keys[i - 1].a && row->date != DATE_WRONG) {
            check_tell(c, TABLE_forecast, row, "date",
                       "each day once; line %d has it already",
                       (int)c->farm->forecast[keys[i - 1].row].line);
        }
    }
}

static void check_tunnels(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->tunnels_count; i++) {
        const Tunnel *row = &c->farm->tunnels[i];
        if (*row->cover && !book_cover(c->book, row->cover)) {
            check_tell(c, TABLE_tunnels, row, "cover",
                       "cover: a cover of the book%s",
                       check_near(c, "covers", row->cover));
        }
        check_openings(c, row);
        if (row->shade_frac > 0.0 && row->shade_months == 0) {
            check_notice(c, TABLE_tunnels, row, "shade_months",
                         "tunnel %s has a shade cloth but no month in which it "
                         "is on",
                         row->id);
        }
        if (row->whitewash_frac > 0.0 && row->whitewash_months == 0) {
            check_notice(c, TABLE_tunnels, row, "whitewash_months",
                         "tunnel %s has a wash but no month in which it is on",
                         row->id);
        }
    }
}

static void check_bed(const Checker *c, const Bed *row)
{
    if (row->flood_m > row->depth_m) {
        check_tell(c, TABLE_beds, row, "flood_m",
                   "flood_m: at most the gravel's depth_m, %.4g", row->depth_m);
    }
    if (row->zone == REF_BLANK) {
        check_tell(c, TABLE_beds, row, "zone",
                   "zone: the zone that floods bed %s; it is in none", row->id);
    }
    if (*row->gravel && !book_gravel(c->book, row->gravel)) {
        check_tell(c, TABLE_beds, row, "gravel",
                   "gravel: a gravel of the book%s",
                   check_near(c, "gravels", row->gravel));
    }
    if (row->edge == EDGE_NONE && row->edge_m > 0.0) {
        check_tell(c, TABLE_beds, row, "edge_m",
                   "edge: sunny or back, where there is an edge of %.4g m",
                   row->edge_m);
    }
    if (row->edge != EDGE_NONE && row->edge_m <= 0.0) {
        check_tell(c, TABLE_beds, row, "edge_m",
                   "edge_m: the length of the edge of bed %s", row->id);
    }
    if (check_is_before(row->until, row->from)) {
        check_tell(c, TABLE_beds, row, "until", "until: not before from");
    }
}

/* Beds may not cover more ground than their tunnel has. */
static void check_ground(const Checker *c)
{
    int32_t count = c->farm->tunnels_count;
    double *covered_m2 = ARENA_ARRAY(c->arena, double, count);
    for (int32_t i = 0; i < c->farm->beds_count; i++) {
        const Bed *bed = &c->farm->beds[i];
        if (bed->tunnel >= 0 && bed->until == DATE_NEVER) {
            covered_m2[bed->tunnel] += bed->length_m * bed->width_m;
        }
    }
    for (int32_t i = 0; i < count; i++) {
        const Tunnel *tunnel = &c->farm->tunnels[i];
        double ground_m2 = tunnel->length_m * tunnel->width_m;
        if (covered_m2[i] > ground_m2) {
            check_tell(c, TABLE_tunnels, tunnel, "length_m",
                       "beds of at most %.4g m2 in tunnel %s, not %.4g",
                       ground_m2, tunnel->id, covered_m2[i]);
        }
    }
}

static void check_walk(const Checker *c)
{
    int32_t count = c->farm->beds_count;
    CheckKey *keys = ARENA_ARRAY(c->arena, CheckKey, count);
    for (int32_t i = 0; i < count; i++) {
        keys[i] = (CheckKey){.a = c->farm->beds[i].walk, .row = i};
    }
    check_sort(keys, count);
    for (int32_t i = 1; i < count; i++) {
        const Bed *bed = &c->farm->beds[keys[i].row];
        if (keys[i].a == keys[i - 1].a && bed->walk > 0) {
            check_notice(c, TABLE_beds, bed, "walk",
                         "beds %s and %s have one place in the walk",
                         c->farm->beds[keys[i - 1].row].id, bed->id);
        }
    }
}

void check_site(const Checker *c)
{
    check_farm_row(c);
    check_climate(c);
    check_forecast(c);
    check_tunnels(c);
    for (int32_t i = 0; i < c->farm->beds_count; i++) {
        check_bed(c, &c->farm->beds[i]);
    }
    check_ground(c);
    check_walk(c);
}
