"""Words that a recogniser wrote for others of the same sound, put right only where the words beside them tell.

Every repair is a doubt of the lowest kind that shows what was heard.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from journal.extract import numbers
from journal.extract.sets import words_of
from journal.extract.stockwords import names_stock, singulars, species
from journal.extract.tokens import Token
from journal.extract.unitwords import label_nouns, units
from journal.extract.vocabulary import function_words, thing_words, verbs
from journal.grammar import table
from journal.records import Doubt, Span


@cache
def _tables() -> tuple[dict[str, str], dict[str, str], dict[str, str], dict[str, list[dict[str, Any]]]]:
    data = table("soundalikes")
    trade: dict[str, list[dict[str, Any]]] = {}
    for entry in data["words"]:
        trade.setdefault(entry["heard"], []).append(entry)
    return data["numbers"], data["denominators"], data["joints"], trade


@cache
def _suspects() -> frozenset[str]:
    numbers_, below, joints, trade = _tables()
    return frozenset(numbers_) | frozenset(below) | frozenset(joints) | frozenset(trade)


def repaired(tokens: list[Token]) -> tuple[list[Token], list[Doubt]]:
    """The tokens with sound-alikes put right, and a doubt for each of them."""
    if not any(token.text in _suspects() for token in tokens):
        return tokens, []
    words = [token.text for token in tokens]
    for i in range(len(words)):
        said = _trade_word(words, i)
        if said:
            words[i] = said
    for _ in range(2):
        for i in range(len(words)):
            said = _joint(words, i) or _number(words, i) or _denominator(words, i)
            if said:
                words[i] = said
    doubts: list[Doubt] = []
    out: list[Token] = []
    for token, word in zip(tokens, words, strict=True):
        if word == token.text:
            out.append(token)
            continue
        out.append(Token(word, token.start, token.end, token.text))
        doubts.append(
            Doubt(
                "sound-alike",
                f"'{token.text}' was taken for '{word}'",
                Span(token.start, token.end),
                (token.text,),
                level=1,
            )
        )
    return out, doubts


def _word(words: Sequence[str], i: int) -> str:
    return words[i] if 0 <= i < len(words) else ""


def _is_number(words: Sequence[str], i: int) -> bool:
    word = _word(words, i)
    return word in numbers.number_words() and word != "oh"


def _fraction_at(words: Sequence[str], i: int) -> bool:
    """Whether "and" and a fraction stand at word `i`, a sound-alike below the line allowed."""
    if _word(words, i) != "and":
        return False
    below = _tables()[1]
    k = i + 1 + (_word(words, i + 1) in ("a", "an"))
    if k > i + 1:
        return numbers.denominator(words, k) is not None or _word(words, k) in below
    return _is_number(words, k) and (numbers.denominator(words, k + 1) is not None or _word(words, k + 1) in below)


_WEAK = ("to", "for")


def _number(words: list[str], i: int) -> str | None:
    """ "To by ate", "too foot", "for and a half": a number where only one can stand."""
    said = _tables()[0].get(words[i])
    if said is None or said == words[i] or (words[i] == "to" and _word(words, i + 1) in verbs()):
        return None
    if (
        _before_unit(words, i)
        or _in_a_number(words, i)
        or _counts(words, i)
        or _is_a_name(words, i)
        or _in_a_slope(words, i)
    ):
        return said
    return None


def _before_unit(words: list[str], i: int) -> bool:
    """Before a unit, a fraction, "by" and a number, or after "by"."""
    before, following = _word(words, i - 1), _word(words, i + 1)
    strong = words[i] not in _WEAK
    if following in ("by", "buy") and (_is_number(words, i + 2) or _word(words, i + 2) in _tables()[0]):
        return True
    if before == "by":
        return strong or following in singulars() or (i + 1 < len(words) and species().at(words, i + 1) is not None)
    if units().get(following) is not None or following in ("percent", "dozen", "hundred", "thousand"):
        return True
    if _fraction_at(words, i + 1):
        return strong or not _is_number(words, i + 1)
    return numbers.denominator(words, i + 1) is not None and following not in ("half", "quarter", "second", "third")


def _in_a_number(words: list[str], i: int) -> bool:
    """After the tens ("fifty ate"), after feet ("nineteen foot for"), before more of a number ("won eleven", "too ten a foot")."""
    before, following = _word(words, i - 1), _word(words, i + 1)
    strong, goes_on = words[i] not in _WEAK, _is_number(words, i + 1)
    ends = following in ("", "and", "wide", "high", "long", "deep", "thick", "inches")
    if before in table("numbers")["tens"]:
        return (
            strong
            or ends
            or (names_stock(words, i + 1) and following not in function_words() and not _priced(words, i))
        )
    if before in ("foot", "feet") and not goes_on:
        return strong or ends or following in ("from", "off", "inches")
    if goes_on and following not in table("numbers")["ones"]:
        return words[i] == "won" or (words[i] in ("too", "fore") and before in ("is", "'s", "are", "were", "was", "at"))
    if words[i] in ("ate", "won", "sicks", "nein", "fife"):
        return _is_number(words, i - 1) or (i == len(words) - 1 and before in words_of("sound_before_end"))
    return words[i] == "too" and i == len(words) - 1 and before in words_of("sound_before_end")


def _priced(words: list[str], i: int) -> bool:
    """Whether money was named before: "paid sixty two fifty for blades"."""
    return bool(words_of("cost_cues") & set(words[max(0, i - 7) : i])) or "dollars" in words[max(0, i - 7) : i]


def _counts(words: list[str], i: int) -> bool:
    """After an event and before something counted: "used for pounds of nails", "stacked ate five quarter by eight"."""
    before, following = _word(words, i - 1), _word(words, i + 1)
    if words[i] == "won":
        return before in ("this", "that", "same", "each", "last", "other") or following in singulars()
    if before not in words_of("sound_events"):
        return words[i] == "ate" and following in singulars()
    counted = following in singulars() or (i + 1 < len(words) and species().at(words, i + 1) is not None)
    return counted or (words[i] == "ate" and _is_number(words, i + 1) and names_stock(words, i + 1))


def _is_a_name(words: list[str], i: int) -> bool:
    """After a noun that numbers name: "stud bay for fourteen", "bent too", "course to to three"."""
    before, following = _word(words, i - 1), _word(words, i + 1)
    if before not in label_nouns() or words[i] not in ("to", "too", "for", "fore", "ate", "won", "tree", "sicks"):
        return False
    if words[i] == "to" and _is_number(words, i + 1) and set(words[:i]) & words_of("cut_to"):
        return False
    if _is_number(words, i + 1) or (
        following in ("to", "and") and (_is_number(words, i + 2) or _word(words, i + 2) in _tables()[0])
    ):
        return True
    if words[i] in _WEAK:
        return following in ("on", "in", "at", "is", "'s", "long", "short", "wide", "high")
    return following in function_words() or following in ("", "long", "short") or following in thing_words()


def _in_a_slope(words: list[str], i: int) -> bool:
    """ "Ate twelve on the roof", "for in twelve", "won in ten"."""
    following = _word(words, i + 1)
    if following == "twelve":
        return words[i] not in _WEAK or _word(words, i - 1) in ("is", "'s", "a", "slope", "pitch")
    return (
        following in ("in", "over")
        and _is_number(words, i + 2)
        and (_word(words, i + 2) == "twelve" or words[i] == "won")
    )


def _denominator(words: list[str], i: int) -> str | None:
    """ "Three eights", "and a have", "five sixteens": below the line of a fraction."""
    said = _tables()[1].get(words[i])
    if said is None or said == words[i]:
        return None
    before, two_before = _word(words, i - 1), _word(words, i - 2)
    if (
        words[i] == "have"
        and _word(words, i + 1) in ("a", "an")
        and _word(words, i + 2) in ("inch", "hour", "foot", "dozen")
    ):
        return None if before in ("we", "i", "they", "you", "to", "'ll", "and", "") else said
    if said in ("half", "quarter"):
        return said if before in ("a", "and") and ((before == "a" and two_before == "and") or before == "and") else None
    if said.endswith("s"):
        if not _is_number(words, i - 1):
            return None
        plain = words[i] in ("eights", "ates", "aides", "sixteens", "forths", "courts", "quarts")
        if plain and two_before == "by":
            return None
        value = numbers.below_hundred(words, i - 1)
        return said if value is not None and value[0] < 64 and (plain or two_before == "and") else None
    if words[i] in ("eight", "ate", "sixteen"):
        following = _word(words, i + 1)
        if following in ("pitch", "twelve", "foot", "feet"):
            return None
        if before in ("an", "a") and two_before in ("and", "less", "by") and not _is_number(words, i + 1):
            return said
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


def _joint(words: list[str], i: int) -> str | None:
    """ "Buy" between numbers or before a day, "feat" after a number or "board"."""
    said = _tables()[2].get(words[i])
    if said is None or said == words[i]:
        return None
    loose = _tables()[0]
    before, following = _word(words, i - 1), _word(words, i + 1)
    if said == "by":
        day = _word(words, i + 2) if following == "the" else following
        ordinals = table("numbers")["ordinals"]
        if i and (
            day in table("due")["weekdays"]
            or day in table("due")["months"]
            or day in ordinals
            or (day in ("twenty", "thirty") and following == "the")
        ):
            return said
        fits = (
            _is_number(words, i - 1)
            or before in loose
            or numbers.denominator(words, i - 1) is not None
            or units().get(before) is not None
        )
        fits = fits or before in _tables()[1] or before in ("wide", "high", "long")
        return said if fits and (_is_number(words, i + 1) or following in loose) else None
    after_number = (
        _is_number(words, i - 1)
        or before in table("numbers")["denominators"]
        or (before in loose and before not in _WEAK)
    )
    return said if after_number or before == "board" or (before == "a" and words[i] == "foots") else None


def _trade_word(words: list[str], i: int) -> str | None:
    """ "Out of plum", "west cable": a word of the trade, by the word before or after it."""
    for entry in _tables()[3].get(words[i], ()):
        before, after = entry["before"], entry["after"]
        if not before and not after:
            return str(entry["said"])
        fits_before, fits_after = _word(words, i - 1) in before, _word(words, i + 1) in after
        if entry.get("both"):
            if fits_before and fits_after:
                return str(entry["said"])
        elif fits_before or fits_after:
            return str(entry["said"])
    return None
