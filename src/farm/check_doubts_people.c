/* Doubts about the people: work that the farm needs and nobody may do. */
#include "farm/checker.h"

typedef struct Need {
    bool is_there;
    const char *why;
} Need;

/* Ways of the book that are pruned, and ways set from trays. */
static void look_at_ways(const Checker *c, bool *out_prunes, bool *out_sets)
{
    *out_prunes = false;
    *out_sets = false;
    for (int32_t i = 0; i < c->farm->ways_count; i++) {
        const BookWay *book = book_way(c->book, c->farm->ways[i].book);
        *out_prunes |= book && book->prune_min_plant_week.value > 0.0;
        *out_sets |= c->farm->ways[i].tray >= 0;
    }
}

static bool has_vents(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->tunnels_count; i++) {
        if (tunnel_openings_m2(&c->farm->tunnels[i]) > 0.0) {
            return true;
        }
    }
    return false;
}

static void doubt_skills(const Checker *c, uint32_t may)
{
    bool prunes = false;
    bool sets = false;
    look_at_ways(c, &prunes, &sets);
    bool grows = c->farm->ways_count > 0;
    bool has_fish = c->farm->fish_count > 0 || c->farm->fish_sources_count > 0;
    bool cleans = c->farm->farm_count == 1 && c->farm->beds_count > 0 &&
                  c->farm->farm[0].clean_every_months > 0.0;
    const Need needs[] = {
        [SKILL_SOW] = {grows, "plants are sown"},
        [SKILL_SET] = {sets, "plants are raised in trays and set out"},
        [SKILL_PRUNE] = {prunes, "plants are pruned"},
        [SKILL_PICK] = {grows, "plants are picked"},
        [SKILL_CLEAR] = {grows, "beds are cleared"},
        [SKILL_CLEAN] = {cleans, "beds are cleaned"},
        [SKILL_FEED] = {has_fish, "fish are fed"},
        [SKILL_NET] = {has_fish, "fish are netted"},
        [SKILL_DOSE] = {c->farm->bases_count > 0, "bases.csv is not empty"},
        [SKILL_SPRAY] = {false, ""},
        [SKILL_TEST] = {c->farm->loops_count > 0, "water is tested"},
        [SKILL_VENT] = {has_vents(c), "tunnels are vented"},
        [SKILL_DELIVER] = {c->farm->orders_count > 0, "goods are delivered"},
        [SKILL_OFFICE] = {false, ""},
    };
    for (size_t i = 0; i < sizeof needs / sizeof *needs; i++) {
        if (needs[i].is_there && !(may >> i & 1u)) {
            check_doubt(c, TABLE_hands, NULL, NULL,
                        "nobody may %s, and %s on this farm",
                        FARM_WORDS[WORDS_SKILLS].words[i], needs[i].why);
        }
    }
}

void check_doubts_people(const Checker *c)
{
    uint32_t may = 0;
    for (int32_t i = 0; i < c->farm->hands_count; i++) {
        may |= c->farm->hands[i].may;
    }
    if (c->farm->hands_count > 0) {
        doubt_skills(c, may);
    } else if (c->farm->ways_count > 0 || c->farm->fish_count > 0) {
        check_doubt(c, TABLE_hands, NULL, NULL, "nobody works on this farm");
    }
}
