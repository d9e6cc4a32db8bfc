/* Whether the accepted plan was made from the tables and the book as they are
 * now. A plan keeps a mark of each table and of the book; a changed one is
 * named, and no command refuses to work with the plan for it. */
#ifndef LEAT_DESK_PLAN_AGE_H
#define LEAT_DESK_PLAN_AGE_H

#include "farm/book.h"
#include "farm/records.h"

/* The marks of all tables that a plan is made from, "beds=1a2b3c4d ..": of what
 * they say, not of how it is written. Readings, contacts and the plan itself
 * are left out. */
const char *plan_age_marks(const Farm *farm, Arena *arena);

/* What changed since the plan was accepted and what to do, a line; NULL where
 * nothing did or no plan is accepted. dir: as it was typed. own: the book with
 * the farm's own figures in it. */
const char *plan_age_notice(const Farm *farm, const Book *own, const char *dir,
                            Arena *arena);

/* The same where no book is at hand. Fails as typical_make does. */
NODISCARD Err plan_age_of(const Farm *farm, const char *dir, Arena *arena,
                          const char **out_notice);

#endif
