"""Hours and money: what adds up, what is priced by which price, and what a place has cost. Rules of the trade (CP)."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from books import DAY_ONE, book, disagree, m, says, setting, shown, slope
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.lengths import FOOT
from journal.quantities.accounts import accounts, quantity_for
from journal.quantities.base import answers
from journal.quantities.labour import hours_summary
from journal.quantities.money import costs_summary, covered_cost
from journal.records import Cost, Hours, Span, Stock

PINE = Stock(event="received", count=40, what="board", section="1x8", species="white pine", length_ticks=12 * FOOT)


def used(count: float, place: str | None = "lake gable", what: str = "board", **more: Any) -> Stock:
    return Stock(event="used", count=count, what=what, place=place, **more)


def spent(rows: list[dict[str, Any]]) -> dict[str, float]:
    return {row["what"]: row["amount"] for row in rows if row.get("kind") == "spent"}


# ---- hours -----------------------------------------------------------------------------------------------------------


def test_hours_by_place_day_and_week() -> None:
    """Hours sum by place and activity, by day or by week; "yesterday" counts for its own day."""
    made = book(
        Hours(place="wall A", hours=7, activity="chinking"),
        Hours(place="wall A", hours=6.5, activity="chinking"),
        Hours(place="porch roof ceiling", hours=4, on=date(2026, 7, 20)),
        Hours(hours=3),
    )
    assert [(r.get("place"), r.get("activity"), r["hours"]) for r in hours_summary(made)] == [
        ("porch roof ceiling", None, 4), ("wall A", "chinking", 13.5), (None, None, 3), (None, None, 20.5),
    ]  # fmt: skip
    assert [(r.get("day"), r["hours"]) for r in hours_summary(made, by="day", place="porch roof")] == [
        ("2026-07-20", 4),
        (None, 4),
    ]
    assert [r.get("week") for r in hours_summary(made, by="week", place="wall A")] == ["2026-W29", None]


def test_a_day_of_more_than_sixteen_hours_is_asked_about() -> None:
    """Hours that make a day of more than 16 are told, with their memos, and still counted."""
    said = answers(book(*[Hours(place="wall A", hours=9)] * 2), "wall A")
    assert disagree(said) == ["18 hours on Mon 13 Jul (memos 1 and 2): is one of them said twice?"]
    assert shown(said, "hours") == {"hours": "18.00 h"}


def test_what_belongs_to_a_place_stands_apart() -> None:
    """The hours of "porch roof ceiling" are under "porch roof", on their own line."""
    made = book(Hours(place="porch roof", hours=11), Hours(place="porch roof ceiling", hours=4))
    assert shown(answers(made, "porch roof"), "hours") == {"hours": "11.00 h", "hours [porch roof ceiling]": "4.00 h"}


# ---- prices ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("per", "dollars"),
    [
        ("board foot", 2 * 320), ("foot", 2 * 480), ("each", 2 * 40), ("board", 2 * 40), ("thousand", 2 * Fraction(320, 1000)),
        ("total", 2), ("pail", None), ("square", None),
    ],
)  # fmt: skip
def test_a_price_counts_in_its_unit(per: str, dollars: Fraction | None) -> None:
    """40 boards 1x8x12 are 320 board feet, 480 feet, 40 pieces; a price by the pail is no expense of boards."""
    made = book([PINE, Cost(amount=2, per=per, what="pine")])
    assert accounts(made).spent == (dollars or 0)


def test_a_price_goes_with_the_receipt_it_is_said_of() -> None:
    """Two things in one breath: each price finds its own by name, then by unit, then by the nearest before it."""
    pails = Stock(event="received", count=2, what="pail of chinking", evidence=Span(0, 20))
    rafters = Stock(
        event="received", count=9, what="rafter", section="2x6", length_ticks=10 * FOOT, evidence=Span(60, 90)
    )
    by_name = [
        pails,
        rafters,
        Cost(amount=96, per="pail", what="chinking"),
        Cost(amount=11.4, per="each", what="rafter"),
    ]
    by_order = [
        pails,
        Cost(amount=96, per="each", evidence=Span(30, 40)),
        rafters,
        Cost(amount=11.4, per="each", evidence=Span(95, 99)),
    ]
    for said in (by_name, by_order):
        assert spent(costs_summary(book(said))) == {"pail of chinking": 192.0, '2x6 rafter 120"': 102.6}


def test_a_receipt_without_a_price_takes_the_nearest() -> None:
    """The price said nearest before, else the first one after; never the newest for older material."""
    cost = Cost(amount=1.85, per="board foot", what="pine")
    later = Cost(amount=2.05, per="board foot", what="white pine")
    assert accounts(book(cost, PINE, later)).spent == 592
    assert accounts(book(PINE, later, cost)).spent == 656


def test_a_price_without_material_is_no_expense() -> None:
    """ "Pine is two ten now" costs nothing; it stands among the prices."""
    rows = costs_summary(book(Cost(amount=2.1, per="board foot", what="pine")))
    assert [(r.get("kind"), r["amount"], r.get("per")) for r in rows] == [
        ("price", 2.1, "board foot"),
        (None, 0.0, None),
    ]


def test_what_came_without_a_price_is_named() -> None:
    """A receipt that no price fits is no silent nothing: the total says which, and why."""
    boxes = Stock(event="received", count=2, what="box of nails")
    made = book(
        [boxes, Cost(amount=2.4, per="pound", what="nails")], Stock(event="received", count=6, what="tube of sealant")
    )
    assert costs_summary(made)[-1] == {
        "total": True,
        "amount": 0.0,
        "without_price": [
            "box of nail (memo 1): $2.40 a pound is no price of it",
            "tube of sealant (memo 2): no price said",
        ],
    }


def test_a_total_said_twice_counts_once() -> None:
    """A bill that equals price x quantity is the same money; one that does not is counted and asked about."""
    priced = [PINE, Cost(amount=1.85, per="board foot", what="pine")]
    assert accounts(book(priced, Cost(amount=592, what="pine"))).spent == 592
    other = accounts(book(priced, Cost(amount=100, what="pine")))
    assert other.spent == 692
    assert [question.shown for question in other.questions] == [
        "pine came to $100.00 (memo 2) and to $592.00 by its price (memo 1): the same money? Both are counted."
    ]


def test_one_total_for_a_whole_load() -> None:
    """ "Forty boards and two pails, six hundred in all" is spent once, whatever prices are known."""
    load = [PINE, Stock(event="received", count=2, what="pail of chinking"), Cost(amount=600)]
    assert accounts(book(Cost(amount=1.85, per="board foot", what="pine"), load)).spent == 600


# ---- what a place has cost -------------------------------------------------------------------------------------------


def test_the_lake_gable_of_the_trade_notes() -> None:
    """25.0 h x 35 + 64 bf x 1.85 + 2 lb nails at 2.40 = 998.20; the later 2.05 and the delivery do not touch it."""
    nails = Stock(event="received", count=10, what="pound of eight penny ring shank nails")
    made = book(
        [PINE, Cost(amount=1.85, per="board foot", what="white pine board")],
        [nails, Cost(amount=2.4, per="pound")],
        Hours(place="lake gable", hours=9.5),
        [used(4, species="pine"), used(1, what="pound of nails")],
        [Hours(place="lake gable", hours=15.5), Cost(amount=35, per="hour", what="time")],
        [used(4, species="pine"), used(1, what="pound of nails")],
        Cost(amount=65, what="delivery"),
        [replace(PINE, count=12), Cost(amount=2.05, per="board foot", what="pine")],
    )
    assert shown(answers(made, "lake gable"), "cost so far") == {
        "cost so far": "$998.20 (25 h 875.00 + 1x8 white pine board 12' 0\" 118.40 + pound of eight penny ring shank nail 4.80)"
    }
    assert costs_summary(made, "lake gable")[-1] == {
        "total": True,
        "amount": 998.2,
        "place": "lake gable",
        "without_price": [],
    }
    assert costs_summary(made)[-1] == {"total": True, "amount": 592 + 24 + 65 + 196.8, "without_price": []}


def test_material_is_used_first_in_first_out() -> None:
    """50 boards used of 40 at 1.85 and 12 at 2.05: the last ten cost what the second load cost."""
    made = book(
        [PINE, Cost(amount=1.85, per="board foot", what="pine")],
        [replace(PINE, count=12), Cost(amount=2.05, per="board foot", what="pine")],
        used(50),
    )
    assert accounts(made).used[0].dollars == 40 * 8 * Fraction("1.85") + 10 * 8 * Fraction("2.05")


def test_what_has_no_price_is_missing_and_marked() -> None:
    """Hours without a rate and brushes without a price are asked for; what is known is marked ``~``."""
    made = book(
        [PINE, Cost(amount=1, per="board foot")], used(1), used(3, what="cup brush"), Hours(place="lake gable", hours=2)
    )
    said = answers(made, "lake gable")
    assert [line for line in says(said) if "cost" in line] == [
        'lake gable cost needs a price for the hours. Say: "my time is … an hour"',
        'lake gable cost needs a price for cup brush. Say: "cup brush … each"',
    ]
    assert shown(said, "cost so far") == {
        "cost so far": "$8.00 ~ (1x8 white pine board 12' 0\" 8.00; without 2 h, cup brush)"
    }


def test_an_hourly_rate_covers_the_hours_before_it() -> None:
    """A rate counts from when it was said and for earlier hours that had none; a hired machine's is no rate of one's own."""
    made = book(
        Hours(place="wall A", hours=1),
        Cost(amount=35, per="hour", what="my time"),
        Hours(place="wall A", hours=1),
        Cost(amount=40, per="hour"),
        Cost(amount=90, per="hour", what="digger"),
        Hours(place="wall A", hours=1),
    )
    assert shown(answers(made, "wall A"), "cost so far") == {"cost so far": "$110.00 (3 h 110.00)"}
    rate = book(Hours(place="wall A", hours=2), settings=(setting("hourly rate", "30"),))
    assert shown(answers(rate, "wall A"), "cost so far") == {"cost so far": "$60.00 (2 h 60.00)"}


def test_yard_against_sawmill_by_the_square_foot_covered() -> None:
    """Rough 1.85 + 0.35 planing, 12 %: 2.87; dressed 2.60, 5 %: 3.18; 1x8 covering 6 7/8 (trade notes, worked by hand)."""
    face = Fraction(55, 8)
    rough = covered_cost(Fraction("1.85"), Fraction("0.35"), Fraction(8), face, Fraction(12))
    yard = covered_cost(Fraction("2.60"), Fraction(0), Fraction(8), face, Fraction(5))
    assert (round(float(rough), 2), round(float(yard), 2)) == (2.87, 3.18)
    with pytest.raises(ValueError, match=r"^a board that covers nothing covers no wall$"):
        covered_cost(Fraction(1), Fraction(0), Fraction(8), Fraction(0), Fraction(0))


def test_prices_side_by_side_on_a_gable() -> None:
    """On a gable in 1x8 covering 6 7/8 each pine price shows what it comes to, planing added to the rough one only."""
    made = book(
        m("lake gable", "base width", "192"),
        slope("lake gable", 8),
        m(None, "width", "6 7/8", "1x8 pine"),
        Cost(amount=1.85, per="board foot", what="rough pine"),
        Cost(amount=0.35, per="board foot", what="planing"),
        Cost(amount=2.6, per="board foot", what="dressed pine"),
        Cost(amount=3, per="board foot", what="oak"),
        settings=(setting("siding waste", "12"),),
    )
    assert shown(answers(made, "lake gable"), "cost by the square foot") == {
        "cost by the square foot [rough pine]": "$2.87 a square foot covered, from $1.85 a board foot and planing $0.35",
        "cost by the square foot [dressed pine]": "$3.39 a square foot covered, from $2.60 a board foot",
    }


costs = st.builds(
    Cost, amount=st.sampled_from([0.0, 2.1, -5.0, 1e9, float("nan"), float("inf")]),
    per=st.sampled_from(["total", "each", "board foot", "hour", "thousand", "pail", "", "foot"]),
    what=st.sampled_from([None, "pine", "chinking", "time", "delivery", ""]), place=st.sampled_from([None, "wall A"]),
)  # fmt: skip
stocks = st.builds(
    Stock, event=st.sampled_from(["received", "used", "have", "cut"]), count=st.sampled_from([None, 0.0, 2.0, 40.0, -1.0]),
    what=st.sampled_from([None, "board", "pail of chinking"]), section=st.sampled_from([None, "1x8", "xx"]),
    species=st.sampled_from([None, "pine"]), length_ticks=st.sampled_from([None, 0, 12 * FOOT]), place=st.just("wall A"),
)  # fmt: skip
hours = st.builds(
    Hours, hours=st.sampled_from([0.0, 2.5, -1.0, float("nan"), 1e9]), place=st.sampled_from([None, "wall A"])
)


@settings(max_examples=120, deadline=None)
@given(st.lists(st.lists(st.one_of(costs, stocks, hours), min_size=1, max_size=4), max_size=8))
def test_money_never_fails_and_never_goes_below_nothing(said: list[list[Any]]) -> None:
    """Whatever is said, the summaries come out, no amount is below nothing, and each row names memos of the book."""
    made = book(*said)
    for row in [*costs_summary(made), *costs_summary(made, "wall A"), *hours_summary(made)]:
        assert row.get("amount") is None or row["amount"] >= 0  # type: ignore[operator]
        assert set(row.get("memos", [])) <= set(range(1, len(said) + 1))  # type: ignore[call-overload]
    assert accounts(made) is accounts(made)
    assert made.as_of > DAY_ONE


def test_a_unit_that_fits_nothing_is_none() -> None:
    """A price by the square of a lot without a size has no quantity."""
    from journal.quantities.lots import Name

    assert quantity_for("square", Name("board"), Fraction(3), None) is None
    assert quantity_for("foot", Name("board"), Fraction(3), None) is None
    assert quantity_for("thousand", Name("nail"), Fraction(500), None) == Fraction(1, 2)
