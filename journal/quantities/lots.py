"""Which lot a stock fact belongs to: the same thing, section, length and species as far as they were said.

Knows nothing of balances.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from journal.lengths import format_inches, format_length
from journal.records import Stock

_ARTICLES = frozenset({"a", "an", "the", "more", "another", "other", "some"})


@dataclass(frozen=True, slots=True)
class Name:
    """What a lot is called: the thing counted ("board", "pail of chinking") with section, length and species."""

    what: str | None = None
    section: str | None = None
    length_ticks: int | None = None
    species: str | None = None
    in_board_feet: bool = False

    @property
    def unit(self) -> str:
        """What is counted: "board", "pail", "pound"; "board foot" where only those were said."""
        return "board foot" if self.in_board_feet else head(self.what) or "piece"

    @property
    def shown(self) -> str:
        """As a person reads it: ``1x8 white pine board 12' 0"``, ``pail of chinking``."""
        size = format_length(self.length_ticks) if self.length_ticks is not None else ""
        return " ".join(part for part in (self.section, self.species, self.what, size) if part) or "stock"

    @property
    def length_in(self) -> str | None:
        """Its length in inches as text."""
        return None if self.length_ticks is None else format_inches(self.length_ticks)


def name_of(stock: Stock) -> Name:
    """The name that a fact gives; the length of a piece that was cut is no length of the lot."""
    length = None if stock.event == "cut" else stock.length_ticks
    bare = stock.count is None and stock.board_feet is not None
    return Name(_plain(stock.what), stock.section, length, _plain(stock.species), bare)


def fits(lot: Name, said: Name) -> bool:
    """Whether a fact can be about a lot: nothing that both name differs; "pine" fits "white pine" both ways."""
    if lot.in_board_feet != said.in_board_feet:
        return False
    if said.what is None and lot.what is not None and said.section is None and said.species is None:
        return False
    return (
        _same_thing(lot.what, said.what)
        and _agree(lot.section, said.section)
        and _agree(lot.length_ticks, said.length_ticks)
        and _within(lot.species, said.species)
    )


def narrows(lot: Name, said: Name) -> bool:
    """Whether a fact says more of itself than the lot has: "white pine" against "pine", a length against none."""
    more = any(
        getattr(said, field) is not None and getattr(lot, field) is None
        for field in ("section", "length_ticks", "species")
    )
    return more or _words(said.species) > _words(lot.species) or _words(said.what) > _words(lot.what)


def merged(lot: Name, said: Name) -> Name:
    """The lot's name with what a fact adds to it."""
    return replace(
        lot,
        what=_fuller(lot.what, said.what),
        section=lot.section or said.section,
        length_ticks=lot.length_ticks if lot.length_ticks is not None else said.length_ticks,
        species=_fuller(lot.species, said.species),
    )


def head(what: str | None) -> str:
    """The thing that is counted: "pail" of "pail of chinking"; the last word of "cup brush" is all of it."""
    return (what or "").partition(" of ")[0]


def either(names: Sequence[Name]) -> str:
    """Lots as a question names them: ``1x8 pine board or 1x10 pine board``."""
    shown = [name.shown for name in names]
    return ", ".join(shown[:-1]) + " or " + shown[-1] if len(shown) > 1 else "".join(shown)


def same(what: str | None, other: str | None) -> bool:
    """Whether two bare names mean one thing, as a price and a receipt do: "pine" and "pine board", "chinking" and "pail of
    chinking".
    """
    one, two = _words(what), _words(other)
    return bool(one and two) and (one <= two or two <= one)


@lru_cache(4096)
def _same_thing(lot: str | None, said: str | None) -> bool:
    if lot is None or said is None:
        return True
    if head(lot) != head(said):
        one, two = _words(head(lot)), _words(head(said))
        if " of " in lot or " of " in said or not (one <= two or two <= one):
            return False
    of_lot, of_said = _words(lot.partition(" of ")[2]), _words(said.partition(" of ")[2])
    return of_lot <= of_said or of_said <= of_lot


def _agree(lot: object, said: object) -> bool:
    return lot is None or said is None or lot == said


def _within(lot: str | None, said: str | None) -> bool:
    one, two = _words(lot), _words(said)
    return one <= two or two <= one


def _fuller(lot: str | None, said: str | None) -> str | None:
    return said if _words(said) > _words(lot) else lot


def _plain(text: str | None) -> str | None:
    """A name in small letters, each word in the singular, without articles: "Cup Brushes" -> "cup brush"."""
    if text is None:
        return None
    words = [singular(word) for word in text.casefold().split() if word not in _ARTICLES]
    return " ".join(words) or None


def singular(word: str) -> str:
    """The singular of a plain plural: "boards" -> "board", "brushes" -> "brush", "boxes" -> "box"."""
    if len(word) > 4 and word.endswith(("shes", "ches", "xes", "sses")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


@lru_cache(4096)
def _words(text: str | None) -> frozenset[str]:
    return frozenset(word for word in (text or "").split() if word != "of")


def unique(found: Iterable[Name]) -> tuple[Name, ...]:
    """Names without repeats, in order."""
    return tuple(dict.fromkeys(found))
