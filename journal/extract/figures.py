"""Spoken figures with their units: lengths on both tapes, slopes, sections, money, hours, per cent, degrees.

What two numbers in a row make ("fourteen six", "one eighteen and a half", "eleven ninety five a box") is decided here
from the words beside them; what a figure measures is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from journal.extract import numbers
from journal.extract.clock import hours_figure
from journal.extract.feet import HALF, after_feet, one_unit, plain_figure, shaded_unit
from journal.extract.line import Figure, Line
from journal.extract.marks import dress, share_units
from journal.extract.money import dollars, take_rate
from journal.extract.nominal import section_figure, slope_figure
from journal.extract.numbers import Number
from journal.extract.pairs import pair_figure
from journal.extract.sets import words_of
from journal.extract.unitwords import METRIC, burned, container_words, label_nouns, shades, two_way, units, word_at
from journal.grammar import table


def find_figures(line: Line, taken: frozenset[int] = frozenset()) -> None:
    """Every figure of the line, by its first word; words in `taken` (dates) hold none."""
    words = line.words
    beginnings = _beginnings()
    if begun := burned().all_in(words):  # the inch of "burned an inch" is none
        taken |= {k for i, _, _ in begun for k in (i + 1, i + 2)}
    i = 0
    while i < len(words):
        word = words[i]
        figure = _figure_at(line, i) if i not in taken and (word in beginnings or word[0].isdecimal()) else None
        if figure is None:
            i += 1
            continue
        dress(line, figure)
        line.figures[figure.i] = figure
        i = max(figure.j, i + 1)
    share_units(line)


@cache
def _beginnings() -> frozenset[str]:
    """Words with which a figure can begin."""
    below = {phrase.split()[0] for phrase in table("numbers")["denominators"]}
    return (
        numbers.number_words()
        | below
        | {"a", "an", "another", "point", "$", "minus", "negative", "foot", "inch", "hour", "half", "third", "quarter"}
    )


def _figure_at(line: Line, i: int) -> Figure | None:
    words = line.words
    word = words[i]
    if word in ("thirty", "sixty") and (below := _one_below(words, i)) is not None:
        return _with_unit(line, i, below, below.value)
    if word == "$" and i + 1 < len(words) and words[i + 1][0].isdecimal():
        inner = numbers.number(words, i + 1)
        return Figure(i, inner.end, "money", inner.value, "$") if inner else None
    if word in ("minus", "negative") and i + 1 < len(words):
        inner = numbers.number(words, i + 1)
        if inner and inner.end < len(words) and units().get(words[inner.end]) in ("deg", "C", "F"):
            return _with_unit(line, i, inner, -inner.value)
    if word == "a" and i + 2 < len(words) and words[i + 1] in ("third", "half", "quarter") and words[i + 2] == "pitch":
        return None
    if word in ("third", "half", "quarter") and i + 1 < len(words) and words[i + 1] == "pitch":
        rise = {"third": Fraction(8), "half": Fraction(12), "quarter": Fraction(6)}[word]
        return Figure(i, i + 2, "slope", rise, run=Fraction(12), rule="slope.pitch")
    if word == "another" and i + 1 < len(words) and units().get(words[i + 1]) == "h":
        return one_unit(line, i, i + 1, "h")
    if (
        word in ("a", "an", "one")
        and i + 1 < len(words)
        and (unit := units().get(words[i + 1])) in ("ft", "in", "h", "m")
    ):
        return one_unit(line, i, i + 1, unit)
    if (shaded := shaded_unit(line, i)) is not None:
        return shaded
    if word in ("a", "an", "one") and i + 1 < len(words) and units().get(words[i + 1]) == "$":
        return dollars(line, i, i + 2, Fraction(1), "$")
    if (share := _share_of(words, i)) is not None:
        return share
    if word == "point" and i and words[i - 1] in ("long", "short"):
        return None
    if (
        word in ("foot", "inch", "hour")
        and i + 2 < len(words)
        and words[i + 1] == "and"
        and (i == 0 or words[i - 1] not in ("square", "board", "linear"))
    ):
        part = numbers.fraction(words, i + 2)
        if part:
            return one_unit(line, i, i, units()[word])
    if word in ("a", "an", "half") and (dozen := _dozen(words, i)):
        return dozen
    if word == "half" and words[i + 1 : i + 2] and words[i + 1] in ("a", "an") and i + 2 < len(words):
        unit = units().get(words[i + 2])
        if unit in ("in", "ft", "h", "$"):
            return plain_figure(line, i, i + 3, HALF, unit)
    number = numbers.number(words, i)
    if number is None:
        number = _one_below(words, i)
    if number is None or not _is_figure(words, i, number):
        return None
    return _with_unit(line, i, number, number.value)


def _one_below(words: Sequence[str], i: int) -> Number | None:
    """ "A strong eighth", "a scant thirty second": one of them, where a shade stands before it."""
    below = numbers.denominator(words, i)
    if below is None or below[0] < 8 or words[below[1] - 1].endswith("s") or not shades().ending_at(words, i, 1):
        return None
    return Number(Fraction(1, below[0]), below[1], None, True)


def _share_of(words: Sequence[str], i: int) -> Figure | None:
    """ "Half a roll", "three quarters of a box", "cord and a half": a share of a container as a count."""
    part = numbers.fraction(words, i)
    if part is not None and part.quarters is None and part.value < 1:
        k = part.end + (word_at(words, part.end) == "of")
        if word_at(words, k) in ("a", "an") and word_at(words, k + 1) in container_words():
            return Figure(i, k + 1, "number", part.value, rule="count.share")
        if k == part.end and word_at(words, k) in container_words() and word_at(words, k + 1) == "of":
            return Figure(i, k, "number", part.value, rule="count.share")  # "the last half gallon of shellac"
    return None


def _dozen(words: Sequence[str], i: int) -> Figure | None:
    rest = tuple(words[i : i + 4])
    for phrase, value in (
        (("half", "a", "dozen"), 6), (("a", "dozen"), 12), (("half", "dozen"), 6), (("a", "half", "dozen"), 6),
        (("a", "couple", "of"), 2), (("a", "couple"), 2), (("a", "pair", "of"), 2), (("a", "couple", "dozen"), 24),
    ):  # fmt: skip
        if rest[: len(phrase)] == phrase and not (phrase == ("a", "couple") and rest[2:3] == ("dozen",)):
            if phrase[-1] == "couple" and rest[2:3] and rest[2] in ("days", "weeks"):
                return None
            j = i + len(phrase)
            if units().get(word_at(words, j + (word_at(words, j) in ("of", "more")))) == "h":
                more = word_at(words, j) in ("of", "more")
                return Figure(i, j + more + 1, "hours", Fraction(value), "h", rule="figure.hours")
            if phrase == ("a", "dozen") and list(words[j : j + 3]) == ["and", "a", "half"]:
                value, j = 18, j + 3
            return Figure(i, j, "number", Fraction(value), whole=value, rule="count.dozen")
    return None


def _is_figure(words: Sequence[str], i: int, number: Number) -> bool:
    following = words[number.end] if number.end < len(words) else ""
    before = words[i - 1] if i else ""
    if (
        words[i] in ("one",)
        and number.end == i + 1
        and before in words_of("not_one")
        and not (before == "long" and following in container_words())
        and not (before == "back" and word_at(words, i - 2) in ("me", "us", "came"))
        and units().get(following) is None
        and not _hundred_again(words, i)
    ):
        return False
    if words[i] == "a" and number.fraction and following == "the":
        return False
    if words[i] in ("half", "quarter") and shades().ending_at(words, i, 1) and following in label_nouns():
        return True
    if words[i] in ("half", "quarter") and words[number.end : number.end + 3] == ["the", "other", "way"]:
        return True
    if words[i] in ("half", "quarter") and following == "the" and shades().ending_at(words, i, 1):
        return True  # "post two a shy half the sill's …"
    if words[i] in ("half", "quarter") and following in words_of("after_part") and following != "a":
        return following == "of" and words[number.end : number.end + 2][-1:] in (["an"], ["a"])
    if words[i] in ("half", "quarter") and following == "a":
        return False
    if (
        number.fraction
        and number.whole is None
        and following == "of"
        and words[number.end + 1 : number.end + 2] in (["the"], ["them"], ["it"])
    ):
        return False
    if number.whole is not None and not number.fraction and following in words_of("part_of_name"):
        return False
    if (
        words[i] == "one"
        and number.end == i + 1
        and (_is_pronoun(words, i) or (before == "in" and following in _WHOLE))
    ):
        return False
    if (
        words[i] == "one"
        and number.end == i + 1
        and following in words_of("copulas")
        and before not in words_of("determiners") | {""}
    ):
        return before in label_nouns()
    if words[i] in ("oh", "zero", "won"):
        return words[i] == "zero" or number.end > i + 1
    return True


def _hundred_again(words: Sequence[str], i: int) -> bool:
    """ "No one twelve and a half", "make that one ninety two": after a take-back a one before tens is a hundred."""
    taken_back = words[i - 1] == "no" or (
        words[i - 1] == "that" and word_at(words, i - 2) in ("make", "call", "scratch")
    )
    second = numbers.below_hundred(words, i + 1)
    return taken_back and (word_at(words, i + 1) == "oh" or (second is not None and second[0] >= 10))


# "In one piece", "in one go": nothing is counted.
_WHOLE = frozenset({"piece", "go", "length", "shot", "lift", "pour", "pass", "hit", "run", "hand", "spot", "place"})


def _is_pronoun(words: Sequence[str], i: int) -> bool:
    """ "That's the oak one": after an article and an adjective, with nothing counted after it."""
    before, following = word_at(words, i - 1), word_at(words, i + 1)
    if word_at(words, i - 2) not in ("the", "that", "a", "an", "this") or before in label_nouns() or len(before) < 3:
        return False
    ends = following == "" or following in words_of("phrase_ends", "prepositions")
    return ends and numbers.cardinal(words, i - 1) is None


def _with_unit(line: Line, i: int, n: Number, value: Fraction) -> Figure | None:
    """The figure that begins with the number `n`, with its unit and whatever goes on with it."""
    words = line.words
    j = n.end
    word = word_at(words, j)
    unit = units().get(word, "")
    if word in ("grand", "k") and word_at(words, j + 1) not in words_of("after_grand"):
        figure = Figure(i, j + 1, "money", value * 1000, "$", rule="figure.dollars")
        take_rate(line, figure)
        return figure
    if word in words_of("hour_adjectives") and units().get(word_at(words, j + 1)) == "h":
        return hours_figure(line, i, j + 2, value)
    bare = Figure(i, j, "length" if n.fraction else "number", value, whole=n.whole, split=n.split, rule="figure.number")
    if n.other is not None and word_at(words, i - 1) != "and":
        bare.doubts.append(two_way(line, i, j, n.value, n.other))
    if n.quarters and n.quarters > 4 and unit != "in":
        bare.section = f"{n.quarters}/4"
        bare.kind = "section"
    section = section_figure(line, i, n)
    if section is not None:
        return section
    if word == "dozen":
        return Figure(
            i,
            j + 1,
            "number",
            value * 12,
            whole=int(value * 12) if (value * 12).denominator == 1 else None,
            rule="count.dozen",
        )
    if (
        word in ("of",)
        and word_at(words, j + 1) in ("a", "an")
        and units().get(word_at(words, j + 2)) in ("in", "h", "ft")
    ):
        inner = units()[words[j + 2]]
        return plain_figure(line, i, j + 3, value, inner)
    if word == "of" and units().get(word_at(words, j + 1)) == "in" and n.fraction:
        return plain_figure(line, i, j + 2, value, "in")
    if word in ("square", "cubic", "linear", "lineal", "running") or (
        word == "board" and word_at(words, j + 1) in ("foot", "feet")
    ):
        if word == "board":
            return Figure(i, j + 2, "board feet", value, "bf", rule="figure.board_feet")
        return bare
    slope = slope_figure(line, i, n)
    if slope is not None:
        return slope
    if unit == "ft":
        return after_feet(line, i, j + 1, value, halves=n.fraction)
    if unit == "in":
        j += 1
        if not n.fraction and word_at(words, j) == "and":
            part = numbers.fraction(words, j + 1)
            if part and part.value < 1 and part.quarters is None:
                return Figure(i, part.end, "length", value + part.value, "in", rule="figure.inches")
        figure = Figure(i, j, "length", value, "in", doubts=bare.doubts, rule="figure.inches")
        if words[j - 1] == "incher":
            figure.each = False
        return figure
    if unit in METRIC:
        j += 1
        if unit == "m":
            if word_at(words, j) == "and" and (part := numbers.fraction(words, j + 1)):
                return Figure(i, part.end, "length", value + part.value, unit, rule="figure.metric")
            small = numbers.below_hundred(words, j)
            if (
                small
                and small[0] >= 10
                and value.denominator == 1
                and not units().get(word_at(words, small[1]))
                and word_at(words, small[1]) != "by"
            ):
                return Figure(i, small[1], "length", value + Fraction(small[0], 100), unit, rule="figure.metric")
        return Figure(i, j, "length", value, unit, rule="figure.metric")
    if unit == "%" or (word == "per" and word_at(words, j + 1) == "cent"):
        return Figure(i, j + (1 if unit else 2), "percent", value, "%", rule="figure.percent")
    if unit in ("deg", "C", "F"):
        return _degrees(line, i, j, value)
    if unit in ("h", "min"):
        return hours_figure(line, i, j + 1, value if unit == "h" else value / 60)
    if unit in ("$", "c"):
        return dollars(line, i, j + 1, value, unit)
    if word == "below" and word_at(words, j + 1) in ("zero", ""):
        return Figure(i, j + 1 + (word_at(words, j + 1) == "zero"), "degrees", -value, "deg", rule="figure.degrees")
    pair = pair_figure(line, i, n)
    figure = pair or bare
    take_rate(line, figure)
    return figure


def _degrees(line: Line, i: int, j: int, value: Fraction) -> Figure:
    words = line.words
    unit = "deg"
    while units().get(word_at(words, j)) in ("deg", "C", "F"):
        unit = units()[words[j]] if units()[words[j]] != "deg" else unit
        j += 1
    if word_at(words, j) in ("c", "f") and unit == "deg":
        unit, j = words[j].upper(), j + 1
    if word_at(words, j) == "below":
        value, j = -abs(value), j + 1 + (word_at(words, j + 1) in ("zero", "freezing"))
    return Figure(i, j, "degrees", value, unit, rule="figure.degrees")
