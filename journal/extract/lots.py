"""One lot of material as it is said: count, section, kind of wood, thing and length, from the count on."""

from __future__ import annotations

from fractions import Fraction

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.forall import ALL, all_of_a_kind, all_of_a_length, all_of_a_section
from journal.extract.lot import Lot
from journal.extract.sets import words_of
from journal.extract.sizes import as_words, container_size, footers, may_be_length, take_figure
from journal.extract.stockwords import containers, event_at, singular
from journal.extract.unitwords import PLURAL_NUMBERS
from journal.extract.vocabulary import function_words, past_forms
from journal.records import Stock


def read_lot(ctx: Context, k: int, right: int) -> Lot | None:
    """The lot that begins with a count, section or container at word `k`, or None."""
    words = ctx.line.words
    figure = ctx.line.figures.get(k)
    lot = Lot(k, k)
    if (
        figure is None
        and words[k] in containers()
        and words[k + 1 : k + 4] in (["and", "a", "half"], ["and", "a", "quarter"])
    ):
        lot.count, m = _and_a_half(ctx, Fraction(1), k, right)
    elif figure is None:
        if (
            words[k] not in ("a", "an", "another", "last")
            or k + 1 >= right
            or stockwords.thing_at(words, k + 1) is None
        ):
            return None
        lot.count, m = Fraction(1), k + 1
        lot.count, m = _and_a_half(ctx, lot.count, m, right)
    elif figure.kind == "board feet":
        lot.board_feet, m = figure.value, figure.j
    elif figure.kind == "section":
        lot.count, lot.section, m = figure.second, figure.section, figure.j
        lot.by_section = words[figure.j - 1] in PLURAL_NUMBERS
    elif (size := container_size(words, figure)) is not None and words[k - 1 : k] in (["a"], ["an"], ["another"]):
        lot.count, lot.what, m = Fraction(1), words[figure.i : size], size
    elif figure.kind in ("number", "length") and figure.unit == "":
        lot.count, m = figure.value, figure.j
    elif figure.feet is not None and figure.value == figure.feet * 12 and words[figure.j : figure.j + 1] == ["of"]:
        lot.count, lot.what, m = figure.feet, ["foot"], figure.j
    else:
        return None
    if figure is not None:
        lot.doubts.extend(figure.doubts)
        lot.i = figure.i
    lot.j = take_parts(ctx, lot, m, right)
    return lot


def _and_a_half(ctx: Context, count: Fraction, m: int, right: int) -> tuple[Fraction, int]:
    """ "A cord and a half of": the share after the container belongs to the count."""
    words = ctx.line.words
    if m + 3 < len(words) and words[m + 1 : m + 3] == ["and", "a"] and words[m + 3] in ("half", "quarter"):
        ctx.used.update(range(m + 1, m + 4))
        return count + (Fraction(1, 2) if words[m + 3] == "half" else Fraction(1, 4)), m
    return count, m


def take_parts(ctx: Context, lot: Lot, m: int, right: int) -> int:
    """Takes in what follows the count; gives the index after it."""
    line, words = ctx.line, ctx.line.words
    if words[m : m + 1] == ["the"]:
        return m  # "delivery was forty the driver …"
    while m < right:
        word = words[m]
        if m in ctx.used and word in ("and", "a", "half", "quarter"):
            m += 1
            continue
        figure = line.figures.get(m) or line.figure_over(m)
        if figure is not None:
            after = take_figure(ctx, lot, figure, m, right)
            if after is None:
                break
            m = after
            continue
        if stockwords.came_at(line, m):
            break
        if event_at(words, m) and not _event_is_noun(words, m, right):
            if not _cut_down(ctx, m):
                break
            m += 1
            continue
        if (
            m in line.dimensions
            and not (word in ("length", "lengths", "width", "widths") and words[m + 1 : m + 2] == ["of"])
            and line.dimensions[m].words != "long"
        ):
            break
        kind = stockwords.species().at(words, m)
        if all_of_a_kind(words, m) is not None or all_of_a_section(ctx, m) is not None:
            break
        if word in ALL and all_of_a_length(ctx, m) is not None:
            break
        # a wood's name after "of" or "and" is part of the thing's
        if kind is not None and _priced_next(ctx, kind[1]) and (lot.what or lot.length):
            break
        if kind is not None and lot.what[-1:] not in (["of"], ["and"]):
            lot.species, m = lot.species or kind[0], kind[1]
            continue
        if _is_no_stock(words, m) or (word == "not" and words[m + 1 : m + 2] in (["the"], ["a"])):
            break
        if (feet := footers(lot, word)) is not None:
            lot.length, m = feet, m + 1
            continue
        if word == "r" and (f := line.figures.get(m + 1)) is not None and f.kind == "number" and lot.what:
            lot.what.extend(words[m : f.j])
            m = f.j
            continue
        if (
            word == "from"
            and words[m + 1 : m + 2] in (["the"], ["those"])
            and (f := line.figures.get(m + 2)) is not None
            and f.kind == "section"
        ):
            m += 2
            continue
        if word == "of" and not lot.what and _of_the_same(ctx, m):
            lot.of_the_same, m = True, m + 1
            f = line.figures.get(m)
            if f is not None and f.kind == "length" and f.value < 24:
                m = as_words(ctx, lot, f)
            continue
        if word == "of" and lot.what and words[m + 1 : m + 2] in (["it"], ["that"], ["them"], ["those"], ["this"]):
            m += 2
            continue
        if word == "of" and not lot.what and words[m + 1 : m + 2] in (["the"], ["those"], ["my"], ["them"], ["these"]):
            m += 2
            if (f := line.figures.get(m)) is not None and f.kind == "number":
                m = f.j
            continue
        if word == "and" and lot.what and words[m - 1 : m + 2] in _JOINED_NAMES:
            lot.what.extend(words[m : m + 2])
            m += 2
            continue
        if word == "'s" and lot.what[-2:-1] == ["of"]:
            lot.what.append(word)  # "rolls of sheep's wool"
            m += 1
            continue
        if word in words_of("stock_stops"):
            m, goes_on = _after_stop(ctx, lot, m, right)
            if goes_on:
                continue
            break
        if word == "of" and lot.what and singular(lot.what[-1]) in containers():
            lot.what.append(word)
        elif any(d.i <= m < d.j for d in ctx.dues) or word in ("today", "yesterday", "tomorrow", "tonight"):
            m = max([d.j for d in ctx.dues if d.i <= m < d.j] + [m + 1])
            continue
        elif word in words_of("stock_where"):
            wood = stockwords.species().at(words, m + 1) if word == "in" and lot.what and m + 1 < right else None
            if wood is not None and lot.species is None:
                lot.species, m = wood[0], wood[1]
                continue
            if word == "in" and lot.what:
                m = _where(ctx, lot, m, right)
            break
        elif word in words_of("stock_skip") or (word in function_words() and not (word == "tape" and lot.what)):
            if word == "the" and lot.what[-1:] == ["of"]:
                m += 1
                continue
            if (lot.what or lot.species) and word in (
                "there",
                "the",
                "my",
                "our",
                "a",
                "an",
                "another",
                "we",
                "i",
                "had",
            ):
                break
        elif lot.what and _is_said_of(lot.what[-1], word):
            length = line.figures.get(m + 2)
            if (
                words[m + 1 : m + 2] in (["to"], ["at"])
                and length is not None
                and length.kind == "length"
                and length.unit
            ):
                m += 1
                continue  # "shingles tapered to fourteen inches"
            break
        else:
            lot.what.append(word)
        m += 1
    return m


def _priced_next(ctx: Context, m: int) -> bool:
    """Whether a price follows a wood's name at word `m`: "… larch came at two eighty five", not "… pine at fourteen foot"."""
    ahead = ctx.line.figures.get(m + 1)
    length = ahead is not None and ahead.kind == "length" and ahead.unit != ""
    return ctx.line.words[m : m + 1] in _PRICED_NEXT and not length


def _of_the_same(ctx: Context, m: int) -> bool:
    """Whether "of" leads to more of the same in another size or kind: "… and ten of three quarter", "three of thinner"."""
    last = ctx.facts[-1] if ctx.facts else None
    held = isinstance(last, Stock) and " of " in (last.what or "")
    return held and m + 1 < len(ctx.line.words) and ctx.line.words[m + 1] not in function_words()


def _after_stop(ctx: Context, lot: Lot, m: int, right: int) -> tuple[int, bool]:
    """The index after a word that ends a lot, unless a length follows ("at twelve foot", "on wall c twelve foot long")."""
    line, words, word = ctx.line, ctx.line.words, ctx.line.words[m]
    ahead = line.figure_over(m + 1)
    joined = word == "and" and lot.length is None and ahead is not None and ahead.unit in ("ft", "m", "mm", "cm")
    if joined and ahead is not None and ahead.i == m + 1 and words[ahead.j : ahead.j + 1] == ["long"]:
        return m + 1, True  # "planks two by six and fourteen foot long"
    if word in ("at", "to") and ahead is not None and may_be_length(ahead):
        if word == "at" and ahead.kind == "number" and singular(lot.what[0] if lot.what else "") in words_of("held_in"):
            return m, False  # "a box of spikes at thirty one" is a price
        return m + 1, True
    length = line.figures.get(m + 3)
    if word == "for" and words[m + 1 : m + 2] in (["the"], ["a"]) and length is not None and length.unit == "ft":
        return m + 3, True
    if word in ("on", "for", "at", "from"):
        m = _where(ctx, lot, m, right)
        if (
            m < right
            and words[m] in ("at", "to")
            and (over := line.figures.get(m + 1)) is not None
            and over.unit == "ft"
        ):
            return m + 1, may_be_length(over)
        over = line.figures.get(m)
        return m, over is not None and over.kind == "length" and over.unit == "ft"
    return m, False


def _is_said_of(thing: str, word: str) -> bool:
    """Whether a participle says something of the things counted: "fourteen logs peeled"."""
    told = (word in past_forms() and word.endswith("ed")) or word in words_of("spoilt")
    return thing.endswith("s") and thing in stockwords.singulars() and told


def _cut_down(ctx: Context, m: int) -> bool:
    """ "Cut ten of them down to eleven foot four": what they were cut to, and no count of what is left."""
    length = ctx.line.figures.get(m + 2)
    down = ctx.line.words[m : m + 2] == ["down", "to"]
    return down and length is not None and length.kind == "length" and length.unit != ""


def _event_is_noun(words: list[str], m: int, right: int) -> bool:
    """ "Cut nails", "spare fuses", "over": an event word that is part of a name."""
    following = words[m + 1] if m + 1 < right else ""
    if (
        words[m] in ("cut", "left", "spare", "short", "over")
        and following in stockwords.singulars()
        and following not in ("over",)
    ):
        return words[m] != "left"
    return words[m] == "in"


def _is_no_stock(words: list[str], m: int) -> bool:
    """Whether the word at `m` can never be what is counted ("week", "moisture", "they"), unless it says more of one."""
    following = words[m + 1] if m + 1 < len(words) else ""
    return words[m] in words_of("never_stock") and following not in stockwords.singulars()


# A kind of wood before these begins what is said of its price: "… eight foot cedar was two eighty five a foot".
_PRICED_NEXT = (["was"], ["is"], ["'s"], ["came"], ["ran"], ["costs"], ["cost"], ["at"])
_JOINED_NAMES = (
    ["tongue", "and", "groove"], ["board", "and", "batten"], ["nuts", "and", "bolts"], ["peel", "and", "stick"],
    ["hook", "and", "eye"], ["lath", "and", "plaster"],
)  # fmt: skip


def _where(ctx: Context, lot: Lot, m: int, right: int) -> int:
    """Takes in "on the lake gable"; gives the index after it, or `m` where no place is named there."""
    words = ctx.line.words
    k = m + 1
    while k < right and words[k] in ("the", "our", "a", "up", "over"):
        k += 1
    if k in ctx.line.places:
        lot.place = ctx.line.places[k].name
        return ctx.line.places[k].j
    return m
