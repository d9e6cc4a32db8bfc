/* Light through the cover onto three rows. */
#include "sim/climate_light.h"

#include <math.h>
#include <string.h>

typedef struct SideWord {
    const char *word;
    double east;
    double north;
} SideWord;

static const SideWord SIDES[] = {
    {"south", 0, -1}, {"north", 0, 1}, {"east", 1, 0}, {"west", -1, 0}};

/* +1 where row ROW_SOUTH lies to the right of the axis, else -1. */
static double south_turn(const CoverRoof *roof)
{
    double east = roof->right_east, north = roof->right_north;
    return fabs(north) >= fabs(east) ? (north < 0.0 ? 1.0 : -1.0)
                                     : (east > 0.0 ? 1.0 : -1.0);
}

int climate_row_of(const char *side, double axis_deg)
{
    CoverRoof roof = cover_roof_of(2.0, 1.0, axis_deg);
    for (size_t i = 0; i < sizeof SIDES / sizeof SIDES[0]; i++) {
        if (strcmp(side, SIDES[i].word) == 0) {
            double right = (SIDES[i].east * roof.right_east +
                            SIDES[i].north * roof.right_north) *
                           south_turn(&roof);
            /* Within 60 degrees of square to the axis. */
            return right > 1.0 / 2.0    ? ROW_SOUTH
                   : right < -1.0 / 2.0 ? ROW_NORTH
                                        : ROW_MIDDLE;
        }
    }
    return ROW_MIDDLE;
}

void climate_cover_fill(const ClimateCoverCase *given, ClimateCover *out)
{
    CoverSheet sheet = cover_sheet_of(1.5, given->straight_frac);
    double age = pow(1.0 - given->ageing_frac_year, given->age_years);
    double whole = cover_diffuse_frac(&sheet);
    *out = (ClimateCover){
        .roof = given->roof,
        .frame_frac = fmin(given->diffuse_frac / whole, 1.0) * age,
        .diffuse_frac = given->diffuse_frac * age,
    };
    memcpy(out->kept_frac, given->kept_frac, sizeof out->kept_frac);
    cover_curve_fill(&sheet, &out->direct);
}

double climate_row_w_m2(const ClimateCover *cover, const ClimateSun *sun,
                        const SunDirection *to_sun, int hour, int row)
{
    /* The middles of three rows of a third each. */
    double aside_m = cover->roof.width_m / 3.0;
    double row_m = aside_m * (row == ROW_SOUTH   ? 1.0
                              : row == ROW_NORTH ? -1.0
                                                 : 0.0);
    double cos_i = cover_roof_cos_incidence(&cover->roof, to_sun,
                                            row_m * south_turn(&cover->roof));
    return sun->direct_w_m2[hour] * cover->frame_frac *
               cover_curve_at(&cover->direct, cos_i) +
           sun->diffuse_w_m2[hour] * cover->diffuse_frac;
}
