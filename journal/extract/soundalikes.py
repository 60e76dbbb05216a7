"""Words that a recogniser wrote for others of the same sound, put right only where the words beside them tell.

Every repair is a doubt of the lowest kind that shows what was heard.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract import numbers
from journal.extract.jointalikes import SECTION_PLURALS, WEAK, below_the_line, is_number, joint_word, tables, word
from journal.extract.placewords import heads
from journal.extract.sets import words_of
from journal.extract.stockwords import event_at, names_stock, singulars, species
from journal.extract.tokens import Token
from journal.extract.tradealikes import suspects, trade_word
from journal.extract.unitwords import counted_words, label_nouns, units
from journal.extract.vocabulary import function_words, names_work, thing_words, verbs
from journal.grammar import table
from journal.records import Doubt, Span


@cache
def _suspects() -> frozenset[str]:
    numbers_, below, joints = tables()
    return frozenset(numbers_) | frozenset(below) | frozenset(joints) | suspects()


def repaired(tokens: list[Token]) -> tuple[list[Token], list[Doubt]]:
    """The tokens with sound-alikes put right, and a doubt for each of them."""
    suspected = _suspects()
    at = [i for i, token in enumerate(tokens) if token.text in suspected]
    if not at:
        return tokens, []
    words = [token.text for token in tokens]
    for _ in range(2):
        before = list(words)
        for i in at:
            words[i] = (None if _names_place(words, i) else trade_word(words, i)) or words[i]
        for i in at:
            words[i] = joint_word(words, i) or _number(words, i) or below_the_line(words, i) or words[i]
        if words == before:
            break
    doubts: list[Doubt] = []
    out: list[Token] = []
    for token, said in zip(tokens, words, strict=True):
        if said == token.text:
            out.append(token)
            continue
        out.append(Token(said, token.start, token.end, token.text))
        doubts.append(
            Doubt(
                "sound-alike",
                f"'{token.text}' was taken for '{said}'",
                Span(token.start, token.end),
                (token.text,),
                level=1,
            )
        )
    return out, doubts


def _names_place(words: Sequence[str], i: int) -> bool:
    """Whether a word begins a place of several words that the tables have: "flour loft", "cable room"."""
    found = heads().at(words, i)
    return found is not None and found[0] == "room" and found[1] > i + 1


def _fraction_at(words: Sequence[str], i: int) -> bool:
    """Whether "and" and a fraction stand at word `i`, a sound-alike below the line allowed."""
    if word(words, i) != "and":
        return False
    below = tables()[1]
    k = i + 1 + (word(words, i + 1) in ("a", "an"))
    if k > i + 1:
        return numbers.denominator(words, k) is not None or word(words, k) in below
    return is_number(words, k) and (numbers.denominator(words, k + 1) is not None or word(words, k + 1) in below)


# Words of their own that stand for a number only inside a figure ("and free eighths", "dirty two and a half").
# No words of any language spoken on a site.
_NO_WORDS = ("nein", "sicks", "sics", "wun", "sevin", "tenn", "fife", "nign", "levin", "elven")
_INSIDE_ONLY = ("free", "dirty", "forte", "leaven")


def _number(words: list[str], i: int) -> str | None:
    """ "To by ate", "too foot", "for and a half": a number where only one can stand."""
    said = tables()[0].get(words[i])
    if (
        said is None
        or said == words[i]
        or (words[i] == "to" and word(words, i + 1) != "point" and word(words, i + 1) in verbs())
    ):
        return None
    if words[i] == "to" and word(words, i - 1) == "lean":
        return None  # "in the lean to and three quarters of an hour …"
    if words[i] in _INSIDE_ONLY:
        return said if _inside_a_figure(words, i) else None
    if words[i] in _NO_WORDS or (words[i] == "tin" and _is_ten(words, i)):
        return said
    if words[i] == "tin":
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


def _is_ten(words: list[str], i: int) -> bool:
    """Whether "tin" is ten: in a figure, before a unit or a count of something, and no tin roof or sheet of tin."""
    before, following = word(words, i - 1), word(words, i + 1)
    if following == "of":
        return False  # "one tin of grease"
    if (
        before in ("of", "the", "a", "corrugated", "old", "new")
        and units().get(following) is None
        and not _fraction_at(words, i + 1)
    ):
        return False
    if is_number(words, i - 1) and before != "hundred":
        return following in ("", "and") or _rate_at(words, i + 1) or units().get(following) is not None
    if before in ("by", "foot", "feet", "till", "until", "hundred"):
        return following not in singulars() or before in ("by", "hundred")
    if before == "and" and word(words, i - 2) in ("hundred", "thousand"):
        return True
    if following == "penny" or units().get(following) is not None or _fraction_at(words, i + 1):
        return True
    if following in ("by", "buy") and is_number(words, i + 2):
        return True
    if following in ("to", "and", "") and before in ("cut", "used", "stacked", "need", "ordered", "left"):
        return True
    return following in counted_words() and _event_before(words, i)


def _inside_a_figure(words: list[str], i: int) -> bool:
    """Whether a word that is no number by itself has a fraction or more of a number right after it."""
    below = numbers.denominator(words, i + 1) is not None or word(words, i + 1) in ("eights", "sixteens")
    if words[i] == "free":
        return below
    return _fraction_at(words, i + 1) or (
        word(words, i + 1) in table("numbers")["ones"]
        and words[i] == "dirty"
        and word(words, i - 1) not in ("the", "a")
    )


def _before_unit(words: list[str], i: int) -> bool:
    """Before a unit, a fraction, "by" and a number, or after "by"."""
    before, following = word(words, i - 1), word(words, i + 1)
    strong = words[i] not in WEAK
    if "point" in (before, following) and _decimal(words, i):
        return True
    if following in ("by", "buy") and (
        is_number(words, i + 2) or word(words, i + 2) in SECTION_PLURALS or word(words, i + 2) in tables()[0]
    ):
        return True
    if before == "by":
        if _fraction_at(words, i + 1) and (is_number(words, i - 2) or numbers.denominator(words, i - 2) is not None):
            return True  # "nine and a quarter by for and a half"
        return strong or following in singulars() or (i + 1 < len(words) and species().at(words, i + 1) is not None)
    if units().get(following) is not None or following in ("percent", "dozen", "hundred", "thousand", "penny"):
        return True
    if _fraction_at(words, i + 1):
        return strong or not is_number(words, i + 1)
    if following == "quarter" and word(words, i + 2) in ("by", "buy"):
        return words[i] == "ate"  # "ate quarter by nine"
    return numbers.denominator(words, i + 1) is not None and following not in ("half", "quarter", "second", "third")


def _decimal(words: list[str], i: int) -> bool:
    """ "Won point ate five metres", "seven point to": a digit before or after "point" and another number."""
    loose = tables()[0]
    if word(words, i + 1) == "point":
        return is_number(words, i + 2) or word(words, i + 2) in loose
    return is_number(words, i - 2) or word(words, i - 2) in loose


def _in_a_number(words: list[str], i: int) -> bool:
    """After the tens ("fifty ate"), after feet ("nineteen foot for"), before more of a number ("won eleven", "too ten a foot")."""
    before, following = word(words, i - 1), word(words, i + 1)
    strong, goes_on = words[i] not in WEAK, is_number(words, i + 1)
    ends = following in ("", "and", "wide", "high", "tall", "long", "deep", "thick", "inches")
    if before in table("numbers")["tens"]:
        return (
            strong
            or ends
            or following in ("off", "from", "in")
            or (following == "on" and word(words, i + 2) in ("centre", "center", "centres", "centers"))
            or (goes_on and word(words, i + 2) in ("by", "buy"))
            or (names_stock(words, i + 1) and following not in function_words() and not _priced(words, i))
        )
    if before in ("foot", "feet") and not goes_on:
        return strong or ends or following in ("from", "off", "inches")
    if goes_on and following not in table("numbers")["ones"]:
        said = words[i] in WEAK and before in words_of("before_price")
        if (words[i] not in WEAK or said) and (_rate_at(words, i + 2) or (said and _rate_at(words, i + 3))):
            return True
        return words[i] == "won" or (words[i] in ("too", "fore") and before in ("is", "'s", "are", "were", "was", "at"))
    if words[i] in ("ate", "won", "sicks", "nein", "fife"):
        return is_number(words, i - 1) or (i == len(words) - 1 and before in words_of("sound_before_end"))
    return words[i] == "too" and i == len(words) - 1 and before in words_of("sound_before_end")


def _rate_at(words: list[str], i: int) -> bool:
    """Whether a price for one of something ends before word `i`: "ate ninety a box", "won ten each"."""
    return word(words, i) in ("each", "apiece") or (
        word(words, i) in ("a", "per") and word(words, i + 1) not in ("", "half", "quarter")
    )


def _priced(words: list[str], i: int) -> bool:
    """Whether money was named before: "paid sixty two fifty for blades"."""
    before = set(words[max(0, i - 10) : i])
    paid = words_of("cost_cues", "pay_verbs") | {"dollars", "cash", "bucks"}
    return not paid.isdisjoint(before) or names_work(word(words, i + 1))


def _counts(words: list[str], i: int) -> bool:
    """After an event and before something counted: "used for pounds of nails", "stacked ate five quarter by eight"."""
    before, following = word(words, i - 1), word(words, i + 1)
    if words[i + 1 : i + 3] == ["left", "over"] and before in ("'s", "is", "are", "and"):
        return True
    if words[i] == "won":
        if following == "oh":
            return True
        if following in ("half", "quarter", "eighth", "sixteenth") and before in ("and", "is", "'s", "are", "of", "by"):
            return True
        return (
            before in ("this", "that", "same", "each", "last", "other")
            or following in singulars()
            or following == "left"
            or (following in words_of("more_of") and word(words, i + 2) in singulars())
        )
    if (
        i == 0
        and word(words, 2) in ("by", "buy")
        and _is_loose(words, 1)
        and _is_loose(words, 3)
        and names_stock(words, 4)
    ):
        return True  # "for ate by ate tamarack posts"
    if following == "of" and word(words, i + 2) in ("them", "those", "these"):
        return words[i] not in WEAK
    if following in counted_words() and word(words, i + 2) in ("left", "used", "over"):
        return words[i] not in WEAK
    if not _event_before(words, i):
        return (words[i] == "ate" and following in singulars()) or _begins_a_lot(words, i)
    named = words[i] not in WEAK and following not in function_words() and word(words, i + 2) in counted_words()
    if named and before in words_of("conjunctions"):
        return True
    more = following in words_of("more_of") and word(words, i + 2) in singulars() and before != "is"
    counted = more or following in singulars() or (i + 1 < len(words) and species().at(words, i + 1) is not None)
    sections = is_number(words, i + 1) and word(words, i + 2) == "by" and before not in ("and", "is", "are", "in")
    return counted or sections or (words[i] == "ate" and is_number(words, i + 1) and names_stock(words, i + 1))


def _is_loose(words: list[str], i: int) -> bool:
    return is_number(words, i) or word(words, i) in tables()[0]


def _begins_a_lot(words: list[str], i: int) -> bool:
    """ "A pail of tar for rolls of oakum": containers and what is in them, after what happened to a lot before."""
    if (
        word(words, i + 2) != "of"
        or word(words, i + 1) not in counted_words()
        or word(words, i - 1) in function_words()
    ):
        return False
    return any(event_at(words, k) for k in range(len(words)) if k != i)


def _event_before(words: list[str], i: int) -> bool:
    """Whether material is counted at word `i`: right after what happened to it, a day passed over ("came in today for rolls")."""
    k = i - 1
    while k > 0 and words[k] in words_of("time_between"):
        k -= 1
    if words[k] in ("in", "up", "off", "out") and k > 0 and (k < i - 1 or word(words, i + 2) == "of"):
        return words[k - 1] in words_of("fetched")
    if words[k] in ("'s", "over") and k > 0:  # "there's for rolls", "left over too boxes"
        return words[k - 1] in ("there", "left")
    return words[k] in words_of("sound_events") and k >= 0


def _is_a_name(words: list[str], i: int) -> bool:
    """After a noun that numbers name: "stud bay for fourteen", "bent too", "course to to three"."""
    before, following = word(words, i - 1), word(words, i + 1)
    if before in ("and", "to") and is_number(words, i - 2) and word(words, i - 3) in label_nouns():
        return words[i] not in WEAK and (following in function_words() or following in ("", "long", "short"))
    if before not in label_nouns() or words[i] not in ("to", "too", "for", "fore", "ate", "won", "tree", "sicks"):
        return False
    if words[i] == "to" and is_number(words, i + 1) and set(words[:i]) & words_of("cut_to"):
        return False
    if words[i] in WEAK and before.endswith("s") and is_number(words, i + 1) and word(words, i + 1) != "two":
        return False  # "brackets for twelve shelves", "blocks to twelve inches"
    if words[i] == "for" and _is_price(words, i):
        return False
    if is_number(words, i + 1) or (
        following in ("to", "and") and (is_number(words, i + 2) or word(words, i + 2) in tables()[0])
    ):
        return True
    if words[i] in WEAK:
        return following in words_of("after_weak_label")
    return (
        following in function_words()
        or following == ""
        or following in words_of("after_label")
        or following in thing_words()
    )


def _is_price(words: list[str], i: int) -> bool:
    """ "Got the gudgeon pins for sixty bucks": what was given for it follows."""
    money = {"dollars", "bucks", "dollar", "cents", "grand", "each", "apiece", "cash", "all"}
    bought = {"got", "bought", "sold", "paid", "pay", "took", "picked"} & set(words[:i])
    return bool(money & set(words[max(0, i - 6) : i + 7])) or bool(bought)


def _in_a_slope(words: list[str], i: int) -> bool:
    """ "Ate twelve on the roof", "for in twelve", "won in ten"."""
    following = word(words, i + 1)
    if words[i] in ("ate", "sicks") and word(words, i - 1) in ("in", "over") and is_number(words, i - 2):
        return True
    if following in ("pitch", "pitched") and words[i] not in WEAK:
        return True
    if following == "twelve":
        return words[i] not in WEAK or word(words, i - 1) in ("is", "'s", "a", "slope", "pitch")
    return (
        following in ("in", "over")
        and (is_number(words, i + 2) or word(words, i + 2) in ("ate", "fore", "sicks"))
        and (word(words, i + 2) == "twelve" or words[i] == "won")
    )
