/* leat check DIR: every fault of a farm's folder. */
#include <inttypes.h>

#include "base/text.h"
#include "cli/commands.h"
#include "desk/check_farm.h"
#include "desk/journal.h"
#include "desk/plan_age.h"
#include "json/faults.h"

static void print_place(const FaultPlace *place, FILE *out)
{
    fputs(place->file, out);
    if (place->line > 0) {
        fprintf(out, ":%d", (int)place->line);
    }
    if (place->column > 0) {
        fprintf(out, ":%d", (int)place->column);
    }
    fputs(": ", out);
}

static void print_fault(const Fault *fault, FILE *out)
{
    print_place(&fault->place, out);
    if (*fault->value) {
        fprintf(out, "\"%s\": ", fault->value);
    }
    fprintf(out, "expected %s\n", fault->expected);
}

/* A doubt shows the value that it asks about. */
static void print_notice(const Fault *notice, FILE *out)
{
    fputs(notice->is_doubt ? "doubt: " : "notice: ", out);
    print_place(&notice->place, out);
    if (notice->is_doubt && *notice->value) {
        fprintf(out, "is \"%s\" right? ", notice->value);
    } else if (notice->is_doubt) {
        fputs("is this right? ", out);
    }
    fprintf(out, "%s\n", notice->expected);
}

static void print_text(const char *path, const FarmCheck *check, FILE *out)
{
    const Faults *faults = &check->faults;
    for (int32_t i = 0; i < faults->kept_count; i++) {
        print_fault(&faults->items[i], out);
    }
    for (int32_t i = 0; i < faults->notice_count; i++) {
        print_notice(&faults->notices[i], out);
    }
    if (faults->count > faults->kept_count) {
        fprintf(out, "... and %" PRId64 " more (leat check %s --all)\n",
                faults->count - faults->kept_count, path);
    }
    if (faults->notice_total > faults->notice_count) {
        fprintf(out, "... and %" PRId64 " more notices\n",
                faults->notice_total - faults->notice_count);
    }
    int64_t notices = faults->notice_total - faults->doubt_total;
    fprintf(out, "%s: %d rows, %" PRId64 " %s, %" PRId64 " %s", path,
            (int)check->read->row_count, faults->count,
            faults->count == 1 ? "fault" : "faults", notices,
            notices == 1 ? "notice" : "notices");
    if (faults->doubt_total > 0) {
        fprintf(out, ", %" PRId64 " %s", faults->doubt_total,
                faults->doubt_total == 1 ? "doubt" : "doubts");
    }
    fputc('\n', out);
}

Err cmd_check(const Arguments *arguments, FILE *out)
{
    const char *path = arguments_word(arguments, 0);
    int32_t limit =
        arguments_has(arguments, "all") ? INT32_MAX : FAULTS_USUAL_LIMIT;
    FarmCheck check;
    TRY(check_farm(path, limit, arguments->arena, &check));
    journal_check(path, &check.read->farm, arguments->arena, &check.faults);
    const char *age = NULL;
    if (check.faults.count == 0) {
        TRY(plan_age_of(&check.read->farm, path, arguments->arena, &age));
    }
    if (age) {
        faults_notice(&check.faults, (FaultPlace){.file = "plan.csv"}, "", "%s",
                      age);
    }
    if (arguments_has(arguments, "json")) {
        fputs(faults_to_json(&check.faults, check.read->row_count,
                             arguments->arena),
              out);
    } else {
        print_text(text_escaped(path, arguments->arena), &check, out);
    }
    if (check.faults.count > 0) {
        return err_make(ERR_INPUT, "%s has faults", path);
    }
    return ERR_NONE;
}
