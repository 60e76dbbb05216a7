"""Working time by the clock: "from seven till eleven" is four hours, "in at seven out at four" nine.

Where the hours are said as well, only those stay. Lunch is only taken off if said.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from journal.extract.clock import TILL, time_at
from journal.extract.durations import BREAK
from journal.extract.line import Figure, Line
from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.vocabulary import ing_forms
from journal.records import Doubt


class _Time(NamedTuple):
    """A time of day at words `i` to `j`, said with a word that begins or ends a shift at word `led`."""

    led: int
    i: int
    j: int
    hour: Fraction
    starts: bool


def find_shifts(line: Line) -> None:
    """Puts hours in the place of spans by the clock."""
    words = line.words
    bare = "till" in words or "until" in words or "til" in words
    noon = "noon" in words or "midday" in words or "lunch" in words
    if bare or noon or "from" in words or "worked" in words:
        _find_spans(line, bare or noon)
    if "at" in words and not words_of("shift_starts").isdisjoint(words):
        _find_in_and_out(line)


def _find_spans(line: Line, bare_spans: bool) -> None:
    """ "From seven till eleven", "worked eight to four thirty", "one till noon"."""
    words, past = line.words, 0
    for i, word in enumerate(words):
        if i < past:
            continue
        bare = word not in ("from", "worked") and bare_spans and _bare_span(line, i)
        if (word not in ("from", "worked") and not bare) or set(words[max(0, i - 4) : i]) & _OPENING:
            continue
        start = time_at(words, i if bare else i + 1)
        if start is None or word_at(words, start[1]) not in TILL:
            continue
        till = words[start[1]]
        if till == "to" and word != "worked" and not _is_time_after(words, start[1] + 1):
            continue
        end = time_at(words, start[1] + 1)
        if end is None or not (1 <= start[0] < 13 and 1 <= end[0] < 13):
            continue
        told = bare_spans or any(f.kind == "hours" for f in line.figures.values())
        if word == "from" and till in ("to", "through") and not told and end[1] in line.figures:
            continue
        _put_span(line, i, end[1], (end[0] - start[0]) % 12 or Fraction(12))
        past = end[1]


# "The yard's open eight till five" is nobody's work.
_OPENING = frozenset({"open", "opens", "closed", "closes", "shut", "shuts", "delivering"})


def _put_span(line: Line, i: int, j: int, length: Fraction) -> None:
    """Hours in the place of words `i` to `j`, less a break that was said, unless they are said anyway."""
    for k in [k for k, f in line.figures.items() if i <= k < j or k < i < f.j]:
        del line.figures[k]
    said = [f for f in line.figures.values() if f.kind == "hours" and f.rule != BREAK]
    if any(0 <= f.i - j < 6 or f.value == length for f in said):
        return
    rest = next((f for f in line.figures.values() if f.rule == BREAK and f.value < length), None)
    end = j
    if rest is not None:
        length -= rest.value
        if i < rest.i and all(word in words_of("before_lunch") for word in line.words[j : rest.i]):
            end = _after_break(line, rest)
            del line.figures[rest.i]
    shown = f"'{line.said(i, end)}' was read as {float(length):g} hours"
    worked_out = Doubt("worked", shown, line.span(i, end), level=1)
    line.figures[i] = Figure(i, end, "hours", length, "h", doubts=[worked_out], rule="hours.clock")


def _after_break(line: Line, rest: Figure) -> int:
    j = rest.j
    while word_at(line.words, j) in words_of("before_break"):
        j += 1
    return j + 1


def _bare_span(line: Line, i: int) -> bool:
    """Whether "seven till noon" begins at word `i`, with no figure before it that it is part of."""
    words = line.words
    start = time_at(words, i)
    if start is None or word_at(words, start[1]) not in TILL:
        return False
    if words[start[1]] in ("to", "through") and word_at(words, start[1] + 1) not in ("noon", "midday", "lunch"):
        end = time_at(words, start[1] + 1)
        going_on = any(f.rule == "hours.clock" for f in line.figures.values()) and word_at(words, i - 1) in (
            "then",
            "and",
        )
        if end is None or not going_on or not (word_at(words, end[1]) in ing_forms() or word_at(words, end[1]) == "on"):
            return False
    before = line.figures.get(i)
    return (before is None or before.kind in ("number", "length")) and (i == 0 or line.figure_over(i - 1) is None)


def _is_time_after(words: list[str], i: int) -> bool:
    time = time_at(words, i)
    return time is not None and word_at(words, time[1]) not in ("foot", "feet", "inches", "is", "'s")


def _find_in_and_out(line: Line) -> None:
    """ "In at seven out at four", "got to the mill at eight … knocked off at half past three"."""
    times = _times(line)
    if not any(one.starts for one in times) or not any(not one.starts for one in times):
        return
    told = any(f.kind == "hours" and f.rule != BREAK for f in line.figures.values())
    for one in times:
        line.figures.pop(one.i, None)
    if told:
        return
    start: _Time | None = None
    for one in times:
        if one.starts:
            start = start or one
        elif start is not None:
            work = any(word in ing_forms() for word in line.words[start.j : one.led])
            _put_span(line, one.led if work else start.led, one.j, (one.hour - start.hour) % 12 or Fraction(12))
            start = None


def _times(line: Line) -> list[_Time]:
    """The times of day that begin or end a shift."""
    words, found = line.words, list[_Time]()
    leads = words_of("shift_starts", "shift_ends")
    for k in range(1, len(words)):
        if words[k - 1] not in ("at", "by", "around", "about") and words[k - 1] not in ("started", "finished", "quit"):
            continue
        time = time_at(words, k)
        figure = line.figures.get(k)
        if time is None or (figure is not None and (figure.unit not in ("", "ft") or figure.j > time[1])):
            continue
        first = max(0, k - 6, found[-1].j if found else 0)
        led = next((m for m in range(k - 1, first - 1, -1) if words[m] in leads), None)
        if led is None:
            continue
        starts = words[led] in words_of("shift_starts")
        while led > first and words[led - 1] in leads | {"i", "we"}:
            led -= 1
            starts = words[led] in words_of("shift_starts") if words[led] in leads else starts
        if starts and led > 0 and words[led - 1] not in leads | words_of("before_shift"):
            continue
        found.append(_Time(led, k, time[1], time[0], starts))
    return found
