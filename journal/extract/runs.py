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
        known = function_words() | thing_words() | words_of("sides") | words_of("phrase_ends")
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
