"""Putting right what was filed: every correction is a row that replaces another, and undoing is one more.

Works on an open store, inside its transactions. Knows nothing of speech, quantities or screens.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime

from journal.changes import Act
from journal.errors import NotFound, Unreadable
from journal.fields import describe, field_names, with_fields
from journal.interchange import fact_from_json
from journal.records import KINDS, Extraction, Fact, Memo, Span
from journal.rows import FactRow, doubts_of, words_of
from journal.store import Draft, Store


@dataclass(frozen=True, slots=True)
class Corrected:
    """One fact before and after: `was` None for one that was added, `now` None for one that was struck."""

    memo: int
    number: int
    was: Fact | None
    now: Fact | None


@dataclass(frozen=True, slots=True)
class Assumed:
    """What quantities take for granted, before and after, for a place or the job; None is the default."""

    name: str
    place: str | None
    was: str | None
    now: str | None


def the_memo(store: Store, number: int) -> Memo:
    """The memo of that number; NotFound where there is none."""
    memo = store.memo(number)
    if memo is None:
        raise NotFound(f"there is no memo {number} in this journal", hint="journal day lists the memos of a day.")
    return memo


def the_fact(store: Store, memo: int, number: int) -> FactRow:
    """The current row of a memo's fact; NotFound where there is none, or where a later memo replaced it."""
    the_memo(store, memo)
    row = store.fact_row(memo, number)
    if row is None:
        count = len(store.fact_rows(memo))
        facts = f"It has {count}: 1 to {count}." if count > 1 else "It has one." if count else "It has none."
        raise NotFound(f"memo {memo} has no fact {number}", hint=facts)
    later = store.replaced_by(row.uuid)
    if later is not None:
        raise NotFound(
            f"memo {memo} fact {number} was replaced by memo {later.memo} fact {later.number}",
            hint=f"Put that one right: journal fix {later.memo}.{later.number} …",
        )
    return row


def fix_fact(store: Store, memo: int, number: int, typed: Mapping[str, str]) -> Corrected:
    """One fact with some fields as typed, filed in place of what stood there."""
    row = the_fact(store, memo, number)
    if row.struck:
        raise NotFound(f"memo {memo} fact {number} is struck", hint="journal undo brings it back.")
    now = with_fields(row.fact, typed)
    with store.writing():
        _replace(store, row, now, change=store.add_change("fix"), confirmed=True)
    return Corrected(memo, number, row.fact, now)


def add_fact(store: Store, memo: int, kind: str, typed: Mapping[str, str]) -> Corrected:
    """A fact that the reader missed, added to a memo as typed; its evidence is the whole memo."""
    owner = the_memo(store, memo)
    fact = fact_typed(owner, kind, typed)
    with store.writing():
        number = store.next_fact_number(owner.uuid)
        store.add_fact(
            Draft(fact, None, confirmed=True), memo_uuid=owner.uuid, transcript=owner.transcript, number=number,
            change=store.add_change("add"), known_at=datetime.now(UTC),
        )  # fmt: skip
    return Corrected(memo, number, None, fact)


def fact_typed(owner: Memo, kind: str, typed: Mapping[str, str]) -> Fact:
    """A fact of a memo as typed, its evidence the whole memo; Unreadable where it lacks what its kind needs."""
    if kind not in KINDS:
        raise Unreadable(f"'{kind}' is no kind of fact", hint=f"The kinds are: {', '.join(KINDS)}.")
    missing = [name for name in _NEEDED[kind] if not typed.get(name, "").strip()]
    if missing:
        raise Unreadable(
            f"a {kind} needs {' and '.join(missing)}", hint=f"A {kind} may have: {', '.join(field_names(kind))}."
        )
    blank = fact_from_json({"kind": kind, "rule": "by hand", "evidence": [0, len(owner.text)], **_BLANK[kind]})
    return with_fields(blank, typed)


_NEEDED = {
    "measure": ("dimension", "figure"), "slope": ("figure",), "task": ("do",), "stock": ("event",),
    "reading": ("quantity", "figure"), "hours": ("figure",), "cost": ("figure",),
}  # fmt: skip
_BLANK: dict[str, dict[str, object]] = {
    "measure": {"dimension": "other", "ticks": 0}, "slope": {"rise": 0.0}, "task": {"do": ""}, "stock": {"event": "have"},
    "reading": {"quantity": "moisture", "value": 0.0, "unit": "%"}, "hours": {"hours": 0.0}, "cost": {"amount": 0.0},
}  # fmt: skip


def strike_facts(store: Store, memo: int, number: int | None) -> list[Corrected]:
    """Facts taken out of the book, one or all of a memo; they stay on file."""
    rows = _chosen(store, memo, number)
    with store.writing():
        change = store.add_change("strike")
        for row in rows:
            _replace(store, row, row.fact, change=change, confirmed=row.confirmed, struck=True)
    return [Corrected(memo, row.number, row.fact, None) for row in rows]


def confirm_facts(store: Store, memo: int, number: int | None) -> list[Corrected]:
    """Facts looked at and found right, one or all of a memo; their doubts are settled."""
    rows = _chosen(store, memo, number)
    with store.writing():
        change = store.add_change("confirm")
        for row in rows:
            _replace(store, row, replace(row.fact, doubts=()), change=change, confirmed=True)
    return [Corrected(memo, row.number, row.fact, replace(row.fact, doubts=())) for row in rows]


def _chosen(store: Store, memo: int, number: int | None) -> list[FactRow]:
    if number is not None:
        row = the_fact(store, memo, number)
        if row.struck:
            raise NotFound(f"memo {memo} fact {number} is struck already", hint="journal undo brings it back.")
        return [row]
    the_memo(store, memo)
    rows = [row for row in store.fact_rows(memo) if not row.struck]
    if not rows:
        raise NotFound(f"memo {memo} has no facts", hint=f"Put its words right: journal fix {memo} words='…'")
    return rows


def reword(store: Store, memo: Memo, text: str, extraction: Extraction, *, act: Act = "words") -> list[Corrected]:
    """The memo with other words, read anew. What was confirmed by hand stays; the rest is replaced, added or struck."""
    now = datetime.now(UTC)
    old = [row for row in store.fact_rows(memo.number) if not row.struck]
    corrected = []
    with store.writing():
        change = store.add_change(act)
        transcript = store.add_transcript(
            memo.uuid, change, text, extraction, known_at=now, readings=memo.readings, replaces=memo.transcript
        )
        for row, fact in _paired(old, extraction.facts):
            if row is None:
                number = store.next_fact_number(memo.uuid)
                draft = Draft(fact, None) if fact else None
            elif row.confirmed:
                kept = replace(row.fact, evidence=fact.evidence if fact else Span(0, len(text)))
                number, draft = row.number, Draft(kept, row, confirmed=True)
            else:
                number, draft = row.number, Draft(fact or row.fact, row, struck=fact is None)
            if draft is None:
                continue
            store.add_fact(
                draft, memo_uuid=memo.uuid, transcript=transcript, number=number, change=change, known_at=now
            )
            after = None if draft.struck else draft.fact
            if row is None or after is None or describe(row.fact) != describe(after) or row.fact.place != after.place:
                corrected.append(Corrected(memo.number, number, row.fact if row else None, after))
    return corrected


def settle(store: Store, memo: Memo) -> None:
    """The memo's words filed once more with nothing left open: problems and loose doubts were looked at."""
    asides = tuple(filed.aside for filed in store.asides_of(memo.transcript))
    with store.writing():
        store.add_transcript(
            memo.uuid, store.add_change("confirm"), memo.text, Extraction(asides=asides, place=memo.place),
            known_at=datetime.now(UTC), words=memo.words, readings=memo.readings, replaces=memo.transcript,
        )  # fmt: skip


def assume(store: Store, name: str, value: str | None, place: str | None) -> Assumed:
    """What quantities take for granted from now on, for a place or the job; None is the default. Undone as a fix is."""
    was = store.assumption(name, place)
    with store.writing():
        store.set_assumption(name, value, place=place, change=store.add_change("fix"))
    return Assumed(name, place, was, value)


def _paired(old: list[FactRow], new: Iterable[Fact]) -> list[tuple[FactRow | None, Fact | None]]:
    """Each old fact with the new one that stands for it: the same in kind and name, else the same kind in order."""
    left = list(old)
    pairs: list[tuple[FactRow | None, Fact | None]] = []
    waiting = []
    for fact in new:
        row = next((row for row in left if _name(row.fact) == _name(fact)), None)
        if row is None:
            waiting.append(fact)
        else:
            left.remove(row)
            pairs.append((row, fact))
    for fact in waiting:
        row = next((row for row in left if row.fact.kind == fact.kind and not row.confirmed), None)
        if row is not None:
            left.remove(row)
        pairs.append((row, fact))
    return [*pairs, *((row, None) for row in left)]


def _name(fact: Fact) -> tuple[object, ...]:
    return (
        fact.kind,
        fact.place,
        *(getattr(fact, name, None) for name in ("about", "dimension", "what", "event", "do")),
    )


def undo(store: Store) -> tuple[Act, list[Corrected | Assumed]]:
    """The last correction taken back: its act, and what stands again. NotFound where there is none."""
    return _reverse(store, "undo")


def redo(store: Store) -> tuple[Act, list[Corrected | Assumed]]:
    """The last undoing taken back. NotFound where nothing was undone since the last correction."""
    return _reverse(store, "redo")


def _reverse(store: Store, act: Act) -> tuple[Act, list[Corrected | Assumed]]:
    dead: set[str] = set()
    target: tuple[str, Act] | None = None
    for uuid, done, undoes in store.changes():
        if uuid in dead:
            continue
        if undoes:
            dead.add(undoes)
        if done == "redo" and act == "redo":
            continue  # what it brought back is passed over; what was undone before that comes next
        if done == "undo" and act == "redo":
            target = uuid, done
            break
        if done in ("fix", "add", "words", "strike", "confirm", "redo"):
            if act == "undo":
                target = uuid, done
            break
    if target is None:
        raise NotFound(f"there is nothing to {act}", hint="Only corrections can be undone; memos stay.")
    return target[1], _write_reverse(store, target[0], act)


def _write_reverse(store: Store, change: str, act: Act) -> list[Corrected | Assumed]:
    with store.writing():
        reversing = store.add_change(act, undoes=change)
        transcripts = _reverse_words(store, change, reversing)
        return [*_reverse_facts(store, change, reversing, transcripts), *_reverse_assumed(store, change, reversing)]


def _reverse_words(store: Store, change: str, reversing: str) -> dict[str, str]:
    """The words that a change replaced, filed once more; the new transcript of each memo by the memo's uuid."""
    transcripts = {}
    for row in store.transcripts_of_change(change):
        old, memo = store.transcript(row["replaces"]), store.memo_by_uuid(row["memo"])
        if old is None or memo is None:
            continue
        extraction = Extraction(
            problems=tuple(store.problems(old["uuid"])),
            asides=tuple(filed.aside for filed in store.asides_of(old["uuid"])),
            doubts=doubts_of(old["doubts"]),
            place=old["place"],
        )
        transcripts[memo.uuid] = store.add_transcript(
            memo.uuid, reversing, old["text"], extraction, known_at=datetime.now(UTC), words=words_of(old["words"]),
            readings=memo.readings, heard_doubts=doubts_of(old["heard_doubts"]), replaces=memo.transcript,
        )  # fmt: skip
    return transcripts


def _reverse_facts(store: Store, change: str, reversing: str, transcripts: Mapping[str, str]) -> list[Corrected]:
    """The facts that a change replaced, filed once more; those that it added are struck."""
    corrected = []
    for row in store.rows_of_change(change):
        tip = _tip(store, row)
        if tip.memo_uuid != row.memo_uuid:  # a later memo replaced it: that one stands
            continue
        before = store.fact_by_uuid(row.replaces) if row.replaces else None
        base = before or row
        struck = before.struck if before is not None else True
        store.add_fact(
            Draft(base.fact, tip, confirmed=base.confirmed, struck=struck), memo_uuid=base.memo_uuid,
            transcript=transcripts.get(base.memo_uuid, base.transcript), number=base.number, change=reversing,
            known_at=datetime.now(UTC),
        )  # fmt: skip
        was, now = None if row.struck else row.fact, None if struck else base.fact
        corrected.append(Corrected(base.memo, base.number, was, now))
    return corrected


def current_row(store: Store, uuid: str) -> FactRow:
    """What stands now in place of a row of that uuid, struck or not; NotFound where there never was one."""
    row = store.fact_by_uuid(uuid)
    if row is None:
        raise NotFound("that fact is not in this journal", hint="journal day lists the memos of a day.")
    return _tip(store, row)


def _reverse_assumed(store: Store, change: str, reversing: str) -> list[Assumed]:
    """What a change let quantities take for granted, set to what stood before it."""
    turned = []
    for uuid, place, name, value in store.assumptions_of_change(change):
        before = store.assumption(name, place, before=uuid)
        store.set_assumption(name, before, place=place, change=reversing)
        turned.append(Assumed(name, place, value, before))
    return turned


def _tip(store: Store, row: FactRow) -> FactRow:
    """The newest row of the chain that this row belongs to."""
    while (later := store.replaced_by(row.uuid)) is not None:
        row = later
    return row


def _replace(
    store: Store, row: FactRow, fact: Fact, *, change: str, confirmed: bool = False, struck: bool = False
) -> None:
    store.add_fact(
        Draft(fact, row, confirmed=confirmed, struck=struck), memo_uuid=row.memo_uuid, transcript=row.transcript,
        number=row.number, change=change, known_at=datetime.now(UTC),
    )  # fmt: skip
