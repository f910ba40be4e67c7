"""Drawings and building models that come in on the page: looked at, asked about, taken."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any, TypeVar

from kerfline.app.brought import Brought
from kerfline.files.scratch import scratch_file
from kerfline.web.arrivals import Arrival, Arrivals, seen_data
from kerfline.web.asked import roles_of, unit_of
from kerfline.web.long_tasks import Choice, seen_drawing, taken_drawing
from kerfline.web.long_work import LongWork
from kerfline.web.looks import Looks
from kerfline.web.on_disk import OnDisk

Data = dict[str, Any]
Answer = TypeVar("Answer")


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

    def named(self, said: Data) -> Data:
        """The drawing that the page was opened on, to be asked about."""
        wishes = self.disk.wishes
        brought = Brought(
            unit=wishes.units,
            page=wishes.page,
            scale=wishes.scale,
            storey=wishes.storey,
            floor=wishes.slab,
        )
        drawing = self._look(said, Arrival(self.disk.path.read_bytes(), brought))
        return {"drawing": drawing, "thickness": wishes.thickness or ""}

    def look(self, data: bytes, said: Data) -> Data:
        """What a file holds; it is kept in memory until the user has said what is what."""
        page = said.get("page", "")
        brought = Brought(
            unit=unit_of(said["units"]) if said.get("units") else None,
            page=int(page) if page.isdecimal() else 0,
            scale=said.get("scale", ""),
        )
        return self._look(said, Arrival(data, brought))

    def look_again(self, said: Data) -> Data:
        """The same file, read in another unit, or another floor of it."""
        arrival = self.arrivals.find(said.get("name"))
        brought = replace(
            arrival.brought,
            unit=unit_of(said["unit"]) if said.get("unit") else None,
            storey=str(said.get("storey", "")),
            floor=str(said.get("floor", "")),
        )
        return self._look(said, Arrival(arrival.data, brought), said["name"])

    def take(self, said: Data) -> Data:
        """The state that a file gives: with its own joints, or laid out where it has none."""
        unit = unit_of(said.get("unit"))
        arrival = self.arrivals.find(said.get("name"))
        brought = replace(arrival.brought, unit=unit)
        number = said.get("slab")
        choice = Choice(
            roles=roles_of(said),
            thickness=str(said.get("thickness", "")),
            slab=number if isinstance(number, int) and number > 0 else 0,
        )
        base = self.disk.base
        base = replace(base, units=unit) if self.disk.undrawn else base
        outcome = self._apart(said, arrival.data, taken_drawing, brought, choice, base)
        self.arrivals.drop(said["name"])
        return {**self.looks.of_outcome(outcome), "notes": list(outcome.job.notes)}

    def leave(self, said: Data) -> Data:
        """Lets a file go that nobody wants any more."""
        self.arrivals.drop(said.get("name"))
        return {}

    def _look(self, said: Data, arrival: Arrival, name: str = "") -> Data:
        seen = self._apart(said, arrival.data, seen_drawing, arrival.brought)
        return seen_data(self.arrivals.keep(arrival, name), seen)

    def _apart(
        self, said: Data, data: bytes, work: Callable[..., Answer], *asked: object
    ) -> Answer:
        """Does long work on a file by way of a copy, which is gone afterwards even where the work is stopped."""
        with scratch_file(self.disk.job_file.parent, data, ".drawing") as path:
            return self.works.ask(said, work, path, *asked)
