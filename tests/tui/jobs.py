"""Jobs for the screen tests, filed through the store so that they do not hang on how a sentence is read."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from journal.interchange import fact_from_json
from journal.records import Aside, Doubt, Extraction, Problem, Span, Word
from journal.session import Session
from journal.store import Draft

Row = dict[str, Any]


def say(
    session: Session,
    at: str,
    text: str,
    *facts: Row,
    problems: Iterable[Problem] = (),
    doubts: Iterable[Doubt] = (),
    asides: Iterable[Aside] = (),
    words: Iterable[Word] = (),
    recording: str | None = None,
) -> int:
    """The number of a memo filed with these facts; `evidence` may be the words themselves."""
    store, moment = session.store, datetime.fromisoformat(at).astimezone()
    made = [fact_from_json({**row, "evidence": _span(text, row.get("evidence", text))}) for row in facts]
    place = next((fact.place for fact in reversed(made) if fact.place), None)
    read = Extraction(
        facts=tuple(made), problems=tuple(problems), doubts=tuple(doubts), asides=tuple(asides), place=place
    )
    with store.writing():
        change = store.add_change("take", at=moment)
        source = "recording" if recording else "typed"
        uuid, number = store.add_memo(moment, source, recording=recording)
        transcript = store.add_transcript(uuid, change, text, read, known_at=moment, words=tuple(words))
        for index, fact in enumerate(made, 1):
            store.add_fact(
                Draft(fact, None), memo_uuid=uuid, transcript=transcript, number=index, change=change, known_at=moment
            )
    session._corrected()
    return number


def _span(text: str, evidence: Any) -> list[int]:
    if isinstance(evidence, str):
        start = text.index(evidence)
        return [start, start + len(evidence)]
    return list(evidence)


def measure(place: str | None, dimension: str, inches: str, about: str | None = None, **more: Any) -> Row:
    """A measure in inches as `fact_from_json` takes it."""
    return {"kind": "measure", "place": place, "dimension": dimension, "inches": inches, "about": about, **more}


def doubt(text: str, words: str, shown: str, *other: str, level: int = 2) -> Row:
    """A doubt about some words of a text, as `fact_from_json` takes it."""
    start = text.index(words)
    return {
        "reason": "heard",
        "shown": shown,
        "start": start,
        "end": start + len(words),
        "other": list(other),
        "level": level,
    }


def bunkhouse(session: Session) -> None:
    """Two days at the bunkhouse: wall A, the lake gable over the lake wall, a porch roof, stock, tasks, doubts."""
    say(session, "2026-07-13T07:40", "wall a length twenty foot even height eight foot two",
        measure("wall A", "length", "240", evidence="length twenty foot even"),
        measure("wall A", "height", "98", evidence="height eight foot two"))  # fmt: skip
    say(session, "2026-07-13T07:44", "door rough opening on wall a thirty eight and a quarter by eighty two and a half",
        measure("wall A", "rough opening width", "38 1/4", "door", evidence="thirty eight and a quarter"),
        measure("wall A", "rough opening height", "82 1/2", "door", evidence="eighty two and a half"))  # fmt: skip
    window = "same wall window rough opening thirty and a half wide and forty two and a quarter high"
    say(session, "2026-07-13T07:46", window,
        measure("wall A", "rough opening width", "30 1/2", "window", evidence="thirty and a half wide",
                doubts=[doubt(window, "thirty", "heard as thirty, or as thirty one", "thirty one")]),
        measure("wall A", "rough opening height", "42 1/4", "window", evidence="forty two and a quarter high"))  # fmt: skip
    say(session, "2026-07-13T07:48", "window sill height on wall a thirty two inches",
        measure("wall A", "height", "32", "window sill", evidence="window sill height on wall a thirty two inches"))  # fmt: skip
    odd = "the width is fourteen"
    say(session, "2026-07-13T08:10", odd,
        problems=[Problem("a width, but of what?", Span(4, 9), "Say it again with its thing.")])  # fmt: skip
    say(session, "2026-07-13T08:30", "received forty one by eight white pine boards twelve foot long",
        {"kind": "stock", "event": "received", "count": 40, "what": "board", "section": "1x8", "length_in": "144",
         "species": "white pine"})  # fmt: skip
    say(
        session,
        "2026-07-14T07:50",
        "lake gable base width sixteen foot even",
        measure("lake gable", "base width", "192"),
    )
    say(session, "2026-07-14T07:52", "slope on the lake gable is eight twelve",
        {"kind": "slope", "place": "lake gable", "rise": 8, "run": 12})  # fmt: skip
    say(session, "2026-07-14T08:05", "window rough opening in the lake gable twenty four and a half wide by thirty high",
        measure("lake gable", "rough opening width", "24 1/2", "window", evidence="twenty four and a half wide"),
        measure("lake gable", "rough opening height", "30", "window", evidence="thirty high"))  # fmt: skip
    say(session, "2026-07-14T08:06", "from the plate to the window sill is fourteen inches and the window centre is eight foot from the corner",
        measure("lake gable", "offset", "14", "plate to window sill"),
        measure("lake gable", "centre", "96", "corner to window"))  # fmt: skip
    say(session, "2026-07-14T08:10", "one by eight pine covers six and seven eighths wide",
        measure(None, "width", "6 7/8", "1x8 pine"))  # fmt: skip
    say(session, "2026-07-14T10:10", "nail the left end once the staging is down",
        {"kind": "task", "place": "lake gable", "do": "nail the left end", "status": "waiting",
         "after": "the staging is down"})  # fmt: skip
    say(session, "2026-07-14T13:00", "flash the window head on the lake gable before the staging comes down",
        {"kind": "task", "place": "lake gable", "do": "flash the window head", "before": "the staging comes down"})  # fmt: skip
    say(session, "2026-07-14T14:30", "caulk the door head on wall a by friday",
        {"kind": "task", "place": "wall A", "do": "caulk the door head", "due": "2026-07-17"})  # fmt: skip
    say(session, "2026-07-14T15:00", "porch roof run is six foot even and it's a four twelve length sixteen foot overhang twelve inches",
        measure("porch roof", "run", "72"), {"kind": "slope", "place": "porch roof", "rise": 4, "run": 12},
        measure("porch roof", "length", "192"), measure("porch roof", "overhang", "12"),
        measure("porch roof", "spacing", "24", "rafter"))  # fmt: skip
