"""Days as they are typed in a field: a date, ``today``, ``tomorrow``, a weekday (the next one). Pure."""

from __future__ import annotations

from datetime import date, timedelta

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def typed_day(text: str, today: date | None = None) -> str:
    """The day that a text means as 2026-07-31; the text itself where it names none."""
    said, now = " ".join(text.lower().split()), today or date.today()
    if said in ("today", "tomorrow"):
        return (now + timedelta(days=said == "tomorrow")).isoformat()
    if len(said) >= 3:
        for index, name in enumerate(_WEEKDAYS):
            if name.startswith(said):
                return (now + timedelta(days=(index - now.weekday() - 1) % 7 + 1)).isoformat()
    return text


def step_day(text: str, step: int, today: date | None = None) -> str:
    """The day after or before the one that is typed; today where none is."""
    try:
        return (date.fromisoformat(typed_day(text, today).strip()) + timedelta(days=step)).isoformat()
    except ValueError:
        return (today or date.today()).isoformat()


def past_day(text: str, today: date | None = None) -> date | None:
    """The day that a text means, looking back: a date, ``today``, ``yesterday``, a weekday (the last one); else None."""
    said, now = " ".join(text.lower().split()), today or date.today()
    if said in ("today", "yesterday"):
        return now - timedelta(days=said == "yesterday")
    if len(said) >= 3:
        for index, name in enumerate(_WEEKDAYS):
            if name.startswith(said):
                return now - timedelta(days=(now.weekday() - index) % 7)
    try:
        return date.fromisoformat(said)
    except ValueError:
        return None
