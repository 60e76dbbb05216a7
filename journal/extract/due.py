"""When something is due: a builder's phrases for days, counted from the day of the memo.

Our own table reads them all; a general date library reads fewer than half of such phrases and some wrongly.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache

from journal.extract.months import PART_OF_MONTH, DueWord, add_months, month_end
from journal.extract.months import dated as dated_in
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.vocabulary import homographs, verbs
from journal.grammar import table

__all__ = ["DueWord", "find_due", "weekday_after"]


@cache
def _tables() -> tuple[
    Phrases[int], Phrases[int], Phrases[int], Phrases[str], Phrases[str], dict[str, int], dict[str, int], dict[str, int]
]:
    data = table("due")
    ordinals = table("numbers")["ordinals"]
    return (
        Phrases(data["days"]), Phrases(data["week"]), Phrases(data["amounts"]), Phrases.of(data["lead"]["words"], "lead"),
        Phrases.of(data["tail"]["words"], "tail"), data["weekdays"], data["months"], ordinals,
    )  # fmt: skip


def find_due(words: Sequence[str], today: date) -> list[DueWord]:
    """Every date in the words, in the order said."""
    if _endings().isdisjoint(words):
        return []
    found: list[DueWord] = []
    i = 0
    beginnings = _beginnings()
    while i < len(words):
        due = _due_at(words, i, today) if words[i] in beginnings else None
        if found and words[i] in ("the", "day"):
            due = _day_after_that(words, i, found[-1]) or due
        if due is None:
            i += 1
            continue
        if due.weekday and found:
            _after_the_last(words, due, found[-1])
        _with_lead_and_tail(words, due)
        if found and found[-1].j >= due.i and not (words[found[-1].i] in ("this", "today") and due.day > found[-1].day):
            due.i, due.lead = found[-1].i, found[-1].lead or due.lead
            due.day = max(due.day, found[-1].day)
            found.pop()
        found.append(due)
        i = due.j
    return found


def _day_after_that(words: Sequence[str], i: int, last: DueWord) -> DueWord | None:
    """ "The day after that", counted from the day said last."""
    k = i + (words[i] == "the")
    if list(words[k : k + 3]) != ["day", "after", "that"]:
        return None
    return DueWord(i, k + 3, last.day + timedelta(1))


def _after_the_last(words: Sequence[str], due: DueWord, last: DueWord) -> None:
    """ "The monday after": the first such day after the one said last."""
    that = _word(words, due.j + 1) == "that"
    if _word(words, due.j) != "after" or not (that or _word(words, due.j + 1) in ("", "and", "but", "then", "so")):
        return
    due.day = weekday_after(last.day, due.day.weekday())
    due.j += 1 + that
    due.i -= _word(words, due.i - 1) == "the"


@cache
def _beginnings() -> frozenset[str]:
    """Words with which a date can begin."""
    days, week, amounts, _, _, weekdays, months, ordinals = _tables()
    first = days.first_words() | week.first_words() | amounts.first_words()
    return (
        first
        | frozenset(weekdays)
        | frozenset(months)
        | frozenset(table("due")["holidays"])
        | frozenset(ordinals)
        | set(PART_OF_MONTH)
        | {"in", "within", "inside", "mid", "end", "the", "month", "next", "this", "twenty", "thirty"}
    )


@cache
def _endings() -> frozenset[str]:
    """Words without which nothing is a date: those that phrases for days end with, and the names and units of days."""
    days, week, _, _, _, weekdays, months, ordinals = _tables()
    units = {"day", "days", "week", "weeks", "fortnight", "month", "months"}
    return (
        days.last_words()
        | week.last_words()
        | frozenset(weekdays)
        | frozenset(months)
        | frozenset(table("due")["holidays"])
        | frozenset(ordinals)
        | units
    )


def weekday_after(today: date, weekday: int) -> date:
    """The first such weekday after a day."""
    return today + timedelta((weekday - today.weekday() - 1) % 7 + 1)


def _word(words: Sequence[str], i: int) -> str:
    return words[i] if 0 <= i < len(words) else ""


def _due_at(words: Sequence[str], i: int, today: date) -> DueWord | None:
    _days, _week, amounts, _, _, weekdays, months, ordinals = _tables()
    word = words[i]
    monday = today - timedelta(today.weekday())
    if word in ("in", "within", "inside"):
        amount = amounts.at(words, i + 1) if i + 1 < len(words) else None
        if amount is None and word != "in" and list(words[i + 1 : i + 3]) in (["the", "fortnight"], ["the", "month"]):
            amount = 1, i + 2
        if amount:
            unit = _word(words, amount[1])
            step = {"day": 1, "days": 1, "week": 7, "weeks": 7, "fortnight": 14}.get(unit.rstrip("'"))
            if step:
                stop = amount[1] + 1 + (_word(words, amount[1] + 1) in ("'s", "'"))
                return DueWord(i, stop + (_word(words, stop) == "time"), today + timedelta(amount[0] * step))
            if unit in ("month", "months"):
                return DueWord(i, amount[1] + 1, add_months(today, amount[0]))
        return None
    if word in ("end", "the", "month", "mid", *PART_OF_MONTH) and (end := month_end(words, i, today)):
        return end
    amount = amounts.at(words, i)
    if amount and _word(words, amount[1]) in ("week", "weeks", "days", "day", "fortnight", "month", "months"):
        step = {"w": 7, "d": 1, "f": 14, "m": 0}[words[amount[1]][0]]
        k = amount[1] + 1
        if not step:
            later = list(words[k : k + 2]) in (["from", "now"], ["from", "today"])
            return DueWord(i, k + 2, add_months(today, amount[0])) if later else None
        at = k + (_word(words, k) == "on")
        if step > 1 and (_word(words, at) in weekdays or _word(words, at) in ("tomorrow", "today")):
            base = _due_at(words, at, today)
            if base is not None:
                return DueWord(i, base.j, base.day + timedelta(amount[0] * step))
        if _word(words, k) in ("from", "on", "after"):
            base = _due_at(words, k + 1, today)
            if base is not None:
                return DueWord(i, base.j, base.day + timedelta(amount[0] * step))
            if _word(words, k + 1) == "now":
                return DueWord(i, k + 2, today + timedelta(amount[0] * step))
    if word in weekdays and _word(words, i + 1) == "week":
        return DueWord(i, i + 2, weekday_after(today, weekdays[word]) + timedelta(7))
    if word in ("next", "this") and _word(words, i + 1) in weekdays:
        weekday = weekdays[words[i + 1]]
        first = weekday_after(today, weekday)
        if word == "next":
            day = monday + timedelta(7 + weekday)
            doubt = f"'next {words[i + 1]}' was read as {day:%a} {day.day} {day:%b}" if day != first else ""
            return DueWord(i, i + 2, day, doubtful=doubt)
        return DueWord(i, i + 2, first)
    if word in weekdays:
        k = i + 1
        day = weekday_after(today, weekdays[word])
        if _word(words, k) == "the":
            dated = _day_of_month(words, k + 1, today)
            named = _day_number(words, k + 1)
            if dated and named and _word(words, dated[1]) == "of" and _word(words, dated[1] + 1) in months:
                return dated_in(i, dated[1] + 2, today, months[words[dated[1] + 1]], named[0])
            if dated:
                return DueWord(i, dated[1], dated[0])
        for tail, days in ((["fortnight"], 14), (["after", "next"], 7), (["next"], 0)):
            if list(words[k : k + len(tail)]) == tail:
                return DueWord(i, k + len(tail), day + timedelta(days))
        return DueWord(i, k, day, weekday=True)
    if word in table("due")["holidays"]:
        month, of_month = divmod(table("due")["holidays"][word], 100)
        stop = i + 1 + (_word(words, i + 1) == "day")
        return (
            dated_in(i, stop, today, month, of_month)
            if _word(words, i - 1) in ("by", "before", "for", "till", "until")
            else None
        )
    if word in months:
        named = _day_number(words, i + 1 + (_word(words, i + 1) == "the"))
        if named:
            return dated_in(i, named[1], today, months[word], named[0])
        if word not in ("may", "march") and _word(words, i - 1) in ("by", "before"):
            return dated_in(i, i + 1, today, months[word], 1)
        return None
    if word in ("the", "on", "by") or word in ordinals:
        k = i + (word == "the")
        if word in ("on", "by"):
            return None
        dated = _day_of_month(words, k, today)
        if dated:
            if _word(words, dated[1]) == "of" and _word(words, dated[1] + 1) in months:
                number = _day_number(words, k)
                assert number is not None
                return dated_in(i, dated[1] + 2, today, months[words[dated[1] + 1]], number[0])
            if words[dated[1] : dated[1] + 3] in (
                ["of", "the", "month"],
                ["of", "this", "month"],
                ["of", "next", "month"],
            ):
                return DueWord(i, dated[1] + 3, dated[0])
            if _word(words, i - 1) in ("by", "on", "before", "until", "till", "for", "than", "due") and _ends_phrase(
                words, dated[1]
            ):
                return DueWord(i, dated[1], dated[0])
        return _table_at(words, i, today, monday)
    return _table_at(words, i, today, monday)


def _table_at(words: Sequence[str], i: int, today: date, monday: date) -> DueWord | None:
    days, week, *_ = _tables()
    for phrases, base in ((week, monday), (days, today)):
        found = phrases.at(words, i)
        if found is None:
            continue
        if (
            words[i] in words_of("only_by")
            and found[1] == i + 1 + (words[i] == "a")
            and _word(words, i - 1) not in ("by", "before", "at")
        ):
            continue
        if words[i : found[1]] == ["a", "week"]:
            continue
        day = base + timedelta(found[0])
        if base is monday:
            if _word(words, i - 1) == "before" and "weekend" in words[i : found[1]]:
                day -= timedelta(1)
            if day <= today and found[0] < 7:
                day = today if day == today else day + timedelta(7)
        return DueWord(i, found[1], day)
    return None


def _ends_phrase(words: Sequence[str], i: int) -> bool:
    """Whether a day of the month ends before word `i`: no noun follows that it counts ("by the third course")."""
    word = _word(words, i)
    if word == "" or word in words_of("after_day"):
        return True
    return word in verbs() and (word not in homographs() or _word(words, i + 1) in words_of("determiners"))


def _day_number(words: Sequence[str], i: int) -> tuple[int, int] | None:
    """A day of the month at word `i`: "fifteenth", "twenty third", "the third", "fifteen"."""
    ordinals = _tables()[7]
    numbers = table("numbers")
    word = _word(words, i)
    if word in ("twenty", "thirty") and _word(words, i + 1) in ordinals and ordinals[words[i + 1]] < 10:
        return numbers["tens"][word] + ordinals[words[i + 1]], i + 2
    if word in ordinals:
        return ordinals[word], i + 1
    for part in ("teens", "ones"):
        if word in numbers[part] and numbers[part][word]:
            return numbers[part][word], i + 1
    if word in ("twenty", "thirty"):
        unit = numbers["ones"].get(_word(words, i + 1), 0)
        return numbers["tens"][word] + unit, i + 1 + bool(unit)
    if word.isdecimal() and 1 <= int(word) <= 31:
        return int(word), i + 1
    return None


def _day_of_month(words: Sequence[str], i: int, today: date) -> tuple[date, int] | None:
    ordinals = _tables()[7]
    word = _word(words, i)
    if word not in ordinals and not (word in ("twenty", "thirty") and _word(words, i + 1) in ordinals):
        return None
    named = _day_number(words, i)
    if named is None or named[0] > 31:
        return None
    month, year = today.month, today.year
    for _ in range(13):
        try:
            day = date(year, month, named[0])
        except ValueError:
            day = today
        if day > today:
            return day, named[1]
        month, year = (month + 1, year) if month < 12 else (1, year + 1)
    return None


def _with_lead_and_tail(words: Sequence[str], due: DueWord) -> None:
    _, _, _, leads, tails, *_ = _tables()
    while due.i > 0 and (lead := leads.ending_at(words, due.i, 4)):
        due.lead = due.lead or words[due.i - 1]
        due.i = lead[1]
    while due.j < len(words) and (tail := tails.at(words, due.j)):
        due.j = tail[1]
