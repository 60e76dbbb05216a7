"""Coverage: siding by its exposed face, sheets, batts, felt and wrap, insulation value.

Boards cover their face, not their nominal width; purchases are rounded up to the package.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

# R per inch, low and high, by material: Home Energy (1997) after a DOE fact sheet and ASHRAE Fundamentals (1993), and a second
# published list where it differs (COV-029 to 045); ranges, never one number
R_PER_INCH: dict[str, tuple[float, float]] = {
    "expanded polystyrene board": (3.6, 4.2),
    "extruded polystyrene board": (4.5, 5.0),
    "polyisocyanurate board": (5.6, 7.0),
    "polyurethane board": (5.6, 7.0),
    "fiberglass batt": (2.9, 3.8),
    "cellulose, loose": (3.1, 3.7),
    "cellulose, dense pack": (3.4, 3.6),
    "fiberglass, loose": (2.2, 2.9),
    "rock wool, loose": (2.2, 2.9),
    "mineral wool, loose": (2.7, 3.0),
    "cotton batt": (3.0, 3.7),
    "sprayed polyurethane foam": (5.6, 6.2),
    "softwood": (1.25, 1.41),
    "hardwood": (0.71, 0.91),
}


def lineal_factor(face: Fraction) -> Fraction:
    """Feet of board for a square foot: 12 / exposed face. Source: WWPA coverage estimator (COV-001 to 023)."""
    if face <= 0:
        raise ValueError("a board that covers nothing covers no wall")
    return 12 / face


def board_foot_factor(thickness: Fraction, nominal_width: Fraction, face: Fraction) -> Fraction:
    """Board feet for a square foot: thickness x nominal width / exposed face (WWPA; COV-001 to 016)."""
    if face <= 0:
        raise ValueError("a board that covers nothing covers no wall")
    return max(thickness, Fraction(1)) * nominal_width / face


def lineal_feet(area_ft2: Fraction, face: Fraction, waste_percent: Fraction = Fraction(0)) -> Fraction:
    """Feet of board for an area, the waste added to the area first (WWPA; COV-024 to 028)."""
    return area_ft2 * (1 + waste_percent / 100) * lineal_factor(face)


def sheet_area_ft2(size: str) -> Fraction:
    """Square feet of a sheet by its size in feet: "4x8" is 32. ValueError where it is no size."""
    width, by, height = size.partition("x")
    try:
        area = Fraction(width) * Fraction(height)
    except ValueError:
        area = Fraction(0)
    if not by or area <= 0:
        raise ValueError(f"'{size}' is no size of a sheet: say it in feet, such as 4x8")
    return area


def whole_sheets(area_ft2: Fraction, sheet_ft2: Fraction, waste_percent: Fraction = Fraction(0)) -> int:
    """Sheets or batts for an area, rounded up: a floor that a layout replaces (COV-055 to 064)."""
    if sheet_ft2 <= 0:
        raise ValueError("a sheet of no area covers nothing")
    return max(ceil(area_ft2 * (1 + waste_percent / 100) / sheet_ft2), 0)


def insulation_value(material: str, thickness: Fraction) -> tuple[float, float]:
    """R in ft2 h F/Btu of a layer, low and high; ValueError for a material without a figure on record."""
    if material not in R_PER_INCH:
        raise ValueError(f"no R per inch is on record for '{material}'")
    low, high = R_PER_INCH[material]
    return float(thickness) * low, float(thickness) * high


def insulation_material(said: str | None) -> str | None:
    """The material of `R_PER_INCH` that a spoken name means; None where it fits none or several."""
    words = {"foam": "extruded polystyrene board", "foam board": "extruded polystyrene board"}
    name = " ".join((said or "").casefold().split())
    if not name:
        return None
    if name in words:
        return words[name]
    wanted = set(name.split())
    found = [material for material in R_PER_INCH if wanted & set(material.replace(",", "").split()) >= wanted]
    return found[0] if len(found) == 1 else None


@dataclass(frozen=True, slots=True)
class Strips:
    """Felt or wrap hung level: strips up the wall, end joints in each, inches in all."""

    strips: int
    joints: int
    length: Fraction


def strips(
    wall_length: Fraction,
    wall_height: Fraction,
    roll_width: Fraction,
    roll_length: Fraction,
    level_lap: Fraction = Fraction(2),
    end_lap: Fraction = Fraction(6),
) -> Strips:
    """Strips of felt or wrap for a wall: ceil((H - w)/(w - lap)) + 1, each the wall's length plus a lap at each end joint.

    Laps 2 in. level and 6 in. at ends (IRC R703.2 as read). H 98, 36-in. felt: 3 strips. ValueError for a roll no wider than
    its lap, or a strip that a roll cannot end.
    """
    if roll_width <= level_lap or roll_length <= end_lap:
        raise ValueError("a roll has to be wider and longer than its laps")
    if wall_length <= 0 or wall_height <= 0:
        raise ValueError("a wall of no size needs no felt")
    count = max(ceil((wall_height - roll_width) / (roll_width - level_lap)), 0) + 1
    joints = max(ceil((wall_length - roll_length) / (roll_length - end_lap)), 0)
    return Strips(count, joints, count * (wall_length + joints * end_lap))
