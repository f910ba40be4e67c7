"""What a layout or a check gives back."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from shapely import MultiPolygon, Polygon
from shapely.geometry import mapping

from kerfline.library.parts import Finding, Joint, Panel

if TYPE_CHECKING:
    import pandas

    from kerfline.app.outcome import Outcome

Part = Literal["panels", "joints", "findings"]


@dataclass(frozen=True, kw_only=True)
class Refusal:
    """A slab among many that could not be laid out.

    Attributes:
        source: What was given.
        message: Why, in words.
    """

    source: str
    message: str

    @property
    def clean(self) -> bool:
        """Never."""
        return False


class Result:
    """A layout held against its rules. It can be pickled, and shows its plan in a notebook."""

    def __init__(self, outcome: "Outcome", command: str = "layout") -> None:
        self._outcome, self._command = outcome, command

    def __repr__(self) -> str:
        """The result in one line."""
        counts = f"{len(self.panels)} panels, {len(self.joints)} joints"
        return f"<Result {self.name!r}: {counts}, {self.errors} errors, {self.warnings} warnings>"

    @property
    def name(self) -> str:
        """Name of the slab."""
        return self._outcome.job.name

    @property
    def clean(self) -> bool:
        """Whether no finding is an error."""
        return self._outcome.clean

    @property
    def errors(self) -> int:
        """How many errors were found."""
        return self._count("error")

    @property
    def warnings(self) -> int:
        """How many warnings were found."""
        return self._count("warning")

    def _count(self, severity: str) -> int:
        return sum(f.severity == severity for f in self.findings)

    @property
    def mark(self) -> str:
        """The run mark that its sheets and tables carry."""
        from kerfline.app.run_mark import run_mark

        return run_mark(self._outcome.job, self._outcome.layout)

    @property
    def concrete(self) -> Polygon | MultiPolygon:
        """The slab's concrete as a shapely polygon, or several where boxouts part it, mm."""
        return self._outcome.job.slab.concrete

    @property
    def joint_length(self) -> float:
        """Length of all joints, mm."""
        return float(self._outcome.layout.joint_length)

    @cached_property
    def _data(self) -> dict[str, Any]:
        from kerfline.app.run_mark import marked
        from kerfline.files.layout_json import layout_data

        outcome = marked(self._outcome)
        return layout_data(outcome.job, outcome.layout, outcome.findings)

    @cached_property
    def panels(self) -> tuple[Panel, ...]:
        """The panels in reading order."""
        return tuple(
            Panel(
                **{
                    **each,
                    "outline": _points(each["outline"]),
                    "openings": tuple(_points(ring) for ring in each["openings"]),
                }
            )
            for each in self._data["panels"]
        )

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """The joints in reading order."""
        names = Joint.__dataclass_fields__
        return tuple(
            Joint(**{**{n: each[n] for n in names}, "path": _points(each["path"])})
            for each in self._data["joints"]
        )

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What was found when the layout was held against its rules."""
        return tuple(
            Finding(**{**each, "at": (each["at"][0], each["at"][1])})
            for each in self._data["findings"]
        )

    def to_dict(self) -> dict[str, Any]:
        """Everything as ``NAME-layout.json`` has it, schema ``kerfline-layout/1``."""
        return dict(self._data)

    def to_dataframe(self, part: Part = "panels") -> "pandas.DataFrame":
        """Panels, joints or findings as a table of pandas.

        Raises:
            ImportError: pandas is not installed.
        """
        import pandas as pd

        tables: dict[str, tuple[Panel | Joint | Finding, ...]] = {
            "panels": self.panels,
            "joints": self.joints,
            "findings": self.findings,
        }
        rows = tables[part]
        return pd.DataFrame([asdict(row) for row in rows])

    def to_geojson(self) -> dict[str, Any]:
        """Panels and joints as a GeoJSON feature collection, in the plan's own coordinates, mm."""
        shapes: list[tuple[Panel | Joint, Any]] = [
            *((panel, mapping(panel.polygon)) for panel in self.panels),
            *((joint, mapping(joint.line)) for joint in self.joints),
        ]
        return {
            "type": "FeatureCollection",
            "features": [
                {
                    "type": "Feature",
                    "id": part.id,
                    "geometry": _lists(shape),
                    "properties": {
                        "part": type(part).__name__.lower(),
                        **{n: v for n, v in asdict(part).items() if n not in SHAPES},
                    },
                }
                for part, shape in shapes
            ],
        }

    def svg(self) -> str:
        """The first sheet of the joint plan as SVG."""
        from kerfline.app.run_mark import marked
        from kerfline.files.sheet_svg import svg_bytes
        from kerfline.sheets.joint_plan import joint_plan

        drawn = marked(self._outcome)
        sheets = joint_plan(drawn.job, drawn.layout, drawn.findings, drawn.rules)
        return svg_bytes(sheets[0]).decode()

    def _repr_svg_(self) -> str:
        """What a notebook shows."""
        text = self.svg()
        return text[text.index("<svg") :]

    def write(self, folder: str | Path) -> tuple[Path, ...]:
        """Writes the sheets and tables of ``kerfline layout`` or ``kerfline check``, all of them or none.

        Args:
            folder: Where to; made where it is missing.

        Returns:
            The files.

        Raises:
            OutputRefused: A file cannot be written.
        """
        from kerfline.app.check_report import check_contents, verdicts_of
        from kerfline.app.deliver import contents
        from kerfline.app.write_files import write_files

        outcome = self._outcome
        if self._command == "check":
            files = check_contents(outcome, verdicts_of(outcome))
        else:
            files = contents(outcome)
        return write_files(outcome, Path(folder), self._command, files).files


SHAPES = ("outline", "openings", "path")
"""Fields that a feature has as its geometry."""


def _points(points: Sequence[Sequence[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((x, y) for x, y in points)


def _lists(value: Any) -> Any:  # noqa: ANN401 - a geometry as nested tuples
    """The same with lists for tuples, as it would be read from a file."""
    if isinstance(value, dict):
        return {name: _lists(each) for name, each in value.items()}
    return [_lists(each) for each in value] if isinstance(value, tuple | list) else value
