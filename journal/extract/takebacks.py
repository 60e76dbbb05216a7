"""What a speaker takes back in the same breath: only what was finally meant goes on to the rules.

The words of a memo come back without what was taken back, so that no later rule needs to know of it. What one memo
takes back of an earlier one is noted: a "not X" becomes a revision.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from journal.extract.forgets import FORGETTING, fact_forgotten, figure_forgotten, is_forget, leads_forget
from journal.extract.line import Figure, Line
from journal.extract.phrases import Phrases
from journal.extract.remarks import earlier_said, remark_back
from journal.extract.replacements import replaced
from journal.extract.said import Said, TakenBack, forget_phrases, forgetting, takeback_phrases
from journal.extract.sets import words_of
from journal.extract.tokens import Token
from journal.extract.unitwords import inches_text, units
from journal.extract.vocabulary import function_words
from journal.grammar import table


@cache
def _beginnings() -> frozenset[str]:
    """Words with which a take-back can begin."""
    return _alone() | _all_phrases().first_words()


@cache
def _alone() -> frozenset[str]:
    """Words with which a take-back can be said without a phrase of the tables."""
    return (
        FORGETTING
        | words_of("takeback_cues", "told_before", "is_not")
        | {"not", "instead", "rather", "actually", "leave", "take", "cut"}
    )


@cache
def _all_phrases() -> Phrases[str]:
    data = table("takebacks")
    return Phrases.of([*forgetting(), *data["replace"], *data["swap"], *data["strike_last"]], "taken back")


def _may_take_back(words: list[str]) -> bool:
    return not _alone().isdisjoint(words) or bool(_all_phrases().all_in(words))


def settle(tokens: list[Token], analyse: Callable[[list[Token]], Said], heard: TakenBack) -> Said:
    """The line that is left when every take-back has been carried out."""
    said = analyse(tokens)
    for _ in range(8):
        if not _may_take_back(said.line.words):
            return said
        shorter = _one_step(said, heard)
        if shorter is None:
            shorter = _without_leftovers(said.line)
        if shorter is None:
            return said
        tokens = shorter
        said = analyse(tokens)
    return said


def _one_step(said: Said, heard: TakenBack) -> list[Token] | None:
    """The words after the first take-back that can be carried out, or None where there is none."""
    line = said.line
    words, tokens = line.words, line.tokens
    replace, forget, swap = takeback_phrases("replace"), forget_phrases(), takeback_phrases("swap")
    if (put_first := _said_after_its_figure(said)) is not None:
        return put_first
    for i, _, end in takeback_phrases("strike_last").all_in(words):
        heard.strike_last = line.span(i, end)
        heard.spans.append(line.span(i, end))
        return tokens[:i] + tokens[end:]
    beginnings = _beginnings()
    at = [i for i, word in enumerate(words) if word in beginnings]
    for i in at:
        if (found := forget.at(words, i)) and _one_of_a_figure(words, found[1]):
            return [
                *tokens[:i],
                Token("sorry", tokens[i].start, tokens[i].end, tokens[i].text),
                *tokens[found[1] - 1 :],
            ]
        if found and is_forget(words, i, found[1]):
            return fact_forgotten(said, i, found[1], heard)
        if leads_forget(words, i) and (left := figure_forgotten(said, i, heard)) is not None:
            return left
        if (found := swap.at(words, i)) and (swapped := _swapped(said, i, found[1])) is not None:
            heard.spans.append(line.span(i, found[1]))
            return swapped
    if (left := earlier_said(said, heard) or remark_back(said)) is not None:
        return left
    for i in at:
        instead = 2 if words[i : i + 2] in (["instead", "of"], ["rather", "than"]) else 0
        if instead and (left := _denied(said, i, heard, instead)) is not None:
            return left
        if (words[i] == "not" or words[i] in words_of("is_not")) and (left := _denied(said, i, heard)) is not None:
            return left
        if (found := replace.at(words, i)) and (left := _second_half(said, i, found[1])) is not None:
            return left
        if (found := replace.at(words, i)) and (left := replaced(said, i, found[1], heard)) is not None:
            return left
    return None


def _said_after_its_figure(said: Said) -> list[Token] | None:
    """ "Five hours on the dormer six actually": the take-back put before the figure that it brings, where the rules look for it.

    Only where nothing but a thing or place stands between the two figures: "length twenty height eight actually" takes nothing back.
    """
    line = said.line
    words, tokens = line.words, line.tokens
    i = next((k for k, word in enumerate(words) if word == "actually"), None)
    if i is None:
        return None
    k = next((k for k, f in line.figures.items() if f.j == i and f.i == k), None)
    k = next((k for k, (stop, _) in said.labels.items() if stop == i), None) if k is None else k
    old = max((f.j for f in line.figures.values() if k is not None and f.j <= k), default=None)
    start = i if k is None else k
    parted = words_of("copulas", "conjunctions")
    again = k is not None and old is not None and not set(words[old:start]) & parted
    again = again and not any((old or 0) <= d < start for d in line.dimensions)
    sorry = [Token("sorry", tokens[i].start, tokens[i].end, tokens[i].text)] if again else []
    return [*tokens[:start], *sorry, *tokens[start:i], *tokens[i + 1 :]]


def _one_of_a_figure(words: list[str], end: int) -> bool:
    """Whether the "one" of "scratch that one" begins the figure said instead: "scratch that one oh nine"."""
    if words[end - 1] != "one" or end >= len(words):
        return False
    return (
        words[end] in ("oh", "hundred")
        or words[end] in table("numbers")["teens"]
        or words[end] in table("numbers")["tens"]
    )


def _without_leftovers(line: Line) -> list[Token] | None:
    """The words less a take-back that took nothing back ("hang on, wrong button"); a bare "no" stays."""
    replace = takeback_phrases("replace")
    for i, _, end in replace.all_in(line.words):
        if line.words[i] not in _MEAN_MORE or end > i + 1:
            return line.tokens[:i] + line.tokens[end:]
    return None


# By themselves these are no sign of a take-back.
_MEAN_MORE = frozenset({"no", "rather", "pardon", "wait", "correction"})


def _swapped(said: Said, i: int, end: int) -> list[Token] | None:
    tokens = said.line.tokens
    figures = sorted(
        (f for f in said.line.figures.values() if f.j <= i and f.kind in ("length", "number")), key=lambda f: f.i
    )
    if len(figures) < 2:
        return None
    one, two = figures[-2], figures[-1]
    said_again = sorted((f for f in said.line.figures.values() if f.i >= end), key=lambda f: f.i)[:2]
    if [f.value for f in said_again] == [two.value, one.value] and said_again[0].i <= end + 3:
        return tokens[: one.words[0]] + tokens[said_again[0].i :]
    return (
        tokens[: one.words[0]] + tokens[two.words[0] : two.words[1]] + tokens[one.words[1] : two.words[0]]
        + tokens[one.words[0] : one.words[1]] + tokens[two.words[1] : i] + tokens[end:]
    )  # fmt: skip


def _second_half(said: Said, i: int, end: int) -> list[Token] | None:
    """ "Twenty two by thirty one no sorry by thirty three", "log three no log four": half of a size or a name is taken back."""
    line = said.line
    if (start := next((s for s, (j, _) in said.labels.items() if j == i), None)) is not None:
        noun = line.words[start - 1]  # "log three no log four"
        again = line.words[end : end + 1] == [noun] and end + 1 in said.labels and noun not in words_of("copulas")
        return [*line.tokens[: start - 1], *line.tokens[end:]] if again else None
    if line.words[end : end + 1] != ["by"] or end + 1 not in line.figures:
        return None
    old = next((f for f in line.figures.values() if f.j == i and line.words[f.i - 1] == "by"), None)
    return [*line.tokens[: old.i], *line.tokens[end + 1 :]] if old is not None else None


def _is_not(said: Said, i: int, denied: Figure, heard: TakenBack) -> list[Token] | None:
    """ "Isn't thirty six wide it's thirty four": the words with the second figure, and the unit and dimension of the first."""
    line = said.line
    tokens, words = line.tokens, line.words
    second = line.figures.get(denied.j + 1) if words[denied.j : denied.j + 1] == ["by"] else None
    end = second.j if second is not None else denied.j
    after = next((f for k, f in sorted(line.figures.items()) if end < k <= end + 5), None)
    if after is None or words[after.i - 1] not in words_of("copulas"):
        return None
    heard.denied.append((denied.value, inches_text(denied.value), line.span(i, end)))
    d = line.dimensions.get(end)
    told = tokens[d.i : d.j] if d is not None and d.j <= after.i and after.j not in line.dimensions else []
    bare = after.unit == "" and after.kind == "number" and second is None
    unit = [tokens[denied.j - 1]] if bare and words[denied.j - 1] in units() else []
    copula = Token("is", tokens[i].start, tokens[i].end, tokens[i].text)
    return [*tokens[:i], copula, *tokens[after.i : after.j], *unit, *told, *tokens[after.j :]]


def _denied(said: Said, i: int, heard: TakenBack, lead: int = 1) -> list[Token] | None:
    """ "Y not X", "Y instead of X" and "not X Y": Y stands. X is noted, since it is what an earlier memo said."""
    line = said.line
    tokens, words = line.tokens, line.words
    k = i + lead
    while k < len(words) and words[k] in ("the", "a", "at", "on", "by", "in", "about"):
        if k in line.figures or k in line.places or any(d.i <= k < d.j for d in said.dues):
            break
        k += 1
    if k in line.figures:
        denied = line.figures[k]
        before = [f for f in line.figures.values() if f.j <= i and i - f.j <= 6]
        after = next(
            (f for f in sorted(line.figures.values(), key=lambda f: f.i) if denied.j <= f.i <= denied.j + 3), None
        )
        if words[i] in words_of("is_not"):
            return _is_not(said, i, denied, heard)
        if after is not None and not before:
            heard.denied.append((denied.value, inches_text(denied.value), line.span(i, denied.j)))
            return tokens[:i] + tokens[after.i :]
        if before:
            heard.denied.append((denied.value, inches_text(denied.value), line.span(i, denied.j)))
            rest = tokens[denied.j :]
            if (
                rest
                and before[-1].j < i
                and rest[0].text == words[before[-1].j]
                and rest[0].text not in function_words()
            ):
                rest = rest[1:]  # "six bundles not four bundles"
            return tokens[:i] + rest
        if any(stop == i for stop, _ in said.labels.values()):  # "the window thirty six instead of thirty four"
            heard.denied.append((denied.value, inches_text(denied.value), line.span(i, denied.j)))
            return tokens[:i] + tokens[denied.j :]
        return None
    for mention in list(line.places.values()):
        if mention.i == k and any(p.j <= i for p in line.places.values()):
            return tokens[:i] + tokens[mention.j :]
    if k < len(words) and words[k] in table("numbers")["ordinals"] and any(d.j == i for d in said.dues):
        return tokens[:i] + tokens[k + 1 :]  # "by the twentieth not the eighteenth"
    for due in said.dues:
        if due.i in (i + 1, k) and any(d.j <= i for d in said.dues):
            return tokens[:i] + tokens[due.j :]
    return None
