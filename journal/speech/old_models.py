"""Speech models in the cache that a newer one stands in for: cleared once that one is loaded. Nothing else is touched."""

from __future__ import annotations

import re
import shutil
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import IO

from journal.speech.model_cache import Progress

_OURS = re.compile(r"(base|tiny)-[0-9a-f]{16}")
_HALF_MADE = re.compile(r"\.(base|tiny)-[0-9a-f]{16}-.+")
_FILES = frozenset({
    "hashes.json", "variant", "hearing.onnx", "hearing.weights", "writing.onnx", "writing.weights", "encoder_model.onnx",
    "decoder_model_merged.onnx",
})  # fmt: skip
"""All that the journal writes into such a folder; one that holds more is not its own alone."""
_HOUR, _DAY = 3600.0, 86400.0


class InUse:
    """A model's folder that this process uses: until it is closed no other journal clears it."""

    def __init__(self, folder: Path) -> None:
        self._mark: IO[bytes] | None = None
        with suppress(OSError):
            self._mark = (folder / "hashes.json").open("rb")
            _locked(self._mark, alone=False)

    def close(self) -> None:
        """It may be cleared from now on."""
        if self._mark is not None:
            self._mark.close()


def clear_superseded(folder: Path, variant: str, tell: Progress) -> int:
    """The bytes freed by clearing what a model just loaded stands in for: folders of the same variant, and half made ones.

    `variant` tells models apart that are used side by side ("base", "base adapted"). A folder that another journal uses, or
    that holds a file of somebody else, is left as it is.
    """
    with suppress(OSError):
        (folder / "variant").write_text(variant, encoding="utf-8")
    freed = [size for old in _superseded(folder, variant) if (size := _clear(old)) > 0]
    if freed:
        several = f"{len(freed)} old speech models" if len(freed) > 1 else "an old speech model"
        tell(f"cleared {several} that this one stands in for: {sum(freed) / 1e6:.0f} MB freed in {folder.parent}")
    return sum(freed)


def _superseded(folder: Path, variant: str) -> Iterator[Path]:
    with suppress(OSError):
        for other in sorted(folder.parent.iterdir()):
            if other == folder or other.is_symlink() or not other.is_dir():
                continue
            if _HALF_MADE.fullmatch(other.name):
                if _age(other) > _DAY:
                    yield other
            elif _OURS.fullmatch(other.name) and _is_superseded(other, variant):
                yield other


def _is_superseded(other: Path, variant: str) -> bool:
    try:
        return (other / "variant").read_text(encoding="utf-8") == variant
    except OSError:  # made by an older journal, or being loaded for the first time at this moment
        return other.name.split("-")[0] == variant.split()[0] and _age(other) > _HOUR


def _age(path: Path) -> float:
    return time.time() - path.stat().st_mtime


def _clear(old: Path) -> int:
    """The bytes that were in a folder that is now gone; 0 where it stays."""
    try:
        files = list(old.iterdir())
        if any(file.name not in _FILES or not file.is_file() for file in files) and not old.name.startswith("."):
            return 0
        if (old / "hashes.json").exists():
            with (old / "hashes.json").open("rb") as mark:
                if not _locked(mark, alone=True):
                    return 0
        size = sum(file.stat().st_size for file in files)
        # by another name first: nobody finds it half there, and where a file of it is open some systems refuse
        going = old if old.name.startswith(".") else old.rename(old.with_name(f".{old.name}-old"))
        shutil.rmtree(going, ignore_errors=True)
    except OSError:
        return 0
    return 0 if going.exists() else size


def _locked(mark: IO[bytes], *, alone: bool) -> bool:
    """Whether the mark could be locked, alone or with others; where the system has no such locks it is open, which does."""
    try:
        import fcntl
    except ImportError:  # Windows
        return True
    try:
        fcntl.flock(mark, (fcntl.LOCK_EX if alone else fcntl.LOCK_SH) | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
