"""Where things are: the job folder, the data that ships with the package, the user's cache. Makes nothing at import."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

JOURNAL_FILE = "journal.db"
_PACKAGE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class JobChoice:
    """The job folder in use and the sentence that says why it is this one."""

    folder: Path
    because: str


def shipped(name: str) -> Path:
    """The folder `grammars` or `sample_audio`: inside the package when installed from a wheel, beside it in a checkout."""
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def grammars_folder() -> Path:
    """The folder with the words of the trade."""
    return shipped("grammars")


def sample_audio_folder() -> Path:
    """The folder with the sample recordings, each beside the text that was said."""
    return shipped("sample_audio")


def cache_folder() -> Path:
    """The folder for what can be made again (rebuilt speech models): `JOURNAL_CACHE`, else the user's cache."""
    given = os.environ.get("JOURNAL_CACHE")
    if given:
        return Path(given)
    import platformdirs  # not at the top: reading a memo needs neither folder

    return Path(platformdirs.user_cache_dir("journal", appauthor=False))


def choose_job(option: Path | None = None, *, here: Path | None = None) -> JobChoice:
    """The job folder to use: `--job`, then `JOURNAL_JOB`, then the nearest folder upward with a journal, then the default."""
    if option is not None:
        return JobChoice(option.expanduser().absolute(), "given by --job")
    if given := os.environ.get("JOURNAL_JOB"):
        return JobChoice(Path(given).expanduser().absolute(), "given by JOURNAL_JOB")
    start = (here or Path.cwd()).absolute()
    for folder in (start, *start.parents):
        if (folder / JOURNAL_FILE).is_file():
            return JobChoice(folder, f"the nearest folder upward from {start} that has a {JOURNAL_FILE}")
    import platformdirs

    default = Path(platformdirs.user_data_dir("journal", appauthor=False)) / "job"
    return JobChoice(default, "the default: no --job, no JOURNAL_JOB, and no journal in this folder or above it")
