"""The prices by which the oracles of even grids judge, written from what the weights are said to mean.

For panels of slabs of four inches by the rule set ``floor``: 10 ft advised and a twentieth beyond at most, aspect 1.25
advised and 1.5 at most.
"""

import math

FOOT = 304.8
SPAN, GREATEST, ASPECT, MOST_ASPECT = 10.0, 10.5, 1.25, 1.5
OPEN, HIDDEN, TEE, TEE_HIDDEN, LINE, SQUARE, LONG, OVER_SPAN, WARNED = 1, 0.8, 5, 4, 1, 1, 4, 20, 2
UNEVEN, BARE_WALL, BARE_ONCE, BARE_POINTS, COLUMN_INSIDE, PASSED = 4, 10, 60, 150, 250, 2
"""Feet of joint, as ``Weights`` has them; the two points of a diamond that a joint leaves bare lie in two panels."""

NEAR = 0.005
"""Feet within which places are one."""

INCH = 1 / 12
"""Feet: places are whole inches, so that a bay may be so much longer or shorter than an even one."""


def panel_price(one, other):
    """What a panel of so many feet costs, its joints not counted; endless where it breaks a rule."""
    long, short = max(one, other), min(one, other)
    aspect = long / short
    if long > GREATEST + NEAR or aspect > MOST_ASPECT + NEAR:
        return math.inf
    looks = min((aspect - 1) / (ASPECT - 1), 1) * SQUARE
    beyond = max((aspect - ASPECT) / (MOST_ASPECT - ASPECT), 0) * LONG
    over = max(long - SPAN - 0.002, 0)
    return looks + beyond + OVER_SPAN * over + WARNED * ((over > 0) + (aspect > ASPECT + 0.001))
