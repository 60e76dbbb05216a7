"""Log walls: courses, joints and chinking, settling over openings, sealant round them.

A place is a log wall once a course, a gap between courses or a depth of chinking was said of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    Taken,
    assumption,
    length,
    memo_names,
    number,
    quantity,
    show_length,
)
from journal.quantities.book import once
from journal.quantities.cautions import SETTLING
from journal.quantities.openings import openings
from journal.quantities.sealing import (
    FLUID_OUNCE_IN3,
    GALLON_IN3,
    Crossing,
    joint_lengths,
    joint_volume,
    sealant_depth,
)
from journal.quantities.shrinkage import SCRIBED_SETTLING
from journal.quantities.shrinkage import settling as settles
from journal.quantities.wall import wall_height

assumption("chinking waste", "%", "10", "trowels, tool ends and uneven gaps (common practice)", low="0", high="100")
assumption("faces chinked", "count", "2", "a log wall is chinked inside and out", low="1", high="2")
assumption("pail", "count", "5", "a pail holds five gallons (common practice)", low="1/4", high="60", per=" gal")
assumption(
    "settling", "%", None, "6 for green scribed logs, 1 to 3 drier (ICC 400, log-building practice)", low="0", high="12"
)
assumption("sealant bead", "in", "1/4", "width of the joint round a frame until it is said", low="1/16", high="2")
assumption("sealant waste", "%", "10", "tips, ends and uneven joints (common practice)", low="0", high="100")
assumption("cartridge", "count", "10.1", "a tube of 10.1 fl oz unless said", low="1", high="40", per=" fl oz")

_COURSES = re.compile(r"\bcourses?\b.*?(\d+)(?:\D+(\d+))?")
_PERCENTS = (1, 3, SCRIBED_SETTLING)


@dataclass(frozen=True, slots=True)
class LogWall:
    """What is known of a log wall: courses with their basis, measured gaps by joint, depth of the chinking."""

    courses: int | None
    courses_basis: tuple[Basis, ...]
    gaps: dict[int, Figure]
    depth: Figure | None
    note: str = ""

    @property
    def mean_gap(self) -> Fraction | None:
        """Mean of the measured gaps in inches, None where none was measured."""
        values = [figure.value for figure in self.gaps.values()]
        return sum(values, Fraction(0)) / len(values) if values else None


@once
def log_wall(book: Book, place: str) -> LogWall | None:
    """The log wall at a place; None where nothing said of it is of logs."""
    gaps = {
        joint: figure
        for about, figure in book.of_dimension(place, "gap").items()
        if (joint := _joint(about)) is not None and figure.value >= 0
    }
    depth = _chink_depth(book, place)
    said = book.said_aside("courses", place)
    if not gaps and depth is None and said is None:
        return None
    if said is not None and said.aside.value is not None and said.aside.value >= 1:
        return LogWall(int(said.aside.value), (Source((said.memo,)),), gaps, depth)
    pitch = _mean_log(book, place)
    height, note = wall_height(book, place)
    if pitch is None or height is None or height.value <= 0:
        return LogWall(None, (), gaps, depth)
    value, basis = pitch
    count = max(int(height.value / value + Fraction(1, 2)), 1)
    about = f"worked out from logs of {show_length(value)}, the top log was not named"
    return LogWall(count, (height, *((note,) if note else ()), *basis), gaps, depth, about)


def _joint(about: str | None) -> int | None:
    """The joint between two courses: 4 of "course 4 and 5"; None where no two neighbours are named."""
    if (match := _COURSES.search((about or "").casefold())) is None or match[2] is None:
        return None
    low, high = sorted((int(match[1]), int(match[2])))
    return low if high == low + 1 else None


def _chink_depth(book: Book, place: str) -> Figure | None:
    for about, figure in book.of_dimension(place, "depth").items():
        if about is not None and {"chink", "chinking", "joint"} & set(about.split()):
            return figure if figure.value > 0 else None
    return None


def _mean_log(book: Book, place: str) -> tuple[Fraction, tuple[Figure, ...]] | None:
    """Mean height of the logs of a wall in inches, from the diameters measured of them."""
    logs = [figure for figure in book.of_dimension(place, "diameter").values() if figure.value > 0]
    return (sum((f.value for f in logs), Fraction(0)) / len(logs), tuple(logs)) if logs else None


# ---- chinking --------------------------------------------------------------------------------------------------------


@quantity(
    "chinking",
    needs=("length", "height", "courses", "a gap between courses", "chink depth", "openings"),
    assumes=("chinking waste", "faces chinked", "pail"),
)
def chinking(book: Book, place: str) -> Iterator[Answer]:
    """Feet of joint and gallons of chinking: (joints x length - openings that cross them) x gap x depth / 231, each face.

    Joint k lies k mean pitches above the bottom; the mean of the measured gaps holds for joints without their own (COV-092
    to 110). Pails for all faces with waste, rounded up.
    """
    wall = log_wall(book, place)
    if wall is None:
        return
    run, (height, note) = book.newest(place, None, "length"), wall_height(book, place)
    if wall.courses is not None:
        yield number("courses", place, wall.courses, "count", *wall.courses_basis, note=wall.note)
    yield from _lacking(place, wall, run, height)
    if wall.courses is None or run is None or height is None or run.value <= 0 or height.value <= 0:
        return
    found = openings(book, place)
    crossings, used, unsure = [], [], bool(found.questions)
    for opening in found.known:
        bottom = opening.bottom
        if opening.width is None or opening.height is None or bottom is None:
            what = "sill" if bottom is None else "width" if opening.width is None else "height"
            say = f'{place} chinking needs the {what} of the {opening.name}. Say: "{place} {opening.name} {what} …"'
            yield Missing(name="chinking", place=place, about=f"{opening.name} {what}", say=say)
            unsure = True
            continue
        crossings.append(Crossing(opening.width, bottom, bottom + opening.height))
        used += [*opening.figures, *([opening.sill] if opening.sill is not None else [])]
    basis: list[Basis | None] = [run, height, note, *wall.courses_basis, *used, Source(mark="~") if unsure else None]
    try:
        runs = joint_lengths(run.value, height.value, wall.courses, crossings)
    except ValueError as error:
        memos = tuple(sorted({memo for one in basis if one is not None for memo in one.memos}))
        shown = f"{place} joints cannot be worked out: {error} ({memo_names(memos)}). Measure them again."
        yield Disagreement(name="chinking", place=place, shown=shown, memos=memos)
        return
    feet = sum(runs.values(), Fraction(0)) / 12
    yield number("joint length", place, feet, "ft", *basis, note=f"on a face, {len(runs)} joints")
    stray = [f for joint, f in wall.gaps.items() if joint not in runs]
    for figure in stray:
        shown = f"{place} has {wall.courses} courses, but memo {figure.filed.memo} gives a gap at {figure.filed.fact.about}."
        yield Disagreement(name="chinking", place=place, shown=shown, memos=figure.memos)
    gaps = {joint: figure.value for joint, figure in wall.gaps.items() if joint in runs}
    if wall.mean_gap is None or wall.depth is None:
        return
    basis += [*wall.gaps.values(), wall.depth]
    even = joint_volume(runs, wall.mean_gap, wall.depth.value, {}) / GALLON_IN3
    mean = show_length(wall.mean_gap, to=254)
    yield number("chinking at the mean gap", place, even, "gal", *basis, note=f"a face, all joints {mean}")
    own_gaps = "1 joint at its" if len(gaps) == 1 else f"{len(gaps)} joints at their"
    own = joint_volume(runs, wall.mean_gap, wall.depth.value, gaps) / GALLON_IN3
    yield from _gallons(book, place, own, basis, f"a face, {own_gaps} own gap, the others at {mean}")


def _lacking(place: str, wall: LogWall, run: Figure | None, height: Figure | None) -> Iterator[Missing]:
    says = {
        "length": (run, f"{place} length …"),
        "height": (height, f"{place} height …"),
        "courses": (wall.courses, f"on {place} … is the top log"),
        "gap": (wall.mean_gap, f"{place} gap between course four and five …"),
        "depth": (wall.depth, f"chink depth on {place} …"),
    }
    for what, (there, example) in says.items():
        if there is None:
            say = f'{place} chinking needs the {what}. Say: "{example}"'
            yield Missing(name="chinking", place=place, about=what, say=say)


def _gallons(book: Book, place: str, net: Fraction, basis: list[Basis | None], note: str) -> Iterator[Answer]:
    waste, faces, pail = (book.assume(name, place) for name in ("chinking waste", "faces chinked", "pail"))
    with_waste = net * (1 + waste.value / 100)
    yield number("chinking, net", place, net, "gal", *basis, note=note)
    yield number("chinking with waste", place, with_waste, "gal", *basis, waste, decimals=1, note="a face")
    both = with_waste * faces.value
    yield number("chinking, all faces", place, both, "gal", *basis, waste, faces, decimals=1)
    pails = ceil(both / pail.value)
    yield number(
        "pails of chinking",
        place,
        pails,
        "count",
        *basis,
        waste,
        faces,
        pail,
        note=f"of {pail.assumption.show(pail.amount)}",
    )


# ---- settling --------------------------------------------------------------------------------------------------------


@quantity("settling", needs=("log wall", "openings"), assumes=("settling",), caution=SETTLING)
def settling(book: Book, place: str) -> Iterator[Answer]:
    """Gap to leave over each opening of a log wall: p % of its height, to 1/16; at 1, 3 and 6 % until one is set.

    Source: ICC 400 and log-building practice (6 % green scribed, 1 to 3 drier; MOI-222 to 226).
    """
    if log_wall(book, place) is None:
        return
    set_to = book.assume("settling", place)
    for opening in openings(book, place).known:
        if opening.height is None or opening.height <= 0:
            continue
        figures: list[Basis] = [f for f in opening.figures if "height" in getattr(f.filed.fact, "dimension", "")]
        shares: list[tuple[Fraction, Taken | None]] = [(Fraction(p), None) for p in _PERCENTS]
        if set_to.amount is not None:
            shares = [(set_to.value, set_to)]
        for percent, taken in shares:
            gap = settles(opening.height, percent)
            yield length("settling gap", place, gap, *figures, taken, about=f"{opening.name} at {float(percent):g} %")


# ---- sealant ---------------------------------------------------------------------------------------------------------


@quantity("sealant", needs=("openings of a log wall",), assumes=("sealant bead", "sealant waste", "cartridge"))
def sealant(book: Book, place: str) -> Iterator[Answer]:
    """Cartridges to seal once round the openings of a log wall: bead length x width x depth with waste, rounded up.

    Depth is half the width, 1/4 to 1/2 in. (sealant maker's note, COV-104). A door has no bead along its bottom.
    """
    if log_wall(book, place) is None:
        return
    bead, waste, tube = (book.assume(name, place) for name in ("sealant bead", "sealant waste", "cartridge"))
    around, basis = Fraction(0), []
    for opening in openings(book, place).known:
        if opening.width is None or opening.height is None:
            continue
        around += 2 * opening.height + opening.width * (1 if opening.is_door else 2)
        basis += list(opening.figures)
    if around <= 0:
        return
    depth = sealant_depth(bead.value)
    volume = around * bead.value * depth * (1 + waste.value / 100)
    tubes = ceil(volume / (tube.value * FLUID_OUNCE_IN3))
    note = f"for {float(around / 12):.1f} ft once round the openings, {show_length(bead.value)} x {show_length(depth)}"
    yield number("cartridges of sealant", place, tubes, "count", *basis, bead, waste, tube, note=note)
