"""How many courses stand: "nine is the top log", "the top course is eleven", "wall a is nine courses"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.found import Found, place_near
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.grammar import table
from journal.records import Aside


@cache
def _top_phrases() -> Phrases[str]:
    return Phrases.of(table("asides")["courses"]["top"], "top")


_COURSES = frozenset({"courses", "rounds"})


@cache
def _beginnings() -> frozenset[str]:
    """Words at which a number of courses is looked for."""
    return _top_phrases().first_words() | _COURSES


def find_courses(line: Line) -> list[Found]:
    """ "Nine is the top log", "the top course is eleven", "wall a is nine courses"."""
    words, top, beginnings = line.words, _top_phrases(), _beginnings()
    for k, word in enumerate(words):
        if word not in beginnings:
            continue
        found = top.at(words, k)
        if found is not None:
            number = _whole_before(line, k) or _whole_after(line, found[1])
            if number is None:
                continue
            i, j = min(number[1], k), max(number[2], found[1])
            if i > 0 and words[i - 1] in ("course", "log", "number"):
                i -= 1
            aside = Aside(
                topic="courses",
                text=" ".join(words[k : found[1]]),
                place=place_near(line, k),
                value=number[0],
                evidence=line.span(i, j),
                rule="aside.courses",
            )
            return [Found(aside, i, j)]
        if (
            word in _COURSES
            and k
            and (figure := line.figure_over(k - 1)) is not None
            and figure.kind == "number"
            and figure.value.denominator == 1
        ):
            following = words[k + 1] if k + 1 < len(words) else ""
            if following in (
                "high",
                "of",
                "in",
                "",
                "up",
                "and",
                "tall",
                "on",
                "altogether",
                "total",
            ) and not _event_before(words, figure.i):
                aside = Aside(
                    topic="courses",
                    text=word,
                    place=place_near(line, k),
                    value=float(figure.value),
                    evidence=line.span(figure.i, k + 1),
                    rule="aside.courses",
                )
                end = k + 1 + (following in ("high", "tall", "up"))
                if words[end : end + 2] == ["of", "logs"]:
                    end += 2
                return [Found(aside, figure.i, end)]
    return []


def _event_before(words: Sequence[str], i: int) -> bool:
    return any(
        word in ("used", "need", "laid", "received", "ordered", "cut", "hours", "did")
        for word in words[max(0, i - 3) : i]
    )


def _whole_before(line: Line, k: int) -> tuple[float, int, int] | None:
    """ "Nine is the": the number, and its words."""
    m = k
    while m > 0 and line.words[m - 1] in ("the", "is", "'s", "our"):
        m -= 1
    if m == k or m == 0 or not any(word in ("is", "'s") for word in line.words[m:k]):
        return None
    for start, (end, label) in line.labels.items():
        if end == m and label.isdigit():
            return float(label), start, m
    figure = line.figure_over(m - 1)
    if figure is None or figure.kind != "number" or figure.value.denominator != 1:
        return None
    return float(figure.value), figure.i, m


def _whole_after(line: Line, j: int) -> tuple[float, int, int] | None:
    """ "Is number nine": the number, and its words."""
    m = j
    while m < len(line.words) and line.words[m] in ("is", "'s", "number", "course", "log"):
        m += 1
    if m == j or m >= len(line.words):
        return None
    if m in line.labels and line.labels[m][1].isdigit():
        return float(line.labels[m][1]), j, line.labels[m][0]
    figure = line.figures.get(m)
    if figure is None or figure.kind != "number" or figure.value.denominator != 1:
        return None
    following = line.words[figure.j] if figure.j < len(line.words) else ""
    return (
        (float(figure.value), j, figure.j)
        if following not in ("wide", "high", "long", "thick", "deep", "by", "in")
        else None
    )
