"""Whether a figure counts material, and what happened to what it counts."""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.dimensions import other_words
from journal.extract.line import Figure
from journal.extract.lot import Lot
from journal.extract.lots import read_lot
from journal.extract.sets import words_of
from journal.extract.stock import lot_event
from journal.extract.stockwords import event_at
from journal.extract.stretch import Stretch
from journal.records import Cost, Stock


def counted_event(facts: Stretch, figure: Figure) -> str | None:
    """The event of a count, "" where that of the list goes on, None where the figure counts no material."""
    if not _can_count(facts, figure):
        return None
    lot = read_lot(facts.ctx, figure.i, facts.clause.j)
    if lot is None:
        return None
    if not lot.named() and facts.going.event == "need" and facts.words[figure.j : figure.j + 1] == ["for"]:
        return None  # "they want six hundred for a door"
    if _leads_the_list(facts, figure):
        if not lot.named() and not facts.going.what and not facts.going.name and _only_got(facts, figure):
            return None  # "i got ninety then ninety one", "dropped one on my foot"
        event = lot_event(facts.ctx, lot, facts.clause.j)
        return event[0] if event is not None and event[0] == "left over" and facts.going.event == "have" else ""
    if _taken_at_a_price(facts, figure):
        return "received"
    return _named(facts, figure, lot) if lot.named() else _bare(facts, figure)


def _can_count(facts: Stretch, figure: Figure) -> bool:
    """Whether a figure of this kind, with what stands right after it, can be a count at all."""
    if figure.shade is not None:
        return False  # "pile three a strong ten and seven eighths"
    words, after = facts.words, facts.words[figure.j : figure.j + 1]
    if "between" in words[max(0, figure.i - 2) : figure.i]:
        return False  # "between the two windows": a pair that is measured between
    by_the_foot = figure.unit == "ft" and after == ["of"]
    if by_the_foot and (figure.j + 1 in facts.ctx.line.dimensions or words[figure.j + 1] in other_words()):
        return False  # "nineteen foot of clear span", "seven foot of headroom"
    if figure.kind not in ("number", "section", "board feet", "length") or not (
        figure.unit in ("", "bf") or by_the_foot
    ):
        return False
    if figure.kind == "length" and figure.whole is None and not by_the_foot:
        held = stockwords.singular_at(words, figure.j)
        if not facts.in_stock or held not in stockwords.containers() or "of" in words[figure.i - 1 : figure.i]:
            return False
    if after == ["by"] or figure.value.denominator > 4 or figure.shade is not None:
        return False
    d = facts.ctx.line.dimensions.get(figure.j)
    return d is None or not d.adjective or d.words == "long"


def is_an_area(facts: Stretch, figure: Figure) -> bool:
    """ "A hundred and ten square foot in the mud room": how much there is to cover, and no material."""
    words, j = facts.words, figure.j
    area = words[j : j + 2] in (["square", "foot"], ["square", "feet"], ["square", "yards"])
    return area and words[j + 2 : j + 3] != ["of"] and not facts.in_stock


def _leads_the_list(facts: Stretch, figure: Figure) -> bool:
    """Whether a count stands right after the event that its clause opens with."""
    clause = facts.clause
    after_event = clause.verb < figure.i <= clause.verb + 4
    return facts.in_stock and clause.opener == "stock" and after_event and figure.kind != "length"


def _only_got(facts: Stretch, figure: Figure) -> bool:
    """Whether a verb that says many things stands before a bare number, and nothing of its size or rest behind it."""
    after = facts.words[figure.j : figure.j + 1]
    verb = facts.words[facts.clause.verb] if facts.clause.verb >= 0 else ""
    return verb in ("got", "dropped", "have", "had", "'ve", "has") and after not in (["at"], ["left"], ["more"], ["of"])


def _taken_at_a_price(facts: Stretch, figure: Figure) -> bool:
    """ "… a sheet for the backer board i took fourteen": what was priced was bought, the thing is not said again."""
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    if not isinstance(last, Cost) or last.per == "total" or figure.kind == "length" or facts.waiting:
        return False
    before = facts.words[max(facts.position - 1, figure.i - 3) : figure.i]
    taken = words_of("bought_verbs") & set(before) and {"i", "we"} & set(before)
    return bool(taken) and not any(figure.j <= k <= figure.j + 1 for k in facts.ctx.line.dimensions)


def _bare(facts: Stretch, figure: Figure) -> str | None:
    """The event of a number with no thing after it: "stacked five", "two left over"."""
    words = facts.words
    if facts.in_stock and facts.going.what and words[figure.j + 1 : figure.j + 2] == ["ones"]:
        lot = read_lot(facts.ctx, figure.i, facts.clause.j)
        found = lot_event(facts.ctx, lot, facts.clause.j) if lot is not None else None
        return found[0] if found is not None else "have"
    k = figure.j
    while k < facts.clause.j and words[k] in ("are", "is", "still", "all", "were") and facts.in_stock:
        k += 1
    event = event_at(words, k) if k < facts.clause.j else None
    if event is not None and event[0] == "left over" and k > figure.j:
        return event[0]
    if event is None and words[figure.j : figure.j + 1] and words[figure.j] in words_of("copulas"):
        return None  # "… came four were chipped"
    thing = words[figure.i - 1] if figure.i else ""
    if event is not None and not facts.in_stock and thing.endswith("s") and thing in stockwords.singulars():
        return event[0]  # "coping stones nineteen came"
    if event is not None and (facts.in_stock or words[figure.j : event[1]] == ["left", "over"]):
        return event[0] if not stockwords.counted_at(facts.ctx.line, event[1]) or event[0] == "left over" else ""
    return "" if facts.in_stock and figure.kind == "number" and _bare_count(facts, figure) else None


def _named(facts: Stretch, figure: Figure, lot: Lot) -> str | None:
    """The event of a count whose thing is named: said after it, going on, or that it is there."""
    words, measured = facts.words, _measured(facts, figure)
    event = lot_event(facts.ctx, lot, facts.clause.j)
    if event is not None and not measured:
        return event[0]
    if _finishes(facts, figure, lot) and not measured:
        return "need"
    if facts.in_stock and (figure.kind != "length" or lot.what):
        return None if measured else ""
    before = words[max(0, figure.i - 3) : figure.i]
    if before[-2:] in (["there", "'s"], ["there", "are"], ["there", "is"]) and not measured:
        return "have"
    if before[-2:] in (["we", "'ve"], ["i", "'ve"]):
        return "have"
    definite = words_of("definite") & set(before[-2:])
    if lot.place is not None and lot.what and not facts.waiting and not measured and not definite:
        return "have"
    return "have" if figure.kind == "board feet" else None


def _finishes(facts: Stretch, figure: Figure, lot: Lot) -> bool:
    """ "Four more sheets and we're done": what is still wanting is needed."""
    words = facts.words
    if words[figure.j : figure.j + 1] != ["more"] and words[figure.i - 1 : figure.i] != ["another"]:
        return False
    rest = words[lot.j : lot.j + 7]
    joined_on = rest[:1] in (["and"], ["then"], ["will"], ["should"], ["ought"], ["'ll"])
    return joined_on and bool(words_of("finished_words") & set(rest))


def _measured(facts: Stretch, figure: Figure) -> bool:
    """Whether a dimension before it shows the figure to be a measure."""
    if figure.kind in ("section", "board feet"):
        return False
    start = max([facts.position, *(f.j + 1 for f in facts.waiting)])
    return any(start <= i < figure.i for i in facts.ctx.line.dimensions)


def _bare_count(facts: Stretch, figure: Figure) -> bool:
    """Whether a number without a thing counts on ("stacked five"): an event stands right before it."""
    k = figure.i - 1
    while k >= facts.clause.i and facts.words[k] in words_of("before_count"):
        k -= 1
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    if isinstance(last, Stock) and facts.words[figure.j : figure.j + 1] in (["more"], ["extra"], ["others"]):
        return figure.value.denominator == 1 and facts.words[figure.j + 1 : figure.j + 2] != ["than"]
    length = facts.figures.get(figure.j + 1)
    rest = facts.words[figure.j : figure.j + 2]
    joined_on = facts.words[figure.i - 1] in ("and", "plus", "then") and figure.value.denominator == 1
    if (
        isinstance(last, Stock)
        and joined_on
        and rest[:1] in (["for"], ["on"], ["in"])
        and rest[1:] in (["the"], ["my"])
    ):
        return True  # "six boards for the porch and four for the loft"
    cut = isinstance(last, Stock) and last.event == "cut" and length is not None and length.kind == "number"
    feet = length is not None and length.kind == "number" and not length.unit and 4 <= length.value <= 24
    if (
        isinstance(last, Stock)
        and last.length_ticks
        and length is not None
        and (length.kind == "length" or cut or feet)
    ):
        return facts.words[figure.j] in ("at", "to")
    events = (event_at(facts.words, s) for s in range(max(facts.clause.i, k - 2), k + 1))
    return any(event is not None and event[1] == k + 1 for event in events)
