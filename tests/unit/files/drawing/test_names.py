"""What layer names say in the trade."""

import pytest

from kerfline.files.drawing.names import (
    SLAB,
    decorates,
    elsewhere,
    names_court,
    outline_rank,
    part_named,
)


@pytest.mark.parametrize(
    ("layer", "part"),
    [
        ("S-SLAB-OPNG", "openings"),
        ("FLOOR PITS", "openings"),
        ("A-WALL", "walls"),
        ("I-PARTITION", "walls"),
        ("S-COLS", "columns"),
        ("BOXOUTS", "columns"),
        ("P-PIPE", "penetrations"),
        ("FD", "penetrations"),
        ("KEEP-OUT", "keep_outs"),
        ("S-JNTS-CTLJ", "joints"),
        ("WAENDE", "walls"),
        ("S-SLAB", ""),
        ("0", ""),
    ],
)
def test_the_part_that_a_layer_is_named_for(layer, part):
    assert part_named(layer) == part


@pytest.mark.parametrize(
    "layer", ["A-WALL-STEM", "S-COLS-ABLT", "A-WALL-HEAD", "A-DOOR-OPNG", "A-ANNO-WALL"]
)
def test_other_words_make_something_else_of_a_part(layer):
    assert part_named(layer) == ""


@pytest.mark.parametrize(
    ("layer", "rank"),
    [
        ("S-SLAB-EDGE", 0),
        ("SLAB PERIMETER", 0),
        ("S-SLAB", 1),
        ("SOG", 1),
        ("FOOTPRINT", 2),
        ("S-FNDN", 3),
        ("OUTLINE", 4),
        ("CONC", 5),
        ("BODENPLATTE", SLAB),
    ],
)
def test_the_plainer_a_name_speaks_of_the_edge_the_lower_its_rank(layer, rank):
    assert outline_rank(layer) == rank


@pytest.mark.parametrize(
    "layer", ["A-ROOF", "S-SLAB-OPNG", "SLAB-DIMS", "SLAB PIT", "S-SLAB-HIDDEN", "FLOORING", "0"]
)
def test_names_that_speak_of_no_edge(layer):
    assert outline_rank(layer) is None


@pytest.mark.parametrize("layer", ["A-ANNO-NOTE", "DIM", "S-GRID", "Defpoints", "BEMASSUNG"])
def test_layers_that_only_decorate(layer):
    assert decorates(layer)
    assert not decorates("S-SLAB")
    assert not decorates("GRIDIRON")


@pytest.mark.parametrize("layer", ["A-ROOF", "C-PROPERTY", "A-DOOR", "EAVES", "FENSTER"])
def test_layers_of_what_is_no_slab(layer):
    assert elsewhere(layer)
    assert not elsewhere("S-SLAB-EDGE")


def test_words_for_what_is_open_to_the_sky():
    assert names_court("Light well")
    assert names_court("OPEN TO SKY")
    assert names_court("Cour intérieure")
    assert not names_court("courtesy desk")
