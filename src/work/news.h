/* What is big or odd in a week: what will be short, nets, first and last picks,
 * what must not be done as planned, days with too much work. */
#ifndef LEAT_WORK_NEWS_H
#define LEAT_WORK_NEWS_H

#include "base/tongue.h"
#include "farm/book.h"
#include "work/loads.h"

/* The list is laid out by hand. Kind; the word at the head of its line. */
/* clang-format off */
#define NEWS_KINDS(X)                                                          \
    X(NEWS_ODD,   SAY("Mind"))                                                      \
    X(NEWS_SHORT, SAY("Short"))                                                     \
    X(NEWS_FISH,  SAY("Fish"))                                                      \
    X(NEWS_FIRST, SAY("First"))                                                     \
    X(NEWS_LAST,  SAY("Last"))                                                      \
    X(NEWS_HOURS, SAY("Too full"))
/* clang-format on */

typedef enum NewsKind {
#define NEWS_ENUM(kind, word) kind,
    NEWS_KINDS(NEWS_ENUM)
#undef NEWS_ENUM
        NEWS_KIND_COUNT
} NewsKind;

typedef struct News {
    NewsKind kind;
    int32_t day;      /* DATE_NEVER: of the whole week */
    const char *text; /* "spinach 10 of 14 bags (box 10)" */
} News;

typedef struct JobNews {
    const News *news; /* by kind, then as found */
    int32_t count;
} JobNews;

const char *news_kind_word(NewsKind kind);

JobNews news_of_week(const Farm *farm, const Book *book, const JobsWeek *week,
                     const JobLoads *loads, Arena *arena);

/* A kind's news in one line, "" for none: at most so many, then how many more
 * there are. */
const char *news_line(const JobNews *news, NewsKind kind, int most,
                      Arena *arena);

#endif
