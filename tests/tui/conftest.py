"""An app on the bunkhouse job."""

from __future__ import annotations

from datetime import date, datetime, tzinfo

import pytest

from journal.session import Session
from journal.tui.app import ReviewApp
from tests.tui.jobs import bunkhouse


class _Evening(datetime):
    """Friday 24 July 2026, after work."""

    @classmethod
    def now(cls, tz: tzinfo | None = None) -> datetime:
        return datetime(2026, 7, 24, 17, 30, tzinfo=tz)


@pytest.fixture(autouse=True)
def _one_evening(monkeypatch: pytest.MonkeyPatch) -> None:
    """The screens look at the job on one evening, so that what is overdue does not hang on the day of the test."""
    monkeypatch.setattr("journal.books.datetime", _Evening)


@pytest.fixture
def app(session: Session) -> ReviewApp:
    """The app on the first day of the bunkhouse."""
    bunkhouse(session)
    return ReviewApp(session, day=date(2026, 7, 13))
