"""One lot of material while it is read: what has been heard of it so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from journal.records import Doubt


@dataclass(slots=True)
class Lot:
    """One lot as it is being read, from word `i` to `j`."""

    i: int
    j: int
    count: Fraction | None = None
    section: str | None = None
    species: str | None = None
    what: list[str] = field(default_factory=list)
    length: int | None = None
    board_feet: Fraction | None = None
    place: str | None = None
    # "two by fours" are a thing by themselves: no thing of the list before them goes on
    by_section: bool = False
    # a bare "at fourteen" after a section: inches where pieces were cut, feet where lumber is counted
    bare_feet: bool = False
    # a bare number after "at" that is feet where the lots before are of so many feet
    maybe_feet: bool = False
    # "a couple extra six footers": the length alone is the name
    footers: bool = False
    # "ten of three quarter ply" after "forty sheets of …": of what was counted before
    of_the_same: bool = False
    doubts: list[Doubt] = field(default_factory=list)

    def named(self) -> bool:
        """Whether anything but a count was said."""
        return bool(self.what or self.section or self.species or self.board_feet is not None or self.footers)
