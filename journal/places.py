"""Names of places: finding the one a person means among those on file. Pure."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping

from journal.errors import NotFound

_LABEL = re.compile(r"\b([a-z])$")


def canonical(name: str) -> str:
    """A typed name in the journal's form: lower case, single spaces, a letter that labels it in capitals ("wall a")."""
    plain = " ".join(name.lower().split()).removeprefix("the ")
    return _LABEL.sub(lambda match: match[1].upper(), plain) if " " in plain else plain


def belongs_to(place: str | None, whole: str) -> bool:
    """Whether a place is that one or belongs to it: "vestry floor" belongs to "vestry"."""
    return place is not None and (place == whole or place.startswith(whole + " "))


def find_place(name: str, places: Iterable[str], aliases: Mapping[str, str]) -> str:
    """The place on file that a typed name means; NotFound lists those of its kind and the nearest by spelling."""
    known = sorted(set(places))
    wanted = canonical(name)
    wanted = aliases.get(wanted, wanted)
    if any(belongs_to(place, wanted) for place in known):
        return wanted
    kin = [place for place in known if set(wanted.split()) & set(place.split())] or known
    if not known:
        raise NotFound(f"there is no '{wanted}' in this journal", hint="No memo has named a place yet.")
    # "loft stair": the stair is a thing of the loft
    led_by = [place for place in known if belongs_to(wanted, place)]
    near = led_by[-1:] or difflib.get_close_matches(wanted, known, n=1, cutoff=0.6)
    shown = ", ".join(kin[:12]) + (f" and {len(kin) - 12} more" if len(kin) > 12 else "")
    guess = f" Did you mean '{near[0]}'?" if near else ""
    raise NotFound(f"there is no '{wanted}' in this journal", hint=f"Places so far: {shown}.{guess}")
