"""A fact with another figure, as the figure is said alone: "thirty" after "thirteen foot" is thirty foot, or thirty inches.

Pure. What a spoken figure does to a fact is read by the extractor, from the sentence that would have said it so.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from functools import cache

from journal.extract import extract
from journal.extract.unitwords import units
from journal.grammar import table
from journal.readback import figure_words, ways_to_say
from journal.records import Cost, Fact, Hours, Measure, Reading, Slope, Stock, said_fields
from journal.saying import length_words
from journal.speech.words import figure_words as number_words

FIGURES: dict[type[Fact], tuple[frozenset[str], ...]] = {
    Measure: (frozenset({"ticks", "metric", "approx", "shade"}),),
    Slope: (frozenset({"rise", "run"}),),
    Stock: (frozenset({"count"}), frozenset({"length_ticks"}), frozenset({"board_feet"})),
    Reading: (frozenset({"value", "unit"}),),
    Hours: (frozenset({"hours"}),),
    Cost: (frozenset({"amount"}),),
}
"""The fields that make up each figure of a fact."""
NEAR = 0.1
"""Two figures of one thing are near each other up to this part of the first."""
_MARKS = re.compile(r"[^a-z0-9' ]")


# ---- words ---------------------------------------------------------------------------------------------------------


@cache
def phrases(name: str) -> frozenset[str]:
    """A list of `grammars/talk.toml`."""
    return frozenset(table("talk")[name])


def bare(text: str) -> str:
    """The words without marks and hesitations, and without what is polite at either end."""
    words = [word for word in _MARKS.sub(" ", text.lower()).split() if word not in phrases("hesitations")]
    polite = phrases("polite")
    while len(words) > 1 and words[0] in polite:
        del words[0]
    while len(words) > 1 and words[-1] in polite:
        del words[-1]
    return " ".join(words)


def figure_alone(text: str) -> str | None:
    """The figure of bare words that hold nothing else: "no it's thirty inches" is "thirty inches"."""
    words = text.split()
    for lead in (phrases("no") | phrases("yes"), phrases("around")):
        words = _without_lead(words, lead)
    if "not" in words:  # "thirty not thirteen"
        words = words[: words.index("not")]
    if any(word not in _figure_words() for word in words) or not any(word in number_words() for word in words):
        return None
    return " ".join(words)


def _without_lead(words: list[str], lead: frozenset[str]) -> list[str]:
    for size in range(min(5, len(words) - 1), 0, -1):
        if " ".join(words[:size]) in lead:
            return words[size:]
    return words


@cache
def _figure_words() -> frozenset[str]:
    spoken = table("spoken_form")
    shades = {word for names in table("figures")["shades"].values() for name in names for word in name.split()}
    joints = {
        "and",
        "a",
        "an",
        "point",
        "by",
        "in",
        "even",
        "about",
        "minus",
        "cent",
        "cents",
        *spoken["money"]["cent"],
    }
    return number_words() | shades | joints | _unit_words()


@cache
def _unit_words() -> frozenset[str]:
    own = {"percent", "degrees", "celsius", "fahrenheit", "hours", "hour", "minutes", "dollars", "dollar"}
    return frozenset(own | {word for name in units() for word in name.split()} - {"a", "an", "in"})


def figure_runs(text: str) -> list[str]:
    """The figures of a text, each with its units and as long as it goes on: "ten foot eight", "thirty by forty two"."""
    runs: list[list[str]] = [[]]
    for word in text.split():
        if word in _figure_words():
            runs[-1].append(word)
        elif runs[-1]:
            runs.append([])
    for run in runs:
        while run and run[0] not in number_words():
            del run[0]
        while run and run[-1] not in number_words() | _unit_words():
            del run[-1]
    return [" ".join(run) for run in runs if run]


def plain(figure: str) -> str:
    """A figure without its unit: "thirteen foot even" and "thirteen" are the same words."""
    head = re.sub(r" in (?:\w+)$", "", figure) if re.fullmatch(r"[\w ]+ in \w+", figure) else figure
    return " ".join(word for word in head.split() if word not in _unit_words() | {"even", "about"})


def has_unit(figure: str) -> bool:
    """Whether the figure names its unit."""
    return any(word in _unit_words() for word in figure.split()) or " in " in figure


# ---- figures -------------------------------------------------------------------------------------------------------


def with_figure(fact: Fact, figure: str, said_at: datetime) -> list[Fact]:
    """The fact with a figure as it was said, in every unit that it can mean; none where it fits none.

    Without a unit it is in the fact's own; after feet it may be inches as well.
    """
    if type(fact) not in FIGURES:
        return []
    if isinstance(fact, Stock) and has_unit(figure):
        return _with_length(fact, figure, said_at)
    own = [word for word in figure_words(fact).split() if word in _unit_words()]
    meant = [figure]
    if not has_unit(figure) and not isinstance(fact, Cost):
        if isinstance(fact, Slope):
            meant = [figure, f"{figure} in twelve"]
        elif "foot" in own:
            meant = [f"{figure} foot", f"{figure} inches"]
        elif own:
            meant = [f"{figure} {' '.join(own)}"]
    return [read for one in meant if (read := _read(fact, one, said_at)) is not None]


def _read(fact: Fact, figure: str, said_at: datetime) -> Fact | None:
    for way in ways_to_say(fact, said_at.date(), figure=figure):
        read = extract(way, said_at).facts
        if len(read) == 1 and same_but_figure(fact, read[0]):
            return read[0]
    return None


def _with_length(fact: Stock, figure: str, said_at: datetime) -> list[Fact]:
    read = extract(f"wall a, length, {figure}", said_at).facts
    if fact.length_ticks is None or len(read) != 1 or not isinstance(read[0], Measure):
        return []
    return [replace(fact, length_ticks=read[0].ticks, doubts=read[0].doubts)]


def changes(fact: Fact, other: Fact) -> set[str]:
    """What differs between two facts of a kind; the parts of a figure count as one."""
    names = {name for name in said_fields(fact.kind) if getattr(fact, name) != getattr(other, name)}
    for figure in FIGURES.get(type(fact), ()):
        if names & figure:
            names = names - figure | {min(figure)}
    return names


def same_but_figure(fact: Fact, other: Fact) -> bool:
    """Whether two facts say the same but for their figures."""
    if fact.kind != other.kind:
        return False
    return changes(fact, other) <= {min(figure) for figure in FIGURES.get(type(fact), ())}


def apart(fact: Fact, other: Fact) -> float:
    """How far the figure of the second is from that of the first, as a part of the first."""
    one, two = _value(fact), _value(other)
    if isinstance(fact, Stock) and isinstance(other, Stock) and fact.count == other.count:
        one, two = float(fact.length_ticks or 0), float(other.length_ticks or 0)
    return abs(two - one) / max(abs(one), 1e-9)


def _value(fact: Fact) -> float:
    match fact:
        case Measure():
            return float(fact.ticks)
        case Slope():
            return fact.rise / fact.run
        case Stock():
            return float(fact.count or 0)
        case Reading():
            return fact.value
        case Hours():
            return fact.hours
        case Cost():
            return fact.amount
    return 0.0


def figure_told(fact: Fact, others: Sequence[Fact]) -> str:
    """The figure that tells a fact from others like it, in words: of stock the length where that differs."""
    if isinstance(fact, Stock) and fact.length_ticks is not None:
        lengths = {other.length_ticks for other in others if isinstance(other, Stock)}
        if len(lengths) > 1:
            return length_words(fact.length_ticks)
    return figure_words(fact)
