"""The named migrations of the journal file, applied in order when it is opened. With `store`, `lookups` and `changes`, the only SQL.

Memos and recordings are never changed; transcripts, facts, assumptions and aliases are append-only: a row is current until
another row `replaces` it. Times in `*_utc` columns are UTC, so that they sort; `said_at` keeps the local time with its offset.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from journal.sqlite import Migrations

if TYPE_CHECKING:
    from sqlite_utils import Database

migrations = Migrations("journal")


@migrations
def m001_memos_and_facts(db: Database) -> None:
    """Recordings, memos, transcripts, facts, what could not be used, and what was put right."""
    db.executescript(_TABLES)
    db.executescript(_SEARCH)
    db.executescript(_VIEWS)


@migrations
def m002_assumptions_are_corrections(db: Database) -> None:
    """What quantities take for granted is set under a change, so that undo reaches it; what was set before has none."""
    db.execute("ALTER TABLE assumptions ADD COLUMN change TEXT REFERENCES changes(uuid)")
    db.execute("CREATE INDEX assumptions_by_change ON assumptions(change)")


_TABLES = """
CREATE TABLE recordings (
    hash      TEXT PRIMARY KEY,            -- SHA-256 of the file's bytes
    file      TEXT NOT NULL,               -- below the job folder
    name      TEXT NOT NULL,               -- what the file was called when it was taken
    seconds   REAL,
    note      TEXT NOT NULL DEFAULT '',    -- what was wrong with the sound, if anything
    taken_utc TEXT NOT NULL
) STRICT;

CREATE TABLE changes (
    uuid     TEXT PRIMARY KEY,
    act      TEXT NOT NULL CHECK (act IN ('take', 'fix', 'add', 'words', 'strike', 'confirm', 'undo', 'redo')),
    made_utc TEXT NOT NULL,
    undoes   TEXT REFERENCES changes(uuid)
) STRICT;

CREATE TABLE memos (
    uuid           TEXT PRIMARY KEY,
    number         INTEGER NOT NULL UNIQUE,    -- what people call it: "memo 12"
    said_at        TEXT NOT NULL,
    said_utc       TEXT NOT NULL,
    said_day       TEXT NOT NULL,              -- the local day
    source         TEXT NOT NULL CHECK (source IN ('microphone', 'recording', 'typed')),
    recording      TEXT REFERENCES recordings(hash),
    engine         TEXT NOT NULL DEFAULT '',
    engine_version TEXT NOT NULL DEFAULT '',
    carried_place  TEXT
) STRICT;
CREATE INDEX memos_by_time ON memos(said_utc);
CREATE INDEX memos_by_day ON memos(said_day);
CREATE INDEX memos_by_recording ON memos(recording);

CREATE TABLE transcripts (
    uuid      TEXT PRIMARY KEY,
    memo      TEXT NOT NULL REFERENCES memos(uuid),
    change    TEXT NOT NULL REFERENCES changes(uuid),
    text      TEXT NOT NULL,
    words     TEXT NOT NULL DEFAULT '[]',      -- JSON: [word, start, end, confidence]
    readings  TEXT NOT NULL DEFAULT '[]',      -- JSON: next-best texts
    heard_doubts TEXT NOT NULL DEFAULT '[]',   -- JSON: doubts of the recogniser
    doubts    TEXT NOT NULL DEFAULT '[]',      -- JSON: doubts of the reader that belong to no one fact
    place     TEXT,                            -- where the memo leaves off
    replaces  TEXT REFERENCES transcripts(uuid),
    known_utc TEXT NOT NULL                    -- when it was said, or put right
) STRICT;
CREATE INDEX transcripts_by_memo ON transcripts(memo);
CREATE INDEX transcripts_replaced ON transcripts(replaces);
CREATE INDEX transcripts_by_place ON transcripts(place);

CREATE TABLE facts (
    uuid          TEXT PRIMARY KEY,
    memo          TEXT NOT NULL REFERENCES memos(uuid),
    transcript    TEXT NOT NULL REFERENCES transcripts(uuid),
    change        TEXT NOT NULL REFERENCES changes(uuid),
    number        INTEGER NOT NULL,            -- counts the facts of a memo; kept through corrections
    kind          TEXT NOT NULL CHECK (kind IN ('measure', 'slope', 'task', 'stock', 'reading', 'hours', 'cost')),
    place         TEXT,
    about         TEXT,
    dimension     TEXT,
    ticks         INTEGER,                     -- 1/320 mm: an inch is 8128, a millimetre 320
    metric        TEXT,                        -- as said, where the metric tape was read
    approx        INTEGER NOT NULL DEFAULT 0,
    shade         TEXT CHECK (shade IN ('strong', 'shy')),
    over_ticks    INTEGER,
    rise          REAL,
    run           REAL,
    "do"          TEXT,
    status        TEXT CHECK (status IN ('open', 'done', 'waiting')),
    due           TEXT,
    "after"       TEXT,
    "before"      TEXT,
    event         TEXT,
    count         REAL,
    what          TEXT,
    section       TEXT,
    length_ticks  INTEGER,
    species       TEXT,
    board_feet    REAL,
    quantity      TEXT,
    value         REAL,
    unit          TEXT,
    hours         REAL,
    activity      TEXT,
    "on"          TEXT,
    amount        REAL,
    per           TEXT,
    evidence_start INTEGER NOT NULL,
    evidence_end  INTEGER NOT NULL,
    rule          TEXT NOT NULL,
    doubts        TEXT NOT NULL DEFAULT '[]',
    confirmed     INTEGER NOT NULL DEFAULT 0,
    struck        INTEGER NOT NULL DEFAULT 0,
    replaces      TEXT REFERENCES facts(uuid),
    known_utc     TEXT NOT NULL
) STRICT;
CREATE INDEX facts_by_memo ON facts(memo);
CREATE INDEX facts_by_place ON facts(place);
CREATE INDEX facts_by_kind ON facts(kind);
CREATE INDEX facts_by_change ON facts(change);
CREATE INDEX facts_replaced ON facts(replaces);
-- what a place draws on, wherever it was said: found without reading the rows
CREATE INDEX facts_of_lots ON facts(what, section, species, kind, uuid) WHERE kind IN ('stock', 'cost');
CREATE INDEX facts_hourly ON facts(per) WHERE kind = 'cost' AND per = 'hour';
CREATE INDEX facts_stock_anywhere ON facts(known_utc) WHERE kind = 'stock' AND place IS NULL;
CREATE INDEX facts_widths_anywhere ON facts(dimension) WHERE kind = 'measure' AND place IS NULL;

CREATE TABLE problems (
    uuid       TEXT PRIMARY KEY,
    transcript TEXT NOT NULL REFERENCES transcripts(uuid),
    message    TEXT NOT NULL,
    hint       TEXT NOT NULL,
    evidence_start INTEGER NOT NULL,
    evidence_end   INTEGER NOT NULL
) STRICT;
CREATE INDEX problems_by_transcript ON problems(transcript);

CREATE TABLE asides (
    uuid       TEXT PRIMARY KEY,
    transcript TEXT NOT NULL REFERENCES transcripts(uuid),
    topic      TEXT NOT NULL,
    text       TEXT NOT NULL,
    place      TEXT,
    value      REAL,
    evidence_start INTEGER NOT NULL,
    evidence_end   INTEGER NOT NULL,
    rule       TEXT NOT NULL
) STRICT;
CREATE INDEX asides_by_transcript ON asides(transcript);
CREATE INDEX asides_by_place ON asides(place);

CREATE TABLE assumptions (
    uuid      TEXT PRIMARY KEY,
    place     TEXT,                            -- NULL: for the whole job
    name      TEXT NOT NULL,
    value     TEXT,                            -- NULL: back to the default
    known_utc TEXT NOT NULL
) STRICT;

CREATE TABLE place_aliases (
    uuid      TEXT PRIMARY KEY,
    alias     TEXT NOT NULL,                   -- the name as it was heard
    place     TEXT NOT NULL,                   -- the name it stands for
    known_utc TEXT NOT NULL
) STRICT;
"""

_SEARCH = """
CREATE VIRTUAL TABLE memo_search USING fts5(text, memo UNINDEXED, tokenize = 'porter unicode61');
CREATE TRIGGER transcripts_searched AFTER INSERT ON transcripts BEGIN
    DELETE FROM memo_search WHERE rowid = (SELECT number FROM memos WHERE uuid = new.memo);
    INSERT INTO memo_search(rowid, text, memo)
        VALUES ((SELECT number FROM memos WHERE uuid = new.memo), new.text, new.memo);
END;
"""

_COMMON = "m.number AS memo, f.number AS fact, substr(m.said_at, 1, 16) AS said, f.place"
_CURRENT = """FROM facts f JOIN memos m ON m.uuid = f.memo
    WHERE f.struck = 0 AND NOT EXISTS (SELECT 1 FROM facts r WHERE r.replaces = f.uuid)"""
_KIND_COLUMNS = {
    "measures": (
        "measure",
        "f.about, f.dimension, round(f.ticks / 8128.0, 4) AS inches, f.metric, f.approx, f.shade, f.ticks",
    ),
    "slopes": ("slope", "f.about, f.rise, f.run"),
    "tasks": ("task", 'f."do", f.status, f.due, f."after", f."before"'),
    "stock": (
        "stock",
        "f.event, f.count, f.what, f.section, round(f.length_ticks / 8128.0, 4) AS length_in, f.species, f.board_feet",
    ),
    "readings": ("reading", "f.about, f.quantity, f.value, f.unit"),
    "hours": ("hours", 'f.hours, f.activity, f."on"'),
    "costs": ("cost", "f.amount, f.per, f.what"),
}
_VIEWS = "".join(
    f"CREATE VIEW {name} AS SELECT {_COMMON}, {columns}, (f.doubts <> '[]') AS doubtful, f.confirmed\n"
    f"    {_CURRENT} AND f.kind = '{kind}' ORDER BY m.said_utc, f.number;\n"
    for name, (kind, columns) in _KIND_COLUMNS.items()
)
_VIEWS += """
CREATE VIEW current_transcripts AS SELECT m.number AS memo, m.said_at, t.text, t.place, t.uuid
    FROM transcripts t JOIN memos m ON m.uuid = t.memo
    WHERE NOT EXISTS (SELECT 1 FROM transcripts r WHERE r.replaces = t.uuid);
"""
