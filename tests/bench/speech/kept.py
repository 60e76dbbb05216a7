"""What the engines made of a sound, kept on disk: rules over it can be tried again in seconds instead of minutes."""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from journal.records import Heard, Word
from journal.speech.base import NO_VOCABULARY, Sound, Vocabulary


class Kept:
    """A folder of answers, each under the sound and the engine that gave it. Answers given anew count as `fresh`."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.fresh = 0

    def has(self, sound: Sound, engine: str) -> bool:
        """Whether this was answered before."""
        return self._file(sound, engine).is_file()

    def _file(self, sound: Sound, engine: str) -> Path:
        of_sound = hashlib.sha1(sound.samples.tobytes(), usedforsecurity=False).hexdigest()
        of_engine = hashlib.sha1(engine.encode(), usedforsecurity=False).hexdigest()[:10]
        return self.folder / of_engine / f"{of_sound}.pkl"

    def answer(self, sound: Sound, engine: str, ask: Callable[[], Any]) -> Any:
        """The kept answer, or a new one that is kept."""
        file = self._file(sound, engine)
        if file.is_file():
            return pickle.loads(file.read_bytes())
        given = ask()
        self.fresh += 1
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(pickle.dumps(given))
        return given


class KeptEngine:
    """The default engine, its answers kept."""

    def __init__(self, engine: Any, kept: Kept, settings: str = "") -> None:
        self.engine, self.kept = engine, kept
        self.name, self.version = engine.name, engine.version
        self.key = f"{engine.version} {settings}"

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        return self.kept.answer(sound, f"listen {self.key}", lambda: self.engine.listen(sound, vocabulary))


class KeptOpinion:
    """The second engine, its answers kept. Times are left out: no figure depends on them."""

    def __init__(self, opinion: Any, kept: Kept, settings: str = "") -> None:
        self.opinion, self.kept = opinion, kept
        self.name, self.version = opinion.name, opinion.version
        self.key = f"{opinion.name} {opinion.version} {settings}"

    def words(self, sound: Sound) -> str:
        return self.kept.answer(sound, self.key, lambda: self.opinion.words(sound))

    def timed(self, sound: Sound, words: Sequence[Word]) -> tuple[Word, ...]:
        return tuple(words)
