"""What is printed beside figures and tasks that can hurt somebody.

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


def task_cautions(do: str) -> tuple[str, ...]:
    """What to print beside a task, by the words of what is to be done."""
    return tuple(caution.shown for caution in TASK_CAUTIONS if caution.pattern.search(do))
