"""`journal review`: the terminal screens."""

from __future__ import annotations

import gc
import sys
from datetime import date

import click

from journal.cli.common import Day, open_session
from journal.errors import JournalError


@click.command()
@click.argument("day", required=False, type=Day())
@click.pass_context
def review(ctx: click.Context, day: date | None) -> None:
    """Go through a day on the screen: look, put right, and see what that does. The last day with memos if none is given.

    \b
    journal review
    journal review yesterday
    journal review 2026-07-14
    """
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise JournalError(
            "the screens need a terminal to be shown in",
            hint="Run journal review by itself in one. For scripts: journal day, about, todo, stock and find, with --json.",
        )
    gc.disable()  # nothing made before the first screen stands is garbage; the app turns it on again
    from journal.tui.app import ReviewApp

    app = ReviewApp(open_session(ctx), day=day)
    app.run()
    ctx.exit(app.return_code or 0)
