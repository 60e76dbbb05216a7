"""Gables: the triangle, its peak worked out three ways, and where its openings stand. Knows nothing of boards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from journal.quantities.base import (
    Answer,
    Basis,
    Book,
    Disagreement,
    Figure,
    Missing,
    Source,
    length,
    memo_names,
    number,
    quantity,
    root,
    show_length,
    twin,
    word,
)
from journal.quantities.book import once
from journal.quantities.layout import Hole, Profile
from journal.quantities.openings import Opening, Openings, openings
from journal.quantities.slopes import Pitches, pitches
from journal.quantities.wall import not_a_size, wall_height

# rises found in different ways are shown as disagreeing when they are further apart than this
_AGREE = Fraction(1, 4)


def is_gable(book: Book, place: str) -> bool:
    """Whether a place is a gable: by its name, or by having a base width."""
    return not word(place, "roof") and (word(place, "gable") or (None, "base width") in book.figures(place))


def base_of(book: Book, place: str) -> Figure | None:
    """The base of a gable; its width or span where that is the word that was used."""
    said = (book.newest(place, None, dimension) for dimension in ("base width", "width", "span"))
    return next((figure for figure in said if figure is not None), None)


@dataclass(frozen=True, slots=True)
class Rise:
    """The rise of the peak above the ends, the way it was found and what it rests on."""

    way: str
    inches: Fraction
    basis: tuple[Basis, ...]

    @property
    def memos(self) -> tuple[int, ...]:
        """The memos behind it."""
        return tuple(sorted({memo for one in self.basis for memo in one.memos}))


@dataclass(frozen=True, slots=True)
class Gable:
    """A gable as far as it is known: its outline, what that rests on, its openings, and what is missing or makes no sense."""

    place: str
    profile: Profile | None = None
    base: Figure | None = None
    heel: Figure | None = None
    rises: tuple[Rise, ...] = ()
    basis: tuple[Basis, ...] = ()
    pitches: Pitches = Pitches()
    openings: Openings = Openings()
    missing: tuple[Missing, ...] = ()
    nonsense: tuple[Disagreement, ...] = ()


@once
def gable(book: Book, place: str) -> Gable:
    """The gable at a place; the profile is None as long as a fact is missing or makes no sense."""
    base, slopes, heel = base_of(book, place), pitches(book, place), _heel(book, place)
    found = openings(book, place)
    if base is None:
        say = f'{place} needs the base width of {place}. Say: "{place} base width …"'
        missing = Missing(name="gable area", place=place, about="base width", say=say)
        return Gable(place, heel=heel, pitches=slopes, openings=found, missing=(missing,), nonsense=slopes.nonsense)
    nonsense = (*slopes.nonsense, *((wrong,) if (wrong := not_a_size(place, {"base width": base})) else ()))
    if slopes.unequal and _left_and_right(slopes) is None:
        said = " and ".join(f"{p.shown}{f' ({p.side})' if p.side else ''}" for p in slopes.known)
        shown = f"{place} has the slopes {said} ({memo_names(slopes.memos)}): say which is the left side and which the right."
        nonsense = (*nonsense, Disagreement(name="slope", place=place, shown=shown, memos=slopes.memos))
    rises = () if nonsense else tuple(_rises(book, place, base, slopes))
    if nonsense or not rises:
        missing = Missing(
            name="gable area",
            place=place,
            about="slope",
            say=f'{place} area needs the slope or the peak height. Say: "the {place} is … twelve" or "{place} ridge height …"',
        )
        return Gable(place, None, base, heel, (), (), slopes, found, () if nonsense else (missing,), nonsense)
    rise = rises[0]
    if rise.inches <= 0:
        shown = f"the peak of {place} comes out at {show_length(rise.inches)} by {rise.way} ({memo_names(rise.memos)}): no gable."
        wrong = Disagreement(name="gable area", place=place, shown=shown, memos=rise.memos)
        return Gable(place, None, base, heel, rises, (), slopes, found, (), (wrong,))
    peak = base.value / 2
    if slopes.unequal and (sides := _left_and_right(slopes)) is not None:
        left, right = sides
        peak = right * base.value / (left + right)
    profile = Profile(base.value, rise.inches, peak, heel.value if heel is not None and heel.value > 0 else Fraction(0))
    basis = (base, *rise.basis, *((heel,) if heel is not None else ()))
    return Gable(place, profile, base, heel, rises, basis, slopes, found)


def _heel(book: Book, place: str) -> Figure | None:
    """The height of the ends, where the triangle does not start at the plate."""
    for (about, dimension), figure in book.figures(place).items():
        if dimension == "height" and about is not None and ({"heel", "end", "eave"} & set(about.split())):
            return figure
    return None


def _left_and_right(slopes: Pitches) -> tuple[Fraction, Fraction] | None:
    by_side = {side: p.ratio for p in slopes.known for side in ("left", "right") if p.side and side in p.side.split()}
    return (by_side["left"], by_side["right"]) if len(by_side) == 2 else None


def _rises(book: Book, place: str, base: Figure, slopes: Pitches) -> Iterator[Rise]:
    """The rise by each way that the facts allow: slope first, then rise, ridge and plate height, rake."""
    half = base.value / 2
    if (pitch := slopes.one) is not None and not pitch.worked_out:
        yield Rise("the slope", half * pitch.ratio, pitch.basis)
    elif slopes.unequal and (sides := _left_and_right(slopes)) is not None:
        left, right = sides
        basis = tuple(one for p in slopes.known for one in p.basis)
        yield Rise("the two slopes", base.value * left * right / (left + right), basis)
    if (rise := book.newest(place, None, "rise")) is not None:
        yield Rise("the rise", rise.value, (rise,))
    ridge, plate = book.newest(place, None, "ridge height"), book.newest(place, None, "plate height")
    note: Source | None = None
    if plate is None and (wall := twin(place)) is not None:
        plate, note = wall_height(book, wall)
    if ridge is not None and plate is not None:
        heights = (ridge, plate, *((note,) if note is not None else ()))
        yield Rise("ridge height less plate height", ridge.value - plate.value, heights)
    if (rake := book.newest(place, None, "rake")) is not None and rake.value > half:
        yield Rise("the rake", root(rake.value**2 - half**2), (rake,))


@quantity("gable area", needs=("base width", "slope, rise, ridge and plate height, or rake", "rough openings"))
def gable_area(book: Book, place: str) -> Iterator[Answer]:
    """Peak rise, area in ft² and net area of a gable: (base * rise / 2 + base * heel - openings) / 144.

    Rise = half base * slope; or ridge height - plate height; or sqrt(rake² - half base²). Check rows GEO-154 to GEO-158.
    Wall and gable are two places: the heel counts to the gable only where the ends were said to have height.
    """
    if not is_gable(book, place) or not book.figures(place):
        return
    found = gable(book, place)
    yield from found.openings.questions
    yield from found.missing
    yield from found.nonsense
    profile = found.profile
    if profile is None:
        return
    first = found.rises[0]
    yield length("gable rise", place, first.inches, *found.basis, note=f"from {first.way}")
    yield from _cross_checks(book, found)
    yield number("gable area", place, profile.area / 144, "ft2", *found.basis)
    net, used, unsure = profile.area, [], bool(found.openings.questions)
    for opening in found.openings.known:
        if (wrong := outside(found, opening)) is not None:
            yield wrong
            unsure = True
        elif opening.area is None:
            side = "height" if opening.height is None else "width"
            say = f'{place} area needs the {side} of the {opening.name}. Say: "{place} {opening.name} rough opening {side} …"'
            yield Missing(name="net gable area", place=place, about=f"{opening.name} {side}", say=say)
            unsure = True
        else:
            net -= opening.area
            used.append(opening)
            unsure = unsure or not opening.rough
    if net < 0:
        memos = tuple(sorted({memo for opening in used for memo in opening.memos}))
        shown = f"the openings of {place} ({memo_names(memos)}) are larger than the gable itself. Say them again."
        yield Disagreement(name="net gable area", place=place, shown=shown, memos=memos)
        return
    basis = [*found.basis, *(figure for opening in used for figure in opening.figures)]
    deducted = ", ".join(f"{o.name} {float((o.area or 0) / 144):.1f}" for o in used)
    note = f"({float(profile.area / 144):.1f} less {deducted})" if deducted else ""
    yield number("net gable area", place, net / 144, "ft2", *basis, Source(mark="~") if unsure else None, note=note)


def outside(found: Gable, opening: Opening) -> Disagreement | None:
    """A sentence where an opening does not fit in its gable, None where it does or its place is not known."""
    profile, base = found.profile, found.base
    if profile is None or base is None or opening.width is None or opening.height is None:
        return None
    memos = tuple(sorted({*opening.memos, *(memo for one in found.basis for memo in one.memos)}))
    size = f"{show_length(opening.width)} x {show_length(opening.height)} ({memo_names(opening.memos)})"
    left, bottom = opening.left_edge(profile.base), opening.bottom
    widest = profile.width(max(Fraction(0), (bottom or Fraction(0)) + opening.height))
    fits_somewhere = 0 < opening.height <= profile.top and 0 < opening.width <= widest[1] - widest[0]
    if not fits_somewhere:
        shown = f"{found.place} {opening.name} {size} does not fit in the gable. Say it again."
        return Disagreement(name="net gable area", place=found.place, shown=shown, memos=memos)
    if left is not None and bottom is not None:
        hole = Hole(left, left + opening.width, bottom, bottom + opening.height)
        if not hole.fits(profile):
            shown = f"{found.place} {opening.name} {size} as placed runs out of the gable. Say its centre or its sill again."
            return Disagreement(name="net gable area", place=found.place, shown=shown, memos=memos)
    return None


def _cross_checks(book: Book, found: Gable) -> Iterator[Disagreement]:
    """The rises found in several ways against each other; where two agree and one is off, the odd one is named."""
    rises = list(found.rises)
    profile = found.profile
    overhang = book.newest(found.place, None, "overhang")
    if profile is not None and overhang is not None and overhang.value > 0:
        # a rake may have been read to the end of the overhang
        slant = root(1 + (rises[0].inches / (profile.base / 2)) ** 2)
        rises = [r for r in rises if not _is_whole_rake(r, (profile.base / 2 + overhang.value) * slant)]
    if len(rises) < 2 or max(r.inches for r in rises) - min(r.inches for r in rises) <= _AGREE:
        return
    said = ", ".join(f"{show_length(r.inches)} by {r.way} ({memo_names(r.memos)})" for r in rises)
    odd = [r for r in rises if all(abs(r.inches - other.inches) > _AGREE for other in rises if other is not r)]
    verdict = f"{odd[0].way} is the odd one" if len(rises) > 2 and len(odd) == 1 else "one of them was misread"
    memos = tuple(sorted({memo for r in rises for memo in r.memos}))
    shown = (
        f"the rise of {found.place} comes out differently: {said}. {verdict[0].upper()}{verdict[1:]}; measure it again."
    )
    yield Disagreement(name="gable rise", place=found.place, shown=shown, memos=memos)


def _is_whole_rake(rise: Rise, whole: Fraction) -> bool:
    rake = rise.basis[0]
    return rise.way == "the rake" and isinstance(rake, Figure) and abs(rake.value - whole) <= _AGREE


@quantity("gable rake", needs=("base width", "slope", "overhang"))
def gable_rake(book: Book, place: str) -> Iterator[Answer]:
    """Length along the slope from the end of the overhang to the peak: (half base + overhang) * sqrt(1 + slope²)."""
    if not is_gable(book, place):
        return
    found = gable(book, place)
    if found.profile is None or found.pitches.unequal:
        return
    half = found.profile.base / 2
    slant = root(1 + (found.profile.rise / half) ** 2)
    overhang = book.newest(place, None, "overhang")
    over = overhang.value if overhang is not None and overhang.value > 0 else Fraction(0)
    note = f"with {show_length(over)} overhang" if over else "no overhang said"
    yield length("rake board", place, (half + over) * slant, *found.basis, overhang, note=note)


@quantity("gable studs", needs=("slope", "stud spacing"))
def gable_studs(book: Book, place: str) -> Iterator[Answer]:
    """The difference in length between neighbouring gable studs: spacing * rise / 12. Check rows GEO-069 to GEO-102."""
    pitch = pitches(book, place).one
    if pitch is None or not is_gable(book, place):
        return
    for about, spacing in book.of_dimension(place, "spacing").items():
        if about is not None and "stud" in about.split() and spacing.value > 0:
            yield length(
                "gable studs differ by", place, stud_difference(spacing.value, pitch.ratio), spacing, *pitch.basis
            )


def stud_difference(spacing: Fraction, ratio: Fraction) -> Fraction:
    """Inches between one gable stud and the next: spacing * rise / run."""
    return spacing * ratio
