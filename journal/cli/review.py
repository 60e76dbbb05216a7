"""`journal review`: the terminal screens."""

from __future__ import annotations

import gc
from datetime import date

import click

from journal.cli.common import Day, open_session


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
    gc.disable()  # nothing made before the first screen stands is garbage; the app turns it on again
    from journal.tui.app import ReviewApp

    app = ReviewApp(open_session(ctx), day=day)
    app.run()
    ctx.exit(app.return_code or 0)
