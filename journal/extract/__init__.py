"""From the words of a memo to facts, doubts and problems. Pure; knows no store and no screen."""
