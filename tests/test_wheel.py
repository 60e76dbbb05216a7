"""The built wheel: what a user installs holds the words of the trade and the sample recordings."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of this checkout, built and unpacked into a folder of its own."""
    wheels, target = tmp_path_factory.mktemp("wheels"), tmp_path_factory.mktemp("installed")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "-q"]
    subprocess.run([*pip, "wheel", "--no-deps", "--no-build-isolation", "-w", str(wheels), str(ROOT)], check=True)
    (wheel,) = wheels.glob("*.whl")
    subprocess.run([*pip, "install", "--no-deps", "--target", str(target), str(wheel)], check=True)
    return target


def run(installed: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    code = (
        f"import sys; sys.path.insert(0, {str(installed)!r}); from journal.cli import main; main(prog_name='journal')"
    )
    command = [sys.executable, "-I", "-c", code, *arguments]
    return subprocess.run(command, cwd=installed, capture_output=True, text=True, check=False)


def test_an_installed_journal_reads_a_memo(installed: Path) -> None:
    """The wheel's own word tables give the facts of a memo."""
    done = run(installed, "read", "--json", "wall a length seventy one and five eighths")
    assert done.returncode == 0, done.stderr
    (fact,) = json.loads(done.stdout)["facts"]
    assert (fact["place"], fact["dimension"], fact["inches"]) == ("wall A", "length", "71 5/8")


def test_an_installed_journal_has_its_data(installed: Path) -> None:
    """The word tables and the sample recordings lie inside the installed package, each recording beside its text."""
    where = json.loads(run(installed, "where", "--json").stdout)
    assert where["grammars"] == str(installed / "journal" / "grammars")
    samples = Path(where["sample_audio"])
    assert samples == installed / "journal" / "sample_audio"
    sounds = [path for path in samples.iterdir() if path.suffix in (".flac", ".ogg")]
    assert len(sounds) >= 10
    assert all(path.with_suffix(".txt").is_file() for path in sounds)
