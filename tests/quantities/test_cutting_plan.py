"""The cutting plan: never worse than best fit decreasing, nearly always at the bound, confirmed by a general solver."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.lengths import INCH, round_ticks
from journal.quantities.cutting_plan import Cut, CuttingPlan, Lot, cutting_plan
from journal.quantities.packing import best_fit_decreasing, lower_bound, pack, volume_bound

KERF, TRIM = INCH // 8, INCH
SIXTEENTH = INCH // 16


def ticks(text: str) -> int:
    whole, _, part = text.partition(" ")
    top, _, bottom = part.partition("/")
    return int(whole) * INCH + (int(top) * INCH // int(bottom) if part else 0)


def cuts(*sizes: str) -> list[Cut]:
    return [Cut(str(number), ticks(size)) for number, size in zip(count(1), sizes, strict=False)]


def fits(plan: CuttingPlan, kerf: int = KERF, trim: int = TRIM) -> bool:
    return all(
        sum(cut.length_ticks for cut in board.cuts) + (len(board.cuts) - 1) * kerf <= board.length_ticks - 2 * trim
        for board in plan.boards
    )


def lake_gable() -> list[Cut]:
    """The pieces of a 192 in. gable at 8/12 in boards covering 6 7/8, one on the centre, round a 24 1/2 x 30 window 14 up.

    Long point of board k: 64 - (k - 1/2) x 6 7/8 x 8/12, rounded up to 1/16; the centre board and board 1 are in two pieces.
    """
    pieces = cuts("14", "20")
    for side in "LR":
        for k in range(1, 15):
            exact = (64 - (k - Fraction(1, 2)) * Fraction(55, 8) * Fraction(2, 3)) - (44 if k == 1 else 0)
            pieces.append(Cut(f"{side}{k}", round_ticks(exact * INCH, rounding="up")))
        pieces.append(Cut(f"{side}1 below", ticks("14")))
    return pieces


def test_the_lake_gable_takes_seven_boards() -> None:
    """32 pieces, 868 1/4 in., from 12-foot boards with 1/8 kerf and 1 in. off each end: 7, and 7 is the bound."""
    pieces = lake_gable()
    assert (len(pieces), sum(cut.length_ticks for cut in pieces)) == (32, ticks("868 1/4"))
    plan = cutting_plan(pieces, [Lot(144 * INCH)], KERF, TRIM)
    assert (len(plan.boards), plan.bound, plan.met) == (7, 7, True)
    assert fits(plan)
    assert sorted(cut.name for board in plan.boards for cut in board.cuts) == sorted(cut.name for cut in pieces)


def _random_case(rng: random.Random, low: float, high: float) -> tuple[list[int], int]:
    """Pieces to 1/16 in. with their kerf, and the room of a 12-foot board trimmed 1 in. an end, plus one kerf."""
    many = rng.randint(20, 60)
    return [round(rng.uniform(low, high) * 16) * SIXTEENTH + KERF for _ in range(many)], 142 * INCH + KERF


def test_the_bound_is_met_in_95_of_100_random_cases() -> None:
    """Of 200 random lists of 20 to 60 pieces up to half a board at least 95 % take as many boards as the bound says."""
    rng = random.Random(20260730)
    met = 0
    for _ in range(200):
        sizes, room = _random_case(rng, 6, 72)
        bins = pack(sizes, room)
        assert sorted(i for chosen in bins for i in chosen) == list(range(len(sizes)))
        assert all(sum(sizes[i] for i in chosen) <= room for chosen in bins)
        assert len(bins) <= len(best_fit_decreasing(sizes, room))
        met += len(bins) == volume_bound(sizes, room)
    assert met >= 190


@pytest.mark.parametrize("seed", range(12))
def test_a_general_solver_finds_no_plan_with_fewer_boards(seed: int) -> None:
    """OR-tools (CP-SAT, test-only) proves for lists of 12 to 16 pieces of any size that one board less will not do."""
    cp_model = pytest.importorskip("ortools.sat.python.cp_model")
    rng = random.Random(seed)
    sizes = [round(rng.uniform(10, 120) * 16) * SIXTEENTH + KERF for _ in range(rng.randint(12, 16))]
    room = 142 * INCH + KERF
    fewer = len(pack(sizes, room)) - 1
    if fewer < lower_bound(sizes, room):
        return  # one board less is below a bound that nothing beats
    model = cp_model.CpModel()
    holds = [[model.new_bool_var("") for _ in range(fewer)] for _ in sizes]
    for row in holds:
        model.add_exactly_one(row)
    for board in range(fewer):
        model.add(sum(size * row[board] for size, row in zip(sizes, holds, strict=True)) <= room)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 20
    assert solver.solve(model) == cp_model.INFEASIBLE


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.integers(1, 2400), min_size=1, max_size=40),
    st.lists(st.tuples(st.integers(300, 2600), st.one_of(st.none(), st.integers(0, 9))), min_size=1, max_size=4),
    st.integers(0, 6),
    st.integers(0, 40),
)
def test_every_piece_is_planned_left_out_or_short(
    sizes: list[int], boards: list[tuple[int, int | None]], kerf: int, trim: int
) -> None:
    """Whatever the lots, no piece is lost or cut twice, no board is overfull, no lot gives more boards than it has."""
    pieces = [Cut(str(i), size * SIXTEENTH) for i, size in enumerate(sizes)]
    lots = [Lot(size * SIXTEENTH, many, name=str(i)) for i, (size, many) in enumerate(boards)]
    plan = cutting_plan(pieces, lots, kerf * SIXTEENTH, trim * SIXTEENTH)
    planned = [cut for board in plan.boards for cut in board.cuts]
    everywhere = [cut.name for cut in (*planned, *(cut for cut, _ in plan.left_out), *plan.short)]
    assert sorted(everywhere) == sorted(cut.name for cut in pieces)
    assert fits(plan, kerf * SIXTEENTH, trim * SIXTEENTH)
    for lot in lots:
        if lot.there is not None:
            assert sum(board.lot == lot.name for board in plan.boards) <= lot.there
    assert len(plan.boards) >= plan.bound or plan.short
    assert 0 <= plan.waste_percent <= 100


def test_pieces_that_no_board_takes_are_named() -> None:
    """A piece longer than the boards, one no longer than the kerf and one of nothing are each left out with a sentence."""
    pieces = [Cut("L2", ticks("143"), (12,)), Cut("L14", ticks("0 1/8"), (12,)), Cut("x", 0, (3, 4)), *cuts("40")]
    plan = cutting_plan(pieces, [Lot(144 * INCH)], KERF, TRIM)
    assert [why for _, why in plan.left_out] == [
        'piece L2 (memo 12) is 143", longer than the longest board, 12\' 0" less 1" at each end',
        'piece L14 (memo 12) is 1/8", no longer than the kerf of 1/8"',
        "piece x (memo 3, 4) has no length",
    ]
    assert [cut.name for board in plan.boards for cut in board.cuts] == ["1"]


def test_without_boards_nothing_is_planned() -> None:
    """With no board, or only boards that are all trim or set aside, each piece says so."""
    for lots in ([], [Lot(2 * INCH)], [Lot(144 * INCH, 3, set_aside=3)]):
        plan = cutting_plan(cuts("40"), lots, KERF, TRIM)
        assert plan.boards == ()
        assert [why for _, why in plan.left_out] == ['piece 1 is 40" and there is no board to cut it from']


def test_boards_that_run_out_are_told() -> None:
    """Two boards take four of six 60-inch pieces; the other two are short, and defective boards are not cut."""
    plan = cutting_plan(cuts(*["60"] * 6), [Lot(144 * INCH, 3, set_aside=1)], KERF, TRIM)
    assert (len(plan.boards), len(plan.short), plan.met) == (2, 2, False)


def test_a_short_board_is_used_where_it_holds_the_rest() -> None:
    """Of 12-foot and 8-foot boards the last pieces go on the shorter one; an offcut over 24 in. is put back."""
    plan = cutting_plan(cuts("100", "60", "30"), [Lot(144 * INCH, None), Lot(96 * INCH, 4)], KERF, TRIM)
    told = [(b.length_ticks // INCH, [c.name for c in b.cuts], b.offcut_ticks / INCH, b.put_back) for b in plan.boards]
    assert told == [(144, ["1", "3"], 11.75, False), (96, ["2"], 33.875, True)]


def test_packing_refuses_what_cannot_be_packed() -> None:
    """A size of nothing or larger than the bin is a mistake of the caller and says so."""
    for sizes in ([0], [11], [-1]):
        with pytest.raises(ValueError, match=r"^every size has to be more than nothing and to fit one bin$"):
            pack(sizes, 10)
