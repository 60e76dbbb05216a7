"""Facts taken back with nothing in their stead: "forget it", "forget the seventeen", "no scratch that" at the end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from journal.extract.line import Figure
from journal.extract.said import Said, TakenBack, forget_phrases
from journal.extract.sets import words_of
from journal.extract.tokens import Token


def is_forget(words: Sequence[str], i: int, end: int) -> bool:
    """ "Forget it" takes back; "don't forget it" and "never mind the gap" do not."""
    if i and words[i - 1] in ("don't", "not", "never", "to", "can't"):
        return False
    if words[i] == "never" and words[end : end + 1] and words[end] in ("what", "about", "who", "how"):
        return False  # "never mind what the plumber says"
    return not (
        end < len(words)
        and words[end] in ("to", "the", "what", "who", "how", "why", "where", "if", "about")
        and words[i] in ("drop", "skip", "never", "delete", "cancel")
    )


FORGETTING = frozenset({"forget", "scratch", "strike", "scrap", "ignore", "disregard", "cancel"})


_LEAVING = frozenset({"leave", "take", "cut"})


def leads_forget(words: Sequence[str], i: int) -> bool:
    """Whether "forget the seventeen", "leave the height out" may begin at word `i`."""
    if words[i] in _LEAVING and words[i + 1 : i + 2] == ["the"] and "out" in words[i + 3 : i + 6]:
        return words[i - 1 : i] not in (["don't"], ["to"])
    return (
        words[i] in FORGETTING
        and words[i + 1 : i + 2] in (["the"], ["that"])
        and words[i - 1 : i] not in (["don't"], ["not"], ["to"])
    )


def figure_forgotten(said: Said, i: int, heard: TakenBack) -> list[Token] | None:
    """ "Forget the seventeen", "strike the height": the newest such figure goes, with what was said of it; one said instead stands for it."""
    line = said.line
    old, after = _named_figure(said, i)
    if old is None and line.words[i] in _LEAVING and heard.spans:
        out = line.words.index("out", i)  # "plate height ninety no that's rubbish leave the plate out"
        return line.tokens[:i] + line.tokens[out + 1 :]
    if old is None:
        return None
    start, stop = old.i, old.j
    begin = i - (i > 0 and line.words[i - 1] in ("no", "sorry", "wait"))
    new = next((f for k, f in line.figures.items() if after <= k <= after + 2), None)
    if (
        new is not None
        and (new.kind == old.kind or {new.kind, old.kind} == {"number", "length"})
        and set(line.words[after : new.i]) <= words_of("said_instead")
    ):
        heard.spans.append(line.span(start, new.j))
        return line.tokens[:start] + line.tokens[new.i : new.j] + line.tokens[stop:begin] + line.tokens[new.j :]
    if stop in line.dimensions and line.dimensions[stop].adjective:
        stop = line.dimensions[stop].j
    if start and line.words[start - 1] in ("and", "by"):
        start -= 1
    after += line.words[i] in _LEAVING and line.words[after : after + 1] == ["out"]
    later = forget_phrases().at(line.words, after) if after < len(line.words) else None
    heard.spans.append(line.span(start, after))
    return line.tokens[:start] + line.tokens[stop:begin] + line.tokens[later[1] if later else after :]


def _named_figure(said: Said, i: int) -> tuple[Figure | None, int]:
    """The figure before word `i` that "forget the seventeen" or "strike the height" there names, and the index after it."""
    line = said.line
    named, dimension = line.figures.get(i + 2), line.dimensions.get(i + 2)
    if named is None and dimension is None:  # "leave the plate out" after "plate height ninety"
        word = line.words[i + 2 : i + 3]
        whole = [d for d in line.dimensions.values() if d.j <= i and d.words.split()[:1] == word and " " in d.words]
        dimension = replace(whole[-1], i=i + 2, j=i + 3) if whole else None
    before = sorted((f for f in line.figures.values() if f.j <= i), key=lambda f: f.i)
    if named is not None:
        return next((f for f in reversed(before) if f.value == named.value), None), named.j
    if dimension is None:
        return None, i
    alike = [d for d in line.dimensions.values() if d.j <= i and d.name == dimension.name]
    for old in reversed(before):
        if any(d.i == old.j if d.adjective else d.j <= old.i <= d.j + 2 for d in alike):
            return old, dimension.j
    return None, i


def _fact_start(said: Said, i: int) -> int:
    """Where the fact that ends before word `i` begins: after the last "and" or figure before its own figure."""
    line = said.line
    figures = sorted((f for f in line.figures.values() if f.j <= i), key=lambda f: f.i)
    if not figures:
        back = [k for k in range(i) if line.words[k] in ("and", "then", "but")]
        return back[-1] if back else 0
    if len(figures) > 1 and figures[-2].unit == "ft" and line.words[figures[-2].j : figures[-1].i] == ["and"]:
        del figures[-1]  # "nineteen foot and three no forget that": one figure, its inches broken off
    last = figures[-1]
    start = figures[-2].j if len(figures) > 1 and line.words[figures[-2].j : last.i] != ["by"] else 0
    if len(figures) > 1 and line.words[figures[-2].j : last.i] == ["by"]:
        start = figures[-3].j if len(figures) > 2 else 0
    for k in range(last.i - 1, start, -1):
        if line.words[k] == "and":
            return k
    return start


def fact_forgotten(said: Said, i: int, end: int, heard: TakenBack) -> list[Token]:
    """The words without the fact before word `i` and its take-back up to `end`; the places named in it stay."""
    line, start = said.line, _fact_start(said, i)
    heard.spans.append(line.span(start, end))
    places = [line.tokens[k] for p in line.places.values() if start <= p.i < i for k in range(p.i, p.j)]
    return line.tokens[:start] + places + line.tokens[end:]


def forgotten_at_end(said: Said, i: int, heard: TakenBack) -> list[Token] | None:
    """A take-back at the very end with nothing after it ("thirty and a half no scratch that"): the figure goes."""
    words = said.line.words
    drops = ("scratch", "strike", "scrap", "scrub", "bin", "erase")
    if words[i] in drops or (words[i] == "no" and words[i + 1 : i + 2] and words[i + 1] in drops):
        return fact_forgotten(said, i, len(words), heard)
    return None
