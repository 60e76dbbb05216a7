"""`journal read`: the facts in a line of text; nothing is stored and no job is needed."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import datetime
from typing import IO, Any

import click

from journal.cli.common import Moment, emit, note, with_output
from journal.extract import extract
from journal.fields import describe
from journal.interchange import extraction_to_json, fact_from_json
from journal.records import Known


@click.command()
@click.argument("text", required=False)
@click.option("--jsonl", type=click.File(encoding="utf-8"), help="Memos to read, an object a line: id, said_at, text.")
@click.option("--at", type=Moment(), metavar="WHEN", help="When it was said; dates count from it. Now, if not given.")
@click.option("--place", metavar="PLACE", help="The place that the memo before it was about.")
@with_output
@click.pass_context
def read(
    ctx: click.Context,
    text: str | None,
    jsonl: IO[str] | None,
    at: datetime | None,
    place: str | None,
    form: str | None,
) -> None:
    """Read a memo and show its facts; nothing is stored.

    \b
    journal read "lake gable centre board fifty six and seven eighths long point"
    journal read --jsonl memos.jsonl > facts.jsonl
    """
    if (text is None) == (jsonl is None):
        raise click.UsageError("give a line of text, or --jsonl FILE")
    if jsonl is not None:
        lines = _Lines(jsonl)
        emit(lines.read(), form or "json", _shown)
        if lines.failed:
            ctx.exit(1)
        return
    assert text is not None
    words = " ".join(text.lower().split())
    read_out = extract(words, at or datetime.now().astimezone(), Known(carried_place=place))
    emit([extraction_to_json(words, read_out)], form, _shown)


class _Lines:
    """Memos of a file, read one by one; a line that is no memo is told and passed over."""

    def __init__(self, file: IO[str]) -> None:
        self._file = file
        self.failed = 0

    def read(self) -> Iterator[dict[str, Any]]:
        """The facts of each memo, with its id."""
        for number, line in enumerate(self._file, 1):
            if not line.strip():
                continue
            try:
                memo = json.loads(line)
                said_at = datetime.fromisoformat(memo["said_at"])
                text, carried = memo["text"], memo.get("carried_place")
            except (ValueError, KeyError, TypeError, AttributeError):
                self.failed += 1
                note(f"{self._file.name} line {number} is no memo: {line.strip()[:60]}")
                note('Write it as {"id": "1", "said_at": "2026-07-13T07:40", "text": "wall a height eight foot two"}.')
                continue
            row = extraction_to_json(text, extract(text, said_at, Known(carried_place=carried)))
            yield {"id": memo.get("id", str(number)), **row}


def _shown(row: Any) -> str:
    lines = []
    for fact in row["facts"]:
        start, end = fact["evidence"]
        lines.append(f"{fact['kind']:<8} {fact.get('place') or '(no place)'}  {describe(fact_from_json(fact))}")
        lines.append(f"         <{row['text'][start:end]}>  {fact['rule']}")
    lines.extend(f"? {doubt['shown']}" for doubt in row["doubts"])
    lines.extend(f"! {text}" for problem in row["problems"] for text in (problem["message"], problem["hint"]) if text)
    return "\n".join(lines) or "nothing to record"
