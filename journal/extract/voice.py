"""Whose voice a stretch of a memo is in: a record of the job, or talk beside it, of which no fact is made.

A memo is cut where somebody else begins to do something, at conjunctions, and where a record begins (a place, or a thing that
leads to its figure). Each part is a record or talk by what it says; one that says neither goes with the part before it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Literal

from journal.extract.fillers import sources
from journal.extract.line import Line
from journal.extract.readings import quantities
from journal.extract.said import Said
from journal.extract.sets import words_of
from journal.extract.stockwords import event_at, names_stock
from journal.extract.tokens import Token
from journal.extract.unitwords import word_at
from journal.extract.utterance import task_phrases
from journal.extract.vocabulary import function_words, past_forms, verbs
from journal.extract.voices import (
    aside_at,
    deals,
    doer_at,
    doing_of_others,
    elsewhere,
    hurt,
    is_thing,
    own_doing,
    people,
    phrases,
    source_at,
    told_of,
)
from journal.records import Problem

Told = Literal["record", "own talk", "talk of others", "remark", ""]


@dataclass(slots=True)
class Part:
    """Words `i` to `j`, and how they are told; `resumes` where a filler like "anyway" led back to the job."""

    i: int
    j: int
    resumes: bool = False
    told: Told = ""


def without_talk(said: Said, text: str, problems: list[Problem]) -> list[Token]:
    """The words of a memo less its talk; a figure with its dimension that goes with it is a problem, so that it can be said again."""
    line = said.line
    if _cues().isdisjoint(line.words):
        return line.tokens
    gone: list[Part] = []
    talking = reported = False
    parts = _parts(said, text)
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
        if told in ("record", "") and _of_then(line, part, parts):
            told = "own talk"
        if told == "record" and _was_then(line, part, parts):
            told = "talk of others"
        if told == "talk of others" and following is not None and _is_now(line, following):
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


@cache
def _cues() -> frozenset[str]:
    """Words without which a memo holds no talk."""
    doings = told_of("posture") | told_of("mood") | told_of("doings") | told_of("thought")
    first = frozenset().union(*(phrases(name).first_words() for name in ("remarks", "elsewhere", "leads", "wishes")))
    others = people() | words_of("somebody_else") | words_of("whose_own") | sources() | words_of("written_on")
    return others | doings | first | words_of("tried_it") | words_of("cues_of_talk")


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


def _of_then(line: Line, part: Part, parts: list[Part]) -> bool:
    """Whether a part tells what was, behind what is: "it was fifteen before i packed it up", "yesterday i said eleven foot"."""
    words, k = line.words, _first(line, part.i, part.j)
    before = parts[: parts.index(part)]
    if not any(one.i <= m < one.j for m in line.figures for one in before):
        return False
    was = words[k] in ("it", "they") and word_at(words, k + 1) in ("was", "were") and k + 2 in line.figures
    if was:
        return not words_of("of_then").isdisjoint(words[line.figures[k + 2].j : part.j])
    return words[k : k + 2] == ["i", "said"] and words[k - 1] in words_of("time_before") and k + 2 in line.figures


def _was_then(line: Line, part: Part, parts: list[Part]) -> bool:
    """Whether what was is said to be past behind it: "… were ninety cents each and half were cracked | that was before the flood"."""
    words = line.words
    if words_of("was_then").isdisjoint(words[part.i : part.j]):
        return False
    for later in parts[parts.index(part) + 1 :][:2]:
        k = _first(line, later.i, later.j)
        if words[k : k + 2] == ["that", "was"] and word_at(words, k + 2) in words_of("when_it_was") | {"then", "years"}:
            return True
    return False


def _is_now(line: Line, part: Part) -> bool:
    """Whether a part tells of now: "now it's two ten a foot"."""
    words, k = line.words, _first(line, part.i, part.j)
    now = words[k - 1] == "now" or word_at(words, part.j - 1) == "now"
    return now and words[k] in ("it", "they") and word_at(words, k + 1) in ("'s", "'re", "is", "are")


def _parts(said: Said, text: str) -> list[Part]:
    """A memo cut where something else may begin, and into its remarks."""
    line = said.line
    n = len(line.words)
    inside = {
        k
        for marked in (line.figures, line.places, line.dimensions)
        for one in marked.values()
        for k in range(one.i + 1, one.j)
    }
    inside |= {k for i, (j, _) in line.labels.items() for k in range(i + 1, j)}
    inside |= {k for due in said.dues for k in range(due.i + 1, due.j)}
    inside |= {k for i, _, j in phrases("elsewhere").all_in(line.words) for k in range(i + 1, j)}
    parts = [Part(0, n)]
    k = 0
    while k < n:
        aside = aside_at(line, k) if k not in inside else None
        if aside is not None:
            parts += [Part(k, aside, told="remark"), Part(aside, n)]
            k = aside
            continue
        resumes = k > 0 and _resumed(text, line.tokens[k - 1].end, line.tokens[k].start)
        if k > parts[-1].i and (resumes or (k not in inside and _begins(said, k, parts[-1].i))):
            parts.append(Part(k, n, resumes))
        elif k == parts[-1].i:
            parts[-1].resumes |= resumes
        k += 1
    for one, following in pairwise(parts):
        one.j = min(one.j, following.i)
    return [part for part in parts if part.i < part.j]


def _resumed(text: str, i: int, j: int) -> bool:
    """Whether "anyway" or the like stood between two words and was dropped."""
    return j > i + 1 and not words_of("resumes").isdisjoint(text[i:j].split())


def _begins(said: Said, k: int, start: int) -> bool:
    """Whether something else may begin at word `k` of a part that began at `start`."""
    line = said.line
    words = line.words
    word, before = words[k], words[k - 1]
    joined = all(w in words_of("joints_of_talk") for w in words[start:k])
    if words[k - 1 : k + 2] == ["give", "or", "take"]:
        return False
    if word in words_of("joints_of_talk") and line.figure_over(k) is None and k not in line.places:
        return not joined
    if joined and start > 0:
        return False
    if word in words_of("subjects_of_talk"):
        then = words[k : k + 2] == ["that", "was"] and word_at(words, k + 2) in words_of("when_it_was") | {"then"}
        if word == "that" and before not in function_words() and not _ends_before(line, k) and not then:
            return False  # "a beam that's forty foot long"
        if word in ("it", "there", "that", "they", "you") and word_at(words, k + 1) not in words_of(
            "after_subject_of_talk"
        ):
            return False
        return before not in words_of("condition_words") | told_of("not_subject_after") | words_of("supposes")
    if word == "my" and hurt(line, k, min(k + 3, len(words))) and before not in words_of("prepositions"):
        return True
    if _turns_aside(line, start, k):
        return True
    if (
        any(phrases(name).at(words, k) for name in ("leads", "wishes"))
        or source_at(line, k) is not None
        or doer_at(line, k) is not None
    ):
        return True
    return _begins_record(line, k)


def _turns_aside(line: Line, start: int, k: int) -> bool:
    """Whether another time or what might have been begins at word `k`, behind a record: "… nine eighty a box | ten years back they were four"."""
    words = line.words
    told = [f for f in line.figures.values() if start <= f.i < k]
    if (
        not told
        or not words_of("was_then").isdisjoint(words[start:k])
        or all(any(f.i <= n < f.j for f in told) for n in range(start, k))
    ):
        return False
    counted = line.figures[k].j if k in line.figures else k
    if phrases("elsewhere").at(words, counted) is not None and (k == counted or words[counted] == "years"):
        return k != counted or not any(f.j == k for f in told)
    return words[k] in words_of("supposes") and word_at(words, k + 1) in ("have", "'ve", "of")


def _ends_before(line: Line, k: int) -> bool:
    """Whether a figure or dimension ends right before word `k`."""
    return any(f.j == k for f in line.figures.values()) or any(d.j == k for d in line.dimensions.values())


def _begins_record(line: Line, k: int) -> bool:
    """Whether a place or "the" and a thing begin at word `k` what leads to a figure: "… so i'll be quick | the weather beam's twelve and a half"."""
    words = line.words
    if words[k - 1] in words_of("before_the") | words_of("prepositions") | words_of("condition_words") | words_of(
        "whose"
    ):
        return False
    if words[k - 1] in words_of("tell_verbs") or phrases("elsewhere").ending_at(words, k, 9) is not None:
        return False
    if words[k : k + 2] == ["the", "one"]:
        return True
    if k not in line.places and words[k] not in ("the", "this", "that", "these", "those", "our"):
        return False
    for m in range(k + 1, min(k + 9, len(words))):
        if m in line.figures:
            return (
                words[m - 1] in words_of("copulas")
                or m in {d.j for d in line.dimensions.values()}
                or line.figures[m].j in line.dimensions
            )
        if words[m] in words_of("subjects_of_talk") | words_of("joints_of_talk"):
            return False
    return False


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
    if phrases("wishes").at(line.words, _first(line, i, j)) is not None or (figures and elsewhere(line, i, j)):
        return "talk of others"
    if not _measured_by_unit(line, i, j) and source_at(line, _first(line, i, j)) is not None:
        return "talk of others"
    if hurt(line, i, j) and not _measured_by_unit(line, i, j):
        return "own talk"
    if figures:
        return "record"
    if (
        own_doing(line, i, j)
        or elsewhere(line, i, j)
        or phrases("leads").at(line.words, _first(line, i, j)) is not None
    ):
        return "own talk"
    if _is_work(said, i, j):
        return "record"
    return "own talk" if _trails(said, i, j) else ""


def _first(line: Line, i: int, j: int) -> int:
    """The first word of a part behind the words that join it on."""
    k = i
    while k < j - 1 and line.words[k] in words_of("joints_of_talk") and line.figure_over(k) is None:
        k += 1
    return k


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
    k = _first(line, i, j)
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
    k = _first(line, i, j)
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
    k = _first(line, i, j)
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
    if not figures or phrases("wishes").at(line.words, _first(line, part.i, part.j)) is not None:
        return
    source = source_at(line, _first(line, part.i, part.j))
    if source is not None and not doing_of_others(line, part.i, part.j):
        figure = figures[0]
        message = f"'{line.said(figure.i, figure.j)}': a figure that was only written, not measured"
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
