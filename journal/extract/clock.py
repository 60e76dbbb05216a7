"""Working time: hours and minutes, and by the clock ("from seven till eleven" is four). Lunch is only taken off if said."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from journal.extract import numbers
from journal.extract.line import Figure, Line
from journal.extract.sets import words_of
from journal.extract.unitwords import units, word_at
from journal.records import Doubt

_TILL = ("till", "until", "to", "til", "through")
_PAST = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}


def find_clock(line: Line) -> None:
    """Puts hours in the place of "from seven till eleven"; where the hours are said as well, only those stay."""
    words = line.words
    bare_spans = "till" in words or "until" in words or "til" in words
    if not bare_spans and "from" not in words and "worked" not in words:
        return
    for i, word in enumerate(words):
        bare = word not in ("from", "worked") and bare_spans and _bare_span(line, i)
        if (word not in ("from", "worked") and not bare) or set(words[max(0, i - 4) : i]) & _OPENING:
            continue
        start = _time(words, i if bare else i + 1)
        if start is None or start[1] >= len(words) or words[start[1]] not in (*_TILL, "and"):
            continue
        if words[start[1]] == "and" or (
            words[start[1]] == "to" and word != "worked" and not _is_time_after(words, start[1] + 1)
        ):
            continue
        end = _time(words, start[1] + 1)
        if end is None or not (1 <= start[0] <= 12 and 1 <= end[0] <= 12):
            continue
        if (
            word == "from"
            and words[start[1]] in ("to", "through")
            and not any(f.kind == "hours" for f in line.figures.values())
            and "till" not in words
            and "until" not in words
            and end[1] < len(words)
            and line.figures.get(end[1])
        ):
            continue
        length = (end[0] - start[0]) % 12 or Fraction(12)
        lunch, after = _lunch(line, end[1])
        if lunch and lunch < length:
            length -= lunch
            end = (end[0], after)
        for k in [k for k, f in line.figures.items() if i <= k < end[1] or k < i < f.j]:
            del line.figures[k]
        said = [f for f in line.figures.values() if f.kind == "hours"]
        if not any(0 <= f.i - end[1] < 6 or (f.j <= i and f.value == length) for f in said):
            shown = f"'{line.said(i, end[1])}' was read as {float(length):g} hours"
            worked_out = Doubt("worked", shown, line.span(i, end[1]), level=1)
            line.figures[i] = Figure(i, end[1], "hours", length, "h", doubts=[worked_out], rule="hours.clock")


# "The yard's open eight till five" is nobody's work.
_OPENING = frozenset({"open", "opens", "closed", "closes", "shut", "shuts", "delivering"})


def _bare_span(line: Line, i: int) -> bool:
    """Whether "seven till noon" begins at word `i`, with no figure before it that it is part of."""
    words = line.words
    start = _time(words, i)
    if start is None or word_at(words, start[1]) not in ("till", "until", "til"):
        return False
    before = line.figures.get(i)
    return (before is None or before.kind in ("number", "length")) and (i == 0 or line.figure_over(i - 1) is None)


def _lunch(line: Line, k: int) -> tuple[Fraction, int]:
    """The break said right after a span ("… with half an hour for lunch"), and the index after it."""
    words = line.words
    while word_at(words, k) in ("with", "less", "minus", "took", "and", "but", "a", "i", "we", "out", "taking"):
        if k in line.figures:
            break
        k += 1
    figure = line.figures.get(k)
    if figure is None or figure.kind != "hours" or figure.value > 2:
        return Fraction(0), k
    j = figure.j
    while word_at(words, j) in ("for", "off", "out", "the", "a", "my", "our", "long"):
        j += 1
    return (figure.value, j + 1) if word_at(words, j) in _BREAKS else (Fraction(0), k)


_BREAKS = ("lunch", "dinner", "break", "breakfast", "coffee", "breaks", "tea")


def clock_at(words: Sequence[str], i: int) -> int | None:
    """The index after "from seven till ten" at word `i`, or None."""
    start = _time(words, i + 1) if words[i] == "from" else None
    if start is None or words[start[1] : start[1] + 1] not in [[till] for till in _TILL]:
        return None
    end = _time(words, start[1] + 1)
    return end[1] if end is not None else None


def _is_time_after(words: Sequence[str], i: int) -> bool:
    time = _time(words, i)
    return time is not None and (time[1] >= len(words) or words[time[1]] not in ("foot", "feet", "inches", "is", "'s"))


def _time(words: Sequence[str], i: int) -> tuple[Fraction, int] | None:
    """A time of day as hours on the clock face, and the index after it."""
    i += list(words[i : i + 2]) in (["a", "quarter"], ["about", "half"])
    word = words[i] if i < len(words) else ""
    if word in ("noon", "midday", "lunch", "lunchtime", "midnight"):
        return Fraction(12), i + 1
    if word in _PAST and words[i + 1 : i + 2] in (["past"], ["to"]):
        hour = numbers.below_hundred(words, i + 2, units=True)
        at_noon = words[i + 2 : i + 3] in (["noon"], ["midday"])
        if hour is None and not at_noon:
            return None
        struck, end = (hour[0], hour[1]) if hour is not None else (12, i + 3)
        return (struck + _PAST[word] if words[i + 1] == "past" else struck - _PAST[word]), end
    hour = numbers.below_hundred(words, i, units=True)
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
