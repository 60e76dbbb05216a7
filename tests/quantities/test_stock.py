"""Stock: received, used, cut and counted make a balance; what cannot be known is not guessed. Rules of the trade (CP)."""

from __future__ import annotations

from typing import Any

import pytest
from books import book, setting
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.lengths import FOOT, INCH
from journal.quantities.base import Book
from journal.quantities.stock import ledger, stock_balance
from journal.records import EVENTS, Doubt, Span, Stock, StockEvent

Row = dict[str, Any]


def pine(event: StockEvent, count: float | None, **more: Any) -> Stock:
    """White pine 1x8 boards 12 ft long; `more` changes or takes away fields."""
    said: dict[str, Any] = {"what": "board", "section": "1x8", "species": "white pine", "length_ticks": 12 * FOOT}
    return Stock(event=event, count=count, **(said | more))


def boards(event: StockEvent, count: float | None, **more: Any) -> Stock:
    """Boards as they are spoken of later: "four pine boards"."""
    return Stock(event=event, count=count, what="board", species="pine", **more)


def only(made: Book) -> Row:
    rows = stock_balance(made)
    assert len(rows) == 1, rows
    return rows[0]


def test_the_pine_of_the_bunkhouse() -> None:
    """40 - 4 - 4 = 32, counted 31: 1 missing; + 12 = 43; 12 pieces at 46 1/2 take 4 boards: 39, which are 312 bf."""
    row = only(
        book(
            pine("received", 40),
            boards("stacked", 40, place="drying shed"),
            boards("used", 4, place="lake gable"),
            boards("used", 4, place="lake gable"),
            boards("have", 31),
            pine("received", 12, species="pine"),
            Stock(event="cut", count=12, what="board", section="1x8", species="pine", length_ticks=46 * INCH + INCH // 2,
                  place="porch roof ceiling"),
        )
    )  # fmt: skip
    assert (row["what"], row["section"], row["length_in"], row["species"]) == ("board", "1x8", "144", "white pine")
    assert (row["balance"], row["unit"], row["board_feet"]) == (39, "board", 312.0)
    assert (row["booked"], row["counted"], row["missing"]) == (32, 31, 1)
    assert row["memos"] == [1, 2, 3, 4, 5, 6, 7]
    assert row["notes"] == [
        "book 32, counted 31 on Mon 13 Jul, memo 5: 1 missing",
        '12 cut at 46 1/2", 3 to a board: 4 boards',
    ]
    assert row["shown"] == "39 boards, 312.0 bf"


def test_what_changes_no_balance() -> None:
    """What was moved, ordered or wished for is no stock; what is on order is what has not come since."""
    row = only(book(pine("received", 10), pine("need", 30), pine("ordered", 20), pine("stacked", 10)))
    assert (row["balance"], row["on_order"]) == (10, 20)
    row = only(book(pine("ordered", 20), pine("received", 12)))
    assert (row["balance"], row["on_order"]) == (12, 8)


def test_never_booked_in() -> None:
    """14 cup brushes used of which none came in are not -14: the balance is unknown and the note says how many."""
    row = only(book(Stock(event="used", count=14, what="cup brush", place="wall A")))
    assert (row["balance"], row["booked"], row["used"]) == (None, None, 14)
    assert row["notes"] == ["14 cup brushes used, none booked in"]
    row = only(book(pine("stacked", 40)))
    assert (row["balance"], row["notes"]) == (None, ["40 boards stacked, none booked in"])


def test_below_zero_names_the_memo() -> None:
    """Using more than there were makes the balance unknown with a sentence; a count makes it known again."""
    said = [pine("received", 5), boards("used", 8)]
    row = only(book(*said))
    assert row["balance"] is None
    assert row["notes"] == ["memo 2: 8 boards used, but only 5 boards were there by the book. Count them"]
    row = only(book(*said, boards("have", 2)))
    assert (row["balance"], row["missing"]) == (2, None)


def test_a_count_above_the_book() -> None:
    """More counted than booked is shown too, and what comes later adds to the count."""
    row = only(book(pine("received", 5), boards("left over", 7), pine("received", 3)))
    assert (row["balance"], row["missing"]) == (10, -2)
    assert row["notes"] == ["book 5, counted 7 on Mon 13 Jul, memo 2: 2 more than booked"]


def test_used_cut_and_left_over_in_one_breath() -> None:
    """ "Used nineteen, cut eleven, two left over": the cut is part of the used, what is left over is the count (CP)."""
    row = only(
        book(
            pine("received", 24),
            [boards("used", 19), boards("cut", 11, length_ticks=40 * INCH), boards("left over", 2)],
        )
    )
    assert (row["balance"], row["booked"], row["missing"]) == (2, 5, 3)
    assert row["notes"][0] == "memo 2: 11 cut, part of what it says was used"


def test_cuts_after_used_are_asked_about() -> None:
    """Boards used at a place and pieces cut for it later may be the same ones: counted once, and asked."""
    made = book(
        pine("received", 24),
        boards("used", 4, place="lake gable"),
        boards("cut", 6, length_ticks=40 * INCH, place="lake gable"),
    )
    asked = "memo 3: 6 cut for lake gable: of those that memo 2 used there? Taken so"
    assert only(made)["balance"] == 20
    assert only(made)["shown"] == "20 boards, 160.0 bf ~"
    assert [question.shown for question in ledger(made).questions] == [asked]


def test_pieces_said_one_by_one_share_boards() -> None:
    """Twelve pieces of 46 1/2 reported one at a time still take 4 boards, not 12."""
    one = boards("cut", 1, length_ticks=46 * INCH + INCH // 2, place="porch")
    assert only(book(pine("received", 40), *[one] * 12))["balance"] == 36


@pytest.mark.parametrize(
    ("said", "note"),
    [
        (boards("cut", 3), "memo 2: 3 1x8 white pine board 12' 0\" cut: how long? Say the length, so that the boards can be counted"),
        (boards("used", None), "memo 2: used, no count was said. Say how many"),
        (boards("used", -3), "memo 2: used, -3 is no count. Say how many"),
    ],
)  # fmt: skip
def test_what_was_not_said_leaves_the_balance_open(said: Stock, note: str) -> None:
    """A cut without its length, a use without a count or below nothing: unknown, at most what was there, and what to say."""
    row = only(book(pine("received", 40), said))
    assert (row["balance"], row["at_most"], row["notes"]) == (None, 40, [note])


def test_boards_of_unknown_length_are_asked_for() -> None:
    """Pieces cut from boards whose length was never said cannot be counted as boards."""
    row = only(book(boards("received", 10), boards("cut", 6, length_ticks=40 * INCH)))
    assert row["balance"] is None
    assert row["notes"] == ['memo 2: 6 cut at 40": from boards how long? Say their length, so that they can be counted']


def test_two_lots_that_fit_are_asked_about() -> None:
    """ "Four pine boards" with two kinds of pine there: neither is booked, both are marked, the question names them."""
    made = book(pine("received", 40), pine("received", 10, section="1x10"), boards("used", 4))
    rows = stock_balance(made)
    asked = "memo 3: used 4 pine board: which, 1x8 white pine board 12' 0\" or 1x10 white pine board 12' 0\"? Say which"
    assert [(row["balance"], row["notes"]) for row in rows] == [(40, [asked]), (10, [asked])]
    assert all(row["shown"].endswith(" ~") for row in rows)
    assert [(question.shown, question.memos) for question in ledger(made).questions] == [(asked, (3,))]


def test_other_lengths_and_sections_are_other_lots() -> None:
    """Length, section and species keep lots apart; a cut finds the lot that is long enough."""
    made = book(
        pine("received", 40),
        pine("received", 6, length_ticks=8 * FOOT),
        Stock(event="received", count=9, what="rafter", section="2x6", species="spruce", length_ticks=10 * FOOT),
        Stock(event="cut", count=9, what="rafter", section="2x6", length_ticks=88 * INCH, place="porch roof"),
        boards("cut", 1, length_ticks=130 * INCH),
    )
    assert [(row["section"], row["length_in"], row["balance"]) for row in stock_balance(made)] == [
        ("1x8", "144", 39), ("1x8", "96", 6), ("2x6", "120", 0),
    ]  # fmt: skip


def test_a_thing_without_a_name_is_asked_for() -> None:
    """ "Need four" of nothing books nothing and asks."""
    made = book(Stock(event="need", count=4), pine("received", 3))
    assert only(made)["balance"] == 3
    assert [question.shown for question in ledger(made).questions] == ["memo 1: need 4 of what? Say what it was"]


def test_containers_and_their_contents() -> None:
    """ "One pail" fits the only pails there are; a tube of sealant is no pail of it; halves are kept."""
    made = book(
        Stock(event="received", count=2, what="pail of chinking"),
        Stock(event="received", count=8, what="tube of sealant"),
        Stock(event="used", count=0.5, what="pail"),
    )
    assert [(row["unit"], row["balance"], row["shown"]) for row in stock_balance(made)] == [
        ("pail", 1.5, "1 1/2 pails"),
        ("tube", 8, "8 tubes"),
    ]


def test_lumber_by_the_board_foot() -> None:
    """What was said only in board feet is a lot counted in them."""
    row = only(
        book(
            Stock(event="received", board_feet=300, species="pine"), Stock(event="used", board_feet=64, species="pine")
        )
    )
    assert (row["balance"], row["unit"], row["board_feet"]) == (236, "board foot", 236.0)


def test_count_and_board_feet_of_one_load() -> None:
    """Of unsized boards the board feet said go by the piece; of sized ones a figure that does not fit is told."""
    row = only(book(boards("received", 40, board_feet=300), boards("used", 10)))
    assert (row["balance"], row["board_feet"]) == (30, 225.0)
    row = only(book(pine("received", 40, board_feet=350)))
    assert (row["board_feet"], row["notes"]) == (320.0, ["memo 1: 40 boards are 320.0 bf, 350.0 was said"])
    assert only(book(pine("received", 40, board_feet=320)))["notes"] == []


def test_hardwood_is_tallied_board_by_board() -> None:
    """Oak 1 x 9 1/2 x 10 ft 1 1/2 thick is 12 bf a board (LUM-020, hardwood rules), pine of that size 11.875."""
    said: dict[str, Any] = {
        "event": "received",
        "count": 10,
        "what": "board",
        "section": "1 1/2x9 1/2",
        "length_ticks": 10 * FOOT,
    }
    assert only(book(Stock(species="white oak", **said)))["board_feet"] == 120.0
    assert only(book(Stock(species="pine", **said)))["board_feet"] == 118.8


def test_full_sawn_stock_goes_by_its_actual_size_where_that_is_set() -> None:
    """Boards of 3/4 x 8 count as 1 in. thick until the actual basis is set for the job."""
    thin = pine("received", 10, section="0.75x8")
    assert only(book(thin))["board_feet"] == 80.0
    assert only(book(thin, settings=(setting("board foot basis", "actual"),)))["board_feet"] == 60.0


def test_wishes_are_no_stock() -> None:
    """A lot that was only needed is not in the stock."""
    assert stock_balance(book(Stock(event="need", count=2, what="roll of felt"))) == []


def test_a_doubtful_count_is_shown_as_doubtful() -> None:
    """A doubt of any figure behind a balance stands beside it."""
    doubt = Doubt("heard", "fifteen or fifty?", Span(0, 4))
    row = only(book(pine("received", 50, doubts=(doubt,))))
    assert (row["shown"], row["doubts"]) == ("50 boards, 400.0 bf (doubtful)", ["fifteen or fifty?"])


def test_kerf_and_trim_are_inputs() -> None:
    """With 2 in. off each end only two pieces of 46 1/2 come out of a board; the setting stands for the job."""
    said = [pine("received", 40), boards("cut", 12, length_ticks=46 * INCH + INCH // 2)]
    assert only(book(*said))["balance"] == 36
    assert only(book(*said, settings=(setting("end trim", "2 1/4"),)))["balance"] == 34


stocks = st.builds(
    Stock,
    event=st.sampled_from(EVENTS),
    count=st.sampled_from([None, 0.0, -3.0, 1.0, 4.0, 2.5, 40.0, 1e9, float("inf"), float("nan")]),
    what=st.sampled_from([None, "board", "boards", "rafter", "pail of chinking", "pail", "cup brush", "of", ""]),
    section=st.sampled_from([None, "1x8", "2x6", "axb", "0x0"]),
    length_ticks=st.sampled_from([None, 0, -8128, 1, 40 * INCH, 12 * FOOT, 10**12]),
    species=st.sampled_from([None, "pine", "white pine", "spruce"]),
    board_feet=st.sampled_from([None, 0.0, 100.0, float("nan")]),
    place=st.sampled_from([None, "lake gable", "wall A"]),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.lists(stocks, min_size=1, max_size=3), max_size=10))
def test_no_stock_makes_the_balance_fail_or_go_below_nothing(said: list[list[Stock]]) -> None:
    """Whatever is said, the balance is a number from nothing upwards or unknown with a note that names a memo or a count."""
    for row in stock_balance(book(*said)):
        assert row["balance"] is None or row["balance"] >= 0
        if row["balance"] is None:
            assert row["notes"]
        if row["missing"] is not None:
            assert row["booked"] - row["counted"] == pytest.approx(row["missing"])
