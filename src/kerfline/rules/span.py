"""The greatest span of a panel: a multiple of the thickness, or a table by thickness and mix."""

from dataclasses import dataclass

from kerfline.model.job import Mix
from kerfline.rules.limits import Figure, Source

NOMINAL = 0.98
"""A slab of 98 % of a row's thickness stands in that row: 100 mm is the nominal size of 4 in."""


@dataclass(frozen=True, kw_only=True)
class Multiple:
    """A multiple of the thickness with a cap.

    Attributes:
        times: Span over thickness; infinite where the cap alone holds.
        cap: Greatest span (mm) whatever the thickness; None for no cap.
        cap_below: The cap holds only for slabs thinner than this (mm); None for every slab.
    """

    times: float
    cap: float | None = None
    cap_below: float | None = None

    def span(self, thickness: float, mix: Mix) -> float:  # noqa: ARG002 -- same call as a table
        """The span (mm) at a thickness (mm)."""
        span = self.times * thickness
        return span if self.cap is None or self._uncapped(thickness) else min(span, self.cap)

    def _uncapped(self, thickness: float) -> bool:
        return self.cap_below is not None and thickness >= self.cap_below * NOMINAL


@dataclass(frozen=True, kw_only=True)
class Column:
    """One column of a table: the mixes that it is for, lengths in mm, None where it does not ask.

    Attributes:
        title: The mix in words.
        slump_from: Least slump.
        slump_to: Greatest slump.
        slump_below: Slumps are below this.
        aggregate_from: Least size of the coarse aggregate.
        aggregate_below: Sizes are below this.
    """

    title: str
    slump_from: float | None = None
    slump_to: float | None = None
    slump_below: float | None = None
    aggregate_from: float | None = None
    aggregate_below: float | None = None

    def fits(self, mix: Mix) -> bool:
        """Whether nothing that is known of the mix speaks against this column."""
        return _within(
            mix.slump, least=self.slump_from, greatest=self.slump_to, below=self.slump_below
        ) and _within(
            mix.aggregate, least=self.aggregate_from, greatest=None, below=self.aggregate_below
        )


def _within(
    value: float | None, *, least: float | None, greatest: float | None, below: float | None
) -> bool:
    """Whether a value, if it is known, is within bounds; a nominal metric size counts as its inch size."""
    if value is None:
        return True
    return (
        (least is None or value >= least * NOMINAL)
        and (greatest is None or value * NOMINAL <= greatest)
        and (below is None or value < below * NOMINAL)
    )


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row of a table.

    Attributes:
        start: Thickness (mm) at which the row begins to hold.
        above: True where it holds only above ``start``, not at it.
        spans: One span (mm) for each column of the table, or a single one.
    """

    start: float
    spans: tuple[float, ...]
    above: bool = False

    def holds(self, thickness: float) -> bool:
        """Whether a slab is thick enough for this row."""
        if self.above:
            return thickness * NOMINAL > self.start
        return thickness >= self.start * NOMINAL


@dataclass(frozen=True, kw_only=True)
class Table:
    """Spans by thickness, and by mix where there are columns.

    Attributes:
        rows: By rising thickness. Between two rows the thinner one holds; a slab thinner than the
            first row takes that row's span in proportion to its thickness.
        columns: The mixes; none where the mix does not matter.
    """

    rows: tuple[Row, ...]
    columns: tuple[Column, ...] = ()

    def span(self, thickness: float, mix: Mix) -> float:
        """The span (mm) at a thickness (mm), the most cautious of the columns that may hold."""
        held = [row for row in self.rows if row.holds(thickness)]
        row = held[-1] if held else self.rows[0]
        share = 1.0 if held else thickness / row.start
        return share * min(row.spans[i] for i in self.fitting(mix))

    def fitting(self, mix: Mix) -> tuple[int, ...]:
        """The columns that may hold for a mix: all of them where none fits."""
        every = tuple(range(len(self.rows[0].spans)))
        return tuple(i for i, column in enumerate(self.columns) if column.fits(mix)) or every

    def assumption(self, mix: Mix) -> str:
        """What is assumed about the mix, in one sentence; empty where nothing is."""
        if not self.columns:
            return ""
        fitting = self.fitting(mix)
        if len(fitting) == 1:
            return ""
        cautious = min(fitting, key=lambda i: self.rows[0].spans[i])
        why = (
            "The slump or the aggregate size of the concrete is not known"
            if any(column.fits(mix) for column in self.columns)
            else "No column of the spacing table is for this slump and aggregate"
        )
        return (
            f"{why}, so the most cautious column of the spacing table that may hold was used "
            f"({self.columns[cautious].title}); give slump and aggregate under [mix] to use another."
        )


Step = Multiple | Table


@dataclass(frozen=True, kw_only=True)
class SpanRule:
    """The advised and the greatest span of a panel."""

    advised: Step
    maximum: Step
    source: Source
    advised_source: Source | None = None

    def at(self, thickness: float, mix: Mix) -> Figure:
        """The figure (mm) for a slab; the advised span is never above the greatest one."""
        bound = self.maximum.span(thickness, mix)
        return Figure(
            advised=min(self.advised.span(thickness, mix), bound),
            bound=bound,
            source=self.source,
            advised_source=self.advised_source,
        )

    def assumptions(self, mix: Mix) -> tuple[str, ...]:
        """What is assumed about the mix, in sentences for the user to confirm."""
        tables = [step for step in (self.advised, self.maximum) if isinstance(step, Table)]
        return tuple(dict.fromkeys(filter(None, (table.assumption(mix) for table in tables))))
