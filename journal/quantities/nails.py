"""Nails and lag screws by published size: lengths, diameters, pounds, penetration.

Arithmetic only: whether a fastener is enough is for the code and a licensed engineer, and is refused.
"""

from __future__ import annotations

import itertools
import re
from fractions import Fraction
from math import ceil, cos, floor, pi, radians

# ASTM F1667 common nails (as in NDS 2018, Table L4): penny -> length and shank diameter in inches, and nails per pound of a
# retail list (lists differ by up to 15 per cent)
_COMMON: dict[int, tuple[str, str, int]] = {
    2: ("1", "0.072", 875), 3: ("1 1/4", "0.080", 568), 4: ("1 1/2", "0.099", 315), 5: ("1 3/4", "0.099", 270),
    6: ("2", "0.113", 180), 7: ("2 1/4", "0.113", 160), 8: ("2 1/2", "0.131", 105), 9: ("2 3/4", "0.131", 95),
    10: ("3", "0.148", 70), 12: ("3 1/4", "0.148", 65), 16: ("3 1/2", "0.162", 50), 20: ("4", "0.192", 30),
    30: ("4 1/2", "0.207", 25), 40: ("5", "0.225", 17), 50: ("5 1/2", "0.244", 15), 60: ("6", "0.263", 10),
}  # fmt: skip
_BOX: dict[int, str] = {6: "0.099", 7: "0.099", 8: "0.113", 10: "0.128", 12: "0.128", 16: "0.135", 20: "0.148"}
_SINKER: dict[int, tuple[str, str]] = {
    8: ("2 3/8", "0.113"), 10: ("2 7/8", "0.120"), 12: ("3 1/8", "0.135"), 16: ("3 1/4", "0.148"), 20: ("3 3/4", "0.177"),
}  # fmt: skip

STEEL_LB_IN3 = 0.2836
# NDS 2018, sec. 12.1: least penetration in diameters (nails and wood screws with the tip, lag screws without it)
LEAST_DIAMETERS = {"nail": 6, "wood screw": 6, "lag screw": 4}
_PENNY = re.compile(r"\b(\d+)\s*(?:d\b|penny)", re.IGNORECASE)
_WORDS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12,
          "sixteen": 16, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60}  # fmt: skip


def penny_of(text: str | None) -> int | None:
    """The penny size in a name of nails ("8d common", "eight penny ring shank", "16 penny sinker"); None where none is."""
    if not text:
        return None
    if match := _PENNY.search(text):
        size = int(match[1])
    else:
        words = text.casefold().split()
        size = next((_WORDS.get(one, 0) for one, two in itertools.pairwise(words) if two == "penny"), 0)
    return size if size in _COMMON else None


def style_of(text: str | None) -> str:
    """ "sinker" or "box" where a name of nails says so, else "common"; box nails are told from a box of nails."""
    words = (text or "").casefold().split()
    if {"sinker", "sinkers"} & set(words):
        return "sinker"
    boxes = any(one == "box" and two in ("nail", "nails") for one, two in itertools.pairwise(words))
    return "box" if boxes else "common"


def nail_length(penny: int, *, sinker: bool = False) -> Fraction:
    """Length of a nail in inches by penny size; sinkers are shorter (FAS-001 to 016, 040 to 044)."""
    text = _SINKER[_known(penny, _SINKER)][0] if sinker else _COMMON[_known(penny, _COMMON)][0]
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def nail_diameter(penny: int, style: str = "common") -> Fraction:
    """Shank diameter in inches of a "common", "box" or "sinker" nail (ASTM F1667; FAS-017 to 044)."""
    if style == "common":
        return Fraction(_COMMON[_known(penny, _COMMON)][1])
    if style == "box":
        return Fraction(_BOX[_known(penny, _BOX)])
    if style == "sinker":
        return Fraction(_SINKER[_known(penny, _SINKER)][1])
    raise ValueError(f"no diameters are on record for {style} nails: common, box or sinker")


def nails_per_pound(penny: int, style: str = "common") -> int:
    """Nails a pound: the rounded list of common wire nails (FAS-045 to 060), else by the shank's volume, rounded down.

    Lists differ by up to 15 per cent. ValueError for a size of that style that is not on record.
    """
    if style == "common":
        return _COMMON[_known(penny, _COMMON)][2]
    run = nail_length(penny, sinker=style == "sinker")
    return floor(nails_per_pound_by_volume(float(nail_diameter(penny, style)), float(run)))


def nails_per_pound_by_volume(diameter_in: float, length_in: float) -> float:
    """Nails a pound from the shank's volume in steel of 0.2836 lb/in3, heads ignored (FAS-061 to 076)."""
    return 1 / (pi / 4 * diameter_in**2 * length_in * STEEL_LB_IN3)


def pounds(nails: int, waste_percent: Fraction, per_pound: int) -> Fraction:
    """Pounds of nails with waste, unrounded: buy the next whole pound."""
    if per_pound <= 0:
        raise ValueError("a pound of no nails cannot be")
    return nails * (1 + waste_percent / 100) / per_pound


# ---- counts ----------------------------------------------------------------------------------------------------------


def bearings(length: Fraction, spacing: Fraction) -> int:
    """How many supports a piece crosses: floor(length/spacing) + 1. ValueError for a spacing of nothing."""
    if spacing <= 0:
        raise ValueError("supports cannot be spaced at nothing")
    return floor(length / spacing) + 1


def panel_nails(width: int, height: int, stud: int, edge: int, field: int) -> int:
    """Nails in one upright panel in inches: edge spacing round the border, field spacing on inner studs, corners once.

    4 x 8 on studs at 16, 6 at edges, 12 in the field: 62 (FAS-103).
    """
    if min(width, height, stud, edge, field) <= 0:
        raise ValueError("a panel, its studs and its nail spacings are all more than nothing")
    border = 2 * (ceil(width / edge) + ceil(height / edge))
    inner_studs = ceil(width / stud) - 1
    return border + inner_studs * (ceil(height / field) - 1)


# ---- penetration -----------------------------------------------------------------------------------------------------


def penetration(nail: Fraction, *between: Fraction) -> Fraction:
    """Inches that a nail goes into the piece behind: its length less everything between, tip included.

    ValueError where it does not reach.
    """
    left = nail - sum(between, Fraction(0))
    if left <= 0:
        raise ValueError("the nail does not reach the piece behind")
    return left


def toenail_penetration(nail_in: float) -> float:
    """Inches of a toe nail in the main member, driven at 30 degrees a third of its length from the end: L - L/(3 cos 30).

    Source: NDS toe-nail rule (FAS-092 to 094).
    """
    return nail_in - nail_in / (3 * cos(radians(30)))


def least_penetration(kind: str, diameter_in: float) -> float:
    """Least penetration in inches of the NDS: six diameters for nails and wood screws, four for lag screws without the tip."""
    return LEAST_DIAMETERS[kind] * diameter_in


def _known(penny: int, table: object) -> int:
    if isinstance(table, dict) and penny in table:
        return penny
    raise ValueError(f"no {penny}d nail of that kind is on record")
