"""How words, facts and doubts look: a mark as well as a colour for each, so that nothing depends on colour. Pure.

``word?`` a shaky word, ``word!`` the end of a stretch that could not be used, underlined the evidence of the fact in hand;
before a fact ``?`` doubted, ``✓`` confirmed, ``!`` could not be used.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, datetime

from textual.content import Content

from journal.fields import describe
from journal.records import Doubt, Fact, Filed, Problem, Span, Word

SHAKY = 0.5
"""Words that the engine was less sure of than this are marked."""

_WORD = re.compile(r"\S+")
_EVIDENCE = "underline"
_DOUBT = "bold $text-warning"
_PROBLEM = "bold $text-error"
_QUIET = "$foreground 65%"


def marked_words(
    text: str,
    *,
    evidence: Span | None = None,
    doubts: Iterable[Doubt] = (),
    problems: Iterable[Problem] = (),
    words: Iterable[Word] = (),
) -> Content:
    """A memo's words with the evidence underlined, shaky stretches followed by ``?`` and unusable ones by ``!``."""
    spans = [match.span() for match in _WORD.finditer(text)]
    confidences = _confidences(text, spans, tuple(words))
    doubted = [doubt.span for doubt in doubts]
    unused = [problem.span for problem in problems]
    parts: list[tuple[str, str]] = []
    for index, (start, end) in enumerate(spans):
        here = Span(start, end)
        style, sign = "", ""
        confidence = confidences[index]
        if confidence is not None and confidence < SHAKY:
            style, sign = _DOUBT, "?"
        if any(_meet(here, span) for span in doubted):
            style = _DOUBT
            sign = "?" if sign or any(_is_last(here, span, text) for span in doubted) else ""
        if any(_meet(here, span) for span in unused):
            style = _PROBLEM
            sign = sign + ("!" if any(_is_last(here, span, text) for span in unused) else "")
        inside = evidence is not None and _meet(here, evidence)
        parts.append((text[start:end], f"{style} {_EVIDENCE}".strip() if inside else style))
        if sign:
            parts.append((sign, style))
        if index + 1 < len(spans):
            follows = evidence is not None and inside and _meet(Span(*spans[index + 1]), evidence)
            parts.append((text[end : spans[index + 1][0]], _EVIDENCE if follows else ""))
    return Content.assemble(*parts)


def fact_line(filed: Filed[Fact], *, place: str | None = None) -> Content:
    """A fact as a row of a list: its mark, number, place where it is not `place`, and what it says."""
    where = "" if filed.fact.place == place and place is not None else f"{filed.fact.place or 'no place'}: "
    mark, style = fact_mark(filed)
    parts: list[tuple[str, str]] = [
        (mark, style),
        (f" {filed.number} ", _QUIET),
        (where, ""),
        (describe(filed.fact), "bold"),
    ]
    if filed.was:
        parts.append((f"  was {describe(filed.was[0].fact)}", _QUIET))
    return Content.assemble(*parts)


def fact_mark(filed: Filed[Fact]) -> tuple[str, str]:
    """The mark before a fact with its style: doubted, confirmed or plain."""
    if is_doubtful(filed):
        return "?", _DOUBT
    return ("✓", "$text-success") if filed.confirmed else (" ", "")


def is_doubtful(filed: Filed[Fact]) -> bool:
    """Whether a fact still waits for somebody to look at it."""
    return bool(filed.fact.doubts) and not filed.confirmed


def problem_line(problem: Problem) -> Content:
    """What could not be used, as a row of a list."""
    hint = f"  {problem.hint}" if problem.hint else ""
    return Content.assemble(("!", _PROBLEM), (f" {problem.message}", ""), (hint, _QUIET))


def doubt_line(doubt: Doubt) -> Content:
    """A doubt as people read it, with the other readings."""
    other = f"  or: {', '.join(doubt.other)}" if doubt.other and not any(o in doubt.shown for o in doubt.other) else ""
    return Content.assemble(("?", _DOUBT), (f" {doubt.shown}", ""), (other, _QUIET))


def quiet(text: str) -> Content:
    """Text that stands back."""
    return Content.styled(text, _QUIET)


def day_name(day: date | datetime) -> str:
    """A day as it is shown: ``Tue 14 Jul 2026``."""
    return f"{day:%a} {day.day} {day:%b %Y}"


def word_time(text: str, words: Iterable[Word], span: Span) -> tuple[float, float] | None:
    """The seconds of the recording in which a stretch of the text was said; None where the word times are not known."""
    spans = [match.span() for match in _WORD.finditer(text)]
    heard = tuple(words)
    if len(heard) != len(spans):
        return None
    times = [
        (word.start, word.end)
        for word, here in zip(heard, spans, strict=True)
        if _meet(Span(*here), span) and word.start is not None and word.end is not None
    ]
    return (min(start for start, _ in times), max(end for _, end in times)) if times else None


def _confidences(text: str, spans: list[tuple[int, int]], words: tuple[Word, ...]) -> list[float | None]:
    if len(words) != len(spans):
        return [None] * len(spans)
    return [word.confidence for word in words]


def _meet(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def _is_last(word: Span, span: Span, text: str) -> bool:
    """Whether a word is the last of a stretch."""
    return _meet(word, span) and not _WORD.search(text, word.end, max(span.end, word.end))
