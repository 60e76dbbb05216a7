"""What stands beside a figure and belongs to it: hedges, shades, "less a sixteenth", "burned an inch", a unit said once."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from journal.extract import numbers
from journal.extract.line import Figure, Line
from journal.extract.unitwords import (
    METRIC,
    arithmetic,
    burned,
    counted_words,
    hedges,
    inches_text,
    shades,
    units,
    word_at,
)
from journal.extract.vocabulary import thing_words
from journal.records import Doubt, Shade

# A "light" before a figure is a shade after these, else a pane.
_BEFORE_LIGHT = (["a"], ["is"], ["'s"], ["are"], ["was"])


@cache
def _mark_words() -> tuple[frozenset[str], frozenset[str]]:
    """Words that can end what stands before a figure and belongs to it, and begin what stands after it."""
    before, after = hedges()
    after_words = after.first_words() | shades().first_words() | arithmetic().first_words() | burned().first_words()
    return before.last_words() | shades().last_words() | {"a", "an"}, after_words | {"but", "i", "and"}


def dress(line: Line, figure: Figure) -> None:
    """Takes in the hedges, shades and arithmetic that stand beside a figure."""
    words = line.words
    figure.words = (figure.i, figure.j)
    before, after = hedges()
    words_before, words_after = _mark_words()
    changed = True
    while changed and word_at(words, figure.i - 1) in words_before:
        changed = False
        hedge = before.ending_at(words, figure.i, 5)
        if hedge:
            figure.approx, figure.i, changed = True, hedge[1], True
            continue
        if figure.kind in ("length", "number"):
            start = figure.i - 1 if word_at(words, figure.i - 1) in ("a", "an") else figure.i
            shade = shades().ending_at(words, start, 4) or shades().ending_at(words, figure.i, 4)
            if shade and not (
                words[figure.i - 1] == "light" and words[figure.i - 2 : figure.i - 1] not in _BEFORE_LIGHT
            ):
                figure.shade, figure.i, changed = _as_shade(shade[0]), shade[1], True
                if word_at(words, figure.i - 1) in ("a", "an"):
                    figure.i -= 1
        if word_at(words, figure.i - 1) in ("a", "an") and figure.kind == "slope":
            figure.i -= 1
    if figure.kind not in ("length", "number", "slope", "percent", "degrees", "hours", "money", "board feet"):
        return
    changed = True
    while changed and figure.j < len(words) and words[figure.j] in words_after:
        changed = False
        if figure.kind in ("length", "number"):
            sum_ = arithmetic().at(words, figure.j)
            part = numbers.number(words, sum_[1]) if sum_ else None
            if sum_ and part and part.value < 12 and (part.fraction or units().get(word_at(words, part.end)) == "in"):
                end = part.end + (units().get(word_at(words, part.end)) == "in")
                if words[end : end + 3] == ["of", "an", "inch"]:
                    end += 3
                figure.value += sum_[0] * part.value * _in_unit(figure)
                figure.kind, figure.j, changed = "length", end, True
                figure.doubts.append(_worked(line, figure))
                continue
            shade = shades().at(words, figure.j)
            if shade and shade[0] and not _starts_other(words, shade[1]):
                figure.shade, figure.j, changed = _as_shade(shade[0]), shade[1], True
                continue
            taken_off = burned().at(words, figure.j + (word_at(words, figure.j) in ("but", "i", "and")))
            if taken_off:
                figure.value -= _in_unit(figure)
                figure.kind, figure.j, changed = "length", taken_off[1], True
                figure.doubts.append(_worked(line, figure))
                continue
        hedge = after.at(words, figure.j)
        if hedge and not _leads_next(words, figure.j, hedge[1]):
            figure.approx, figure.j, changed = True, hedge[1], True


def _leads_next(words: Sequence[str], i: int, end: int) -> bool:
    """Whether a hedge stands before the next figure rather than after this one ("forty about an inch apart")."""
    if words[i] not in ("about", "roughly", "approximately", "ballpark"):
        return False
    return end < len(words) and (words[end] in ("a", "an") or numbers.number(words, end) is not None)


def _as_shade(name: str) -> Shade:
    return "strong" if name == "strong" else "shy"


def _in_unit(figure: Figure) -> Fraction:
    """An inch in the unit of a figure: feet are already held in inches."""
    return Fraction(1)


def _worked(line: Line, figure: Figure) -> Doubt:
    said = line.said(figure.words[0], figure.j)
    return Doubt(
        "worked",
        f"'{said}' was worked out as {inches_text(figure.value)}",
        line.span(figure.words[0], figure.j),
        level=1,
    )


def _starts_other(words: Sequence[str], end: int) -> bool:
    """Whether a shade word goes with the next figure ("forty a strong fifty") or a thing ("light pine")."""
    if end >= len(words):
        return False
    if words[end - 1] == "light" and (words[end] in thing_words() or words[end] in ("is", "'s")):
        return True
    return numbers.number(words, end) is not None or words[end] in counted_words()


def trailing_marks(line: Line, figure: Figure, k: int) -> int:
    """Takes in a hedge or shade said after the dimension ("long shy", "in diameter give or take"); the index after it."""
    words = line.words
    after = hedges()[1]
    while k < len(words):
        led = words[k] in ("well", "or", "but", "so", "though") and k + 1 < len(words)
        if led and (ends := after.at(words, k + 1)) is not None and ends[1] == len(words):
            figure.approx, k = True, ends[1]  # "… in diameter well roughly"
            continue
        hedge = after.at(words, k)
        shade = shades().at(words, k)
        if hedge and not (words[k] in ("about", "roughly", "approximately", "ballpark") and k + 1 < len(words)):
            figure.approx, k = True, hedge[1]
        elif shade and not _starts_other(words, shade[1]):
            figure.shade, k = _as_shade(shade[0]), shade[1]
        else:
            break
    return k


def share_units(line: Line) -> None:
    """ "Ten by twelve foot", "one point two metres by two point four": the unit said once counts for both."""
    figures = sorted(line.figures.values(), key=lambda f: f.i)
    for one, two in itertools.pairwise(figures):
        if line.words[one.j : two.i] != ["by"] or not {one.kind, two.kind} <= {"number", "length"}:
            continue
        if one.unit == "" and two.unit in METRIC:
            one.kind, one.unit = "length", two.unit
        elif two.unit == "" and one.unit in METRIC:
            two.kind, two.unit = "length", one.unit
        elif one.unit == "" and two.unit == "ft" and two.feet is not None and one.kind == "number" and _near(one, two):
            _take_for_feet(line, one, two)
        elif (
            two.unit == ""
            and one.unit == "ft"
            and one.feet is not None
            and one.value == one.feet * 12
            and two.kind == "number"
            and _near(two, one)
        ):
            _take_for_feet(line, two, one)


def _take_for_feet(line: Line, bare: Figure, feet: Figure) -> None:
    """Makes a bare figure feet, as the one beside it, with a doubt: of the lowest kind where that one is whole feet."""
    shown = f"'{line.said(*bare.words)}' was taken for feet, as the figure beside it"
    level = 1 if feet.feet is not None and feet.value == feet.feet * 12 else 2
    bare.doubts.append(Doubt("unit", shown, line.span(*bare.words), (inches_text(bare.value),), level=level))
    bare.kind, bare.unit, bare.feet, bare.value = "length", "ft", bare.value, bare.value * 12


def _near(bare: Figure, feet: Figure) -> bool:
    """Whether a bare figure taken as feet is of the order of one in feet: "ten by twelve foot", and no door of 36 by 6 ft 8."""
    return bare.value * 12 <= 4 * feet.value and feet.value <= 4 * 12 * bare.value and bare.value <= 60
