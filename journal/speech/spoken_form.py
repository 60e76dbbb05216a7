"""Text as an engine writes it, turned into the journal's form: lower-case words, numbers in words, no punctuation.

The words and signs are data (`grammars/spoken_form.toml`). Where a figure can be said in several ways the one is taken
that keeps every meaning open: "$2.85 a foot" and "285 a foot" both become "two eighty five a foot".
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import cache
from typing import Any, NamedTuple

from journal.grammar import table

_PIECE = re.compile(
    r"""(?P<money>\$\d[\d,]*(?:\.\d+)?)
    | (?P<clock>\d{1,2}:\d\d(?!\d))
    | (?P<fraction>\d+/\d+)(?:ths?|nds?|rds?)?
    | (?P<ordinal>\d+(?:st|nd|rd|th)(?P<plural>s?))(?![a-z])
    | (?P<several>\d+s)(?![a-z])
    | (?P<grouped>\d{1,3}(?:,\d{3})+)(?!\d)
    | (?P<decimal>\d+\.\d+)
    | (?P<whole>\d+)
    | (?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)
    | (?P<sign>''|[^\s\w])""",
    re.VERBOSE,
)
_DROPPED_MARKS = str.maketrans(
    {"’": "'", "‘": "'", "′": "'", "″": '"', "“": " ", "”": " ", "×": "x", "⁄": "/", "_": " "}
)
_JOINTS = ("-", "–", ".")
"""Marks that may stand between a figure and what belongs to it: 72-1/2, 12-ft."""


class Spoken(NamedTuple):
    """A word of the journal's form and the index of the written word that it came from."""

    word: str
    written: int


class _Piece(NamedTuple):
    kind: str
    text: str
    written: int


def spoken_text(written: str) -> str:
    """The journal's form of a written text: "Wall A, 72 1/2." is "wall a seventy two and a half"."""
    return " ".join(spoken.word for spoken in spoken_words(written.split()))


def spoken_words(written: Sequence[str]) -> list[Spoken]:
    """The journal's form of written words, each word with the index of the written one behind it."""
    pieces = [piece for index, word in enumerate(written) for piece in _pieces(word, index)]
    out: list[Spoken] = []
    for at, piece in enumerate(pieces):
        for word in _say(pieces, at, [spoken.word for spoken in out[-2:]]):
            out.append(Spoken(word, piece.written))
    return _repaired(out)


def number_words(number: int) -> str:
    """A whole number counted out: 1220 is "one thousand two hundred and twenty"."""
    numbers = table("spoken_form")["numbers"]
    if number < 20:
        return str(numbers["ones"][number])
    if number < 100:
        tens = str(numbers["tens"][number // 10 - 2])
        return tens if number % 10 == 0 else f"{tens} {number_words(number % 10)}"
    for size, name in ((1_000_000_000, "billion"), (1_000_000, "million"), (1_000, "thousand"), (100, "hundred")):
        if number >= size:
            rest = number % size
            joint = " and " if 0 < rest < 100 else " "
            return f"{number_words(number // size)} {name}" + (joint + number_words(rest) if rest else "")
    raise AssertionError(number)


def _pieces(written: str, index: int) -> list[_Piece]:
    plain = written.translate(_DROPPED_MARKS)
    # ½ and its like are a figure of their own: 72½ is 72 1/2
    plain = "".join(f" {unicodedata.normalize('NFKC', c)}" if unicodedata.category(c) == "No" else c for c in plain)
    plain = unicodedata.normalize("NFKD", plain).translate(_DROPPED_MARKS).lower()
    plain = unicodedata.normalize("NFC", "".join(c for c in plain if not unicodedata.combining(c)))
    plain = re.sub(r"(?<=[a-z])\.(?=[a-z](?:\.|$))", "", plain)  # o.c. and a.m. are words
    return [
        _Piece(str(m.lastgroup if m.lastgroup != "plural" else "ordinal"), m[0], index) for m in _PIECE.finditer(plain)
    ]


def _say(pieces: list[_Piece], at: int, before: list[str]) -> list[str]:
    """The words for one piece; `before` are the last words already said."""
    rules = table("spoken_form")
    kind, text, _ = pieces[at]
    following = next((p for p in pieces[at + 1 :] if p.kind != "sign" or p.text in ("%", "°", "$")), None)
    last = at - 1
    if last > 0 and pieces[last].text in _JOINTS:
        last -= 1
    after_figure = last >= 0 and pieces[last].kind not in ("word", "sign")
    match kind:
        case "money":
            return _say_money(text[1:].replace(",", ""), following).split()
        case "clock":
            hours, minutes = text.split(":")
            return [*number_words(int(hours)).split(), *(_pair(minutes).split() if minutes != "00" else ())]
        case "fraction":
            return _say_fraction(text, before, after_figure).split()
        case "ordinal":
            return _say_ordinal(int(re.match(r"\d+", text)[0]), several=text.endswith("s")).split()  # type: ignore[index]
        case "several":
            repaired = _means(text, before)
            return (repaired or f"{_say_whole(text[:-1], None)}s").split()
        case "grouped":
            return number_words(int(text.replace(",", ""))).split()
        case "decimal":
            return _say_decimal(text, [p.text for p in pieces[:at]]).split()
        case "whole":
            return _say_whole(text, following).split()
        case "sign":
            signs = rules["symbols"]
            if text == "''":
                text = '"'
            closing = after_figure and not (text == "'" and following and following.text in ("s", "t"))
            said = signs["after_figure"].get(text) if closing else None
            return str(said or signs["anywhere"].get(text, "")).split()
        case _:
            if after_figure:
                text = str(rules["short"].get(text, text))
            elif text in ("f", "c") and before and before[-1] == "degrees":
                text = str(rules["short"][text])
            return str(rules["spellings"].get(text, text)).split()


def _say_whole(digits: str, following: _Piece | None) -> str:
    number = int(digits)
    if digits != str(number):
        return " ".join(table("spoken_form")["numbers"]["oh"] if d == "0" else number_words(int(d)) for d in digits)
    if following is not None:
        counted = table("spoken_form")["short"].get(following.text, following.text)
        if counted in table("spoken_form")["counted"]["units"]:
            if number > 1000 and number % 1000 and number < 10_000:
                rest = f" and {number_words(number % 100)}" if number % 100 else ""
                return f"{number_words(number // 100)} hundred{rest}" if number // 100 % 10 else number_words(number)
            return number_words(number)
    if number < 100 or number > 9999 or number % 1000 == 0:
        return number_words(number)
    if number % 100 == 0:
        return f"{number_words(number // 100)} hundred"
    return f"{number_words(number // 100)} {_pair(digits[-2:])}"


def _pair(two_digits: str) -> str:
    """Two digits as the second half of a figure said in pairs: "05" is "oh five"."""
    if two_digits[0] == "0":
        oh = str(table("spoken_form")["numbers"]["oh"])
        return f"{oh} {number_words(int(two_digits[1]))}" if two_digits[1] != "0" else f"{oh} {oh}"
    return number_words(int(two_digits))


def _say_money(amount: str, following: _Piece | None) -> str:
    money: dict[str, Any] = table("spoken_form")["money"]
    whole, _, part = amount.partition(".")
    dollars, cents = int(whole or 0), int(part.ljust(2, "0")[:2] or 0)
    named = following is not None and following.text in money["dollar"]
    unit = "" if named else f" {money['dollar'][dollars != 1]}"
    if not cents:
        return f"{number_words(dollars)}{unit}"
    below = f"{number_words(cents)} {money['cent'][cents != 1]}"
    if not dollars:
        return below
    if named or (following is not None and following.text in money["rate"]):
        return f"{number_words(dollars)} {_pair(f'{cents:02d}')}"
    return f"{number_words(dollars)} {money['dollar'][dollars != 1]} and {below}"


def _say_fraction(text: str, before: list[str], after_figure: bool) -> str:
    rules = table("spoken_form")
    above, below = (int(n) for n in text.rstrip("thsndr").split("/"))
    names = rules["fractions"].get(str(below))
    if below == rules["over"]["quarters"] and above > below:
        return f"{number_words(above)} {names[0]}"
    if names is None or above >= below:
        return f"{number_words(above)} {number_words(below)}"
    joined = bool(before) and before[-1] == "and"
    if above > 1:
        said = f"{number_words(above)} {names[1]}"
    else:
        article = "an" if names[0][0] in "aeiou" else "a"
        said = f"{article} {names[0]}" if not (before and before[-1] in ("a", "an")) else str(names[0])
    return f"and {said}" if after_figure and not joined else said


def _say_ordinal(number: int, *, several: bool) -> str:
    rules = table("spoken_form")
    if several and str(number) in rules["fractions"]:
        return str(rules["fractions"][str(number)][1])
    *rest, last = number_words(number).split()
    irregular = rules["ordinals"]["irregular"]
    named = irregular.get(last) or (f"{last[:-1]}ieth" if last.endswith("y") else f"{last}th")
    return " ".join([*rest, named]) + ("s" if several else "")


def _say_decimal(text: str, before: list[str]) -> str:
    rules = table("spoken_form")
    whole, _, part = text.partition(".")
    sloping = set(rules["slope_words"]["before"]) & set(before[-rules["slope_words"]["within"] :])
    if sloping and len(part) == 2 and int(part) in rules["over"]["slopes"]:
        return f"{number_words(int(whole))} {number_words(int(part))}"
    digits = " ".join(number_words(int(d)) for d in part)
    return f"point {digits}" if int(whole) == 0 else f"{_say_whole(str(int(whole)), None)} point {digits}"


class _Repair(NamedTuple):
    heard: tuple[str, ...]
    means: tuple[str, ...]
    after: frozenset[str]


@cache
def _repairs() -> list[_Repair]:
    """The repairs of the table, the longest first."""
    rules = table("spoken_form")
    figure = {*rules["numbers"]["ones"], *rules["numbers"]["tens"], rules["numbers"]["oh"], "hundred"}
    figure |= {word for names in rules["fractions"].values() for name in names for word in name.split()}
    repairs = [
        _Repair(tuple(heard.split()), tuple(rule["means"].split()), frozenset(rule.get("after", figure)))
        for rule in rules["repairs"]
        for heard in rule["heard"]
    ]
    return sorted(repairs, key=lambda repair: -len(repair.heard))


def _means(heard: str, before: list[str]) -> str | None:
    """What a word of its own kind ("16s") stands for after these words."""
    for repair in _repairs():
        if repair.heard == (heard,) and before and before[-1] in repair.after:
            return " ".join(repair.means)
    return None


def _repaired(spoken: list[Spoken]) -> list[Spoken]:
    out: list[Spoken] = []
    at = 0
    while at < len(spoken):
        for repair in _repairs():
            size = len(repair.heard)
            stretch = tuple(s.word for s in spoken[at : at + size])
            if stretch == repair.heard and out and out[-1].word in repair.after:
                # a word put right keeps the written word that it was heard as
                last = len(spoken[at : at + size]) - 1
                out.extend(Spoken(word, spoken[at + min(i, last)].written) for i, word in enumerate(repair.means))
                at += size
                break
        else:
            out.append(spoken[at])
            at += 1
    return out
