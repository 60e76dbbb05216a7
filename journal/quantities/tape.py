"""How far a tape itself may be out. Knows nothing of what was measured with it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from journal.lengths import INCH, MILLIMETRE
from journal.quantities.base import (
    THIRTY_SECOND,
    Answer,
    Book,
    Disagreement,
    Figure,
    Source,
    assumption,
    length,
    quantity,
)
from journal.records import Measure

# a, b in mm and mm a metre, and c in mm for a hook or end: EC tape classes (Directive 2014/32/EU, annex X; rows TAP-001 to 003)
EC_CLASSES: dict[str, tuple[Fraction, Fraction, Fraction]] = {
    "I": (Fraction("0.1"), Fraction("0.1"), Fraction("0.1")),
    "II": (Fraction("0.3"), Fraction("0.2"), Fraction("0.2")),
    "III": (Fraction("0.6"), Fraction("0.4"), Fraction("0.3")),
}
STEEL_PER_F = Fraction("0.00000645")

assumption(
    "tape class",
    "choice",
    "none",
    "printed on the tape in an oval; nothing is said of the tape's own error until it is set",
    choices=("none", "i", "ii", "iii"),
)


def tape_error(kind: str, metres: Fraction, *, hook: bool = False) -> Fraction:
    """The permissible error in mm of an EC tape: a + b * L, L rounded up to the next whole metre, + c over a hook or end."""
    a, b, c = EC_CLASSES[kind]
    return a + b * ceil(metres) + (c if hook else 0)


def tape_growth(long: Fraction, warmer_f: Fraction) -> Fraction:
    """How much a steel tape grows, in the unit of its length, when warmer by so many degrees F: 6.45e-6 a degree."""
    return long * warmer_f * STEEL_PER_F


@quantity("tape error", needs=("length",), assumes=("tape class",))
def tape_error_of(book: Book, place: str) -> Iterator[Answer]:
    """What the class on the tape allows it to be out over the longest length of a place: a + b * L + c (EC classes)."""
    kind = book.assume("tape class", place)
    if kind.word in ("", "none"):
        return
    longest = max((f for f in _measures(book, place)), key=lambda f: f.value, default=None)
    if longest is None or longest.value <= 0:
        return
    millimetres = tape_error(kind.word.upper(), longest.value * INCH / (1000 * MILLIMETRE), hook=True)
    note = f"either way over {longest.shown}, from the hook"
    yield length("tape error", place, millimetres * MILLIMETRE / INCH, longest, kind, to=THIRTY_SECOND, note=note)


def _measures(book: Book, place: str) -> Iterator[Figure]:
    for (about, dimension), figure in book.figures(place).items():
        if (
            isinstance(figure.filed.fact, Measure)
            and about is None
            and dimension not in ("out of plumb", "out of level")
        ):
            yield figure


@quantity("two tapes", needs=("two dimensions of a place",))
def two_tapes(book: Book, place: str) -> Iterator[Answer]:
    """A place whose own dimensions were read on both tapes is told once: the sums are exact, the reading may not be."""
    by_system: dict[str, Figure] = {}
    for figure in _measures(book, place):
        by_system.setdefault(figure.system, figure)
    if len(by_system) < 2:
        return
    inch, metric = by_system["inch"], by_system["metric"]
    named = {name: getattr(one.filed.fact, "dimension", "") for name, one in (("inch", inch), ("metric", metric))}
    shown = (
        f"{place} was measured on two tapes: {named['inch']} {inch.shown} (memo {inch.filed.memo}), {named['metric']} "
        f"{metric.shown} (memo {metric.filed.memo}). Both are used exactly; check that neither was read off the other side."
    )
    yield Disagreement(
        name="two tapes", place=place, shown=shown, memos=Source((inch.filed.memo, metric.filed.memo)).memos
    )
