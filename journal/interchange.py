"""Facts, doubts and problems as JSON objects: the keys of the fact format that `read`, `take` and `day` print.

Lengths are strings in inches ("71 5/8") beside `ticks`; a metric measure carries `metric` in the unit said instead.
"""

from __future__ import annotations

from dataclasses import fields
from datetime import date
from typing import Any

from journal.lengths import format_inches, parse_metric, ticks_from_inches
from journal.records import FACT_TYPES, Aside, Doubt, Extraction, Fact, Measure, Problem, Span, said_fields

_DEFAULTS = {"approx": False}
# The fact format gives stock and money no place; where they belong is told beside it.
_WHERE = ("stock", "cost")


def fact_to_json(fact: Fact) -> dict[str, Any]:
    """A fact with only the fields that were said, its evidence as [start, end], and its doubts where it has any."""
    row: dict[str, Any] = {"kind": fact.kind}
    for name in said_fields(fact.kind):
        value = getattr(fact, name)
        if value is None or value == _DEFAULTS.get(name):
            continue
        if name == "ticks":
            if isinstance(fact, Measure) and fact.metric is None:
                row["inches"] = format_inches(value)
            row["ticks"] = value
        elif name == "length_ticks":
            row["length_in"] = format_inches(value)
        elif name == "over_ticks":
            row["over"] = format_inches(value)
        elif name == "place" and fact.kind in _WHERE:
            row["where"] = value
        else:
            row[name] = value.isoformat() if isinstance(value, date) else _plain(value)
    row["evidence"] = list(fact.evidence)
    row["rule"] = fact.rule
    if fact.doubts:
        row["doubts"] = [doubt_to_json(doubt) for doubt in fact.doubts]
    return row


def fact_from_json(row: dict[str, Any]) -> Fact:
    """The fact of a JSON object in that format; ValueError where a field cannot be read."""
    kind = row["kind"]
    if kind not in FACT_TYPES:
        raise ValueError(f"'{kind}' is no kind of fact")
    said = {name: row[name] for name in said_fields(kind) if name in row}
    if kind == "measure" and "ticks" not in said:
        said["ticks"] = parse_metric(row["metric"]) if "metric" in row else ticks_from_inches(row["inches"])
    if "length_in" in row:
        said["length_ticks"] = ticks_from_inches(row["length_in"])
    if "over" in row:
        said["over_ticks"] = ticks_from_inches(row["over"])
    if "where" in row and kind in _WHERE:
        said["place"] = row["where"]
    for name in ("due", "on"):
        if said.get(name) is not None:
            said[name] = date.fromisoformat(said[name])
    return FACT_TYPES[kind](
        **said,
        evidence=Span(*row.get("evidence", (0, 0))),
        rule=row.get("rule", ""),
        doubts=tuple(doubt_from_json(doubt) for doubt in row.get("doubts", ())),
    )


def doubt_to_json(doubt: Doubt) -> dict[str, Any]:
    """A doubt with its span as start and end."""
    start, end = doubt.span
    return {
        "reason": doubt.reason,
        "shown": doubt.shown,
        "start": start,
        "end": end,
        "other": list(doubt.other),
        "level": doubt.level,
    }


def doubt_from_json(row: dict[str, Any]) -> Doubt:
    """The doubt of a JSON object."""
    span = Span(row["start"], row["end"])
    return Doubt(row["reason"], row["shown"], span, tuple(row.get("other", ())), row.get("level", 2))


def problem_to_json(problem: Problem) -> dict[str, Any]:
    """A problem with its span as start and end."""
    start, end = problem.span
    return {"message": problem.message, "hint": problem.hint, "start": start, "end": end}


def aside_to_json(aside: Aside) -> dict[str, Any]:
    """An aside with only the fields that were said."""
    row = {f.name: getattr(aside, f.name) for f in fields(aside) if getattr(aside, f.name) is not None}
    row["evidence"] = list(aside.evidence)
    return row


def extraction_to_json(text: str, extraction: Extraction) -> dict[str, Any]:
    """What `read` prints for a memo: its text, facts, doubts (those of its facts too), problems, and asides if any."""
    doubts = [doubt for fact in extraction.facts for doubt in fact.doubts] + list(extraction.doubts)
    row: dict[str, Any] = {
        "text": text,
        "facts": [fact_to_json(fact) for fact in extraction.facts],
        "doubts": [doubt_to_json(doubt) for doubt in dict.fromkeys(doubts)],
        "problems": [problem_to_json(problem) for problem in extraction.problems],
    }
    if extraction.asides:
        row["asides"] = [aside_to_json(aside) for aside in extraction.asides]
    return row


def _plain(value: object) -> object:
    """7.0 is written as 7, so that a count reads as one."""
    return int(value) if isinstance(value, float) and value.is_integer() else value
