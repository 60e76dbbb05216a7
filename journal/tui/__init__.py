"""The terminal screens: one screen or widget a file. They ask the session, show what it answers, and hold no figures."""
