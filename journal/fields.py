"""Fields of a fact as a person types them, and as they are shown. `parse_field` and `format_field` are inverses.

The figure of a fact goes by the name "figure" whatever its kind: a length, a slope, a count, a reading, hours, an amount.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from journal.errors import Unreadable
from journal.lengths import MILLIMETRE, SIXTY_FOURTH, format_inches, format_length, parse_length
from journal.records import (
    DIMENSIONS,
    EVENTS,
    STATUSES,
    Cost,
    Fact,
    Hours,
    Measure,
    Reading,
    Slope,
    Stock,
    Task,
    said_fields,
)

FIGURE = "figure"
_FIGURE_FIELDS = {
    "measure": "ticks", "slope": "rise", "stock": "count", "reading": "value", "hours": "hours", "cost": "amount",
    "task": "do",
}  # fmt: skip
_NUMBERS = {"count", "board_feet", "value", "hours", "amount", "rise", "run"}
_LENGTHS = {"length_ticks": "length", "over_ticks": "over"}
_CHOICES: dict[str, tuple[str, ...]] = {
    "dimension": DIMENSIONS, "status": STATUSES, "event": EVENTS, "shade": ("strong", "shy"),
    "quantity": ("moisture", "temperature", "humidity"), "unit": ("%", "F", "C"),
}  # fmt: skip
_REQUIRED = {"dimension", "do", "status", "event", "quantity", "unit", "per"}
_NOTHING = {"", "-", "none"}


def field_names(kind: str) -> tuple[str, ...]:
    """The names a person may correct in a fact of this kind, the figure first."""
    hidden = {"ticks", "metric", "rise", "run"} if kind in ("measure", "slope") else {_FIGURE_FIELDS[kind]} - {"do"}
    names = [_LENGTHS.get(name, name) for name in said_fields(kind) if name not in hidden]
    return (FIGURE, *names) if kind != "task" else tuple(names)


def choices(name: str) -> tuple[str, ...]:
    """The values that a field may take, where it is a choice; empty where it is free."""
    return _CHOICES.get(name, ())


def with_fields(fact: Fact, typed: Mapping[str, str]) -> Fact:
    """The fact with these fields as typed; its doubts are gone, since a person has looked at it.

    Unreadable names the field, what was typed and what it may be.
    """
    said: dict[str, Any] = {}
    for name, text in typed.items():
        said |= _parsed(fact, name, text)
    return replace(fact, **said, doubts=())


def _parsed(fact: Fact, name: str, text: str) -> dict[str, Any]:
    kind = fact.kind
    if name not in field_names(kind) and not (kind == "task" and name == FIGURE):
        raise Unreadable(f"a {kind} has no '{name}'", hint=f"It has: {', '.join(field_names(kind))}.")
    text = text.strip()
    if name == FIGURE:
        return _figure(fact, text)
    field = next((long for long, short in _LENGTHS.items() if short == name and long in said_fields(kind)), name)
    if text.lower() in _NOTHING:
        if name in _REQUIRED:
            raise Unreadable(f"the {name} of a {kind} cannot be left empty", hint=_allowed(name))
        return {field: False if name == "approx" else None}
    if field in _LENGTHS:
        return {field: _length(text)[0]}
    if name in _CHOICES:
        if text.lower() not in (choice.lower() for choice in _CHOICES[name]):
            raise Unreadable(f"'{text}' is no {name}", hint=_allowed(name))
        return {field: next(choice for choice in _CHOICES[name] if choice.lower() == text.lower())}
    if name in _NUMBERS:
        return {field: _number(text, name)}
    if name in ("due", "on"):
        return {field: _date(text, name)}
    if name == "approx":
        return {field: text.lower() in ("yes", "y", "true", "1", "~")}
    return {field: " ".join(text.split())}


def _figure(fact: Fact, text: str) -> dict[str, Any]:
    if isinstance(fact, Measure):
        ticks, system = _length(text)
        metric = re.sub(r"([\d.]+)\s*([a-z]+)", r"\1 \2", text.lower()) if system == "metric" else None
        return {"ticks": ticks, "metric": metric}
    if isinstance(fact, Slope):
        match = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(?:/|in|:)\s*(\d+(?:\.\d+)?)|(\d+(?:\.\d+)?)", text)
        if match is None:
            raise Unreadable(f"'{text}' is not a slope", hint="Type rise and run: 8/12")
        run = float(match[2]) if match[2] else 12.0
        if run == 0:
            raise Unreadable(f"'{text}' is not a slope: the run is zero", hint="Type rise and run: 8/12")
        return {"rise": float(match[1] or match[3]), "run": run}
    if isinstance(fact, Task):
        return {"do": " ".join(text.split())}
    return {_FIGURE_FIELDS[fact.kind]: _number(text, FIGURE)}


def _length(text: str) -> tuple[int, str]:
    try:
        return parse_length(text)
    except ValueError as error:
        raise Unreadable(str(error), hint="Type it as 71 5/8, 5' 11 5/8 or 1820mm.") from None


def _number(text: str, name: str) -> float:
    if not re.fullmatch(r"[-+]?\$?(\d+(,\d{3})*(\.\d*)?|\.\d+)", text):
        raise Unreadable(f"'{text}' is no number for the {name}", hint="Type a plain number, such as 12 or 7.5.")
    return float(text.replace(",", "").replace("$", ""))


def _date(text: str, name: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise Unreadable(f"'{text}' is no date for '{name}'", hint="Type it as 2026-07-31.") from None


def _allowed(name: str) -> str:
    return f"It may be: {', '.join(_CHOICES[name])}." if name in _CHOICES else "Type what it is."


def format_field(fact: Fact, name: str) -> str:
    """A field as it is typed back, "" where it was not said."""
    if name == FIGURE:
        return figure_typed(fact)
    field = next((long for long, short in _LENGTHS.items() if short == name and hasattr(fact, long)), name)
    value = getattr(fact, field)
    if value is None or value is False:
        return ""
    if field in _LENGTHS:
        return _feet_free(value)
    if value is True:
        return "yes"
    if isinstance(value, date):
        return value.isoformat()
    return f"{value:g}" if isinstance(value, float) else str(value)


def figure_typed(fact: Fact) -> str:
    """The figure of a fact as a person would type it."""
    if isinstance(fact, Measure):
        return fact.metric or _feet_free(fact.ticks)
    if isinstance(fact, Slope):
        return f"{fact.rise:g}/{fact.run:g}"
    value = getattr(fact, _FIGURE_FIELDS[fact.kind])
    if value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) else str(value)


def figure_shown(fact: Fact) -> str:
    """The figure of a fact as a person reads it, with its unit and its marks (``~`` about, ``+`` strong, ``-`` shy)."""
    if isinstance(fact, Measure):
        mark = "~" if fact.approx else ""
        shade = {"strong": " +", "shy": " -"}.get(fact.shade or "", "")
        return mark + (fact.metric or format_length(fact.ticks)) + shade
    if isinstance(fact, Slope):
        return f"{fact.rise:g}/{fact.run:g}"
    if isinstance(fact, Stock):
        return "" if fact.count is None else f"{fact.count:g}"
    if isinstance(fact, Task):
        return ""
    value = getattr(fact, _FIGURE_FIELDS[fact.kind])
    if isinstance(fact, Cost):
        return f"${value:,.2f}" + ("" if fact.per == "total" else f" per {fact.per}")
    if isinstance(fact, Reading):
        return f"{value:g} %" if fact.unit == "%" else f"{value:g} °{fact.unit}"
    return f"{value:g} h"


def describe(fact: Fact) -> str:
    """A fact in one line without its place, the figure last: ``window rough opening width 30 1/2"``."""
    if isinstance(fact, Measure):
        parts = [fact.about, None if fact.dimension == "other" else fact.dimension, figure_shown(fact)]
        if fact.over_ticks is not None:
            parts.append(f"in {format_length(fact.over_ticks)}")
    elif isinstance(fact, Slope):
        parts = [fact.about, "slope", figure_shown(fact)]
    elif isinstance(fact, Task):
        when = f"by {fact.due:%a} {fact.due.day} {fact.due:%b}" if fact.due else None
        parts = [
            f"{fact.status}:", fact.do, when, f"once {fact.after}" if fact.after else None,
            f"before {fact.before}" if fact.before else None,
        ]  # fmt: skip
    elif isinstance(fact, Stock):
        length = format_length(fact.length_ticks) if fact.length_ticks is not None else None
        feet = f"{fact.board_feet:g} bf" if fact.board_feet is not None else None
        count = f"{fact.count:g}" if fact.count is not None else None
        parts = [f"{fact.event}:", count, feet, fact.section, fact.species, fact.what, length]
    elif isinstance(fact, Reading):
        parts = [fact.about, fact.quantity, figure_shown(fact)]
    elif isinstance(fact, Hours):
        parts = [figure_shown(fact), fact.activity]
    else:
        parts = [fact.what, figure_shown(fact)]
    return " ".join(part for part in parts if part)


def _feet_free(ticks: int) -> str:
    """A length to type: inches where they are whole sixty-fourths, else millimetres."""
    return format_inches(ticks) if ticks % SIXTY_FOURTH == 0 else f"{ticks / MILLIMETRE:g} mm"
