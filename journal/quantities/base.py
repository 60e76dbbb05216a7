"""The registry of quantities: what they need, what they assume, what they answer about a place.

A quantity is a function of the current facts (`Book`) and a place that yields values with the memos behind them, what is
missing in words a person could say next, or facts that disagree. It is silent about a place that it does not concern.
Everything is worked out again each time and nothing is kept.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache
from typing import TypeVar

from journal.quantities.assumptions import ASSUMPTIONS, Assumption, Setting, assumption
from journal.quantities.book import Book, Figure, Taken, day, exact, show_fact, thing
from journal.quantities.values import (
    SIXTEENTH,
    THIRTY_SECOND,
    Basis,
    Disagreement,
    Missing,
    Source,
    Value,
    length,
    memo_names,
    number,
    root,
    show_length,
    worded,
)  # fmt: skip

__all__ = [
    "ASSUMPTIONS", "SIXTEENTH", "THIRTY_SECOND", "Answer", "Answers", "Assumption", "Basis", "Book", "Disagreement", "Figure",
    "Missing", "Quantity", "Setting", "Source", "Taken", "Value", "answers", "assumption", "concerned", "day", "exact", "length",
    "listed", "memo_names", "number", "quantities", "quantity", "root", "show_fact", "show_length", "thing", "to_json", "twin",
    "word", "worded",
]  # fmt: skip

Answer = Value | Missing | Disagreement
A = TypeVar("A", Missing, Disagreement)
Work = Callable[[Book, str], Iterable[Answer]]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A registered quantity; formula and source stand in the docstring of `work`."""

    name: str
    needs: tuple[str, ...]
    assumes: tuple[str, ...]
    caution: str
    work: Work


@dataclass(frozen=True, slots=True)
class Answers:
    """All that the facts of a place imply, what is missing and what disagrees."""

    quantities: tuple[Value, ...] = ()
    missing: tuple[Missing, ...] = ()
    disagree: tuple[Disagreement, ...] = ()

    def value(self, name: str, about: str | None = None) -> Value | None:
        """The first value of this name (and thing), None where there is none."""
        return next((v for v in self.quantities if v.name == name and about in (None, v.about)), None)


_REGISTRY: dict[str, Quantity] = {}


def quantity(
    name: str, *, needs: tuple[str, ...], assumes: tuple[str, ...] = (), caution: str = ""
) -> Callable[[Work], Work]:
    """Registers a function as the quantity `name`; `caution` is printed beside each of its values that has none."""

    def register(work: Work) -> Work:
        _REGISTRY[name] = Quantity(name, needs, assumes, caution, work)
        return work

    return register


@cache
def quantities() -> tuple[Quantity, ...]:
    """Every quantity of every family, in the order of the family files."""
    import journal.quantities as package

    for family in sorted(module.name for module in pkgutil.iter_modules(package.__path__)):
        importlib.import_module(f"{package.__name__}.{family}")
    return tuple(_REGISTRY.values())


def listed() -> tuple[Assumption, ...]:
    """Every assumption of every family, by name."""
    quantities()
    return tuple(ASSUMPTIONS[name] for name in sorted(ASSUMPTIONS))


def answers(book: Book, place: str) -> Answers:
    """What the facts of a place imply. Never raises: arithmetic that fails becomes a disagreement naming the place's memos."""
    found: list[Answer] = []
    for known in quantities():
        try:
            found.extend(_with_caution(answer, known.caution) for answer in known.work(book, place))
        except (ArithmeticError, ValueError) as error:
            memos = book.memos_at(place)
            said = f"{known.name} of {place} cannot be worked out from {memo_names(memos)}: {error}"
            found.append(Disagreement(name=known.name, place=place, shown=said, memos=memos))
    return Answers(
        tuple(a for a in found if isinstance(a, Value)),
        _once(a for a in found if isinstance(a, Missing)),
        _once(a for a in found if isinstance(a, Disagreement)),
    )


def concerned(place: str, places: Iterable[str]) -> frozenset[str]:
    """The places whose facts the answers for a place read: itself, what belongs to it, wider places and the wall or gable
    that it shares a length with. Facts without a place (face widths, stock) are read besides.
    """
    known = frozenset(places)
    twins = {name for name in (twin(place),) if name is not None}
    wider = {name for name in known if place.startswith(name + " ")}
    belonging = {name for name in known if name.startswith(place + " ")}
    return frozenset({place} | belonging | ((wider | twins) & known))


def twin(place: str) -> str | None:
    """The gable over a wall or the wall under a gable, by name: "lake wall" and "lake gable", "wall B" and "gable B"."""
    words = place.split(" ")
    for one, other in (("wall", "gable"), ("gable", "wall")):
        if one in words:
            return " ".join(other if word == one else word for word in words)
    return None


def word(place: str, *names: str) -> bool:
    """Whether one of the words of a place's name is among these."""
    return any(name in names for name in place.casefold().split())


# ---- out -----------------------------------------------------------------------------------------------------------


def to_json(answer: Answer) -> dict[str, object]:
    """An answer as the object that `--json` gives: lengths in inches as text plus `ticks`, other values as numbers."""
    if isinstance(answer, Missing):
        return {"name": answer.name, "place": answer.place, "about": answer.about, "say": answer.say}
    if isinstance(answer, Disagreement):
        return {"name": answer.name, "place": answer.place, "shown": answer.shown, "memos": list(answer.memos)}
    row: dict[str, object] = {
        "name": answer.name,
        "place": answer.place,
        "about": answer.about,
        "value": answer.value,
        "unit": answer.unit,
        "shown": answer.shown,
        "memos": list(answer.memos),
        "assumed": list(answer.assumed),
        "caution": answer.caution,
        "mark": answer.mark,
        "doubts": list(answer.doubts),
        "was": list(answer.was),
    }
    if answer.ticks is not None:
        row["ticks"] = answer.ticks
    return row | dict(answer.more)


def _with_caution(answer: Answer, caution: str) -> Answer:
    if isinstance(answer, Value) and caution and not answer.caution:
        return replace(answer, caution=caution)
    return answer


def _once(found: Iterable[A]) -> tuple[A, ...]:
    return tuple(dict.fromkeys(found))
