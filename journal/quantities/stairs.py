"""Stairs: risers and treads between two finished floors. Knows nothing of stringers' strength."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from journal.quantities.base import (
    Answer,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    assumption,
    length,
    number,
    quantity,
    show_length,
    word,
)
from journal.quantities.cautions import STAIRS

assumption("most rise", "in", "7 3/4", "IRC as read at jeffco.us (2018); your code governs", low="4", high="12")

# below this a rise or run is one step's, above it the whole flight's
_ONE_STEP = Fraction(20)
# and below this it is no step at all
_LEAST = Fraction(2)
_MOST_STEPS = 200
_FINISH = Source(assumed=("total rise taken from finish to finish",))
_NAMES = ("stair", "stairs", "stairway", "steps", "step", "stringer")


def riser_count(total: Fraction, most: Fraction) -> int:
    """How many risers, none higher than `most`: ceil(total / most). ValueError where either is no height."""
    if total <= 0 or most <= 0:
        raise ValueError("a flight of stairs needs a total rise and a greatest riser above zero")
    return ceil(total / most)


def _flights(book: Book, place: str, dimension: str) -> list[Figure]:
    named = word(place, *_NAMES)
    return [
        figure
        for about, figure in book.of_dimension(place, dimension).items()
        if (about is None and named) or (about is not None and set(about.split()) & set(_NAMES))
    ]


def _named(place: str, flights: list[Figure]) -> str:
    """What to call the flight: "loft stair" for a stair of the loft, the place itself where it is one."""
    if word(place, *_NAMES):
        return place
    said = [one for figure in flights for one in (figure.filed.fact.about or "").split() if one in _NAMES[:-1]]
    return f"{place} {said[0] if said else _NAMES[0]}"


@quantity("stairs", needs=("total rise", "total run or run of one step"), assumes=("most rise",), caution=STAIRS)
def stairs(book: Book, place: str) -> Iterator[Answer]:
    """Risers, height of each, treads, and the tread or the whole run: n = ceil(total / most rise), each = total / n, treads n - 1.

    The total goes from finished floor to finished floor (common practice). A rise of less than 20 in. is one step's.
    """
    rises, runs = _flights(book, place, "rise"), _flights(book, place, "run")
    if not rises and not runs:
        return
    name = _named(place, [*rises, *runs])
    total = next((figure for figure in rises if figure.value > _ONE_STEP), None)
    step = next((figure for figure in rises if figure.value <= _ONE_STEP), None)
    if (wrong := next((figure for figure in (*rises, *runs) if figure.value < _LEAST), None)) is not None:
        shown = f"{name} has a rise or run of {wrong.shown} (memo {wrong.filed.memo}): that is no step. Say it again."
        yield Disagreement(name="stairs", place=place, shown=shown, memos=wrong.memos)
        return
    if total is None:
        say = f'{name} risers need the total rise, finish to finish. Say: "{name} rise … foot …"'
        yield Missing(name="stairs", place=place, about="total rise", say=say)
        return
    most = book.assume("most rise", place)
    count = riser_count(total.value, most.value)
    if count > _MOST_STEPS:
        shown = (
            f"{name} rise {total.shown} (memo {total.filed.memo}) makes {count} risers: that is no stair. Say it again."
        )
        yield Disagreement(name="stairs", place=place, shown=shown, memos=total.memos)
        return
    each = total.value / count
    yield number("risers", place, count, "count", total, most, _FINISH)
    yield length("riser", place, each, total, most, _FINISH, note=f"lay out from the total {show_length(total.value)}")
    yield number("treads", place, count - 1, "count", total, most, _FINISH)
    if step is not None and abs(step.value - each) > Fraction(1, 8):
        shown = (
            f"{name}: one step is said to rise {step.shown} (memo {step.filed.memo}), but {total.shown} in {count} risers "
            f"(memo {total.filed.memo}) is {show_length(each)} each."
        )
        memos = tuple(sorted({*step.memos, *total.memos}))
        yield Disagreement(name="stairs", place=place, shown=shown, memos=memos)
    for run in runs:
        if count < 2:
            break
        if run.value > _ONE_STEP:
            yield length("tread", place, run.value / (count - 1), run, total, most, _FINISH, about=run.filed.fact.about)
        else:
            yield length(
                "stair run", place, run.value * (count - 1), run, total, most, _FINISH, about=run.filed.fact.about
            )
