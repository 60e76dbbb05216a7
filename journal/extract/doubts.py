"""Why a figure may be wrong: out of range, a jump from the figure on file, words that were barely heard, readings that differ.

Nothing is changed or left out here; every doubt stays with its fact.
"""

from __future__ import annotations

from collections import ChainMap
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any

from journal.extract.context import Context
from journal.extract.figures import find_figures
from journal.extract.fillers import without_fillers
from journal.extract.labels import find_labels
from journal.extract.line import Line
from journal.extract.tokens import Token, tokenise
from journal.extract.twins import Slot, askew, twin
from journal.extract.unitwords import inches_text
from journal.grammar import table
from journal.lengths import INCH, format_length
from journal.records import Cost, Doubt, Fact, Hours, Known, Measure, Reading, Slope, Span, Stock, Word

_LOW = 0.5


@cache
def _ranges() -> dict[str, list[dict[str, Any]]]:
    """The ranges of each dimension, the first that fits to be taken; "least" and "most" are inches."""
    by_dimension: dict[str, list[dict[str, Any]]] = {}
    for entry in table("ranges")["range"]:
        limits = {key: Fraction(str(entry[key])) for key in ("least", "most")}
        by_dimension.setdefault(entry["dimension"], []).append(entry | limits)
    return by_dimension


def doubted(
    ctx: Context,
    text: str,
    tokens: list[Token],
    *,
    words: Sequence[Word],
    readings: Sequence[str],
    heard: Sequence[Doubt],
) -> tuple[list[Fact], list[Doubt]]:
    """The facts with every doubt that touches them, and the doubts that touch none."""
    loose = [*heard, *_low_words(tokens, words), *_other_readings(text, readings), *ctx.doubts]
    facts: list[Fact] = []
    said: dict[Slot, int] = {}
    on_file = ctx.known.figures or {}
    for fact in ctx.facts:
        own = [doubt for doubt in loose if _touches(doubt.span, fact.evidence)]
        own += _of_fact(fact, ctx.known)
        if isinstance(fact, Measure):
            own += [*twin(fact, ChainMap(said, on_file)), *askew(fact, ctx.facts, on_file), *_said_twice(fact, said)]
            said[(fact.place, fact.about, fact.dimension)] = fact.ticks
        facts.append(replace(fact, doubts=tuple(dict.fromkeys((*fact.doubts, *own)))) if own else fact)
    carried = {id(d) for d in loose for f in facts if _touches(d.span, f.evidence)}
    return facts, [doubt for doubt in loose if id(doubt) not in carried]


def _touches(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def _of_fact(fact: Fact, known: Known) -> list[Doubt]:
    if isinstance(fact, Measure):
        return [*_below_nothing(fact), *_range(fact), *_jump(fact, known)]
    if isinstance(fact, Slope):
        return _below_nothing(fact)
    values = table("ranges")["values"]
    if isinstance(fact, Reading):
        low, high = values[fact.quantity]
        value = fact.value * 9 / 5 + 32 if fact.unit == "C" else fact.value
        if not low <= value <= high:
            sort = (
                "wet, beyond what a meter tells"
                if fact.quantity == "moisture" and value > high
                else f"outside {low} to {high}"
            )
            return [
                Doubt(
                    "range",
                    f"{fact.quantity} {fact.value:g}{'' if fact.unit == '%' else ' '}{fact.unit} is {sort}",
                    fact.evidence,
                )
            ]
    if isinstance(fact, Hours):
        low, high = values["hours"]
        if not low <= fact.hours <= high:
            return [Doubt("range", f"{fact.hours:g} hours in one memo is unusual", fact.evidence)]
    if isinstance(fact, Cost):
        before = (known.prices or {}).get((fact.what, fact.per))
        if before and not before / values["price"] <= fact.amount <= before * values["price"]:
            return [
                Doubt(
                    "jump",
                    f"{fact.amount:g} a {fact.per} for {fact.what}: it was {before:g}",
                    fact.evidence,
                    (f"{before:g}",),
                )
            ]
    if isinstance(fact, Stock) and fact.length_ticks is not None and fact.length_ticks > 40 * 12 * INCH:
        return [
            Doubt("range", f"{format_length(fact.length_ticks)} is long for one {fact.what or 'piece'}", fact.evidence)
        ]
    return []


def _below_nothing(fact: Measure | Slope) -> list[Doubt]:
    """A size said with "minus" is taken without it: nothing measures less than nothing."""
    word = next((word for word in (fact.about or "").split() if word in ("minus", "negative")), None)
    if word is None:
        return []
    return [
        Doubt("range", f"'{word}' was said with it: no size is below nothing. Say it again", fact.evidence, level=3)
    ]


def _range(fact: Measure) -> list[Doubt]:
    for entry in _ranges().get(fact.dimension, ()):
        place, about = entry.get("place"), entry.get("about")
        if place and not any(word in (fact.place or "").split() for word in place):
            continue
        if entry.get("bare") and fact.about:
            continue
        if about and not any(f" {name} " in f" {fact.about or ''} " for name in about):
            continue
        inches = Fraction(fact.ticks, INCH)
        if entry["least"] <= inches <= entry["most"]:
            return []
        shown = f"{format_length(fact.ticks)} is unusual for {entry['of']}"
        return [Doubt("range", shown, fact.evidence, _twins(inches, entry))]
    return []


def _twins(inches: Fraction, entry: dict[str, Any]) -> tuple[str, ...]:
    """Figures that sound like this one and would be in range: 7 for 11, 15 for 50."""
    low, high = entry["least"], entry["most"]
    whole, part = divmod(inches, 1)
    swaps = (
        {7: 11, 11: 7, 9: 5, 5: 9} | {n: n % 10 * 10 for n in range(13, 20)} | {n * 10: n + 10 for n in range(3, 10)}
    )
    other = swaps.get(int(whole))
    return (inches_text(other + part),) if other is not None and low <= other + part <= high else ()


def _jump(fact: Measure, known: Known) -> list[Doubt]:
    """A figure far from the one on file: more than a tenth of it, and more than an inch."""
    before = (known.figures or {}).get((fact.place, fact.about, fact.dimension))
    if before is None or before == fact.ticks or abs(before - fact.ticks) <= max(INCH, before // 10):
        return []
    said = format_length(fact.ticks, "metric") if fact.metric else format_length(fact.ticks)
    shown = f"{said}: the figure on file is {format_length(before)}"
    return [Doubt("jump", shown, fact.evidence, (format_length(before),))]


# What a thing has several of, so that a second figure is no second saying.
_SEVERAL = frozenset({"size", "diagonal", "gap", "spacing", "offset", "centre", "reveal", "other"})


def _said_twice(fact: Measure, said: Mapping[Slot, int]) -> list[Doubt]:
    """A thing has one length: where a memo gives two and takes neither back, the later one is asked about."""
    before = said.get((fact.place, fact.about, fact.dimension))
    if fact.doubts:  # asked about already
        return []
    if before is None or before == fact.ticks or fact.dimension in _SEVERAL or fact.dimension.startswith("out of"):
        return []
    shown = f"{fact.dimension} said twice: {format_length(before)} and {format_length(fact.ticks)}"
    return [Doubt("twice", shown, fact.evidence, (format_length(before),))]


def _low_words(tokens: list[Token], words: Sequence[Word]) -> list[Doubt]:
    """A doubt for each word that the engine was unsure of; words and tokens run side by side."""
    out: list[Doubt] = []
    at = 0
    for word in words:
        parts = tokenise(word.word)
        span = tokens[at : at + len(parts)]
        at += len(parts)
        if word.confidence is not None and word.confidence < _LOW and span:
            shown = f"'{word.word}' was heard with little confidence ({word.confidence:.2f})"
            out.append(Doubt("heard", shown, Span(span[0].start, span[-1].end)))
    return out


def _other_readings(text: str, readings: Sequence[str]) -> list[Doubt]:
    """A doubt for each figure that a next-best reading has otherwise, where both have as many figures."""
    if not readings:
        return []
    mine = _spoken_figures(text)
    out: list[Doubt] = []
    for reading in readings:
        theirs = _spoken_figures(reading)
        if len(theirs) != len(mine):
            continue
        for (value, said, span), (other, other_said, _) in zip(mine, theirs, strict=True):
            if value != other:
                out.append(Doubt("readings", f"'{said}' may have been '{other_said}'", span, (other_said,)))
    return list(dict.fromkeys(out))


def _spoken_figures(text: str) -> list[tuple[Fraction, str, Span]]:
    tokens = without_fillers(tokenise(text))
    line = Line(tokens, [token.text for token in tokens])
    line.labels = find_labels(line.words)
    find_figures(line, frozenset(k for i, (j, _) in line.labels.items() for k in range(i, j)))
    return [(f.value, line.said(f.i, f.j), line.span(f.i, f.j)) for _, f in sorted(line.figures.items())]
