"""Shrinkage and swelling: what a board, a log wall or a stack of lumber loses as it dries.

Flat-sawn width goes by the tangential figure, quarter-sawn by the radial one; both are always shown. Along the grain: nothing.
"""

from __future__ import annotations

from fractions import Fraction

from journal.quantities.moisture import FIBRE_SATURATION
from journal.quantities.species import Wood

RULE_OF_THUMB_POINTS = 4  # points of moisture for 1 per cent of width across the grain (MOI-220)
ALONG_GRAIN = (0.1, 0.2)  # per cent green to ovendry, normal wood: shown as none (Wood Handbook, ch. 4; MOI-221)
SCRIBED_SETTLING = 6  # per cent of the height of a scribed green-log wall (ICC 400 and log-building practice; MOI-222)


def shrinkage_percent(green_to_dry: float, moisture: float, saturation: float = FIBRE_SATURATION) -> float:
    """Shrinkage from green in per cent of green size: S (30 - M)/30, none at or above saturation.

    Source: Wood Handbook, FPL-GTR-190, ch. 4 (MOI-212 to 216). ValueError for a moisture below nothing.
    """
    if moisture < 0:
        raise ValueError(f"a moisture of {moisture:g} % cannot be")
    return green_to_dry * max(saturation - moisture, 0.0) / saturation


def dried_width(width: Fraction, green_to_dry: float, wet: float, dry: float) -> Fraction:
    """Width in inches at `dry` per cent of a board that measures `width` at `wet` per cent.

    Size at any moisture is green size x (1 - S (30 - M)/30), which is the handbook's formula for greater changes
    (ch. 13: D (Mf - Mi)/(3000/S - 30 + Mi); MOI-217 to 219).
    """
    before = 1 - shrinkage_percent(green_to_dry, wet) / 100
    after = 1 - shrinkage_percent(green_to_dry, dry) / 100
    return width * Fraction(after) / Fraction(before)


def coefficient(green_to_dry: float, saturation: float = FIBRE_SATURATION, midpoint: float = 10.0) -> float:
    """Change per point of moisture from a green-to-dry shrinkage in per cent: (S/30)/(1 - 20 S/30) (MOI-203)."""
    share = green_to_dry / 100
    return (share / saturation) / (1 - (saturation - midpoint) * share / saturation)


def width_change(width: float, change_per_point: float, wet: float, dry: float) -> float:
    """Change in inches from one moisture to another between 6 and 14 %: D C (M2 - M1); plus is swelling.

    Source: Wood Handbook, ch. 13, Eq. 13-2 (MOI-204 to 211).
    """
    return width * change_per_point * (dry - wet)


def lumber_shrinkage(moisture: float) -> tuple[float, float]:
    """Shrinkage from green of width and thickness in per cent, most species: 6.031 - 0.215 M and 5.062 - 0.181 M.

    Source: FPL-RP-489, Green (1989), from 8 to 19 per cent, green taken as 28 (LUM-051 to 055).
    """
    return 6.031 - 0.215 * moisture, 5.062 - 0.181 * moisture


def shrinkage_both(wood: Wood, width: Fraction, wet: float, dry: float) -> tuple[Fraction, Fraction] | None:
    """The width in inches at `dry` per cent, flat-sawn and quarter-sawn; None where the handbook has no figure."""
    if wood.tangential is None or wood.radial is None:
        return None
    return dried_width(width, wood.tangential, wet, dry), dried_width(width, wood.radial, wet, dry)


def settling(height: Fraction, percent: Fraction) -> Fraction:
    """How far a log wall of this height comes down, in inches; the gap to leave over a frame and fill with nothing hard.

    Source: log-building practice and ICC 400 (6 % green scribed, 1 to 3 drier; MOI-222 to 226).
    """
    if percent < 0:
        raise ValueError("a wall does not settle upwards")
    return height * percent / 100
