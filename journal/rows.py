"""Rows of the journal file as records, and records as rows. Knows the columns, no SQL."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any

from journal.interchange import doubt_from_json, doubt_to_json
from journal.records import FACT_TYPES, Aside, Doubt, Fact, FiledAside, Memo, Problem, Span, Word, said_fields

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class FactRow:
    """A row of the facts table: the fact, the rows it belongs to, and what it replaces."""

    uuid: str
    fact: Fact
    memo_uuid: str
    memo: int
    transcript: str
    number: int
    said_at: datetime
    known_at: datetime
    confirmed: bool
    struck: bool
    replaces: str | None
    change: str


def utc(moment: datetime) -> str:
    """A moment as UTC text that sorts; a naive one is taken as local time."""
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def moment_utc(as_of: datetime | None) -> str:
    """The moment that a look-up counts to as text that sorts; after all others where none is given."""
    return utc(as_of) if as_of is not None else "9999"


def fact_columns(fact: Fact) -> Row:
    """The columns of a fact that do not depend on where it is filed."""
    row: Row = {"kind": fact.kind, "rule": fact.rule, "doubts": doubts_text(fact.doubts)}
    row["evidence_start"], row["evidence_end"] = fact.evidence
    for name in said_fields(fact.kind):
        value = getattr(fact, name)
        row[name] = value.isoformat() if isinstance(value, date) else value
    if "approx" in row:
        row["approx"] = int(row["approx"])
    return row


def fact_row(row: Row) -> FactRow:
    """The record of a joined row (facts with the memo's `memo_number` and `said_at`)."""
    kind = row["kind"]
    said = {name: row[name] for name in said_fields(kind)}
    for name in ("due", "on"):
        if said.get(name) is not None:
            said[name] = date.fromisoformat(said[name])
    if "approx" in said:
        said["approx"] = bool(said["approx"])
    fact = FACT_TYPES[kind](
        **said,
        evidence=Span(row["evidence_start"], row["evidence_end"]),
        rule=row["rule"],
        doubts=doubts_of(row["doubts"]),
    )
    return FactRow(
        uuid=row["uuid"],
        fact=fact,
        memo_uuid=row["memo"],
        memo=row["memo_number"],
        transcript=row["transcript"],
        number=row["number"],
        said_at=datetime.fromisoformat(row["said_at"]),
        known_at=datetime.fromisoformat(row["known_utc"]),
        confirmed=bool(row["confirmed"]),
        struck=bool(row["struck"]),
        replaces=row["replaces"],
        change=row["change"],
    )


def memo_of(row: Row) -> Memo:
    """The memo of a row of memos joined with its current transcript (`transcript`, `text`, `words`, …)."""
    return Memo(
        number=row["number"],
        uuid=row["uuid"],
        said_at=datetime.fromisoformat(row["said_at"]),
        source=row["source"],
        text=row["text"],
        transcript=row["transcript"],
        words=words_of(row["words"]),
        readings=tuple(json.loads(row["readings"])),
        heard_doubts=doubts_of(row["heard_doubts"]),
        recording=row["recording_file"],
        engine=row["engine"],
        engine_version=row["engine_version"],
        place=row["place"],
        carried_place=row["carried_place"],
    )


def aside_columns(aside: Aside) -> Row:
    """The columns of an aside."""
    start, end = aside.evidence
    said = {"topic": aside.topic, "text": aside.text, "place": aside.place, "value": aside.value}
    return said | {"evidence_start": start, "evidence_end": end, "rule": aside.rule}


def aside_of(row: Row) -> FiledAside:
    """The aside of a row joined with its memo."""
    aside = Aside(
        topic=row["topic"],
        text=row["text"],
        place=row["place"],
        value=row["value"],
        evidence=Span(row["evidence_start"], row["evidence_end"]),
        rule=row["rule"],
    )
    return FiledAside(aside=aside, memo=row["memo_number"], said_at=datetime.fromisoformat(row["said_at"]))


def problem_of(row: Row) -> Problem:
    """The problem of a row."""
    return Problem(row["message"], Span(row["evidence_start"], row["evidence_end"]), row["hint"])


def doubts_text(doubts: tuple[Doubt, ...]) -> str:
    """Doubts as the JSON text of a column."""
    return json.dumps([doubt_to_json(doubt) for doubt in doubts])


def doubts_of(text: str) -> tuple[Doubt, ...]:
    """The doubts of a column."""
    return tuple(doubt_from_json(row) for row in json.loads(text)) if text != "[]" else ()


def words_text(words: tuple[Word, ...]) -> str:
    """Words with their times and confidence as the JSON text of a column."""
    return json.dumps([[word.word, word.start, word.end, word.confidence] for word in words])


def words_of(text: str) -> tuple[Word, ...]:
    """The words of a column."""
    return tuple(Word(*word) for word in json.loads(text)) if text != "[]" else ()
