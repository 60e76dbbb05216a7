"""Working hours, with what was done and where."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from journal.extract.clock import clock_at
from journal.extract.context import Context
from journal.extract.durations import BREAK
from journal.extract.line import Figure, PlaceWord, joined
from journal.extract.numbers import number_words
from journal.extract.sets import words_of
from journal.extract.stockwords import event_at, names_stock
from journal.extract.vocabulary import function_words, ing_forms, names_work, past_forms
from journal.extract.worked import is_work, work_comes_first
from journal.records import Doubt, Hours, Task


def hours(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the hours of a figure; gives the index after the words that went with it."""
    words = ctx.line.words
    _pass_over_parts(ctx, figure, right)
    kept, place, end = _after(ctx, figure.j, right)
    activity = _work(ctx, kept)
    following = min((f for i, f in ctx.line.figures.items() if figure.j <= i < right), key=lambda f: f.i, default=None)
    ctx.work_first = work_comes_first(words, left, figure, following) or (
        ctx.work_first and is_work(words[left : figure.i])
    )
    if ctx.work_first and activity is not None:
        activity, kept, place, end = None, [], None, figure.j
    last = ctx.facts[-1] if ctx.facts else None
    going_on = isinstance(last, Hours) and figure.unit == ""
    if isinstance(last, Hours) and going_on and not ctx.work_first and {words[k] for k in kept} <= _SAME:
        thing = place is not None and last.activity is not None and last.activity.split()[0] not in ing_forms()
        activity = None if thing else last.activity
    elif activity is None or (kept and words[kept[0]] in ("with", "by")):
        before, place_before = _before(ctx, left, figure.i)
        activity, place = before, place or place_before
    elif place is None:
        named = [p for k, p in sorted(ctx.line.places.items()) if left <= k < figure.i]
        place = named[-1] if named else None
    if place is not None:
        ctx.place = place.name
    days = isinstance(last, Hours) and last.on is not None and going_on and words[figure.i - 1] in ("and", "then")
    if words[figure.j : figure.j + 1] == ["all"] or days:
        _for_all(ctx, activity)
    ctx.facts.append(
        Hours(
            place=ctx.place, hours=round(float(figure.value), 4), activity=activity, on=_day(ctx, left, end),
            evidence=ctx.span(min(left, figure.i), end), rule=figure.rule or "hours.spent",
            doubts=(*figure.doubts, *_number_beside(ctx, figure, kept)),
        )
    )  # fmt: skip
    return end


def _pass_over_parts(ctx: Context, figure: Figure, right: int) -> None:
    """ "Eleven hours this week five on the stringers and six on the treads": the parts of a sum are not hours once more."""
    if figure.unit != "h":
        return
    words = ctx.line.words
    parts = [f for k, f in sorted(ctx.line.figures.items()) if figure.j <= k < right and words[k - 1] != "the"][:4]
    while parts:
        plain = all(f.kind in ("number", "length") and not f.unit and words[f.j : f.j + 1] != [] for f in parts)
        if plain and len(parts) > 1 and sum(f.value for f in parts) == figure.value:
            for part in parts:
                part.rule = BREAK if words[part.j] in ("on", "in", "at", "for", "of") else part.rule
            return
        parts.pop()


def _for_all(ctx: Context, activity: str | None) -> None:
    """ "… all on the trestle": the work and place of all the hours told before that have none."""
    for n, fact in enumerate(ctx.facts):
        if isinstance(fact, Hours) and fact.activity is None and fact.place is None:
            ctx.facts[n] = replace(fact, activity=activity, place=ctx.place)


def _number_beside(ctx: Context, figure: Figure, kept: list[int]) -> list[Doubt]:
    """A doubt where the work after the hours ends in a bare number: it may be the hours said anew ("… no six")."""
    words = ctx.line.words
    if not kept or words[kept[-1]] not in number_words() or kept[-1] + 1 < len(words):
        return []
    if any(i <= kept[-1] < j and words[i - 1 : i] != ["no"] for i, (j, _) in ctx.labels.items()):
        return []
    shown = f"'{words[kept[-1]]}' was said after '{ctx.line.said(figure.i, figure.j)}': are the hours right?"
    return [Doubt("two numbers", shown, ctx.span(figure.i, kept[-1] + 1), level=2)]


def _after(ctx: Context, k: int, right: int) -> tuple[list[int], PlaceWord | None, int]:
    """The words of the work after the hours, less dates and place; the index after them."""
    words, line = ctx.line.words, ctx.line
    kept: list[int] = []
    place: PlaceWord | None = None
    while k < right:
        due = next((d for d in ctx.dues if d.i <= k < d.j), None)
        if due is not None and due.weekday and due.j in line.figures:
            break
        if due is not None or words[k] in ("today", "yesterday", "tonight"):
            k = due.j if due is not None else k + 1
            continue
        if k in line.places:
            if place is not None and (_led(words, place.i) or not _led(words, k)):
                break
            if place is not None:  # "laying hearth tile in the parlour": the hearth only tells which tile
                kept = sorted({*kept, *range(place.i, place.j)})
            place, k = line.places[k], line.places[k].j
            continue
        if place is not None and words_of("copulas") & set(words[k + 1 : k + 3]) and words[k] not in ("and", "then"):
            break
        if (timed := clock_at(words, k)) is not None:
            k = timed
            continue
        figure = line.figures.get(k)
        if figure is not None and figure.rule == BREAK:
            break
        if (
            figure is not None
            and place is not None
            and words[figure.j : figure.j + 2] in (["in", "the"], ["on", "the"], ["at", "the"])
        ):
            break  # "four hours in the loft two in the mess"
        if figure is not None and words[figure.j : figure.j + 1] == ["of"] and figure.kind == "number":
            break
        if figure is not None and figure.j < right and words[figure.j] in ing_forms():
            break
        if figure is not None and (figure.kind not in ("number", "section") or _is_stock(ctx, figure)):
            break
        event = event_at(words, k)
        if event is not None and any(event[1] <= i <= event[1] + 1 for i in line.figures) and kept:
            break
        if words[k] in ("before", "after") and words[k + 1 : k + 2] in (["that"], ["lunch"], ["dinner"], ["noon"]):
            break
        if words[k - 1 : k + 2] in (["tongue", "and", "groove"], ["board", "and", "batten"], ["wattle", "and", "daub"]):
            kept.append(k)
            k += 1
            continue
        if words[k] in words_of("hours_break") or (words[k] == "and" and not _joins_work(ctx, k, right)):
            break
        if words[k] in ("the", "my", "our") and k + 1 in line.places:
            k += 1
            continue
        if words[k] in ("the", "my", "our") and place is not None and words[k - 1] != "on":
            break
        if (kept and words[k] in ("i", "we")) or words[k] in ("i'm", "i've"):
            break
        kept.append(k)
        k += 1
    return kept, place, k


def _led(words: list[str], i: int) -> bool:
    """Whether a preposition leads to the place at word `i`."""
    return words[i - 1 - (words[i - 1] in ("the", "our", "my"))] in words_of("place_prepositions")


def _is_stock(ctx: Context, figure: Figure) -> bool:
    """Whether a count after the hours has an event of its own: "two and a half hours one gallon used"."""
    words = ctx.line.words
    return names_stock(words, figure.j) and any(
        event_at(words, k) for k in range(figure.j, min(figure.j + 4, len(words)))
    )


def _joins_work(ctx: Context, k: int, right: int) -> bool:
    """Whether "and" joins two works ("laying out and cutting rafters"): no figure of its own follows."""
    words = ctx.line.words
    if k + 1 < right and words[k + 1] in ing_forms():
        return not any(k < i < right and f.kind == "hours" for i, f in ctx.line.figures.items())
    if k + 1 < right and words[k + 1] in past_forms():
        return False
    return (
        k + 1 < right
        and not any(k < i < right for i in ctx.line.figures)
        and not any(w in words_of("copulas") for w in words[k:right])
    )


def _day(ctx: Context, left: int, end: int) -> date | None:
    """The day before this one that the hours were said of: "yesterday", "friday"."""
    if "yesterday" in ctx.line.words[left:end]:
        return ctx.today - timedelta(1)
    due = next((d for d in ctx.dues if left <= d.i < end and d.weekday), None)
    if due is None:
        return None
    return ctx.today - timedelta((ctx.today.weekday() - due.day.weekday()) % 7 or 7)


_SAME = frozenset({"same", "on", "the", "in", "at", "job", "thing", "again", "that", "and", "work"})
_TAIL = frozenset(
    {
        "in",
        "over",
        "there",
        "here",
        "from",
        "back",
        "on",
        "at",
        "for",
        "of",
        "with",
        "to",
        "and",
        "less",
        "minus",
        "took",
    }
)


def _work(ctx: Context, kept: list[int]) -> str | None:
    words = list(kept)
    text = ctx.line.words
    while words and text[words[0]] in words_of("hours_lead"):
        words.pop(0)
    while words and text[words[-1]] in (words_of("hours_lead") - {"up", "work", "time", "it"}) | _TAIL:
        words.pop()
    out: list[str] = []
    for k in words:
        if k in ctx.labels:
            out.append(ctx.labels[k][1])
        elif not any(a < k < b for a, (b, _) in ctx.labels.items()):
            out.append(text[k])
    return joined(out) or None


def _before(ctx: Context, left: int, i: int) -> tuple[str | None, PlaceWord | None]:
    """The work named before the hours: "hewing on the harbour wall … four hours", "chinking's done, took eleven hours"."""
    words = ctx.line.words
    places = [p for k, p in sorted(ctx.line.places.items()) if left <= k < i]
    place = places[-1] if places else None
    for start in range(left, i):
        past = words[start] in past_forms() and words[start] not in words_of("no_activity_past")
        if not names_work(words[start]) and not past and words[start] not in words_of("work_nouns"):
            continue
        kept = []
        k = start
        compound = start - 1 == left and words[left] not in function_words() and left not in ctx.line.places
        if left <= start - 1 and (f"{words[start - 1]} {words[start]}" in ing_forms() or compound):
            kept = [start - 1]
        while (
            k < i
            and words[k] not in ("from", "for", "so", "took", "and", "then", "is", "'s", "that", "was")
            and ctx.line.figure_over(k) is None
        ):
            if k in ctx.line.places:
                k = ctx.line.places[k].j
                continue
            kept.append(k)
            k += 1
        return _work(ctx, kept), place
    done = [fact for fact in ctx.facts if isinstance(fact, Task) and fact.status == "done"]
    if len(done) > 1 and words_of("for_all_of_it_told") & set(words[i + 1 : i + 8]) and done == ctx.facts[-len(done) :]:
        return " and ".join(_without_place(one.do, one.place) for one in done), place
    return (_without_place(done[-1].do, done[-1].place) if done else None), place


def _without_place(do: str, place: str | None) -> str:
    """The work of a done task less the name of its place ("spire flashing" on the spire)."""
    if place and f" {place} " in f" {do.replace('the ', '')} ":
        return f" {do.replace('the ', '')} ".replace(f" {place} ", " ").strip()
    return do
