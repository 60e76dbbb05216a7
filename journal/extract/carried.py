"""What goes on down a list beside the dimension: feet said once, and a doubt where a figure is of another order."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.drafts import Draft
from journal.extract.line import joined
from journal.extract.sets import words_of
from journal.extract.tape import length_ticks
from journal.extract.unitwords import inches_text
from journal.lengths import INCH, format_length
from journal.records import Doubt, Measure


def feet_go_on(ctx: Context, draft: Draft) -> None:
    """ "Beam one is eighteen feet long and beam two nineteen and a half": feet as well, with a doubt of the lowest kind."""
    figure, last = draft.slot.figure, ctx.last
    if figure.unit or figure.kind not in ("number", "length") or last is None or last.feet is None:
        return
    if last.value != last.feet * 12 or not last.value <= 36 * figure.value <= 9 * last.value:
        return
    if figure.value * 4 >= last.value:
        return
    if not ctx.of_all and _noun(draft.subject) != _noun(_about_before(ctx)):
        return
    shown = f"'{ctx.line.said(*figure.words)}' was taken for feet, as before it"
    figure.doubts.append(Doubt("unit", shown, ctx.span(*figure.words), (inches_text(figure.value),), level=1))
    figure.kind, figure.unit, figure.feet, figure.value = "length", "ft", figure.value, figure.value * 12


def _about_before(ctx: Context) -> str | None:
    last = ctx.facts[-1] if ctx.facts else None
    return last.about if isinstance(last, Measure) else None


def doubt_order(ctx: Context, draft: Draft) -> None:
    """Doubts a figure that takes the dimension of the one before and is of another order: 96 1/4 high, then 3/8."""
    figure, last = draft.slot.figure, ctx.facts[-1] if ctx.facts else None
    ticks = length_ticks(figure)
    if ticks is None or not isinstance(last, Measure) or last.dimension != draft.name or not ticks or not last.ticks:
        return
    if any(doubt.level > 1 for doubt in figure.doubts):
        return
    if draft.name in ("out of level", "out of plumb", "out of square", "gap", "reveal", "other", "offset"):
        return
    if max(ticks, last.ticks) <= 4 * min(ticks, last.ticks):
        return
    of = f"{draft.subject} " if draft.subject else ""
    shown = f"is '{ctx.line.said(*figure.words)}' {of}{draft.name}, as the {format_length(last.ticks)} before it?"
    figure.doubts.append(Doubt("jump", shown, ctx.span(*figure.words), level=2))


def same_sort(ctx: Context, named: list[str]) -> bool:
    """Whether a name is that of another of the things before: "window 2" after "window 1"."""
    before = _about_before(ctx)
    return before is not None and before != joined(named) and _noun(joined(named)) == _noun(before) != ""


def _noun(subject: str | None) -> str:
    """A thing without its number or side: "beam 2" and "beam 3" are both a beam."""
    return joined([w for w in (subject or "").split() if not w.isdigit() and w not in words_of("which_of_them")])


def no_name(ctx: Context, draft: Draft) -> None:
    """ "Hip rafter one eighty seven, valley rafter one ninety two": a one that no other name answers is a hundred, with a doubt."""
    figure, last = draft.slot.figure, ctx.facts[-1] if ctx.facts else None
    label = draft.named[-1] if draft.named else ""
    if len(label) != 1 or not label.isdigit() or figure.unit or not 10 <= figure.value < 100:
        return
    said, span = ctx.line.said(figure.i - 1, figure.words[1]), ctx.span(figure.i - 1, figure.words[1])
    nouns = [ctx.line.words[start - 1] for start in ctx.labels]
    if label == "1" and nouns.count(ctx.line.words[figure.i - 2]) == 1 and not ctx.names:
        shown = (
            f"'{said}' was read as number 1 and {inches_text(figure.value)}: is it {inches_text(figure.value + 100)}?"
        )
        figure.doubts.append(Doubt("two-way", shown, span, (inches_text(figure.value + 100),), level=2))
    if not isinstance(last, Measure) or draft.slot.partner is not None:
        return
    if last.dimension != (draft.name or ctx.dimension) or any(c.isdigit() for c in last.about or ""):
        return
    whole = figure.value + 100 * int(label)
    if abs(whole * INCH - last.ticks) * 5 > last.ticks:
        return
    shown = f"'{said}' was read as {inches_text(whole)}, near the {format_length(last.ticks)} before it"
    figure.doubts = [Doubt("two-way", shown, span, (inches_text(figure.value),), level=2)]
    figure.value = whole
    draft.named.pop()
