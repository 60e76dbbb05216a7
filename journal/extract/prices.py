"""Whether a plain number is money: said with a price word, paid to somebody, or going on a list of prices."""

from __future__ import annotations

from fractions import Fraction

from journal.extract import stockwords
from journal.extract.line import Figure
from journal.extract.sets import words_of
from journal.extract.stretch import Stretch
from journal.extract.vocabulary import function_words, thing_words
from journal.records import Cost, Doubt, Measure, Stock


def is_cost(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """Whether a number without a unit is an amount of money."""
    if before[-1:] == ["for"] and figure.kind == "number" and stockwords.thing_at(facts.words, figure.j) is not None:
        return False  # "paid for two pounds of nails"
    if facts.words[figure.j : figure.j + 1] == ["by"] and figure.j + 1 in facts.figures:
        return False
    if before[-1:] == ["at"] and figure.kind == "number" and _at_a_price(facts, figure):
        return True
    if figure.each and _each_is_money(facts, before):
        return True
    if pair_goes_on(facts, figure):
        return True
    if _dimension_near(facts, figure):
        return False
    if set(before) & words_of("cost_cues") or _paid(facts, figure, before) or _money_noun(facts, figure, before):
        return True
    return (
        _is_no_length(facts, figure, before)
        or _goes_on(facts, figure, before)
        or _bought(facts, figure, before)
        or _leads_to_price(facts, figure, before)
    )


def by_the_board_foot(facts: Stretch, figure: Figure) -> bool:
    """ "A hundred and twenty board feet of cherry at seven ten": what lumber by the board foot is at is the price of one."""
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    lumber = isinstance(last, Stock) and last.board_feet is not None and facts.words[figure.i - 1] == "at"
    if (
        not lumber
        or (figure.unit and figure.rule != "figure.bare_feet")
        or figure.kind not in ("number", "length")
        or facts.position < figure.i - 1
    ):
        return False
    figure.per = "board foot"
    return True


def _at_a_price(facts: Stretch, figure: Figure) -> bool:
    """ "A box of spikes at thirty one": a container right before, that has no length; of several it is the price of each."""
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    held = isinstance(last, Stock) and (last.what or "").split()[:1]
    if not held or held[0] not in words_of("held_in") or facts.position < figure.i - 1:
        return False
    figure.each = figure.each or (isinstance(last, Stock) and (last.count or 0) > 1)
    return True


def _each_is_money(facts: Stretch, before: list[str]) -> bool:
    if not any(word in ("wide", "long", "at", "to", "are", "is") for word in before):
        return True
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    return isinstance(last, Stock) and last.event in ("received", "ordered", "have", "need", "used")


def pair_goes_on(facts: Stretch, figure: Figure) -> bool:
    """ "… and the oak's two eighty five", after a price."""
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    if not isinstance(last, Cost) or facts.waiting:
        return False
    if figure.rule not in ("figure.hundreds", "figure.bare_feet", "figure.cents"):
        return False
    whole = figure.second is None or figure.second.denominator == 1
    return whole and not _dimension_near(facts, figure)


def _dimension_near(facts: Stretch, figure: Figure) -> bool:
    return any(facts.position <= i <= figure.j for i in facts.ctx.line.dimensions)


def _paid(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Gave the plumber a hundred and fifty", "set me back ninety", "it came to eleven hundred"."""
    following = facts.words[figure.j] if figure.j < facts.clause.j else ""
    if figure.kind != "number" and not figure.second:
        return False
    if before[-2:] in (["set", "me"], ["me", "back"], ["us", "back"]):
        return True
    if ("came" in before and "to" in before) or before[-2:] in (["ran", "me"], ["ran", "us"], ["cost", "me"]):
        return True
    if before[-1:] == ["spent"] and following in ("on", "for", "at") and figure.value > 24:
        return True
    if stockwords.names_stock(facts.words[: facts.clause.j], figure.j) and following not in ("for", "cash"):
        return False
    if following in words_of("money_words"):
        return True
    paying = set(before) & words_of("pay_verbs")
    if "give" in paying and "take" in before:
        paying -= {"give"}  # "give or take and the slab sits …"
    if paying == {"wants"} and _thing_wants(facts, figure, before, following):
        return False
    return bool(paying) and figure.value >= 5 and following not in ("by", "more", "of")


def _thing_wants(facts: Stretch, figure: Figure, before: list[str], following: str) -> bool:
    """ "The door wants thirty four clear", "wants to be fifty four off the hearth": things want no money."""
    at = figure.i - before[::-1].index("wants") - 1
    subject = facts.words[at - 1] if at else ""
    if following == "for":
        return False
    if any(word in thing_words() for word in facts.words[at + 1 : figure.i]):
        return True
    if facts.words[at + 1] == "to" or following in words_of("figure_adjectives"):
        return True
    return subject in thing_words() or any(p.j == at for p in facts.ctx.line.places.values())


def _money_noun(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "The dump run was sixty five", "gas was fifty two": what can only cost something."""
    said = before[-1:] and before[-1] in ("was", "were", "is", "'s", "ran", "be", "another", "about", "around", "total")
    placed = {k for place in facts.ctx.line.places.values() for k in range(place.i, place.j)}  # "crane hut hatch is …"
    subject = [facts.words[k] for k in range(max(facts.position, figure.i - 5), figure.i) if k not in placed]
    following = facts.words[figure.j] if figure.j < facts.clause.j else ""
    right_after = before[-1:] and before[-1] in words_of("money_nouns") and figure.value >= 5 and following != "by"
    named = bool(words_of("money_nouns") & set(subject))
    return figure.kind == "number" and named and following != "by" and bool(said or right_after)


def _goes_on(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "… and the latch was twenty two", "plus sixty for the boom", after a price; a bare one carries a doubt."""
    costs = [fact for fact in facts.ctx.facts if isinstance(fact, Cost)]
    following = facts.words[figure.j] if figure.j < facts.clause.j else ""
    if not costs or facts.waiting or following == "by":
        return False
    last = facts.ctx.facts[-1]
    if before[-1:] == ["for"] and figure.kind == "number" and figure.value >= 5 and following in ("", "and", "plus"):
        return len(before) > 2
    copula = before[-1:] in (["was"], ["were"], ["is"], ["'s"], ["are"], ["another"], ["plus"])
    if isinstance(last, Cost) and (following in words_of("cost_cues") or following == "for" or copula):
        return True
    if any(isinstance(fact, Measure) for fact in facts.ctx.facts) or figure.kind != "number":
        return False
    if copula and (following == "for" or not stockwords.names_stock(facts.words[: facts.clause.j], figure.j)):
        return True
    named = any(len(word) > 2 and word not in ("and", "the", "took", "got") for word in before)
    of_one = isinstance(last, Cost) and (last.per in ("total", "each") or last.per in stockwords.containers())
    if of_one and named and following in ("", "and", "plus", "then"):
        if facts.in_stock:
            return False
        said = facts.ctx.line.said(figure.i, figure.j)
        figure.doubts.append(
            Doubt("not said", f"'{said}' was taken for dollars", facts.ctx.span(figure.i, figure.j), level=1)
        )
        return True
    return False


def _bought(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Eleven eighty for the lot", "one forty for delivery": an amount, then "for" and what only money is given for."""
    after = facts.words[figure.j : figure.j + 4]
    named = set(before[:-1]) & words_of("bought_verbs") and after[:1] in ([], ["and"], ["plus"], ["then"])
    if before[-1:] == ["for"] and named and figure.kind == "number" and figure.value >= 2:
        return True  # "bought the rails for thirty"
    return after[:1] == ["for"] and bool((words_of("cost_cues", "for_all_of_it")) & set(after))


def _is_no_length(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Box of brads seven forty nine": no length goes to hundreds of inches; it carries a doubt."""
    if figure.rule != "figure.hundreds" or (figure.whole or 0) < 5 or (figure.second or 0) < 10 or facts.waiting:
        return False
    named = [word for word in before if word not in function_words()]
    walls = any(k in facts.ctx.line.places for k in range(facts.clause.i, figure.i))
    if not named or walls or facts.words[figure.j : figure.j + 1] == ["by"]:
        return False
    shown = f"'{facts.ctx.line.said(figure.i, figure.j)}' was taken for dollars and cents"
    figure.doubts.append(Doubt("not said", shown, facts.ctx.span(figure.i, figure.j), level=1))
    figure.rule, figure.value = "figure.cents", Fraction(figure.whole or 0) + Fraction(figure.second or 0) / 100
    return True


def _leads_to_price(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "The slab was four hundred and sixty and the hinges were forty dollars": more than a tape reads, and money next."""
    if figure.kind != "number" or figure.value < 100 or before[-1:] not in (["was"], ["were"], ["is"], ["'s"], ["ran"]):
        return False
    following = next((f for k, f in sorted(facts.figures.items()) if k >= figure.j), None)
    if (
        following is None
        or facts.waiting
        or facts.words[figure.j : figure.j + 1] not in (["and"], ["plus"], ["then"], ["the"])
    ):
        return False
    between = set(facts.words[figure.j : following.i])
    if not (
        following.kind == "money"
        or following.per
        or following.each
        or between & (words_of("pay_verbs", "money_nouns", "cost_cues"))
    ):
        return False
    said = facts.ctx.line.said(figure.i, figure.j)
    figure.doubts.append(
        Doubt("not said", f"'{said}' was taken for dollars", facts.ctx.span(figure.i, figure.j), level=1)
    )
    return True
