"""Measures: which thing, in which place, has which dimension of that figure.

Each figure looks left for the words since the figure before it and right for what can only follow ("wide", "out of
plumb", "off the corner"). What is not said again goes on from the figure before.
"""

from __future__ import annotations

from collections.abc import Sequence

from journal.extract.adjuncts import give_adjuncts, phrase_end
from journal.extract.book import add_measure, add_pair
from journal.extract.carried import doubt_order, feet_go_on, no_name, same_sort
from journal.extract.context import Context
from journal.extract.customs import at_an_end, by_custom
from journal.extract.dimensions import ROUGH_OPENING
from journal.extract.drafts import Draft, draft_of
from journal.extract.line import DimensionWord, Figure, joined
from journal.extract.named_behind import name_behind
from journal.extract.offsets import between, goes_on, leads_offset, offset, reach
from journal.extract.outs import OUT, OUT_OF, meant
from journal.extract.relatives import compared, work_out
from journal.extract.runs import (
    dimension_run,
    doubt_garbled,
    for_all,
    name_run,
    number_run,
    rough_behind,
    share_after,
    share_among_numbered,
)
from journal.extract.sets import words_of
from journal.extract.slots import Slot, find_slots, give_words, other_reading, report
from journal.extract.subjects import find_subject, go_to_place
from journal.extract.tape import length_ticks
from journal.extract.things import names_a_thing, thing
from journal.extract.unitwords import inches_text
from journal.extract.unmeasured import is_unmeasured
from journal.extract.vocabulary import past_forms
from journal.records import Doubt, Measure


def measure(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> None:
    """Adds the measures of the figures within words `i` to `j`."""
    slots = find_slots(ctx, figures, i, j)
    rough_behind(ctx, slots)
    name_behind(ctx, slots, j)
    give_adjuncts(ctx, slots, j)
    give_words(ctx, slots)
    for_all(ctx, slots, j)
    doubt_garbled(ctx, slots)
    number_run(ctx, slots)
    name_run(ctx, slots)
    dimension_run(ctx, slots)
    share_after(ctx, slots)
    share_among_numbered(ctx, slots)
    for n, slot in enumerate(slots):
        _one(ctx, slot, slots[n + 1] if n + 1 < len(slots) else None, j)


def _one(ctx: Context, slot: Slot, following: Slot | None, stop: int) -> None:
    """Adds the measure of one slot, or reports what it lacks."""
    if is_unmeasured(ctx, slot):
        k = following.figure.i if following is not None else 0
        if following is not None and ctx.line.words[k - 2 : k] in (["it", "'s"], ["it", "is"]) and not ctx.unmeasured:
            following.left = max(following.left, k - 2)  # "… wide before they bricked half of it now it's nineteen"
        return
    draft = draft_of(ctx, slot, following, stop)
    draft.place_before = ctx.place
    go_to_place(ctx, draft)
    _name_before_or_after(ctx, draft)
    if slot.figure.i - 1 in ctx.labels:
        no_name(ctx, draft)
    _take_burned_off(ctx, draft)
    _name_behind(ctx, draft)
    told = compared(ctx, draft)
    if told is not None and not work_out(ctx, draft, *told):
        return
    draft.other = other_reading(ctx, slot, stop)
    _gap_between(ctx, draft)
    if _is_offset(ctx, draft):
        return
    find_subject(ctx, draft)
    if (draft.subject or "").split()[-1:] and (draft.subject or "").split()[-1] in words_of("never_measured"):
        return
    if slot.partner is not None:
        add_pair(ctx, slot, draft.rough, draft.name, draft.subject)
        return
    if draft.name is None and draft.other is None:
        draft.name = by_custom(ctx, draft) if _may_be_custom(ctx, draft) else at_an_end(draft)
    if not _name_rough_opening(ctx, draft):
        return
    _name_of_thing(ctx, draft)
    if draft.name == OUT:
        _say_which_way_out(ctx, draft)
    if draft.reported:
        return
    if draft.name is None:
        _unsaid(ctx, draft)
        return
    if _is_round(draft):
        draft.name = "diameter"
    ctx.dimension = draft.name
    if draft.goes_on:
        feet_go_on(ctx, draft)
        doubt_order(ctx, draft)
    add_measure(ctx, slot, slot.figure, draft.subject, draft.name)
    ctx.thing = draft.thing_after or ctx.thing  # "the door, the gap between leaf and jamb …, and it's …"


def _name_before_or_after(ctx: Context, draft: Draft) -> None:
    """The dimension said after the figure ("wide"), else the last one before it, else what "by" after one leaves."""
    slot = draft.slot
    draft.rough = slot.rough or any(d.name.startswith(ROUGH_OPENING) for d in draft.dims)
    draft.noun = next((d for d in reversed(draft.dims) if d.name != "centre"), None)
    if slot.after is not None:
        draft.name = slot.after.name
        ctx.led = ctx.of_all = False
    elif draft.noun is not None:
        said_out = [d.name for d in draft.dims if d.name in OUT_OF and d.name != OUT]
        ctx.of_all = draft.noun.words.endswith("s")
        draft.name = said_out[-1] if draft.noun.name == OUT and said_out else draft.noun.name
        ctx.led = True
    elif slot.figure.i and ctx.line.words[slot.figure.i - 1] == "every":
        draft.name = "spacing"
    elif slot.by_after and ctx.dimension is not None:
        draft.name = _complement(ctx)


def _take_burned_off(ctx: Context, draft: Draft) -> None:
    """Subtracts the inch at which the tape was held, and shows it."""
    slot, figure = draft.slot, draft.slot.figure
    if slot.burned:
        figure.value -= 1
        shown = f"an inch was taken off: {inches_text(figure.value)}"
        figure.doubts.append(Doubt("worked", shown, ctx.span(figure.i, slot.end), level=1))


def _name_behind(ctx: Context, draft: Draft) -> None:
    """The dimension that stands as a noun after the figure: "fifty six shy long point"."""
    slot, following, words = draft.slot, draft.following, ctx.line.words
    d = ctx.line.dimensions.get(slot.end) or _for_the(ctx, draft)
    if draft.name is not None or d is None or d.adjective:
        return
    if (slot.partner is not None and following is not None) or not _is_postfix(ctx, following, d):
        return
    draft.name, draft.noun, ctx.led = d.name, d, False
    ctx.used.add(d.i)
    draft.rough = draft.rough or d.name.startswith(ROUGH_OPENING)
    slot.end = d.j
    if slot.late is None and slot.end < draft.stop and words[slot.end] in words_of("prepositions") and not following:
        slot.late = (slot.end, phrase_end(ctx, slot.end, draft.stop))


def _for_the(ctx: Context, draft: Draft) -> DimensionWord | None:
    """The dimension of "a scant ninety seven for the rake", where nothing else is said of it."""
    words, k = ctx.line.words, draft.slot.end
    d = ctx.line.dimensions.get(k + 2) if words[k : k + 2] == ["for", "the"] else None
    if d is None or d.adjective or names_a_thing(ctx, d):
        return None
    if d.j < draft.stop and words[d.j] not in words_of("conjunctions") | {"on", "in", "of"}:
        return None
    draft.slot.late = None
    return d


def _gap_between(ctx: Context, draft: Draft) -> None:
    """A gap lies "between" two things, and a list of gaps goes on between the next two."""
    slot, words = draft.slot, ctx.line.words
    end = slot.late[1] if slot.late else slot.end
    if draft.name is None and ctx.dimension == "gap" and "between" in words[slot.left : end]:
        draft.name = "gap"
    if draft.name != "gap":
        return
    found = between(ctx, slot.left, slot.figure.i)
    if found is not None:
        start = next(k for k in range(slot.left, slot.figure.i) if words[k] == "between")
        draft.thing_after = joined(thing(ctx, slot.left, start)[0]) or ctx.thing
    if found is None and slot.late is not None and words[slot.late[0]] == "between":
        found = between(ctx, slot.late[0], reach(ctx, slot.late, draft.stop))
        slot.late = None if found is not None else slot.late
    if found is not None:
        draft.named, ctx.place = found[0], found[1] or ctx.place


def _is_offset(ctx: Context, draft: Draft) -> bool:
    """Adds a distance between two things; False where the figure is none."""
    slot, words = draft.slot, ctx.line.words
    if draft.other is not None or slot.partner is not None or draft.rough:
        return False
    led_away = slot.after is not None and slot.late is not None and words[slot.late[0]] in ("off", "from")
    if draft.name not in (None, "centre") and not (draft.name == "height" and led_away):
        return False
    if words_of("not_offset") & set(words[slot.left : slot.figure.i]):
        return False
    late = slot.late or _shared_phrase(ctx, draft)
    found = offset(ctx, slot.left, slot.figure.i, slot.end, late, draft.stop)
    if found is None and draft.name is None and draft.place is None:
        found = goes_on(ctx, draft.named, slot.left, slot.figure.i, slot.late)
    if found is None:
        return False
    ends = {"from", "to", "between"} & set(words[max(0, draft.place.i - 2) : draft.place.i] if draft.place else [])
    if draft.place is not None and ends and found.place is None and draft.place.name in (found.origin, found.to):
        ctx.place = draft.place_before  # "from the hearth to the beam pocket": an end of it is no place of it
    ctx.place = found.place or ctx.place
    ctx.thing, ctx.offset = found.to, found
    add_measure(ctx, slot, slot.figure, f"{found.origin} to {found.to}", "centre" if found.centre else "offset")
    return True


def _shared_phrase(ctx: Context, draft: Draft) -> tuple[int, int] | None:
    """ "Twelve and thirty one off the corner": the phrase behind the second of two figures is that of both."""
    slot, following, words = draft.slot, draft.following, ctx.line.words
    if following is None or following.late is None or slot.after is not None or following.after is not None:
        return None
    joined_on = words[slot.end : following.figure.i] in (["and"], [])
    away = joined_on and following.partner is None and leads_offset(words, following.late[0]) is not None
    return following.late if away else None


def _name_rough_opening(ctx: Context, draft: Draft) -> bool:
    """Width and height are those of a rough opening where one was said; False where it lacks which of them."""
    named, name = draft.named, draft.name
    if draft.rough:
        ctx.rough = True
    elif (name == "height" and named and named[-1] in words_of("levels")) or (
        named and (draft.noun is not None or draft.slot.after is not None)
    ):
        ctx.rough = ctx.rough and same_sort(ctx, named)
    if ctx.rough and name in ("width", "height", "length"):
        draft.name = f"rough opening {'height' if name == 'length' else name}"
    elif name == ROUGH_OPENING or (name is None and ctx.rough):
        report(ctx, draft.slot, "a rough opening, but is it the width or the height?", "Say: rough opening width …")
        return False
    return True


def _name_of_thing(ctx: Context, draft: Draft) -> None:
    """The dimension of a figure that has none by itself: a reading's own name, a riser's, or the one that goes on."""
    named, subject = draft.named, draft.subject
    if draft.other is not None and draft.name is None:
        draft.name = "other"
        draft.subject = subject = joined([*(w for w in (subject or "").split() if w != draft.other), draft.other])
    if draft.name is None and named and named[-1] in ("riser", "risers"):
        draft.name = None if ctx.dimension in ("thickness", "width") else "rise"
    if draft.name is None and _keeps_its_own(ctx, draft):
        ctx.dimension = None
    elif draft.name is None and ctx.dimension not in (None, "size") and not _told_by_a_verb(ctx, draft):
        draft.name, draft.goes_on = ctx.dimension, True
    parts = (subject or "").split()
    if draft.name is None and parts and parts[0] in ("course", "courses", "log", "logs", "joint"):
        draft.name = "gap" if {"to", "and"} & set(parts) else None


def _may_be_custom(ctx: Context, draft: Draft) -> bool:
    """Whether custom may say what a figure is: no dimension goes on, or to a thing of another sort only."""
    return ctx.dimension is None or (
        bool(draft.named) and not (ctx.dimension == "span" and same_sort(ctx, draft.named))
    )


def _told_by_a_verb(ctx: Context, draft: Draft) -> bool:
    """ "… and it's let in an inch and a half": a verb of its own says what is measured, and no dimension goes on."""
    words, slot = ctx.line.words, draft.slot
    k = next((k for k in range(slot.left, slot.figure.i) if words[k] in words_of("copulas")), None)
    verb = words[k + 1] if k is not None and k + 1 < slot.figure.i else ""
    return verb in past_forms() and verb not in words_of("plain_past")


def _keeps_its_own(ctx: Context, draft: Draft) -> bool:
    """Whether the dimension before belongs to its thing or place alone: an overhang is no fascia's, a thickness no cut's."""
    named, first = draft.named, (ctx.dimension or "").split()[:1]
    if not named or not first:
        return False
    if named[-1] == "cut":
        return True
    of_place = first[0] in words_of("place_dimensions") and named[-1] not in words_of("sides", "edges")
    if of_place and not named[-1].isdigit():
        return True
    if draft.place or named[-1] in words_of("which_of_them"):
        return False
    single = not named[-1].endswith(("s", "ing")) and not named[-1].isdigit() and named[-1] not in words_of("sides")
    return first[0] in words_of("own_dimensions") or (first[0] == "spacing" and single)


def _say_which_way_out(ctx: Context, draft: Draft) -> None:
    """Names what a thing is out of; where that is told by its sort or by two heights, the figure carries a doubt."""
    figure = draft.slot.figure
    heights = [f for f in ctx.facts if isinstance(f, Measure) and f.dimension == "height"][-2:]
    if len(heights) == 2 and abs(heights[0].ticks - heights[1].ticks) == length_ticks(figure):
        which = words_of("which_of_them") | {"corner", "side", "end"}
        draft.name = "out of level"
        draft.subject = joined([w for w in (heights[0].about or "").split() if w not in which]) or None
        return
    draft.name = meant(draft.subject or ctx.place, ctx.dimension)
    if draft.name is None:
        of = draft.subject or ctx.place or "it"
        report(ctx, draft.slot, f"{of} is out, but of plumb, level or square?", f"Say: {of} out of plumb …")
        draft.reported = True
    elif draft.name != ctx.dimension:
        shown = f"'{ctx.line.said(*figure.words)}' out was taken for {draft.name}"
        figure.doubts.append(Doubt("dimension", shown, ctx.span(*figure.words), level=1))


def _is_round(draft: Draft) -> bool:
    """Whether "across" is the diameter of something round."""
    across = draft.slot.after is not None and draft.slot.after.words == "across"
    return across and bool(words_of("round_across") & set((draft.subject or "").split()))


def _complement(ctx: Context) -> str | None:
    """What stands across from the dimension before "by": "twelve long by six" is six wide."""
    last = ctx.dimension or ""
    upright = ctx.rough or any(
        word in (ctx.thing or "").split() for word in ("window", "door", "opening", "panel", "sash", "hatch")
    )
    return {"length": "width", "height": "width", "width": "height" if upright else "length"}.get(
        last.removeprefix("rough opening ")
    )


def _is_postfix(ctx: Context, following: Slot | None, d: DimensionWord) -> bool:
    """Whether a noun after a figure is this figure's ("fifty six shy long point") and not the next one's."""
    if following is not None and ctx.line.words[d.j] in words_of("copulas") and d.j < following.figure.i:
        return False  # "the lintel's nine foot one | clear span's seven foot three"
    if following is None or ctx.dimension in (None, "size"):
        return True
    own = ctx.line.dimensions.get(following.right)
    if own is None and ctx.led and d.j < following.figure.i and not d.adjective:
        return False
    if d.j == following.figure.i:
        return own is not None and not own.adjective
    return ctx.line.words[d.j] not in words_of("be", "prepositions") | {"at"}


def _unsaid(ctx: Context, draft: Draft) -> None:
    """A figure without a dimension is reported: nothing is guessed."""
    of = draft.subject or ctx.place
    if of:
        report(ctx, draft.slot, f"a figure of {of}, but which measure?", f"Say: {of} width … or {of} length …")
    else:
        report(ctx, draft.slot, "a figure, but of what?", "Say the thing and what was measured: window width …")
