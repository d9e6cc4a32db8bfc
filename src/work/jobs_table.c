/* The jobs of a week as a table. */
#include "work/jobs_table.h"

#include "base/date.h"

const char *jobs_hand_name(const Farm *farm, int hand)
{
    const Hand *row = &farm->hands[hand];
    return *row->name ? row->name : row->id;
}

const char *jobs_names(const Farm *farm, const Job *job, bool is_may,
                       Arena *arena)
{
    const char *names = "";
    int count = is_may ? farm->hands_count : job->hand_count;
    for (int i = 0; i < count; i++) {
        int hand = is_may ? i : job->hands[i];
        if (is_may && !(farm->hands[hand].may >> job->skill & 1u)) {
            continue;
        }
        names = arena_text(arena, "%s%s%s", names, *names ? ", " : "",
                           jobs_hand_name(farm, hand));
    }
    return names;
}

static const char *places(const Job *job, Arena *arena)
{
    const char *text = "";
    for (int32_t i = 0; i < job->place_count; i++) {
        text =
            arena_text(arena, "%s%s%s", text, i ? " " : "", job->places[i].id);
    }
    return text;
}

static void write_number(CsvWriter *out, double value, bool is_told,
                         Arena *arena)
{
    csv_writer_cell(out, is_told ? arena_text(arena, "%.10g", value) : "");
}

static void write_job(const Farm *farm, const Job *job, Arena *arena,
                      CsvWriter *out)
{
    char day[DATE_TEXT_SIZE];
    date_format(job->day, day);
    csv_writer_cell(out, job->id);
    csv_writer_cell(out, day);
    csv_writer_cell(out, job_kind_word(job->kind));
    csv_writer_cell(out, job->what);
    csv_writer_cell(out, places(job, arena));
    write_number(out, job->amount, job->amount > 0.0, arena);
    write_number(out, job->low, job->amount > 0.0, arena);
    write_number(out, job->high, job->amount > 0.0, arena);
    csv_writer_cell(out, job->unit);
    write_number(out, job->minutes, true, arena);
    csv_writer_cell(out, jobs_names(farm, job, false, arena));
    csv_writer_cell(out, jobs_names(farm, job, true, arena));
    csv_writer_cell(out, job->note);
    csv_writer_cell(out, job_caution_text(job, arena));
    csv_writer_cell(out, job->stop);
    csv_writer_end_row(out);
}

void jobs_write_table(const Farm *farm, const JobsWeek *week, Arena *arena,
                      CsvWriter *out)
{
    static const char *const COLUMNS[] = {
        "id",   "day",     "kind",  "what", "places", "amount",  "low", "high",
        "unit", "minutes", "hands", "may",  "note",   "caution", "stop"};
    csv_writer_init(out, arena);
    for (size_t i = 0; i < sizeof COLUMNS / sizeof *COLUMNS; i++) {
        csv_writer_cell(out, COLUMNS[i]);
    }
    csv_writer_end_row(out);
    for (int32_t i = 0; i < week->list.count; i++) {
        write_job(farm, &week->list.jobs[i], arena, out);
    }
}
