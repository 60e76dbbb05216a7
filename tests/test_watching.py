"""A folder that a phone syncs to."""

from __future__ import annotations

import os
import wave
from pathlib import Path

from journal.watching import arriving


def test_a_recording_is_given_once_and_only_when_it_is_whole(tmp_path: Path) -> None:
    """A file that still grows is waited for; an empty one and one that is no sound are left; none is given twice."""
    steps = [
        lambda: (tmp_path / "old.wav").write_bytes(b"whole"),
        lambda: (tmp_path / "new.m4a").write_bytes(b"half"),
        lambda: (tmp_path / "new.m4a").write_bytes(b"half and whole"),
        lambda: (tmp_path / "empty.wav").touch(),
        lambda: (tmp_path / "list.txt").write_text("no sound"),
        lambda: None,
        lambda: None,
    ]
    looks = 0

    class Enough(Exception):
        """The test has looked often enough."""

    def sleep(_seconds: float) -> None:
        nonlocal looks
        if looks == len(steps):
            raise Enough
        steps[looks]()
        looks += 1

    found = []
    try:
        for path in arriving(tmp_path, sleep=sleep):
            found.append((path.name, looks))
    except Enough:
        pass
    assert [name for name, _ in found] == ["old.wav", "new.m4a"]
    assert found[1][1] >= 4


def test_a_replaced_recording_is_given_again(tmp_path: Path) -> None:
    """Another recording under the same name is another recording."""
    path = tmp_path / "memo.wav"
    path.write_bytes(b"one")
    files = arriving(tmp_path, sleep=lambda _: None)
    assert next(files) == path
    path.write_bytes(b"another")
    assert next(files) == path


def test_a_sync_that_stalls_is_waited_for(tmp_path: Path) -> None:
    """Half of a WAV stands still: not given while its head promises more, until it is whole or nothing came for a minute."""
    path = tmp_path / "memo.wav"
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, 16000, 0, "NONE", ""))
        file.writeframes(bytes(64000))
    whole = path.read_bytes()
    path.write_bytes(whole[:20000])
    looks = 0

    def sleep(_seconds: float) -> None:
        nonlocal looks
        looks += 1
        if looks == 5:
            path.write_bytes(whole)

    assert next(arriving(tmp_path, sleep=sleep)) == path
    assert looks >= 6
    path.write_bytes(whole[:20000])
    long_ago = path.stat().st_mtime - 61
    os.utime(path, (long_ago, long_ago))
    looks = 6
    assert next(arriving(tmp_path, sleep=sleep)) == path
