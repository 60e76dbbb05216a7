"""What is printed beside figures that can hurt somebody, and the questions that get a sentence instead of a number.

A notebook with arithmetic: local code, the authority having jurisdiction, makers' sheets and licensed people decide.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

STRUCTURE = (
    "Geometry only. Says nothing about strength, span or connection: adopted code tables or a licensed engineer. "
    "Test-cut one."
)
BIRDSMOUTH = (
    "Limits differ: commonly not deeper than 1/4 of the rafter, 1 1/2 in. bearing (IRC R802 as quoted at "
    "howtolookatahouse.com, read). Ask the authority having jurisdiction."
)
STAIRS = (
    "IRC as read: riser at most 7 3/4, tread at least 10, headroom 80 (jeffco.us, 2018); variation at most 3/8 (from memory). "
    "Your code governs."
)
NAILS = "Arithmetic, not an approval. Nailing schedules vary by wind and code edition; the adopted code governs."
HEIGHTS = (
    "Ladder foot at 1/4 of the working length; local scaffold and fall rules apply. You are alone: tell someone when you go up. "
    "Both feet set, tool down, then speak."
)
DUST = (
    "Dust: wood dust 1 mg/m³ (NIOSH). Mortar, stone and cement hold silica, 50 µg/m³: work wet or with a vacuum. Disc rated "
    "at least to the grinder's speed, guard on. Hearing protection."
)
LEAD = (
    "May be lead in paint from before 1978. The federal rule for paid work starts at 6 ft² inside, 20 ft² outside (Maryland "
    "page, read). Test first; never dry-sand or burn."
)
FINISH = (
    "Read the label; ventilate. Oily rags set themselves alight: wet, in a closed metal can, or dried singly outdoors "
    "(blog.secura.net, fablab.gsd.harvard.edu, read)."
)
WEIGHT = "Real logs differ by 25 % either way. Not a lifting plan: rated gear, nobody under it, not alone."
CLOSING_UP = "Wiring, plumbing and insulation inspected first? Electrical work: permit and licensed practice."
GLASS = "Egress and safety glass: ask the authority having jurisdiction. The maker's sheet governs the clearance."
MOISTURE = "An estimate. A meter is good to about 2 points (common practice)."
SETTLING = "An estimate. Leave the slip joint free: never fill it hard."

REFUSED = (
    "The journal does not answer that: it is arithmetic, not engineering. Ask the adopted code tables, the authority having "
    "jurisdiction or a licensed person."
)


@dataclass(frozen=True, slots=True)
class TaskCaution:
    """A caution for tasks whose words it matches."""

    pattern: re.Pattern[str]
    shown: str


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE)


TASK_CAUTIONS = (
    TaskCaution(_words(r"staging|scaffold(?:ing)?s?|ladders?|roof|ridge|up top|hoist|flash(?:ing|ed)?|shingl\w*"), HEIGHTS),
    TaskCaution(_words(r"sand(?:ing|ed)?|grind(?:ing|er)?|ground|brush(?:ing|ed)? (?:the )?wall|wire brush\w*|cut(?:ting)? "
                       r"(?:the )?(?:stone|mortar|block|brick|concrete)|rak(?:e|ing) out|blast(?:ing)?"), DUST),
    TaskCaution(_words(r"old paint|strip(?:ping)? (?:the )?paint|scrap(?:e|ing) (?:the )?paint|paint off|burn(?:ing)? off"), LEAD),
    TaskCaution(_words(r"oil(?:ing|ed)?|stain(?:ing|ed)?|varnish\w*|finish(?:ing)? coat|foam(?:ing)?|(?<!old )paint(?:ing|ed)?|seal(?:ing)? "
                       r"(?:the )?(?:logs?|boards?|floor)"), FINISH),
    TaskCaution(_words(r"close up|closing up|board over|drywall\w*|wiring|wire (?:the|up)|electric\w*|outlets?|breakers?"), CLOSING_UP),
    TaskCaution(_words(r"(?:lift|raise|lower|hoist|set|roll)(?:ing)? (?:the |up the |another )*(?:\w+ )?(?:logs?|beams?|purlins?|ridge "
                       r"beam|posts?|trusses)"), WEIGHT),
    TaskCaution(_words(r"(?:cut|notch|shim|jack)\w* (?:the |a |out )*(?:\w+ )?(?:joists?|rafters?|beams?|posts?|headers?|lintels?|girts?)"),
                STRUCTURE),
)  # fmt: skip

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


def task_cautions(do: str) -> tuple[str, ...]:
    """What to print beside a task, by the words of what is to be done."""
    return tuple(caution.shown for caution in TASK_CAUTIONS if caution.pattern.search(do))
