"""A memo as it stands while take-backs are carried out: the line left, and what they leave behind."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache

from journal.extract.due import DueWord
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.grammar import table
from journal.records import Doubt, Span


@dataclass(slots=True)
class Said:
    """A line as analysed, with its dates and names in figures."""

    line: Line
    dues: list[DueWord]
    labels: dict[int, tuple[int, str]]


@dataclass(slots=True)
class TakenBack:
    """What the take-backs of a memo left: doubts they raise, figures denied ("not six and a quarter"), swaps done."""

    doubts: list[Doubt] = field(default_factory=list)
    denied: list[tuple[Fraction, str, Span]] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    strike_last: Span | None = None


@cache
def takeback_phrases(key: str) -> Phrases[str]:
    """The phrases of one table of `grammars/takebacks.toml`."""
    return Phrases.of(table("takebacks")[key], key)


@cache
def forgetting() -> frozenset[str]:
    """The phrases that take something back and put nothing in its stead."""
    data = table("takebacks")
    forms = data["forgetting"]
    made = {f"{verb} {what}" for verb in forms["verbs"] for what in forms["what"]}
    made |= {f"{phrase} {wholly}" for phrase in made for wholly in forms["wholly"]}
    return frozenset(data["forget"]) | (made - frozenset(data["replace"]))


@cache
def forget_phrases() -> Phrases[str]:
    """The phrases of `forgetting`, to look up in words."""
    return Phrases.of(forgetting(), "forget")
