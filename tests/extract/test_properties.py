"""What holds for any words at all."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from extract.saying import facts, heard, rows
from journal.extract.unitwords import plural
from journal.grammar import table
from journal.lengths import INCH, format_length, parse_length
from journal.records import Measure


def _words() -> list[str]:
    """Words of the trade out of the tables and of the memos, each once."""
    stock, dimensions, places = table("stock"), table("dimensions"), table("places")
    lists = [
        *stock["things"]["words"], *stock["containers"]["words"], *stock["events"], *stock["species"]["words"], *dimensions["nouns"],
        *dimensions["adjectives"], *places["rooms"], *places["surfaces"], *places["here"], *places["above"], *table("tasks")["verbs"],
        *table("takebacks")["replace"], *table("takebacks")["forget"], *table("takebacks")["swap"], *table("takebacks")["strike_last"],
        *table("figures")["units"], *table("due")["days"], *table("due")["weekdays"], *table("numbers")["tens"], *table("numbers")["ones"],
        *table("numbers")["teens"], *table("numbers")["denominators"], "hundred", "thousand", "and", "the", "a", "of", "by", "is", "'s", "not", "point",
    ]  # fmt: skip
    lists += [word for row in rows("dev_seen.jsonl") for word in row["text"].split()]
    return sorted(set(lists))


SHUFFLED = st.lists(st.sampled_from(_words()), max_size=25).map(" ".join)


@settings(max_examples=400, deadline=None)
@given(SHUFFLED)
def test_any_words_of_the_trade_are_read(text: str) -> None:
    """Nothing is raised, and all evidence, doubts and problems lie inside the text."""
    read = heard(text)
    spans = [fact.evidence for fact in read.facts] + [problem.span for problem in read.problems]
    spans += [doubt.span for fact in read.facts for doubt in fact.doubts] + [doubt.span for doubt in read.doubts]
    spans += [aside.evidence for aside in read.asides] + [revision.evidence for revision in read.revisions]
    assert all(0 <= span.start <= span.end <= len(text) for span in spans)
    assert all(revision.by is None or revision.by < len(read.facts) for revision in read.revisions)


def test_evidence_of_swapped_words_lies_in_the_text() -> None:
    """Figures that "other way around" swapped stand out of order; what is told of them still has its end after its start."""
    for text in ('forty " " forty other way around', "hatch thirty and a half wide forty inches high other way round"):
        read = heard(text)
        spans = [fact.evidence for fact in read.facts] + [problem.span for problem in read.problems]
        assert spans
        assert all(0 <= span.start < span.end <= len(text) for span in spans)


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=60))
def test_any_text_is_read(text: str) -> None:
    """Any characters are read without an error."""
    assert heard(text) == heard(text)


@settings(max_examples=150, deadline=None)
@given(SHUFFLED, SHUFFLED)
def test_memos_do_not_influence_each_other(one: str, other: str) -> None:
    """A memo reads the same whatever was read before it."""
    first = heard(one)
    heard(other)
    assert heard(one) == first


ONES = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
TENS = ["zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
BELOW = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty second", 64: "sixty fourth"}


def _cardinal(n: int) -> str:
    if n < 20:
        return ONES[n]
    if n < 100:
        return TENS[n // 10] + (f" {ONES[n % 10]}" if n % 10 else "")
    return f"{_cardinal(n // 100)} hundred" + (f" and {_cardinal(n % 100)}" if n % 100 else "")


def spoken(ticks: int) -> str:
    """A length as a careful speaker says it: feet from twelve feet on, inches, the fraction after "and"."""
    inches = Fraction(ticks, INCH)
    feet = int(inches) // 12 if inches >= 144 else 0
    whole, part = divmod(inches - feet * 12, 1)
    name = BELOW.get(part.denominator, "")
    said = (
        (f"{_cardinal(part.numerator)} {name if part.numerator == 1 else plural(name) if name != 'half' else name}")
        if part
        else ""
    )
    rest = f"{_cardinal(int(whole))} and {said}" if whole and part else _cardinal(int(whole)) if whole else said
    if not feet:
        return rest
    return (
        f"{_cardinal(feet)} foot {rest}"
        if whole
        else f"{_cardinal(feet)} foot oh and {said}"
        if part
        else f"{_cardinal(feet)} foot even"
    )


@settings(max_examples=300, deadline=None)
@given(st.integers(1, 40 * 12 * 64))
def test_what_is_printed_is_read_back_when_spoken(sixty_fourths: int) -> None:
    """A length printed by the journal, spoken by a person and heard again, is the same length."""
    ticks = sixty_fourths * (INCH // 64)
    printed = parse_length(format_length(ticks))[0]
    assert printed == ticks
    [fact] = heard(f"the old bench in the shed is {spoken(printed)} long").facts
    assert isinstance(fact, Measure)
    assert fact.ticks == ticks


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(rows("dev_seen.jsonl")), st.sampled_from(["um ", "okay ", "so ", "uh you know ", "right so "]))
def test_hesitations_change_nothing(row: dict[str, str], filler: str) -> None:
    """A memo with a hesitation before it says the same."""
    assert facts(filler + row["text"]) == facts(row["text"])
