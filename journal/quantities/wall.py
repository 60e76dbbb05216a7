"""Walls: net area, and the length that a wall shares with the gable over it. Knows nothing of logs or boards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from journal.quantities.base import (
    Answer,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    assumption,
    memo_names,
    number,
    quantity,
    show_length,
    twin,
    word,
)
from journal.quantities.openings import Opening, openings

# a wall and the gable over it are told apart by the tape no finer than this (common practice)
_ALIKE = Fraction(1, 4)

assumption(
    "leave in openings under",
    "count",
    "0",
    "rough openings are deducted; siding take-offs often leave those under about 10 ft² in (common practice)",
    low="0",
    high="100",
    per=" ft²",
)


def is_wall(book: Book, place: str) -> bool:
    """Whether a place is a wall: by its name, or by having a length and a height and no other name for what it is."""
    if word(place, "wall"):
        return not word(place, "gable", "roof")
    other = word(place, "gable", "roof", "floor", "stair", "stairs", "ceiling", "deck", "dormer")
    has = book.figures(place)
    return not other and (None, "length") in has and (None, "height") in has


def size_of(book: Book, place: str) -> tuple[Figure, ...]:
    """The two sides of a place that was said as "twenty two by eight", in the order said; else nothing."""
    size = book.newest(place, None, "size")
    if size is None or len(size.repeats) != 2:
        return ()
    return tuple(replace(size, value=side) for side in size.repeats)


def wall_length(book: Book, place: str) -> Figure | None:
    """The length of a wall; its width, or the first side of its size, where that is how it was said."""
    said = book.newest(place, None, "length") or book.newest(place, None, "width")
    return said or next(iter(size_of(book, place)), None)


def wall_height(book: Book, place: str) -> tuple[Figure | None, Source | None]:
    """The height of a wall; the plate height where no other was said, with a word on that."""
    if (height := book.newest(place, None, "height")) is not None:
        return height, None
    if sized := size_of(book, place):
        return sized[1], None
    plate = book.newest(place, None, "plate height")
    return plate, Source(assumed=("height is the plate height",)) if plate is not None else None


@quantity("net wall area", needs=("length", "height", "rough openings"), assumes=("leave in openings under",))
def net_wall_area(book: Book, place: str) -> Iterator[Answer]:
    """Area in ft² of a wall less its openings: (length * height - sum of width * height of each) / 144.

    Rough openings are deducted; small ones may be left in (common practice). An opening that lacks a side, or a figure that
    could belong to two openings, is not deducted and the area is marked ``~``.
    """
    if not is_wall(book, place):
        return
    long, (height, note) = wall_length(book, place), wall_height(book, place)
    found = openings(book, place)
    if long is None and height is None and not found.known:
        return
    yield from found.questions
    for dimension, figure in (("length", long), ("height", height)):
        if figure is None:
            say = f'{place} area needs the {dimension}. Say: "{place} {dimension} …"'
            yield Missing(name="net wall area", place=place, about=dimension, say=say)
    if long is None or height is None:
        return
    if nonsense := not_a_size(place, {"length": long, "height": height}):
        yield nonsense
        return
    gross = long.value * height.value
    left_in = book.assume("leave in openings under", place)
    net, unsure, used = gross, bool(found.questions), []
    for opening in found.known:
        if (too_large := _too_large(place, opening, long, height)) is not None:
            yield too_large
            unsure = True
        elif opening.area is None:
            side = "height" if opening.height is None else "width"
            say = f'{place} area needs the {side} of the {opening.name}. Say: "{place} {opening.name} rough opening {side} …"'
            yield Missing(name="net wall area", place=place, about=f"{opening.name} {side}", say=say)
            unsure = True
        elif opening.area >= left_in.value * 144:
            net -= opening.area
            used.append(opening)
            unsure = unsure or not opening.rough
    basis = [long, height, note, *(figure for opening in used for figure in opening.figures)]
    if net < 0:
        memos = tuple(sorted({memo for opening in used for memo in opening.memos}))
        shown = f"the openings of {place} ({memo_names(memos)}) are larger than the wall itself. Say them again."
        yield Disagreement(name="net wall area", place=place, shown=shown, memos=memos)
        return
    yield number("gross wall area", place, gross / 144, "ft2", long, height, note)
    deducted = ", ".join(f"{o.name} {float((o.area or 0) / 144):.1f}" for o in used)
    yield number(
        "net wall area",
        place,
        net / 144,
        "ft2",
        *basis,
        left_in if left_in.value else None,
        Source(mark="~") if unsure else None,
        note=f"({float(gross / 144):.1f} less {deducted})" if deducted else "",
    )


def not_a_size(place: str, sides: dict[str, Figure]) -> Disagreement | None:
    """A sentence for the first side that is no size at all: zero or less."""
    for dimension, figure in sides.items():
        if figure.value <= 0:
            shown = f"{place} {dimension} is {figure.shown} (memo {figure.filed.memo}): that is no size. Say it again."
            return Disagreement(name=dimension, place=place, shown=shown, memos=figure.memos)
    return None


def _too_large(place: str, opening: Opening, long: Figure, height: Figure) -> Disagreement | None:
    top = (opening.bottom or Fraction(0)) + (opening.height or Fraction(0))
    for dimension, size, of_wall in (("width", opening.width, long), ("height", opening.height, height)):
        if size is not None and (size > of_wall.value or size <= 0):
            what = "no size" if size <= 0 else f"more than the wall's {of_wall.shown} (memo {of_wall.filed.memo})"
            shown = f"{place} {opening.name} {dimension} {show_length(size)} ({memo_names(opening.memos)}) is {what}. Say it again."
            memos = tuple(sorted({*opening.memos, *of_wall.memos}))
            return Disagreement(name="net wall area", place=place, shown=shown, memos=memos)
    if opening.sill is not None and top > height.value:
        memos = tuple(sorted({*opening.memos, *opening.sill.memos, *height.memos}))
        shown = (
            f"{place} {opening.name} goes up to {show_length(top)} (sill and height, {memo_names(memos)}), "
            f"more than the wall's {height.shown}. Say its sill or its height again."
        )
        return Disagreement(name="net wall area", place=place, shown=shown, memos=memos)
    return None


@quantity("wall and gable", needs=("length", "base width of the gable over it"))
def wall_and_gable(book: Book, place: str) -> Iterator[Answer]:
    """A wall's length against the base of the gable over it: more than 1/4 in. apart is shown, never blocked."""
    other = twin(place)
    if other is None:
        return
    wall, gable = (place, other) if word(place, "wall") else (other, place)
    long, base = wall_length(book, wall), book.newest(gable, None, "base width")
    if long is None or base is None or abs(long.value - base.value) <= _ALIKE:
        return
    apart = show_length(abs(long.value - base.value))
    shown = (
        f"{wall} length {show_length(long.value)} (memo {long.filed.memo}) and {gable} base width "
        f"{show_length(base.value)} (memo {base.filed.memo}) should be alike: {apart} apart. Measure the one again that is off."
    )
    memos = tuple(sorted({*long.memos, *base.memos}))
    yield Disagreement(name="wall and gable", place=place, shown=shown, memos=memos)
