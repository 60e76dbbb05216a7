"""Lumber: board feet on either basis, and what a nominal size measures once it is dressed.

Sizes to buy by are nominal, sizes to fit by are dressed or measured. Knows nothing of stock on hand.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from math import floor

from journal.lengths import FOOT

BOARD_FOOT_IN3 = 144  # 1 ft x 1 ft x 1 in.
HARDWOODS = frozenset(
    ("ash", "aspen", "basswood", "beech", "birch", "cherry", "chestnut", "elm", "hickory", "maple", "oak", "walnut")
)

_SECTION = re.compile(
    r"\s*(?P<quarters>\d+/4|\d+/8)?(?P<t>\d+(?:[ ]\d+/\d+|\.\d+)?)?\s*x\s*(?P<w>\d+(?:[ ]\d+/\d+|\.\d+)?)\s*"
)

_LARGEST = 36  # inches; a larger side is of a section said in millimetres
# PS 20 (American Softwood Lumber Standard), dry dressed sizes, as reprinted in design tables; 5/4 from a measured board
_DRESSED_WIDTHS = {2: "1 1/2", 3: "2 1/2", 4: "3 1/2", 5: "4 1/2", 6: "5 1/2"}
# PS 20, least dressed sizes of green lumber, from the Federal Register text of the standard
_GREEN_DRESSED = {1: "25/32", 2: "1 9/16", 3: "2 9/16", 4: "3 9/16", 6: "5 5/8", 8: "7 1/2", 10: "9 1/2", 12: "11 1/2"}


def mixed(text: str) -> Fraction:
    """The inches that a written size means ("1 1/8", "7.25", "5/4")."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


@lru_cache(1024)
def section_sizes(section: str) -> tuple[Fraction, Fraction]:
    """Thickness and width in inches of a section as said: "1x8", "5/4x6", "1 1/8x8 1/4". ValueError where it is none."""
    match = _SECTION.fullmatch(section)
    if match is None or (match["quarters"] is None) == (match["t"] is None):
        raise ValueError(f"'{section}' is no section: say it thickness first, such as 1x8")
    thickness, width = mixed(match["quarters"] or match["t"]), mixed(match["w"])
    if thickness <= 0 or width <= 0:
        raise ValueError(f"'{section}' is no section: it has a side of nothing")
    if thickness > _LARGEST or width > _LARGEST:
        raise ValueError(f"'{section}' is no section in inches: say a metric one in inches")
    return thickness, width


@lru_cache(1024)
def board_feet(section: str, length_ticks: int, count: Fraction | int = 1, *, actual: bool = False) -> Fraction:
    """Board feet of so many pieces: thickness x width x length in feet / 12 on nominal size, under 1 in. counting as 1.

    On actual (full-sawn) size nothing is raised to 1. Source: board-foot rule of the lumber trade as in PS 20 and the Navy
    training manuals (LUM-001 to 017). ValueError for a section or a length of nothing.
    """
    thickness, width = section_sizes(section)
    if length_ticks <= 0:
        raise ValueError(f"a {section} with no length has no board feet")
    counted = thickness if actual else max(thickness, Fraction(1))
    return counted * width * Fraction(length_ticks, FOOT) / 12 * count


def hardwood_tally(width: Fraction, length_ft: Fraction, thickness: Fraction) -> tuple[int, int]:
    """Surface measure in square feet and board feet of one hardwood board.

    Length cut down to the whole foot, width kept with its fraction, surface measure to the nearest whole square foot, then
    times the nominal thickness, to the nearest board foot. Source: measurement rules of the National Hardwood Lumber
    Association, 2019 (LUM-018 to 022).
    """
    surface = floor(width * floor(length_ft) / 12 + Fraction(1, 2))
    return surface, floor(surface * max(thickness, Fraction(1)) + Fraction(1, 2))


def dressed(section: str) -> tuple[Fraction, Fraction]:
    """The dry dressed thickness and width in inches of a nominal section; timbers 5 in. and thicker green, 1/2 in. off.

    Source: PS 20 as reprinted (LUM-023 to 043). ValueError for a section that is already a measured one.
    """
    thickness, width = section_sizes(section)
    if thickness >= 5:
        return thickness - Fraction(1, 2), width - Fraction(1, 2)
    return _dressed_thickness(thickness, section), _dressed_width(width, section)


def green_dressed(nominal: int) -> Fraction:
    """The least dressed size in inches of green lumber for a nominal thickness or width (PS 20; LUM-044 to 050)."""
    if nominal not in _GREEN_DRESSED:
        raise ValueError(f"no least green size is on record for a nominal {nominal} in.")
    return mixed(_GREEN_DRESSED[nominal])


def _dressed_thickness(nominal: Fraction, section: str) -> Fraction:
    if nominal == 1:
        return Fraction(3, 4)
    if nominal in (Fraction(5, 4), Fraction(6, 4)):
        return nominal - Fraction(1, 4)
    if nominal.denominator == 1:
        return nominal - Fraction(1, 2)
    raise ValueError(f"{section} is a measured size, not a nominal one: it has no dressed size")


def _dressed_width(nominal: Fraction, section: str) -> Fraction:
    if nominal.denominator != 1:
        raise ValueError(f"{section} is a measured size, not a nominal one: it has no dressed size")
    if nominal in _DRESSED_WIDTHS:
        return mixed(_DRESSED_WIDTHS[int(nominal)])
    return nominal - (Fraction(3, 4) if nominal >= 7 else Fraction(1, 2))
