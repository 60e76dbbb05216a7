"""Places named in a memo, in the journal's form: "the wall marked b" is "wall B", "the floor of the loft" is "loft floor".

"Same wall" and "over here" point back to the place of the memo before, or to the last one named in this memo.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache

from journal.extract.compounds import combined, without_features
from journal.extract.line import Line, PlaceWord, joined
from journal.extract.newplaces import find_new_places, is_new_noun
from journal.extract.phrases import Phrases, split_words
from journal.extract.placenames import (
    faced_side,
    is_modified,
    letter_after,
    letter_before,
    letter_of,
    name_before,
    owner_of,
    side_of,
)
from journal.extract.placewords import DETERMINERS, heads, is_led, place_phrases, place_words, weak_words
from journal.extract.sets import words_of
from journal.extract.unitwords import label_nouns
from journal.extract.vocabulary import thing_words
from journal.grammar import table
from journal.records import Known


def find_places(line: Line, labels: dict[int, tuple[int, str]], known: Known) -> None:
    """Every place of the line, by its first word, with those that only point back."""
    words = line.words
    things, here = place_phrases("things"), place_phrases("here")
    named = _known(known)
    mentions: list[PlaceWord] = []
    i = 0
    beginnings = _beginnings()
    begins_known = named.first_words() if named else frozenset()
    while i < len(words):
        if words[i] not in beginnings and words[i] not in begins_known:
            i += 1
            continue
        if words[i] in label_nouns() and i + 1 in labels and _is_thing(words, i):
            i = labels[i + 1][0]
            continue
        if (thing := things.at(words, i)) and not _of_place(line, i, thing[1], mentions):
            i = thing[1]
            continue
        place = None
        if named and (match := named.at(words, i)):
            place = PlaceWord(i, match[1], match[0], head=words[match[1] - 1])
        place = place or _pointing(line, i, known, mentions) or _place_at(line, i, labels, mentions, known)
        if place is None and (pointer := here.at(words, i)) and _points(words, i, pointer[1]):
            named_here = [m for m in mentions if not (_before_thing(words, m) or _stands_here(m, i))]
            name = named_here[-1].name if named_here else known.carried_place
            name = name or (mentions[-1].name if mentions else None)
            if name is not None:
                place = PlaceWord(i, pointer[1], name, carried=True)
        if place is None:
            i += 1
            continue
        mentions.append(place)
        i = place.j
    for place in combined(line, without_features(words, mentions)):
        line.places[place.i] = place
    find_new_places(line, known)


@cache
def _beginnings() -> frozenset[str]:
    """Words at which a place, a thing named like one, or a pointer to one can be found."""
    things, here = place_phrases("things"), place_phrases("here")
    return heads().first_words() | things.first_words() | here.first_words() | label_nouns() | {"same", "this", "that"}


@lru_cache(maxsize=8)  # each new place makes another table
def _known_phrases(places: frozenset[str], aliases: tuple[tuple[str, str], ...]) -> Phrases[str] | None:
    entries = {name.lower(): name for name in places if " " in name.strip() or is_new_noun(name)}
    entries |= {a.lower(): name for a, name in aliases if a.strip()}
    entries = {name: place for name, place in entries.items() if split_words(name)}
    return Phrases(entries) if entries else None


def _known(known: Known) -> Phrases[str] | None:
    """The places of the journal and their other names; a word that the tables have is no such name by itself."""
    places, last = known.places, known.carried_place
    if last and last not in places and ("'" in last or is_new_noun(last.split()[-1])):
        places |= {last}
    if not places and not known.aliases:
        return None
    return _known_phrases(places, tuple(sorted((known.aliases or {}).items())))


def _is_thing(words: Sequence[str], i: int) -> bool:
    """Whether a numbered noun is a thing ("stud bay two") and no place ("frame five", "wall two")."""
    numbered = place_words("numbered")
    return words[i] not in numbered or (i > 0 and f"{words[i - 1]} {words[i]}" in table("places")["things"])


def _of_place(line: Line, i: int, end: int, mentions: list[PlaceWord]) -> bool:
    """ "Far end wall board five", "nave ceiling joist six": a surface with a name or a room before it is no part of the thing."""
    beside = bool(mentions) and mentions[-1].j == i and not mentions[-1].carried
    if beside and line.words[i] in place_words("surfaces") and mentions[-1].head not in place_words("surfaces"):
        return True
    return is_modified(line, i, mentions[-1].j if mentions else 0)


def _points(words: Sequence[str], i: int, end: int) -> bool:
    if words[i] == "here" and i and words[i - 1] in ("is", "'s"):
        return True
    return not (words[i] in ("that", "this", "same") and end < len(words) and words[end] in ("of", "was"))


def _pointing(line: Line, i: int, known: Known, mentions: list[PlaceWord]) -> PlaceWord | None:
    """ "Same wall", "this gable": the place of the memo before, or the last one of this memo with that head."""
    words = line.words
    if words[i] not in ("same", "this", "that"):
        return None
    k = i + 1 + (words[i] in ("this", "that") and words[i + 1 : i + 2] == ["same"])
    head = heads().at(words, k) if k < len(words) else None
    if head is None and words[i] == "same" and _same_thing(words, i) and not mentions and known.carried_place:
        return PlaceWord(i, i + 1, known.carried_place, carried=True)
    if head is None or (i and words[i] == "that" and words[i - 1] in ("scratch", "strike", "scrap", "make", "call")):
        return None
    noun = words[head[1] - 1]
    if head[0] in ("numbered", "led") and not any(
        noun in (name or "").split() for name in [known.carried_place, *(m.name for m in mentions)]
    ):
        return None
    for mention in reversed(mentions):
        if noun in mention.name.split() or (not mention.carried and words[i] == "same"):
            return PlaceWord(i, head[1], mention.name, carried=True, head=noun)
    if words[i] == "that" and known.carried_place is None:
        return None
    if known.carried_place is None:
        return None
    return PlaceWord(i, head[1], known.carried_place, carried=True, head=noun)


def _before_thing(words: Sequence[str], mention: PlaceWord) -> bool:
    """ "Slip door": a part of a building that tells which door, so that "in here" is not there."""
    return mention.name in place_words("features") and mention.j < len(words) and words[mention.j] in thing_words()


def _stands_here(mention: PlaceWord, i: int) -> bool:
    """ "The hearth in here": a part of a building straight before "in here" stands in the place that is gone on about."""
    return mention.j == i and mention.name in place_words("features")


def _same_thing(words: Sequence[str], i: int) -> bool:
    """ "Same beam's six foot long": a thing of the place before, gone on about."""
    return (
        i + 1 < len(words)
        and words[i + 1] in thing_words()
        and (i == 0 or words[i - 1] in DETERMINERS | {"and", "on", "so"})
    )


def _place_at(
    line: Line, i: int, labels: dict[int, tuple[int, str]], mentions: list[PlaceWord], known: Known
) -> PlaceWord | None:
    words = line.words
    head = heads().at(words, i)
    if head is None:
        return None
    sort, end = head
    noun = joined(words[i:end])
    stop = mentions[-1].j if mentions else 0
    start, before = name_before(line, i, sort, stop)
    joined_on = bool(mentions) and stop == i and not mentions[-1].carried
    surface = sort == "surface"
    numbered = end in labels and labels[end][1].isdigit() and words[end - 1] in place_words("numbered")
    if noun in place_words("lettered") and (lettered := letter_of(line, i, end, noun)) is not None:
        return lettered
    if sort == "numbered":
        if numbered:
            return PlaceWord(i, labels[end][0], f"{noun} {labels[end][1]}", head=noun)
        return side_of(words, i, end, stop)
    in_room = joined_on and words[end : end + 1] != ["a"] and mentions[-1].head not in place_words("surfaces")
    if surface and not before and (in_room or not joined_on):
        label = letter_after(line, end, noun, labels)
        if label:
            return PlaceWord(i, label[1], f"{noun} {label[0]}", head=noun)
        letter = words[i - 1] if i else ""
        if len(letter) == 1 and letter.isalpha() and letter_before(words, i):
            return PlaceWord(i - 1, end, f"{noun} {letter.upper()}", head=noun)
    kind_of_wall = len(before) == 1 and before[0] in words_of("wall_kinds")
    if numbered and (not (before and surface) or joined_on or kind_of_wall):
        return PlaceWord(start, labels[end][0], " ".join([*before, noun, labels[end][1]]), head=noun)
    if sort == "room" and not before and (owned := owner_of(line, i, stop)) is not None:
        return PlaceWord(owned[0], end, f"{owned[1]} {noun}", head=noun)
    if surface and not before and (faced := faced_side(words, end)) is not None:
        return PlaceWord(i, faced[1], f"{faced[0]} {noun}", head=noun)
    if surface and not before:
        # a bare "floor" or "roof" is a thing, unless it goes with a place beside it ("floor of the loft")
        return PlaceWord(i, end, noun, head=noun)
    following = words[end] if end < len(words) else ""
    if noun == "mess" and i and words[i - 1] == "a":
        return None  # "what a mess"
    on_file = noun == known.carried_place or noun in known.places
    led = is_led(words, start, noun) or (on_file and (start == 0 or words[start - 1] in DETERMINERS))
    if sort == "led" and (not led or following == "of"):
        return None
    if noun in place_words("sides") and not before and following in words_of("rows") - {noun} and end + 1 not in labels:
        return PlaceWord(i, end + 1, f"{noun} {following}", head=following)  # "the yard frame"
    # rooms whose name also stands before another room's: "mill house", while "barn loft" stays two
    if end < len(words) and words[end] in place_words("joins") and noun in place_words("joined"):
        return None
    if (
        noun in ("pier", "block", "gate", "mill", "house")
        and not before
        and end < len(words)
        and words[end] in thing_words()
        and words[end].endswith("s")
        and not (noun == "pier" and words[end] in words_of("of_a_jetty"))
    ):
        return None
    if (
        noun in weak_words()
        and not before
        and not joined_on
        and i
        and words[i - 1] not in DETERMINERS | {"in", "at", "on"}
    ):
        return None
    if noun in place_words("numbered") and not before and i and words[i - 1] == "the":
        jetty = noun == "pier" and following in words_of("of_a_jetty")
        if noun in place_words("parts") and following in thing_words() and not jetty:
            return None
        for mention in reversed(mentions):
            if mention.head == noun and mention.name != noun:
                return PlaceWord(i, end, mention.name, carried=True, head=noun)
    return PlaceWord(start, end, " ".join([*before, noun]), head=noun)
