"""Old speech models are cleared from the cache, and nothing else is."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from journal.speech.moonshine import Moonshine
from journal.speech.old_models import InUse, clear_superseded

NEW, OLD, OTHER = "base-00000000000000aa", "base-00000000000000bb", "base-00000000000000cc"


def model(cache: Path, name: str, variant: str | None, *, hours: float = 0, more: str = "") -> Path:
    folder = cache / name
    folder.mkdir(parents=True)
    (folder / "hashes.json").write_text("{}")
    (folder / "hearing.weights").write_bytes(bytes(2_500_000))
    if variant:
        (folder / "variant").write_text(variant)
    if more:
        (folder / more).write_text("mine")
    then = time.time() - 3600 * hours
    os.utime(folder, (then, then))
    return folder


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    return tmp_path / "speech"


def cleared(new: Path) -> tuple[list[str], list[str]]:
    """What was told, and the names that are left."""
    told: list[str] = []
    clear_superseded(new, "base adapted", told.append)
    return told, sorted(path.name for path in new.parent.iterdir())


def test_what_the_new_one_stands_in_for_goes(cache: Path) -> None:
    """Models of the same variant, ones of an older release, and what a crash left half made; what was freed is told."""
    new = model(cache, NEW, None)
    model(cache, OLD, "base adapted")
    model(cache, OTHER, None, hours=2)
    model(cache, f".{OLD}-xyz", None, hours=30)
    told, left = cleared(new)
    assert told == [f"cleared 3 old speech models that this one stands in for: 8 MB freed in {cache}"]
    assert left == [NEW]
    assert cleared(new) == ([], [NEW])


@pytest.mark.parametrize(
    ("name", "variant", "hours", "more"),
    [
        ("base-00000000000000bb", "base", 0.0, ""),
        ("tiny-00000000000000bb", None, 50.0, ""),
        ("base-00000000000000bb", "base adapted", 0.0, "notes.txt"),
        ("base-00000000000000bb", None, 0.0, ""),
        ("base-models", "base adapted", 50.0, ""),
        (".base-00000000000000bb-xyz", None, 0.5, ""),
        ("vosk-model-small", None, 50.0, ""),
    ],
)
def test_what_stays(cache: Path, name: str, variant: str | None, hours: float, more: str) -> None:
    """Another variant or kind, a folder with a file of somebody else, one just being made, and whatever has another name."""
    new = model(cache, NEW, None)
    model(cache, name, variant, hours=hours, more=more)
    assert cleared(new) == ([], sorted([NEW, name]))


def test_one_in_use_stays_until_it_is_closed(cache: Path) -> None:
    """Another journal that listens with the old model goes on; once it ends, the next start clears it."""
    new, old = model(cache, NEW, None), model(cache, OLD, "base adapted")
    here = InUse(old)
    assert cleared(new) == ([], [NEW, OLD])
    here.close()
    code = "import sys, pathlib, journal.speech.old_models as o; u = o.InUse(pathlib.Path(sys.argv[1])); print(1, flush=True); input()"
    with subprocess.Popen(
        [sys.executable, "-c", code, str(old)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout is not None
        other.stdout.readline()
        assert cleared(new) == ([], [NEW, OLD])
        other.communicate("\n")
    assert cleared(new) == (
        [f"cleared an old speech model that this one stands in for: 3 MB freed in {cache}"],
        [NEW],
    )


def test_the_engine_clears_once_its_model_is_loaded(moonshine: Moonshine, shared_cache: Path) -> None:
    """An engine that loads tells what it cleared, and holds its own."""
    old = model(shared_cache / "speech", "base-00000000000000dd", "base")
    told: list[str] = []
    again = Moonshine(progress=told.append)
    assert told == [f"cleared an old speech model that this one stands in for: 3 MB freed in {old.parent}"]
    assert not old.exists()
    assert again.version == moonshine.version
