"""The questions that get a sentence instead of a number: strength, spans, loads, wiring, clearances, found damage.

A notebook with arithmetic: local code, the authority having jurisdiction and licensed people decide. Imports nothing of ours.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

REFUSED = (
    "The journal does not answer that: it is arithmetic, not engineering. Ask the adopted code tables, the authority having "
    "jurisdiction or a licensed person."
)


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE)


_MEMBER = (
    r"rafters?|joists?|beams?|headers?|lintels?|posts?|girders?|girts?|purlins?|ridge|ridges|studs?|columns?|truss|trusses|collar ties?|"
    r"tie beams?|sill logs?|logs?|decks?|floors?|footings?|piers?|plates?|members?|brackets?|hangers?|stringers?|roof|wall|"
    r"(?:two|three|four|six|eight|ten) by \w+|\d+ ?x ?\d+"
)
_FASTENER = r"nails?|screws?|bolts?|lags?|pegs?|straps?|notch|notches|birdsmouths?|connections?|joints?|seats?|tenons?"
_ASKING = r"is|are|will|would|can|could|does|do|should|may|must|need|how|what|which|whether"
# a figure that is on file, or stock on hand: the journal answers those
_ON_FILE = _words(
    r"did (?:i|we)|was|were|on file|measured?|said|have enough|enough \w+ left|left over|in stock|to buy|dry enough|done"
)


@dataclass(frozen=True, slots=True)
class Refused:
    """A kind of question that gets no number: all of `asks` must be found, and not `unless`."""

    what: str
    asks: tuple[re.Pattern[str], ...]
    unless: re.Pattern[str] = _ON_FILE


REFUSALS = (
    Refused(
        "size of a structural member",
        (
            _words(
                r"(?:what|which) (?:size|section|depth|thickness|dimensions?)(?! is| are)|"
                r"(?:how (?:big|deep|thick|heavy|large|stout)|what (?:size|section)|how wide)\b.*\b(?:should|needs?|must|can|could|has to|have to|do i|for)|"
                r"(?:minimum|maximum|max|smallest|least|lightest) (?:size|section|depth)|can i use|could i use|"
                r"(?:will|would|does|is) (?:a |an )?(?:two|three|four|six|eight|ten|\d+) ?(?:by|x) ?\w+ (?:do|work|enough|ok|okay|big)"
            ),
            _words(_MEMBER),
        ),
    ),
    Refused(
        "span, spacing or cantilever",
        (
            _words(
                r"how (?:far|long) (?:can|could|will|may|would|does)\b.*\b(?:span|reach|go|run|be|cantilever|stick out|carry)|"
                r"(?:max|maximum|allowed|allowable|safe|longest|permitted|greatest|widest) (?:\w+ )?(?:span|spacing|cantilever|overhang)|"
                r"(?:can|could|will|would|may)\b.*\bspan|span tables?|"
                r"(?:how far apart|what (?:spacing|centres?|centers?))\b.*\b(?:should|must|can|need|do i)"
            ),
        ),
    ),
    Refused(
        "whether a member or fastening is enough",
        (
            _words(_ASKING),
            _words(rf"{_MEMBER}|{_FASTENER}"),
            _words(
                r"(?:strong|big|deep|thick|heavy|stiff|stout|sturdy|good|solid) enough|enough to (?:hold|carry|support|take)|"
                r"(?:will|would|can|could|does) (?:it|that|this|they|these|the|one|two|a|\w+ \w+|\w+)? ?(?:\w+ )*(?:hold|carry|support|bear|take the|sag|fail|break)|"
                r"strength|safe|too (?:deep|small|weak|thin|light|much)|adequate|sufficient|structural(?:ly)?"
            ),
        ),
    ),
    Refused(
        "whether fasteners are enough",
        (
            _words(r"enough"),
            _words(r"nails?|screws?|bolts?|lags?|pegs?|straps?|hangers?|notch|birdsmouth|bearing|embedment|penetration"),
            _words(r"is|are|will|would|does|do"),
        ),
    ),
    Refused(
        "header over an opening",
        (
            _words(r"header|lintel|beam"),
            _words(r"over|across|above|for"),
            _words(r"what (?!is|are|was)|which|how (?:big|deep|many)|do i need|should|need (?:a|an)"),
        ),
    ),
    Refused(
        "taking out or cutting into structure",
        (
            _words(r"(?:can|could|may|should) (?:i|we|you)|(?:ok|okay|safe|allowed|possible) to|how (?:deep|big|far|much) can"),
            _words(r"remove|take out|cut out|cut through|cut into|knock out|notch|drill|bore|leave out|do without|sister"),
            _words(_MEMBER),
        ),
    ),
    Refused(
        "load, bearing or footing",
        (
            _words(
                r"(?:snow|wind|live|dead|point|floor|roof|deck|seismic|design) loads?|how much (?:weight|load|snow)|load bearing|"
                r"(?:bearing|load|carrying) (?:capacity|length|area)|bearing (?:do|does|is)|how (?:big|deep|wide|thick)\b.*\b(?:footings?|piers?)\b.*\b(?:be|need|should)|"
                r"how (?:big|deep|wide|thick) (?:should|must|do|does)\b.*\b(?:footings?|piers?)|what (?:footings?|foundation|piers?)"
            ),
        ),
    ),
    Refused(
        "scaffold, rigging or anchor capacity",
        (
            _words(r"scaffold(?:ing)?|staging|rigging|anchors?|hoist|chain|sling|rope|jacks?|ladders?|planks?|come ?along|winch"),
            _words(r"hold|carry|take|capacity|rated|strong|load|weight|safe|lift|bear|support|overload"),
            _words(_ASKING),
        ),
        unless=_words(r"take down|takes? down|comes? down|before the|did (?:i|we)|when"),
    ),
    Refused(
        "wire or breaker size",
        (
            _words(r"wires?|wiring|breakers?|conductors?|circuits?|amps?|amperage|gauge|romex"),
            _words(r"what|which|how (?:big|many|heavy|much)|size|need|enough|can i|rated"),
        ),
    ),
    Refused(
        "clearance to a stove or chimney",
        (
            _words(r"stoves?|chimneys?|flues?|stove ?pipes?|wood ?burners?|fireplaces?|heaters?"),
            _words(r"clearances?|how (?:close|near)|(?:how far|distance)\b.*\b(?:should|must|need|can|safe|combustible\w*)|too close|safe"),
        ),
    ),
    Refused(
        "whether a crack or rot is safe",
        (
            _words(r"crack|cracks|cracked|rot|rots|rotten|rotted|punky|decay\w*|split|splits|checks?|checked|soft spot|bug holes?"),
            _words(_ASKING),
            _words(r"safe|ok|okay|bad|serious|matters?|worry|hold|structural|strength|leave (?:it|that)|still good|sound|a problem|dangerous|fail"),
        ),
    ),
)  # fmt: skip


def refusal(question: str) -> str | None:
    """The sentence for a question about strength, size, span, load, wiring, clearance or found damage; None for any other."""
    asked = " ".join(re.sub(r"[^\w' ]", " ", question.casefold()).split())
    for kind in REFUSALS:
        if all(pattern.search(asked) for pattern in kind.asks) and not kind.unless.search(asked):
            return f"{REFUSED} (asked: {kind.what})"
    return None


# a memo asks where it opens as a question does; "ask the engineer if …" is a task, not a question
_ASKS = re.compile(
    r"^(?:(?:so|and|now|okay|ok|well|hey|um|uh) )*"
    r"(?:is|are|will|would|can|could|does|do|should|may|must|what|what's|which|how|i wonder|wondering)\b",
    re.IGNORECASE,
)


def refusal_of_memo(text: str) -> str | None:
    """The sentence for a memo that asks such a question; None for any other memo, whatever it tells."""
    return refusal(text) if _ASKS.match(text.strip()) else None
