"""Whose a figure is: the place that goes on, the thing named before it, and what the phrase after it adds."""

from __future__ import annotations

from functools import cache

from journal.extract.adjuncts import take_adjunct
from journal.extract.context import Context
from journal.extract.dimensions import other_words
from journal.extract.drafts import Draft
from journal.extract.line import PlaceWord, joined
from journal.extract.sets import words_of
from journal.extract.tape import METRIC_TICKS, length_ticks
from journal.extract.taskwords import named_last
from journal.extract.things import about
from journal.grammar import table
from journal.records import Measure, Stock


@cache
def _of_place() -> frozenset[str]:
    return frozenset(table("dimensions")["of_place"]["words"])


def go_to_place(ctx: Context, draft: Draft) -> None:
    """Takes the place named before a figure for its own and for what follows; the thing before stays behind."""
    place, words = draft.place, ctx.line.words
    if place is None:
        return
    of_place = words[place.j] in words_of("copulas") and not draft.named
    if of_place or not (place.carried and place.name == ctx.place):
        ctx.thing = ctx.thing if draft.named or _thing_goes_on(ctx, draft, place) else None
        ctx.place = place.name


def _thing_goes_on(ctx: Context, draft: Draft, place: PlaceWord) -> bool:
    """ "The post of frame one is eight foot eleven tall frame two eight foot ten": the same thing in the next of a row."""
    last = ctx.facts[-1] if ctx.facts else None
    if not isinstance(last, Measure) or last.about is None or place.name == ctx.place:
        return False
    one, two = (ctx.place or "").split(), place.name.split()
    if one[:-1] != two[:-1] or not (one[-1:] and one[-1].isdigit() and two[-1].isdigit()) or one[0] in _surfaces():
        return False
    figure = draft.slot.figure
    ticks = length_ticks(figure) if figure.unit not in METRIC_TICKS else None
    names = [
        f.dimension for f in ctx.facts if isinstance(f, Measure) and f.place == ctx.place and f.about == last.about
    ]
    said = draft.slot.after.name if draft.slot.after is not None else None
    beside = [f.ticks for f in ctx.facts if isinstance(f, Measure) and f.dimension == (said or last.dimension)]
    near = ticks is None or any(ticks <= 2 * other and other <= 2 * ticks for other in beside)
    return (said is None or said in names) and near


@cache
def _surfaces() -> frozenset[str]:
    return frozenset(table("places")["surfaces"])


def find_subject(ctx: Context, draft: Draft) -> None:
    """Sets the thing that goes on, and the subject of this figure with the phrase after it."""
    late = take_adjunct(ctx, draft.slot, draft.place is not None)
    _go_to_thing(ctx, draft)
    if ctx.thing is None and draft.name in ("long point", "short point") and ctx.place is None:
        ctx.thing = _cut_last(ctx)
    draft.subject = ctx.thing
    if late and draft.slot.late is not None:
        _add_phrase(ctx, draft, late, draft.slot.late[0])


def _cut_last(ctx: Context) -> str | None:
    """What was cut, for the points said of it: "cut four braces long point thirty four"."""
    last = ctx.facts[-1] if ctx.facts else None
    named = named_last(ctx) if isinstance(last, Stock) and last.event == "cut" else None
    return named.removeprefix("the ") if named else None


def _go_to_thing(ctx: Context, draft: Draft) -> None:
    """Takes the thing named before a figure for its own; a reading of the place itself leaves it behind."""
    named, other = draft.named, draft.other
    if other is not None and named == [other] and other in words_of("of_the_place"):
        ctx.thing = None
    elif named == [other]:
        ctx.thing = joined([w for w in (ctx.thing or "").split() if w not in other_words()]) or None
    elif named:
        ctx.thing = about(ctx, named) or ctx.thing
    elif draft.noun is not None and draft.noun.name in _of_place() and draft.noun.words != "overhangs":
        ctx.thing = None
    if other and named and draft.name is None and named != [other] and not (ctx.thing or "").endswith(other):
        ctx.thing = joined([w for w in named if w != other])


def _add_phrase(ctx: Context, draft: Draft, late: list[str], i: int) -> None:
    """Adds the phrase that stands after a figure, from word `i` on: "on the hinge side", "for the hatch"."""
    if ctx.line.words[i] in ("for", "the", "between") and not draft.named:
        ctx.thing = draft.subject = joined(late)
        return
    subject = draft.subject
    if subject and subject == ctx.late_thing and not draft.named:
        subject = ctx.thing = None
    before = subject.split() if subject and subject not in joined(late) else []
    draft.subject = joined([*before, *late]) or None
    if not ctx.thing:
        ctx.thing, ctx.late_thing = draft.subject, draft.subject
