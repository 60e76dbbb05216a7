"""Distances from one named thing to another: "seven foot three off the corner", "from the corner to the door".

The name reads from the thing measured from to the thing measured to; a distance to a centre is a centre.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from journal.extract.context import Context, Offset
from journal.extract.line import joined
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.things import last_place, names_a_thing, thing
from journal.grammar import table


@cache
def _words() -> tuple[Phrases[str], Phrases[str], frozenset[str]]:
    data = table("dimensions")["offsets"]
    return Phrases.of(data["from"], "from"), Phrases.of(data["to"], "to"), frozenset(data["centre"])


def leads_offset(words: list[str], i: int) -> int | None:
    """The index after "off", "up from" and the like at word `i`."""
    found = _words()[0].at(words, i) if i < len(words) else None
    return found[1] if found else None


def is_centre(ctx: Context, i: int, j: int) -> bool:
    """Whether a centre is named in the words `i` to `j` (and no "centre board")."""
    words, dims = ctx.line.words, ctx.line.dimensions
    return any(
        words[k] in _words()[2] and not ((d := dims.get(k)) is not None and names_a_thing(ctx, d)) for k in range(i, j)
    )


def offset(ctx: Context, left: int, i: int, after: int, late: tuple[int, int] | None, stop: int) -> Offset | None:
    """The offset of a figure at word `i` that ends at `after`; `left` is where its own words begin."""
    words = ctx.line.words
    centre = is_centre(ctx, left, i)
    for start in range(left, i):
        if words[start] in ("from", "between") and start not in ctx.line.places:
            found = _stretch(ctx, start, i)
            if found is not None:
                one, two, place = found
                return Offset(one, centre or is_centre(ctx, start, i), two, place)
    if words[i - 1] == "by" and (cleared := _cleared(ctx, left, i, centre)) is not None:
        return cleared
    for k in range(left + 1, i - 1):
        if any(a <= k < b for a, (b, _) in ctx.labels.items()):
            continue
        if words[k] == "to" and not any(
            left <= d < i and word.name != "centre" for d, word in ctx.line.dimensions.items()
        ):
            near, near_place = thing(ctx, left, k)
            far, far_place = thing(ctx, k + 1, i)
            one = joined(near) or (near_place.name if near_place else "")
            two = joined(far) or (far_place.name if far_place else "")
            if one and two and words[k - 1] not in words_of("copulas"):
                if is_centre(ctx, left, k):
                    one, two = two, one
                place = far_place.name if far_place and joined(far) else None
                return Offset(one, centre, two, place)
    if late is None:
        return None
    if words[late[0]] in ("from", "between"):
        end = reach(ctx, late, stop)
        found = _stretch(ctx, late[0], end)
        if found is not None:
            one, two, place = found
            late_centre = centre or is_centre(ctx, late[0], end)
            return Offset(one, late_centre, two, place)
    lead = leads_offset(words, late[0])
    if lead is None:
        return None
    target, place_word = thing(ctx, lead, late[1])
    named, _ = thing(ctx, left, i)
    what = joined(named) or ctx.thing or ""
    before = last_place(ctx, left, i)
    if not what and place_word is not None and before is not None:
        what = before.name
    place = place_word.name if place_word is not None else None
    if not target and place is not None:
        target, place = place.lower().split(), None
    if target and what:
        return Offset(joined(target), centre, what, place)
    return None


def _cleared(ctx: Context, left: int, i: int, centre: bool) -> Offset | None:
    """ "The chimney clears the ridge by …": from the one to the other."""
    verb = next((k for k in range(left, i - 1) if ctx.line.words[k] in words_of("offset_verbs")), None)
    if verb is None:
        return None
    named, before = thing(ctx, left, verb)
    target, after = thing(ctx, verb + 1, i)
    to = joined(named) or (before.name if before else ctx.thing or ctx.place or "")
    origin = joined(target) or (after.name if after else "")
    return Offset(origin, centre, to, after.name if after and target else None) if to and origin else None


def between(ctx: Context, i: int, j: int) -> tuple[list[str], str | None] | None:
    """The two things of "between the shutter and the jamb" in words `i` to `j`, as a gap is named, and the place named there."""
    words = ctx.line.words
    start = next((k for k in range(i, j) if words[k] == "between"), None)
    found = _stretch(ctx, start, j) if start is not None else None
    return ([*found[0].split(), "and", *found[1].split()], found[2]) if found is not None else None


def _stretch(ctx: Context, start: int, end: int) -> tuple[str, str, str | None] | None:
    """The two things of "from X to Y" or "between X and Y", and the place named with them."""
    words = ctx.line.words
    joint_words = ("and",) if words[start] == "between" else ("to",)
    joint: int | None = next((k for k in range(start + 1, end) if words[k] in joint_words), None)
    if joint is not None and begins_anew(ctx, joint):
        end, joint = joint, None
    if words[start] == "between" and joint is None:
        pair, place = thing(ctx, start + 1, end)
        if pair and _is_plural(pair[-1]):
            each = joined([*pair[:-1], pair[-1][:-1]])
            return each, each, place.name if place else None
    if joint is None or any(a <= joint < b for a, (b, _) in ctx.labels.items()):
        return None
    first, place_one = thing(ctx, start + 1, joint)
    second, place_two = thing(ctx, joint + 1, end)
    one = joined(first) or (place_one.name if place_one else "")
    two = joined(second) or (place_two.name if place_two else "")
    place = place_two or place_one
    if place is not None and place.name in (one, two):
        place = None
    return (one, two, place.name if place else None) if one and two else None


def begins_anew(ctx: Context, joint: int) -> bool:
    """ "Between the studs and the noggin's fourteen": after things in the plural, what has a figure of its own is the next said."""
    words = ctx.line.words
    if not _is_plural(words[joint - 1]):
        return False
    if joint + 1 in ctx.line.figures:
        return True
    k = joint + 1
    while k < min(joint + 5, len(words)) and words[k] not in words_of("copulas"):
        if k in ctx.line.figures or words[k] in words_of("phrase_ends"):
            return False
        k += 1
    return k < len(words) and words[k] in words_of("copulas") and k > joint + 1


def _is_plural(word: str) -> bool:
    return len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us"))


def reach(ctx: Context, late: tuple[int, int], stop: int) -> int:
    """The end of "between X and Y": its "and" ends no phrase."""
    words = ctx.line.words
    end = late[1]
    if words[late[0]] == "between" and "and" not in words[late[0] : end] and end < stop and words[end] == "and":
        if begins_anew(ctx, end):
            return end
        end += 1
        while end < stop and words[end] not in words_of("phrase_ends") and end not in ctx.line.figures:
            end += 1
    return end


def goes_on(ctx: Context, named: list[str], left: int, i: int, late: tuple[int, int] | None) -> Offset | None:
    """The offset that goes on down a list: "… off the corner, the second one thirty one", "… at the north end, eighty at the south"."""
    last, words = ctx.offset, ctx.line.words
    if last is None or not ctx.facts or getattr(ctx.facts[-1], "dimension", None) not in ("offset", "centre"):
        return None
    which = words_of("which_of_them")
    if "another" in words[left:i]:
        return None  # "… from the well to the gate and another nineteen to the stile"
    if not named:
        told = late is not None and words_of("sides") | which & set(words[slice(*late)])
        return last if told and not words_of("copulas") & set(words[left:i]) else None
    noun = [w for w in named if not w.isdigit() and w not in which]
    sort = [w for w in last.to.split() if not w.isdigit() and w not in which]
    if noun == sort:
        return replace(last, to=joined(named), place=None)
    if not noun and sort:
        tail = named if named[-1].isdigit() else []
        return replace(last, to=joined([*sort, *tail] if tail else [*named, *sort]), place=None)
    return replace(last, to=joined(named), place=None) if words[left] == "to" else None
