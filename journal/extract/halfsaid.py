"""Measures said without their figure: "lake wall window width" is reported, so that it is not taken for heard."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.dimensions import ROUGH_OPENING
from journal.extract.line import DimensionWord, PlaceWord, joined
from journal.extract.sets import words_of
from journal.extract.things import names_a_thing, thing
from journal.records import Problem


def half_said(ctx: Context, i: int, j: int) -> None:
    """Reports a thing or place with a dimension at the end of words `i` to `j`, which hold no figure."""
    words, line = ctx.line.words, ctx.line
    end = j
    if set(words[i:j]) & words_of("half_said_not"):
        return
    first = next((d for k, d in sorted(line.dimensions.items()) if k >= i), None)
    led = first is not None and not first.adjective and all(word in ("the", "a", "and") for word in words[i : first.i])
    if (
        first is not None
        and led
        and words[first.j : first.j + 1] in (["of"], ["between"], ["on"], ["for"], ["at"], ["in"])
    ):
        _report(ctx, i, j, first, *thing(ctx, first.j + 1, j))
        return
    while end > i and words[end - 1] in words_of("be", "half_said_trailing"):
        end -= 1
    last = next((d for k, d in sorted(line.dimensions.items()) if i <= k and d.j == end), None)
    if last is None or names_a_thing(ctx, last) or last.name == "centre":
        return
    if last.adjective and (last.j - last.i > 1 or last.i == i or words[last.i - 1] not in words_of("be") | {"'re"}):
        return
    _report(ctx, i, j, last, *thing(ctx, i, last.i))


def half_said_last(ctx: Context, i: int, j: int) -> None:
    """Reports such a measure at the end of a list: "… thirty wide and the door height"; `i` is after the last figure."""
    joint = max((k for k in range(i, j) if ctx.line.words[k] == "and"), default=None)
    if joint is not None:
        half_said(ctx, joint + 1, j)


def _report(ctx: Context, i: int, j: int, last: DimensionWord, named: list[str], place: PlaceWord | None) -> None:
    if not named and place is None:
        return
    of = joined(named) or (place.name if place is not None else "")
    dimension = "rough opening width" if last.name == ROUGH_OPENING else last.name
    ctx.problems.append(
        Problem(
            f"'{ctx.line.said(i, j)}': {of} {last.name}, but no figure",
            ctx.span(i, j),
            f"Say the figure with it: {of} {dimension} …",
        )
    )
