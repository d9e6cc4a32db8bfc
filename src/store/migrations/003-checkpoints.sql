-- The folded state after all entries up to the end of a day. Made from entries
-- and tables, and dropped whenever one of them changes: nothing is lost with it.
CREATE TABLE checkpoint (
    day INTEGER PRIMARY KEY, -- days since 1970-01-01
    mark TEXT NOT NULL,      -- of the tables it was made from
    number INTEGER NOT NULL, -- the newest entry it knows
    bytes BLOB NOT NULL
) STRICT;
CREATE INDEX entry_by_who ON entry (who, happened_on, number)
    WHERE who IS NOT NULL;
CREATE INDEX entry_by_job ON entry (job) WHERE job IS NOT NULL;
