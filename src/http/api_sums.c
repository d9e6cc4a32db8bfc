/* GET /api/sums and /api/sum: the hand sums, and one of them. */
#include <string.h>

#include "http/routes.h"
#include "json/json_sum.h"
#include "json/sums_list.h"
#include "sums/table.h"

Err api_sums_decode(const Request *request, Arena *arena, void *question)
{
    (void)request;
    (void)arena;
    (void)question;
    return ERR_NONE;
}

Err api_sums_answer(const void *question, Arena *arena, Reply *out)
{
    (void)question;
    *out = reply_json(json_sums_list(arena));
    return ERR_NONE;
}

typedef struct SumQuestion {
    const Sum *sum;
    SumFact facts[QUERY_PAIRS_MOST];
    size_t count;
} SumQuestion;
ROUTE_QUESTION(SumQuestion);

Err api_sum_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    SumQuestion *asked = question;
    TRY(sum_find(request_text(request, "name"), &asked->sum));
    for (int i = 0; i < request->query_count; i++) {
        const QueryPair *pair = &request->query[i];
        if (strcmp(pair->key, "name") != 0) {
            asked->facts[asked->count++] = (SumFact){pair->key, pair->value};
        }
    }
    return ERR_NONE;
}

Err api_sum_answer(const void *question, Arena *arena, Reply *out)
{
    const SumQuestion *asked = question;
    SumAnswer answer;
    TRY(sum_answer(asked->sum, asked->facts, asked->count, arena, &answer));
    *out = reply_json(json_sum(&answer));
    return ERR_NONE;
}
