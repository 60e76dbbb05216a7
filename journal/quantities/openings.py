"""The openings of a wall or gable as they were said: widths, heights, sills and where they stand. And the window for one.

Knows nothing of areas or boards.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from journal.lengths import SIXTY_FOURTH
from journal.quantities.base import (
    Answer,
    Book,
    Disagreement,
    Figure,
    quantity,
    show_length,
    thing,
    worded,
)
from journal.quantities.book import once

_KINDS = ("window", "door", "opening", "vent", "hatch", "louvre", "skylight")
_SPOTS = frozenset({"top", "middle", "bottom", "left", "right", "centre", "center"})
_LEVELS = frozenset({"plate", "top plate", "bottom plate", "sole plate", "floor", "base", "sill log", "bottom", "deck"})
_CENTRE = re.compile(r" (?:centre|center|centred|centered)$")
# readings of one width lie closer than this; wider apart they are two openings
_SPREAD = Fraction(1, 2)

Corner = Literal["left", "right", "middle"]


@dataclass(frozen=True, slots=True)
class Opening:
    """One opening with what was said of it. `width` and `height` are the smallest readings in inches, None where not said.

    `sill` is its bottom above the bottom of the wall or the plate. `centre` is the distance of its middle from the left
    corner, the right corner or the middle (then positive to the right), by `corner`.
    """

    name: str
    width: Fraction | None
    height: Fraction | None
    figures: tuple[Figure, ...]
    sill: Figure | None = None
    centre: Fraction | None = None
    centre_figure: Figure | None = None
    corner: Corner = "left"
    corner_said: bool = False
    rough: bool = True

    @property
    def is_door(self) -> bool:
        """Whether it goes down to the bottom of the wall."""
        return "door" in self.name.split()

    @property
    def area(self) -> Fraction | None:
        """Square inches, None where a side was not said."""
        return None if self.width is None or self.height is None else self.width * self.height

    @property
    def memos(self) -> tuple[int, ...]:
        """The memos behind its width and height."""
        return tuple(sorted({memo for figure in self.figures for memo in figure.memos}))

    @property
    def bottom(self) -> Fraction | None:
        """Inches from the bottom of the wall to its own; 0 for a door, None where no sill was said."""
        if self.sill is not None:
            return self.sill.value
        return Fraction(0) if self.is_door else None

    def left_edge(self, base: Fraction) -> Fraction | None:
        """Inches from the left corner of a wall of this length to its left side, None where it is not known."""
        if self.width is None or self.centre is None:
            return None
        middle = {"left": self.centre, "right": base - self.centre, "middle": base / 2 + self.centre}[self.corner]
        return middle - self.width / 2


@dataclass(frozen=True, slots=True)
class Openings:
    """The openings of a place, and the questions left about figures that could belong to more than one."""

    known: tuple[Opening, ...] = ()
    questions: tuple[Disagreement, ...] = ()


@once
def openings(book: Book, place: str) -> Openings:
    """The openings said of a place with a rough opening, or with both a width and a height of their own."""
    widths = _grouped(book.of_dimension(place, "rough opening width"))
    heights = _grouped(book.of_dimension(place, "rough opening height"))
    names = sorted({*widths, *heights}, key=lambda name: name or "")
    named = [name for name in names if name is not None]
    questions: list[Disagreement] = []
    if None in names and len(named) == 1:  # the place has one opening, so an unnamed figure is that one's
        widths[named[0]] = [*widths.pop(None, []), *widths.get(named[0], [])]
        heights[named[0]] = [*heights.pop(None, []), *heights.get(named[0], [])]
        names = list(named)
    known: list[Opening] = []
    for name in names:
        figures = [*widths.get(name, []), *heights.get(name, [])]
        if not figures:
            continue
        others = [one for one in named if one != name and (name is None or name in one.split())]
        if others:
            questions.append(_which(place, name, others, figures))
        elif apart := _two_at_once(figures):
            questions.append(_two(place, name, apart))
        else:
            known.append(_opening(book, place, name, widths.get(name, []), heights.get(name, []), len(names)))
    for name, pair in _sized(book, place, {n for n in names if n}):
        known.append(_opening(book, place, name, [pair[0]], [pair[1]], len(names) + 1, rough=False))
    return Openings(tuple(known), tuple(questions))


def _grouped(figures: dict[str | None, Figure]) -> defaultdict[str | None, list[Figure]]:
    """Figures by opening: "window top" and "window bottom" are readings of the window."""
    grouped: defaultdict[str | None, list[Figure]] = defaultdict(list)
    for about, figure in figures.items():
        words = (about or "").split()
        while len(words) > 1 and words[-1] in _SPOTS:
            words.pop()
        grouped[" ".join(words).removesuffix(" rough opening") or None].append(figure)
    return grouped


def _sized(book: Book, place: str, taken: set[str]) -> Iterator[tuple[str, tuple[Figure, Figure]]]:
    """Windows and doors of which only their own width and height were said."""
    for about, width in book.of_dimension(place, "width").items():
        words = (about or "").split()
        if not about or about in taken or not (words[-1] in _KINDS or (len(words) > 1 and words[-2] in _KINDS)):
            continue
        if words[-1].isdigit() or words[-1] in _KINDS:
            height = book.newest(place, about, "height")
            if height is not None:
                yield about, (width, height)


def _newest(figures: Iterable[Figure]) -> Figure | None:
    return max(figures, key=lambda f: (f.filed.said_at, f.filed.memo, f.filed.number), default=None)


def _smallest(figures: list[Figure]) -> tuple[Fraction | None, list[Figure]]:
    """The smallest of the readings that belong together: those of the newest memo, or of one name each at several spots."""
    if not figures:
        return None, []
    by_spot = {thing(f.filed.fact.about): f for f in sorted(figures, key=lambda f: f.filed.said_at)}
    spots = [f for about, f in by_spot.items() if about is not None and about.split()[-1] in _SPOTS]
    used = spots or [f for f in (_newest(figures),) if f is not None]
    return min(value for figure in used for value in (figure.repeats or (figure.value,))), used


def _opening(
    book: Book,
    place: str,
    name: str | None,
    widths: list[Figure],
    heights: list[Figure],
    count: int,
    *,
    rough: bool = True,
) -> Opening:
    width, of_width = _smallest(widths)
    height, of_height = _smallest(heights)
    label = name or "opening"
    alone = count == 1
    centre, figure, corner, said = _stands(book, place, label, width, alone=alone)
    return Opening(
        label,
        width,
        height,
        (*of_width, *of_height),
        sill=_sill(book, place, label, alone=alone),
        centre=centre,
        centre_figure=figure,
        corner=corner,
        corner_said=said,
        rough=rough,
    )


def _sill(book: Book, place: str, name: str, *, alone: bool) -> Figure | None:
    names = {f"{name} sill", f"sill of {name}"} | ({"sill", "window sill", "rough sill"} if alone else set())
    found = []
    for (about, dimension), figure in book.figures(place).items():
        if about is None:
            continue
        start, to, end = about.partition(" to ")
        if (dimension == "height" and about in names) or (
            dimension in ("offset", "height") and to and start in _LEVELS and end in names | {name}
        ):
            found.append(figure)
    return _newest(found)


def _stands(
    book: Book, place: str, name: str, width: Fraction | None, *, alone: bool
) -> tuple[Fraction | None, Figure | None, Corner, bool]:
    """Where the middle of an opening is: its distance in inches, the figure, the corner it is from and whether that was said."""
    names = {name} | ({"window", "opening"} if alone else set())
    found: list[tuple[Figure, Fraction, str]] = []
    for (about, dimension), figure in book.figures(place).items():
        start, to, end = (about or "").partition(" to ")
        target = re.sub(_CENTRE, "", end) if to else start
        if dimension == "centre" and (target in names or (alone and not to)):
            found.append((figure, figure.value, start if to else ""))
        elif dimension == "offset" and to and target in names and width is not None and start not in _LEVELS:
            side = figure.value if re.search(_CENTRE, end) else figure.value + width / 2
            found.append((figure, side, start))
    if not found:
        return None, None, "left", False
    figure, distance, start = max(found, key=lambda f: (f[0].filed.said_at, f[0].filed.memo, f[0].filed.number))
    if re.search(r"\b(centre|center|middle)\b", start):
        return distance, figure, "middle", False
    corner: Corner = "right" if "right" in start.split() else "left"
    return distance, figure, corner, corner == "right" or "left" in start.split()


def _which(place: str, name: str | None, others: list[str], figures: list[Figure]) -> Disagreement:
    said = ", ".join(
        f"{f.filed.fact.dimension if hasattr(f.filed.fact, 'dimension') else ''} {f.shown}" for f in figures
    )
    memos = tuple(sorted({memo for figure in figures for memo in figure.memos}))
    either = " or ".join(f"the {one}" for one in others[:3]) if len(others) > 1 else f"the {others[0]} or another"
    shown = f"which {name or 'opening'} of {place} is memo {memos[-1]} about: {either}? ({said}). Say its name with the figure."
    return Disagreement(name="openings", place=place, shown=shown, memos=memos)


def _two_at_once(figures: list[Figure]) -> Figure | None:
    return next((f for f in figures if f.repeats and max(f.repeats) - min(f.repeats) > _SPREAD), None)


def _two(place: str, name: str | None, figure: Figure) -> Disagreement:
    said = " and ".join(show_length(value) for value in figure.repeats)
    shown = f"which {name or 'opening'} of {place}? memo {figure.filed.memo} gives {said}. Say a name with each."
    return Disagreement(name="openings", place=place, shown=shown, memos=figure.memos)


@quantity("rough opening", needs=("rough opening width", "rough opening height"))
def rough_opening(book: Book, place: str) -> Iterator[Answer]:
    """Each opening of a place as it stands, width first, with what a newer figure replaced: ``30 1/2 x 42 1/2 (was …)``."""
    for opening in openings(book, place).known:
        if opening.width is None or opening.height is None or not opening.rough:
            continue
        metric = {figure.system for figure in opening.figures} == {"metric"}
        sides = (_exactly(side, metric=metric) for side in (opening.width, opening.height))
        size = " x ".join(sides) + (" mm" if metric else "")
        was = "; ".join(figure.was_shown for figure in opening.figures if figure.was).replace('"', "")
        sill = f"sill {opening.sill.shown} up".replace('"', "") if opening.sill is not None else ""
        note = ", ".join(part for part in (f"({was})" if was else "", sill) if part)
        used = (*opening.figures, opening.sill)
        yield worded("rough opening", place, size, "in", *used, about=opening.name, note=note)


def _exactly(side: Fraction, *, metric: bool) -> str:
    """A side as it was read: millimetres without their unit, or inches to 1/64."""
    if metric:
        return f"{float(side * Fraction(254, 10)):g}"
    return show_length(side, to=SIXTY_FOURTH).removesuffix('"')
