"""What the quantities take for granted: each with its unit, its default, where that comes from and what is plausible.

A value stands for the whole job or for one place; `journal assume NAME VALUE` and the screens change it.
Knows nothing of facts.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from typing import Literal

from journal.lengths import INCH, format_inches, format_length, parse_length

AssumptionUnit = Literal["in", "%", "count", "rate", "F", "choice", "yes or no"]
Amount = Fraction | str


@dataclass(frozen=True, slots=True)
class Assumption:
    """One thing taken for granted. `default` None means that there is none: the quantity asks for it.

    Lengths ("in") are held in inches, shares ("%") in per cent; "choice" and "yes or no" are words.
    """

    name: str
    unit: AssumptionUnit
    default: Amount | None
    source: str
    low: Fraction | None = None
    high: Fraction | None = None
    choices: tuple[str, ...] = ()
    per: str = ""

    def parse(self, text: str) -> Amount:
        """The amount that a text names; ValueError with one sentence naming the assumption and what would do."""
        said = " ".join(text.split()).casefold()
        if self.unit in ("choice", "yes or no"):
            choices = self.choices or ("yes", "no")
            if said not in choices:
                raise ValueError(f"'{text}' will not do for {self.name}: say {_either(choices)}")
            return said
        amount = self._number(said, text)
        if (self.low is not None and amount < self.low) or (self.high is not None and amount > self.high):
            between = f"{self.show(self.low or Fraction(0))} to {self.show(self.high)}" if self.high is not None else ""
            limit = f"from {between}" if between else f"at least {self.show(self.low or Fraction(0))}"
            raise ValueError(f"'{text}' will not do for {self.name}: it goes {limit}")
        return amount

    def _number(self, said: str, text: str) -> Fraction:
        try:
            if self.unit == "in":
                return Fraction(parse_length(said)[0], INCH)
            bare = said.removesuffix("%").removeprefix("$").removesuffix("f").removesuffix("percent").strip()
            return sum((Fraction(part) for part in bare.split()), Fraction(0)) if bare else Fraction("")
        except (ValueError, ZeroDivisionError):
            example = {"in": "6 7/8 or 175 mm", "%": "10"}.get(self.unit, "35")
            raise ValueError(f"'{text}' will not do for {self.name}: say a figure such as {example}") from None

    def show(self, amount: Amount | None) -> str:
        """An amount as a person reads it: ``6 7/8"``, ``10 %``, ``centred``; "not set" where there is none."""
        if amount is None:
            return "not set"
        if isinstance(amount, str):
            return amount
        if self.unit == "in":
            ticks = amount * INCH
            return format_length(int(ticks)) if ticks.denominator == 1 else f"{float(amount):.4g} in."
        number = f"{float(amount):.6g}"
        return {"%": f"{number} %", "rate": f"${number}", "F": f"{number} F"}.get(self.unit, number) + self.per

    def text(self, amount: Amount) -> str:
        """An amount in the form that `parse` reads back, for storing."""
        if isinstance(amount, str):
            return amount
        if self.unit == "in" and (amount * INCH).denominator == 1:
            return format_inches(int(amount * INCH))
        return str(amount)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A value that was set or said for an assumption: for a place, or for the whole job (None)."""

    name: str
    value: str
    place: str | None = None
    at: datetime | None = None
    memo: int | None = None


ASSUMPTIONS: dict[str, Assumption] = {}


def assumption(
    name: str,
    unit: AssumptionUnit,
    default: str | None,
    source: str,
    *,
    low: str | None = None,
    high: str | None = None,
    choices: tuple[str, ...] = (),
    per: str = "",
) -> Assumption:
    """Registers an assumption; amounts are written as a person would ("6 7/8", "10"). The same name twice is a mistake."""
    if name in ASSUMPTIONS:
        raise ValueError(f"the assumption '{name}' is registered twice")
    bare = Assumption(name, unit, None, source, choices=choices, per=per)
    limits = (bare.parse(low) if low is not None else None, bare.parse(high) if high is not None else None)
    low_limit, high_limit = (limit if isinstance(limit, Fraction) else None for limit in limits)
    known = Assumption(name, unit, None, source, low_limit, high_limit, choices, per)
    amount = None if default is None else known.parse(default)
    ASSUMPTIONS[name] = Assumption(name, unit, amount, source, low_limit, high_limit, choices, per)
    return ASSUMPTIONS[name]


def _either(choices: tuple[str, ...]) -> str:
    return ", ".join(choices[:-1]) + " or " + choices[-1] if len(choices) > 1 else choices[0]
