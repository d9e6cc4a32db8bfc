-- What was told, in the order in which it was told. Rows are only added.
CREATE TABLE entry (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    uid TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    happened_on INTEGER NOT NULL, -- days since 1970-01-01
    happened_at INTEGER,          -- minute of that day
    told_at INTEGER,              -- UTC seconds
    told_on INTEGER,
    who TEXT,
    device TEXT,
    job TEXT,
    stop TEXT,
    place TEXT,
    section INTEGER,
    sections INTEGER,
    edge INTEGER,
    batch TEXT,
    to_place TEXT,
    way TEXT,
    product TEXT,
    lot TEXT,
    species TEXT,
    sex TEXT,
    count INTEGER,
    mean_g REAL,
    cv_frac REAL,
    grams REAL,
    quantity REAL,
    unit TEXT,
    quantity_key TEXT,
    value REAL,
    cause TEXT,
    supplier TEXT,
    buyer TEXT,
    minutes REAL,
    text TEXT,
    blob TEXT,
    strikes INTEGER REFERENCES entry (number)
) STRICT;
CREATE INDEX entry_by_day ON entry (happened_on, number);
CREATE INDEX entry_by_place ON entry (place, happened_on, number)
    WHERE place IS NOT NULL;
CREATE INDEX entry_by_to_place ON entry (to_place, happened_on, number)
    WHERE to_place IS NOT NULL;
CREATE INDEX entry_by_kind ON entry (kind, happened_on, number);
CREATE INDEX entry_by_batch ON entry (batch, happened_on, number)
    WHERE batch IS NOT NULL;
CREATE INDEX entry_by_strikes ON entry (strikes)
    WHERE strikes IS NOT NULL;

-- A small setting by its name.
CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
