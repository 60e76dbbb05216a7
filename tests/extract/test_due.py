"""Due phrases as builders say them; where a general date library reads one, we agree."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from journal.extract import extract
from journal.extract.due import find_due
from journal.extract.tokens import tokenise

TUESDAY = date(2026, 6, 9)

PHRASES = {
    "tomorrow": date(2026, 6, 10),
    "tonight": TUESDAY,
    "day after tomorrow": date(2026, 6, 11),
    "on friday": date(2026, 6, 12),
    "by wednesday": date(2026, 6, 10),
    "first thing monday": date(2026, 6, 15),
    "a week from today": date(2026, 6, 16),
    "a week from friday": date(2026, 6, 19),
    "in two weeks": date(2026, 6, 23),
    "in a couple of weeks": date(2026, 6, 23),
    "in three days": date(2026, 6, 12),
    "by the fifteenth": date(2026, 6, 15),
    "by the third": date(2026, 7, 3),
    "by july seventeenth": date(2026, 7, 17),
    "on the twenty third of june": date(2026, 6, 23),
    "by the end of the month": date(2026, 6, 30),
    "by august third": date(2026, 8, 3),
    "next month on the first": date(2026, 7, 1),
    "thursday fortnight": date(2026, 6, 25),
    "two weeks tomorrow": date(2026, 6, 24),
    "a week monday": date(2026, 6, 22),
    "a fortnight on monday": date(2026, 6, 29),
    "monday after next": date(2026, 6, 22),
    "wednesday the twenty fourth": date(2026, 6, 24),
    "within the fortnight": date(2026, 6, 23),
    "by the middle of july": date(2026, 7, 15),
    "mid july": date(2026, 7, 15),
    "by the start of next month": date(2026, 7, 1),
    "by the beginning of august": date(2026, 8, 1),
    "before the month's out": date(2026, 6, 30),
    "a month from now": date(2026, 7, 9),
    "by halloween": date(2026, 10, 31),
    "before nightfall": TUESDAY,
    "by close of business friday": date(2026, 6, 12),
    "over the weekend": date(2026, 6, 13),
    "middle of next week": date(2026, 6, 17),
}

WRONG_THERE = {"a week from today"}
"""What dateparser 1.5 reads otherwise: as the day a week before."""


@pytest.mark.parametrize(("phrase", "day"), PHRASES.items())
def test_due_phrases(phrase: str, day: date) -> None:
    """A phrase for a day, counted from Tuesday 9 June 2026 by the calendar."""
    found = find_due([token.text for token in tokenise(phrase)], TUESDAY)
    assert [one.day for one in found] == [day]


def test_a_general_date_library_agrees_where_it_reads_one() -> None:
    """dateparser, set to prefer the future, reads some of the phrases; each that it reads is the day that we give."""
    dateparser = pytest.importorskip("dateparser")
    settings = {
        "RELATIVE_BASE": datetime(2026, 6, 9, 8, 0),
        "PREFER_DATES_FROM": "future",
        "RETURN_AS_TIMEZONE_AWARE": False,
    }
    agreed = 0
    for phrase, day in PHRASES.items():
        bare = phrase.removeprefix("by ").removeprefix("on ").removeprefix("the ")
        if bare in WRONG_THERE:
            continue
        theirs = dateparser.parse(bare, languages=["en"], settings=settings)
        if theirs is not None:
            assert theirs.date() == day, phrase
            agreed += 1
    assert agreed >= 4


@pytest.mark.parametrize("said_at", ["2026-02-28T08:00", "2026-12-31T08:00", "2028-02-29T08:00"])
@pytest.mark.parametrize("phrase", list(PHRASES))
def test_no_date_falls_before_the_memo(said_at: str, phrase: str) -> None:
    """At the end of a month, a year, in a leap year: what is due is due on the day or after it."""
    moment = datetime.fromisoformat(said_at)
    facts = extract(f"caulk the door head on wall a {phrase}", moment).facts
    dues = [fact.due for fact in facts if fact.kind == "task" and fact.due is not None]  # type: ignore[union-attr]
    assert all(due >= moment.date() for due in dues)
    assert len(dues) == 1
