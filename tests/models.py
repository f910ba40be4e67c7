"""Writes building models (IFC) with a library, one element after the other, for the reader's tests."""

import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest

pytest.importorskip("ifcopenshell")

import ifcopenshell.api.aggregate
import ifcopenshell.api.context
import ifcopenshell.api.feature
import ifcopenshell.api.geometry
import ifcopenshell.api.georeference
import ifcopenshell.api.owner
import ifcopenshell.api.project
import ifcopenshell.api.pset
import ifcopenshell.api.root
import ifcopenshell.api.spatial
import ifcopenshell.api.unit
from ifcopenshell.util.shape_builder import ShapeBuilder

Ring = Sequence[tuple[float, float]]


class ModelWriter:
    """A model of one building; lengths in the unit of the model.

    Args:
        unit: ``mm``, ``m`` or ``ft``.
        turn: Turn of everything about the origin, degrees.
        schema: Edition of the standard.
    """

    def __init__(self, unit: str = "mm", turn: float = 0.0, schema: str = "IFC4") -> None:
        self.mm = {"mm": 1.0, "m": 1000.0, "ft": 304.8}[unit]
        self.turn = turn
        self.file = ifcopenshell.api.project.create_file(version=schema)
        if schema == "IFC2X3":
            self._owner()
        create = ifcopenshell.api.root.create_entity
        project = create(self.file, ifc_class="IfcProject", name="A house")
        self._unit(unit)
        context = ifcopenshell.api.context.add_context
        model = context(self.file, context_type="Model")
        self.body = context(
            self.file,
            context_type="Model",
            context_identifier="Body",
            target_view="MODEL_VIEW",
            parent=model,
        )
        self.building = create(self.file, ifc_class="IfcBuilding", name="House")
        aggregate = ifcopenshell.api.aggregate.assign_object
        aggregate(self.file, products=[self.building], relating_object=project)
        self.storeys: dict[str, Any] = {}
        self.builder = ShapeBuilder(self.file)

    def _owner(self) -> None:
        """The older edition asks who drew it."""
        owner = ifcopenshell.api.owner
        person = owner.add_person(self.file, identification="drafter", family_name="Drafter")
        office = owner.add_organisation(self.file, identification="office", name="Office")
        owner.add_person_and_organisation(self.file, person=person, organisation=office)
        owner.add_application(self.file, application_developer=office)

    def _unit(self, unit: str) -> None:
        add = ifcopenshell.api.unit
        if unit == "ft":
            length = add.add_conversion_based_unit(self.file, name="foot")
        else:
            prefix = "MILLI" if unit == "mm" else None
            length = add.add_si_unit(self.file, unit_type="LENGTHUNIT", prefix=prefix)
        add.assign_unit(self.file, units=[length])

    def storey(self, name: str) -> Any:
        if name not in self.storeys:
            made = ifcopenshell.api.root.create_entity(
                self.file, ifc_class="IfcBuildingStorey", name=name
            )
            ifcopenshell.api.aggregate.assign_object(
                self.file, products=[made], relating_object=self.building
            )
            self.storeys[name] = made
        return self.storeys[name]

    def prism(
        self,
        kind: str,
        ring: Ring,
        bottom: float,
        top: float,
        *,
        holes: Sequence[Ring] = (),
        arcs: Sequence[int] = (),
        predefined: str | None = None,
        storey: str = "Ground floor",
        name: str = "",
    ) -> Any:
        """An upright prism over a ring, with holes in its profile; ``arcs`` are the corners in the middle of arcs."""
        element = ifcopenshell.api.root.create_entity(
            self.file, ifc_class=kind, name=name or kind, predefined_type=predefined
        )
        profile = self.builder.profile(
            self.builder.polyline(ring, closed=True, arc_points=arcs),
            inner_curves=[self.builder.polyline(hole, closed=True) for hole in holes],
        )
        self._stand(element, self.builder.extrude(profile, magnitude=top - bottom), bottom)
        ifcopenshell.api.spatial.assign_container(
            self.file, products=[element], relating_structure=self.storey(storey)
        )
        return element

    def void(self, element: Any, ring: Ring, bottom: float, top: float) -> Any:
        """A void in an element."""
        opening = ifcopenshell.api.root.create_entity(self.file, ifc_class="IfcOpeningElement")
        profile = self.builder.profile(self.builder.polyline(ring, closed=True))
        self._stand(opening, self.builder.extrude(profile, magnitude=top - bottom), bottom)
        ifcopenshell.api.feature.add_feature(self.file, feature=opening, element=element)
        return opening

    def round_void(self, element: Any, at: tuple[float, float], diameter: float) -> Any:
        opening = ifcopenshell.api.root.create_entity(self.file, ifc_class="IfcOpeningElement")
        profile = self.builder.profile(self.builder.circle(at, diameter / 2))
        deep = 4000.0 / self.mm
        self._stand(opening, self.builder.extrude(profile, magnitude=deep), -deep / 2)
        ifcopenshell.api.feature.add_feature(self.file, feature=opening, element=element)
        return opening

    def _stand(self, element: Any, solid: Any, bottom: float) -> None:
        shape = self.builder.get_representation(self.body, [solid])
        ifcopenshell.api.geometry.assign_representation(
            self.file, product=element, representation=shape
        )
        matrix = np.eye(4)
        c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        matrix[:2, :2] = [[c, -s], [s, c]]
        matrix[2, 3] = bottom
        ifcopenshell.api.geometry.edit_object_placement(
            self.file, product=element, matrix=matrix, is_si=False
        )

    def wall(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        thickness: float,
        bottom: float,
        top: float,
        *,
        bearing: bool | None = None,
        storey: str = "Ground floor",
    ) -> Any:
        (x0, y0), (x1, y1) = start, end
        length = math.hypot(x1 - x0, y1 - y0)
        nx, ny = -(y1 - y0) / length * thickness / 2, (x1 - x0) / length * thickness / 2
        ring = [(x0 - nx, y0 - ny), (x1 - nx, y1 - ny), (x1 + nx, y1 + ny), (x0 + nx, y0 + ny)]
        wall = self.prism("IfcWall", ring, bottom, top, storey=storey)
        if bearing is not None:
            common = ifcopenshell.api.pset.add_pset(self.file, product=wall, name="Pset_WallCommon")
            ifcopenshell.api.pset.edit_pset(
                self.file, pset=common, properties={"LoadBearing": bearing}
            )
        return wall

    def save(self, path: Path) -> Path:
        self.file.write(str(path))
        return path


def rectangle(x: float, y: float, width: float, height: float) -> list[tuple[float, float]]:
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
