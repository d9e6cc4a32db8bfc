/* Sharing what is short among those who ordered it. */
#ifndef LEAT_WORK_SHARE_H
#define LEAT_WORK_SHARE_H

#include <stdbool.h>
#include <stdint.h>

typedef struct ShareLine {
    double ordered; /* units */
    double usual;   /* what this buyer usually takes of them, at most ordered:
                       else padding an order pays */
    double least;   /* the least useful quantity; less is none */
    bool is_firm;   /* prepaid or firm: first by the rule */
    double cut_before;    /* units it was short last time: those come next */
    double in_proportion; /* set by share_out */
    double by_rule;       /* set by share_out */
} ShareLine;

enum { SHARE_LINES_MOST = 64 };

/* Both ways: each line its share of have in proportion to the smaller of order
 * and usual take; and firm lines first, then those cut last time, then the
 * others, each group in proportion where it does not reach. is_whole: heads,
 * bunches: whole units, the largest remainders first. A line that would get
 * less than its least gets none and the others its part. Never over ordered;
 * the sums are have, or all that was ordered. count at most SHARE_LINES_MOST.
 */
void share_out(ShareLine *lines, int32_t count, double have, bool is_whole);

#endif
