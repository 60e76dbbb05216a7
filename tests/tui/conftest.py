"""An app on the bunkhouse job."""

from __future__ import annotations

from datetime import date

import pytest

from journal.session import Session
from journal.tui.app import ReviewApp
from tests.tui.jobs import bunkhouse


@pytest.fixture
def app(session: Session) -> ReviewApp:
    """The app on the first day of the bunkhouse."""
    bunkhouse(session)
    return ReviewApp(session, day=date(2026, 7, 13))
