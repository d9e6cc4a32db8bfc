/* What can be wrong at a stop, and what hangs on one pump. */
#include "work/round_troubles.h"

#include <math.h>
#include <string.h>

#include "base/tongue.h"
#include "farm/cell.h"
#include "sim/hangs.h"
#include "work/round_parts.h"

/* Common practice of the trade. */
const RoundTrouble ROUND_TANK_TROUBLES[] = {
    {"gasping", SAY("fish gasp or hang at the bottom"), true},
    {"level-low", SAY("level under its mark"), true},
    {"level-high", SAY("level over its mark"), true},
    {"no-flow", SAY("little or no water comes in"), true},
    {"no-air", SAY("no air"), false},
    {"screen", SAY("screen clogged"), true},
    {"off-feed", SAY("fish do not come to the feed"), false},
    {0}};
const RoundTrouble ROUND_SUMP_TROUBLES[] = {
    {"pump-odd", SAY("pump sounds or lifts not as usual"), true},
    {"level-low", SAY("level under its mark"), true},
    {"level-high", SAY("level over its mark"), true},
    {"no-air", SAY("blower stands"), false},
    {"screen", SAY("screen clogged"), true},
    {0}};
const RoundTrouble ROUND_BED_TROUBLES[] = {
    {"not-draining", SAY("does not drain"), true},
    {"not-flooding", SAY("does not flood"), true},
    {"leak", SAY("water beside the bed"), true},
    {"wilting", SAY("plants hang"), true},
    {"pest", SAY("pest or mildew"), false},
    {0}};
const RoundTrouble ROUND_NURSERY_TROUBLES[] = {
    {"dry", SAY("trays dry"), false},
    {"damping-off", SAY("seedlings fall over"), false},
    {"pest", SAY("pest, mice, slugs"), false},
    {0}};

static const RoundTrouble *trouble_of(const char *cause)
{
    const RoundTrouble *const tables[] = {
        ROUND_TANK_TROUBLES, ROUND_SUMP_TROUBLES, ROUND_BED_TROUBLES,
        ROUND_NURSERY_TROUBLES};
    for (size_t t = 0; t < sizeof tables / sizeof *tables; t++) {
        for (const RoundTrouble *at = tables[t]; at->cause; at++) {
            if (strcmp(at->cause, cause) == 0) {
                return at;
            }
        }
    }
    return NULL;
}

/* ---- what is wrong today -------------------------------------------------
 */

typedef struct Wrong {
    const char *place;
    const char *name; /* "tank C", "bed H1-S3"; "P1" */
    bool is_worded;   /* its name begins with a word */
    const char *text;
    bool hangs_on_pump;
} Wrong;

typedef struct Wrongs {
    Wrong *items;
    int32_t count;
} Wrongs;

static const char *name_of(const RoundWork *work, const char *id)
{
    return cell_row_of(work->farm, TABLE_tanks, id) >= 0
               ? arena_say(work->arena, "tank %s", id)
           : cell_row_of(work->farm, TABLE_beds, id) >= 0
               ? arena_say(work->arena, "bed %s", id)
               : id;
}

/* A place is told once, with all that is wrong there. */
static void add_wrong(RoundWork *work, Wrongs *wrongs, const char *place,
                      const char *text, bool hangs_on_pump)
{
    for (int32_t i = 0; i < wrongs->count; i++) {
        Wrong *at = &wrongs->items[i];
        if (strcmp(at->place, place) == 0) {
            if (!strstr(at->text, text)) {
                bool is_closed = at->text[strlen(at->text) - 1] == '.';
                at->text = arena_text(work->arena, "%s%s %s", at->text,
                                      is_closed ? "" : ";", text);
            }
            at->hangs_on_pump |= hangs_on_pump;
            return;
        }
    }
    wrongs->items[wrongs->count++] =
        (Wrong){.place = place,
                .name = name_of(work, place),
                .is_worded = cell_row_of(work->farm, TABLE_tanks, place) >= 0 ||
                             cell_row_of(work->farm, TABLE_beds, place) >= 0,
                .text = text,
                .hangs_on_pump = hangs_on_pump};
}

static void add_cold_tanks(RoundWork *work, Wrongs *wrongs)
{
    for (int32_t k = 0; k < work->farm->tanks_count; k++) {
        if (!work->is_out[k]) {
            continue;
        }
        double off_k = round_off_k(work, k);
        add_wrong(
            work, wrongs, work->farm->tanks[k].id,
            arena_say(work->arena,
                      "%.0f degrees %s than the others: heater or flow?",
                      fabs(off_k),
                      say(work->arena, off_k < 0.0 ? "colder" : "warmer")),
            true);
    }
}

/* What today's readings say that may kill or stops the feed. Little oxygen may
 * be a pump. */
static void add_judged(RoundWork *work, Wrongs *wrongs)
{
    const Judge *const *judges = work->ask->judges;
    for (int32_t k = 0; judges && k < work->farm->tanks_count; k++) {
        for (int i = 0; judges[k] && i < judges[k]->finding_count; i++) {
            const JudgeFinding *finding = &judges[k]->findings[i];
            bool is_grave = finding->rule->class == JUDGE_DANGER ||
                            finding->rule->class == JUDGE_STOP;
            if (is_grave && finding->means) {
                add_wrong(work, wrongs, work->farm->tanks[k].id, finding->means,
                          strncmp(finding->rule->id, "oxygen", 6) == 0);
            }
        }
    }
}

static void add_told(RoundWork *work, Wrongs *wrongs)
{
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        bool is_trouble =
            (fact->kind == TOLD_SEEN || fact->kind == TOLD_EVENT) &&
            *fact->place && *fact->cause;
        if (!round_is_today(work, fact) || !is_trouble) {
            continue;
        }
        const RoundTrouble *known = trouble_of(fact->cause);
        add_wrong(work, wrongs, fact->place,
                  known ? say(work->arena, known->text) : fact->cause,
                  known && known->hangs_on_pump);
    }
}

/* ---- pumps ---------------------------------------------------------------
 */

static bool hangs_on(const Farm *farm, const Hangs *hangs, int32_t pump,
                     const char *id)
{
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (hangs->tanks_flow[k] && strcmp(farm->tanks[k].id, id) == 0) {
            return true;
        }
    }
    for (int32_t b = 0; b < farm->beds_count; b++) {
        if (hangs->beds[b] && strcmp(farm->beds[b].id, id) == 0) {
            return true;
        }
    }
    return strcmp(farm->pumps[pump].id, id) == 0 ||
           strcmp(farm->loops[farm->pumps[pump].loop].id, id) == 0;
}

/* A sentence begins with a capital, a farm's own name as it is. */
static const char *sentence(const RoundWork *work, const Wrong *first,
                            const char *text)
{
    char *copy = arena_copy_text(work->arena, text);
    if (first->is_worded && *copy >= 'a' && *copy <= 'z') {
        *copy = (char)(*copy - 'a' + 'A');
    }
    return copy;
}

static void add_suspect(RoundWork *work, RoundSuspect *suspects,
                        const RoundSuspect *suspect)
{
    suspects[work->round->suspect_count++] = *suspect;
}

/* "A and B", "A, B and C" */
static const char *joined(const RoundWork *work, const char *const *names,
                          int32_t count)
{
    const char *text = names[0];
    for (int32_t i = 1; i < count; i++) {
        text = arena_text(work->arena, "%s%s%s", text,
                          i == count - 1 ? say(work->arena, " and ") : ", ",
                          names[i]);
    }
    return text;
}

static void suspect_pump(RoundWork *work, const Wrongs *wrongs, int32_t pump,
                         const char **pumps, RoundSuspect *suspects)
{
    Hangs hangs;
    hangs_find(work->farm, HANGS_PUMP, pump, work->arena, &hangs);
    const char **names =
        ARENA_ARRAY(work->arena, const char *, wrongs->count + 1);
    const Wrong *first = NULL;
    int32_t count = 0;
    for (int32_t i = 0; i < wrongs->count; i++) {
        const Wrong *wrong = &wrongs->items[i];
        if (wrong->hangs_on_pump &&
            hangs_on(work->farm, &hangs, pump, wrong->place)) {
            first = count == 0 ? wrong : first;
            names[count++] = wrong->name;
            pumps[i] = work->farm->pumps[pump].id;
        }
    }
    if (count < 2) {
        return;
    }
    const char *id = work->farm->pumps[pump].id;
    const char *text = arena_say(work->arena,
                                 "%s hang on %s: maybe one fault. Look at the "
                                 "pump first.",
                                 joined(work, names, count), id);
    add_suspect(work, suspects,
                &(RoundSuspect){sentence(work, first, text), id});
}

void round_find_suspects(RoundWork *work)
{
    const Farm *farm = work->farm;
    Wrongs wrongs = {
        .items = ARENA_ARRAY(work->arena, Wrong,
                             farm->tanks_count + work->ask->fact_count + 1)};
    add_judged(work, &wrongs);
    add_cold_tanks(work, &wrongs);
    add_told(work, &wrongs);
    RoundSuspect *suspects = ARENA_ARRAY(work->arena, RoundSuspect,
                                         farm->pumps_count + wrongs.count + 1);
    const char **pumps =
        ARENA_ARRAY(work->arena, const char *, wrongs.count + 1);
    for (int32_t p = 0; p < farm->pumps_count; p++) {
        suspect_pump(work, &wrongs, p, pumps, suspects);
    }
    for (int32_t i = 0; i < wrongs.count; i++) {
        const Wrong *wrong = &wrongs.items[i];
        const char *text =
            arena_text(work->arena, "%s: %s%s%s%s", wrong->name, wrong->text,
                       pumps[i] ? " (" : "", pumps[i] ? pumps[i] : "",
                       pumps[i] ? ")" : "");
        add_suspect(work, suspects,
                    &(RoundSuspect){sentence(work, wrong, text), pumps[i]});
    }
    work->round->suspects = suspects;
}
