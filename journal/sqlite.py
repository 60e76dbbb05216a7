"""sqlite-utils without pandas and numpy, which it imports where they happen to be installed.

The journal hands it neither, and importing them takes longer than all the rest of a command together.
"""

from __future__ import annotations

import sys

_LEFT_OUT = [name for name in ("pandas", "numpy") if name not in sys.modules]
for _name in _LEFT_OUT:
    sys.modules[_name] = None  # type: ignore[assignment]  # an import of it fails, as where it is not installed

from sqlite_utils import Database, Migrations  # noqa: E402

for _name in _LEFT_OUT:
    del sys.modules[_name]

__all__ = ["Database", "Migrations"]
