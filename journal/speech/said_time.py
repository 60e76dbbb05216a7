"""When a recording was said: from the file's own metadata, else its name, else its time stamp. Reads no sound."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

_DATE = r"(?P<year>(?:19|20)\d\d)[-_. ]?(?P<month>0[1-9]|1[0-2])[-_. ]?(?P<day>0[1-9]|[12]\d|3[01])"
_TIME = r"(?P<hour>[01]\d|2[0-3])[-_.:h ]?(?P<minute>[0-5]\d)(?:[-_.:m ]?(?P<second>[0-5]\d))?"
_CLOCK = re.compile(
    rf"(?<!\d){_DATE}(?:[-_. T]|[-_. ]?(?:at|um|WA)[-_. ])*{_TIME}(?P<rest>\s?[ap]\.?m\.?)?(?!\d)", re.IGNORECASE
)
_DAY = re.compile(rf"(?<!\d){_DATE}(?!\d)")


def said_time(path: Path) -> tuple[datetime, str]:
    """The local time (with offset) at which a recording was begun, and the words that say where the time comes from."""
    if (noted := _from_metadata(path)) is not None:
        return noted, "the time that the recorder wrote into the file"
    if (named := time_in_name(path.name)) is not None:
        return named.astimezone(), f"the time in the name {path.name}"
    stamp = datetime.fromtimestamp(path.stat().st_mtime).astimezone()
    if (day := _day_in_name(path.name)) is not None and day.date() != stamp.date():
        # The day in a name is surer than the time stamp, which copying changes; noon claims no more than the day.
        return day.replace(hour=12).astimezone(), f"the day in the name {path.name}, at noon for want of a time"
    return stamp, "the time stamp of the file"


def time_in_name(name: str) -> datetime | None:
    """The date and time in a file name such as "20260713_074000.m4a" or "2026-07-13 07.40.22.wav"; None without both."""
    for found in _CLOCK.finditer(name):
        parts = {key: int(found[key] or 0) for key in ("year", "month", "day", "hour", "minute", "second")}
        half = (found["rest"] or "").strip().lower()
        if half and 1 <= parts["hour"] <= 12:
            parts["hour"] = parts["hour"] % 12 + (12 if half.startswith("p") else 0)
        try:
            return datetime(**parts)  # type: ignore[arg-type]
        except ValueError:
            continue
    return None


def _day_in_name(name: str) -> datetime | None:
    for found in _DAY.finditer(name):
        try:
            return datetime(int(found["year"]), int(found["month"]), int(found["day"]))
        except ValueError:
            continue
    return None


def _from_metadata(path: Path) -> datetime | None:
    import av

    try:
        with av.open(str(path), metadata_errors="replace") as container:
            tags = {key.lower(): value for key, value in container.metadata.items()}
            for stream in container.streams.audio:
                tags.update({key.lower(): value for key, value in stream.metadata.items()})
    except (av.FFmpegError, OSError):
        return None
    for key in ("creation_time", "date", "icrd"):
        if (moment := _read_tag(tags.get(key, ""))) is not None:
            return moment
    return None


def _read_tag(value: str) -> datetime | None:
    """A tag's moment in local time; None where it lacks a time of day or is the zero date that some recorders write."""
    if len(value) < 16:
        return None
    try:
        moment = datetime.fromisoformat(value.strip().replace("Z", "+00:00"))
    except ValueError:
        return None
    if moment.year < 1990 or moment > datetime.now(UTC if moment.tzinfo else None):
        return None
    return moment.astimezone()
