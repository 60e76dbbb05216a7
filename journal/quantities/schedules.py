"""What the places still take of bought things: nails, sheets, felt, chinking, sealant and finish, from what was measured.

A schedule is open work once its place has the figures for it and a lot of that thing was spoken of. What was used at the
place is taken off it. Where something like it was said done there it is told and not counted.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from journal.quantities.base import Answer, Book, Value, memo_names
from journal.quantities.book import once
from journal.quantities.cladding import felt, finish, sheets
from journal.quantities.log_wall import chinking, sealant
from journal.quantities.lot import Lot, counted
from journal.quantities.nailing import nails_for_boards
from journal.quantities.nails import penny_of, style_of
from journal.quantities.tasks import ToDo, to_do


@dataclass(frozen=True, slots=True)
class Schedule:
    """A kind of thing that places take: which quantity counts it, in which units a lot of it is bought, what doing it is called."""

    name: str
    value: str
    units: frozenset[str]
    thing: re.Pattern[str]
    work: Callable[[Book, str], Iterable[Answer]]
    doing: re.Pattern[str]


_SCHEDULES = (
    Schedule(
        "nails", "pounds of nails", frozenset({"pound"}), re.compile(r"\bnails?\b|\bsinkers?\b"), nails_for_boards,
        re.compile(r"\bnail|\bboard(ed|ing)? (up|in)\b"),
    ),
    Schedule(
        "sheets", "sheets", frozenset({"sheet"}), re.compile(r"\b(sheets?|plywood|osb|drywall|panels?)\b"), sheets,
        re.compile(r"\b(sheet(ed|ing)?|sheath(ed|ing|e)?|plywood|osb|drywall|panel(l?ed|l?ing)?)\b"),
    ),
    Schedule(
        "felt", "rolls of felt", frozenset({"roll"}), re.compile(r"\b(felt|wrap|paper)\b"), felt,
        re.compile(r"\b(felt(ed|ing)?|wrap(ped|ping)?|paper(ed|ing)?)\b"),
    ),
    Schedule(
        "chinking", "pails of chinking", frozenset({"pail"}), re.compile(r"\bchink(ing)?\b"), chinking,
        re.compile(r"\bchink(ed|ing)?\b"),
    ),
    Schedule(
        "sealant", "cartridges of sealant", frozenset({"tube", "cartridge"}), re.compile(r"\b(sealant|caulk)\b"), sealant,
        re.compile(r"\b(seal(ed|ing)?|caulk(ed|ing)?)\b"),
    ),
    Schedule(
        "finish", "finish", frozenset({"gallon"}), re.compile(r"\b(stain|oil|varnish|paint|finish|sealer|primer)\b"), finish,
        re.compile(r"\b(stain(ed|ing)?|oil(ed|ing)?|varnish(ed|ing)?|paint(ed|ing)?|finish(ed|ing)?|prim(ed|ing|e))\b"),
    ),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Lacking:
    """What the open schedules lack of a lot, which of them ask, and what is only told beside it."""

    count: Fraction = Fraction(0)
    because: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def lacking(book: Book, lot: Lot, lots: Iterable[Lot]) -> Lacking:
    """What the open schedules of all places take of a lot beyond what is there, each bought up to its package."""
    schedule = _schedule_of(lot)
    if schedule is None:
        return Lacking()
    rivals = [other for other in lots if other is not lot and _schedule_of(other) is schedule and _rival(lot, other)]
    taken, because, told, doubts = Fraction(0), [], [], []
    for place in book.places:
        value = next((a for a in schedule.work(book, place) if isinstance(a, Value) and a.name == schedule.value), None)
        if value is None or value.exact is None or value.exact <= 0 or not _its_nail(lot, value):
            continue
        whole = Fraction(ceil(value.exact))
        used = _used_at(lot, place)
        comes_to = f"{schedule.name} of {place} comes to {counted(whole, lot.name.unit)} ({memo_names(value.memos)})"
        done = _done_at(book, place, schedule)
        if done:
            told.append(f"{comes_to}; not counted, {memo_names(done)} said it done")
        elif rivals:
            told.append(f"{comes_to}; not counted, it may be of {rivals[0].name.shown}")
        elif whole > used:
            taken += whole - used
            because.append(f"{schedule.name} of {place}")
            told.append(comes_to + (f", {counted(used, lot.name.unit)} of it used" if used else ""))
            doubts += list(value.doubts)
    if not because:
        return Lacking(notes=tuple(told))
    if lot.balance is None and (lot.started or lot.used):
        return Lacking(notes=(*told, "how many are there is not known, so nothing is counted. Count them"))
    short = taken - (lot.balance or 0)
    return Lacking(max(short, Fraction(0)), tuple(because) if short > 0 else (), tuple(told), tuple(doubts))


def _schedule_of(lot: Lot) -> Schedule | None:
    what = lot.name.what or ""
    return next((s for s in _SCHEDULES if lot.name.unit in s.units and s.thing.search(what)), None)


def _rival(lot: Lot, other: Lot) -> bool:
    """Whether a schedule cannot tell two lots apart; nails are told apart by size and style."""
    mine, its = penny_of(lot.name.what), penny_of(other.name.what)
    return mine is None or its is None or (mine, style_of(lot.name.what)) == (its, style_of(other.name.what))


def _its_nail(lot: Lot, value: Value) -> bool:
    """Whether pounds of nails are of the size and style of this lot; true for all else."""
    nail = dict(value.more)
    return "penny" not in nail or (nail["penny"], nail["style"]) == (penny_of(lot.name.what), style_of(lot.name.what))


def _used_at(lot: Lot, place: str) -> Fraction:
    """What was used of a lot at a place."""
    return sum(
        (m.amount for m in lot.movements if m.event == "used" and m.amount is not None and m.filed.fact.place == place),
        Fraction(0),
    )


def _done_at(book: Book, place: str, schedule: Schedule) -> tuple[int, ...]:
    """The memos that said such work done at a place or at what belongs to it."""
    tasks = _done(book, "")
    return tuple(
        entry.memo
        for where in (place, *book.belonging(place))
        for entry in tasks.get(where, ())
        if schedule.doing.search(entry.task.do)
    )


@once
def _done(book: Book, _: str) -> dict[str | None, list[ToDo]]:
    """The tasks said done, by place."""
    tasks: dict[str | None, list[ToDo]] = {}
    for entry in to_do(book):
        if entry.status == "done":
            tasks.setdefault(entry.task.place, []).append(entry)
    return tasks
