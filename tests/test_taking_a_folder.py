"""A folder of recordings goes into the job in the order in which they were said, and one that fails holds up none."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from journal.cli import main
from journal.paths import sample_audio_folder
from journal.session import Session

LATER, EARLIER = "a_2026-07-14_0740.flac", "b_2026-07-13_0740.flac"


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    """Two recordings whose names sort otherwise than their times, and a file that is none."""
    folder = tmp_path / "phone"
    folder.mkdir()
    for name, sample in ((LATER, "2026-07-14_0752_slope"), (EARLIER, "2026-07-13_0744_door")):
        for suffix in (".flac", ".txt"):
            shutil.copy(sample_audio_folder() / f"{sample}{suffix}", (folder / name).with_suffix(suffix))
    (folder / "aa.wav").write_bytes(b"no sound at all")
    return folder


def test_in_the_order_said(job: Path, phone: Path) -> None:
    """What was said first is memo 1; what is no sound is told, exit code 1, and the rest is taken."""
    result = CliRunner().invoke(main, ["--job", str(job), "take", "--engine", "scripted", str(phone)])
    assert result.exit_code == 1
    assert result.stderr.splitlines() == [
        f"{EARLIER}: said 2026-07-13 07:40 (the time in the name {EARLIER})",
        f"{LATER}: said 2026-07-14 07:40 (the time in the name {LATER})",
        f"{phone / 'aa.wav'} is not a sound file, or its beginning or end is missing",
        "The journal takes wav, m4a, ogg, opus, mp3, flac and webm recordings.",
    ]
    with Session.open(job) as session:
        assert [session.store.memo(number).said_at.day for number in (1, 2)] == [13, 14]


def test_a_time_given_keeps_the_order_given(job: Path, phone: Path) -> None:
    """With --at the recordings are taken in the order in which they are named."""
    paths = [str(phone / name) for name in (LATER, EARLIER)]
    at = ["--at", "2026-07-15T08:00"]
    result = CliRunner().invoke(main, ["--job", str(job), "take", "--engine", "scripted", *at, *paths])
    assert result.exit_code == 0
    with Session.open(job) as session:
        assert [session.store.memo(number).text.split()[0] for number in (1, 2)] == ["slope", "door"]
