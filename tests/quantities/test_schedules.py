"""Schedules on the yard list: what places take of bought things, counted where it is open work. Rules of the trade (CP)."""

from __future__ import annotations

from typing import Any

from books import book, m, setting, shown, slope

from journal.quantities.base import answers
from journal.quantities.buy import buy_list
from journal.records import Aside, Fact, Stock, Task


def stock(event: str, count: float | None, what: str, **more: Any) -> Stock:
    return Stock(event=event, count=count, what=what, **more)  # type: ignore[arg-type]


def bought(*said: Any, **more: Any) -> list[tuple[str, list[Any], list[str]]]:
    return [(r["shown"], r["because"], r["notes"]) for r in buy_list(book(*said, **more))]  # type: ignore[misc]


# 240 x 98, nine courses of logs, gaps of 1 1/2 in. and chinking 3/8 deep: 160 ft a face, 4.7 gal, 10.3 with waste and both
LOGS: tuple[Any, ...] = (
    [m("wall A", "length", "240"), m("wall A", "height", "98")],
    [m("wall A", "gap", "1 1/2", "course 4 and 5"), m("wall A", "depth", "3/8", "chink")],
    Aside(topic="courses", place="wall A", text="", value=9.0),
)
CHINKING = "chinking of wall A"
MEMOS = "memos 1, 2 and 3"


def test_a_schedule_asks_for_what_is_not_there() -> None:
    """160 ft of joint take 10.3 gallons, three pails of five; of these one is there and two are to get."""
    assert bought(*LOGS, stock("received", 1, "pail of chinking")) == [
        ("2 pails of chinking", [CHINKING], [f"{CHINKING} comes to 3 pails ({MEMOS})"])
    ]
    assert bought(*LOGS, stock("received", 3, "pail of chinking")) == []
    assert bought(*LOGS) == [], "nobody spoke of pails of chinking"


def test_of_need_and_schedule_the_larger_counts() -> None:
    """Four asked for stand against three worked out, with the schedule as a note; one asked for becomes three."""
    note = [f"{CHINKING} comes to 3 pails ({MEMOS})"]
    assert bought(*LOGS, stock("need", 4, "pail of chinking")) == [("4 pails of chinking", [4], note)]
    assert bought(*LOGS, stock("need", 1, "pail of chinking")) == [("3 pails of chinking", [4, CHINKING], note)]


def test_what_was_used_there_and_what_is_on_order_is_taken_off() -> None:
    """Two came and two were used on the wall: one to get; on order it is not bought again."""
    came = [stock("received", 2, "pail of chinking"), stock("used", 2, "pail of chinking", place="wall A")]
    note = [f"{CHINKING} comes to 3 pails ({MEMOS}), 2 pails of it used"]
    assert bought(*LOGS, *came) == [("1 pail of chinking", [CHINKING], note)]
    assert bought(*LOGS, *came, stock("ordered", 1, "pail of chinking")) == []


def test_work_said_done_is_told_and_not_counted() -> None:
    """A wall whose chinking was said done takes nothing; a need of it stands, with the figure beside it."""
    done = Task(place="wall A", do="chink the outside", status="done")
    assert bought(*LOGS, stock("received", 1, "pail of chinking"), done) == []
    assert bought(*LOGS, stock("need", 2, "pail of chinking"), done) == [
        ("2 pails of chinking", [4], [f"{CHINKING} comes to 3 pails ({MEMOS}); not counted, memo 5 said it done"])
    ]


def test_an_unknown_balance_counts_nothing() -> None:
    """Where nobody knows how many are there, the schedule is a note beside what was asked for."""
    said = [stock("received", None, "pail of chinking"), stock("need", 1, "pail of chinking")]
    (row,) = bought(*LOGS, *said)
    assert row[:2] == ("1 pail of chinking", [5])
    assert row[2][-2:] == [
        f"{CHINKING} comes to 3 pails ({MEMOS})", "how many are there is not known, so nothing is counted. Count them",
    ]  # fmt: skip


GABLE: tuple[Fact, ...] = (
    m("lake gable", "base width", "192"),
    slope("lake gable", 8),
    m(None, "width", "6 7/8", "1x8 pine"),
    m("lake gable", "spacing", "24", "strapping"),
)


def test_nails_by_their_size() -> None:
    """The gable takes 114 eight penny nails, 1.19 lb with waste: two pounds of those and none of the sixteen penny."""
    sizes = [
        stock("need", 1, "pound of eight penny nail", place="lake gable"),
        stock("received", 5, "pound of sixteen penny nail"),
    ]
    (row,) = bought(*GABLE, *sizes, stock("used", 0, "pound of eight penny nail", place="lake gable"))
    assert row[:2] == ("2 pounds of eight penny nail", [5, "nails of lake gable"])


def test_felt_sheets_and_finish() -> None:
    """A wall of 16 ft by 8: a roll of felt, four sheets of 4 x 8, and two gallons at 150 ft² a gallon, two coats, 10 %."""
    wall = [m("mill wall", "length", "192"), m("mill wall", "height", "96")]
    said = [
        stock("received", 0, what, place="mill wall")
        for what in ("roll of felt", "sheet of plywood", "gallon of stain")
    ]
    found = bought(wall, *said, settings=(setting("finish coverage", "150", "mill wall"),))
    assert [row[:2] for row in found] == [
        ("1 roll of felt", ["felt of mill wall"]),
        ("4 sheets of plywood", ["sheets of mill wall"]),
        ("2 gallons of stain", ["finish of mill wall"]),
    ]


def test_two_lots_that_a_schedule_cannot_tell_apart() -> None:
    """Plywood or panels of oriented strand board: the figure is a note beside what was asked for, and asks for neither."""
    wall = [m("mill wall", "length", "192"), m("mill wall", "height", "96")]
    said = [stock("need", 1, "sheet of plywood"), stock("received", 2, "sheet of osb")]
    note = "sheets of mill wall comes to 4 sheets (memo 1); not counted, it may be of sheet of osb"
    assert bought(wall, *said) == [("1 sheet of plywood", [2], [note])]


def nailed(what: str, *more: Any) -> dict[str, str]:
    used = [stock("used", 4, "board", section="1x8", place="lake gable"), stock("used", 1, what, place="lake gable")]
    found = answers(book(*GABLE, used, *more), "lake gable")
    names = ("pounds of nails", "nail penetration", "toe-nail penetration")
    return shown(found, *names) | {missing.name: missing.say for missing in found.missing if missing.name in names}


def test_sinkers_and_box_nails_are_not_common_nails() -> None:
    """A 16d sinker is 3 1/4 in. long (FAS-043), a 16d box nail 3 1/2: behind 1 1/2 in. they go 1 3/4 and 2 in. in."""
    assert nailed("pound of sixteen penny sinker") == {
        "pounds of nails": "1.99 lb of 16d sinker, 2 to buy; by the volume of the shank, ±15 %",
        "nail penetration [16d sinker]": '1 3/4" of a 16d sinker behind board and strapping; six diameters are 0.89 in.',
    }
    assert nailed("pound of sixteen penny box nail")["nail penetration [16d box]"] == (
        '2" of a 16d box behind board and strapping; six diameters are 0.81 in.'
    )
    assert nailed("pound of sixteen penny nail")["nail penetration [16d]"].startswith('2" of a 16d behind')


def test_a_nail_of_a_style_that_is_not_on_record_is_told() -> None:
    """There is no six penny sinker on the list: no pounds and no depth, and the memo is named."""
    assert nailed("pound of six penny sinker") == {
        name: f"lake gable {name}: no 6d nail of that kind is on record (memo 5). Say which nail it is."
        for name in ("pounds of nails", "nail penetration")
    }


def test_a_toe_nail_where_one_is_spoken_of() -> None:
    """An 8d toe nail of 2 1/2 in. goes L - L/(3 cos 30) = 1.54 in. in (NDS; FAS-093)."""
    toe = Task(place="lake gable", do="toe nail the end studs", status="open")
    assert nailed("pound of eight penny nail", toe)["toe-nail penetration [8d]"] == (
        '1 9/16" of a 8d, driven at 30° a third of its length from the end'
    )
    assert "toe-nail penetration [8d]" not in nailed("pound of eight penny nail")
