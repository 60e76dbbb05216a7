"""A memo's words with what was found in them: figures, places, dimension words, times. What the rules read.

Spans of words are half open; `Line.span` turns them into spans of the text. Knows no rules.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from journal.extract.tokens import Token
from journal.records import Doubt, Shade, Span

FigureKind = Literal["number", "length", "percent", "degrees", "hours", "money", "board feet", "slope", "section"]


@dataclass(slots=True)
class Figure:
    """A figure at words `i` to `j`: its value in `unit` ("" where none was said: inches for a length)."""

    i: int
    j: int
    kind: FigureKind
    value: Fraction
    unit: str = ""
    second: Fraction | None = None
    run: Fraction | None = None
    section: str | None = None
    whole: int | None = None
    split: int = 0
    feet: Fraction | None = None
    approx: bool = False
    shade: Shade | None = None
    per: str | None = None
    each: bool = False
    celsius: bool = False
    doubts: list[Doubt] = field(default_factory=list)
    rule: str = ""
    words: tuple[int, int] = (0, 0)


@dataclass(slots=True)
class PlaceWord:
    """A place named at words `i` to `j`; `carried` where "same wall" or "over here" pointed back to `name`."""

    i: int
    j: int
    name: str
    carried: bool = False
    head: str = ""


@dataclass(slots=True)
class DimensionWord:
    """A dimension named at words `i` to `j`; an adjective ("wide") stands only after its figure."""

    i: int
    j: int
    name: str
    adjective: bool
    words: str


@dataclass(slots=True)
class Line:
    """The words of one memo and what they hold, by the index of the word where each begins."""

    tokens: list[Token]
    words: list[str]
    figures: dict[int, Figure] = field(default_factory=dict)
    places: dict[int, PlaceWord] = field(default_factory=dict)
    dimensions: dict[int, DimensionWord] = field(default_factory=dict)
    labels: dict[int, tuple[int, str]] = field(default_factory=dict)
    doubts: list[Doubt] = field(default_factory=list)

    def inside_place(self, k: int) -> bool:
        """Whether word `k` stands inside a place's name: the "'s" of "the bosun's store"."""
        return any(place.i < k < place.j for place in self.places.values())

    def figure_over(self, k: int) -> Figure | None:
        """The figure that word `k` is part of."""
        for figure in self.figures.values():
            if figure.i <= k < figure.j:
                return figure
        return None

    def span(self, i: int, j: int) -> Span:
        """The stretch of the text that the words `i` to `j` take up; words that were swapped stand out of order in it."""
        if not self.tokens:
            return Span(0, 0)
        i = min(max(i, 0), len(self.tokens) - 1)
        j = min(max(j, i + 1), len(self.tokens))
        within = self.tokens[i:j]
        return Span(min([token.start for token in within]), max([token.end for token in within]))

    def said(self, i: int, j: int) -> str:
        """The words `i` to `j` as people read them, contractions closed up."""
        return joined(self.words[i:j])


def joined(words: Sequence[str]) -> str:
    """Words with a space between, the endings 's and 're closed up."""
    text = ""
    for word in words:
        text += word if word.startswith("'") or not text else f" {word}"
    return text
