"""A voice-and-text job journal for a builder who works alone."""

__version__ = "0.1.0"
