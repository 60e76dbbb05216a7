"""What can go wrong, and the two strings a person is shown for it.

JournalError                what stops a command: a message and the next step
├── NotFound                a memo, fact, place or file that is not in this journal
├── Unreadable              a figure, date or line that could not be understood
├── SoundError              a file that is no sound, an empty or silent recording, no microphone
├── EngineError             a speech engine or its model that is missing or damaged
└── JobError                a job folder that cannot be opened: read-only, from a newer release, no journal

Something *said* that could not be used is never an error: it is a `records.Problem`, collected and shown.
"""

from __future__ import annotations


class JournalError(Exception):
    """Stops a command; `message` names the thing and where it is, `hint` the next step."""

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.message}\n{self.hint}" if self.hint else self.message


class NotFound(JournalError):
    """A memo, fact, place or file that is not in this journal."""


class Unreadable(JournalError):
    """A figure, date or line that could not be understood."""


class SoundError(JournalError):
    """A file that is no sound, an empty or silent recording, or no microphone."""


class EngineError(JournalError):
    """A speech engine or its model that is missing or damaged."""


class JobError(JournalError):
    """A job folder that cannot be opened or written."""
