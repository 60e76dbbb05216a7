"""Chinking and sealant: volumes of joints, packages, and what a cartridge or a pail covers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import pi
from typing import Literal

GALLON_IN3 = Fraction(231)  # U.S. gallon, exact
FLUID_OUNCE_IN3 = GALLON_IN3 / 128
MILLILITRE_IN3 = Fraction(1000000, 16387064)  # 1 in3 = 16.387064 cm3, exact
CARTRIDGE_IN3 = Fraction("10.1") * FLUID_OUNCE_IN3  # 10.1 fl oz, as sold (COV-066)
VERTICAL_SEAM_FACTOR = Fraction(5, 4)  # height of a seam that runs up against round logs (log-home makers; COV-107)

Bead = Literal["rectangle", "fillet", "round"]


def package_in3(size: Fraction, unit: str) -> Fraction:
    """Cubic inches of a package sold in "fl oz", "mL" or "gal" (exact; COV-065 to 075)."""
    sizes = {"fl oz": FLUID_OUNCE_IN3, "mL": MILLILITRE_IN3, "gal": GALLON_IN3}
    if unit not in sizes:
        raise ValueError(f"a package of sealant is sold in fl oz, mL or gal, not '{unit}'")
    return size * sizes[unit]


def bead_area(bead: Bead, width: float, depth: float = 0.0) -> float:
    """Area of a bead in square inches: width x depth, w^2/2 for a fillet of leg w, pi w^2/4 for a round one."""
    area = {"rectangle": width * depth, "fillet": width**2 / 2, "round": pi / 4 * width**2}[bead]
    if area <= 0:
        raise ValueError("a bead has a width and a depth of more than nothing")
    return area


def feet_per_package(package: Fraction, area_in2: float) -> float:
    """Feet of joint that a package fills (COV-076 to 103)."""
    if area_in2 <= 0:
        raise ValueError("a bead has a width and a depth of more than nothing")
    return float(package) / area_in2 / 12


def sealant_depth(joint_width: Fraction) -> Fraction:
    """Depth of sealant for a joint width in inches: half of it, at least 1/4, at most 1/2 (sealant maker's note; COV-104)."""
    return min(max(joint_width / 2, Fraction(1, 4)), Fraction(1, 2))


def chink_width(log_in: Fraction, percent: Fraction = Fraction(15)) -> Fraction:
    """Joint width in inches for a log of this diameter: 15 per cent of it (COV-105)."""
    return log_in * percent / 100


def joint_feet(wall_ft: Fraction, courses: int) -> Fraction:
    """Feet of joint on one face of a wall without openings: length x (courses - 1) (COV-106)."""
    if courses < 1:
        raise ValueError("a log wall has at least one course")
    return wall_ft * (courses - 1)


@dataclass(frozen=True, slots=True)
class Crossing:
    """An opening as the joints meet it, in inches from the bottom of the wall."""

    width: Fraction
    bottom: Fraction
    top: Fraction


def joints_crossed(crossing: Crossing, pitch: Fraction, courses: int) -> tuple[int, ...]:
    """The joints strictly between an opening's bottom and top; joint k lies k pitches above the bottom of the wall."""
    return tuple(k for k in range(1, courses) if crossing.bottom < k * pitch < crossing.top)


def joint_lengths(
    length: Fraction, height: Fraction, courses: int, openings: Iterable[Crossing]
) -> dict[int, Fraction]:
    """Inches of each joint of one face, openings taken out: joint k runs the wall less the openings that cross it.

    ValueError where the openings of one joint are wider than the wall.
    """
    if courses < 1:
        raise ValueError("a log wall has at least one course")
    pitch = height / courses
    runs = dict.fromkeys(range(1, courses), length)
    for crossing in openings:
        for k in joints_crossed(crossing, pitch, courses):
            runs[k] -= crossing.width
    if any(run < 0 for run in runs.values()):
        raise ValueError("the openings across one joint are wider than the wall")
    return runs


def joint_volume(runs: dict[int, Fraction], mean_gap: Fraction, depth: Fraction, own: dict[int, Fraction]) -> Fraction:
    """Cubic inches of chinking of one face: each joint at its own measured gap, at the mean of them where it has none."""
    return sum((run * own.get(k, mean_gap) * depth for k, run in runs.items()), Fraction(0))
