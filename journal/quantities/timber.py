"""Logs and heavy timber: board feet by each log rule, and what a piece weighs. Nothing on what it carries."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import pi

from journal.lengths import INCH
from journal.quantities.base import Answer, Basis, Book, Figure, Missing, Source, Taken, assumption, number, quantity
from journal.quantities.cautions import WEIGHT
from journal.quantities.log_rules import (
    RULES,
    flat_depth,
    frustum_ft3,
    largest_square,
    log_board_feet,
    smalian_ft3,
    to_nearest_five,
    weight_lb,
)
from journal.quantities.lot import Lot
from journal.quantities.lumber import section_sizes
from journal.quantities.species import woods
from journal.quantities.stock import ledger
from journal.records import Stock

assumption("log rule", "choice", None, "rules differ twofold on small logs: none is taken until it is named",
           choices=tuple(rule.casefold() for rule in RULES))  # fmt: skip
assumption(
    "timber moisture", "%", "60", "a green log; real ones differ by 25 % (Wood Handbook, ch. 4)", low="0", high="250"
)

_LOG = re.compile(r"\b(log|stem|cant|beam|timber|post|purlin|trunk)\b")
_TIMBER_IN = 4  # from this thickness on a piece is heavy enough to be warned of


@quantity("log board feet", needs=("diameter and length of a log",), assumes=("log rule",))
def board_feet_of_logs(book: Book, place: str) -> Iterator[Answer]:
    """Board feet of a measured log, by the rule that was named or by Doyle, Scribner's formula and International side by side.

    Diameter inside the bark at the small end. Doyle (D-4)^2 L/16; Scribner (0.79 D^2 - 2 D - 4) L/16; International 1/4-in.
    by 4-ft pieces (LUM-056 to 142). International is given to the nearest five.
    """
    chosen = book.assume("log rule", place)
    rules = [rule for rule in RULES if rule.casefold() == chosen.word] or [
        "Doyle",
        "Scribner formula",
        "International 1/4",
    ]
    for about, across, run in _logs(book, place):
        for rule in rules:
            basis = (across, run, chosen if chosen.word else None)
            try:
                feet = log_board_feet(rule, float(across.value), float(run.value) / 12)
            except ValueError as error:
                yield Missing(name="log board feet", place=place, about=about, say=f"{about} of {place}: {error}.")
                continue
            shown = to_nearest_five(feet) if rule == "International 1/4" else feet
            yield number(
                "log board feet", place, Fraction(shown), "bf", *basis, about=f"{about}, {rule}", note=f"by {rule}"
            )


@quantity("log volume", needs=("diameter of both ends of a log", "its length"))
def log_volumes(book: Book, place: str) -> Iterator[Answer]:
    """Cubic feet of a log measured at both ends: as the frustum of a cone, with Smalian's mean of the end areas beside it."""
    across = book.of_dimension(place, "diameter")
    for about, small in across.items():
        log, small_end, _ = (about or "").partition(" small end")
        large, run = across.get(f"{log} large end"), book.newest(place, log, "length")
        if not small_end or not _LOG.search(log) or large is None or small.value <= 0 or large.value <= 0:
            continue
        if run is None or run.value <= 0:
            say = f'{place} volume of {log} needs its length. Say: "{log} length …"'
            yield Missing(name="log volume", place=place, about=log, say=say)
            continue
        ends = (float(small.value), float(large.value), float(run.value) / 12)
        note = f"as a cone cut off; {smalian_ft3(*ends):.1f} by Smalian"
        yield number(
            "log volume", place, frustum_ft3(*ends), "ft3", small, large, run, about=log, decimals=1, note=note
        )


@quantity("cant of a log", needs=("diameter of a log",))
def cants(book: Book, place: str) -> Iterator[Answer]:
    """Side of the largest square in a round log, D/sqrt 2, and what a flat of a measured width takes off its depth."""
    for about, across, _ in _logs(book, place, with_length=False):
        side = Fraction(largest_square(float(across.value)))
        yield number("largest square", place, side, "in", across, about=about, decimals=2)
        flat = book.newest(place, f"{about} flat", "width")
        if flat is not None and 0 < flat.value <= across.value:
            depth = Fraction(flat_depth(float(across.value), float(flat.value)))
            yield number("depth lost to a flat", place, depth, "in", across, flat, about=about, decimals=2)


@quantity("weight", needs=("section or diameter, length and species",), assumes=("timber moisture",), caution=WEIGHT)
def weights(book: Book, place: str) -> Iterator[Answer]:
    """Pounds that a log or timber weighs: 62.4 G (1 + M/100) x cubic feet, G of the species (Wood Handbook; MOI-227 to 266)."""
    moisture = book.assume("timber moisture", place)
    for about, across, run in _logs(book, place):
        volume = pi / 4 * float(across.value) ** 2 * float(run.value) / 1728
        yield from _weight(place, about, volume, _species_in(about), (across, run), moisture)
    for found in {id(lot): lot for lot in _lots(book, place)}.values():
        section, ticks = found.name.section, found.name.length_ticks
        if section is None or ticks is None or ticks <= 0:
            continue
        try:
            thickness, width = section_sizes(section)
        except ValueError:
            continue
        if thickness >= _TIMBER_IN:
            volume = float(thickness * width * Fraction(ticks, INCH) / 1728)
            basis = (Source(found.memos, "", found.doubts),)
            yield from _weight(place, found.name.shown, volume, found.name.species, basis, moisture)


def _weight(
    place: str, about: str, volume: float, species: str | None, basis: tuple[Basis, ...], moisture: Taken
) -> Iterator[Answer]:
    known = [wood for wood in woods(species) if wood.gravity is not None]
    if not known:
        say = f'{place} weight of {about} needs its species. Say: "{about} is white pine"'
        yield Missing(name="weight", place=place, about=about, say=say)
        return
    pounds = [weight_lb(wood, volume, float(moisture.value)) or 0.0 for wood in known]
    mean = Fraction(sum(pounds) / len(pounds))
    several = f", the mean of {len(known)} kinds of {species}" if len(known) > 1 else ""
    yield number("weight", place, mean, "lb", *basis, moisture, about=about, decimals=0, note=f"each, ±25 %{several}")


def _logs(book: Book, place: str, *, with_length: bool = True) -> Iterator[tuple[str, Figure, Figure]]:
    """The logs of a place that have a diameter, with their length."""
    for about, across in book.of_dimension(place, "diameter").items():
        if about is None or not _LOG.search(about) or across.value <= 0:
            continue
        run = book.newest(place, about, "length")
        if run is not None and run.value > 0:
            yield about, across, run
        elif not with_length:
            yield about, across, across


def _species_in(about: str) -> str | None:
    """The species in what a log is called ("white pine log 3")."""
    words = [word for word in about.split() if not _LOG.search(word) and not word.isdigit()]
    return " ".join(words) or None


def _lots(book: Book, place: str) -> list[Lot]:
    return [lot for filed in book.at(place, Stock) if (lot := ledger(book).lot_of(filed)) is not None]
