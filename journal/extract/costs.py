"""Money: what something cost, by the piece, by a rate or in all."""

from __future__ import annotations

from fractions import Fraction

from journal.extract.context import Context
from journal.extract.line import Figure, joined
from journal.extract.sets import words_of
from journal.extract.stockwords import containers
from journal.extract.unitwords import number_like
from journal.extract.vocabulary import function_words
from journal.records import Cost, Doubt, Stock


def cost(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the cost of a figure; gives the index after the words that went with it."""
    words = ctx.line.words
    in_all = _for_all_of_it(ctx, figure, right) is not None
    per = figure.per or ("each" if figure.each else "total" if in_all else _going_rate(ctx, figure))
    amount = figure.value
    feet = figure.rule == "figure.bare_feet"
    doubts = [d for d in figure.doubts if d.reason != "two-way" and not (feet and d.reason == "two numbers")]
    if figure.second is not None and figure.whole is not None:
        cents = figure.second
        if per in ("thousand", "hundred"):
            amount = figure.whole * 100 + cents
            doubts.append(_two_numbers(ctx, figure, f"{amount} dollars a {per}"))
        elif figure.rule in ("figure.hundreds", "figure.bare_feet") and per != "total":
            amount = figure.whole + cents / 100
            if feet and not figure.per:
                doubts.append(_two_numbers(ctx, figure, f"{float(amount):.2f} dollars a {per}"))
        elif figure.rule == "figure.hundreds" and figure.kind != "money":
            amount = figure.whole * 100 + cents
            doubts.append(_two_numbers(ctx, figure, f"{amount} dollars"))
        elif figure.rule == "figure.bare_feet":
            amount = figure.whole + cents / 100
    if (
        per in ("week", "day", "month")
        and figure.rule == "figure.cents"
        and figure.whole is not None
        and figure.whole < 10
        and figure.second is not None
    ):
        amount = figure.whole * 100 + figure.second
        doubts.append(_two_numbers(ctx, figure, f"{amount} dollars a {per}"))
    if in_all and figure.rule == "figure.cents" and figure.whole is not None and figure.second is not None:
        amount = _in_all(ctx, figure, doubts)
    what, end = _what(ctx, figure, left, right)
    if (
        per == "total"
        and left <= figure.i - 2
        and words[figure.i - 1] == "for"
        and ctx.line.figure_over(figure.i - 2) is not None
    ):
        per = ctx.line.said(figure.i - 2, figure.i - 1)
    ctx.facts.append(
        Cost(
            place=ctx.place_between(left, end), amount=round(float(amount), 4), per=per, what=what,
            evidence=ctx.span(min(left, figure.i), end), rule=f"cost.{'total' if per == 'total' else 'rate'}", doubts=tuple(doubts),
        )
    )  # fmt: skip
    return end


def _in_all(ctx: Context, figure: Figure, doubts: list[Doubt]) -> Fraction:
    """ "Eleven eighty for the lot" is 1180 where many were bought; with hundreds said it is dollars and cents."""
    assert figure.whole is not None
    assert figure.second is not None
    if figure.whole >= 100 or not any(isinstance(fact, Stock) and (fact.count or 0) > 1 for fact in ctx.facts):
        return figure.value
    amount = figure.whole * 100 + figure.second
    said = ctx.line.said(figure.i, figure.j)
    other = f"{float(figure.value):.2f}"
    doubts.append(
        Doubt(
            "two-way",
            f"'{said}' can be {amount} or {other}",
            ctx.span(figure.i, figure.j),
            (str(amount), other),
            level=2,
        )
    )
    return amount


def _for_all_of_it(ctx: Context, figure: Figure, right: int) -> int | None:
    """The index after "for the lot" behind a figure."""
    words, k = ctx.line.words, figure.j
    while k < right and words[k] in _TOTALS:
        k += 1
    over = k + 1 + (words[k + 1 : k + 2] in (["the"], ["all"]))
    if k < right and words[k] == "for" and over < right and words[over] in words_of("for_all_of_it"):
        return over + 1 + (words[over] == "whole")
    return None


_TOTALS = ("all", "in", "total", "even", "delivered", "now", "altogether", "cash", "bucks", "dollars", "told", "flat")


def _two_numbers(ctx: Context, figure: Figure, read: str) -> Doubt:
    return Doubt(
        "two numbers",
        f"'{ctx.line.said(figure.i, figure.j)}' was read as {read}",
        ctx.span(figure.i, figure.j),
        level=1,
    )


def _going_rate(ctx: Context, figure: Figure) -> str:
    """The rate said once goes on: "hemlock is one forty a board foot and the oak's two eighty five"."""
    last = ctx.facts[-1] if ctx.facts else None
    if isinstance(last, Cost) and number_like(last.per.split(), 0) is not None:
        return "total"
    came = ctx.line.words[figure.i - 2 : figure.i] in (["came", "to"], ["comes", "to"])
    if came or (isinstance(last, Cost) and last.per in ("day", "week", "month", "trip")):
        return "total"
    if isinstance(last, Cost) and figure.kind != "money" and figure.rule in ("figure.hundreds", "figure.bare_feet"):
        return last.per
    if isinstance(last, Cost) and last.per != "total" and figure.rule == "figure.cents":
        return last.per if figure.value < 10 * last.amount else "total"
    return "total"


def _what(ctx: Context, figure: Figure, left: int, right: int) -> tuple[str | None, int]:
    """What was paid for: after "for the", else the words before, else the stock named before."""
    words = ctx.line.words
    end = k = figure.j
    while k < right and words[k] in _TOTALS:
        k += 1
    if words[k : k + 2] == ["on", "top"]:  # "… and the crane's ninety an hour on top"
        end = k + 2 + 2 * (words[k + 2 : k + 4] in (["of", "that"], ["of", "it"]))
    elif (after := _for_all_of_it(ctx, figure, right)) is not None:
        end = after
    elif k < right and words[k] in ("for", "on") and not any(d.i <= k < d.j for d in ctx.dues):
        named, m = [], k + 1
        while (
            m < right
            and (words[m] not in words_of("phrase_ends", "not_paid_for") or _is_joined_name(words, m))
            and m not in ctx.line.figures
        ):
            if words[m] not in ("the", "a", "an", "that", "some"):
                named.append(words[m])
            m += 1
        if named:
            return joined(named), m
    before: list[str] = []
    fresh = False
    purpose = words[left] in ("for", "on") and bool(ctx.facts) and isinstance(ctx.facts[-1], Stock)
    for m in range(left, figure.i if not purpose else left):
        if ctx.line.figure_over(m) is not None:
            continue
        word = words[m]
        if word in ("and", "then", "but", "plus", "so"):
            fresh = True
        elif word in ("time", "rate") and m and words[m - 1] == "my":
            before = ["my", word]
        elif (word not in function_words() and word not in words_of("cost_drop")) or word in ("delivery", "rental"):
            before, fresh = ([], False) if fresh else (before, fresh)
            before.append(word)
    if fresh and ctx.facts and isinstance(ctx.facts[-1], Stock):
        before = []  # "nine bales of straw good lad and he wants six dollars a bale"
    if not before and end < right and words[end] in words_of("cost_cues"):
        return words[end], end + 1
    if before and before not in (["they"], ["each"]):
        return joined(before), end
    stock = [fact for fact in ctx.facts if isinstance(fact, Stock)]
    summed = words[figure.i - 1] == "to" and words[figure.i - 2] in ("comes", "came", "come")
    summed = summed or "total" in words[left : figure.i]
    if len({fact.what for fact in stock}) > 1 and (summed or _for_all_of_it(ctx, figure, right) is not None):
        return None, end
    return (_stock_name(stock[-1]) if stock else None), end


def _is_joined_name(words: list[str], m: int) -> bool:
    return words[m - 1 : m + 2] in (["tongue", "and", "groove"], ["board", "and", "batten"], ["nuts", "and", "bolts"])


def _stock_name(stock: Stock) -> str | None:
    """The name of stock for its price: the contents of a container, else the thing with its wood."""
    what = stock.what or ""
    head, _, contents = what.partition(" of ")
    if contents and head in containers():
        return contents
    return " ".join(part for part in (stock.species or "", what) if part) or stock.section
