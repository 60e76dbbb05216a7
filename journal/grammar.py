"""The words of the trade as data: the TOML tables in `grammars/`, read once.

The extractor and every engine's vocabulary are built from the same tables. DEVELOPERS.md shows how to add a word.
"""

from __future__ import annotations

import tomllib
from functools import cache
from typing import Any

from journal.errors import JournalError
from journal.paths import grammars_folder


@cache
def table(name: str) -> dict[str, Any]:
    """The table `grammars/NAME.toml`. Treat it as read-only: it is shared. JournalError where it is missing or damaged."""
    path = grammars_folder() / f"{name}.toml"
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise JournalError(f"the word table {path} is missing", hint="Install the journal again.") from None
    except tomllib.TOMLDecodeError as error:
        raise JournalError(
            f"the word table {path} cannot be read: {error}", hint="Mend that line, or install again."
        ) from None
