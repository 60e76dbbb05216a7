"""What names a wall or room: its letter or number ("wall b", "the wall marked six"), or the words before it ("west end wall")."""

from __future__ import annotations

from collections.abc import Sequence

from journal.extract.line import Line, PlaceWord
from journal.extract.placewords import DETERMINERS, heads, letter_words, place_phrases, place_words
from journal.extract.sets import words_of
from journal.extract.unitwords import number_like, species
from journal.extract.vocabulary import dimension_words, function_words, ing_forms, past_forms, thing_words, verbs
from journal.records import Doubt


def is_modified(line: Line, i: int, stop: int) -> bool:
    """Whether a wall or room has a name of its own before it: "far end wall board five" is about its board five."""
    head = heads().at(line.words, i)
    return (
        head is not None and line.words[i] in place_words("surfaces") and bool(name_before(line, i, head[0], stop)[1])
    )


def letter_before(words: Sequence[str], i: int) -> bool:
    """Whether the single letter before word `i` names it ("c wall"), and is no article or pronoun."""
    letter = words[i - 1]
    if letter == "a":
        return i >= 2 and words[i - 2] in ("the", "on", "at", "of")
    return letter != "i" or (i >= 2 and words[i - 2] in ("the", "on"))


def letter_after(line: Line, end: int, noun: str, labels: dict[int, tuple[int, str]]) -> tuple[str, int] | None:
    """The letter or number that names a wall: straight after it, or after "marked"."""
    words = line.words
    if end >= len(words):
        return None
    marked = place_phrases("marked").at(words, end)
    k = marked[1] if marked else end
    if k >= len(words):
        return None
    if k in labels and labels[k][1].isdigit():
        return labels[k][1], labels[k][0]
    word = words[k]
    if len(word) == 1 and word.isalpha() and word != "i":
        if word == "a" and not marked and not _a_is_letter(words, k):
            return None
        return word.upper(), k + 1
    letter = letter_words().get(word)
    if letter and (marked or _stands_as_letter(words, k)):
        line.doubts.append(
            Doubt(
                "sound-alike",
                f"'{word}' after '{noun}' was taken for the letter {letter}",
                line.span(k, k + 1),
                (word,),
                level=1,
            )
        )
        return letter, k + 1
    if marked and number_like(words, k):
        value = number_like(words, k)
        assert value is not None
        return str(value[0]), value[1]
    return None


def letter_of(line: Line, i: int, end: int, noun: str) -> PlaceWord | None:
    """A frame, bay or room with a letter on either side of it: "frame g", "the c bay"."""
    words = line.words
    before = words[i - 1] if i else ""
    if before in thing_words() and before not in place_words("sides"):
        return None  # "door frame b"
    following = words[end] if end < len(words) else ""
    if len(following) == 1 and following.isalpha() and following not in ("a", "i"):
        return PlaceWord(i, end + 1, f"{noun} {following.upper()}", head=noun)
    if following == "a" and before not in ("", "to", "and") and words[end + 1 : end + 2] in ([], ["is"], ["'s"]):
        return PlaceWord(i, end + 1, f"{noun} A", head=noun)
    heard_as = letter_words().get(following) if noun in words_of("rows") else None
    if heard_as and (i == 0 or before in words_of("place_prepositions") | DETERMINERS):
        label = letter_after(line, end, noun, {})
        return PlaceWord(i, label[1], f"{noun} {label[0]}", head=noun) if label else None
    if len(before) == 1 and before.isalpha() and before not in place_words("shapes"):
        return PlaceWord(i - 1, end, f"{noun} {before.upper()}", head=noun)
    return None


def owner_of(line: Line, i: int, stop: int) -> tuple[int, str] | None:
    """Whose room it is, with the index of the first word: "the cobbler's shop", "harbour master's office"."""
    words = line.words
    k = i - 2
    many = words[i - 1] == "'" and words[k].endswith("s")  # "the infants' room"
    if k < stop or not (many or words[i - 1] == "'s") or not _may_name(line, k):
        return None
    if not _is_odd_name([words[k].removesuffix("s")] if many else words, 0 if many else k):
        return None
    lead = words_of("place_prepositions") | DETERMINERS | {"and", "of", "to"}
    if k > stop and words[k - 1] not in lead and _may_name(line, k - 1) and (k - 1 == 0 or words[k - 2] in lead):
        return k - 1, f"{words[k - 1]} {words[k]}{words[i - 1]}"
    return (k, f"{words[k]}{words[i - 1]}") if k == 0 or words[k - 1] in lead else None


def faced_side(words: Sequence[str], end: int) -> tuple[str, int] | None:
    """Which way a wall or gable looks, and the index after it: "the wall facing the creek", "the gable on the road side"."""
    led = place_phrases("facing").at(words, end) if end < len(words) else None
    if led is None:
        return None
    k = led[1] + (words[led[1] : led[1] + 1] == ["the"])
    if k >= len(words) or words[k] not in place_words("sides"):
        return None
    side = words[k + 1 : k + 2] == ["side"]
    following = words[k + 1] if k + 1 < len(words) else ""
    plain = words[led[1] - 1] not in ("on", "to") and (following == "" or following in function_words())
    return (words[k], k + 1 + side) if side or plain else None


def side_of(words: Sequence[str], i: int, end: int, stop: int) -> PlaceWord | None:
    """Which of a row of frames or bents is meant: "the red frame", "creek bent", "the far frame"."""
    if words[i] not in words_of("rows") or i <= stop or words[end : end + 1] == ["of"]:
        return None
    before = words[i - 1]
    first = words[i - 2] if i - 1 > stop else ""
    if before in place_words("ends") and first in DETERMINERS:
        return PlaceWord(i - 1, end, f"{before} {words[i]}", head=words[i])
    if before not in place_words("sides"):
        return None
    if first in place_words("sides") | place_words("ends") and i - 1 > stop:
        return PlaceWord(i - 2, end, f"{first} {before} {words[i]}", head=words[i])
    return PlaceWord(i - 1, end, f"{before} {words[i]}", head=words[i])


def _a_is_letter(words: Sequence[str], k: int) -> bool:
    """Whether "a" after a bare "wall" is its letter: always but before another "a" word that needs an article."""
    return k + 1 >= len(words) or words[k + 1] not in ("day", "week", "bit", "little", "couple", "few", "lot")


def _stands_as_letter(words: Sequence[str], k: int) -> bool:
    following = words[k + 1] if k + 1 < len(words) else ""
    if words[k] in ("be", "see", "why", "you", "are", "ex", "em", "en"):
        return (
            following in dimension_words()
            or following in ("is", "'s", "and", "the", "window", "door", "")
            or following in thing_words()
        )
    return True


def name_before(line: Line, i: int, sort: str, stop: int) -> tuple[int, list[str]]:
    """The words before a wall or room that name it, with the index of the first: "west end" of "west end wall"."""
    words = line.words
    names = place_words("modifiers")
    collected: list[str] = []
    k = i - 1
    while k >= stop and len(collected) < 3 and _may_name(line, k):
        collected.insert(0, words[k])
        k -= 1
    boundary = words[k] if k >= stop else ""
    if not collected:
        return i, []
    if (
        collected[0] in verbs()
        and collected[0] not in names
        and (k < stop or boundary in ("and", "to", "then", "must", "should"))
    ):
        collected = collected[1:]
    for n in range(len(collected) - 1, -1, -1):
        word = collected[n]
        if (
            word in thing_words()
            and word not in names
            and not (n == 0 and len(collected) == 1 and boundary in DETERMINERS)
        ):
            named_by = n == len(collected) - 1 and words[i] in place_words("compound") and not word.endswith("s")
            collected = collected[n if named_by else n + 1 :]
            break
    if sort == "surface" and boundary not in DETERMINERS:
        # "four hours chinking wall b": the work done on a wall is no name of it
        work = [n for n, word in enumerate(collected) if word in ing_forms() and word not in names]
        collected = collected[work[-1] + 1 :] if work else collected
    if sort == "room" and boundary not in DETERMINERS:
        while collected and collected[0] not in names and not (len(collected) == 1 and _names_room(words, i)):
            if len(collected) == 2 and k < stop and _is_odd_name(words, i - 2) and _is_odd_name(words, i - 1):
                break  # "linen press room", "sail makers loft" at the beginning
            collected = collected[1:]
    if collected == ["right"] and i - 1 == 0:
        collected = []
    return i - len(collected), collected


def _names_room(words: Sequence[str], i: int) -> bool:
    """Whether the word before the room at `i` makes a name with it that no table has: "tally room", "watch room"."""
    before = words[i - 1]
    if before in past_forms():
        return False
    if words[i] not in place_words("compound"):
        told_apart = words[i] not in place_words("numbered") or words[i] in words_of("named_stalls")
        return told_apart and _is_odd_name(words, i - 1)
    if before in thing_words():
        return not before.endswith("s")
    if before in ing_forms():
        return i == 1 or words[i - 2] in ("in", "at", "of", "to", "and")
    return before not in verbs() or before in place_words("room_verbs")


def _is_odd_name(words: Sequence[str], k: int) -> bool:
    """ "Cheese cellar", "snow porch": a word that is no thing, work, wood or day stands before a room as its name."""
    word = words[k]
    if word in thing_words() or word in verbs() or word in ing_forms() or word in words_of("no_room_name"):
        return False
    plural = word.endswith("s") and not word.endswith(("ss", "us"))
    return not plural and not word.endswith("ly") and species().at(words, k) is None


def _may_name(line: Line, k: int) -> bool:
    word = line.words[k]
    if word in place_words("not_names") or (
        word in function_words() and word not in ("right", "back", "inside", "outside", "near")
    ):
        return False
    if k in line.places or len(word) == 1 or word.startswith("'") or word[0].isdecimal():
        return False
    if word in dimension_words() and (word not in ("long", "high") or (k and line.figure_over(k - 1) is not None)):
        return False
    return line.figure_over(k) is None and number_like(line.words, k) is None
