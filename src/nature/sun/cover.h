/* Sun through the sheet that covers a tunnel, by the angle at which it comes,
 * and on the rows below a round roof. */
#ifndef LEAT_NATURE_SUN_COVER_H
#define LEAT_NATURE_SUN_COVER_H

#include "nature/sun/solar.h"

typedef struct CoverSheet {
    double index;     /* n, refraction: 1.5 for films and glass; over 1 */
    double thickness; /* K L, absorption along the straight way through */
} CoverSheet;

/* Share of unpolarised sun let through one sheet.
 *     sin r = sin i / n
 *     rho_s = (sin(r-i) / sin(r+i))^2,  rho_p = (tan(r-i) / tan(r+i))^2
 *     a = exp(-K L / cos r)
 *     tau = mean over s and p of a (1 - rho)^2 / (1 - rho^2 a^2)
 *
 * cos_incidence  cosine of the angle i to the sheet's normal; 0 or less: none
 * Source: [DUFFIE2013] chapter 5 (from memory). */
double cover_direct_frac(const CoverSheet *sheet, double cos_incidence);

/* ... of light that comes evenly from a half sphere:
 *     tau_d = 2 integral of tau(i) sin i cos i di, 0..90 degrees. */
double cover_diffuse_frac(const CoverSheet *sheet);

/* The sheet whose share at right angles is straight_frac; what one sheet cannot
 * let through (over 0.92 at n = 1.5) becomes a sheet without absorption. */
CoverSheet cover_sheet_of(double index, double straight_frac);

enum { COVER_STEPS = 128 };

/* The same curve as a table, for use by the hour. */
typedef struct CoverCurve {
    double frac[COVER_STEPS + 1]; /* by cos(incidence) in even steps 0..1 */
} CoverCurve;

void cover_curve_fill(const CoverSheet *sheet, CoverCurve *out);
double cover_curve_at(const CoverCurve *curve, double cos_incidence);

/* A long tunnel whose section is half an ellipse. */
typedef struct CoverRoof {
    double width_m;
    double height_m;    /* at the ridge */
    double right_east;  /* unit vector across the ridge, to the right of one */
    double right_north; /* who looks along it */
} CoverRoof;

/* axis_deg  of the ridge from north, eastward: 90 is east-west */
CoverRoof cover_roof_of(double width_m, double height_m, double axis_deg);

/* Cosine of the angle at which the beam that reaches a row meets the roof. The
 * beam is followed back from the row to where it came through.
 *     (y + t s_y)^2 / (w/2)^2 + (t s_z)^2 / h^2 = 1,
 *     cos i = s . n,  n along (y / (w/2)^2, z / h^2)
 *
 * row_m  how far the row lies from the middle, to the right of one who looks
 *        along the axis (one of 90 looks east, so to the south); within
 *        half the width
 * 0 when the sun is down. The geometry is ours. */
double cover_roof_cos_incidence(const CoverRoof *roof, const SunDirection *sun,
                                double row_m);

#endif
