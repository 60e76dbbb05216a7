"""Tasks said by their verb alone: an order ("caulk the sill"), or work done ("caulked the sill")."""

from __future__ import annotations

from functools import cache

from journal.extract.sets import words_of
from journal.extract.stockwords import event_at, names_stock, species
from journal.extract.unitwords import burned_at, word_at
from journal.extract.utterance import TASKS, Clause, Utterance, particles
from journal.extract.verbpairs import no_copula, second_verb
from journal.extract.vocabulary import function_words, homographs, ing_forms, past_forms, thing_words, verbs

# What stands behind a verb that no list has, so that it is taken for one.
_BEFORE_ITS_NOUN = frozenset({"the", "those", "these", "all", "both", "our", "my"})


@cache
def verb_words() -> frozenset[str]:
    """Words at which a verb known to us can stand."""
    other = {"finished", "done", "completed", "finish", "start", "keep", "stop", "wrapped", "got", "stopped"}
    return verbs() | past_forms().keys() | words_of("first_of_verb") | other


def order_or_past(said: Utterance, i: int) -> Clause | None:
    """The task whose verb stands at word `i` without a lead-in, or None."""
    words = said.words
    word = words[i]
    begins = said.at_start(i) and word_at(words, i - 1) not in words_of("auxiliaries") and not said.in_condition(i)
    if begins and (second := second_verb(said, i)):
        said.last = second
        return Clause(said.back_to_subject(i), 0, "past" if word in past_forms() and word not in verbs() else "bare", i)
    if word in verbs() and _is_order(said, i):
        return Clause(said.back_to_subject(i), 0, "bare", i)
    if (unknown := unknown_verb(said, i)) is not None:
        return unknown
    if word in ("finished", "done", "completed") and word_at(words, i + 1) in ing_forms() and said.at_start(i):
        return Clause(said.back_to_subject(i), 0, "finished", i + 1)
    if word in past_forms() and _is_past(said, i):
        return Clause(said.back_to_subject(i), 0, "past", i)
    if word in ("finish", "start", "keep", "stop") and _ordered_work(said, i):
        return Clause(said.back_to_subject(i), 0, "bare", i)
    if word in ("finished", "done", "completed", "wrapped", "got", "stopped") and said.at_start(i):
        k = i + 1 + (word_at(words, i + 1) in ("up", "off", "with"))
        if word_at(words, k) in ing_forms():
            return Clause(said.back_to_subject(i), 0, "finished", k)
        if word in ("finished", "completed") and (
            word_at(words, k) in words_of("determiners") or k in said.line.places
        ):
            return Clause(said.back_to_subject(i), 0, "past", i)
    return None


def _ordered_work(said: Utterance, i: int) -> bool:
    """ "Finish sanding the floor" is an order; "i finish …" is none."""
    words = said.words
    return (
        said.at_start(i)
        and word_at(words, i - 1) not in words_of("auxiliaries")
        and word_at(words, i + 1) in ing_forms()
        and not said.in_condition(i)
    )


def _is_order(said: Utterance, i: int) -> bool:
    words, line = said.words, said.line
    word, following, before = words[i], word_at(words, i + 1), word_at(words, i - 1)
    if i + 1 >= len(words) or following in words_of("not_verb_before") or i + 1 in line.labels or said.in_condition(i):
        return False
    measured = line.figures.get(i + 1)
    sized = measured is not None and measured.kind == "number" and word_at(words, measured.j) == "by"
    if measured is not None and (sized or measured.shade is not None or measured.j in line.dimensions):
        return False  # "panel a shy fifty six tall"
    if before == "or" or (before == "and" and f"{word_at(words, i - 2)} {word}" in noun_pairs()):
        return False
    if following in ("me", "us") and word_at(words, i + 2) in words_of("asks"):
        return False
    if any(f.kind == "hours" and i < k <= i + 2 for k, f in line.figures.items()):
        return False
    if word in past_forms() and said.told_as_done(i):
        return False
    if words[i + 1 : i + 3] in (["me", "down"], ["us", "down"]):
        return False
    noun_too = word in homographs() or word in thing_words()
    if said.at_start(i) and before not in words_of("auxiliaries"):
        if not no_copula(said, i) or (word in ("make", "call") and _gives_a_figure(said, i)):
            return False
        if noun_too:
            if following in particles() and any(p.j == i for p in line.places.values()):
                return False  # "laying hearth tile in the parlour"
            plural = following.endswith("s") and following not in function_words() and not following.startswith("'")
            return said.object_follows(i) or (plural and i + 1 not in line.figures and i + 1 not in line.dimensions)
        return (i + 1 not in line.dimensions and i + 1 not in line.figures) or said.object_follows(i)
    if before in words_of("block_verb") or before in words_of("subjects"):
        return False
    if (i - 1 in line.dimensions and not line.dimensions[i - 1].adjective) or _right_after_verb(said, i):
        return False
    if following in words_of("determiners") - words_of("weak_determiners"):
        return _goes_on_a_list(said, i) and no_copula(said, i)
    return not noun_too and following in particles() and word_at(words, i + 2) in ("the", "a", "all", "those", "these")


def unknown_order(said: Utterance, i: int) -> Clause | None:
    """ "And torque the rods": a word that no list has, where an order's verb stands, with an article and its noun after it."""
    words = said.words
    word, before = words[i], word_at(words, i - 1)
    if not (i == 0 or before in ("and", "then", "also", "but") or i - 1 in said.dated):
        return None
    if word in verbs() or word in thing_words() or word in past_forms() or word in words_of("no_order"):
        return None
    if word in function_words() or word.endswith(("ing", "ed", "ly", "s")) or i in said.line.dimensions:
        return None
    if not said.at_start(i):
        return None
    k = i + 1 + (word_at(words, i + 1) in ("up", "down", "off", "out"))
    if word_at(words, k) not in _BEFORE_ITS_NOUN or said.in_condition(i):
        return None
    noun = word_at(words, k + 1)
    if noun == "" or noun in function_words() or k + 1 in said.line.figures or not no_copula(said, i):
        return None
    return Clause(said.back_to_subject(i), 0, "bare", i)


def unknown_past(said: Utterance, i: int) -> Clause | None:
    """ "Scumbled the panels": a word in "-ed" that no list has, at the beginning, with an article and its noun after it."""
    words = said.words
    word, before = words[i], word_at(words, i - 1)
    if not word.endswith("ed") or word.endswith("eed") or len(word) < 6 or word in words_of("no_work_past"):
        return None
    if word in past_forms() or word in thing_words() | function_words() or i in said.line.dimensions:
        return None
    begins = i == 0 or before in ("and", "then", "also", "just") or i - 1 in said.dated
    mine = before in ("i", "we", "'ve") and words_of("unreal").isdisjoint(words[max(0, i - 6) : i])
    if not (begins or mine) or not said.at_start(i) or said.in_condition(i):
        return None
    k = i + 1 + (word_at(words, i + 1) in ("up", "down", "off", "out", "over", "in", "on"))
    if word_at(words, k) not in _BEFORE_ITS_NOUN:
        return None
    noun = word_at(words, k + 1)
    if noun == "" or noun in function_words() or k + 1 in said.line.figures or not no_copula(said, i) or _paid(said, i):
        return None
    return Clause(said.back_to_subject(i), 0, "past", i)


def unknown_verb(said: Utterance, i: int) -> Clause | None:
    """The task whose verb is a word at `i` that no list has, or None."""
    if _BEFORE_ITS_NOUN.isdisjoint(said.words[i + 1 : i + 3]):
        return None
    return unknown_order(said, i) or unknown_past(said, i)


@cache
def noun_pairs() -> frozenset[str]:
    """Two words that "and" makes one noun of, though the second may be a verb: "tongue and groove"."""
    return frozenset(pair.replace("+", " ") for pair in words_of("noun_pairs"))


def _goes_on_a_list(said: Utterance, i: int) -> bool:
    """Whether an order without a conjunction stands after another task, a statement ("… is behind the hoist nail the left end"), a
    heading, place, name or figure: "the crew cut the wrong tree" is none."""
    if said.starts and said.starts[-1].opener in TASKS:
        return True
    if not words_of("copulas").isdisjoint(said.words[said.last : i]):
        return True
    line, before = said.line, said.words[i - 1]
    ends = i - 1 in said.dated or any(p.j == i for p in line.places.values()) or line.figure_over(i - 1) is not None
    ends = ends or any(d.j == i for d in line.dimensions.values()) or any(j == i for j, _ in line.labels.values())
    return ends or before in words_of("headings")


def _gives_a_figure(said: Utterance, i: int) -> bool:
    """ "Make the sill height thirty six": a dimension and then its figure, so that a measure is said and no work."""
    dimension = next((k for k in sorted(said.line.dimensions) if i < k <= i + 6), None)
    if dimension is None:
        return False
    end = said.line.dimensions[dimension].j
    place = next((p for k, p in said.line.places.items() if end < k <= end + 2), None)
    if place is not None and words_of("prepositions") & set(said.words[end : place.i]):
        end = place.j
    return any(f.kind in ("length", "number") and end <= k <= end + 1 for k, f in said.line.figures.items())


def _right_after_verb(said: Utterance, i: int) -> bool:
    return bool(said.starts) and said.starts[-1].opener in ("open", "bare", "waiting") and i - said.starts[-1].verb <= 1


def _counted_work(said: Utterance, i: int) -> bool:
    """Whether work done goes on without a conjunction: "hung four doors trimmed two windows"."""
    figure = said.line.figures.get(i + 1)
    begun = said.starts and said.starts[-1].opener == "past" and said.words[i - 1] not in function_words()
    return bool(begun) and figure is not None and figure.kind == "number" and names_stock(said.words, figure.j)


def _goes_on_done(said: Utterance, i: int) -> bool:
    """Whether a list of work done goes on: "took the old chute down cleaned the hopper and oiled the slide"."""
    words = said.words
    begun = bool(said.starts) and said.starts[-1].opener == "past" and i > said.last
    plain = (
        words[i] not in verbs()
        and words[i] not in words_of("no_state")
        and word_at(words, i + 1) in ("the", "all", "both")
    )
    before = words[i - 1]
    return begun and plain and (before in particles() or before not in function_words() | words_of("copulas"))


def _paid(said: Utterance, i: int) -> bool:
    """ "Gave the plumber a hundred and fifty", "rented the lift at ninety a day": money was given, and no work done."""
    ahead = [f for k, f in sorted(said.line.figures.items()) if i < k <= i + 8]
    if said.words[i] in words_of("pay_verbs"):
        return any(f.kind == "money" or (f.kind == "number" and not f.unit and f.value >= 5) for f in ahead)
    return said.words[i] in ("rented", "hired", "sold") and any(f.kind == "money" for f in ahead)


def _leaves_off(words: list[str], i: int) -> bool:
    """ "Knocked off at three", "packed up early": the day's end, and no work."""
    ends = words[i : i + 2] in (
        ["knocked", "off"],
        ["packed", "up"],
        ["wrapped", "up"],
        ["packed", "in"],
        ["clocked", "off"],
    )
    return ends and word_at(words, i + 2) in {
        "at",
        "around",
        "about",
        "by",
        "early",
        "for",
        "on",
        "because",
        "late",
        "",
    }


def _is_past(said: Utterance, i: int) -> bool:
    words, line = said.words, said.line
    word, following, before = words[i], word_at(words, i + 1), word_at(words, i - 1)
    counted_work = _counted_work(said, i) or _goes_on_done(said, i)
    if i + 1 >= len(words) or following in words_of("not_verb_before") or i + 1 in line.labels:
        return False
    if not (said.at_start(i) or counted_work) or (word == "done" and before in words_of("copulas")):
        return False
    if any(f.kind == "hours" and i < k <= i + 2 for k, f in line.figures.items()):
        return False
    if any(f.kind == "slope" and i < k <= i + 12 for k, f in line.figures.items()):
        return False
    has_money = any(f.kind == "money" for f in line.figures.values())
    if word in words_of("no_task_past") and not (
        word in ("put", "left", "called", "picked") and following in ("up", "in", "on", "down", "the") and not has_money
    ):
        return False
    if (
        i
        and species().at(words, i + 1) is not None
        and (i - 1 in said.dated or (said.starts and said.starts[-1].opener == "stock"))
    ):
        return False  # "thirty balusters came in this morning turned maple"
    if word == "did" and i == 0 and words_of("asked_of") & set(words[2:]):
        return False  # "did the boards come in yet"
    if following in particles() and word_at(words, i + 2) == "to":  # "hauled up to the bell stage"
        return False
    if burned_at(words, i) is not None or _paid(said, i) or _leaves_off(words, i):
        return False
    if event_at(words, i) and before == "and" and following in words_of("prepositions"):
        return False
    if word == "took" and following not in particles() and following != "the":
        return False
    if word in verbs() and before not in ("we", "i", "'ve", "have") and not said.told_as_done(i):
        return False
    counted = line.figures.get(i + 1)
    if counted is not None:
        return counted.kind in ("number", "section") and names_stock(words, counted.j) and not has_money
    if following in words_of("determiners") or following in particles() or i + 1 in line.places:
        return True
    after_place = any(p.j == i for p in line.places.values())
    return following not in function_words() and i + 1 not in line.dimensions and not after_place
