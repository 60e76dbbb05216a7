"""The journal file of a job. With `lookups`, `changes` and `migrations`, the only SQL; it has not met speech or screens.

Everything is appended: a correction is a new row that replaces an old one, striking is a row, undoing is a row. What is
current at a moment is what no row known by then replaces.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from uuid_utils.compat import uuid7

from journal.changes import Act
from journal.errors import JobError
from journal.lookups import Lookups, Recording
from journal.migrations import migrations
from journal.paths import JOURNAL_FILE
from journal.records import Doubt, Extraction, Fact, MemoSource, Word
from journal.rows import (
    FactRow,
    Row,
    aside_columns,
    doubts_text,
    fact_columns,
    utc,
    words_text,
)
from journal.sqlite import Database


@dataclass(frozen=True, slots=True)
class Draft:
    """A version of a fact to be written: the fact, and the row it replaces (None: a new fact)."""

    fact: Fact
    replaces: FactRow | None
    confirmed: bool = False
    struck: bool = False


class Store(Lookups):
    """An open journal file. Use `Store.open`, and `close` it (or use it as a context manager)."""

    def __init__(self, db: Database, folder: Path, *, read_only: bool) -> None:
        super().__init__(db)
        self.folder = folder
        self.read_only = read_only

    # ---- opening -----------------------------------------------------------------------------------------------

    @classmethod
    def open(cls, folder: Path, *, create: bool = True) -> Store:
        """The journal in a job folder, brought to this release's form; made when there is none and `create` is set.

        A folder that cannot be written is opened for reading. JobError where there is no journal, where it is damaged, or
        where a newer release wrote it.
        """
        path = folder / JOURNAL_FILE
        if not path.is_file():
            if not create:
                raise JobError(f"there is no journal in {folder}", hint="Take a first memo: journal take --say '…'")
            try:
                (folder / "recordings").mkdir(parents=True, exist_ok=True)
            except OSError as error:
                raise JobError(
                    f"the job folder {folder} cannot be made: {error.strerror}", hint="Name another one: --job FOLDER"
                ) from None
        try:
            return cls._open_for_writing(path)
        except sqlite3.OperationalError as error:
            if path.is_file() and ("readonly" in str(error) or "unable to open" in str(error)):
                return cls._open_for_reading(path)
            raise JobError(
                f"the job folder {folder} cannot be written: {error}",
                hint="Make it writable, or name another one: --job FOLDER",
            ) from None
        except sqlite3.DatabaseError as error:
            raise JobError(
                f"{path} is damaged or no journal: {error}", hint="Restore it from a backup; the file was not changed."
            ) from None

    @classmethod
    def _open_for_writing(cls, path: Path) -> Store:
        db = Database(sqlite3.connect(path, timeout=10, check_same_thread=False))
        _refuse_newer(db, path)
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA synchronous = NORMAL")
        if db.journal_mode != "wal":
            db.execute("PRAGMA journal_mode = WAL")
        if migrations.pending(db):
            migrations.apply(db)
        db.execute("UPDATE memos SET number = number WHERE 0")  # fails here, not later, where the file is read-only
        return cls(db, path.parent, read_only=False)

    @classmethod
    def _open_for_reading(cls, path: Path) -> Store:
        # immutable: a WAL file cannot be opened in a folder where its shared-memory file cannot be made
        uri = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
        db = Database(sqlite3.connect(uri, uri=True, check_same_thread=False))
        _refuse_newer(db, path)
        if migrations.pending(db):
            raise JobError(
                f"{path} is read-only and was written by an older release",
                hint="Make the job folder writable once, so that the journal can be brought up to date.",
            )
        return cls(db, path.parent, read_only=True)

    def close(self) -> None:
        """Close the file."""
        self._db.close()

    def __enter__(self) -> Store:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @contextmanager
    def writing(self) -> Iterator[None]:
        """One transaction: all that is written inside is kept, or none of it. May be nested."""
        if self.read_only:
            raise JobError(
                f"the job folder {self.folder} is read-only; nothing was written",
                hint="Make it writable, or name another one: --job FOLDER",
            )
        conn = self._db.conn
        if conn.in_transaction:
            yield
            return
        conn.execute("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            conn.rollback()
            raise
        conn.commit()

    def version(self) -> int:
        """A number that changes whenever another connection has written to the file."""
        return int(self._db.execute("PRAGMA data_version").fetchone()[0])

    # ---- writing -----------------------------------------------------------------------------------------------

    def add_recording(self, recording: Recording) -> None:
        """File a sound that lies in the job folder already; nothing is done when it is on file."""
        with self.writing():
            self._db.execute(
                "INSERT OR IGNORE INTO recordings VALUES (:hash, :file, :name, :seconds, :note, :taken)",
                {
                    "hash": recording.hash, "file": recording.file, "name": recording.name,
                    "seconds": recording.seconds, "note": recording.note, "taken": utc(datetime.now(UTC)),
                },
            )  # fmt: skip

    def add_change(self, act: Act, *, undoes: str | None = None, at: datetime | None = None) -> str:
        """The uuid of a new change, under which rows are then written."""
        uuid = _new_uuid()
        with self.writing():
            self._insert(
                "changes", {"uuid": uuid, "act": act, "made_utc": utc(at or datetime.now(UTC)), "undoes": undoes}
            )
        return uuid

    def add_memo(
        self,
        said_at: datetime,
        source: MemoSource,
        *,
        recording: str | None = None,
        engine: str = "",
        engine_version: str = "",
        carried_place: str | None = None,
    ) -> tuple[str, int]:
        """The uuid and the number of a new memo; its words follow with `add_transcript`."""
        uuid, local = _new_uuid(), said_at.astimezone() if said_at.tzinfo is None else said_at
        with self.writing():
            number = self._db.execute("SELECT coalesce(max(number), 0) + 1 FROM memos").fetchone()[0]
            self._insert(
                "memos",
                {
                    "uuid": uuid, "number": number, "said_at": local.isoformat(timespec="seconds"),
                    "said_utc": utc(local), "said_day": local.date().isoformat(), "source": source,
                    "recording": recording, "engine": engine, "engine_version": engine_version,
                    "carried_place": carried_place,
                },
            )  # fmt: skip
        return uuid, int(number)

    def add_transcript(
        self,
        memo_uuid: str,
        change: str,
        text: str,
        extraction: Extraction,
        *,
        known_at: datetime,
        words: Sequence[Word] = (),
        readings: Sequence[str] = (),
        heard_doubts: Sequence[Doubt] = (),
        replaces: str | None = None,
    ) -> str:
        """The uuid of a new version of a memo's words, filed with its problems and asides; facts are written apart."""
        uuid = _new_uuid()
        with self.writing():
            self._insert(
                "transcripts",
                {
                    "uuid": uuid, "memo": memo_uuid, "change": change, "text": text, "words": words_text(tuple(words)),
                    "readings": json.dumps(list(readings)), "heard_doubts": doubts_text(tuple(heard_doubts)),
                    "doubts": doubts_text(extraction.doubts), "place": extraction.place, "replaces": replaces,
                    "known_utc": utc(known_at),
                },
            )  # fmt: skip
            for problem in extraction.problems:
                start, end = problem.span
                self._insert(
                    "problems",
                    {
                        "uuid": _new_uuid(), "transcript": uuid, "message": problem.message, "hint": problem.hint,
                        "evidence_start": start, "evidence_end": end,
                    },
                )  # fmt: skip
            for aside in extraction.asides:
                self._insert("asides", {"uuid": _new_uuid(), "transcript": uuid, **aside_columns(aside)})
        return uuid

    def add_fact(
        self, draft: Draft, *, memo_uuid: str, transcript: str, number: int, change: str, known_at: datetime
    ) -> str:
        """The uuid of a new row for a fact."""
        uuid = _new_uuid()
        with self.writing():
            self._insert(
                "facts",
                {
                    "uuid": uuid, "memo": memo_uuid, "transcript": transcript, "change": change, "number": number,
                    **fact_columns(draft.fact), "confirmed": int(draft.confirmed), "struck": int(draft.struck),
                    "replaces": draft.replaces.uuid if draft.replaces else None, "known_utc": utc(known_at),
                },
            )  # fmt: skip
        return uuid

    def set_assumption(self, name: str, value: str | None, *, place: str | None, change: str) -> None:
        """Keep what the quantities take for granted from now on, for a place or the whole job; None: the default again."""
        row: Row = {"uuid": _new_uuid(), "place": place, "name": name, "value": value, "change": change}
        with self.writing():
            self._insert("assumptions", {**row, "known_utc": utc(datetime.now(UTC))})

    def add_alias(self, alias: str, place: str) -> None:
        """From now on a place heard as `alias` is `place`."""
        with self.writing():
            known = utc(datetime.now(UTC))
            self._insert("place_aliases", {"uuid": _new_uuid(), "alias": alias, "place": place, "known_utc": known})

    def _insert(self, table: str, row: Row) -> None:
        names = ", ".join(f'"{name}"' for name in row)
        self._db.execute(f"INSERT INTO {table} ({names}) VALUES ({', '.join(':' + name for name in row)})", row)


def _refuse_newer(db: Database, path: Path) -> None:
    newer = [name for name in migrations.applied(db) if name not in migrations.names]
    if newer:
        db.close()
        raise JobError(
            f"{path} was written by a newer release ({', '.join(newer)})",
            hint="Install the newer release to open it; the file was not changed.",
        )


def _new_uuid() -> str:
    return str(uuid7())
