"""Recordings of every make are read; what cannot be read is told with the next step."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from made_sounds import sound, tone, write

from journal.errors import SoundError
from journal.paths import sample_audio_folder
from journal.speech.base import SAMPLE_RATE, Sound
from journal.speech.sound import load_sound, save_sound

FORMATS = [
    ("telephone.wav", "pcm_s16le", "wav", 8000, 1),
    ("recorder.wav", "pcm_s24le", "wav", 44100, 2),
    ("phone.m4a", "aac", "ipod", 44100, 1),
    ("phone.ogg", "libopus", "ogg", 48000, 1),
    ("player.mp3", "libmp3lame", "mp3", 44100, 2),
    ("archive.flac", "flac", "flac", 16000, 1),
    ("browser.webm", "libopus", "webm", 48000, 1),
]


@pytest.mark.parametrize(("name", "codec", "container", "rate", "channels"), FORMATS)
def test_formats(tmp_path: Path, name: str, codec: str, container: str, rate: int, channels: int) -> None:
    """Every kind of recording becomes 16 kHz mono of the same length, pitch and loudness."""
    path = write(tmp_path / name, tone(2.0), rate, codec=codec, container=container, channels=channels)
    heard = load_sound(path)
    assert heard.samples.dtype == np.float32
    assert heard.seconds == pytest.approx(2.0, abs=0.12)
    middle = heard.samples[SAMPLE_RATE // 2 : SAMPLE_RATE * 3 // 2]
    spectrum = np.abs(np.fft.rfft(middle))
    assert int(np.argmax(spectrum)) == pytest.approx(220, abs=2)
    assert float(np.max(np.abs(middle))) == pytest.approx(0.3, abs=0.08)
    assert heard.note == ""


def test_vorbis() -> None:
    """Ogg Vorbis, which PyAV reads and cannot write, is read from a sample."""
    heard = load_sound(sample_audio_folder() / "2026-07-13_0830_pine.ogg")
    assert 5.0 < heard.seconds < 12.0
    assert heard.note == ""


def test_channels_that_cancel(tmp_path: Path) -> None:
    """Two channels in opposite phase give the sound of one, not silence."""
    import wave

    path = tmp_path / "memo.wav"
    one = (tone(1.0) * 32767).astype(np.int16)
    with wave.open(str(path), "wb") as out:
        out.setnchannels(2)
        out.setsampwidth(2)
        out.setframerate(SAMPLE_RATE)
        out.writeframes(np.stack([one, -one], axis=1).tobytes())
    assert float(np.max(np.abs(load_sound(path).samples))) == pytest.approx(0.3, abs=0.01)


@pytest.mark.parametrize("ending", ["flac", "wav"])
def test_save_and_load(tmp_path: Path, ending: str) -> None:
    """What is written can be read back, to the last step of 16 bits."""
    path = tmp_path / f"memo.{ending}"
    kept = sound(1.3)
    save_sound(kept, path)
    again = load_sound(path)
    assert len(again.samples) == len(kept.samples)
    assert np.allclose(again.samples, kept.samples, atol=2 / 32768)
    assert [p.name for p in tmp_path.iterdir() if p.is_file()] == [path.name]


def _error(path: Path) -> SoundError:
    with pytest.raises(SoundError) as caught:
        load_sound(path)
    return caught.value


def test_no_file(tmp_path: Path) -> None:
    """A name that is not there is told as such."""
    error = _error(tmp_path / "gone.wav")
    assert error.message == f"{tmp_path / 'gone.wav'} does not exist"
    assert error.hint == "Check the name, or give the folder that it is in."


def test_folder(tmp_path: Path) -> None:
    """A folder is not taken for a recording."""
    assert str(_error(tmp_path)) == f"{tmp_path} is a folder, not a recording\nGive a file in it."


def test_empty_file(tmp_path: Path) -> None:
    """An empty file may be one that has not arrived yet."""
    path = tmp_path / "memo.m4a"
    path.touch()
    error = _error(path)
    assert error.message == f"{path} is an empty file"
    assert error.hint == "It may still be on its way from the phone: copy it again, then take it."


@pytest.mark.parametrize("content", [b"lake gable base width sixteen foot\n" * 40, bytes(5000), b"\xff" * 3000])
def test_no_sound_file(tmp_path: Path, content: bytes) -> None:
    """A file that is no sound says so, and which kinds are taken."""
    path = tmp_path / "notes.wav"
    path.write_bytes(content)
    error = _error(path)
    assert error.message == f"{path} is not a sound file, or its beginning or end is missing"
    assert error.hint == "The journal takes wav, m4a, ogg, opus, mp3, flac and webm recordings."


def test_picture_only(tmp_path: Path) -> None:
    """A film without sound is told from a file that is no recording."""
    import av

    path = tmp_path / "site.mp4"
    with av.open(str(path), "w") as out:
        stream = out.add_stream("mpeg4", rate=5)
        stream.width, stream.height, stream.pix_fmt = 64, 64, "yuv420p"
        for _ in range(5):
            out.mux(stream.encode(av.VideoFrame.from_ndarray(np.zeros((64, 64, 3), np.uint8), format="rgb24")))
        out.mux(stream.encode(None))
    assert _error(path).message == f"{path} has no sound in it, only pictures or text"


def test_zero_length(tmp_path: Path) -> None:
    """A recording of no length is not taken for silence."""
    path = tmp_path / "memo.wav"
    import wave

    with wave.open(str(path), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(16000)
    assert str(_error(path)) == f"{path} holds no sound: it is 0 seconds long\nRecord the memo again."


def test_silent(tmp_path: Path) -> None:
    """A silent recording points at the microphone."""
    path = write(tmp_path / "memo.flac", np.zeros(32000), codec="flac", container="flac")
    error = _error(path)
    assert error.message == f"{path} is silent: 2.0 s with nothing in them"
    assert error.hint == "Check that the microphone is not muted or covered, then record the memo again."


def test_cut_off(tmp_path: Path) -> None:
    """A recording whose end is missing gives what is there, and says how much."""
    path = write(tmp_path / "memo.flac", tone(6.0), codec="flac", container="flac")
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    heard = load_sound(path)
    assert 2.0 < heard.seconds < 4.0
    assert re.fullmatch(r"incomplete: \d\.\d s of 6\.0 s could be read", heard.note)


def test_a_wav_cut_off(tmp_path: Path) -> None:
    """A WAV copied halfway is told by what its header promises; one written to a pipe, which promises nothing, is whole."""
    path = tmp_path / "memo.wav"
    save_sound(Sound(tone(4)), path)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 4])
    assert re.fullmatch(r"incomplete: 1\.0 s of 4\.0 s could be read", load_sound(path).note)
    at = whole.index(b"data") + 4
    path.write_bytes(whole[:at] + b"\xff\xff\xff\xff" + whole[at + 4 :])
    assert load_sound(path).note == ""


def test_damaged_in_the_middle(tmp_path: Path) -> None:
    """A recording damaged in the middle gives what can be read, with a note."""
    random = np.random.default_rng(1)
    noise = (0.2 * random.normal(size=6 * SAMPLE_RATE)).astype(np.float32)
    path = write(tmp_path / "memo.flac", noise, codec="flac", container="flac")
    raw = bytearray(path.read_bytes())
    middle = len(raw) // 2
    raw[middle : middle + 12000] = bytes(12000)
    path.write_bytes(bytes(raw))
    heard = load_sound(path)
    assert 3.0 < heard.seconds <= 6.0
    assert re.fullmatch(r"incomplete: 5\.\d s of 6\.0 s could be read", heard.note)


def test_m4a_without_its_end(tmp_path: Path) -> None:
    """An m4a whose index never arrived cannot be read at all, and says that its end may be missing."""
    path = write(tmp_path / "memo.m4a", tone(3.0), 44100, codec="aac", container="ipod")
    path.write_bytes(path.read_bytes()[:20000])
    assert _error(path).message == f"{path} is not a sound file, or its beginning or end is missing"


def test_too_long(tmp_path: Path) -> None:
    """Hours of radio are refused with the command that cuts them."""
    path = write(tmp_path / "radio.flac", np.zeros(4000 * SAMPLE_RATE, np.float32), codec="flac", container="flac")
    error = _error(path)
    assert error.message == f"{path} is 67 minutes long; a recording of memos may have 60"
    assert error.hint == "Cut it first: ffmpeg -i radio.flac -f segment -segment_time 1800 -c copy part%02d.flac"


@pytest.mark.parametrize(
    ("samples", "note"),
    [
        (np.clip(tone(1.0, level=5.0), -1, 1), "too loud: the tops are cut off; hold the phone further away"),
        (tone(1.0, level=0.01), "very quiet: hold the phone closer"),
    ],
)
def test_levels(tmp_path: Path, samples: np.ndarray, note: str) -> None:
    """Clipped and faint recordings are taken with a word of advice."""
    path = tmp_path / "memo.wav"
    save_sound(Sound(samples), path)
    assert load_sound(path).note == note


def test_save_refuses_other_kinds(tmp_path: Path) -> None:
    """Only what can be written is written."""
    with pytest.raises(SoundError, match=r"^cannot write .*memo\.mp3: only \.flac and \.wav are written\n"):
        save_sound(sound(0.1), tmp_path / "memo.mp3")


def test_save_where_nothing_may_be_written(tmp_path: Path) -> None:
    """A folder that is not there is told, and nothing is left behind."""
    with pytest.raises(SoundError) as caught:
        save_sound(sound(0.1), tmp_path / "gone" / "memo.wav")
    assert caught.value.message == f"cannot write {tmp_path / 'gone' / 'memo.wav'}: No such file or directory"
    assert caught.value.hint == "Check that there is room and that it may be written."
