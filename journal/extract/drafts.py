"""What is said of one figure while its measure is put together: its thing, place and dimension, not yet a fact."""

from __future__ import annotations

from dataclasses import dataclass, field

from journal.extract.context import Context
from journal.extract.line import DimensionWord, PlaceWord
from journal.extract.outs import OUT_OF
from journal.extract.sets import words_of
from journal.extract.slots import Slot
from journal.extract.things import last_place, names_a_thing, thing


@dataclass(slots=True)
class Draft:
    """A slot with the thing `named` and the `place` before its figure, the dimensions there, and the `name` of its own.

    `goes_on` where the dimension is that of the figure before. `following` is the slot after it, `stop` the end of the words of all of them; `subject` is the thing with what was
    said of it after the figure ("sill hinge side"), `other` a reading without a dimension ("sag").
    """

    slot: Slot
    following: Slot | None
    stop: int
    named: list[str]
    place: PlaceWord | None
    dims: list[DimensionWord] = field(default_factory=list)
    noun: DimensionWord | None = None
    name: str | None = None
    rough: bool = False
    other: str | None = None
    subject: str | None = None
    goes_on: bool = False
    reported: bool = False
    place_before: str | None = None
    thing_after: str | None = None


def draft_of(ctx: Context, slot: Slot, following: Slot | None, stop: int) -> Draft:
    """The draft of a slot: what stands before its figure."""
    figure = slot.figure
    named, _ = thing(ctx, slot.left, _before_verb(ctx, slot))
    if len(named) == 2 and named[0] == "number" and named[1].isdigit():
        ctx.names[figure.i] = f"#{named[1]}"
    if figure.i in ctx.names:
        said = ctx.names[figure.i]
        named = _numbered_one(ctx, said[1:]) if said.startswith("#") else said.split()
    draft = Draft(slot, following, stop, named, last_place(ctx, slot.left, figure.i))
    draft.dims = [
        d
        for d in slot.dims
        if d.i not in ctx.used
        and not names_a_thing(ctx, d)
        and (not d.adjective or d.name in OUT_OF or d.words == "corner to corner")
    ]
    return draft


def _before_verb(ctx: Context, slot: Slot) -> int:
    """The end of the words that name the thing: those before "overhangs the posts by"; else the figure."""
    verb = next((d.i for d in slot.dims if d.words == "overhangs"), None)
    if verb is None or ctx.line.words[verb - 1] in words_of("determiners"):
        return slot.figure.i
    return verb


def _numbered_one(ctx: Context, number: str) -> list[str]:
    """The name of one of those that the list is about: number 5 of the "joist pockets 1 to 4" is "joist pocket 5"."""
    noun = [word for word in (ctx.thing or "").split() if not word.isdigit() and word not in ("to", "and")]
    if noun and noun[-1].endswith("s"):
        noun[-1] = noun[-1][:-1]
    return [*noun, number]
