"""Words that a recogniser wrote for others of the same sound, put right only where the words beside them tell.

Every repair is a doubt of the lowest kind that shows what was heard.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from journal.extract import numbers
from journal.extract.sets import words_of
from journal.extract.stockwords import singulars, species
from journal.extract.tokens import Token
from journal.extract.unitwords import label_nouns, units
from journal.extract.vocabulary import verbs
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


def _number(words: list[str], i: int) -> str | None:
    """ "To by ate", "too foot", "for and a half": a number where only one can stand."""
    said = _tables()[0].get(words[i])
    if said is None or said == words[i]:
        return None
    before, following = _word(words, i - 1), _word(words, i + 1)
    unit = units().get(following)
    if following in ("by", "buy") and (_is_number(words, i + 2) or _word(words, i + 2) in _tables()[0]):
        return said
    if before == "by" and (
        words[i] not in ("to", "for", "fore") or following in singulars() or species().at(words, i + 1)
        if i + 1 < len(words)
        else True
    ):
        return said
    if unit in ("ft", "in", "mm", "cm", "m", "h", "$", "%", "deg") or following in ("percent", "dozen", "hundred"):
        return said if words[i] not in ("to", "for") or not _is_number(words, i + 1) else None
    if _fraction_at(words, i + 1) and (words[i] not in ("to", "for") or not _is_number(words, i + 1)):
        return said
    if numbers.denominator(words, i + 1) and following not in ("half", "quarter", "second", "third"):
        return said
    if before in table("numbers")["tens"]:
        ends = following in ("", "and", "wide", "high", "long", "deep", "inches")
        weak = words[i] in ("to", "for")
        if ends or (following == "by" and not weak) or (said in table("numbers")["ones"] and not weak):
            return said
    if (
        before in ("foot", "feet")
        and words[i] in ("ate", "won", "too", "tree", "sicks", "fore", "nein")
        and not _is_number(words, i + 1)
    ):
        return said
    if (
        before in ("foot", "feet")
        and words[i] in ("to", "for")
        and (following in ("", "wide", "high", "long", "and") and not _is_number(words, i + 1))
    ):
        return said
    if words[i] == "to" and following in verbs():
        return None
    if (
        words[i] in ("to", "too", "for", "fore", "won", "ate", "tree")
        and before in words_of("sound_events")
        and (singulars().get(following) or species().at(words, i + 1) if i + 1 < len(words) else False)
    ):
        return said
    if (
        words[i] in ("to", "too", "for", "fore", "ate", "won", "tree")
        and before in label_nouns()
        and (_is_number(words, i + 1) or following in ("long", "short", "is", "'s"))
    ):
        if words[i] in ("to", "for") and following in ("is", "'s"):
            return None
        return said
    if words[i] in ("ate", "won", "sicks", "nein", "fife") and (_is_number(words, i - 1) or following in singulars()):
        return said
    if (
        words[i] in ("ate", "won", "too", "fore", "sicks")
        and i == len(words) - 1
        and before in words_of("sound_before_end")
    ):
        return said
    return None


def _denominator(words: list[str], i: int) -> str | None:
    """ "Three eights", "and a have", "five sixteens": below the line of a fraction."""
    said = _tables()[1].get(words[i])
    if said is None or said == words[i]:
        return None
    before, two_before = _word(words, i - 1), _word(words, i - 2)
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
    """ "Buy" between numbers, "feat" after one."""
    said = _tables()[2].get(words[i])
    if said is None or said == words[i]:
        return None
    loose = _tables()[0]
    before = (
        _is_number(words, i - 1)
        or _word(words, i - 1) in loose
        or numbers.denominator(words, i - 1) is not None
        or units().get(_word(words, i - 1)) is not None
        or _word(words, i - 1) in _tables()[1]
    )
    following = _is_number(words, i + 1) or _word(words, i + 1) in loose
    if said == "by":
        return said if before and following else None
    return (
        said
        if _is_number(words, i - 1) or (_word(words, i - 1) in ("a",) and said == "foot" and words[i] == "foots")
        else None
    )


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
