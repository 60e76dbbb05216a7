"""Sentences of a carpenter's day by templates: lower case, every figure in words. Drawn from the one generator R."""

from __future__ import annotations

import random

R = random.Random(1)
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
TENS = ["x", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]


def card(n):
    if n < 20:
        return ONES[n]
    if n < 100:
        return TENS[n // 10] + (" " + ONES[n % 10] if n % 10 else "")
    if n < 1000:
        h = "a" if n // 100 == 1 and R.random() < 0.4 else ONES[n // 100]
        return h + " hundred" + (R.choice([" and ", " "]) + card(n % 100) if n % 100 else "")
    return card(n // 1000) + " thousand" + (" " + card(n % 1000) if n % 1000 else "")


def c(*a):
    return R.choice(a)


def pick(s):
    return R.choice(s.split("|"))


# ---- figures ------------------------------------------------------------------------------------------------
def frac():
    r = R.random()
    if r < 0.22:
        return c("a half", "a half", "one half")
    if r < 0.40:
        return c("a quarter", "three quarters", "one quarter", "three quarters")
    if r < 0.68:
        return c(
            "an eighth",
            "one eighth",
            "three eighths",
            "five eighths",
            "seven eighths",
            "three eighths",
            "five eighths",
            "seven eighths",
        )
    if r < 0.92:
        return c(
            "a sixteenth",
            "one sixteenth",
            "three sixteenths",
            "five sixteenths",
            "seven sixteenths",
            "nine sixteenths",
            "eleven sixteenths",
            "thirteen sixteenths",
            "fifteen sixteenths",
        )
    if r < 0.985:
        return ONES[R.randrange(3, 20, 2)] + " thirty seconds"
    return c("a third", "two thirds", "one thirty second", "twenty five thirty seconds")


def whole(lo=1, hi=200):
    if R.random() < 0.33:  # the pairs that get mixed up, as often as the rest
        k = R.randrange(3, 10)
        n = c(10 + k, 10 * k)
        if lo <= n <= hi:
            return n
    if R.random() < 0.15:
        n = R.choice([7, 11, 4, 8, 2, 5, 9, 1])
        if lo <= n <= hi:
            return n
    return min(hi, max(lo, round(lo + (hi - lo) * R.random() ** 1.7)))


def inches(lo=3, hi=140):
    n = whole(lo, hi)
    r = R.random()
    if n > 100 and R.random() < 0.5:  # "one eighteen", "one oh one"
        w = "one " + ("oh " + ONES[n - 100] if n < 110 else card(n - 100)) if n < 200 else card(n)
    else:
        w = card(n)
    if r < 0.72:
        return w + " and " + frac()
    if r < 0.80:
        return (
            w + " " + R.choice(["three eighths", "five eighths", "seven eighths", "nine sixteenths", "three quarters"])
        )
    if r < 0.88:
        return w + " " + c("even", "dead", "on the nose", "flat", "inches")
    return w


def small():
    return c(
        "a quarter",
        "a half",
        "three eighths",
        "five eighths",
        "three quarters",
        "seven sixteenths",
        "an eighth",
        "a sixteenth",
        "three sixteenths",
        "seven eighths",
        "an inch",
        "an inch and a quarter",
        "an inch and " + frac(),
        "eleven sixteenths",
        "nine sixteenths",
        "three thirty seconds",
        "seven thirty seconds",
    )


def feet(lo=3, hi=40):
    n = whole(lo, hi)
    f = c("foot", "foot", "feet")
    r = R.random()
    if r < 0.18:
        return f"{card(n)} {f}" + c("", " even", " nothing", " dead", "")
    if r < 0.45:
        return f"{card(n)} {f} {card(R.randrange(1, 12))}" + c("", "", " inches")
    if r < 0.85:
        return f"{card(n)} {f} {card(R.randrange(1, 12))} and {frac()}" + c("", "", " inches")
    if r < 0.93:
        return f"{card(n)} and {c('a half', 'a quarter', 'three quarters')} {f}"
    return f"{card(n)} {card(R.randrange(1, 12))}"


def length():
    return inches() if R.random() < 0.6 else feet()


def money():
    r = R.random()
    if r < 0.35:
        return f"{card(whole(1, 30))} {c('ten', 'forty', 'ninety five', 'fifty', 'fifteen', 'sixty', 'sixteen', 'oh five', 'eighty five', 'thirty', 'thirteen', 'seventy five', 'nineteen', 'ninety', 'eighteen', 'eighty')}"
    if r < 0.8:
        return card(whole(3, 900)) + " dollars"
    return f"{card(whole(2, 60))} dollars and {card(whole(5, 99))} cents"


def hours():
    return c(
        *[card(n) + " hours" for n in range(2, 12)],
        *[card(n) + " and " + f + " hours" for n in range(1, 9) for f in ("a half", "a quarter", "three quarters")],
        "an hour and a half",
        "half an hour",
        "an hour",
        "two and a half hours",
        "three quarters of an hour",
    )


def percent():
    return (
        card(whole(6, 60))
        + ("" if R.random() < 0.75 else " and a half" if R.random() < 0.7 else " point " + ONES[R.randrange(1, 10)])
        + " percent"
    )


def section():
    return c(
        "one by six",
        "one by eight",
        "two by four",
        "two by six",
        "two by eight",
        "two by ten",
        "two by twelve",
        "four by four",
        "six by six",
        "eight by eight",
        "four by eight",
        "one by three",
        "one by four",
        "five quarter by six",
        "two by two",
        "six by eight",
        "one by ten",
        "one by twelve",
    )


def date():
    return c(
        "monday",
        "tuesday",
        "wednesday",
        "thursday",
        "friday",
        "saturday",
        "tomorrow",
        "the weekend",
        "next week",
        "the fifth",
        "the tenth of june",
        "the fifteenth",
        "march third",
        "october eighth",
        "the twentieth",
        "the thirtieth",
        "the thirteenth",
        "end of the month",
    )


# ---- words --------------------------------------------------------------------------------------------------
PL = "wall a|wall b|wall c|wall d|wall e|wall f|north wall|south wall|east wall|west wall|front wall|back wall|street side|creek side|kitchen|pantry|bathroom|bedroom|back room|workshop|garage|cellar|attic|hallway|stairwell|landing|carport|barn|sugar shack|boathouse|wood shed|tool shed|cabin|sleeping porch|deck|back deck|front porch|porch roof|shed roof|main roof|dormer|east dormer|west dormer|gable|south gable|road gable|valley side|ridge|lean to|chicken coop|greenhouse|studio|milk house|hay loft|laundry|entry|crawl space|utility room|den|office|nursery|sun room|canoe rack|smoke house|bell tower|chapel|school house|mill|orchard side|river wall|alcove|closet|breezeway|gate house|well house|root cellar|bunk room|stoop|side door|cookhouse"
OB = "window|door|stud bay|rafter|joist|header|sill|sill log|beam|post|girt|brace|tie beam|purlin|ridge board|fascia|soffit|trim|casing|jamb|shelf|bench|counter|stair tread|riser|stringer|railing|baluster|panel|batten|shutter|hatch|vent|pipe|outlet|drain|stove|hearth|gutter|downspout|flashing|sash|bay|opening|transom|bracket|top plate|bottom plate|cripple|jack stud|corner post|ledger|subfloor|hinge|latch|drawer|cabinet|rail|threshold|lintel|rung|slab|footing|collar tie|truss|king post|valley rafter|hip rafter|lookout|barge board|chimney|skylight|closet|screen|gate"
DIM = "width|height|length|depth|thickness|sill height|head height|plate height|ridge height|base width|rake|overhang|reveal|gap|run|rise|span|diagonal|spacing|diameter|clearance|setback|long point|short point|rough opening width|rough opening height"
ADJ = "wide|high|long|deep|thick|tall|across|long point|short point|on centre|in diameter"
SP = "white pine|red oak|white oak|spruce|hemlock|cedar|douglas fir|maple|ash|cherry|poplar|larch|birch|fir|cypress|walnut"
ST = "boards|planks|studs|sheets of plywood|sheets of drywall|bundles of shingles|rolls of felt|rolls of house wrap|tubes of caulk|tubes of sealant|pails of mortar|bags of cement|bags of insulation|bats of insulation|boxes of screws|boxes of nails|pounds of nails|lag bolts|carriage bolts|joist hangers|hurricane ties|hinges|door knobs|gallons of stain|gallons of paint|quarts of oil|sanding discs|saw blades|drill bits|wire brushes|cup brushes|posts|beams|rafters|joists|lengths of flashing|strips of lath|cedar shakes|logs|sheets of foam|cans of foam|rolls of tape|ten penny nails|eight penny nails|sixteen penny sinkers|deck screws|timbers|pavers|clapboards|dowels|wedges|shims"
ACT = "framing|sheathing|shingling|sanding|chinking|caulking|painting|staining|digging|hauling brush|cutting rafters|hanging doors|laying the floor|raking out joints|stacking lumber|cleaning up|pouring the footing|setting posts|running wire|fitting trim|notching logs|peeling logs|planing boards|sharpening|driving to the yard|fixing the saw|cutting stringers|hanging drywall|nailing strapping|setting the beam|building forms|washing the deck|grinding bolts|fitting the sash|scraping paint|oiling the boards|laying out the stairs"
TASK = "caulk the {o}|nail off the {o}|order more {s}|prime the {o}|flash the {o}|shim the {o}|hang the {o}|sand the {o}|oil the {o}|check the {o} for plumb|move the ladder|sharpen the chisels|call the inspector|pick up the {s}|seal the end grain|plane the {o}|cover the {s} with a tarp|fix the {o}|put a second coat on the {o}|level the {o}|clean the gutters|brace the {o}|pull the nails out of the {o}|return the {s}|trim the {o}|insulate behind the {o}|patch the {o}|measure the {o} again|take down the staging|set the {o}|finish the {o}"
PRE = "okay|so|alright|um|uh|well|right|now|oh and|and|and then|let me see|let's see|here we go|next one|same wall|same one|on this one|also|next|hey|yeah|make a note|note"


def pl():
    return pick(PL)


def the(p):
    return p if p.startswith("wall") else c("the ", "the ", "") + p


def ob():
    o = pick(OB)
    return o + (" " + card(whole(1, 30)) if R.random() < 0.22 else "")


def many():
    return (
        card(whole(2, 120))
        if R.random() < 0.85
        else c("a dozen", "two dozen", "half a dozen", "a couple", "three dozen", "a pair of")
    )


def mark():
    return (
        c(
            "a strong ",
            "a heavy ",
            "a scant ",
            "a shy ",
            "about ",
            "roughly ",
            "just under ",
            "maybe ",
            "a fat ",
            "call it ",
        )
        if R.random() < 0.1
        else ""
    )


def after():
    return (
        c(
            " shy",
            " strong",
            " or so",
            " give or take",
            " plus a hair",
            " less a sixteenth",
            " shy by an eighth",
            " burned an inch",
        )
        if R.random() < 0.07
        else ""
    )


def take(f):
    v = f()
    r = R.random()
    if r < 0.07:
        return (
            v
            + c(
                " no ",
                " no scratch that ",
                " no make that ",
                " hang on ",
                " wait ",
                " correction ",
                " i mean ",
                " sorry ",
            )
            + f()
        )
    if r < 0.09:
        return f() + " not " + v
    return mark() + v + after()


def is_():
    return c(" is ", " is ", " ", " comes to ", " at ", " measures ", " reads ", "'s ")


# ---- sentences ----------------------------------------------------------------------------------------------
def measure():
    r = R.random()
    p, o = pl(), ob()
    if r < 0.22:
        return f"{the(p)} {o} {pick(DIM)}{is_()}{take(length)}"
    if r < 0.36:
        return f"the {o} {c('in', 'on', 'at')} {the(p)} is {take(length)} {pick(ADJ)}"
    if r < 0.48:
        return f"{c('window', 'door', 'window', 'hatch', 'vent')} rough opening {c('in', 'on')} {the(p)} {take(inches)}{c(' by ', ' wide by ', ' wide and ')}{take(inches)}{c('', ' high', ' tall', '')}"
    if r < 0.56:
        return f"{o} {card(whole(1, 30))} {c('long point', 'short point', 'length', '')} {take(inches)}"
    if r < 0.64:
        return f"{o} is {c(small(), take(small))} out of {c('plumb', 'level', 'square', 'true')}{c('', '', ' in eight foot', ' in four feet')}"
    if r < 0.72:
        return f"{the(p)} length {take(feet)} height {take(feet)}"
    if r < 0.78:
        return f"{c('gap', 'reveal', 'joint', 'kerf', 'shoulder', 'offset', 'sag', 'bow', 'check')} {c('at the', 'on the', 'behind the')} {o} {is_().strip()} {take(small)}"
    if r < 0.84:
        return f"diagonals {c('on', 'of')} {the(p)} {feet()} and {feet()}"
    if r < 0.9:
        return f"from the {ob()} to the {ob()} {is_().strip()} {take(length)}"
    if r < 0.95:
        return f"{o} {inches()} by {inches()}" + (f" by {inches()}" if R.random() < 0.3 else "")
    return f"{pick('studs|joists|rafters|posts|battens|purlins')} {c('in', 'on')} {the(p)} {card(c(12, 16, 24, 19, 14, 30, 32, 48, 18, 20))}{c('', ' inches')} on centre"


def bare():
    r = R.random()
    if r < 0.45:
        return inches(1, 199)
    if r < 0.6:
        return feet()
    if r < 0.7:
        return inches() + " by " + inches()
    if r < 0.85:
        return (
            c(
                "that one is ",
                "make it ",
                "this one ",
                "same again ",
                "next ",
                "cut it at ",
                "call it ",
                "i get ",
                "write down ",
                "put down ",
            )
            + length()
        )
    return small()


def listm():
    k = R.randrange(2, 6)
    f = c(inches, inches, lambda: card(whole(2, 120)), small, feet)
    s = [f() for _ in range(k)]
    r = R.random()
    if r < 0.35:
        return " ".join(
            f"{o} {v}"
            for o, v in zip(
                ["one", "two", "three", "four", "five", "six"] if R.random() < 0.4 else [pick(OB) for _ in s],
                s,
                strict=False,
            )
        )
    if r < 0.7:
        return (
            f"{c('cut list', 'treads', 'pieces for ' + the(pl()), 'rafters', 'measurements', 'boards', 'shelves', 'gaps from the left', 'the ' + pick(OB) + 's')} "
            + " ".join(s)
        )
    return " then ".join(s) if R.random() < 0.5 else " and ".join(s[:2]) + "".join(" " + v for v in s[2:])


def slope():
    a, b = card(R.randrange(2, 19)), c("twelve", "twelve", "twelve", "twelve", "ten")
    return f"{the(pl())} {c('is a', 'slope is', 'pitch is', 'pitches', 'is', 'goes up at')} {a}{c(' ', ' in ', ' over ', ' on ')}{b}"


def stock():
    n, s = many(), pick(ST)
    r = R.random()
    ev = c(
        "received",
        "used",
        "need",
        "ordered",
        "stacked",
        "have",
        "we have",
        "got",
        "picked up",
        "cut",
        "need to buy",
        "counted",
        "went through",
        "broke",
        "put in",
        "took back",
    )
    if (
        s in ("boards", "planks", "studs", "rafters", "joists", "posts", "beams", "timbers", "logs")
        and R.random() < 0.75
    ):
        x = f"{ev} {n} {section()} {c('', pick(SP) + ' ')}{s}"
        if R.random() < 0.6:
            x += f" {card(c(8, 10, 12, 14, 16, 18, 20, 6, 7, 13, 15))} {c('foot', 'feet', 'foot long', 'footers')}"
        if R.random() < 0.25:
            x += f" at {money()} {c('each', 'a piece', 'a board', 'a stick', '')}"
        return x.strip()
    if r < 0.2:
        return f"{n} {s} left over"
    if r < 0.35:
        return f"{ev} {n} {s} and {many()} {pick(ST)}"
    return f"{ev} {n} {s}" + c(
        "",
        f" for {the(pl())}",
        f" at {money()} {c('each', 'a box', 'a piece', 'a pound', 'a roll', 'a tube')}",
        " today",
        " this morning",
    )


def cost():
    return c(
        f"{pick(SP)} is {money()} a {c('foot', 'board foot', 'board', 'square', 'thousand')}",
        f"{c('delivery', 'the dump fee', 'the permit', 'diesel', 'the rental', 'lumber', 'the concrete', 'hardware')} {c('was', 'came to', 'is', 'cost me')} {money()}",
        f"paid {money()} for {c('the ', '', card(whole(2, 40)) + ' ')}{pick(ST)}",
        f"{pick(ST)} {c('are', 'were', 'went up to')} {money()} {c('each', 'a box', 'a roll', 'a bundle', 'a tube', 'a pail')}",
        f"charge {c('him', 'the job', 'my time at')} {money()} an hour",
        f"spent {money()} at the {c('yard', 'mill', 'hardware store', 'lumber yard')}",
    )


def hrs():
    h = hours()
    return c(
        f"{h} {pick(ACT)}{c('', ' at ' + the(pl()), ' today', ' yesterday', ' on ' + the(pl()))}",
        f"spent {h} {pick(ACT)}",
        f"{pick(ACT)} took {h}",
        f"{the(pl())} was {h} not {hours()}",
        f"worked from {card(R.randrange(6, 12))} {c('till', 'to', 'until')} {card(R.randrange(1, 8))}",
        f"put in {h} {c('on', 'at')} {the(pl())}",
    )


def reading():
    r = R.random()
    p = the(pl())
    if r < 0.45:
        return f"{c(pick(SP) + ' ', 'moisture ', 'moisture content ', 'the ' + pick(OB) + ' reads ', 'stack reads ')}{c('', 'in ' + p + ' ', 'at ' + p + ' ')}{percent()}"
    if r < 0.75:
        return f"{p} {card(whole(20, 98))} degrees{c('', ' humidity ' + percent(), ' and humidity ' + percent(), ' ' + c('fahrenheit', 'celsius'))}"
    return (
        f"humidity {c('in', 'at')} {p} {percent()}"
        if R.random() < 0.5
        else f"{p} {card(whole(20, 98))} degrees {card(whole(20, 98))} percent"
    )


def task():
    t = pick(TASK).format(o=pick(OB), s=pick(ST))
    r = R.random()
    if r < 0.3:
        return f"{t} {c('at', 'in', 'on', 'over')} {the(pl())}"
    if r < 0.5:
        return f"{t} by {date()}"
    if r < 0.62:
        return f"{t} {c('before', 'once', 'after', 'when')} {c('the staging comes down', 'the glass comes', 'the rain stops', 'the paint is dry', 'the roof is on', 'the concrete sets', 'the boards are dry', 'the inspector has been')}"
    if r < 0.72:
        return f"{c('need to', 'have to', 'remember to', 'got to', chr(100) + 'on' + chr(39) + 't forget to')} {t}"
    if r < 0.85:
        return f"{pick(OB)} {c('in', 'on')} {the(pl())} is {c('done', 'finished', 'in', 'set', 'hung', 'painted', 'nailed off')} {c('', 'so that' + chr(39) + 's done', 'and it took ' + hours(), 'finally')}".strip()
    return t


def teens():  # one figure, said in a plain frame
    k = R.randrange(3, 10)
    n = c(10 + k, 10 * k)
    w = card(n)
    return c(
        f"{ob()} {w}",
        f"{w} {pick(ST)}",
        f"{w} and {frac()}",
        f"{w} {c('inches', 'percent', 'degrees', 'dollars', 'feet', 'boards', 'pieces')}",
        f"{w} by {card(whole(6, 96))}",
        f"the {pick(OB)} is {w} and {frac()}",
        f"{pick(DIM)} {w}",
        f"not {w} {card(100 * 0 + (10 * k if n < 20 else 10 + k))}",
        f"{w} {pick(OB)}s",
        f"it came to {w} dollars",
        f"{the(pl())} {w} and {frac()}",
    )
