"""The forms that answers take, and how figures are printed: exact until here, rounded once.

Lengths are kept in inches as fractions. Knows nothing of what is worked out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from typing import Protocol

from journal.lengths import INCH, Rounding, System, format_inches, format_length, round_ticks
from journal.quantities.book import Figure

SIXTEENTH = INCH // 16
THIRTY_SECOND = INCH // 32

# how many decimals each unit is printed with, and how it is written (rounding rules of the trade, common practice)
_DECIMALS = {"ft2": 1, "deg": 1, "bf": 1, "$": 2, "h": 2, "%": 1, "ft": 1, "gal": 2, "lb": 2, "in3": 1, "in12": 3}
_WRITTEN = {"ft2": " ft²", "deg": "°", "bf": " bf", "h": " h", "%": " %", "ft": " ft", "gal": " gal", "lb": " lb"}


class Basis(Protocol):
    """What an answer rests on: a figure, an assumption, a filed fact or another value."""

    @property
    def memos(self) -> tuple[int, ...]: ...  # noqa: D102
    @property
    def mark(self) -> str: ...  # noqa: D102
    @property
    def doubts(self) -> tuple[str, ...]: ...  # noqa: D102
    @property
    def assumed(self) -> tuple[str, ...]: ...  # noqa: D102


@dataclass(frozen=True, slots=True)
class Source:
    """A basis made by hand: memos, marks, doubts and assumptions of facts that are no measures."""

    memos: tuple[int, ...] = ()
    mark: str = ""
    doubts: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A quantity worked out: `value` as it is printed and `exact` before rounding (inches for lengths), with its unit.

    A length ("in") has `ticks` and its value is text such as "71 5/8"; `mark` gathers ``~ + -`` of the facts used;
    `doubts` say why a fact behind it may be wrong; `was` shows what a newer fact replaced; `more` are further keys of the
    JSON object.
    """

    name: str
    place: str | None
    value: str | float | int | None
    unit: str
    shown: str
    about: str | None = None
    memos: tuple[int, ...] = ()
    assumed: tuple[str, ...] = ()
    caution: str = ""
    mark: str = ""
    doubts: tuple[str, ...] = ()
    was: tuple[str, ...] = ()
    exact: Fraction | None = None
    ticks: int | None = None
    more: tuple[tuple[str, object], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A quantity that lacks a fact: `say` names both and what a person could say next."""

    name: str
    place: str | None
    say: str
    about: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Disagreement:
    """Facts that do not fit each other or make no sense: a sentence that names the memos."""

    name: str
    place: str | None
    shown: str
    memos: tuple[int, ...] = ()


# ---- printed figures --------------------------------------------------------------------------------------------------


def root(square: Fraction) -> Fraction:
    """The square root of a fraction: exact where there is an exact one, else to 20 decimals. ValueError below zero."""
    if square < 0:
        raise ValueError("a length cannot have a negative square")
    top, bottom = isqrt(square.numerator), isqrt(square.denominator)
    if top * top == square.numerator and bottom * bottom == square.denominator:
        return Fraction(top, bottom)
    scale = 10**20
    return Fraction(isqrt(square.numerator * square.denominator * scale * scale), square.denominator * scale)


def show_length(inches: Fraction, *, to: int = SIXTEENTH, rounding: Rounding = "nearest", plain: bool = True) -> str:
    """Inches rounded once and written as a builder reads them; `plain` keeps long ones in inches: ``259 1/4"``."""
    ticks = round_ticks(inches * INCH, to=to, rounding=rounding)
    if not plain:
        return format_length(ticks)
    sign, rest = ("-", -ticks) if ticks < 0 else ("", ticks)
    return sign + format_inches(rest).removeprefix("0 ") + '"'


def length(
    name: str,
    place: str | None,
    inches: Fraction,
    *basis: Basis | None,
    about: str | None = None,
    caution: str = "",
    to: int = SIXTEENTH,
    rounding: Rounding = "nearest",
    system: System = "inch",
    note: str = "",
    **more: object,
) -> Value:
    """A length of `inches`, printed to 1/16 unless said otherwise; a metric one also in whole millimetres."""
    ticks = round_ticks(inches * INCH, to=to, rounding=rounding)
    figure = show_length(inches, to=to, rounding=rounding)
    if system == "metric":
        figure = f"{format_length(round_ticks(inches * INCH, to=320, rounding=rounding), 'metric')} ({figure})"
    return _value(name, place, format_inches(ticks), "in", figure, basis, about, caution, note, inches, ticks, more)


def number(
    name: str,
    place: str | None,
    amount: Fraction | float | int | None,
    unit: str,
    *basis: Basis | None,
    about: str | None = None,
    caution: str = "",
    decimals: int | None = None,
    shown: str | None = None,
    note: str = "",
    **more: object,
) -> Value:
    """A number with its unit ("ft2", "deg", "bf", "$", "h", "%", "count", …), rounded once to what is printed."""
    fraction = None if amount is None else Fraction(amount)
    if fraction is None:
        return _value(name, place, None, unit, shown or "unknown", basis, about, caution, note, None, None, more)
    places = decimals if decimals is not None else _DECIMALS.get(unit, 0 if fraction.denominator == 1 else 2)
    rounded = _half_up(fraction, places)
    printed: float | int = int(rounded) if places == 0 else float(rounded)
    text = f"{printed:,.{places}f}"
    figure = shown or (f"${text}" if unit == "$" else text + _WRITTEN.get(unit, "" if unit == "count" else f" {unit}"))
    return _value(name, place, printed, unit, figure, basis, about, caution, note, fraction, None, more)


def worded(
    name: str,
    place: str | None,
    said: str,
    unit: str,
    *basis: Basis | None,
    about: str | None = None,
    caution: str = "",
    note: str = "",
    **more: object,
) -> Value:
    """A value that is read rather than reckoned with, such as a size of two sides (``30 1/2 x 42 1/2``)."""
    return _value(name, place, said, unit, said, basis, about, caution, note, None, None, more)


def _value(
    name: str,
    place: str | None,
    printed: str | float | int | None,
    unit: str,
    figure: str,
    basis: Iterable[Basis | None],
    about: str | None,
    caution: str,
    note: str,
    exactly: Fraction | None,
    ticks: int | None,
    more: dict[str, object],
) -> Value:
    used = [one for one in basis if one is not None]
    mark = "".join(sign for sign in "~+-" if any(sign in one.mark for one in used))
    doubts = tuple(dict.fromkeys(doubt for one in used for doubt in one.doubts))
    was = tuple(dict.fromkeys(one.was_shown for one in used if isinstance(one, Figure) and one.was))
    shown = " ".join(part for part in (figure, mark, "(doubtful)" if doubts else "", note) if part)
    return Value(
        name=name,
        place=place,
        value=printed,
        unit=unit,
        shown=shown,
        about=about,
        memos=tuple(sorted({memo for one in used for memo in one.memos})),
        assumed=tuple(dict.fromkeys(line for one in used for line in one.assumed)),
        caution=caution,
        mark=mark,
        doubts=doubts,
        was=was,
        exact=exactly,
        ticks=ticks,
        more=tuple(more.items()),
    )


def _half_up(amount: Fraction, places: int) -> Fraction:
    scale = 10**places
    shifted = abs(amount) * scale + Fraction(1, 2)
    rounded = Fraction(shifted.numerator // shifted.denominator, scale)
    return -rounded if amount < 0 else rounded


def memo_names(memos: Iterable[int]) -> str:
    """Memos as a sentence names them: "memo 4", "memos 4 and 9"."""
    numbers = tuple(sorted(set(memos)))
    return f"memo{'s' if len(numbers) != 1 else ''} {_and(numbers)}"


def _and(numbers: tuple[int, ...]) -> str:
    names = [str(n) for n in numbers]
    return ", ".join(names[:-1]) + " and " + names[-1] if len(names) > 1 else "".join(names)
