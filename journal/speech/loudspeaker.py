"""Sound out of the loudspeaker, to its end, by miniaudio; it is imported when something is played."""

from __future__ import annotations

import time
from collections.abc import Callable, Generator

_LOOK_SECONDS = 0.7


def play_samples(samples: bytes, rate: int, *, silent: bool = False, until: Callable[[], bool] = lambda: False) -> bool:
    """Plays raw 32-bit floats, mono, at a rate in Hz; False where no device can be opened. `silent` plays to no device.

    Stops where `until`, which is asked now and then, says so.
    """
    import miniaudio

    def frames() -> Generator[bytes, int, None]:
        at, wanted = 0, (yield b"")
        while at < len(samples):
            piece = samples[at : at + wanted * 4]
            at += len(piece)
            wanted = yield piece

    try:
        device = miniaudio.PlaybackDevice(
            output_format=miniaudio.SampleFormat.FLOAT32,
            nchannels=1,
            sample_rate=rate,
            app_name="journal",
            backends=[miniaudio.Backend.NULL] if silent else None,
        )
    except miniaudio.MiniaudioError:
        return False
    playing = frames()
    next(playing)
    with device:
        device.start(playing)
        looked = time.monotonic()
        while device.callback_generator is not None:
            time.sleep(0.02)
            if time.monotonic() - looked >= _LOOK_SECONDS:
                if until():
                    return True
                looked = time.monotonic()
        time.sleep(0.2)  # what the device has buffered
    return True
