"""Time that is no work: what cures or drives, what is planned, breaks. Its figures are taken out before any rule sees them.

Knows the words beside hours only; what the hours were spent on is told in hours.py.
"""

from __future__ import annotations

from fractions import Fraction

from journal.extract.line import Figure, Line
from journal.extract.sets import words_of
from journal.extract.unitwords import word_at
from journal.extract.vocabulary import past_forms

BREAK = "hours.break"


def settle_durations(line: Line) -> None:
    """Takes the figures of time that nobody worked out of the line, and marks those of breaks."""
    for i in [i for i, figure in line.figures.items() if figure.kind == "hours"]:
        figure = line.figures[i]
        if _is_break(line.words, figure):
            figure.rule = BREAK
        elif (
            (figure.value < Fraction(1, 5) and not {"took", "spent"} & set(line.words[max(0, i - 4) : i]))
            or _comes_later(line.words, figure)
            or _is_no_work(line.words, figure)
        ):
            del line.figures[i]


def _is_break(words: list[str], figure: Figure) -> bool:
    """ "Half an hour for lunch", "an hour's break", "a break of twenty minutes"."""
    before = words[max(0, figure.i - 2) : figure.i]
    if figure.value <= 2 and before[1:] in (["of"], ["for"]) and before[0] in words_of("breaks"):
        return True
    j = figure.j
    while word_at(words, j) in words_of("before_break"):
        j += 1
    return figure.value <= 2 and word_at(words, j) in words_of("breaks") and word_at(words, j + 1) != "room"


def _comes_later(words: list[str], figure: Figure) -> bool:
    """ "Two hours ago", "an hour away", "three hour drive", "four hours to go": what follows shows that it is no work."""
    if words[figure.j : figure.j + 1] == ["and"] and words_of("out_of_here") & set(words[figure.j + 1 : figure.j + 4]):
        return True
    if word_at(words, figure.i - 1) in ("mile", "miles", "kilometres", "kilometers", "knots", "k"):
        return True  # "forty mile an hour"
    after = words[figure.j : figure.j + 3]
    if (
        after[:1] == ["to"]
        and after[1:2]
        and after[1] in words_of("by_itself")
        and after[2:] in ([], ["then"], ["and"], ["before"], ["so"], ["but"])
    ):
        return True
    if after[:1] in (["is"], ["'s"]) and after[1:2] in (["enough"], ["plenty"], ["too"], ["long"]):
        return True
    return (after[:1] != [] and after[0] in words_of("no_work_after") and after[:2] != ["wait", "for"]) or after[
        :2
    ] in (["to", "go"], ["from", "now"], ["per", "coat"])


def _is_no_work(words: list[str], figure: Figure) -> bool:
    """Whether the words before hours plan, guess or deny them, or let something stand for so long."""
    k = figure.i - 1
    while k >= 0 and words[k] in words_of("hedges_of_hours"):
        k -= 1
    if k < 0 or words[k] in words_of("hours_clause_ends"):
        return False
    start = k
    while start > 0 and k - start < 7 and words[start - 1] not in words_of("hours_clause_ends"):
        start -= 1
    before = words[start : k + 1]
    said = set(before)
    if words[k] in ("in", "within", "every") and words[k - 1 : k] != [] and words[k - 1] not in words_of("put_in"):
        return not any(word in past_forms() for word in before)
    if said & words_of("books_hours"):
        return False
    if said & words_of("stands_for_hours") and not (said & {"we", "i"} and said & {"ran"}):
        return True
    if said & words_of("plans_hours") or any(word.endswith("n't") or word == "not" for word in before):
        return True
    return ("figure" in said and "on" in said) or "tomorrow" in said or _tomorrow_after(words, figure.j)


def _tomorrow_after(words: list[str], j: int) -> bool:
    end = next((k for k in range(j, min(j + 8, len(words))) if words[k] in words_of("hours_clause_ends")), j + 8)
    return "tomorrow" in words[j:end]
