"""Figures said in passing: so many days, men or miles, a time of day, what a meter ought to read, what is not paid."""

from __future__ import annotations

from itertools import pairwise

from journal.extract.line import Figure
from journal.extract.readings import quantities
from journal.extract.sets import words_of
from journal.extract.stockwords import names_stock
from journal.extract.stretch import Stretch
from journal.extract.unitwords import figure_phrases
from journal.extract.vocabulary import function_words, thing_words
from journal.extract.voices import people
from journal.records import Cost, Stock


def is_in_passing(facts: Stretch, figure: Figure) -> bool:
    """Whether a figure is none of those that the journal keeps."""
    if _is_long_ago(facts, figure) or _is_clock_or_year(facts, figure) or _would_be(facts, figure):
        return True
    if figure.kind in ("percent", "degrees"):
        return _ought_to_read(facts, figure) or _changes_by(facts, figure)
    if _is_time_of_day(facts, figure):
        return True
    if figure.kind == "money" or figure.per:
        return _is_not_paid(facts, figure)
    if _is_called_up(facts.words, figure):
        return True
    if figure.kind not in ("number", "length") or figure.unit:
        return False
    if _is_thought_of(facts, figure) or _is_a_part(facts, figure) or _is_a_purpose(facts, figure):
        return True
    near = facts.words[max(0, figure.i - 6) : figure.i]
    if not words_of("other_gauges").isdisjoint(near) and words_of("other_gauges") & _named(facts, figure, 6):
        return True
    if figure.value >= 100 and _comes_in(facts, figure):
        return True
    return _counts_in_passing(facts, figure) or _ought_to_read(facts, figure)


def _is_long_ago(facts: Stretch, figure: Figure) -> bool:
    """ "Back in the day a board was ten cents": a story's figure, unless "now" leads back from it."""
    line = facts.ctx.line
    at = [(i, j) for i, _, j in figure_phrases("long_ago", "phrases").all_in(line.words)]
    if not at:
        return False
    before = [j for i, j in at if facts.clause.i <= i < figure.i]
    if before:
        return words_of("nowadays").isdisjoint(line.words[before[-1] : figure.i])
    end = min([k for k in facts.figures if k >= figure.j] + [facts.clause.j])
    return any(
        figure.j <= i < end and i - figure.j <= 6 and words_of("conjunctions").isdisjoint(line.words[figure.j : i])
        for i, _ in at
    )


def _is_clock_or_year(facts: Stretch, figure: Figure) -> bool:
    """ "Ten past eight", "twenty to three", "since four", "by three o'clock", "measured it in ninety four", "troop nine"."""
    words, i, j = facts.words, figure.i, figure.j
    if figure.kind != "number" or figure.unit or figure.per:
        return False
    led, following = words[i - 1] if i else "", words[j : j + 1]
    if words[i:j] == ["one"] and led == "the" and following and _points_out(words, j):
        return True  # "the one on the mill over the hill"
    if led == "to" and i > 1 and words[i - 2] in ("been", "gone", "went") and following != ["foot"]:
        return True  # "he'd been to three wrong mills"
    hour = facts.figures.get(j + 1)
    small = hour is not None and hour.kind == "number" and hour.value <= 12 and not hour.unit
    if following == ["o'clock"] or (following == ["past"] and small and figure.value < 60):
        return True
    if (led in ("past", "to") and i > 1 and words[i - 2] in ("quarter", "half")) or (
        led == "past" and figure.value <= 12
    ):
        return words[i - 2] in ("quarter", "half") or facts.ctx.line.figure_over(i - 2) is not None
    if led == "to" and figure.value <= 12 and (before := facts.ctx.line.figure_over(i - 2)) is not None:
        return before.kind == "number" and words[before.i - 1] in ("at", "about", "till", "until", "since")
    if (
        following == ["to"]
        and small
        and led in ("at", "about", "till", "until", "since")
        and figure.value in (5, 10, 20, 25)
    ):
        return words[hour.j : hour.j + 1] not in (["is"], ["by"]) if hour is not None else False
    if led == "since" and figure.value <= 12:
        return True
    told = bool(words_of("dated") & set(words[max(facts.clause.i, i - 5) : i - 1]))
    return led == "in" and told and 20 <= figure.value < 100 and j not in facts.ctx.line.dimensions


def _after_a_cost(facts: Stretch) -> bool:
    return bool(facts.ctx.facts) and isinstance(facts.ctx.facts[-1], Cost)


def _points_out(words: list[str], j: int) -> bool:
    """Whether a phrase behind "the one" says which is meant: "the one on the mill", "the one by the door"."""
    return words[j] in words_of("prepositions") and (
        words[j] != "by" or words[j + 1 : j + 2] in (["the"], ["my"], ["our"])
    )


def _would_be(facts: Stretch, figure: Figure) -> bool:
    """ "I'd have said twenty four", "six twelve would've shed the leaves better": what might have been."""
    words = facts.words
    if words[figure.j : figure.j + 1] and words[figure.j] in words_of("would") and figure.kind != "money":
        return True
    if words_of("would").isdisjoint(words[max(0, figure.i - 7) : figure.i]):
        return False
    said = _segment(facts, figure, 7)
    return any(one in words_of("would") and two in ("have", "'ve") for one, two in pairwise(said))


def _segment(facts: Stretch, figure: Figure, most: int, *, first: int | None = None) -> list[str]:
    """The words before a figure, back to the conjunction or figure before it."""
    words, k = facts.words, figure.i
    first = max(facts.position, facts.clause.i, figure.i - most) if first is None else max(first, figure.i - most)
    while k > first and words[k - 1] not in words_of("conjunctions"):
        k -= 1
    return words[k : figure.i]


def _named(facts: Stretch, figure: Figure, most: int) -> set[str]:
    """The words of the segment that are no part of a place: the radio of "radio room" tells no weather."""
    start = figure.i - len(_segment(facts, figure, most))
    places = facts.ctx.line.places.values()
    return {facts.words[k] for k in range(start, figure.i) if not any(p.i <= k < p.j for p in places)}


def _counts_in_passing(facts: Stretch, figure: Figure) -> bool:
    """ "Three days behind", "four fellows helping", "nine times out of ten", "ten miles to the gallon"."""
    words, k = facts.words, figure.j
    if words[k : k + 1] == ["the"] and k + 1 in facts.ctx.line.places and figure.i not in facts.ctx.labels:
        return facts.in_stock  # "tubes of glue four the dining room"
    while k < facts.clause.j and words[k] in words_of("before_passing"):
        k += 1
    if k < facts.clause.j and ((words[k] in people() and figure.value > 1) or words[k] in words_of("limbs")):
        return True
    if k < facts.clause.j and words[k] in words_of("counted_in_passing"):
        return words[k + 1 : k + 2] != ["of"] or words[k] not in ("loads", "trips")
    if _no_material_at(facts, k):
        return True
    if k < facts.clause.j and words[k] in words_of("weights"):
        return bool(words_of("weighs") & set(_segment(facts, figure, 6)))
    if words[figure.i - 1 : figure.i] == ["all"] and figure.j >= facts.clause.j and not facts.in_stock:
        return True  # "i can go down again all hundred and twenty"
    if words[max(0, figure.i - 2) : figure.i] == ["for", "the"] and _after_a_cost(facts):
        return words[figure.j : figure.j + 1] in ([], ["and"], ["so"], ["but"])  # "forty seven dollars for the four"
    of_ten = words[figure.j : figure.j + 2] == ["out", "of"] and figure.j + 2 in facts.figures
    return of_ten or words[max(0, figure.i - 2) : figure.i] in (["out", "of"], ["all", "but"])


def _no_material_at(facts: Stretch, k: int) -> bool:
    """Whether what nobody builds with is counted at word `k`, one word of any sort before it: "two pork pies", "fifty scouts"."""
    words = facts.words
    nouns = words_of("no_material", "persons")
    if k < facts.clause.j and words[k] in nouns:
        return words[k + 1 : k + 2] != ["'s"] and not names_stock(words, k + 1)
    plain = k + 1 < facts.clause.j and words[k] not in function_words() and k not in facts.ctx.line.dimensions
    return plain and words[k] not in thing_words() and words[k + 1] in nouns and words[k + 1].endswith("s")


def _is_thought_of(facts: Stretch, figure: Figure) -> bool:
    """ "I thought we had ten sheets", "we don't have twelve boards": material that is not there."""
    said = _segment(facts, figure, 7, first=0)
    if "'ve" in said and {"could", "should", "would", "might"} & set(said):
        return True  # "could've used six more boards"
    if not names_stock(facts.words, figure.j):
        return False
    if {"only", "but", "than"} & set(said) or "forget" in said:
        return False
    if facts.words[0] in ("did", "do", "does") or facts.words[:2] in (["how", "many"], ["how", "much"]):
        return True
    denied = any(word.endswith("n't") and word not in ("wasn't", "isn't") for word in said)
    return denied or bool(words_of("only_thought") & set(said))


def _is_a_purpose(facts: Stretch, figure: Figure) -> bool:
    """ "Ten hinges for two doors": what material is for is no more material."""
    words = facts.words
    k = figure.i - 1 - (words[figure.i - 1] in ("the", "those", "these"))
    if k < 1 or words[k] not in ("for", "around") or not any(isinstance(fact, Stock) for fact in facts.ctx.facts[-1:]):
        return False
    return facts.in_stock and figure.value.denominator == 1 and names_stock(words, figure.j)


def _is_a_part(facts: Stretch, figure: Figure) -> bool:
    """ "The old barn had forty windows", "each door has three hinges": parts of a thing, and no material."""
    words, k = facts.words, figure.i - 1
    while k > 0 and words[k] in words_of("before_count"):
        k -= 1
    if any(isinstance(fact, Stock) for fact in facts.ctx.facts):
        return False
    if k <= 0 or words[k] not in words_of("has_parts") or not names_stock(words, figure.j):
        return False
    owner, line = words[k - 1], facts.ctx.line
    if owner in words_of("holders") or any(
        place.j == k and words[place.j - 1] in words_of("holders") for place in line.places.values()
    ):
        return False
    placed = any(place.j == k for place in line.places.values())
    return (placed or owner in thing_words() or owner in ("each", "it", "every")) and words[figure.j :][-1:] != ["left"]


def _is_time_of_day(facts: Stretch, figure: Figure) -> bool:
    """ "The inspector comes at nine", "call me at five", "back by three"."""
    words = facts.words
    if figure.i == 0 or words[figure.i - 1] not in ("at", "by", "till", "until", "around"):
        return False
    struck = figure.kind == "number" and figure.value <= 12
    past = (figure.whole or 99) <= 12 and figure.second in (10, 15, 20, 30, 40, 45, 50) and not figure.per
    if not struck and not past:
        return False
    after = words[figure.j : figure.j + 1]
    ends = not after or after[0] in words_of("after_time") or any(d.i == figure.j for d in facts.ctx.dues)
    said = _segment(facts, figure, 7)
    if not ends or any(facts.position <= k < figure.i for k in facts.ctx.line.dimensions):
        return False
    return bool(words_of("at_a_time") & set(said))


def _ought_to_read(facts: Stretch, figure: Figure) -> bool:
    """ "Has to be under fifteen percent", "glue needs fifty degrees", "the book says twelve percent"."""
    if figure.kind not in ("percent", "degrees"):
        said = _segment(facts, figure, 7)
        if not any(word in quantities() for word in said):
            return False
    else:
        said = _segment(facts, figure, 7)
    beside = set(said[-2:]) & words_of("limits")
    return bool(beside) or bool(words_of("ought") & _named(facts, figure, 7)) or said[-1:] in (["like"], ["say"])


def _changes_by(facts: Stretch, figure: Figure) -> bool:
    """ "Up thirty percent since spring", "ninety degrees tomorrow": a change, or what is yet to come."""
    words = facts.words
    end = next((k for k in range(figure.j, facts.clause.j) if words[k] in words_of("conjunctions")), facts.clause.j)
    return (figure.i > 0 and words[figure.i - 1] in ("up", "down", "by")) or "tomorrow" in words[figure.j : end]


def _is_called_up(words: list[str], figure: Figure) -> bool:
    """The number of a telephone: digit after digit."""
    i, j = figure.i, figure.j
    while i > 0 and words[i - 1] in _DIGITS:
        i -= 1
    while j < len(words) and words[j] in _DIGITS:
        j += 1
    return j - i >= 5 and all(word in _DIGITS for word in words[i:j])


_DIGITS = frozenset(["oh", "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"])


def _comes_in(facts: Stretch, figure: Figure) -> bool:
    """ "The client paid me twelve hundred", "my estimate was four thousand", "six hundred over budget"."""
    said = _segment(facts, figure, 7)
    to_me = any(one in ("paid", "owes", "pays", "gave", "owed") and two in ("me", "us") for one, two in pairwise(said))
    cheque = {"cheque", "check", "payment"} & set(said) and {"came", "come", "cleared", "got"} & set(said)
    over = facts.words[figure.j : figure.j + 2] in (["over", "budget"], ["under", "budget"])
    by_others = {"paid", "cost"} & set(said) and words_of("unpaid") & set(said)
    return bool(by_others or to_me or cheque or over or words_of("comes_in") & set(said))


def _is_not_paid(facts: Stretch, figure: Figure) -> bool:
    """ "I wouldn't pay forty dollars for that", "if it's over two hundred dollars forget it"."""
    said = _segment(facts, figure, 7)
    after = facts.words[figure.j : figure.j + 1]
    if words_of("unpaid") & set(said) or (after and after[0] in words_of("unpaid_after")):
        return True
    if _comes_in(facts, figure):
        return True
    denied = any(word.endswith("n't") for word in said) or bool({"never", "if", "unless"} & set(said))
    return denied and not {"wasn't", "isn't"} & set(said)
