"""What was known on an evening: the full job asked as of that memo's time answers as the job did when it ended there."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

from books import DEMO

from journal.cli.shapes import about_row
from journal.quantities.base import answers
from journal.quantities.buy import buy_list
from journal.quantities.drying import drying
from journal.quantities.labour import hours_summary
from journal.quantities.money import costs_summary
from journal.quantities.stock import stock_balance
from journal.quantities.tasks import to_do
from journal.session import Session

SAID = [json.loads(line) for line in DEMO.read_text(encoding="utf-8").splitlines()]


def moment(memo: int) -> datetime:
    return datetime.fromisoformat(SAID[memo - 1]["said_at"]).astimezone()


def all_answers(session: Session, evening: datetime) -> dict[str, Any]:
    """Every answer of a job as of a moment, and what `about` shows of each place."""
    whole = session.book(as_of=evening)
    about = {}
    for place in session.store.places(as_of=evening):
        book = session.book(place, as_of=evening)
        about[place] = about_row(place, book, answers(book, place))
    return {
        "about": about, "stock": stock_balance(whole), "buy": buy_list(whole), "hours": hours_summary(whole),
        "costs": costs_summary(whole), "drying": drying(whole), "todo": [entry.row() for entry in to_do(whole)],
    }  # fmt: skip


def test_as_of_an_evening_is_what_was_shown_that_evening(session: Session, tmp_path: Path) -> None:
    """After every eighth memo and the last of the bunkhouse, the job so far and the full job as of then answer alike."""
    for memo, said in enumerate(SAID, start=1):
        session.take_typed(said["text"], moment(memo))
    with Session.open(tmp_path / "so far") as so_far:
        for memo, said in enumerate(SAID, start=1):
            so_far.take_typed(said["text"], moment(memo))
            if memo % 8 == 0 or memo == len(SAID):
                evening = moment(memo)
                assert all_answers(so_far, evening) == all_answers(session, evening), f"as of memo {memo}"


def test_a_correction_counts_from_when_it_was_made(session: Session) -> None:
    """A wall misread at 203 and fixed later is still 203 as of the evening that it was said."""
    said_at = datetime(2026, 7, 13, 8, 0).astimezone()
    session.take_typed("wall b length two hundred and three inches height eight foot", said_at)
    session.fix(1, 1, {"figure": "192"})
    then, now = session.answers("wall B", as_of=said_at), session.answers("wall B")
    assert [answer.value("net wall area").value for answer in (then, now)] == [135.3, 128.0]  # type: ignore[union-attr]
