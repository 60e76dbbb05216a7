"""Figures in a run after the names or dimensions that they belong to: "width and height are thirty and forty"."""

from __future__ import annotations

import itertools

from journal.extract.context import Context
from journal.extract.dimensions import ROUGH_OPENING
from journal.extract.line import joined
from journal.extract.sets import words_of
from journal.extract.slots import Slot
from journal.extract.things import names_a_thing, thing
from journal.extract.vocabulary import function_words, thing_words
from journal.records import Doubt


def number_run(ctx: Context, slots: list[Slot]) -> None:
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


def rough_behind(ctx: Context, slots: list[Slot]) -> None:
    """ "Twenty four by thirty six rough opening": said behind the figures, it is theirs and not of what comes after."""
    for n, slot in enumerate(slots):
        named = {"width", "height", "length"}
        if slot.partner is None and (slot.after is None or slot.after.name not in named):
            continue
        end = _rough_at(ctx, slot.end)
        if end is None:
            continue
        slot.rough, slot.end = True, end
        before = slots[n - 1] if n else None
        if before is not None and before.after is not None and before.after.name in named:
            before.rough = before.rough or ctx.line.words[before.end : slot.figure.i] in (["by"], ["and"], [])


def share_among_numbered(ctx: Context, slots: list[Slot]) -> None:
    """ "Board one forty board two fifty long point": of numbered things of one sort, the dimension behind the last is that of all."""
    if len(slots) < 2 or ctx.dimension not in (None, "size") or not ctx.labels:
        return
    n, d = next(
        ((n, d) for n, one in enumerate(slots) if (d := one.after or ctx.line.dimensions.get(one.end))), (0, None)
    )
    row, last = slots[: n + 1], slots[n]
    if d is None or n == 0 or d.i in ctx.used or d.name in ("centre", ROUGH_OPENING) or d.j in ctx.line.figures:
        return
    if any(one.dims or one.partner is not None for one in row) or any(one.late is not None for one in row[:-1]):
        return
    nouns = [_numbered_noun(ctx, one.figure.i) for one in row]
    if None in nouns or len(set(nouns)) > 1:
        return
    if last.after is None:
        ctx.used.add(d.i)
        last.end = d.j
    for one in row:
        one.after = d


def _numbered_noun(ctx: Context, i: int) -> str | None:
    """The noun whose number stands before the figure at word `i`, a copula allowed between."""
    words = ctx.line.words
    end = i - (i > 0 and words[i - 1] in words_of("copulas"))
    start = next((start for start, (j, _) in ctx.labels.items() if j == end), None)
    return words[start - 1] if start else None


def share_after(ctx: Context, slots: list[Slot]) -> None:
    """ "Facets thirty four, twenty eight and thirty five wide": the adjective behind the last of several is that of all."""
    words = ctx.line.words
    row: list[Slot] = []
    for slot in slots:
        bare = slot.partner is None and not slot.dims and slot.late is None and slot.figure.i not in ctx.names
        joined_on = not row or words[row[-1].end : slot.figure.i] in (["and"], [])
        if not (bare and joined_on):
            row = [slot] if bare else []
            continue
        row.append(slot)
        if slot.after is None:
            continue
        named, _ = thing(ctx, row[0].left, row[0].figure.i)
        if len(row) > 1 and named and named[-1].endswith("s") and all(one.after is None for one in row[:-1]):
            for one in row:
                one.after = slot.after
        row = []


def _rough_at(ctx: Context, k: int) -> int | None:
    """The index after "rough opening", or after a "rough" that is no thing's, at word `k`."""
    words, d = ctx.line.words, ctx.line.dimensions.get(k)
    if d is None:
        following = words[k + 1] if k + 1 < len(words) else ""
        bare = words[k : k + 1] == ["rough"] and following not in thing_words() | words_of("rough_ones")
        return k + 1 if bare else None
    if d.name != ROUGH_OPENING or d.i in ctx.used or d.j in ctx.line.figures:
        return None
    if words[d.j : d.j + 1] and words[d.j] in words_of("copulas"):
        return None
    ctx.used.add(d.i)
    return d.j


def for_all(ctx: Context, slots: list[Slot], stop: int) -> None:
    """ "Board one seventeen board two twenty two all long points": a dimension said once behind a list is that of all of it."""
    words = ctx.line.words
    if len(slots) < 2 or ctx.dimension not in (None, "size"):
        return
    k = slots[-1].end
    lead = k
    while lead < stop and lead not in ctx.line.dimensions and words[lead] in words_of("lead_for_all"):
        lead += 1
    d = ctx.line.dimensions.get(lead)
    if d is None or d.name in (ROUGH_OPENING, "centre") or not set(words[k:lead]) & words_of("all_of_them"):
        return
    following = words[d.j] if d.j < len(words) else ""
    if "both" in words[k:lead] and not (d.words.endswith("s") or d.words.startswith("to ")):
        return
    if d.j in ctx.line.figures or following in words_of("copulas", "be") | {"of"}:
        return
    if any(slot.after is not None or slot.partner is not None or slot.dims for slot in slots):
        return
    ctx.dimension = d.name
    ctx.used.add(d.i)
    slots[-1].end = d.j
    place = ctx.line.places.get(d.j) or ctx.line.places.get(d.j + 1) or ctx.line.places.get(d.j + 2)
    if place is not None and ctx.place is None:
        ctx.place = place.name


def dimension_run(ctx: Context, slots: list[Slot]) -> None:
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


def doubt_garbled(ctx: Context, slots: list[Slot]) -> None:
    """Doubts two figures where the first has nothing of its own and no known word leads to the second: "four key two and a quarter"."""
    words = ctx.line.words
    for one, two in itertools.pairwise(slots):
        alone = one.after is None and one.partner is None and one.late is None and not one.dims
        between = words[one.end : two.figure.i]
        if one.figure.kind != "number" or one.figure.unit or not alone or thing(ctx, one.left, one.figure.i)[0]:
            continue
        known = function_words() | thing_words() | words_of("sides", "phrase_ends")
        strange = [k for k in range(one.end, two.figure.i) if k not in ctx.line.dimensions and words[k] not in known]
        if len(strange) != len(between) or not 1 <= len(strange) <= 2 or any(k in ctx.line.places for k in strange):
            continue
        said = ctx.line.said(one.figure.i, two.figure.j)
        for figure in (one.figure, two.figure):
            figure.doubts.append(
                Doubt("garbled", f"'{said}' may be one figure misheard", ctx.span(one.figure.i, two.figure.j), level=3)
            )


def name_run(ctx: Context, slots: list[Slot]) -> None:
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
    last = slots[-1]
    d = last.after or ctx.line.dimensions.get(last.end)
    if d is None or any(slot.after is not None or slot.dims or slot.partner is not None for slot in slots[:-1]):
        return
    if last.after is None and d.j not in ctx.used and d.name not in ("centre", ROUGH_OPENING):
        last.end = d.j
        ctx.used.add(d.i)
    for slot in slots:
        slot.after = d  # "… are sixty one, fifty four and forty six long point"
