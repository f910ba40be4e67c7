"""How each kind of case is run; each yields what is wrong with what came of it and was not said."""

import math
import tempfile
from pathlib import Path

from fuzz.oracle import faults
from fuzz.slab_cases import job_case
from fuzz.text_cases import drawing, job_file, weather_table
from kerfline.app.deliver import contents
from kerfline.app.lay_out import lay_out_job
from kerfline.app.open_job import Wishes, open_job
from kerfline.errors import InputRefused
from kerfline.files.slab_sense import check_slab
from kerfline.files.weather_file import read_weather
from kerfline.units import Unit

DRAWN_EVERY = 11
"""One case in so many has its sheets drawn: of those with many panels as of the others."""


def slabs(number):
    """A slab is refused by its sense, or laid out, checked, and now and then drawn."""
    job = job_case(number)
    mistakes = check_slab(job.slab, "", job.display)
    if mistakes:
        raise InputRefused(*mistakes)
    outcome = lay_out_job(job)
    if job.rules.name == "floor" and not job.rules.overrides:
        yield from faults(job.slab, outcome.layout, outcome.findings)
    if number % DRAWN_EVERY == 0:
        files = contents(outcome)
        yield from (f"{name} is empty" for name, data in files.items() if not data)


def job_files(number):
    """A job file is refused, or what it says is laid out."""
    yield from _opened("case.toml", job_file(number).encode("utf-8", "surrogateescape"), None)


def weather(number):
    """A weather table is refused, or its hours are in order and such as there can be."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "hours.csv"
        path.write_text(weather_table(number), encoding="utf-8")
        hours = read_weather(path, "2026-06-14", 20.0)
    clocks = [h.clock for h in hours]
    if clocks != sorted(set(clocks)):
        yield f"the hours are not in order: {clocks}"
    for hour in hours:
        values = (hour.clock, hour.air, hour.humidity, hour.wind, hour.wind_height)
        if not all(map(math.isfinite, values)):
            yield f"no weather: {values}"
        if not (0 < hour.humidity <= 1 and hour.wind >= 0 and -60 < hour.air < 70):
            yield f"no weather: {values}"


def drawings(number):
    """A drawing is refused, asked about, or laid out."""
    unit = (None, Unit.MM, Unit.FT)[number % 3]
    yield from _opened("case.dxf", drawing(number), Wishes(thickness="4 in", units=unit))


def _opened(name, data, wishes):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data)
        job = open_job(path, wishes)
    outcome = lay_out_job(job)
    if job.rules.name == "floor" and not job.rules.overrides:
        yield from faults(job.slab, outcome.layout, outcome.findings)


KINDS = {"slabs": slabs, "jobs": job_files, "weather": weather, "drawings": drawings}
