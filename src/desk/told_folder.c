/* What was told of a farm's days, from its folder. */
#include "desk/told_folder.h"

Err told_of_folder(const ToldAsk *ask, Arena *arena, Tolds *out)
{
    *out = (Tolds){0};
    if (!store_is_there(ask->dir)) {
        return ERR_NONE;
    }
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(ask->dir, STORE_READ, &store));
    StoreFilter filter = store_all();
    filter.from = ask->from;
    filter.until = ask->until;
    filter.kinds = ask->kinds;
    filter.is_fold_order = true;
    filter.without_struck = true;
    return store_read(&store, &filter, arena, out);
}
