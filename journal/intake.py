"""Reading a memo against what the journal knows, and filing it. Works on an open store; knows nothing of sound.

`Knowledge` is what is on file that helps to read the next memo: places, aliases, newest figures and prices. It is loaded once
and kept up to date memo by memo, so that taking ten thousand memos does not read the file ten thousand times.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from fractions import Fraction
from typing import Protocol

from journal.fields import figure_typed
from journal.records import (
    Aside,
    Cost,
    Doubt,
    Extraction,
    Fact,
    Filed,
    Known,
    Measure,
    Memo,
    MemoSource,
    Problem,
    Revision,
    Span,
    Word,
)
from journal.rows import FactRow
from journal.store import Draft, Store

_LOOK_BACK = timedelta(days=31)  # a memo that names no day takes back nothing older than a month


@dataclass(frozen=True, slots=True)
class Words:
    """What was said, however it came in: the text and, when it was heard, what the recogniser knows of it.

    `weighed`: its doubts are all that is to be doubted, and its confidences and readings are for people only.
    """

    text: str
    words: Sequence[Word] = ()
    readings: Sequence[str] = ()
    doubts: Sequence[Doubt] = ()
    engine: str = ""
    engine_version: str = ""
    weighed: bool = False


@dataclass(frozen=True, slots=True)
class Taken:
    """A memo as it was filed: its facts, what it replaced in earlier memos, and what could not be used."""

    memo: Memo
    facts: tuple[Filed[Fact], ...]
    problems: tuple[Problem, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    asides: tuple[Aside, ...] = ()


class Knowledge:
    """Places, aliases, newest figures and prices on file."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._version: int | None = None
        self._load()

    def _load(self) -> None:
        self._places = set(self._store.places())
        self._aliases = self._store.aliases()
        self._figures = self._store.newest_figures()
        self._prices = self._store.newest_prices()
        self._version = self._store.version()

    def before(self, carried_place: str | None) -> Known:
        """What is known when the next memo is read."""
        if self._version != self._store.version():  # another window or a `journal take` beside this one wrote
            self._load()
        return Known(
            carried_place=carried_place,
            places=frozenset(self._places),
            aliases=self._aliases,
            figures=self._figures,
            prices=self._prices,
        )

    def forget(self) -> None:
        """Read the file again before the next memo: something was corrected."""
        self._version = None

    def learn(self, facts: Iterable[Fact]) -> None:
        """Facts that were just filed."""
        for fact in facts:
            if fact.place:
                self._places.add(fact.place)
            if isinstance(fact, Measure):
                self._figures[fact.place, fact.about, fact.dimension] = fact.ticks
            elif isinstance(fact, Cost) and fact.per != "total":
                self._prices[fact.what, fact.per] = fact.amount


def read_words(words: Words, said_at: datetime, known: Known) -> Extraction:
    """What the words say, read against what is known; a memo that names no place leaves off where the one before did.

    A mistake in the reader loses no memo: it is filed with a problem, and can be read again once the mistake is mended.
    """
    from journal.extract import extract  # its grammars take a moment, and screens that only look do not read

    try:
        read = extract(
            words.text,
            said_at,
            known,
            words=() if words.weighed else words.words,
            readings=() if words.weighed else words.readings,
            heard_doubts=words.doubts,
        )
    except Exception as error:
        shown = f"the journal could not read this memo: {type(error).__name__}: {error}"
        hint = "Its words are kept. Add its facts in review, or reword it."
        read = Extraction(problems=(Problem(shown, Span(0, len(words.text)), hint),))
    return replace(read, place=read.place or known.carried_place)


def file_memo(
    store: Store,
    knowledge: Knowledge,
    words: Words,
    said_at: datetime,
    source: MemoSource,
    *,
    recording: str | None = None,
) -> Taken:
    """The memo, read and filed with its facts in one transaction; what it takes back of earlier memos is replaced."""
    local = said_at.astimezone() if said_at.tzinfo is None else said_at
    with store.writing():
        before = store.memo_before(local)
        carried = before.place if before else None
        read = read_words(words, local, knowledge.before(carried))
        targets, unmet = _targets(store, read, before, local)
        read = replace(read, problems=(*read.problems, *unmet))
        change = store.add_change("take")
        uuid, number = store.add_memo(
            local, source, recording=recording, engine=words.engine, engine_version=words.engine_version,
            carried_place=carried,
        )  # fmt: skip
        transcript = store.add_transcript(
            uuid, change, words.text, read, known_at=local, words=words.words, readings=words.readings,
            heard_doubts=words.doubts,
        )  # fmt: skip
        for index, fact in enumerate(read.facts):
            store.add_fact(
                Draft(fact, targets.pop(index, None)), memo_uuid=uuid, transcript=transcript, number=index + 1,
                change=change, known_at=local,
            )  # fmt: skip
        for row in targets.values():  # taken back with nothing put in its stead
            store.add_fact(
                Draft(row.fact, row, struck=True), memo_uuid=row.memo_uuid, transcript=row.transcript,
                number=row.number, change=change, known_at=local,
            )  # fmt: skip
    knowledge.learn(read.facts)
    memo = store.memo(number)
    assert memo is not None  # it was just written
    return taken(store, memo)


class Filing(Protocol):
    """Files what was said: `file_memo`, or a conversation in which it may be about what was said before."""

    def __call__(
        self,
        store: Store,
        knowledge: Knowledge,
        words: Words,
        said_at: datetime,
        source: MemoSource,
        *,
        recording: str | None = None,
    ) -> Taken:
        """The memo as it was filed."""
        ...


def taken(store: Store, memo: Memo, *, as_of: datetime | None = None) -> Taken:
    """A memo with all that stands of it."""
    return Taken(
        memo,
        tuple(store.facts(memo=memo.number, as_of=as_of)),
        tuple(store.problems(memo.transcript)),
        store.loose_doubts(memo.transcript),
        tuple(filed.aside for filed in store.asides_of(memo.transcript)),
    )


def _targets(
    store: Store, read: Extraction, before: Memo | None, said_at: datetime
) -> tuple[dict[int, FactRow], list[Problem]]:
    """The rows that the memo's revisions replace, by index of the new fact (negative: nothing in its stead)."""
    targets: dict[int, FactRow] = {}
    unmet = []
    for count, revision in enumerate(read.revisions, 1):
        row = _target(store, revision, before, said_at)
        if row is None:
            what = (revision.kind or "fact") + (f" at {revision.place}" if revision.place else "")
            unmet.append(
                Problem(
                    f"this puts right something said before ({what}), and nothing was found that it could be",
                    revision.evidence,
                    "Find it with journal find, and put it right there: journal fix MEMO …",
                )
            )
        else:
            targets[revision.by if revision.by is not None else -count] = row
    return targets, unmet


def _target(store: Store, revision: Revision, before: Memo | None, said_at: datetime) -> FactRow | None:
    if revision.kind is None and revision.on is None and revision.was is None:
        rows = [row for row in store.fact_rows(before.number) if not row.struck] if before else []
        return rows[-1] if rows else None
    kinds = (revision.kind,) if revision.kind else ()
    candidates = store.facts(kinds=kinds, place=revision.place, day=revision.on)
    earliest = said_at - _LOOK_BACK
    for filed in reversed(candidates):
        if filed.said_at > said_at or (revision.on is None and filed.said_at < earliest):
            continue
        if revision.was is not None and not _same_figure(filed.fact, revision.was):
            continue
        return store.fact_by_uuid(filed.uuid)
    return None


def _same_figure(fact: Fact, was: str) -> bool:
    """Whether a fact's figure is the one said: "6 1/4" is 6.25 hours."""

    def value(text: str) -> Fraction | None:
        try:
            return sum((Fraction(part) for part in text.split()), Fraction(0))
        except ValueError:
            return None

    typed = value(figure_typed(fact))
    return typed is not None and typed == value(was)
