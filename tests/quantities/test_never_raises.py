"""No book makes the quantities fail: shuffled places, things, dimensions and figures, sensible or not."""

from __future__ import annotations

import re
from fractions import Fraction
from math import inf, nan

import pytest
from books import book, setting
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.quantities.assumptions import ASSUMPTIONS
from journal.quantities.base import Book, Disagreement, Missing, Value, answers, concerned, quantities, root, to_json
from journal.quantities.cuts import cut_list
from journal.records import DIMENSIONS, Aside, Doubt, Fact, Measure, Slope, Span, Stock, Task

PLACES = [
    "wall A",
    "lake wall",
    "lake gable",
    "gable B",
    "porch roof",
    "main roof",
    "loft stair",
    "loft",
    "dormer",
    None,
]
ABOUTS = [None, "window", "door", "window 1", "left window", "window sill", "plate to window sill", "corner to window",
          "board 3", "board 3 left", "centre board", "old sash", "ridge board", "hip rafter", "rafters", "studs", "heel",
          "birdsmouth seat", "stringer", "1x8 pine", "boards", "left side", "right side", "steps", "to", "  "]  # fmt: skip
FIGURES = [0, -8128, 127, 8128, 55880, 192 * 8128, 240 * 8128, 98 * 8128, 10**9, 10**14, 320 * 610]
doubts = st.sampled_from([(), (Doubt("range", "is that right?", Span(0, 1)),)])
measures = st.builds(
    Measure, place=st.sampled_from(PLACES), about=st.sampled_from(ABOUTS), dimension=st.sampled_from(DIMENSIONS),
    ticks=st.one_of(st.sampled_from(FIGURES), st.integers(-(10**7), 10**7)), approx=st.booleans(), doubts=doubts,
    metric=st.sampled_from([None, "610 mm"]), shade=st.sampled_from([None, "strong", "shy"]),
    over_ticks=st.sampled_from([None, 0, -5, 96 * 8128]),
)  # fmt: skip
numbers = st.sampled_from([0.0, -4.0, 4.0, 8.0, 12.0, 7.5, 1e300, 1e-300, nan, inf])
slopes = st.builds(
    Slope,
    place=st.sampled_from(PLACES),
    about=st.sampled_from([None, "left side", "right side", "old"]),
    rise=numbers,
    run=numbers,
)
stocks = st.builds(
    Stock, place=st.sampled_from(PLACES), event=st.sampled_from(["cut", "used", "received", "have"]),
    count=st.sampled_from([None, 0.0, -3.0, 4.0, 1e9]), what=st.sampled_from([None, "board", "rafter"]),
    section=st.sampled_from([None, "1x8", "2x6", "ax9", "0x0"]), length_ticks=st.sampled_from([None, 0, -8128, 46 * 8128]),
    species=st.sampled_from([None, "pine"]),
)  # fmt: skip
tasks = st.builds(
    Task,
    place=st.sampled_from(PLACES),
    do=st.sampled_from(["cut board 3 left", "cut ", "cut board 99"]),
    status=st.just("done"),
)
asides = st.builds(
    Aside, topic=st.sampled_from(["board start", "face width", "courses", "roof form"]), place=st.sampled_from(PLACES),
    text=st.sampled_from(["centred", "seam", "hip", "sideways", ""]), value=st.sampled_from([None, 0.0, 6.875, -1.0]),
)  # fmt: skip
set_values = st.builds(
    setting, st.sampled_from(["face width", "board start", "board gap", "sheet limit", "roof form", "boards run", "tape class"]),
    st.sampled_from(["6 7/8", "seam", "0", "96", "hip", "horizontal", "ii", "nonsense", "-4", "1/0"]),
    st.sampled_from(PLACES),
)  # fmt: skip
facts: st.SearchStrategy[Fact] = st.one_of(measures, measures, measures, slopes, stocks, tasks)
books = st.builds(
    lambda said, settings: book(*said, settings=tuple(settings)),
    st.lists(st.one_of(st.lists(facts, min_size=1, max_size=6), asides), max_size=10),
    st.lists(set_values, max_size=3),
)


@settings(max_examples=300, deadline=None)
@given(books)
def test_no_book_makes_a_quantity_raise(drawn: Book) -> None:
    """Each quantity answers any place of any book, without the safety net of `answers`; a sentence is never empty."""
    for place in (*drawn.places, "nowhere"):
        for known in quantities():
            for answer in known.work(drawn, place):
                assert isinstance(answer, Value | Missing | Disagreement)
                assert to_json(answer)["name"]
                if isinstance(answer, Disagreement):
                    assert answer.shown
                    assert answer.memos
        cut_list(drawn, place)


@settings(max_examples=100, deadline=None)
@given(books)
def test_a_value_names_the_memos_behind_it(drawn: Book) -> None:
    """Whatever is worked out of a book rests on memos of that book, and its figure is one sentence."""
    memos = {filed.memo for filed in drawn.facts} | {aside.memo for aside in drawn.asides}
    for place in drawn.places:
        for value in answers(drawn, place).quantities:
            assert set(value.memos) <= memos
            assert value.memos
            assert "\n" not in value.shown


@given(st.fractions(min_value=0, max_value=10**9, max_denominator=10**6))
def test_roots_are_exact_or_to_fifteen_decimals(number: Fraction) -> None:
    """A perfect square has its exact root; any other is off by less than the tape can show."""
    assert root(number * number) == number
    assert abs(root(number) ** 2 - number) <= (2 * root(number) + 1) / 10**15


@given(st.sampled_from(sorted(a.name for a in ASSUMPTIONS.values())), st.fractions(0, 500, max_denominator=64))
def test_an_assumption_reads_back_what_it_writes(name: str, amount: Fraction) -> None:
    """What is stored for an assumption parses to the same amount, and what is refused names the assumption."""
    known = ASSUMPTIONS[name]
    if known.unit in ("choice", "yes or no"):
        for choice in known.choices or ("yes", "no"):
            assert known.parse(known.text(choice)) == choice
        return
    written = known.text(amount)
    allowed = (known.low is None or amount >= known.low) and (known.high is None or amount <= known.high)
    if allowed and (known.unit != "in" or (amount * 8128).denominator == 1):
        assert known.parse(written) == amount
    else:
        with pytest.raises(ValueError, match=f"^'{re.escape(written)}' will not do for {name}: "):
            known.parse(written)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.lists(st.one_of(measures, slopes), min_size=1, max_size=5), max_size=8))
def test_the_places_concerned_are_all_that_a_place_reads(said: list[list[Fact]]) -> None:
    """What is worked out of measures and slopes is the same whether the whole job is loaded or only the places concerned."""
    whole = book(*said)
    for place in whole.places:
        wanted = concerned(place, whole.places)
        part = Book(tuple(f for f in whole.facts if f.fact.place in wanted or f.fact.place is None), whole.as_of)
        assert answers(part, place) == answers(whole, place)
