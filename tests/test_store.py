"""The journal file: opening it, and what stands in it at a moment."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from journal.errors import JobError, NotFound
from journal.lengths import INCH
from journal.records import KINDS, Aside, Doubt, Extraction, Fact, Measure, Problem, Span, Word
from journal.rows import FactRow
from journal.session import Session
from journal.store import Draft, Store

MONDAY = datetime(2026, 7, 13, 7, 40, tzinfo=UTC)


def file(store: Store, text: str, *facts: Fact, at: datetime = MONDAY, extraction: Extraction | None = None) -> int:
    """A typed memo with these facts, filed; its number."""
    change = store.add_change("take")
    memo, number = store.add_memo(at, "typed")
    read = extraction or Extraction(facts=facts)
    transcript = store.add_transcript(memo, change, text, read, known_at=at)
    for index, fact in enumerate(read.facts, 1):
        store.add_fact(
            Draft(fact, None), memo_uuid=memo, transcript=transcript, number=index, change=change, known_at=at
        )
    return number


def row_of(store: Store, memo: int, number: int = 1) -> FactRow:
    row = store.fact_row(memo, number)
    assert row is not None
    return row


HEIGHT = Measure(place="wall A", dimension="height", ticks=98 * INCH, evidence=Span(0, 4), rule="measure.plain")


def test_a_fact_comes_back_as_it_was_filed(job: Path) -> None:
    """Every field, the evidence, the rule and the doubts survive the file, and so do words, problems and asides."""
    doubt = Doubt("range", "98 feet?", Span(2, 4), ("96",), 3)
    fact = Measure(
        place="wall A", about="window", dimension="width", ticks=610 * 320, metric="610 mm", approx=True, shade="shy",
        over_ticks=96 * INCH, evidence=Span(1, 9), rule="measure.by", doubts=(doubt,),
    )  # fmt: skip
    problem, aside = (
        Problem("a width, but of what?", Span(3, 7), "Say it again."),
        Aside(topic="courses", text="log", value=9),
    )
    with Store.open(job) as store:
        number = file(store, "words", extraction=Extraction((fact,), (problem,), (aside,), (), (doubt,), "wall A"))
        memo = store.memo(number)
        assert memo is not None
        assert (memo.text, memo.place, memo.said_at) == ("words", "wall A", MONDAY)
        assert [filed.fact for filed in store.facts(memo=number)] == [fact]
        assert store.problems(memo.transcript) == [problem]
        assert [filed.aside for filed in store.asides()] == [aside]
        assert store.loose_doubts(memo.transcript) == (doubt,)


def test_words_keep_their_times_and_confidence(job: Path) -> None:
    """What the recogniser knew of each word is on file."""
    words = (Word("wall", 0.1, 0.4, 0.98), Word("a", None, None, None))
    with Store.open(job) as store:
        change = store.add_change("take")
        memo, number = store.add_memo(MONDAY, "recording", engine="scripted", engine_version="1")
        store.add_transcript(
            memo, change, "wall a", Extraction(), known_at=MONDAY, words=words, readings=("wall eight",)
        )
        filed = store.memo(number)
        assert filed is not None
        assert (filed.words, filed.readings, filed.engine) == (words, ("wall eight",), "scripted")


def test_what_stood_at_a_moment_still_stands_for_it(job: Path) -> None:
    """As of an earlier evening the older figure is current; today the newer is, and shows what it was."""
    tuesday = MONDAY + timedelta(days=1)
    with Store.open(job) as store:
        number = file(store, "wall a height eight foot two", HEIGHT)
        row = row_of(store, number)
        better = Measure(place="wall A", dimension="height", ticks=97 * INCH)
        store.add_fact(
            Draft(better, row), memo_uuid=row.memo_uuid, transcript=row.transcript, number=1,
            change=store.add_change("fix"), known_at=tuesday,
        )  # fmt: skip
        (now,) = store.facts(place="wall A")
        assert now.fact == better
        assert [old.fact for old in now.was] == [HEIGHT]
        assert [filed.fact for filed in store.facts(as_of=MONDAY + timedelta(hours=5))] == [HEIGHT]
        assert store.facts(as_of=MONDAY - timedelta(hours=1)) == []


def test_facts_of_a_place_hold_what_belongs_to_it(job: Path) -> None:
    """ "wall A" finds "wall A top log" but not "wall AB"; exact places bring nothing along."""
    places = ["wall A", "wall A top log", "wall AB", None]
    with Store.open(job) as store:
        for place in places:
            file(store, "words", Measure(place=place, dimension="height", ticks=INCH))
        assert [filed.fact.place for filed in store.facts(place="wall A")] == ["wall A", "wall A top log"]
        assert [filed.fact.place for filed in store.facts(places={"wall AB"})] == ["wall AB"]
        assert store.places() == ["wall A", "wall A top log", "wall AB"]


def test_search_finds_the_current_words_in_any_ending(job: Path) -> None:
    """Full-text search goes over the words as they stand, not as they stood; quotes in the question are only words."""
    with Store.open(job) as store:
        number = file(store, "caulking the door heads on friday")
        memo = store.memo(number)
        assert memo is not None
        assert [found.number for found in store.search("caulk door")] == [number]
        store.add_transcript(
            memo.uuid,
            store.add_change("words"),
            "chalking the floor",
            Extraction(),
            known_at=MONDAY,
            replaces=memo.transcript,
        )
        assert store.search("caulk") == []
        assert [found.text for found in store.search('"chalk" floor')] == ["chalking the floor"]
        assert store.search("  ") == []


def test_every_kind_has_a_view_that_reads_well(job: Path) -> None:
    """Plain SQL on the file shows each kind under its trade's columns, current facts only."""
    with Store.open(job) as store:
        number = file(store, "wall a height eight foot two", HEIGHT)
        row = row_of(store, number)
        store.add_fact(
            Draft(HEIGHT, row, struck=True), memo_uuid=row.memo_uuid, transcript=row.transcript, number=1,
            change=store.add_change("strike"), known_at=MONDAY,
        )  # fmt: skip
        file(store, "wall a height eight foot", Measure(place="wall A", dimension="height", ticks=96 * INCH))
    db = sqlite3.connect(job / "journal.db")
    assert db.execute("SELECT memo, fact, place, dimension, inches FROM measures").fetchall() == [
        (2, 1, "wall A", "height", 96.0)
    ]
    views = {name for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'view'")}
    assert {"measures", "slopes", "tasks", "stock", "readings", "hours", "costs"} <= views
    assert len(KINDS) == 7


def test_tables_are_strict_and_linked(job: Path) -> None:
    """Every table is STRICT, foreign keys are enforced, and the file is in WAL mode."""
    with Store.open(job) as store:
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY constraint failed"):
            store.add_transcript("no such memo", store.add_change("take"), "x", Extraction(), known_at=MONDAY)
        assert store._db.journal_mode == "wal"
        loose = store._db.query("""SELECT name FROM pragma_table_list WHERE type = 'table' AND strict = 0
            AND schema = 'main' AND name NOT LIKE 'memo_search%' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_%' ESCAPE '\\'""")
        assert list(loose) == []


def test_a_failed_transaction_leaves_nothing(job: Path) -> None:
    """What is written inside one transaction is kept whole or not at all."""
    with Store.open(job) as store:
        with pytest.raises(RuntimeError), store.writing():  # noqa: PT012
            file(store, "wall a height eight foot two", HEIGHT)
            raise RuntimeError
        assert store.memo(1) is None
        assert file(store, "again", HEIGHT) == 1


# ---- opening -------------------------------------------------------------------------------------------------------


def test_no_journal_is_said(job: Path) -> None:
    """A folder without a journal is named, with how to begin one; nothing is made."""
    with pytest.raises(JobError) as caught:
        Store.open(job, create=False)
    assert str(caught.value) == f"there is no journal in {job}\nTake a first memo: journal take --say '…'"
    assert not job.exists()


def test_a_newer_release_is_refused_and_its_file_left_alone(job: Path) -> None:
    """A file with a migration that this release does not know is named with it and not changed."""
    Store.open(job).close()
    path = job / "journal.db"
    with sqlite3.connect(path) as db:
        db.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('journal', 'm999_photos', '')"
        )
    db.close()
    before = path.read_bytes()
    with pytest.raises(JobError) as caught:
        Store.open(job)
    assert caught.value.message == f"{path} was written by a newer release (m999_photos)"
    assert caught.value.hint == "Install the newer release to open it; the file was not changed."
    assert path.read_bytes() == before


def test_a_damaged_file_is_said(job: Path) -> None:
    """A file that is no database is named and left as it is."""
    job.mkdir()
    (job / "journal.db").write_bytes(b"dust and shavings " * 400)
    with pytest.raises(JobError, match=r"is damaged or no journal: file is not a database") as caught:
        Store.open(job)
    assert caught.value.hint == "Restore it from a backup; the file was not changed."


@pytest.mark.skipif(
    sys.platform != "linux" or os.geteuid() != 0 or not shutil.which("setpriv"), reason="needs root to drop to nobody"
)
def test_a_read_only_job_is_read_and_not_written(tmp_path: Path) -> None:
    """A job folder that cannot be written can still be asked; taking a memo says so and names the next step."""
    import tempfile

    folder = Path(tempfile.mkdtemp(prefix="journal-readonly-"))  # a place that nobody may enter
    try:
        with Store.open(folder) as store:
            file(store, "wall a height eight foot two", HEIGHT)
        folder.chmod(0o555)
        (folder / "journal.db").chmod(0o444)
        code = (
            "from pathlib import Path; from journal.store import Store\n"
            f"store = Store.open(Path({str(folder)!r}))\n"
            "print(len(store.facts()), store.read_only)\n"
            "try:\n    store.add_change('take')\n"
            "except Exception as error: print(error)\n"
        )
        root = Path(__file__).parent.parent
        done = subprocess.run(
            ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", sys.executable, "-c", code],
            cwd=root, capture_output=True, text=True, check=False, env={"PATH": os.environ["PATH"], "HOME": "/nonexistent"},
        )  # fmt: skip
        if "Permission denied" in done.stderr or "No module named" in done.stderr:
            pytest.skip("nobody cannot read this checkout")
        assert done.stdout == (
            f"1 True\nthe job folder {folder} is read-only; nothing was written\n"
            "Make it writable, or name another one: --job FOLDER\n"
        ), done.stderr
    finally:
        folder.chmod(0o755)
        shutil.rmtree(folder)


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    """A job inside a file is no folder; the message says what stood in the way."""
    (tmp_path / "note.txt").write_text("not a folder")
    with pytest.raises(JobError) as caught:
        Store.open(tmp_path / "note.txt" / "job")
    assert caught.value.message == f"the job folder {tmp_path / 'note.txt' / 'job'} cannot be made: Not a directory"
    assert caught.value.hint == "Name another one: --job FOLDER"


def test_a_job_from_before_keeps_what_it_assumes(job: Path) -> None:
    """A job of the first release is brought up to date; what it takes for granted stands, and undo leaves it alone."""
    Store.open(job).close()
    with sqlite3.connect(job / "journal.db") as db:
        db.execute("DROP INDEX assumptions_by_change")
        db.execute("ALTER TABLE assumptions DROP COLUMN change")
        db.execute("DELETE FROM _sqlite_migrations WHERE name = 'm002_assumptions_are_corrections'")
        db.execute(
            "INSERT INTO assumptions (uuid, place, name, value, known_utc) VALUES ('a', NULL, 'kerf', '0 1/8', '2026-07-13T12:00:00+00:00')"
        )
    db.close()
    with Session.open(job) as session:
        assert [row[:3] for row in session.store.assumptions()] == [(None, "kerf", "0 1/8")]
        with pytest.raises(NotFound, match=r"^there is nothing to undo"):
            session.undo()
