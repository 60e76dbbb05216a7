"""Memos made by a seeded generator: the same sayings with other places, things, dimensions and forms of number.

    python tests/memos/vary.py SEED COUNT > varied.jsonl

Every memo comes with the facts that it says, in the gold format, so that a rule that only knows one wording shows.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Callable
from fractions import Fraction
from typing import Any

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

PLACES = [
    ("the north wall", "north wall"), ("wall b", "wall B"), ("the hay loft", "hay loft"), ("the boathouse", "boathouse"),
    ("the back porch", "back porch"), ("c wall", "wall C"), ("the wall marked e", "wall E"), ("the choir loft", "choir loft"),
    ("the chancel", "chancel"), ("the mud room", "mud room"), ("the creek wall", "creek wall"), ("the stairwell", "stairwell"),
    ("the tack room", "tack room"), ("the west dormer", "west dormer"), ("the pantry", "pantry"), ("the main roof", "main roof"),
    ("the upstairs bathroom", "upstairs bathroom"), ("the lean to", "lean to"), ("the deck", "deck"), ("the woodshed", "woodshed"),
    ("the gable above wall d", "gable D"), ("the road gable", "road gable"), ("the attic", "attic"), ("frame six", "frame 6"),
    ("the ceiling of the den", "den ceiling"), ("the front hall", "front hall"), ("the bell tower", "bell tower"),
    ("the garage", "garage"), ("the sun room", "sun room"), ("the orchard wall", "orchard wall"), ("the vestibule", "vestibule"),
    ("the milk house", "milk house"), ("the south gable", "south gable"), ("the landing", "landing"), ("bent two", "bent 2"),
    ("wall f", "wall F"), ("the far end wall", "far end wall"), ("the library", "library"), ("the sail loft", "sail loft"),
]  # fmt: skip
THINGS = [
    "window", "door", "hatch", "hay door", "girt", "newel post", "baluster", "mantel", "counter", "lintel", "king post",
    "corbel", "bracket", "panel", "shelf", "sill", "transom", "mullion", "threshold", "casing", "jamb", "header", "strut",
    "knee brace", "purlin", "cleat", "handrail", "pilaster", "bench", "cabinet", "trough", "manger", "dowel", "wainscot",
    "cornice", "ledger", "louver", "shutter", "trapdoor", "skylight", "cricket", "saddle", "keel block", "fender", "plinth",
]  # fmt: skip
NUMBERED = ["stud bay", "board", "log", "window", "post", "rafter", "panel", "joist", "step", "plank"]
DIMENSIONS = [
    ("wide", "width"),
    ("high", "height"),
    ("long", "length"),
    ("deep", "depth"),
    ("thick", "thickness"),
    ("tall", "height"),
]
NOUNS = ["width", "height", "length", "depth", "thickness"]
VERBS = [
    ("paint", "painted"), ("caulk", "caulked"), ("hang", "hung"), ("sweep", "swept"), ("scrape", "scraped"), ("nail", "nailed"),
    ("install", "installed"), ("plane", "planed"), ("repair", "repaired"), ("shim", "shimmed"), ("build", "built"),
    ("replace", "replaced"), ("oil", "oiled"), ("scrub", "scrubbed"), ("sand", "sanded"), ("fix", "fixed"), ("tear out", "tore out"),
]  # fmt: skip
OBJECTS = [
    "the shutters",
    "the threshold",
    "the old casing",
    "the corner boards",
    "the bench",
    "the brackets",
    "the loose treads",
    "the hatch",
]
STOCK = [
    ("tubes of caulk", "tube of caulk"), ("bags of mortar", "bag of mortar"), ("bundles of shingles", "bundle of shingles"),
    ("lengths of rebar", "length of rebar"), ("pallets of block", "pallet of block"), ("cords of firewood", "cord of firewood"),
    ("buckets of tar", "bucket of tar"), ("rolls of felt", "roll of felt"), ("sheets of drywall", "sheet of drywall"),
    ("gallons of primer", "gallon of primer"), ("hinges", "hinge"), ("joist hangers", "joist hanger"), ("deck screws", "deck screw"),
    ("carriage bolts", "carriage bolt"), ("pounds of nails", "pound of nails"), ("sacks of lime", "sack of lime"), ("slates", "slate"),
]  # fmt: skip
SPECIES = ["hemlock", "red oak", "cedar", "white ash", "douglas fir", "poplar", "tamarack"]
SECTIONS = [
    ("two by ten", "2x10"),
    ("one by six", "1x6"),
    ("six by six", "6x6"),
    ("four by twelve", "4x12"),
    ("five quarter by eight", "5/4x8"),
]
LUMBER = [("boards", "board"), ("planks", "plank"), ("timbers", "timber"), ("posts", "post"), ("joists", "joist")]
WORK = [
    "framing",
    "sanding",
    "hauling brush",
    "hanging drywall",
    "cutting braces",
    "setting posts",
    "pointing brick",
    "scribing logs",
]


def cardinal(n: int) -> str:
    """A whole number as it is spoken."""
    if n < 20:
        return ONES[n]
    if n < 100:
        return TENS[n // 10] + (f" {ONES[n % 10]}" if n % 10 else "")
    rest = n % 100
    return (ONES[n // 100] if n >= 200 else "a") + " hundred" + (f" and {cardinal(rest)}" if rest else "")


def fraction(part: Fraction, r: random.Random) -> str:
    """A fraction of an inch as it is spoken."""
    name = BELOW[part.denominator]
    if part.numerator == 1:
        return f"{'an' if name[0] == 'e' else 'a'} {name}"
    name = "halves" if name == "half" else name + "s"
    return f"{cardinal(part.numerator)} {name}"


def inches(value: Fraction, r: random.Random, *, feet: bool | None = None) -> str:
    """A length as it is spoken: in inches, or in feet and inches."""
    whole, part = divmod(value, 1)
    whole = int(whole)
    if feet or (feet is None and whole >= 36 and r.random() < 0.5):
        foot, rest = divmod(whole, 12)
        said = f"{cardinal(foot)} {r.choice(['foot', 'feet', 'foot'])}"
        if rest and part:
            return f"{said} {cardinal(rest)} and {fraction(part, r)}"
        if rest:
            return f"{said} {cardinal(rest)}{r.choice(['', ' inches'])}"
        return (
            f"{said} and {fraction(part, r)} inch"
            if part == Fraction(1, 2)
            else f"{said} oh and {fraction(part, r)}"
            if part
            else f"{said} {r.choice(['even', 'dead', 'nothing'])}"
        )
    if not whole:
        return r.choice([fraction(part, r), f"{fraction(part, r)} of an inch"])
    if 101 <= whole < 200 and r.random() < 0.5 and whole % 100 >= 10:
        said = f"one {cardinal(whole % 100)}"
    else:
        said = cardinal(whole)
    unit = r.choice(["", "", " inches"]) if not part else ""
    return f"{said} and {fraction(part, r)}" if part else f"{said}{unit}"


def text(value: Fraction) -> str:
    """Inches as the gold format writes them."""
    whole, part = divmod(value, 1)
    return f"{whole} {part}" if part else f"{whole}"


def a_length(r: random.Random, low: int = 2, high: int = 140) -> Fraction:
    return r.randint(low, high) + (Fraction(r.choice([1, 1, 3, 5, 7]), r.choice([2, 4, 8, 8, 16])) % 1)


Made = tuple[str, list[dict[str, Any]]]


def measure(place: str | None, about: str | None, dimension: str, value: Fraction, **more: Any) -> dict[str, Any]:
    fact = {"kind": "measure", "place": place, "about": about, "dimension": dimension, "inches": text(value), **more}
    return {key: said for key, said in fact.items() if said is not None}


def thing_wide(r: random.Random) -> Made:
    (said, place), thing, (word, dim), v = r.choice(PLACES), r.choice(THINGS), r.choice(DIMENSIONS), a_length(r)
    form = r.choice(
        [
            "the {t} in {p} is {f} {w}",
            "{p} {t} {f} {w}",
            "{t} on {p} is {f} {w}",
            "in {p} the {t}'s {f} {w}",
            "on {p} the {t} measures {f} {w}",
            "the {t} is {f} {w} in {p}",
            "{f} {w} for the {t} in {p}",
        ]
    )
    if said.startswith("the ") and form.startswith("{p}"):
        said = said[4:]
    return form.format(t=thing, p=said, f=inches(v, r), w=word), [measure(place, thing, dim, v)]


def thing_noun(r: random.Random) -> Made:
    (said, place), thing, dim, v = r.choice(PLACES), r.choice(THINGS), r.choice(NOUNS), a_length(r)
    form = r.choice(
        [
            "{d} of the {t} on {p} is {f}",
            "{t} {d} in {p} {f}",
            "on {p} the {t} {d} is {f}",
            "the {t}'s got a {d} of {f} in {p}",
            "{t} {d} {f} in {p}",
            "for {p} the {t} {d} comes to {f}",
        ]
    )
    return form.format(t=thing, p=said, f=inches(v, r), d=dim), [measure(place, thing, dim, v)]


def rough(r: random.Random) -> Made:
    (said, place), thing = r.choice(PLACES), r.choice(["window", "door", "skylight", "hay door", "transom"])
    w, h = a_length(r, 20, 60), a_length(r, 30, 90)
    form = r.choice(
        [
            "{t} rough opening on {p} {w} by {h}",
            "rough opening for the {t} in {p} is {w} by {h}",
            "{t} rough opening in {p} {w} wide and {h} high",
            "{p} {t} rough opening width {w} height {h}",
            "rough opening on the {t} in {p} {w} wide by {h} high",
        ]
    )
    return form.format(t=thing, p=said.removeprefix("the ") if form.startswith("{p}") else said, w=inches(w, r, feet=False), h=inches(h, r, feet=False)), [
        measure(place, thing, "rough opening width", w), measure(place, thing, "rough opening height", h)]  # fmt: skip


def size(r: random.Random) -> Made:
    (said, place), thing = r.choice(PLACES), r.choice(THINGS)
    w, h = a_length(r, 4, 40), a_length(r, 4, 90)
    form = r.choice(["the {t} in {p} is {w} by {h}", "{t} on {p} {w} by {h}"])
    return form.format(t=thing, p=said, w=inches(w, r, feet=False), h=inches(h, r, feet=False)), [
        measure(place, thing, "size", w),
        measure(place, thing, "size", h),
    ]


def numbered(r: random.Random) -> Made:
    (said, place), noun, n = r.choice(PLACES), r.choice(NUMBERED), r.randint(1, 9)
    (word, dim) = r.choice(DIMENSIONS)
    v = a_length(r, 10, 99)
    if not v % 1:
        v += Fraction(1, 4)
    form = r.choice(["{t} {n} in {p} {f} {w}", "{t} {n} on {p} is {f} {w}", "on {p} {t} {n} is {f} {w}"])
    return form.format(t=noun, n=cardinal(n), p=said, f=inches(v, r, feet=False), w=word), [
        measure(place, f"{noun} {n}", dim, v)
    ]


def points(r: random.Random) -> Made:
    (said, place) = r.choice([p for p in PLACES if "gable" in p[1]])
    kind, start, count = r.choice(["long point", "short point"]), r.randint(1, 5), r.randint(2, 4)
    values = [a_length(r, 20, 90) for _ in range(count)]
    parts = [
        f"board {cardinal(start + n)} {inches(v if v % 1 else v + Fraction(1, 8), r, feet=False)}"
        for n, v in enumerate(values)
    ]
    values = [v if v % 1 else v + Fraction(1, 8) for v in values]
    said_kind = kind + "s"
    return f"{said_kind} on {said} " + " ".join(parts), [
        measure(place, f"board {start + n}", kind, v) for n, v in enumerate(values)
    ]


def of_place(r: random.Random) -> Made:
    said, place = r.choice(PLACES)
    dim = r.choice(
        ["ridge height", "plate height", "overhang", "span", "rake", "base width", "diagonal", "length", "width"]
    )
    v = a_length(r, 12, 260)
    form = r.choice(
        ["{d} on {p} is {f}", "{p} {d} {f}", "the {d} at {p} comes to {f}", "{d} of {p} {f}", "{p} the {d} is {f}"]
    )
    return form.format(d=dim, p=said.removeprefix("the ") if form.startswith("{p}") else said, f=inches(v, r)), [
        measure(place, None, dim, v)
    ]


def out_of(r: random.Random) -> Made:
    (said, place), thing, what = r.choice(PLACES), r.choice(THINGS), r.choice(["plumb", "level", "square"])
    v = Fraction(r.choice([1, 3, 5, 7]), r.choice([4, 8, 16])) % 2
    over = r.choice(["", f" in {cardinal(r.randint(4, 20))} foot", f" over {cardinal(r.randint(4, 20))} feet"])
    form = r.choice(
        ["the {t} in {p} is {f} out of {w}{o}", "{t} on {p} out of {w} by {f}", "{p} {t} {f} out of {w}{o}"]
    )
    shade, key = r.choice([("", None), ("", None), ("a strong ", "strong"), ("a shy ", "shy"), ("about ", "approx")])
    spoken = inches(v, r)
    if shade.startswith("a ") and spoken.startswith(("a ", "an ")):
        spoken = spoken.split(" ", 1)[1]
    more = {"shade": key} if key in ("strong", "shy") else {"approx": True} if key else {}
    return form.format(
        t=thing, p=said.removeprefix("the ") if form.startswith("{p}") else said, f=shade + spoken, w=what, o=over
    ), [measure(place, thing, f"out of {what}", v, **more)]


def offset(r: random.Random) -> Made:
    (said, place), thing = r.choice(PLACES), r.choice(["window", "door", "hatch", "bracket", "post"])
    frm = r.choice(["corner", "floor", "ridge", "jamb", "plate"])
    v = a_length(r, 6, 120)
    form, dim = r.choice([
        ("on {p} the {t} is {f} off the {x}", "offset"), ("from the {x} to the {t} on {p} is {f}", "offset"),
        ("on {p} the {t} centre is {f} off the {x}", "centre"), ("centre of the {t} {f} from the {x} on {p}", "centre"),
        ("on {p} it's {f} from the {x} to the {t}", "offset"),
    ])  # fmt: skip
    return form.format(t=thing, p=said, f=inches(v, r), x=frm), [measure(place, f"{frm} to {thing}", dim, v)]


def corrected(r: random.Random) -> Made:
    (said, place), thing, (word, dim) = r.choice(PLACES), r.choice(THINGS), r.choice(DIMENSIONS)
    old, new = a_length(r, 12, 90), a_length(r, 12, 90)
    back = r.choice(
        [
            "no",
            "no scratch that",
            "no make that",
            "i mean",
            "no hang on",
            "correction",
            "no sorry",
            "wait no",
            "no wait",
        ]
    )
    return f"the {thing} in {said} is {inches(old, r, feet=False)} {back} {inches(new, r, feet=False)} {word}", [
        measure(place, thing, dim, new)
    ]


def metric(r: random.Random) -> Made:
    (said, place), thing, (word, dim), n = (
        r.choice(PLACES),
        r.choice(THINGS),
        r.choice(DIMENSIONS),
        r.randint(12, 240) * 10,
    )
    if n % 100 and n > 1000 and r.random() < 0.5:
        spoken = f"{cardinal(n // 100)} hundred and {cardinal(n % 100)}"
    elif n >= 1000:
        spoken = f"{ONES[n // 1000]} thousand" + (
            f" {cardinal(n % 1000).replace('a hundred', 'one hundred')}"
            if n % 1000 >= 100
            else f" and {cardinal(n % 1000)}"
            if n % 1000
            else ""
        )
    else:
        spoken = cardinal(n).replace("a hundred", "one hundred")
    return f"{thing} in {said} is {spoken} {r.choice(['millimetres', 'mil', 'millimeters'])} {word}", [
        {"kind": "measure", "place": place, "about": thing, "dimension": dim, "metric": f"{n} mm"}]  # fmt: skip


def slope(r: random.Random) -> Made:
    said, place = r.choice(
        [
            p
            for p in PLACES
            if p[1] in ("main roof", "back porch", "lean to", "west dormer", "road gable", "south gable", "garage")
        ]
    )
    rise = r.randint(2, 14)
    form = r.choice(
        [
            "{p} is {n} twelve",
            "slope on {p} is {n} in twelve",
            "{p}'s {n} over twelve",
            "{n} twelve on {p}",
            "{n} pitch on {p}",
            "pitch of {p} is {n} twelve",
        ]
    )
    return form.format(p=said, n=cardinal(rise)), [{"kind": "slope", "place": place, "rise": rise, "run": 12}]


def task(r: random.Random) -> Made:
    (said, place), (verb, _), thing = r.choice(PLACES), r.choice(VERBS), r.choice(OBJECTS)
    when, due = r.choice(
        [
            ("", None),
            ("", None),
            (" tomorrow", "2026-08-05"),
            (" by friday", "2026-08-07"),
            (" on monday", "2026-08-10"),
            (" by the fifteenth", "2026-08-15"),
            (" a week from today", "2026-08-11"),
            (" before the weekend", "2026-08-07"),
        ]
    )
    lead = r.choice(
        ["", "", "need to ", "we have to ", "don't forget to ", "remember to ", "still have to ", "got to "]
    )
    fact: dict[str, Any] = {"kind": "task", "place": place, "do": f"{verb} {thing}", "status": "open"}
    if due:
        fact["due"] = due
    return f"{lead}{verb} {thing} {r.choice(['in', 'on', 'at'])} {said}{when}", [fact]


def task_done(r: random.Random) -> Made:
    (said, place), (verb, past), thing = r.choice(PLACES), r.choice(VERBS), r.choice(OBJECTS)
    form = r.choice(
        ["{v} {t} in {p}", "we {v} {t} on {p} so that's done", "i {v} {t} in {p}", "finally {v} {t} at {p}"]
    )
    return form.format(v=past, t=thing, p=said), [
        {"kind": "task", "place": place, "do": f"{verb} {thing}", "status": "done"}
    ]


def task_waiting(r: random.Random) -> Made:
    (said, place), (verb, _), thing = r.choice(PLACES), r.choice(VERBS), r.choice(OBJECTS)
    link = r.choice(["once", "when", "after", "as soon as"])
    cond = r.choice(
        ["the paint's dry", "the inspector has been", "the new hinges come", "the crane is gone", "the mortar has set"]
    )
    form = r.choice(
        [
            "{v} {t} in {p} {l} {c}",
            "{l} {c} {v} {t} in {p}",
            "can't {v} {t} in {p} till {c}",
            "don't {v} {t} in {p} until {c}",
        ]
    )
    return form.format(v=verb, t=thing, p=said, l=link, c=cond), [
        {"kind": "task", "place": place, "do": f"{verb} {thing}", "status": "waiting", "after": cond}
    ]


def stock(r: random.Random) -> Made:
    (said, what), n = r.choice(STOCK), r.randint(2, 60)
    lead, event = r.choice(
        [
            ("need {x}", "need"),
            ("ordered {x}", "ordered"),
            ("received {x}", "received"),
            ("used {x}", "used"),
            ("{x} left over", "left over"),
            ("{x} came in", "received"),
            ("we have {x}", "have"),
            ("we need {x}", "need"),
            ("got in {x}", "received"),
            ("picked up {x}", "received"),
            ("there's {x} left", "left over"),
            ("went through {x}", "used"),
            ("{x} on hand", "have"),
        ]
    )
    return lead.format(x=f"{cardinal(n)} {said}"), [{"kind": "stock", "event": event, "count": n, "what": what}]


def lumber(r: random.Random) -> Made:
    (sec, section), species, (many, one), n, feet = (
        r.choice(SECTIONS),
        r.choice(SPECIES),
        r.choice(LUMBER),
        r.randint(2, 19),
        r.choice([8, 10, 12, 14, 16]),
    )
    lead, event = r.choice(
        [
            ("need {x}", "need"),
            ("ordered {x}", "ordered"),
            ("received {x}", "received"),
            ("stacked {x}", "stacked"),
            ("used {x}", "used"),
        ]
    )
    form = r.choice(["{n} {s} {w} {m} {f} foot long", "{n} {w} {m} {s} {f} foot long", "{n} {f} foot {s} {w} {m}"])
    if form.startswith("{n} {f}"):
        form = "{n} {s} {w} {m} {f} foot"
    return lead.format(x=form.format(n=cardinal(n), s=sec, w=species, m=many, f=cardinal(feet))), [
        {"kind": "stock", "event": event, "count": n, "what": one, "section": section, "species": species, "length_in": str(feet * 12)}]  # fmt: skip


def board_feet(r: random.Random) -> Made:
    species, n = r.choice(SPECIES), r.choice([40, 84, 120, 250, 320, 500])
    lead, event = r.choice([("ordered", "ordered"), ("received", "received"), ("we have", "have"), ("need", "need")])
    return f"{lead} {cardinal(n)} board feet of {species}", [
        {"kind": "stock", "event": event, "species": species, "board_feet": n}
    ]


def reading(r: random.Random) -> Made:
    (said, place), n = r.choice(PLACES), r.randint(8, 29)
    thing = r.choice(["sill", "girt", "planks", "header", "old beam"])
    kind = r.randint(0, 3)
    if kind == 0:
        return r.choice(
            ["moisture in {p} is {n} percent", "{p} moisture {n} percent", "{p} reads {n} percent moisture"]
        ).format(p=said, n=cardinal(n)), [
            {"kind": "reading", "quantity": "moisture", "value": n, "unit": "%", "place": place}
        ]
    if kind == 1:
        return r.choice(
            [
                "the {t} in {p} reads {n} percent",
                "moisture in the {t} on {p} {n} percent",
                "{t} in {p} is at {n} percent moisture",
            ]
        ).format(p=said, n=cardinal(n), t=thing), [
            {"kind": "reading", "quantity": "moisture", "value": n, "unit": "%", "place": place, "about": thing}
        ]
    if kind == 2:
        return f"it's {cardinal(n + 40)} degrees in {said} humidity {cardinal(n + 30)} percent", [
            {"kind": "reading", "quantity": "temperature", "value": n + 40, "unit": "F", "place": place},
            {"kind": "reading", "quantity": "humidity", "value": n + 30, "unit": "%", "place": place},
        ]
    return f"{said} is {cardinal(n)} degrees celsius", [
        {"kind": "reading", "quantity": "temperature", "value": n, "unit": "C", "place": place}
    ]


def hours(r: random.Random) -> Made:
    (said, place), work, n = r.choice(PLACES), r.choice(WORK), r.choice([1, 2, 3, 5, 6, 8, 2.5, 4.25, 6.75, 0.5])
    spoken = {
        2.5: "two and a half hours",
        4.25: "four and a quarter hours",
        6.75: "six and three quarter hours",
        0.5: "half an hour",
        1: "an hour",
    }.get(n) or f"{cardinal(int(n))} hours"
    form = r.choice(
        [
            "{h} {w} in {p}",
            "spent {h} {w} on {p}",
            "{h} {w} at {p} today",
            "i put in {h} {w} in {p}",
            "{w} in {p} took {h}",
            "{w} on {p} {h}",
        ]
    )
    return form.format(h=spoken, w=work, p=said), [{"kind": "hours", "hours": n, "activity": work, "place": place}]


def cost(r: random.Random) -> Made:
    d, c = r.randint(1, 19), r.choice([10, 25, 40, 50, 75, 85, 95])
    what = r.choice(["hinges", "brackets", "slates", "the shutters", "gate latches"])
    kind = r.randint(0, 3)
    if kind == 0:
        return f"{what} were {cardinal(d)} {cardinal(c)} each", [
            {"kind": "cost", "amount": d + c / 100, "per": "each", "what": what.removeprefix("the ")}
        ]
    if kind == 1:
        species = r.choice(SPECIES)
        return f"{species} is {cardinal(d)} {cardinal(c)} a board foot", [
            {"kind": "cost", "amount": d + c / 100, "per": "board foot", "what": species}
        ]
    n = r.randint(20, 600)
    if kind == 2:
        return f"paid {cardinal(n)} dollars for {what}", [
            {"kind": "cost", "amount": n, "per": "total", "what": what.removeprefix("the ")}
        ]
    thing = r.choice(["delivery", "the dumpster", "the permit", "the lift rental"])
    return r.choice(
        [
            f"{thing} was {cardinal(n)} dollars",
            f"{thing} came to {cardinal(n)} dollars",
            f"{thing} cost {cardinal(n)} dollars",
        ]
    ), [{"kind": "cost", "amount": n, "per": "total", "what": thing.removeprefix("the ")}]


def nothing(r: random.Random) -> Made:
    return r.choice(
        [
            "hang on wrong memo",
            "where's my pencil",
            "that's it for now",
            "okay heading in for lunch",
            "let me call you back",
            "can't hear a thing over the saw",
            "never mind",
            "no window yet on this side",
        ]
    ), []


SAYINGS: list[tuple[Callable[[random.Random], Made], int]] = [
    (thing_wide, 6), (thing_noun, 5), (rough, 3), (size, 2), (numbered, 4), (points, 2), (of_place, 4), (out_of, 3), (offset, 4), (corrected, 3),
    (metric, 2), (slope, 2), (task, 4), (task_done, 3), (task_waiting, 3), (stock, 5), (lumber, 3), (board_feet, 1), (reading, 4), (hours, 4), (cost, 3), (nothing, 1),
]  # fmt: skip
_FRONT = ["", "", "", "okay ", "so ", "uh ", "right so ", "well ", "okay so um "]
# Sayings that may stand in one memo without one place going on into the other.
_JOINABLE = {
    thing_wide,
    thing_noun,
    rough,
    size,
    numbered,
    offset,
    corrected,
    metric,
    reading,
    slope,
    stock,
    board_feet,
    cost,
    hours,
    task,
}


def memo(r: random.Random) -> Made:
    """One memo: one saying, or two or three joined by "and"."""
    kinds = [kind for kind, weight in SAYINGS for _ in range(weight)]
    first = r.choice(kinds)
    said, facts = first(r)
    if first in _JOINABLE and r.random() < 0.45:
        for _ in range(r.choice([1, 1, 2])):
            kind = r.choice([k for k in kinds if k in _JOINABLE])
            if kind is size and first is rough:  # a dimension said once goes on
                kind = thing_wide
            more, more_facts = kind(r)
            # what names no place takes that of the words before it
            last_place = next((f["place"] for f in reversed(facts) if f.get("place")), None)
            for fact in more_facts:
                if fact["kind"] not in ("stock", "cost") and not fact.get("place") and last_place:
                    fact["place"] = last_place
            said, facts = f"{said} and {more}", facts + more_facts
    return r.choice(_FRONT) + said, facts


def memos(seed: int, count: int) -> list[dict[str, Any]]:
    """That many memos with their facts, the same for the same seed."""
    r = random.Random(seed)
    out = []
    for n in range(count):
        said, facts = memo(r)
        out.append(
            {
                "id": f"v-{seed}-{n:04d}",
                "said_at": "2026-08-04T10:00",
                "text": said,
                "carried_place": None,
                "facts": facts,
            }
        )
    return out


if __name__ == "__main__":
    for row in memos(int(sys.argv[1]), int(sys.argv[2])):
        print(json.dumps(row))
