"""Writes a job file that reads back to the same job, with comments for whoever edits it.

A job's notes (assumptions to confirm) become comments; they are no part of the file's data.
"""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from kerfline.geometry.ring import Point, Ring
from kerfline.model.job import CutChoice, Job, Mix
from kerfline.model.site import Site
from kerfline.model.slab import (
    Column,
    Edge,
    Fall,
    GivenJoint,
    KeepOut,
    Pattern,
    Penetration,
    Slab,
    Wall,
    Zone,
)
from kerfline.model.tracing import Tracing
from kerfline.units import EXAMPLES, Display, SiteUnit, Unit, feet_inches, parse_length

MOST_DECIMALS = 12
"""A length is written in the job's unit where so many decimals give it exactly, else in mm."""

EXACT_WHOLE = 1e15
"""Whole numbers below this are written without a point."""

POINTS_PER_LINE = 6

HEAD = """\
# A job of kerfline. Text after # is for people.
# Lengths are text with a unit ({examples}) or bare numbers in {unit}.
# Points are [x, y]; in closed lines a third number is the bulge of the arc to the next point.
"""

Pairs = Iterable[tuple[str, str]]


def job_text(job: Job, drawing: Mapping[str, object] | None = None) -> str:
    """The job as a TOML job file.

    Args:
        job: The job.
        drawing: Keys of ``[drawing]`` that give outline, openings, walls and all else that a drawing can hold; None
            writes them out.
    """
    writer = _Writer(job.units)
    given = replace(
        Slab(outline=Ring(()), thickness=job.slab.thickness),
        edges=job.slab.edges,
        zones=job.slab.zones,
        patterns=job.slab.patterns,
        falls=job.slab.falls,
    )
    blocks = [
        HEAD.format(examples=EXAMPLES, unit=job.units.value).rstrip("\n"),
        *([_confirm(job.notes)] if job.notes else []),
        _table("[job]", [("name", _text(job.name)), ("units", _text(job.units.value))]),
        *([_plain({"drawing": drawing})] if drawing else []),
        *writer.slab(given if drawing else job.slab),
        *writer.choices(job),
    ]
    return "\n\n".join(blocks) + "\n"


def _confirm(notes: Sequence[str]) -> str:
    lines = [line for note in notes for line in note.splitlines()]
    return "\n".join(["# Please confirm:", *(f"# - {line}" for line in lines)])


class _Writer:
    """Writes lengths in one unit."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        self.small = Unit.IN if unit.display is Display.FEET_INCHES else Unit.MM

    def slab(self, slab: Slab) -> list[str]:
        """The slab and everything on it."""
        return [
            self._slab(slab),
            *(self._edge(edge) for edge in slab.edges),
            *(self._wall(wall) for wall in slab.walls),
            *(self._column(column) for column in slab.columns),
            *(self._penetration(penetration) for penetration in slab.penetrations),
            *(self._zone(zone) for zone in slab.zones),
            *(self._keep_out(keep_out) for keep_out in slab.keep_outs),
            *(self._joint(joint) for joint in slab.joints),
            *(self._pattern(pattern) for pattern in slab.patterns),
            *(self._fall(fall) for fall in slab.falls),
        ]

    def choices(self, job: Job) -> list[str]:
        """What the user chose for the job."""
        return [
            self._rules(job),
            *self._mix(job.mix),
            self._cut(job.cut),
            *self._sheet(job),
            *self._site(job.site),
            *self._tracing(job.tracing),
            *self._engine(job),
            *([_plain({"day": job.day})] if job.day else []),
        ]

    def _slab(self, slab: Slab) -> str:
        openings = ",\n".join(f"    {self._ring(o, '    ')}" for o in slab.openings)
        pairs = [
            ("thickness", self._size(slab.thickness)),
            *([] if slab.level is None else [("level", self._length(slab.level))]),
            *([("outline", self._ring(slab.outline))] if slab.outline.points else []),
            *([("openings", f"[\n{openings},\n]")] if openings else []),
        ]
        return _table("[slab]", pairs)

    def _edge(self, edge: Edge) -> str:
        pairs = [
            ("ring", str(edge.ring)),
            ("segment", str(edge.segment)),
            ("kind", _text(edge.kind.value)),
            *self._sizes(depth=edge.depth, width=edge.width),
            *_numbers(slope=edge.slope),
        ]
        return _table("[[edge]]", pairs)

    def _wall(self, wall: Wall) -> str:
        pairs = [
            ("id", _text(wall.id)),
            ("path", self._path(wall.path)),
            ("thickness", self._size(wall.thickness)),
            ("bearing", _flag(wall.bearing)),
            *self._sizes(strip_width=wall.strip_width, strip_depth=wall.strip_depth),
            *_numbers(strip_slope=wall.strip_slope),
            *([("bearing_rule", _text(wall.bearing_rule.value))] if wall.bearing else []),
        ]
        return _table("[[wall]]", pairs)

    def _column(self, column: Column) -> str:
        pairs = [
            ("id", _text(column.id)),
            ("at", self._point(column.at)),
            ("boxout", _text(column.boxout.value)),
            ("size", self._size(column.size)),
            *_numbers(turn=column.turn),
        ]
        return _table("[[column]]", pairs)

    def _penetration(self, penetration: Penetration) -> str:
        pairs = [
            ("id", _text(penetration.id)),
            ("at", self._point(penetration.at)),
            *self._sizes(diameter=penetration.diameter),
            ("kind", _text(penetration.kind.value)),
            ("meeting", _text(penetration.meeting.value)),
            ("clear", self._size(penetration.clear)),
        ]
        return _table("[[penetration]]", pairs)

    def _zone(self, zone: Zone) -> str:
        pairs = [
            ("id", _text(zone.id)),
            ("outline", self._ring(zone.outline)),
            ("thickness", self._size(zone.thickness)),
            ("joint_at_border", _flag(zone.joint_at_border)),
            *([] if zone.level is None else [("level", self._length(zone.level))]),
        ]
        return _table("[[zone]]", pairs)

    def _keep_out(self, keep_out: KeepOut) -> str:
        pairs = [
            ("id", _text(keep_out.id)),
            ("outline", self._ring(keep_out.outline)),
            ("what", _text(keep_out.what)),
            *([] if keep_out.cover is None else [("cover", self._size(keep_out.cover))]),
        ]
        return _table("[[keep_out]]", pairs)

    def _joint(self, joint: GivenJoint) -> str:
        pairs = [
            ("id", _text(joint.id)),
            ("path", self._path(joint.path)),
            ("kind", _text(joint.kind.value)),
            ("forbidden", _flag(joint.forbidden)),
            ("existing", _flag(joint.existing)),
            *([] if joint.depth is None else [("depth", self._size(joint.depth))]),
            *((k, _text(v)) for k, v in (("reason", joint.reason), ("note", joint.note)) if v),
        ]
        return _table("[[joint]]", pairs)

    def _pattern(self, pattern: Pattern) -> str:
        pairs = [
            ("id", _text(pattern.id)),
            ("area", self._ring(pattern.area)),
            ("kind", _text(pattern.kind.value)),
            *([("along", self._path(pattern.along))] if pattern.along else []),
            *([] if pattern.spacing is None else [("spacing", self._length(pattern.spacing))]),
        ]
        return _table("[[pattern]]", pairs)

    def _fall(self, fall: Fall) -> str:
        pairs = [
            ("id", _text(fall.id)),
            ("area", self._ring(fall.area)),
            ("to", self._path(fall.to)),
            ("joints", _text(fall.joints.value)),
            *([] if fall.slope is None else [("slope", f"{fall.slope!r}")]),
        ]
        return _table("[[fall]]", pairs)

    def _rules(self, job: Job) -> str:
        pairs = [("set", _text(job.rules.name)), ("to_maximum", _flag(job.rules.to_maximum))]
        table = _table("[rules]", pairs)
        if not job.rules.overrides:
            return table
        return f"{table}\n\n{_plain({'rules': {'overrides': job.rules.overrides}})}"

    def _mix(self, mix: Mix) -> list[str]:
        known = {"slump": mix.slump, "aggregate": mix.aggregate}
        pairs = [(key, self._size(mm)) for key, mm in known.items() if mm is not None]
        return [_table("[mix]", pairs)] if pairs else []

    def _cut(self, cut: CutChoice) -> str:
        depth = [] if cut.depth is None else [("depth", self._size(cut.depth))]
        return _table("[cut]", [("method", _text(cut.method)), *depth])

    def _sheet(self, job: Job) -> list[str]:
        sheet = job.sheet
        pairs = [
            *([("size", _text(sheet.size))] if sheet.size else []),
            *_numbers(scale=sheet.scale, north=sheet.north),
        ]
        fields = [(key, _text(value)) for key, value in sheet.fields.items()]
        return [
            *([_table("[sheet]", pairs)] if pairs else []),
            *([_table("[sheet.fields]", fields)] if fields else []),
            *(
                _table(
                    "[[sheet.area]]", [("name", _text(a.name)), ("outline", self._ring(a.outline))]
                )
                for a in sheet.areas
            ),
        ]

    def _site(self, site: Site | None) -> list[str]:
        if site is None:
            return []
        unit = site.unit
        pairs = [
            ("units", _text(unit.value)),
            ("scale", _text("fit") if site.scale is None else _number(site.scale)),
            ("limit", self._size(site.limit)),
            *([] if site.level is None else [("level", _measured(site.level, unit))]),
            ("first", _text("easting" if site.easting_first else "northing")),
        ]
        points = [
            [
                ("name", _text(point.name)),
                ("plan", self._point(point.plan)),
                ("easting", _measured(point.easting, unit)),
                ("northing", _measured(point.northing, unit)),
                *([] if point.height is None else [("height", _measured(point.height, unit))]),
            ]
            for point in site.control
        ]
        return [_table("[site]", pairs), *(_table("[[site.point]]", p) for p in points)]

    def _tracing(self, tracing: Tracing | None) -> list[str]:
        if tracing is None:
            return []
        spots = [f"[{_number(x)}, {_number(y)}]" for x, y in (tracing.size, *tracing.picture)]
        pairs = [
            ("file", _text(tracing.file)),
            *([("page", str(tracing.page))] if tracing.page else []),
            ("size", spots[0]),
            ("picture", _list(spots[1:])),
            ("plan", self._path(tracing.plan)),
            ("fade", _number(tracing.fade)),
            ("shown", _flag(tracing.shown)),
            ("locked", _flag(tracing.locked)),
        ]
        return [_table("[tracing]", pairs)]

    def _engine(self, job: Job) -> list[str]:
        table = _table("[engine]", [("effort", _number(job.effort))])
        weights = [(_key(name), _number(weight)) for name, weight in job.weights.items()]
        return [table, *([_table("[engine.weights]", weights)] if weights else [])]

    def _sizes(self, **sizes: float) -> list[tuple[str, str]]:
        """The sizes that are not nothing."""
        return [(key, self._size(mm)) for key, mm in sizes.items() if mm]

    def _size(self, mm: float) -> str:
        """A thickness or the like, with its unit: ``"4 in"``."""
        for unit in (self.small, self.unit):
            number = _in_unit(mm, unit)
            if number is not None:
                return _text(f"{number} {unit.value}")
        return _text(f"{mm!r} mm")

    def _length(self, mm: float) -> str:
        """A bare number in the job's unit where that is exact, else text with a unit that is."""
        number = _in_unit(mm, self.unit)
        if number is not None:
            return number
        written = feet_inches(mm)
        if self.unit is Unit.FT and parse_length(written, Unit.IN) == mm:
            return _text(written)
        return self._size(mm)

    def _point(self, point: Point, bulge: float = 0.0) -> str:
        parts = [self._length(c) for c in point] + ([_number(bulge)] if bulge else [])
        return f"[{', '.join(parts)}]"

    def _path(self, path: Sequence[Point]) -> str:
        return _list([self._point(point) for point in path])

    def _ring(self, ring: Ring, indent: str = "") -> str:
        points = [self._point(p, ring.bulge(i)) for i, p in enumerate(ring.points)]
        return _list(points, indent)


def _measured(mm: float, unit: SiteUnit) -> str:
    """A surveyed coordinate as a bare number."""
    return _in_unit(mm, unit) or repr(mm / unit.mm)


def _in_unit(mm: float, unit: Unit | SiteUnit) -> str | None:
    """The shortest number in a unit that reads back to exactly this length; None where there is none."""
    for decimals in range(MOST_DECIMALS):
        number = round(mm / unit.mm, decimals)
        if number * unit.mm == mm:
            return _number(number)
    return None


def _number(value: float) -> str:
    return str(int(value)) if value.is_integer() and abs(value) < EXACT_WHOLE else repr(value)


def _numbers(**values: float) -> list[tuple[str, str]]:
    return [(key, _number(value)) for key, value in values.items() if value]


def _text(value: str) -> str:
    """A TOML basic string; JSON escapes the same characters but for DEL."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _key(name: str) -> str:
    plain = name.isascii() and name.replace("-", "").replace("_", "").isalnum()
    return name if plain else _text(name)


def _flag(value: bool) -> str:  # noqa: FBT001 -- the value itself is what is written
    return "true" if value else "false"


def _list(items: Sequence[str], indent: str = "") -> str:
    if len(items) <= POINTS_PER_LINE:
        return f"[{', '.join(items)}]"
    rows = [
        ", ".join(items[start : start + POINTS_PER_LINE])
        for start in range(0, len(items), POINTS_PER_LINE)
    ]
    body = "".join(f"{indent}    {row},\n" for row in rows)
    return f"[\n{body}{indent}]"


def _table(head: str, pairs: Pairs) -> str:
    return "\n".join([head, *(f"{key} = {value}" for key, value in pairs)])


def _plain(tables: Mapping[str, object]) -> str:
    """Tables that this module does not know the meaning of, as they stand."""
    import tomlkit

    return tomlkit.dumps(tables).strip()
