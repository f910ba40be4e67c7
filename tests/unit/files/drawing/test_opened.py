"""Surveyed outlines of real buildings, drawn as loose lines, come back with their areas.

Source: the 144 building footprints of one city district shipped as ``bubenec`` in the package momepy (BSD-3).
They are never parallel to x or y, have edges under 0.3 m, and stand millions of metres from the origin.
"""

from importlib.util import find_spec
from itertools import pairwise
from pathlib import Path

import ezdxf
import pyogrio
import pytest
from ezdxf import units

from kerfline.files.drawing import Layers, read_drawing, slab_parts

DATA = Path(find_spec("momepy").origin).parent / "datasets" / "bubenec.gpkg"


@pytest.fixture(scope="module")
def buildings():
    return list(pyogrio.read_dataframe(DATA, layer="buildings").geometry)


@pytest.fixture(scope="module")
def drawing(buildings, tmp_path_factory):
    """One layer a building; coordinates rounded to a tenth of a millimetre, as exports do."""
    doc = ezdxf.new("R2010", units=units.M)
    space = doc.modelspace()
    for number, shape in enumerate(buildings):
        layer = {"layer": f"B{number:03}"}
        for ring in (shape.exterior, *shape.interiors):
            points = [(round(x, 4), round(y, 4)) for x, y in ring.coords]
            for i, (a, b) in enumerate(pairwise(points)):
                space.add_line(*((a, b) if i % 2 else (b, a)), dxfattribs=layer)
    path = tmp_path_factory.mktemp("district") / "district.dxf"
    doc.saveas(path)
    return read_drawing(path)


def test_every_outline_and_courtyard_is_found(buildings, drawing):
    for number, shape in enumerate(buildings):
        parts = slab_parts(drawing, Layers(outline=(f"B{number:03}",)))
        area = parts.outline.polygon.area - sum(o.polygon.area for o in parts.openings)
        assert area == pytest.approx(shape.area * 1e6, rel=1e-5)
        assert len(parts.openings) == len(shape.interiors)
        assert len(parts.outline.points) == len(shape.exterior.coords) - 1
        assert parts.notes == ()
