"""What was changed by hand: the corrections, the rows that each wrote, and what the quantities take for granted.

A part of `lookups`, which is the reading half of `store`.
"""

from __future__ import annotations

import json
from datetime import datetime
from typing import Literal

from journal.rows import FactRow, Row, fact_row, moment_utc
from journal.sqlite import Database

Act = Literal["take", "fix", "add", "words", "strike", "confirm", "undo", "redo"]

FACTS = "SELECT f.*, m.number AS memo_number, m.said_at, m.said_utc FROM facts f JOIN memos m ON m.uuid = f.memo"
"""Rows of facts with their memo's number and time, before any condition."""


class Changes:
    """What can be asked of an open journal file about its corrections."""

    def __init__(self, db: Database) -> None:
        self._db = db

    def rows_of_change(self, change: str) -> list[FactRow]:
        """The rows that a change wrote, in the order written."""
        query = f"{FACTS} WHERE f.change = :change ORDER BY f.uuid"
        return [fact_row(row) for row in self._db.query(query, {"change": change})]

    def assumptions(self, *, as_of: datetime | None = None) -> list[tuple[str | None, str, str, datetime]]:
        """What was set of the assumptions: place (None: the whole job), name, value and when; the newest of each."""
        query = "SELECT place, name, value, known_utc FROM assumptions WHERE known_utc <= ? ORDER BY known_utc, uuid"
        latest = {(row["place"], row["name"]): row for row in self._db.query(query, [moment_utc(as_of)])}
        return [
            (row["place"], row["name"], row["value"], datetime.fromisoformat(row["known_utc"]))
            for row in latest.values()
            if row["value"] is not None
        ]

    def assumption(self, name: str, place: str | None, *, before: str | None = None) -> str | None:
        """What an assumption was set to for a place or the job, before the row of that uuid; None where the default stood."""
        query = """SELECT value FROM assumptions a WHERE a.name = :name AND a.place IS :place AND (:before IS NULL
            OR (a.known_utc, a.uuid) < (SELECT known_utc, uuid FROM assumptions WHERE uuid = :before))
            ORDER BY a.known_utc DESC, a.uuid DESC LIMIT 1"""
        row = self._db.execute(query, {"name": name, "place": place, "before": before}).fetchone()
        return row[0] if row else None

    def assumptions_of_change(self, change: str) -> list[tuple[str, str | None, str, str | None]]:
        """What a change set: uuid, place, name and value of each."""
        rows = self._db.execute("SELECT uuid, place, name, value FROM assumptions WHERE change = ?", [change])
        return [(uuid, place, name, value) for uuid, place, name, value in rows]

    def worded_anew(self) -> list[tuple[str, str]]:
        """Pairs of a memo's words as heard and as put right by hand, oldest first; what was undone is left out."""
        query = """SELECT o.text AS heard, t.text AS meant, t.change FROM transcripts t JOIN transcripts o ON o.uuid = t.replaces
            JOIN changes c ON c.uuid = t.change WHERE c.act = 'words' ORDER BY t.known_utc, t.uuid"""
        undone = self._undone()
        return [(row["heard"], row["meant"]) for row in self._db.query(query) if row["change"] not in undone]

    def facts_anew(self) -> list[tuple[FactRow, FactRow]]:
        """Pairs of a fact as heard and as put right, by hand or in so many words, oldest first; what was undone is left out."""
        query = f"{FACTS} JOIN changes c ON c.uuid = f.change WHERE c.act = 'fix' AND f.replaces IS NOT NULL ORDER BY f.uuid"
        undone = self._undone()
        anew = [row for row in map(fact_row, self._db.query(query)) if row.change not in undone]
        before = self._rows_by_uuid({row.replaces for row in anew if row.replaces})
        return [(before[row.replaces], row) for row in anew if row.replaces]

    def found_right(self, reason: str) -> list[FactRow]:
        """Rows of facts that carried a doubt of this reason when they were looked at and found right."""
        query = f"""{FACTS} JOIN facts r ON r.replaces = f.uuid JOIN changes c ON c.uuid = r.change
            WHERE c.act = 'confirm' AND r.struck = 0 AND instr(f.doubts, :reason) ORDER BY f.uuid"""
        rows = map(fact_row, self._db.query(query, {"reason": f'"{reason}"'}))
        return [row for row in rows if any(doubt.reason == reason for doubt in row.fact.doubts)]

    def _rows_by_uuid(self, uuids: set[str]) -> dict[str, FactRow]:
        query = f"{FACTS} WHERE f.uuid IN (SELECT value FROM json_each(:uuids))"
        rows = map(fact_row, self._db.query(query, {"uuids": json.dumps(sorted(uuids))}))
        return {row.uuid: row for row in rows}

    def _undone(self) -> set[str]:
        """The changes that were taken back and not brought back since."""
        undone: set[str] = set()
        for uuid, _, undoes in self.changes():
            if uuid not in undone and undoes:
                undone.add(undoes)
        return undone

    def changes(self) -> list[tuple[str, Act, str | None]]:
        """All corrections, newest first: uuid, act, and the change it undoes. Taking a memo is none."""
        query = "SELECT uuid, act, undoes FROM changes WHERE act <> 'take' ORDER BY made_utc DESC, uuid DESC"
        rows = self._db.query(query)
        return [(row["uuid"], row["act"], row["undoes"]) for row in rows]

    def transcripts_of_change(self, change: str) -> list[Row]:
        """The transcript rows that a change wrote."""
        return list(self._db.query("SELECT * FROM transcripts WHERE change = ?", [change]))

    def transcript(self, uuid: str) -> Row | None:
        """One transcript row."""
        return next(self._db.query("SELECT * FROM transcripts WHERE uuid = ?", [uuid]), None)
