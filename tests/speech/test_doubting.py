"""A figure is doubted by all that speaks against it, and by no more than that."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.records import Heard, Word
from journal.speech.doubting import broken, chance_wrong, doubts_of, figures, headless

QUIET, NOISE = 40.0, 9.0
TEXT = "window sill height thirteen and a half on wall a"


def _heard(text: str, *readings: tuple[str, float], sure: float = 0.95) -> Heard:
    words = tuple(Word(word, confidence=sure) for word in text.split())
    return Heard(text, words, tuple(r for r, _ in readings), behind=tuple(b for _, b in readings))


def _chance(heard: Heard, second: str | None = TEXT, clear_by: float = QUIET) -> float:
    (figure,) = figures(heard, second, clear_by)
    return chance_wrong(figure.signs)


def test_nothing_against_it() -> None:
    """A figure that both engines hear alike is not doubted."""
    heard = _heard(TEXT)
    assert doubts_of(heard, figures(heard, TEXT, QUIET)) == []


def test_another_figure() -> None:
    """Another figure in the same place is told in the doubt, first the second engine's, then that of other readings."""
    heard = _heard(TEXT, (TEXT.replace("thirteen", "fourteen"), -0.4), sure=0.4)
    (doubt,) = doubts_of(heard, figures(heard, TEXT.replace("thirteen", "thirty"), QUIET))
    assert doubt.shown == "'thirteen and a half' may be 'thirty and a half' or 'fourteen and a half'"
    assert doubt.other == ("thirty and a half", "fourteen and a half")
    assert TEXT[doubt.span.start : doubt.span.end] == "thirteen and a half"


def test_what_makes_it_likelier_wrong() -> None:
    """Each sign by itself makes a figure likelier wrong."""
    plain = _chance(_heard(TEXT))
    assert _chance(_heard(TEXT, sure=0.2)) > plain
    assert _chance(_heard(TEXT), TEXT.replace("thirteen", "thirty")) > plain
    assert _chance(_heard(TEXT), "window sill height on wall a") > plain
    assert _chance(_heard(TEXT, (TEXT.replace("thirteen", "thirty"), -0.1))) > plain
    assert _chance(_heard(TEXT, (TEXT.replace("thirteen", "thirty"), -0.1))) > _chance(
        _heard(TEXT, (TEXT.replace("thirteen", "thirty"), -5.0))
    )


def test_more_of_the_same() -> None:
    """A word beside the figure that was heard as more of it is a sign of its own, with the longer figure told."""
    heard = _heard("thirty foot on the eave")
    (figure,) = figures(heard, "thirty five on the eave", QUIET)
    assert (figure.signs["second_more"], figure.signs["second_other"], figure.others) == (1.0, 0.0, ("thirty five",))


@pytest.mark.parametrize(
    "figure",
    ["eight and a half and a half", "half eighths", "third eighths", "thirty eighths", "eighths", "four eighths", "eighths and a half"],
)  # fmt: skip
def test_broken(figure: str) -> None:
    """A figure that nobody says is broken."""
    assert broken(figure.split())


@given(
    st.sampled_from(["", "twelve and", "forty two", "one thirty and"]),
    st.sampled_from([2, 4, 8, 16, 32]),
    st.integers(0, 15),
)
def test_not_broken(before: str, below: int, number: int) -> None:
    """A fraction in its lowest terms, alone or after a whole number, is not broken."""
    above = 2 * number % below + 1
    names = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty second"}
    ones = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()  # noqa: SIM905
    if above > 19 or math.gcd(above, below) > 1:
        return
    said = f"{before} {ones[above]} {names[below]}{'s' if above > 1 else ''}"
    assert not broken(said.split())


def test_not_asked() -> None:
    """Where the second engine was not asked, nothing counts for or against by it."""
    (figure,) = figures(_heard(TEXT), None, NOISE)
    assert not [name for name in figure.signs if name.startswith("second")]
    assert 0 < chance_wrong(figure.signs) < 1


@pytest.mark.parametrize(
    ("text", "figure", "expected"),
    [
        ("hill water gate and a quarter by nine", "quarter", True),
        ("the wide and three eighths", "three eighths", True),
        ("an inch and a quarter", "quarter", False),
        ("two foot and a half", "half", False),
        ("three quarters", "three quarters", False),
        ("oh and nine boxes", "nine", False),
    ],
)
def test_headless(text: str, figure: str, expected: bool) -> None:
    """A fraction after "and" that has neither a number nor a unit before it goes on from a figure that is not there."""
    words, sought = text.split(), figure.split()
    first = next(at for at in range(len(words)) if words[at : at + len(sought)] == sought)
    assert headless(words, first, first + len(sought)) is expected
