"""A job of thousands of memos, filed in one transaction: 40 a day, 40 places, a fact or two each."""

from __future__ import annotations

import random
from datetime import datetime, timedelta

from journal.session import Session
from tests.tui.jobs import Row, doubt, measure, say

_KINDS = ("wall", "gable", "roof", "floor")
_SIDES = ("lake", "hill", "north", "south", "porch", "shed", "loft", "barn", "mill", "yard")
_FIRST = datetime.fromisoformat("2026-01-05T07:00")


def fill(session: Session, memos: int) -> None:
    """So many memos, forty a day, always the same ones."""
    chance = random.Random(7)
    with session.store.writing():
        for index in range(memos):
            at = _FIRST + timedelta(days=index // 40, minutes=15 * (index % 40))
            place = f"{chance.choice(_SIDES)} {chance.choice(_KINDS)}"
            text, facts = _memo(chance, place, index)
            say(session, at.isoformat(), text, *facts)


def _memo(chance: random.Random, place: str, index: int) -> tuple[str, list[Row]]:
    number = chance.randint(20, 300)
    what = chance.randint(0, 19)
    if what == 0:
        text = f"{place} nail course {index} once the staging is down"
        return text, [
            {
                "kind": "task",
                "place": place,
                "do": f"nail course {index}",
                "status": "waiting",
                "after": "the staging is down",
            }
        ]
    if what <= 2:
        text = f"used {number % 9 + 1} pine boards on the {place}"
        return text, [
            {
                "kind": "stock",
                "place": place,
                "event": "used",
                "count": number % 9 + 1,
                "what": "board",
                "species": "pine",
            }
        ]
    if what == 3:
        return f"four hours at the {place}", [{"kind": "hours", "place": place, "hours": 4.0, "activity": "boarding"}]
    if what == 4:
        text = f"{place} pine reads {number % 10 + 15} percent"
        return text, [
            {
                "kind": "reading",
                "place": place,
                "about": "pine",
                "quantity": "moisture",
                "value": number % 10 + 15,
                "unit": "%",
            }
        ]
    dimensions = (
        ("length", "height", "base width", "depth") if what < 12 else ("rough opening width", "rough opening height")
    )
    about = None if what < 12 else f"window {number % 4 + 1}"
    text = f"{place} {about or ''} {dimensions[0]} {number} and {number + 1}"
    facts = [
        measure(place, chance.choice(dimensions), str(number), about),
        measure(place, dimensions[1], str(number + 1), about),
    ]
    if index % 25 == 0:
        facts[0]["doubts"] = [doubt(text, str(number), "heard with low confidence")]
    return text, facts
