"""Sounds made for a test, in any format that a recorder writes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from journal.speech.base import SAMPLE_RATE, Sound


def tone(seconds: float, *, level: float = 0.3, pitch: float = 220.0) -> Any:
    """A plain tone at 16 kHz."""
    return (level * np.sin(2 * np.pi * pitch * np.arange(int(seconds * SAMPLE_RATE)) / SAMPLE_RATE)).astype(np.float32)


def sound(seconds: float, **more: float) -> Sound:
    """A plain tone as a sound."""
    return Sound(tone(seconds, **more))


def write(path: Path, samples: Any, rate: int = SAMPLE_RATE, *, codec: str, container: str, channels: int = 1) -> Path:
    """A file as some recorder would write it."""
    import av

    layout = "mono" if channels == 1 else "stereo"
    with av.open(str(path), "w", format=container) as out:
        stream: Any = out.add_stream(codec, rate=rate)
        stream.layout = layout
        resampler = av.AudioResampler(format=stream.format.name, layout=layout, rate=rate)
        whole = np.repeat(np.asarray(samples, np.float32)[None, :], channels, axis=0)
        frame = av.AudioFrame.from_ndarray(whole, format="fltp", layout=layout)
        frame.sample_rate = SAMPLE_RATE
        fifo = av.AudioFifo()
        for part in (*resampler.resample(frame), *resampler.resample(None)):
            part.pts = None
            fifo.write(part)
        size = stream.codec_context.frame_size or 1024
        while (part := fifo.read(size, partial=True)) is not None:
            out.mux(stream.encode(part))
        out.mux(stream.encode(None))
    return path
