/* How the grower opens a tunnel, and when fleece lies on its beds: the columns
 * of its row, with the book's figures where they are blank. The typical year,
 * the coupled hour and all that is told about vents go by it. */
#ifndef LEAT_SIM_VENT_RULE_H
#define LEAT_SIM_VENT_RULE_H

#include "farm/book.h"
#include "farm/records.h"
#include "nature/heat/tunnel.h"

enum { VENT_MONTHS = 12 };

/* A mean wind in which openings are kept shut is never met. */
typedef struct VentRule {
    double open_degc;             /* NAN: the book's, by the night */
    double close_degc;            /* NAN: as it opens */
    double cold_degc, mild_degc;  /* the book's two */
    double midday_h[VENT_MONTHS]; /* 0: none */
    double floor_degc;            /* at midday no colder inside than this */
    double shut_wind_m_s;         /* INFINITY: never */
    double shut_outside_degc;     /* -INFINITY: never */
    double fleece_degc;           /* -INFINITY: there is none */
    double fleece_over_k; /* how much milder it is below it, at the least */
    unsigned fleece_months;
    bool has_midday; /* told in its row */
    bool has_floor;
} VentRule;

VentRule vent_rule_of(const Tunnel *row, const BookCommon *common);

/* The openings of its row as areas of the house: sides and ends (or all) low
 * down, the ridge apart. An opening of the ends is two metres high or as high
 * as the house; judged. */
void vent_rule_openings(const Tunnel *row, const BookCommon *common,
                        TunnelHouse *house);

/* An hour: 0..23 by the sun, month 0..11. */
typedef struct VentHour {
    int month;
    int hour;
    double night_degc; /* the usual night, for the book's two figures */
    double outside_degc;
    double wind_m_s;
    bool was_open; /* for their warmth, in the hour before */
} VentHour;

/* Sets vent_at_degc and vent_most_frac of the house.
 *
 *     open   above open_degc, held there; once open down to close_degc
 *     book   22 degC where nights are under 10 degC, 12 where over 15, straight
 *            between: the grower passes from one rule to the other
 *     midday hours about one o'clock: down to floor_degc however cool it is,
 *            for the share of the hour that they cover
 *     shut   in more wind than shut_wind_m_s, colder than shut_outside_degc
 *
 * true: in these hours they are open to dry the air, not for its warmth. */
bool vent_rule_set(const VentRule *rule, const VentHour *hour,
                   TunnelHouse *house);

/* Share of an hour 0..23 that hours about one o'clock by the sun cover. */
double vent_midday_share(double midday_h, int hour);

bool vent_rule_fleeced(const VentRule *rule, int month, double air_degc);

#endif
