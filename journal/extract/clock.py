"""Hours and minutes as they are said, and times of day."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from journal.extract import numbers
from journal.extract.line import Figure, Line
from journal.extract.sets import words_of
from journal.extract.unitwords import units, word_at
from journal.records import Doubt

TILL = ("till", "until", "to", "til", "through")
_PAST = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}


def clock_at(words: Sequence[str], i: int) -> int | None:
    """The index after "from seven till ten" at word `i`, or None."""
    start = time_at(words, i + 1) if words[i] == "from" else None
    if start is None or words[start[1] : start[1] + 1] not in [[till] for till in TILL]:
        return None
    end = time_at(words, start[1] + 1)
    return end[1] if end is not None else None


def time_at(words: Sequence[str], i: int) -> tuple[Fraction, int] | None:
    """A time of day as hours on the clock face, and the index after it."""
    i += list(words[i : i + 2]) in (["a", "quarter"], ["about", "half"])
    word = words[i] if i < len(words) else ""
    if word in ("noon", "midday", "lunch", "lunchtime", "midnight"):
        return Fraction(12), i + 1
    if word in _PAST and words[i + 1 : i + 2] in (["past"], ["to"]):
        hour = numbers.below_hundred(words, i + 2)
        at_noon = words[i + 2 : i + 3] in (["noon"], ["midday"])
        if hour is None and not at_noon:
            return None
        struck, end = (hour[0], hour[1]) if hour is not None else (12, i + 3)
        return (struck + _PAST[word] if words[i + 1] == "past" else struck - _PAST[word]), end
    hour = numbers.below_hundred(words, i)
    if hour is None or not 1 <= hour[0] <= 12:
        return None
    minutes = numbers.below_hundred(words, hour[1])
    if minutes is not None and minutes[0] in (15, 30, 45):
        return hour[0] + Fraction(minutes[0], 60), minutes[1]
    end = hour[1]
    if words[end : end + 1] == ["o'clock"]:
        end += 1
    if words[end : end + 2] == ["and", "a"] and words[end + 2 : end + 3] == ["half"]:
        return hour[0] + Fraction(1, 2), end + 3
    return Fraction(hour[0]), end


def hours_figure(line: Line, i: int, j: int, value: Fraction) -> Figure:
    """Hours up to `j`, with the half hour or minutes said after them."""
    words = line.words
    if word_at(words, j) == "and":
        part = numbers.fraction(words, j + 1)
        if part and part.value < 1:
            end = part.end
            if words[end : end + 3] == ["of", "an", "hour"]:
                end += 3
            return Figure(i, end, "hours", value + part.value, "h", rule="figure.hours")
    k = j + (word_at(words, j) == "and")
    minutes = numbers.cardinal(words, k)
    if minutes and units().get(word_at(words, minutes[1])) == "min" and minutes[0] < 60:
        return Figure(i, minutes[1] + 1, "hours", value + Fraction(minutes[0], 60), "h", rule="figure.hours")
    if k == j and minutes and _bare_minutes(words, minutes[0], minutes[1]):
        length = value + Fraction(minutes[0], 60)
        shown = f"'{line.said(i, minutes[1])}' was read as {float(value):g} h {minutes[0]} min"
        doubt = Doubt("worked", shown, line.span(i, minutes[1]), level=1)
        return Figure(i, minutes[1], "hours", length, "h", doubts=[doubt], rule="figure.hours")
    return Figure(i, j, "hours", value, "h", rule="figure.hours")


def _bare_minutes(words: Sequence[str], minutes: int, end: int) -> bool:
    """ "An hour ten on the sill", "two hours twenty": minutes by themselves, no count of what comes next."""
    return minutes % 5 == 0 and 5 <= minutes <= 55 and word_at(words, end) in words_of("after_minutes") | {""}
