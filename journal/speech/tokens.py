"""The pieces of words that a Moonshine model writes in: numbers to text and back."""

from __future__ import annotations

from pathlib import Path

from journal.errors import EngineError

START, END = 1, 2
_FIRST_PIECE = 259
"""Numbers below are the start, the end and raw bytes; a word spelt with those is one that the model never writes."""
_SPACE = "\u2581"
_DIGITS_AND_MARKS = frozenset(b'0123456789$%,;:"/()-')
"""A full stop is left to the model: it ends sentences with one."""


class Tokens:
    """A model's table of pieces."""

    def __init__(self, pieces: list[bytes]) -> None:
        self.pieces = pieces
        self._numbers: dict[str, int] = {}
        for number, piece in enumerate(pieces[_FIRST_PIECE:], _FIRST_PIECE):
            try:
                self._numbers.setdefault(piece.decode(), number)
            except UnicodeDecodeError:
                continue

    @classmethod
    def load(cls, path: Path) -> Tokens:
        """The table of a `tokenizer.bin`: each piece behind its length, one byte, or two where it is 128 or more."""
        raw = path.read_bytes()
        pieces: list[bytes] = []
        at = 0
        try:
            while at < len(raw):
                length = raw[at]
                at += 1
                if length >= 128:
                    length = raw[at] * 128 + length - 128
                    at += 1
                pieces.append(raw[at : at + length])
                at += length
        except IndexError:
            pieces = []
        if len(pieces) < _FIRST_PIECE:
            raise EngineError(f"the speech model's word pieces {path} are damaged", hint="Install the journal again.")
        return cls(pieces)

    def other_than_words(self) -> list[int]:
        """The pieces with a digit or a mark in them: what is written with them is not the words that were said."""
        return [
            number
            for number, piece in enumerate(self.pieces[_FIRST_PIECE:], _FIRST_PIECE)
            if any(byte in _DIGITS_AND_MARKS for byte in piece)
        ]

    def words(self, numbers: list[int]) -> list[tuple[str, list[int]]]:
        """The written words and, for each, the positions in `numbers` of its pieces."""
        words: list[tuple[bytes, list[int]]] = []
        mark = _SPACE.encode()
        for position, number in enumerate(numbers):
            if number in (0, START, END):
                continue
            piece = self.pieces[number]
            if piece.startswith(mark) or not words:
                words.append((piece.removeprefix(mark), [position]))
            else:
                words[-1] = (words[-1][0] + piece, [*words[-1][1], position])
        return [(raw.decode("utf-8", "replace").replace(_SPACE, " ").strip(), positions) for raw, positions in words]

    def numbers(self, text: str) -> list[int] | None:
        """The numbers that the model itself writes the text with; None where it would need raw bytes.

        Byte pairs are joined in the order of their numbers, which is the order in which the table was made.
        """
        parts = list(_SPACE + text.replace(" ", _SPACE))
        while True:
            pairs = [
                (number, at)
                for at in range(len(parts) - 1)
                if (number := self._numbers.get(parts[at] + parts[at + 1])) is not None
            ]
            if not pairs:
                break
            _, at = min(pairs)
            parts[at : at + 2] = [parts[at] + parts[at + 1]]
        found = [self._numbers.get(part) for part in parts]
        return None if None in found else [n for n in found if n is not None]
