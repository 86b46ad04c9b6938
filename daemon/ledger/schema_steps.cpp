#include "daemon/ledger/schema.hpp"

namespace barmkeep::ledger {
namespace {

constexpr std::string_view version_1 = R"sql(
-- The cellar's own facts; one row.  day_noted is the last local day whose beginning was sent.
-- scale_step is in milligrams.
CREATE TABLE cellar (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    name TEXT NOT NULL,
    altitude REAL,
    currency TEXT NOT NULL,
    units TEXT NOT NULL,
    time_zone TEXT NOT NULL,
    scale_step INTEGER NOT NULL CHECK (scale_step > 0),
    day_noted TEXT
) STRICT;
INSERT INTO cellar VALUES (1, 'cellar', NULL, 'XXX', 'metric', 'UTC', 1000, NULL);

CREATE TABLE good (
    number INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    class TEXT NOT NULL,
    measure TEXT NOT NULL CHECK (measure IN ('mass', 'volume', 'pieces')),
    package INTEGER CHECK (package > 0),
    facts TEXT NOT NULL,
    note TEXT
) STRICT;

-- Lots, brew days and records may change.  `checksum` covers the other columns of the row.
CREATE TABLE brew (
    number INTEGER PRIMARY KEY,
    day TEXT NOT NULL,
    name TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('planned', 'done', 'cancelled')),
    volume REAL,
    gravity REAL,
    strain TEXT,
    note TEXT,
    checksum TEXT
) STRICT;
CREATE INDEX brew_day ON brew (day, number);

-- The journal.  Triggers hold that nothing in it is changed or taken out.
CREATE TABLE entry (
    sequence INTEGER PRIMARY KEY,
    at INTEGER NOT NULL,
    day TEXT NOT NULL,
    who TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN
        ('bought', 'used', 'discarded', 'converted', 'recounted', 'split', 'undone')),
    note TEXT,
    request_key TEXT,
    brew INTEGER REFERENCES brew (number),
    undoes INTEGER UNIQUE REFERENCES entry (sequence)
) STRICT;
CREATE INDEX entry_brew ON entry (brew) WHERE brew IS NOT NULL;
CREATE INDEX entry_who ON entry (who, sequence);

-- The chain over the journal: each digest covers an entry, its lines and the digest before it.
-- `encoding` says how the entry was written down for it.
CREATE TABLE entry_digest (
    entry INTEGER PRIMARY KEY REFERENCES entry (sequence),
    encoding INTEGER NOT NULL,
    digest TEXT NOT NULL
) STRICT;

CREATE TABLE lot (
    number INTEGER PRIMARY KEY,
    good INTEGER NOT NULL REFERENCES good (number),
    supplier TEXT,
    bought TEXT,
    packed TEXT,
    canned TEXT,
    best_by TEXT,
    kept TEXT NOT NULL,
    facts TEXT NOT NULL,
    origin INTEGER NOT NULL REFERENCES entry (sequence),
    checksum TEXT
) STRICT;
CREATE INDEX lot_good ON lot (good);
CREATE INDEX lot_origin ON lot (origin);

-- Why a lot may not be used.  The kind is a word: one that this program does not know is never
-- released.  A hold stays when it has ended, because its reason is shown at every later use.
CREATE TABLE hold (
    number INTEGER PRIMARY KEY,
    lot INTEGER NOT NULL REFERENCES lot (number),
    kind TEXT NOT NULL,
    note TEXT NOT NULL,
    at INTEGER NOT NULL,
    who TEXT NOT NULL,
    ended_at INTEGER,
    ended_by TEXT,
    end_reason TEXT,
    CHECK ((ended_at IS NULL) = (end_reason IS NULL))
) STRICT;
CREATE INDEX hold_lot ON hold (lot);
CREATE TRIGGER hold_remains BEFORE DELETE ON hold
    BEGIN SELECT raise(ABORT, 'holds are never removed'); END;
CREATE TRIGGER hold_ends_once BEFORE UPDATE ON hold
    WHEN old.ended_at IS NOT NULL OR new.lot <> old.lot OR new.kind <> old.kind
    BEGIN SELECT raise(ABORT, 'a hold is ended once and never changed'); END;

-- What something is about.  `source` is entry, lot, hold, reminder or record; its number is the row's.
CREATE TABLE link (
    source TEXT NOT NULL,
    source_number INTEGER NOT NULL,
    target TEXT NOT NULL,
    target_number INTEGER NOT NULL,
    PRIMARY KEY (source, source_number, target, target_number)
) STRICT, WITHOUT ROWID;
CREATE INDEX link_target ON link (target, target_number, source, source_number);

-- Steps of the good's measure (milligrams, microlitres, pieces) and millionths of the currency.
CREATE TABLE line (
    entry INTEGER NOT NULL REFERENCES entry (sequence),
    position INTEGER NOT NULL,
    lot INTEGER NOT NULL REFERENCES lot (number),
    quantity INTEGER NOT NULL,
    value INTEGER NOT NULL,
    PRIMARY KEY (entry, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX line_lot ON line (lot, entry);

-- Pieces made and lost on the way, and the part of the value that they would have carried.
CREATE TABLE loss (
    entry INTEGER PRIMARY KEY REFERENCES entry (sequence),
    pieces INTEGER NOT NULL CHECK (pieces > 0),
    value INTEGER NOT NULL CHECK (value >= 0)
) STRICT;

CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
    BEGIN SELECT raise(ABORT, 'journal entries are never changed'); END;
CREATE TRIGGER entry_remains BEFORE DELETE ON entry
    BEGIN SELECT raise(ABORT, 'journal entries are never removed'); END;
CREATE TRIGGER line_stays BEFORE UPDATE ON line
    BEGIN SELECT raise(ABORT, 'journal lines are never changed'); END;
CREATE TRIGGER line_remains BEFORE DELETE ON line
    BEGIN SELECT raise(ABORT, 'journal lines are never removed'); END;
CREATE TRIGGER digest_stays BEFORE UPDATE ON entry_digest
    BEGIN SELECT raise(ABORT, 'digests are never changed'); END;
CREATE TRIGGER digest_remains BEFORE DELETE ON entry_digest
    BEGIN SELECT raise(ABORT, 'digests are never removed'); END;
CREATE TRIGGER loss_stays BEFORE UPDATE ON loss
    BEGIN SELECT raise(ABORT, 'losses are never changed'); END;
CREATE TRIGGER loss_remains BEFORE DELETE ON loss
    BEGIN SELECT raise(ABORT, 'losses are never removed'); END;

-- What the lines of a lot come to; kept in the same transaction as they are.
CREATE TABLE balance (
    lot INTEGER PRIMARY KEY REFERENCES lot (number),
    quantity INTEGER NOT NULL CHECK (quantity >= 0),
    value INTEGER NOT NULL CHECK (value >= 0),
    CHECK (quantity > 0 OR value = 0)
) STRICT;

-- What was changed of a lot, and why: the members that changed, before and after.
CREATE TABLE lot_change (
    number INTEGER PRIMARY KEY,
    lot INTEGER NOT NULL REFERENCES lot (number),
    at INTEGER NOT NULL,
    who TEXT NOT NULL,
    change TEXT NOT NULL CHECK (change IN ('changed', 'held', 'released')),
    reason TEXT NOT NULL,
    was TEXT NOT NULL,
    became TEXT NOT NULL
) STRICT;
CREATE INDEX lot_change_lot ON lot_change (lot, number);
CREATE TRIGGER lot_change_stays BEFORE UPDATE ON lot_change
    BEGIN SELECT raise(ABORT, 'changes of lots are never changed'); END;
CREATE TRIGGER lot_change_remains BEFORE DELETE ON lot_change
    BEGIN SELECT raise(ABORT, 'changes of lots are never removed'); END;

-- What a brew day takes, whether the shelf has it or not, and what the shelf has promised it.
CREATE TABLE need (
    brew INTEGER NOT NULL REFERENCES brew (number),
    good INTEGER NOT NULL REFERENCES good (number),
    quantity INTEGER NOT NULL CHECK (quantity > 0),
    day TEXT NOT NULL,
    PRIMARY KEY (brew, good)
) STRICT, WITHOUT ROWID;
CREATE INDEX need_good ON need (good, day, brew);
CREATE TABLE reservation (
    brew INTEGER NOT NULL REFERENCES brew (number),
    lot INTEGER NOT NULL REFERENCES lot (number),
    quantity INTEGER NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (brew, lot)
) STRICT, WITHOUT ROWID;
CREATE INDEX reservation_lot ON reservation (lot);

CREATE TABLE reminder (
    number INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    title TEXT NOT NULL,
    note TEXT,
    due TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('open', 'snoozed', 'done')),
    until TEXT,
    cause TEXT,
    every_days INTEGER CHECK (every_days > 0),
    owner TEXT NOT NULL
) STRICT;
CREATE INDEX reminder_due ON reminder (due, name);

-- Documents of plugins.  Numbers count up within a collection and are never used twice.
CREATE TABLE record (
    row INTEGER PRIMARY KEY,
    owner TEXT NOT NULL,
    collection TEXT NOT NULL,
    number INTEGER NOT NULL,
    name TEXT,
    state TEXT,
    version INTEGER NOT NULL,
    changed INTEGER NOT NULL,
    document TEXT NOT NULL,
    checksum TEXT,
    UNIQUE (owner, collection, number),
    UNIQUE (owner, collection, name)
) STRICT;
CREATE INDEX record_state ON record (owner, collection, state, number);
CREATE TABLE record_counter (
    owner TEXT NOT NULL,
    collection TEXT NOT NULL,
    last INTEGER NOT NULL,
    PRIMARY KEY (owner, collection)
) STRICT, WITHOUT ROWID;
CREATE TABLE record_line (
    record INTEGER NOT NULL,
    position INTEGER NOT NULL,
    line TEXT NOT NULL,
    PRIMARY KEY (record, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE price (
    item TEXT NOT NULL COLLATE NOCASE,
    place TEXT NOT NULL COLLATE NOCASE, -- empty where none was said
    price INTEGER NOT NULL CHECK (price >= 0),
    day TEXT NOT NULL,
    volume REAL,
    gravity REAL,
    mass REAL,
    pieces INTEGER,
    PRIMARY KEY (item, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE equipment (
    kind TEXT NOT NULL CHECK (kind IN ('canner', 'jar', 'flask')),
    name TEXT NOT NULL COLLATE NOCASE,
    document TEXT NOT NULL,
    PRIMARY KEY (kind, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE event (
    sequence INTEGER PRIMARY KEY AUTOINCREMENT,
    at INTEGER NOT NULL,
    topic TEXT NOT NULL,
    about TEXT NOT NULL
) STRICT;

CREATE TABLE request_key (
    key TEXT PRIMARY KEY,
    digest TEXT NOT NULL,
    at INTEGER NOT NULL,
    answer TEXT NOT NULL
) STRICT;
CREATE INDEX request_key_at ON request_key (at);
)sql";

} // namespace

const SchemaSteps& schema_steps() {
    static const SchemaSteps steps{{"the first tables", version_1}};
    return steps;
}

} // namespace barmkeep::ledger
