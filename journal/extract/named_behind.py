"""A thing and dimension named behind their figure: "eighty six and a half that's the door height", "fourteen by fourteen that newel"."""

from __future__ import annotations

from collections.abc import Sequence

from journal.extract.context import Context
from journal.extract.line import joined
from journal.extract.sets import words_of
from journal.extract.slots import Slot
from journal.extract.things import names_a_thing, thing
from journal.extract.vocabulary import function_words

_MOST = 3


def name_behind(ctx: Context, slots: Sequence[Slot], j: int) -> None:
    """Gives figures that nothing was said before the name and dimension that stand right behind them, up to word `j`."""
    words = ctx.line.words
    for n, slot in enumerate(slots):
        if _LEADS.isdisjoint(words[slot.end : slot.end + 1]):
            continue
        stop = slots[n + 1].figure.i if n + 1 < len(slots) else j
        left = max(slot.left, slots[n - 1].end if n else 0)
        if not any(left <= d < slot.figure.i for d in ctx.line.dimensions) and not thing(ctx, left, slot.figure.i)[0]:
            _behind(ctx, slot, stop)


def _behind(ctx: Context, slot: Slot, stop: int) -> None:
    words, k = ctx.line.words, slot.end
    if words[k : k + 2] in (["that", "'s"], ["that", "is"], ["it", "'s"]) and words[k + 2 : k + 3] in _THE:
        k += 3
    elif words[k : k + 1] in [*_THE, ["that"], ["this"]]:
        k += 1
    else:
        return
    end = k
    while end < stop and end - k < _MOST and _is_a_name(ctx, end):
        end += 1
    d = ctx.line.dimensions.get(end)
    if d is not None and (d.adjective or names_a_thing(ctx, d) or d.j > stop or slot.after is not None):
        return
    sized = slot.partner is not None or slot.after is not None
    last = d.j if d is not None else end
    following = words[last] if last < stop else ""
    if (d is None and (end == k or not sized)) or not _ends(following) or last in ctx.line.figures:
        return  # "… seven and a half deep | the planks two thick": the name is the next figure's
    if d is not None:
        slot.after = d
        ctx.used.add(d.i)
    if end > k:
        ctx.names[slot.figure.i] = joined(words[k:end])
    slot.end = last


_THE = [["the"], ["your"], ["my"], ["our"]]
_LEADS = frozenset({"the", "your", "my", "our", "that", "this", "it"})


def _is_a_name(ctx: Context, k: int) -> bool:
    """Whether word `k` can be part of a thing's name, and is no place, figure or dimension."""
    line = ctx.line
    marked = k in line.places or k in line.figures or k in line.dimensions or k in ctx.labels
    return not marked and line.words[k] not in function_words()


def _ends(word: str) -> bool:
    """Whether nothing more is said of what was named: the memo or clause ends, or a place follows."""
    return word == "" or word in words_of("conjunctions", "place_prepositions") | {"it", "that"}
