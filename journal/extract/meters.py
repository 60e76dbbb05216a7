"""Whether a bare number is read off a meter: after "humidity", going on a list of per cents, or said to be read of wood."""

from __future__ import annotations

from journal.extract import stockwords
from journal.extract.context import Context
from journal.extract.line import Figure
from journal.extract.readings import quantities
from journal.extract.sets import words_of
from journal.extract.stretch import Stretch
from journal.records import Doubt, Measure, Problem, Reading


def is_reading(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """Whether a number without a unit is a reading."""
    passed_over = words_of("before_reading")
    named = next((word for word in reversed(before) if word not in passed_over), None)
    if named in quantities() and not _dimension_near(facts, figure):
        return True
    if _unit_afterwards(facts, figure) or _quantity_leads(facts, figure):
        return True
    if _named_and_said(facts, figure, before) or _leads_to_unit(facts, figure, before):
        return True
    return _goes_on(facts, figure) or _read_of_wood(facts, figure, before)


def is_angle(facts: Stretch, figure: Figure) -> bool:
    """ "A bevel of ten degrees", "cut at thirty degrees": degrees of an angle, where nothing of a temperature is said."""
    if figure.unit != "deg" or figure.celsius or figure.value > 180:
        return False
    words, start, end = facts.words, max(facts.position, figure.i - 8), min(figure.j + 4, facts.clause.j)
    if not words_of("angle_words") & set(words[start:end]):
        return False
    named = {k for p in facts.ctx.line.places.values() for k in range(p.i, p.j)}
    said = [words[k] for k in range(start, end) if k not in named]
    return bool(words_of("angle_words") & set(said)) and not any(word in quantities() for word in said)


def report_angle(ctx: Context, figure: Figure) -> int:
    """Adds the problem that degrees of an angle are not kept; the index after them."""
    shown = f"'{ctx.line.said(*figure.words)}': an angle in degrees, which is not kept"
    ctx.problems.append(Problem(shown, ctx.span(*figure.words), "Say it as a slope: eight in twelve"))
    return figure.j


def is_share(facts: Stretch, figure: Figure) -> bool:
    """ "Forty percent off", "the siding's fifty percent done", "battery's at twenty percent": a per cent that no meter reads."""
    if figure.kind != "percent":
        return False
    words = facts.words
    start = max(facts.position, figure.i - 7)
    said = {word for k, word in enumerate(words[start : figure.i], start) if k not in facts.ctx.line.places}
    after = words[figure.j : figure.j + 1]
    if any(word in quantities() for word in [*said, *words[figure.j : figure.j + 2]]):
        return False
    return bool(after and after[0] in words_of("no_percent_after")) or bool(said & words_of("no_percent_before"))


def _last_reading(facts: Stretch) -> Reading | None:
    last = facts.ctx.facts[-1] if facts.ctx.facts else None
    return last if isinstance(last, Reading) else None


def _dimension_near(facts: Stretch, figure: Figure) -> bool:
    return any(facts.position <= k <= figure.j for k in facts.ctx.line.dimensions)


def _named_and_said(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """A quantity named before and a verb of reading right before: "moisture on the stack is down to seventeen"."""
    if not before or before[-1] not in words_of("reads"):
        return False
    named = any(word in quantities() for word in facts.words[facts.position : figure.i])
    small = figure.value <= 100 and (figure.kind == "number" or figure.value.denominator <= 4)
    return named and small and not _dimension_near(facts, figure)


def _quantity_leads(facts: Stretch, figure: Figure) -> bool:
    """ "Temp in the larder forty one": the quantity, where it was read, and its figure."""
    words, start = facts.words, max(facts.position, figure.i - 7)
    k = next((k for k in range(figure.i - 1, start - 1, -1) if words[k] in quantities()), None)
    if k is None or words[k] in ("wet", "damp") or _dimension_near(facts, figure) or figure.value > 110:
        return False
    named = figure.i - k <= 5 and 4 <= figure.value <= 60 and figure.value.denominator <= 2
    led = named or words[k + 1] in ("in", "on", "at", "of", "out", "down", "up", "over", "for")
    following = words[figure.j] if figure.j < facts.clause.j else ""
    plain = figure.kind == "number" or figure.value.denominator <= 4
    if not led or not plain or following in ("by", "of") or following in stockwords.singulars() or facts.in_stock:
        return False
    return not any(
        word in words_of("conjunctions") or stockwords.event_at([word], 0) for word in words[k + 1 : figure.i]
    )


def _unit_afterwards(facts: Stretch, figure: Figure) -> bool:
    """ "It's forty six in the root cellar degrees that is": the unit comes after what was read."""
    words = facts.words
    if "degrees" not in words and "percent" not in words:
        return False
    for k in range(figure.j, min(figure.j + 8, facts.clause.j)):
        if k in facts.figures or k in facts.ctx.line.dimensions or figure.unit:
            return False
        if words[k] in ("degrees", "percent") and words[k + 1 : k + 3] in ([], ["that", "is"], ["i", "mean"]):
            figure.kind = "degrees" if words[k] == "degrees" else "percent"
            return True
    return False


def _leads_to_unit(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Twelve and fourteen percent", "oak's at nineteen and the ash twenty four percent": the unit comes at the end."""
    ahead = [f for k, f in facts.figures.items() if k >= figure.j]
    following = ahead[0] if ahead else None
    if following is None or _dimension_near(facts, figure):
        return False
    if following.kind in ("percent", "degrees") and facts.words[figure.j : following.i] in (["and"], ["to"], ["or"]):
        return True
    end = next((f for f in ahead if f.kind in ("percent", "degrees")), None)
    said = before[-1:] and before[-1] in words_of("reads")
    last = _last_reading(facts)
    if end is not None and last is not None and (last.unit == "%") != (end.kind == "percent"):
        return False
    said = said or any(word in quantities() for word in facts.words[facts.clause.i : figure.i])
    if end is None or not said or facts.in_stock or facts.waiting:
        return False
    if facts.words[figure.j] in stockwords.singulars() and facts.words[figure.j].endswith("s"):
        return False
    chain = [figure, *(f for f in ahead if f.i < end.i)]
    plain = all(f.kind in ("number", "length") and f.unit == "" and 3 < f.value <= 110 for f in chain)
    small = all(f.value.denominator <= 4 for f in chain)
    if not plain or not small or any(facts.position <= k < end.j for k in facts.ctx.line.dimensions):
        return False
    if figure.kind == "number":
        figure.kind = end.kind
    return True


# "By" before these is no section: "seventy one by noon", "sixteen and a half by the door".
_AFTER_BY = [[word] for word in ("the", "noon", "lunch", "dark", "midday", "now")]


def _goes_on(facts: Stretch, figure: Figure) -> bool:
    """Whether a figure goes on a list of per cents or degrees."""
    last, words = _last_reading(facts), facts.words
    if last is None or figure.value > 120 or facts.in_stock or _dimension_near(facts, figure):
        return False
    following = words[figure.j] if figure.j < len(words) else ""
    if following == "by" and words[figure.j + 1 : figure.j + 2] not in _AFTER_BY:
        return False
    if figure.kind == "number":
        numbered = figure.j + 1 in facts.ctx.labels  # "… two's twenty one point five joist three's seventeen"
        return following not in stockwords.singulars() or numbered or _next_is_led(facts, figure)
    if figure.whole is None or last.unit != "%" or figure.value.denominator > 4 or figure.value > 40:
        return False
    if following == "by":
        return True
    beside = {words[figure.i - 1] if figure.i else "", following}
    if beside & {"by", "off", "from", "above", "below", "to"}:
        return False
    measured = any(isinstance(fact, Measure) for fact in facts.ctx.facts)
    return not (beside & {"is", "'s"}) or not (measured or facts.ctx.line.dimensions)


def _next_is_led(facts: Stretch, figure: Figure) -> bool:
    """ "… posts sixteen wedges nineteen": what stands behind a figure is the thing of the next one, as before this one."""
    led = stockwords.singular_at(facts.words, figure.i - 1) is not None
    following = next((facts.figures[k] for k in (figure.j + 1, figure.j + 2) if k in facts.figures), None)
    return led and following is not None and following.unit in ("", "%") and following.kind != "section"


def _read_of_wood(facts: Stretch, figure: Figure, before: list[str]) -> bool:
    """ "Spruce in the shed's reading twenty one": of wood, or off a meter, with a verb of reading. It carries a doubt."""
    words = facts.words
    start = facts.clause.i
    said = set(words[start : figure.i])
    verb = said & {"reads", "reading", "read", "shows", "says", "showing", "tests", "testing", "probes"}
    if not verb:
        return False
    cue = said & words_of("meter_words") or {"moisture", "meter", "mc"} & set(words[start : facts.clause.j])
    kind = any(stockwords.species().at(words, k) for k in range(start, figure.i))
    small = 4 <= figure.value <= 60 and figure.value.denominator <= 2
    after = words[figure.j] if figure.j < len(words) else ""
    if not (cue or kind) or not small or said & words_of("tape_words") or after in stockwords.singulars():
        return False
    if facts.waiting or facts.in_stock or any(start <= k <= figure.j for k in facts.ctx.line.dimensions):
        return False
    if not cue:
        span = facts.ctx.span(figure.i, figure.j)
        shown = f"'{facts.ctx.line.said(figure.i, figure.j)}' was taken for moisture, which was not said"
        figure.doubts.append(Doubt("not said", shown, span, level=1))
    return True
