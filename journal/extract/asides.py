"""What is said beside the seven kinds of fact: how many courses, what happened, how boards begin, a piece that split.

Each aside takes its words out of the line, so that no rule makes a fact of them; places stay.
"""

from __future__ import annotations

from functools import cache

from journal.extract.courses import find_courses
from journal.extract.found import Found
from journal.extract.happenings import find_happenings, happened_nouns
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.pieces import find_lost, find_starts, start_leads
from journal.extract.tokens import Token
from journal.grammar import table
from journal.records import Aside


@cache
def _testing_words() -> Phrases[str]:
    return Phrases.of(table("asides")["testing"]["words"], "testing")


@cache
def _first_words() -> frozenset[str]:
    """Words without which a memo holds no aside."""
    data = table("asides")
    words = {p.split()[0] for p in data["lost"]["words"]} | {p.split()[0] for p in data["testing"]["words"]}
    return (
        frozenset(words)
        | start_leads()
        | happened_nouns()
        | {"top", "courses", "rounds", "plate", "cap", "last", "seam", "joint", "board"}
    )


def take_asides(line: Line, place: str | None) -> tuple[list[Aside], list[Token]]:
    """The asides of a line, and its words less those that only an aside needs."""
    words = line.words
    if _first_words().isdisjoint(words):
        return [], line.tokens
    found = [*_testing(line), *find_starts(line), *find_courses(line), *find_lost(line), *find_happenings(line, place)]
    gone = {
        k
        for one in found
        if not one.keep
        for k in range(one.i, one.j)
        if not any(p.i <= k < p.j for p in line.places.values())
    }
    asides = [one.aside for one in sorted(found, key=lambda one: one.i) if one.aside.topic]
    return asides, [token for k, token in enumerate(line.tokens) if k not in gone]


def _testing(line: Line) -> list[Found]:
    """ "Testing one two three" counts nothing."""
    phrases = _testing_words()
    for i, _, j in phrases.all_in(line.words):
        if i <= 2:
            while j < len(line.words) and (
                line.figure_over(j) is not None or phrases.at(line.words, j) or line.words[j] in ("one", "two", "three")
            ):
                j += 1
            return [Found(Aside(topic="", text=""), i, j)]
    return []
