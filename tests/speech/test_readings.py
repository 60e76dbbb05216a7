"""Readings that differ in a figure make a doubt; a reading that makes more sense is taken, and doubted where it differs."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.records import Heard, Word
from journal.speech.readings import figure_doubts, learnt_doubts, most_sensible


@pytest.mark.parametrize(
    ("text", "other", "doubted", "instead"),
    [
        ("sill thirteen and a half", "sill thirty and a half", "thirteen and a half", ("thirty and a half",)),
        ("run five foot nine", "run five foot five", "nine", ("five",)),
        ("base fifteen eleven", "base fifteen", "fifteen eleven", ("fifteen",)),
        ("wide and four key two", "wide and forty two", "four", ("forty",)),
        ("thirty foot and a half", "thirty five and a half", "", ()),
        ("thirty wide", "thirty five wide", "thirty", ("thirty five",)),
        ("three quarter thick", "three quarters thick", "", ()),
        ("forty to wide", "forty two wide", "", ()),
        ("use twenty to fasten", "use twenty two fasten", "", ()),
        ("need pails of stain", "need four pails of stain", "", ()),
        ("need for pails of stain", "need four pails of stain", "for", ("four",)),
    ],
)
def test_figures_that_differ(text: str, other: str, doubted: str, instead: tuple[str, ...]) -> None:
    """A figure that another reading gives otherwise is doubted as a whole, with the other figure."""
    doubts = figure_doubts(text, [other], reason="reading")
    if not doubted:
        assert doubts == []
        return
    doubt = doubts[0]
    assert doubted == text[doubt.span.start : doubt.span.end]
    assert any(figure in other_figure for figure in instead for other_figure in doubt.other)
    assert doubt.reason == "reading"


def test_words_that_differ() -> None:
    """Readings that differ in other words only make no doubt."""
    assert (
        figure_doubts("oil the boards on the lake gable", ["boil the boards on the lake table"], reason="reading") == []
    )


def test_no_figure_the_second_time() -> None:
    """A figure for which another reading has none is doubted without another figure, unless that is not asked for."""
    (doubt,) = figure_doubts("twelve fence posts", ["uh fence posts"], reason="second opinion")
    assert (doubt.shown, doubt.other, doubt.level) == ("'twelve' was not heard a second time", (), 2)
    assert figure_doubts("twelve fence posts", ["uh fence posts"], reason="reading", lacking=False) == []
    (missed,) = figure_doubts("need wendy pails", ["need twenty pails"], reason="second opinion")
    assert (missed.shown, missed.other, missed.level) == ("'wendy' may be 'twenty'", ("twenty",), 1)


def test_several_readings() -> None:
    """What several readings have instead stands in one doubt, said in full."""
    (doubt,) = figure_doubts("sill thirteen", ["sill thirty", "sill fourteen", "sill thirty"], reason="reading")
    assert doubt.other == ("thirty", "fourteen")
    assert doubt.shown == "'thirteen' may be 'thirty' or 'fourteen'"


def test_learnt() -> None:
    """What was put right by hand once is doubted where it is heard again, and only as whole words."""
    (doubt,) = learnt_doubts("cable end on the table", [("table", "gable"), ("able", "gable")])
    assert (doubt.reason, doubt.shown, doubt.other) == ("learnt", "'table' was put right to 'gable' before", ("gable",))
    assert doubt.span == (17, 22)


def _heard(text: str, *readings: str) -> Heard:
    words = tuple(Word(word, float(i), i + 1.0, 0.9) for i, word in enumerate(text.split()))
    return Heard(text, words, readings, engine="e", engine_version="1", seconds=5.0)


def _gables(text: str) -> float:
    return float(text.split().count("gable"))


def test_more_sensible_reading() -> None:
    """The reading worth more is taken with the times of what it replaces; the likeliest stays among the readings."""
    heard = _heard("slope on the lake table", "slope on a lake table", "slope on the lake gable")
    taken = most_sensible(heard, _gables)
    assert taken.text == "slope on the lake gable"
    assert taken.readings == ("slope on the lake table", "slope on a lake table")
    assert taken.words[-1] == Word("gable", 4.0, 5.0, 0.9)
    (doubt,) = taken.doubts
    assert (doubt.shown, doubt.other) == ("'gable' was heard as 'table' at first", ("table",))
    assert taken.text[doubt.span.start : doubt.span.end] == "gable"


def test_no_more_sensible_reading() -> None:
    """Where no reading is worth more, what was heard stays as it is."""
    heard = _heard("slope on the lake gable", "slope on the late gable")
    assert most_sensible(heard, _gables) is heard
    assert most_sensible(_heard(""), _gables) == _heard("")


_TEXTS = st.lists(
    st.sampled_from(["gable", "table", "thirteen", "thirty", "and", "a", "half", "wide"]), max_size=6
).map(" ".join)


@given(_TEXTS, st.lists(_TEXTS, max_size=4, unique=True))
def test_nothing_beyond_what_was_heard(text: str, others: list[str]) -> None:
    """Whatever is taken was one of the readings, its words are its text, and every doubt lies inside it on whole words."""
    readings = tuple(other for other in others if other and other != text)
    taken = most_sensible(_heard(text, *readings), _gables)
    assert taken.text in (text, *readings)
    assert " ".join(word.word for word in taken.words) == taken.text
    for doubt in (*taken.doubts, *figure_doubts(text, readings, reason="r")):
        whole = taken.text if doubt in taken.doubts else text
        piece = whole[doubt.span.start : doubt.span.end]
        assert piece
        assert f" {piece} " in f" {whole} "
