"""What an engine writes becomes the words a person said, whatever way it writes figures."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.speech.spoken_form import number_words, spoken_text, spoken_words


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("Wall A, length 72 1/2.", "wall a length seventy two and a half"),
        ("72-1/2", "seventy two and a half"),
        ("24½", "twenty four and a half"),
        ("72 and 1/2", "seventy two and a half"),
        ("15 11/16 wide", "fifteen and eleven sixteenths wide"),
        ("13/16", "thirteen sixteenths"),
        ("3/16ths", "three sixteenths"),
        ("1/2 inch", "a half inch"),
        ("1930 seconds", "nineteen thirty seconds"),
        ("five eights", "five eighths"),
        ("thirteen 16s", "thirteen sixteenths"),
        ("three eights of an inch", "three eighths of an inch"),
        ("five eight's", "five eighths"),
        ("seven eigths", "seven eighths"),
        ("nine six teeths", "nine sixteenths"),
        ("eleven sixteenth s wide", "eleven sixteenths wide"),
        ("two and an eighths", "two and an eighth"),
        ("the window's eight's sash", "the window's eight's sash"),
        ("Newell post off Center", "newel post off centre"),
        ("slope is 8:12", "slope is eight twelve"),
        ("the slope on the gable is 8.12", "the slope on the gable is eight twelve"),
        ("it’s a 4/12", "it's a four twelve"),
        ("5/4 by 6", "five quarter by six"),
        ("41x8 white pine", "forty one by eight white pine"),
        ("9 2x6 spruce rafters", "nine two by six spruce rafters"),
        ("6'", "six foot"),
        ("6'2 1/2 high", "six foot two and a half high"),
        ("71 5/8\" by 30''", "seventy one and five eighths inches by thirty inches"),
        ("12-ft boards", "twelve foot boards"),
        ("16 O.C.", "sixteen on centre"),
        ("10d nails", "ten penny nails"),
        ("$1.85 a board foot", "one eighty five a board foot"),
        ("$2.05 a board foot", "two oh five a board foot"),
        ("285 a board foot", "two eighty five a board foot"),
        ("$11.40 each", "eleven forty each"),
        ("Delivery was $65.", "delivery was sixty five dollars"),
        ("it came to $592.00", "it came to five hundred and ninety two dollars"),
        ("it was $4.80", "it was four dollars and eighty cents"),
        ("$0.85", "eighty five cents"),
        ("$1,230.40 in all", "one thousand two hundred and thirty dollars and forty cents in all"),
        ("22.5%", "twenty two point five percent"),
        ("20 per cent", "twenty percent"),
        ("72°F", "seventy two degrees fahrenheit"),
        ("610 millimeters", "six hundred and ten millimetres"),
        ("1220 mm", "twelve hundred and twenty millimetres"),
        ("118 and a half", "one eighteen and a half"),
        ("101", "one oh one"),
        ("1500 screws", "fifteen hundred screws"),
        ("August 3rd", "august third"),
        ("21st", "twenty first"),
        ("3 & 4", "three and four"),
        ("38 in a quarter by 82", "thirty eight and a quarter by eighty two"),
        ("Don't re-do it!", "don't re do it"),
        ("cut it in half", "cut it in half"),
        ("the boards' edge — OK?", "the boards edge okay"),
    ],
)
def test_written_and_said(written: str, said: str) -> None:
    """Each way of writing a figure gives the words that were said for it."""
    assert spoken_text(written) == said


def test_words_point_at_what_was_written() -> None:
    """Every word knows the written word that it came from, so that its confidence and time can be found."""
    assert [(s.word, s.written) for s in spoken_words(["Sill", "32", "1/2."])] == [
        ("sill", 0), ("thirty", 1), ("two", 1), ("and", 2), ("a", 2), ("half", 2),
    ]  # fmt: skip


_WRITTEN = st.sampled_from(
    ["72", "1/2", "13/16", "8:12", "$1.85", "$65", "6'", '16"', "2x10", "Wall", "A,", "5/4", "22.5%", "3rd", "16ths", "1,220",
     "mm", "by", "-", "—", "°", "4-12.", "it’s", "O.C.", "10d", "0", "007", "99999", "1/0", "'", '"', "$", "½", "x", "8s"]
)  # fmt: skip


@given(st.lists(st.one_of(_WRITTEN, st.text(max_size=6)), max_size=12))
def test_form(written: list[str]) -> None:
    """Whatever is written, what comes out is lower-case words without digits or marks, in order; and it stays as it is."""
    spoken = spoken_words(written)
    for word, index in spoken:
        assert re.fullmatch(r"[^\W\d_]+('[^\W\d_]+)*", word), word
        assert word == word.lower()
        assert 0 <= index < len(written)
    assert [s.written for s in spoken] == sorted(s.written for s in spoken)


@given(st.integers(0, 10**11))
def test_number_words(number: int) -> None:
    """A number counted out adds up to itself."""
    ones = {w: n for n, w in enumerate(number_words(n) for n in range(20))}
    tens = {number_words(n): n for n in range(20, 100, 10)}
    sizes = {"thousand": 10**3, "million": 10**6, "billion": 10**9}
    total = part = 0
    for word in number_words(number).replace(" and ", " ").split():
        if word == "hundred":
            part *= 100
        elif word in sizes:
            total, part = total + part * sizes[word], 0
        else:
            part += ones.get(word, tens.get(word, 0))
    assert total + part == number
