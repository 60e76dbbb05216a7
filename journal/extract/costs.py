"""Money: what something cost, by the piece, by a rate or in all."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.line import Figure, joined
from journal.extract.stockwords import containers, singular
from journal.extract.vocabulary import function_words
from journal.records import Cost, Doubt, Stock

CUES = frozenset(
    {
        "cost",
        "costs",
        "paid",
        "charged",
        "charging",
        "price",
        "priced",
        "delivery",
        "rental",
        "invoice",
        "bill",
        "billed",
        "spent",
        "ran",
        "runs",
        "permit",
        "fee",
        "rent",
        "dump",
        "quoted",
        "quote",
        "freight",
        "shipping",
        "tax",
        "deposit",
        "total",
    }
)
_DROP = frozenset(
    {
        "cost",
        "costs",
        "paid",
        "charged",
        "charging",
        "price",
        "priced",
        "bill",
        "came",
        "comes",
        "ran",
        "runs",
        "bought",
        "got",
        "for",
        "spent",
        "went",
        "up",
        "total",
        "all",
        "in",
        "quoted",
        "going",
        "rate",
        "invoice",
        "charge",
        "now",
        "today",
        "were",
        "they",
        "yesterday",
        "set",
        "another",
        "worth",
        "about",
        "billed",
        "me",
        "us",
        "received",
        "ordered",
        "used",
        "works",
        "altogether",
    }
)


def cost(ctx: Context, figure: Figure, left: int, right: int) -> int:
    """Adds the cost of a figure; gives the index after the words that went with it."""
    words = ctx.line.words
    end = figure.j
    per = figure.per or ("each" if figure.each else "total")
    amount = figure.value
    doubts = list(figure.doubts)
    if per == "thousand" and figure.rule == "figure.cents" and figure.whole is not None and figure.second is not None:
        amount = figure.whole * 100 + figure.second
        doubts.append(
            Doubt(
                "two numbers",
                f"'{ctx.line.said(figure.i, figure.j)}' was read as {amount} dollars a thousand",
                ctx.span(figure.i, figure.j),
                level=1,
            )
        )
    elif per in ("thousand", "hundred", "total") and figure.kind == "length" and figure.rule == "figure.hundreds":
        pass
    what, end = _what(ctx, figure, left, right)
    ctx.facts.append(
        Cost(
            place=ctx.place_between(left, end),
            amount=round(float(amount), 4),
            per=per,
            what=what,
            evidence=ctx.span(min(left, figure.i), end),
            rule=f"cost.{'total' if per == 'total' else 'rate'}",
            doubts=tuple(doubts),
        )
    )
    return end


def _what(ctx: Context, figure: Figure, left: int, right: int) -> tuple[str | None, int]:
    """What was paid for: after "for the", else the words before, else the stock named before."""
    words = ctx.line.words
    end = figure.j
    k = end
    while k < right and words[k] in ("all", "in", "total", "even", "delivered", "now"):
        k += 1
    if (k < right and words[k] in ("for", "on")) or (figure.per == "hour" and k < right and words[k] in ("for", "on")):
        named: list[str] = []
        m = k + 1
        while (
            m < right
            and words[m] not in ("and", "then", "but", "so", "is", "'s", "was", "at", "today", "yesterday", "in")
            and m not in ctx.line.figures
        ):
            if words[m] not in ("the", "a", "an", "that"):
                named.append(words[m])
            m += 1
        if named:
            return joined(named), m
    before: list[str] = []
    for m in range(left, figure.i):
        if m in ctx.line.figures or any(f.i <= m < f.j for f in ctx.line.figures.values()):
            continue
        word = words[m]
        if word in ("and", "then", "but"):
            before = []
        elif word not in function_words() and word not in _DROP:
            before.append(word)
        elif word == "time" and m and words[m - 1] == "my":
            before.append("my time")
    if before and not (before == ["they"]):
        return joined(before), end
    stock = [f for f in ctx.facts if isinstance(f, Stock)]
    if stock:
        return _stock_name(stock[-1], figure.per), end
    return None, end


def _stock_name(stock: Stock, per: str | None) -> str | None:
    """The name of stock for its price: the contents where the price is by the container."""
    what = stock.what or ""
    head, _, contents = what.partition(" of ")
    if contents and head in containers() and (per is None or singular(per) == head or True):
        return contents
    name = " ".join(part for part in (stock.species or "", what) if part)
    return name or stock.section
