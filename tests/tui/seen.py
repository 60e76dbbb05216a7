"""What is on the screen, as text, once everything that was asked has been answered."""

from __future__ import annotations

from typing import Any

from textual.pilot import Pilot
from textual.widgets import Static

from journal.tui.app import ReviewApp
from journal.tui.lists import PlainList
from journal.tui.pane import Pane

NARROW, WIDE = (80, 24), (160, 48)
SIZES = [NARROW, WIDE]


async def settled(pilot: Pilot[Any]) -> None:
    """Until the pause before working out is over and the workers are done."""
    await pilot.pause(0.2)
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()


def screen_text(app: ReviewApp) -> str:
    """All that stands on the screen, a line a row."""
    return "\n".join(strip.text.rstrip() for strip in app.screen._compositor.render_strips())


def text_of(app: ReviewApp, selector: str) -> str:
    """The text of one widget, as it was before it was wrapped."""
    found = app.screen.query_one(selector, Static)
    return str(found.text if isinstance(found, Pane) else found.content)


def rows_of(app: ReviewApp, selector: str) -> list[str]:
    """The rows of a list."""
    return [str(row.shown).rstrip() for row in app.screen.query_one(selector, PlainList).rows]


def told(app: ReviewApp) -> list[str]:
    """The remarks that were made; of an error its message, then the next step."""
    return app.remarks
