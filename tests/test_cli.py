"""The commands: rows on stdout, remarks on stderr, exit 0 fine, 1 problem, 2 usage."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from journal.cli import _COMMANDS, Commands, main

MEMOS = [
    ("2026-07-13T07:40", "wall a length twenty foot even height eight foot two"),
    ("2026-07-13T07:46", "same wall window rough opening thirty and a half wide and forty two and a quarter high"),
    ("2026-07-14T07:50", "lake gable base width sixteen foot even"),
]


@pytest.fixture
def filled(job: Path) -> Path:
    for when, text in MEMOS:
        assert run(job, "take", "--say", text, "--at", when).exit_code == 0
    return job


def run(job: Path, *arguments: str) -> Result:
    return CliRunner().invoke(main, ["--job", str(job), *arguments])


def rows(result: Result) -> list[dict[str, object]]:
    assert result.exit_code == 0, result.stderr
    return [json.loads(line) for line in result.stdout.splitlines()]


@pytest.mark.parametrize("name", list(_COMMANDS))
def test_every_help_text_has_an_example(name: str) -> None:
    """Each command's help shows a line that could be typed."""
    result = CliRunner().invoke(main, [name, "--help"])
    assert result.exit_code == 0
    assert f"journal {name}" in result.stdout.partition("Usage:")[2].partition("\n")[2]


def test_taking_shows_the_facts_and_exits_fine(job: Path) -> None:
    """A typed memo is stored and shown with its number, its words and its facts."""
    result = run(job, "take", "--say", MEMOS[0][1], "--at", MEMOS[0][0])
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == (
        "memo 1  Mon 13 Jul 07:40\n"
        "   “wall a length twenty foot even height eight foot two”\n"
        "   1     wall A  length 20' 0\"\n"
        '   2     wall A  height 98"\n'
    )


def test_a_half_said_memo_is_stored_with_its_problem(job: Path) -> None:
    """A problem in a memo is shown and does not fail the command."""
    result = run(job, "take", "--say", "wall a window width", "--json")
    (row,) = rows(result)
    assert row["facts"] == []
    assert row["problems"]


def test_many_typed_memos_at_once(job: Path, tmp_path: Path) -> None:
    """Lines of a file are taken one by one; one that is no memo is told with its line, and the rest goes through."""
    lines = [json.dumps({"said_at": when, "text": text}) for when, text in MEMOS]
    path = tmp_path / "memos.jsonl"
    path.write_text("\n".join([lines[0], "{broken", '{"text": "no time"}', lines[1]]), encoding="utf-8")
    result = run(job, "take", "--json", "--jsonl", str(path))
    assert result.exit_code == 1
    assert [json.loads(line)["memo"] for line in result.stdout.splitlines()] == [1, 2]
    hint = 'Write it as {"said_at": "2026-07-13T07:40", "text": "wall a height eight foot two"}.'
    assert result.stderr == (
        f'{path} line 2 is no memo: {{broken\n{hint}\n{path} line 3 is no memo: {{"text": "no time"}}\n{hint}\n'
    )


def test_the_day_and_what_changed(filled: Path) -> None:
    """A day's memos come in order; an empty day says when there were some; what changed names the old figure."""
    assert [row["memo"] for row in rows(run(filled, "day", "2026-07-13", "--json"))] == [1, 2]
    empty = run(filled, "day", "2026-07-20")
    assert (empty.exit_code, empty.stdout) == (0, "")
    assert empty.stderr == "no memos on 2026-07-20. The last day with memos is 2026-07-14.\n"
    run(filled, "take", "--say", "wall a height ninety seven", "--at", "2026-07-15T08:00")
    (change,) = rows(run(filled, "day", "--since", "2026-07-15", "--json"))
    assert (change["place"], change["dimension"], change["now"], change["was"]) == ("wall A", "height", '97"', '98"')


def test_about_a_place(filled: Path) -> None:
    """About a wall: its facts, its net area with the memos behind it; an unknown wall names the ones there are."""
    (row,) = rows(run(filled, "about", "wall a", "--json"))
    assert row["place"] == "wall A"
    areas = [value for value in row["quantities"] if value["name"] == "net wall area"]  # type: ignore[attr-defined]
    # 240 x 98 less 30 1/2 x 42 1/4, worked by hand: (23520 - 1288.625) / 144 = 154.4
    assert [(area["value"], area["memos"]) for area in areas] == [(154.4, [1, 2])]
    unknown = run(filled, "about", "wall g")
    assert (unknown.exit_code, unknown.stdout) == (1, "")
    assert unknown.stderr == "there is no 'wall G' in this journal\nPlaces so far: wall A. Did you mean 'wall A'?\n"


def test_what_is_missing_is_something_to_say(filled: Path) -> None:
    """A gable without a slope says what to say next."""
    (row,) = rows(run(filled, "about", "lake gable", "--json"))
    says = [missing["say"] for missing in row["missing"]]  # type: ignore[attr-defined]
    assert any("slope" in say and "lake gable" in say for say in says)


def test_finding_words(filled: Path) -> None:
    """Full-text search prints memos, and says so when there is none."""
    assert [row["memo"] for row in rows(run(filled, "find", "windows", "--json"))] == [2]
    nothing = run(filled, "find", "chimney")
    assert nothing.exit_code == 0
    assert nothing.stderr == "no memo holds 'chimney'. Try fewer words, or journal about PLACE.\n"


def test_fixing_a_figure_shows_what_it_does(filled: Path) -> None:
    """A figure put right is shown with what it was and what the place's quantities become; undo restores it."""
    result = run(filled, "fix", "1.2", "97")
    assert result.exit_code == 0, result.stderr
    assert result.stdout == '1.2  wall A  height 97"  (was height 98")\n'
    # worked by hand: 240 x 97 / 144 = 161.67, less the window's 8.95
    shown = "net wall area: 154.4 ft² (163.3 less window 8.9) → 152.7 ft² (161.7 less window 8.9)"
    assert f"   wall A: {shown}\n" in result.stderr
    undone = run(filled, "undo")
    assert undone.stdout == '1.2  wall A  height 98"  (was height 97")\n'
    assert undone.stderr == "undone: fix. journal redo brings it back.\n"


@pytest.mark.parametrize(
    ("arguments", "code", "stderr"),
    [
        (("fix", "1.2", "71 5/0"), 1, "'71 5/0' is not a length: the fraction has a zero below the line\nType it as 71 5/8, 5' 11 5/8 or 1820mm.\n"),
        (("fix", "9", "71"), 1, "there is no memo 9 in this journal\njournal day lists the memos of a day.\n"),
        (("strike", "1.7"), 1, "memo 1 has no fact 7\nIt has 2: 1 to 2.\n"),
        (("undo",), 1, "there is nothing to undo\nOnly corrections can be undone; memos stay.\n"),
        (("take", "gone.wav"), 1, "gone.wav cannot be read: No such file or directory\nCheck the name, then take it again.\n"),
    ],
)  # fmt: skip
def test_bad_input_is_said_in_two_lines(filled: Path, arguments: tuple[str, ...], code: int, stderr: str) -> None:
    """What is wrong and the next step, on stderr, exit 1, nothing on stdout."""
    result = run(filled, *arguments)
    assert (result.exit_code, result.stdout, result.stderr) == (code, "", stderr)


@pytest.mark.parametrize(
    "arguments", [("fix", "twelve", "71"), ("fix", "1", "98"), ("day", "someday"), ("read",), ("nonsense",)]
)
def test_wrong_usage_exits_with_two(filled: Path, arguments: tuple[str, ...]) -> None:
    """A command line that cannot be meant exits 2 with the usage."""
    result = run(filled, *arguments)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "Usage:" in result.stderr


def test_csv_has_a_head_and_a_row_each(filled: Path) -> None:
    """Rows as comma-separated values with a head line."""
    lines = run(filled, "about", "--csv").stdout.splitlines()
    assert lines == ["place,facts", "lake gable,1", "wall A,4"]


def test_reading_stores_nothing_and_needs_no_job(job: Path) -> None:
    """`read` prints facts with their evidence and makes no job folder."""
    (row,) = rows(run(job, "read", "--json", "wall a length seventy one and five eighths"))
    (fact,) = row["facts"]  # type: ignore[misc]
    assert (fact["inches"], fact["ticks"]) == ("71 5/8", 582168)
    start, end = fact["evidence"]
    assert "seventy one and five eighths" in str(row["text"])[start:end]
    assert not job.exists()


def test_where_says_which_job_and_why(job: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The job folder comes from --job, then JOURNAL_JOB, then upward, then the default; `where` says which decided."""

    def because(*arguments: str) -> str:
        return str(json.loads(CliRunner().invoke(main, [*arguments, "where", "--json"]).stdout)["because"])

    monkeypatch.chdir(tmp_path)
    assert because().startswith("the default")
    run(job, "take", "--say", "wall a height ninety eight")
    (job / "sub").mkdir()
    monkeypatch.chdir(job / "sub")
    assert because() == f"the nearest folder upward from {job / 'sub'} that has a journal.db"
    monkeypatch.setenv("JOURNAL_JOB", str(job))
    assert because() == "given by JOURNAL_JOB"
    assert because("--job", "x") == "given by --job"


def test_an_error_in_the_journal_itself_is_no_traceback(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Even a mistake of ours is two lines and exit 1, with how to see more."""

    @click.command()
    def broken() -> None:
        raise KeyError("ticks")

    monkeypatch.setattr(Commands, "get_command", lambda self, ctx, name: broken)
    result = run(job, "day")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == (
        "the journal itself went wrong: KeyError: 'ticks'\n"
        "What was stored is safe. Set JOURNAL_DEBUG=1 and run it again to see where.\n"
    )


def test_reading_starts_without_what_it_does_not_need() -> None:
    """`journal read` imports no database, no screens, no speech and no dates library: its first answer must come at once."""
    code = (
        "import sys; from click.testing import CliRunner; from journal.cli import main\n"
        "CliRunner().invoke(main, ['read', 'wall a length seventy one and five eighths'])\n"
        "print(sorted({m.partition('.')[0] for m in sys.modules} & "
        "{'numpy', 'onnxruntime', 'textual', 'sqlite_utils', 'dateparser', 'av', 'spacy', 'vosk', 'pocketsphinx'}))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_question_about_strength_is_refused_beside_its_place(filled: Path) -> None:
    """A memo that asks for the size of a header gets the refusal as a problem, and so does its wall; no figure is made."""
    asked = "what size header do i need over the window on wall a"
    (taken,) = rows(run(filled, "take", "--json", "--say", asked, "--at", "2026-07-13T09:00"))
    assert taken["facts"] == []
    (problem,) = taken["problems"]  # type: ignore[misc]
    assert problem["message"].startswith("The journal does not answer that: it is arithmetic, not engineering.")
    (row,) = rows(run(filled, "about", "wall a", "--json"))
    assert [entry["memo"] for entry in row["problems"]] == [4]  # type: ignore[attr-defined]


def test_tasks_as_they_stand_with_their_cautions(job: Path) -> None:
    """A waiting task is released by its event, a done one is gone, and what hangs on the staging is counted."""
    for when, text in (
        (
            "2026-07-14T10:10",
            "left end of the lake gable is behind the hoist nail the left end once the staging is down",
        ),
        ("2026-07-15T13:00", "flash the window head on the lake gable before the staging comes down"),
        ("2026-07-24T10:30", "flashed the window head on the lake gable so that's done"),
    ):
        assert run(job, "take", "--say", text, "--at", when).exit_code == 0
    waiting = rows(run(job, "todo", "--json", "--as-of", "2026-07-28"))
    assert [(row["status"], row["do"]) for row in waiting] == [("waiting", "nail the left end")]
    run(job, "take", "--say", "took down the staging at the lake gable", "--at", "2026-07-29T15:40")
    released = rows(run(job, "todo", "--json", "--as-of", "2026-07-30"))
    assert [(row["status"], row["do"], row["because"]) for row in released] == [("open", "nail the left end", [4])]


def test_what_a_star_sweeps_in_is_taken(job: Path) -> None:
    """`take sample_audio/*` takes the recordings, passes over the texts beside them, and its wall can be asked about."""
    swept = sorted(str(path) for path in (Path(__file__).parent.parent / "sample_audio").iterdir())
    result = run(job, "take", "--engine", "scripted", *swept)
    assert result.exit_code == 0, result.stderr
    (row,) = rows(run(job, "about", "wall a", "--json"))
    assert {fact["dimension"] for fact in row["facts"]} >= {"length", "height"}  # type: ignore[attr-defined]


def test_a_batch_goes_on_past_what_is_no_sound(job: Path, tmp_path: Path) -> None:
    """A file that is no sound is told with its next step, the others are taken, and the exit code says that one was not."""
    broken = tmp_path / "broken.wav"
    broken.write_bytes(b"sawdust " * 100)
    good = next((Path(__file__).parent.parent / "sample_audio").glob("*wall-a.flac"))
    result = run(job, "take", "--engine", "scripted", "--json", str(broken), str(good))
    assert result.exit_code == 1
    assert [json.loads(line)["memo"] for line in result.stdout.splitlines()] == [1]
    assert f"\n{broken} is not a sound file, or its beginning or end is missing\n" in result.stderr


def test_the_demo_job_answers_through_the_commands(job: Path) -> None:
    """From spoken words to the builder's answers: what is left on two evenings, what changed since Tuesday, an old figure."""
    memos = Path(__file__).parent / "memos" / "demo_memos.jsonl"
    assert run(job, "take", "--jsonl", str(memos)).exit_code == 0

    def left(evening: str) -> set[tuple[object, ...]]:
        tasks = rows(run(job, "todo", "--json", "--as-of", evening))
        return {(task["status"], task["do"], task["overdue"]) for task in tasks}

    friday = left("2026-07-24")
    assert ("open", "oil the top four boards", False) in friday
    assert ("waiting", "nail the left end", False) in friday
    assert ("waiting", "set the sash", False) in friday
    last = left("2026-07-30")
    assert ("open", "nail the left end", False) in last
    assert ("open", "set the sash", True) in last
    assert ("open", "caulk the door head", True) in last

    changes = rows(run(job, "day", "--since", "2026-07-21", "--as-of", "2026-07-24", "--json"))
    changed = {(change["place"], change["dimension"], change["now"], change["was"]) for change in changes}
    assert ("porch roof", "run", '71 1/2"', '72"') in changed
    assert (None, None, "$2.05 per board foot", "$1.85 per board foot") in changed

    (wall,) = rows(run(job, "about", "wall a", "--json"))
    heights = [old["inches"] for old in wall["was"] if old["dimension"] == "rough opening height"]  # type: ignore[attr-defined]
    assert heights == ["42 1/4"]
