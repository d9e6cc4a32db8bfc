/* How the figures of the beds' page are made. */
#include "work/beds_working.h"

#include "base/date.h"
#include "base/tongue.h"

void beds_working_batch(const BedsAsk *ask, const BedBatch *batch)
{
    WorkingKey key = {"batch", batch->id, "age_d"};
    if (!ask->workings || workings_find(ask->workings, &key)) {
        return; /* a batch in trays is told at its bed too */
    }
    Working *working =
        working_begin(ask->workings, "batch", batch->id, "age_d");
    working_says(working, "days since it was set out",
                 "today less the day of setting out, or of sowing in place",
                 "age_d = today - set_on");
    working_date(working, "today", "today", ask->day, WORKING_TABLE);
    working_put(working,
                &(WorkingInput){.symbol = "set_on",
                                .name = SAY("set out"),
                                .value = batch->set_on,
                                .unit = "date",
                                .from = WORKING_WORKED,
                                .opens = {"batch", batch->id, "set_on"}});
    working_is(working, batch->age_d, "d");
}

static void tell_job(const BedsAsk *ask, const BedState *state)
{
    const char *bed = ask->farm->beds[state->bed].id;
    const Job *job = state->job;
    Working *working =
        job ? working_begin(ask->workings, "bed", bed, "job_day") : NULL;
    if (!working) {
        return;
    }
    working_says(working, "next job here",
                 "the first day from today on whose jobs name this bed: the "
                 "first on which it may be done, and the days by which hands "
                 "and hours put it off",
                 "job_day = earliest + d");
    working_date(working, "earliest", "may be done from", job->earliest,
                 WORKING_PLAN);
    working_date(working, NULL, "and until", job->latest, WORKING_PLAN);
    working_put(working, &(WorkingInput){.symbol = "d",
                                         .name = SAY("days later, as people's "
                                                     "hours allow"),
                                         .value = job->day - job->earliest,
                                         .unit = "d",
                                         .from = WORKING_WORKED});
    working_note(working, "%s", job->what);
    working_note(working, "Jobs are shared out by the day's hours of those who "
                          "may do them, before their last day.");
    working_is(working, job->day, "date");
}

static void tell_cleaning(const BedsAsk *ask, const BedState *state)
{
    const char *bed = ask->farm->beds[state->bed].id;
    Working *working =
        state->clean_due != DATE_NEVER
            ? working_begin(ask->workings, "bed", bed, "clean_due")
            : NULL;
    working_says(working, "deep clean due",
                 "the last deep clean and the farm's months, of 365.25/12 days",
                 "clean_due = cleaned_on + round(months x 365.25 / 12)");
    working_date(working, "cleaned_on", "cleaned last", state->cleaned_on,
                 WORKING_TABLE);
    working_put(working,
                &(WorkingInput){.symbol = "months",
                                .name = SAY("months between deep cleans"),
                                .value = ask->farm->farm->clean_every_months,
                                .unit = "months",
                                .from = WORKING_TABLE});
    working_is(working, state->clean_due, "date");
}

void beds_working_bed(const BedsAsk *ask, const BedState *state)
{
    tell_job(ask, state);
    tell_cleaning(ask, state);
}
