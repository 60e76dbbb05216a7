"""The words without which a memo holds no talk, so that most memos are not looked at any further. Knows words, not what becomes of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise, product

from journal.extract.fillers import sources
from journal.extract.sets import words_of
from journal.extract.unitwords import units
from journal.extract.voices import people, phrases, told_of

_PHRASES = ("remarks", "elsewhere", "leads", "wishes", "purposes")
_IT_IS = ("'s", "was", "is", "are", "were", "'ve", "have", "had", "has")


def may_hold_talk(words: Sequence[str]) -> bool:
    """Whether a memo has a word, or words side by side, that talk begins with; where it has none, it holds no talk."""
    if not _words().isdisjoint(words):
        return True
    pairs, threes, begun = _runs()
    if begun.isdisjoint(pairwise(words)):
        return False
    return not pairs.isdisjoint(pairwise(words)) or not threes.isdisjoint(
        zip(words, words[1:], words[2:], strict=False)
    )


@cache
def _words() -> frozenset[str]:
    """People, what they, the weather or the speaker's body do, what is written somewhere, and phrases of one word."""
    doings = told_of("posture") | told_of("mood") | told_of("doings") | told_of("thought") | words_of("tried_it")
    others = people() | told_of("weather") | words_of("somebody_else", "whose_own")
    written = sources() | words_of("written_on")
    alone = frozenset(begun[0] for begun in _beginnings() if len(begun) == 1)
    return others | doings | written | alone | words_of("tails", "idles", "cues_of_talk")


@cache
def _runs() -> tuple[frozenset[tuple[str, ...]], frozenset[tuple[str, ...]], frozenset[tuple[str, ...]]]:
    """Two words and three with which phrases begin, and the first two of either; of two also "that's", "'d have", "felt a", "the sofa", "hours if", of three "ten to three"."""
    pairs = {begun for begun in _beginnings() if len(begun) == 2}
    pairs |= set(product(("it", "that", "there"), {*_IT_IS, *words_of("seems")})) | {("i", "said")}
    pairs |= set(product(words_of("supposes"), ("have", "'ve", "of", "i", "we", "you", "they")))
    pairs |= set(product(words_of("perceived"), ("a", "an", "no", "nothing", "my", "another")))
    pairs |= set(product(words_of("whose"), told_of("belongings")))
    hours = {word for word, unit in units().items() if unit in ("h", "min")} | {"half", "quarter"}
    pairs |= set(product(hours, words_of("left_of_day")))
    threes = {begun for begun in _beginnings() if len(begun) == 3}
    threes |= set(product(("five", "ten", "quarter", "twenty", "half"), ("to",), words_of("hours_of_day")))
    return frozenset(pairs), frozenset(threes), frozenset({*pairs, *(three[:2] for three in threes)})


@cache
def _beginnings() -> frozenset[tuple[str, ...]]:
    """The first words of each phrase of talk, three at most."""
    return frozenset().union(*(phrases(name).beginnings(3) for name in _PHRASES))
