"""What a figure measures by the custom of the trade where nobody said it: a log at its butt, a stick of timber in feet, a sill "at" its height.

Common practice (CP), no published source. What is taken for granted carries a doubt of the lowest kind, so that it is shown.
"""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.drafts import Draft
from journal.extract.sets import words_of
from journal.records import Doubt

_FOOT = 12


def by_custom(ctx: Context, draft: Draft) -> str | None:
    """The dimension that the thing and the wording tell, or None."""
    return at_an_end(draft) or _at_a_height(ctx, draft) or _of_a_stick(ctx, draft)


def at_an_end(draft: Draft) -> str | None:
    """ "Log fourteen is thirteen and a half at the butt": what a round stick measures at an end is its diameter."""
    parts = set((draft.subject or "").split())
    figure = draft.slot.figure
    round_one, end = parts & words_of("round"), parts & words_of("stick_ends")
    return "diameter" if round_one and end and figure.unit in ("", "in") and figure.value <= 48 else None


def _at_a_height(ctx: Context, draft: Draft) -> str | None:
    """ "Sill at forty two", "the counter sits at thirty six": the height above the floor of what lies level."""
    slot, words = draft.slot, ctx.line.words
    if not draft.named or draft.named[-1] not in words_of("levels") or slot.figure.unit in ("mm", "cm", "m"):
        return None
    return "height" if words[slot.figure.words[0] - 1] == "at" or words[slot.figure.i - 1] == "at" else None


def _of_a_stick(ctx: Context, draft: Draft) -> str | None:
    """ "Rafters are fourteen foot two to the plumb cut": one figure in feet on a stick of timber is its length."""
    figure, slot, words = draft.slot.figure, draft.slot, ctx.line.words
    which = words_of("which_of_them") | {"side", "end", "hand", "half", "corner", "slope"}
    nouns = [w for w in draft.named if not w.isdigit() and w not in which]
    if not nouns or nouns[-1] not in words_of("members") or figure.kind not in ("length", "number"):
        return None
    if words[figure.i - 1] == "at" and nouns[-1].endswith("s") and 10 <= figure.value <= 12 * _FOOT:
        return _doubted(ctx, draft, "spacing")
    to_an_end = slot.late is not None and words[slot.late[0]] == "to"
    cut = bool({"run", "running", "runs", "cut", "measured", "measure"} & set(words[slot.left : figure.i]))
    long_enough = figure.value >= (2 * _FOOT if figure.unit == "ft" else 30)
    if not long_enough or not (figure.unit == "ft" or to_an_end or cut):
        return None
    if to_an_end or set(words[slot.left : figure.i]) & {"run", "running", "runs"}:
        draft.subject = ctx.thing
    return _doubted(ctx, draft, "length")


def _doubted(ctx: Context, draft: Draft, name: str) -> str:
    figure = draft.slot.figure
    shown = f"'{ctx.line.said(*figure.words)}' was taken for the {name}"
    figure.doubts.append(Doubt("dimension", shown, ctx.span(*figure.words), level=1))
    return name
