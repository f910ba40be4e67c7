"""What the page can ask for: open, change, complete, keep. Each is a short list of steps of ``app``.

The page holds the working state and sends it along with each question, so that two windows share
nothing but the files beside the job: the draft with what is not yet saved, and the job file.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

from kerfline.app.live import kept_outcome
from kerfline.app.outcome import Outcome
from kerfline.app.start_job import start_job
from kerfline.app.wishes import Wishes
from kerfline.app.working import job_of, was_kept
from kerfline.files.written_size import read_legs
from kerfline.model.job import Job
from kerfline.web.asked import rule_sets, unit_of
from kerfline.web.incoming import Incoming
from kerfline.web.keeping import Keeping
from kerfline.web.long_tasks import (
    exported,
    first_layout,
    laid_out,
    other_layouts,
    page_for_the_crew,
)
from kerfline.web.long_work import LongWork
from kerfline.web.looks import Looks
from kerfline.web.on_disk import OnDisk
from kerfline.web.slab_picture import point_of
from kerfline.web.tracing import Tracings, read_tracing
from kerfline.web.wire import read_points, read_state

Data = dict[str, Any]


class Desk:
    """One job, open in any number of windows.

    Attributes:
        disk: The job as it lies on the disk.
        looks: What is shown of it.
        works: What takes long.
        tracings: The pictures under the drawing.
        incoming: Drawings that come in.
        keeping: The draft and the job file.
        first: The layout to begin with, and the job that it is of; None until it is asked for.
    """

    def __init__(self, path: Path | None, wishes: Wishes = Wishes()) -> None:  # noqa: B008 - frozen
        self.disk = OnDisk(path, wishes)
        self.looks = Looks(self.disk)
        self.works = LongWork()
        self.tracings = Tracings()
        self.incoming = Incoming(self.disk, self.looks, self.works)
        self.keeping = Keeping(self.disk, self.tracings)
        self.first: tuple[Job, Outcome] | None = None

    def open(self, said: Data) -> Data:
        """The state to begin with: the draft where there is one, else the layout of the job file.

        A page whose layout was stopped asks for the slab ``bare``, without one; where there is only a drawing
        that is nothing.
        """
        with self.disk.lock:
            self.disk.read_if_changed()
            if self.disk.blank:
                return {"blank": True, "file": "", **self._ground()}
            working, words = self.keeping.draft()
            saved = self._first(said)["state"] if was_kept(self.disk.base) else None
            seen = self.looks.of_state(working) if working else self._begun_with(said)
            return {
                **seen,
                **self._ground(),
                **self.disk.where(),
                "saved": saved,
                "restored": words or self.disk.words,
                "reading": self.disk.told(),
            }

    def _ground(self) -> Data:
        """What every page needs to begin with."""
        return {**self.keeping.ping({}), "ruleSets": rule_sets()}

    def _begun_with(self, said: Data) -> Data:
        """What is shown where nothing was kept: the slab alone, the drawing to ask about, or the layout."""
        bare = said.get("bare") is True
        if self.disk.undrawn:
            return {"undrawn": True} if bare else self.incoming.named(said)
        if self.disk.begun or bare:
            return self.looks.of_outcome(kept_outcome(self.disk.base))
        return self._first(said)

    def _first(self, said: Data) -> Data:
        """The layout of the job as it is on the disk: kept before, or laid out now."""
        base = self.disk.base
        if self.first is None or self.first[0] is not base:
            self.first = base, self.works.ask(said, first_layout, base)
        return self.looks.of_outcome(self.first[1])

    def begin(self, said: Data) -> Data:
        """Begins a slab on the empty page, from an outline that was drawn or a size that was written.

        Raises:
            InputRefused: It is no slab, or there is a job of that name here already.
        """
        job = start_job(
            str(said.get("name", "")),
            unit_of(said.get("units")),
            str(said.get("thickness", "")),
            points=read_points(said.get("points", [])),
            size=str(said.get("size", "")),
        )
        with self.disk.lock:
            self.disk.begin(replace(job, tracing=read_tracing(said.get("tracing"))))
        return self.open({})

    def walk(self, said: Data) -> Data:
        """The points that typed legs lead through, from a point on or from where they say."""
        start, origin = read_points([said.get("from"), said.get("origin")])
        legs = read_legs(str(said.get("text", "")), unit_of(said.get("units")), start, origin)
        return {"points": [point_of(p) for p in legs]}

    def complete(self, said: Data) -> Data:
        """Lets the engine finish around what is pinned."""
        job = job_of(self.disk.base, read_state(said.get("state")), only_pinned=True)
        return self.looks.of_outcome(self.works.ask(said, laid_out, job))

    def alternatives(self, said: Data) -> Data:
        """Other good layouts around what is pinned."""
        job = job_of(self.disk.base, read_state(said.get("state")), only_pinned=True)
        return {"layouts": self.works.ask(said, other_layouts, job)}

    def export(self, said: Data) -> Data:
        """Writes the sheets into the folder ``out/NAME`` beside the job file."""
        working = read_state(said.get("state"))
        return self.works.ask(said, exported, self.disk.base, working, self.disk.job_file)

    def one_file(self, said: Data) -> tuple[str, bytes]:
        """The page that needs no server: its name and its bytes."""
        working = read_state(said.get("state"))
        return self.works.ask(said, page_for_the_crew, self.disk.base, working, self.disk.job_file)

    def progress(self, said: Data) -> Data:
        """What a piece of long work is at, in words."""
        return {"words": self.works.words(str(said.get("work", "")))}

    def stop(self, said: Data) -> Data:
        """Stops a piece of long work, and frees all that it held."""
        self.works.stop(str(said.get("work", "")))
        return {}

    def discard(self, said: Data) -> Data:
        """Goes back to the job file as it was saved."""
        self.keeping.discard(said)
        return self.open(said)

    def save_as(self, said: Data) -> Data:
        """Writes the job under another name and shows it there."""
        seen = self.looks.of_state(self.keeping.save_as(said))
        return {**seen, **self.disk.where(), **self.keeping.ping({})}
