"""Facts taken back with nothing in their stead: "forget it", "forget the seventeen", "no scratch that" at the end."""

from __future__ import annotations

from collections.abc import Sequence

from journal.extract.said import Said, TakenBack, takeback_phrases
from journal.extract.tokens import Token


def is_forget(words: Sequence[str], i: int, end: int) -> bool:
    """ "Forget it" takes back; "don't forget it" and "never mind the gap" do not."""
    if i and words[i - 1] in ("don't", "not", "never", "to", "can't"):
        return False
    return not (
        end < len(words) and words[end] in ("to", "the") and words[i] in ("drop", "skip", "never", "delete", "cancel")
    )


FORGETTING = frozenset({"forget", "scratch", "strike", "scrap", "ignore", "disregard", "cancel"})


def leads_forget(words: Sequence[str], i: int) -> bool:
    """Whether "forget the seventeen" may begin at word `i`."""
    return (
        words[i] in FORGETTING
        and words[i + 1 : i + 2] in (["the"], ["that"])
        and words[i - 1 : i] not in (["don't"], ["not"], ["to"])
    )


def figure_forgotten(said: Said, i: int, heard: TakenBack) -> list[Token] | None:
    """ "Forget the seventeen": the newest figure of that value goes, with what was said of it."""
    line = said.line
    named = line.figures.get(i + 2)
    if named is None:
        return None
    same = [f for f in line.figures.values() if f.j <= i and f.value == named.value]
    if not same:
        return None
    old = max(same, key=lambda f: f.i)
    start, stop = old.i, old.j
    if stop in line.dimensions and line.dimensions[stop].adjective:
        stop = line.dimensions[stop].j
    if start and line.words[start - 1] in ("and", "by"):
        start -= 1
    begin = i - (i > 0 and line.words[i - 1] in ("no", "sorry", "wait"))
    later = takeback_phrases("forget").at(line.words, named.j) if named.j < len(line.words) else None
    heard.spans.append(line.span(start, named.j))
    return line.tokens[:start] + line.tokens[stop:begin] + line.tokens[later[1] if later else named.j :]


def _fact_start(said: Said, i: int) -> int:
    """Where the fact that ends before word `i` begins: after the last "and" or figure before its own figure."""
    line = said.line
    figures = sorted((f for f in line.figures.values() if f.j <= i), key=lambda f: f.i)
    if not figures:
        back = [k for k in range(i) if line.words[k] in ("and", "then", "but")]
        return back[-1] if back else 0
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
    drops = ("scratch", "strike", "scrap")
    if words[i] in drops or (words[i] == "no" and words[i + 1 : i + 2] and words[i + 1] in drops):
        return fact_forgotten(said, i, len(words), heard)
    return None
