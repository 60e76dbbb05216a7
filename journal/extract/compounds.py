"""Mentions that make one place together ("floor of the loft", "gable above wall c"), and those that are none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from journal.extract.line import Line, PlaceWord
from journal.extract.placewords import DETERMINERS, place_phrases, place_words, weak_words
from journal.extract.sets import words_of
from journal.extract.vocabulary import dimension_words, function_words, thing_words

_JOINTS = frozenset({"of", "in", "on", "over", "at"})


def without_features(words: Sequence[str], mentions: list[PlaceWord]) -> list[PlaceWord]:
    """The places less parts of a building that are things there: "forge hearth", "the slip door", "stall two in the granary"."""
    features, parts, fixtures = place_words("features"), place_words("parts"), place_words("fixtures")
    kept: list[PlaceWord] = []
    listed: set[str] = set()
    for n, mention in enumerate(mentions):
        if kept and _heads_list(words, mentions, n):
            kept[-1] = replace(kept[-1], j=mention.j)
            continue
        if _is_listed(words, kept, mention) or mention.head in listed:
            listed.add(mention.head)
            continue  # "veranda widths bay one … bay two …": bays of the place
        following = words[mention.j] if mention.j < len(words) else ""
        after = mentions[n + 1] if n + 1 < len(mentions) else None
        inside = (
            after is not None
            and (following in ("in", "of") or (following in ("at", "on") and mention.name in features))
            and not after.carried
            and after.head not in place_words("surfaces")
            and not _between(words, mention.j + 1, after.i)
        )
        surface = after is not None and after.i == mention.j and after.head in place_words("surfaces")
        here = after is not None and after.i == mention.j and after.carried and after.name != mention.name
        if mention.carried or surface:
            kept.append(mention)
        elif (mention.name in features or mention.name in weak_words()) and _is_part(words, mentions, n):
            continue  # "the hearth slab in the bake house"
        elif here and mention.name in features:
            continue  # "the hearth in here"
        elif inside and following == "in" and mention.name.split()[-1] in words_of("furniture"):
            continue  # "the damp cupboard in the throwing room"
        elif mention.name in features and following in thing_words() and _elsewhere(mentions, mention):
            continue  # "slip door in here": a door of the place that is gone on about
        elif mention.head in place_words("numbered") and mention.name[-1].isdigit() and mention.j - mention.i > 1:
            beside = bool(kept) and kept[-1].j == mention.i and kept[-1].head not in place_words("surfaces")
            if not (inside or (beside and mention.head in features)):
                kept.append(mention)
        elif not (inside and following != "of" and mention.head in features) and not (
            mention.name in features
            and not (kept and kept[-1].j == mention.i and mention.name not in fixtures)
            and (
                inside
                or any(place.name != mention.name for place in kept)
                or (mention.name in parts and following in thing_words() and not _is_jetty(mention, following))
            )
        ):
            kept.append(mention)
    return kept


def _heads_list(words: Sequence[str], mentions: list[PlaceWord], n: int) -> bool:
    """ "Cart shed bay widths bay one …": the bare noun straight behind a building that says what its list is of."""
    one, following = mentions[n], mentions[n + 1 : n + 2]
    return (
        one.name in place_words("listed")
        and n > 0
        and mentions[n - 1].j == one.i
        and bool(following)
        and following[0].head == one.name
        and following[0].name[-1].isdigit()
        and following[0].i - one.j <= 2
    )


def _is_listed(words: Sequence[str], kept: list[PlaceWord], mention: PlaceWord) -> bool:
    """Whether a numbered bay or stall heads a list right behind its building: no figure and no preposition between."""
    if not kept or mention.head not in place_words("listed") or not mention.name[-1].isdigit() or mention.carried:
        return False
    if kept[-1].name[-1].isdigit() or kept[-1].head == mention.head or mention.name.split()[0] != mention.head:
        return False
    between = words[kept[-1].j : mention.i]
    return len(between) <= 3 and all(word in dimension_words() or word in ("list", "sizes") for word in between)


def _is_part(words: Sequence[str], mentions: list[PlaceWord], n: int) -> bool:
    """Whether a mention stands before a thing and "in", "at" or "on" another place follows that."""
    mention, after = mentions[n], mentions[n + 1] if n + 1 < len(mentions) else None
    if after is None or after.carried or after.head == mention.head or mention.j >= len(words):
        return False
    lead = [word for word in words[mention.j : after.i] if word not in DETERMINERS]
    return 2 <= len(lead) <= 3 and lead[-1] in ("in", "at", "on") and lead[0] not in function_words()


def _is_jetty(mention: PlaceWord, following: str) -> bool:
    """Whether a pier is one that goes out over water: "the pier stringers", no "pier footing"."""
    return mention.name == "pier" and following in words_of("of_a_jetty")


def _elsewhere(mentions: list[PlaceWord], mention: PlaceWord) -> bool:
    """Whether the memo goes on about another place than a mention of one of its features."""
    return any(other.carried and other.name != mention.name for other in mentions)


def combined(line: Line, mentions: list[PlaceWord]) -> list[PlaceWord]:
    """Places that belong together made one, and bare surfaces dropped that belong to none."""
    surfaces = place_words("surfaces")
    out: list[PlaceWord] = []
    for mention in mentions:
        if out and mention.name in place_words("fittings") and mention.i == out[-1].j and out[-1].head not in surfaces:
            continue  # "deck stairs" are stairs of the deck, "woodshed pier" is a pier there
        joined = _joined(line.words, out[-1], mention) if out else None
        if joined is not None:
            out[-1] = joined
        else:
            out.append(mention)
    return [place for place in out if place.name not in surfaces or _stands_alone(line.words, place)]


def _joined(words: Sequence[str], one: PlaceWord, two: PlaceWord) -> PlaceWord | None:
    """One place of two mentions: "gable above wall c", "floor of the loft", "porch roof" and "ceiling"; None where they stay two."""
    surfaces = place_words("surfaces")
    if one.carried:
        return None
    joint = _between(words, one.j, two.i)
    if one.name == "dormer" and two.i == one.j and two.name in surfaces:
        return PlaceWord(one.i, two.j, f"dormer {two.name}", head=two.head)
    if one.name in surfaces:
        last = two.name.split()[-1]
        if one.name == "gable" and two.head == "wall" and joint and place_phrases("above").at([*joint, ""], 0):
            lettered = len(last) == 1 or last.isdigit()
            name = f"gable {last}" if lettered else " ".join([*two.name.split()[:-1], "gable"])
            return PlaceWord(one.i, two.j, name, head="gable")
        led = len(joint) == 2 and joint[0] in words_of("place_particles") and joint[1] in ("in", "at", "on")
        goes = (led or (len(joint) == 1 and joint[0] in _JOINTS)) and two.name not in surfaces and two.head != one.name
        if goes and not _measured_from(words, one.i):
            return PlaceWord(one.i, two.j, f"{two.name} {one.name}", carried=two.carried, head=one.name)
        return None
    if two.carried:
        return None
    named_surface = one.head in surfaces and one.name not in surfaces and not _ends_in_label(one.name)
    if joint == ["in"] and named_surface and two.head not in surfaces:
        return PlaceWord(one.i, two.j, f"{two.name} {one.name}", head=one.head)  # "partition wall in the office"
    if joint in _BESIDE and one.head not in surfaces and two.head not in surfaces and one.head != two.head:
        return PlaceWord(one.i, two.j, one.name, head=one.head)  # "the loft over the garage" is the loft
    if joint == ["on"] and one.head == "dormer" and two.head == "roof":
        return PlaceWord(one.i, two.j, one.name, head=one.head)
    lettered = one.head in surfaces and one.name[-1].isupper() and two.head not in surfaces
    if joint in (["of"], ["in"]) and lettered and not _ends_in_label(two.name):
        return PlaceWord(one.i, two.j, f"{two.name} {one.name}", head=one.head)  # "wall b of the seed store"
    if joint == ["of"] and two.name not in surfaces and not one.name[-1].isupper():
        return PlaceWord(one.i, two.j, f"{two.name} {one.name}", head=one.head)
    if joint == ["'s"] and two.head in surfaces and not _ends_in_label(two.name) and one.head not in surfaces:
        return PlaceWord(one.i, two.j, f"{one.name} {two.name}", head=two.head)
    if two.i != one.j:
        return None
    if two.head in surfaces and one.head not in surfaces and not two.name[-1].isdigit():
        return PlaceWord(one.i, two.j, f"{one.name} {two.name}", head=two.head)
    if two.name in place_words("fittings"):
        return None
    if two.name in surfaces or (
        one.head != two.head and two.head not in surfaces and (len(two.name.split()) == 1 or two.name == two.head)
    ):
        return PlaceWord(one.i, two.j, f"{one.name} {two.name}", head=two.head)
    return None


# What a room may lie by, without being part of it.
_BESIDE = (["over"], ["above"], ["behind"], ["beside"], ["next", "to"], ["under"], ["below"], ["beyond"])


def _ends_in_label(name: str) -> bool:
    """Whether a place has a letter or number: "wall B", "dormer 2"."""
    return name[-1].isdigit() or (name[-1].isupper() and name[-2:-1] == " ")


def _measured_from(words: Sequence[str], i: int) -> bool:
    """Whether a surface is what something is measured from: "off the floor in the attic"."""
    k = i - 1
    while k >= 0 and words[k] in DETERMINERS:
        k -= 1
    if k > 1 and words[k] == "and" and "between" in words[max(0, k - 5) : k]:
        return True
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
    return [word for word in words[i:j] if word not in DETERMINERS]
