"""The To do, Stock and Find screens: what they show and what their keys leave in the journal."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from journal.fields import describe
from journal.session import Session
from journal.tui.app import ReviewApp
from journal.tui.days import past_day, step_day, typed_day
from journal.tui.lists import PlainList
from tests.tui.jobs import say
from tests.tui.seen import NARROW, SIZES, WIDE, rows_of, screen_text, settled, text_of, told


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "160x48"])
async def test_tasks_in_three_orders(app: ReviewApp, size: tuple[int, int]) -> None:
    """Tasks by day, by place and by condition; what an event opens and what must be done first is told."""
    async with app.run_test(size=size) as pilot:
        await pilot.press("3")
        await settled(pilot)
        assert rows_of(app, "#tasks") == [
            "overdue",
            "[ ]!caulk the door head  wall A  by Fri 17 Jul overdue  memo 14, Tue 14 Jul",
            "open",
            "[ ] flash the window head  lake gable  before the staging comes down  memo 13, Tue 14 Jul",
            "waiting",
            "[~] nail the left end  lake gable  once the staging is down  memo 12, Tue 14 Jul",
        ]
        await pilot.press("v")
        assert rows_of(app, "#tasks")[0] == "lake gable"
        await pilot.press("v")
        assert rows_of(app, "#tasks")[0] == "when the staging comes down"
        assert text_of(app, "#released") == (
            "When the staging comes down\n  opens: nail the left end, lake gable\n  first: flash the window head, lake gable"
        )
        assert "2 open · 1 waiting · 1 overdue · by condition" in screen_text(app)


async def test_tick_postpone_and_release(app: ReviewApp, session: Session) -> None:
    """Space ticks off, p gives another day, + a day later, r opens what waited; u takes each back."""
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("3")
        await settled(pilot)
        await pilot.press("p", *"2026-07-31", "enter")
        await settled(pilot)
        assert describe(session.store.facts(memo=14)[0].fact) == "open: caulk the door head by Fri 31 Jul"
        await pilot.press("plus")
        await settled(pilot)
        assert describe(session.store.facts(memo=14)[0].fact) == "open: caulk the door head by Sat 1 Aug"
        await pilot.press("space")
        await settled(pilot)
        assert describe(session.store.facts(memo=14)[0].fact).startswith("done: caulk the door head")
        await pilot.press("u")
        await settled(pilot)
        assert describe(session.store.facts(memo=14)[0].fact).startswith("open: caulk the door head")
        await pilot.press("r")
        assert told(app)[-1] == "only a waiting task can be released"
        await pilot.press("end", "r")
        await settled(pilot)
        assert describe(session.store.facts(memo=12)[0].fact) == "open: nail the left end once the staging is down"
        assert told(app)[-1] == "once the staging is down: 1 task open now"


async def test_a_day_that_is_none(app: ReviewApp, session: Session) -> None:
    """A day that cannot be read is told, and the task keeps its day."""
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("3")
        await settled(pilot)
        await pilot.press("p", *"31.7.", "enter")
        await settled(pilot)
        assert told(app) == ["'31.7.' is no date for 'due': Type it as 2026-07-31."]
        assert describe(session.store.facts(memo=14)[0].fact) == "open: caulk the door head by Fri 17 Jul"


def _dry(session: Session) -> None:
    for day, moisture in (("13", 28), ("17", 25.5), ("21", 23.5), ("24", 22), ("29", 20)):
        facts = [
            {
                "kind": "reading",
                "place": "drying shed",
                "about": "pine",
                "quantity": "moisture",
                "value": moisture,
                "unit": "%",
            }
        ]
        air = {"13": (72, 65), "21": (74, 60), "29": (70, 68)}.get(day)
        if air is not None:
            facts += [
                {"kind": "reading", "place": "drying shed", "quantity": "temperature", "value": air[0], "unit": "F"},
                {"kind": "reading", "place": "drying shed", "quantity": "humidity", "value": air[1], "unit": "%"},
            ]
        say(session, f"2026-07-{day}T07:50", f"pine in the drying shed {moisture} percent", *facts)


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "160x48"])
async def test_stock_drying_and_the_yard(app: ReviewApp, session: Session, size: tuple[int, int]) -> None:
    """Lots with balances, what to buy and why, and the stack with its plot and the expected day.

    The stack is the worked one of trade.md part B: 28 to 20 % in 16 days, 15 % on 21 August, 19 to 24 August.
    """
    _dry(session)
    say(session, "2026-07-14T11:30", "need four pails of chinking",
        {"kind": "stock", "event": "need", "count": 4, "what": "pail of chinking"})  # fmt: skip
    async with app.run_test(size=size) as pilot:
        await pilot.press("4")
        await settled(pilot)
        rows = rows_of(app, "#lots")
        assert "  1x8 white pine board 12' 0\": 40 boards, 320.0 bf" in rows
        assert rows[1].startswith("  4 pails of chinking  memo 21")
        drying = next(index for index, row in enumerate(rows) if row.startswith("  pine, drying shed"))
        assert "15 % about 21 Aug (19 Aug to 24 Aug)" in rows[drying]
        lots = app.screen.query_one("#lots", PlainList)
        lots.go_to(lots.names[drying] or "")
        await settled(pilot)
        plot = text_of(app, "#plot")
        assert plot.count("o") >= 5
        assert all(mark in plot for mark in ("28 %", "20 %", "15 %", "21 Aug", "13 Jul"))


async def test_find_as_you_type(app: ReviewApp) -> None:
    """Hits come while typing, are narrowed down by place, kind and day, and lead to their memo."""
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("slash", *"wind")
        await settled(pilot)
        assert "5 memos" in screen_text(app)
        await pilot.press("tab", *"lake", "right", "tab", *"task")
        await settled(pilot)
        assert rows_of(app, "#hits") == [
            "Tue 14 Jul 2026 13:00  flash the window head on the lake gable before the staging comes down  memo 13"
        ]
        await pilot.press("enter", "enter")
        await settled(pilot)
        assert text_of(app, "#head").startswith("memo 13 ")
        await pilot.press("5", "escape")
        await settled(pilot)
        assert "type words, a place, a kind or a day" in screen_text(app)
        await pilot.press("tab", *"barn")
        await settled(pilot)
        assert "no place 'barn' yet" in screen_text(app)


async def test_what_cannot_narrow_is_told(app: ReviewApp) -> None:
    """A kind or a day that is none is told, with what would do."""
    async with app.run_test(size=WIDE) as pilot:
        await pilot.press("5", "tab", "tab", *"wood")
        await settled(pilot)
        assert "'wood' is no kind: measure, slope, task, stock, reading, hours, cost" in screen_text(app)
        await pilot.press("end", *["backspace"] * 4, "tab", *"soon")
        await settled(pilot)
        assert "'soon' is no day yet: 2026-07-13, yesterday, tuesday" in screen_text(app)


async def test_find_between_two_days(app: ReviewApp) -> None:
    """A first and a last day narrow the hits down to the days between them; days the wrong way round are told."""
    async with app.run_test(size=NARROW) as pilot:
        await pilot.press("5", *"wind", "tab", "tab", "tab", *"2026-07-13", "tab", *"2026-07-13")
        await settled(pilot)
        assert [row.partition("  ")[0] for row in rows_of(app, "#hits")] == [
            "Mon 13 Jul 2026 07:48",
            "Mon 13 Jul 2026 07:46",
        ]
        assert "2 memos" in screen_text(app)
        await pilot.press("backspace", "2")
        await settled(pilot)
        assert "Sun 12 Jul 2026 is before Mon 13 Jul 2026" in screen_text(app)
        assert rows_of(app, "#hits") == []


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("tomorrow", "2026-07-15"),
        ("fri", "2026-07-17"),
        ("tuesday", "2026-07-21"),
        ("2026-08-01", "2026-08-01"),
        ("soon", "soon"),
    ],
)
def test_a_day_ahead(typed: str, day: str) -> None:
    """Weekdays mean the next one; what is no day stays as typed."""
    assert typed_day(typed, date(2026, 7, 14)) == day


def test_days_step_and_look_back() -> None:
    """A day steps either way, an empty one starts today; looking back a weekday is the last one."""
    today = date(2026, 7, 14)
    assert step_day("2026-07-31", 1) == "2026-08-01"
    assert step_day("", 1, today) == "2026-07-14"
    assert past_day("monday", today) == today - timedelta(days=1)
    assert past_day("tuesday", today) == today
    assert past_day("soon", today) is None
