"""People, not synthetic voices: the recordings of Debian's pocketsphinx-testdata, with the transcripts that come with them."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from journal.speech.base import Sound
from journal.speech.moonshine import Moonshine
from journal.speech.sound import load_sound

DATA = Path("/usr/share/pocketsphinx/test/data")
pytestmark = pytest.mark.skipif(not DATA.is_dir(), reason="pocketsphinx-testdata is not installed")


def _raw(name: str) -> Sound:
    return Sound(np.frombuffer((DATA / name).read_bytes(), "<i2").astype(np.float32) / 32768)


def test_card_hands(moonshine: Moonshine) -> None:
    """Every rank in five hands of cards, read by a person, is heard; one is clipped. The suits may be wrong."""
    ranks = []
    for line in (DATA / "cards" / "cards.transcription").read_text(encoding="utf-8").splitlines():
        said, name = re.findall(r"<s> (.*?)\s*</s> \((\d+)\)", line)[0]
        ranks.append(
            (name, [word for word in said.split() if word not in ("of", "clubs", "spades", "hearts", "diamonds")])
        )
    assert len(ranks) == 5
    for name, expected in ranks:
        heard = moonshine.listen(load_sound(DATA / "cards" / f"{name}.wav")).text.split()
        assert [word for word in heard if word in {rank for _, hand in ranks for rank in hand}] == expected


@pytest.mark.parametrize(("name", "words"), [("goforward.raw", ["forward", "ten", "meters"]), ("numbers.raw", [])])
def test_commands_and_bare_numbers(moonshine: Moonshine, name: str, words: list[str]) -> None:
    """A command is heard; bare numbers, which a builder says all day, never come back empty."""
    if not (DATA / name).is_file():
        pytest.skip(f"{name} is not in this version of the package")
    heard = moonshine.listen(_raw(name)).text.replace("metres", "meters")
    assert heard
    assert all(word in heard.split() for word in words)
