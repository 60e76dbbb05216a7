"""A ladder's foot: how far out it stands for its working length. Regulation text as read; local rules decide."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import acos, degrees

from journal.quantities.base import Answer, Book, length, quantity
from journal.quantities.cautions import HEIGHTS

FOOT_SHARE = Fraction(1, 4)  # of the working length along the ladder: 29 CFR 1926.1053(b)(5)(i)


def foot_distance(working_length: Fraction) -> Fraction:
    """How far a ladder's foot stands from the wall: a quarter of its working length along the ladder (SAF-034 to 041)."""
    if working_length <= 0:
        raise ValueError("a ladder of no length stands nowhere")
    return working_length * FOOT_SHARE


def ladder_angle(foot_share: float = float(FOOT_SHARE)) -> float:
    """Degrees from level of a ladder whose foot stands out by this share of its length: 75.5 at a quarter (SAF-036)."""
    return degrees(acos(foot_share))


@quantity("ladder foot", needs=("ladder length",), caution=HEIGHTS)
def ladder_foot(book: Book, place: str) -> Iterator[Answer]:
    """How far from the wall a measured ladder's foot stands: a quarter of its working length (29 CFR 1926.1053(b)(5)(i))."""
    for about, figure in book.of_dimension(place, "length", "height").items():
        if about is not None and "ladder" in about.split() and figure.value > 0:
            yield length(
                "ladder foot", place, foot_distance(figure.value), figure, about=about, note="from the wall, at 75 1/2°"
            )
