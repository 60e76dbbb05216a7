"""The thing that words name, less places, dimensions, figures and small words."""

from __future__ import annotations

from journal.extract.context import Context
from journal.extract.dimensions import other_verbs, other_words
from journal.extract.line import DimensionWord, PlaceWord, joined
from journal.extract.sets import words_of
from journal.extract.unitwords import plural
from journal.extract.vocabulary import function_words, past_forms, thing_words


def names_a_thing(ctx: Context, d: DimensionWord) -> bool:
    """Whether a dimension word is part of a thing's name: "centre board", "rake board", "length of rebar"."""
    words = ctx.line.words
    following = words[d.j] if d.j < len(words) else ""
    if d.name == "centre":
        if (
            d.words not in ("centre", "center", "middle")
            or d.j in ctx.line.figures
            or words[d.i - 2 : d.i] == ["in", "the"]
        ):
            return False
        return (
            following != ""
            and following not in function_words()
            and following != "line"
            and d.j not in ctx.line.dimensions
        )
    if d.j - d.i == 1 and d.words in ("rake", "run", "gap", "span", "rise", "reveal", "overhang", "diagonal"):
        return following in (
            "board",
            "boards",
            "beam",
            "strip",
            "strips",
            "filler",
            "brace",
            "braces",
            "trim",
            "wall",
            "rafter",
            "rafters",
        )
    return False


def last_place(ctx: Context, i: int, j: int) -> PlaceWord | None:
    """The last place named in words `i` to `j`."""
    named = [p for k, p in ctx.line.places.items() if i <= k < j]
    return max(named, key=lambda p: p.i) if named else None


def thing(ctx: Context, i: int, j: int) -> tuple[list[str], PlaceWord | None]:
    """The words of the thing named in `i` to `j`, and the last place there; a name after "and" starts anew."""
    line, words = ctx.line, ctx.line.words
    named: list[str] = []
    place = None
    fresh = False
    small = function_words()
    k = i
    while k < j:
        if k in line.places:
            place, k = line.places[k], line.places[k].j
            continue
        if k in ctx.labels:
            end, label = ctx.labels[k]
            named.extend(label.split())
            k = end
            continue
        dim = line.dimensions.get(k)
        if dim is not None and not names_a_thing(ctx, dim):
            if dim.name == "centre" and _tells_side(words, k, named):
                named.extend(("of", words[k]))
            k = dim.j
            continue
        due = next((d for d in ctx.dues if d.i <= k < d.j), None) if ctx.dues else None
        if due is not None:
            k = due.j
            continue
        if k in line.figures:
            figure = line.figures[k]
            if figure.kind == "section" and figure.section and k not in ctx.used:
                named.append(figure.section)
            k = figure.j
            continue
        word = words[k]
        if named and word in words_of("copulas"):
            k = _after_predicate(ctx, k + 1, j)
            continue
        if word in ("and", "then", "but", "so"):
            if word == "and" and _joins_names(ctx, k, j, named):
                named.append(word)
            else:
                fresh = bool(named)
        elif (word in words_of("no_thing") and not _is_noun(words, k)) or _begins_a_list(ctx, k, j):
            pass
        elif word == "the" and named and not named[-1].isdigit() and k > i and not joins_names(words, k):
            fresh = True
        elif word == "one" and named and _stands_for(ctx, named, k + 1 < j):
            named.extend(w for w in (ctx.thing or "").split() if not w.isdigit() and w not in words_of("which_of_them"))
        elif words[k - 1] in words_of("copulas") and k > i and word in past_forms():
            pass
        elif word in other_verbs():
            named.append(other_verbs()[word])
        elif (
            word == "a"
            and k > i
            and words[k - 1] in words_of("lettered")
            and k + 1 < j
            and words[k + 1] in words_of("copulas")
        ):
            named.append(word)
        elif word not in small or _is_side(words, k, j):
            if fresh:
                named, fresh = [], False
            named.append(word)
        k += 1
    return named, place


def _after_predicate(ctx: Context, k: int, j: int) -> int:
    """The index after what only says what a thing is: "the cap's a chestnut piece four foot long", "is octagonal"."""
    words, line = ctx.line.words, ctx.line
    if k < j and words[k] in ("a", "an"):
        ends = words_of("prepositions", "conjunctions", "phrase_ends")
        while k < j and words[k] not in ends and k not in line.figures and k not in line.dimensions:
            if words[k] in other_words() or k in line.places or k in ctx.labels:
                return k
            k += 1
        return k
    alone = k + 1 < len(words) and (k + 1 == j or words[k + 1] == "and") and k < j
    known = not alone or words[k] in function_words() | thing_words() | other_words() | words_of("which_of_them")
    known = known or k in line.places or k in line.dimensions or k in line.figures or k in ctx.labels
    return k if known or words[k] in other_verbs() or words[k] in words_of("no_thing") else k + 1


def _begins_a_list(ctx: Context, k: int, j: int) -> bool:
    """ "Gable r first the base is …": what is told first, no name of a thing ("the first is …", "first board")."""
    words, line = ctx.line.words, ctx.line
    if words[k] != "first" or (k and words[k - 1] in words_of("determiners")):
        return False
    small = k + 1 < len(words) and words[k + 1] in function_words() - words_of("copulas") - {"one"}
    return small or k + 1 >= j or k + 1 in line.dimensions or k + 1 in line.places


def _stands_for(ctx: Context, named: list[str], more: bool) -> bool:
    """Whether "one" after a name stands for the thing before: "the west one is", "second one fifty seven"."""
    return bool(ctx.thing) and named[-1] not in function_words() and (more or named[-1] in words_of("which_of_them"))


def joins_names(words: list[str], k: int) -> bool:
    """Whether an article at word `k` goes on with the name before it: "top of the stack", "joists under the tub"."""
    return words[k - 1] in words_of("prepositions") | {"all", "both"} or words[k - 1] in words_of("joins_names")


def _tells_side(words: list[str], k: int, named: list[str]) -> bool:
    """Whether a centre tells which of several things is meant: "first board left of centre"."""
    return k > 1 and words[k - 1] == "of" and bool(named) and named[-1] in words_of("which_of_them")


def _is_noun(words: list[str], k: int) -> bool:
    """Whether a word that is a verb elsewhere is a noun here: "start board", "at the end", "left jamb"."""
    word, before, following = words[k], words[k - 1] if k else "", words[k + 1] if k + 1 < len(words) else ""
    if word not in words_of("nouns_too"):
        return False
    if word == "left":
        return following not in ("a", "an", "the", "some", "about")
    if following in thing_words() and following not in function_words():
        return True
    if word in ("slope", "pitch"):
        return before in words_of("which_of_them")
    return before in words_of("which_of_them") | {"the", "a", "at", "each", "both", "either"}


def _joins_names(ctx: Context, k: int, j: int, named: list[str]) -> bool:
    """ "The tongue and groove boards", "sill and plate": an "and" inside a name, nothing said of its first part yet."""
    words = ctx.line.words
    if (
        not named
        or k + 1 >= j
        or k + 1 in ctx.line.places
        or k + 1 in ctx.line.dimensions
        or words[k - 1] in function_words()
    ):
        return False
    return words[k + 1] not in function_words() and words[k - 1 : k + 2] in (
        ["tongue", "and", "groove"],
        ["board", "and", "batten"],
        ["mortise", "and", "tenon"],
        ["post", "and", "beam"],
    )


def _is_side(words: list[str], k: int, j: int) -> bool:
    if words[k] not in ("right", "back", "inside", "outside"):
        return False
    if k + 1 < j and words[k + 1] in words_of("sides"):
        return True
    if words[k] == "back" and words[k - 2 : k] in (["at", "the"], ["on", "the"]) and k + 1 == j:
        return True  # "fourteen at the front ten at the back"
    return (
        words[k] == "right" and k > 0 and words[k - 1] in ("the", "on") and (k + 1 >= j or words[k + 1] in ("is", "'s"))
    )


def about(ctx: Context, named: list[str]) -> str | None:
    """The name of a thing without the words of its place before it."""
    text = list(named)
    place_words = set((ctx.place or "").lower().split())
    while len(text) > 1 and text[0] in place_words and text[0] not in thing_words():
        text.pop(0)
    text = [word for k, word in enumerate(text) if k + 1 >= len(text) or word != plural(text[k + 1])]
    return joined(text) or None
