"""An app on the bunkhouse job, and what is on the screen as text."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest
from textual.widgets import Static

from journal.session import Session
from journal.tui.app import ReviewApp
from tests.tui.jobs import bunkhouse

SIZES = [(80, 24), (160, 48)]


@pytest.fixture
def app(session: Session) -> ReviewApp:
    """The app on the first day of the bunkhouse."""
    bunkhouse(session)
    return ReviewApp(session, day=date(2026, 7, 13))


def screen_text(app: ReviewApp) -> str:
    """All that stands on the screen, a line a row."""
    return "\n".join(strip.text.rstrip() for strip in app.screen._compositor.render_strips())


def text_of(app: ReviewApp, selector: str) -> str:
    """The text of one widget."""
    return str(app.screen.query_one(selector, Static).content)


Show = Callable[[ReviewApp], str]
