-- A ledger of version 2, as the program of that version made it.  Never edited.
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

-- What a cellar of version 2 might hold.
UPDATE cellar SET name = 'old cellar', currency = 'EUR', altitude = 520.0;
INSERT INTO good VALUES (1, 'dry extract', 'extract', 'mass', 1500000, '{"potential":1.044}', NULL);
INSERT INTO good VALUES (2, 'lids', 'lids', 'pieces', NULL, '{}', 'wide mouth');
INSERT INTO brew VALUES (1, '2025-11-01', 'stout', 'planned', 20.0, 1.06, 'house', NULL);
INSERT INTO entry VALUES (1, 1761465600000, '2025-10-26', 'anna', 'bought', NULL, 'first', NULL, NULL);
INSERT INTO entry VALUES (2, 1761465700000, '2025-10-26', 'anna', 'bought', 'a box', NULL, NULL, NULL);
INSERT INTO entry VALUES (3, 1761552000000, '2025-10-27', 'bert', 'used', NULL, NULL, 1, NULL);
INSERT INTO lot VALUES (1, 1, 'corner shop', '2025-10-26', NULL, NULL, '2026-10-26', '{}', NULL, 1);
INSERT INTO lot VALUES (2, 2, NULL, '2025-10-26', '2025-09-01', NULL, NULL, '{}', NULL, 2);
INSERT INTO line VALUES (1, 1, 1, 1500000, 15000000);
INSERT INTO line VALUES (2, 1, 2, 12, 4000000);
INSERT INTO line VALUES (3, 1, 1, -466667, -4666667);
INSERT INTO set_aside VALUES (1, 2, 5);
INSERT INTO event (sequence, at, topic, about) VALUES (1, 1761465600000, 'entry.posted', '{"entry":1}');
INSERT INTO request_key VALUES ('first', 'd', 1761465600000, '{"entry":1}');
-- Seven jars were filled and one of them failed to seal: the journal had no place for that.
INSERT INTO good VALUES (3, 'wort', 'concentrate', 'pieces', NULL, '{"fill":0.415}', NULL);
INSERT INTO entry VALUES (4, 1761555600000, '2025-10-27', 'canning for anna', 'converted', NULL, 'can', NULL, NULL);
INSERT INTO lot VALUES (3, 3, NULL, NULL, NULL, '2025-10-27', '2026-10-27', '{"gravity":1.09}', NULL, 4);
INSERT INTO line VALUES (4, 1, 1, -500000, -5000000);
INSERT INTO line VALUES (4, 2, 2, -7, -2333333);
INSERT INTO line VALUES (4, 3, 3, 6, 7333333);
INSERT INTO balance VALUES (1, 533333, 5333333);
INSERT INTO balance VALUES (2, 5, 1666667);
INSERT INTO balance VALUES (3, 6, 7333333);
INSERT INTO lot_change VALUES (1, 3, 1761559200000, 'anna', 'changed', 'measured again');
PRAGMA application_id = 1113682541;
PRAGMA user_version = 2;
