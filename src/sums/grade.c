/* Sums of sizes: a sample, the share above a weight, a grading. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "nature/fish/sizes.h"
#include "sums/rows.h"

static const char TRUNCATED[] =
    "a cut stays cut: a sharp one leaves none above it, a real one few, "
    "whatever the new mean and spread would suggest";

static void tell_split(const GradeSplit *split, double count, double mean_g,
                       SumAnswer *out)
{
    sum_is(out, "mean weight of those left", split->left_mean_g, "g");
    sum_also(out, "left", split->left_count, "fish");
    sum_also(out, "moved", split->moved_count, "fish");
    sum_also(out, "mean weight of the moved", split->moved_mean_g, "g");
    sum_also(out, "kilos left", split->left_count * split->left_mean_g / 1000.0,
             "kg");
    sum_also(out, "kilos moved",
             split->moved_count * split->moved_mean_g / 1000.0, "kg");
    sum_also(out, "the cut", split->cut_g, "g");
    sum_also(out, "still over the cut among those left",
             split->left_above_count, "fish");
    sum_work(out,
             "before %.4g x %.4g g = %.4g kg; moved %.4g x %.4g g; left (%.4g "
             "x %.4g - %.4g x %.4g)/%.4g = %.4g g",
             count, mean_g, count * mean_g / 1000.0, split->moved_count,
             split->moved_mean_g, count, mean_g, split->moved_count,
             split->moved_mean_g, split->left_count, split->left_mean_g);
    sum_work(out, "%s", TRUNCATED);
    sum_caution(out, "Net and grade only at 20-30 degC and over 5 mg/L oxygen, "
                     "fasted a day, four weeks after the last time, two "
                     "people; at most 2 degC and 0.5 pH between tanks.");
}

static Err grade_split(const SumInputs *in, SumAnswer *out)
{
    double count = sum_number(in, "count");
    double mean_g = sum_number(in, "mean_g");
    FishSizes sizes =
        fish_sizes(count, mean_g, sum_number(in, "cv_pct") / 100.0);
    bool has_moved =
        sum_is_given(in, "moved_count") || sum_is_given(in, "moved_mean_g");
    if (has_moved == sum_is_given(in, "cut_g")) {
        return err_make(ERR_USAGE, "give either cut_g, or moved_count and "
                                   "moved_mean_g");
    }
    GradeSplit split = {0};
    if (!has_moved) {
        split = fish_grade_at(&sizes, sum_number(in, "cut_g"));
        if (split.left_count < 0.5 || split.moved_count < 0.5) {
            return err_make(ERR_RANGE,
                            "a cut at %.4g g moves %.0f of %.0f fish: that is "
                            "no grading",
                            split.cut_g, split.moved_count, count);
        }
        tell_split(&split, count, mean_g, out);
        sum_work(out, "log-normal of that mean and spread, cut sharply");
        return ERR_NONE;
    }
    if (!sum_is_given(in, "moved_count") || !sum_is_given(in, "moved_mean_g")) {
        return err_make(ERR_USAGE, "moved_count and moved_mean_g go together");
    }
    TRY(fish_grade_moved(&sizes, sum_number(in, "moved_count"),
                         sum_number(in, "moved_mean_g"), &split));
    tell_split(&split, count, mean_g, out);
    sum_also(out, "sharpness of the grading", 100.0 * split.sharp_frac, "%");
    sum_work(out, "the cut is the weight that a sharp grader would have used; "
                  "sharpness 100 %%: only the heaviest went, 0: any fish");
    return ERR_NONE;
}

static Err share_above(const SumInputs *in, SumAnswer *out)
{
    double count = sum_number(in, "count");
    double mean_g = sum_number(in, "mean_g");
    double cut_g = sum_number(in, "cut_g");
    double cv_frac = sum_number(in, "cv_pct") / 100.0;
    FishSizes sizes = fish_sizes(count, mean_g, cv_frac);
    FishSizes below;
    FishSizes above;
    if (sum_is_given(in, "graded_at_g")) {
        fish_sizes_cut(&sizes, sum_number(in, "graded_at_g"), &below, &above);
        if (below.count < 0.5) {
            return err_make(ERR_RANGE, "graded_at_g=%.4g would have left none",
                            sum_number(in, "graded_at_g"));
        }
        below.count = count;
        sizes = below;
    }
    double share = fish_sizes_share_above(&sizes, cut_g);
    sum_is(out, "share above that weight", 100.0 * share, "%");
    sum_also(out, "fish above it", count * share, "fish");
    fish_sizes_cut(&sizes, cut_g, &below, &above);
    if (above.count >= 0.5) {
        sum_also(out, "their mean weight", fish_sizes_mean_g(&above), "g");
    }
    if (below.count >= 0.5) {
        sum_also(out, "mean weight of the others", fish_sizes_mean_g(&below),
                 "g");
    }
    sum_work(out,
             "log-normal: sd = sqrt(ln(1 + cv^2)) = %.4g, mean = ln %.4g "
             "- sd^2/2 = %.4g",
             sizes.log_sd, mean_g, sizes.log_mean);
    sum_work(out, "share = N((mean - ln %.4g)/sd) = %.4g; x %.4g = %.4g fish",
             cut_g, share, count, count * share);
    if (sum_is_given(in, "graded_at_g")) {
        sum_work(out,
                 "mean_g and cv_pct are those before the grading at %.4g "
                 "g; %s",
                 sum_number(in, "graded_at_g"), TRUNCATED);
    } else {
        sum_caution(out, "Only for fish not graded out above a weight since "
                         "they were sampled: after a grading give its "
                         "graded_at_g, with the mean and spread before it.");
    }
    return ERR_NONE;
}

enum { SAMPLE_MAX = 500 };

/* "42,51,38" to numbers above 0. */
static Err parse_weights(const char *text, SumAnswer *out, double *weights,
                         int *out_count)
{
    int count = 0;
    while (*text) {
        size_t length = strcspn(text, ",");
        double weight_g = 0.0;
        const char *item = arena_copy_bytes(out->arena, text, length);
        Err err = text_to_f64(item, &weight_g);
        if (err.kind != ERR_OK || !(weight_g > 0.0) || weight_g > 1e5) {
            return err_make(ERR_INPUT,
                            "weights_g: \"%.40s\" is not a weight; give them "
                            "as 42,51,38",
                            item);
        }
        if (count == SAMPLE_MAX) {
            return err_make(ERR_LIMIT, "weights_g: more than %d weights",
                            (int)SAMPLE_MAX);
        }
        weights[count++] = weight_g;
        text += length + (text[length] == ',');
    }
    *out_count = count;
    return ERR_NONE;
}

static Err sample_of_weights(const SumInputs *in, SumAnswer *out)
{
    double weights[SAMPLE_MAX];
    int count = 0;
    TRY(parse_weights(sum_word(in, "weights_g"), out, weights, &count));
    if (count < 2) {
        return err_make(ERR_RANGE, "weights_g: a spread takes two fish or "
                                   "more");
    }
    double total = 0.0;
    for (int i = 0; i < count; i++) {
        total += weights[i];
    }
    double mean_g = total / count;
    double square = 0.0;
    for (int i = 0; i < count; i++) {
        square += (weights[i] - mean_g) * (weights[i] - mean_g);
    }
    double sd_g = sqrt(square / (count - 1));
    double error_g = sd_g / sqrt(count);
    /* The middle 80 % of a normal: 1.2816 standard errors. */
    double reach_g = 1.2816 * error_g;
    sum_is_figure(out, "mean weight",
                  sum_range(mean_g, mean_g - reach_g, mean_g + reach_g), "g");
    sum_also(out, "spread, coefficient of variation", 100.0 * sd_g / mean_g,
             "%");
    sum_also(out, "weighed", count, "fish");
    sum_work(out,
             "mean %.5g g / %d = %.4g g; sd %.4g g; cv %.4g %%; error of "
             "the mean %.4g g",
             total, count, mean_g, sd_g, 100.0 * sd_g / mean_g, error_g);
    if (count < 30) {
        sum_caution(out,
                    "%d fish are few: 30 or more, from several places of "
                    "the tank, fasted.",
                    count);
    }
    return ERR_NONE;
}

static Err sample_weight(const SumInputs *in, SumAnswer *out)
{
    bool has_total = sum_is_given(in, "total_g") && sum_is_given(in, "count");
    if (sum_is_given(in, "weights_g")) {
        return sample_of_weights(in, out);
    }
    if (!has_total) {
        return err_make(ERR_USAGE, "give weights_g, or total_g and count");
    }
    double total_g = sum_number(in, "total_g");
    double count = sum_number(in, "count");
    sum_is(out, "mean weight", total_g / count, "g");
    sum_work(out, "%.5g g / %.4g = %.4g g", total_g, count, total_g / count);
    if (count < 30.0) {
        sum_caution(out,
                    "%.0f fish are few: 30 or more, from several places "
                    "of the tank, fasted.",
                    count);
    }
    return ERR_NONE;
}

/* clang-format off */
const Sum SUMS_GRADE[] = {
    {.name = "grade-split", .run = grade_split,
     .purpose = "a grading: who moves, who stays, and the new means",
     .keys = KEYS(
        NEED("count", "", 2, 1e7, "fish before"),
        NEED("mean_g", "g", 0.01, 100000, "mean weight before"),
        USUAL("cv_pct", "%", 40, 0.1, 150, "spread before: sd over mean"),
        MAY("moved_count", "", 1, 1e7, "fish moved; or cut_g"),
        MAY("moved_mean_g", "g", 0.01, 100000, "their mean weight"),
        MAY("cut_g", "g", 0.01, 100000, "all above this weight are moved")),
     .source = "",
     .example = "count=420 mean_g=62 cv_pct=40 moved_count=105 moved_mean_g=95"},
    {.name = "share-above", .run = share_above,
     .purpose = "how many fish are over a weight",
     .keys = KEYS(
        NEED("mean_g", "g", 0.01, 100000, "mean weight"),
        NEED("cv_pct", "%", 0.1, 150, "spread: sd over mean"),
        NEED("cut_g", "g", 0.01, 100000, "the weight asked for"),
        USUAL("count", "", 100, 1, 1e7, "fish in the tank"),
        MAY("graded_at_g", "g", 0.01, 100000,
            "they were graded out above this since the mean was taken")),
     .source = "",
     .example = "mean_g=380 cv_pct=22 cut_g=450 count=130"},
    {.name = "sample-weight", .run = sample_weight,
     .purpose = "mean weight and spread from a sample",
     .keys = KEYS(
        WORD_MAY("weights_g", "42,51,38", "each fish, g, with commas"),
        MAY("total_g", "g", 0.01, 1e9, "or all of them together"),
        COUNT_MAY("count", 1, 1000000, "and how many they were")),
     .source = "",
     .example = "total_g=1860 count=30"},
    {.name = NULL},
};
/* clang-format on */
