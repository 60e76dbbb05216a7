"""Days named by their month: "the end of october", "mid october", "the start of next month", counted from the day of the memo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from journal.grammar import table


@dataclass(slots=True)
class DueWord:
    """A date said at words `i` to `j`, its lead word ("by") taken in; `lead` is that word. `weekday` where it is a bare one."""

    i: int
    j: int
    day: date
    lead: str = ""
    weekday: bool = False
    doubtful: str = ""


PART_OF_MONTH = {"start": 1, "beginning": 1, "middle": 15}


def _word(words: Sequence[str], i: int) -> str:
    return words[i] if 0 <= i < len(words) else ""


def dated(i: int, j: int, today: date, month: int, day: int) -> DueWord | None:
    """A day of a month, this year or the next; None where no year has it."""
    for year in (today.year, today.year + 1):
        try:
            when = date(year, month, day)
        except ValueError:
            continue
        if when >= today:
            return DueWord(i, j, when)
    return None


def add_months(today: date, months: int) -> date:
    """The same day some months on, or the last of a shorter month."""
    month = today.month - 1 + months
    year, month = today.year + month // 12, month % 12 + 1
    for day in range(today.day, 0, -1):
        try:
            return date(year, month, day)
        except ValueError:
            continue
    return today


def month_end(words: Sequence[str], i: int, today: date) -> DueWord | None:
    """The day that "the end of the month" and the like name at word `i`."""
    months = table("due")["months"]
    k = i + (words[i] == "the")
    rest = list(words[k : k + 4])
    if rest[:3] == ["month", "'s", "end"]:
        return DueWord(i, k + 3, last_of(today.year, today.month))
    if rest[:2] == ["month", "end"]:
        return DueWord(i, k + 2, last_of(today.year, today.month))
    if rest[:1] == ["mid"] and _word(words, k + 1) in months:
        return dated(i, k + 2, today, months[words[k + 1]], 15)
    if rest[1:2] == ["of"] and rest[0] in PART_OF_MONTH:
        return _part_of_month(words, i, k + 2, today, PART_OF_MONTH[rest[0]])
    if rest[:3] == ["month", "'s", "out"]:
        return DueWord(i, k + 3, last_of(today.year, today.month))
    if rest[:2] != ["end", "of"]:
        return None
    m = k + 2 + (_word(words, k + 2) in ("the", "this"))
    word = _word(words, m)
    if word == "month":
        return DueWord(i, m + 1, last_of(today.year, today.month))
    if word == "next" and _word(words, m + 1) == "month":
        following = add_months(today.replace(day=1), 1)
        return DueWord(i, m + 2, last_of(following.year, following.month))
    if word in months:
        year = today.year + (months[word] < today.month)
        return DueWord(i, m + 1, last_of(year, months[word]))
    return None


def _part_of_month(words: Sequence[str], i: int, m: int, today: date, day: int) -> DueWord | None:
    """The first or fifteenth of the month named at word `m`: "the middle of october", "the start of next month"."""
    months = table("due")["months"]
    if _word(words, m) in months:
        return dated(i, m + 1, today, months[words[m]], day)
    coming = list(words[m : m + 2]) == ["next", "month"]
    if not coming and list(words[m : m + 2]) not in (["the", "month"], ["this", "month"]):
        return None
    when = today.replace(day=day)
    following = add_months(today.replace(day=1), 1).replace(day=day)
    return DueWord(i, m + 2, following if coming or when <= today else when)


def last_of(year: int, month: int) -> date:
    """The last day of a month."""
    first_of_next = date(year + month // 12, month % 12 + 1, 1)
    return first_of_next - timedelta(1)
