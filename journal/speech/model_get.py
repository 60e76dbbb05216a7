"""Fetches a Vosk model by name over https. The only module that goes on the network, and only when asked to."""

from __future__ import annotations

import os
import re
import shutil
import stat
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path, PurePosixPath
from typing import Any
from urllib.error import HTTPError, URLError
from urllib.parse import urlsplit
from urllib.request import urlopen

from journal.errors import EngineError

MODELS_AT = "https://alphacephei.com/vosk/models"
"""Where the makers of Vosk keep their models; JOURNAL_MODELS_AT names a copy."""
LARGEST_BYTES = 4_000_000_000
_MOST_FILES = 1000
_NAME = re.compile(r"vosk-model-[a-z0-9.-]+")
_STEP = 1 << 20
_SECONDS = 30

Progress = Callable[[str], None]


def get_model(name: str, folder: Path, *, progress: Progress | None = None, models_at: str | None = None) -> Path:
    """The model's folder `folder/NAME`, fetched and unpacked unless it is there already.

    The zip is checked before anything of it is unpacked: its size, how much it unpacks to, names that lead out of the
    folder, links. It is unpacked aside and renamed, so that a folder of that name is whole. EngineError otherwise.
    """
    if not _NAME.fullmatch(name) or ".." in name:
        raise EngineError(
            f"'{name}' is no name of a Vosk model",
            hint="Names look like vosk-model-small-en-us-0.15; nothing was fetched.",
        )
    target = folder / name
    if target.is_dir():
        return target
    base = (models_at or os.environ.get("JOURNAL_MODELS_AT") or MODELS_AT).rstrip("/")
    address = f"{base}/{name}.zip"
    if urlsplit(address).scheme != "https" and urlsplit(address).hostname not in ("127.0.0.1", "localhost"):
        raise EngineError(f"{base} is not an https address", hint="Models are fetched over https only.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{name}-", dir=folder) as aside:
            packed = Path(aside) / "model.zip"
            _fetch(address, packed, progress or (lambda _what: None))
            inside = _unpack(packed, Path(aside) / "model", name)
            inside.replace(target)
    except OSError as error:
        raise EngineError(
            f"the model cannot be written into {folder}: {error.strerror or error}",
            hint="Make room there, or choose another.",
        ) from error
    return target


def _fetch(address: str, packed: Path, tell: Progress) -> None:
    try:
        with urlopen(address, timeout=_SECONDS) as answer:  # https, or a copy on this machine: checked by get_model
            size = int(answer.headers.get("Content-Length") or 0)
            if size > LARGEST_BYTES:
                raise EngineError(
                    f"{address} is {size / 1e9:.1f} GB; models larger than {LARGEST_BYTES / 1e9:.0f} GB are not taken",
                    hint="Choose a smaller one, with 'small' in its name.",
                )
            got, told = 0, -1
            with packed.open("wb") as file:
                while block := answer.read(_STEP):
                    got += len(block)
                    if got > LARGEST_BYTES:
                        raise EngineError(f"{address} does not end", hint="Nothing of it was kept.")
                    file.write(block)
                    if size and (share := got * 20 // size) != told:
                        told = share
                        tell(f"fetching: {got / 1e6:.0f} of {size / 1e6:.0f} MB")
    except HTTPError as error:
        raise EngineError(
            f"there is no model at {address} (answer {error.code})",
            hint="Check the name against the list of Vosk models, or unpack a model yourself and give --vosk-model FOLDER.",
        ) from None
    except (URLError, TimeoutError, ConnectionError) as error:
        reason = getattr(error, "reason", error)
        raise EngineError(
            f"{address} cannot be reached: {reason}",
            hint="Everything but this works without a network. Try again later, or bring the folder on a stick.",
        ) from None
    if size and got != size:
        raise EngineError(
            f"{address} broke off after {got / 1e6:.1f} of {size / 1e6:.1f} MB",
            hint="Try again; nothing of it was kept.",
        )


def _unpack(packed: Path, into: Path, name: str) -> Path:
    """The model's folder inside the zip, unpacked."""
    damaged = EngineError(f"what was fetched as {name} is no whole zip file", hint="Try again; nothing of it was kept.")
    try:
        with zipfile.ZipFile(packed) as archive:
            members = archive.infolist()
            for member in members:
                _refuse_unsafe(member, name)
            total = sum(member.file_size for member in members)
            if total > LARGEST_BYTES or len(members) > _MOST_FILES:
                raise EngineError(
                    f"{name} unpacks to {total / 1e9:.1f} GB in {len(members)} files, which is no model",
                    hint="Nothing of it was kept.",
                )
            if total > shutil.disk_usage(packed.parent).free:
                raise EngineError(
                    f"{name} needs {total / 1e9:.1f} GB and there is less on the disk",
                    hint="Make room, then try again.",
                )
            archive.extractall(into)
    except (zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError) as error:
        raise damaged from error
    except Exception as error:
        if type(error).__module__ == "zlib":
            raise damaged from error
        raise
    folders: list[Any] = [path for path in into.iterdir() if path.is_dir()]
    inside: Path = folders[0] if len(folders) == 1 else into
    if not any((inside / model).is_file() for model in ("am/final.mdl", "final.mdl")):
        raise EngineError(f"what was fetched as {name} holds no Vosk model", hint="Nothing of it was kept.")
    return inside


def _refuse_unsafe(member: zipfile.ZipInfo, name: str) -> None:
    path = PurePosixPath(member.filename.replace("\\", "/"))
    if path.is_absolute() or ".." in path.parts or ":" in member.filename:
        raise EngineError(
            f"{name} was not unpacked: '{member.filename}' leads out of its folder", hint="Tell its makers."
        )
    if stat.S_ISLNK(member.external_attr >> 16):
        raise EngineError(f"{name} was not unpacked: '{member.filename}' is a link", hint="Tell its makers.")
