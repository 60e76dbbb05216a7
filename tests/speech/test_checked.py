"""A second engine doubts a figure that it hears otherwise, gives words their times, and keeps out of noise."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from journal.errors import EngineError
from journal.paths import sample_audio_folder
from journal.records import Heard, Word
from journal.speech import second_opinion
from journal.speech.base import NO_VOCABULARY, SAMPLE_RATE, Sound, Vocabulary
from journal.speech.checked import CheckedRecogniser
from journal.speech.second_opinion import SecondOpinion, speech_above_noise
from journal.speech.sound import load_sound

WINDOW = "window rough opening on wall a thirty and a half wide and forty two and a quarter high"


@dataclasses.dataclass
class Says:
    """An engine that hears the same in everything."""

    text: str
    readings: tuple[str, ...] = ()
    sure: float = 0.9
    name = "says"
    version = "1"

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        words = tuple(Word(word, confidence=self.sure) for word in self.text.split())
        behind = (-0.5,) * len(self.readings)
        return Heard(self.text, words, self.readings, (), self.name, self.version, sound.seconds, behind=behind)


@pytest.fixture(scope="module")
def opinion() -> SecondOpinion:
    """The second engine, loaded once."""
    return SecondOpinion()


@pytest.fixture(scope="module")
def window() -> Sound:
    """The sample memo about the window of wall A."""
    return load_sound(sample_audio_folder() / "2026-07-13_0746_window.flac")


def test_the_right_figures(opinion: SecondOpinion, window: Sound) -> None:
    """Figures heard as they were said carry no doubt, and every word has its time, in order and inside the sound."""
    heard = CheckedRecogniser(Says(WINDOW), opinion).listen(window)
    assert heard.doubts == ()
    times = [time for word in heard.words for time in (word.start, word.end)]
    assert None not in times
    assert times == sorted(times)
    assert 0 < times[0] < times[-1] <= window.seconds
    assert all(word.confidence == 0.9 for word in heard.words)
    assert (heard.engine, heard.engine_version) == ("says", f"1, checked by pocketsphinx {opinion.version}")


@pytest.mark.parametrize(
    ("wrong", "right"),
    [("forty two and a half", "forty two and a quarter"), ("fifty two and a quarter", "forty two and a quarter")],
)
def test_a_wrong_figure(opinion: SecondOpinion, window: Sound, wrong: str, right: str) -> None:
    """A figure that was misheard unsurely is doubted with the one that was said, which becomes one of the readings."""
    text = WINDOW.replace(right, wrong)
    heard = CheckedRecogniser(Says(text, (WINDOW,), sure=0.5), opinion).listen(window)
    (doubt,) = heard.doubts
    assert (doubt.reason, doubt.other, doubt.level) == ("heard", (right,), 2)
    assert doubt.shown == f"'{wrong}' may be '{right}'"
    assert text[doubt.span.start : doubt.span.end] == wrong
    assert WINDOW in heard.readings
    assert heard.text == text


def test_put_right_before(opinion: SecondOpinion, window: Sound) -> None:
    """The same mistake after one correction is doubted with what was meant; before it, it is not."""
    engine = CheckedRecogniser(Says(WINDOW.replace("wall a", "wallet")), opinion)
    assert engine.listen(window).doubts == ()
    (doubt,) = engine.listen(window, Vocabulary(doubted=(("wallet", "wall a"),))).doubts
    assert (doubt.reason, doubt.other) == ("learnt", ("wall a",))


def test_a_missed_figure(opinion: SecondOpinion, window: Sound, monkeypatch: pytest.MonkeyPatch) -> None:
    """A figure that only the second engine heard is told in quiet, and counts for nothing in noise."""
    engine = CheckedRecogniser(Says(WINDOW.replace("forty two and a quarter", "a wart you and a court")), opinion)
    assert "forty two and a quarter" in [other for doubt in engine.listen(window).doubts for other in doubt.other]
    monkeypatch.setattr("journal.speech.checked.NOISY_BELOW_DB", 99.5)
    assert [doubt for doubt in engine.listen(window).doubts if doubt.reason == "second opinion"] == []


def test_without_a_second_opinion(window: Sound) -> None:
    """Without the second engine a figure that nobody says is still doubted, and the engine's version names no other."""
    text = WINDOW.replace("forty two and a quarter", "forty two and a half and a half")
    heard = CheckedRecogniser(Says(text, (WINDOW,), sure=0.4), None).listen(window)
    assert [text[doubt.span.start : doubt.span.end] for doubt in heard.doubts] == ["forty two and a half and a half"]
    assert (heard.engine_version, heard.words[0].start) == ("1", None)


def test_not_asked_in_noise(monkeypatch: pytest.MonkeyPatch, opinion: SecondOpinion, window: Sound) -> None:
    """Where noise drowns the speech the second engine is not asked for its figures."""
    noise = 0.5 * np.random.default_rng(2).normal(size=len(window.samples))
    loud = Sound((window.samples + noise).astype(np.float32))
    assert speech_above_noise(loud.samples) < second_opinion.DROWNED_BELOW_DB < speech_above_noise(window.samples)
    monkeypatch.setattr(opinion, "words", lambda _sound: pytest.fail("asked in noise"))
    assert CheckedRecogniser(Says(WINDOW), opinion).listen(loud).text == WINDOW


def test_nothing_heard(opinion: SecondOpinion) -> None:
    """Where the first engine hears nothing, nothing is added."""
    silence = Sound(np.zeros(SAMPLE_RATE, np.float32))
    assert CheckedRecogniser(Says(""), opinion).listen(silence) == Says("").listen(silence)


def test_words_that_cannot_be_found(opinion: SecondOpinion, window: Sound) -> None:
    """Words whose sound is not known keep no times rather than wrong ones."""
    words = (Word("zzyzxq"), Word("window"))
    assert opinion.timed(window, words) == words


def test_damaged_language(monkeypatch: pytest.MonkeyPatch, tmp_path: object) -> None:
    """Without its language files the second engine says so, and how to go without it."""
    monkeypatch.setattr(second_opinion, "LANGUAGE", tmp_path)
    with pytest.raises(EngineError) as caught:
        SecondOpinion()
    assert caught.value.message.startswith(f"the second engine cannot be started: {tmp_path} is damaged or missing (")
    assert caught.value.hint == "Install the journal again."
