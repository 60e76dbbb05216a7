"""What the journal says to a memo, in lines: what it wrote down, and what it asks."""

from __future__ import annotations

from journal.conversation import Conversation

SAID = "→ "
ASKED = "? "


def answer_lines(talk: Conversation) -> list[str]:
    """What the journal says to the last memo: what it wrote down, and what it asks."""
    said = [f"{SAID}{sentence}" for sentence in talk.told]
    return [*said, f"{ASKED}{talk.asked}"] if talk.asked else said
