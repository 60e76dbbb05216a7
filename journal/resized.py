"""Which fact a figure said alone puts right, and what it is then: "fifty six and a quarter", "a quarter not a half".

Pure. Where two facts fit, both are given: who asks decides.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from journal.extract import extract
from journal.instead import Instead
from journal.lengths import INCH
from journal.readback import figure_words
from journal.records import Doubt, Fact, Filed, Measure, Span, Stock, said
from journal.refigured import NEAR, apart, figure_alone, has_unit, plain, with_figure
from journal.renamed import Change, Option, dimension_beside, dimension_meant, within
from journal.saying import length_words, name_words, plural_words

_Told = Sequence[Filed[Fact]]
_FRACTION_WORDS = 4
_IS = re.compile(r"^(?:and )?(?:the )?(?P<name>.+?) (?:is|was|are|should be) (?P<figure>.+)$")


def refigured(just_said: _Told, instead: Instead, said_at: datetime) -> list[Option]:
    """The facts whose figure these words can put right, each with it."""
    if both := _both_figures(just_said, instead, said_at):
        return [both]
    figure, meant = _of_dimension(just_said, instead.new)
    if figure is None:
        return []
    if instead.old is not None:
        return _in_place_of(meant, instead.old, figure, said_at)
    if is_fraction(figure, said_at):
        meant = [filed for filed in meant if isinstance(filed.fact, Measure) and filed.fact.ticks < INCH]
    return _nearest(meant, figure, said_at, soft=instead.soft)


def said_anew(just_said: _Told, words: str, said_at: datetime) -> list[Option]:
    """The one fact that "the width is thirty one" gives a figure near its own, doubted: it may be of something else."""
    found = _IS.match(words)
    figure = figure_alone(found["figure"]) if found else None
    if found is None or figure is None or is_fraction(figure, said_at):
        return []
    own = [
        filed
        for filed in just_said
        if isinstance(filed.fact, Measure) and filed.fact.about and _is_named(filed.fact, found["name"])
    ]
    near = [
        (filed, now)
        for filed in own
        for now in with_figure(filed.fact, figure, said_at)
        if said(now) != said(filed.fact) and apart(filed.fact, now) <= NEAR
    ]
    if len(near) != 1:
        return []
    ((filed, now),) = near
    shown = f"{figure_words(now)}: it was {figure_words(filed.fact)}, and it was not said that this puts it right"
    return [((filed, replace(now, doubts=(*now.doubts, Doubt("two-way", shown, Span(0, 0))))),)]


def _is_named(fact: Fact, name: str) -> bool:
    """Whether words name a fact's dimension, or the thing that it is about."""
    dimension = isinstance(fact, Measure) and dimension_meant(name, fact) == fact.dimension
    return dimension or within(name, getattr(fact, "about", None) or getattr(fact, "what", None))


def _of_dimension(just_said: _Told, words: str) -> tuple[str | None, _Told]:
    """The figure that the words hold and nothing else, and the facts that it may be of."""
    if figure := figure_alone(words):
        return figure, just_said
    for name, rest in dimension_beside(words):
        figure = figure_alone(rest)
        own = [
            filed
            for filed in just_said
            if isinstance(filed.fact, Measure) and dimension_meant(name, filed.fact) == filed.fact.dimension
        ]
        if figure and own and not figure.startswith("point "):
            return figure, own
    return _of_lot(just_said, words)


def _of_lot(just_said: _Told, words: str) -> tuple[str | None, _Told]:
    """A figure with what is counted behind it, and the lots of that: "three boxes"; or with "long", and those that are so long."""
    for filed in just_said:
        if isinstance(filed.fact, Stock):
            names = name_words(
                " ".join(filter(None, (filed.fact.section, filed.fact.species, filed.fact.what)))
            ).split()
            counted = {*names, *map(plural_words, names), *({"long"} if filed.fact.length_ticks is not None else ())}
            said_words = words.split()
            while len(said_words) > 1 and said_words[-1] in counted:
                del said_words[-1]
            if len(said_words) < len(words.split()) and (figure := figure_alone(" ".join(said_words))):
                return figure, [filed]
    return None, ()


def _both_figures(just_said: _Told, instead: Instead, said_at: datetime) -> Option:
    """The two figures of a thing, said anew together: "thirty six by eighty two"."""
    parts = [figure_alone(part) for part in instead.new.split(" by ")]
    facts = [filed for filed in just_said if isinstance(filed.fact, Measure) and filed.fact.dimension != "size"]
    if len(parts) != 2 or None in parts or len(facts) != 2 or len(just_said) != 2 or instead.old is not None:
        return ()
    anew = [_closest(filed.fact, part or "", said_at) for filed, part in zip(facts, parts, strict=True)]
    changed = [(filed, now) for filed, now in zip(facts, anew, strict=True) if now is not None]
    return tuple((f, now) for f, now in changed if said(now) != said(f.fact)) if len(changed) == 2 else ()


def _in_place_of(facts: _Told, old: str, figure: str, said_at: datetime) -> list[Option]:
    """The facts that have the figure, dimension or thing which the new figure is said to be instead of, or is of."""
    found: list[Change] = []
    for filed in facts:
        whole = _whole_figure(filed.fact, old, figure, said_at)
        if whole is not None and (now := _closest(filed.fact, whole, said_at)) is not None:
            found.append((filed, now))
    return [(change,) for change in found]


def _whole_figure(fact: Fact, old: str, figure: str, said_at: datetime) -> str | None:
    """The figure that is to stand in a fact, whole; None where the old words are nothing of it."""
    own, stood = figure_words(fact), figure_alone(old)
    if stood is None:
        return figure if _is_named(fact, old) else None
    if (
        isinstance(fact, Stock)
        and fact.length_ticks is not None
        and plain(stood) == plain(length_words(fact.length_ticks))
    ):
        unit = "foot" if "foot" in length_words(fact.length_ticks) else "inches"
        return figure if has_unit(figure) else f"{figure} {unit}"
    if plain(stood) == plain(own) or any(said(now) == said(fact) for now in with_figure(fact, stood, said_at)):
        return figure
    if is_fraction(stood, said_at) and own.endswith(f" {stood}"):
        before = re.sub(r" and(?: an?)?$", "", own.removesuffix(f" {stood}"))
        return f"{before} and {figure}" if is_fraction(figure, said_at) else figure
    return figure if plain(own).startswith(f"{plain(stood)} ") and not is_fraction(figure, said_at) else None


def _nearest(facts: _Told, figure: str, said_at: datetime, *, soft: bool) -> list[Option]:
    """The fact whose figure is nearest to this one, with this one; every one of them where no one stands out."""
    anew = [
        (apart(filed.fact, now), -count, filed, now)
        for count, filed in enumerate(facts)
        for now in with_figure(filed.fact, figure, said_at)
    ]
    anew = [one for one in anew if said(one[3]) != said(one[2].fact)]
    if not anew:
        return []
    far, _, filed, now = min(anew, key=lambda one: one[:2])
    feet_or_inches = not has_unit(figure) and sum(1 for one in anew if one[2] is filed) > 1
    if far > 2 * NEAR and feet_or_inches:
        return []
    nearest: dict[int, tuple[float, int, Filed[Fact], Fact]] = {}
    for one in sorted(anew, key=lambda one: one[:2]):
        nearest.setdefault(id(one[2]), one)
    close: list[Option] = [((one[2], one[3]),) for one in nearest.values() if one[0] <= max(NEAR, 3 * far)]
    if len(close) > 1:
        return close
    if feet_or_inches or (far > 2 * NEAR and (len(facts) > 1 or soft)):
        shown = f"{figure_words(now)}: it was {figure_words(filed.fact)}, and '{figure}' was all that was said"
        now = replace(now, doubts=(*now.doubts, Doubt("two-way", shown, Span(0, 0))))
    return [((filed, now),)]


def _closest(fact: Fact, figure: str, said_at: datetime) -> Fact | None:
    return min(with_figure(fact, figure, said_at), key=lambda now: apart(fact, now), default=None)


def is_fraction(figure: str, said_at: datetime) -> bool:
    """Whether a figure is a fraction only, which may belong to the inches that were said."""
    if len(figure.split()) > _FRACTION_WORDS or has_unit(figure):
        return False
    read = extract(f"wall a, length, {figure}", said_at).facts
    return len(read) == 1 and isinstance(read[0], Measure) and 0 < read[0].ticks < INCH
