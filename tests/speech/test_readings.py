"""A figure that only another reading has is told; a reading that makes more sense is taken, and doubted where it differs."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.records import Doubt, Heard, Span, Word
from journal.speech.readings import figures_missed, learnt_doubts, most_sensible


@pytest.mark.parametrize(
    ("text", "other", "shown"),
    [
        ("need wendy pails", "need twenty pails", ["'wendy' may be 'twenty'"]),
        ("need pails of stain", "need four pails of stain", []),
        ("need for pails of stain", "need four pails of stain", ["'for' may be 'four'"]),
        ("forty to wide", "forty two wide", []),
        ("sill thirteen and a half", "sill thirty and a half", []),
        ("oil the boards on the lake gable", "boil the boards on the lake table", []),
    ],
)
def test_figures_missed(text: str, other: str, shown: list[str]) -> None:
    """Words without a figure in whose place another reading has one are doubted a little; nothing else is."""
    doubts = figures_missed(text, other)
    assert [doubt.shown for doubt in doubts] == shown
    assert all((doubt.reason, doubt.level) == ("second opinion", 1) for doubt in doubts)
    assert all(f"'{text[doubt.span.start : doubt.span.end]}'" in doubt.shown for doubt in doubts)


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
    assert (doubt.shown, doubt.other, doubt.level) == ("'gable' was heard as 'table' at first", ("table",), 1)
    assert taken.text[doubt.span.start : doubt.span.end] == "gable"


def test_doubts_move_along() -> None:
    """Where another reading is taken, what was doubted in the words that stay is doubted still, at its new place."""
    doubt = Doubt("heard", "'thirteen' may be 'thirty'", Span(16, 24), ("thirty",))
    heard = _heard("oh a lake table thirteen wide", "a lake gable thirteen wide")
    heard = dataclasses.replace(heard, doubts=(doubt,))
    taken = most_sensible(heard, _gables)
    assert [taken.text[d.span.start : d.span.end] for d in taken.doubts] == ["gable", "thirteen"]
    assert taken.doubts[1].shown == doubt.shown


@pytest.mark.parametrize(("behind", "chosen"), [(-0.5, "sill thirty"), (-6.0, "sill thirteen")])
def test_far_behind(behind: float, chosen: str) -> None:
    """A reading that is far less likely has to be worth that much more; another figure than the likeliest is doubted in full."""
    heard = dataclasses.replace(_heard("sill thirteen", "sill thirty"), behind=(behind,))
    taken = most_sensible(heard, lambda text: float("thirty" in text) * 0.8)
    assert taken.text == chosen
    assert [doubt.level for doubt in taken.doubts] == ([2] if chosen == "sill thirty" else [])


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
    missed = [doubt for reading in readings for doubt in figures_missed(text, reading)]
    for doubt, whole in [*((d, taken.text) for d in taken.doubts), *((d, text) for d in missed)]:
        piece = whole[doubt.span.start : doubt.span.end]
        assert piece
        assert f" {piece} " in f" {whole} "
