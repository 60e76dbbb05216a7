"""Sound from any file that a phone or recorder makes, as 16 kHz mono, and back to disk. The only module that knows PyAV."""

from __future__ import annotations

import contextlib
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from journal.errors import SoundError
from journal.speech.base import SAMPLE_RATE, Sound

if TYPE_CHECKING:
    from av.container import InputContainer

SOUND_SUFFIXES = (
    ".wav", ".flac", ".ogg", ".oga", ".opus", ".mp3", ".m4a", ".aac", ".mp4", ".webm", ".mka", ".3gp", ".amr", ".aiff",
    ".aif", ".caf", ".wma",
)  # fmt: skip
"""Names that a recording usually ends in; used to pick the sounds of a folder. A file given by name may end in anything."""

SILENT_PEAK = 3e-4
"""Below this peak (about 10 steps of a 16-bit recorder) there is nothing but the recorder itself."""
QUIET_PEAK = 0.02
CLIPPED_SHARE = 0.001
LONGEST_SECONDS = 3600.0
_NO_LENGTH = 0x7FFFFFFF // 4
"""Frames that a WAV file claims which was written to a pipe, where nobody knew how long it would be."""
_TELL_FORMATS = "The journal takes wav, m4a, ogg, opus, mp3, flac and webm recordings."


def load_sound(path: Path) -> Sound:
    """The first sound stream of a file as 16 kHz mono.

    A recording that is damaged or cut off gives what could be decoded, with a `note` that says so; so does one that is
    clipped or very quiet. SoundError where nothing can be decoded: no file, no sound in it, empty, silent, over an hour.
    """
    path = Path(path)
    if not path.exists():
        raise SoundError(f"{path} does not exist", hint="Check the name, or give the folder that it is in.")
    if path.is_dir():
        raise SoundError(f"{path} is a folder, not a recording", hint="Give a file in it.")
    if path.stat().st_size == 0:
        raise SoundError(
            f"{path} is an empty file", hint="It may still be on its way from the phone: copy it again, then take it."
        )
    samples, declared, damaged = _decode(path)
    if len(samples) == 0:
        raise SoundError(f"{path} holds no sound: it is 0 seconds long", hint="Record the memo again.")
    if float(np.max(np.abs(samples))) < SILENT_PEAK:
        raise SoundError(
            f"{path} is silent: {len(samples) / SAMPLE_RATE:.1f} s with nothing in them",
            hint="Check that the microphone is not muted or covered, then record the memo again.",
        )
    return Sound(samples, path, note=_note(samples, declared, damaged))


def save_sound(sound: Sound, path: Path) -> None:
    """Write a sound as 16-bit mono flac or wav, by the ending of the name; a file half written never bears the name."""
    kind = path.suffix.lower().lstrip(".")
    if kind not in ("flac", "wav"):
        raise SoundError(f"cannot write {path}: only .flac and .wav are written", hint="Name it with one of those.")
    import av

    aside = path.with_name(f".{path.name}.part")
    whole = (np.clip(sound.samples, -1.0, 1.0) * 32767).astype(np.int16)
    try:
        with av.open(str(aside), "w", format=kind) as container:
            stream: Any = container.add_stream("flac" if kind == "flac" else "pcm_s16le", rate=SAMPLE_RATE)
            stream.layout = "mono"
            for start in range(0, len(whole), 4096):
                frame = av.AudioFrame.from_ndarray(whole[None, start : start + 4096], format="s16", layout="mono")
                frame.sample_rate = SAMPLE_RATE
                frame.pts = start
                container.mux(stream.encode(frame))
            container.mux(stream.encode(None))
        aside.replace(path)
    except OSError as error:
        with contextlib.suppress(OSError):
            aside.unlink()
        raise SoundError(
            f"cannot write {path}: {error.strerror or error}",
            hint="Check that there is room and that it may be written.",
        ) from None


def _decode(path: Path) -> tuple[NDArray[np.float32], float | None, bool]:
    """The samples, the seconds that the file says it has (None where it does not say), and whether a part was damaged."""
    import av

    no_sound = SoundError(f"{path} is not a sound file, or its beginning or end is missing", hint=_TELL_FORMATS)
    try:
        container = av.open(str(path), metadata_errors="replace")
    except av.FFmpegError as error:
        if isinstance(error, PermissionError):
            raise SoundError(f"{path} may not be read", hint="Change its permissions, or copy it.") from None
        raise no_sound from None
    with container:
        if not container.streams.audio:
            raise SoundError(f"{path} has no sound in it, only pictures or text", hint=_TELL_FORMATS)
        stream = container.streams.audio[0]
        declared = _declared_seconds(container) if path.suffix.lower() != ".wav" else _wav_seconds(path)
        if declared is not None and declared > LONGEST_SECONDS:
            raise SoundError(
                f"{path} is {declared / 60:.0f} minutes long; a recording of memos may have {LONGEST_SECONDS / 60:.0f}",
                hint=f"Cut it first: ffmpeg -i {path.name} -f segment -segment_time 1800 -c copy part%02d{path.suffix}",
            )
        pieces: list[NDArray[np.float32]] = []
        decoded = 0
        damaged = False
        resampler = av.AudioResampler(format="fltp", layout=stream.layout, rate=SAMPLE_RATE)
        try:
            for packet in container.demux(stream):
                try:
                    frames = packet.decode()
                except av.FFmpegError:
                    damaged = True
                    continue
                for frame in frames:
                    for out in resampler.resample(frame):
                        pieces.append(np.asarray(out.to_ndarray(), np.float32))
                        decoded += pieces[-1].shape[1]
                if decoded > LONGEST_SECONDS * SAMPLE_RATE:
                    break
        except (av.FFmpegError, ValueError):
            damaged = True
        with contextlib.suppress(av.FFmpegError, ValueError):
            pieces.extend(np.asarray(out.to_ndarray(), np.float32) for out in resampler.resample(None))
    samples = _mono(np.concatenate(pieces, axis=1)) if pieces else np.zeros(0, np.float32)
    if damaged and len(samples) == 0:
        raise no_sound
    return np.nan_to_num(samples, posinf=0.0, neginf=0.0), declared, damaged


def _mono(channels: NDArray[np.float32]) -> NDArray[np.float32]:
    """The mean of the channels; the loudest where they cancel each other out."""
    mean: NDArray[np.float32] = channels.mean(axis=0, dtype=np.float32)
    if len(channels) > 1:
        power = (channels.astype(np.float64) ** 2).mean(axis=1)
        if float((mean.astype(np.float64) ** 2).mean()) < 0.05 * power.max():
            loudest: NDArray[np.float32] = channels[int(np.argmax(power))]
            return loudest
    return mean


def _declared_seconds(container: InputContainer) -> float | None:
    stream = container.streams.audio[0]
    if stream.duration and stream.time_base:
        return float(stream.duration * stream.time_base)
    return container.duration / 1_000_000 if container.duration else None


def _wav_seconds(path: Path) -> float | None:
    """The seconds that a WAV file was to have; the decoder tells only what is there. None where it does not say."""
    import wave

    try:
        with wave.open(str(path), "rb") as file:
            frames, rate = file.getnframes(), file.getframerate()
    except (wave.Error, EOFError, OSError, ZeroDivisionError):
        return None
    return frames / rate if rate and frames < _NO_LENGTH else None


def _note(samples: NDArray[np.float32], declared: float | None, damaged: bool) -> str:
    seconds = len(samples) / SAMPLE_RATE
    notes: list[str] = []
    if declared is not None and declared - seconds > 0.25 + 0.01 * declared:
        notes.append(f"incomplete: {seconds:.1f} s of {declared:.1f} s could be read")
    elif damaged:
        notes.append(f"damaged: a part could not be read, {seconds:.1f} s could")
    if float(np.mean(np.abs(samples) > 0.985)) > CLIPPED_SHARE:
        notes.append("too loud: the tops are cut off; hold the phone further away")
    elif float(np.max(np.abs(samples))) < QUIET_PEAK:
        notes.append("very quiet: hold the phone closer")
    return "; ".join(notes)
