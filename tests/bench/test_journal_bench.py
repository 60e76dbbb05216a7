"""How long the commands take on large jobs and from a cold start.

    pytest tests/bench/test_journal_bench.py --benchmark-only -o addopts=

Wanted: `about` on 100,000 memos within 1.5 times of 1,000; the first answer of `read` under 1.0 s and 200 MiB.
"""

from __future__ import annotations

import subprocess
import sys
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from journal.quantities.base import answers
from journal.session import Session

from .make_job import PLACE, make_job


@pytest.fixture(scope="module", params=[1_000, 10_000, 100_000])
def large(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job of that many memos."""
    folder = tmp_path_factory.mktemp(f"job{request.param}") / "job"
    make_job(folder, request.param)
    return folder


def test_about_a_place(benchmark: Any, large: Path) -> None:
    """Everything about a place with 50 facts: from the file to the quantities."""
    with Session.open(large) as session:
        found = benchmark(lambda: answers(session.book(PLACE), PLACE))
        assert found.value("net gable area").value == 37.6


def test_taking_a_typed_memo(benchmark: Any, large: Path) -> None:
    """A memo read against what is known and filed."""
    with Session.open(large) as session:
        at = datetime(2030, 1, 1, 8, 0).astimezone()
        benchmark(session.take_typed, "wall a window width thirty and a half height forty two", at)


def test_a_correction_and_what_it_does(benchmark: Any, large: Path) -> None:
    """What a corrected base would do to the quantities of its place, before it is kept."""
    with Session.open(large) as session:
        preview = benchmark(session.preview, 1, 1, {"figure": "190"})
        assert preview is not None


def test_reading_from_a_cold_start(benchmark: Any) -> None:
    """The first answer of `journal read`, interpreter and all."""
    command = [sys.executable, "-m", "journal", "read", "wall a length seventy one and five eighths"]
    done = benchmark.pedantic(
        lambda: subprocess.run(command, capture_output=True, text=True, check=True), rounds=5, warmup_rounds=1
    )
    assert '71 5/8"' in done.stdout
