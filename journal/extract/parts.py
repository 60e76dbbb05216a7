"""A memo cut into parts: where somebody else begins to do something, at conjunctions, remarks, and where a record begins.

Knows where something else may begin, not how it is told.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from journal.extract.line import Line
from journal.extract.said import Said
from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.vocabulary import function_words
from journal.extract.voices import aside_at, doer_at, hurt, no_subject_after, phrases, source_at

Told = Literal["record", "own talk", "talk of others", "remark", ""]


@dataclass(slots=True)
class Part:
    """Words `i` to `j`, and how they are told; `resumes` where a filler like "anyway" led back to the job."""

    i: int
    j: int
    resumes: bool = False
    told: Told = ""


def parts_of(said: Said, text: str) -> list[Part]:
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
    joined = words_of("joints_of_talk").issuperset(words[start:k])
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
        return before not in no_subject_after() and before not in words_of("supposes")
    if word == "my" and hurt(line, k, min(k + 3, len(words))) and before not in words_of("prepositions"):
        return True
    if _turns_aside(line, start, k):
        return True
    if (
        phrases("leads").at(words, k) is not None
        or phrases("wishes").at(words, k) is not None
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
    if words[k - 1] in words_of("before_the", "prepositions", "condition_words", "whose"):
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
        if words[m] in words_of("subjects_of_talk", "joints_of_talk"):
            return False
    return False


def first_word(line: Line, i: int, j: int) -> int:
    """The first word of a part behind the words that join it on."""
    k = i
    while k < j - 1 and line.words[k] in words_of("joints_of_talk") and line.figure_over(k) is None:
        k += 1
    return k
