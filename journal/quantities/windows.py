"""The window for an opening, and a sash on hand against it."""

from __future__ import annotations

from collections.abc import Iterator

from journal.quantities.base import (
    THIRTY_SECOND,
    Answer,
    Book,
    Disagreement,
    Figure,
    Missing,
    assumption,
    length,
    memo_names,
    quantity,
    show_length,
)
from journal.quantities.cautions import GLASS
from journal.quantities.openings import openings

assumption(
    "window clearance",
    "in",
    "1/4",
    "a side; 1/2 in. in all is usual, as read at lyndaleglass.com; the maker's sheet governs",
    low="0",
    high="2",
)


@quantity(
    "window to order",
    needs=("rough opening width", "rough opening height"),
    assumes=("window clearance",),
    caution=GLASS,
)
def window_to_order(book: Book, place: str) -> Iterator[Answer]:
    """Width and height of the window for a rough opening: opening less the clearance on both sides, rounded down to 1/16.

    Uses the smallest of the widths and heights read (common practice). Clearance: lyndaleglass.com, as read.
    """
    clearance = book.assume("window clearance", place)
    for opening in openings(book, place).known:
        if "window" not in opening.name.split() or not opening.rough:
            continue
        for side, size in (("width", opening.width), ("height", opening.height)):
            used = [f for f in opening.figures if f.filed.fact.kind == "measure" and _side(f) == side]
            name = f"to order, {side}"
            if size is None:
                say = f"the {opening.name} to order for {place} needs its rough opening {side}. "
                example = f'Say: "{place} {opening.name} rough opening {side} …"'
                yield Missing(name=name, place=place, about=opening.name, say=say + example)
                continue
            unit = size - 2 * clearance.value
            if unit <= 0:
                shown = f"{place} {opening.name} rough opening {side} {show_length(size)} ({memo_names(opening.memos)}) leaves no room "
                yield Disagreement(
                    name=name,
                    place=place,
                    shown=shown + f"for a window with {show_length(clearance.value)} clearance a side",
                    memos=opening.memos,
                )
                continue
            system = used[0].system if used else "inch"
            yield length(name, place, unit, *used, clearance, about=opening.name, rounding="down", system=system)
            if used and (readings := [v for f in used for v in f.repeats]) and len(readings) > 1:
                note = "of " + ", ".join(show_length(v) for v in readings)
                yield length(f"smallest opening {side}", place, size, *used, about=opening.name, note=note)


def _side(figure: Figure) -> str:
    return getattr(figure.filed.fact, "dimension", "").split()[-1]


@quantity("sash clearance", needs=("rough opening width", "sash width"))
def sash_clearance(book: Book, place: str) -> Iterator[Answer]:
    """What a sash on hand leaves of its rough opening, both sides together, to 1/32; a sash that is larger is a disagreement.

    opening - sash, for the one window of a place.
    """
    windows = [o for o in openings(book, place).known if "window" in o.name.split()]
    if len(windows) != 1:
        return
    for side, size in (("width", windows[0].width), ("height", windows[0].height)):
        for about, sash in book.of_dimension(place, side).items():
            if size is None or about is None or "sash" not in about.split():
                continue
            left = size - sash.value
            if left < 0:
                shown = (
                    f"{place}: the {about} is {sash.shown} in {side} (memo {sash.filed.memo}), more than the rough opening's "
                    f"{show_length(size)} ({memo_names(windows[0].memos)}). Were width and height swapped?"
                )
                memos = tuple(sorted({*sash.memos, *windows[0].memos}))
                yield Disagreement(name="sash clearance", place=place, shown=shown, memos=memos)
                continue
            note = f"in all ({float(left):.2f} in.), {show_length(left / 2, to=THIRTY_SECOND)} a side"
            used = [f for f in windows[0].figures if _side(f) == side]
            yield length(f"clearance, {side}", place, left, sash, *used, about=about, to=THIRTY_SECOND, note=note)
