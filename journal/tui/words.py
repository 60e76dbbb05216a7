"""The words of the memo in hand with their marks; they turn into a field to be put right in."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from journal.fields import describe
from journal.intake import Taken
from journal.records import Extraction, Fact, Filed
from journal.tui.effect import Effect
from journal.tui.marks import day_name, doubt_line, is_doubtful, marked_words, problem_line, quiet
from journal.tui.pane import Pane

if TYPE_CHECKING:
    from journal.tui.words_field import WordsField

_SOURCES = {"typed": "typed", "recording": "from a recording", "microphone": "said here"}


class Words(Vertical):
    """The words of a memo: when it was said, the evidence of the fact in hand underlined, shaky words marked."""

    class Typed(Message):
        """The words in the field differ now."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    class Kept(Message):
        """These words are to be kept."""

        def __init__(self, text: str, changed: bool) -> None:
            super().__init__()
            self.text, self.changed = text, changed

    class Left(Message):
        """The field was left; `changed` tells whether anything is lost by that."""

        def __init__(self, changed: bool) -> None:
            super().__init__()
            self.changed = changed

    def __init__(self) -> None:
        super().__init__()
        self._field: WordsField | None = None

    @property
    def editing(self) -> bool:
        """Whether the words are a field now."""
        return self._field is not None

    @property
    def changed(self) -> bool:
        """Whether other words stand in the field than those on file."""
        return self._field is not None and self._field.changed

    def compose(self) -> ComposeResult:
        """A head line over the words."""
        yield Static(id="head")
        with VerticalScroll(can_focus=False):
            yield Pane(id="text")

    def show(self, taken: Taken | None, filed: Filed[Fact] | None, nothing: str = "") -> None:
        """Show a memo's words with the evidence of one of its facts; `nothing` where there is no memo."""
        self.leave()
        head, text = self.query_one("#head", Static), self.query_one("#text", Pane)
        if taken is None:
            head.update(Content(""), layout=False)
            text.show(quiet(nothing))
            return
        memo = taken.memo
        source = _SOURCES[memo.source] + (f", heard by {memo.engine}" if memo.engine else "")
        head.update(
            Content.assemble(
                (f"memo {memo.number}", "bold"), f"  {day_name(memo.said_at)} {memo.said_at:%H:%M}  "
            ).append(quiet(source)),
            layout=False,
        )
        doubts = [d for fact in taken.facts if is_doubtful(fact) for d in fact.fact.doubts]
        text.show(
            marked_words(
                memo.text,
                evidence=filed.fact.evidence if filed is not None else None,
                doubts=[*doubts, *taken.doubts, *memo.heard_doubts],
                problems=taken.problems,
                words=memo.words,
            )
        )

    def remarks(self, filed: Filed[Fact] | None) -> Content:
        """What there is to know of a fact: its doubts, what it was before, that it was confirmed."""
        if filed is None:
            return Content("")
        lines = [doubt_line(doubt) for doubt in filed.fact.doubts] if is_doubtful(filed) else []
        lines += [quiet(f"before: {describe(old.fact)} (memo {old.memo})") for old in filed.was]
        if filed.confirmed:
            lines.append(quiet("looked at and found right"))
        return Content("\n").join(lines)

    def edit(self, text: str, instead: str | None = None) -> None:
        """Turn the words into a field, with other ones put in its stead where they are given."""
        from journal.tui.words_field import WordsField  # a text area takes a while to import

        self.leave()
        self.query_one(VerticalScroll).display = False
        field = self._field = WordsField(text)
        self.mount(field)
        field.focus()
        if instead is not None:
            field.text = instead
        field.move_cursor(field.document.end)

    def leave(self) -> None:
        """Turn the field into words again."""
        if self._field is not None:
            self._field.remove()
            self._field = None
            self.query_one(VerticalScroll).display = True

    def would_say(self, effect: Effect, taken: Taken) -> Callable[[Extraction], None]:
        """Shows what a memo would say with other words, beside what it says now."""
        now = [f"{f.fact.place or 'no place'}: {describe(f.fact)}" for f in taken.facts]

        def shown(read: Extraction) -> None:
            then = [f"{fact.place or 'no place'}: {describe(fact)}" for fact in read.facts]
            lines = [Content.styled("Enter keeps it, and it will say:", "bold")]
            lines += [Content.assemble("  + " if fact not in now else "    ", fact) for fact in then]
            lines += [Content.assemble("  − ", (fact, "strike $foreground 65%")) for fact in now if fact not in then]
            lines += [problem_line(problem) for problem in read.problems]
            if not then:
                lines.append(quiet("  no facts"))
            effect.show(Content("\n").join(lines))

        return shown
