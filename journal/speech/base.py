"""What every speech engine is: anything with `listen(sound) -> Heard`. Knows no engine and no store."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from journal.records import Heard

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SAMPLE_RATE = 16_000


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """Mono sound at 16 kHz as float32 in -1..1, and the file it came from (None for the microphone)."""

    samples: NDArray[np.float32]
    path: Path | None = None
    note: str = ""
    """What a person should know about it ("incomplete: 2.1 s of 8.0 s could be read"); empty where all is well."""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / SAMPLE_RATE


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Words of this journal to favour: places, things and species heard before, words and names put right before."""

    favoured: tuple[str, ...] = ()
    doubted: tuple[tuple[str, str], ...] = ()
    """Pairs (heard, meant) that were put right before: hearing the first is doubted."""
    names: tuple[tuple[str, str], ...] = ()
    """Those of them in which the first is no name of this journal and the second is: hearing the first, the second is taken."""

    @classmethod
    def of(cls, words: Iterable[str]) -> Vocabulary:
        """A vocabulary that favours these phrases."""
        return cls(tuple(dict.fromkeys(words)))


NO_VOCABULARY = Vocabulary()


class Recogniser(Protocol):
    """A speech engine. `name` and `version` are written into every memo that it heard."""

    name: str
    version: str

    def listen(self, sound: Sound, vocabulary: Vocabulary = NO_VOCABULARY) -> Heard:
        """What was said in the sound, in the journal's form; empty text where there is no speech."""
        ...


class Partial(Protocol):
    """What an engine makes of a memo that is still being said."""

    def add(self, samples: NDArray[np.float32]) -> str:
        """The words so far, with this much more of the sound; they may change until the memo ends."""
        ...


@runtime_checkable
class LiveRecogniser(Recogniser, Protocol):
    """An engine that can also follow a memo while it is said."""

    def follow(self, vocabulary: Vocabulary = NO_VOCABULARY) -> Partial:
        """A listener for one memo."""
        ...
