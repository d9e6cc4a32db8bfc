/* How doses are made. */
#include "desk/dose_working.h"

#include "base/tongue.h"

static void put_taken(Working *working, const char *symbol, const char *name,
                      const SumAnswer *sum, const char *key,
                      const WorkingInput *from)
{
    const SumInput *input = sum_input(&sum->inputs, key);
    const SumKey *keys = sum->inputs.sum->keys;
    const char *unit = keys[input - sum->inputs.of].unit;
    working_value(
        working, symbol, name, input->number,
        (WorkingInput){.unit = unit, .from = from->from, .on = from->on});
}

static const WorkingInput TABLE = {.from = WORKING_TABLE};
static const WorkingInput GUESS = {.from = WORKING_GUESS};
static const WorkingInput YOURS = {.from = WORKING_YOURS};

static void put_lines(Working *working, const SumAnswer *sum)
{
    for (int i = 0; i < sum->working_count; i++) {
        working_note(working, "%s", sum->working[i]);
    }
    for (int i = 0; i < sum->source_count; i++) {
        working_source(working, sum->source[i]);
    }
}

/* A day's base, out of the sum that made it. */
typedef struct DayOf {
    DosePlan *plan;
    const char *id;
    const DoseDay *day;
    const WaterBase *base;
    const SumAnswer *sum;
    const WorkingInput *read; /* what was read */
    const WorkingInput *now;  /* the water before that day's base */
} DayOf;

static void tell_product(const DayOf *of)
{
    const SumAnswer *sum = of->sum;
    Working *working =
        working_begin(&of->plan->workings, "dose", of->id, "product_g");
    working_says(working, "base of the day",
                 "alkalinity at which this water stands at the day's pH, less "
                 "what it has, times the water, times grams of pure base for a "
                 "gram of it, over the product's strength",
                 "product_g = (after - before) x volume x g / strength x 100");
    working_value(working, "after", "alkalinity at the day's pH, as CaCO3",
                  of->day->alkalinity_mg_l,
                  (WorkingInput){.unit = "mg/L", .from = WORKING_WORKED});
    put_taken(working, "before", "alkalinity before it, as CaCO3", sum,
              "alkalinity_mg_l", of->now);
    put_taken(working, "volume", "water of the loop", sum, "volume_m3", &TABLE);
    working_value(working, "g", "pure base for a gram of CaCO3",
                  water_base_g_per_g_caco3(of->base),
                  (WorkingInput){.unit = "g/g", .from = WORKING_BOOK});
    put_taken(working, "strength", "strength of the product, as its row has it",
              sum, "strength_pct", &TABLE);
    put_taken(working, NULL, "pH before it", sum, "ph", of->now);
    put_taken(working, NULL, "water", sum, "temp_degc", of->read);
    put_taken(working, NULL, "total ammonia", sum, "tan_mg_l", of->read);
    put_lines(working, sum);
    working_is(working, of->day->product_g, "g");
    working_range(working, sum->main.low, sum->main.high);
}

static void tell_ph(const DayOf *of)
{
    const SumAnswer *sum = of->sum;
    Working *working =
        working_begin(&of->plan->workings, "dose", of->id, "ph_after");
    working_says(working, "pH after it",
                 "a day's step of at most 0.2, not past what is wanted",
                 "ph_after = min(ph + step, target)");
    put_taken(working, "ph", "pH before it", sum, "ph", of->now);
    put_taken(working, "step", "most rise in a day", sum, "step_ph", &GUESS);
    put_taken(working, "target", "pH at which the day ends at most", sum,
              "target_ph", &YOURS);
    put_lines(working, sum);
    working_is(working, of->day->ph, "");
}

/* product_g in so many portions. */
static void tell_portion(DosePlan *plan, const char *id, double product_g,
                         double portion_g, const char *name)
{
    Working *working = working_begin(&plan->workings, "dose", id, "portion_g");
    working_says(working, "a portion", "what is given over how many portions",
                 "portion_g = product_g / n");
    working_value(working, "product_g", "given in all", product_g,
                  (WorkingInput){.unit = "g",
                                 .from = WORKING_WORKED,
                                 .opens = {"dose", id, "product_g"}});
    working_value(working, "n", name, product_g / portion_g,
                  (WorkingInput){.unit = "", .from = WORKING_GUESS});
    working_is(working, portion_g, "g");
}

void dose_working_day(DosePlan *plan, int day, const WaterBase *base,
                      const SumAnswer *sum, int32_t read_on)
{
    const WorkingInput read = {.from = WORKING_TOLD, .on = read_on};
    const WorkingInput after = {.from = WORKING_WORKED};
    const char *id = arena_text(plan->workings.arena, "day-%d", day + 1);
    const DoseDay *made = &plan->days[day];
    DayOf of = {plan, id, made, base, sum, &read, day == 0 ? &read : &after};
    tell_product(&of);
    tell_ph(&of);
    tell_portion(plan, id, made->product_g, made->portion_g,
                 SAY("portions of a day, common practice"));
}

void dose_working_salt(DosePlan *plan, const DoseSalt *salt, double share)
{
    Working *working =
        working_begin(&plan->workings, "dose", salt->id, "product_g");
    working_says(working, "product in all",
                 "rise wanted times the water, over the element's share of the "
                 "product",
                 "product_g = rise x volume / share");
    working_value(working, "rise",
                  arena_say(working->arena, "rise of %s wanted", salt->element),
                  salt->rise_mg_l,
                  (WorkingInput){.unit = "mg/L", .from = WORKING_YOURS});
    working_value(working, "volume", "water of the loop", plan->volume_m3,
                  (WorkingInput){.unit = "m3", .from = WORKING_TABLE});
    working_value(working, "share", "of the product, by its label", share,
                  (WorkingInput){.unit = "share", .from = WORKING_TABLE});
    working_is(working, salt->product_g, "g");
    tell_portion(plan, salt->id, salt->product_g, salt->portion_g,
                 SAY("portions, one a day"));
}
