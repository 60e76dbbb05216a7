"""Engines loaded once for the run."""

from __future__ import annotations

import shutil
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from journal.speech.moonshine import Moonshine


@pytest.fixture(scope="session")
def moonshine(shared_cache: Path) -> Moonshine:
    """The default engine, its graph rebuilt into the cache of the run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("JOURNAL_CACHE", str(shared_cache))
        return Moonshine()


@pytest.fixture
def virtual_card(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A PulseAudio of our own whose only microphone hears what is played to it."""
    if shutil.which("pulseaudio") is None or shutil.which("paplay") is None:
        pytest.skip("pulseaudio is not installed")
    socket = tmp_path / "pulse" / "native"
    socket.parent.mkdir(mode=0o700)
    monkeypatch.setenv("PULSE_RUNTIME_PATH", str(socket.parent))
    monkeypatch.setenv("PULSE_STATE_PATH", str(socket.parent))
    monkeypatch.setenv("PULSE_SERVER", f"unix:{socket}")
    server = subprocess.Popen(
        ["pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--disallow-exit=no", "--use-pid-file=no",
         "-L", f"module-native-protocol-unix socket={socket}", "-L", "module-null-sink sink_name=memo"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        for _ in range(100):
            if subprocess.run(["pactl", "set-default-source", "memo.monitor"], capture_output=True).returncode == 0:
                break
            time.sleep(0.1)
        else:
            pytest.skip("pulseaudio does not start here")
        yield
    finally:
        server.terminate()
        server.wait(10)
