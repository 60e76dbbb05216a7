"""Words said again: what follows "no" or "i mean" stands for the nearest thing of its kind before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from journal.extract import numbers
from journal.extract.due import DueWord
from journal.extract.forgets import forgotten_at_end
from journal.extract.line import Figure, Line
from journal.extract.remarks import talk_to_the_end
from journal.extract.said import Said, TakenBack, takeback_phrases
from journal.extract.sets import words_of
from journal.extract.stockwords import names_stock
from journal.extract.tokens import Token
from journal.extract.unitwords import inches_text, units
from journal.extract.vocabulary import function_words, thing_words, verbs
from journal.records import Doubt


def replaced(said: Said, i: int, end: int, heard: TakenBack) -> list[Token] | None:
    """The words with the nearest thing of its kind on the left replaced by what follows the take-back."""
    line = said.line
    words, tokens = line.words, line.tokens
    r = _after_patter(said.line, end)
    if r >= len(words) or talk_to_the_end(words, r):
        return forgotten_at_end(said, i, heard)
    start = _after_lead(said, r)
    if start >= len(words):
        return None
    label = next((k for k, (stop, _) in said.labels.items() if stop == i), None)
    number = numbers.below_hundred(words, start)
    if label is not None and number is not None:
        heard.spans.append(line.span(label, number[1]))
        return tokens[:label] + tokens[start:]
    new = line.figures.get(r) or line.figures.get(start)
    if new is None:  # a hedge before it was read with it: "no call it seven"
        new = next((replace(f, i=r) for f in line.figures.values() if f.words[0] == r and f.i >= i), None)
    if new is not None:
        return _new_figure(said, i, new, heard)
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
    if (again := _thing_again(line, i, start)) is not None:
        return tokens[:again] + tokens[start:]
    if words[start] in thing_words() and i and words[i - 1] in thing_words():
        return tokens[: _thing_start(line, i)] + tokens[start:]
    return None


def _thing_again(line: Line, i: int, start: int) -> int | None:
    """Where "the north shutters" begins in "the north shutters i mean the south shutters": the same noun, another word before."""
    words = line.words
    for length in (2, 3):
        new, old = words[start : start + length], words[i - length : i] if i >= length else []
        alike = len(new) == length and new[-1:] == old[-1:] and new != old
        if alike and not set(new) & function_words() and not any(k in line.figures for k in range(i - length, i)):
            return i - length
    return None


def _after_patter(line: Line, i: int) -> int:
    """The index after more take-backs and patter at word `i`: "no wait sorry make that …"."""
    words = line.words
    patter, replace = takeback_phrases("patter"), takeback_phrases("replace")
    while i < len(words):
        more = replace.at(words, i)
        skip = patter.at(words, i)
        if more and i not in line.figures:
            i = more[1]
        elif skip and i not in line.figures and i not in line.places:
            i = skip[1]
        else:
            break
    return i


def _after_lead(said: Said, i: int) -> int:
    """The index after the small words at word `i` that begin no figure, place or date."""
    line = said.line
    while (
        i < len(line.words)
        and line.words[i] in words_of("said_again_lead")
        and i not in line.figures
        and i not in line.places
        and not any(d.i == i for d in said.dues)
    ):
        i += 1
    return i


def _thing_start(line: Line, i: int) -> int:
    """Where the name of the thing that ends before word `i` begins."""
    k = i - 1
    while (
        k > 0
        and line.words[k - 1] not in function_words()
        and k - 1 not in line.figures
        and not any(f.j == k for f in line.figures.values())
    ):
        k -= 1
    return k


def _keep_lead(tokens: list[Token], words: Sequence[str], old: DueWord, new: DueWord) -> list[Token]:
    """The "by" of "by wednesday" when only the day was said again."""
    return [tokens[old.i]] if old.lead and not new.lead and words[old.i] in ("by", "on", "before") else []


def _new_figure(said: Said, i: int, new: Figure, heard: TakenBack) -> list[Token] | None:
    line = said.line
    tokens, words = line.tokens, line.words
    earlier = sorted((f for f in line.figures.values() if f.j <= i), key=lambda f: f.i)
    earlier = [
        f
        for f in earlier
        if f.kind == new.kind
        or "number" in (f.kind, new.kind)
        or {f.kind, new.kind} <= {"number", "length"}
        or (f.kind == "hours" and _quarters(new))
        or ((f.kind == "money" or f.per) and new.rule in ("figure.hundreds", "figure.cents", "figure.bare_feet"))
    ]
    if not earlier:
        return None
    old = earlier[-1]
    if new.kind == "number" and old.kind == "section" and old.second is None:
        if len(earlier) < 2 or earlier[-2].j != old.i or earlier[-2].kind != "number" or new.unit:
            return None
        old = earlier[-2]  # "thirty six two by twelve planks no make that forty"
    if (count := _counted_before(said, earlier, old, new, i)) is not None:
        two = (inches_text(count.value), line.said(old.i, old.j))
        shown = f"'{line.said(new.i, new.j)}' was taken to stand for {two[0]}, and not for {two[1]}"
        heard.doubts.append(Doubt("two-way", shown, line.span(count.i, new.j), two, level=2))
        old = count
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
        keeps = [t.text for t in rest[1:2]] != ["of"] and len(middle) > 1 and middle[1].text == "of"
        middle, rest = (middle, rest[1:]) if keeps else ([], rest)  # "three bundles of battens no six bundles"
    heard.spans.append(line.span(old.i, new.j))
    return tokens[: old.i] + fresh + middle + rest


def _counted_before(said: Said, earlier: Sequence[Figure], old: Figure, new: Figure, i: int) -> Figure | None:
    """The count that "fourteen larch boards twelve foot long no thirteen" says anew: its length was said to the end."""
    d = said.line.dimensions.get(old.j)
    whole = new.kind == "number" and new.unit == "" and new.value.denominator == 1
    if not whole or old.unit == "" or d is None or d.words != "long" or d.j != i or new.j in said.line.dimensions:
        return None
    count = earlier[-2] if len(earlier) > 1 else None
    plain = count is not None and count.kind == "number" and count.unit == "" and names_stock(said.line.words, count.j)
    return count if plain else None


def _quarters(new: Figure) -> bool:
    """Whether a figure is bare and in whole, half or quarter parts, as hours are said: "three hours no make that three and a half"."""
    return new.kind == "length" and new.unit == "" and new.feet is None and new.value.denominator in (1, 2, 4)


def _with_old_unit(said: Said, old: Figure, new: Figure, fresh: list[Token], heard: TakenBack) -> list[Token]:
    """The new figure with what was said once: the unit, the feet before new inches, the whole before a new fraction."""
    line = said.line
    tokens = line.tokens
    old_words = tokens[old.i : old.j]
    unit_at = next((k for k, t in enumerate(old_words) if t.text in units()), None)
    if old.kind == "section" and new.kind == "section" and old.second is not None and new.second is None:
        return [old_words[0], *fresh]
    if (old.per or old.each) and not (new.per or new.each) and new.unit in ("", "$"):
        tail = [t for t in old_words if t.text in ("a", "an", "per", "each", "apiece")][-1:]
        if tail:
            return [*fresh, *old_words[old_words.index(tail[0]) :]]
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
        if old.unit == "ft" and (unit_at < len(old_words) - 1 or not _may_be_feet(new, old)):
            return fresh
        return [*fresh, *old_words[unit_at:]]
    return fresh


def _may_be_feet(new: Figure, old: Figure) -> bool:
    """Whether a bare figure said instead of feet is feet too: of their order, and no finer than a quarter."""
    return new.value.denominator <= 4 and new.value * 12 <= 3 * old.value
