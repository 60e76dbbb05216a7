"""What a reading of a memo is worth, by what can be made of it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from journal.intake import Words, read_words
from journal.records import Known, Measure


def worth_of(known: Known, said_at: datetime) -> Callable[[str], float]:
    """Tells of a text what it is worth: that it says something, of a place and of a thing that can be, and all of it sense.

    More facts are worth no more than one: a figure broken in two makes two. The weights were compared on memos by synthetic
    voices (tests/bench/speech/README.md).
    """

    def worth(text: str) -> float:
        read = read_words(Words(text), said_at, known)
        if not read.facts:
            return 0.0  # a figure that is not understood is no worse than one that was not heard
        levels = [doubt.level for fact in read.facts for doubt in fact.doubts]
        placed = sum(fact.place is not None for fact in read.facts) / len(read.facts)
        on_file = any(fact.place in known.places for fact in read.facts)
        vague = sum(isinstance(fact, Measure) and fact.dimension == "other" for fact in read.facts)
        doubted = 0.5 * sum(level > 1 for level in levels) + 0.15 * sum(level == 1 for level in levels)
        strange = sum(_strange(fact.about, known) for fact in read.facts if isinstance(fact, Measure))
        return 1 + 0.5 * placed + 0.25 * on_file - len(read.problems) - doubted - 0.3 * vague - 0.5 * strange

    return worth


def _strange(about: str | None, known: Known) -> bool:
    """Whether something is measured that neither the tables nor the journal has: "poems", "a hide"."""
    from journal.extract.vocabulary import thing_words

    if about is None or any(about == thing for _, thing, _ in known.figures or ()):
        return False
    return not any(word in thing_words() for word in about.split())
