"""Weighing readings of one memo against each other: where their figures differ, and which one makes most sense.

Knows words only. What a reading is worth is told by the caller, who knows what can be read out of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from difflib import SequenceMatcher

from journal.grammar import table
from journal.records import Doubt, Heard, Span, Word
from journal.speech.alike import sound_alike
from journal.speech.words import figure_words

Worth = Callable[[str], float]
"""How much can be made of a text: more for a clean figure of a known place than for one that lacks either."""
_LIKELIHOOD_WEIGHT, _FAR_BEHIND = 0.2, -3.0
"""What a reading's likelihood counts beside its worth; and how far behind one is of which an engine does not tell it."""
_JOINTS = frozenset({"and", "a", "an"})


def figures_missed(text: str, other: str) -> list[Doubt]:
    """A doubt of the lowest kind for each stretch of words without a figure in which another reading has one."""
    words, instead = as_figures(text.split()), as_figures(other.split())
    back = {partner: at for at, partner in partners(words, instead).items()}
    doubts = []
    for first, last in figure_stretches(instead):
        start, end = region_of(back, len(words), first, last)
        if start < end and not bare_figure(words[start:end]):
            heard, figure = " ".join(text.split()[start:end]), " ".join(instead[first:last])
            shown = f"'{heard}' may be '{figure}'"
            doubts.append(Doubt("second opinion", shown, _span(text.split(), start, end), (figure,), 1))
    return doubts


def learnt_doubts(text: str, put_right: Iterable[tuple[str, str]]) -> list[Doubt]:
    """A doubt wherever something is heard that was put right by hand before; `put_right` are pairs (heard, meant).

    A figure is doubted where it is heard whole; one that sounds like what was meant ("sixteen" for "sixty") in others too.
    """
    words = text.split()
    doubts = []
    for heard, meant in put_right:
        phrase = heard.split()
        whole = all(word in figure_words() | _JOINTS for word in phrase) and not (
            len(phrase) == 1 and sound_alike(heard, meant)
        )
        for first in range(len(words) - len(phrase) + 1):
            last = first + len(phrase)
            if not phrase or words[first:last] != phrase or heard == meant or (whole and _goes_on(words, first, last)):
                continue
            shown = f"'{heard}' was put right to '{meant}' before"
            doubts.append(Doubt("learnt", shown, _span(words, first, last), (meant,)))
    return doubts


def _goes_on(words: list[str], first: int, last: int) -> bool:
    """Whether more of a figure stands before or after these words."""
    before = next((word for word in reversed(words[:first]) if word not in _JOINTS), "")
    after = next((word for word in words[last:] if word not in _JOINTS), "")
    return before in figure_words() or after in figure_words()


def with_names(heard: Heard, names: Iterable[tuple[str, str]]) -> Heard:
    """What was heard, each name that was put right before (heard, meant) taken for what was meant, with a doubt that shows it."""
    taken = f" {heard.text} "
    for was, meant in names:
        taken = taken.replace(f" {was} ", f" {meant} ")
    taken = taken.strip()
    if taken == heard.text:
        return heard
    words, doubts = _reworded(heard, taken)
    readings = (heard.text, *(reading for reading in heard.readings if reading != taken))
    return replace(heard, text=taken, words=words, readings=readings, doubts=doubts, behind=())


def most_sensible(heard: Heard, worth: Worth, *, by: float = 0.3) -> Heard:
    """The reading that is worth most, where it is worth more than the best heard one by this much; else as heard.

    How much less likely a reading is counts against it. Nothing beyond what was heard comes out: only whole readings are
    taken, and every word in which the one taken differs from the likeliest is doubted, with what was likeliest.
    """
    if not heard.text or not heard.readings:
        return heard
    behind = dict(zip(heard.readings, heard.behind, strict=False))

    def rank(reading: str) -> float:
        return worth(reading) + _LIKELIHOOD_WEIGHT * behind.get(reading, _FAR_BEHIND)

    taken = max(heard.readings, key=rank)  # the first, likelier one among equals
    if rank(taken) < worth(heard.text) + by:
        return heard
    readings = (heard.text, *(reading for reading in heard.readings if reading != taken))
    words, doubts = _reworded(heard, taken)
    return replace(heard, text=taken, words=words, readings=readings, doubts=doubts, behind=())


def _reworded(heard: Heard, taken: str) -> tuple[tuple[Word, ...], tuple[Doubt, ...]]:
    """The words of the reading taken, and what is doubted in it: what was doubted before, and what is worded otherwise."""
    old, new = [word.word for word in heard.words], taken.split()
    words: list[Word] = []
    doubts: list[Doubt] = []
    there: dict[int, int] = {}
    for kind, a, b, c, d in SequenceMatcher(a=old, b=new, autojunk=False).get_opcodes():
        if kind == "equal":
            words.extend(heard.words[a:b])
            there.update(zip(range(a, b), range(c, d), strict=True))
            continue
        replaced = heard.words[a:b]
        start = replaced[0].start if replaced else None
        end = replaced[-1].end if replaced else None
        sure = min((w.confidence for w in replaced if w.confidence is not None), default=None)
        words.extend(Word(word, start, end, sure) for word in new[c:d])
        if c < d:
            was, now = " ".join(old[a:b]), " ".join(new[c:d])
            shown = f"'{now}' was heard as {repr(was) if was else 'nothing'} at first"
            # words that make no figure put none at stake
            level = 2 if bare_figure(old[a:b]) != bare_figure(new[c:d]) else 1
            doubts.append(Doubt("reading", shown, _span(new, c, d), (was,) if was else (), level))
    for doubt in heard.doubts:
        kept = [there[at] for at in _words_in(old, doubt.span) if at in there]
        if kept:
            doubts.append(replace(doubt, span=_span(new, kept[0], kept[-1] + 1)))
    return tuple(words), tuple(doubts)


def borrowed(there: dict[int, int], length: int, first: int, last: int, own: list[str], instead: list[str]) -> bool:
    """Whether the other reading has the same figure, and what it has more was made out of the word beside it.

    "Thirty foot" heard as "thirty five" leaves the thirty as it is; "thirty wide" heard as "thirty five wide" does not.
    """
    for at in range(len(instead) - len(own) + 1):
        if instead[at : at + len(own)] == own:
            more_before, more_after = at > 0, at + len(own) < len(instead)
            lost_before = first > 0 and first - 1 not in there
            lost_after = last < length and last not in there
            if (lost_before or not more_before) and (lost_after or not more_after):
                return True
    return False


def as_figures(words: list[str]) -> list[str]:
    """The words with those that sound like a number beside a figure written as that number."""
    alike: dict[str, str] = table("soundalikes")["numbers"]
    figures = figure_words()
    out = list(words)
    for at, word in enumerate(words):
        beside = [out[at - 1] if at else "", words[at + 1] if at + 1 < len(words) else ""]
        if word in alike and word not in figures and any(w in figures for w in beside):
            out[at] = alike[word]
    return out


def partners(words: list[str], other: list[str]) -> dict[int, int]:
    """For each word that both readings have, where it stands in the other one."""
    blocks = SequenceMatcher(a=words, b=other, autojunk=False).get_matching_blocks()
    return {block.a + n: block.b + n for block in blocks for n in range(block.size)}


def region_of(there: dict[int, int], length: int, first: int, last: int) -> tuple[int, int]:
    """The stretch of the other reading between the partners of the words around this one."""
    start = max((partner + 1 for at, partner in there.items() if at < first), default=0)
    end = min((partner for at, partner in there.items() if at >= last), default=length)
    return start, max(start, end)


def figure_stretches(words: list[str]) -> list[tuple[int, int]]:
    """The stretches that are figures: figure words, with the "and" and "a" between them."""
    runs: list[tuple[int, int]] = []
    for at, word in enumerate(words):
        if word not in figure_words():
            continue
        if runs and all(between in _JOINTS for between in words[runs[-1][1] : at]):
            runs[-1] = (runs[-1][0], at + 1)
        else:
            runs.append((at, at + 1))
    return runs


def bare_figure(words: list[str]) -> list[str]:
    """The figure words alone, each fraction by one name: "quarters" as "quarter"."""
    one = {many: one for one, many in table("spoken_form")["fractions"].values()}
    return [one.get(word, word) for word in words if word in figure_words()]


def _span(words: list[str], first: int, last: int) -> Span:
    start = sum(len(word) + 1 for word in words[:first])
    return Span(start, start + len(" ".join(words[first:last])))


def _words_in(words: list[str], span: Span) -> list[int]:
    """The words that a span of the text touches."""
    touched, at = [], 0
    for number, word in enumerate(words):
        if at < span.end and span.start < at + len(word):
            touched.append(number)
        at += len(word) + 1
    return touched
