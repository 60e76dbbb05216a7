"""Measures: which thing, in which place, has which dimension of that figure.

Each figure looks left for the words since the figure before it and right for what can only follow ("wide", "out of
plumb", "off the corner"). What is not said again goes on from the figure before.
"""

from __future__ import annotations

from collections.abc import Sequence

from journal.extract.adjuncts import give_adjuncts
from journal.extract.book import add_measure, add_pair
from journal.extract.carried import doubt_order, feet_go_on, no_name, same_sort
from journal.extract.context import Context
from journal.extract.customs import at_an_end, by_custom
from journal.extract.drafts import Draft, draft_of
from journal.extract.line import Figure, joined
from journal.extract.named_behind import name_behind
from journal.extract.naming import gap_between, name_after, name_before_or_after, name_of_thing, name_rough_opening
from journal.extract.offsets import goes_on, leads_offset, offset
from journal.extract.outs import OUT, meant
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
from journal.extract.unitwords import inches_text
from journal.extract.unmeasured import is_unmeasured
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
    name_before_or_after(ctx, draft)
    if slot.figure.i - 1 in ctx.labels:
        no_name(ctx, draft)
    _take_burned_off(ctx, draft)
    name_after(ctx, draft)
    told = compared(ctx, draft)
    if told is not None and not work_out(ctx, draft, *told):
        return
    draft.other = other_reading(ctx, slot, stop)
    gap_between(ctx, draft)
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
    if not name_rough_opening(ctx, draft):
        return
    name_of_thing(ctx, draft)
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


def _take_burned_off(ctx: Context, draft: Draft) -> None:
    """Subtracts the inch at which the tape was held, and shows it."""
    slot, figure = draft.slot, draft.slot.figure
    if slot.burned:
        figure.value -= 1
        shown = f"an inch was taken off: {inches_text(figure.value)}"
        figure.doubts.append(Doubt("worked", shown, ctx.span(figure.i, slot.end), level=1))


def _is_offset(ctx: Context, draft: Draft) -> bool:
    """Adds a distance between two things; False where the figure is none."""
    slot, words = draft.slot, ctx.line.words
    if draft.other is not None or slot.partner is not None or draft.rough:
        return False
    led_away = slot.after is not None and slot.late is not None and words[slot.late[0]] in ("off", "from")
    if draft.name not in (None, "centre") and not (draft.name == "height" and led_away):
        return False
    led = words[slot.left : slot.figure.i]
    if words_of("not_offset") & set(led) or led[-1:] in (["wants"], ["want"]):
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


def _may_be_custom(ctx: Context, draft: Draft) -> bool:
    """Whether custom may say what a figure is: no dimension goes on, or to a thing of another sort only."""
    return ctx.dimension is None or (
        bool(draft.named) and not (ctx.dimension == "span" and same_sort(ctx, draft.named))
    )


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


def _unsaid(ctx: Context, draft: Draft) -> None:
    """A figure without a dimension is reported: nothing is guessed."""
    of = draft.subject or ctx.place
    if of:
        report(ctx, draft.slot, f"a figure of {of}, but which measure?", f"Say: {of} width … or {of} length …")
    else:
        report(ctx, draft.slot, "a figure, but of what?", "Say the thing and what was measured: window width …")
