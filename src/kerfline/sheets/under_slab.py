"""What a section shows in and under the slab, as far as the job tells of it: steel, vapour retarder, base."""

from dataclasses import dataclass

from kerfline.model.job import Job
from kerfline.quantities.materials import lap_text
from kerfline.sheets.marks import Board, Layer
from kerfline.units import Display, format_depth

UPPER = 1 / 3
"""Depth of mesh or mat below the top, as a share of the thickness: the upper third (common practice)."""

COVER = 1.5
"""How far steel stays off the ends of a piece of slab, mm of paper."""

PITCH = 6.0
"""Distance of the bars that are seen end on where the job does not say it, mm of paper."""

STONE = 2.6
"""Distance of the stones that mark a base, mm of paper."""

SHEET = 0.6
"""How far under the slab the line of the vapour retarder stands, mm of paper."""


@dataclass(frozen=True)
class Under:
    """Draws and tells it for a job."""

    job: Job

    def depth(self, scale: float) -> float:
        """Room that it takes under the slab, mm of paper."""
        base = (self.job.order.base_depth or 0.0) / scale
        return base + (2 * SHEET if self._retarder else 0.0)

    @property
    def words(self) -> str:
        """What it is, in sentences; empty where the job tells nothing."""
        told = [self._steel_words(), self._ground_words()]
        return " ".join(t for t in told if t)

    @property
    def _retarder(self) -> bool:
        return self.job.order.retarder_roll is not None

    def _say(self, mm: float) -> str:
        return format_depth(mm, self.job.display)

    def _steel_words(self) -> str:
        order = self.job.order
        if order.mat_spacing:
            bars = (
                f"No. {order.mat_bar} bars {self._say(order.mat_spacing)} apart each way"
                if self.job.display is Display.FEET_INCHES
                else f"Bars {METRIC_BARS.get(order.mat_bar, '')} {self._say(order.mat_spacing)} apart each way"
            )
            return f"{bars} in the upper third; the designer says how they pass a joint."
        if order.mesh_sheet:
            return (
                f"Mesh in the upper third, laps {lap_text(order.mesh_lap, self.job.display)}; the designer says whether it is "
                "cut at a joint."
            )
        return ""

    def _ground_words(self) -> str:
        base = self.job.order.base_depth
        sheet = f"vapour retarder, laps {lap_text(self.job.order.retarder_lap, self.job.display)}"
        stone = f"{self._say(base)} of compacted base" if base else ""
        if self._retarder:
            return f"On a {sheet}{f', over {stone}' if stone else ''}."
        return f"On {stone}." if stone else ""

    def steel(self, board: Board, ends: tuple[float, float], top: float, scale: float) -> None:
        """Mesh or mat in a piece of slab between two ends, its top at a height."""
        order = self.job.order
        if not (order.mat_spacing or order.mesh_sheet):
            return
        y = top - UPPER * self.job.slab.thickness / scale
        left, right = ends[0] + COVER, ends[1] - COVER
        board.line(Layer.DETAIL, (left, y), (right, y), width=0.25)
        pitch = min(order.mat_spacing / scale, PITCH * 2) if order.mat_spacing else PITCH
        count = max(1, int((right - left) // pitch))
        for i in range(count):
            x = left + (right - left) * (i + 0.5) / count
            board.circle(Layer.DETAIL, (x, y - 0.5), 0.4)

    def ground(self, board: Board, ends: tuple[float, float], bottom: float, scale: float) -> None:
        """Vapour retarder and base under a piece of slab between two ends, its underside at a height."""
        left, right = ends
        if right - left < STONE:
            return
        if self._retarder:
            at, x = bottom - SHEET, left
            while x < right:
                board.line(Layer.DETAIL, (x, at), (min(x + 3.0, right), at), width=0.35)
                x += 4.0
            bottom -= 2 * SHEET
        base = (self.job.order.base_depth or 0.0) / scale
        if not base:
            return
        board.line(Layer.DETAIL, (left, bottom - base), (right, bottom - base), width=0.18)
        rows = max(1, int(base // STONE))
        for row in range(rows):
            y = bottom - base * (row + 0.5) / rows
            x = left + STONE * (0.5 if row % 2 else 1.0)
            while x < right - 0.8:
                board.circle(Layer.DETAIL, (x, y), min(0.8, base / rows / 2 - 0.15))
                x += STONE


METRIC_BARS = {3: "10 mm", 4: "12 mm", 5: "16 mm", 6: "20 mm", 7: "22 mm", 8: "25 mm"}
"""Bars that stand for those of eighths of an inch in metric countries (common practice)."""
