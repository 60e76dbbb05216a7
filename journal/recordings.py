"""The sounds of a job: copied into its folder, found again by the hash of their bytes. Nothing here listens to them."""

from __future__ import annotations

import hashlib
import os
import shutil
from pathlib import Path

from journal.errors import JobError, NotFound

FOLDER = "recordings"
SOUND_SUFFIXES = frozenset(
    [
        ".wav",
        ".flac",
        ".m4a",
        ".mp4",
        ".aac",
        ".ogg",
        ".oga",
        ".opus",
        ".mp3",
        ".webm",
        ".amr",
        ".3gp",
        ".aif",
        ".aiff",
        ".wma",
    ]
)


def sound_hash(path: Path) -> str:
    """The SHA-256 of a file's bytes in hexadecimal; NotFound where it cannot be read."""
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        raise NotFound(f"{path} cannot be read: {error.strerror}", hint="Check the name, then take it again.") from None


def keep_sound(path: Path, job: Path, name_hash: str) -> str:
    """The name below the job folder of a copy of the sound, which is on disk, whole, when this returns."""
    if path.absolute().parent == (job / FOLDER).absolute():  # the microphone writes there itself
        return f"{FOLDER}/{path.name}"
    inside = f"{FOLDER}/{name_hash[:16]}{path.suffix.lower()}"
    target = job / inside
    if target.is_file():
        return inside
    aside = target.with_name(target.name + ".part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, aside)
        with aside.open("rb+") as file:
            os.fsync(file.fileno())
        aside.replace(target)
    except OSError as error:
        raise JobError(
            f"{path.name} could not be copied to {target.parent}: {error.strerror}",
            hint="Make room or make the folder writable, then take it again; the file itself was not touched.",
        ) from None
    return inside


def sound_files(folder: Path) -> list[Path]:
    """The sound files in a folder and below it, by name."""
    return sorted(path for path in folder.rglob("*") if path.suffix.lower() in SOUND_SUFFIXES and path.is_file())
