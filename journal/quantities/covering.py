"""What a cut list needs beside the gable: the face that one board shows, and the openings as holes."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import cast

from journal.quantities.base import (
    Book,
    Disagreement,
    Figure,
    Missing,
    Taken,
    assumption,
    memo_names,
    show_length,
)
from journal.quantities.gable import Gable, outside
from journal.quantities.layout import Hole
from journal.records import Stock

_SECTION = re.compile(r"^\d+(?:/\d+)?x\d+(?:/\d+)?$")
_COVERING = frozenset(
    {"board", "boards", "siding", "cladding", "sheet", "foam", "plank", "planking", "batten", "face", "cover", "covers"}
)
_SHOWS = frozenset({"cover", "covers", "face", "exposure", "exposed"})
_SHEETS = frozenset({"sheet", "sheets", "foam", "panel", "panels", "plywood", "sheathing"})

assumption("face width", "in", None, "measured, not nominal: a 1x8 exposes 6 3/4 to 7 by maker", low="1/2", high="60")
assumption(
    "sheet limit", "in", None, "the longest piece the sheets or boards give; none until said", low="12", high="480"
)
assumption(
    "trim gap", "in", "0", "boards go to the rough opening until a gap for trim or flashing is said", low="0", high="6"
)


def face_of(book: Book, place: str) -> Figure | Taken | Missing | Disagreement:
    """The face that one board shows: said at the place, set, or said once of the boards that were used there."""
    here, taken = _faces(book, place), book.assume("face width", place)
    if taken.amount is not None and (not here or taken.origin == f"set for {place}"):
        return taken
    if len(here) == 1:
        return next(iter(here.values()))
    general = here or _faces(book, None)
    if not general:
        say = f'{place} cut list needs the face width of its boards. Say: "the {place} boards cover … wide"'
        return Missing(name="cut list", place=place, about="face width", say=say)
    if len({figure.value for figure in general.values()}) == 1:
        return next(iter(general.values()))
    used = {
        part
        for filed in (*book.at(place, Stock), *(f for name in book.belonging(place) for f in book.at(name, Stock)))
        for part in (filed.fact.section, filed.fact.species)
        if part
    }
    score = {about: len(used & set(about.split())) for about in general}
    best = [about for about in general if score[about] == max(score.values())]
    if len(best) == 1:
        return general[best[0]]
    said = " or ".join(f"{about} {general[about].shown}" for about in best)
    memos = tuple(sorted({memo for about in best for memo in general[about].memos}))
    shown = f'which boards go on {place}: {said}? Say: "the {place} boards cover … wide"'
    return Disagreement(name="cut list", place=place, shown=shown, memos=memos)


def limit_of(book: Book, place: str, face: Figure | Taken) -> Figure | Taken:
    """The longest piece that the sheets give: set, else the length said of the sheets whose face was said."""
    taken = book.assume("sheet limit", place)
    about = face.filed.fact.about if isinstance(face, Figure) else None
    if taken.amount is not None or about is None or not (_SHEETS & set(about.split())):
        return taken
    for where in (place, None):
        for dimension in ("length", "height", "size"):
            if (figure := book.newest(where, about, dimension)) is not None and figure.value > 0:
                return replace(figure, value=max(figure.repeats or (figure.value,)))
    return taken


def _faces(book: Book, place: str | None) -> dict[str, Figure]:
    """The face widths said of boards and sheets at a place or of none; of a size said as a pair it is the smaller."""
    widths = {about: f for about, f in book.of_dimension(place, "width").items() if about and _is_covering(about)}
    for about, figure in book.of_dimension(place, "other").items():
        if about and _SHOWS & set(about.split()):
            widths.setdefault(about, figure)
    for about, figure in book.of_dimension(place, "size").items():
        if about and _SHEETS & set(about.split()) and len(figure.repeats) == 2:
            widths.setdefault(about, replace(figure, value=min(figure.repeats)))
    return widths


def _is_covering(about: str) -> bool:
    words = about.split()
    return any(_SECTION.match(one) for one in words) or bool(_COVERING & set(words))


def holes_of(book: Book, found: Gable) -> tuple[tuple[Hole, ...], tuple[Missing, ...], tuple[Disagreement, ...]]:
    """The openings as holes with their trim gap; what is missing to place them; what does not fit."""
    place, profile = found.place, found.profile
    holes: list[Hole] = []
    missing: list[Missing] = []
    disagree: list[Disagreement] = list(found.openings.questions)
    trim = book.assume("trim gap", place).value
    if profile is None:
        return (), (), ()
    for opening in found.openings.known:
        needs = {
            "width": opening.width,
            "height": opening.height,
            "sill": opening.bottom,
            "centre": opening.left_edge(profile.base) if opening.width is not None else opening.centre,
        }
        says = {
            "width": f"{place} {opening.name} rough opening width …",
            "height": f"{place} {opening.name} rough opening height …",
            "sill": f"{place} from the plate to the {opening.name} sill …",
            "centre": f"{place} {opening.name} centre … from the corner",
        }
        lacking = [name for name, value in needs.items() if value is None]
        for name in lacking:
            say = f'{place} cut list needs the {name} of the {opening.name}. Say: "{says[name]}"'
            missing.append(Missing(name="cut list", place=place, about=f"{opening.name} {name}", say=say))
        if (wrong := outside(found, opening)) is not None:
            disagree.append(wrong)
        elif not lacking and opening.width is not None and opening.height is not None:
            left = cast(Fraction, needs["centre"])
            bottom = cast(Fraction, needs["sill"])
            hole = Hole(
                left - trim,
                left + opening.width + trim,
                max(Fraction(0), bottom - trim),
                bottom + opening.height + trim,
            )
            if not hole.fits(profile):
                shown = f"{place} {opening.name} with its trim gap of {show_length(trim)} runs out of the gable ({memo_names(opening.memos)})."
                disagree.append(Disagreement(name="cut list", place=place, shown=shown, memos=opening.memos))
            holes.append(hole)
    return tuple(holes), tuple(missing), tuple(disagree)
