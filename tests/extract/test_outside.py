"""Spoken figures against two general libraries: where they can read a phrase, we agree.

text2num 3 (`text_to_num.alpha2digit`, `text2num`) and quantulum3 0.9 (`parser.parse`) read whole numbers, decimals and some units;
neither knows feet and inches said together, fractions of an inch, nor hundreds without "hundred".
"""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from memos.vary import cardinal

from extract.saying import heard
from journal.extract.numbers import number
from journal.records import Measure, Reading

_SAYS = random.Random(7)
WHOLE = sorted({*range(121), *(_SAYS.randrange(121, 1000) for _ in range(120)), 1000, 1220, 2030, 3500})


def _spoken(n: int) -> str:
    return (
        cardinal(n)
        if n < 1000
        else {
            1000: "one thousand",
            1220: "one thousand two hundred and twenty",
            2030: "two thousand and thirty",
            3500: "three thousand five hundred",
        }[n]
    )


def test_whole_numbers_agree_with_text2num() -> None:
    """Every whole number that text2num reads has the same value with us (source: text2num)."""
    text_to_num = pytest.importorskip("text_to_num")
    read = 0
    for n in WHOLE:
        said = _spoken(n).replace("a hundred", "one hundred")
        try:
            theirs = text_to_num.text2num(said, "en")
        except ValueError:
            continue
        ours = number(said.split(), 0)
        assert ours is not None, said
        assert (ours.value, ours.end) == (theirs, len(said.split())), said
        read += 1
    assert read > 200


@pytest.mark.parametrize(
    "decimal",
    [
        "eighteen point five",
        "seven point two",
        "zero point seven five",
        "twenty nine point five",
        "three point one two five",
    ],
)
def test_decimals_agree_with_text2num(decimal: str) -> None:
    """A spoken decimal has the value that text2num writes (source: text2num)."""
    text_to_num = pytest.importorskip("text_to_num")
    ours = number(decimal.split(), 0)
    assert ours is not None
    assert ours.value == Fraction(text_to_num.alpha2digit(decimal, "en"))


@pytest.mark.parametrize(
    "said",
    [
        "the bench is forty inches long",
        "the bench is twelve feet long",
        "the bench is nine hundred millimetres long",
        "the bench is two metres long",
        "the shop is sixty eight degrees fahrenheit",
        "the sill is at nineteen percent",
    ],
)
def test_quantities_agree_with_quantulum3(said: str) -> None:
    """A whole number with a unit that quantulum3 reads is the same quantity with us (source: quantulum3)."""
    parser = pytest.importorskip("quantulum3.parser")
    factors = {"inch": 8128, "foot": 97536, "millimetre": 320, "metre": 320_000}
    [theirs] = [quantity for quantity in parser.parse(said) if quantity.unit.name != "dimensionless"]
    [ours] = heard(said).facts
    if isinstance(ours, Measure):
        assert ours.ticks == theirs.value * factors[theirs.unit.name]
    else:
        assert isinstance(ours, Reading)
        assert ours.value == theirs.value
