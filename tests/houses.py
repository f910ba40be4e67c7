"""Houses of a tract, a job file each."""

HOUSE = """
[job]
name = "{name}"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [{width}, 0], [{width}, 20], [0, 20]]

[day]
date = 2026-06-14
start = "06:30"
"""


def house(folder, name, width, text=HOUSE):
    """The file of a house 20 ft deep."""
    folder.mkdir(exist_ok=True)
    path = folder / f"{name}.toml"
    path.write_text(text.format(name=name.title(), width=width))
    return path
