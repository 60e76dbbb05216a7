"""What the screens ask of the session: previews, notes, settling what is open, narrowing a search."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from journal.corrections import Assumed
from journal.errors import NotFound, Unreadable
from journal.fields import describe
from journal.previews import Preview
from journal.session import Session
from tests.tui.jobs import bunkhouse


@pytest.fixture
def job(session: Session) -> Session:
    bunkhouse(session)
    return session


def area(preview: Preview | None, name: str = "net wall area") -> tuple[str, str]:
    assert preview is not None
    before, after = preview.before.value(name), preview.after.value(name)
    return (before.shown if before else "", after.shown if after else "")


def test_preview_of_a_fact_struck_and_added(job: Session) -> None:
    """Previews store nothing and show what striking and adding would do."""
    changes = job.store.changes()
    assert area(job.preview_struck(2, 1))[1].startswith("154.4 ft² ~ (doubtful)")
    typed = {"place": "wall a", "dimension": "height", "figure": "100"}
    assert area(job.preview_added(1, "measure", typed), "gross wall area") == ("163.3 ft²", "166.7 ft²")
    assert job.store.changes() == changes


def test_preview_of_an_assumption(job: Session) -> None:
    """An assumption's effect is shown before it is kept; what will not do is refused as when it is kept."""
    kept = job.preview_assumed("leave in openings under", "10", "wall A")
    assert area(kept) == (
        "132.5 ft² (doubtful) (163.3 less door 21.9, window 8.9)",
        "141.4 ft² (163.3 less door 21.9)",
    )
    assert job.store.assumptions() == []
    with pytest.raises(Unreadable, match=r"^'lots' will not do for leave in openings under: say a figure such as 35\n"):
        job.preview_assumed("leave in openings under", "lots", "wall A")
    with pytest.raises(NotFound, match=r"^nothing is assumed under 'leave in openings'\n.*'leave in openings under'"):
        job.preview_assumed("leave in openings", "10", "wall A")


def assumed(job: Session) -> list[tuple[str | None, str, str]]:
    return [row[:3] for row in job.store.assumptions()]


def test_an_assumption_is_undone_and_done_again(job: Session) -> None:
    """Undo and redo walk through what was set, back to the default, and through corrections of facts between."""
    job.assume("kerf", "1/8")
    job.confirm(3, 1)
    job.assume("kerf", "1/4", "lake gable")
    job.assume("kerf", None)
    assert assumed(job) == [("lake gable", "kerf", "0 1/4")]
    assert job.undo() == ("fix", [Assumed("kerf", None, None, "0 1/8")])
    assert job.undo() == ("fix", [Assumed("kerf", "lake gable", "0 1/4", None)])
    assert assumed(job) == [(None, "kerf", "0 1/8")]
    assert job.undo()[0] == "confirm"
    assert job.undo() == ("fix", [Assumed("kerf", None, "0 1/8", None)])
    assert assumed(job) == []
    with pytest.raises(NotFound, match=r"^there is nothing to undo"):
        job.undo()
    for _ in range(4):
        job.redo()
    assert assumed(job) == [("lake gable", "kerf", "0 1/4")]
    assert job.store.facts(memo=3)[0].confirmed


def test_a_note_is_a_memo_with_its_fact(job: Session) -> None:
    """A note files words and the fact they stand for; undo takes the fact out and leaves the memo."""
    moment = datetime.fromisoformat("2026-07-14T16:00").astimezone()
    done = job.note(
        "cut board 3 left", "task", {"do": "cut board 3 left", "status": "done", "place": "lake gable"}, moment
    )
    assert [describe(filed.fact) for filed in job.store.facts(memo=done.memo)] == ["done: cut board 3 left"]
    job.undo()
    assert job.store.facts(memo=done.memo) == []
    memo = job.store.memo(done.memo)
    assert memo is not None
    assert (memo.text, memo.said_at) == ("cut board 3 left", moment)


def test_settling_can_be_undone(job: Session) -> None:
    """What was open of a memo is set aside, its words stay, and undo brings it back."""
    job.settle(5)
    memo = job.store.memo(5)
    assert memo is not None
    assert (memo.text, job.store.problems(memo.transcript)) == ("the width is fourteen", [])
    job.undo()
    memo = job.store.memo(5)
    assert memo is not None
    assert [problem.message for problem in job.store.problems(memo.transcript)] == ["a width, but of what?"]


@pytest.mark.parametrize(
    ("words", "narrowed", "memos"),
    [
        ("wind", {}, []),
        ("wind", {"typing": True}, [3, 4, 9, 10, 13]),
        ("wind", {"typing": True, "place": "lake gable"}, [9, 10, 13]),
        ("", {"kind": "task"}, [12, 13, 14]),
        ("", {"since": date(2026, 7, 13), "until": date(2026, 7, 13), "kind": "stock"}, [6]),
        ("gable", {"since": date(2026, 7, 14), "kind": "slope"}, [8]),
        ("", {}, []),
    ],
)
def test_search_is_narrowed_down(job: Session, words: str, narrowed: dict[str, object], memos: list[int]) -> None:
    """Place, kind and days narrow a search down; the last word may be half typed."""
    assert sorted(memo.number for memo in job.store.search(words, **narrowed)) == memos  # type: ignore[arg-type]


def test_a_book_of_some_kinds(job: Session) -> None:
    """A book can be kept to the kinds that a screen needs."""
    assert {filed.fact.kind for filed in job.book(kinds=("task", "stock")).facts} == {"task", "stock"}
