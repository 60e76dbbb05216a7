"""Words that builders say after each other gain in the beam; English that is no trade talk loses nothing by it."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal.errors import EngineError
from journal.speech import phrasing
from journal.speech.phrasing import Phrasing, phrases

PIECES = [f"\u2581{word}".encode() for word in ("and", "five", "eighths", "ates", "the", "house", "gable", "Gable", "of", "england", "king")]  # fmt: skip
PIECES += [b"xq", b".", b"ths", "\u2581sixteen".encode(), "\u2581purl".encode(), b"in"]
NUMBER = {piece.decode().replace("\u2581", ""): number for number, piece in enumerate(PIECES)}


def _gain(*words: str) -> float:
    """What a text of these pieces gains in all."""
    fitting, place, total = Phrasing(PIECES), Phrasing.begin, 0.0
    for word in words:
        gain, place = fitting.after(place, NUMBER[word])
        total += gain
    return total


def test_fits() -> None:
    """What builders say gains more than what sounds like it."""
    assert _gain("five", "eighths") > _gain("five", "ates") + 1
    assert _gain("and", "five", "eighths") > 0


def test_pieces_of_a_word() -> None:
    """A word written in pieces gains what the word gains, whatever its beginning would be by itself; marks and capitals
    change nothing."""
    assert _gain("five", "sixteen", "ths") > _gain("five", "sixteen", "xq")
    assert _gain("gable") == _gain("Gable") == _gain("Gable", ".")
    assert _gain("purl") > _gain("xq"), "may still become a purlin"
    assert _gain("purl", "in") > _gain("purl", "xq")


def test_no_word() -> None:
    """What no model knows loses, but no more than a bounded sum a word."""
    assert -3 < _gain("xq") < -1


def test_plain_english() -> None:
    """Ordinary English is known as such, without the trade."""
    assert _gain("king", "of", "england") > 0
    assert phrases().surprise(["of", "the", "house"])[1] < 2


def test_surprise() -> None:
    """A figure that nobody says surprises, one that builders say does not."""
    said, odd = (phrases().surprise(text.split())[-1] for text in ("and five eighths", "and half eighths"))
    assert said < 3 < 6 < odd


def test_damaged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files that are damaged are named, with what to do."""
    (tmp_path / "trade.lm.bin").write_text("no model")
    monkeypatch.setattr(phrasing, "LANGUAGE", tmp_path)
    with pytest.raises(EngineError) as caught:
        phrasing.Phrases()
    start = f"what the engine expects to hear cannot be read: {tmp_path / 'trade.lm.bin'} is damaged or missing ("
    assert caught.value.message.startswith(start)
    assert caught.value.hint == "Install the journal again."
