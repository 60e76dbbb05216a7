"""Whose voice a stretch of a memo is in: a record of the job, or talk beside it, of which no fact is made.

A memo is cut where somebody else begins to do something, at conjunctions, and where a record begins (a place, or a thing that
leads to its figure). Each part is a record or talk by what it says; one that says neither goes with the part before it.
"""

from __future__ import annotations

from typing import Literal

from journal.extract.fillers import source_of
from journal.extract.formerly import is_now, of_then, was_then
from journal.extract.line import Line
from journal.extract.parts import Part, Told, first_word, parts_of
from journal.extract.readings import quantities
from journal.extract.said import Said
from journal.extract.sets import words_of
from journal.extract.stockwords import event_at, names_stock
from journal.extract.talkcues import may_hold_talk
from journal.extract.tokens import Token
from journal.extract.unitwords import word_at
from journal.extract.utterance import task_phrases
from journal.extract.vocabulary import function_words, past_forms, verbs
from journal.extract.voices import (
    deals,
    doing_of_others,
    elsewhere,
    hurt,
    is_thing,
    own_doing,
    phrases,
    source_at,
)
from journal.records import Problem


def without_talk(said: Said, text: str, problems: list[Problem]) -> list[Token]:
    """The words of a memo less its talk; a figure with its dimension that goes with it is a problem, so that it can be said again."""
    line = said.line
    if not may_hold_talk(line.words):
        return line.tokens
    gone: list[Part] = []
    talking = reported = False
    parts = parts_of(said, text)
    for part, following in zip(parts, [*parts[1:], None], strict=False):
        told = part.told or _told(
            said, part, reported and not part.resumes and line.words[part.i] not in words_of("goes_back")
        )
        reported = told == "talk of others" and not words_of("tell_verbs").isdisjoint(
            line.words[max(part.i, part.j - 2) : part.j]
        )
        if told == "remark":
            gone.append(part)
            continue
        if told == "record" and (following is not None and _says_who(line, following)):
            told = "talk of others"
        if told in ("record", "") and of_then(line, part, parts):
            told = "own talk"
        if told == "record" and was_then(line, part, parts):
            told = "talk of others"
        if told == "talk of others" and following is not None and is_now(line, following):
            told = "record"  # "pine was forty cents years ago | now it's two ten": the rules for what was before know
        if told.endswith(("talk", "others")):
            talking = True
            part.told = told if told == "talk of others" else ""
        elif told == "record" or part.resumes:
            talking = False
        if talking:
            gone.append(part)
            _report(line, part, problems)
    return _left(line, gone) if gone else line.tokens


def _says_who(line: Line, part: Part) -> bool:
    """Whether a part only says whose figure was told before it: "… sixty percent they reckon tomorrow"."""
    words = line.words
    if words[part.i : part.i + 2] == ["according", "to"]:
        return True
    k = next((k for k in range(part.i, part.j) if words[k] in words_of("tell_verbs")), part.j)
    return (
        part.i < k < part.j <= k + 2
        and words[part.i] in ("they", "he", "she")
        and part.j - part.i <= 3
        and not any(part.i <= m < part.j for m in line.figures)
    )


def _told(said: Said, part: Part, reported: bool) -> Told:
    """How a part is told; `reported` after "he swore", "my brother says"."""
    line, i, j = said.line, part.i, part.j
    figures = _figures_of(line, i, j)
    others = doing_of_others(line, i, j)
    if others and (
        figures == "brought"
        or (figures == "dealt" and _deals(line, i, j))
        or (figures == "measured" and is_thing(line, i, j))
        or _asks_for(line, i, j)
    ):
        return "record"
    if others or reported:
        return "talk of others"
    if _idle(line, i, j) or _written(line, i, j):
        return "own talk"
    if figures == "dealt":
        return "talk of others" if elsewhere(line, i, j) else "record"
    if phrases("wishes").at(line.words, first_word(line, i, j)) is not None or (figures and elsewhere(line, i, j)):
        return "talk of others"
    if not _measured_by_unit(line, i, j) and source_at(line, first_word(line, i, j)) is not None:
        return "talk of others"
    if hurt(line, i, j) and not _measured_by_unit(line, i, j):
        return "own talk"
    if figures:
        return "record"
    if (
        own_doing(line, i, j)
        or elsewhere(line, i, j)
        or phrases("leads").at(line.words, first_word(line, i, j)) is not None
    ):
        return "own talk"
    if _is_work(said, i, j):
        return "record"
    return "own talk" if _trails(said, i, j) else ""


def _figures_of(line: Line, i: int, j: int) -> Literal["", "measured", "dealt", "brought"]:
    """What makes a record of the words `i` to `j`: a figure with its dimension or unit, material that is counted, money, hours."""
    words = line.words
    figures = [f for k, f in line.figures.items() if i <= k < j]
    dimensions = any(i <= k < j for k in line.dimensions)
    for figure in figures:
        if figure.kind in ("hours", "money", "board feet") or figure.per:
            return "dealt"
        if names_stock(words[:j], figure.j) and deals(words[i : figure.i]):
            return "brought"
        if names_stock(words[:j], figure.j) and any(event_at(words, k) for k in range(i, j)):
            return "measured"
        if figure.kind in ("percent", "degrees", "slope", "section"):
            return "measured"
        if figure.kind not in ("number", "length") or word_at(words, figure.j) in words_of("counted_in_passing"):
            continue
        told = dimensions or figure.unit or figure.value.denominator > 1 or any(i <= k < figure.i for k in line.places)
        if told or words[figure.i - 1] in quantities():
            return "measured"
    return ""


def _measured_by_unit(line: Line, i: int, j: int) -> bool:
    """Whether a figure of the words `i` to `j` has a dimension, a unit or parts of an inch."""
    figures = [f for k, f in line.figures.items() if i <= k < j]
    return any(i <= k < j for k in line.dimensions) or any(
        f.unit or f.value.denominator > 1 or f.kind in ("percent", "degrees") for f in figures
    )


def _idle(line: Line, i: int, j: int) -> bool:
    """Whether the hours of the words `i` to `j` are none of work: "an hour arguing", "i've two hours if i'm lucky", "four hours of my life"."""
    words = line.words
    for k, figure in line.figures.items():
        if figure.kind != "hours" or not i <= k < j:
            continue
        after, has = word_at(words, figure.j), words[k - 1 : k] in (["'ve"], ["have"], ["got"])
        if after in words_of("idles") or (has and after in words_of("left_of_day")):
            return True
    return False


def _written(line: Line, i: int, j: int) -> bool:
    """Whether the words `i` to `j` tell what stands on a sign or in a paper: "there's a plaque says eighteen ninety one"."""
    k = first_word(line, i, j)
    k += 2 * (line.words[k : k + 2] == ["there", "'s"])
    source = source_at(line, k) if k < j else None
    if not {"newspaper", "calendar", "almanac", "poster"}.isdisjoint(line.words[i:j]) and not any(
        i <= m < j for m in line.dimensions
    ):
        return True
    return source is not None and not words_of("written_on").isdisjoint(line.words[k:source])


def _deals(line: Line, i: int, j: int) -> bool:
    """Whether hours or money of the words `i` to `j` are the job's: somebody works, asks or is owed for it."""
    return deals(line.words[i:j]) or any(line.words[k - 1] in words_of("asks_money") for k in line.figures if i < k < j)


def _asks_for(line: Line, i: int, j: int) -> bool:
    """Whether somebody was or asks so much: "the mason was five hundred and fifty"."""
    if any(i <= k < j for k in line.dimensions):
        return False
    for k, figure in line.figures.items():
        if not i < k < j or figure.kind != "number" or figure.value < 5:
            continue
        wanted = line.words[k - 1] in ("wants", "wanted") and word_at(line.words, figure.j) == "for"
        passing = word_at(line.words, figure.j) in words_of("counted_in_passing")
        if (wanted or line.words[k - 1] in words_of("asks_money")) and not passing:
            return True
    return False


def _is_work(said: Said, i: int, j: int) -> bool:
    """Whether the words `i` to `j` order work, or begin with a condition or day for it."""
    line, words = said.line, said.line.words
    k = first_word(line, i, j)
    if words[k] in ("have", "get") and word_at(words, k + 1) in ("the", "those", "these", "all"):
        return True
    if words[k] in ("it", "they", "that") and any(
        w in past_forms() and w not in words_of("no_tail_of_work") for w in words[k + 2 : min(k + 5, j)]
    ):
        return True  # "… and it's all sanded now"
    while k < j and (
        words[k] in words_of("subjects") | {"please", "just", "now"} or any(d.i <= k < d.j for d in said.dues)
    ):
        k += 1
    if k < j and words[k] in verbs() and (word_at(words, k + 1) in words_of("determiners") or k + 1 in line.places):
        return True
    opens = any(task_phrases("openings", "phrases").at(words, m) for m in range(k, min(k + 2, j)))
    return opens or any(task_phrases("after", "words").at(words, m) for m in range(i, min(i + 2, j)))


def _trails(said: Said, i: int, j: int) -> bool:
    """Whether the words `i` to `j` are a tail that says nothing of the job: "which is steep for my knees", "that's the second pair"."""
    line, words = said.line, said.line.words
    k = first_word(line, i, j)
    told = words[k] in ("it", "that", "there") and word_at(words, k + 1) in ("'s", "was", "is", "are", "were")
    if i == 0 or any(i <= d.i < j for d in said.dues):
        return False
    if (
        words[k] in ("they", "it")
        and word_at(words, k + 1) in ("'ve", "have", "had", "has")
        and not _figures_of(line, i, j)
    ):
        figure = next((f for m, f in sorted(line.figures.items()) if k < m < min(k + 4, j)), None)
        return (
            figure is not None
            and word_at(words, figure.j) not in function_words()
            and not names_stock(words[:j], figure.j)
        )
    if words[k] == "it" and word_at(words, k + 1) in words_of("seems"):
        return not _figures_of(line, i, j)
    if told:
        done = (past_forms().keys() - words_of("no_tail_of_work")) | words_of("tails_of_work")
        near = range(k + 2, min(k + 6, j))
        if any(m in line.figures or words[m] in done for m in near) or any(i <= m < j for m in line.dimensions):
            return False
        return not any(names_stock(words[:j], f.j) for m, f in line.figures.items() if i <= m < j) and not _happens(
            words, i, j
        )
    while_so = words[i] in ("while", "whilst") and not past_forms().keys().isdisjoint(words[:i])
    tail = (while_so or words[i] in words_of("tails")) and words[i + 1 : i + 3] != ["that", "is"]
    return tail and not any(i <= m < j for m in line.figures) and not _happens(words, i, j)


def _happens(words: list[str], i: int, j: int) -> bool:
    """Whether something happens to material in the words `i` to `j`: "there's a bag left over"."""
    return any(event_at(words, m) for m in range(i, j))


def _points_back(line: Line, part: Part) -> bool:
    """Whether what follows a part goes on about its place: "the wife says the parlour's too cold it reads …"."""
    return word_at(line.words, part.j) in ("it", "there") and word_at(line.words, part.j + 1) in words_of("be")


def _report(line: Line, part: Part, problems: list[Problem]) -> None:
    """A figure that is told in talk with its dimension, or read off a plan or sign, is said to be left out."""
    figures = [f for k, f in sorted(line.figures.items()) if part.i <= k < part.j and f.kind in ("number", "length")]
    if not figures or phrases("wishes").at(line.words, first_word(line, part.i, part.j)) is not None:
        return
    figure, written = figures[0], source_at(line, first_word(line, part.i, part.j)) is not None
    counts = word_at(line.words, figure.j) not in function_words() and figure.j not in line.dimensions
    told_by = None if counts and figure.j < part.j else source_of(line.words[part.i : figure.i])
    if told_by is not None or (written and not doing_of_others(line, part.i, part.j)):
        whose = f"a figure from the {told_by}" if told_by else "a figure that was only written"
        message = f"'{line.said(figure.i, figure.j)}': {whose}, not measured"
        problems.append(Problem(message, line.span(figure.i, figure.j), "Say what was measured."))
    elif any(part.i <= k < part.j for k in line.dimensions):
        message = f"'{line.said(part.i, part.j)}': told by the way, so it is said and not filed"
        problems.append(Problem(message, line.span(part.i, part.j), "Say it by itself if it was measured."))


def _left(line: Line, gone: list[Part]) -> list[Token]:
    """The words without the parts that are gone; a "so" stands for one in their midst, so that nothing joins over it."""
    left: list[Token] = []
    start = 0
    for part in gone:
        left += line.tokens[start : part.i]
        places = [
            p
            for p in line.places.values()
            if part.i <= p.i < part.j and (_points_back(line, part) or (p.i == part.i and part.told == ""))
        ]
        left += [line.tokens[k] for p in places for k in range(p.i, p.j)]
        if (
            left
            and part.j < len(line.tokens)
            and left[-1].text != "so"
            and line.words[part.j] not in words_of("conjunctions")
        ):
            left.append(line.tokens[part.i]._replace(text="so"))
        start = part.j
    left += line.tokens[start:]
    while left and left[-1].text in words_of("conjunctions"):
        left.pop()
    return left
