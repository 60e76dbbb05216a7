"""Working hours, with what was done and where."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import Figure, joined
from journal.extract.vocabulary import ing_forms, past_forms
from journal.records import Hours

_STOP = frozenset({"and", "then", "so", "but", "they", "it", "used", "took", "plus"})
_LEAD = frozenset(
    {
        "spent",
        "spend",
        "took",
        "put",
        "in",
        "was",
        "were",
        "that",
        "'s",
        "it",
        "worked",
        "about",
        "another",
        "for",
        "me",
        "i",
        "we",
        "the",
        "of",
        "a",
        "on",
        "today",
        "yesterday",
        "did",
        "us",
        "just",
        "got",
        "to",
        "at",
        "up",
        "there",
        "this",
        "morning",
        "afternoon",
        "work",
        "doing",
        "time",
        "total",
        "all",
        "day",
        "so",
        "then",
        "and",
        "'m",
        "is",
        "are",
        "had",
        "with",
        "working",
    }
)
_DAY_WORDS = frozenset({"today", "yesterday", "morning", "afternoon", "evening", "tonight", "all", "day", "this"})


def hours(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the hours of a figure; gives the index after the words that went with it."""
    words = ctx.line.words
    end = figure.j
    k = end
    place = None
    kept: list[int] = []
    while k < right:
        if any(d.i <= k < d.j for d in ctx.dues) or words[k] in ("today", "yesterday", "tonight"):
            k += 1
            continue
        if k in ctx.line.places:
            place = place or ctx.line.places[k]
            k = ctx.line.places[k].j
            continue
        if (
            k in ctx.line.figures
            and ctx.line.figures[k].kind != "section"
            and (ctx.line.figures[k].kind != "number" or words[k - 1] in _STOP)
        ):
            break
        if words[k] in ("then", "so", "but", "they", "used", "it", "took", "plus") or (
            words[k] == "and" and not _joins_activity(ctx, k, right)
        ):
            break
        kept.append(k)
        k += 1
    end = k
    activity = _activity(ctx, kept)
    if activity is None:
        activity, place_before = _before(ctx, left, figure.i)
        place = place or place_before
    if place is not None:
        ctx.place = place.name
    on = next((d for d in ctx.dues if left <= d.i < end and d.weekday), None)
    day = None
    if on is not None:
        from datetime import timedelta

        back = (ctx.today.weekday() - on.day.weekday()) % 7 or 7
        day = ctx.today - timedelta(back)
    elif "yesterday" in words[left:end]:
        from datetime import timedelta

        day = ctx.today - timedelta(1)
    ctx.facts.append(
        Hours(
            place=ctx.place,
            hours=float(figure.value),
            activity=activity,
            on=day,
            evidence=ctx.span(min(left, figure.i), end),
            rule="hours.spent",
            doubts=tuple(figure.doubts),
        )
    )
    return end


def _joins_activity(ctx: Context, k: int, right: int) -> bool:
    """Whether "and" joins two works ("laying out and cutting rafters"): no figure of its own follows."""
    words = ctx.line.words
    return k + 1 < right and (words[k + 1] in ing_forms() or not any(k < i < right for i in ctx.line.figures))


def _activity(ctx: Context, kept: list[int]) -> str | None:
    words = ctx.line.words
    text = [(k, words[k]) for k in kept]
    while text and (text[0][1] in _LEAD):
        text.pop(0)
    while text and text[-1][1] in _LEAD | {"in", "over", "out", "down", "up", "there", "here", "from", "back"} - {
        "up",
        "down",
        "out",
    }:
        text.pop()
    out: list[str] = []
    for k, word in text:
        if k in ctx.labels:
            out.append(ctx.labels[k][1])
        elif not any(a < k < b for a, (b, _) in ctx.labels.items()):
            out.append(word)
    return joined(out) or None


def _before(ctx: Context, left: int, i: int) -> tuple[str | None, object]:
    """The work named before the hours: "hewing on the harbour wall … four hours", "chinking's done, took eleven hours"."""
    words = ctx.line.words
    place = None
    for k in range(i - 1, -1, -1):
        if k in ctx.line.places and k >= left:
            place = ctx.line.places[k]
            break
    for start in range(left, i):
        if (
            words[start] in ing_forms()
            or (words[start] in past_forms()
            and words[start] not in ("took", "spent", "got", "did", "done", "left", "made", "put"))
        ):
            kept = []
            k = start
            while (
                k < i
                and words[k] not in ("from", "for", "so", "took", "and", "then", "is", "'s", "that")
                and k not in ctx.line.figures
            ):
                if k in ctx.line.places:
                    k = ctx.line.places[k].j
                    continue
                kept.append(k)
                k += 1
            return _activity(ctx, kept), place
    done = [f for f in ctx.facts if f.kind == "task" and f.status == "done"]  # type: ignore[union-attr]
    if done:
        return done[-1].do, place  # type: ignore[union-attr]
    return None, place
