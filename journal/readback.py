"""What the journal wrote down, said back in words: ``lake gable, centre board, long point, fifty six and seven eighths``.

The commas are where a voice stops for breath. What is said here the extractor reads to the same fact.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from functools import cache

from journal.extract.vocabulary import past_forms
from journal.lengths import FOOT
from journal.records import Cost, Fact, Hours, Measure, Reading, Slope, Stock, Task, said
from journal.saying import (
    amount_words,
    day_words,
    length_words,
    money_words,
    name_words,
    plural_words,
    weekday_name,
)
from journal.speech.spoken_form import number_words

Reads = Callable[[str], Sequence[Fact]]


def read_back(facts: Iterable[Fact], said_on: date, reads: Reads | None = None) -> list[str]:
    """A sentence for each fact; the two figures of a size go in one. `said_on` is the day that "friday" is told from.

    With `reads`, what the extractor makes of a sentence, each fact is said in the first way that is read to the same fact.
    """
    sentences: list[str] = []
    left = list(facts)
    while left:
        together = left[: told_together(left)]
        del left[: len(together)]
        ways = list(ways_to_say_together(together, said_on))
        meant = [said(fact) for fact in together]
        clear = (way for way in ways if reads and [said(fact) for fact in reads(way)] == meant)
        sentences.append(next(clear, ways[0]))
    return sentences


def ways_to_say_together(together: Sequence[Fact], said_on: date) -> Iterator[str]:
    """The sentences for one fact, or for the figures of one size."""
    if len(together) == 1:
        yield from ways_to_say(together[0], said_on)
        return
    first = together[0]
    assert isinstance(first, Measure)
    figures = " by ".join(figure_words(fact) for fact in together)
    yield from _placed(first.place, [name_words(first.about or ""), figures])


def ways_to_say(fact: Fact, said_on: date, *, figure: str | None = None) -> Iterator[str]:
    """A fact as a sentence without a full stop, the plainest first; `figure` is said in place of its own."""
    for parts in _parts(fact, said_on, figure_words(fact) if figure is None else figure):
        yield from _placed(fact.place, parts)


def _placed(place: str | None, parts: Sequence[str]) -> Iterator[str]:
    told = [part for part in parts if part]
    if not place:
        yield ", ".join(told)
        return
    name = name_words(place)
    yield ", ".join([name, *told])
    yield ", ".join([" ".join(told), f"on the {name}"])
    yield ", ".join([" ".join(told), f"on {name}"])
    yield ", ".join([" ".join(told), f"in the {name}"])
    yield f"on the {name} the {' '.join(told)}"
    yield f"{name}, {' '.join(told)}"


def figure_words(fact: Fact) -> str:
    """The figure of a fact alone, "" where it has none."""
    match fact:
        case Measure():
            return _shaded(fact, length_words(fact.ticks, fact.metric))
        case Slope():
            return f"{amount_words(fact.rise)} in {amount_words(fact.run)}"
        case Stock():
            return "" if fact.count is None else amount_words(fact.count)
        case Reading():
            return f"{amount_words(fact.value)} {_reading_unit(fact)}"
        case Hours():
            return f"{_hours(fact.hours)}"
        case Cost():
            return money_words(fact.amount)
    return ""


def _parts(fact: Fact, said_on: date, figure: str) -> Iterator[list[str]]:
    """The ways to say a fact, in parts without its place."""
    match fact:
        case Measure():
            yield from _measure(fact, figure)
        case Slope():
            yield [name_words(fact.about or ""), f"slope {figure}"]
        case Task():
            yield from _task(fact, said_on)
        case Stock():
            yield from _stock(fact, figure)
        case Reading():
            yield [name_words(fact.about or ""), f"{fact.quantity} {figure}"]
        case Hours():
            day = _worked_on(fact.on, said_on) if fact.on else ""
            yield [f"{figure} {fact.activity or ''}".strip(), day]
            yield [day, f"{figure} {fact.activity or ''}".strip()]
            yield [f"spent {figure} to {fact.activity or 'work'}", day]
            yield [f"{fact.activity} took {figure}" if fact.activity else figure, day]
        case Cost():
            yield [f"{name_words(fact.what or '')} {figure}{_rate(fact)}".strip()]
            yield [f"{name_words(fact.what or 'it')} came to {figure}{_rate(fact)}"]
            yield [f"paid {figure}{_rate(fact)} for {name_words(fact.what or 'it')}"]


def _worked_on(day: date, said_on: date) -> str:
    """A day that work was done on: a weekday is the last one."""
    if 1 < (said_on - day).days < 7:
        return f"on {weekday_name(day)}"
    name = day_words(day, said_on)
    return name if name in ("yesterday", "today") else f"on {name}"


def _measure(fact: Measure, figure: str) -> Iterator[list[str]]:
    about = name_words(fact.about or "")
    dimension = "" if fact.dimension == "other" else fact.dimension
    if fact.over_ticks is not None:
        figure = f"{figure} over {_run(fact.over_ticks)}"
    if dimension == "offset":  # said by what it runs between
        yield [f"{about} {figure}"]
        yield [f"from {about} {figure}"]
    yield [about, dimension, figure]
    if dimension == "spacing":
        yield [f"{about} are {figure} on center"]
    yield [f"{about} {dimension} is {figure}"]
    yield [f"{dimension} of the {about} is {figure}"]


def _run(ticks: int) -> str:
    feet, over = divmod(ticks, FOOT)
    return length_words(ticks) if over or not feet else f"{number_words(feet)} foot"


def _shaded(fact: Measure, said: str) -> str:
    if fact.shade:
        said = f"{'strong' if fact.shade == 'strong' else 'shy'} {said}"
    return f"about {said}" if fact.approx else said


def _task(fact: Task, said_on: date) -> Iterator[list[str]]:
    due = f"by {day_words(fact.due, said_on)}" if fact.due else ""
    after = f"once {fact.after}" if fact.after else ""
    before = f"before {fact.before}" if fact.before else ""
    if fact.status == "done":
        verb, _, rest = fact.do.partition(" ")
        if past := _past_of().get(verb):
            yield [f"{past} {rest}".strip(), due, after, before]
            yield [f"we {past} {rest}".strip(), due, after, before]
            yield [f"{rest} is {past}", due, after, before]
        yield [f"{fact.do} is done", due, after, before]
        return
    yield [fact.do, due, after, before]
    yield [f"need to {fact.do}", due, after, before]
    yield [f"still have to {fact.do}", due, after, before]


@cache
def _past_of() -> dict[str, str]:
    """Each verb's past form."""
    return {bare: form for form, bare in reversed(past_forms().items())}


def _stock(fact: Stock, figure: str) -> Iterator[list[str]]:
    feet = f"{amount_words(fact.board_feet)} board feet of" if fact.board_feet is not None else ""
    length = f"at {length_words(fact.length_ticks)}" if fact.length_ticks is not None else ""
    section, species = name_words(fact.section or ""), name_words(fact.species or "")
    if section and not fact.what and fact.count not in (None, 1):
        section = plural_words(section)
    if fact.count == 0.5:
        figure = "half a"
    for what in dict.fromkeys((_several(fact), name_words(fact.what or ""))):
        lot = " ".join(part for part in (figure, feet, section, species, what) if part)
        if fact.event == "left over":
            yield [f"{lot} {length}".strip() + " left over"]
        else:
            yield [f"{fact.event} {lot}", length]


def _several(fact: Stock) -> str:
    """What is counted, in the plural where there are several: ``boards``, ``rolls of felt``, ``four by fours``."""
    name = name_words(fact.what or "")
    if fact.count is None or fact.count == 1:
        return name
    head, of, rest = name.partition(" of ")
    return plural_words(head) + of + rest if head else ""


def _reading_unit(fact: Reading) -> str:
    return {"%": "percent", "F": "degrees", "C": "degrees celsius"}[fact.unit]


def _hours(hours: float) -> str:
    minutes = round(hours * 60)
    if minutes % 15 == 0:
        return f"{amount_words(hours)} hours"
    whole, rest = divmod(minutes, 60)
    return (f"{amount_words(whole)} hours " if whole else "") + f"{amount_words(rest)} minutes"


def _rate(fact: Cost) -> str:
    if fact.per == "total":
        return ""
    return " each" if fact.per == "each" else f" a {fact.per}"


def told_together(facts: Sequence[Fact]) -> int:
    """How many of the first facts are the figures of one size."""
    first = facts[0]
    if not isinstance(first, Measure) or first.dimension != "size":
        return 1
    count = 0
    for fact in facts[:3]:
        if (
            not isinstance(fact, Measure)
            or fact.dimension != "size"
            or (fact.place, fact.about) != (first.place, first.about)
        ):
            break
        count += 1
    return count
