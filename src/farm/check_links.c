/* Sense of the links: each has two ends, and water that runs by itself never
 * runs in a circle. */
#include "farm/checker.h"

enum { MONTHS = 12, SHOWN_VESSELS = 8, NOWHERE = -1 };

/* Tanks first, then the sumps of loops; NOWHERE where an end is not said. */
static int32_t vessel_from(const Checker *c, const Link *link)
{
    return link->from_tank >= 0   ? link->from_tank
           : link->from_loop >= 0 ? c->farm->tanks_count + link->from_loop
                                  : NOWHERE;
}

static int32_t vessel_to(const Checker *c, const Link *link)
{
    return link->to_tank >= 0   ? link->to_tank
           : link->to_loop >= 0 ? c->farm->tanks_count + link->to_loop
                                : NOWHERE;
}

static const char *vessel_name(const Checker *c, int32_t vessel)
{
    if (vessel < c->farm->tanks_count) {
        return c->farm->tanks[vessel].id;
    }
    return arena_text(c->arena, "sump of %s",
                      c->farm->loops[vessel - c->farm->tanks_count].id);
}

static void check_ends(const Checker *c, const Link *link)
{
    if (!check_is_one(link->from_tank, link->from_loop, REF_BLANK)) {
        check_tell(c, TABLE_links, link, "from_tank",
                   "a tank or a loop that link %s leaves, one of them",
                   link->id);
    }
    bool is_waste = link->kind == LINK_DRAIN && link->to_tank == REF_BLANK &&
                    link->to_loop == REF_BLANK;
    if (!is_waste && !check_is_one(link->to_tank, link->to_loop, REF_BLANK)) {
        check_tell(c, TABLE_links, link, "to_tank",
                   "a tank or a loop that link %s enters, one of them",
                   link->id);
    }
}

/* A circle: circles of one month, found by taking away, again and again, the
 * vessels that nothing enters or nothing leaves. What stays is in a circle or
 * on a way from one circle to another. */
typedef struct Circle {
    int32_t vessel_count;
    int32_t *enters; /* by vessel: links left that enter it */
    int32_t *leaves;
    int32_t *first_out; /* by vessel: first link, then next_out by link */
    int32_t *next_out;
    int32_t *first_in;
    int32_t *next_in;
    int32_t *queue;
    bool *is_gone; /* by link */
} Circle;

/* Valves are opened by a hand and pumps have a switch; these run alone. */
static bool runs_alone(const Checker *c, const Link *link, int month)
{
    return link->kind != LINK_VALVE && (link->months >> month & 1u) &&
           vessel_from(c, link) != NOWHERE && vessel_to(c, link) != NOWHERE;
}

static void begin_circle(const Checker *c, Circle *circle, int month)
{
    for (int32_t v = 0; v < circle->vessel_count; v++) {
        circle->enters[v] = 0;
        circle->leaves[v] = 0;
        circle->first_out[v] = NOWHERE;
        circle->first_in[v] = NOWHERE;
    }
    for (int32_t i = 0; i < c->farm->links_count; i++) {
        const Link *link = &c->farm->links[i];
        circle->is_gone[i] = !runs_alone(c, link, month);
        if (circle->is_gone[i]) {
            continue;
        }
        int32_t from = vessel_from(c, link);
        int32_t to = vessel_to(c, link);
        circle->leaves[from]++;
        circle->enters[to]++;
        circle->next_out[i] = circle->first_out[from];
        circle->first_out[from] = i;
        circle->next_in[i] = circle->first_in[to];
        circle->first_in[to] = i;
    }
}

/* Takes a link away; a vessel that thereby lost its last way in or out is
 * queued, once. */
static void take_link(const Checker *c, Circle *circle, int32_t i,
                      int32_t *queued)
{
    if (circle->is_gone[i]) {
        return;
    }
    circle->is_gone[i] = true;
    int32_t from = vessel_from(c, &c->farm->links[i]);
    int32_t to = vessel_to(c, &c->farm->links[i]);
    circle->leaves[from]--;
    circle->enters[to]--;
    if (circle->leaves[from] == 0 && circle->enters[from] > 0) {
        circle->queue[(*queued)++] = from;
    }
    if (circle->enters[to] == 0 && circle->leaves[to] > 0) {
        circle->queue[(*queued)++] = to;
    }
}

static void trim_circle(const Checker *c, Circle *circle)
{
    int32_t queued = 0;
    for (int32_t v = 0; v < circle->vessel_count; v++) {
        if ((circle->enters[v] == 0) != (circle->leaves[v] == 0)) {
            circle->queue[queued++] = v;
        }
    }
    for (int32_t done = 0; done < queued; done++) {
        int32_t v = circle->queue[done];
        for (int32_t i = circle->first_out[v]; i != NOWHERE;
             i = circle->next_out[i]) {
            take_link(c, circle, i, &queued);
        }
        for (int32_t i = circle->first_in[v]; i != NOWHERE;
             i = circle->next_in[i]) {
            take_link(c, circle, i, &queued);
        }
    }
}

static void tell_circle(const Checker *c, const Circle *circle, int32_t first)
{
    const Link *link = &c->farm->links[first];
    const char *way = vessel_name(c, vessel_from(c, link));
    int32_t v = vessel_to(c, link);
    for (int shown = 1; shown < SHOWN_VESSELS; shown++) {
        way = arena_text(c->arena, "%s, %s", way, vessel_name(c, v));
        int32_t next = circle->first_out[v];
        while (next != NOWHERE && circle->is_gone[next]) {
            next = circle->next_out[next];
        }
        if (next == NOWHERE || v == vessel_from(c, link)) {
            break;
        }
        v = vessel_to(c, &c->farm->links[next]);
    }
    check_tell(c, TABLE_links, link, "id",
               "water that ends somewhere; link %s is part of a circle: %s",
               link->id, way);
}

static void check_circles(const Checker *c)
{
    int32_t vessels = c->farm->tanks_count + c->farm->loops_count;
    int32_t links = c->farm->links_count;
    Circle circle = {
        .vessel_count = vessels,
        .enters = ARENA_ARRAY(c->arena, int32_t, vessels),
        .leaves = ARENA_ARRAY(c->arena, int32_t, vessels),
        .first_out = ARENA_ARRAY(c->arena, int32_t, vessels),
        .first_in = ARENA_ARRAY(c->arena, int32_t, vessels),
        .next_out = ARENA_ARRAY(c->arena, int32_t, links),
        .next_in = ARENA_ARRAY(c->arena, int32_t, links),
        /* A vessel is queued at most for its last way in and its last out. */
        .queue = ARENA_ARRAY(c->arena, int32_t, 2 * (size_t)vessels),
        .is_gone = ARENA_ARRAY(c->arena, bool, links),
    };
    for (int month = 0; month < MONTHS; month++) {
        begin_circle(c, &circle, month);
        trim_circle(c, &circle);
        for (int32_t i = 0; i < links; i++) {
            if (!circle.is_gone[i]) {
                tell_circle(c, &circle, i);
                return;
            }
        }
    }
}

void check_links(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->links_count; i++) {
        check_ends(c, &c->farm->links[i]);
    }
    check_circles(c);
}
