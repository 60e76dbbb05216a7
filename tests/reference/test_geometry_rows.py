"""Geometry and tape rows of the published check values: each formula against its table, within the table's own tolerance.

The source of every row stands beside it in values.json and is shown when the row fails.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from journal.quantities.gable import stud_difference
from journal.quantities.hip import hip_angle, hip_length, hip_run, jack_difference
from journal.quantities.layout import Profile
from journal.quantities.rafter import common_length, roof_area, slope_factor
from journal.quantities.slopes import roof_angle
from journal.quantities.square import corner_angle, diagonal, mean_diagonal, slide
from journal.quantities.tape import EC_CLASSES, tape_error, tape_growth

ROWS: list[dict[str, Any]] = json.loads(Path(__file__).with_name("values.json").read_text(encoding="utf-8"))["rows"]
README = Path(__file__).with_name("README.md")
Given = dict[str, Any]


def exact(number: float | str) -> Fraction:
    return Fraction(str(number))


def ratio(given: Given) -> Fraction:
    return exact(given["rise_in_per_12"]) / 12


def gable_area(given: Given) -> Fraction:
    base = exact(given.get("span_ft", given.get("base_ft")))
    rise = exact(given["height_ft"]) if "height_ft" in given else base / 2 * ratio(given)
    return Profile(base, rise, base / 2).area


def third_stud(given: Given) -> Fraction:
    first = exact(given["first_stud_at_in"]) * ratio(given)
    return first + 2 * stud_difference(exact(given["spacing_in"]), ratio(given))


def stud_sum(given: Given) -> Fraction:
    step = stud_difference(exact(given["spacing_in"]), ratio(given))
    count = int(exact(given["run_ft"]) * 12 / exact(given["spacing_in"]))
    return sum((k * step for k in range(1, count + 1)), Fraction(0))


def hip_of_rise(given: Given) -> Fraction:
    run = exact(given["common_run_ft"])
    return hip_length(run, exact(given["total_rise_ft"]) / run)


def diagonals_apart(given: Given) -> float:
    """Undo `slide`: the difference that makes it. The long way round, by the two diagonals themselves, is asserted too."""
    a, b, slid = exact(given["a_ft"]) * 12, exact(given["b_ft"]) * 12, exact(given["slide_in"])
    upright = float(b * b - slid * slid) ** 0.5
    long, short = (
        ((float(a) + float(slid)) ** 2 + upright**2) ** 0.5,
        ((float(a) - float(slid)) ** 2 + upright**2) ** 0.5,
    )
    assert float(slide(a, b, exact(repr(long - short)))) == pytest.approx(float(slid), abs=0.001)
    assert float(mean_diagonal(exact(repr(long)), exact(repr(short)))) == pytest.approx(float(diagonal(a, b)))
    return float(slid / slide(a, b, Fraction(1)))


def corner_off(given: Given) -> float:
    short = exact(given["short_leg_ft"]) * 12
    return corner_angle(short, short * 4 / 3, short * 5 / 3 + exact(given["e_in"])) - 90


# (subtopic, a pattern of the quantity) -> what the journal works out from the inputs, in the row's unit
WORKED: list[tuple[str, str, Callable[[Given], Any]]] = [
    ("common rafter per foot of run", "", lambda g: common_length(Fraction(12), ratio(g))),
    ("hip or valley per foot of common run", "", lambda g: hip_length(Fraction(12), ratio(g))),
    ("jack rafters", "", lambda g: jack_difference(exact(g["spacing_in"]), ratio(g))),
    ("gable studs", "", lambda g: stud_difference(exact(g["spacing_in"]), ratio(g))),
    ("plumb cut angle", "", lambda g: roof_angle(ratio(g))),
    ("hip plumb cut angle", "", lambda g: hip_angle(ratio(g))),
    ("slope factor", "", lambda g: slope_factor(ratio(g))),
    ("worked examples", "area of a triangular gable", gable_area),
    ("worked examples", "rise of the ridge", lambda g: exact(g["span_ft"]) / 2 * ratio(g)),
    ("worked examples", "roof surface", lambda g: roof_area(exact(g["span_ft"]) * exact(g["length_ft"]), ratio(g))),
    ("worked examples", "third gable stud", third_stud),
    ("worked examples", "sum of theoretical gable stud", stud_sum),
    ("worked examples", "line length of a common", lambda g: common_length(exact(g["run_ft"]) * 12, ratio(g))),
    ("worked examples", "total run of a hip", lambda g: hip_run(exact(g["common_run_ft"]))),
    ("worked examples", "line length of a hip", hip_of_rise),
    ("worked examples", "hip unit run", lambda g: hip_run(exact(g["unit_run_in"]))),
    ("EC tape classes", "maximum permissible error", lambda g: EC_CLASSES[g["class"]]),
    ("EC tape classes", "permissible error", lambda g: tape_error(g["class"], exact(g["L_m"]))),
    ("temperature", "", lambda g: tape_growth(exact(g["L_ft"]) * 12, exact(g["dT_F"]))),
    ("square check", "3-4-5", lambda g: diagonal(exact(g["a_ft"]), exact(g["b_ft"]))),
    ("square check", "diagonal of a rectangle", lambda g: diagonal(exact(g["a_ft"]), exact(g["b_ft"]))),
    ("square check", "difference of the diagonals", diagonals_apart),
    ("square check", "angle error", corner_off),
]  # fmt: skip


def worked(row: dict[str, Any]) -> Callable[[Given], Any] | None:
    for subtopic, pattern, work in WORKED:
        exactly = subtopic in ("jack rafters", "gable studs")
        same = row["subtopic"].startswith(subtopic) if exactly else row["subtopic"] == subtopic
        if same and row["quantity"].startswith(pattern):
            return work
    return None


USED = [row for row in ROWS if row["id"][:3] in ("GEO", "TAP") and worked(row)]


@pytest.mark.parametrize("row", USED, ids=lambda row: row["id"])
def test_a_geometry_row(row: dict[str, Any]) -> None:
    """What the journal works out agrees with the published figure within its tolerance."""
    work = worked(row)
    assert work is not None
    found = work(row["inputs"])
    for mine, theirs in zip(found, row["value"], strict=True) if isinstance(found, tuple) else [(found, row["value"])]:
        assert float(mine) == pytest.approx(theirs, abs=float(row["tolerance"]) or 1e-9), (
            f"{row['id']}: {row['source']}"
        )


def test_every_geometry_row_is_used_or_has_its_reason() -> None:
    """No row is passed over silently: those not worked out are named in the README of this folder."""
    here = {row["id"] for row in ROWS if row["id"][:3] in ("GEO", "TAP")}
    assert here - {row["id"] for row in USED} == here & set(_named(README.read_text(encoding="utf-8")))
    assert len(USED) == 167 + 47


def _named(text: str) -> list[str]:
    """Row ids in a text, ranges written out: "TAP-025 to TAP-031"."""
    ids: list[str] = []
    for first, last in re.findall(r"\b([A-Z]{3}-\d{3})(?: to ([A-Z]{3}-\d{3}))?", text):
        stop = int((last or first)[4:])
        ids += [f"{first[:3]}-{number:03d}" for number in range(int(first[4:]), stop + 1)]
    return ids
