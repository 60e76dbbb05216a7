"""How likely a figure was misheard, from all that is known of it; the weights are data (`doubting.toml`).

Knows words and numbers only, no engine. How the weights were found: `tests/bench/speech/fit_doubts.py`.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from journal.grammar import table
from journal.records import Doubt, Heard, Span
from journal.speech.phrasing import phrases
from journal.speech.readings import as_figures, bare_figure, borrowed, figure_stretches, partners, region_of
from journal.speech.words import figure_words

WEIGHTS = Path(__file__).parent / "doubting.toml"
_CLEAR_DB, _CLEAR_WITHIN = 18.0, 3.0
"""Speech this far above the noise counts as half clear; so much more or less makes most of the difference."""
_LEAST = 1e-4
_MOST_CLOSE = 8.0
_USUAL_SURPRISE = 4.0
"""How unexpected the end of a text counts as."""
_FINE = 8
"""From eighths on, fractions are said in their lowest terms."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure that was heard: words `first` to `last`, the signs that it may be wrong, what else was heard in its place."""

    first: int
    last: int
    signs: Mapping[str, float]
    others: tuple[str, ...]


def figures(heard: Heard, second: str | None, clear_by: float) -> list[Figure]:
    """Every figure of what was heard, with its signs.

    `second` is what the second engine made of the sound (None: not asked), `clear_by` how far the speech lies above the noise
    in decibels.
    """
    words = as_figures(heard.text.split())
    sure = [math.log(max(_LEAST, word.confidence or 1.0)) for word in heard.words] or [0.0] * len(words)
    clear = 1 / (1 + math.exp(-(clear_by - _CLEAR_DB) / _CLEAR_WITHIN))
    odd, odd_in_trade = phrases().surprise(words), phrases().surprise(words, trade_only=True)
    readings = list(zip(heard.behind, map(_words, heard.readings), strict=False))
    found = []
    for first, last in figure_stretches(words):
        own = bare_figure(words[first:last])
        agreeing: list[float] = [0.0]
        differing: list[float] = []
        others: list[str] = []
        for behind, reading in readings:
            how, there = _in_place_of(words, reading, first, last)
            (agreeing if how == "same" else differing).append(behind)
            if how != "same" and there:
                others.append(there)
        beside = sure[max(0, first - 2) : first] + sure[last : last + 2]
        signs = {
            "close": _MOST_CLOSE - min(_MOST_CLOSE, _sum(agreeing) - _sum(differing)) if differing else 0.0,
            "unsure": -min(sure[first:last]),
            "unsure_beside": -min(beside, default=0.0),
            "unsure_whole": -sum(sure) / len(sure),
            "odd": max(odd[first:last]),
            "odd_after": max(odd_in_trade[last : last + 2], default=_USUAL_SURPRISE),
            "noise": 1 - clear,
            "length": math.log(last - first),
            "alone": float(last - first == 1),
            "broken": float(broken(words[first:last])),
            "headless": float(headless(words, first, last)),
            "mixed_up": float(any(word in _mixed_up() for word in own)),
        }
        if second is not None:
            how, there = _in_place_of(words, _words(second), first, last)
            if how != "same" and there:
                others.insert(0, there)
            signs["second_more"] = float(how == "more")
            for kind in ("other", "lacks"):
                signs[f"second_{kind}"] = float(how == kind) * clear
                signs[f"second_{kind}_in_noise"] = float(how == kind) * (1 - clear)
        found.append(Figure(first, last, signs, tuple(dict.fromkeys(others))))
    return found


def chance_wrong(signs: Mapping[str, float]) -> float:
    """How likely a figure with these signs is wrong, 0 to 1."""
    weights = _table()["weights"]
    total = weights["always"] + sum(weights[name] * sign for name, sign in signs.items())
    return 1 / (1 + math.exp(-total))


def doubts_of(heard: Heard, found: Sequence[Figure]) -> list[Doubt]:
    """A doubt for each figure that is likelier wrong than the limit, with what else was heard in its place."""
    limits = _table()["limits"]
    words = heard.text.split()
    doubts = []
    for figure in found:
        chance, noise = chance_wrong(figure.signs), figure.signs["noise"]
        if chance < limits["quiet"] + noise * (limits["noise"] - limits["quiet"]):
            continue
        said = " ".join(words[figure.first : figure.last])
        others = tuple(other for other in figure.others if other != said)
        shown = f"'{said}' may be {' or '.join(map(repr, others))}" if others else f"'{said}' was not heard clearly"
        start = sum(len(word) + 1 for word in words[: figure.first])
        level = 2 if chance >= limits["ordinary"] else 1
        doubts.append(Doubt("heard", shown, Span(start, start + len(said)), others, level))
    return doubts


def broken(figure: Sequence[str]) -> bool:
    """Whether nobody says a figure so: "half and a half", "thirty eighths", "eighths" of nothing, "four eighths"."""
    below = _below_the_line()
    names = table("spoken_form")["numbers"]["ones"]
    for at, word in enumerate(figure):
        if word not in below:
            continue
        before = [said for said in figure[:at] if said not in ("and", "a", "an")]
        bare = at == 0 or figure[at - 1] in ("and", "a", "an")
        if before and before[-1] in below and bare:
            return True
        if below[word] < _FINE:
            continue
        if bare:
            if word.endswith("s"):
                return True
        elif figure[at - 1] in below or figure[at - 1] not in names[1 : below[word] : 2]:
            return True
    return False


def headless(words: Sequence[str], first: int, last: int) -> bool:
    """Whether a figure goes on from one that is not there: "gate and a quarter" for "thirty eight and a quarter"."""
    at = first - 1 - (first > 0 and words[first - 1] in ("a", "an"))
    if at < 1 or words[at] != "and" or words[last - 1] not in _below_the_line():
        return False
    return words[at - 1] not in figure_words() and words[at - 1] not in table("figures")["units"]


def _in_place_of(words: list[str], other: list[str], first: int, last: int) -> tuple[str, str]:
    """What another reading has in place of a figure, and its words there from the first to the last of a figure.

    "same", "other" or "lacks"; "more" where it is the same figure and the words beside it were heard as more of it.
    """
    there = partners(words, other)
    region = other[slice(*region_of(there, len(other), first, last))]
    own, instead = bare_figure(words[first:last]), bare_figure(region)
    stretches = figure_stretches(region)
    said = " ".join(region[stretches[0][0] : stretches[-1][1]]) if stretches else ""
    if own == instead:
        return "same", said
    if not instead:
        return "lacks", ""
    return "more" if borrowed(there, len(words), first, last, own, instead) else "other", said


@cache
def _below_the_line() -> dict[str, int]:
    """What may stand below the line of a fraction, in one word, and how many of it make a whole."""
    named = table("spoken_form")["fractions"].items()
    return {name: int(size) for size, names in named for name in names if " " not in name}


def _words(text: str) -> list[str]:
    return as_figures(text.split())


def _sum(logs: list[float]) -> float:
    top = max(logs)
    return top + math.log(sum(math.exp(one - top) for one in logs))


@cache
def _mixed_up() -> frozenset[str]:
    return frozenset(_table()["mixed_up"]["words"])


@cache
def _table() -> dict[str, dict[str, Any]]:
    with WEIGHTS.open("rb") as file:
        return tomllib.load(file)
