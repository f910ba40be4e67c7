"""Real building footprints that nobody drew for this project.

They are shipped in the PyPI package ``momepy`` (BSD-3): ``bubenec.gpkg``, layer ``buildings``, 144
surveyed outlines of one city district, and ``tests.gpkg``, layer ``os``, 16 small ones. The first
layer is in web Mercator, where lengths come out too long; it is reprojected to the local UTM zone.
"""

import importlib.util
import warnings
from functools import cache
from pathlib import Path

import pytest
from shapely import Polygon, affinity

from kerfline.geometry.ring import Ring
from kerfline.model.slab import Slab
from kerfline.units import MM_PER_METRE

LAYERS = (("bubenec.gpkg", "buildings", 144), ("tests.gpkg", "os", 16))


@cache
def footprints() -> tuple[tuple[str, Polygon], ...]:
    """Name and outline in mm of every footprint, each about its own centroid."""
    geopandas = pytest.importorskip("geopandas")
    package = importlib.util.find_spec("momepy")
    if package is None or package.origin is None:
        pytest.skip("momepy, whose data this needs, is not installed")
    folder = Path(package.origin).parent / "datasets"
    out = []
    for file, layer, count in LAYERS:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            table = geopandas.read_file(folder / file, layer=layer)
            shapes = list(table.to_crs(table.estimate_utm_crs()).geometry)
        assert len(shapes) == count
        out += [(f"{layer}-{number}", _in_mm(shape)) for number, shape in enumerate(shapes)]
    return tuple(out)


def _in_mm(shape: Polygon) -> Polygon:
    at = shape.centroid
    moved = affinity.translate(shape, -at.x, -at.y)
    return affinity.scale(moved, MM_PER_METRE, MM_PER_METRE, origin=(0, 0))


def slab_on(outline: Polygon, thickness: float) -> Slab:
    """A slab of a thickness (mm) on a footprint."""
    return Slab(
        outline=_ring(outline.exterior),
        openings=tuple(_ring(hole) for hole in outline.interiors),
        thickness=thickness,
    )


def _ring(line) -> Ring:
    return Ring(tuple((round(x, 2), round(y, 2)) for x, y in line.coords[:-1]))
