"""Numbers that name things: "stud bay two", "course five and six", "boards one to four".

A number after such a noun is its name, unless it has a unit, a fraction or a dimension of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract import numbers
from journal.extract.inturn import numbered_in_turn
from journal.extract.numbers import number_words
from journal.extract.sets import words_of
from journal.extract.unitwords import label_nouns, units
from journal.extract.vocabulary import function_words, thing_words
from journal.grammar import table

_JOINTS = frozenset({"and", "to", "through", "thru", "or"})
# Readings that have a number where a copula follows it: "diagonal two is …".
_NUMBERED_READINGS = frozenset({"diagonal", "gap", "reveal", "overhang", "span"})
_NUMBERED_ELSE = _NUMBERED_READINGS | {"between"}
_OPENINGS = frozenset({"opening", "openings"})
_PLAIN_NUMBER_ENDS = frozenset(
    {"hundred", "thousand", "point", "by", "dozen", "oh", "zero", "or", "over", "penny", "each", "apiece", "per"}
)


@cache
def _adjectives() -> frozenset[str]:
    return frozenset(
        phrase.split()[0]
        for phrase in table("dimensions")["adjectives"]
        if phrase.split()[0]
        not in ("post", "to", "at", "on", "in", "out", "off", "across", "corner", "centre", "center")
    )


@cache
def _teens_up() -> frozenset[str]:
    """Number words from thirteen on: a room with a name of its own has no such number."""
    data = table("numbers")
    return frozenset(data["teens"]) - {"ten", "eleven", "twelve"} | frozenset(data["tens"])


@cache
def _plurals() -> frozenset[str]:
    from journal.extract.unitwords import plural

    return frozenset(plural(noun) for noun in table("figures")["labels"]["nouns"])


@cache
def _names_by_number() -> frozenset[str]:
    """The nouns of the tables that may have a number for their name."""
    return label_nouns() | frozenset(table("figures")["labels"]["numbered"])


@cache
def _rooms() -> frozenset[str]:
    return frozenset(table("places")["rooms"])


def find_labels(words: Sequence[str]) -> dict[int, tuple[int, str]]:
    """The names in figures, by the index of their first number word: the index after them and how they are written."""
    found: dict[int, tuple[int, str]] = {}
    in_turn, plurals = numbered_in_turn(words), _plurals()
    nouns = _names_by_number() | in_turn if in_turn else _names_by_number()
    if nouns.isdisjoint(words) and _NUMBERED_ELSE.isdisjoint(words):
        return found
    last, going = "", (0, "")
    read = "percent" in words or "moisture" in words
    for k, word in enumerate(words):
        if word == "between" and last and (pair := _label(words, k + 1, last, True)):
            found[k + 1] = (pair[0], f"{last} {pair[1]}")
            continue
        if (
            word == "between"
            and k + 2 < len(words)
            and words[k + 1] not in nouns
            and (row := _neighbours(words, k + 2))
        ):
            found[k + 2] = (
                row  # "between corbel three and four": two that are next to each other name what no table has
            )
            continue
        if (
            going[0]
            and (small := numbers.below_hundred(words, k)) is not None
            and small[0] == going[0]
            and not any(i <= k < j for i, (j, _) in found.items())
        ):
            following = words[small[1]] if small[1] < len(words) else ""
            second = _second(words, small[1] + 1, small[0]) if following in ("to", "and") else None
            if second is not None and second[0] == small[0] + 1:
                found[k] = (second[1], f"{last} {small[0]} {following} {second[0]}")
                going = (second[0], following)
                continue
        if word in _NUMBERED_READINGS and (named := numbers.below_hundred(words, k + 1)) is not None:
            if 0 < named[0] <= 12 and words[named[1] : named[1] + 1] in (["is"], ["'s"]):
                found[k + 1] = (named[1], f"{word} {named[0]}")
            continue
        if word not in nouns or k + 1 >= len(words) or words[k - 1 : k] == ["wrong"]:
            continue
        if (
            word in ("wall", "gable", "dormer", "roof", "deck", "dock", "floor")
            and k
            and words[k - 1] not in function_words()
            and not (words[k - 1] in words_of("wall_kinds") and _named_by_number(words, k + 1))
            and not (word == "dormer" and words[k - 1] in ("roof", "gable", "wall"))
        ):
            continue
        if word == "room" and k and words[k - 1] not in function_words() and words[k + 1] in _teens_up():
            continue  # "tack room eighteen" in a list of readings
        if word == "room" and k and f"{words[k - 1]} room" in _rooms() and "percent" in words[:k]:
            continue  # "… percent, tack room eighteen"
        if word == "opening" and k and words[k - 1] == "rough":
            continue  # "rough opening one eighty six by …"
        if (pair := _said_twice(words, k)) is not None:
            found[k + 1] = pair
            last, going = word, (int(pair[1].split()[2]), pair[1].split()[1])
            continue
        s = k + 1 + (words[k + 1] in ("number", "no") and k + 2 < len(words))
        label = _label(words, s, word, word in plurals)
        if label and (_is_priced(words, label) or _leads_on(words, k, label[0])):
            continue
        if label and (_is_counted(words, label, word in plurals) or (read and _is_read(words, k, label))):
            continue
        if label:
            found[s] = label
            last = word
            parts = label[1].split()
            going = (int(parts[2]), parts[1]) if len(parts) == 3 and parts[1] in ("to", "and") else going
    return found


def _said_twice(words: Sequence[str], k: int) -> tuple[int, str] | None:
    """ "The gap from purlin two to purlin three": a pair with its noun said twice, at the noun `k`."""
    first = numbers.below_hundred(words, k + 1)
    if first is None or words[first[1] : first[1] + 1] not in (["to"], ["and"]) or "gap" not in words[:k]:
        return None
    if words[first[1] + 1 : first[1] + 2] != [words[k]] or words[k - 1] not in ("from", "between", "of"):
        return None
    second = _second(words, first[1] + 2, first[0])
    joint = "and" if words[first[1]] == "and" else "to"
    return (second[1], f"{first[0]} {joint} {second[0]}") if second is not None else None


def _named_by_number(words: Sequence[str], s: int) -> bool:
    """ "Shear wall two is …", "party wall three stud": a number with nothing to measure in it behind a kind of wall."""
    small = numbers.below_hundred(words, s)
    following = words[small[1]] if small is not None and small[1] < len(words) else ""
    return following in ("is", "'s", "has", "needs", "wants") or following in thing_words()


def _leads_on(words: Sequence[str], k: int, end: int) -> bool:
    """ "Four hours in the lab two in the mess", "… degrees in the ward forty in the mess": the next of a list, and no name."""
    if words[end : end + 2] not in (["in", "the"], ["on", "the"], ["at", "the"]):
        return False
    led = words[k - 2 : k] in (["in", "the"], ["on", "the"], ["at", "the"])
    return led and not {"hours", "hour", "degrees"}.isdisjoint(words[:k])


def _is_priced(words: Sequence[str], label: tuple[int, str]) -> bool:
    """ "Mill stone eleven ninety five each": a price, and no name."""
    cents = numbers.below_hundred(words, label[0])
    return cents is not None and cents[0] >= 10 and words[cents[1] : cents[1] + 1] in (["each"], ["apiece"])


def _is_counted(words: Sequence[str], label: tuple[int, str], many: bool) -> bool:
    """ "Coping stones nineteen came": a count after its thing."""
    return many and label[1].isdigit() and words[label[0] : label[0] + 1] in _CAME


def _is_read(words: Sequence[str], k: int, label: tuple[int, str]) -> bool:
    """ "Moisture check deck beam seventeen bilge stringer twenty four": readings of things, whose numbers are no names."""
    end = label[0]
    if not label[1].isdigit() or int(label[1]) < 5 or words[k] in words_of("never_read"):
        return False
    following = words[end] if end < len(words) else ""
    led = set(words[max(0, k - 2) : k]) & {"on", "in", "at", "of", "the", "for"}
    if following == "":
        return not led
    if following in ("on", "in", "at") and words[end + 1 : end + 2] == ["the"]:
        return _read_before(words, k)
    if following == "and":
        return not led and words[end + 1 : end + 2] == ["the"]
    return following not in function_words() and following not in number_words() and not led


def _read_before(words: Sequence[str], k: int) -> bool:
    """ "… percent on the top rack nineteen on the middle rack twenty three": the thing of the reading before ends at word `k`."""
    for p in range(max(1, k - 4), k):
        if words[p] in ("on", "in", "at") and words[p + 1] == "the":
            return words[p - 1] == "percent" or words[p - 1] in number_words()
    return False


_CAME = (["came"], ["arrived"], ["left"], ["delivered"], ["used"], ["showed"], ["turned"])


def _label(words: Sequence[str], s: int, noun: str, many: bool) -> tuple[int, str] | None:
    first = numbers.below_hundred(words, s) or _digits(words, s)
    if first is None or first[0] == 0 or _is_fraction(words, first[1], first[0]):
        return None
    value, end, _ = first
    following = words[end] if end < len(words) else ""
    if following in _JOINTS:
        pair = _second(words, end + 1, value)
        if pair and (following != "or"):
            joint = "and" if following == "and" else "to"
            return pair[1], f"{value} {joint} {pair[0]}"
        if following == "and" and numbers.fraction(words, end + 1):
            return None
    if many:
        return _row(words, s)
    if (
        following == "hundred"
        and not _is_metric(words, s)
        and value > 1
        and value < 10
        and noun in ("board", "log", "stud", "joist", "rafter", "window", "bay", "piece", "plank")
    ):
        return end, str(value)
    named_point = following in ("long", "short") and words[end + 1 : end + 2] in (["point"], ["points"])
    if following == "by" and numbers.number(words, end + 1) is None:
        return end, str(value)
    if following in _PLAIN_NUMBER_ENDS or units().get(following) or (following in _adjectives() and not named_point):
        return None
    if following == "on" and words[end + 1 : end + 2] in (["centre"], ["center"], ["centres"], ["centers"]):
        return None
    if following in ("even", "dead", "flat", "exactly", "square", "percent", "degrees"):
        return None
    if following == "of" and units().get((list(words[end + 1 : end + 3]) or [""])[-1]):
        return None
    limit = 12 if noun in _OPENINGS else 60
    if value > limit or (following == "" and value > 20 and noun in ("window", "door", "hatch", "gate")):
        return None  # "sill height on the window thirty six": no house has so many
    if following == "board" and words[end + 1 : end + 2] in (["feet"], ["foot"]):
        return None
    return end, str(value)


def _is_metric(words: Sequence[str], s: int) -> bool:
    """Whether the whole number at word `s` has a unit of its own: "window nine hundred and sixty mil wide"."""
    whole = numbers.cardinal(words, s)
    return whole is not None and whole[1] < len(words) and words[whole[1]] in units()


def _row(words: Sequence[str], s: int) -> tuple[int, str] | None:
    """ "Boards six seven and eight": names that count up, with an "and" before the last."""
    names: list[int] = []
    k = s
    while (small := numbers.below_hundred(words, k)) is not None and (not names or small[0] == names[-1] + 1):
        names.append(small[0])
        k = small[1]
        if k < len(words) and words[k] == "and":
            last = _second(words, k + 1, names[-1])
            if last is not None and last[0] == names[-1] + 1 and len(names) > 1:
                return last[1], " ".join([*map(str, names), "and", str(last[0])])
            return None
    return None


def _digits(words: Sequence[str], s: int) -> tuple[int, int, int] | None:
    return (int(words[s]), s + 1, 0) if s < len(words) and words[s].isdecimal() and len(words[s]) < 3 else None


def _is_fraction(words: Sequence[str], i: int, value: int) -> bool:
    """Whether a fraction's lower part at `i` goes with `value`: never "five half an inch", where five is a name."""
    if not numbers.denominator(words, i):
        return False
    of_inch = words[i + 1 : i + 2] in (["an"], ["inch"]) or words[i + 1 : i + 3] == ["of", "an"]
    return not (value > 1 and words[i] in ("half", "quarter") and of_inch)


def _neighbours(words: Sequence[str], s: int) -> tuple[int, str] | None:
    """ "Three and four" at word `s`, where they are numbers in a row and no part of figures."""
    first = numbers.below_hundred(words, s)
    if first is None or words[first[1] : first[1] + 1] != ["and"]:
        return None
    second = _second(words, first[1] + 1, first[0])
    return (second[1], f"{first[0]} and {second[0]}") if second is not None and second[0] == first[0] + 1 else None


def _second(words: Sequence[str], i: int, first: int) -> tuple[int, int] | None:
    """The second number of a pair of names ("five and six"): greater than the first, no figure itself."""
    second = numbers.below_hundred(words, i) or _digits(words, i)
    if second is None or second[0] <= first or _is_fraction(words, second[1], second[0]):
        return None
    following = words[second[1]] if second[1] < len(words) else ""
    named_point = following in ("long", "short") and words[second[1] + 1 : second[1] + 2] in (["point"], ["points"])
    if units().get(following) or following in ("by", "hundred", "point"):
        return None
    if following in _adjectives() and not named_point:
        return None
    if following == "and" and numbers.fraction(words, second[1] + 1):
        return None
    if following in ("is", "'s") and second[0] > first + 4:
        return None  # "… on board two and forty one is the long point of …"
    return second[0], second[1]
