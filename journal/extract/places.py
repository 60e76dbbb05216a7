"""Places named in a memo, in the journal's form: "the wall marked b" is "wall B", "the floor of the loft" is "loft floor".

"Same wall" and "over here" point back to the place of the memo before, or to the last one named in this memo.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from journal.extract.line import Line, PlaceWord
from journal.extract.phrases import Phrases, split_words
from journal.extract.unitwords import label_nouns, number_like
from journal.extract.vocabulary import dimension_words, function_words, ing_forms, thing_words, verbs
from journal.grammar import table
from journal.records import Doubt, Known

_JOINTS = frozenset({"of", "in", "on", "over", "at"})
_DETERMINERS = frozenset({"the", "a", "an", "my", "our", "their", "his", "that", "this"})


@cache
def _heads() -> Phrases[str]:
    data = table("places")
    sorts = dict.fromkeys(data["numbered"], "numbered") | dict.fromkeys(data["rooms"], "room")
    return Phrases(sorts | dict.fromkeys(data["surfaces"], "surface"))


@cache
def _tables() -> tuple[
    Phrases[str],
    Phrases[str],
    Phrases[str],
    Phrases[str],
    dict[str, str],
    frozenset[str],
    frozenset[str],
    frozenset[str],
    frozenset[str],
]:
    data = table("places")
    return (
        Phrases.of(data["things"], "thing"), Phrases.of(data["here"], "here"), Phrases.of(data["above"], "above"),
        Phrases.of(data["marked"], "marked"), data["letter_words"], frozenset(data["surfaces"]),
        frozenset(data["modifiers"]), frozenset(data["not_names"]), frozenset(data["numbered"]),
    )  # fmt: skip


def find_places(line: Line, labels: dict[int, tuple[int, str]], known: Known) -> None:
    """Every place of the line, by its first word, with those that only point back."""
    words = line.words
    things, here, *_ = _tables()
    named = _known(known)
    mentions: list[PlaceWord] = []
    i = 0
    beginnings = _beginnings()
    while i < len(words):
        if words[i] not in beginnings and not (named and words[i] in named.first_words()):
            i += 1
            continue
        if words[i] in label_nouns() and i + 1 in labels and _is_thing(words, i):
            i = labels[i + 1][0]
            continue
        if (thing := things.at(words, i)) and not _is_modified(line, i, mentions[-1].j if mentions else 0):
            i = thing[1]
            continue
        place = None
        if named and (match := named.at(words, i)):
            place = PlaceWord(i, match[1], match[0], head=words[match[1] - 1])
        place = place or _pointing(line, i, known, mentions) or _place_at(line, i, labels, mentions)
        if place is None and (pointer := here.at(words, i)) and _points(words, i, pointer[1]):
            name = mentions[-1].name if mentions else known.carried_place
            if name is not None:
                place = PlaceWord(i, pointer[1], name, carried=True)
        if place is None:
            i += 1
            continue
        mentions.append(place)
        i = place.j
    for place in _combined(line, _without_features(words, mentions)):
        line.places[place.i] = place


@cache
def _beginnings() -> frozenset[str]:
    """Words at which a place, a thing named like one, or a pointer to one can be found."""
    things, here, *_ = _tables()
    return _heads().first_words() | things.first_words() | here.first_words() | label_nouns() | {"same", "this", "that"}


@cache
def _features() -> tuple[frozenset[str], frozenset[str], frozenset[str]]:
    data = table("places")
    return frozenset(data["features"]), frozenset(data["parts"]), frozenset(data["fixtures"])


def _without_features(words: Sequence[str], mentions: list[PlaceWord]) -> list[PlaceWord]:
    """The places less parts of a building that are things there: "forge hearth", "the slip door", "stall two in the granary"."""
    features, parts, fixtures = _features()
    kept: list[PlaceWord] = []
    for n, mention in enumerate(mentions):
        following = words[mention.j] if mention.j < len(words) else ""
        after = mentions[n + 1] if n + 1 < len(mentions) else None
        inside = (
            after is not None
            and following in ("in", "of")
            and not after.carried
            and after.head not in _tables()[5]
            and not _between(words, mention.j + 1, after.i)
        )
        surface = after is not None and after.i == mention.j and after.head in _tables()[5]
        if mention.carried or surface:
            kept.append(mention)
        elif mention.head in _tables()[8] and mention.name[-1].isdigit() and mention.j - mention.i > 1:
            beside = bool(kept) and kept[-1].j == mention.i and kept[-1].head not in _tables()[5]
            if not (inside or (beside and mention.head in features)):
                kept.append(mention)
        elif not (inside and following == "in" and mention.head in features) and not (
            mention.name in features
            and not (kept and kept[-1].j == mention.i and mention.name not in fixtures)
            and (
                inside
                or any(place.name != mention.name for place in kept)
                or (mention.name in parts and following in thing_words())
            )
        ):
            kept.append(mention)
    return kept


@cache
def _known_phrases(places: frozenset[str], aliases: tuple[tuple[str, str], ...]) -> Phrases[str] | None:
    entries = {name.lower(): name for name in places if name.strip()} | {
        a.lower(): name for a, name in aliases if a.strip()
    }
    entries = {name: place for name, place in entries.items() if split_words(name)}
    return Phrases(entries) if entries else None


def _known(known: Known) -> Phrases[str] | None:
    if not known.places and not known.aliases:
        return None
    return _known_phrases(frozenset(p for p in known.places if " " in p), tuple(sorted((known.aliases or {}).items())))


def _is_thing(words: Sequence[str], i: int) -> bool:
    """Whether a numbered noun is a thing ("stud bay two") and no place ("frame five", "wall two")."""
    numbered = _tables()[8]
    return words[i] not in numbered or (i > 0 and f"{words[i - 1]} {words[i]}" in table("places")["things"])


def _is_modified(line: Line, i: int, stop: int) -> bool:
    """Whether a wall or room has a name of its own before it: "far end wall board five" is about its board five."""
    head = _heads().at(line.words, i)
    return head is not None and line.words[i] in _tables()[5] and bool(_modifiers(line, i, head[0], stop)[1])


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
    head = _heads().at(words, k) if k < len(words) else None
    if head is None or (i and words[i] == "that" and words[i - 1] in ("scratch", "strike", "scrap", "make", "call")):
        return None
    noun = words[head[1] - 1]
    if head[0] == "numbered" and not any(
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


def _place_at(line: Line, i: int, labels: dict[int, tuple[int, str]], mentions: list[PlaceWord]) -> PlaceWord | None:
    words = line.words
    head = _heads().at(words, i)
    if head is None:
        return None
    sort, end = head
    noun = " ".join(words[i:end])
    stop = mentions[-1].j if mentions else 0
    start, before = _modifiers(line, i, sort, stop)
    joined_on = bool(mentions) and stop == i and not mentions[-1].carried
    surface = sort == "surface"
    numbered = end in labels and labels[end][1].isdigit() and noun in _tables()[8]
    if sort == "numbered":
        return PlaceWord(i, labels[end][0], f"{noun} {labels[end][1]}", head=noun) if numbered else None
    if surface and not before and not joined_on:
        label = _letter_after(line, end, noun, labels)
        if label:
            return PlaceWord(i, label[1], f"{noun} {label[0]}", head=noun)
        letter = words[i - 1] if i else ""
        if len(letter) == 1 and letter.isalpha() and _letter_before(words, i):
            return PlaceWord(i - 1, end, f"{noun} {letter.upper()}", head=noun)
    if numbered and not (before and surface):
        return PlaceWord(start, labels[end][0], " ".join([*before, noun, labels[end][1]]), head=noun)
    if surface and not before:
        # a bare "floor" or "roof" is a thing, unless it goes with a place beside it ("floor of the loft")
        return PlaceWord(i, end, noun, head=noun)
    if end < len(words) and words[end] in _joins() and noun in _names_rooms():
        return None
    if (
        noun in ("pier", "block", "gate", "mill", "house")
        and not before
        and end < len(words)
        and words[end] in thing_words()
        and words[end].endswith("s")
    ):
        return None
    if noun in _weak() and not before and not joined_on and i and words[i - 1] not in _DETERMINERS | {"in", "at", "on"}:
        return None
    if noun in _tables()[8] and not before and i and words[i - 1] == "the":
        if noun in _features()[1] and end < len(words) and words[end] in thing_words():
            return None
        for mention in reversed(mentions):
            if mention.head == noun and mention.name != noun:
                return PlaceWord(i, end, mention.name, carried=True, head=noun)
    return PlaceWord(start, end, " ".join([*before, noun]), head=noun)


@cache
def _weak() -> frozenset[str]:
    return frozenset(table("places")["weak"])


@cache
def _joins() -> frozenset[str]:
    return frozenset(table("places")["joins"])


@cache
def _names_rooms() -> frozenset[str]:
    """Rooms whose name also stands before another room's: "mill house", "barn loft" stays two."""
    return frozenset(table("places")["joined"])


def _letter_before(words: Sequence[str], i: int) -> bool:
    letter = words[i - 1]
    if letter == "a":
        return i >= 2 and words[i - 2] in ("the", "on", "at", "of")
    return letter != "i" or (i >= 2 and words[i - 2] in ("the", "on"))


def _letter_after(line: Line, end: int, noun: str, labels: dict[int, tuple[int, str]]) -> tuple[str, int] | None:
    """The letter or number that names a wall: straight after it, or after "marked"."""
    words = line.words
    if end >= len(words):
        return None
    marked = _tables()[3].at(words, end)
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
    letter = _tables()[4].get(word)
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


def _modifiers(line: Line, i: int, sort: str, stop: int) -> tuple[int, list[str]]:
    """The words before a wall or room that name it, with the index of the first: "west end" of "west end wall"."""
    words = line.words
    names = _tables()[6]
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
            and not (n == 0 and len(collected) == 1 and boundary in _DETERMINERS)
        ):
            collected = collected[n + 1 :]
            break
    if sort == "surface" and boundary not in _DETERMINERS:
        # "four hours chinking wall b": the work done on a wall is no name of it
        work = [n for n, word in enumerate(collected) if word in ing_forms() and word not in names]
        collected = collected[work[-1] + 1 :] if work else collected
    if sort == "room" and boundary not in _DETERMINERS:
        while collected and collected[0] not in names:
            collected = collected[1:]
    if collected == ["right"] and i - 1 == 0:
        collected = []
    return i - len(collected), collected


def _may_name(line: Line, k: int) -> bool:
    word = line.words[k]
    if word in _tables()[7] or (
        word in function_words() and word not in ("right", "back", "inside", "outside", "near")
    ):
        return False
    if k in line.places or len(word) == 1 or word.startswith("'") or word[0].isdecimal():
        return False
    if word in dimension_words() and word not in ("long", "high"):
        return False
    return line.figure_over(k) is None and number_like(line.words, k) is None


def _combined(line: Line, mentions: list[PlaceWord]) -> list[PlaceWord]:
    """Places that belong together made one, and bare surfaces dropped that belong to none."""
    surfaces = _tables()[5]
    out: list[PlaceWord] = []
    for mention in mentions:
        joined = _joined(line.words, out[-1], mention) if out else None
        if joined is not None:
            out[-1] = joined
        else:
            out.append(mention)
    return [place for place in out if place.name not in surfaces or _stands_alone(line.words, place)]


def _joined(words: Sequence[str], one: PlaceWord, two: PlaceWord) -> PlaceWord | None:
    """One place of two mentions: "gable above wall c", "floor of the loft", "porch roof" and "ceiling"; None where they stay two."""
    surfaces = _tables()[5]
    if one.carried:
        return None
    joint = _between(words, one.j, two.i)
    if one.name == "dormer" and two.i == one.j and two.name in surfaces:
        return PlaceWord(one.i, two.j, f"dormer {two.name}", head=two.head)
    if one.name in surfaces:
        last = two.name.split()[-1]
        if one.name == "gable" and two.head == "wall" and joint and _tables()[2].at([*joint, ""], 0):
            lettered = len(last) == 1 or last.isdigit()
            name = f"gable {last}" if lettered else " ".join([*two.name.split()[:-1], "gable"])
            return PlaceWord(one.i, two.j, name, head="gable")
        goes = len(joint) == 1 and joint[0] in _JOINTS and two.name not in surfaces and two.head != one.name
        if goes and not _measured_from(words, one.i):
            return PlaceWord(one.i, two.j, f"{two.name} {one.name}", carried=two.carried, head=one.name)
        return None
    if two.carried:
        return None
    if joint == ["of"] and two.name not in surfaces and not one.name[-1].isupper():
        return PlaceWord(one.i, two.j, f"{two.name} {one.name}", head=one.head)
    if two.i != one.j:
        return None
    if two.name in surfaces or (one.head != two.head and two.head not in surfaces and len(two.name.split()) == 1):
        return PlaceWord(one.i, two.j, f"{one.name} {two.name}", head=two.head)
    return None


def _measured_from(words: Sequence[str], i: int) -> bool:
    """Whether a surface is what something is measured from: "off the floor in the attic"."""
    k = i - 1
    while k >= 0 and words[k] in _DETERMINERS:
        k -= 1
    return k >= 0 and words[k] in ("off", "from", "above", "below", "to", "under")


def _stands_alone(words: Sequence[str], place: PlaceWord) -> bool:
    """Whether a bare surface is a place: a roof or gable, where nothing is measured from it."""
    if place.name not in ("roof", "gable", "dormer"):
        return False
    following = words[place.j] if place.j < len(words) else ""
    return not _measured_from(words, place.i) and (
        following in function_words() or following == "" or following in dimension_words()
    )


def _between(words: Sequence[str], i: int, j: int) -> list[str]:
    return [word for word in words[i:j] if word not in _DETERMINERS]
