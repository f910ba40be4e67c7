"""Where a building model says that it stands: true north, and its place on a map."""

import math

from shapely import Polygon

from kerfline.files.building.model_file import Model, mm_per_unit
from kerfline.files.drawing.wording import fine
from kerfline.geometry.ring import Point
from kerfline.model.site import ControlPoint, Site
from kerfline.units import MM_PER_METRE, SiteUnit

OUTLANDISH = 1e-2
"""A scale farther from 1 than this is no grid's: the conversion mixes its units up."""

SAME_SHARE = 1e-9


def true_north(model: Model) -> float:
    """Direction of true north, degrees anticlockwise from the plan's up; 0 where the model says none."""
    contexts = model.by_type("IfcGeometricRepresentationContext", include_subtypes=False)
    north = next((c.TrueNorth for c in contexts if c.TrueNorth is not None), None)
    if north is None:
        return 0.0
    x, y = (float(part) for part in north.DirectionRatios[:2])
    return fine(math.degrees(math.atan2(-x, y))) if x or y else 0.0


def site_of(model: Model, outline: Polygon, level: float) -> tuple[Site | None, list[str]]:
    """How the slab lies on the map, by its lower left and upper right as control, and notes.

    Args:
        model: The model; its map conversion (ISO 16739, IfcMapConversion) is asked.
        outline: The slab, mm.
        level: Height of its surface in the model, mm.
    """
    from ifcopenshell.util.geolocation import auto_xyz2enh, get_helmert_transformation_parameters

    found = get_helmert_transformation_parameters(model)
    if not found:
        return None, []
    unit, on_map = mm_per_unit(model), _mm_per_map_unit(model)
    scale = float(found.scale) * on_map / unit
    if not abs(scale - 1) < OUTLANDISH:
        said = f"its scale of {scale:g} is no grid's"
        return None, [f"The model's place on the map is left out: {said}. Give [site] yourself."]
    x0, y0, x1, y1 = outline.bounds

    def control(name: str, plan: Point) -> ControlPoint:
        e, n, h = (
            float(v) * on_map
            for v in auto_xyz2enh(model, plan[0] / unit, plan[1] / unit, level / unit)
        )
        return ControlPoint(name=name, plan=plan, easting=e, northing=n, height=h)

    points = (control("MAP1", (x0, y0)), control("MAP2", (x1, y1)))
    site = Site(
        control=points, unit=_site_unit(on_map), scale=fine_scale(scale), level=points[0].height
    )
    if site.fit is None or site.fit.largest > site.limit:
        return None, ["The model's place on the map is left out: it is no similarity of the plan."]
    return site, [
        "Site: from the model's own place on the map; check it against marks on the ground."
    ]


def fine_scale(scale: float) -> float:
    """A scale freed of the noise of arithmetic."""
    return 1.0 if abs(scale - 1) < SAME_SHARE else scale


def _mm_per_map_unit(model: Model) -> float:
    """Millimetres in a unit of the map; where it says none, it has the model's own."""
    systems = [] if model.schema == "IFC2X3" else model.by_type("IfcProjectedCRS")
    unit = next((s.MapUnit for s in systems if s.MapUnit is not None), None)
    return mm_per_unit(model) if unit is None else _mm(unit)


def _mm(unit: Model) -> float:
    """Millimetres in a named unit of length."""
    from ifcopenshell.util.unit import get_prefix_multiplier

    if unit.is_a("IfcConversionBasedUnit"):
        measure = unit.ConversionFactor
        return float(measure.ValueComponent.wrappedValue) * _mm(measure.UnitComponent)
    prefix = getattr(unit, "Prefix", None)
    return float(get_prefix_multiplier(prefix) if prefix else 1.0) * MM_PER_METRE


def _site_unit(mm: float) -> SiteUnit:
    """The survey unit of that size; metres where it is none."""
    near = (u for u in SiteUnit if abs(mm / u.mm - 1) < SAME_SHARE)
    return next(near, SiteUnit.M)
