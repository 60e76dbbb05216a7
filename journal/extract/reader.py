"""Reads a line clause by clause and hands each figure to the rules of its kind. Overlaps are settled here.

A clause that says a task is read whole by tasks.py. In the rest every figure has one owner: per cent and degrees are
readings, hours are hours, money is a cost, "six twelve" is a slope; a plain number is stock where something is counted
with an event, money beside a price word, else a measure.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.extract import stockwords
from journal.extract.clauses import find_clauses
from journal.extract.context import Context
from journal.extract.costs import cost
from journal.extract.halfsaid import half_said, half_said_last
from journal.extract.hours import hours
from journal.extract.line import Figure
from journal.extract.measures import measure
from journal.extract.readings import quantities, reading
from journal.extract.sets import words_of
from journal.extract.slopes import slope
from journal.extract.stock import Going, add_lot, length_after, lot_event, read_lot, species_for_all
from journal.extract.stockwords import event_at
from journal.extract.tasks import done_stock, task
from journal.extract.things import thing
from journal.extract.utterance import TASKS, Clause
from journal.extract.vocabulary import ing_forms, thing_words
from journal.records import Cost, Hours, Measure, Reading, Stock, StockEvent


def read(ctx: Context) -> None:
    """Adds every fact of the line to the context."""
    going = Going()
    for clause in find_clauses(ctx.line, ctx.dues):
        if clause.opener in TASKS:
            task(ctx, clause)
            going = Going()
        else:
            _Facts(ctx, clause, going).read()
            done_stock(ctx, clause)


class _Facts:
    """Walks a clause of facts from figure to figure; `position` is where the words not yet used begin."""

    __slots__ = ("clause", "ctx", "figures", "going", "in_stock", "position", "waiting", "words")

    def __init__(self, ctx: Context, clause: Clause, going: Going) -> None:
        self.ctx, self.clause, self.going = ctx, clause, going
        self.words = ctx.line.words
        self.figures = {f.i: f for f in ctx.figures_between(clause.i, clause.j)}
        self.position = clause.i
        self.waiting: list[Figure] = []
        self.in_stock = clause.opener == "stock"

    def read(self) -> None:
        clause, ctx = self.clause, self.ctx
        if self.in_stock:
            self.going.event = self._event_named(clause.verb)
            named, _ = thing(ctx, clause.i, clause.verb)
            self.going.name = named or self.going.name
        elif not self.figures:
            self.going.name, _ = thing(ctx, clause.i, clause.j)
            half_said(ctx, clause.i, clause.j)
        k = clause.i
        while k < clause.j:
            figure = self.figures.get(k)
            if figure is not None:
                k = self._figure(figure)
                continue
            after = self._stock_word(k) or species_for_all(ctx, k)
            if after is not None:
                k = self.position = after
            else:
                k += 1
        if self.figures:
            half_said_last(ctx, max(f.j for f in self.figures.values()), clause.j)
        if self.waiting:
            measure(ctx, self.waiting, self.position, clause.j)
        elif (place := ctx.place_between(self.position, clause.j)) is not None:
            ctx.place = place
        self._place_for_all()

    def _place_for_all(self) -> None:
        """ "… all on wall c" at the end: the place of every measure of the memo that has none."""
        i = next(
            (
                k
                for k in range(self.clause.j - 1, self.clause.i, -1)
                if self.words[k] == "all" and k + 1 < self.clause.j
            ),
            None,
        )
        place = self.ctx.place_between(i, self.clause.j) if i is not None else None
        if place is None:
            return
        for n, fact in enumerate(self.ctx.facts):
            if isinstance(fact, Measure) and fact.place is None:
                self.ctx.facts[n] = replace(fact, place=place)

    def _event_named(self, i: int) -> StockEvent | None:
        """The event at word `i`; "got forty sheets" are received, "we've got forty sheets" are there."""
        found = event_at(self.words, i)
        if found is None:
            return None
        if self.words[i] == "got" and found[1] == i + 1 and (i == 0 or self.words[i - 1] not in ("'ve", "have", "has")):
            return "received"
        return found[0]  # type: ignore[return-value]

    def _stock_word(self, k: int) -> int | None:
        """An event in mid-list, or a container without a count ("and a gallon of stain"); the index after it."""
        if (
            self.words[k] in stockwords.containers()
            and self.words[k + 1 : k + 3] == ["and", "a"]
            and self.ctx.line.figure_over(k) is None
        ):
            lot = read_lot(self.ctx, k, self.clause.j)
            event = lot_event(self.ctx, lot, self.clause.j) if lot is not None else None
            if event is not None:
                return self._lot(k, event[0])
        if not (self.in_stock or self.going.event):
            if (
                self.words[k] in ("a", "an", "another")
                and k + 1 < self.clause.j
                and stockwords.singular_at(self.words, k + 1) in stockwords.containers()
            ):
                lot = read_lot(self.ctx, k, self.clause.j)
                event = lot_event(self.ctx, lot, self.clause.j) if lot is not None and lot.named() else None
                if event is not None and not self.waiting:
                    return self._lot(k, event[0])
            return None
        event = event_at(self.words, k)
        if event is not None and stockwords.counted_at(self.ctx.line, event[1]):
            self.going.event = self._event_named(k)
            return event[1]
        thing_after = stockwords.thing_at(self.words, k + 1) if k + 1 < self.clause.j else None
        if (
            self.words[k] not in ("a", "an", "another")
            or thing_after is None
            or self.ctx.line.figure_over(k) is not None
        ):
            return None
        goes_on = thing_after in stockwords.containers() or self.words[k - 1] in ("and", "plus")
        return self._lot(k, None) if goes_on else None

    def _figure(self, figure: Figure) -> int:
        """Hands a figure to its owner; the index to go on at."""
        if not self.in_stock and self.words[figure.j : figure.j + 2] in (
            ["of", "them"],
            ["of", "those"],
            ["of", "these"],
        ):
            return figure.j + 2
        ahead = self.figures.get(figure.j + 1)
        if (
            figure.kind == "number"
            and self.words[figure.j : figure.j + 1] == ["for"]
            and ahead is not None
            and ahead.kind == "money"
        ):
            return figure.j
        owner, event = self._owner(figure)
        if (
            owner == "measure"
            and figure.kind == "section"
            and (self._names(figure) or self.words[figure.j - 1].endswith("s"))
        ):
            return max(figure.j, figure.i + 1)
        if owner == "measure":
            self.waiting.extend(_as_lengths(figure, self.words))
            return max(figure.j, figure.i + 1)
        if self.waiting:
            end = self._end_of_measures(figure)
            measure(self.ctx, self.waiting, self.position, end)
            self.position, self.waiting = end, []
        right = min([i for i in self.figures if i >= figure.j] + [self.clause.j])
        if owner == "reading":
            k = reading(self.ctx, figure, self.position, right)
        elif owner == "hours":
            k = hours(self.ctx, figure, self.position, self.clause.j)
        elif owner == "cost":
            k = cost(self.ctx, figure, self.position, right)
        elif owner == "slope":
            k = slope(self.ctx, figure, self.position, right)
        else:
            self.in_stock = True
            k = self._lot(figure.i, event)
        self.position = max(k, figure.j)
        return self.position

    def _end_of_measures(self, figure: Figure) -> int:
        """Where the words of the measures before end and those of the next figure begin."""
        last = self.waiting[-1]
        for k in range(figure.i - 1, last.j - 1, -1):
            if self.words[k] in ("and", "then", "but", "so", "they", "it"):
                return k
        dim = self.ctx.line.dimensions.get(last.j)
        return dim.j if dim is not None else last.j

    # ---- who owns a figure ----------------------------------------------------------------------------------------

    def _owner(self, figure: Figure) -> tuple[str, str | None]:
        kind, words = figure.kind, self.words
        before = words[max(self.position, figure.i - 8) : figure.i]
        if kind in ("percent", "degrees"):
            return "reading", None
        if kind in ("hours", "slope"):
            return kind, None
        if kind == "money" or figure.per:
            return "cost", None
        if kind in ("number", "length") and figure.unit == "" and self._is_reading(figure, before):
            return "reading", None
        last = self.ctx.facts[-1] if self.ctx.facts else None
        if (
            isinstance(last, Hours)
            and figure.unit == ""
            and words[figure.j : figure.j + 1] in (["more"], ["on"])
            and set(words[figure.j : figure.j + 3]) & set(ing_forms())
        ):
            return "hours", None
        if (
            isinstance(last, Hours)
            and kind in ("number", "length")
            and figure.unit == ""
            and figure.value <= 16
            and self._hours_go_on(figure)
        ):
            return "hours", None
        of_day = {"morning", "afternoon", "evening"} & set(words[self.position : figure.i])
        if (
            isinstance(last, Hours)
            and of_day
            and figure.unit == ""
            and figure.value <= 12
            and kind in ("number", "length")
        ):
            return "hours", None
        if kind in ("number", "length") and figure.unit == "" and self._is_day_hours(figure, before):
            return "hours", None
        event = self._stock_event(figure)
        if event is not None:
            return "stock", event or None
        if figure.unit == "" and kind != "section" and self._is_cost(figure, before):
            return "cost", None
        return "measure", None

    def _hours_go_on(self, figure: Figure) -> bool:
        """Whether a bare figure after hours is more of them: the work, a place or nothing after it, or a day before it."""
        words, j = self.words, figure.j
        following = words[j] if j < self.clause.j else ""
        if following in ing_forms() and following not in thing_words():
            return True
        if any(self.position <= k < j + 3 for k in self.ctx.line.dimensions) or "by" in words[j : j + 1]:
            return False
        if any(d.weekday and d.j == figure.i for d in self.ctx.dues):
            return not stockwords.names_stock(words, j)
        k = j + 1 + (words[j + 1 : j + 2] == ["the"])
        joined_on = words[figure.i - 1 : figure.i] in (["and"], ["then"], ["plus"], ["another"])
        return joined_on and following in ("on", "in", "at") and k in self.ctx.line.places

    def _names(self, figure: Figure) -> bool:
        """Whether a section is part of a thing's name: "one by eight pine", "the two by six plate"."""
        following = self.words[figure.j] if figure.j < self.clause.j else ""
        return following in thing_words() or (
            following != "" and stockwords.species().at(self.words, figure.j) is not None
        )

    def _is_reading(self, figure: Figure, before: list[str]) -> bool:
        """Whether a bare number is read off a meter: after "humidity", or going on a list of per cents or degrees."""
        names = quantities()
        trimmed = [
            w for w in before if w not in ("is", "'s", "at", "of", "reads", "about", "was", "reading", "content", "now")
        ]
        if trimmed and trimmed[-1] in names:
            return True
        following_figure = next((f for k, f in sorted(self.figures.items()) if k >= figure.j), None)
        if (
            following_figure is not None
            and following_figure.kind in ("percent", "degrees")
            and words_between(self.words, figure, following_figure) in (["and"], ["to"], ["or"])
        ):
            return not any(self.position <= i <= figure.j for i in self.ctx.line.dimensions)
        last = self.ctx.facts[-1] if self.ctx.facts else None
        named = any(word in names for word in self.words[self.position : figure.i])
        if (
            figure.kind == "number"
            and named
            and figure.value <= 100
            and before[-1:] in (["was"], ["is"], ["'s"], ["at"])
        ):
            return not any(self.position <= k <= figure.j for k in self.ctx.line.dimensions)
        if (
            not isinstance(last, Reading)
            or figure.value > 120
            or (figure.kind == "length" and (figure.whole is None or last.unit != "%"))
        ):
            return False
        if figure.kind == "length":
            beside = {
                self.words[figure.i - 1] if figure.i else "",
                self.words[figure.j] if figure.j < len(self.words) else "",
            }
            if (
                figure.value.denominator > 4
                or figure.value > 40
                or beside & {"by", "off", "from", "above", "below", "is", "'s", "to"}
            ):
                return False
        dims = any(self.position <= i <= figure.j for i in self.ctx.line.dimensions)
        following = self.words[figure.j] if figure.j < len(self.words) else ""
        return (
            not dims
            and following != "by"
            and (figure.kind == "length" or following not in stockwords.singulars())
            and not self.in_stock
        )

    def _is_day_hours(self, figure: Figure, before: list[str]) -> bool:
        """ "Friday was six and a half", "yesterday on the lake gable was five": a day, "was" and a small figure."""
        if (
            not before
            or before[-1] not in ("was", "were", "'s", "be")
            or figure.value > 16
            or self.ctx.facts
            or self.waiting
        ):
            return False
        start = self.clause.i
        dated = (
            any(d.weekday and start <= d.i < figure.i for d in self.ctx.dues)
            or "yesterday" in self.words[start : figure.i]
        )
        return dated and not any(start <= i < figure.i for i in self.ctx.line.dimensions)

    def _is_cost(self, figure: Figure, before: list[str]) -> bool:
        cues = words_of("cost_cues")
        if figure.each and not any(word in ("wide", "long", "at", "to", "are", "is") for word in before):
            return True
        last = self.ctx.facts[-1] if self.ctx.facts else None
        if figure.each and isinstance(last, Stock) and last.event in ("received", "ordered", "have", "need", "used"):
            return True
        if (
            isinstance(last, Cost)
            and not self.waiting
            and figure.rule in ("figure.hundreds", "figure.bare_feet", "figure.cents")
        ):
            whole = figure.second is None or figure.second.denominator == 1
            return whole and not any(self.position <= i <= figure.j for i in self.ctx.line.dimensions)
        if any(self.position <= i <= figure.j for i in self.ctx.line.dimensions):
            return False
        if any(word in cues for word in before):
            return True
        following = self.words[figure.j] if figure.j < self.clause.j else ""
        if (
            isinstance(last, Cost)
            and not self.waiting
            and following != "by"
            and (following in cues or following == "for" or before[-1:] in (["was"], ["were"], ["is"], ["'s"], ["are"]))
        ):
            return True
        if following == "for" and (cues | words_of("for_all_of_it")) & set(self.words[figure.j : figure.j + 4]):
            return True
        if before[-1:] == ["spent"] and following in ("on", "for", "at") and figure.value > 24:
            return True
        return ("came" in before and "to" in before) or before[-2:] == ["set", "me"]

    def _stock_event(self, figure: Figure) -> str | None:
        """The event of a count, "" where that of the list goes on, None where the figure counts no material."""
        words, ctx, clause = self.words, self.ctx, self.clause
        by_the_foot = figure.unit == "ft" and words[figure.j : figure.j + 1] == ["of"]
        if figure.kind not in ("number", "section", "board feet", "length") or (
            figure.unit not in ("", "bf") and not by_the_foot
        ):
            return None
        if figure.kind == "length" and figure.whole is None and not self.in_stock:
            return None
        if figure.j < clause.j and words[figure.j] == "by":
            return None
        if (d := ctx.line.dimensions.get(figure.j)) is not None and d.adjective and d.words != "long":
            return None
        lot = read_lot(ctx, figure.i, clause.j)
        if lot is None:
            return None
        if (
            self.in_stock
            and clause.opener == "stock"
            and clause.verb < figure.i <= clause.verb + 4
            and figure.kind != "length"
        ):
            event = lot_event(ctx, lot, clause.j)
            return event[0] if event is not None and event[0] == "left over" and self.going.event == "have" else ""
        if not lot.named():
            event = event_at(words, figure.j) if figure.j < clause.j else None
            if event is not None and (self.in_stock or words[figure.j : event[1]] == ["left", "over"]):
                return event[0] if not stockwords.counted_at(ctx.line, event[1]) or event[0] == "left over" else ""
            return "" if self.in_stock and figure.kind == "number" and self._bare_count(figure) else None
        event = lot_event(ctx, lot, clause.j)
        if event is not None and not self._measured(figure, lot.j):
            return event[0]
        if self.in_stock and (figure.kind != "length" or lot.what):
            return None if self._measured(figure, lot.j) else ""
        before = words[max(0, figure.i - 3) : figure.i]
        if before[-2:] in (["there", "'s"], ["there", "are"], ["there", "is"]) and not self._measured(figure, lot.j):
            return "have"
        if before[-2:] in (["we", "'ve"], ["i", "'ve"]):
            return "have"
        if lot.place is not None and lot.what and not self.waiting and not self._measured(figure, lot.j):
            return "have"
        return "have" if figure.kind == "board feet" else None

    def _measured(self, figure: Figure, end: int) -> bool:
        """Whether a copula or dimension shows the figure to be a measure."""
        if figure.kind in ("section", "board feet"):
            return False
        start = max([self.position, *(f.j + 1 for f in self.waiting)])
        return any(start <= i < figure.i for i in self.ctx.line.dimensions)

    def _bare_count(self, figure: Figure) -> bool:
        """Whether a number without a thing counts on ("stacked five"): an event stands right before it."""
        k = figure.i - 1
        while k >= self.clause.i and self.words[k] in ("about", "another", "the", "up", "only", "just", "all", "out"):
            k -= 1
        last = self.ctx.facts[-1] if self.ctx.facts else None
        length = self.figures.get(figure.j + 1)
        if isinstance(last, Stock) and last.length_ticks and length is not None and length.kind == "length":
            return self.words[figure.j] in ("at", "to")
        events = (event_at(self.words, s) for s in range(max(self.clause.i, k - 2), k + 1))
        return any(event is not None and event[1] == k + 1 for event in events)

    def _lot(self, k: int, event: str | None) -> int:
        ctx, words, right = self.ctx, self.words, self.clause.j
        lot = read_lot(ctx, k, right)
        if lot is None:
            return k + 1
        last = ctx.facts[-1] if ctx.facts else None
        if (
            lot.count is not None
            and isinstance(last, Stock)
            and last.board_feet is not None
            and lot.species
            and not lot.what
            and not lot.section
        ):
            lot.board_feet, lot.count = lot.count, None
        named: StockEvent | None = event or self.going.event  # type: ignore[assignment]
        if not self.in_stock and not self.going.name:
            before, _ = thing(ctx, self.position, lot.i)
            self.going.name = [w for w in before if w not in thing_words()] and before
        m = lot.j
        while m < right and words[m] in words_of("stock_between") and not event_at(words, m):
            m += 1
        after = event_at(words, m) if m < right else None
        end = lot.j
        if (
            after is not None
            and (after[0] == named or not stockwords.counted_at(ctx.line, after[1]) or after[0] == "left over")
            and (event is None or after[0] == event)
        ):
            named, end = after[0], length_after(ctx, lot, after[1], right)  # type: ignore[assignment]
        if named is None:
            return end
        add_lot(ctx, lot, self.going, named)
        return max(end, k + 1)


def words_between(words: list[str], one: Figure, two: Figure) -> list[str]:
    """The words between two figures."""
    return words[one.j : two.i]


def _as_lengths(figure: Figure, words: list[str]) -> list[Figure]:
    """A section that turns out to be measured is two figures: "log six nine by eleven"."""
    if figure.kind != "section" or figure.section is None or "/" in figure.section:
        return [figure]
    first, second = figure.section.split("x")
    one = replace(
        figure,
        kind="number",
        value=Fraction(first) + (figure.second or 0),
        j=figure.j,
        doubts=list(figure.doubts),
        section=None,
    )
    two = replace(figure, kind="number", value=Fraction(second), doubts=[], section=None)
    two.j -= words[figure.j - 1] == "by"
    two.i = one.j = two.j - 1
    return [one, two]
