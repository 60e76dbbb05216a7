"""Sound-alikes inside a figure that are no number words: "three eights", "and a have", "buy" between figures, "feat".

Also "buy" before a day. Knows the tables of `grammars/soundalikes.toml` that number words need too.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract import numbers
from journal.extract.phrases import Phrases
from journal.extract.sets import words_of
from journal.extract.stockwords import species as stock_kinds
from journal.extract.unitwords import counted_words, units
from journal.grammar import table

SECTION_PLURALS = frozenset(("twos", "threes", "fours", "fives", "sixes", "eights", "tens", "twelves"))
# Words so common that they are a number only where nothing else can stand.
WEAK = ("to", "for")


@cache
def tables() -> tuple[dict[str, str], dict[str, str], dict[str, str]]:
    """What may be heard for number words, for words below the line of a fraction, and for "by", "foot" and "inch"."""
    data = table("soundalikes")
    return data["numbers"], data["denominators"], data["joints"]


def word(words: Sequence[str], i: int) -> str:
    """Word `i`, or nothing beyond the ends."""
    return words[i] if 0 <= i < len(words) else ""


def is_number(words: Sequence[str], i: int) -> bool:
    """Whether word `i` is a number word."""
    found = word(words, i)
    return found in numbers.number_words() and found != "oh"


def below_the_line(words: list[str], i: int) -> str | None:
    """ "Three eights", "and a have", "five sixteens": below the line of a fraction."""
    said = tables()[1].get(words[i])
    if said is None or said == words[i]:
        return None
    before, two_before = word(words, i - 1), word(words, i - 2)
    if (
        words[i] == "have"
        and word(words, i + 1) in ("inch", "inches")
        and before not in ("we", "i", "they", "you", "to")
    ):
        return said
    if (
        words[i] == "have"
        and word(words, i + 1) in ("a", "an")
        and (
            word(words, i + 2) in ("inch", "hour", "foot", "dozen")
            or before in ("used", "ordered", "need", "wasted", "lost")
        )
    ):
        return None if before in ("we", "i", "they", "you", "to", "'ll", "and", "") else said
    if said in ("half", "quarter"):
        return said if before in ("a", "and") and ((before == "a" and two_before == "and") or before == "and") else None
    if said.endswith("s"):
        if not is_number(words, i - 1):
            return None
        plain = words[i] in ("eights", "ates", "aides", "sixteens", "forths", "courts", "quarts")
        if plain and two_before == "by":
            return None
        value = numbers.below_hundred(words, i - 1)
        return said if value is not None and value[0] < 64 and (plain or two_before == "and") else None
    if words[i] in ("eight", "ate", "sixteen"):
        following = word(words, i + 1)
        if following in ("pitch", "twelve", "foot", "feet"):
            return None
        if (
            before == "an"
            and words[i] != "sixteen"
            and (following in words_of("out_of") or (following == "" and i > 2))
        ):
            return said  # "sixteen foot three and an ate", "an ate out of level"
        if before in ("an", "a") and two_before in ("and", "less", "by") and not is_number(words, i + 1):
            # "… wide and a sixteen inch overhang" goes on no number
            mixed = two_before != "and" or is_number(words, i - 3) or word(words, i - 3) in units()
            return said if mixed else None
        if (
            before in ("three", "five", "seven")
            and two_before == "and"
            and words[i] == "eight"
            and following not in ("foot", "feet", "inch", "inches", "by")
        ):
            return "eighths"
        if (
            words[i] == "sixteen"
            and two_before == "and"
            and before in table("numbers")["ones"]
            and following not in ("foot", "feet", "inch", "inches", "by")
        ):
            return "sixteenths"
    return None


@cache
def _days() -> Phrases[int]:
    return Phrases({**table("due")["days"], **table("due")["week"]})


def _due_at(words: list[str], i: int) -> bool:
    """Whether a day or a part of the week begins at word `i`, that things are not bought for ("lunch")."""
    return i < len(words) and words[i] not in ("lunch", "a", "two") and _days().at(words, i) is not None


def _sawn_after(words: list[str], i: int) -> bool:
    """ "Twenty six floor joists to buy eight douglas fir": the section after what was counted."""
    if word(words, i - 2) not in counted_words() or word(words, i + 1) not in (
        "four",
        "six",
        "eight",
        "ten",
        "tin",
        "twelve",
    ):
        return False
    sized = is_number(words, i + 2) or word(words, i + 2) == "" or stock_kinds().at(words, i + 2) is not None
    return sized and any(is_number(words, k) for k in range(max(0, i - 6), i - 2))


def joint_word(words: list[str], i: int) -> str | None:
    """ "Buy" between numbers or before a day, "feat" after a number or "board"."""
    said = tables()[2].get(words[i])
    if said is None or said == words[i]:
        return None
    loose = tables()[0]
    before, following = word(words, i - 1), word(words, i + 1)
    if said == "by":
        if following == "the" and (units().get(before) or numbers.denominator(words, i - 1)):
            return said  # "sixteen and a half buy the door"
        between = (
            before in ("to", "too")
            and (is_number(words, i + 1) or following in ("fore", "ate"))
            and word(words, i + 2) not in words_of("more_of")
        )
        plural = following in SECTION_PLURALS  # "fifteen spruce too buy fours"
        counted = (
            between and (is_number(words, i - 2) or _sawn_after(words, i))
        ) or plural  # "eighteen to buy twelve stringers"
        if not counted and (
            before in words_of("before_buying") or (before == "to" and word(words, i - 2) in words_of("before_buying"))
        ):
            return None
        if following == "the" and word(words, i + 2) in ("end", "weekend", "week"):
            return said
        if i and (_due_at(words, i + 1) or (is_number(words, i + 1) and word(words, i + 2) in words_of("clock_words"))):
            return said
        day = word(words, i + 2) if following == "the" else following
        ordinals = table("numbers")["ordinals"]
        if i and (
            day in table("due")["weekdays"]
            or day in table("due")["months"]
            or day in ordinals
            or (day in ("twenty", "thirty") and following == "the")
        ):
            return said
        fits = (
            is_number(words, i - 1)
            or before in loose
            or numbers.denominator(words, i - 1) is not None
            or units().get(before) is not None
        )
        fits = fits or before in tables()[1] or before in ("wide", "high", "long")
        return said if fits and (is_number(words, i + 1) or following in loose or plural) else None
    after_number = (
        is_number(words, i - 1)
        or before in table("numbers")["denominators"]
        or (before in loose and before not in WEAK)
    )
    return said if after_number or before == "board" or (before == "a" and words[i] == "foots") else None
