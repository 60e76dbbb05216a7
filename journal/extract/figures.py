"""Spoken figures with their units: lengths on both tapes, slopes, sections, money, hours, per cent, degrees.

What two numbers in a row make ("fourteen six", "one eighteen and a half", "eleven ninety five a box") is decided here
from the words beside them; what a figure measures is not.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from journal.extract import numbers
from journal.extract.line import Figure, Line
from journal.extract.numbers import Number
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.grammar import table
from journal.records import Doubt, Shade

_METRIC = {"mm", "cm", "m"}
_HALF = Fraction(1, 2)


@cache
def units() -> dict[str, str]:
    """Unit words to units."""
    return dict(table("figures")["units"])


@cache
def _phrases(name: str, key: str = "") -> Phrases[str]:
    data = table("figures")[name]
    return Phrases.of(data[key] if key else data["words"], key)


@cache
def _hedges() -> tuple[Phrases[str], Phrases[str]]:
    return _phrases("hedges", "before"), _phrases("hedges", "after")


@cache
def _shades() -> Phrases[str]:
    data = table("figures")["shades"]
    return Phrases(dict.fromkeys(data["strong"], "strong") | dict.fromkeys(data["shy"], "shy"))


@cache
def _arithmetic() -> Phrases[int]:
    data = table("figures")["arithmetic"]
    return Phrases(dict.fromkeys(data["less"], -1) | dict.fromkeys(data["more"], 1))


@cache
def _burned() -> Phrases[str]:
    return Phrases.of(table("figures")["burned"]["phrases"], "burned")


@cache
def label_nouns() -> frozenset[str]:
    """Nouns whose number is a name, singular and plural."""
    nouns = table("figures")["labels"]["nouns"]
    return frozenset(nouns) | frozenset(plural(noun) for noun in nouns)


def plural(noun: str) -> str:
    """The plural of a noun."""
    if noun.endswith(("s", "sh", "ch", "x")):
        return noun + "es"
    if noun.endswith("y") and noun[-2:-1] not in "aeiou":
        return noun[:-1] + "ies"
    return noun + "s"


_PLURAL_NUMBERS = {
    "twos": 2,
    "threes": 3,
    "fours": 4,
    "sixes": 6,
    "eights": 8,
    "nines": 9,
    "tens": 10,
    "twelves": 12,
    "fives": 5,
    "sevens": 7,
    "fourteens": 14,
    "sixteens": 16,
}


@cache
def rate_nouns() -> frozenset[str]:
    """What money is said for: "a sheet", "an hour", "a board foot"."""
    stock = table("stock")
    return frozenset(stock["things"]["words"]) | frozenset(stock["containers"]["words"]) | {
        "board foot", "foot", "hour", "day", "week", "thousand", "hundred", "square foot", "linear foot",
        "lineal foot", "running foot", "lin foot", "piece", "trip", "load", "bd ft", "cubic yard", "square yard", "dozen", "person", "man", "month", "mile", "run", "visit", "coat", "opening", "head",
    }  # fmt: skip


def find_figures(line: Line, taken: frozenset[int] = frozenset()) -> None:
    """Every figure of the line, by its first word; words in `taken` (dates) hold none."""
    words = line.words
    beginnings = _beginnings()
    i = 0
    while i < len(words):
        word = words[i]
        figure = _figure_at(line, i) if i not in taken and (word in beginnings or word[0].isdecimal()) else None
        if figure is None:
            i += 1
            continue
        _dress(line, figure)
        line.figures[figure.i] = figure
        i = max(figure.j, i + 1)
    _share_units(line)


@cache
def _beginnings() -> frozenset[str]:
    """Words with which a figure can begin."""
    below = {phrase.split()[0] for phrase in table("numbers")["denominators"]}
    return (
        numbers.number_words()
        | below
        | {"a", "an", "point", "$", "minus", "negative", "foot", "inch", "hour", "half", "third", "quarter"}
    )


def _figure_at(line: Line, i: int) -> Figure | None:
    words = line.words
    word = words[i]
    if burned_at(words, i - 1) or burned_at(words, i - 2):
        return None
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
    if (
        word in ("a", "an", "one")
        and i + 1 < len(words)
        and (unit := units().get(words[i + 1])) in ("ft", "in", "h", "m")
    ):
        return _one_unit(line, i, i + 1, unit)
    if word in ("a", "an", "one") and i + 1 < len(words) and units().get(words[i + 1]) == "$":
        return _dollars(line, i, i + 2, Fraction(1), "$")
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
            return _one_unit(line, i, i, units()[word])
    if word in ("a", "an", "half") and (dozen := _dozen(words, i)):
        return dozen
    if word == "half" and words[i + 1 : i + 2] and words[i + 1] in ("a", "an") and i + 2 < len(words):
        unit = units().get(words[i + 2])
        if unit in ("in", "ft", "h", "$"):
            return _plain(line, i, i + 3, _HALF, unit)
    number = numbers.number(words, i)
    if number is None:
        number = _one_below(words, i)
    if number is None or not _is_figure(words, i, number):
        return None
    return _with_unit(line, i, number, number.value)


def _one_below(words: Sequence[str], i: int) -> Number | None:
    """ "A strong eighth", "a scant thirty second": one of them, where a shade stands before it."""
    below = numbers.denominator(words, i)
    if below is None or below[0] < 8 or words[below[1] - 1].endswith("s") or not _shades().ending_at(words, i, 1):
        return None
    return Number(Fraction(1, below[0]), below[1], None, True)


def _share_of(words: Sequence[str], i: int) -> Figure | None:
    """ "Half a roll", "three quarters of a box", "cord and a half": a share of a container as a count."""
    part = numbers.fraction(words, i)
    if part is not None and part.quarters is None and part.value < 1:
        k = part.end + (_word(words, part.end) == "of")
        if _word(words, k) in ("a", "an") and _word(words, k + 1) in _containers():
            return Figure(i, k + 1, "number", part.value, rule="count.share")
    return None


@cache
def _containers() -> frozenset[str]:
    return frozenset(word for word in table("stock")["containers"]["words"] if word not in units())


def _dozen(words: Sequence[str], i: int) -> Figure | None:
    rest = tuple(words[i : i + 4])
    for phrase, value in (
        (("half", "a", "dozen"), 6), (("a", "dozen"), 12), (("half", "dozen"), 6), (("a", "half", "dozen"), 6),
        (("a", "couple", "of"), 2), (("a", "couple"), 2), (("a", "pair", "of"), 2), (("a", "couple", "dozen"), 24),
    ):  # fmt: skip
        if rest[: len(phrase)] == phrase and not (phrase == ("a", "couple") and rest[2:3] == ("dozen",)):
            if phrase[-1] == "couple" and rest[2:3] and rest[2] in ("days", "weeks"):
                return None
            return Figure(i, i + len(phrase), "number", Fraction(value), whole=value, rule="count.dozen")
    return None


def _is_figure(words: Sequence[str], i: int, number: Number) -> bool:
    following = words[number.end] if number.end < len(words) else ""
    before = words[i - 1] if i else ""
    if (
        words[i] in ("one",)
        and number.end == i + 1
        and before in words_of("not_one")
        and units().get(following) is None
    ):
        return False
    if words[i] == "a" and number.fraction and following == "the":
        return False
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
    if words[i] == "one" and number.end == i + 1 and _is_pronoun(words, i):
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


def _is_pronoun(words: Sequence[str], i: int) -> bool:
    """ "That's the oak one": after an article and an adjective, with nothing counted after it."""
    before, following = _word(words, i - 1), _word(words, i + 1)
    if _word(words, i - 2) not in ("the", "that", "a", "an", "this") or before in label_nouns() or len(before) < 3:
        return False
    return (following == "" or following in words_of("phrase_ends") | words_of("prepositions")) and numbers.cardinal(
        words, i - 1
    ) is None


def _one_unit(line: Line, i: int, at: int, unit: str) -> Figure | None:
    """ "A foot and a half", "an inch and a quarter", "an hour and three quarters", "a foot two"."""
    words = line.words
    j = at + 1
    if unit == "h":
        return _hours(line, i, j, Fraction(1))
    if words[j : j + 1] == ["and"]:
        part = numbers.fraction(words, j + 1)
        if part and part.value < 1 and part.quarters is None:
            if (
                unit == "ft"
                and (part.value != _HALF or units().get(_word(words, part.end)) == "in")
                and part.value.denominator > 4
            ):
                end = part.end + (units().get(_word(words, part.end)) == "in")
                return _feet(line, i, end, Fraction(1), part.value)
            if unit == "ft" and units().get(_word(words, part.end)) == "in":
                return _feet(line, i, part.end + 1, Fraction(1), part.value)
            return _plain(line, i, part.end, 1 + part.value, unit)
    if unit == "ft":
        return _after_feet(line, i, j, Fraction(1), one=True)
    return _plain(line, i, j, Fraction(1), unit)


def _word(words: Sequence[str], i: int) -> str:
    return words[i] if 0 <= i < len(words) else ""


def _plain(line: Line, i: int, j: int, value: Fraction, unit: str) -> Figure:
    if unit == "ft":
        return _feet(line, i, j, value, Fraction(0))
    kind = {
        "in": "length",
        "mm": "length",
        "cm": "length",
        "m": "length",
        "%": "percent",
        "deg": "degrees",
        "h": "hours",
        "$": "money",
    }[unit]
    return Figure(i, j, kind, value, unit)  # type: ignore[arg-type]


def _feet(line: Line, i: int, j: int, feet: Fraction, inches: Fraction) -> Figure:
    return Figure(i, j, "length", feet * 12 + inches, "ft", feet=feet, rule="figure.feet")


def _with_unit(line: Line, i: int, n: Number, value: Fraction) -> Figure | None:
    """The figure that begins with the number `n`, with its unit and whatever goes on with it."""
    words = line.words
    j = n.end
    word = _word(words, j)
    unit = units().get(word, "")
    bare = Figure(i, j, "length" if n.fraction else "number", value, whole=n.whole, split=n.split, rule="figure.number")
    if n.other is not None and _word(words, i - 1) != "and":
        bare.doubts.append(_two_way(line, i, j, n.value, n.other))
    if n.quarters and n.quarters > 4 and unit != "in":
        bare.section = f"{n.quarters}/4"
        bare.kind = "section"
    section = _section(line, i, n)
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
    if word in ("of",) and _word(words, j + 1) in ("a", "an") and units().get(_word(words, j + 2)) in ("in", "h", "ft"):
        inner = units()[words[j + 2]]
        return _plain(line, i, j + 3, value, inner)
    if word == "of" and units().get(_word(words, j + 1)) == "in" and n.fraction:
        return _plain(line, i, j + 2, value, "in")
    if word in ("square", "cubic", "linear", "lineal", "running") or (
        word == "board" and _word(words, j + 1) in ("foot", "feet")
    ):
        if word == "board":
            return Figure(i, j + 2, "board feet", value, "bf", rule="figure.board_feet")
        return bare
    slope = _slope(line, i, n)
    if slope is not None:
        return slope
    if unit == "ft":
        return _after_feet(line, i, j + 1, value, halves=n.fraction)
    if unit == "in":
        j += 1
        if not n.fraction and _word(words, j) == "and":
            part = numbers.fraction(words, j + 1)
            if part and part.value < 1 and part.quarters is None:
                return Figure(i, part.end, "length", value + part.value, "in", rule="figure.inches")
        figure = Figure(i, j, "length", value, "in", doubts=bare.doubts, rule="figure.inches")
        if words[j - 1] == "incher":
            figure.each = False
        return figure
    if unit in _METRIC:
        j += 1
        if unit == "m":
            if _word(words, j) == "and" and (part := numbers.fraction(words, j + 1)):
                return Figure(i, part.end, "length", value + part.value, unit, rule="figure.metric")
            small = numbers.below_hundred(words, j)
            if (
                small
                and small[0] >= 10
                and value.denominator == 1
                and not units().get(_word(words, small[1]))
                and _word(words, small[1]) != "by"
            ):
                return Figure(i, small[1], "length", value + Fraction(small[0], 100), unit, rule="figure.metric")
        return Figure(i, j, "length", value, unit, rule="figure.metric")
    if unit == "%" or (word == "per" and _word(words, j + 1) == "cent"):
        return Figure(i, j + (1 if unit else 2), "percent", value, "%", rule="figure.percent")
    if unit in ("deg", "C", "F"):
        return _degrees(line, i, j, value)
    if unit in ("h", "min"):
        return _hours(line, i, j + 1, value if unit == "h" else value / 60)
    if unit in ("$", "c"):
        return _dollars(line, i, j + 1, value, unit)
    if word == "below" and _word(words, j + 1) in ("zero", ""):
        return Figure(i, j + 1 + (_word(words, j + 1) == "zero"), "degrees", -value, "deg", rule="figure.degrees")
    pair = _pair(line, i, n)
    figure = pair or bare
    _rate(line, figure)
    return figure


def _degrees(line: Line, i: int, j: int, value: Fraction) -> Figure:
    words = line.words
    unit = "deg"
    while units().get(_word(words, j)) in ("deg", "C", "F"):
        unit = units()[words[j]] if units()[words[j]] != "deg" else unit
        j += 1
    if _word(words, j) in ("c", "f") and unit == "deg":
        unit, j = words[j].upper(), j + 1
    if _word(words, j) == "below":
        value, j = -abs(value), j + 1 + (_word(words, j + 1) in ("zero", "freezing"))
    return Figure(i, j, "degrees", value, unit, rule="figure.degrees")


def _hours(line: Line, i: int, j: int, value: Fraction) -> Figure:
    words = line.words
    if _word(words, j) == "and":
        part = numbers.fraction(words, j + 1)
        if part and part.value < 1:
            end = part.end
            if words[end : end + 3] == ["of", "an", "hour"]:
                end += 3
            return Figure(i, end, "hours", value + part.value, "h", rule="figure.hours")
    k = j + (_word(words, j) == "and")
    minutes = numbers.cardinal(words, k)
    if minutes and units().get(_word(words, minutes[1])) == "min" and minutes[0] < 60:
        return Figure(i, minutes[1] + 1, "hours", value + Fraction(minutes[0], 60), "h", rule="figure.hours")
    return Figure(i, j, "hours", value, "h", rule="figure.hours")


def _dollars(line: Line, i: int, j: int, value: Fraction, unit: str) -> Figure:
    words = line.words
    if unit == "c":
        value /= 100
    else:
        k = j + (_word(words, j) == "and")
        cents = numbers.below_hundred(words, k)
        if cents and (units().get(_word(words, cents[1])) == "c"):
            value, j = value + Fraction(cents[0], 100), cents[1] + 1
        elif (
            cents
            and cents[0] >= 10
            and k == j
            and not units().get(_word(words, cents[1]))
            and _word(words, cents[1]) in ("a", "an", "per", "each", "apiece", "")
        ):
            value, j = value + Fraction(cents[0], 100), cents[1]
        elif _word(words, k) in ("a", "half") and k > j and (part := numbers.fraction(words, k)):
            value, j = value + part.value, part.end
    figure = Figure(i, j, "money", value, "$", rule="figure.dollars")
    _rate(line, figure)
    return figure


def _after_feet(line: Line, i: int, j: int, feet: Fraction, *, halves: bool = False, one: bool = False) -> Figure:
    """Feet have been heard up to `j`: inches, a fraction, or "even" may follow."""
    words = line.words
    exact = _phrases("exact").at(words, j) if j < len(words) else None
    if exact:
        return _feet(line, i, exact[1], feet, Fraction(0))
    if halves:
        return _feet(line, i, j, feet, Fraction(0))
    k = j
    if _word(words, k) in ("oh", "zero", "no"):
        if _word(words, k + 1) == "and" and (part := numbers.fraction(words, k + 2)):
            return _feet(line, i, part.end + (units().get(_word(words, part.end)) == "in"), feet, part.value)
        if _word(words, k) == "oh" and numbers.number(words, k + 1):
            k += 1
        elif _word(words, k) != "no":
            return _feet(line, i, k + 1, feet, Fraction(0))
    if (
        _word(words, k) == "and"
        and _word(words, i - 1) in ("in", "over", "per")
        and _word(words, i - 2) in ("level", "plumb", "square", "true")
    ):
        return _feet(line, i, j, feet, Fraction(0))
    if _word(words, k) == "and":
        part = numbers.fraction(words, k + 1)
        if part is not None and part.value < 1 and part.quarters is None:
            if units().get(_word(words, part.end)) == "in":
                return _feet(line, i, part.end + 1, feet, part.value)
            if words[part.end : part.end + 3] == ["of", "an", "inch"]:
                return _feet(line, i, part.end + 3, feet, part.value)
            figure = _feet(line, i, part.end, feet, part.value)
            if part.value in (_HALF, Fraction(1, 4), Fraction(3, 4)) and not one:
                figure.doubts.append(_two_way(line, i, part.end, figure.value, (feet + part.value) * 12))
            return figure
        inner = numbers.number(words, k + 1)
        if inner and units().get(_word(words, inner.end)) == "in" and inner.value < 12:
            return _feet_and(line, i, feet, inner)
        return _feet(line, i, j, feet, Fraction(0))
    inner = numbers.number(words, k) if k < len(words) else None
    if inner is not None and inner.value < 12 and inner.quarters is None and _inches_may_follow(line, k, inner):
        return _feet_and(line, i, feet, inner)
    return _feet(line, i, j, feet, Fraction(0))


def _feet_and(line: Line, i: int, feet: Fraction, inner: Number) -> Figure:
    words = line.words
    end, inches = inner.end, inner.value
    if units().get(_word(words, end)) == "in":
        end += 1
        if not inner.fraction and _word(words, end) == "and":
            part = numbers.fraction(words, end + 1)
            if part and part.value < 1 and part.quarters is None:
                return _feet(line, i, part.end, feet, inches + part.value)
    elif words[end : end + 3] == ["of", "an", "inch"]:
        end += 3
    return _feet(line, i, end, feet, inches)


_NOT_AFTER_INCHES = frozenset({"ft", "%", "deg", "C", "F", "h", "min", "$", "c", "mm", "cm", "m"})


def _inches_may_follow(line: Line, k: int, inner: Number) -> bool:
    """Whether a number after feet is inches: not when it counts something or has another unit."""
    words = line.words
    following = _word(words, inner.end)
    if units().get(following) in _NOT_AFTER_INCHES or following in ("per", "dozen", "penny", "hundred", "thousand"):
        return False
    if following == "by" and _word(words, inner.end + 1) in _PLURAL_NUMBERS:
        return False
    if inner.fraction:
        return True
    if words[k] in ("a", "an"):
        return False
    return not _names_stock(words, inner.end)


@cache
def _counted() -> frozenset[str]:
    """Words that show a number before them to be a count: things and containers in the plural, and kinds of wood."""
    stock = table("stock")
    nouns = list(stock["things"]["words"]) + list(stock["containers"]["words"])
    return frozenset(plural(noun.split()[-1]) for noun in nouns if noun not in ("foot", "feet", "over"))


@cache
def _species() -> Phrases[str]:
    return Phrases({name: name for name in table("stock")["species"]["words"]})


def _names_stock(words: Sequence[str], i: int) -> bool:
    """Whether something counted is named within the next few words."""
    for k in range(i, min(i + 4, len(words))):
        if words[k] in _counted() or _species().at(words, k):
            return True
        if words[k] in words_of("stock_walk_stops") or numbers.number(words, k):
            return False
    return False


def _section(line: Line, i: int, n: Number) -> Figure | None:
    """A nominal section said as part of a material: "two by six studs", "five quarter by six", "two by tens"."""
    words = line.words
    if _word(words, n.end) != "by":
        return None
    if n.quarters and n.quarters >= 4:
        first, small = f"{n.quarters}/4", True
    elif (n.fraction and n.whole is None) or n.fraction or n.value.denominator != 1:
        return None
    else:
        first, small = str(n.value), n.value <= 16
    second_at = n.end + 1
    if (width := _PLURAL_NUMBERS.get(_word(words, second_at))) is not None and (small or n.split):
        return _make_section(line, i, n, first, str(width), second_at + 1)
    second = numbers.number(words, second_at) if second_at < len(words) else None
    if second is None or second.value.denominator != 1 or second.fraction or second.value > 24:
        return None
    if (n.quarters and n.quarters > 4) or _word(words, second.end) == "by" or _names_stock(words, second.end):
        if not small and not n.split:
            return None
        if _word(words, second.end) == "by":
            third = numbers.number(words, second.end + 1)
            third_unit = units().get(_word(words, third.end)) if third else None
            if third is None or not (third_unit == "ft" or _names_stock(words, third.end)):
                return None
            return _make_section(line, i, n, first, str(second.value), second.end + 1)
        if units().get(_word(words, second.end)):
            return None
        return _make_section(line, i, n, first, str(second.value), second.end)
    length = numbers.cardinal(words, second.end)
    if length is not None and small and second.whole is not None and units().get(_word(words, length[1])) == "ft":
        return _make_section(line, i, n, first, str(second.value), second.end)
    return None


def _make_section(line: Line, i: int, n: Number, first: str, second: str, end: int) -> Figure:
    """ "Forty one by eight boards" is forty of one by eight; "twenty two by fours" twenty of two by four."""
    figure = Figure(i, end, "section", n.value, rule="figure.section")
    count: Fraction | None = None
    if n.quarters and n.split:
        count, first = Fraction(n.quarters - n.split), f"{n.split}/4"
    elif n.split and n.value > 12:
        count, first = n.value - n.split, str(n.split)
    figure.section = f"{first}x{second}"
    figure.second = count
    return figure


def _slope(line: Line, i: int, n: Number) -> Figure | None:
    """ "Six twelve", "nine in twelve", "a nine pitch", "one in ten", "a quarter inch to the foot"."""
    words = line.words
    j = n.end
    word = _word(words, j)
    if word in words_of("pitch_words") and n.value <= 24 and word != "slope":
        return Figure(i, j + 1, "slope", n.value, run=Fraction(12), rule="slope.pitch")
    if units().get(word) == "in" and words[j + 1 : j + 4] in (
        ["to", "the", "foot"],
        ["in", "the", "foot"],
        ["in", "a", "foot"],
    ):
        return Figure(i, j + 4, "slope", n.value, run=Fraction(12), rule="slope.per_foot")
    if units().get(word) == "in" and words[j + 1 : j + 3] in (["per", "foot"], ["a", "foot"]):
        return Figure(i, j + 3, "slope", n.value, run=Fraction(12), rule="slope.per_foot")
    before = _word(words, i - 1)
    k = j + 1 if word in words_of("slope_joints") or word in ("and", "to") else j
    run = numbers.cardinal(words, k) if k < len(words) else None
    if run is None or n.value > 24 or n.value <= 0:
        return None
    after = _word(words, run[1])
    if units().get(after) or (
        after
        in (
            "by",
            "and",
            "point",
            "percent",
            "hundred",
            "dozen",
            "wide",
            "high",
            "long",
            "deep",
            "thick",
            "tall",
            "on",
            "a",
            "each",
        )
        and not (after in ("on", "and", "a") and numbers.fraction(words, run[1] + 1) is None and run[0] == 12)
    ):
        return None
    if numbers.denominator(words, run[1]) or numbers.fraction(words, run[1]):
        return None
    if run[0] == 12 and (word in ("in", "over", "on", "/") or k == j):
        if before in label_nouns() and k == j and before not in ("dormer", "gable", "hip", "valley", "deck", "stair"):
            return None
        if k == j and _names_stock(words, run[1]) and before not in ("a", "is", "'s", "an", "at"):
            return None
        end = run[1] + (after in words_of("pitch_words"))
        return Figure(i, end, "slope", n.value, run=Fraction(12), rule="slope.in_twelve")
    if (
        word in ("and", "to")
        and run[0] == 12
        and (
            after in words_of("pitch_words")
            or any(w in ("slope", "pitch", "pitched") for w in words[max(0, i - 5) : i])
        )
    ):
        return Figure(
            i, run[1] + (after in words_of("pitch_words")), "slope", n.value, run=Fraction(12), rule="slope.in_twelve"
        )
    if (
        word == "in"
        and n.whole is not None
        and 1 <= run[0] <= 100
        and (
            n.value == 1
            or any(
                w in ("slope", "pitch", "pitched", "ramp", "fall", "falls", "grade", "drain", "roof")
                for w in words[max(0, i - 6) : i]
            )
        )
    ):
        return Figure(i, run[1], "slope", n.value, run=Fraction(run[0]), rule="slope.in")
    return None


def _pair(line: Line, i: int, n: Number) -> Figure | None:
    """Two numbers in a row: feet and inches, hundreds without "hundred", dollars and cents, or two figures."""
    words = line.words
    if n.fraction or n.whole is None or n.value.denominator != 1 or n.end >= len(words):
        return None
    whole, j = n.whole, n.end
    zero = words[j] in ("oh", "zero")
    second = numbers.number(words, j + 1) if zero else numbers.number(words, j)
    if second is None or second.whole is None or words[j] in ("a", "an"):
        if zero and _word(words, j + 1) == "and" and (part := numbers.fraction(words, j + 2)):
            return _feet(line, i, part.end, Fraction(whole), part.value)
        return None
    if second.quarters or words[j] in ("hundred", "thousand"):
        return None
    end, unit = second.end, units().get(_word(words, second.end), "")
    if _word(words, end) == "by" and (
        _word(words, end + 1) in _PLURAL_NUMBERS or (_section(line, j, second) is not None)
    ):
        return None
    if not zero and _names_stock(words, end) and not unit:
        return None
    if _word(words, end) == "dozen" or unit in ("ft", "%", "deg", "C", "F", "h", "min"):
        return None
    cents = (
        second.value
        if not second.fraction and ((zero and second.value < 10) or (not zero and 10 <= second.value < 100))
        else None
    )
    if unit in _METRIC and 10 <= second.value < 100 and whole < 100:
        return Figure(i, end + 1, "length", Fraction(whole * 100) + second.value, unit, rule="figure.metric")
    if unit == "$" and cents is not None and whole < 10:
        return Figure(i, end + 1, "money", whole * 100 + second.value, "$", rule="figure.dollars")
    per = _rate_at(words, end)
    each = _word(words, end) in ("each", "apiece") or words[end : end + 2] == ["a", "piece"]
    if cents is not None and (per or each):
        figure = Figure(
            i, end, "money", whole + cents / 100, "$", second=second.value, whole=whole, rule="figure.cents"
        )
        _rate(line, figure)
        return figure
    third = numbers.below_hundred(words, end)
    if (
        whole < 10
        and cents is not None
        and not zero
        and third is not None
        and third[0] >= 10
        and not units().get(_word(words, third[1]))
        and not _names_stock(words, third[1])
        and _word(words, third[1]) != "by"
        and _is_whole(words, end, third[1])
    ):
        return Figure(
            i, third[1], "money", whole * 100 + second.value + Fraction(third[0], 100), "$", rule="figure.dollars"
        )
    hundreds = Fraction(whole * 100) + second.value
    feet = Fraction(whole * 12) + second.value
    as_inches = unit == "in"
    if zero and second.value < 10 and whole < 10:
        figure = Figure(
            i,
            end + as_inches,
            "length",
            hundreds,
            "in" if as_inches else "",
            second=second.value,
            whole=whole,
            rule="figure.hundreds",
        )
    elif 10 <= second.value < 100 and whole < 10 and not (whole >= 4 and second.value < 12):
        figure = Figure(
            i,
            end + as_inches,
            "length",
            hundreds,
            "in" if as_inches else "",
            second=second.value,
            whole=whole,
            rule="figure.hundreds",
        )
        if second.value < 12 and whole > 1:
            figure.doubts.append(_two_way(line, i, end, hundreds, feet))
    elif second.value < 12 and whole <= 60:
        figure = Figure(
            i,
            end + as_inches,
            "length",
            feet,
            "ft",
            second=second.value,
            whole=whole,
            feet=Fraction(whole),
            rule="figure.bare_feet",
        )
        level = 1 if whole >= 10 and not as_inches else 2
        figure.doubts.append(
            Doubt(
                "two numbers",
                f"'{line.said(i, end)}' was read as {whole} ft {_mixed(second.value)}",
                line.span(i, end),
                level=level,
            )
        )
    elif (
        cents is not None
        and not zero
        and whole < 1000
        and not unit
        and _word(words, i - 1) not in label_nouns() | {"not"}
        and _word(words, end) not in words_of("figure_adjectives")
    ):
        figure = Figure(
            i, end, "money", whole + cents / 100, "$", second=second.value, whole=whole, rule="figure.cents"
        )
    else:
        return None
    return figure


def _is_whole(words: Sequence[str], i: int, end: int) -> bool:
    """Whether a whole number and no fraction stands at word `i` up to `end`."""
    number = numbers.number(words, i)
    return number is not None and number.end == end and not number.fraction


def _mixed(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def inches_text(value: Fraction) -> str:
    """Inches in lowest terms, as format_inches writes them."""
    whole, part = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    return f"{sign}{whole} {part}" if part else f"{sign}{whole}"


def _two_way(line: Line, i: int, j: int, taken: Fraction, other: Fraction) -> Doubt:
    said = line.said(i, j)
    return Doubt(
        "two-way",
        f"'{said}' can be {inches_text(taken)} or {inches_text(other)}",
        line.span(i, j),
        (inches_text(taken), inches_text(other)),
        level=3,
    )


def _rate_at(words: Sequence[str], j: int) -> tuple[str, int] | None:
    """What money is said for at word `j`: "a sheet" -> ("sheet", end)."""
    if _word(words, j) in ("a", "an", "per", "the", "for", "to"):
        k = j + 1
        if words[j] in ("for", "to"):
            if _word(words, k) not in ("a", "an", "the", "each", "every"):
                return None
            if words[j] == "to" or words[k] in ("each", "every"):
                return None
            return None
        two = " ".join(words[k : k + 2])
        if two in rate_nouns():
            return two.replace("feet", "foot"), k + 2
        one = _word(words, k)
        if one in rate_nouns() and words[j] != "the":
            if one in ("foot", "inch", "hour") and _word(words, k + 1) == "and" and numbers.fraction(words, k + 2):
                return None
            return one, k + 1
    return None


def _rate(line: Line, figure: Figure) -> None:
    """Marks a figure with what it is said for, where a rate follows it."""
    words = line.words
    if figure.kind not in ("number", "money", "length") or figure.unit not in ("", "$"):
        return
    if _shades().at(words, figure.j):
        return
    found = _rate_at(words, figure.j)
    if found and found[0] == "piece":
        figure.each, figure.j = True, found[1]
    elif found:
        figure.per, figure.j = found
        if figure.kind != "money" and figure.rule not in ("figure.bare_feet",):
            figure.kind = "money"
    elif _word(words, figure.j) in ("each", "apiece"):
        figure.each, figure.j = True, figure.j + 1
    elif words[figure.j : figure.j + 2] in (["a", "piece"], ["a", "pop"]):
        figure.each, figure.j = True, figure.j + 2


def _dress(line: Line, figure: Figure) -> None:
    """Takes in the hedges, shades and arithmetic that stand beside a figure."""
    words = line.words
    figure.words = (figure.i, figure.j)
    before, after = _hedges()
    changed = True
    while changed:
        changed = False
        hedge = before.ending_at(words, figure.i, 5)
        if hedge and not _place_at(words, hedge[1], figure.i):
            figure.approx, figure.i, changed = True, hedge[1], True
            continue
        if figure.kind in ("length", "number"):
            start = figure.i - 1 if _word(words, figure.i - 1) in ("a", "an") else figure.i
            shade = _shades().ending_at(words, start, 4) or _shades().ending_at(words, figure.i, 4)
            if shade:
                figure.shade, figure.i, changed = _as_shade(shade[0]), shade[1], True
                if _word(words, figure.i - 1) in ("a", "an"):
                    figure.i -= 1
        if _word(words, figure.i - 1) in ("a", "an") and figure.kind == "slope":
            figure.i -= 1
    if figure.kind not in ("length", "number", "slope", "percent", "degrees", "hours", "money", "board feet"):
        return
    changed = True
    while changed and figure.j < len(words):
        changed = False
        if figure.kind in ("length", "number"):
            sum_ = _arithmetic().at(words, figure.j)
            part = numbers.number(words, sum_[1]) if sum_ else None
            if sum_ and part and part.value < 12 and (part.fraction or units().get(_word(words, part.end)) == "in"):
                end = part.end + (units().get(_word(words, part.end)) == "in")
                if words[end : end + 3] == ["of", "an", "inch"]:
                    end += 3
                figure.value += sum_[0] * part.value * _in_unit(figure)
                figure.kind, figure.j, changed = "length", end, True
                figure.doubts.append(_worked(line, figure))
                continue
            shade = _shades().at(words, figure.j)
            if shade and shade[0] and not _starts_other(words, shade[1]):
                figure.shade, figure.j, changed = _as_shade(shade[0]), shade[1], True
                continue
            burned = _burned().at(words, figure.j + (_word(words, figure.j) in ("but", "i", "and")))
            if burned:
                figure.value -= _in_unit(figure)
                figure.kind, figure.j, changed = "length", burned[1], True
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


def _place_at(words: Sequence[str], i: int, j: int) -> bool:
    return False


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
    return end < len(words) and (numbers.number(words, end) is not None or words[end] in _counted())


def _share_units(line: Line) -> None:
    """ "Ten by twelve foot", "one point two metres by two point four": the unit said once counts for both."""
    figures = sorted(line.figures.values(), key=lambda f: f.i)
    for one, two in itertools.pairwise(figures):
        if line.words[one.j : two.i] != ["by"] or not {one.kind, two.kind} <= {"number", "length"}:
            continue
        if one.unit == "" and two.unit in _METRIC:
            one.kind, one.unit = "length", two.unit
        elif two.unit == "" and one.unit in _METRIC:
            two.kind, two.unit = "length", one.unit
        elif one.unit == "" and two.unit == "ft" and two.feet is not None and one.value < 60 and one.kind == "number":
            one.kind, one.unit, one.feet, one.value = "length", "ft", one.value, one.value * 12
        elif (
            two.unit == ""
            and one.unit == "ft"
            and one.feet is not None
            and one.value == one.feet * 12
            and two.kind == "number"
            and two.value <= 60
        ):
            two.kind, two.unit, two.feet, two.value = "length", "ft", two.value, two.value * 12


def number_like(words: Sequence[str], i: int) -> tuple[int, int] | None:
    """The whole number at word `i` and the index after it, or None: for names and for telling words from numbers."""
    if words[i] in ("a", "an"):
        return None
    whole = numbers.cardinal(words, i)
    return (whole[0], whole[1]) if whole else None


def burned_at(words: Sequence[str], i: int) -> int | None:
    """The index after "burned an inch" at word `i`."""
    found = _burned().at(words, i) if 0 <= i < len(words) else None
    return found[1] if found else None


def trailing_marks(line: Line, figure: Figure, k: int) -> int:
    """Takes in a hedge or shade said after the dimension ("long shy", "in diameter give or take"); the index after it."""
    words = line.words
    after = _hedges()[1]
    while k < len(words):
        hedge = after.at(words, k)
        shade = _shades().at(words, k)
        if hedge and not (words[k] in ("about", "roughly", "approximately", "ballpark") and k + 1 < len(words)):
            figure.approx, k = True, hedge[1]
        elif shade and not _starts_other(words, shade[1]):
            figure.shade, k = _as_shade(shade[0]), shade[1]
        else:
            break
    return k
