"""The ``[tracing]`` of a job: the picture that lies under the drawing on the page."""

from kerfline.errors import Mistake
from kerfline.files.job_schema import TracingTable
from kerfline.files.job_values import is_plain_name
from kerfline.model.tracing import Tracing

SMALLEST, LARGEST = 1.0, 1e6
"""Sides that a picture can have, in its own measure."""


def build_tracing(table: TracingTable) -> Tracing:
    """The picture that a table describes."""
    return Tracing(
        file=table.file,
        page=table.page,
        size=table.size,
        picture=tuple(table.picture),
        plan=tuple(table.plan),
        fade=table.fade,
        shown=table.shown,
        locked=table.locked,
    )


def tracing_mistakes(tracing: Tracing | None, where: str) -> list[Mistake]:
    """What makes no sense in how a picture lies.

    Args:
        tracing: The picture; None where there is none.
        where: Where it is told.
    """
    if tracing is None:
        return []
    if not is_plain_name(tracing.file):
        return [Mistake(what="a file's name is needed here", where=where, found=tracing.file)]
    if not all(SMALLEST <= side <= LARGEST for side in tracing.size):
        return [Mistake(what="no picture has this size", where=where)]
    if tracing.onto is None:
        return [
            Mistake(
                what="the points of the picture do not say how it lies",
                where=where,
                allowed="two points, or four corners in their order round, and as many on the plan",
                remedy="lay it anew on the page",
            )
        ]
    return []
