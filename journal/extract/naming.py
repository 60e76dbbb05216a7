"""Which dimension a figure is of: said before or behind it, of a gap or rough opening, or gone on down the list."""

from __future__ import annotations

from journal.extract.adjuncts import phrase_end
from journal.extract.carried import same_sort
from journal.extract.context import Context
from journal.extract.dimensions import ROUGH_OPENING
from journal.extract.drafts import Draft
from journal.extract.line import DimensionWord, joined
from journal.extract.offsets import between, reach
from journal.extract.outs import OUT, OUT_OF
from journal.extract.sets import words_of
from journal.extract.slots import Slot, report
from journal.extract.things import names_a_thing, thing
from journal.extract.vocabulary import past_forms


def name_before_or_after(ctx: Context, draft: Draft) -> None:
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


def name_after(ctx: Context, draft: Draft) -> None:
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


def gap_between(ctx: Context, draft: Draft) -> None:
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


def name_rough_opening(ctx: Context, draft: Draft) -> bool:
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


def name_of_thing(ctx: Context, draft: Draft) -> None:
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
