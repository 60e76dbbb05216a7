"""Figures, names and days in words; whole facts are in test_readback.py."""

from __future__ import annotations

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.extract import extract
from journal.lengths import INCH, SIXTY_FOURTH, parse_length
from journal.records import Measure
from journal.saying import amount_words, day_words, length_words, money_words, name_words, plural_words

MORNING = datetime(2026, 7, 13, 7, 40)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("56 7/8", "fifty six and seven eighths"), ("1/2", "half"), ("3/8", "three eighths"), ("1", "one inch"),
        ("1 5/64", "one and five sixty fourths"), ("98", "ninety eight"), ("20'", "twenty foot even"),
        ("31' 4 1/2", "thirty one foot four and a half"), ("7.2 m", "seven point two metres"),
        ("1220 mm", "one thousand two hundred and twenty millimetres"), ("1 m", "one metre"),
    ],
)  # fmt: skip
def test_lengths_are_said_as_they_are_read_off(written: str, words: str) -> None:
    """Inches with their fraction, twelve feet and more in feet, metric in the unit it was said in."""
    ticks, system = parse_length(written)
    assert length_words(ticks, written if system == "metric" else None) == words


@given(st.integers(1, 60 * 12 * 64))
def test_every_inch_figure_is_read_back_to_itself(sixty_fourths: int) -> None:
    """Every length up to 60 feet, to the 1/64 inch, is read from its words as the same ticks, with no doubt at level 2."""
    ticks = sixty_fourths * SIXTY_FOURTH
    (fact,) = extract(f"bench, length, {length_words(ticks)}", MORNING).facts
    assert isinstance(fact, Measure)
    assert fact.ticks == ticks, length_words(ticks)


@given(st.integers(1, 40_000))
def test_every_millimetre_figure_is_read_back_to_itself(millimetres: int) -> None:
    """Every metric length is read from its words as the same ticks."""
    said = length_words(millimetres * 320, f"{millimetres} mm")
    (fact,) = extract(f"bench, length, {said}", MORNING).facts
    assert isinstance(fact, Measure)
    assert (fact.ticks, fact.metric) == (millimetres * 320, f"{millimetres} mm")


def test_what_is_finer_than_the_tape_is_said_to_the_nearest() -> None:
    """A length that is no whole 1/64 inch, on file from a metric tape, is said to the nearest."""
    assert length_words(10 * INCH + 3) == "ten"


@pytest.mark.parametrize(
    ("amount", "words"),
    [(6.5, "six and a half"), (0.75, "three quarters"), (14, "fourteen"), (18.49, "eighteen point four nine"), (-2, "minus two")],
)  # fmt: skip
def test_amounts(amount: float, words: str) -> None:
    """Halves, quarters and eighths are said as such, other parts with a point."""
    assert amount_words(amount) == words


@pytest.mark.parametrize(
    ("amount", "words"),
    [(2.85, "two dollars and eighty five cents"), (1, "one dollar"), (0.01, "one cent"), (1180, "one thousand one hundred and eighty dollars")],
)  # fmt: skip
def test_money(amount: float, words: str) -> None:
    """Dollars, and cents where there are some."""
    assert money_words(amount) == words


@pytest.mark.parametrize(
    ("name", "words"),
    [("wall A", "wall a"), ("frame 2", "frame two"), ("1x8", "one by eight"), ("5/4x6", "five quarter by six"), ("course 8 and 9", "course eight and nine")],
)  # fmt: skip
def test_names(name: str, words: str) -> None:
    """Letters, numbers and sections in names are said."""
    assert name_words(name) == words


@pytest.mark.parametrize(("name", "words"), [("board", "boards"), ("box", "boxes"), ("latch", "latches"), ("two by six", "two by sixes"), ("screws", "screws"), ("battery", "batteries"), ("bay", "bays")])  # fmt: skip
def test_plurals(name: str, words: str) -> None:
    """Several of a thing."""
    assert plural_words(name) == words


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (date(2026, 7, 12), "yesterday"), (date(2026, 7, 13), "today"), (date(2026, 7, 14), "tomorrow"),
        (date(2026, 7, 17), "friday"), (date(2026, 7, 31), "july thirty first"), (date(2026, 8, 3), "august third"),
    ],
)  # fmt: skip
def test_days(day: date, words: str) -> None:
    """Said on Monday 13 July 2026: days near by their name, others by their date."""
    assert day_words(day, date(2026, 7, 13)) == words
