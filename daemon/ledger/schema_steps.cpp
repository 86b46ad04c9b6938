#include "daemon/ledger/schema.hpp"

namespace barmkeep::ledger {
namespace {

constexpr std::string_view version_1 = R"sql(
-- The cellar's own facts; one row.  day_noted is the last local day whose beginning was told.
CREATE TABLE cellar (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    name TEXT NOT NULL,
    altitude REAL,
    currency TEXT NOT NULL,
    units TEXT NOT NULL,
    time_zone TEXT NOT NULL,
    day_noted TEXT
) STRICT;
INSERT INTO cellar VALUES (1, 'cellar', NULL, 'XXX', 'metric', 'UTC', NULL);

CREATE TABLE good (
    number INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE,
    class TEXT NOT NULL,
    measure TEXT NOT NULL CHECK (measure IN ('mass', 'volume', 'pieces')),
    package INTEGER CHECK (package > 0),
    facts TEXT NOT NULL,
    note TEXT
) STRICT;

CREATE TABLE brew (
    number INTEGER PRIMARY KEY,
    day TEXT NOT NULL,
    name TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('planned', 'done', 'cancelled')),
    volume REAL,
    gravity REAL,
    strain TEXT,
    note TEXT
) STRICT;

-- The journal.  Triggers hold that nothing in it is changed or taken out.
CREATE TABLE entry (
    sequence INTEGER PRIMARY KEY,
    at INTEGER NOT NULL,
    day TEXT NOT NULL,
    who TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN
        ('bought', 'used', 'discarded', 'converted', 'recounted', 'corrected')),
    memo TEXT,
    request_key TEXT,
    brew INTEGER REFERENCES brew (number),
    corrects INTEGER UNIQUE REFERENCES entry (sequence)
) STRICT;

CREATE TABLE lot (
    number INTEGER PRIMARY KEY,
    good INTEGER NOT NULL REFERENCES good (number),
    supplier TEXT,
    bought TEXT,
    packed TEXT,
    canned TEXT,
    best_by TEXT,
    facts TEXT NOT NULL,
    hold TEXT,
    origin INTEGER NOT NULL REFERENCES entry (sequence)
) STRICT;
CREATE INDEX lot_good ON lot (good);

-- Steps of the good's measure (milligrams, microlitres, pieces) and millionths of the currency.
CREATE TABLE line (
    entry INTEGER NOT NULL REFERENCES entry (sequence),
    position INTEGER NOT NULL,
    lot INTEGER NOT NULL REFERENCES lot (number),
    quantity INTEGER NOT NULL,
    value INTEGER NOT NULL,
    PRIMARY KEY (entry, position)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
    BEGIN SELECT raise(ABORT, 'journal entries are never changed'); END;
CREATE TRIGGER entry_remains BEFORE DELETE ON entry
    BEGIN SELECT raise(ABORT, 'journal entries are never removed'); END;
CREATE TRIGGER line_stays BEFORE UPDATE ON line
    BEGIN SELECT raise(ABORT, 'journal lines are never changed'); END;
CREATE TRIGGER line_remains BEFORE DELETE ON line
    BEGIN SELECT raise(ABORT, 'journal lines are never removed'); END;

-- What the lines of a lot come to; kept in the same transaction as they are.
CREATE TABLE balance (
    lot INTEGER PRIMARY KEY REFERENCES lot (number),
    quantity INTEGER NOT NULL CHECK (quantity >= 0),
    value INTEGER NOT NULL CHECK (value >= 0),
    CHECK (quantity > 0 OR value = 0)
) STRICT;

CREATE TABLE set_aside (
    brew INTEGER NOT NULL REFERENCES brew (number),
    lot INTEGER NOT NULL REFERENCES lot (number),
    quantity INTEGER NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (brew, lot)
) STRICT, WITHOUT ROWID;
CREATE INDEX set_aside_lot ON set_aside (lot);

CREATE TABLE reminder (
    name TEXT PRIMARY KEY,
    title TEXT NOT NULL,
    detail TEXT,
    due TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('open', 'snoozed', 'done')),
    until TEXT,
    owner TEXT NOT NULL
) STRICT;

CREATE TABLE record (
    number INTEGER PRIMARY KEY,
    owner TEXT NOT NULL,
    collection TEXT NOT NULL,
    name TEXT NOT NULL,
    version INTEGER NOT NULL,
    changed INTEGER NOT NULL,
    document TEXT NOT NULL,
    UNIQUE (owner, collection, name)
) STRICT;

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
)sql";

// Why a lot was changed is kept with the change, and the journal of one lot or brew day, and keys
// too old to keep, are found without reading everything.
constexpr std::string_view version_2 = R"sql(
CREATE TABLE lot_change (
    number INTEGER PRIMARY KEY,
    lot INTEGER NOT NULL REFERENCES lot (number),
    at INTEGER NOT NULL,
    who TEXT NOT NULL,
    change TEXT NOT NULL CHECK (change IN ('changed', 'held', 'released')),
    reason TEXT NOT NULL
) STRICT;
CREATE INDEX lot_change_lot ON lot_change (lot);
CREATE INDEX line_lot ON line (lot);
CREATE INDEX entry_brew ON entry (brew) WHERE brew IS NOT NULL;
CREATE INDEX request_key_at ON request_key (at);
)sql";

// What a conversion lost is told by the journal, and what a change of a lot changed by the change.
constexpr std::string_view version_3 = R"sql(
-- Pieces made and lost on the way, and the part of the value that they would have carried.
CREATE TABLE loss (
    entry INTEGER PRIMARY KEY REFERENCES entry (sequence),
    pieces INTEGER NOT NULL CHECK (pieces > 0),
    value INTEGER NOT NULL CHECK (value >= 0)
) STRICT;
CREATE TRIGGER loss_stays BEFORE UPDATE ON loss
    BEGIN SELECT raise(ABORT, 'losses are never changed'); END;
CREATE TRIGGER loss_remains BEFORE DELETE ON loss
    BEGIN SELECT raise(ABORT, 'losses are never removed'); END;

-- The members that changed, as an object: what they were, and what they became; null in changes
-- made before version 3.
ALTER TABLE lot_change ADD COLUMN was TEXT;
ALTER TABLE lot_change ADD COLUMN became TEXT;
CREATE TRIGGER lot_change_stays BEFORE UPDATE ON lot_change
    BEGIN SELECT raise(ABORT, 'changes of lots are never changed'); END;
CREATE TRIGGER lot_change_remains BEFORE DELETE ON lot_change
    BEGIN SELECT raise(ABORT, 'changes of lots are never removed'); END;
)sql";

} // namespace

const std::vector<SchemaStep>& schema_steps() {
    static const std::vector<SchemaStep> steps{
        {"the first tables", version_1},
        {"reasons of lot changes; indices of the journal and of request keys", version_2},
        {"losses of conversions; what lot changes changed", version_3}};
    return steps;
}

} // namespace barmkeep::ledger
