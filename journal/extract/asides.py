"""What is said beside the seven kinds of fact: how many courses, what happened, how boards begin, a piece that split.

Each aside takes its words out of the line, so that no rule makes a fact of them; places stay.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.stockwords import singulars, species
from journal.extract.tokens import Token
from journal.extract.unitwords import number_like
from journal.extract.vocabulary import function_words
from journal.grammar import table
from journal.records import Aside


@dataclass(frozen=True, slots=True)
class Found:
    """An aside with the words that it takes up."""

    aside: Aside
    i: int
    j: int
    keep: bool = False


@cache
def _tables() -> tuple[
    Phrases[str], frozenset[str], Phrases[str], Phrases[str], Phrases[str], frozenset[str], dict[str, str]
]:
    data = table("asides")
    happened = table("tasks")["happened"]
    return (
        Phrases({phrase: side for side in ("centred", "seam", "left", "right") for phrase in data["start"][side]}),
        frozenset(data["start"]["lead"]), Phrases.of(data["lost"]["words"], "lost"), Phrases.of(data["courses"]["top"], "top"),
        Phrases({verb: verb for verb in happened["verbs"]}), frozenset(happened["nouns"]), data["present"],
    )  # fmt: skip


@cache
def _testing_words() -> Phrases[str]:
    return Phrases.of(table("asides")["testing"]["words"], "testing")


@cache
def _first_words() -> frozenset[str]:
    """Words without which a memo holds no aside."""
    _, lead, _, _, _, nouns, _ = _tables()
    data = table("asides")
    words = {p.split()[0] for p in data["lost"]["words"]} | {p.split()[0] for p in data["testing"]["words"]}
    return (
        frozenset(words) | lead | nouns | {"top", "courses", "rounds", "plate", "cap", "last", "seam", "joint", "board"}
    )


def take_asides(line: Line, place: str | None) -> tuple[list[Aside], list[Token]]:
    """The asides of a line, and its words less those that only an aside needs."""
    words = line.words
    if not any(word in _first_words() for word in words):
        return [], line.tokens
    found = [*_testing(line), *_starts(line), *_courses(line), *_lost(line), *_happened(line, place)]
    gone = {
        k
        for one in found
        if not one.keep
        for k in range(one.i, one.j)
        if not any(p.i <= k < p.j for p in line.places.values())
    }
    asides = [one.aside for one in sorted(found, key=lambda one: one.i) if one.aside.topic]
    return asides, [token for k, token in enumerate(line.tokens) if k not in gone]


def _here(line: Line, i: int) -> str | None:
    """The place named nearest: the last one before word `i`, else the first after."""
    before = [p.name for k, p in sorted(line.places.items()) if k <= i]
    after = [p.name for k, p in sorted(line.places.items()) if k > i]
    return before[-1] if before else after[0] if after else None


def _testing(line: Line) -> list[Found]:
    """ "Testing one two three" counts nothing."""
    phrases = _testing_words()
    for i in range(len(line.words)):
        found = phrases.at(line.words, i)
        if found and i <= 2:
            j = found[1]
            while j < len(line.words) and (
                line.figure_over(j) is not None or phrases.at(line.words, j) or line.words[j] in ("one", "two", "three")
            ):
                j += 1
            return [Found(Aside(topic="", text=""), i, j)]
    return []


def _starts(line: Line) -> list[Found]:
    phrases, lead, *_ = _tables()
    words = line.words
    for k in range(len(words)):
        found = phrases.at(words, k)
        if found is None:
            continue
        i = k
        while i > 0 and words[i - 1] in (
            "with",
            "a",
            "the",
            "boarding",
            "boards",
            "laying",
            "out",
            "i'm",
            "we",
            "i",
            "'m",
            "it",
        ):
            i -= 1
        led = i > 0 and words[i - 1] in lead
        if led:
            i -= 1
        elif (
            found[0] in ("left", "right")
            or words[k] not in ("board", "seam", "joint", "centre", "sheet")
            or words[k - 1 : k] not in (["a"], ["with"], [])
        ):
            continue
        while i > 0 and words[i - 1] in (
            "boards",
            "boarding",
            "going",
            "to",
            "will",
            "we",
            "i",
            "'ll",
            "the",
            "and",
            "'re",
            "'m",
        ):
            i -= 1
        aside = Aside(
            topic="board start",
            text=found[0],
            place=_here(line, k),
            evidence=line.span(i, found[1]),
            rule="aside.start",
        )
        return [Found(aside, i, found[1])]
    return []


def _courses(line: Line) -> list[Found]:
    """ "Nine is the top log", "the top course is eleven", "wall a is nine courses"."""
    words, top = line.words, _tables()[3]
    for k in range(len(words)):
        found = top.at(words, k)
        if found is not None:
            number = _whole_before(line, k) or _whole_after(line, found[1])
            if number is None:
                continue
            i, j = min(number[1], k), max(number[2], found[1])
            if i > 0 and words[i - 1] in ("course", "log", "number"):
                i -= 1
            aside = Aside(
                topic="courses",
                text=" ".join(words[k : found[1]]),
                place=_here(line, k),
                value=number[0],
                evidence=line.span(i, j),
                rule="aside.courses",
            )
            return [Found(aside, i, j)]
        if (
            words[k] in ("courses", "rounds")
            and k
            and (figure := line.figure_over(k - 1)) is not None
            and figure.kind == "number"
            and figure.value.denominator == 1
        ):
            following = words[k + 1] if k + 1 < len(words) else ""
            if following in (
                "high",
                "of",
                "in",
                "",
                "up",
                "and",
                "tall",
                "on",
                "altogether",
                "total",
            ) and not _event_before(words, figure.i):
                aside = Aside(
                    topic="courses",
                    text=words[k],
                    place=_here(line, k),
                    value=float(figure.value),
                    evidence=line.span(figure.i, k + 1),
                    rule="aside.courses",
                )
                end = k + 1 + (following in ("high", "tall", "up"))
                if words[end : end + 2] == ["of", "logs"]:
                    end += 2
                return [Found(aside, figure.i, end)]
    return []


def _event_before(words: Sequence[str], i: int) -> bool:
    return any(
        word in ("used", "need", "laid", "received", "ordered", "cut", "hours", "did")
        for word in words[max(0, i - 3) : i]
    )


def _whole_before(line: Line, k: int) -> tuple[float, int, int] | None:
    """ "Nine is the": the number, and its words."""
    m = k
    while m > 0 and line.words[m - 1] in ("the", "is", "'s", "our"):
        m -= 1
    if m == k or m == 0 or not any(word in ("is", "'s") for word in line.words[m:k]):
        return None
    for start, (end, label) in line.labels.items():
        if end == m and label.isdigit():
            return float(label), start, m
    figure = line.figure_over(m - 1)
    if figure is None or figure.kind != "number" or figure.value.denominator != 1:
        return None
    return float(figure.value), figure.i, m


def _whole_after(line: Line, j: int) -> tuple[float, int, int] | None:
    """ "Is number nine": the number, and its words."""
    m = j
    while m < len(line.words) and line.words[m] in ("is", "'s", "number", "course", "log"):
        m += 1
    if m == j or m >= len(line.words):
        return None
    if m in line.labels and line.labels[m][1].isdigit():
        return float(line.labels[m][1]), j, line.labels[m][0]
    figure = line.figures.get(m)
    if figure is None or figure.kind != "number" or figure.value.denominator != 1:
        return None
    following = line.words[figure.j] if figure.j < len(line.words) else ""
    return (
        (float(figure.value), j, figure.j)
        if following not in ("wide", "high", "long", "thick", "deep", "by", "in")
        else None
    )


def _lost(line: Line) -> list[Found]:
    """ "One split": a count and nothing but what happened to the piece."""
    words, lost = line.words, _tables()[2]
    out = []
    for i, figure in sorted(line.figures.items()):
        if figure.kind != "number" or figure.unit or figure.value.denominator != 1 or figure.j >= len(words) or i == 0:
            continue
        k = figure.j
        while k < len(words) and words[k] in ("of", "them", "those", "these"):
            k += 1
        found = lost.at(words, k) if k < len(words) else None
        if found is None:
            continue
        following = words[found[1]] if found[1] < len(words) else ""
        if (
            following in singulars()
            or (following and following not in function_words())
            or species().at(words, found[1] if following else k)
        ):
            continue
        text = _material(words, i)
        aside = Aside(
            topic="lost",
            text=text,
            place=_here(line, i),
            value=float(figure.value),
            evidence=line.span(i, found[1]),
            rule="aside.lost",
        )
        out.append(Found(aside, i, found[1]))
    return out


def _material(words: Sequence[str], i: int) -> str:
    """The material named last before word `i`: "pine boards"."""
    for k in range(i - 1, -1, -1):
        if words[k] in singulars():
            start = k
            while start > 0 and words[start - 1] not in function_words() and words[start - 1] != "more":
                start -= 1
            names = [
                word
                for word in words[start : k + 1]
                if word not in ("used", "cut", "stacked") and number_like([word], 0) is None
            ]
            return " ".join(names)
    return "piece"


def _happened(line: Line, place: str | None) -> list[Found]:
    """ "The glass came", "staging's down", "took down the staging"."""
    words = line.words
    _, _, _, _, verbs, nouns, present = _tables()
    out = []
    for k, word in enumerate(words):
        if word not in nouns:
            continue
        start = k
        while start > 0 and words[start - 1] in ("the", "our", "all", "old", "new", "last"):
            start -= 1
        if any(f.j == start and f.kind in ("number", "section") for f in line.figures.values()):
            continue
        led = words[start - 1] if start else ""
        if (led == "and" or _clause_end(line, start)) and any(
            word in words_of("condition_lookback") - {"before"} for word in words[max(0, start - 10) : start]
        ):
            continue
        if (
            led in ("down",)
            and start >= 2
            and words[start - 2] in ("took", "taken", "take")
            and words[start - 2] != "take"
        ):
            text = f"the {word} is down"
            out.append(
                Found(
                    Aside(
                        topic="happened",
                        text=text,
                        place=_here(line, k) or place,
                        evidence=line.span(start - 2, k + 1),
                        rule="aside.happened",
                    ),
                    start - 2,
                    k + 1,
                    keep=True,
                )
            )
            continue
        if led in words_of("condition_lookback") | {
            "before",
            "soon",
            "waiting",
            "on",
            "for",
            "of",
            "from",
            "at",
            "with",
            "to",
        } or (
            led
            and led not in words_of("conjunctions") | {"now", "finally", "that", "today"}
            and not _clause_end(line, start)
        ):
            continue
        m = k + 1
        while m < len(words) and words[m] in ("finally", "just", "all", "now", "already"):
            m += 1
        copula = words[m : m + 1] in (["'s"], ["'re"])
        spoken = ["is" if w == "'s" else "are" if w == "'re" else w for w in words[m : m + 5]]
        if copula or words[m : m + 1] in (["is"], ["are"]):
            spoken = [spoken[0], *[w for w in spoken[1:] if w not in ("finally", "all", "now", "just")]]
        found = verbs.at(spoken, 0) if spoken else None
        if found is None:
            continue
        end = m + found[1]
        while end < len(words) and words[end] in ("now", "today", "finally", "yesterday", "this", "morning"):
            end += 1
        if end < len(words) and words[end] not in words_of("conjunctions") | {
            "at",
            "on",
            "in",
            "we",
            "i",
            "the",
            "for",
            "off",
        }:
            continue
        if any(m <= i < end + 1 for i in line.figures):
            continue
        said = found[0]
        text = f"the {word} {present.get(said, said)}"
        out.append(
            Found(
                Aside(
                    topic="happened",
                    text=text,
                    place=_here(line, k),
                    evidence=line.span(start, end),
                    rule="aside.happened",
                ),
                start,
                end,
            )
        )
    return out


def _clause_end(line: Line, k: int) -> bool:
    """Whether something ends right before word `k`: a place or figure."""
    return any(p.j == k for p in line.places.values()) or any(f.j == k for f in line.figures.values())
