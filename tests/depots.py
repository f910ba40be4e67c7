"""The job of a depot that we made up, placed in parts."""

DEPOT = """\
[job]
name = "Depot"
units = "ft"

[slab]
thickness = "5 in"
outline = [[0, 0], [60, 0], [60, 30], [36, 30], [36, 48], [0, 48]]

[[wall]]
path = [[0, 30], [36, 30]]
thickness = "4 1/2 in"

[day.pours]
volume = "16 yd3"
access = ["left"]

[day.steel]
dowels = "ufc-3-260-02"
"""
