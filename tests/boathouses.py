"""The boathouse of a rowing club that we made up, as a program and as a job file give it."""

import functools

import kerfline

FT = 304.8
OUTLINE = [(0, 0), (40, 0), (40, 24), (0, 24)]
BOATHOUSE = """
[job]
name = "Boathouse"
units = "ft"

[slab]
thickness = "4 in"
outline = [[0, 0], [40, 0], [40, 24], [0, 24]]
openings = [[[10, 10], [14, 10], [14, 13], [10, 13]]]

[[wall]]
path = [[0, 16], [24, 16]]
thickness = "4 1/2 in"

[[column]]
at = [32, 12]
"""


def boathouse(**more):
    return kerfline.Slab(
        OUTLINE,
        name="Boathouse",
        openings=[[(10, 10), (14, 10), (14, 13), (10, 13)]],
        walls=[{"path": [(0, 16), (24, 16)], "thickness": "4 1/2 in"}],
        columns=[(32, 12)],
        **more,
    )


DAY = """
[day]
date = 2026-06-14
start = "06:30"

[day.pours]
volume = "6 yd3"
"""


@functools.cache
def laid_out():
    """The boathouse laid out, once for all tests."""
    return kerfline.lay_out(boathouse(), thickness="4 in")


def boathouse_file(folder, text=BOATHOUSE + DAY):
    """Its job file, with its day where nothing else is said."""
    path = folder / "boathouse.toml"
    path.write_text(text)
    return path


def same_files(library, command):
    """The names of the files that the library wrote, each of which the command wrote alike."""
    names = {p.name for p in command.glob("[!.]*")}
    assert {p.name for p in library} == names
    for file in library:
        assert file.read_bytes() == (command / file.name).read_bytes(), file.name
    return names
