"""What is said of a size without measuring it: a plan's figure, a limit, a condition, a wish, what used to be.

Such a figure makes no fact. Read off a plan or said as a limit it is a problem, so that it can be said again as measured;
in a question, a condition or a supposition nothing was told at all.
"""

from __future__ import annotations

from itertools import pairwise

from journal.extract.context import Context
from journal.extract.fillers import source_of
from journal.extract.sets import words_of
from journal.extract.slots import Slot, report
from journal.extract.things import about, thing
from journal.extract.vocabulary import function_words


def is_unmeasured(ctx: Context, slot: Slot) -> bool:
    """Whether a figure was not measured; adds the problem where it can be said again."""
    words, left = ctx.line.words, _sentence(ctx, slot)
    led = words[left : slot.figure.words[0]]
    goes_on = ctx.unmeasured and set(words[slot.left : slot.figure.i]) <= words_of("conjunctions")
    ctx.unmeasured = True
    source = source_of(led)
    if source is not None:
        report(ctx, slot, f"a figure from the {source}, not measured", "Say what was measured.")
        _keep_the_thing(ctx, slot, left + led.index(source) + 2)
        return True
    if _is_former(ctx, slot, led):
        _keep_the_thing(ctx, slot, left)
        ctx.unmeasured = False
        return True
    if goes_on or _supposed(words, left, led) or _of_others(led):
        return True
    if "old" in led[:3] and led[-1:] in (["was"], ["were"]):
        _keep_the_thing(ctx, slot, left + led.index("old") + 1)
        return True
    if _half_said(words, slot):
        report(ctx, slot, "only half of a figure", "Say the whole figure.")
        return True
    limit = words[slot.figure.i - 2 : slot.figure.i]
    if limit[-1:] in (["than"], ["least"], ["most"], ["minimum"], ["maximum"], ["exceed"], ["beyond"]):
        report(ctx, slot, "a limit, not one figure", "Say what was measured.")
        return True
    ctx.unmeasured = False
    return False


def _is_former(ctx: Context, slot: Slot, led: list[str]) -> bool:
    """ "The window was twenty eight wide before they bricked it now it's nineteen", "used to be thirty one … it's thirty three now"."""
    words = ctx.line.words
    wanted = led[-2:] == ["to", "be"] and not words_of("wished_for").isdisjoint(led)
    if led[-1:] not in (["was"], ["were"]) and led[-3:] != ["used", "to", "be"] and not wanted:
        return False
    following = min((f for f in ctx.line.figures.values() if f.i >= slot.end), key=lambda f: f.i, default=None)
    if following is None:
        return False
    between = [word for word in words[slot.end : following.i] if word not in ("only", "actually", "really", "just")]
    it_is = between[-2:] in (["it", "'s"], ["it", "is"], ["they", "'re"])
    if wanted or led[-1] == "be":  # "wants to be fourteen wide and it's only twelve and a half"
        return it_is
    return "now" in between or "now" in words[following.j : following.j + 3]


def _half_said(words: list[str], slot: Slot) -> bool:
    figure = slot.partner or slot.figure
    return half_said(words, slot.figure.i, figure.j) or words[figure.j : figure.j + 1] in (["odd"], ["plus"])


def half_said(words: list[str], i: int, j: int) -> bool:
    """ "Eighteen and something", "something and a half", "forty and a can't read it": the rest of the figure at `i` to `j` was not said."""
    led = words[max(0, i - 2) : i]
    if "something" in led[-1:] or led == ["something", "and"]:
        return True
    rest = words[j : j + 4]
    if rest[:2] not in (["and", "a"], ["and", "an"]):
        whole = rest[:2] in (["and", "something"], ["and", "change"], ["odd", "and"])
        return whole or rest[:1] == ["something"] or rest[:3] == ["and", "some", "change"]
    following = rest[2] if len(rest) > 2 else ""
    return following == "" or following.endswith("n't") or following in words_of("half_said_next")


def _keep_the_thing(ctx: Context, slot: Slot, i: int) -> None:
    """ "The drawing says the sill's thirty six high but it's thirty five": what is measured after it is the same."""
    named, place = thing(ctx, i, slot.figure.words[0])
    ctx.place = place.name if place is not None else ctx.place
    ctx.thing = about(ctx, [word for word in named if word != "used"]) or ctx.thing
    d = slot.after or (slot.dims[-1] if slot.dims else None)
    ctx.dimension = d.name if d is not None else ctx.dimension


def _of_others(led: list[str]) -> bool:
    """ "My brother's shop is twenty four wide": no place of this job."""
    return "'s" in led and any(word in words_of("kin") and following == "'s" for word, following in pairwise(led))


def _sentence(ctx: Context, slot: Slot) -> int:
    """Where the sentence of a figure begins: after the last conjunction, or at an "it's" that nothing leads to."""
    words, k = ctx.line.words, slot.figure.i
    while k > slot.left:
        word = words[k - 1]
        if word in words_of("sentence_ends"):
            return k
        if word in words_of("facts_pronouns") and words[k] in words_of("copulas"):
            before = words[k - 2] if k - 1 > slot.left else ""
            relative = word == "that" and before not in function_words() and before != ""
            if not relative and before not in words_of("supposing") | {"think", "say", "reckon"}:
                return k - 1
        k -= 1
    return k


def _supposed(words: list[str], left: int, led: list[str]) -> bool:
    """Whether the words before a figure ask, suppose, deny or tell of what was: "if the gap's …", "can't be more than …"."""
    if not words_of("supposing") & set(led):
        return left == 0 and (led[:2] in _ASKED or led[:1] == ["do"])
    for k, word in enumerate(led):
        if word not in words_of("supposing"):
            continue
        following = led[k + 1] if k + 1 < len(led) else ""
        if word == "used" and following != "to":
            continue
        if word == "would" and following != "have":
            continue
        if following in words_of("no_denial"):
            continue
        if word == "if" and following in ("i", "memory", "you") and set(led[k + 2 : k + 4]) & words_of("if_i"):
            continue  # "if i remember right the sill's thirty six high"
        return True
    return False


_ASKED = [
    [verb, subject]
    for verb in ("was", "is", "are", "were", "does", "did", "should", "would")
    for subject in ("it", "that", "they", "the", "this", "you", "we", "i")
]
