"""Engines that listen to a recording. Knows no store; prints nothing."""
