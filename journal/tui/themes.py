"""Light and dark: the colours of a workshop, kept few so that sixteen of them are enough."""

from __future__ import annotations

from textual.theme import Theme

DARK = Theme(
    name="shop dark",
    primary="#d9a35f",
    secondary="#7fb0a8",
    accent="#e6c07b",
    warning="#f0b429",
    error="#ff6b5e",
    success="#8fc56a",
    foreground="#ece5d8",
    background="#16130f",
    surface="#1f1b16",
    panel="#2b251e",
    dark=True,
)
LIGHT = Theme(
    name="shop light",
    primary="#7a4a12",
    secondary="#1d5f57",
    accent="#6b4410",
    warning="#8a5a00",
    error="#a8201a",
    success="#2f6b1f",
    foreground="#1d1a16",
    background="#faf6ee",
    surface="#f3ecdf",
    panel="#e6dccb",
    dark=False,
)
THEMES = (DARK, LIGHT)
