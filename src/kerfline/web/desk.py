"""What the page can ask for: open, change, complete, keep. Each is a short list of steps of ``app``.

The page holds the working state and sends it along with each question, so that two windows share
nothing but the files beside the job: the draft with what is not yet saved, and the job file.
"""

import json
import threading
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar

from kerfline.app.drawing_words import told_in_lines
from kerfline.app.file_names import file_stem
from kerfline.app.import_drawing import Brought, look_at, take
from kerfline.app.live import kept_outcome, measured
from kerfline.app.open_job import open_job, size_named
from kerfline.app.outcome import Outcome
from kerfline.app.save_job import save_job
from kerfline.app.start_job import job_name, start_job
from kerfline.app.wishes import Wishes
from kerfline.app.working import Working, job_of, was_kept, working_of
from kerfline.errors import InputRefused, KerflineError, Mistake
from kerfline.files.kinds import DRAWINGS, kind_of
from kerfline.files.written_size import read_legs, read_size
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Slab
from kerfline.units import Unit
from kerfline.web.acting import apply
from kerfline.web.actions import read_action
from kerfline.web.address import keep_address, kept_address
from kerfline.web.arrivals import Arrivals, seen_data
from kerfline.web.asked import roles_of, rule_sets, unit_of
from kerfline.web.differences import difference
from kerfline.web.draft import (
    Conflict,
    Draft,
    digest_of,
    drop_draft,
    keep_draft,
    read_draft,
    set_aside,
)
from kerfline.web.long_tasks import (
    exported,
    first_layout,
    laid_out,
    other_layouts,
    page_for_the_crew,
)
from kerfline.web.long_work import LongWork
from kerfline.web.picture import Shown, picture
from kerfline.web.slab_picture import point_of
from kerfline.web.states import State, States
from kerfline.web.tracing import Tracings, read_tracing, tracing_data
from kerfline.web.wire import read_points, read_state, state_data

Data = dict[str, Any]
Answer = TypeVar("Answer")

OTHER_WINDOW = "Another window has changed this job since this one last did."
OTHER_HAND = "The job file was changed by another hand since this page opened it."
UNSAVED = "Work that was not saved is back, as it was last kept."


NAMELESS = "new-slab"
"""What a job that is begun on the page is called until it has a name."""


class Desk:
    """One job, open in any number of windows.

    Attributes:
        path: The file that is read: a job file, or a drawing or building model that has none yet.
        job_file: Where the job is saved; beside the drawing where a drawing was named.
        base: The job as it is on the disk; gives what the page does not change.
        wishes: What the user said beside a drawing, a building model or a size.
        undrawn: Whether there is only a drawing of which the user must say what it holds.
        blank: Whether nothing is there yet and the page begins with an empty board.
        begun: Whether the slab was begun on the page or by its size, and is not saved yet.
    """

    def __init__(self, path: Path | None, wishes: Wishes = Wishes()) -> None:  # noqa: B008 - frozen
        self.blank = path is None
        self.wishes = wishes
        size = size_named(path) if path else ""
        named = Path(f"{file_stem(read_size(size, wishes.units).name)}.toml") if size else path
        path = (named or Path(f"{NAMELESS}.toml")).resolve()
        self.job_file = path.with_suffix(".toml")
        drawn = not size and path.is_file() and kind_of(path) in DRAWINGS
        beside = drawn and self.job_file.is_file()
        self.path = self.job_file if beside else path
        self.undrawn = drawn and not beside
        self.words = (
            f"The job file {self.job_file.name} beside the drawing is open." if beside else ""
        )
        self.lock = threading.Lock()
        self.revision = 0
        self.arrivals = Arrivals()
        self.states = States()
        self.works = LongWork()
        self.tracings = Tracings()
        self.begun = bool(size)
        self.first: Outcome | None = None
        self.base = self._blank()
        if size:
            self._begin_with_size(size)
        else:
            self.read()

    def _begin_with_size(self, size: str) -> None:
        """Begins with the bare slab of a size.

        Raises:
            InputRefused: It is no size, nothing says how thick the slab is, or it has a job file already.
        """
        if self.job_file.exists():
            raise InputRefused(
                Mistake(
                    what="there is a job file of that size already",
                    where=self.job_file.name,
                    remedy=f"open it with kerfline view {self.job_file.name}",
                )
            )
        self.base, self.digest = open_job(Path(size), self.wishes), ""

    def read(self) -> None:
        """Reads the job anew.

        Raises:
            InputRefused: It cannot be used.
        """
        self.first = None
        if self.begun:
            return
        self.digest = self._digest()
        if self.blank:
            self.base = self._blank()
            return
        kind_of(self.path)  # says what is wrong with a file that is not there or nothing of ours
        self.base = self._blank() if self.undrawn else open_job(self.path)

    @property
    def told(self) -> list[str]:
        """How the drawing behind the job was read, ten lines at most; none where there is no drawing."""
        if not self.base.reading:
            return []
        return told_in_lines(self.base.reading, self.base.notes, "the page lists them")

    def _blank(self) -> Job:
        """The job that a drawing begins, before anything is known of it."""
        return Job(name=self.path.stem, units=Unit.FT, slab=Slab(outline=Ring(()), thickness=0.0))

    def _digest(self) -> str:
        """The digest of the job file; empty where it is not there yet."""
        return digest_of(self.job_file.read_bytes()) if self.job_file.is_file() else ""

    def open(self, said: Data) -> Data:
        """The state to begin with: the draft where there is one, else the layout of the job file.

        A page whose layout was stopped asks for the slab ``bare``, without one.
        """
        with self.lock:
            if self._digest() != self.digest and not self.blank:
                self.read()
            if self.blank:
                return {
                    "blank": True,
                    "revision": self.revision,
                    "file": "",
                    "ruleSets": rule_sets(),
                }
            seen, words = self._draft()
            saved = None
            if was_kept(self.base):
                saved = self._first(said)["state"]
            if seen is None:
                seen = self._begun_with(said)
            return {
                **seen,
                "revision": self.revision,
                **self._kept_where(),
                "saved": saved,
                "restored": words or self.words,
                "reading": self.told,
                "ruleSets": rule_sets(),
            }

    def _begun_with(self, said: Data) -> Data:
        """What is shown where nothing was kept: the slab alone, the drawing to ask about, or the layout."""
        if self.begun or said.get("bare") is True:
            return self._shown(kept_outcome(self.base))
        return self._arrived() if self.undrawn else self._first(said)

    def begin(self, said: Data) -> Data:
        """Begins a slab on the empty page, from an outline that was drawn or a size that was written.

        Raises:
            InputRefused: It is no slab, or there is a job of that name here already.
        """
        points = read_points(said.get("points", []))
        job = start_job(
            str(said.get("name", "")),
            unit_of(said.get("units")),
            str(said.get("thickness", "")),
            points=points,
            size=str(said.get("size", "")),
        )
        job = replace(job, tracing=read_tracing(said.get("tracing")))
        with self.lock:
            if not self.blank:
                raise InputRefused(
                    Mistake(what="a slab is begun already", remedy="load the page again")
                )
            target = self._new_file(job.name)
            self.job_file = self.path = target
            self.base, self.digest, self.blank, self.begun = job, "", False, True
        return self.open({})

    def walk(self, said: Data) -> Data:
        """The points that typed legs lead through, from a point on or from where they say."""
        start, origin = read_points([said.get("from"), said.get("origin")])
        legs = read_legs(str(said.get("text", "")), unit_of(said.get("units")), start, origin)
        return {"points": [point_of(p) for p in legs]}

    def _draft(self) -> tuple[Data | None, str]:
        """What was not saved, where it belongs to the job file as it is now, and words about it."""
        draft = read_draft(self.job_file)
        if draft is None:
            return None, ""
        self.revision = max(self.revision, draft.revision)
        try:
            if draft.digest == self.digest:
                return self._seen(read_state(draft.state)), UNSAVED
            why = "The job file was changed since the draft beside it was kept"
        except KerflineError:
            why = "The draft beside the job file cannot be used"
        return None, f"{why}; the draft is set aside as {set_aside(self.job_file).name}."

    def _first(self, said: Data) -> Data:
        """The layout of the job as it is on the disk: kept before, or laid out now."""
        if self.first is None:
            self.first = self._long(said, first_layout, self.base)
        return self._shown(self.first)

    def _arrived(self) -> Data:
        """The drawing that was named, to be asked about."""
        wishes = self.wishes
        brought = Brought(
            data=self.path.read_bytes(), unit=wishes.units, page=wishes.page, scale=wishes.scale
        )
        return {"drawing": self.look_at_drawing(brought), "thickness": wishes.thickness or ""}

    def _shown(self, outcome: Outcome) -> Data:
        """A layout as the page is told of it, kept with what its changes are measured from."""
        working = working_of(outcome)
        answer = {"state": state_data(working), "picture": picture(outcome)}
        ground = measured(self.base, working, outcome)
        shown = Shown(ground, picture(ground))
        return {**answer, "at": self.states.keep(working, shown, answer).name}

    def _seen(self, working: Working) -> Data:
        state = self._measured(working, self.states.last())
        return {**state.answer, "at": state.name}

    def _measured(self, working: Working, before: State | None) -> State:
        """A working state held against the rules; only what differs from another is measured anew.

        Where only what lies under the drawing changed nothing is.
        """
        was = before.shown if before else None
        if was and before and working == replace(before.working, tracing=working.tracing):
            drawn = was.picture | {"tracing": tracing_data(working.tracing)}
            shown = Shown(was.outcome, drawn)
        else:
            outcome = measured(self.base, working, was.outcome if was else None)
            shown = Shown(outcome, picture(outcome, was))
        answer = {"state": state_data(working), "picture": shown.picture}
        return self.states.keep(working, shown, answer)

    def change(self, said: Data) -> Data:
        """Does one thing to a state, or nothing, and measures it.

        A page that names a state it was told (``at``) is told what differs from it; one that sends the
        state itself is told everything.
        """
        if "state" not in said:
            return self._changed(said)
        working = read_state(said.get("state"))
        if said.get("action") is not None:
            working = apply(read_action(said["action"]), working)
        return self._seen(working)

    def _changed(self, said: Data) -> Data:
        """What an action changes of a state that is known here."""
        before = self.states.find(said.get("at"))
        if before is None:
            return {"unknown": True}
        action = read_action(said.get("action"))
        text = json.dumps(said["action"], sort_keys=True)
        # What was shown while the pointer moved is what is kept when it is let go.
        after = self.states.find(before.after.get(text))
        if after is None:
            after = self._measured(apply(action, before.working), before)
            before.after[text] = after.name
        return {"at": after.name, "difference": difference(before.answer, after.answer)}

    def complete(self, said: Data) -> Data:
        """Lets the engine finish around what is pinned."""
        job = job_of(self.base, read_state(said.get("state")), only_pinned=True)
        return self._shown(self._long(said, laid_out, job))

    def alternatives(self, said: Data) -> Data:
        """Other good layouts around what is pinned."""
        job = job_of(self.base, read_state(said.get("state")), only_pinned=True)
        return {"layouts": self._long(said, other_layouts, job)}

    def progress(self, said: Data) -> Data:
        """What a piece of long work is at, in words."""
        return {"words": self.works.words(str(said.get("work", "")))}

    def stop(self, said: Data) -> Data:
        """Stops a piece of long work, and frees all that it held."""
        self.works.stop(str(said.get("work", "")))
        return {}

    def _long(self, said: Data, work: Callable[..., Answer], *asked: object) -> Answer:
        """Does what may take long: apart, where the page gave it a name to be stopped by."""
        name = said.get("work")
        if isinstance(name, str) and name:
            return self.works.do(name, work, *asked)
        return work(*asked)

    def keep_draft(self, said: Data) -> Data:
        """Keeps a state beside the job file.

        Raises:
            Conflict: Another window kept something that this one has not seen.
        """
        working = read_state(said.get("state"))
        state = state_data(working)
        with self.lock:
            self._ask_newest(said)
            self.tracings.keep(working.tracing, self.job_file.parent)
            draft = Draft(revision=self.revision + 1, digest=self.digest, state=state)
            keep_draft(self.job_file, draft)
            self.revision += 1
            return {"revision": self.revision}

    def ping(self, _: Data) -> Data:
        """Says that the program is there."""
        return {"revision": self.revision}

    def resume(self, said: Data) -> Data:
        """Takes a page up again that was open before this server was started.

        The draft beside the job file knows its own number; where there is none (it was saved just
        before) the page's own number is the newest that anybody has.
        """
        with self.lock:
            kept = read_draft(self.job_file)
            known = kept.revision if kept else said.get("revision")
            if isinstance(known, int) and self._digest() == self.digest:
                self.revision = max(self.revision, known)
            return {"revision": self.revision}

    def _ask_newest(self, said: Data) -> None:
        kept = read_draft(self.job_file)
        self.revision = max(self.revision, kept.revision if kept else 0)
        if said.get("revision") != self.revision and said.get("over") is not True:
            raise Conflict("draft", OTHER_WINDOW)

    def discard(self, said: Data) -> Data:
        """Goes back to the job file as it was saved."""
        with self.lock:
            self._ask_newest(said)
            drop_draft(self.job_file)
            self.revision += 1
            self.read()
        return self.open(said)

    def save(self, said: Data) -> Data:
        """Writes the job file.

        Raises:
            Conflict: Another window, or another hand, changed it in the meantime.
            OutputRefused: It cannot be written; the draft is kept.
        """
        working = read_state(said.get("state"))
        with self.lock:
            self._ask_newest(said)
            if self._digest() != self.digest and said.get("over") is not True:
                raise Conflict("file", OTHER_HAND)
            self.tracings.keep(working.tracing, self.job_file.parent)
            save_job(self.job_file, job_of(self.base, working, only_pinned=False))
            drop_draft(self.job_file)
            self.path, self.begun, self.undrawn = self.job_file, False, False
            self.revision += 1
            self.read()
        return {"revision": self.revision, "file": self.job_file.name}

    def save_as(self, said: Data) -> Data:
        """Writes the job under another name and goes on there; the old file stays as it was last saved.

        Raises:
            InputRefused: It is no name, or there is a job file of that name.
            OutputRefused: It cannot be written; nothing has changed.
        """
        working = replace(read_state(said.get("state")), name=job_name(str(said.get("name", ""))))
        with self.lock:
            target = self._new_file(working.name)
            job = job_of(self.base, working, only_pinned=False)
            self.tracings.keep(working.tracing, target.parent)
            save_job(target, job, like=None if self.begun or self.undrawn else self.job_file)
            if address := kept_address(self.job_file):
                keep_address(target, address)
            drop_draft(self.job_file)
            self.job_file = self.path = target
            self.begun = self.undrawn = False
            self.revision += 1
            self.read()
        return {**self._seen(working), **self._kept_where(), "revision": self.revision}

    def _kept_where(self) -> Data:
        return {"file": self.job_file.name, "folder": str(self.job_file.parent)}

    def _new_file(self, name: str) -> Path:
        """The job file that a name gives, beside the present one.

        Raises:
            InputRefused: It is there already.
        """
        target = self.job_file.with_name(f"{file_stem(name)}.toml")
        if target.exists():
            raise InputRefused(
                Mistake(
                    what="there is a job file of that name already",
                    where=target.name,
                    remedy="give another name, or open that file with kerfline view",
                )
            )
        return target

    def export(self, said: Data) -> Data:
        """Writes the sheets into the folder ``out/NAME`` beside the job file."""
        return self._long(said, exported, self.base, read_state(said.get("state")), self.job_file)

    def one_file(self, said: Data) -> tuple[str, bytes]:
        """The page that needs no server: its name and its bytes."""
        working = read_state(said.get("state"))
        return self._long(said, page_for_the_crew, self.base, working, self.job_file)

    def look_at_drawing(self, brought: Brought) -> Data:
        """What a drawing holds; it is kept in memory until the user has said what is what."""
        seen = look_at(brought, self.job_file.parent)
        return seen_data(self.arrivals.keep(brought), seen)

    def look_again(self, said: Data) -> Data:
        """The same drawing in another unit."""
        unit = unit_of(said["unit"]) if said.get("unit") else None
        return self.look_at_drawing(replace(self.arrivals.take(said.get("name")), unit=unit))

    def take_drawing(self, said: Data) -> Data:
        """The state that a drawing gives: with its own joints, or laid out where it has none."""
        unit = unit_of(said.get("unit"))
        brought = replace(self.arrivals.take(said.get("name")), unit=unit)
        number = said.get("slab")
        chosen = number if isinstance(number, int) and number > 0 else 0
        thickness = str(said.get("thickness", ""))
        taken = take(brought, self.job_file.parent, roles_of(said), thickness, chosen)
        slab, notes = taken.slab, taken.notes
        job = replace(
            self.base, units=unit if self.undrawn else self.base.units, slab=slab, notes=notes
        )
        outcome = kept_outcome(job) if slab.pinned else self._long(said, laid_out, job)
        return {**self._shown(outcome), "notes": list(notes)}
