"""What a speaker takes back in the same breath: only what was finally meant goes on to the rules.

The words of a memo come back without what was taken back, so that no later rule needs to know of it. What one memo
takes back of an earlier one is noted: a "not X" becomes a revision.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache

from journal.extract import numbers
from journal.extract.due import DueWord
from journal.extract.line import Figure, Line
from journal.extract.phrases import Phrases
from journal.extract.tokens import Token
from journal.extract.unitwords import inches_text, units
from journal.extract.vocabulary import function_words, thing_words, verbs
from journal.grammar import table
from journal.records import Doubt, Span


@dataclass(slots=True)
class Said:
    """A line as analysed, with its dates and names in figures."""

    line: Line
    dues: list[DueWord]
    labels: dict[int, tuple[int, str]]


@dataclass(slots=True)
class TakenBack:
    """What the take-backs of a memo left: doubts they raise, figures denied ("not six and a quarter"), swaps done."""

    doubts: list[Doubt] = field(default_factory=list)
    denied: list[tuple[Fraction, str, Span]] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    strike_last: Span | None = None
    forgotten: bool = False


@cache
def _tables() -> tuple[Phrases[str], Phrases[str], Phrases[str], Phrases[str], Phrases[str]]:
    data = table("takebacks")
    return (
        Phrases.of(data["replace"], "replace"), Phrases.of(data["forget"], "forget"), Phrases.of(data["swap"], "swap"),
        Phrases.of(data["patter"], "patter"), Phrases.of(data["strike_last"], "strike_last"),
    )  # fmt: skip


@cache
def _first_words() -> frozenset[str]:
    data = table("takebacks")
    phrases = [p for key in ("replace", "forget", "swap", "strike_last") for p in data[key]]
    return frozenset(phrase.split()[0].partition("'")[0] for phrase in phrases) | {"not"}


def settle(tokens: list[Token], analyse: Callable[[list[Token]], Said], heard: TakenBack) -> Said:
    """The line that is left when every take-back has been carried out."""
    said = analyse(tokens)
    for _ in range(8):
        if not any(token.text in _first_words() for token in tokens):
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
    replace, forget, swap, _, strike_last = _tables()
    for i in range(len(words)):
        if found := strike_last.at(words, i):
            heard.strike_last = line.span(i, found[1])
            heard.spans.append(line.span(i, found[1]))
            return tokens[:i] + tokens[found[1] :]
    for i in range(len(words)):
        if (found := forget.at(words, i)) and _is_forget(words, i, found[1]):
            start = _fact_start(said, i)
            keep = [tokens[k] for p in line.places.values() if start <= p.i < i for k in range(p.i, p.j)]
            heard.spans.append(line.span(start, found[1]))
            heard.forgotten = True
            return tokens[:start] + keep + tokens[found[1] :]
        if _leads_forget(words, i) and (left := _figure_forgotten(said, i, heard)) is not None:
            return left
        if (found := swap.at(words, i)) and (swapped := _swapped(said, i, found[1])) is not None:
            heard.spans.append(line.span(i, found[1]))
            return swapped
    for i, word in enumerate(words):
        if word == "not" and (left := _denied(said, i, heard)) is not None:
            return left
        if (found := replace.at(words, i)) and (left := _replaced(said, i, found[1], heard)) is not None:
            return left
    return None


def _without_leftovers(line: Line) -> list[Token] | None:
    """The words less a take-back that took nothing back ("hang on, wrong button"); a bare "no" stays."""
    replace = _tables()[0]
    for i, word in enumerate(line.words):
        found = replace.at(line.words, i)
        if found is None or (word in _MEAN_MORE and found[1] == i + 1):
            continue
        return line.tokens[:i] + line.tokens[found[1] :]
    return None


# By themselves these are no sign of a take-back.
_MEAN_MORE = frozenset({"no", "rather", "pardon", "wait", "correction"})


def _is_forget(words: Sequence[str], i: int, end: int) -> bool:
    """ "Forget it" takes back; "don't forget it" and "never mind the gap" do not."""
    if i and words[i - 1] in ("don't", "not", "never", "to", "can't"):
        return False
    return not (
        end < len(words) and words[end] in ("to", "the") and words[i] in ("drop", "skip", "never", "delete", "cancel")
    )


def _leads_forget(words: Sequence[str], i: int) -> bool:
    """Whether "forget the seventeen" may begin at word `i`."""
    verb = words[i] in ("forget", "scratch", "strike", "scrap", "ignore", "disregard", "cancel")
    return verb and words[i + 1 : i + 2] in (["the"], ["that"]) and words[i - 1 : i] not in (["don't"], ["not"], ["to"])


def _figure_forgotten(said: Said, i: int, heard: TakenBack) -> list[Token] | None:
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
    later = _tables()[1].at(line.words, named.j) if named.j < len(line.words) else None
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


def _denied(said: Said, i: int, heard: TakenBack) -> list[Token] | None:
    """ "Y not X" and "not X Y": Y stands. X is noted, since it is what an earlier memo said."""
    line = said.line
    tokens, words = line.tokens, line.words
    k = i + 1
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
        if after is not None and not before:
            heard.denied.append((denied.value, inches_text(denied.value), line.span(i, denied.j)))
            return tokens[:i] + tokens[after.i :]
        if before:
            heard.denied.append((denied.value, inches_text(denied.value), line.span(i, denied.j)))
            return tokens[:i] + tokens[denied.j :]
        return None
    for mention in list(line.places.values()):
        if mention.i == k and any(p.j <= i for p in line.places.values()):
            return tokens[:i] + tokens[mention.j :]
    for due in said.dues:
        if due.i in (i + 1, k) and any(d.j <= i for d in said.dues):
            return tokens[:i] + tokens[due.j :]
    return None


def _replaced(said: Said, i: int, end: int, heard: TakenBack) -> list[Token] | None:
    """The words with the nearest thing of its kind on the left replaced by what follows the take-back."""
    line = said.line
    words, tokens = line.words, line.tokens
    patter = _tables()[3]
    replace = _tables()[0]
    r = end
    while r < len(words):
        more = replace.at(words, r)
        skip = patter.at(words, r)
        if more and r not in line.figures:
            r = more[1]
        elif skip and r not in line.figures and r not in line.places:
            r = skip[1]
        else:
            break
    if r >= len(words):
        return _trailing(said, i, heard)
    start = r
    while (
        start < len(words)
        and words[start]
        in (
            "the",
            "a",
            "an",
            "they",
            "'re",
            "on",
            "at",
            "by",
            "in",
            "was",
            "were",
            "are",
            "of",
            "is",
            "for",
            "say",
            "its",
        )
        and start not in line.figures
        and start not in line.places
        and not any(d.i == start for d in said.dues)
    ):
        start += 1
    if start >= len(words):
        return None
    label = next((k for k, (stop, _) in said.labels.items() if stop == i), None)
    number = numbers.below_hundred(words, start)
    if label is not None and number is not None:
        heard.spans.append(line.span(label, number[1]))
        return tokens[:label] + tokens[start:]
    if start in line.figures or r in line.figures:
        return _new_figure(said, i, line.figures.get(r) or line.figures[start], heard)
    due = next((d for d in said.dues if d.i in (r, start)), None)
    if due is not None:
        old = [d for d in said.dues if d.j <= i]
        return tokens[: old[-1].i] + _keep_lead(tokens, words, old[-1], due) + tokens[due.i :] if old else None
    if start in line.places:
        earlier = [p for p in line.places.values() if p.j <= i]
        return tokens[: max(earlier, key=lambda p: p.i).i] + tokens[start:] if earlier else None
    if start in line.dimensions:
        same = [d for d in line.dimensions.values() if d.j <= i]
        return tokens[: max(same, key=lambda d: d.i).i] + tokens[start:] if same else None
    if words[start] in verbs() and words[start] not in thing_words():
        old_verbs = [k for k in range(i) if words[k] in verbs()]
        return tokens[: old_verbs[-1]] + tokens[start:] if old_verbs else None
    if words[start] in thing_words() and i and words[i - 1] in thing_words():
        k = i - 1
        while (
            k > 0
            and words[k - 1] not in function_words()
            and k - 1 not in line.figures
            and not any(f.j == k for f in line.figures.values())
        ):
            k -= 1
        return tokens[:k] + tokens[start:]
    return None


def _keep_lead(tokens: list[Token], words: Sequence[str], old: DueWord, new: DueWord) -> list[Token]:
    """The "by" of "by wednesday" when only the day was said again."""
    return [tokens[old.i]] if old.lead and not new.lead and words[old.i] in ("by", "on", "before") else []


def _trailing(said: Said, i: int, heard: TakenBack) -> list[Token] | None:
    """A take-back at the very end with nothing after it ("thirty and a half no scratch that"): the figure goes."""
    words, tokens = said.line.words, said.line.tokens
    if words[i] in ("scratch", "strike", "scrap") or words[i : i + 2] in (
        ["no", "scratch"],
        ["no", "strike"],
        ["no", "scrap"],
    ):
        start = _fact_start(said, i)
        heard.forgotten = True
        heard.spans.append(said.line.span(start, len(words)))
        keep = [tokens[k] for p in said.line.places.values() if start <= p.i < i for k in range(p.i, p.j)]
        return tokens[:start] + keep
    return None


_KINDS = {"number": 0, "length": 0}


def _new_figure(said: Said, i: int, new: Figure, heard: TakenBack) -> list[Token] | None:
    line = said.line
    tokens, words = line.tokens, line.words
    earlier = sorted((f for f in line.figures.values() if f.j <= i), key=lambda f: f.i)
    earlier = [
        f
        for f in earlier
        if f.kind == new.kind or "number" in (f.kind, new.kind) or {f.kind, new.kind} <= {"number", "length"}
    ]
    if not earlier:
        return None
    old = earlier[-1]
    if new.kind == "number" and old.kind == "section" and old.second is None:
        return None
    middle = tokens[old.j : i]
    fresh = list(tokens[new.i : new.j])
    rest = tokens[new.j :]
    if words[i] in ("no",) and len(middle) > 8:
        return None
    if any(t.text in ("is", "'s", "are") for t in tokens[new.j : new.j + 1]):
        return None
    following = (
        [f for f in line.figures.values() if f.i == new.j + 1 and words[new.j] == "by"] if new.j < len(words) else []
    )
    if following and len(earlier) > 1 and words[earlier[-2].j : old.i] == ["by"]:
        old = earlier[-2]
        middle = tokens[earlier[-1].j : i]
    fresh = _with_old_unit(said, old, new, fresh, heard)
    if middle and rest and middle[0].text == rest[0].text:
        middle = []
    heard.spans.append(line.span(old.i, new.j))
    return tokens[: old.i] + fresh + middle + rest


def _with_old_unit(said: Said, old: Figure, new: Figure, fresh: list[Token], heard: TakenBack) -> list[Token]:
    """The new figure with what was said once: the unit, the feet before new inches, the whole before a new fraction."""
    line = said.line
    tokens = line.tokens
    old_words = tokens[old.i : old.j]
    unit_at = next((k for k, t in enumerate(old_words) if t.text in units()), None)
    if old.kind == "section" and new.kind == "section" and old.second is not None and new.second is None:
        return [old_words[0], *fresh]
    if new.unit or new.per or new.each:
        return fresh
    if (
        old.kind == "length"
        and old.feet is not None
        and unit_at is not None
        and unit_at < len(old_words) - 1
        and new.value < 12
        and new.kind in ("number", "length")
        and old.unit == "ft"
        and old.rule == "figure.feet"
    ) and old_words[unit_at].text in ("foot", "feet"):
        return [*old_words[: unit_at + 1], *fresh]
    if (
        new.kind == "length"
        and new.whole is None
        and new.value < 1
        and old.kind == "length"
        and old.whole
        and old.unit in ("", "in")
        and new.unit == ""
    ):
        whole_end = numbers.cardinal([t.text for t in old_words], 0)
        if whole_end:
            taken, other = old.whole + new.value, new.value
            heard.doubts.append(
                Doubt(
                    "two-way",
                    f"the new fraction was taken to go with {old.whole}",
                    line.span(old.i, new.j),
                    (inches_text(taken), inches_text(other)),
                    level=2,
                )
            )
            joint = [t for t in old_words if t.text == "and"][:1]
            return [*old_words[: whole_end[1]], *joint, *fresh]
    if unit_at is not None and old.unit not in ("", "slope"):
        if old.unit == "ft" and unit_at < len(old_words) - 1:
            return fresh
        return [*fresh, *old_words[unit_at:]]
    if old.per or old.each:
        tail = [t for t in old_words if t.text in ("a", "an", "per", "each", "apiece")][-1:]
        if tail:
            return [*fresh, *old_words[old_words.index(tail[0]) :]]
    return fresh
