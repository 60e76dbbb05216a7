"""A connection to an SQLite file whose rows are dictionaries, and the named migrations of such a file.

sqlite-utils applies the migrations and is imported only where some are pending: a job that is up to date opens without it,
which is most of the time that a first screen or answer would wait for its file.
"""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import sqlite_utils

Given = Sequence[Any] | Mapping[str, Any]
Migration = Callable[["sqlite_utils.Database"], None]


class Database:
    """An open file. A statement stands by itself, unless a transaction was begun on `conn`."""

    def __init__(self, conn: sqlite3.Connection) -> None:
        conn.isolation_level = None
        self.conn = conn

    def execute(self, sql: str, given: Given = ()) -> sqlite3.Cursor:
        """The cursor of one statement."""
        return self.conn.execute(sql, given)

    def query(self, sql: str, given: Given = ()) -> Iterator[dict[str, Any]]:
        """The rows of one statement, which is carried out at once."""
        cursor = self.conn.execute(sql, given)
        names = [column[0] for column in cursor.description]
        return (dict(zip(names, row, strict=True)) for row in cursor)

    @property
    def journal_mode(self) -> str:
        """How the file keeps what is not yet written into it: "wal" or "delete"."""
        return str(self.conn.execute("PRAGMA journal_mode").fetchone()[0])

    def close(self) -> None:
        """Close the file."""
        self.conn.close()


class Migrations:
    """Named changes of a file's form, in order; which of them a file has had is written in the file."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._known: list[Migration] = []

    def __call__(self, migration: Migration) -> Migration:
        """Adds a migration, by the name of its function."""
        self._known.append(migration)
        return migration

    @property
    def names(self) -> list[str]:
        """Those that this release knows."""
        return [migration.__name__ for migration in self._known]

    def applied(self, db: Database) -> list[str]:
        """Those that the file has had, also of a newer release."""
        if not db.execute("SELECT 1 FROM sqlite_master WHERE name = '_sqlite_migrations'").fetchone():
            return []
        rows = db.execute("SELECT name FROM _sqlite_migrations WHERE migration_set = ? ORDER BY rowid", [self.name])
        return [name for (name,) in rows]

    def pending(self, db: Database) -> list[str]:
        """Those that the file still lacks."""
        applied = self.applied(db)
        return [name for name in self.names if name not in applied]

    def apply(self, db: Database) -> None:
        """Bring the file up to date, each migration in a transaction of its own."""
        # pandas and numpy are imported by sqlite-utils where they happen to be installed; the journal hands it neither
        left_out = [name for name in ("pandas", "numpy") if name not in sys.modules]
        sys.modules.update(dict.fromkeys(left_out))  # type: ignore[arg-type]  # an import of None fails
        try:
            import sqlite_utils
        finally:
            for name in left_out:
                del sys.modules[name]
        named = sqlite_utils.Migrations(self.name)
        for migration in self._known:
            named()(migration)
        named.apply(sqlite_utils.Database(db.conn))
