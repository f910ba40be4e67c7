"""The choices in a job file whose words other parts define: the engine's weights and the sheet's size."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TypeVar

from kerfline.engine.options import Weights
from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_locate import Places
from kerfline.files.job_schema import JobFile
from kerfline.sheets.paper import paper

T = TypeVar("T")


def choice_mistakes(file: JobFile, places: Places) -> list[Mistake]:
    """What those parts would refuse, told with its place in the file."""
    found: list[Mistake] = []
    for name, weight in file.engine.weights.items():
        key = ("engine", "weights", name)
        found.extend(_refused(Weights.of, {name: weight}, places.of(key)))
    if file.sheet.size:
        found.extend(_refused(paper, file.sheet.size, places.of(("sheet", "size"))))
    return found


def _refused(ask: Callable[[T], object], value: T, place: str) -> Iterator[Mistake]:
    try:
        ask(value)
    except InputRefused as refused:
        yield from (replace(mistake, where=place) for mistake in refused.mistakes)
