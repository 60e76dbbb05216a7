"""How fast and how lean the default engine is, second opinion and adapter included.

    pytest tests/bench/speech --benchmark-only -o addopts= --benchmark-columns=min,median,max

Wanted: loaded from its cache in 1.0 s; 0.25 s of work a second of sound on two cores; facts 1.5 s after the end of a memo of
6 s; at most 700 MB. What each run computed, in this process and in the second opinion's, stands beside the times in the
JSON of --benchmark-json, so that it can be read on a busy machine too.
"""

from __future__ import annotations

import itertools
import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from journal.paths import sample_audio_folder
from journal.recordings import sound_files
from journal.session import Session
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.beside import OpinionBeside
from journal.speech.checked import CheckedRecogniser
from journal.speech.choose import choose_engine
from journal.speech.sound import load_sound, save_sound

LOAD = """
import json, time
began = time.perf_counter(), time.process_time()
from journal.speech.choose import choose_engine
engine = choose_engine("moonshine")
print(json.dumps([time.perf_counter() - began[0], time.process_time() - began[1]]))
"""


@pytest.fixture(scope="module")
def engine(shared_cache: Path) -> Iterator[CheckedRecogniser]:
    """The default engine, everything on, warm."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("JOURNAL_CACHE", str(shared_cache))
        chosen = choose_engine("moonshine")
    assert isinstance(chosen, CheckedRecogniser)
    chosen.listen(load_sound(sound_files(sample_audio_folder())[0]))
    yield chosen
    if isinstance(chosen.opinion, OpinionBeside):
        chosen.opinion.close()


@pytest.fixture(scope="module")
def sounds() -> list[Sound]:
    """The sample memos."""
    return [load_sound(path) for path in sound_files(sample_audio_folder())]


def test_loading_from_the_cache(benchmark: Any, engine: CheckedRecogniser) -> None:
    """A new process from its first import of the engine to the engine ready; its own clock stands in the extra figures."""
    own: list[tuple[float, float]] = []

    def load() -> None:
        done = subprocess.run([sys.executable, "-c", LOAD], capture_output=True, text=True, check=True)
        own.append(tuple(json.loads(done.stdout)))

    benchmark.pedantic(load, rounds=5, warmup_rounds=1)
    benchmark.extra_info["seconds to load"] = round(min(clock for clock, _ in own), 2)
    benchmark.extra_info["seconds computed"] = round(min(computed for _, computed in own), 2)


def test_a_second_of_sound(benchmark: Any, engine: CheckedRecogniser, sounds: list[Sound]) -> None:
    """All sample memos heard; the extra figures are for one second of sound."""
    seconds = sum(sound.seconds for sound in sounds)
    began = _computed(engine)
    rounds = 3
    benchmark.pedantic(lambda: [engine.listen(sound) for sound in sounds], rounds=rounds)
    benchmark.extra_info["real time, by the clock"] = round(benchmark.stats.stats.min / seconds, 3)
    benchmark.extra_info["real time, computed"] = round((_computed(engine) - began) / rounds / seconds, 3)


def test_memo_to_facts(benchmark: Any, engine: CheckedRecogniser, tmp_path: Path) -> None:
    """A recording of 6 s from its end to the facts in the journal, each time into a new job."""
    spoken = load_sound(sample_audio_folder() / "2026-07-13_0746_window.flac")
    memo = Sound(
        np.resize(spoken.samples, 6 * SAMPLE_RATE) if spoken.seconds < 6 else spoken.samples[: 6 * SAMPLE_RATE]
    )
    path = tmp_path / "2026-07-13_0746.flac"
    save_sound(memo, path)
    numbers = itertools.count()

    def opened() -> tuple[tuple[Session], dict[str, object]]:
        return (Session.open(tmp_path / f"job{next(numbers)}"),), {}

    def taken(session: Session) -> int:
        return len(session.take_sound(path, lambda: engine).memos[0].facts)

    began, rounds = _computed(engine), 7
    assert benchmark.pedantic(taken, setup=opened, rounds=rounds) >= 2
    benchmark.extra_info["seconds computed"] = round((_computed(engine) - began) / rounds, 2)


def test_one_file_by_command(benchmark: Any, engine: CheckedRecogniser, tmp_path: Path) -> None:
    """`journal take FILE` whole: interpreter, model, memo, facts on the screen."""
    path = sample_audio_folder() / "2026-07-14_0752_slope.flac"
    numbers = itertools.count()

    def take() -> str:
        command = [sys.executable, "-m", "journal", "--job", str(tmp_path / f"job{next(numbers)}"), "take", str(path)]
        return subprocess.run(command, capture_output=True, text=True, check=True).stdout

    assert "8/12" in benchmark.pedantic(take, rounds=3, warmup_rounds=1)


def test_a_folder_by_command(benchmark: Any, engine: CheckedRecogniser, tmp_path: Path) -> None:
    """`journal take FOLDER` on all sample memos; the most memory that the two processes held stands in the extra figures."""
    numbers = itertools.count()
    most: list[int] = []

    def take() -> None:
        job = str(tmp_path / f"job{next(numbers)}")
        command = [sys.executable, "-m", "journal", "--job", job, "take", str(sample_audio_folder())]
        running = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        peaks: dict[int, int] = {}
        while running.poll() is None:
            for process in (running.pid, *_children(running.pid)):
                peaks[process] = max(peaks.get(process, 0), _peak_kib(process))
            time.sleep(0.05)
        assert running.returncode == 0
        most.append(sum(peaks.values()) // 1024)

    benchmark.pedantic(take, rounds=2)
    benchmark.extra_info["peak MiB"] = max(most)


def _computed(engine: CheckedRecogniser) -> float:
    """Seconds of processor time that this process and the second opinion's have used."""
    own = time.process_time()
    if isinstance(engine.opinion, OpinionBeside) and engine.opinion._process is not None:
        fields = _proc(engine.opinion._process.pid, "stat").rpartition(")")[2].split()
        own += sum(map(int, fields[11:13])) / os.sysconf("SC_CLK_TCK") if fields else 0
    return own


def _children(process: int) -> list[int]:
    return [int(number) for number in _proc(process, f"task/{process}/children").split()]


def _peak_kib(process: int) -> int:
    return next((int(line.split()[1]) for line in _proc(process, "status").splitlines() if line.startswith("VmHWM")), 0)


def _proc(process: int, name: str) -> str:
    """What Linux tells of a process; nothing elsewhere, or when it is gone."""
    try:
        return Path(f"/proc/{process}/{name}").read_text(encoding="utf-8")
    except OSError:
        return ""
