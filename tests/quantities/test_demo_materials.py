"""The bunkhouse from spoken words to stock, drying, hours, money and what to buy: the answers of the trade notes."""

from __future__ import annotations

from datetime import datetime
from functools import cache
from typing import Any

from books import book_from_memos, shown

from journal.quantities.base import Answers, Book, answers
from journal.quantities.buy import buy_list
from journal.quantities.drying import drying
from journal.quantities.labour import hours_summary
from journal.quantities.money import costs_summary
from journal.quantities.place_plan import plan_of
from journal.quantities.stock import stock_balance

FRIDAY_24 = datetime(2026, 7, 24, 21, 0)
TUESDAY_21 = datetime(2026, 7, 21, 6, 0)


@cache
def demo(until: datetime | None = None) -> Book:
    return book_from_memos(until=until)


def at(place: str) -> Answers:
    return answers(demo(), place)


def lot(what: str, until: datetime | None = None) -> dict[str, Any]:
    found = [row for row in stock_balance(demo(until)) if what in (row["what"] or "")]  # type: ignore[operator]
    assert len(found) == 1, found
    return found[0]


def test_boards_left() -> None:
    """40 - 4 - 4 = 32, counted 31 (one missing), + 12 = 43, 12 pieces at 46 1/2 are 4 boards: 39 = 312 bf."""
    row = lot("board")
    assert (row["section"], row["length_in"], row["species"]) == ("1x8", "144", "white pine")
    assert (row["balance"], row["booked"], row["counted"], row["missing"], row["board_feet"]) == (39, 32, 31, 1, 312.0)
    assert row["memos"] == [6, 7, 30, 34, 47, 54, 61]


def test_the_other_lots() -> None:
    """Nails: 8 lb of 10 left. Chinking 1 of 2, sealant 8, rafters all cut. Cup brushes: 14 used, none booked in."""
    assert {r["what"]: r["balance"] for r in stock_balance(demo())} == {
        "board": 39, "pound of eight penny ring shank nail": 8, "pail of chinking": 1, "rafter": 0, "tube of sealant": 8,
        "cup brush": None,
    }  # fmt: skip
    assert lot("cup brush")["notes"] == ["14 cup brushes used, none booked in"]


def test_is_the_stack_dry() -> None:
    """20 % on 29 July; EMC 11.9, 10.9, 12.6; 15 % about 21 Aug (19 to 24)."""
    (row,) = drying(demo())
    assert (row["place"], row["emc"]) == ("drying shed", 11.8)
    assert (row["expected"], row["between"]) == ("2026-08-21", ["2026-08-19", "2026-08-24"])
    assert [reading["value"] for reading in row["readings"]] == [28, 25.5, 23.5, 22, 20]  # type: ignore[attr-defined]
    (balance,) = [v for v in at("drying shed").quantities if v.name == "moisture of the air's balance"]
    assert balance.shown == "11.8 % the mean of 11.9, 10.9, 12.6"


def test_what_the_lake_gable_cost() -> None:
    """25.0 h x 35 = 875.00; 8 boards = 64 bf x 1.85 = 118.40; 2 lb nails 4.80: 998.20. Delivery not shared."""
    assert shown(at("lake gable"), "cost so far") == {
        "cost so far": "$998.20 (25 h 875.00 + 1x8 white pine board 12' 0\" 118.40 + pound of eight penny ring shank nail 4.80)"
    }
    assert costs_summary(demo(), "lake gable")[-1]["amount"] == 998.2


def test_hours() -> None:
    """69.5: lake gable 25, wall A 24.5, porch roof 15 (its ceiling 4), drying shed 2, no place 3; 6.25 was replaced."""
    totals: dict[str | None, float] = {}
    for row in hours_summary(demo())[:-1]:
        totals[row["place"]] = totals.get(row["place"], 0) + row["hours"]  # type: ignore[index, arg-type, operator]
    assert totals == {
        "lake gable": 25, "wall A": 24.5, "porch roof": 11, "porch roof ceiling": 4, "drying shed": 2, None: 3,
    }  # fmt: skip
    assert hours_summary(demo())[-1] == {"total": True, "hours": 69.5}
    assert hours_summary(demo(), "porch roof")[-1] == {"total": True, "hours": 15}


def test_what_changed_since_tuesday() -> None:
    """By Friday the pine was counted and topped up, the price went from 1.85 to 2.05, sealant to buy from 12 to 4."""
    before, after = lot("board", TUESDAY_21), lot("board", FRIDAY_24)
    assert (before["balance"], before["counted"]) == (32, None)
    assert (after["balance"], after["counted"]) == (43, 31)
    prices = [
        r["amount"] for r in costs_summary(demo(FRIDAY_24)) if r.get("kind") == "price" and r["per"] == "board foot"
    ]
    assert prices == [1.85, 2.05]
    for until, count in ((TUESDAY_21, 12), (FRIDAY_24, 4)):
        assert [r["count"] for r in buy_list(demo(until)) if r["what"] == "tube of sealant"] == [count]
    assert lot("rafter", FRIDAY_24)["balance"] == 0


def test_what_to_buy() -> None:
    """2 pails of chinking (need 4, received 2, 1 used), 4 tubes of sealant, 2 rolls of felt."""
    assert [(r["shown"], r["because"]) for r in buy_list(demo())] == [
        ("2 pails of chinking", [17]),
        ("4 tubes of sealant", [17]),
        ("2 rolls of felt", [69]),
    ]


def test_money_spent() -> None:
    """1,230.40: pine 592.00 + 196.80, chinking 192.00, rafters 102.60, delivery 65.00, sealant 58.00, nails 24.00."""
    rows = costs_summary(demo())
    spent = [row["amount"] for row in rows if row.get("kind") == "spent"]
    assert sorted(spent, reverse=True) == [592.0, 196.8, 192.0, 102.6, 65.0, 58.0, 24.0]  # type: ignore[type-var]
    assert rows[-1] == {"total": True, "amount": 1230.4, "without_price": []}


def test_wall_a_materials() -> None:
    """9 courses, 127.5 ft, chinking 3.73 gal a face, 2 pails for both with waste; 9.5 ft² a cup brush; 9.4 ft an hour."""
    wall = shown(at("wall A"), "courses", "joint length", "chinking at the mean gap", "pails of chinking", "area a piece",
                 "pace of chinking", "hours")  # fmt: skip
    assert wall == {
        "courses": "9",
        "joint length": "127.5 ft on a face, 8 joints",
        "chinking at the mean gap": '3.73 gal a face, all joints 1 1/2"',
        "pails of chinking": "2 of 5 gal",
        "area a piece [cup brush]": "9.5 ft² for each of 14, one face of 132.4 ft²",
        "pace of chinking": "9.4 ft an hour, 127.5 ft in 13.5 h, if one face is done",
        "hours": "24.50 h",
    }


def test_nails_and_boards_of_the_lake_gable() -> None:
    """108 nails, 1.13 lb with waste; 8d through board and strapping go 1 in. in; the 31 open pieces take 6, all 32 take 7."""
    assert shown(at("lake gable"), "nails", "pounds of nails", "nail penetration") == {
        "nails": "108 in 32 pieces",
        "pounds of nails": "1.13 lb of 8d, 2 to buy; lists differ by 15 %",
        "nail penetration [8d]": '1" of a 8d behind board and strapping; six diameters are 0.79 in. Sinkers are shorter',
    }
    row = plan_of(demo(), "lake gable").row()
    assert (row["boards"], row["bound"], row["met"]) == (6, 6, True)
    assert row["whole"] == {"pieces": 32, "boards": 7, "bound": 7, "met": True}
