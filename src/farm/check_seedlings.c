/* Sense of the seedlings that stand in trays: their days, their way, the bench
 * they hold. */
#include <math.h>

#include "base/date.h"
#include "farm/checker.h"
#include "farm/seedlings.h"

static const char *day_text(const Checker *c, int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy_text(c->arena, text);
}

static const BookWay *way_of(const Checker *c, const Plant *plant)
{
    return plant->way >= 0 ? book_way(c->book, c->farm->ways[plant->way].book)
                           : NULL;
}

static void check_way(const Checker *c, const Plant *plant)
{
    const BookWay *book = way_of(c, plant);
    if (book && (book->start == START_SOWN ||
                 c->farm->ways[plant->way].tray == REF_BLANK)) {
        check_tell(c, TABLE_plants, plant, "set_on",
                   "set_on: no later than counted_on; %s is sown in place, "
                   "not raised in trays",
                   c->farm->ways[plant->way].id);
    }
}

/* Seedlings are set out once they are big enough and while they still can. */
static void check_age(const Checker *c, const Plant *plant)
{
    const BookWay *book = way_of(c, plant);
    if (!book || book->start == START_SOWN || plant->sown_on == DATE_WRONG) {
        return;
    }
    double wait_d = seedlings_wait_d(c->farm, plant->way, book);
    int32_t soonest = plant->sown_on + (int32_t)book->nursery_d.low;
    int32_t latest = plant->sown_on + (int32_t)(book->nursery_d.high + wait_d);
    const char *way = c->farm->ways[plant->way].id;
    if (latest < plant->counted_on) {
        check_tell(c, TABLE_plants, plant, "sown_on",
                   "sown_on: no more than %d days before counted_on; %s cannot "
                   "wait longer in its trays",
                   (int)(latest - plant->sown_on), way);
        return;
    }
    if (plant->set_on == DATE_NEVER) {
        return;
    }
    if (plant->set_on < soonest || plant->set_on > latest) {
        check_tell(c, TABLE_plants, plant, "set_on",
                   "set_on: from %s to %s; seedlings of %s are set out so many "
                   "days after their sowing",
                   day_text(c, soonest), day_text(c, latest), way);
    }
}

static void check_days(const Checker *c, const Plant *plant)
{
    int32_t first = check_first_day(c);
    if (plant->sown_on == DATE_ALWAYS) {
        check_tell(c, TABLE_plants, plant, "sown_on",
                   plant->set_on == DATE_NEVER
                       ? "sown_on: the day, for seedlings in trays; or set_on, "
                         "for what stands in a bed"
                       : "sown_on: the day; what is set out after counted_on "
                         "stands in trays");
        return;
    }
    if (check_is_before(plant->counted_on, plant->sown_on)) {
        check_tell(c, TABLE_plants, plant, "sown_on",
                   "sown_on: no later than counted_on");
        return;
    }
    if (check_is_before(first, plant->counted_on)) {
        check_tell(c, TABLE_plants, plant, "counted_on",
                   "counted_on: no later than the farm's records_from");
    }
    if (check_is_before(plant->set_on, first)) {
        check_tell(c, TABLE_plants, plant, "set_on",
                   "set_on: from the farm's records_from on; what was set "
                   "before is counted in its bed");
    }
    check_age(c, plant);
}

static void check_place(const Checker *c, const Plant *plant)
{
    if (plant->bed == REF_BLANK && plant->plants == 0) {
        check_tell(c, TABLE_plants, plant, "plants",
                   "plants: how many stand, so that the plan can place them; "
                   "or the bed and the sections that they go to");
    }
    if (plant->bed >= 0 && plant->set_on == DATE_NEVER) {
        check_tell(c, TABLE_plants, plant, "set_on",
                   "set_on: the day on which the seedlings are set in bed %s",
                   c->farm->beds[plant->bed].id);
    }
}

/* Trays of the nursery's count that a batch holds, as far as the tables tell.
 */
static double trays_held(const Checker *c, const Plant *plant)
{
    int32_t row = plant->way >= 0 ? c->farm->ways[plant->way].tray : REF_BLANK;
    if (row < 0) {
        return 0.0;
    }
    const Tray *tray = &c->farm->trays[row];
    double trays = plant->trays > 0.0 || tray->cells < 1
                       ? plant->trays
                       : (double)plant->plants / tray->cells;
    return trays * tray->room_frac;
}

static void check_bench(const Checker *c, const Plant *last, double held)
{
    int32_t first = check_first_day(c);
    double room = 0.0;
    for (int32_t i = 0; first != DATE_WRONG && i < c->farm->nursery_count;
         i++) {
        room += c->farm->nursery[i].trays[date_month(first) - 1];
    }
    if (first != DATE_WRONG && c->farm->nursery_count > 0 &&
        held > room + 1e-9) {
        check_tell(c, TABLE_plants, last, "trays",
                   "at most %.4g trays of seedlings together, as many as the "
                   "nursery holds, not %.4g",
                   room, held);
    }
}

void check_seedlings(const Checker *c)
{
    const Plant *last = NULL;
    double held = 0.0;
    for (int32_t i = 0; i < c->farm->plants_count; i++) {
        const Plant *plant = &c->farm->plants[i];
        if (plant->counted_on == DATE_WRONG || !seedlings_are(plant)) {
            continue;
        }
        check_way(c, plant);
        check_days(c, plant);
        check_place(c, plant);
        held += trays_held(c, plant);
        last = plant;
    }
    if (last) {
        check_bench(c, last, held);
    }
}
