"""A value of another day, told beside today's: "down from twenty two", "it was fifty one on monday". It makes no fact.

So is the hour that something was read at ("twenty nine degrees on the porch at seven").
"""

from __future__ import annotations

from journal.extract.durations import BREAK
from journal.extract.line import Figure
from journal.extract.readings import quantities
from journal.extract.sets import words_of
from journal.extract.stretch import Stretch
from journal.extract.things import about, thing
from journal.extract.vocabulary import function_words
from journal.records import Cost, Reading

_KINDS = frozenset({"number", "length", "percent", "degrees", "money"})
_BE = frozenset({"was", "were", "been", "be"})


def says_nothing_of_now(facts: Stretch, figure: Figure) -> bool:
    """Whether a figure is that of another day beside one of today, or the hour of a reading."""
    if figure.i <= facts.clause.i or figure.kind not in _KINDS or figure.unit == "ft":
        return False
    words = facts.words
    k = figure.i - 1
    while k > facts.clause.i and (words[k] == "the" or words[k] in words_of("hedges_of_former")):
        k -= 1
    led = words[k]
    if led == "at":
        return _is_time(facts, figure)
    if facts.waiting:
        return False
    if led in ("from", "than"):
        return _compared_with(facts, figure)
    if led in _BE or led in words_of("reads"):
        return _on_another_day(facts, figure)
    return False


def pass_over(facts: Stretch, figure: Figure) -> int:
    """Goes on after a value of another day: what was read stays the thing of the next; the index to go on at."""
    ctx, words, k = facts.ctx, facts.words, figure.j
    following = _after(facts, figure)
    if following is not None and words[following.i - 1] == "at" and figure.kind in ("degrees", "percent"):
        following.rule = BREAK  # "… degrees in the kiln at seven": the hour it was read at
        following = _after(facts, following)
    priced = following is not None and (following.kind == "money" or following.per is not None)
    if words[figure.i - 1] in ("from", "than") or (priced and figure.kind == "number"):
        return k
    if figure.kind == "money":
        if following is not None:
            following.per = following.per or figure.per
        return _after_day(facts, k) or k
    bare = following is not None and following.kind in ("number", "length") and not following.unit
    if following is not None and bare and figure.kind in ("percent", "degrees"):
        following.kind, following.unit = figure.kind, figure.unit
    named, place = thing(ctx, facts.position, figure.i)
    ctx.quantity = next((quantities()[w] for w in words[facts.position : figure.i] if w in quantities()), ctx.quantity)
    if place is not None:
        ctx.place = place.name
    named = [word for word in named if word not in quantities() and word not in words_of("read_before")]
    if named:
        ctx.thing = about(ctx, named)
    facts.position = _after_day(facts, k) or k
    return facts.position


def _small(facts: Stretch, i: int, j: int) -> list[str]:
    """The words `i` to `j` less places and dates."""
    line, k, out = facts.ctx.line, i, []
    while k < j:
        due = next((d for d in facts.ctx.dues if d.i <= k < d.j), None)
        if k in line.places or due is not None:
            k = line.places[k].j if k in line.places else due.j  # type: ignore[union-attr]
            continue
        out.append(facts.words[k])
        k += 1
    return out


def _before(facts: Stretch, figure: Figure) -> Figure | None:
    """The figure before this one in the stretch."""
    return max((f for f in facts.figures.values() if f.j <= figure.i), key=lambda f: f.i, default=None)


def _after(facts: Stretch, figure: Figure) -> Figure | None:
    return min((f for f in facts.figures.values() if f.i >= figure.j), key=lambda f: f.i, default=None)


def _last_told(facts: Stretch) -> Reading | Cost | None:
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    return last if isinstance(last, Reading | Cost) else None


def _is_time(facts: Stretch, figure: Figure) -> bool:
    """ "On the porch at seven": nothing of its own stands between the reading before and the hour."""
    last, before = _last_told(facts), _before(facts, figure)
    if figure.unit or figure.value > 12 or before is None:
        return False
    if (
        before.j == figure.i - 1
        and figure.kind == "number"
        and any(f.kind == "degrees" for f in facts.figures.values())
    ):
        return True
    if not isinstance(last, Reading):
        return False
    between = _small(facts, before.j, figure.i - 1)
    return all(word in words_of("read_before", "now_words") for word in between)


def _compared_with(facts: Stretch, figure: Figure) -> bool:
    """ "Down from twenty two", "went from sixty two to forty five": what is told of now stands beside it."""
    before, words = _before(facts, figure), facts.words
    if before is not None and _last_told(facts) is not None:
        between = _small(facts, before.j, figure.i)
        small = words_of("read_before", "reading_changes", "now_words")
        if all(word in small or word in quantities() for word in between):
            return "from" in between[-2:] or bool(words_of("reading_changes") & set(between))
    following = _after(facts, figure)
    if words[figure.i - 1] != "from" or following is None:
        return False
    between = _small(facts, figure.j, following.i)
    changed = words_of("reading_changes") & set(words[max(facts.position, figure.i - 4) : figure.i - 1])
    told = {figure.kind, following.kind} & {"percent", "degrees", "money"} or any(
        word in quantities() for word in words[facts.clause.i : figure.i]
    )
    return bool(told and changed and between[-1:] == ["to"]) and all(
        word in words_of("read_before", "reading_changes") for word in between
    )


def _on_another_day(facts: Stretch, figure: Figure) -> bool:
    """ "It was fifty one on monday", "it was thirty one percent last month it's twenty four now", "used to be twenty"."""
    before, following, words = _before(facts, figure), _after(facts, figure), facts.words
    known = _last_told(facts)
    if known is not None and before is not None:
        between = _small(facts, before.j, figure.i)
        small = words_of("read_before", "other_days", "reading_changes", "reads")
        placed = any(before.j <= k < figure.i for k in facts.ctx.line.places)
        # "… in the loft was fifty one on monday"
        bare = "and" not in between
        pointed = (
            not placed or (bare and _after_day(facts, figure.j) is not None) or {"it", "they", "that"} & set(between)
        )
        if pointed and all(word in small for word in between) and (_BE | {"yesterday"}) & set(between):
            earlier = {"been", "used", "last", "yesterday"} & set(between)
            return bool(earlier) or _after_day(facts, figure.j) is not None
    if facts.words[figure.i - 1] in _BE and _gives_way(facts, figure):
        return True
    past = facts.words[figure.i - 1] in _BE or facts.words[figure.i - 1] in ("read", "at")
    dated = _after_day(facts, figure.j)
    lead = set(words[max(facts.position, figure.i - 6) : figure.i])
    if dated is None and ({"last", "yesterday"} & lead or words[figure.i - 3 : figure.i] == ["used", "to", "be"]):
        dated = figure.j
    if not past or dated is None or following is None or not _alike(figure, following):
        return False
    if any(dated <= k < following.i for k in facts.ctx.line.places):
        return False
    between = _small(facts, dated, following.i)
    small = words_of("read_before", "reading_changes", "now_words", "reads")
    return bool(between) and all(word in small or word in function_words() for word in between)


def _gives_way(facts: Stretch, figure: Figure) -> bool:
    """ "It was fifty one degrees in the kiln at seven and it's sixty four now": today's value of the same stands after it."""
    words = facts.words
    after = sorted((f for f in facts.figures.values() if f.i >= figure.j), key=lambda f: f.i)
    now = next((f for f in after if words[f.i - 1] != "at"), None)
    if now is None or not {figure.kind, now.kind} & {"percent", "degrees", "money"} or not _alike(figure, now):
        return False
    leads = words[now.i - 2 : now.i] in (["it", "'s"], ["it", "is"], ["now", "'s"], ["they", "'re"])
    told = "now" in words[figure.j : now.i] or "now" in words[now.j : now.j + 2]
    return leads and told and not any(now.j <= k < now.j + 4 for k in facts.ctx.line.places)


def _alike(figure: Figure, following: Figure) -> bool:
    told = {"percent", "degrees", "money"}
    return (figure.kind == following.kind and figure.kind in told) or (
        (figure.kind in told) != (following.kind in told)
        and {figure.kind, following.kind} & {"number", "length"} != set()
    )


def _after_day(facts: Stretch, k: int) -> int | None:
    """The index after "last month", "yesterday", "on monday", "a week ago" at word `k`, or None."""
    words = facts.words
    due = next((d for d in facts.ctx.dues if k <= d.i <= k + 1), None)
    if due is not None:
        return due.j
    if words[k : k + 1] and words[k] in ("yesterday", "before", "earlier"):
        return k + 1
    if words[k : k + 1] == ["last"]:
        return k + 2
    ago = next((m for m in range(k, min(k + 4, len(words))) if words[m] == "ago"), None)
    return ago + 1 if ago is not None else None
