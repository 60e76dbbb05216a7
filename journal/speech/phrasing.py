"""How well a word fits after the two before it: in what builders say, and in ordinary English. Knows words, no sound.

Two models of three words in a row are asked: the trade's own, made out of the word tables (`language/trade.lm.bin`), and the
English one that comes with the pocketsphinx package, so that plain speech is not bent into trade talk.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from journal.errors import EngineError
from journal.grammar import table

LANGUAGE = Path(__file__).parent / "language"
TRADE_WEIGHT, FIT_WEIGHT = 0.2, 0.1
"""What counts of how much likelier a word is in the trade than in English, and of how likely it is at all; natural logs."""
USUAL = -8.0
"""A word this likely gains nothing and loses nothing, so that long texts are not held back."""
LEAST, LEAST_ENGLISH = -11.0, -14.0
"""No word counts as less likely than this."""
NO_WORD = 2.0
"""What a word that neither model knows loses besides."""
_OWNING, _UNFINISHED = 0.3, 0.1
"""What "wall's" loses beside "wall", and a beginning beside the whole word."""
_TRADE_SHARE = 0.5
_RATIO = (-1.0, 6.0)
_UNSAID = 12
"""A beginning of a word counts for what it may become where it can become no more words than this."""
_MARKS = ".,;:?!\"'"
_SPACE = "\u2581"
_UNKNOWN = -500_000_000
_LOG_BASE = 1e-4
"""The models count in logarithms to the base 1.0001."""


class Place(NamedTuple):
    """Where a text stands: its last two whole words, latest first, the word being written, and what that one gains."""

    last: str = "<s>"
    before: str = "<s>"
    writing: str = ""
    gained: float = 0.0


class Phrases:
    """The two models: how likely a word is after two others."""

    def __init__(self) -> None:
        self._trade, self._english = _model(LANGUAGE / "trade.lm.bin"), _model(english_model())
        self._spellings: dict[str, str] = table("spoken_form")["spellings"]
        self.likely = lru_cache(100_000)(self._likely)

    def _likely(self, word: str, last: str, before: str) -> tuple[float | None, float | None]:
        """Log probabilities of a word after two others, in the trade and in English; None where a model lacks it."""
        said = (word, last, before)
        trade, english = self._trade.prob(said), self._english.prob(said)
        return (
            trade * _LOG_BASE if trade > _UNKNOWN else None,
            english * _LOG_BASE if english > _UNKNOWN else None,
        )

    def mixed(self, word: str, last: str, before: str) -> tuple[float, float] | None:
        """Log probabilities of a word after two others, in either kind of talk and in English; None where both lack it."""
        trade, english = self.likely(word, last, before)
        if trade is None and english is None:
            return None
        plain = max(LEAST_ENGLISH, english if english is not None else LEAST_ENGLISH)
        mixed = plain + math.log(1 - _TRADE_SHARE)
        if trade is not None:
            own = trade + math.log(_TRADE_SHARE)
            top = max(mixed, own)
            mixed = top + math.log(math.exp(mixed - top) + math.exp(own - top))
        return mixed, plain

    def word(self, written: str) -> str:
        """A written word as the models spell it; empty for a mark."""
        word = written.strip(_MARKS).lower()
        return self._spellings.get(word, word).split()[0] if word else ""

    def surprise(self, words: Sequence[str], *, trade_only: bool = False) -> list[float]:
        """How unexpected each word is after the two before it: its negative log probability, in the trade or in either talk."""
        said = ["<s>", "<s>", *words]
        out = []
        for at in range(2, len(said)):
            three = said[at], said[at - 1], said[at - 2]
            if trade_only:
                trade, _ = self.likely(*three)
                out.append(-(LEAST_ENGLISH if trade is None else trade))
            else:
                fits = self.mixed(*three)
                out.append(-max(LEAST, fits[0]) if fits else -LEAST)
        return out


@cache
def phrases() -> Phrases:
    """The two models, read once."""
    return Phrases()


class Phrasing:
    """Tells a beam search what each piece of a word gains by fitting what stands before it."""

    begin = Place()

    def __init__(self, pieces: Sequence[bytes]) -> None:
        self._pieces = [piece.decode("utf-8", "replace") for piece in pieces]
        self._phrases = phrases()
        self._becomes = _beginnings(LANGUAGE / "trade.dict")
        self._gain = lru_cache(100_000)(self._best_gain)

    def after(self, place: Place, piece: int) -> tuple[float, Place]:
        """What the text gains by one more piece, in log probability, and where it stands then."""
        text = self._pieces[piece]
        if text.startswith(_SPACE) or not place.writing:
            last, before = place.last, place.before
            if word := self._phrases.word(place.writing):
                last, before = word, last
            gained = self._gain(text.lstrip(_SPACE), last, before)
            return gained, Place(last, before, text.lstrip(_SPACE), gained)
        writing = place.writing + text
        gained = self._gain(writing, place.last, place.before)
        return gained - place.gained, Place(place.last, place.before, writing, gained)

    def _best_gain(self, writing: str, last: str, before: str) -> float:
        word = self._phrases.word(writing)
        if not word:
            return 0.0
        gain = self._gain_of(word, last, before)
        for whole in self._becomes.get(word, ()):
            gain = max(gain, self._gain_of(whole, last, before) - _UNFINISHED)
        return gain

    def _gain_of(self, word: str, last: str, before: str) -> float:
        fits = self._phrases.mixed(word, last, before)
        if fits is None:
            if word.endswith("'s"):
                return self._gain_of(word[:-2], last, before) - _OWNING
            return FIT_WEIGHT * (LEAST - USUAL) - NO_WORD
        mixed, plain = fits
        ratio = min(_RATIO[1], max(_RATIO[0], mixed - plain))
        return TRADE_WEIGHT * ratio + FIT_WEIGHT * (max(mixed, LEAST) - USUAL)


def english_model() -> Path:
    """The English model of the pocketsphinx package."""
    import pocketsphinx

    return Path(pocketsphinx.__file__).parent / "model" / "en-us" / "en-us.lm.bin"


def _model(path: Path) -> Any:
    import pocketsphinx

    pocketsphinx.LogMath()
    try:
        return pocketsphinx.NGramModel.readfile(str(path))
    except (RuntimeError, ValueError, OSError) as error:
        raise EngineError(
            f"what the engine expects to hear cannot be read: {path} is damaged or missing ({error})",
            hint="Install the journal again.",
        ) from error


def _beginnings(dictionary: Path) -> dict[str, tuple[str, ...]]:
    """What each beginning of a word of the trade may become, where that is few words."""
    try:
        lines = dictionary.read_text(encoding="utf-8").splitlines()
    except OSError as error:
        raise EngineError(
            f"what the engine expects to hear cannot be read: {dictionary} is damaged or missing ({error})",
            hint="Install the journal again.",
        ) from error
    words = dict.fromkeys(line.split()[0].partition("(")[0] for line in lines)
    becomes: dict[str, list[str]] = {}
    for word in words:
        for size in range(1, len(word)):
            becomes.setdefault(word[:size], []).append(word)
    return {begin: tuple(whole) for begin, whole in becomes.items() if len(whole) <= _UNSAID}
