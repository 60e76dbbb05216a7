"""What to get at the yard: needs met by what came since, cut lists against the boards there. Rules of the trade (CP)."""

from __future__ import annotations

from typing import Any

from books import book, m, setting, shown, slope
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.lengths import FOOT
from journal.quantities.base import answers
from journal.quantities.buy import buy_list
from journal.quantities.place_plan import next_to_cut, plan_of
from journal.records import Fact, Stock


def stock(event: str, count: float | None, what: str, **more: Any) -> Stock:
    return Stock(event=event, count=count, what=what, **more)  # type: ignore[arg-type]


def wanted(*said: Any, **more: Any) -> list[tuple[str, int, list[Any], Any]]:
    return [(r["shown"], r["count"], r["because"], r["on_order"]) for r in buy_list(book(*said, **more))]  # type: ignore[misc]


# the lake gable: 192 at 8/12, boards covering 6 7/8, no window
GABLE: tuple[Fact, ...] = (
    m("lake gable", "base width", "192"),
    slope("lake gable", 8),
    m(None, "width", "6 7/8", "1x8 pine"),
)
PINE: dict[str, Any] = {"section": "1x8", "species": "white pine", "length_ticks": 12 * FOOT}


def test_a_need_is_met_by_what_came_after_it() -> None:
    """Four pails needed, two came, one of them used: two to get; twelve tubes needed, eight came: four (trade notes)."""
    said = [
        [stock("need", 4, "pail of chinking"), stock("need", 12, "tube of sealant")],
        stock("received", 2, "pail of chinking"),
        stock("received", 8, "tube of sealant"),
        stock("used", 1, "pail of chinking"),
        stock("need", 2, "roll of felt"),
    ]
    assert wanted(*said) == [
        ("2 pails of chinking", 2, [1], 0),
        ("4 tubes of sealant", 4, [1], 0),
        ("2 rolls of felt", 2, [5], 0),
    ]
    assert wanted(*said, stock("received", 6, "pail"), stock("received", 4, "tube"), stock("received", 2, "roll")) == []


def test_what_is_there_and_on_order_is_not_bought_again() -> None:
    """Of ten needed, four are there and three on order: three to get, and it says how that was taken."""
    said = [stock("received", 4, "tube of sealant"), stock("need", 10, "tube of sealant"), stock("ordered", 3, "tube")]
    assert wanted(*said) == [("3 tubes of sealant", 3, [2], 3)]
    (row,) = buy_list(book(*said))
    assert row["notes"] == ["memo 2 asked for 10 with 4 there: 6 short. If 10 more are wanted, get those"]
    assert wanted(*said, stock("ordered", 3, "tube")) == []


def test_needs_of_two_places_add_up_and_of_one_place_the_newest_counts() -> None:
    """Four tubes for the door and six for the porch are ten; said anew for the door, the new figure stands."""
    door, porch = stock("need", 4, "tube", place="door"), stock("need", 6, "tube", place="porch")
    assert wanted(door, porch) == [("10 tubes", 10, [1, 2], 0)]
    assert wanted(door, stock("need", 5, "tube", place="door")) == [("5 tubes", 5, [2], 0)]


def test_a_part_of_a_package_is_bought_whole() -> None:
    """Two and a half pounds are three."""
    assert wanted(stock("need", 2.5, "pound of nails")) == [("3 pounds of nail", 3, [1], 0)]


def test_boards_that_the_cut_list_lacks() -> None:
    """The gable takes 7 boards of 12 ft; with 3 there four are to get, with 7 none; the larger of list and need counts."""
    row = ("4 boards, 1x8 white pine 12' 0\"", 4, ["cut list of lake gable"], 0)
    assert wanted(*GABLE, stock("received", 3, "board", **PINE)) == [row]
    assert wanted(*GABLE, stock("received", 7, "board", **PINE)) == []
    asked = stock("need", 9, "board", species="pine")
    assert wanted(*GABLE, stock("received", 3, "board", **PINE), asked) == [
        ("6 boards, 1x8 white pine 12' 0\"", 6, [5, "cut list of lake gable"], 0)
    ]


def test_the_plan_of_a_place() -> None:
    """The plan names its boards, bound, waste, lot and settings; the next piece to cut is the longest that is open."""
    made = book(*GABLE, stock("received", 40, "board", **PINE))
    row = plan_of(made, "lake gable").row()
    assert (row["boards"], row["bound"], row["met"], row["short"]) == (7, 7, True, 0)
    assert row["from"] == ["1x8 white pine board 12' 0\""]
    assert [line.split(" (")[0] for line in row["assumed"]] == [  # type: ignore[attr-defined]
        'kerf 1/8"', 'end trim 1"', 'put back over 24"', "boards set aside 0",
    ]  # fmt: skip
    assert next_to_cut(made, "lake gable")[0].label == "centre"
    told = shown(answers(made, "lake gable"), "cutting plan")
    assert told["cutting plan"].startswith("7 boards of 12' 0\" for 29 open pieces, the fewest that can do; ")


def test_a_plan_without_boards_asks_for_them() -> None:
    """Without a lot, or with one of unknown length, the plan says what to say."""
    assert plan_of(book(*GABLE), "lake gable").row()["missing"] == (
        'lake gable cutting plan needs the boards it is cut from. Say: "received … boards … foot long"'
    )
    bare = stock("received", 40, "board", section="1x8", species="pine")
    assert plan_of(book(*GABLE, bare), "lake gable").row()["missing"] == (
        'lake gable cutting plan needs the length of the 1x8 pine board. Say: "the boards are … foot long"'
    )


def test_a_kerf_wider_than_a_piece_is_told() -> None:
    """With the widest kerf the last sliver of the gable cannot be cut; the rest of the plan stands, the piece is named."""
    thin = (m("lake gable", "base width", "186 1/2"), *GABLE[1:])
    made = book(*thin, stock("received", 40, "board", **PINE), settings=(setting("kerf", "1/2"),))
    row = plan_of(made, "lake gable").row()
    slivers = [line for line in row["left_out"] if "no longer than the kerf" in line]  # type: ignore[attr-defined]
    pieces = {piece.label: piece.pack_ticks for piece in next_to_cut(made, "lake gable")}
    assert 0 < len(slivers) == sum(1 for ticks in pieces.values() if ticks <= 4064)
    assert row["boards"] == 7


def test_boards_too_short_for_the_long_pieces_name_them() -> None:
    """From 5-foot boards the pieces over 58 in. are left out by name and memo, the others are planned."""
    made = book(*GABLE, stock("received", 40, "board", **(PINE | {"length_ticks": 5 * FOOT})))
    row = plan_of(made, "lake gable").row()
    assert row["left_out"][:2] == [  # type: ignore[index]
        'piece centre (memo 1, 2, 3) is 64", longer than the longest board, 60" less 1" at each end',
        'piece L1 (memo 1, 2, 3) is 61 3/4", longer than the longest board, 60" less 1" at each end',
    ]


stocks = st.builds(
    Stock, event=st.sampled_from(["need", "ordered", "received", "used", "have", "cut"]),
    count=st.sampled_from([None, 0.0, 2.0, 7.5, 40.0, -2.0, float("nan")]), what=st.sampled_from([None, "board", "tube", "tube of sealant"]),
    section=st.sampled_from([None, "1x8"]), species=st.sampled_from([None, "pine", "white pine"]),
    length_ticks=st.sampled_from([None, 0, 12 * FOOT, 6 * FOOT]), place=st.sampled_from([None, "lake gable"]),
)  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(st.lists(stocks, max_size=8))
def test_no_stock_makes_the_list_fail(said: list[Stock]) -> None:
    """Whatever is in stock, what to buy is a whole number above nothing that says which memo or list asks for it."""
    for row in buy_list(book(*GABLE, *said)):
        assert isinstance(row["count"], int)
        assert row["count"] > 0
        assert row["because"]
