"""Of what was heard, the reading is taken out of which the journal can make most: worth is told by what is read in it."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from journal.records import Heard, Known, Word
from journal.speech.readings import most_sensible
from journal.worth import worth_of

SAID_AT = datetime(2026, 8, 4, 10, tzinfo=UTC)


def _taken(heard: str, *readings: str, known: Known | None = None) -> str:
    words = tuple(Word(word, confidence=0.7) for word in heard.split())
    behind = tuple(-0.2 * (n + 1) for n in range(len(readings)))
    worth = worth_of(known or Known(places=frozenset({"wall A", "lake gable"})), SAID_AT)
    return most_sensible(Heard(heard, words, readings, behind=behind), worth).text


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("one leg window thirty and a half wide", "wall a window thirty and a half wide"),
        ("lake gable board three long poems fifty six and a half", "lake gable board three long point fifty six and a half"),
        ("window sill hyde on wall a thirteen and a half", "window sill height on wall a thirteen and a half"),
        ("moisture in the sill log nineteen person", "moisture in the sill log nineteen percent"),
        ("wall a length twenty four foot six and a half hyde eight foot one", "wall a length twenty four foot six and a half height eight foot one"),
    ],
)  # fmt: skip
def test_more_sense(heard: str, meant: str) -> None:
    """A reading with a known place, a dimension or a unit is taken before one that lacks it, whichever was likelier."""
    assert _taken(heard, meant) == meant
    assert _taken(meant, heard) == meant


@pytest.mark.parametrize(
    ("heard", "other"),
    [
        ("wall a window sill height thirteen and a half", "wall a window sill height thirty and a half"),
        ("lake gable board three long point fifty six", "lake gable board three long point fifty sixes"),
        ("caulk the door", "call the door"),
        ("finished sanding the floor", "finish standing the floor"),
    ],
)
def test_no_more_sense(heard: str, other: str) -> None:
    """Where the other reading makes no more sense, what was likelier stays: a figure is never changed for its looks."""
    assert _taken(heard, other) == heard
