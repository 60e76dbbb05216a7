"""How fast memos are read, how soon the first one is, and in how much memory. Run with --benchmark-only."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import datetime
from pathlib import Path
from typing import Any

from journal.extract import extract
from journal.records import Known

MEMOS = Path(__file__).parent.parent / "memos"
_COLD = """
import resource, sys, time
start = time.perf_counter()
from datetime import datetime
from journal.extract import extract
extract("wall a length twenty foot even", datetime(2026, 8, 4))
heavy = [name for name in ("spacy", "numpy", "dateparser", "textual", "sqlite_utils", "onnxruntime") if name in sys.modules]
print(time.perf_counter() - start, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, heavy)
"""


def _memos() -> list[tuple[str, datetime, Known]]:
    rows = [
        json.loads(line)
        for file in ("dev_seen", "dev_held")
        for line in (MEMOS / f"{file}.jsonl").read_text().splitlines()
    ]
    return [
        (row["text"], datetime.fromisoformat(row["said_at"]), Known(carried_place=row["carried_place"])) for row in rows
    ]


def test_memos_a_second(benchmark: Any) -> None:
    """All 120 memos of the development set; the goal is 1,500 a second, so 80 ms a round."""
    memos = _memos()
    benchmark(lambda: [extract(*memo) for memo in memos])


def test_cold_start_and_memory(benchmark: Any) -> None:
    """A fresh interpreter reads its first memo; nothing heavy is imported and memory stays small."""

    def cold() -> tuple[float, float, str]:
        seconds, mebibytes, heavy = subprocess.run(
            [sys.executable, "-c", _COLD], capture_output=True, text=True, check=True
        ).stdout.split(" ", 2)
        return float(seconds), float(mebibytes), heavy.strip()

    seconds, mebibytes, heavy = benchmark.pedantic(cold, rounds=3)
    assert heavy == "[]"
    assert mebibytes < 60
    assert seconds < 1.0
