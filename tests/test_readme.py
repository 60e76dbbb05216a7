"""The README's worked example: every line it shows is what the commands print."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from journal.cli import main

README = Path(__file__).parent.parent / "README.md"


def blocks() -> list[str]:
    return re.findall(r"^```console\n(.*?)^```", README.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)


def steps() -> list[tuple[str, str]]:
    """Each command of the console blocks, in order, with the lines that stand under it."""
    found = []
    for block in blocks():
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, shown = part.partition("\n")
            found.append((command, shown.rstrip("\n")))
    return found


def play(job: Path) -> list[tuple[str, str]]:
    """What the commands print now, remarks and all."""
    played = []
    for command, _ in steps():
        words = shlex.split(command)
        assert words[0] == "journal"
        result = CliRunner().invoke(main, ["--job", str(job), *words[1:]])
        assert result.exit_code == 0, result.output
        played.append((command, result.output.rstrip("\n")))
    return played


def test_the_worked_example_is_what_is_printed(job: Path) -> None:
    """The memo, its facts and the correction in the README are the commands' own output."""
    assert len(steps()) >= 5
    for (command, shown), (_, printed) in zip(steps(), play(job), strict=True):
        assert printed == shown, command


@pytest.mark.parametrize(
    "command",
    [
        "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/journal demo",
        "python3 -m venv .venv && .venv/bin/pip install -e '.[dev]' && .venv/bin/pytest",
    ],
)
def test_both_commands_stand_there(command: str) -> None:
    """The two commands that set up and run stand in the README, each on a line of its own."""
    assert command in README.read_text(encoding="utf-8").splitlines()
