"""The phrase after a figure that is its own: "a fat quarter on the hinge side", "ten inches off the corner"."""

from __future__ import annotations

from dataclasses import replace

from journal.extract.context import Context
from journal.extract.marks import trailing_marks
from journal.extract.offsets import begins_anew, leads_offset
from journal.extract.sets import words_of
from journal.extract.slots import Slot
from journal.extract.things import last_place, names_a_thing, thing
from journal.extract.unitwords import hedges, shades
from journal.extract.vocabulary import function_words, thing_words
from journal.records import Measure


def give_adjuncts(ctx: Context, slots: list[Slot], j: int) -> None:
    """Gives each figure the phrase after it that is its own ("a fat quarter on the hinge side")."""
    words = ctx.line.words
    found: dict[int, tuple[int, int]] = {}
    for n, slot in enumerate(slots):
        stop = slots[n + 1].figure.i if n + 1 < len(slots) else j
        k = slot.end
        if k < stop and words[k] in ("left", "right") and (k + 1 == j or words[k + 1] == "and" or k + 1 == stop):
            found[n] = (k, k + 1)
            continue
        is_last_the = n == len(slots) - 1 and k < stop and words[k] in ("the", "for") and slot.after is not None
        is_last_the = is_last_the and not set(words[k:j]) & words_of("copulas")
        if (
            k < stop
            and (words[k] in words_of("prepositions") or is_last_the or leads_offset(words, k))
            and (k not in ctx.line.dimensions or leads_offset(words, k))
        ):
            found[n] = (k, phrase_end(ctx, k, stop))
            slot.tail = trailing_marks(ctx.line, slot.figure, found[n][1]) if found[n][1] < j else 0
    last = len(slots) - 1
    in_row = _row_of_phrases(ctx, slots, found)
    for n, (a, b) in found.items():
        if n < last:
            nxt = slots[n + 1]
            if _leads_next(words, slots[n], a, b, nxt):
                continue
            more = any(words[k] not in function_words() for k in range(b, nxt.figure.i) if k not in ctx.line.dimensions)
            led_in = any(b <= k < nxt.figure.i for k in ctx.line.dimensions)
            own = leads_offset(words, a) is not None and words[a] not in ("over", "under", "above", "below")
            own = own or (words[a] == "between" and "between" not in words[slots[n].left : slots[n].figure.i])
            bare = leads_offset(words, a) is not None and slots[n].after is None and nxt.after is not None
            after = slots[n].after
            own = own or (after is not None and after.i > slots[n].right)  # "… is the width of the door"
            own = own or n in in_row or (bare and words[b : nxt.figure.i] == ["and"])
            if not (own or more or led_in or (last in found and not _has_phrase(ctx, slots[0]))):
                continue
        slots[n].late = (a, b)


def _leads_next(words: list[str], slot: Slot, a: int, b: int, following: Slot) -> bool:
    """ "… nine foot tall from the corner to the hatch it's six foot three": the phrase is the next figure's."""
    if words[a] not in ("from", "between") or following.after is not None or following.partner is not None:
        return False
    led = words[b : following.figure.i]
    complete = slot.after is not None or slot.partner is not None
    again = {"from", "between"} & set(words[slot.left : slot.figure.i])
    return (complete and led in (["it", "'s"], ["it", "is"], ["is"], ["'s"])) or (
        bool(again) and led in ([], ["it", "'s"], ["is"])
    )


def _row_of_phrases(ctx: Context, slots: list[Slot], found: dict[int, tuple[int, int]]) -> set[int]:
    """The figures that each have their phrase after them, up to one with a subject of its own: "… on the latch and the door is …"."""
    words = ctx.line.words
    row: list[int] = []
    for n in range(len(slots) - 1):
        if n not in found or (n == 0 and _has_phrase(ctx, slots[0])):
            break
        row.append(n)
        start, end = found[n][1], slots[n + 1].figure.i
        if end - start > 1 and words_of("copulas") & set(words[start:end]):
            return set(row)
        if words[start:end] not in ([], ["and"]):
            break
    return set()


def _has_phrase(ctx: Context, slot: Slot) -> bool:
    """Whether a phrase with a preposition stands right before a figure ("in the sill eighteen")."""
    words = ctx.line.words
    for k in range(slot.figure.i - 1, slot.left - 1, -1):
        if words[k] in ("is", "'s", "are", "the", "a") or k in ctx.line.dimensions:
            continue
        break
    place = last_place(ctx, slot.left, slot.figure.i)
    named, _ = thing(ctx, slot.left, slot.figure.i)
    return place is not None and not named and place.j == slot.figure.i


def phrase_end(ctx: Context, k: int, stop: int) -> int:
    """The index after the phrase that its preposition begins at word `k`, at most `stop`."""
    words = ctx.line.words
    end = k + 1
    lead = leads_offset(words, k)
    end = max(end, lead or 0)
    pair = words[k] == "between"
    while end < stop:
        if pair and words[end] == "and" and not begins_anew(ctx, end):
            pair, end = False, end + 1
            continue
        if end in ctx.line.places:
            end = ctx.line.places[end].j
            continue
        if end in ctx.labels:
            end = ctx.labels[end][0]
            continue
        if end + 1 in ctx.labels and words[end - 1] not in function_words():
            after_label = ctx.labels[end + 1][0]
            if words[after_label : after_label + 1] in (["is"], ["'s"]) or after_label in ctx.line.figures:
                break
        if words[end] in words_of("phrase_ends") or (end > k + 1 and words[end] in words_of("states_a_size")):
            break
        if hedges()[1].at(words, end):
            break
        shade = shades().at(words, end)
        if shade is not None and end > k + 1 and words[shade[1] : shade[1] + 1] in ([], ["and"]):
            break
        dim = ctx.line.dimensions.get(end)
        if lead is not None and end > lead and words[end - 1] in words_of("datums"):
            more = words[end] not in function_words() and words[end] not in words_of("which_of_them")
            anew = dim is not None and dim.name == "centre" and words[dim.j : dim.j + 1] == ["of"]
            if anew or (more and _begins_next(ctx, end, stop)):
                break  # "off the floor, window centre six foot two", "off the corner, trim four wide"
        if dim is not None and dim.name != "centre" and not names_a_thing(ctx, dim):
            break
        joined_on = words_of("prepositions") | ({"of", "and"} if words[k] == "between" else {"of"})
        if end > k + 1 and words[end] in ("the", "a") and words[end - 1] not in joined_on:
            break
        end += 1
    return min(_before_next_subject(ctx, k, lead or k + 1, min(end, stop)), stop)


def _begins_next(ctx: Context, k: int, stop: int) -> bool:
    """Whether the words from `k` on lead straight to the next figure: a thing of one or two words, a dimension allowed."""
    end = next((i for i in sorted(ctx.line.figures) if i >= k), None)
    return end is not None and end <= stop and 1 <= end - k <= 3


def _before_next_subject(ctx: Context, k: int, start: int, end: int) -> int:
    """ "Thirty six off the floor header is nine": what stands right before a copula begins the next, where a noun is left before it."""
    words, things = ctx.line.words, thing_words()
    if leads_offset(words, k) is None and words[k] not in ("to", "at", "on"):
        return end
    following = words[end] if end < len(words) else ""
    led_in = end in ctx.line.dimensions and words[k] in ("off", "from")
    if not led_in and following not in words_of("copulas", "states_a_size"):
        return end
    if words[end - 1] not in things or end - 1 in ctx.labels or any(a < end <= b for a, (b, _) in ctx.labels.items()):
        return end
    first = end - 1
    while first - 1 > start and words[first - 1] in words_of("which_of_them"):
        first -= 1
    left = [w for w in words[start:first] if w not in function_words()]
    return first if left and left[-1] not in words_of("which_of_them") else end


def take_adjunct(ctx: Context, slot: Slot, has_place: bool) -> list[str]:
    """The words of the phrase after a figure; a place in it is the figure's, and of those before it without one."""
    if slot.late is None:
        return []
    words = ctx.line.words
    named, place = thing(ctx, *slot.late)
    if words[slot.late[0]] in ("left", "right"):
        named = [words[slot.late[0]]]
    if place is not None:
        if has_place and words[slot.late[0]] in ("off", "from", "to") and not named:
            return []
        if has_place and not place.carried and not named and words[slot.late[0]] in ("at", "in", "by", "near"):
            return place.name.lower().split()
        if not has_place or place.carried:
            if ctx.place is None:
                for n, fact in enumerate(ctx.facts):
                    if isinstance(fact, Measure) and fact.place is None:
                        ctx.facts[n] = replace(fact, place=place.name)
            ctx.place = place.name
    if words[slot.late[0]] in ("with", "for") and place is None and words[slot.late[0]] == "with":
        return []
    return named
