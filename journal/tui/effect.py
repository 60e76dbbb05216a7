"""What a change does to the quantities of a place: before and after, line by line. Pure but for the widget that shows it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.content import Content

from journal.tui.pane import Pane

if TYPE_CHECKING:
    from journal.quantities.base import Answers, Value

_WAS = re.compile(r" \(was [^()]*\),?")
_BRACKETS = re.compile(r",? \((?!doubtful)[^()]*\)")


@dataclass(frozen=True, slots=True)
class Difference:
    """One line of the effect: what it is about, how it was and how it would be ("" where there was or would be none)."""

    about: str
    was: str
    now: str


def differences(before: Answers, after: Answers) -> list[Difference]:
    """What differs between two answers: figures that change, come or go, then what would be missing or disagree."""
    old, new = _by_name(before), _by_name(after)
    found = [
        _difference(_label(name), old[name].shown if name in old else "", new[name].shown if name in new else "")
        for name in dict.fromkeys([*old, *new])
        if (_figure(old[name]) if name in old else None) != (_figure(new[name]) if name in new else None)
    ]
    for title, was, now in (
        ("to say", [m.say for m in before.missing], [m.say for m in after.missing]),
        ("disagree", [d.shown for d in before.disagree], [d.shown for d in after.disagree]),
    ):
        found += [Difference(title, "", text) for text in now if text not in was]
        found += [Difference(title, text, "") for text in was if text not in now]
    return found


def _figure(value: Value) -> str:
    """What is shown without what it was before, which a correction changes along with it."""
    return " ".join(_WAS.sub(" ", value.shown).split())


def _difference(about: str, was: str, now: str) -> Difference:
    """A line with the figures only, where they differ; what stands in brackets after them is on the Place screen."""
    short_was, short_now = _BRACKETS.sub("", was), _BRACKETS.sub("", now)
    return Difference(about, was, now) if short_was == short_now else Difference(about, short_was, short_now)


def _by_name(answers: Answers) -> dict[tuple[str | None, ...], Value]:
    return {(value.place, value.about, value.name): value for value in answers.quantities}


def _label(name: tuple[str | None, ...]) -> str:
    return " ".join(part for part in name[1:] if part)


class Effect(Pane):
    """The lines of an effect, or a word on why there are none."""

    def tell(self, title: str, found: list[Difference]) -> None:
        """Show what a change would do, under a title."""
        self.show(effect_lines(title, found))


def effect_lines(title: str, found: list[Difference]) -> Content:
    """The lines of an effect under a title."""
    return Content("\n").join([Content.styled(title, "bold"), *_lines(found)])


def _lines(found: list[Difference]) -> Iterator[Content]:
    if not found:
        yield Content.styled("  no quantity changes", "$foreground 65%")
    for one in found:
        if one.was and one.now:
            yield Content.assemble(f"  {one.about}: ", (one.was, "$foreground 65%"), " → ", (one.now, "bold"))
        elif one.now:
            yield Content.assemble(f"  + {one.about}: ", (one.now, "bold"))
        else:
            yield Content.assemble(f"  − {one.about}: ", (one.was, "strike $foreground 65%"))
