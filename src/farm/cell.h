/* One cell of a table: from text to the member of a record and back. */
#ifndef LEAT_FARM_CELL_H
#define LEAT_FARM_CELL_H

#include "base/arena.h"
#include "base/err.h"
#include "farm/records.h"

enum { CELL_TEXT_SIZE = 400 };

/* mon .. sun */
extern const WordList CELL_WEEKDAYS;

/* Writes the member of row that field describes from a trimmed, not empty
 * text with a decimal point. ERR_INPUT or ERR_RANGE: the error's text says
 * what is expected, and the member is untouched. Text members point into text.
 * References are not read here: they need the other table. */
NODISCARD Err cell_parse(const Field *field, const char *text, void *row);

/* Writes the member for a cell that is blank, or (is_faulty) told as a fault:
 * the fallback; for a
 * fault what farm/read.h says. */
void cell_fill(const Field *field, bool is_faulty, void *row);

/* The text of a member, as a cell holds it; a reference as ids[index]. Numbers
 * read back to the same value. Borrowed from the row or the arena. */
const char *cell_format(const Field *field, const void *row, const Farm *farm,
                        Arena *arena);

/* What a field expects, in words: "a number from 0.05 to 1.5". */
void cell_describe(const Field *field, char out[CELL_TEXT_SIZE]);

/* True for kinds that a decimal mark may stand in. */
bool cell_is_decimal(const Field *field);

/* The id of a row of a table, or NULL where the table has none. */
const char *cell_row_id(const Farm *farm, int table, int32_t index);

/* The row of an id in a table that has ids; -1: none has it, or id is "". */
int32_t cell_row_of(const Farm *farm, int table, const char *id);

#endif
