"""Figures that are told against another: "a sixteenth more", "an inch longer than the other", "down an eighth".

Such a figure is no size of its thing. Where the one it is told against is in the memo the sum is the size, with a doubt that
shows it; else it is asked for.
"""

from __future__ import annotations

from fractions import Fraction

from journal.extract.context import Context
from journal.extract.drafts import Draft
from journal.extract.sets import words_of
from journal.extract.slots import report
from journal.extract.tape import METRIC_TICKS, length_ticks
from journal.extract.unitwords import inches_text
from journal.grammar import table
from journal.lengths import INCH
from journal.records import Doubt, Measure

_ONE = Fraction(1)
_ENDS = frozenset(
    {
        "",
        "and",
        "but",
        "so",
        "then",
        "than",
        "on",
        "at",
        "again",
        "still",
        "now",
        "there",
        "here",
        "that",
        "this",
        "which",
        "it",
    }
)


def compared(ctx: Context, draft: Draft) -> tuple[int, str | None] | None:
    """The sign of a figure that is told against another, and the dimension its word names ("longer"); None for a plain figure."""
    figure, words = draft.slot.figure, ctx.line.words
    if figure.kind not in ("length", "number") or draft.slot.partner is not None or draft.slot.over is not None:
        return None
    signs, named = table("figures")["compared"], table("figures")["comparatives"]
    end = draft.slot.end
    after = words[end] if end < draft.stop else ""
    following = words[end + 1] if end + 1 < draft.stop else ""
    if after in named:
        sign, dimension = (-1 if after in signs["less_adjectives"] else 1), named[after]
        draft.slot.end = end + 1
        return sign, dimension or None
    ends = (
        (following in _ENDS and not (after == "over" and following in ("here", "there")))
        or end + 1 in ctx.line.labels
        or end + 1 in ctx.line.figures
    )
    if ends and after in (*signs["more"], *signs["less"]):
        draft.slot.end = end + 1
        return (1 if after in signs["more"] else -1), None
    return _up_or_down(words, draft, after)


def _up_or_down(words: list[str], draft: Draft, after: str) -> tuple[int, str | None] | None:
    """ "It's down an eighth": up or down from another figure, where nothing says from what."""
    figure = draft.slot.figure
    before = words[figure.i - 1] if figure.i else ""
    small = figure.value < 12 and figure.unit != "ft" and draft.slot.late is None
    led = words[figure.i - 2 : figure.i - 1] in ([verb] for verb in ("is", "'s", "are", "went", "comes", "gone"))
    if before in ("up", "down") and small and led and after in ("", "and", "but", "so"):
        return (1 if before == "up" else -1), None
    return None


def work_out(ctx: Context, draft: Draft, sign: int, dimension: str | None) -> bool:
    """Puts the sum in the place of a figure told against one of this memo; False, with a problem, where there is none."""
    figure, line = draft.slot.figure, ctx.line
    wanted = dimension or draft.name or ctx.dimension
    said = line.said(figure.words[0], draft.slot.end)
    base = _base(ctx, draft, wanted)
    ticks = length_ticks(figure)
    if base is None or ticks is None or (base.metric is not None) != (figure.unit in METRIC_TICKS):
        report(
            ctx,
            draft.slot,
            f"'{said}' is told against another figure that is not in this memo",
            "Say the whole figure.",
        )
        return False
    if base.metric is not None:
        report(ctx, draft.slot, f"'{said}' is told against {base.metric}", "Say the whole figure.")
        return False
    figure.value = (base.ticks * _ONE + sign * ticks * _ONE) / INCH
    figure.kind, figure.unit, figure.feet = "length", "in", None
    sum_ = f"{inches_text(base.ticks * _ONE / INCH)} {'and' if sign > 0 else 'less'} {inches_text(ticks * _ONE / INCH)}"
    shown = f"'{said}' was worked out from {sum_}: {inches_text(figure.value)}"
    figure.doubts.append(Doubt("worked", shown, line.span(figure.words[0], draft.slot.end), level=1))
    draft.name = base.dimension
    draft.slot.late = None
    return True


def _base(ctx: Context, draft: Draft, dimension: str | None) -> Measure | None:
    """The measure that a figure is told against: the one named after "than", else the last with that dimension of another thing."""
    words = ctx.line.words
    before = [f for f in ctx.facts if isinstance(f, Measure) and (dimension is None or f.dimension == dimension)]
    if not before or not set(draft.named) - words_of("all_of_them"):
        return None
    if words[draft.slot.end : draft.slot.end + 1] == ["than"]:
        named = set(ctx.text(draft.slot.end + 1, min(draft.slot.end + 5, len(words))))
        digits = {word for word in named if word.isdigit()}
        exact = [f for f in before if digits and digits & set((f.about or "").split())]
        if digits:
            return exact[-1] if exact else None
    return before[-1]
