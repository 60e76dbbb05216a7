"""Round logs: board feet by a named log rule, cubic volume, cants, weight.

The rules differ twofold on small logs, so every figure names its rule and none is ever mixed with another.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor, pi, sqrt

from journal.quantities.species import Wood

RULES = ("Doyle", "Scribner formula", "Scribner", "Scribner Decimal C", "International 1/4")
WATER_LB_FT3 = 62.4

# Forest Service, National Volume Estimator Library, routine SCRIB (2003): board feet per foot of log, by diameter in inches
_SCRIBNER_FACTORS = {
    8: 1.854, 10: 3.542, 12: 4.9, 14: 7.14, 16: 10.0, 18: 13.29, 20: 17.499, 22: 20.88, 24: 25.218, 26: 31.249,
    28: 36.376, 30: 41.06,
}  # fmt: skip


def log_board_feet(rule: str, diameter_in: float, length_ft: float) -> float:
    """Board feet of a log by a rule of `RULES`, from the diameter inside the bark at the small end; unrounded.

    Doyle (D-4)^2 L/16; Scribner formula (0.79 D^2 - 2 D - 4) L/16 (a regression, not the table); Scribner by the Forest
    Service factors; Decimal C the same to the nearest ten; International 1/4-in. by 4-ft pieces. ValueError for a rule,
    diameter or length that the rule does not cover.
    """
    if diameter_in <= 0 or length_ft <= 0:
        raise ValueError(f"a log of {diameter_in:g} in. by {length_ft:g} ft has no volume")
    if rule == "Doyle":
        if diameter_in <= 4:
            raise ValueError(f"the Doyle rule gives nothing for a log of {diameter_in:g} in.: it starts above 4 in.")
        return (diameter_in - 4) ** 2 * length_ft / 16
    if rule == "Scribner formula":
        return _positive((0.79 * diameter_in**2 - 2 * diameter_in - 4) * length_ft / 16, rule, diameter_in)
    if rule in ("Scribner", "Scribner Decimal C"):
        feet = scribner_factor(diameter_in) * length_ft
        return feet if rule == "Scribner" else 10.0 * floor(feet / 10 + 0.5)
    if rule == "International 1/4":
        return international(diameter_in, length_ft)
    raise ValueError(f"'{rule}' is no log rule known here: say {', '.join(RULES[:-1])} or {RULES[-1]}")


def scribner_factor(diameter_in: float) -> float:
    """Board feet per foot of log from the Forest Service factors; ValueError for a diameter that the list lacks."""
    if diameter_in not in _SCRIBNER_FACTORS:
        raise ValueError(
            f"no Scribner factor is on record for {diameter_in:g} in.: even diameters from 8 to 30 in. only"
        )
    return _SCRIBNER_FACTORS[int(diameter_in)]


def international(diameter_in: float, length_ft: float) -> float:
    """Board feet by the International 1/4-in. rule: 0.905 (0.22 D^2 - 0.71 D) for each 4 ft, 1/2 in. of taper each.

    A rest of less than 4 ft counts its share of a piece at the small end. Source: Forest Service routine INTL14
    (LUM-121 to 142). ValueError below the diameter where the rule gives anything.
    """
    whole, rest = divmod(length_ft, 4)
    pieces = [_international_piece(diameter_in + Fraction(step, 2)) for step in range(int(whole))]
    pieces.append(_international_piece(diameter_in) * rest / 4)
    return _positive(sum(pieces), "International 1/4", diameter_in)


def _international_piece(diameter_in: float | Fraction) -> float:
    across = float(diameter_in)
    return 0.905 * (0.22 * across**2 - 0.71 * across)


def _positive(feet: float, rule: str, diameter_in: float) -> float:
    if feet <= 0:
        raise ValueError(f"the {rule} rule gives nothing for a log of {diameter_in:g} in.")
    return feet


def to_nearest_five(feet: float) -> int:
    """Board feet to the nearest five, as the International rule is printed."""
    return 5 * floor(feet / 5 + 0.5)


# ---- cubic volume ----------------------------------------------------------------------------------------------------


def end_area_ft2(diameter_in: float) -> float:
    """Area of a round end in square feet: pi/576 of the diameter in inches squared (the basal-area constant)."""
    return pi / 576 * diameter_in**2


def smalian_ft3(small_in: float, large_in: float, length_ft: float) -> float:
    """Cubic feet of a log by Smalian: mean of the end areas x length."""
    return (end_area_ft2(small_in) + end_area_ft2(large_in)) / 2 * length_ft


def huber_ft3(middle_in: float, length_ft: float) -> float:
    """Cubic feet of a log by Huber: area in the middle x length."""
    return end_area_ft2(middle_in) * length_ft


def frustum_ft3(small_in: float, large_in: float, length_ft: float) -> float:
    """Cubic feet of a log as the frustum of a cone, exactly."""
    return pi / 576 / 3 * (small_in**2 + small_in * large_in + large_in**2) * length_ft


# ---- cants -----------------------------------------------------------------------------------------------------------


def largest_square(diameter_in: float) -> float:
    """Side in inches of the largest square that a round log holds: D / sqrt 2."""
    return diameter_in / sqrt(2)


def flat_depth(diameter_in: float, flat_in: float) -> float:
    """Depth in inches lost in sawing a flat of this width on a round log; ValueError where the flat is too wide."""
    if not 0 < flat_in <= diameter_in:
        raise ValueError(f"a flat of {flat_in:g} in. does not fit a log of {diameter_in:g} in.")
    return (diameter_in - sqrt(diameter_in**2 - flat_in**2)) / 2


def round_log_gap(diameter_in: float, distance_in: float) -> float:
    """Gap in inches between two round logs that touch, at a distance from the line of contact."""
    if not 0 <= distance_in <= diameter_in / 2:
        raise ValueError(f"{distance_in:g} in. from the contact is outside a log of {diameter_in:g} in.")
    return diameter_in - sqrt(diameter_in**2 - 4 * distance_in**2)


# ---- weight ----------------------------------------------------------------------------------------------------------


def weight_per_ft3(gravity: float, moisture: float) -> float:
    """Pounds a cubic foot: 62.4 G (1 + M/100), green volume. Source: Wood Handbook, ch. 4 (MOI-263 to 266)."""
    return WATER_LB_FT3 * gravity * (1 + moisture / 100)


def weight_lb(wood: Wood, volume_ft3: float, moisture: float) -> float | None:
    """Pounds of so much wood at a moisture content; None where no specific gravity is on record. Real logs: +-25 %."""
    return None if wood.gravity is None else weight_per_ft3(wood.gravity, moisture) * volume_ft3
