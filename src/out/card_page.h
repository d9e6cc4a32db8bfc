/* The emergency card as a page for paper: HTML that prints on one A4 sheet,
 * without script, pictures or anything from elsewhere. */
#ifndef LEAT_OUT_CARD_PAGE_H
#define LEAT_OUT_CARD_PAGE_H

#include "work/emergency_card.h"

/* Text in the arena. All that comes from tables is escaped. */
const char *card_page(const Card *card, const char *farm_name,
                      const char *const *notices, int notice_count,
                      Arena *arena);

#endif
