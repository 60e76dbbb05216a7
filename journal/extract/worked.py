"""Whether a figure without a unit is hours: going on a list of them, said of a day, or after "hours" said first."""

from __future__ import annotations

from fractions import Fraction

from journal.extract import stockwords
from journal.extract.line import Figure
from journal.extract.readings import quantities
from journal.extract.sets import words_of
from journal.extract.stretch import Stretch
from journal.extract.vocabulary import ing_forms, names_work, thing_words
from journal.records import Doubt, Hours


def is_hours(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """Whether a figure without a unit is hours."""
    if figure.kind not in ("number", "length") or figure.value.denominator > 4 or facts.waiting:
        return False
    if isinstance(facts.ctx.facts[-1] if facts.ctx.facts else None, Hours):
        return _goes_on(facts, figure)
    return _said_first(facts, figure) or _is_day_hours(facts, figure, before) or _by_days(facts, figure)


def minutes_go_on(facts: Stretch, figure: Figure) -> bool:
    """ "Three hours ten on the stair and one forty five on the railing": hours and minutes, with a doubt."""
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    if figure.whole is None or figure.second is None or not isinstance(last, Hours) or figure.per or figure.each:
        return False
    minutes = figure.second
    timed = figure.whole <= 12 and minutes.denominator == 1 and minutes % 5 == 0 and 10 <= minutes <= 55
    following = facts.words[figure.j : figure.j + 1]
    joined_on = facts.words[figure.i - 1] in ("and", "then", "plus", "another")
    if not timed or not joined_on or not (following in (["on"], ["in"], ["at"]) or set(following) & set(ing_forms())):
        return False
    figure.value, figure.kind, figure.unit, figure.rule = figure.whole + minutes / 60, "hours", "h", "hours.minutes"
    figure.doubts = [_doubt(facts, figure, f"was read as {figure.whole} h {minutes} min")]
    return True


def _doubt(facts: Stretch, figure: Figure, shown: str) -> Doubt:
    said = facts.ctx.line.said(figure.i, figure.j)
    return Doubt("not said", f"'{said}' {shown}", facts.ctx.span(figure.i, figure.j), level=1)


def _goes_on(facts: Stretch, figure: Figure) -> bool:
    """Whether a bare figure after hours is more of them: the work, a place or nothing after it, or a day before it."""
    words, j = facts.words, figure.j
    following = words[j] if j < facts.clause.j else ""
    if following in ("more", "on") and set(words[j : j + 3]) & set(ing_forms()):
        return True
    if figure.value > 16:
        return False
    lead = words[facts.position : figure.i]
    if {"morning", "afternoon", "evening"} & set(lead) and figure.value <= 12:
        return True
    joined_on = words[figure.i - 1] in ("another", "and", "then", "plus")
    if names_work(following) and (joined_on or following not in thing_words()):
        return True
    if following == "by" or any(facts.position <= k < j + 3 for k in facts.ctx.line.dimensions):
        return False
    if _day_before(facts, figure):
        return not _names_stock(words, j)
    if facts.ctx.work_first and lead and lead[-1] not in words_of("prepositions"):
        return True
    return _joined_on(facts, figure, following)


def _joined_on(facts: Stretch, figure: Figure, following: str) -> bool:
    """ "… and two on wall e", "… and three on the hay rack": a place, or with a doubt what was worked at."""
    words, j = facts.words, figure.j
    if following == "more" and words[j + 1 : j + 2] in (["on"], ["in"], ["at"]):
        j, following = j + 1, words[j + 1]
    told_before = words[figure.i - 2 : figure.i] in (["before", "that"], ["after", "that"], ["after", "lunch"])
    k = j + 1 + (words[j + 1 : j + 2] == ["the"])
    in_place = following in ("on", "in", "at") and k in facts.ctx.line.places
    if words[figure.i - 1] not in ("and", "then", "plus", "another") and not told_before:
        return in_place and figure.i == facts.position  # "four hours in the loft two in the mess"
    if following in ("today", "yesterday", "this", "tonight") or any(d.i == j and d.weekday for d in facts.ctx.dues):
        return figure.value <= 12
    if following == "for" and words[j + 1 : j + 2] and words[j + 1] in ing_forms():
        return True
    if following not in ("on", "in", "at"):
        return False
    if in_place:
        return True
    rest = words[j : facts.clause.j]
    if words[j + 1 : j + 2] not in (["the"], ["my"], ["that"], ["those"]) or set(rest) & words_of("copulas"):
        return False
    later = [f for k, f in facts.figures.items() if k > figure.i]
    chain = all(words[f.i - 1] in ("and", "then", "plus") and words[f.j : f.j + 1] in _LED for f in later)
    if figure.i in facts.ctx.labels or not chain or any(f.unit or f.value > 16 for f in later):
        return False
    figure.doubts.append(_doubt(facts, figure, "was taken for hours, as before it"))
    return True


_LED = (["on"], ["in"], ["at"])


def _names_stock(words: list[str], j: int) -> bool:
    """Whether what is counted stands right after a figure."""
    return stockwords.thing_at(words, j) is not None or stockwords.species().at(words, j) is not None


def is_work(lead: list[str]) -> bool:
    """Whether words begin with the name of work: "and caulking", "cleanup"."""
    passed = words_of("hours_lead") | {"then", "plus", "hours", "week", "tally"}
    first = next((word for word in lead if word not in passed), "")
    return names_work(first) or first in words_of("work_nouns")


def _day_before(facts: Stretch, figure: Figure) -> bool:
    return any(d.weekday and d.j == figure.i for d in facts.ctx.dues)


def _said_first(facts: Stretch, figure: Figure) -> bool:
    """ "Hours this week twelve and a half shingling …", "hours on the granary come to thirty one", "time on the barn nine"."""
    words, i = facts.words, figure.i
    lead = words[facts.clause.i : i]
    if "hours" not in lead and "time" not in lead[:3]:
        return False
    if facts.ctx.facts or figure.value > 99 or any(facts.clause.i <= k < i for k in facts.ctx.line.dimensions):
        return False
    worked = words[figure.j : figure.j + 1]
    if worked and worked[0] in ing_forms() and worked[0] not in thing_words() and figure.value <= 16:
        return True
    if worked == ["by"] or set(lead) & words_of("no_hours_lead") or any(word in quantities() for word in lead):
        return False
    if "time" in lead and not ({"hours", "week", "today", "far"} & set(lead) or _day_before(facts, figure)):
        return False
    return not _names_stock(words, figure.j)


def _by_days(facts: Stretch, figure: Figure) -> bool:
    """ "Monday eight tuesday seven and a half": two days at least, each with a small figure; it carries a doubt."""
    if not _day_before(facts, figure) or figure.value > 14 or facts.ctx.facts:
        return False
    words = facts.words
    following = next((f for f in facts.figures.values() if f.i > figure.i), None)
    if (
        following is None
        or not _day_before(facts, following)
        or following.value > 14
        or following.unit not in ("", "h")
    ):
        return False
    between = [d.i for d in facts.ctx.dues if d.j == following.i]
    if any(word not in ("and", "then", "hours", "on", "the") for word in words[figure.j : between[0]]):
        return False
    figure.doubts.append(_doubt(facts, figure, "was taken for hours, which were not said"))
    return True


def _is_day_hours(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Friday was six and a half", "yesterday on the lake gable was five": a day, "was" and a small figure."""
    if not before or before[-1] not in ("was", "were", "'s", "be") or figure.value > 16 or facts.ctx.facts:
        return False
    start = facts.clause.i
    dated = (
        any(d.weekday and start <= d.i < figure.i for d in facts.ctx.dues)
        or "yesterday" in facts.words[start : figure.i]
    )
    return dated and not any(start <= i < figure.i for i in facts.ctx.line.dimensions)


def work_comes_first(words: list[str], left: int, figure: Figure, following: Figure | None) -> bool:
    """ "Chinking four hours caulking two": the work stands before its hours, and the next work follows."""
    led = "hours" in words[left : figure.i]
    if not (led or is_work(words[left : figure.i])) or following is None or following.unit not in ("", "h"):
        return False
    if following.kind not in ("number", "length", "hours") or following.value > Fraction(16):
        return False
    between = words[figure.j : following.i]
    if not between or len(between) > 6 or (between[0] in ("on", "in", "at", "for", "and") and not is_work(between)):
        return False
    return is_work(between) if is_work(words[left : figure.i]) else between[0] not in ing_forms()
