"""A roof as the facts on file make it: run, slope, overhang, ridge. Knows nothing of lengths along the slope."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    Taken,
    assumption,
    memo_names,
    show_length,
    word,
)
from journal.quantities.slopes import Pitches, pitches

assumption(
    "roof form",
    "choice",
    "ridge",
    "a ridge in the middle until said; a span is halved only there, and a ledger takes no ridge off",
    choices=("ridge", "ledger", "hip"),
)
# roofs that mostly lean on a wall: their span is not halved before it is said that a ridge stands in the middle
_LEANING = ("porch", "lean-to", "verandah", "veranda", "awning", "shed", "dormer")


@dataclass(frozen=True, slots=True)
class Roof:
    """A roof as far as it is known: run in inches, slope, overhang, ridge, with what each rests on."""

    place: str
    form: Taken
    pitches: Pitches
    run: Fraction | None = None
    run_basis: tuple[Basis, ...] = ()
    overhang: Figure | None = None
    ridge: Fraction | None = None
    ridge_basis: tuple[Basis, ...] = ()
    span: Figure | None = None


def is_roof(book: Book, place: str) -> bool:
    """Whether a place is a roof of which a slope, run, span or overhang was said."""
    said = {dimension for about, dimension in book.figures(place) if about is None}
    sloped = any(dimension == "slope" for _, dimension in book.figures(place))
    if not word(place, "roof") and word(place, "gable", "stair", "stairs", "steps", "ramp", "wall", "floor"):
        return False
    if word(place, "roof", "dormer"):
        return sloped or bool(said & {"run", "span"})
    return sloped and bool(said & {"run", "span", "overhang"})


def roof(book: Book, place: str) -> Roof:
    """The roof at a place. A run is half of a span only where the ridge stands in the middle."""
    form = book.assume("roof form", place)
    known = pitches(book, place)
    run, span = book.newest(place, None, "run"), book.newest(place, None, "span")
    basis: tuple[Basis, ...] = ()
    inches = None
    if run is not None:
        inches, basis = run.value, (run,)
    elif span is not None and form.word != "ledger" and (form.said or not word(place, *_LEANING)):
        inches, basis = span.value / 2, (span, form)
    elif span is not None and form.said:
        inches, basis = span.value, (span, form)
    thickness, ridge_basis = _ridge(book, place)
    if form.word == "ledger":
        thickness, ridge_basis = None, ()
    return Roof(place, form, known, inches, basis, book.newest(place, None, "overhang"), thickness, ridge_basis, span)


def _ridge(book: Book, place: str) -> tuple[Fraction | None, tuple[Basis, ...]]:
    for dimension in ("thickness", "width", "size"):
        for about, figure in book.of_dimension(place, dimension).items():
            if about is not None and about.split()[0] == "ridge" and "sag" not in about.split():
                # of a size said as a pair the ridge's thickness is the smaller
                smaller = min(figure.repeats or (figure.value,))
                note = (Source(assumed=("the ridge stands on edge",)),) if dimension == "size" else ()
                return smaller, (figure, *note)
    return None, ()


def lacking(found: Roof) -> Iterator[Answer]:
    """What a roof still needs before a rafter can be worked out, and what about it makes no sense."""
    yield from found.pitches.nonsense
    if not found.pitches.known and not found.pitches.nonsense:
        say = f'{found.place} rafters need the slope. Say: "{found.place} is a … twelve"'
        yield Missing(name="common rafter", place=found.place, about="slope", say=say)
    if found.run is None:
        say = f'{found.place} rafters need the run. Say: "{found.place} run …"'
        if found.span is not None:
            say += f", or assume the roof form: the span {found.span.shown} is halved only under a ridge in the middle"
        yield Missing(name="common rafter", place=found.place, about="run", say=say)
    elif found.run <= 0:
        memos = tuple(sorted({memo for one in found.run_basis for memo in one.memos}))
        shown = f"{found.place} run is {show_length(found.run)} ({memo_names(memos)}): that is no run. Say it again."
        yield Disagreement(name="common rafter", place=found.place, shown=shown, memos=memos)


def has(book: Book, place: str, *members: str) -> bool:
    """Whether a roof was said to have a hip or valley: in its form, in its name, or as a thing that was measured."""
    if word(place, *members) or book.assume("roof form", place).word in members:
        return True
    return any(
        about is not None and set(members) & set(about.split()) and dimension not in ("offset", "centre")
        for about, dimension in book.figures(place)
    )
