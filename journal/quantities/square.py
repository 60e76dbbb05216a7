"""Square by the diagonals, plumb and level by the foot. Knows nothing of what stands on it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import acos, degrees

from journal.lengths import FOOT, INCH, SIXTY_FOURTH
from journal.quantities.base import (
    THIRTY_SECOND,
    Answer,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    length,
    memo_names,
    number,
    quantity,
    root,
    show_length,
)
from journal.quantities.wall import is_wall, not_a_size, size_of, wall_height, wall_length
from journal.records import Measure

# the sides are checked again when the diagonals together miss them by more than this
_MISREAD = Fraction(1, 8)
# one diagonal that misses by a larger share of its length than this was misread, whatever the corner
_ABSURD = Fraction(1, 50)


def diagonal(a: Fraction, b: Fraction) -> Fraction:
    """The diagonal of a rectangle, sqrt(a² + b²)."""
    return root(a * a + b * b)


def slide(a: Fraction, b: Fraction, difference: Fraction) -> Fraction:
    """How far the side `a` has slid along itself when the diagonals differ: difference * D / (2a)."""
    return difference * diagonal(a, b) / (2 * a)


def mean_diagonal(one: Fraction, other: Fraction) -> Fraction:
    """The root mean square of two diagonals: in any parallelogram it is sqrt(a² + b²)."""
    return root((one * one + other * other) / 2)


def corner_angle(a: Fraction, b: Fraction, across: Fraction) -> float:
    """Degrees of the corner between two sides, from what was read across their ends (law of cosines). Rows TAP-052 to 054."""
    return degrees(acos(float((a * a + b * b - across * across) / (2 * a * b))))


@quantity("square", needs=("two sides", "both diagonals"))
def square(book: Book, place: str) -> Iterator[Answer]:
    """The diagonal that the sides ask for, the slide that squares them, and the side that must be misread.

    D = sqrt(a² + b²); unequal by d, the longer side a slides along itself by d * D / (2a) (parallelogram law; check rows
    TAP-035 to TAP-051). When the root mean square of the diagonals misses D by more than 1/8, no slide can explain it.
    """
    read = diagonals_read(book, place)
    if not read:
        return
    sides = _sides(book, place)
    if len(sides) < 2:
        need = "length" if "length" not in sides else "height or width"
        say = f'{place} square check needs the {need}. Say: "{place} {need.split()[0]} …"'
        yield Missing(name="square", place=place, about=need, say=say)
        return
    (name_a, a), (name_b, b) = sorted(sides.items(), key=lambda side: -side[1].value)
    if nonsense := not_a_size(place, sides):
        yield nonsense
        return
    wanted = diagonal(a.value, b.value)
    yield length("diagonal when square", place, wanted, a, b)
    said = " and ".join(show_length(value) for value in read.values)
    if len(read.values) < 2:
        say = f'{place} square check needs the other diagonal. Say: "{place} other diagonal …"'
        yield Missing(name="square", place=place, about="diagonal", say=say)
        together = read.values[0]
        if abs(a.value - b.value) < together < a.value + b.value:
            corner = corner_angle(a.value, b.value, together)
            note = f"by the one diagonal {said}, {abs(corner - 90):.2f}° off square"
            yield number("corner", place, corner, "deg", a, b, read.source, decimals=2, note=note)
        if abs(together - wanted) > _ABSURD * wanted:
            memos = tuple(sorted({*read.source.memos, *a.memos, *b.memos}))
            shown = (
                f"{place} diagonal {said} ({memo_names(read.source.memos)}) is {show_length(abs(together - wanted))} off what "
                f"{name_a} {a.shown} (memo {a.filed.memo}) and {name_b} {b.shown} (memo {b.filed.memo}) ask for. One was misread."
            )
            yield Disagreement(name="square", place=place, shown=shown, memos=memos)
    else:
        together = mean_diagonal(*read.values)
        apart = abs(read.values[0] - read.values[1])
        racked = slide(a.value, b.value, apart)
        note = (
            f"along the {name_a}: the diagonals read {said}"
            if apart
            else f"the diagonals agree at {show_length(read.values[0])}"
        )
        yield length("slide to square", place, racked, a, b, read.source, note=note)
    if abs(together - wanted) > _MISREAD and len(read.values) > 1:
        memos = tuple(sorted({*read.source.memos, *a.memos, *b.memos}))
        would = [
            f"the {name} would be {show_length(root(together**2 - other.value**2))} instead of {side.shown} (memo {side.filed.memo})"
            for name, side, other in ((name_a, a, b), (name_b, b, a))
            if together > other.value
        ]
        shown = (
            f"{place} diagonals {said} ({memo_names(read.source.memos)}) do not fit the sides: together "
            f"{show_length(together, to=THIRTY_SECOND)} against {show_length(wanted, to=THIRTY_SECOND)}. "
            f"Recheck the sides: {', or '.join(would) or 'a diagonal is shorter than a side'}."
        )
        yield Disagreement(name="square", place=place, shown=shown, memos=memos)


class Read:
    """The one or two diagonals that were read last."""

    def __init__(self, figure: Figure, values: tuple[Fraction, ...], source: Source) -> None:
        self.figure, self.values, self.source = figure, values, source


def diagonals_read(book: Book, place: str) -> Read | None:
    """The diagonals of a place: the two of the newest memo, else the last two, else one; None where none was read."""
    figure = book.newest(place, None, "diagonal")
    if figure is None:
        return None
    said = book.all_measures(place, "diagonal")
    pair = [m for m in said if m.memo == figure.filed.memo][-2:]
    if len(pair) < 2:
        pair = list(said[-2:])
    marks = "".join(("~" if m.fact.approx else "") + {"strong": "+", "shy": "-", None: ""}[m.fact.shade] for m in pair)
    doubts = tuple(d.shown for m in pair if not m.confirmed for d in m.fact.doubts)
    source = Source(tuple(sorted({m.memo for m in pair})), marks, doubts)
    return Read(figure, tuple(Fraction(m.fact.ticks, INCH) for m in pair), source)


def _sides(book: Book, place: str) -> dict[str, Figure]:
    """Two sides of a place by name: length and width of a floor, length and height of a wall, or the two of its size."""
    height, _ = wall_height(book, place)
    if is_wall(book, place):
        sides = {"length": wall_length(book, place), "height": height}
        return {name: figure for name, figure in sides.items() if figure is not None}
    found = {
        "length": book.newest(place, None, "length"),
        "width": book.newest(place, None, "width"),
        "height": height,
    }
    said = dict([(name, figure) for name, figure in found.items() if figure is not None][:2])
    sized = size_of(book, place)
    if len(said) < 2 and sized:
        return {"length": max(sized, key=lambda f: f.value), "width": min(sized, key=lambda f: f.value)}
    return said


@quantity("plumb and level", needs=("out of plumb or level, with the length it was read over",))
def plumb_and_level(book: Book, place: str) -> Iterator[Answer]:
    """How far out in one foot: the reading divided by the length in feet that it was read over, to 1/64."""
    for dimension in ("out of plumb", "out of level"):
        for about, figure in book.of_dimension(place, dimension).items():
            fact = figure.filed.fact
            over = fact.over_ticks if isinstance(fact, Measure) else None
            what = " ".join(part for part in (place, about) if part)
            if not over or over < 0:
                say = f'{what} {dimension} {figure.shown} (memo {figure.filed.memo}): over what length? Say: "… in eight foot"'
                yield Missing(name=f"{dimension} per foot", place=place, about=about, say=say)
                continue
            per_foot = figure.value / Fraction(over, FOOT)
            note = f"per foot ({figure.shown} in {show_length(Fraction(over, INCH))})"
            yield length(f"{dimension} per foot", place, per_foot, figure, about=about, to=SIXTY_FOURTH, note=note)
