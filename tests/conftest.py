"""What every test stands on: a home of its own, no JOURNAL_ settings from outside, a cache shared by the run."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from journal.session import Session


@pytest.fixture(scope="session")
def shared_cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One cache for the run, so that the speech model is rebuilt once."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(autouse=True)
def _own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, shared_cache: Path) -> None:
    for name in [name for name in os.environ if name.startswith(("JOURNAL_", "XDG_"))]:
        monkeypatch.delenv(name)
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("JOURNAL_CACHE", str(shared_cache))


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job folder that is not there yet."""
    return tmp_path / "bunkhouse"


@pytest.fixture
def session(job: Path) -> Iterator[Session]:
    """An open, empty job."""
    with Session.open(job) as opened:
        yield opened
