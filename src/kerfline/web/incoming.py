"""Drawings and building models that come in on the page: looked at, asked about, taken."""

from dataclasses import replace
from typing import Any

from kerfline.app.import_drawing import Brought, look_at, take
from kerfline.app.live import kept_outcome
from kerfline.web.arrivals import Arrivals, seen_data
from kerfline.web.asked import roles_of, unit_of
from kerfline.web.long_tasks import laid_out
from kerfline.web.long_work import LongWork
from kerfline.web.looks import Looks
from kerfline.web.on_disk import OnDisk

Data = dict[str, Any]


class Incoming:
    """What was dropped on the page, or named where it was opened.

    Attributes:
        disk: The job on the disk.
        looks: Shows what was taken.
        works: Where long work is done.
        arrivals: What came in and is not yet taken.
    """

    def __init__(self, disk: OnDisk, looks: Looks, works: LongWork) -> None:
        self.disk = disk
        self.looks = looks
        self.works = works
        self.arrivals = Arrivals()

    def named(self) -> Data:
        """The drawing that the page was opened on, to be asked about."""
        wishes = self.disk.wishes
        brought = Brought(
            data=self.disk.path.read_bytes(),
            unit=wishes.units,
            page=wishes.page,
            scale=wishes.scale,
        )
        return {"drawing": self.look(brought), "thickness": wishes.thickness or ""}

    def look(self, brought: Brought) -> Data:
        """What a drawing holds; it is kept in memory until the user has said what is what."""
        seen = look_at(brought, self.disk.job_file.parent)
        return seen_data(self.arrivals.keep(brought), seen)

    def look_again(self, said: Data) -> Data:
        """The same drawing in another unit."""
        unit = unit_of(said["unit"]) if said.get("unit") else None
        return self.look(replace(self.arrivals.take(said.get("name")), unit=unit))

    def take(self, said: Data) -> Data:
        """The state that a drawing gives: with its own joints, or laid out where it has none."""
        unit = unit_of(said.get("unit"))
        brought = replace(self.arrivals.take(said.get("name")), unit=unit)
        number = said.get("slab")
        chosen = number if isinstance(number, int) and number > 0 else 0
        thickness = str(said.get("thickness", ""))
        taken = take(brought, self.disk.job_file.parent, roles_of(said), thickness, chosen)
        slab, notes = taken.slab, taken.notes
        base = self.disk.base
        job = replace(base, units=unit if self.disk.undrawn else base.units, slab=slab, notes=notes)
        outcome = kept_outcome(job) if slab.pinned else self.works.ask(said, laid_out, job)
        return {**self.looks.of_outcome(outcome), "notes": list(notes)}
