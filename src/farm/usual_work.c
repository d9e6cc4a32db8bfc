/* Work that comes every week on any farm. */
#include "farm/usual_work.h"

#include "base/tongue.h"

enum { EVERY_DAY = 7 };

static bool has_task_of(const Farm *farm, int skill)
{
    for (int32_t i = 0; i < farm->tasks_count; i++) {
        if (farm->tasks[i].skill == skill) {
            return true;
        }
    }
    return false;
}

static double minutes_of(const Book *book, const char *id)
{
    const BookTask *task = book_task(book, id);
    return task ? task->minutes.value : 0.0;
}

int usual_work(const Farm *farm, const Book *book,
               UsualWork out[USUAL_WORK_MOST])
{
    const UsualWork usual[USUAL_WORK_MOST] = {
        {"round", SAY("Walk the round and feed"), SKILL_FEED,
         minutes_of(book, "round"), EVERY_DAY},
        {"vents", SAY("Vents and doors"), SKILL_VENT, minutes_of(book, "vents"),
         EVERY_DAY},
        {"water-test", SAY("Test the water"), SKILL_TEST,
         minutes_of(book, "water-test"), 1},
    };
    int count = 0;
    for (int i = 0; i < USUAL_WORK_MOST; i++) {
        bool is_needed = usual[i].skill == SKILL_VENT ? farm->tunnels_count > 0
                                                      : farm->tanks_count > 0;
        if (is_needed && !has_task_of(farm, usual[i].skill)) {
            out[count++] = usual[i];
        }
    }
    return count;
}
