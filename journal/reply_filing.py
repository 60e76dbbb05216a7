"""Memos filed that are about what was said before: their words, and what they do to facts on file, under one change.

Append-only like all else: a fact put right is a row in place of the one before.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from journal.answers import Reply
from journal.changes import Act
from journal.corrections import current_row
from journal.intake import Taken, Words, taken
from journal.records import Extraction, Fact, Filed, MemoSource, Problem
from journal.store import Draft, Store


def file_reply(
    store: Store, reply: Reply, words: Words, said_at: datetime, source: MemoSource, recording: str | None
) -> Taken:
    """The memo that was a reply, with what it does carried out."""
    return file_with(store, words, said_at, source, recording, act=reply.act, changes=reply.changes, sure=reply.sure)


def file_with(
    store: Store,
    words: Words,
    said_at: datetime,
    source: MemoSource,
    recording: str | None,
    *,
    act: Act = "take",
    changes: Sequence[tuple[Filed[Fact], Fact | None]] = (),
    sure: bool = False,
    problems: tuple[Problem, ...] = (),
) -> Taken:
    """A memo that is about facts on file: its words, and under a change that can be undone what it does to them.

    A figure put right stands with the memo that put it right, whose words are its evidence; what is confirmed or struck
    stays with the memo that said it.
    """
    with store.writing():
        before = store.memo_before(said_at)
        carried = before.place if before else None
        place = next((now.place for _, now in changes if now is not None and now.place), carried)
        uuid, number = store.add_memo(
            said_at, source, recording=recording, engine=words.engine, engine_version=words.engine_version,
            carried_place=carried,
        )  # fmt: skip
        transcript = store.add_transcript(
            uuid, store.add_change("take"), words.text, Extraction(problems=problems, place=place), known_at=said_at,
            words=words.words, readings=words.readings, heard_doubts=words.doubts,
        )  # fmt: skip
        _write(store, act, changes, uuid, transcript, said_at, sure=sure)
    memo = store.memo(number)
    assert memo is not None  # it was just written
    return taken(store, memo)


def correct_as(
    store: Store, number: int, changes: Sequence[tuple[Filed[Fact], Fact | None]], said_at: datetime
) -> None:
    """What a memo on file puts right, carried out."""
    memo = store.memo(number)
    assert memo is not None
    with store.writing():
        _write(store, "fix", changes, memo.uuid, memo.transcript, said_at, sure=False)


def _write(
    store: Store,
    act: Act,
    changes: Sequence[tuple[Filed[Fact], Fact | None]],
    memo: str,
    transcript: str,
    said_at: datetime,
    *,
    sure: bool,
) -> None:
    change = store.add_change(act) if changes else ""
    for count, (filed, now) in enumerate(changes, 1):
        row = current_row(store, filed.uuid)
        if act == "fix" and now is not None:
            store.add_fact(
                Draft(now, row, confirmed=sure), memo_uuid=memo, transcript=transcript, number=count,
                change=change, known_at=said_at,
            )  # fmt: skip
        else:
            store.add_fact(
                Draft(now or row.fact, row, confirmed=sure, struck=now is None),
                memo_uuid=row.memo_uuid, transcript=row.transcript, number=row.number, change=change,
                known_at=said_at,
            )  # fmt: skip
