"""Tasks as they stand: done, said anew, released by an event, overdue."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from journal.quantities.book import Book
from journal.quantities.tasks import to_do, waiting_on
from journal.records import Aside, Fact, Filed, FiledAside, Task

MONDAY = datetime(2026, 7, 13, 8, 0).astimezone()


def book(*said: Fact | Aside, days: int = 10) -> Book:
    """A book of one memo a day, asked so many days after the first."""
    facts, asides = [], []
    for number, one in enumerate(said, 1):
        at = MONDAY + timedelta(days=number - 1)
        if isinstance(one, Aside):
            asides.append(FiledAside(aside=one, memo=number, said_at=at))
        else:
            facts.append(Filed(uuid=str(number), fact=one, memo=number, number=1, said_at=at, made_at=at))
    return Book(facts=tuple(facts), as_of=MONDAY + timedelta(days=days), asides=tuple(asides))


def standing(*said: Fact | Aside, days: int = 10) -> list[str]:
    return [
        f"{one.status}{'!' if one.overdue else ''} {one.task.do} {one.because}" for one in to_do(book(*said, days=days))
    ]


def test_a_task_said_done_closes_the_open_one() -> None:
    """ "Flashed the window head" closes "flash the window head" of the same place, and no other."""
    open_task = Task(place="lake gable", do="flash the window head")
    done = Task(place="lake gable", do="flash the window head", status="done")
    assert standing(open_task, done) == ["done flash the window head (1,)"]
    elsewhere = Task(place="wall A", do="flash the window head", status="done")
    assert standing(open_task, elsewhere)[0] == "open flash the window head ()"


def test_a_task_said_anew_takes_the_place_of_the_old() -> None:
    """A waiting task that is said again with a date is open with that date, and keeps what it must come before."""
    waiting = Task(place="lake gable", do="set the sash", status="waiting", after="the glass comes", before="the frost")
    again = Task(place="lake gable", do="set the sash", due=date(2026, 7, 29))
    (one,) = to_do(book(waiting, again))
    assert (one.status, one.task.due, one.task.before, one.because) == ("open", date(2026, 7, 29), "the frost", (1,))


@pytest.mark.parametrize(
    ("condition", "event", "released"),
    [
        ("the glass comes", "the glass came", True),
        ("the staging is down", "take down the staging", True),
        ("the wiring's been inspected", "the wiring is inspected", True),
        ("the plaster's dry", "plaster is dry", True),
        ("the glass comes", "the lumber came", False),
        ("the staging is down", "put up the staging", False),
    ],
)
def test_an_event_releases_what_waits_on_it(condition: str, event: str, released: bool) -> None:
    """What was waited on, said in other words, makes a waiting task open; another event does not."""
    task = Task(place="lake gable", do="nail the left end", status="waiting", after=condition)
    happened = Aside(topic="happened", text=event, place="lake gable")
    (one,) = to_do(book(task, happened))
    assert one.status == ("open" if released else "waiting")
    assert one.because == ((2,) if released else ())


def test_an_event_before_the_task_was_said_releases_nothing() -> None:
    """Glass that came last week is not the glass that is waited on now."""
    happened = Aside(topic="happened", text="the glass came")
    assert standing(happened, Task(do="set the sash", status="waiting", after="the glass comes")) == [
        "waiting set the sash ()"
    ]


def test_overdue_counts_from_the_day_after() -> None:
    """A task due on a day is not overdue that evening, and is the day after."""
    task = Task(do="caulk the door head", due=date(2026, 7, 17))
    assert standing(task, days=4) == ["open caulk the door head ()"]
    assert standing(task, days=5) == ["open! caulk the door head ()"]


def test_what_hangs_on_one_event_stands_together() -> None:
    """Tasks that wait on the staging and those to be done before it comes down are grouped by it."""
    tasks = to_do(
        book(
            Task(do="nail the left end", status="waiting", after="the staging is down"),
            Task(do="oil the top boards", before="the staging comes down"),
            Task(do="set the sash", status="waiting", after="the glass comes"),
        )
    )
    assert {condition: len(held) for condition, held in waiting_on(tasks).items()} == {
        "the staging comes down": 2,
        "the glass comes": 1,
    }


def test_a_place_has_the_tasks_of_what_belongs_to_it() -> None:
    """The vestry's list holds the vestry floor's."""
    found = to_do(book(Task(place="vestry floor", do="sand it"), Task(place="loft", do="sweep it")), place="vestry")
    assert [one.task.do for one in found] == ["sand it"]
