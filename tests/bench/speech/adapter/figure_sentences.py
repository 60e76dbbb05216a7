"""Sentences that set figures against the figures and words they are taken for: lower case, every figure in words."""

from __future__ import annotations

from trade_sentences import (
    ACT,
    ADJ,
    DIM,
    ONES,
    SP,
    ST,
    TENS,
    R,
    c,
    card,
    feet,
    frac,
    inches,
    length,
    ob,
    pick,
    pl,
    small,
    the,
    whole,
)

EIGHTHS = ("an eighth", "three eighths", "five eighths", "seven eighths", "one eighth")
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh")


def to_a_hundred() -> str:
    """ "to a hundred" and "two hundred", "came to" and "came two"."""
    rest = c("", f" and {card(whole(2, 99))}", f" {card(whole(2, 99))}")
    hundred = c("a", "a", "one", "two", "two", "three", "four", "eight") + " hundred" + rest
    unit = c("dollars", "dollars", "feet", "pounds", "screws", "square feet", "board feet", "degrees", "linear feet")
    return c(
        f"{c('delivery', 'lumber', 'the bill', 'diesel', 'it', 'the whole lot')} {c('came to', 'comes to', 'adds up to', 'went up to', 'is up to', 'was', 'got down to')} {hundred} {unit}",
        f"{c('paid', 'used', 'need', 'ordered', 'count', 'got')} {hundred} {unit}",
        f"{hundred} {pick(ST)}",
        f"from {card(whole(20, 99))} to {hundred}",
        f"{the(pl())} is {hundred} {c('square feet', 'inches', 'feet')}",
        f"{hundred} and {frac()}",
    )


def for_and_four() -> str:
    """ "for", "four", "fore" and "forty" beside each other; "to", "two" and "too"; "one" and "won"; "ate" and "eight"."""
    n, m = card(whole(2, 40)), c("four", "four", "two", "eight", "forty", "fourteen", "one")
    return c(
        f"{m} {pick(ST)} for {the(pl())}",
        f"{n} {pick(ST)} for {the(pl())}",
        f"four {c('for', 'by')} the {ob()}",
        f"{c('need', 'cut', 'got', 'used', 'took')} {m} for {the(pl())} and {n} for {the(pl())}",
        f"{m} by {c('four', 'two', 'six', 'eight', 'ten', 'twelve')} {pick(SP)} for the {ob()}",
        f"{m} and {frac()} for the {ob()} to the {ob()}",
        f"paid {card(whole(4, 90))} dollars for {m} {pick(ST)}",
        f"{c('ready', 'good', 'left', 'marked', 'cut')} for {the(pl())} {length()}",
        f"two to the {ob()} and {m} too many",
        f"ate at noon then {m} hours {pick(ACT)}",
        f"{m} hours for {pick(ACT)}",
    )


def teen_or_ty() -> str:
    """Thirteen and thirty and their like, alone and beside each other."""
    k = R.randrange(3, 10)
    teen, ty = card(10 + k), card(10 * k)
    one, other = R.sample([teen, ty], 2)
    end = c(f" and {frac()}", f" and {frac()}", " inches", "", " feet", f" foot {card(R.randrange(1, 12))}", " percent")
    return c(
        f"{one}{end}",
        f"{one} {other}",
        f"{one} by {other}",
        f"{one}{end} not {other}",
        f"{one} {pick(ST)} and {other} {pick(ST)}",
        f"the {ob()} is {one}{end}",
        f"{the(pl())} {pick(DIM)} {one}{end}",
        f"{one} {c('dollars', 'degrees', 'percent', 'pieces', 'minutes', 'square feet')}",
        f"{TENS[k]} {ONES[R.randrange(1, 10)]}{end}",
        f"{ob()} {one}{end} {ob()} {other} and {frac()}",
    )


def eighths() -> str:
    """ "eight", "eighth", "eighths" and "eighty"; "six", "sixth", "sixteenths" and "sixty"."""
    n = card(c(8, 8, 18, 80, 28, 38, 48, 58, 68, 78, 88, 6, 16, 60, 66, R.randrange(3, 120)))
    part = c(*EIGHTHS, *EIGHTHS, "a sixteenth", f"{ONES[R.randrange(1, 16, 2)]} sixteenths", frac())
    return c(
        f"{n} and {part}",
        f"{n} and {part} {pick(ADJ)}",
        f"{n} {part}",
        f"the {c(*ORDINALS)} {c('one', 'stud', 'rafter', 'tread', 'board', 'log')} is {n} and {part}",
        f"the eighth {c('rafter', 'joist', 'riser', 'one')} {c('is', 'measures', 'at')} {n} and {part}",
        f"{ob()} {n} and {part} by {card(whole(3, 60))} and {part}",
        f"{c('a', 'another', 'just')} {c('heavy', 'strong', 'light', 'scant', 'fat')} {c('eighth', 'sixteenth', 'quarter')} {c('over', 'under', 'off', 'proud', 'shy')}",
        f"eight {c('eight by', 'two by', 'six by')} {c('eights', 'sixes', 'tens')} {n} foot",
        f"{part} {c('over', 'proud', 'short', 'out of square', 'too long', 'off')}",
        f"{pick(DIM)} {n} and {part}",
    )


def feet_and_inches() -> str:
    """Feet, inches and a fraction, every way they are said."""
    n, i = card(whole(2, 48)), card(R.randrange(1, 12))
    foot = c("foot", "foot", "feet")
    figure = c(
        f"{n} {foot} {i} and {frac()}",
        f"{n} {foot} {i} and {frac()}",
        f"{n} {foot} {i}",
        f"{n} {foot} {i} and {c(*EIGHTHS)}",
        f"{n} {foot} and {c('a half', 'a quarter', 'an eighth', 'three eighths', 'five eighths')}",
        f"{n} {foot} {small()}",
        f"{n} {foot} {i} inches and {frac()}",
        f"{n} {i} and {frac()}",
    )
    return c(
        figure,
        f"{the(pl())} {c('is', 'length', 'run', 'comes to', 'measures', 'at')} {figure}",
        f"{ob()} {c('to', 'from', 'past')} {ob()} {figure}",
        f"{ob()} {figure}",
        f"{figure} by {feet()}",
        f"{c('cut it', 'make it', 'call it', 'that makes', 'say', 'i get', 'got')} {figure}",
        f"{figure} {pick(ADJ)}",
    )


def short() -> str:
    """A figure and next to nothing else."""
    return c(
        inches(2, 199),
        card(whole(1, 199)),
        f"{card(whole(2, 99))} and {frac()}",
        f"{card(whole(2, 99))} {c('inches', 'feet', 'foot', 'percent', 'degrees', 'dollars', 'each', 'hours')}",
        f"{c('no', 'yes', 'make that', 'that is', 'sorry', 'it is', 'say', 'make it', 'not')} {inches()}",
        f"{ONES[R.randrange(1, 20)]} {c('of them', 'left', 'more', 'over', 'to go', 'short')}",
        small(),
        f"{ob()} {inches()}",
        f"{pick(DIM)} {card(whole(2, 99))}",
    )


def row_of_figures() -> str:
    """Figures one after the other."""
    make = c(
        lambda: f"{card(whole(2, 99))} and {frac()}",
        lambda: inches(2, 140),
        lambda: card(whole(1, 120)),
        lambda: card(R.randrange(1, 20)),
        feet,
        small,
    )
    figures = [make() for _ in range(R.randrange(3, 6))]
    lead = c("", "", f"{ob()}s ", f"{the(pl())} ", "cut list ", "cuts ", f"{pick(ST)} ", "left to right ")
    return lead + c(" ", " ", " and ", " then ").join(figures)


FIGURES = [
    (to_a_hundred, 10),
    (for_and_four, 12),
    (teen_or_ty, 18),
    (eighths, 18),
    (feet_and_inches, 18),
    (short, 12),
    (row_of_figures, 12),
]
