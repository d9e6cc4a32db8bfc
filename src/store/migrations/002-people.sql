-- Who may log in, their sessions, and the photos and voice notes of entries.
CREATE TABLE person (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE,
    hand TEXT NOT NULL DEFAULT '',
    role TEXT NOT NULL CHECK (role IN ('owner', 'grower', 'hand', 'reader')),
    language TEXT NOT NULL DEFAULT '',
    mass_unit TEXT NOT NULL DEFAULT '',
    temp_unit TEXT NOT NULL DEFAULT '',
    hash TEXT NOT NULL DEFAULT '',
    is_gone INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE TABLE session (
    token_hash TEXT PRIMARY KEY,
    person INTEGER NOT NULL REFERENCES person (id) ON DELETE CASCADE,
    device TEXT NOT NULL DEFAULT '',
    made_at INTEGER NOT NULL, -- UTC seconds, as the next two
    seen_at INTEGER NOT NULL,
    ends_at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX session_by_person ON session (person);
CREATE TABLE blob (
    sha256 TEXT PRIMARY KEY,
    type TEXT NOT NULL,
    bytes BLOB NOT NULL
) STRICT;
