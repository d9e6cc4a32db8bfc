/* The coupled hour against SUNDIALS CVODE on the same equations at tight
 * tolerance: on the demo, with meals, floods that stop at night, top-up.
 *
 * Air, flows, heat, fish, solids and plants go on by the hour in both; what is
 * dissolved is integrated here by backward differences with all rates as they
 * are at each moment, there by two implicit stages an hour, each substance
 * after the other. The two farms run apart from the first hour on, so that
 * errors may gather. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include "base/date.h"
#include "measures.h"
#include "sim/hour_parts.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum {
    FEW_MOVES = 20000,
    DAYS = 3,
    YEAR_D = 364,
    SAMPLES = 4,
    KINDS = 5 + STAR_WIDE
};
/* Spring, summer, autumn, and winter with beds that rest at night. */
static const int SAMPLE_DAYS[SAMPLES] = {1, 120, 220, 300};
/* Errors over a state's range in the year. */
static const double WITHIN = 0.006;    /* mean, in tanks and of what is slow */
static const double AT_STARTS = 0.015; /* mean, in sumps and beds */
static const double IN_TANKS = 0.02;   /* worst hour, in tanks */
static const double SLOW = 0.012;      /* worst hour, of what is slow */
static const double FAST = 0.08;       /* worst hour, of the rest */
enum { OXYGEN, TAN, NITRITE, ALKALINITY, DIC, WIDE };

static const double N_MOL = 14.0067, P_MOL = 30.974, K_MOL = 39.098,
                    CA_MOL = 40.078, MG_MOL = 24.305, O2_MOL = 31.998;

static double tolerance = 1e-7;
static long evaluations;

typedef struct Body1 {
    const HourFarm *h;
    HourState *s;
    const HourNow *now;
    const Body *body;
} Body1;

static double *at(double *y, int j)
{
    return y + j * KINDS;
}

/* Reactions of one vessel: dy += what they make and take. */
static void react(const Body1 *b, int j, double *y, double *dy, double a,
                  double co2)
{
    const HourFarm *h = b->h;
    HourState *s = b->s;
    const BookWater *w = h->water;
    int v = b->body->first + j;
    double m3 = s->mid_m3[v];
    double oxygen = fmax(0.0, y[OXYGEN] / m3), tan = y[TAN] / m3;
    double nitrite = y[NITRITE] / m3;
    double film = h->vessels[v].film_g_h * s->warm[v].film *
                  hour_film_ph(-log10(a)) * oxygen / (1.3 + oxygen);
    double first = film * tan / (1.5 + tan);
    double second = film * w->nitrite_times.value * nitrite /
                    (w->nitrite_half_g_m3.value + nitrite);
    double gone[STAR_WIDE] = {0.0};
    double breathed = 0.0;
    if (h->vessels[v].kind == VESSEL_ZONE) {
        static const int OF[] = {HOUR_N,  HOUR_P,  HOUR_K,
                                 HOUR_CA, HOUR_MG, HOUR_FE};
        double hours = hour_share_of_day(h, s, b->now, v);
        for (int c = 0; c < 6; c++) {
            double g_m3 = y[WIDE + c] / m3;
            gone[c] = s->ask_g_d[v][OF[c]] * hours * g_m3 /
                      (h->half_g_m3[OF[c]] + g_m3);
        }
        double nitrate = y[WIDE + WIDE_NITRATE] / m3;
        breathed = w->denitrify_frac.value * s->rot_oxygen_g_h[v] /
                   (1.25 * O2_MOL / N_MOL) * nitrate / (1.0 + nitrate);
        gone[WIDE_NITRATE] += breathed;
    }
    double hub_a = s->a[b->body->first];
    double lime = hour_phosphorus_loss_1_h(h, hub_a) * y[WIDE + WIDE_P];
    gone[WIDE_FE] += hour_iron_loss_1_h(h, hub_a) * y[WIDE + WIDE_FE];
    gone[WIDE_P] += lime;
    gone[WIDE_CA] += 1.5 * lime / P_MOL * CA_MOL;
    for (int c = 0; c < STAR_WIDE; c++) {
        dy[WIDE + c] += s->wide_source[v][c] - gone[c];
    }
    dy[WIDE + WIDE_NITRATE] += second;
    dy[TAN] += s->ammonia_g_h[v] - first;
    dy[NITRITE] += first - second;
    dy[ALKALINITY] += s->charge_eq_h[v] - 2.0 * first / N_MOL +
                      gone[WIDE_NITRATE] / N_MOL + gone[WIDE_P] / P_MOL -
                      gone[WIDE_K] / K_MOL - 2.0 * gone[WIDE_CA] / CA_MOL -
                      2.0 * gone[WIDE_MG] / MG_MOL;
    double use = s->fish_oxygen_g_h[v] + s->rot_oxygen_g_h[v] -
                 1.25 * O2_MOL / N_MOL * breathed +
                 1.5 * O2_MOL / N_MOL * first + 0.5 * O2_MOL / N_MOL * second;
    dy[OXYGEN] -= use * oxygen / (0.05 + oxygen);
    dy[DIC] += s->carbon_mol_h[v];
    double calcium = y[WIDE + WIDE_CA] / CA_MOL / m3;
    double carbonate = co2 * s->warm[v].k12 / (a * a);
    double most = w->scale_over.value * s->warm[v].calcite;
    if (calcium * carbonate > most) {
        double mol = w->scale_h.value * (carbonate - most / calcium) * m3;
        dy[WIDE + WIDE_CA] -= mol * CA_MOL;
        dy[ALKALINITY] -= 2.0 * mol;
        dy[DIC] -= mol;
    }
}

static void exchange(const Body1 *b, int j, const double *y, double *dy,
                     double co2)
{
    const HourFarm *h = b->h;
    HourState *s = b->s;
    int v = b->body->first + j;
    double m3 = s->mid_m3[v];
    double by = h->vessels[v].air_1_h * s->warm[v].transfer;
    dy[OXYGEN] +=
        by * (h->water->air_beta_frac.value * s->warm[v].oxygen_g_m3 * m3 -
              y[OXYGEN]);
    dy[DIC] +=
        by * h->water->strip_frac.value * m3 * (s->warm[v].co2_mol_m3 - co2);
}

/* Water from hub to vessel and back, with what it makes up in falling. */
static void run_water(const Body1 *b, int j, double *y, double *dy,
                      const double *co2)
{
    HourState *s = b->s;
    int hub = b->body->first, v = hub + j;
    double fall = b->h->water->fall_frac.value;
    double strip = fall * b->h->water->strip_frac.value;
    double in = s->in_m3_h[v] / s->mid_m3[hub];
    double out = s->out_m3_h[v] / s->mid_m3[v];
    for (int k = 0; k < KINDS; k++) {
        double come = in * at(y, 0)[k], go = out * at(y, j)[k];
        at(dy, 0)[k] += go - come;
        at(dy, j)[k] += come - go;
    }
    const WaterWarmth *here = &s->warm[v], *there = &s->warm[hub];
    at(dy, j)[OXYGEN] +=
        fall * s->in_m3_h[v] *
        (here->oxygen_g_m3 - at(y, 0)[OXYGEN] / s->mid_m3[hub]);
    at(dy, 0)[OXYGEN] += fall * s->out_m3_h[v] *
                         (there->oxygen_g_m3 - at(y, j)[OXYGEN] / s->mid_m3[v]);
    at(dy, j)[DIC] += strip * s->in_m3_h[v] * (here->co2_mol_m3 - co2[0]);
    at(dy, 0)[DIC] += strip * s->out_m3_h[v] * (there->co2_mol_m3 - co2[j]);
}

static int rates(realtype t, N_Vector state, N_Vector change, void *data)
{
    (void)t;
    const Body1 *b = data;
    HourState *s = b->s;
    double *y = N_VGetArrayPointer(state), *dy = N_VGetArrayPointer(change);
    double co2[VESSELS_MOST];
    evaluations++;
    memset(dy, 0, (size_t)(b->body->count * KINDS) * sizeof *dy);
    for (int j = 0; j < b->body->count; j++) {
        int v = b->body->first + j;
        PhPoint p = warmth_ph(&s->warm[v], at(y, j)[ALKALINITY] / s->mid_m3[v],
                              fmax(0.0, at(y, j)[DIC]) / s->mid_m3[v], s->a[v]);
        p = warmth_ph(&s->warm[v], at(y, j)[ALKALINITY] / s->mid_m3[v],
                      fmax(0.0, at(y, j)[DIC]) / s->mid_m3[v], p.a);
        co2[j] = p.co2_mol_m3;
        react(b, j, at(y, j), at(dy, j), p.a, p.co2_mol_m3);
        exchange(b, j, at(y, j), at(dy, j), co2[j]);
    }
    for (int j = 1; j < b->body->count; j++) {
        run_water(b, j, y, dy, co2);
    }
    const Body *body = b->body;
    double come = s->in_m3_h[body->first];
    dy[OXYGEN] += come * body->source_oxygen_g_m3;
    dy[ALKALINITY] += come * body->source_alkalinity_mol_m3;
    dy[DIC] += come * body->source_dic_mol_m3;
    for (int c = 0; c < STAR_WIDE; c++) {
        dy[WIDE + c] += come * body->source_g_m3[c];
    }
    return 0;
}

static void load(const Body1 *b, double *y, bool is_back)
{
    HourState *s = b->s;
    for (int j = 0; j < b->body->count; j++) {
        int v = b->body->first + j;
        double *of[KINDS] = {&s->oxygen_g[v], &s->tan_g[v], &s->nitrite_g[v],
                             &s->alkalinity_mol[v], &s->dic_mol[v]};
        for (int c = 0; c < STAR_WIDE; c++) {
            of[WIDE + c] = &s->wide_g[v][c];
        }
        for (int k = 0; k < KINDS; k++) {
            if (is_back) {
                *of[k] = at(y, j)[k];
            } else {
                at(y, j)[k] = *of[k];
            }
        }
        if (is_back) {
            PhPoint p =
                warmth_ph(&s->warm[v], s->alkalinity_mol[v] / s->volume_m3[v],
                          s->dic_mol[v] / s->volume_m3[v], s->a[v]);
            s->a[v] = p.a;
            s->co2_mol_m3[v] = p.co2_mol_m3;
        }
    }
}

/* Some hours of one body by CVODE, in one go. */
static void integrate(Body1 *b, double hours)
{
    SUNContext context = NULL;
    assert_int_equal(SUNContext_Create(NULL, &context), 0);
    int count = b->body->count * KINDS;
    N_Vector y = N_VNew_Serial(count, context);
    load(b, N_VGetArrayPointer(y), false);
    SUNMatrix matrix = SUNDenseMatrix(count, count, context);
    SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
    void *cvode = CVodeCreate(CV_BDF, context);
    assert_int_equal(CVodeInit(cvode, rates, 0.0, y), 0);
    assert_int_equal(CVodeSStolerances(cvode, tolerance, tolerance), 0);
    assert_int_equal(CVodeSetUserData(cvode, b), 0);
    assert_int_equal(CVodeSetLinearSolver(cvode, solver, matrix), 0);
    assert_int_equal(CVodeSetMaxNumSteps(cvode, 100000), 0);
    assert_int_equal(CVodeSetStopTime(cvode, hours), 0);
    realtype reached = 0.0;
    assert_true(CVode(cvode, hours, y, &reached, CV_NORMAL) >= 0);
    load(b, N_VGetArrayPointer(y), true);
    CVodeFree(&cvode);
    SUNLinSolFree(solver);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    SUNContext_Free(&context);
}

/* Takes the place of hour_water. What plants took is booked by the mean of
 * what the hour's two ends give: it moves only their own growth. */
static void exact_water(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int b = 0; b < h->body_count; b++) {
        Body1 one = {h, s, now, &h->bodies[b]};
        integrate(&one, 1.0);
        for (int j = 0; j < one.body->count; j++) {
            int v = one.body->first + j;
            double hours = hour_share_of_day(h, s, now, v);
            for (int e = 0; e < HOUR_ELEMENTS; e++) {
                static const int OF[] = {WIDE_NITRATE, WIDE_P,  WIDE_K,
                                         WIDE_CA,      WIDE_MG, WIDE_FE};
                double asked = h->vessels[v].kind == VESSEL_ZONE
                                   ? s->ask_g_d[v][e] * hours
                                   : 0.0;
                double g_m3 = s->wide_g[v][OF[e]] / s->volume_m3[v];
                s->asked_g[v][e] += asked;
                s->taken_g[v][e] += asked * g_m3 / (h->half_g_m3[e] + g_m3);
            }
        }
    }
}

typedef struct Range {
    double least, most;
    double off;     /* at most */
    double squares; /* of it, summed */
    int count;
} Range;

static void compare(const HourFarm *h, const HourState *got,
                    const HourState *want, Range *ranges)
{
    for (int v = 0; v < h->vessel_count; v++) {
        double m3 = want->volume_m3[v];
        const double pair[KINDS + 1][2] = {
            {got->oxygen_g[v] / m3, want->oxygen_g[v] / m3},
            {got->tan_g[v] / m3, want->tan_g[v] / m3},
            {got->nitrite_g[v] / m3, want->nitrite_g[v] / m3},
            {got->alkalinity_mol[v] / m3, want->alkalinity_mol[v] / m3},
            {got->dic_mol[v] / m3, want->dic_mol[v] / m3},
            {-log10(got->a[v]), -log10(want->a[v])}};
        for (int k = 0; k <= KINDS; k++) {
            double a =
                k <= WIDE ? pair[k][0] : got->wide_g[v][k - WIDE - 1] / m3;
            double b =
                k <= WIDE ? pair[k][1] : want->wide_g[v][k - WIDE - 1] / m3;
            Range *r = &ranges[v * (KINDS + 1) + k];
            r->least = fmin(r->least, b);
            r->most = fmax(r->most, b);
            r->off = fmax(r->off, fabs(a - b));
            r->squares += (a - b) * (a - b);
            r->count++;
        }
    }
}

static const char *kind_name(int k)
{
    static const char *const NAMES[KINDS + 1] = {
        "oxygen",    "ammonia", "nitrite",    "alkalinity", "carbon",
        "pH",        "nitrate", "phosphorus", "potassium",  "calcium",
        "magnesium", "iron",    "sodium",     "chloride"};
    return NAMES[k];
}

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

/* The year by our method, for each state's range; snapshots of some days. */
static void run_year(const HourFarm *h, HourState *s, Arena *arena,
                     Range *ranges, HourState **snapshots)
{
    HourWeather *weather = ARENA_ARRAY(arena, HourWeather, YEAR_D * 24);
    hour_typical_weather(h, 0, YEAR_D * 24, weather);
    int taken = 0;
    for (int hour = 0; hour < YEAR_D * 24; hour++) {
        if (taken < SAMPLES && hour == SAMPLE_DAYS[taken] * 24) {
            hour_state_copy(h, s, snapshots[taken++]);
        }
        hour_step(h, s, &weather[hour], NULL);
        if (hour >= 24) {
            compare(h, s, s, ranges);
        }
    }
    assert_int_equal(taken, SAMPLES);
    for (int i = 0; i < h->vessel_count * (KINDS + 1); i++) {
        ranges[i].count = 0;
    }
}

static void run_sample(const HourFarm *h, HourState *want, HourState *got,
                       Arena *arena, Range *ranges, double *out_ms)
{
    HourWeather *weather = ARENA_ARRAY(arena, HourWeather, DAYS * 24);
    hour_typical_weather(h, hour_state_hours(want), DAYS * 24, weather);
    hour_state_copy(h, want, got);
    for (int hour = 0; hour < DAYS * 24; hour++) {
        double from = now_ms();
        hour_step(h, got, &weather[hour], NULL);
        double middle = now_ms();
        hour_step_by(h, want, &weather[hour], exact_water);
        out_ms[0] += middle - from;
        out_ms[1] += now_ms() - middle;
        compare(h, got, want, ranges);
    }
}

/* Worst and mean (root of squares) error over range, of one kind of vessel and
 * one kind of state. */
typedef struct Told {
    double worst, mean;
} Told;

static Told told_of(const HourFarm *h, const Range *ranges, int kind,
                    VesselKind vessel)
{
    Told told = {0.0, 0.0};
    for (int v = 0; v < h->vessel_count; v++) {
        const Range *r = &ranges[v * (KINDS + 1) + kind];
        double range = r->most - r->least;
        if (h->vessels[v].kind == vessel && range > 1e-9 &&
            h->bodies[h->vessel_body[v]].loop >= 0) {
            told.worst = fmax(told.worst, r->off / range);
            told.mean = fmax(told.mean, sqrt(r->squares / r->count) / range);
        }
    }
    return told;
}

/* What docs/decisions/003-the-hour.md tells: hours in which beds start again
 * after a night off are the worst, and there what reacts within minutes. */
static int count_misses(const HourFarm *h, const Range *ranges)
{
    static const char *const VESSELS[] = {"sump", "tank", "zone"};
    int misses = 0;
    for (int vessel = VESSEL_SUMP; vessel <= VESSEL_ZONE; vessel++) {
        for (int k = 0; k <= KINDS; k++) {
            Told told = told_of(h, ranges, k, (VesselKind)vessel);
            bool is_slow = k > WIDE || k == ALKALINITY || k == DIC;
            double most = vessel == VESSEL_TANK ? IN_TANKS
                          : is_slow             ? SLOW
                                                : FAST;
            double mean = vessel == VESSEL_TANK || is_slow ? WITHIN : AT_STARTS;
            bool is_off = told.worst > most || told.mean > mean;
            misses += is_off ? 1 : 0;
            print_message("%s %-11s worst %5.2f %% of its range, mean %5.2f "
                          "%%%s\n",
                          VESSELS[vessel], kind_name(k), 100.0 * told.worst,
                          100.0 * told.mean, is_off ? "  <--" : "");
        }
    }
    return misses;
}

/* The demo with a short plan, its year, and where its samples begin. */
typedef struct Opened {
    Demo demo;
    Farm farm;
    HourFarm *h;
    HourState *got, *samples[SAMPLES];
    Range *ranges;
    int count; /* of ranges */
} Opened;

static void open_demo(Opened *o, Arena *arena)
{
    PlanSolution plan;
    demo_open(DEMO_DIR, 52, &o->demo);
    short_plan(&o->demo, FEW_MOVES, &plan);
    PlanStamp stamp = {o->demo.year.index.from, 7, "x"};
    plan_record(&o->demo.year.inputs, &o->demo.year.problem,
                &o->demo.year.index, &plan, &stamp, &o->demo.arena, &o->farm);
    HourAsk ask = {&o->farm, o->demo.year.book, o->demo.year.inputs.climate,
                   o->demo.year.index.from, hour_usual_care()};
    HourState *year = NULL;
    assert_ok(hour_farm_make(&ask, arena, &o->h));
    assert_ok(hour_state_make(o->h, arena, &year));
    assert_ok(hour_state_make(o->h, arena, &o->got));
    o->count = o->h->vessel_count * (KINDS + 1);
    o->ranges = ARENA_ARRAY(arena, Range, o->count);
    for (int i = 0; i < o->count; i++) {
        o->ranges[i] = (Range){.least = INFINITY, .most = -INFINITY};
    }
    for (int i = 0; i < SAMPLES; i++) {
        assert_ok(hour_state_make(o->h, arena, &o->samples[i]));
    }
    run_year(o->h, year, arena, o->ranges, o->samples);
}

static void
tanks_and_slow_states_keep_within_a_hundredth_of_their_range(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Opened o = {0};
    open_demo(&o, &arena);
    double ms[2] = {0.0};
    for (int i = 0; i < SAMPLES; i++) {
        run_sample(o.h, o.samples[i], o.got, &arena, o.ranges, ms);
    }
    int misses = count_misses(o.h, o.ranges);
    print_message(
        "%.1f ms against %.0f ms at a tolerance of %g: %.0f times; %ld "
        "evaluations\n",
        ms[0], ms[1], tolerance, ms[1] / ms[0], evaluations);
    demo_close(&o.demo);
    assert_int_equal(misses, 0);
}

/* ---- Error and time at several tolerances ----------------------------------
 */

static const double TOLERANCES[] = {1e-2, 1e-4, 1e-6};
enum { METHODS = 4 }; /* the hour, then CVODE at each */
static const double REFERENCE = 1e-9;

/* Root of the mean square of all states of loops over their ranges. */
typedef struct Off {
    double squares, ms;
    int64_t count;
} Off;

static void add_off(const HourFarm *h, const HourState *got,
                    const HourState *want, const Range *ranges, Arena *arena,
                    Off *off)
{
    int count = h->vessel_count * (KINDS + 1);
    Range *one = ARENA_ARRAY(arena, Range, count);
    compare(h, got, want, one);
    for (int i = 0; i < count; i++) {
        double range = ranges[i].most - ranges[i].least;
        int vessel = i / (KINDS + 1);
        if (range > 1e-9 && h->bodies[h->vessel_body[vessel]].loop >= 0) {
            off->squares += one[i].squares / (range * range);
            off->count++;
        }
    }
}

static double error_of(const Off *off)
{
    return sqrt(off->squares / (double)off->count);
}

/* What CVODE would take for the hour's own error: along the line between its
 * tolerances in logarithms; where it never errs as much, its fastest. */
static double equal_ms(const Off offs[METHODS])
{
    double error = error_of(&offs[0]);
    for (int m = 1; m + 1 < METHODS; m++) {
        double loose = error_of(&offs[m]), tight = error_of(&offs[m + 1]);
        if (error >= loose || error > tight) {
            double part =
                error >= loose ? 0.0 : log(error / loose) / log(tight / loose);
            return offs[m].ms * pow(offs[m + 1].ms / offs[m].ms, part);
        }
    }
    return offs[METHODS - 1].ms;
}

static void tell_off(const char *what, const Off offs[METHODS])
{
    for (int m = 0; m < METHODS; m++) {
        char name[40] = "the hour";
        if (m > 0) {
            snprintf(name, sizeof name, "CVODE at %g", TOLERANCES[m - 1]);
        }
        printf("%s, %-14s error %.4f %% of range, %8.3f ms a day\n", what, name,
               100.0 * error_of(&offs[m]), offs[m].ms);
    }
    printf("%s, at equal error the hour is %.1f times faster (asked: 20)\n",
           what, equal_ms(offs) / offs[0].ms);
}

/* Days with meals, floods and flows that change each hour. */
static void bench_events(Opened *o, Arena *arena)
{
    Off offs[METHODS] = {{0.0, 0.0, 0}};
    HourState *own[METHODS], *want = NULL;
    assert_ok(hour_state_make(o->h, arena, &want));
    for (int m = 0; m < METHODS; m++) {
        assert_ok(hour_state_make(o->h, arena, &own[m]));
    }
    HourWeather *weather = ARENA_ARRAY(arena, HourWeather, DAYS * 24);
    for (int i = 0; i < SAMPLES; i++) {
        hour_typical_weather(o->h, hour_state_hours(o->samples[i]), DAYS * 24,
                             weather);
        hour_state_copy(o->h, o->samples[i], want);
        for (int m = 0; m < METHODS; m++) {
            hour_state_copy(o->h, o->samples[i], own[m]);
        }
        for (int hour = 0; hour < DAYS * 24; hour++) {
            tolerance = REFERENCE;
            hour_step_by(o->h, want, &weather[hour], exact_water);
            for (int m = 0; m < METHODS; m++) {
                tolerance = m > 0 ? TOLERANCES[m - 1] : 0.0;
                double from = now_ms();
                hour_step_by(o->h, own[m], &weather[hour],
                             m > 0 ? exact_water : hour_water);
                offs[m].ms += (now_ms() - from) / (SAMPLES * DAYS);
                add_off(o->h, own[m], want, o->ranges, arena, &offs[m]);
            }
        }
    }
    tell_off("with hourly events", offs);
}

/* A day in which nothing changes: what the noon of a sample gives, held for 24
 * hours; CVODE runs through it without a stop. */
typedef struct Still {
    Opened *o;
    Arena *arena;
    HourState *base, *own, *want;
    Off offs[METHODS];
} Still;
static Still *still; /* hour_step_by hands on no context */

static void still_by(const HourFarm *h, const HourNow *now, int method,
                     HourState *own)
{
    hour_state_copy(h, still->base, own);
    for (int b = 0; method != 0 && b < h->body_count; b++) {
        Body1 one = {h, own, now, &h->bodies[b]};
        integrate(&one, 24.0);
    }
    for (int hour = 0; method == 0 && hour < 24; hour++) {
        size_t bytes = (size_t)h->vessel_count * sizeof(double);
        memcpy(own->ammonia_g_h, still->base->ammonia_g_h, bytes);
        memcpy(own->rot_oxygen_g_h, still->base->rot_oxygen_g_h, bytes);
        memcpy(own->charge_eq_h, still->base->charge_eq_h, bytes);
        memcpy(own->wide_source, still->base->wide_source, bytes * STAR_WIDE);
        hour_water(h, own, now);
    }
}

static void still_water(const HourFarm *h, HourState *s, const HourNow *now)
{
    hour_state_copy(h, s, still->base);
    tolerance = REFERENCE;
    still_by(h, now, METHODS, still->want);
    for (int m = 0; m < METHODS; m++) {
        tolerance = m > 0 ? TOLERANCES[m - 1] : 0.0;
        double from = now_ms();
        still_by(h, now, m, still->own);
        still->offs[m].ms += (now_ms() - from) / SAMPLES;
        add_off(h, still->own, still->want, still->o->ranges, still->arena,
                &still->offs[m]);
    }
    hour_water(h, s, now);
}

static void bench_still(Opened *o, Arena *arena)
{
    enum { NOON = 12 };
    Still made = {.o = o, .arena = arena};
    still = &made;
    assert_ok(hour_state_make(o->h, arena, &made.base));
    assert_ok(hour_state_make(o->h, arena, &made.own));
    assert_ok(hour_state_make(o->h, arena, &made.want));
    HourWeather weather[NOON + 1];
    for (int i = 0; i < SAMPLES; i++) {
        hour_typical_weather(o->h, hour_state_hours(o->samples[i]), NOON + 1,
                             weather);
        hour_state_copy(o->h, o->samples[i], o->got);
        for (int hour = 0; hour <= NOON; hour++) {
            hour_step_by(o->h, o->got, &weather[hour],
                         hour == NOON ? still_water : hour_water);
        }
    }
    tell_off("a still day", made.offs);
}

static void bench(void)
{
    CLEANUP(arena_release) Arena arena = {0};
    Opened o = {0};
    open_demo(&o, &arena);
    bench_events(&o, &arena);
    bench_still(&o, &arena);
    demo_close(&o.demo);
}

int main(int count, char **words)
{
    if (count == 2 && strcmp(words[1], "--bench") == 0) {
        bench();
        return 0;
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(
            tanks_and_slow_states_keep_within_a_hundredth_of_their_range),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
