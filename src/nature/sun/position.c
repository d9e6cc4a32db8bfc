/* The sun's place in the sky by Meeus's low-accuracy theory. */
#include "nature/sun/position.h"

#include <math.h>

#include "nature/sun/solar.h"

static double turned_deg(double angle_deg)
{
    double rest_deg = fmod(angle_deg, 360.0);
    return rest_deg < 0.0 ? rest_deg + 360.0 : rest_deg;
}

static double sin_deg(double angle_deg)
{
    return sin(sun_rad_from_deg(angle_deg));
}

static double cos_deg(double angle_deg)
{
    return cos(sun_rad_from_deg(angle_deg));
}

static double deg_from_rad(double angle_rad)
{
    return angle_rad * 180.0 / SUN_PI;
}

typedef struct Ecliptic {
    double mean_longitude_deg;
    double longitude_deg; /* apparent */
    double obliquity_deg;
    double nutation_deg; /* in longitude */
    double distance_au;
} Ecliptic;

static Ecliptic ecliptic_at(double t)
{
    double mean_deg = 280.46646 + t * (36000.76983 + 0.0003032 * t);
    double m_deg = 357.52911 + t * (35999.05029 - 0.0001537 * t);
    double e = 0.016708634 - t * (0.000042037 + 0.0000001267 * t);
    double c_deg = sin_deg(m_deg) * (1.914602 - t * (0.004817 + 0.000014 * t)) +
                   sin_deg(2.0 * m_deg) * (0.019993 - 0.000101 * t) +
                   0.000289 * sin_deg(3.0 * m_deg);
    double node_deg = 125.04 - 1934.136 * t;
    double nutation_deg = -0.00478 * sin_deg(node_deg);
    return (Ecliptic){
        .mean_longitude_deg = turned_deg(mean_deg),
        .longitude_deg = mean_deg + c_deg - 0.00569 + nutation_deg,
        .obliquity_deg =
            23.439291 - 0.0130042 * t + 0.00256 * cos_deg(node_deg),
        .nutation_deg = nutation_deg,
        .distance_au =
            1.000001018 * (1.0 - e * e) / (1.0 + e * cos_deg(m_deg + c_deg)),
    };
}

static double refraction_deg(const SunPlace *place, double elevation_deg)
{
    if (place->pressure_kpa <= 0.0 || elevation_deg < -1.0) {
        return 0.0;
    }
    double h = elevation_deg;
    double minutes = 1.02 / tan(sun_rad_from_deg(h + 10.3 / (h + 5.11)));
    return minutes / 60.0 * (place->pressure_kpa / 101.0) *
           (283.0 / (273.0 + place->temp_degc));
}

SunPosition sun_position(const SunPlace *place, int64_t unix_s)
{
    /* 946728000 s is 2000-01-01 12:00 UTC. The seconds between UTC and the
     * planets' even time move the sun by less than 0.001 degree. */
    double days = (double)(unix_s - 946728000) / 86400.0;
    double t = days / 36525.0;
    Ecliptic sun = ecliptic_at(t);
    double right_deg = turned_deg(deg_from_rad(
        atan2(cos_deg(sun.obliquity_deg) * sin_deg(sun.longitude_deg),
              cos_deg(sun.longitude_deg))));
    double declination_rad =
        asin(sin_deg(sun.obliquity_deg) * sin_deg(sun.longitude_deg));
    double sidereal_deg = 280.46061837 + 360.98564736629 * days +
                          0.000387933 * t * t +
                          sun.nutation_deg * cos_deg(sun.obliquity_deg);
    double hour_rad = sun_rad_from_deg(
        turned_deg(sidereal_deg + place->longitude_deg - right_deg));
    SunDirection to =
        sun_direction(place->latitude_deg, declination_rad, hour_rad);
    double flat = hypot(to.east, to.north);
    double true_deg = deg_from_rad(atan2(to.up, flat));
    double seen_deg =
        true_deg - 8.794 / 3600.0 / sun.distance_au * cos_deg(true_deg);
    seen_deg += refraction_deg(place, seen_deg);
    double ahead_deg =
        turned_deg(sun.mean_longitude_deg - 0.0057183 - right_deg +
                   sun.nutation_deg * cos_deg(sun.obliquity_deg) + 180.0) -
        180.0;
    return (SunPosition){
        .zenith_deg = 90.0 - seen_deg,
        .elevation_deg = seen_deg,
        .azimuth_deg = turned_deg(deg_from_rad(atan2(to.east, to.north))),
        .declination_deg = deg_from_rad(declination_rad),
        .right_ascension_deg = right_deg,
        .equation_of_time_min = 4.0 * ahead_deg,
        .distance_au = sun.distance_au,
    };
}
