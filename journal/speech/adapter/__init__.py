"""The adapter that ships with the journal: where it lies and whether it is whole."""

from __future__ import annotations

import hashlib
import tomllib
from pathlib import Path

from journal.errors import EngineError

_FOLDER = Path(__file__).parent


def shipped_adapter(kind: str) -> Path | None:
    """The adapter for this model ("base" or "tiny"), None where none ships. EngineError where it is not as it was made."""
    card = tomllib.loads((_FOLDER / "adapter.toml").read_text(encoding="utf-8")).get(kind)
    if card is None:
        return None
    adapter = _FOLDER / str(card["file"])
    try:
        digest = hashlib.sha256(adapter.read_bytes()).hexdigest()
    except OSError as error:
        raise EngineError(
            f"the speech adapter {adapter} cannot be read: {error.strerror or error}",
            hint="Install the journal again, or leave the adapter out with --no-adapter.",
        ) from error
    if digest != card["sha256"]:
        raise EngineError(
            f"the speech adapter {adapter} is not the one that was tested",
            hint="Install the journal again, or leave the adapter out with --no-adapter.",
        )
    return adapter
