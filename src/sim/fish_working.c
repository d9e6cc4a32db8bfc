/* How the figures of a batch of fish are made. */
#include "sim/fish_working.h"

#include "base/date.h"
#include "base/tongue.h"

enum { WEEK_D = 7 };

static void put_sale(Working *working, double sale_g)
{
    working_put(working, &(WorkingInput){.name = SAY("weight of sale"),
                                         .value = sale_g,
                                         .unit = "g",
                                         .from = WORKING_TABLE});
}

Working *fish_working_begin_over(const FishStandCase *stand,
                                 const FishStandBatch *batch)
{
    Working *working =
        working_begin(stand->workings, "fish", batch->id, "over_count");
    working_says(working, "fish over the weight of sale",
                 "of each group that the plan moves together: those of its "
                 "slices by weight that are at or over the weight of sale, on "
                 "the week's Monday",
                 "over_count = 0");
    put_sale(working, stand->sale_g);
    working_note(working,
                 "A batch is kept as 16 slices by weight, drawn once from its "
                 "mean and spread; each grows by the law of feed and growth in "
                 "the water of its tank.");
    return working;
}

void fish_working_over(Working *working, double count, double over)
{
    if (!working) {
        return;
    }
    int n = 1;
    for (int i = 0; i < working->input_count; i++) {
        n += working->inputs[i].symbol != NULL;
    }
    const char *symbol = working_symbol(working, "n", n);
    working_joins(working, " + ");
    working_joins(working, symbol);
    working_put(working,
                &(WorkingInput){.symbol = symbol,
                                .name = arena_say(working->arena,
                                                  "over it, of the %.0f of "
                                                  "group %d",
                                                  count, n),
                                .value = over,
                                .unit = "fish",
                                .from = WORKING_FORESEEN});
}

/* The day on which a path of means passes the weight of sale: the Monday
 * before, a week on. */
static void tell_ready(const FishStandCase *stand, const FishStandBatch *batch,
                       const char *figure, const double *mean_g, int32_t day)
{
    Working *working =
        day == DATE_NEVER
            ? NULL
            : working_begin(stand->workings, "fish", batch->id, figure);
    if (!working) {
        return;
    }
    int week = (day - stand->first_week) / WEEK_D;
    bool is_now = week <= batch->start_week;
    working_says(working, "mean at the weight of sale",
                 is_now ? "it is there already: the Monday of the first week"
                        : "the last Monday on which the mean is under the "
                          "weight of sale, and a week",
                 arena_text(working->arena, "%s = %s", figure,
                            is_now ? "monday" : "monday + 7"));
    working_put(working, &(WorkingInput){.symbol = "monday",
                                         .name = SAY("Monday"),
                                         .value = is_now ? day : day - WEEK_D,
                                         .unit = "date",
                                         .from = WORKING_FORESEEN});
    if (!is_now) {
        working_put(working, &(WorkingInput){.name = SAY("mean on that Monday"),
                                             .value = mean_g[week - 1],
                                             .unit = "g",
                                             .from = WORKING_FORESEEN});
    }
    working_put(working, &(WorkingInput){.name = SAY("mean on the day"),
                                         .value = mean_g[week],
                                         .unit = "g",
                                         .from = WORKING_FORESEEN});
    put_sale(working, stand->sale_g);
    working_note(working,
                 "A fish grows by: efficiency x feed - upkeep x weight^0.81; "
                 "feed by weight, the water's temperature and the farm's own "
                 "appetite where it has one. Early and late: by the high and "
                 "low published tables of feed by temperature and of growth "
                 "per feed.");
    working_source(working, "YI1998");
    working_is(working, day, "date");
}

void fish_working_ready(const FishStandCase *stand, const FishStandBatch *batch)
{
    tell_ready(stand, batch, "ready_early", batch->all.high_g,
               batch->ready_early);
    tell_ready(stand, batch, "ready_on", batch->all.value_g, batch->ready_on);
    tell_ready(stand, batch, "ready_late", batch->all.low_g, batch->ready_late);
}
