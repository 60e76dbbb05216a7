"""A second connection to the job, for questions that workers ask while the screen stays awake."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Lock
from typing import TypeVar

from journal.session import Session

T = TypeVar("T")


class Reader:
    """Asks one question at a time, from any thread. Opened when first asked, so that nothing waits for it at the start."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock = Lock()
        self._session: Session | None = None

    def ask(self, question: Callable[[Session], T]) -> T:
        """The answer of the job to a question; whatever the question raises is raised here."""
        with self._lock:
            if self._session is None:
                self._session = Session.open(self._folder, create=False)
            return question(self._session)

    def close(self) -> None:
        """Close the connection, once the question in hand is answered."""
        with self._lock:
            if self._session is not None:
                self._session.close()
                self._session = None
