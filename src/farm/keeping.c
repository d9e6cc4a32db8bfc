/* How long what is picked keeps in a cold store. */
#include "farm/keeping.h"

/* Less that lasts is no store; judged. */
static const double LEAST_FRAC = 0.1;

double keeping_days(const Book *book, const Way *way)
{
    const BookWay *row = book_way(book, way->book);
    return way->keep_days > 0.0 ? way->keep_days
                                : book_crop_of(book, row)->keep_d.value;
}

double keeping_week_frac(double keep_days)
{
    double lasts_frac = keep_days <= 7.0 ? 0.0 : 1.0 - 7.0 / keep_days;
    return lasts_frac > LEAST_FRAC ? lasts_frac : 0.0;
}
