"""When a recording was said is taken from where it is surest, and told."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

import pytest
from made_sounds import sound

from journal.speech.said_time import said_time, time_in_name
from journal.speech.sound import save_sound


@pytest.mark.parametrize(
    ("name", "moment"),
    [
        ("2026-07-13_0740_wall-a.flac", datetime(2026, 7, 13, 7, 40)),
        ("20260713_074000.m4a", datetime(2026, 7, 13, 7, 40)),
        ("2026-07-13 07.40.22.wav", datetime(2026, 7, 13, 7, 40, 22)),
        ("20260713-074022.amr", datetime(2026, 7, 13, 7, 40, 22)),
        ("Recording 2026-07-13T07-40-22.webm", datetime(2026, 7, 13, 7, 40, 22)),
        ("AUD-20260713-0740-05.opus", datetime(2026, 7, 13, 7, 40, 5)),
        ("audio 2026-07-13 at 07.40.22.ogg", datetime(2026, 7, 13, 7, 40, 22)),
        ("memo 2026-07-13 at 4.40.22 PM.ogg", None),
        ("memo 2026-07-13 at 04.40.22 PM.ogg", datetime(2026, 7, 13, 16, 40, 22)),
        ("2026-13-13_0740.flac", None),
        ("AUD-20260713-WA0007.opus", None),
        ("wall a 38 1 4.flac", None),
    ],
)
def test_names(name: str, moment: datetime | None) -> None:
    """A date and a time in a name are read, whatever stands between them; half of one is not."""
    assert time_in_name(name) == moment


def _recording(folder: Path, name: str) -> Path:
    path = folder / name
    save_sound(sound(0.2), path)
    stamp = datetime(2026, 8, 1, 12, 30).timestamp()
    os.utime(path, (stamp, stamp))
    return path


def test_metadata_first(tmp_path: Path) -> None:
    """What the recorder wrote into the file counts before its name."""
    import av

    path = tmp_path / "2026-07-13_0740.mka"
    with av.open(str(path), "w", format="matroska") as out:
        out.metadata["creation_time"] = "2026-07-14T09:15:00Z"
        stream = out.add_stream("flac", rate=16000)
        stream.layout = "mono"
        import numpy as np

        frame = av.AudioFrame.from_ndarray(np.zeros((1, 4096), np.int16), format="s16", layout="mono")
        frame.sample_rate, frame.pts = 16000, 0
        out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    moment, because = said_time(path)
    assert moment.timestamp() == datetime.fromisoformat("2026-07-14T09:15:00+00:00").timestamp()
    assert because == "the time that the recorder wrote into the file"


def test_name_second(tmp_path: Path) -> None:
    """Without metadata the name counts, before the time stamp; the time carries an offset."""
    moment, because = said_time(_recording(tmp_path, "2026-07-13_0740_wall-a.flac"))
    assert moment.replace(tzinfo=None) == datetime(2026, 7, 13, 7, 40)
    assert moment.tzinfo is not None
    assert because == "the time in the name 2026-07-13_0740_wall-a.flac"


def test_stamp_last(tmp_path: Path) -> None:
    """Without either the time stamp counts, and that is said."""
    moment, because = said_time(_recording(tmp_path, "wall-a.flac"))
    assert moment.replace(tzinfo=None) == datetime(2026, 8, 1, 12, 30)
    assert because == "the time stamp of the file"


def test_day_only(tmp_path: Path) -> None:
    """A day in the name is kept against a time stamp of another day, at noon."""
    moment, because = said_time(_recording(tmp_path, "AUD-20260713-WA0007.wav"))
    assert moment.replace(tzinfo=None) == datetime(2026, 7, 13, 12, 0)
    assert because == "the day in the name AUD-20260713-WA0007.wav, at noon for want of a time"
