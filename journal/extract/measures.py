"""Measures: which thing, in which place, has which dimension of that figure.

Each figure looks left for the words since the figure before it and right for what can only follow ("wide", "out of
plumb", "off the corner"). What is not said again goes on from the figure before.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache

from journal.extract.context import Context
from journal.extract.dimensions import ROUGH_OPENING, other_verbs, other_words
from journal.extract.line import DimensionWord, Figure, joined
from journal.extract.marks import trailing_marks
from journal.extract.offsets import leads_offset, offset
from journal.extract.sets import words_of
from journal.extract.things import about, last_place, names_a_thing, thing
from journal.extract.unitwords import burned_at, hedges, inches_text, shades, units
from journal.extract.vocabulary import function_words, thing_words
from journal.grammar import table
from journal.lengths import INCH, MILLIMETRE
from journal.records import Doubt, Measure, Problem

METRIC_TICKS = {"mm": MILLIMETRE, "cm": 10 * MILLIMETRE, "m": 1000 * MILLIMETRE}
_OUT_OF = ("out of level", "out of plumb", "out of square")
_ROUND = ("log", "post", "pile", "piling", "pier", "column", "pole", "pipe", "hole", "drum", "trunk", "mast", "spar")


@cache
def _of_place() -> frozenset[str]:
    return frozenset(table("dimensions")["of_place"]["words"])


@dataclass(slots=True)
class Slot:
    """A figure with its own words from `left`, the adjective after it, the phrase after that, and its second part."""

    figure: Figure
    left: int
    right: int
    end: int = 0
    dims: list[DimensionWord] = field(default_factory=list)
    after: DimensionWord | None = None
    partner: Figure | None = None
    third: Figure | None = None
    by_after: bool = False
    over: Figure | None = None
    late: tuple[int, int] | None = None
    tail: int = 0
    burned: bool = False


def measure(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> None:
    """Adds the measures of the figures within words `i` to `j`."""
    slots = _slots(ctx, figures, i, j)
    _garbled(ctx, slots)
    _numbered_list(ctx, slots)
    _row_of_names(ctx, slots)
    _row_of_dimensions(ctx, slots)
    for n, slot in enumerate(slots):
        _one(ctx, slot, slots[n + 1] if n + 1 < len(slots) else None, j)


def _slots(ctx: Context, figures: Sequence[Figure], i: int, j: int) -> list[Slot]:
    words = ctx.line.words
    slots: list[Slot] = []
    left = i
    n = 0
    while n < len(figures):
        figure = figures[n]
        slot = Slot(figure, left, figure.j)
        n += 1
        if slots and _names_next(words, figure, figures[n : n + 1]):
            ctx.names[figures[n].i] = f"#{figure.whole}"
            continue
        if n < len(figures) and (
            words[figure.j : figures[n].i] == ["by"]
            or (figure.words == figures[n].words and figure.rule == "figure.section")
        ):
            slot.partner = figures[n]
            slot.right = slot.partner.j
            n += 1
            if n < len(figures) and words[slot.right : figures[n].i] == ["by"]:
                slot.third = figures[n]
                slot.right = slot.third.j
                n += 1
        elif n < len(figures) and words[figure.j : figures[n].i] == ["to"] and figures[n].kind in ("length", "number"):
            _problem(ctx, slot, "a range, not one figure", "Say one of them, or about which it is.")
            left = figures[n].j
            n += 1
            continue
        elif slot.right < j and words[slot.right] == "square" and words[slot.right - 1 : slot.right] != ["of"]:
            slot.partner = replace(figure, doubts=[])
            slot.right += 1
        slot.end = _after(ctx, slot, j)
        reads_over = (slot.after is not None and slot.after.name in _OUT_OF) or _out_of_before(ctx, slot)
        if n < len(figures) and (reads_over or _other(ctx, slot, j) is not None):
            gap = words[slot.end : figures[n].i]
            led = gap[-1:] == ["over"] or gap in (["in"], ["per"], ["across"], ["on"], ["in", "the"])
            if led and figures[n].unit in ("ft", "in", "m", "cm", "mm"):
                slot.over = figures[n]
                slot.end = figures[n].j
                n += 1
        if slot.partner is None and _counts_a_plural(ctx, slot, j):
            left = slot.left
            continue
        left = slot.end
        slots.append(slot)
    _phrases_after(ctx, slots, j)
    for n, slot in enumerate(slots):
        before = slots[n - 1] if n else None
        slot.by_after = before is not None and before.after is not None and words[before.end : slot.figure.i] == ["by"]
        if before is not None:
            slot.left = max(before.late[1], before.tail) if before.late is not None else before.end
        slot.dims = [
            d for k, d in sorted(ctx.line.dimensions.items()) if slot.left <= k < slot.figure.i and k not in ctx.used
        ]
    return slots


def _names_next(words: Sequence[str], figure: Figure, following: Sequence[Figure]) -> bool:
    """ "Five is six and an eighth": in a list a bare number before "is" and a figure is a name."""
    bare = figure.kind == "number" and not figure.unit and figure.whole is not None and figure.whole <= 60
    led = words[figure.j : figure.j + 1] in (["is"], ["'s"]) and words[figure.i - 1] not in ("is", "'s", "are", "a")
    return bare and led and bool(following) and following[0].i == figure.j + 1


def _numbered_one(ctx: Context, number: str) -> list[str]:
    """The name of one of those that the list is about: number 5 of the "joist pockets 1 to 4" is "joist pocket 5"."""
    noun = [word for word in (ctx.thing or "").split() if not word.isdigit() and word not in ("to", "and")]
    if noun and noun[-1].endswith("s"):
        noun[-1] = noun[-1][:-1]
    return [*noun, number]


def _out_of_before(ctx: Context, slot: Slot) -> bool:
    return any(d.name in _OUT_OF for k, d in ctx.line.dimensions.items() if slot.left <= k < slot.figure.i)


def _counts_a_plural(ctx: Context, slot: Slot, j: int) -> bool:
    """ "Two gaps on wall f": a small whole number before a plural counts; it measures nothing."""
    figure, words = slot.figure, ctx.line.words
    if (
        figure.kind != "number"
        or figure.unit
        or figure.value > 24
        or slot.after is not None
        or (figure.approx and figure.value > 6)
    ):
        return False
    k = figure.j
    return (
        k < j
        and words[k].endswith("s")
        and (words[k] in thing_words() or k in ctx.line.dimensions)
        and words[k] not in ("is", "'s")
    )


def _after(ctx: Context, slot: Slot, j: int) -> int:
    """Takes in what can only follow a figure: "wide", "out of plumb", then "give or take", "shy", "burned an inch"."""
    k = slot.right
    words = ctx.line.words
    dim = ctx.line.dimensions.get(k)
    if dim is not None and dim.adjective and k < j:
        slot.after, k = dim, dim.j
        wide_at = ctx.line.dimensions.get(k)
        if wide_at is not None and wide_at.name == "base width" and dim.name == "width" and wide_at.adjective:
            slot.after, k = (wide_at if "gable" in (ctx.place or "") or "gable" in words[:k] else dim), wide_at.j
    k = trailing_marks(ctx.line, slot.figure, k)
    burned = burned_at(
        words, k + (k < j and words[k] in ("but", "i", "and", "we")) + (k + 1 < j and words[k : k + 2] == ["but", "i"])
    )
    if burned is not None and burned <= j:
        slot.burned, k = True, burned
    return k


def _phrases_after(ctx: Context, slots: list[Slot], j: int) -> None:
    """Gives each figure the phrase after it that is its own ("a fat quarter on the hinge side")."""
    words = ctx.line.words
    found: dict[int, tuple[int, int]] = {}
    for n, slot in enumerate(slots):
        stop = slots[n + 1].figure.i if n + 1 < len(slots) else j
        k = slot.end
        if k < stop and words[k] in ("left", "right") and (k + 1 == j or words[k + 1] == "and" or k + 1 == stop):
            found[n] = (k, k + 1)
            continue
        is_last_the = n == len(slots) - 1 and k < stop and words[k] in ("the", "for") and slot.after is not None
        is_last_the = is_last_the and not set(words[k:j]) & words_of("copulas")
        if (
            k < stop
            and (words[k] in words_of("prepositions") or is_last_the)
            and (k not in ctx.line.dimensions or leads_offset(words, k))
        ):
            found[n] = (k, _phrase_end(ctx, k, stop))
            slot.tail = trailing_marks(ctx.line, slot.figure, found[n][1]) if found[n][1] < j else 0
    last = len(slots) - 1
    in_row = _row_of_phrases(ctx, slots, found)
    for n, (a, b) in found.items():
        if n < last:
            nxt = slots[n + 1]
            more = any(words[k] not in function_words() for k in range(b, nxt.figure.i) if k not in ctx.line.dimensions)
            led_in = any(b <= k < nxt.figure.i for k in ctx.line.dimensions)
            own = (leads_offset(words, a) is not None and words[a] not in ("over", "under", "above", "below")) or words[
                a
            ] == "between"
            bare = leads_offset(words, a) is not None and slots[n].after is None and nxt.after is not None
            own = own or n in in_row or (bare and words[b : nxt.figure.i] == ["and"])
            if not (own or more or led_in or (last in found and not _has_phrase(ctx, slots[0]))):
                continue
        slots[n].late = (a, b)


def _row_of_phrases(ctx: Context, slots: list[Slot], found: dict[int, tuple[int, int]]) -> set[int]:
    """The figures that each have their phrase after them, up to one with a subject of its own: "… on the latch and the door is …"."""
    words = ctx.line.words
    row: list[int] = []
    for n in range(len(slots) - 1):
        if n not in found or (n == 0 and _has_phrase(ctx, slots[0])):
            break
        row.append(n)
        start, end = found[n][1], slots[n + 1].figure.i
        if end - start > 1 and words[end - 1] in words_of("copulas"):
            return set(row)
        if words[start:end] not in ([], ["and"]):
            break
    return set()


def _has_phrase(ctx: Context, slot: Slot) -> bool:
    """Whether a phrase with a preposition stands right before a figure ("in the sill eighteen")."""
    words = ctx.line.words
    for k in range(slot.figure.i - 1, slot.left - 1, -1):
        if words[k] in ("is", "'s", "are", "the", "a") or k in ctx.line.dimensions:
            continue
        break
    place = last_place(ctx, slot.left, slot.figure.i)
    named, _ = thing(ctx, slot.left, slot.figure.i)
    return place is not None and not named and place.j == slot.figure.i


def _phrase_end(ctx: Context, k: int, stop: int) -> int:
    words = ctx.line.words
    end = k + 1
    lead = leads_offset(words, k)
    end = max(end, lead or 0)
    pair = words[k] == "between"
    while end < stop:
        if pair and words[end] == "and":
            pair, end = False, end + 1
            continue
        if end in ctx.line.places:
            end = ctx.line.places[end].j
            continue
        if end in ctx.labels:
            end = ctx.labels[end][0]
            continue
        if (
            end + 1 in ctx.labels
            and words[end - 1] not in function_words()
            and words[ctx.labels[end + 1][0] : ctx.labels[end + 1][0] + 1] in (["is"], ["'s"])
        ):
            break
        if words[end] in words_of("phrase_ends") or hedges()[1].at(words, end):
            break
        shade = shades().at(words, end)
        if shade is not None and end > k + 1 and words[shade[1] : shade[1] + 1] in ([], ["and"]):
            break
        dim = ctx.line.dimensions.get(end)
        if dim is not None and dim.name != "centre" and not names_a_thing(ctx, dim):
            break
        if end > k + 1 and words[end] in ("the", "a") and words[end - 1] not in words_of("prepositions") | {"of"}:
            break
        end += 1
    return min(end, stop)


def _numbered_list(ctx: Context, slots: list[Slot]) -> None:
    """ "Boards long points one thirty one two thirty eight": ones, twos, threes in a row after a plural are names."""
    hundreds = [s for s in slots if s.figure.rule == "figure.hundreds" and s.figure.whole is not None]
    if (
        len(hundreds) < 2
        or [s.figure.whole for s in hundreds] != list(range(1, len(hundreds) + 1))
        or hundreds[0] is not slots[0]
    ):
        return
    named, _ = thing(ctx, slots[0].left, slots[0].figure.i)
    if not named or not named[-1].endswith("s"):
        return
    noun = [*named[:-1], named[-1][:-1]]
    for slot in hundreds:
        figure = slot.figure
        assert figure.second is not None
        figure.value = figure.second
        figure.rule = "figure.numbered"
        figure.words = (figure.words[0], figure.words[1])
        ctx.names[figure.i] = joined([*noun, str(figure.whole)])
        figure.doubts = [
            Doubt(
                "two numbers",
                f"'{ctx.line.said(figure.i, figure.j)}' was read as number {figure.whole}",
                ctx.span(figure.i, figure.j),
                level=1,
            )
        ]


def _row_of_dimensions(ctx: Context, slots: list[Slot]) -> None:
    """ "Width and height are thirty and forty": as many figures as dimensions named before them, one for each."""
    words = ctx.line.words
    for n, slot in enumerate(slots):
        nouns = [d for d in slot.dims if not d.adjective and not names_a_thing(ctx, d) and d.name != ROUGH_OPENING]
        row = slots[n : n + len(nouns)]
        apart = [words[one.j : two.i] for one, two in itertools.pairwise(nouns)]
        if len(nouns) < 2 or len(row) < len(nouns) or not all(gap in (["and"], ["and", "the"], []) for gap in apart):
            continue
        if any(s.after is not None or s.partner is not None for s in row) or any(
            s.dims or words[s.left : s.figure.i] not in ([], ["and"]) for s in row[1:]
        ):
            continue
        for one, noun in zip(row, nouns, strict=True):
            one.dims = [noun]


def _garbled(ctx: Context, slots: list[Slot]) -> None:
    """Doubts two figures where the first has nothing of its own and no known word leads to the second: "four key two and a quarter"."""
    words = ctx.line.words
    for one, two in itertools.pairwise(slots):
        alone = one.after is None and one.partner is None and one.late is None and not one.dims
        between = words[one.end : two.figure.i]
        if one.figure.kind != "number" or one.figure.unit or not alone or thing(ctx, one.left, one.figure.i)[0]:
            continue
        known = function_words() | thing_words() | words_of("sides") | words_of("phrase_ends")
        strange = [k for k in range(one.end, two.figure.i) if k not in ctx.line.dimensions and words[k] not in known]
        if len(strange) != len(between) or not 1 <= len(strange) <= 2 or any(k in ctx.line.places for k in strange):
            continue
        said = ctx.line.said(one.figure.i, two.figure.j)
        for figure in (one.figure, two.figure):
            figure.doubts.append(
                Doubt("garbled", f"'{said}' may be one figure misheard", ctx.span(one.figure.i, two.figure.j), level=3)
            )


def _row_of_names(ctx: Context, slots: list[Slot]) -> None:
    """ "Boards six seven and eight are thirty one, thirty six and a half and forty two": one figure for each name."""
    if len(slots) < 2:
        return
    named, _ = thing(ctx, slots[0].left, slots[0].figure.i)
    names = [word for word in named if word.isdigit()]
    nouns = [word for word in named if not word.isdigit() and word != "and"]
    if "and" not in named or len(names) != len(slots) or not nouns or not nouns[-1].endswith("s"):
        return
    if any(thing(ctx, slot.left, slot.figure.i)[0] for slot in slots[1:]):
        return
    for slot, name in zip(slots, names, strict=True):
        ctx.names[slot.figure.i] = joined([*nouns[:-1], nouns[-1][:-1], name])


def _one(ctx: Context, slot: Slot, following: Slot | None, j: int) -> None:
    line, words, figure = ctx.line, ctx.line.words, slot.figure
    left_place = last_place(ctx, slot.left, figure.i)
    named, _ = thing(ctx, slot.left, figure.i)
    if figure.i in ctx.names:
        name_said = ctx.names[figure.i]
        named = _numbered_one(ctx, name_said[1:]) if name_said.startswith("#") else name_said.split()
    of_place = left_place is not None and words[left_place.j] in words_of("copulas") and not named
    if left_place is not None and (of_place or not (left_place.carried and left_place.name == ctx.place)):
        ctx.thing = None if not named else ctx.thing
        ctx.place = left_place.name
    dims = [
        d
        for d in slot.dims
        if d.i not in ctx.used and not names_a_thing(ctx, d) and (not d.adjective or d.name in _OUT_OF)
    ]
    rough = any(d.name == ROUGH_OPENING or d.name.startswith("rough opening") for d in dims)
    noun = next((d for d in reversed(dims) if d.name != "centre"), None)
    name = slot.after.name if slot.after is not None else noun.name if noun is not None else None
    if slot.by_after and name is None and ctx.dimension is not None:
        name = _complement(ctx)
    if slot.burned:
        figure.value -= 1
        figure.doubts.append(
            Doubt(
                "worked", f"an inch was taken off: {inches_text(figure.value)}", ctx.span(figure.i, slot.end), level=1
            )
        )
    if (
        name is None
        and (d := line.dimensions.get(slot.end)) is not None
        and not d.adjective
        and (slot.partner is None or following is None)
        and _is_postfix(ctx, following, d)
    ):
        name, noun = d.name, d
        ctx.used.add(d.i)
        rough = rough or name.startswith("rough opening")
        slot.end = d.j
        if slot.late is None and slot.end < j and words[slot.end] in words_of("prepositions") and following is None:
            slot.late = (slot.end, _phrase_end(ctx, slot.end, j))
    other = _other(ctx, slot, j)
    if (
        name is None
        and ctx.dimension == "gap"
        and "between" in words[slot.left : slot.late[1] if slot.late else slot.end]
    ):
        name = "gap"
    plain = name in (None, "centre", "height", ROUGH_OPENING) and other is None and slot.partner is None and not rough
    if plain and (
        name in (None, "centre")
        or (slot.after is not None and slot.late is not None and words[slot.late[0]] in ("off", "from"))
    ):
        found = (
            None
            if words_of("not_offset") & set(words[slot.left : figure.i])
            else offset(ctx, slot.left, figure.i, slot.end, slot.late, j)
        )
        if found is not None:
            ctx.place = found.place or ctx.place
            ctx.thing = found.to
            _add(ctx, slot, figure, found.about, "centre" if found.centre else "offset")
            return
    late_text = _take_late(ctx, slot, left_place is not None)
    if other is not None and named == [other] and other in words_of("of_the_place"):
        ctx.thing = None
    elif named == [other] and ctx.thing:
        ctx.thing = joined([w for w in ctx.thing.split() if w not in other_words()])
    elif named:
        ctx.thing = about(ctx, named) or ctx.thing
    elif noun is not None and noun.name in _of_place():
        ctx.thing = None
    if other and named and name is None and named != [other] and not (ctx.thing or "").endswith(other):
        ctx.thing = joined([w for w in named if w != other])
    subject = ctx.thing
    if late_text and slot.late is not None and words[slot.late[0]] in ("for", "the", "between") and not named:
        ctx.thing = subject = joined(late_text)
    elif late_text:
        if subject and subject == ctx.late_thing and not named:
            subject = ctx.thing = None
        subject = (
            joined([*(subject.split() if subject and subject not in joined(late_text) else []), *late_text]) or None
        )
        if not ctx.thing:
            ctx.thing, ctx.late_thing = subject, subject
    if slot.partner is not None:
        _pair(ctx, slot, rough, name, subject)
        return
    if (rough and name in ("width", "height", "length", ROUGH_OPENING)) or rough:
        ctx.rough = True
    elif (named and noun is not None) or (named and slot.after is not None and not rough):
        ctx.rough = ctx.rough and not named
    if ctx.rough and name in ("width", "height", "length"):
        name = f"rough opening {'height' if name == 'length' else name}"
    if name == ROUGH_OPENING or (name is None and ctx.rough):
        _problem(ctx, slot, "a rough opening, but is it the width or the height?", "Say: rough opening width …")
        return
    if other is not None and name is None:
        name = "other"
        base = [w for w in (subject or "").split() if w != other]
        subject = joined([*base, other])
    if name is None and named and named[-1] in ("riser", "risers") and ctx.dimension not in ("thickness", "width"):
        name = "rise"
    own = named and not left_place and (ctx.dimension or "").split()[0:1] in [[w] for w in words_of("own_dimensions")]
    if own and name is None:
        ctx.dimension = None
    elif name is None and ctx.dimension is not None and ctx.dimension != "size":
        name = ctx.dimension
    if (
        name is None
        and subject
        and subject.split()[0] in ("course", "courses", "log", "logs", "joint")
        and {"to", "and"} & set(subject.split())
    ):
        name = "gap"
    if name is None:
        _unsaid(ctx, slot, subject)
        return
    if (
        slot.after is not None
        and slot.after.words == "across"
        and subject
        and any(w in _ROUND for w in subject.split())
    ):
        name = "diameter"
    ctx.dimension = name
    _add(ctx, slot, figure, subject, name)


def _complement(ctx: Context) -> str | None:
    """What stands across from the dimension before "by": "twelve long by six" is six wide."""
    last = ctx.dimension or ""
    upright = ctx.rough or any(
        word in (ctx.thing or "").split() for word in ("window", "door", "opening", "panel", "sash", "hatch")
    )
    return {"length": "width", "height": "width", "width": "height" if upright else "length"}.get(
        last.removeprefix("rough opening ")
    )


def _take_late(ctx: Context, slot: Slot, has_place: bool) -> list[str]:
    """The words of the phrase after a figure; a place in it is the figure's, and of those before it without one."""
    if slot.late is None:
        return []
    words = ctx.line.words
    named, place = thing(ctx, *slot.late)
    if words[slot.late[0]] in ("left", "right"):
        named = [words[slot.late[0]]]
    if place is not None:
        if has_place and words[slot.late[0]] in ("off", "from", "to") and not named:
            return []
        if has_place and not place.carried and not named and words[slot.late[0]] in ("at", "in", "by", "near"):
            return place.name.lower().split()
        if not has_place or place.carried:
            if ctx.place is None:
                for n, fact in enumerate(ctx.facts):
                    if isinstance(fact, Measure) and fact.place is None:
                        ctx.facts[n] = replace(fact, place=place.name)
            ctx.place = place.name
    if words[slot.late[0]] in ("with", "for") and place is None and words[slot.late[0]] == "with":
        return []
    return named


def _is_postfix(ctx: Context, following: Slot | None, d: DimensionWord) -> bool:
    """Whether a noun after a figure is this figure's ("fifty six shy long point") and not the next one's."""
    if following is None or ctx.dimension in (None, "size"):
        return True
    own = ctx.line.dimensions.get(following.right)
    if d.j == following.figure.i:
        return own is not None and not own.adjective
    return ctx.line.words[d.j] not in words_of("be") | words_of("prepositions") | {"at"}


def _other(ctx: Context, slot: Slot, j: int) -> str | None:
    """The reading without a dimension of its own ("sag") before the figure or right after "of" or the figure."""
    words = ctx.line.words
    for k in range(slot.figure.i - 1, slot.left - 1, -1):
        if words[k] in other_verbs() and k not in ctx.line.places:
            return other_verbs()[words[k]]
        if words[k] in other_words() and k not in ctx.line.places:
            following = words[k + 1] if k + 1 < len(words) else ""
            if following in thing_words() and following not in ("is", "'s"):
                continue
            return words[k]
    end = slot.right + (slot.right < j and words[slot.right] == "of")
    if end < j and words[end] in other_words() and end not in ctx.line.dimensions:
        return words[end]
    return None


def _unsaid(ctx: Context, slot: Slot, subject: str | None) -> None:
    """A figure without a dimension is reported: nothing is guessed."""
    of = subject or ctx.place
    if of:
        _problem(ctx, slot, f"a figure of {of}, but which measure?", f"Say: {of} width … or {of} length …")
    else:
        _problem(ctx, slot, "a figure, but of what?", "Say the thing and what was measured: window width …")


def _problem(ctx: Context, slot: Slot, message: str, hint: str) -> None:
    i, j = slot.figure.i, slot.figure.j
    ctx.problems.append(Problem(f"'{ctx.line.said(i, j)}': {message}", ctx.span(i, j), hint))


def _pair(ctx: Context, slot: Slot, rough: bool, name: str | None, subject: str | None) -> None:
    """ "X by Y": width and height of a rough opening, else two sizes."""
    assert slot.partner is not None
    one, two = slot.figure, slot.partner
    rough = rough or (ctx.rough and name is None and slot.after is None)
    ctx.rough = rough
    names = ("rough opening width", "rough opening height") if rough else ("size", "size")
    one.approx = two.approx = one.approx or two.approx
    for figure, dimension in zip((one, two), names, strict=True):
        _add(ctx, slot, figure, subject, dimension)
    ctx.dimension = "size"
    if slot.third is not None:
        _add(ctx, slot, slot.third, subject, "length")


def length_ticks(figure: Figure) -> int | None:
    """A figure's length in ticks, or None where the tape has no such line."""
    ticks = figure.value * METRIC_TICKS.get(figure.unit, INCH)
    return int(ticks) if ticks.denominator == 1 else None


def _add(ctx: Context, slot: Slot, figure: Figure, subject: str | None, dimension: str) -> None:
    unit = figure.unit
    if unit == "" and ctx.unit in METRIC_TICKS and figure.kind == "number" and figure.value >= 20:
        unit = figure.unit = ctx.unit
    ctx.unit = unit
    ticks = length_ticks(figure)
    if ticks is None:
        _problem(
            ctx,
            slot,
            f"{inches_text(figure.value)} is finer than a tape can read",
            "Say it to the nearest sixty fourth.",
        )
        return
    metric = f"{decimal(figure.value)} {unit}" if unit in METRIC_TICKS else None
    fact = Measure(
        place=ctx.place, about=_clean(subject, ctx.place, dimension), dimension=_named(subject, dimension), ticks=ticks,
        metric=metric, approx=figure.approx, shade=figure.shade, over_ticks=length_ticks(slot.over) if slot.over else None,
        evidence=ctx.span(min(slot.left, figure.i), max(slot.end, figure.j)),
        rule=f"measure.{dimension.replace(' ', '_')}", doubts=tuple(figure.doubts),
    )  # fmt: skip
    same = [
        f
        for f in ctx.facts
        if isinstance(f, Measure)
        and (f.place, f.about, f.dimension, f.ticks) == (fact.place, fact.about, fact.dimension, fact.ticks)
    ]
    if same and dimension not in ("size", "diagonal"):
        return
    ctx.facts.append(fact)


def _named(subject: str | None, dimension: str) -> str:
    """The height of a ridge is a ridge height, that of a plate a plate height."""
    if dimension == "height" and subject in ("ridge", "peak"):
        return "ridge height"
    if dimension == "height" and subject in ("plate", "top plate"):
        return "plate height"
    return dimension


def _clean(subject: str | None, place: str | None, dimension: str) -> str | None:
    if not subject or (place and subject.lower() == place.lower()):
        return None
    named = _named(subject, dimension)
    if named in ("ridge height", "plate height") and subject in ("ridge", "peak", "plate", "top plate"):
        return None
    if dimension == "base width" and subject in ("base", "gable"):
        return None
    return subject


def decimal(value: Fraction) -> str:
    """A metric figure as said: "7.2", "1220"."""
    return f"{float(value):.4f}".rstrip("0").rstrip(".") if value.denominator != 1 else str(value.numerator)


__all__ = ["length_ticks", "measure", "units"]
