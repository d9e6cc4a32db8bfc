/* Sums of moving water: a flood and drain, head lost in a pipe, pump power. */
#include <math.h>

#include "nature/flow/bed_cycle.h"
#include "nature/flow/pipe.h"
#include "sums/rows.h"

static void tell_cycle(const BedCycle *cycle, const BedTimes *times,
                       SumAnswer *out)
{
    sum_is(out, "minutes to fill", times->fill_min, "min");
    sum_also(out, "minutes to drain", times->drain_min, "min");
    sum_also(out, "one flood and drain", times->fill_min + times->drain_min,
             "min");
    sum_also(out, "water that one bed holds", times->bed_m3, "m3");
    sum_also(out, "drawn from the sump by the step", times->drawn_m3, "m3");
    sum_also(out, "left in the sump", times->left_m3, "m3");
    sum_also(out, "water over the bed a day, cycles following on",
             times->loading_m_d, "m/d");
    sum_work(out, "one bed: %.4g m2 x %.4g m x %.4g = %.4g m3", cycle->area_m2,
             cycle->depth_m, cycle->porosity_frac, times->bed_m3);
    sum_work(out,
             "S dh/dt = q - c sqrt h, S = area x porosity, q = %.4g m3/h "
             "to one bed, c = 0.6 a sqrt(2 g), bore %.4g mm, %.4g of it "
             "open while it fills",
             cycle->flow_m3_h, cycle->drain_mm, cycle->bleed_frac);
    sum_work(out, "fill %.1f min, drain %.1f min", times->fill_min,
             times->drain_min);
    sum_work(out, "sump: %.4g - %d x %.4g = %.4g m3", cycle->sump_m3,
             cycle->beds_in_step, times->bed_m3, times->left_m3);
}

static Err flood_cycle(const SumInputs *in, SumAnswer *out)
{
    BedCycle cycle = {
        .area_m2 = sum_number(in, "area_m2"),
        .depth_m = sum_number(in, "depth_m"),
        .porosity_frac = sum_number(in, "porosity"),
        .drain_mm = sum_number(in, "drain_mm"),
        .bleed_frac = sum_number(in, "bleed_pct") / 100.0,
        .sump_m3 = sum_number(in, "sump_m3"),
        .beds_in_step = sum_count(in, "beds_in_step"),
    };
    cycle.flow_m3_h = sum_number(in, "flow_m3_h") / cycle.beds_in_step;
    BedTimes times = {0};
    TRY(flow_bed_cycle(&cycle, &times));
    tell_cycle(&cycle, &times, out);
    if (times.left_m3 < 0.0) {
        sum_caution(out,
                    "The sump cannot supply this step: it lacks %.4g m3, and "
                    "the pump would run dry. Flood fewer beds at a time.",
                    -times.left_m3);
    } else if (times.left_m3 < 0.2 * cycle.sump_m3) {
        sum_caution(out, "Under a fifth of the sump is left: mind the pump's "
                         "least level, and what splashes away.");
    }
    if (times.fill_min + times.drain_min > 180.0) {
        sum_caution(out, "A bed left flooded over 3-4 hours goes foul.");
    }
    return ERR_NONE;
}

/* Up to 5 it is the height of the roughness, mm; from 60 Hazen's C. */
static const double DARCY_TO_MM = 5.0;
static const double HAZEN_FROM = 60.0;

static Err head_loss(const SumInputs *in, SumAnswer *out)
{
    double roughness = sum_number(in, "roughness");
    Pipe pipe = {
        .flow_m3_h = sum_number(in, "flow_m3_h"),
        .bore_mm = sum_number(in, "diameter_mm"),
        .length_m = sum_number(in, "length_m"),
        .roughness_mm = roughness,
        .hazen_c = roughness,
        .temp_degc = 20.0,
    };
    bool is_hazen = roughness >= HAZEN_FROM;
    if (!is_hazen &&
        (roughness > DARCY_TO_MM || roughness > 0.05 * pipe.bore_mm)) {
        return err_make(ERR_RANGE,
                        "roughness=%.4g is out of range: its height, 0 to 5 "
                        "mm and to a twentieth of the bore, or Hazen's C, 60 "
                        "to 160",
                        roughness);
    }
    double head_m =
        is_hazen ? flow_head_hazen_m(&pipe) : flow_head_darcy_m(&pipe);
    /* Colebrook and Hazen-Williams differ by some 7 % for small plastic. */
    sum_is_figure(out, "head lost", sum_about(head_m, 0.07), "m");
    sum_also(out, "velocity", flow_velocity_m_s(&pipe), "m/s");
    double reynolds = flow_reynolds(&pipe);
    sum_also(out, "Reynolds number", reynolds, "");
    if (is_hazen) {
        sum_work(out,
                 "h = 10.67 L Q^1.852/(C^1.852 d^4.8704): L %.4g m, Q "
                 "%.4g m3/s, C %.4g, d %.4g m: %.4g m",
                 pipe.length_m, pipe.flow_m3_h / 3600.0, roughness,
                 pipe.bore_mm / 1000.0, head_m);
    } else {
        sum_also(out, "friction factor",
                 flow_friction(reynolds, roughness / pipe.bore_mm), "");
        sum_work(out,
                 "h = f L/d v^2/(2 g): f %.4g, L/d %.4g, v %.4g m/s, "
                 "water of 20 degC: %.4g m",
                 flow_friction(reynolds, roughness / pipe.bore_mm),
                 1000.0 * pipe.length_m / pipe.bore_mm,
                 flow_velocity_m_s(&pipe), head_m);
    }
    sum_work(out, "bends, valves and the lift come on top");
    return ERR_NONE;
}

static Err pump_power(const SumInputs *in, SumAnswer *out)
{
    double flow_m3_h = sum_number(in, "flow_m3_h");
    double head_m = sum_number(in, "head_m");
    double efficiency = sum_number(in, "efficiency_pct") / 100.0;
    double power_w = flow_pump_w(flow_m3_h, head_m, efficiency);
    sum_is(out, "power drawn", power_w, "W");
    sum_also(out, "energy in a day of 24 h", 24.0 * power_w / 1000.0, "kWh");
    sum_also(out, "energy in a year", 8.76 * power_w, "kWh");
    sum_work(out,
             "rho g Q H / eta = 1000 x 9.81 x %.4g/3600 x %.4g / %.4g = "
             "%.4g W",
             flow_m3_h, head_m, efficiency, power_w);
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_FLOW[] = {
    {.name = "flood-cycle", .run = flood_cycle,
     .purpose = "minutes to fill and drain beds, and what the sump gives",
     .keys = KEYS(
        NEED("area_m2", "m2", 0.01, 1000, "of one bed"),
        NEED("depth_m", "m", 0.01, 2, "flooded"),
        NEED("porosity", "", 0.05, 1, "share of the gravel that is holes"),
        NEED("flow_m3_h", "m3/h", 0.001, 10000,
             "of the pump, shared by the beds of the step"),
        NEED("drain_mm", "mm", 2, 500, "bore of a bed's drain"),
        COUNT_USUAL("beds_in_step", 1, 1, 1000, "beds that flood together"),
        NEED("sump_m3", "m3", 0, 10000, "water in the sump before"),
        USUAL("bleed_pct", "%", 0, 0, 100, "of the drain open while it fills")),
     .source = "CHOW1959",
     .example = "area_m2=2 depth_m=0.25 porosity=0.4 flow_m3_h=0.8 drain_mm=32 "
                "beds_in_step=1 sump_m3=1"},
    {.name = "head-loss", .run = head_loss,
     .purpose = "head lost in a pipe",
     .keys = KEYS(
        NEED("flow_m3_h", "m3/h", 0.001, 10000, "through the pipe"),
        NEED("diameter_mm", "mm", 2, 2000, "inside"),
        NEED("length_m", "m", 0.01, 100000, "of the pipe"),
        USUAL("roughness", "", 0.0015, 0, 160,
              "mm, plastic 0.0015; or from 60 Hazen's C, plastic 150")),
     .source = "COLEBROOK1939 EPANET2 VOGEL1921",
     .example = "flow_m3_h=12 diameter_mm=50 length_m=20 roughness=150"},
    {.name = "pump-power", .run = pump_power,
     .purpose = "power that a pump draws",
     .keys = KEYS(
        NEED("flow_m3_h", "m3/h", 0, 10000, "pumped"),
        NEED("head_m", "m", 0, 1000, "lift and losses together"),
        USUAL("efficiency_pct", "%", 40, 1, 100, "of pump and motor")),
     .source = "",
     .example = "flow_m3_h=5 head_m=2.5 efficiency_pct=40"},
    {.name = NULL},
};
/* clang-format on */
