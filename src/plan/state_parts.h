/* What the files of plan/state share. */
#ifndef LEAT_PLAN_STATE_PARTS_H
#define LEAT_PLAN_STATE_PARTS_H

#include "plan/state.h"

/* A hundredth above a limit costs as much as everything sold. */
static const double STATE_OVER_SHARE = 0.01;

double state_over_price(const State *state, const double *cap, double money);

/* What an option there is worth because the plan begun from has it too. */
double state_keep_floor(const State *state, int slot, int option);
double state_keep_edge(const State *state, int bed, int option, int plants);

/* Takes back the choices of the trial, without the rows. */
void state_undo_ops(State *state);
/* Adds an active stock's runs and stocking to the rows. */
void state_stock_rows(State *state, int stock);
void state_undo_stock(State *state, const StateOp *op);

static inline StateOp *state_log(State *state, StateOp op)
{
    StateOp *entry = &state->ops[state->op_count++];
    *entry = op;
    return entry;
}

#endif
