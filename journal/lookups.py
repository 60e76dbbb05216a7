"""Looking things up in the journal file: memos, facts, asides, places, as they stand or as they stood at a moment.

The reading half of `store`; what is current at a moment is what no row known by then replaces.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import NamedTuple

from journal.changes import FACTS, Changes
from journal.records import Aside, Doubt, Fact, Filed, FiledAside, Memo, Problem, said
from journal.rows import FactRow, Row, aside_of, doubts_of, fact_row, memo_of, moment_utc, problem_of, utc

_CURRENT_FACT = """f.struck = :struck AND f.known_utc <= :as_of
    AND NOT EXISTS (SELECT 1 FROM facts r WHERE r.replaces = f.uuid AND r.known_utc <= :as_of)"""
_CURRENT_TRANSCRIPT = """t.known_utc <= :as_of
    AND NOT EXISTS (SELECT 1 FROM transcripts r WHERE r.replaces = t.uuid AND r.known_utc <= :as_of)"""
_MEMOS = f"""SELECT m.*, t.uuid AS transcript, t.text, t.words, t.readings, t.heard_doubts, t.place,
    r.file AS recording_file FROM memos m JOIN transcripts t ON t.memo = m.uuid AND {_CURRENT_TRANSCRIPT}
    LEFT JOIN recordings r ON r.hash = m.recording"""
_HERE = "({0} = :place OR ({0} >= :place || ' ' AND {0} < :place || '!'))"  # '!' follows ' ': a range the index serves


@dataclass(frozen=True, slots=True)
class Recording:
    """A sound on file: its SHA-256, where it lies below the job folder, what it was called, its length in seconds."""

    hash: str
    file: str
    name: str
    seconds: float | None
    note: str = ""


class OpenEnds(NamedTuple):
    """What is left open of a transcript, the doubts that no fact carries among it, and its asides."""

    problems: list[Problem]
    doubts: tuple[Doubt, ...]
    asides: list[Aside]


class Lookups(Changes):
    """What can be asked of an open journal file. Answers are records, in the order said unless another is named."""

    # ---- memos -------------------------------------------------------------------------------------------------

    def memo(self, number: int, *, as_of: datetime | None = None) -> Memo | None:
        """The memo of that number with its words as they stood, or None."""
        return next(self._memos("WHERE m.number = :number", as_of, number=number), None)

    def memo_by_uuid(self, uuid: str) -> Memo | None:
        """The memo of that uuid with its current words, or None."""
        return next(self._memos("WHERE m.uuid = :uuid", None, uuid=uuid), None)

    def memos_of_day(self, day: date, *, as_of: datetime | None = None) -> list[Memo]:
        """The memos said on a local day, in the order said."""
        where = "WHERE m.said_day = :day ORDER BY m.said_utc, m.number"
        return list(self._memos(where, as_of, day=day.isoformat()))

    def memos_since(self, day: date, *, as_of: datetime | None = None) -> list[Memo]:
        """The memos said on that day and after it, in the order said."""
        where = "WHERE m.said_day >= :day ORDER BY m.said_utc, m.number"
        return list(self._memos(where, as_of, day=day.isoformat()))

    def memo_before(self, moment: datetime) -> Memo | None:
        """The last memo of the same local day said before that moment."""
        day = (moment.astimezone() if moment.tzinfo is None else moment).date().isoformat()
        where = """WHERE m.said_day = :day AND m.said_utc <= :moment
            ORDER BY m.said_utc DESC, m.number DESC LIMIT 1"""
        return next(self._memos(where, None, day=day, moment=utc(moment)), None)

    def memos_of_recording(self, recording: str) -> list[Memo]:
        """The memos heard in a recording, by its hash."""
        return list(self._memos("WHERE m.recording = :recording ORDER BY m.number", None, recording=recording))

    def search(
        self,
        words: str,
        *,
        limit: int = 200,
        typing: bool = False,
        place: str | None = None,
        kind: str | None = None,
        since: date | None = None,
        until: date | None = None,
    ) -> list[Memo]:
        """Memos whose current words hold all the given ones, best match first; a word matches its other endings too.

        `typing` takes the last word for the beginning of one. Place (and what belongs to it), kind and days narrow it down;
        with one of those and no words the newest memos come first. Nothing asked for, nothing found.
        """
        query = " ".join('"' + word.replace('"', '""') + '"' for word in words.split())
        where, given = _narrowed(place, kind, since, until)
        if not query and not where:
            return []
        if query:
            where.append("memo_search MATCH :query")
            given["query"] = query + "*" if typing else query
        found = "JOIN memo_search s ON s.rowid = m.number" if query else ""
        order = "s.rank, m.said_utc DESC" if query else "m.said_utc DESC"
        return list(
            self._memos(
                f"{found} WHERE {' AND '.join(where)} ORDER BY {order} LIMIT :limit", None, limit=limit, **given
            )
        )

    def days(self) -> list[tuple[date, int]]:
        """The days that have memos, newest first, with how many."""
        rows = self._db.query("SELECT said_day, count(*) AS n FROM memos GROUP BY said_day ORDER BY said_day DESC")
        return [(date.fromisoformat(row["said_day"]), row["n"]) for row in rows]

    def _memos(self, where: str, as_of: datetime | None, **given: object) -> Iterator[Memo]:
        rows = self._db.query(f"{_MEMOS} {where}", {"as_of": moment_utc(as_of), **given})
        return map(memo_of, rows)

    # ---- facts -------------------------------------------------------------------------------------------------

    def facts(
        self,
        *,
        memo: int | None = None,
        place: str | None = None,
        places: Iterable[str] | None = None,
        kinds: Iterable[str] = (),
        day: date | None = None,
        struck: bool = False,
        as_of: datetime | None = None,
    ) -> list[Filed[Fact]]:
        """Current facts, oldest first, each with what it replaced.

        Of a memo, of a local day, of these kinds, of a place with what belongs to it ("vestry" and "vestry floor"), or of
        exactly these `places`; `struck` gives those that were taken out of the book instead.
        """
        where = [_CURRENT_FACT]
        given: Row = {"as_of": moment_utc(as_of), "struck": int(struck)}
        if memo is not None:
            where.append("m.number = :memo")
            given["memo"] = memo
        if place is not None:
            where.append(_HERE.format("f.place"))
            given["place"] = place
        if places is not None:
            where.append("f.place IN (SELECT value FROM json_each(:places))")
            given["places"] = json.dumps(sorted(places))
        if day is not None:
            where.append("m.said_day = :day")
            given["day"] = day.isoformat()
        if names := list(kinds):
            where.append(f"f.kind IN ({', '.join(repr(str(name)) for name in names)})")
        query = f"{FACTS} WHERE {' AND '.join(where)} ORDER BY m.said_utc, m.number, f.number"
        return self._with_history([fact_row(row) for row in self._db.query(query, given)])

    def lots_and_prices(self, words: Iterable[str], *, as_of: datetime | None = None) -> list[Filed[Fact]]:
        """Stock and costs that one of these words names, wherever they were said; hourly rates; face widths of no place.

        Of the stock that none of the words names, the newest 60 facts of no place, so that what a job is sheathed or
        finished with is known however long the job has run.
        """
        given = {"as_of": moment_utc(as_of), "struck": 0, "words": json.dumps(sorted(words))}
        query = f"""{FACTS} WHERE {_CURRENT_FACT} AND f.uuid IN (
            SELECT uuid FROM facts WHERE kind = 'cost' AND per = 'hour'
            UNION SELECT l.uuid FROM (SELECT DISTINCT what, section, species FROM facts INDEXED BY facts_of_lots
                    WHERE kind IN ('stock', 'cost')) n
                CROSS JOIN json_each(:words) word ON instr(' ' || coalesce(n.what, '') || ' ' || coalesce(n.section, '')
                    || ' ' || coalesce(n.species, '') || ' ', word.value)
                CROSS JOIN facts l INDEXED BY facts_of_lots ON l.what IS n.what AND l.section IS n.section
                    AND l.species IS n.species AND l.kind IN ('stock', 'cost')
            UNION SELECT uuid FROM facts WHERE kind = 'measure' AND place IS NULL AND dimension = 'width'
            UNION SELECT uuid FROM (SELECT uuid FROM facts INDEXED BY facts_stock_anywhere
                WHERE kind = 'stock' AND place IS NULL AND known_utc <= :as_of ORDER BY known_utc DESC LIMIT 60)
            ) ORDER BY m.said_utc, m.number, f.number"""
        return self._with_history([fact_row(row) for row in self._db.query(query, given)])

    def fact_row(self, memo: int, number: int) -> FactRow | None:
        """The newest row of one fact of a memo, a struck one or one that a later memo replaced too; None if there is none."""
        query = f"""{FACTS} WHERE m.number = :memo AND f.number = :number
            AND NOT EXISTS (SELECT 1 FROM facts r WHERE r.replaces = f.uuid AND r.memo = f.memo)
            ORDER BY f.known_utc DESC, f.uuid DESC LIMIT 1"""
        return self._one_row(query, memo=memo, number=number)

    def replaced_by(self, uuid: str) -> FactRow | None:
        """The row that replaces this one, or None."""
        return self._one_row(f"{FACTS} WHERE f.replaces = :uuid ORDER BY f.known_utc DESC LIMIT 1", uuid=uuid)

    def fact_rows(self, memo: int) -> list[FactRow]:
        """The current rows of a memo's facts, struck ones too, in order."""
        query = f"""{FACTS} WHERE m.number = :memo
            AND NOT EXISTS (SELECT 1 FROM facts r WHERE r.replaces = f.uuid) ORDER BY f.number"""
        return [fact_row(row) for row in self._db.query(query, {"memo": memo})]

    def fact_by_uuid(self, uuid: str) -> FactRow | None:
        """The row of that uuid, current or not."""
        return self._one_row(f"{FACTS} WHERE f.uuid = :uuid", uuid=uuid)

    def next_fact_number(self, memo_uuid: str) -> int:
        """The number of the next fact of a memo."""
        query = "SELECT coalesce(max(number), 0) + 1 FROM facts WHERE memo = ?"
        return int(self._db.execute(query, [memo_uuid]).fetchone()[0])

    def _one_row(self, query: str, **given: object) -> FactRow | None:
        row = next(self._db.query(query, given), None)
        return fact_row(row) if row else None

    def _with_history(self, rows: list[FactRow]) -> list[Filed[Fact]]:
        older: dict[str, FactRow] = {}
        wanted = {row.replaces for row in rows if row.replaces}
        while wanted:
            found = self._rows_by_uuid(wanted)
            older |= found
            wanted = {row.replaces for row in found.values() if row.replaces} - older.keys()
        return [_filed(row, older) for row in rows]

    # ---- what else was said ------------------------------------------------------------------------------------

    def asides(self, *, places: Iterable[str] | None = None, as_of: datetime | None = None) -> list[FiledAside]:
        """Asides of the current transcripts, oldest first: all, or those of exactly these places and of none."""
        here = "" if places is None else "(a.place IS NULL OR a.place IN (SELECT value FROM json_each(:places))) AND"
        query = f"""SELECT a.*, m.number AS memo_number, m.said_at FROM asides a
            JOIN transcripts t ON t.uuid = a.transcript JOIN memos m ON m.uuid = t.memo
            WHERE {here} {_CURRENT_TRANSCRIPT} ORDER BY m.said_utc, m.number"""
        given = {"as_of": moment_utc(as_of), "places": json.dumps(sorted(places or ()))}
        return [aside_of(row) for row in self._db.query(query, given)]

    def asides_of(self, transcript: str) -> list[FiledAside]:
        """The asides of one transcript."""
        query = """SELECT a.*, m.number AS memo_number, m.said_at FROM asides a JOIN transcripts t ON t.uuid = a.transcript
            JOIN memos m ON m.uuid = t.memo WHERE a.transcript = ? ORDER BY a.evidence_start, a.uuid"""
        return [aside_of(row) for row in self._db.query(query, [transcript])]

    def problems(self, transcript: str) -> list[Problem]:
        """What could not be used of a transcript."""
        query = "SELECT * FROM problems WHERE transcript = ? ORDER BY evidence_start, uuid"
        return [problem_of(row) for row in self._db.query(query, [transcript])]

    def open_ends(self, transcripts: Iterable[str]) -> dict[str, OpenEnds]:
        """What is left open of each of these transcripts, and what else was said in it."""
        wanted = {"wanted": json.dumps(list(transcripts))}
        among = "IN (SELECT value FROM json_each(:wanted))"
        found: dict[str, OpenEnds] = {}
        for row in self._db.query(f"SELECT uuid, doubts FROM transcripts WHERE uuid {among}", wanted):
            found[row["uuid"]] = OpenEnds([], doubts_of(row["doubts"]), [])
        query = f"SELECT * FROM problems WHERE transcript {among} ORDER BY evidence_start, uuid"
        for row in self._db.query(query, wanted):
            found[row["transcript"]].problems.append(problem_of(row))
        query = f"""SELECT a.*, m.number AS memo_number, m.said_at FROM asides a JOIN transcripts t ON t.uuid = a.transcript
            JOIN memos m ON m.uuid = t.memo WHERE a.transcript {among} ORDER BY a.evidence_start, a.uuid"""
        for row in self._db.query(query, wanted):
            found[row["transcript"]].asides.append(aside_of(row).aside)
        return found

    def problems_at(self, place: str, *, as_of: datetime | None = None) -> list[tuple[int, Problem]]:
        """What could not be used of the memos that leave off at a place or at what belongs to it, with their numbers."""
        query = f"""SELECT p.*, m.number AS memo_number FROM problems p JOIN transcripts t ON t.uuid = p.transcript
            JOIN memos m ON m.uuid = t.memo WHERE {_HERE.format("t.place")} AND {_CURRENT_TRANSCRIPT}
            ORDER BY m.said_utc, m.number, p.evidence_start"""
        rows = self._db.query(query, {"place": place, "as_of": moment_utc(as_of)})
        return [(row["memo_number"], problem_of(row)) for row in rows]

    def loose_doubts(self, transcript: str) -> tuple[Doubt, ...]:
        """The reader's doubts about a transcript that belong to no one fact."""
        row = next(self._db.query("SELECT doubts FROM transcripts WHERE uuid = ?", [transcript]), None)
        return doubts_of(row["doubts"]) if row else ()

    def places(self, *, as_of: datetime | None = None) -> list[str]:
        """The places of the current facts, in alphabetical order."""
        # from name to name along the index: a job names a place thousands of times
        query = f"""WITH RECURSIVE named(place) AS (SELECT min(place) FROM facts
                UNION ALL SELECT (SELECT min(place) FROM facts WHERE place > named.place) FROM named
                WHERE named.place IS NOT NULL)
            SELECT place FROM named d WHERE place IS NOT NULL
            AND EXISTS (SELECT 1 FROM facts f WHERE f.place = d.place AND {_CURRENT_FACT})"""
        return [row["place"] for row in self._db.query(query, {"as_of": moment_utc(as_of), "struck": 0})]

    def newest_figures(self) -> dict[tuple[str | None, str | None, str], int]:
        """The newest ticks of each (place, about, dimension)."""
        query = f"""SELECT f.place, f.about, f.dimension, f.ticks FROM facts f JOIN memos m ON m.uuid = f.memo
            WHERE f.kind = 'measure' AND {_CURRENT_FACT} ORDER BY m.said_utc, m.number, f.number"""
        rows = self._db.execute(query, {"as_of": moment_utc(None), "struck": 0})
        return {(place, about, dimension): ticks for place, about, dimension, ticks in rows}

    def newest_prices(self) -> dict[tuple[str | None, str], float]:
        """The newest rate of each (what, per); totals are no rates."""
        query = f"""SELECT f.what, f.per, f.amount FROM facts f JOIN memos m ON m.uuid = f.memo
            WHERE f.kind = 'cost' AND f.per <> 'total' AND {_CURRENT_FACT} ORDER BY m.said_utc, m.number, f.number"""
        rows = self._db.execute(query, {"as_of": moment_utc(None), "struck": 0})
        return {(what, per): amount for what, per, amount in rows}

    def aliases(self) -> dict[str, str]:
        """Names of places as they were misheard, and what they stand for; the newest wins."""
        rows = self._db.query("SELECT alias, place FROM place_aliases ORDER BY known_utc, uuid")
        return {row["alias"]: row["place"] for row in rows}


def _narrowed(
    place: str | None, kind: str | None, since: date | None, until: date | None
) -> tuple[list[str], dict[str, object]]:
    """Conditions on a memo `m`, with what they are given."""
    where: list[str] = []
    given: dict[str, object] = {"struck": 0}
    of_fact = [_CURRENT_FACT]
    if place is not None:
        of_fact.append(_HERE.format("f.place"))
        given["place"] = place
    if kind is not None:
        of_fact.append("f.kind = :kind")
        given["kind"] = kind
    if len(of_fact) > 1:
        where.append(f"m.uuid IN (SELECT f.memo FROM facts f WHERE {' AND '.join(of_fact)})")
    for name, sign, day in (("since", ">=", since), ("until", "<=", until)):
        if day is not None:
            where.append(f"m.said_day {sign} :{name}")
            given[name] = day.isoformat()
    return where, given


def _filed(row: FactRow, older: dict[str, FactRow]) -> Filed[Fact]:
    """A current row with the versions it replaced that said something else, newest first."""
    chain: list[FactRow] = []
    newer, step = row, older.get(row.replaces or "")
    while step is not None:
        if not step.struck and said(step.fact) != said(newer.fact):
            chain.append(step)
            newer = step
        step = older.get(step.replaces or "")
    return _plain_filed(row, tuple(map(_plain_filed, chain)))


def _plain_filed(row: FactRow, was: tuple[Filed[Fact], ...] = ()) -> Filed[Fact]:
    return Filed(
        uuid=row.uuid, fact=row.fact, memo=row.memo, number=row.number, said_at=row.said_at, made_at=row.known_at,
        confirmed=row.confirmed, was=was,
    )  # fmt: skip
