"""Numbers that name the next thing of a list: "… forty, two is thirty eight", "… one fourteen and a half, two fourteen".

Whether a number is a name or part of a figure is told by the names before it, which count up.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.unitwords import inches_text
from journal.records import Doubt


def names_next(words: Sequence[str], figure: Figure, following: Sequence[Figure]) -> bool:
    """ "Five is six and an eighth": in a list a bare number before "is" and a figure is a name."""
    bare = figure.kind == "number" and not figure.unit and figure.whole is not None and figure.whole <= 60
    led = words[figure.j : figure.j + 1] in (["is"], ["'s"]) and words[figure.i - 1] not in ("is", "'s", "are", "a")
    return bare and led and bool(following) and following[0].i == figure.j + 1


def number_named(ctx: Context, left: int, figure: Figure) -> int | None:
    """The number that the words from `left` up to a figure name its thing by: 2 of "board two forty"."""
    named = [label for k, (j, label) in ctx.labels.items() if left <= k and j <= figure.i]
    said = named[-1] if named else ctx.names.get(figure.i, "").removeprefix("#")
    last = said.split()[-1:] or [""]
    return int(last[0]) if last[0].isdecimal() else None


def give_up_name(ctx: Context, number: int | None, figure: Figure, following: Figure | None) -> None:
    """ "Board one forty two is thirty eight": after a one, the two before "is" and a figure is the next name, with a doubt."""
    words = ctx.line.words
    if number is None or following is None or figure.split != number + 1 or figure.kind != "number" or figure.unit:
        return
    if words[figure.j : figure.j + 1] not in (["is"], ["'s"]) or following.i != figure.j + 1:
        return
    said = ctx.line.said(figure.i, following.j)
    shown = f"'{said}' was read as {inches_text(figure.value - figure.split)}, then number {figure.split}"
    span = ctx.span(figure.i, following.j)
    for one, other in ((figure, inches_text(figure.value)), (following, "")):
        one.doubts.append(Doubt("two-way", shown, span, (other,) if other else (), level=2))
    figure.value -= figure.split
    figure.j -= 1
    figure.words = (figure.words[0], figure.j)
    ctx.names[following.i] = f"#{figure.split}"
    figure.split = 0


def count_on(ctx: Context, number: int | None, before: Fraction | None, figure: Figure, left: int) -> None:
    """ "Stud bay one fourteen and a half wide, two fourteen and three eighths": the names count up before figures of one size."""
    if number is None or before is None or figure.second is None or figure.whole != number + 1 or figure.unit == "in":
        return
    if figure.rule not in ("figure.hundreds", "figure.bare_feet"):
        return
    d = ctx.line.dimensions.get(left)
    if set(ctx.line.words[d.j if d else left : figure.i]) - {"and", "then"}:
        return
    near = before <= 3 * figure.second and figure.second <= 3 * before
    if not near or figure.value <= 2 * before:
        return
    said = ctx.line.said(*figure.words)
    shown = f"'{said}' was read as number {figure.whole}: {inches_text(figure.second)}"
    figure.doubts = [
        Doubt("two numbers", shown, ctx.span(figure.i, figure.j), (inches_text(figure.value),), level=2),
    ]
    figure.value, figure.rule, figure.unit, figure.feet = figure.second, "figure.numbered", "", None
    ctx.names[figure.i] = f"#{figure.whole}"
