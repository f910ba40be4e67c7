"""What a layout or a check gives back."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from shapely import MultiPolygon, Polygon
from shapely.geometry import mapping

from kerfline.library.parts import Finding, Joint, Panel
from kerfline.library.written import Written

if TYPE_CHECKING:
    import pandas

    from kerfline.app.alternatives import Choice
    from kerfline.app.outcome import Outcome
    from kerfline.files.drawing import Reading
    from kerfline.sheets.day.day_plan import DayPlan

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
    """A layout held against its rules. It can be pickled, and shows its plan in a notebook.

    Attributes:
        command: The command whose files ``write`` writes.
        outcome: The layout as the parts of kerfline hand it to each other; its shape is not promised.
        plan: Its placement day in the same way, where the job tells of one.
    """

    def __init__(
        self,
        outcome: "Outcome",
        plan: "DayPlan | None" = None,
        *,
        command: str = "layout",
        readings: "tuple[Reading, ...]" = (),
        choices: "tuple[Choice, ...]" = (),
        wanted: int = 1,
    ) -> None:
        self.outcome, self.plan, self.command = outcome, plan, command
        self._readings, self._choices, self._wanted = readings, choices, wanted

    def __getstate__(self) -> dict[str, Any]:
        """All but the drawing that it was read from; the picture of the reading is drawn first."""
        _ = self._reading_files
        return {**self.__dict__, "_readings": ()}

    def __repr__(self) -> str:
        """The result in one line."""
        counts = f"{len(self.panels)} panels, {len(self.joints)} joints"
        return f"<Result {self.name!r}: {counts}, {self.errors} errors, {self.warnings} warnings>"

    @property
    def name(self) -> str:
        """Name of the slab."""
        return self.outcome.job.name

    @property
    def clean(self) -> bool:
        """Whether no finding is an error."""
        return self.outcome.clean

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

        return run_mark(self.outcome.job, self.outcome.layout)

    @property
    def concrete(self) -> Polygon | MultiPolygon:
        """The slab's concrete as a shapely polygon, or several where boxouts part it, mm."""
        return self.outcome.job.slab.concrete

    @property
    def joint_length(self) -> float:
        """Length of all joints, mm."""
        return float(self.outcome.layout.joint_length)

    @cached_property
    def _data(self) -> dict[str, Any]:
        from kerfline.app.run_mark import marked
        from kerfline.files.layout_json import layout_data

        outcome = marked(self.outcome)
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

        drawn = marked(self.outcome)
        sheets = joint_plan(drawn.job, drawn.layout, drawn.findings, drawn.rules)
        return svg_bytes(sheets[0]).decode()

    def _repr_svg_(self) -> str:
        """What a notebook shows."""
        text = self.svg()
        return text[text.index("<svg") :]

    @property
    def reading(self) -> tuple[str, ...]:
        """What was taken from the drawing, a sentence each; empty where it is none."""
        from kerfline.app.drawing_words import told_in_lines

        return tuple(told_in_lines(self.outcome.job.reading, self.outcome.job.notes))

    @property
    def notes(self) -> tuple[str, ...]:
        """What the user should read of the layout, a sentence each."""
        from kerfline.units import in_words

        return tuple(in_words(note, self.outcome.job.display) for note in self.outcome.layout.notes)

    @property
    def alternatives(self) -> "dict[str, Result]":
        """Good layouts that differ by what they favour, the best overall first; empty where none were asked for."""
        return {choice.name: Result(choice.outcome) for choice in self._choices}

    def comparison(self) -> str:
        """The alternatives side by side in a table; empty where none were asked for."""
        from kerfline.app.deliver_choices import choices_table

        return choices_table(self._choices, self._wanted) if self._choices else ""

    def summary(self, written: Written | None = None) -> str:
        """The ten lines that a builder reads first, with the files where they are given."""
        from kerfline.app.summary import summary

        return summary(self.outcome, written.set if written else None)

    def findings_text(self) -> str:
        """The findings, worst first, for a terminal: at most twelve, and how many more there are."""
        from kerfline.app.summary import findings_text

        return findings_text(self.outcome.findings)

    def files(self) -> dict[str, bytes]:
        """What ``write`` writes, by file name."""
        from kerfline.app.deliver import contents
        from kerfline.app.deliver_choices import choices_contents

        more = choices_contents(self._choices)
        return {**contents(self.outcome, self.plan), **more, **self._reading_files}

    def write(self, folder: str | Path | None = None) -> Written:
        """Writes the sheets and tables, all of them or none, in place of those of an earlier run.

        Args:
            folder: Where to, made where it is missing; ``out/NAME`` where it is None.

        Returns:
            The files.

        Raises:
            OutputRefused: A file cannot be written.
        """
        from kerfline.app.write_files import usual_folder, write_files

        target = Path(folder) if folder is not None else usual_folder(self.outcome)
        return Written(write_files(self.outcome, target, self.command, self.files()))

    @cached_property
    def _reading_files(self) -> dict[str, bytes]:
        """The picture of how the drawing was read, by file name."""
        from kerfline.app.reading_picture import reading_files

        job, files = self.outcome.job, dict[str, bytes]()
        for read in self._readings:
            files |= reading_files(read, job.name, job.reading)
        return files


SHAPES = ("outline", "openings", "path")
"""Fields that a feature has as its geometry."""


def _points(points: Sequence[Sequence[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((x, y) for x, y in points)


def _lists(value: Any) -> Any:  # noqa: ANN401 - a geometry as nested tuples
    """The same with lists for tuples, as it would be read from a file."""
    if isinstance(value, dict):
        return {name: _lists(each) for name, each in value.items()}
    return [_lists(each) for each in value] if isinstance(value, tuple | list) else value
