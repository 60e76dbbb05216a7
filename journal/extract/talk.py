"""What sounds like work and is none: memories, wishes, other people's work, ability, sayings, directions.

A task that is due on a day or waits for something is meant; one that has neither has to stand the questions of this module.
"""

from __future__ import annotations

from itertools import pairwise

from journal.extract.line import Line
from journal.extract.sets import words_of
from journal.extract.utterance import Clause, task_phrases
from journal.extract.vocabulary import function_words

_LOOK_BACK = 9
_TO_DO = ("open", "bare", "waiting")


def no_work(line: Line, clause: Clause, do: str, *, dated: bool, placed: bool) -> bool:
    """Whether a clause that reads like a task says nothing to be done or done; `dated` is it by day or condition, `placed` where it names a place."""
    if _is_asked_or_told(line, clause) or (not dated and not words_of("no_work_things").isdisjoint(do.split())):
        return True
    if clause.opener in _TO_DO and not {"he", "she"}.isdisjoint(line.words[max(0, clause.verb - 3) : clause.verb]):
        return True
    if _of_life(do.split()):
        return True
    if is_saying(do.split()) or _by_nobody(line, clause) or _would_have(line, clause):
        return True
    if not words_of("never_done").isdisjoint(do.split()[1:]):
        return True  # "sign on the door said back at two"
    if clause.opener == "past" and line.words[max(0, clause.verb - 2) : clause.verb] in _WAS:
        return True
    if not words_of("by_habit").isdisjoint(line.words[max(0, clause.i - 1) : clause.verb]):
        return True
    if clause.opener in ("past", "finished", "is done"):
        return _unreal(line, clause) or _by_others(line, clause)
    if clause.opener == "waiting" and not dated:
        return True
    if dated:
        return False
    if clause.opener == "open" and len(do.split()) == 1 and not placed:
        return True
    return _another_is_to(line, clause) or not words_of("was_to").isdisjoint(_led(line, clause))


_WHO = frozenset({"i", "we", "he", "she"})
# "I was stood on a block" tells how the speaker was, and of no work.
_WAS = (["i", "was"], ["i", "'m"], ["we", "were"], ["we", "'re"])


def is_saying(words: list[str]) -> bool:
    """Whether the words of a task are a saying or belong to the talk: "call it a day", "tell you that much", "take your time"."""
    if words[1:2] == ["my"] and not words_of("own_work").intersection(words[2:4]):
        return True
    begun = task_phrases("sayings", "begin").at(words, 0)
    whole = task_phrases("sayings", "whole").at(words, 0)
    return begun is not None or (whole is not None and whole[1] == len(words))


def _of_life(words: list[str]) -> bool:
    """ "Started raining", "buy the first round": the weather's doing, or meat and drink."""
    if words[0] in words_of("begins_or_ends") and not words_of("weather_does").isdisjoint(words[1:3]):
        return True
    return words[0] in words_of("treats") and not words_of("treats_with").isdisjoint(words[1:5])


def _is_asked_or_told(line: Line, clause: Clause) -> bool:
    """ "Was it friday we set the beam", "measure it twice he says"."""
    words = line.words
    if (
        words[0] in words_of("asks_first")
        and words[1:2]
        and words[1] in words_of("who_is_asked")
        and words[2:3] != ["mind"]
    ):
        return True
    said = words[clause.verb : clause.j]
    return any(one in ("he", "she", "they") and two in words_of("says") for one, two in pairwise(said))


def _led(line: Line, clause: Clause) -> list[str]:
    """The words of a clause up to its verb."""
    return line.words[clause.i : clause.verb]


def _before(line: Line, clause: Clause) -> list[str]:
    """The words before a verb, back to where something else was said."""
    k = clause.verb
    while (
        k > 0
        and clause.verb - k < _LOOK_BACK
        and line.words[k - 1] not in words_of("conjunctions")
        and line.figure_over(k - 1) is None
    ):
        k -= 1
    return line.words[k : clause.verb]


def _unreal(line: Line, clause: Clause) -> bool:
    """ "Remember when we cut …", "i thought we sealed …", "if we did the back": nothing that was done and noted."""
    before = _before(line, clause)
    while before and before[-1] in words_of("subjects"):
        before.pop()
    told_of = clause.opener != "is done" and bool(before) and before[-1] in words_of("tells_of")
    told_of = told_of and before[-2:] != ["now", "that"]
    return told_of or not words_of("unreal").isdisjoint(before) or before[-2:] == ["good", "thing"]


def _would_have(line: Line, clause: Clause) -> bool:
    """ "I would have cut them longer", "we'd hew beams all winter": what was not, or was long ago."""
    words, verb = line.words, clause.verb
    if words[verb - 1 : verb] == ["'d"]:
        return True
    pairs = zip(words[max(0, verb - 4) : verb], words[max(1, verb - 3) : verb + 1], strict=False)
    return any(one in words_of("would") and two in ("have", "'ve", "of") for one, two in pairs)


def _by_nobody(line: Line, clause: Clause) -> bool:
    """ "Nobody's swept this place", "nothing's been bought"."""
    start = clause.subject if clause.subject >= 0 else clause.i
    before = line.words[max(0, min(start, clause.i) - 1) : clause.verb]
    return not words_of("nobody").isdisjoint(before) or any(
        one == "no" and two == "one" for one, two in pairwise(before)
    )


def _by_others(line: Line, clause: Clause) -> bool:
    """ "They fixed the road", "somebody's moved my pencil": what others did, who are no part of the job."""
    if clause.opener == "is done":
        return False
    k = clause.verb
    if k > 0 and line.words[k - 1] in ("and", "then"):  # "the driver was late he'd been lost and backed over the bed"
        before = [n for n in range(max(0, k - 14), k) if line.words[n] in _WHO]
        return bool(before) and line.words[before[-1]] in ("he", "she")
    return not words_of("others").isdisjoint(_led(line, clause))


def _another_is_to(line: Line, clause: Clause) -> bool:
    """ "The roofers are going to strip …", "the paint should dry …": who or what the words before the opening name is to, not the speaker."""
    led = _led(line, clause)
    if clause.opener != "open" or not led:
        return False
    if not words_of("they_who").isdisjoint(led):
        return True
    if led[0] in words_of("conjunctions") or not words_of("people").isdisjoint(led) or clause.i == 0:
        return False
    k = clause.i - 1
    place = next((p for p in line.places.values() if p.j == k + 1), None)
    subject = place is not None and line.words[place.i - 1 : place.i] == ["the"]
    subject = (
        subject
        and place is not None
        and line.words[place.i - 2 : place.i - 1] not in [[w] for w in words_of("prepositions")]
    )
    ends = (place is not None and not subject) or line.figure_over(k) is not None
    return not ends and line.words[k] not in function_words() | words_of("before_opening")
