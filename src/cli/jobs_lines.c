/* The jobs of a day as lines. */
#include "cli/jobs_lines.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <sys/ioctl.h>
#include <unistd.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/jobs_table.h"

/* At a glance no range is told of less than this. */
static const double GLANCE_AMOUNT = 10.0;

/* Picking of fewer minutes shares a line with its neighbours. */
static const double SMALL_PICK_MIN = 6.0;

enum {
    COLUMNS_LEAST = 60,
    COLUMNS_USUAL = 80,
    COLUMNS_MOST = 120,
    STOP_MOST = 10,
    BOX = 4, /* "[ ] " */
    GLANCE_PLACES = 3
};

int jobs_page_columns(FILE *out)
{
    struct winsize size = {0};
    int file = fileno(out);
    if (file < 0 || !isatty(file) || ioctl(file, TIOCGWINSZ, &size) != 0 ||
        size.ws_col == 0) {
        return COLUMNS_USUAL;
    }
    int columns = size.ws_col;
    return columns < COLUMNS_LEAST  ? COLUMNS_LEAST
           : columns > COLUMNS_MOST ? COLUMNS_MOST
                                    : columns;
}

/* ---- text in columns ----------------------------------------------------- */

/* Columns that the first bytes of UTF-8 text take; wide scripts are not known
 * here. */
static int width_of(const char *text, size_t length)
{
    int columns = 0;
    for (size_t i = 0; i < length; i++) {
        columns += ((unsigned char)text[i] & 0xc0u) != 0x80u;
    }
    return columns;
}

/* Bytes of the text that fit into so many columns, cut at a space; at least its
 * first word. */
static size_t cut_at(const char *text, int columns)
{
    size_t length = strlen(text);
    if (width_of(text, length) <= columns) {
        return length;
    }
    size_t cut = strcspn(text, " ");
    size_t next = cut;
    while (text[next] && width_of(text, next) <= columns) {
        cut = next;
        next += 1 + strcspn(text + next + 1, " ");
    }
    return cut;
}

static void pad(const JobsPage *page, int columns)
{
    fprintf(page->out, "%*s", columns > 0 ? columns : 0, "");
}

void jobs_print_between(const JobsPage *page, const char *head,
                        const char *text, const char *tail)
{
    int indent = width_of(head, strlen(head));
    int tail_width = width_of(tail, strlen(tail));
    int room = page->columns - indent - (tail_width ? tail_width + 2 : 0);
    bool is_first = true;
    do {
        size_t cut = cut_at(text, room);
        if (is_first) {
            fputs(head, page->out);
        } else {
            pad(page, indent);
        }
        fprintf(page->out, "%.*s", (int)cut, text);
        if (is_first && tail_width) {
            pad(page, room - width_of(text, cut) + 2);
            fputs(tail, page->out);
        }
        fputc('\n', page->out);
        text += cut;
        text += strspn(text, " ");
        is_first = false;
        room = page->columns - indent;
    } while (*text);
}

void jobs_print_wrapped(const JobsPage *page, const char *head,
                        const char *text)
{
    jobs_print_between(page, head, text, "");
}

/* ---- people -------------------------------------------------------------- */

static size_t first_word(const char *name)
{
    return strcspn(name, " ");
}

const char *jobs_short_name(const JobsPage *page, int hand)
{
    const Farm *farm = page->answer->farm;
    const char *name = jobs_hand_name(farm, hand);
    size_t length = first_word(name);
    for (int h = 0; h < farm->hands_count; h++) {
        const char *other = jobs_hand_name(farm, h);
        if (h != hand && first_word(other) == length &&
            strncmp(name, other, length) == 0) {
            return name;
        }
    }
    return arena_text(page->arena, "%.*s", (int)length, name);
}

static const char *who(const JobsPage *page, const Job *job)
{
    const char *names = "";
    for (int i = 0; i < job->hand_count; i++) {
        names = arena_text(page->arena, "%s%s%s", names, i ? "+" : "",
                           jobs_short_name(page, job->hands[i]));
    }
    if (*names) {
        return names;
    }
    const Farm *farm = page->answer->farm;
    return say(page->arena, *jobs_names(farm, job, true, page->arena)
                                ? "nobody here"
                                : "NOBODY MAY");
}

/* ---- one job ------------------------------------------------------------- */

/* "M1" of bed H1-M1 at the stop H1. */
static const char *short_place(const Job *job, const JobPlace *place)
{
    size_t length = strlen(job->stop);
    bool is_within = strncmp(place->id, job->stop, length) == 0 &&
                     place->id[length] == '-' && place->id[length + 1];
    return is_within ? place->id + length + 1 : place->id;
}

static bool are_alike(const Job *job, Arena *arena)
{
    const char *first = job_quantity(job->places[0].amount, job->unit, arena);
    for (int32_t i = 1; i < job->place_count; i++) {
        if (strcmp(first, job_quantity(job->places[i].amount, job->unit,
                                       arena)) != 0) {
            return false;
        }
    }
    return true;
}

/* Where the number at an id's end begins; its end where there is none. */
static size_t number_at(const char *id)
{
    size_t at = strlen(id);
    while (at > 0 && id[at - 1] >= '0' && id[at - 1] <= '9') {
        at--;
    }
    return at;
}

/* Whether b is the next after a: S2 after S1. */
static bool is_next(const char *a, const char *b)
{
    size_t at = number_at(a);
    return at == number_at(b) && strncmp(a, b, at) == 0 && a[at] && b[at] &&
           strtol(b + at, NULL, 10) == strtol(a + at, NULL, 10) + 1;
}

/* "S1, S3, S5-S7". */
static const char *runs_text(const JobsPage *page, const Job *job)
{
    const char *text = "";
    for (int32_t i = 0; i < job->place_count; i++) {
        const char *from = short_place(job, &job->places[i]);
        const char *last = from;
        int32_t end = i;
        while (end + 1 < job->place_count &&
               is_next(last, short_place(job, &job->places[end + 1]))) {
            last = short_place(job, &job->places[++end]);
        }
        bool is_run = end > i + 1;
        text = arena_text(page->arena, "%s%s%s%s%s", text, i ? ", " : "", from,
                          is_run ? "-" : "", is_run ? last : "");
        i = is_run ? end : i;
    }
    return text;
}

/* "M1 27, M2 4"; "S1, S3, S5-S7 (2 each)". */
static const char *places_text(const JobsPage *page, const Job *job)
{
    Arena *arena = page->arena;
    if (job->place_count == 0) {
        return "";
    }
    bool is_many = page->is_glance && job->place_count > GLANCE_PLACES;
    if (job->place_count == 1 || job->places[0].amount <= 0.0 || is_many) {
        return runs_text(page, job);
    }
    if (are_alike(job, arena)) {
        return arena_say(arena, "%s (%s each)", runs_text(page, job),
                         job_quantity(job->places[0].amount, job->unit, arena));
    }
    const char *text = "";
    for (int32_t i = 0; i < job->place_count; i++) {
        const JobPlace *place = &job->places[i];
        text = arena_text(arena, "%s%s%s %s", text, i ? ", " : "",
                          short_place(job, place),
                          job_quantity(place->amount, job->unit, arena));
    }
    return text;
}

static const char *amount_text(const JobsPage *page, const Job *job)
{
    Arena *arena = page->arena;
    if (job->amount <= 0.0) {
        return "";
    }
    const char *text =
        arena_text(arena, "%s %s", job_quantity(job->amount, job->unit, arena),
                   job_unit(job->unit, job->amount, arena));
    const char *low = job_quantity(job->low, job->unit, arena);
    const char *high = job_quantity(job->high, job->unit, arena);
    bool is_left_out = job->kind == JOB_COUNT ||
                       (page->is_glance && job->amount < GLANCE_AMOUNT);
    return strcmp(low, high) == 0 || is_left_out
               ? text
               : arena_text(arena, "%s (%s-%s)", text, low, high);
}

/* Nothing can be done without these few words. */
static bool needs_brief(const Job *job)
{
    switch (job->kind) {
    case JOB_FEED:
    case JOB_FAST:
    case JOB_SOW:
    case JOB_COUNT:
    case JOB_GRADE:
    case JOB_CATCH:
    case JOB_STOCK:
    case JOB_ORDER:
    case JOB_CROWD:
        return true;
    case JOB_ROUND:
    case JOB_TEST:
    case JOB_VENT:
    case JOB_SHADE:
    case JOB_RENEW:
    case JOB_PICK:
    case JOB_CLEAR:
    case JOB_SET:
    case JOB_STRING:
    case JOB_PRUNE:
    case JOB_TASK:
    case JOB_DELIVER:
    case JOB_SALE:
    case JOB_CLEAN:
    case JOB_KIND_COUNT:
        return false;
    }
    return false;
}

/* How the work of these kinds begins: several of one stop and person stand on
 * one line, and say it once. NULL: a line each. */
static const char *shared_words(const JobsPage *page, const Job *job)
{
    static const char *const WORDS[JOB_KIND_COUNT] = {
        [JOB_FEED] = SAY("Feed"),
        [JOB_FAST] = SAY("No feed"),
        [JOB_PRUNE] = SAY("Prune %s"),
        [JOB_STRING] = SAY("String %s"),
        [JOB_CLEAR] = SAY("Clear %s"),
        [JOB_DELIVER] = SAY("Deliver to %s"),
        [JOB_RENEW] = SAY("Look over old %s"),
        [JOB_SET] = SAY("Set out %s"),
        [JOB_COUNT] = SAY("Count what came up of %s"),
    };
    bool is_small = page->is_glance || job->minutes < SMALL_PICK_MIN;
    const char *format = job->kind == JOB_PICK && is_small ? SAY("Pick %s")
                         : job->kind == JOB_SOW && page->is_glance
                             ? SAY("Sow %s")
                             : WORDS[job->kind];
    const char *said = format ? say(page->arena, format) : NULL;
    return said ? arena_copy_bytes(page->arena, said, strcspn(said, "%"))
                : NULL;
}

/* What is left of a job's words where its line has begun like it already. */
static const char *rest_of(const JobsPage *page, const Job *job, bool is_first)
{
    const char *shared = shared_words(page, job);
    size_t length = shared ? strlen(shared) : 0;
    return !is_first && length && strncmp(job->what, shared, length) == 0
               ? job->what + length
               : job->what;
}

/* "Pick head lettuce: 31 heads (27-33), M1 27, M2 4"; "A 421 g (2 x 211)". */
static const char *text_of(const JobsPage *page, const Job *job, bool is_first)
{
    Arena *arena = page->arena;
    const char *amount = amount_text(page, job);
    const char *places = places_text(page, job);
    const char *what = rest_of(page, job, is_first);
    bool is_fed = job->kind == JOB_FEED || job->kind == JOB_FAST;
    if (is_fed) {
        return arena_text(arena, "%s%s%s%s%s%s%s", what, *what ? ": " : "",
                          places, *amount ? " " : "", amount,
                          *job->brief ? ", " : "", job->brief);
    }
    bool has_brief = *job->brief && job->kind != JOB_DELIVER &&
                     (page->is_brief_told || needs_brief(job));
    const char *gap = *amount && *places ? ", " : "";
    return arena_text(arena, "%s%s%s%s%s%s%s%s%s", what,
                      *amount || *places ? ": " : "", amount, gap, places,
                      has_brief ? "; " : "", has_brief ? job->brief : "",
                      *job->warning ? " ! " : "", job->warning);
}

/* ---- the lines of a day -------------------------------------------------- */

typedef struct Line {
    const Job *job; /* its first */
    const char *text;
    double minutes;
    bool has_box;
    bool is_meant[CAUTION_COUNT];
} Line;

static bool is_same_hands(const Job *a, const Job *b)
{
    return a->hand_count == b->hand_count &&
           memcmp(a->hands, b->hands, (size_t)a->hand_count * sizeof(int)) == 0;
}

static bool goes_on(const JobsPage *page, const Line *line, const Job *job)
{
    const char *shared = shared_words(page, job);
    const char *begun = shared_words(page, line->job);
    return shared && begun && strcmp(shared, begun) == 0 &&
           line->job->phase == job->phase && is_same_hands(line->job, job) &&
           strcmp(line->job->stop, job->stop) == 0;
}

static Line *line_for(const JobsPage *page, Line *lines, int count,
                      const Job *job)
{
    for (int i = 0; i < count; i++) {
        if (goes_on(page, &lines[i], job)) {
            return &lines[i];
        }
    }
    return NULL;
}

static int lines_of(const JobsPage *page, int32_t day, Line *lines)
{
    const JobList *list = &page->answer->week.list;
    int count = 0;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (job->day != day) {
            continue;
        }
        Line *line = line_for(page, lines, count, job);
        if (line) {
            line->text = arena_text(page->arena, "%s; %s", line->text,
                                    text_of(page, job, false));
        } else {
            line = &lines[count++];
            *line = (Line){.job = job,
                           .text = text_of(page, job, true),
                           .has_box = job->kind != JOB_CROWD};
        }
        line->minutes += job->minutes;
        line->is_meant[job->caution] = true;
    }
    return count;
}

/* Lines of one stop stand together in the order in which the day comes to the
 * stop; phases keep theirs. */
static void gather_stops(Line *lines, int count)
{
    for (int i = 1; i < count; i++) {
        int at = i;
        for (int j = i; j-- > 0;) {
            if (lines[j].job->phase != lines[i].job->phase) {
                break;
            }
            if (strcmp(lines[j].job->stop, lines[i].job->stop) == 0) {
                at = j + 1;
                break;
            }
        }
        Line line = lines[i];
        memmove(&lines[at + 1], &lines[at], (size_t)(i - at) * sizeof line);
        lines[at] = line;
    }
}

static const char *stop_of(const JobsPage *page, const Line *line)
{
    return jobs_stop_name(line->job->stop, page->arena);
}

static int stop_width(const JobsPage *page, const Line *lines, int count)
{
    int most = 0;
    for (int i = 0; i < count; i++) {
        const char *stop = stop_of(page, &lines[i]);
        int width = width_of(stop, strlen(stop));
        most = width > most ? width : most;
    }
    return most < STOP_MOST ? most : STOP_MOST;
}

static void print_cautions(JobsPage *page, const Line *line, int indent)
{
    const char *head = arena_text(page->arena, "%*s! ", indent, "");
    for (int caution = 1; caution < CAUTION_COUNT; caution++) {
        if (line->is_meant[caution] && !page->is_told[caution]) {
            page->is_told[caution] = true;
            jobs_print_wrapped(
                page, head, say(page->arena, caution_short((Caution)caution)));
        }
    }
}

static const char *tail_of(const JobsPage *page, const Line *line)
{
    return line->minutes >= 0.5
               ? arena_text(page->arena, "%.0f %s", ceil(line->minutes),
                            who(page, line->job))
               : who(page, line->job);
}

static void print_line(JobsPage *page, const Line *line, bool is_new_stop,
                       int width)
{
    const char *stop = is_new_stop ? stop_of(page, line) : "";
    int gap = width - width_of(stop, strlen(stop));
    const char *head =
        arena_text(page->arena, " %s%*s %s", stop, gap > 0 ? gap : 0, "",
                   line->has_box ? "[ ] " : "!!  ");
    jobs_print_between(page, head, line->text, tail_of(page, line));
    print_cautions(page, line, width + 2 + BOX);
}

void jobs_print_day(JobsPage *page, int32_t day)
{
    const JobList *list = &page->answer->week.list;
    Line *lines = ARENA_ARRAY(page->arena, Line, list->count);
    int count = lines_of(page, day, lines);
    gather_stops(lines, count);
    int width = stop_width(page, lines, count);
    for (int i = 0; i < count; i++) {
        bool is_new = i == 0 ||
                      lines[i].job->phase != lines[i - 1].job->phase ||
                      strcmp(lines[i].job->stop, lines[i - 1].job->stop) != 0;
        print_line(page, &lines[i], is_new, width);
    }
}
