"""Boards and pieces: how they begin ("boards start with a seam"), and those that were lost ("one split")."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.found import Found, place_near
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.stockwords import singulars, species
from journal.extract.unitwords import number_like
from journal.extract.vocabulary import function_words
from journal.grammar import table
from journal.records import Aside


@cache
def _start_phrases() -> Phrases[str]:
    """How boards begin, to the side that they begin at."""
    start = table("asides")["start"]
    return Phrases({phrase: side for side in ("centred", "seam", "left", "right") for phrase in start[side]})


@cache
def start_leads() -> frozenset[str]:
    """Verbs that lead in how boards begin ("start", "begin")."""
    return frozenset(table("asides")["start"]["lead"])


@cache
def _lost_phrases() -> Phrases[str]:
    return Phrases.of(table("asides")["lost"]["words"], "lost")


def find_starts(line: Line) -> list[Found]:
    """How the boards of a memo begin: the first such phrase, and no more than one."""
    phrases, lead = _start_phrases(), start_leads()
    words = line.words
    for k, side, end in phrases.all_in(words):
        i = k
        while i > 0 and words[i - 1] in (
            "with",
            "a",
            "the",
            "boarding",
            "boards",
            "laying",
            "out",
            "i'm",
            "we",
            "i",
            "'m",
            "it",
        ):
            i -= 1
        led = i > 0 and words[i - 1] in lead
        if led:
            i -= 1
        elif (
            side in ("left", "right")
            or words[k] not in ("board", "seam", "joint", "centre", "sheet")
            or words[k - 1 : k] not in (["a"], ["with"], [])
        ):
            continue
        while i > 0 and words[i - 1] in (
            "boards",
            "boarding",
            "going",
            "to",
            "will",
            "we",
            "i",
            "'ll",
            "the",
            "and",
            "'re",
            "'m",
        ):
            i -= 1
        aside = Aside(
            topic="board start",
            text=side,
            place=place_near(line, k),
            evidence=line.span(i, end),
            rule="aside.start",
        )
        return [Found(aside, i, end)]
    return []


def find_lost(line: Line) -> list[Found]:
    """ "One split": a count and nothing but what happened to the piece."""
    words, lost = line.words, _lost_phrases()
    out = []
    for i, figure in sorted(line.figures.items()):
        if figure.kind != "number" or figure.unit or figure.value.denominator != 1 or figure.j >= len(words) or i == 0:
            continue
        k = figure.j
        while k < len(words) and words[k] in ("of", "them", "those", "these"):
            k += 1
        found = lost.at(words, k) if k < len(words) else None
        if found is None:
            continue
        following = words[found[1]] if found[1] < len(words) else ""
        if (
            following in singulars()
            or (following and following not in function_words())
            or species().at(words, found[1] if following else k)
        ):
            continue
        text = _material(words, i)
        aside = Aside(
            topic="lost",
            text=text,
            place=place_near(line, i),
            value=float(figure.value),
            evidence=line.span(i, found[1]),
            rule="aside.lost",
        )
        out.append(Found(aside, i, found[1]))
    return out


def _material(words: Sequence[str], i: int) -> str:
    """The material named last before word `i`: "pine boards"."""
    for k in range(i - 1, -1, -1):
        if words[k] in singulars():
            start = k
            while start > 0 and words[start - 1] not in function_words() and words[start - 1] != "more":
                start -= 1
            names = [
                word
                for word in words[start : k + 1]
                if word not in ("used", "cut", "stacked") and number_like([word], 0) is None
            ]
            return " ".join(names)
    return "piece"
