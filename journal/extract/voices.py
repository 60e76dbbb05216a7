"""What tells that words are talk: somebody else who does something, what the speaker's own body does, a remark, another time or place.

Knows words, not what becomes of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.fillers import sources
from journal.extract.line import Line
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.unitwords import plural, word_at
from journal.extract.utterance import task_phrases
from journal.extract.vocabulary import function_words, past_forms, verbs
from journal.grammar import table

_SUBJECTS = frozenset({"he", "she"})


@cache
def told_of(name: str) -> frozenset[str]:
    """A set of words of `grammars/voice.toml`."""
    data = table("voice")
    return frozenset((data["who"].get(name) or data["talk"][name]).split())


@cache
def people() -> frozenset[str]:
    """Persons and beasts whose doings are none of the job's, one and many."""
    one = told_of("kin") | told_of("trades") | told_of("beasts")
    return (one | {plural(word) for word in one} | told_of("groups")) - set(
        table("sites")["led"]
    )  # "the flies" of a theatre


@cache
def phrases(name: str) -> Phrases[str]:
    """The phrases of one table of `grammars/voice.toml`."""
    data = table("voice")
    return Phrases.of(data["who"][name] if name in data["who"] else data["talk"][name], name)


@cache
def no_subject_after() -> frozenset[str]:
    """Words after which nobody is the one who does."""
    return told_of("not_subject_after") | words_of("condition_words")


def doer_at(line: Line, k: int) -> int | None:
    """The index after somebody else named at word `k` as the one who does something ("the lad", "my brother in law"); None for anyone spoken to or given to."""
    words = line.words
    if k and words[k - 1] in no_subject_after() and line.figure_over(k - 1) is None:
        return None
    if task_phrases("after", "words").ending_at(words, k) is not None:
        return None
    if k and words[k - 1] in words_of("whose"):
        return None
    counted = line.figures.get(k)
    if counted is not None and (counted.kind != "number" or counted.unit):
        return None
    m = counted.j if counted is not None else k + (words[k] in words_of("whose"))
    while m < len(words) and words[m] in told_of("adjectives") and m not in line.places:
        m += 1
    if (
        word_at(words, m) in told_of("weather")
        and word_at(words, m + 1) in words_of("weather_verbs")
        and m not in line.places
    ):
        return m + 1 if words[m + 1] != "'s" or _is_or_has(line, m + 2) else None
    if m > k and word_at(words, m) not in people():  # "the lodge keeper", "the crane driver"
        m = line.places[m].j if m in line.places else m + (word_at(words, m) not in function_words())
    if word_at(words, m) not in people() or line.inside_place(m) or m in line.places or m in line.labels:
        return None
    if m == k and k and not _may_stand_before(line, k):
        return None
    m += 1
    while (found := phrases("after").at(words, m)) is not None:
        m = found[1]
    if m >= len(words) or m in line.figures or m in line.dimensions or words[m] in words_of("no_doing_after"):
        return None
    if words[m] == "'s" and word_at(words, m + 1) in people():  # "my wife's cousin"
        m += 2
    if m < len(words) and words[m] == "'s" and not _is_or_has(line, m + 1):
        return None
    return m


def _may_stand_before(line: Line, k: int) -> bool:
    """Whether a person without an article may begin at word `k`: the word before it is none of his name ("the insulation guy")."""
    before = line.words[k - 1]
    ends = any(one.j == k for one in line.dimensions.values())
    ends = ends or any(f.j == k and (f.unit or f.kind != "number") for f in line.figures.values())
    return ends or (
        before != "'s" and before in function_words() and before not in words_of("determiners") | told_of("adjectives")
    )


def _is_or_has(line: Line, k: int) -> bool:
    """Whether the "'s" before word `k` is a verb: "the lad's got …", "the neighbour's is …", "the plumber's late"."""
    following = word_at(line.words, k)
    return k in line.figures or following in words_of("after_is_or_has") or following.endswith("ing") or following == ""


def doing_of_others(line: Line, i: int, j: int) -> bool:
    """Whether the words `i` to `j` begin with what somebody else does, has or thinks."""
    words, k = line.words, i
    while k < j and words[k] in words_of("joints_of_talk") and line.figure_over(k) is None:
        k += 1
    if k >= j:
        return False
    if not {"who", "whose", "whoever"}.isdisjoint(words[i:k]):
        return True
    word, following = words[k], word_at(words, k + 1) if k + 1 < j else ""
    if word in _SUBJECTS:
        return True
    if word in words_of("whose_own") and following == "'s":
        return True
    if word == "they":
        return following in words_of("tell_verbs") or following == "always"
    if doer_at(line, k) is not None:
        return True
    return word in words_of("somebody_else") and following not in words_of("has_to") | verbs() | {"", "'s"}


def is_thing(line: Line, i: int, j: int) -> bool:
    """Whether "he" or "she" is what was measured: "she's a quarter inch out of plumb"."""
    k = next((k for k in range(i, j) if line.words[k] not in words_of("joints_of_talk")), j)
    return (
        word_at(line.words, k) in _SUBJECTS
        and word_at(line.words, k + 1) in ("'s", "is", "reads", "measures")
        and word_at(line.words, k + 2) not in words_of("has_taken")
    )


def deals(words: Sequence[str]) -> bool:
    """Whether somebody else brings, asks or does what is the job's all the same."""
    return not told_of("deals").isdisjoint(words)


_MEANT = (("openings", "phrases"), ("waiting", "phrases"))


def own_doing(line: Line, i: int, j: int) -> bool:
    """Whether the words `i` to `j` begin with what the speaker's body, mood or tool does: "i was stood on …", "had to shift the ladder"."""
    words, k = line.words, i
    while k < j and words[k] in words_of("joints_of_talk", "before_doing"):
        k += 1
    if k >= j or k in line.figures or k in line.places:
        return False
    if any(task_phrases(*of).at(words, m) for of in _MEANT for m in range(i, k + 1)):
        return False
    word, led = words[k], words[i:k]
    if (
        i > 0
        and any(i <= n < j for n, _, _ in phrases("purposes").all_in(words))
        and not past_forms().keys().isdisjoint(words[i : k + 1])
    ):
        return True
    mine = not {"i", "we"}.isdisjoint(led)
    if word in told_of("posture"):
        return mine or (k == i == 0 and word_at(words, k + 1) in words_of("prepositions"))
    if mine and word in words_of("whose") and word_at(words, k + 1) in told_of("belongings"):
        return True  # "i had the tape hooked on my boot"
    if mine and (word in told_of("mood") or word in told_of("thought")):
        return True
    if word in words_of("perceived") and word_at(words, k + 1) in ("a", "an", "no", "nothing", "my", "another"):
        return True
    if any(i <= n < j for n, _, _ in phrases("purposes").all_in(words)):
        return mine or word in past_forms() or word in told_of("posture")
    if word not in told_of("doings") or ("to" in led and not {"had", "have", "'ve", "having"} & set(led)):
        return False
    after = words[k + 1 : min(k + 6, j)]
    if not told_of("belongings").isdisjoint(after):
        return mine or "had" in led or word.endswith(("ed", "nt")) or word in told_of("mishap")
    if mine and word in told_of("mishap"):
        return k + 1 not in line.figures
    return (
        (mine or "had" in led)
        and after[:1] != []
        and after[0] in words_of("tried_what")
        and not words_of("prepositions") & set(after[1:2])
    )


def elsewhere(line: Line, i: int, j: int) -> bool:
    """Whether the words `i` to `j` tell of another place or time: "years ago", "on the last job", "when my dad bought them", "would have"."""
    words = line.words
    for k, _, end in phrases("elsewhere").all_in(words):
        if i <= k and end <= j and not _in_place(line, end):
            return True
    for k in range(i, j - 1):
        asked = words[k + 1] in ("i", "we", "you", "they") and word_at(words, k + 2) == "have"
        if words[k] in words_of("supposes") and (asked or words[k + 1] in ("have", "'ve", "of")):
            return True
        told_then = words[k] in words_of("when_it_was") and not words_of("was_then").isdisjoint(words[i:k])
        if told_then and (words[k + 1] in ("he", "she", "they") or _doer_in(line, k + 1)):
            return True
    return False


def _doer_in(line: Line, k: int) -> bool:
    """Whether a person is named at word `k`."""
    m = k + (line.words[k] in words_of("whose"))
    m += word_at(line.words, m) in told_of("adjectives")
    return word_at(line.words, m) in people()


@cache
def _said_to_say() -> frozenset[str]:
    return sources() | words_of("written_on")


def source_at(line: Line, k: int) -> int | None:
    """The index of the verb where a plan, sign or book is said to say something ("the book says", "sign on the door said")."""
    words = line.words
    m = k + (words[k] in words_of("whose"))
    m += word_at(words, m) in told_of("adjectives")
    if word_at(words, m) not in _said_to_say() or m in line.places:
        return None
    if k and words[k - 1] in words_of("whose", "prepositions") | {"than", "as", "per"}:
        return None
    for n in range(m + 1, min(m + 7, len(words))):
        if words[n] in words_of("written_says"):
            return n
        told = n + 1
        while word_at(words, told) in ("it", "them", "that", "a", "at", "as", "down"):
            told += 1
        figure = line.figures.get(told)
        has = words[n] in ("has", "had") or (words[n] in ("'s", "is", "was") and words[m] in words_of("written_on"))
        if has and figure is not None and (n == m + 1 or words[m + 1] in words_of("prepositions")):
            return n
        if words[n] in words_of("conjunctions") or n in line.figures:
            return None
    return None


def hurt(line: Line, i: int, j: int) -> bool:
    """Whether a part of the speaker's body is told of: "only dropped one on my foot", "my knees ache"."""
    words = line.words
    return any(
        words[k] == "my"
        and word_at(
            words, k + 1 + (word_at(words, k + 1) in words_of("which_of_them") | {"own", "bad", "good", "poor"})
        )
        in words_of("body")
        for k in range(i, j - 1)
    )


def aside_at(line: Line, k: int) -> int | None:
    """The index after what says nothing of the job at word `k`: a remark, "tried it twice", "at ten past eight", "forty mile an hour"."""
    words = line.words
    found = phrases("remarks").at(words, k) if not k or words[k - 1] not in words_of("whose") else None
    if found is not None and not (words[k] in words_of("prepositions") and _in_place(line, found[1])):
        return found[1]
    if k in line.figures:
        if line.figures[k].kind == "hours" and words[line.figures[k].j : line.figures[k].j + 3] == ["of", "my", "life"]:
            return line.figures[k].j + 3
        miles = line.figures[k].j
        if word_at(words, miles) in ("mile", "miles") and word_at(words, miles + 1) in (
            "an",
            "per",
            "a",
            "away",
            "off",
        ):
            return miles + 3 if word_at(words, miles + 2) == "hour" else miles + 1
    if words[k] in words_of("tried_it") and word_at(words, k + 1) in ("it", "that", "them", "everything"):
        return _times(line, k + 2)
    if words[k] in ("both", "each", "every", "all", "third", "second", "this", "that", "last", "first") and word_at(
        words, k + 1
    ) in ("time", "times"):
        return k + 2 if word_at(words, k - 1) not in words_of("prepositions", "whose") else None
    if (
        word_at(words, k + 1) == "time"
        and word_at(words, k + 2) in words_of("lucky")
        and words[k].endswith(("th", "rd", "nd", "st"))
    ):
        return k + 3
    return _hour_of_day(words, k) if words[k] in _HOUR_LED else None


def _in_place(line: Line, end: int) -> bool:
    """Whether a place goes on over the end of a phrase: "in the dark room"."""
    return any(p.i < end < p.j for p in line.places.values())


def _times(line: Line, k: int) -> int | None:
    """The index after "twice", "three times", "again" at word `k`."""
    words = line.words
    if k in line.figures and word_at(words, line.figures[k].j) == "times":
        return line.figures[k].j + 1
    if word_at(words, k) in ("twice", "thrice", "again", "once"):
        return k + 1 + (word_at(words, k + 1) in ("over", "now", "already", "even"))
    return None


_HOUR_LED = frozenset({"at", "about", "around", "just", "gone"})


def _hour_of_day(words: Sequence[str], k: int) -> int | None:
    """The index after "at about ten past eight", "at twenty to three"; spans of hours keep theirs."""
    m = k
    while word_at(words, m) in _HOUR_LED:
        m += 1
    if m == k or not words_of("spans_of_hours").isdisjoint(words):
        return None
    n = m + 1 + (word_at(words, m) in ("twenty", "a") and word_at(words, m + 1) in ("five", "quarter"))
    if word_at(words, n) not in ("past", "to") or (word_at(words, n) == "to" and words[k] != "at"):
        return None
    minutes = word_at(words, n - 1) in ("five", "ten", "quarter", "twenty", "half")
    return n + 2 if minutes and word_at(words, n + 1) in words_of("hours_of_day") else None
