"""What the handbooks say of each wood: shrinkage, dimensional change, specific gravity, days to air-dry.

Sources: Wood Handbook, FPL-GTR-190 (2010), Table 4-3 (shrinkage green to ovendry, per cent of green size) and Table 13-5
(dimensional change per point of moisture, 6 to 14 %); USDA Forest Service FIA reference table of species (specific gravity,
green volume and ovendry weight); FPL Technical Note 233 (1960; days to air-dry 1-inch lumber green to 20 %, most of them
from memory). `recalled` marks woods of which a shrinkage figure is from memory (mem).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Wood:
    """One wood by its handbook name. Shrinkage in per cent of green size, `change` as a share per point of moisture."""

    name: str
    radial: float | None
    tangential: float | None
    volumetric: float | None
    radial_change: float | None
    tangential_change: float | None
    gravity: float | None
    air_dry_days: tuple[int, int] | None
    recalled: bool = False


# fmt: off
WOODS: tuple[Wood, ...] = (
    #    name, radial, tangential, volumetric, radial change, tangential change, specific gravity, days to air-dry
    Wood("Ash, white", 4.9, 7.8, 13.3, 0.00169, 0.00274, None, (60, 200)),
    Wood("Aspen, quaking", 3.5, 6.7, 11.5, 0.00119, 0.00234, 0.35, None),
    Wood("Baldcypress", 3.8, 6.2, 10.5, 0.0013, 0.00216, 0.42, (100, 300), recalled=True),
    Wood("Basswood, American", 6.6, 9.3, 15.8, 0.0023, 0.0033, None, None),
    Wood("Beech, American", 5.5, 11.9, 17.2, 0.0019, 0.00431, 0.56, None),
    Wood("Birch, yellow", None, None, None, 0.00256, 0.00338, None, None),
    Wood("Cedar, Atlantic white", 2.9, 5.4, 8.8, 0.00099, 0.00187, 0.31, None, recalled=True),
    Wood("Cedar, Port-Orford", 4.6, 6.9, 10.1, None, None, None, None),
    Wood("Cedar, eastern redcedar", 3.1, 4.7, 7.8, 0.00106, 0.00162, 0.44, None, recalled=True),
    Wood("Cedar, incense", 3.3, 5.2, 7.7, None, None, None, None),
    Wood("Cedar, northern white", 2.2, 4.9, 7.2, 0.00101, 0.00229, 0.29, None, recalled=True),
    Wood("Cedar, western redcedar", 2.4, 5.0, 6.8, 0.00111, 0.00234, 0.31, None, recalled=True),
    Wood("Cedar, yellow", 2.8, 6.0, 9.2, 0.00095, 0.00208, None, None, recalled=True),
    Wood("Cherry, black", 3.7, 7.1, 11.5, 0.00126, 0.00248, 0.47, (70, 200)),
    Wood("Chestnut, American", 3.4, 6.7, 11.6, 0.00116, 0.00234, 0.4, None),
    Wood("Douglas-fir", None, None, None, None, None, 0.45, None),
    Wood("Douglas-fir, coast", 4.8, 7.6, 12.4, 0.00165, 0.00267, 0.45, (20, 200), recalled=True),
    Wood("Douglas-fir, interior", None, None, None, None, None, None, (20, 180)),
    Wood("Douglas-fir, interior north", 3.8, 6.9, 10.7, 0.0013, 0.00241, 0.45, None, recalled=True),
    Wood("Douglas-fir, interior west", 4.8, 7.5, 11.8, None, None, 0.45, None),
    Wood("Elm, American", 4.2, 9.5, 14.6, 0.00144, 0.00338, None, None),
    Wood("Fir, balsam", 2.9, 6.9, 11.2, 0.00099, 0.00241, 0.33, None, recalled=True),
    Wood("Fir, grand", 3.4, 7.5, 11.0, None, None, None, None),
    Wood("Fir, subalpine", 2.6, 7.4, 9.4, None, None, None, None),
    Wood("Fir, white", 3.3, 7.0, 9.8, None, None, None, None),
    Wood("Hemlock, eastern", 3.0, 6.8, 9.7, 0.00102, 0.00237, 0.38, (90, 200), recalled=True),
    Wood("Hemlock, western", 4.2, 7.8, 12.4, 0.00144, 0.00274, 0.42, (60, 200), recalled=True),
    Wood("Hickory, pecan", None, None, None, 0.00169, 0.00315, None, None),
    Wood("Larch, western", 4.5, 9.1, 14.0, 0.00155, 0.00323, 0.48, (60, 120), recalled=True),
    Wood("Maple, red", None, None, None, 0.00137, 0.00289, None, (30, 120)),
    Wood("Maple, sugar", 4.8, 9.9, 14.7, 0.00165, 0.00353, None, (50, 200), recalled=True),
    Wood("Oak, chestnut", 5.3, 10.8, 16.4, None, None, 0.57, None),
    Wood("Oak, northern red", 4.0, 8.6, 13.7, None, None, 0.56, (70, 200), recalled=True),
    Wood("Oak, northern white", None, None, None, None, None, None, (80, 250)),
    Wood("Oak, overcup", 5.3, 12.7, 16.0, None, None, None, None),
    Wood("Oak, post", 5.4, 9.8, 16.2, None, None, None, None),
    Wood("Oak, southern red", 4.7, 11.3, 16.1, None, None, None, (100, 300), recalled=True),
    Wood("Oak, southern white", None, None, None, None, None, None, (120, 320)),
    Wood("Oak, white", 5.6, 10.5, 16.3, None, None, 0.6, None),
    Wood("Pine, eastern white", 2.1, 6.1, 8.2, 0.00071, 0.00212, 0.34, (60, 200), recalled=True),
    Wood("Pine, jack", 3.7, 6.6, 10.3, None, None, None, None, recalled=True),
    Wood("Pine, loblolly", 4.8, 7.4, 12.3, 0.00165, 0.00259, 0.47, None, recalled=True),
    Wood("Pine, lodgepole", 4.3, 6.7, 11.1, 0.00148, 0.00234, 0.38, (15, 150), recalled=True),
    Wood("Pine, longleaf", 5.1, 7.5, 12.2, 0.00176, 0.00263, 0.54, None, recalled=True),
    Wood("Pine, ponderosa", 3.9, 6.2, 9.7, 0.00133, 0.00216, 0.38, (15, 150), recalled=True),
    Wood("Pine, red", 3.8, 7.2, 11.3, 0.0013, 0.00252, 0.41, (40, 200), recalled=True),
    Wood("Pine, shortleaf", 4.6, 7.7, 12.3, 0.00158, 0.00271, 0.47, None, recalled=True),
    Wood("Pine, slash", 5.4, 7.6, 12.1, None, None, 0.54, None, recalled=True),
    Wood("Pine, southern (loblolly, longleaf, shortleaf)", None, None, None, None, None, None, (30, 150)),
    Wood("Pine, sugar", 2.9, 5.6, 7.9, None, None, 0.34, None, recalled=True),
    Wood("Pine, western white", 4.1, 7.4, 11.8, None, None, 0.36, (15, 150), recalled=True),
    Wood("Red oak, commercial", None, None, None, 0.00158, 0.00369, None, None),
    Wood("Redwood", None, None, None, None, None, 0.36, None),
    Wood("Redwood, old growth", 2.6, 4.4, 6.8, None, None, None, None, recalled=True),
    Wood("Redwood, young growth", 2.2, 4.9, 7.0, None, None, None, None, recalled=True),
    Wood("Sassafras", 4.0, 6.2, 10.3, 0.00137, 0.00216, None, None),
    Wood("Spruce, Engelmann", 3.8, 7.1, 11.0, 0.0013, 0.00248, 0.33, (20, 120), recalled=True),
    Wood("Spruce, Sitka", 4.3, 7.5, 11.5, 0.00148, 0.00263, 0.33, None, recalled=True),
    Wood("Spruce, black", 4.1, 6.8, 11.3, None, None, 0.38, None, recalled=True),
    Wood("Spruce, red", 3.8, 7.8, 11.8, 0.0013, 0.00274, 0.37, None, recalled=True),
    Wood("Spruce, red or white", None, None, None, None, None, None, (30, 120)),
    Wood("Spruce, white", None, None, None, None, None, 0.37, None),
    Wood("Sweetgum", 5.3, 10.2, 15.8, 0.00183, 0.00365, None, None),
    Wood("Sweetgum, sapwood", None, None, None, None, None, None, (60, 200)),
    Wood("Sycamore, American", 5.0, 8.4, 14.1, 0.00172, 0.00296, None, None),
    Wood("Tamarack", 3.7, 7.4, 13.6, 0.00126, 0.00259, 0.49, None, recalled=True),
    Wood("Walnut, black", 5.5, 7.8, 12.8, 0.0019, 0.00274, 0.51, (70, 200)),
    Wood("White oak, commercial", None, None, None, 0.0018, 0.00365, None, None),
    Wood("Yellow-poplar", 4.6, 8.2, 12.7, 0.00158, 0.00289, 0.4, (40, 150), recalled=True),
)
# fmt: on
_BY_NAME = {wood.name: wood for wood in WOODS}

# a bare trade name and the wood that it commonly means (common practice)
_TRADE_NAMES = {
    "white pine": "Pine, eastern white",
    "eastern pine": "Pine, eastern white",
    "douglas fir": "Douglas-fir, coast",
    "white cedar": "Cedar, northern white",
    "red cedar": "Cedar, western redcedar",
    "western red cedar": "Cedar, western redcedar",
    "eastern red cedar": "Cedar, eastern redcedar",
    "hemlock": "Hemlock, eastern",
    "larch": "Larch, western",
    "cypress": "Baldcypress",
    "poplar": "Yellow-poplar",
    "red oak": "Oak, northern red",
    "chestnut": "Chestnut, American",
    "white fir": "Fir, white",
    "redwood": "Redwood, young growth",
}
_GROUPS = frozenset({"pine", "spruce", "fir", "cedar", "oak", "maple"})


def wood(species: str | None) -> Wood | None:
    """The wood that a spoken species means; None where none is known or the name fits several ("pine", "spruce")."""
    found = woods(species)
    return found[0] if len(found) == 1 else None


def woods(species: str | None) -> tuple[Wood, ...]:
    """Every wood that a spoken species may mean: one for "white pine", all the spruces for "spruce"."""
    said = " ".join((species or "").casefold().replace("-", " ").split())
    if not said:
        return ()
    if said in _TRADE_NAMES:
        return (_BY_NAME[_TRADE_NAMES[said]],)
    wanted = set(said.split())
    return tuple(known for known in WOODS if wanted <= _words(known.name))


def _words(name: str) -> set[str]:
    """The words of a handbook name, in which a redcedar is also a red cedar."""
    bare = name.casefold().replace(",", " ").replace("-", " ").replace("redcedar", "redcedar red cedar")
    return set(bare.replace("(", " ").replace(")", " ").split())


def group_of(species: str | None) -> str | None:
    """The group word of a species ("white pine" -> "pine"), None where it names none."""
    return next((word for word in reversed((species or "").casefold().split()) if word in _GROUPS), None)
