"""Labour: hours by place, activity, day and week, and what an hour is charged at.

Hours add up; one that replaces an earlier one has already taken its place in the facts.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction

from journal.quantities.base import Answer, Book, Disagreement, Source, assumption, exact, memo_names, number, quantity
from journal.quantities.book import once
from journal.records import Cost, Filed, Hours

assumption("hourly rate", "rate", None, "said: my time is … an hour", low="0", high="1000", per=" an hour")

_OWN = frozenset({"time", "labour", "labor", "hour", "rate", "work", "me", "own"})
_LONGEST_DAY = Fraction(16)


@dataclass(frozen=True, slots=True)
class Rate:
    """What an hour is charged at, and where that was said."""

    dollars: Fraction
    memos: tuple[int, ...]
    said_at: datetime | None = None
    doubts: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Worked:
    """Hours of one fact on their day, with the rate that covers them (None where none was said)."""

    filed: Filed[Hours]
    hours: Fraction
    on: date
    rate: Rate | None

    @property
    def dollars(self) -> Fraction | None:
        """Hours x rate, None without a rate."""
        return None if self.rate is None else self.hours * self.rate.dollars


def is_own_rate(cost: Cost) -> bool:
    """Whether a price by the hour is that of the builder's own time and not of something hired."""
    words = set((cost.what or "").casefold().split()) - {"my", "the", "an", "a"}
    return cost.per == "hour" and (not words or bool(words & _OWN))


def rates(book: Book) -> tuple[Rate, ...]:
    """The hourly rates that were said, oldest first."""
    found = []
    for filed in book.all_of(Cost):
        dollars = exact(filed.fact.amount)
        if dollars is not None and dollars >= 0 and is_own_rate(filed.fact):
            doubts = () if filed.confirmed else tuple(doubt.shown for doubt in filed.fact.doubts)
            found.append(Rate(dollars, (filed.memo,), filed.said_at, doubts))
    return tuple(found)


def worked(book: Book) -> tuple[Worked, ...]:
    """Every hour said, oldest first, each at the rate said nearest before it, else the first one said after."""
    return _worked(book, "")


@once
def _worked(book: Book, _: str) -> tuple[Worked, ...]:
    said = rates(book)
    default = _set_rate(book)
    found = []
    for filed in book.all_of(Hours):
        hours = exact(filed.fact.hours)
        if hours is None or hours < 0:
            continue
        after = bisect_right(said, filed.said_at, key=lambda rate: rate.said_at or filed.said_at)
        rate = said[max(after - 1, 0)] if said else default
        found.append(Worked(filed, hours, filed.fact.on or filed.said_at.date(), rate))
    return tuple(found)


def _set_rate(book: Book) -> Rate | None:
    taken = book.assume("hourly rate")
    return None if taken.amount is None else Rate(taken.value, taken.memos, None, (), taken.assumed)


def week_of(on: date) -> str:
    """The week of a day as ISO 8601 counts them: ``2026-W29``."""
    year, week, _ = on.isocalendar()
    return f"{year}-W{week:02d}"


def hours_summary(book: Book, place: str | None = None, *, by: str = "activity") -> list[dict[str, object]]:
    """The rows of `hours --json`: hours by place and activity (or "day", "week"), then the total.

    With a place, only of it and what belongs to it, each apart.
    """
    groups: defaultdict[tuple[str | None, str | None], list[Worked]] = defaultdict(list)
    for one in worked(book):
        where = one.filed.fact.place
        if place is not None and where != place and not (where or "").startswith(place + " "):
            continue
        key = {"day": one.on.isoformat(), "week": week_of(one.on)}.get(by, one.filed.fact.activity)
        groups[where, key].append(one)
    rows: list[dict[str, object]] = []
    for (where, key), found in sorted(groups.items(), key=lambda item: tuple(k or "￿" for k in item[0])):
        rows.append(
            {
                "place": where,
                by if by in ("day", "week") else "activity": key,
                "hours": _plain(sum((one.hours for one in found), Fraction(0))),
                "memos": sorted({one.filed.memo for one in found}),
                "doubts": _doubts(found),
            }
        )
    total = sum((one.hours for found in groups.values() for one in found), Fraction(0))
    return [*rows, {"total": True, "hours": _plain(total)}]


def long_days(found: Iterable[Worked]) -> Iterator[Disagreement]:
    """Days whose hours come to more than 16: a question, never a block (plausible range, common practice)."""
    days: defaultdict[date, list[Worked]] = defaultdict(list)
    for one in found:
        days[one.on].append(one)
    for on, those in days.items():
        total = sum((one.hours for one in those), Fraction(0))
        if total > _LONGEST_DAY:
            memos = tuple(sorted({one.filed.memo for one in those}))
            shown = (
                f"{float(total):g} hours on {on:%a} {on.day} {on:%b} ({memo_names(memos)}): is one of them said twice?"
            )
            yield Disagreement(name="hours", place=None, shown=shown, memos=memos)


def basis_of(found: Iterable[Worked], *, rated: bool = False) -> Source:
    """The memos and doubts behind hours, and of their rates where `rated`."""
    listed = list(found)
    rate_list = [one.rate for one in listed if one.rate is not None] if rated else []
    memos = {one.filed.memo for one in listed} | {memo for rate in rate_list for memo in rate.memos}
    doubts = [*_doubts(listed), *(doubt for rate in rate_list for doubt in rate.doubts)]
    assumed = tuple(dict.fromkeys(line for rate in rate_list for line in rate.assumed))
    return Source(tuple(sorted(memos)), "", tuple(dict.fromkeys(doubts)), assumed)


def _doubts(found: Iterable[Worked]) -> list[str]:
    unconfirmed = [one.filed for one in found if not one.filed.confirmed]
    return list(dict.fromkeys(doubt.shown for filed in unconfirmed for doubt in filed.fact.doubts))


def _plain(hours: Fraction) -> int | float:
    return int(hours) if hours.denominator == 1 else round(float(hours), 2)


@quantity("hours", needs=("hours",))
def hours_at(book: Book, place: str) -> Iterator[Answer]:
    """Hours worked at a place, what belongs to it apart; and what they come to at the rate said."""
    here = [one for one in worked(book) if one.filed.fact.place == place]
    if here:
        yield number("hours", place, sum((one.hours for one in here), Fraction(0)), "h", basis_of(here))
    for part in book.belonging(place):
        there = [one for one in worked(book) if one.filed.fact.place == part]
        if there:
            total = sum((one.hours for one in there), Fraction(0))
            yield number("hours", place, total, "h", basis_of(there), about=part)
    yield from long_days(here)
