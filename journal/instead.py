"""What a memo puts in the place of something just said: "the road gable, not the lake gable", "make that fifty seven".

Pure, over words alone: what is to stand, what stood, and how plainly it was said that something is put right.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from journal.grammar import table
from journal.refigured import figure_alone, phrases

_ARTICLES = frozenset({"the", "a", "an", "that", "this", "those", "these"})
_CONTRASTS = tuple(
    re.compile(f"^(?:{pattern})$")
    for pattern in (
        r"(?:it|that|this|they|those|these) (?:isn't|wasn't|aren't|weren't) (?P<old>.+?) "
        r"(?:but|it's|it was|that's|that was|they're) (?P<new>.+)",
        r"not (?P<old>.+?) (?:but|it's|it is|it was|that's|that was|make that|make it|they're|rather) (?P<new>.+)",
        r"(?P<new>.+?) (?:and |it's )?not (?P<old>.+)",
        r"(?P<new>.+?) (?:instead of|rather than|in place of) (?P<old>.+)",
        r"(?P<old>.+?) (?:should be|should have been|should read|ought to be|was meant to be|were meant to be) (?P<new>.+)",
        r"(?:change|swap|switch|turn|correct|make) (?P<old>.+?) (?:to|into|for|with) (?P<new>.+)",
        r"for (?P<old>.+?) read (?P<new>.+)",
    )
)
_RUN_TOGETHER = re.compile(r"^(?:not|instead of) (?P<both>.+)$")
_WRONG = re.compile(r"^wrong (?!side\b|way\b)\w+ (?=.)")


@dataclass(frozen=True, slots=True)
class Instead:
    """Words that are to stand for others; `old` is None where those are not named.

    `firm`: said as a correction in so many words, or against what stood; what is not firm may be a remark, above all where
    it is `soft` and not so much as a "no" came before it.
    """

    new: str
    old: str | None = None
    firm: bool = True
    soft: bool = False

    @property
    def vague(self) -> bool:
        """Whether it names one of many: "a pine board", and no certain one."""
        return self.new.split()[0] in ("a", "an")

    @property
    def certain(self) -> bool:
        """Whether it names a certain one, or can be about nothing else."""
        return self.firm or self.old is not None or self.new.split()[0] in _ARTICLES


def instead(words: str) -> Iterator[Instead]:
    """The ways to take bare words as a correction, the plainest first; none where they begin as no correction does."""
    inner, leads = _without_leads(words)
    contrasts = list(_contrasts(inner))
    for one in contrasts:
        if one.old is None:
            yield Instead(_new(one.new))
        elif (old := without_article(one.old)) not in _ARTICLES:
            yield Instead(_new(one.new), old)
    if leads and not contrasts:
        yield Instead(_new(inner), firm="firm" in leads, soft=leads == {"soft"})


def _contrasts(words: str) -> Iterator[Instead]:
    for pattern in _CONTRASTS:
        found = pattern.match(words)
        if found is None:
            continue
        if found["old"] in ("it", "that", "this", "them", "those"):
            yield Instead(found["new"])
        else:
            yield Instead(found["new"], found["old"])
    if found := _RUN_TOGETHER.match(words):
        yield from _in_two(found["both"].split())


def _in_two(words: list[str]) -> Iterator[Instead]:
    """What stood and what is to stand, said with nothing between: "not the lake gable the road gable", "not six sixteen"."""

    def at(split: int) -> Instead:
        return Instead(" ".join(words[split:]), " ".join(words[:split]))

    inside = range(1, len(words))
    yield from (at(split) for split in inside if words[split] in _ARTICLES and words[split - 1] not in _ARTICLES)
    yield from (at(split) for split in inside if 2 * split == len(words))
    yield from (one for one in map(at, inside) if figure_alone(one.new) and figure_alone(one.old or ""))


def _new(words: str) -> str:
    """What is to stand, without what only leads up to it."""
    return _without_leads(words)[0]


def _without_leads(words: str) -> tuple[str, set[str]]:
    """The words without what says that they put right; and how plainly it says so: "firm", "no", "soft", or nothing."""
    leads = set()
    for phrase in _longest_first("trailing"):
        if words.endswith(f" {phrase}"):
            words = words.removesuffix(f" {phrase}")
            leads.add("firm")
            break
    while True:
        if found := _WRONG.match(words):
            words = words[found.end() :]
            leads.add("firm")
            continue
        lead = next((one for one in _firm_leads() if words.startswith(f"{one} ")), None)
        kind = "no" if lead in phrases("no") else "firm"
        if lead is None:
            kind = "soft"
            lead = next((one for one in _longest_first("soft") if words.startswith(f"{one} ")), None)
        if lead is None:
            return words, leads
        words = words.removeprefix(f"{lead} ")
        leads.add(kind)


@cache
def _firm_leads() -> tuple[str, ...]:
    return tuple(sorted({*table("takebacks")["replace"], *phrases("lead"), *phrases("no")}, key=len, reverse=True))


@cache
def _longest_first(name: str) -> tuple[str, ...]:
    return tuple(sorted(phrases(name), key=len, reverse=True))


def without_article(words: str) -> str:
    """A name without the article before it."""
    first, _, rest = words.partition(" ")
    return rest if rest and first in _ARTICLES else words
