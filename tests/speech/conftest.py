"""Engines loaded once for the run."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal.speech.moonshine import Moonshine


@pytest.fixture(scope="session")
def moonshine(shared_cache: Path) -> Moonshine:
    """The default engine, its graph rebuilt into the cache of the run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("JOURNAL_CACHE", str(shared_cache))
        return Moonshine()
