"""Tolerances, in one place so that no two parts disagree on what is the same point."""

SAME = 0.01
"""Two points closer than this (mm) are one point."""

TOUCH = 0.5
"""A joint end within this (mm) of a line counts as ending on it."""

SAGITTA = 0.1
"""Largest distance (mm) between an arc and the chord that stands for it."""

ARC_STEP = 6.0
"""Largest turn (degrees) from one chord of a flattened arc to the next."""

CORNER_TURN = 10.0
"""A vertex that turns by less than this (degrees) is part of a curve or a survey's noise, not a corner."""

MEASURE = 0.5
"""Slack (mm) when a measured length is held against a limit: well under what a tape can read."""

RATIO = 1e-4
"""Slack when a measured ratio is held against a limit."""

DEGREES = 0.05
"""Slack (degrees) when a measured angle is held against a limit."""

FARTHEST = 1e11
"""No site lies farther from its origin than this (mm): more than twice round the Earth."""
