/* A folded state as bytes.
 *
 * Lines of words divided by tabs; the first is the kind of line. Numbers that
 * are not whole are written in hexadecimal, so that they come back to the
 * bit. */
#include "journal/checkpoint.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WORDS_MAX = 24, FORMAT = 1 };

/* ---- Out ------------------------------------------------------------------
 */

typedef struct Out {
    Arena *arena;
    char *bytes;
    size_t length;
    size_t room;
} Out;

static void put(Out *out, const char *line)
{
    size_t length = strlen(line);
    if (out->length + length + 1 > out->room) {
        size_t room = 2 * out->room + length + 4096;
        out->bytes = arena_grow(out->arena, out->bytes, out->length, room, 1);
        out->room = room;
    }
    memcpy(out->bytes + out->length, line, length);
    out->length += length;
}

static void put_plants(Out *out, const JournalPoint *point)
{
    for (int32_t i = 0; i < point->plants_count; i++) {
        const Plant *row = &point->plants[i];
        put(out, arena_text(out->arena,
                            "plant\t%s\t%d\t%d\t%d\t%d\t%d\t%a\t%d\t%d\t%d\n",
                            row->id, (int)row->way, (int)row->bed,
                            (int)row->place, (int)row->sections,
                            (int)row->plants, row->trays, (int)row->sown_on,
                            (int)row->set_on, (int)row->counted_on));
    }
}

static void put_fish(Out *out, const JournalPoint *point)
{
    for (int32_t i = 0; i < point->fish_count; i++) {
        const Fish *row = &point->fish[i];
        put(out,
            arena_text(out->arena, "fish\t%s\t%s\t%d\t%d\t%d\t%a\t%a\t%d\t%d\n",
                       row->id, row->species, (int)row->tank,
                       (int)row->counted_on, (int)row->count, row->mean_g,
                       row->cv_frac, (int)row->sex, (int)row->is_kept));
    }
}

static void put_account(Out *out, const FishAccount *a)
{
    put(out,
        arena_text(out->arena,
                   "account\t%" PRId64 "\t%" PRId64 "\t%" PRId64 "\t%" PRId64
                   "\t%" PRId64 "\t%" PRId64 "\t%" PRId64
                   "\t%a\t%a\t%a\t%a\t%a\t%a\t%a\n",
                   a->opened, a->stocked, a->found, a->died, a->sold, a->lost,
                   a->missing, a->opened_g, a->stocked_g, a->found_g, a->died_g,
                   a->sold_g, a->lost_g, a->growth_g));
}

/* Only steps that ended: told, assumed or undone. */
static void put_steps(Out *out, const JournalPoint *point)
{
    for (int32_t i = 0; i < point->step_count; i++) {
        const Step *step = &point->steps[i];
        char how = (char)(step->is_told      ? 't'
                          : step->is_assumed ? 'a'
                          : step->is_undone  ? 'u'
                                             : 0);
        if (how) {
            put(out, arena_text(out->arena, "step\t%d\t%c\t%d\n", (int)i, how,
                                (int)step->told_day));
        }
    }
}

const char *checkpoint_write(const JournalPoint *point, int32_t beds_count,
                             Arena *arena, size_t *out_length)
{
    Out out = {.arena = arena};
    put(&out, arena_text(arena, "leat-state\t%d\t%d\t%d\n", (int)FORMAT,
                         (int)point->day, (int)point->step_count));
    put_plants(&out, point);
    put_fish(&out, point);
    for (int32_t i = 0; i < beds_count; i++) {
        put(&out, arena_text(arena, "bed\t%d\t%d\n", (int)i,
                             (int)point->cleaned_on[i]));
    }
    put_account(&out, &point->account);
    put_steps(&out, point);
    for (int32_t i = 0; i < point->doubt_count; i++) {
        const JournalDoubt *doubt = &point->doubts[i];
        put(&out, arena_text(arena, "doubt\t%" PRId64 "\t%d\t%s\n",
                             doubt->number, (int)doubt->day, doubt->text));
    }
    *out_length = out.length;
    return out.bytes;
}

/* ---- In -------------------------------------------------------------------
 */

typedef struct Line {
    char *words[WORDS_MAX];
    int count;
} Line;

static Line split(char *text)
{
    Line line = {.count = 0};
    for (char *at = text; at && line.count < WORDS_MAX;) {
        line.words[line.count++] = at;
        at = strchr(at, '\t');
        if (at) {
            *at++ = '\0';
        }
    }
    return line;
}

static int64_t whole(const Line *line, int at)
{
    return at < line->count ? strtoll(line->words[at], NULL, 10) : 0;
}

static int32_t small(const Line *line, int at)
{
    return (int32_t)whole(line, at);
}

static double real(const Line *line, int at)
{
    return at < line->count ? strtod(line->words[at], NULL) : 0.0;
}

static bool is_in(int32_t index, int32_t least, int32_t count)
{
    return index >= least && index < count;
}

static bool take_plant(const Line *line, const Farm *farm, JournalPoint *point)
{
    Plant row = {.id = line->words[1],
                 .way = small(line, 2),
                 .bed = small(line, 3),
                 .place = small(line, 4),
                 .sections = small(line, 5),
                 .plants = small(line, 6),
                 .trays = real(line, 7),
                 .sown_on = small(line, 8),
                 .set_on = small(line, 9),
                 .counted_on = small(line, 10)};
    point->plants[point->plants_count++] = row;
    return line->count == 11 && is_in(row.way, 0, farm->ways_count) &&
           is_in(row.bed, -1, farm->beds_count);
}

static bool take_fish(const Line *line, const Farm *farm, JournalPoint *point)
{
    Fish row = {.id = line->words[1],
                .species = line->count > 2 ? line->words[2] : "",
                .tank = small(line, 3),
                .counted_on = small(line, 4),
                .count = small(line, 5),
                .mean_g = real(line, 6),
                .cv_frac = real(line, 7),
                .sex = small(line, 8),
                .is_kept = small(line, 9) != 0};
    point->fish[point->fish_count++] = row;
    return line->count == 10 && is_in(row.tank, 0, farm->tanks_count) &&
           row.count > 0 && row.mean_g > 0.0;
}

static bool take_account(const Line *line, JournalPoint *point)
{
    point->account = (FishAccount){.opened = whole(line, 1),
                                   .stocked = whole(line, 2),
                                   .found = whole(line, 3),
                                   .died = whole(line, 4),
                                   .sold = whole(line, 5),
                                   .lost = whole(line, 6),
                                   .missing = whole(line, 7),
                                   .opened_g = real(line, 8),
                                   .stocked_g = real(line, 9),
                                   .found_g = real(line, 10),
                                   .died_g = real(line, 11),
                                   .sold_g = real(line, 12),
                                   .lost_g = real(line, 13),
                                   .growth_g = real(line, 14)};
    return line->count == 15;
}

static bool take_step(const Line *line, JournalPoint *point)
{
    int32_t at = small(line, 1);
    if (line->count != 4 || !is_in(at, 0, point->step_count)) {
        return false;
    }
    Step *step = &point->steps[at];
    step->is_told = *line->words[2] == 't';
    step->is_assumed = *line->words[2] == 'a';
    step->is_undone = *line->words[2] == 'u';
    step->is_old = step->is_told || step->is_assumed;
    step->told_day = small(line, 3);
    return true;
}

static bool take_line(const Line *line, const Farm *farm, int32_t *cleaned_on,
                      JournalPoint *point)
{
    const char *kind = line->words[0];
    if (line->count < 2) {
        return false;
    }
    if (strcmp(kind, "plant") == 0) {
        return take_plant(line, farm, point);
    }
    if (strcmp(kind, "fish") == 0) {
        return take_fish(line, farm, point);
    }
    if (strcmp(kind, "bed") == 0) {
        int32_t bed = small(line, 1);
        if (!is_in(bed, 0, farm->beds_count)) {
            return false;
        }
        cleaned_on[bed] = small(line, 2);
        return line->count == 3;
    }
    if (strcmp(kind, "account") == 0) {
        return take_account(line, point);
    }
    if (strcmp(kind, "step") == 0) {
        return take_step(line, point);
    }
    if (strcmp(kind, "doubt") == 0 && line->count == 4) {
        point->doubts[point->doubt_count++] =
            (JournalDoubt){whole(line, 1), small(line, 2), line->words[3]};
        return true;
    }
    return false;
}

static bool take_first(const Line *line, const Steps *steps,
                       JournalPoint *point)
{
    point->day = small(line, 2);
    point->steps = steps->items;
    point->step_count = steps->count;
    return line->count == 4 && strcmp(line->words[0], "leat-state") == 0 &&
           whole(line, 1) == FORMAT && whole(line, 3) == steps->count;
}

Err checkpoint_read(const char *bytes, size_t length, const Farm *farm,
                    Arena *arena, JournalPoint *out)
{
    char *text = arena_copy_bytes(arena, bytes, length);
    int32_t lines = 0;
    for (size_t i = 0; i < length; i++) {
        lines += text[i] == '\n';
    }
    Steps steps = steps_of(farm, arena);
    int32_t *cleaned_on = ARENA_ARRAY(arena, int32_t, farm->beds_count);
    for (int32_t i = 0; i < farm->beds_count; i++) {
        cleaned_on[i] = farm->beds[i].cleaned_on;
    }
    JournalPoint point = {.plants = ARENA_ARRAY(arena, Plant, lines),
                          .fish = ARENA_ARRAY(arena, Fish, lines),
                          .doubts = ARENA_ARRAY(arena, JournalDoubt, lines),
                          .cleaned_on = cleaned_on};
    bool is_good = lines > 0;
    for (int32_t i = 0; i < lines && is_good; i++) {
        char *end = memchr(text, '\n', length);
        *end = '\0';
        Line line = split(text);
        length -= (size_t)(end + 1 - text);
        text = end + 1;
        is_good = i == 0 ? take_first(&line, &steps, &point)
                         : take_line(&line, farm, cleaned_on, &point);
    }
    if (!is_good || length > 0) {
        return err_make(ERR_INPUT, "no checkpoint of this farm");
    }
    *out = point;
    return ERR_NONE;
}
