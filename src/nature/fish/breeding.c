/* Young fish from breeders kept on the farm. */
#include "nature/fish/breeding.h"

Figure fish_fry_per_female(const FishSpecies *species, double temp_degc)
{
    static const double LOW = 0.3;
    double fry = 0.0;
    if (species->fry_cycle.count > 0 && temp_degc >= species->spawn_degc) {
        fry = fish_curve_at(&species->fry_cycle, temp_degc);
    }
    return (Figure){fry, LOW * fry, fry, FIGURE_BOOK, "SRAC_TILAPIA"};
}

Figure fish_fry_cycle_days(void)
{
    return (Figure){18.0, 16.0, 30.0, FIGURE_BOOK, "SRAC_TILAPIA"};
}

double fish_fry_for_sale(double sale_count)
{
    return sale_count / (0.80 * 0.95 * 0.98);
}
