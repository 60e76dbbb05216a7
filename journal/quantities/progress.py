"""How fast work goes, by the own record: what was done in an hour. No published figure."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from journal.quantities.base import Answer, Book, Source, number, quantity
from journal.quantities.cladding import net_area
from journal.quantities.labour import basis_of, worked
from journal.quantities.log_wall import chinking

_CHINK = re.compile(r"\bchink")
_BOARD = re.compile(r"\b(board|siding|cladding|sheath)")
_BRUSH = re.compile(r"\b(brush|sand|grind|blast)")
_UNDOING = re.compile(r"\b(rak|clean|strip|remov|take|taking|tear|cut|unload|stack|sticker)")


@quantity("pace of chinking", needs=("hours of chinking", "joint length"))
def pace_of_chinking(book: Book, place: str) -> Iterator[Answer]:
    """Feet of joint an hour: joint length of one face/hours whose activity was chinking. Holds once that face is done."""
    hours, basis = _hours(book, place, _CHINK)
    if not hours:
        return
    joints = next((a for a in chinking(book, place) if getattr(a, "name", "") == "joint length"), None)
    feet = getattr(joints, "exact", None)
    if feet:
        rest = Source(getattr(joints, "memos", ()), getattr(joints, "mark", ""), getattr(joints, "doubts", ()))
        note = f"an hour, {float(feet):.1f} ft in {float(hours):g} h, if one face is done"
        yield number("pace of chinking", place, feet / hours, "ft", basis, rest, note=note)


@quantity("pace of covering", needs=("hours of boarding, brushing or sanding", "net area"))
def pace_of_covering(book: Book, place: str) -> Iterator[Answer]:
    """Square feet an hour: net area/hours of boarding, or of brushing and sanding. Holds once the whole face is done."""
    area = None
    for what, pattern in (("boarding", _BOARD), ("brushing", _BRUSH)):
        hours, basis = _hours(book, place, pattern)
        if not hours:
            continue
        area = area or net_area(book, place)
        if area is None or area.exact is None:
            return
        rest = Source(area.memos, area.mark, area.doubts, area.assumed)
        note = f"an hour, {float(area.exact):.1f} ft² in {float(hours):g} h, if the whole face is done"
        yield number(f"pace of {what}", place, area.exact / hours, "ft2", basis, rest, note=note)


def _hours(book: Book, place: str, pattern: re.Pattern[str]) -> tuple[Fraction, Source]:
    """The hours of a kind of work at a place; none where hours there have no activity, for those may be of it."""
    here = [one for one in worked(book) if one.filed.fact.place == place]
    if any(not one.filed.fact.activity for one in here):
        return Fraction(0), Source()
    done = [(one, (one.filed.fact.activity or "").casefold()) for one in here]
    found = [one for one, activity in done if pattern.search(activity) and not _UNDOING.search(activity)]
    return sum((one.hours for one in found), Fraction(0)), basis_of(found)
