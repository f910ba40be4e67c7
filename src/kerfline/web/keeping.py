"""Keeps what is on the page: as a draft with every change, in the job file when the user saves.

The page sends the state along, so that two windows share nothing but the files beside the job; the
running number of the draft tells a window that another kept something which it has not seen.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

from kerfline.app.save_job import save_job
from kerfline.app.start_job import job_name
from kerfline.app.working import Working, job_of
from kerfline.errors import KerflineError
from kerfline.web.address import keep_address, kept_address
from kerfline.web.draft import Conflict, Draft, drop_draft, keep_draft, read_draft, set_aside
from kerfline.web.on_disk import OnDisk
from kerfline.web.tracing import Tracings
from kerfline.web.wire import read_state, state_data

Data = dict[str, Any]

OTHER_WINDOW = "Another window has changed this job since this one last did."
OTHER_HAND = "The job file was changed by another hand since this page opened it."
UNSAVED = "Work that was not saved is back, as it was last kept."


class Keeping:
    """The draft and the job file.

    Attributes:
        disk: The job on the disk.
        tracings: The pictures under the drawing, which are kept with it.
        revision: Running number of what was kept last.
    """

    def __init__(self, disk: OnDisk, tracings: Tracings) -> None:
        self.disk = disk
        self.tracings = tracings
        self.revision = 0

    def draft(self) -> tuple[Working | None, str]:
        """What was not saved, where it belongs to the job file as it is now, and words about it."""
        draft = read_draft(self.disk.job_file)
        if draft is None:
            return None, ""
        self.revision = max(self.revision, draft.revision)
        try:
            if draft.digest == self.disk.digest:
                return read_state(draft.state), UNSAVED
            why = "The job file was changed since the draft beside it was kept"
        except KerflineError:
            why = "The draft beside the job file cannot be used"
        return None, f"{why}; the draft is set aside as {set_aside(self.disk.job_file).name}."

    def keep_draft(self, said: Data) -> Data:
        """Keeps a state beside the job file.

        Raises:
            Conflict: Another window kept something that this one has not seen.
        """
        working = read_state(said.get("state"))
        state = state_data(working)
        with self.disk.lock:
            self._ask_newest(said)
            self.tracings.keep(working.tracing, self.disk.job_file.parent)
            draft = Draft(revision=self.revision + 1, digest=self.disk.digest, state=state)
            keep_draft(self.disk.job_file, draft)
            self.revision += 1
            return self.ping({})

    def ping(self, _: Data) -> Data:
        """Says that the program is there."""
        return {"revision": self.revision}

    def resume(self, said: Data) -> Data:
        """Takes a page up again that was open before this server was started.

        The draft beside the job file knows its own number; where there is none (it was saved just
        before) the page's own number is the newest that anybody has.
        """
        with self.disk.lock:
            kept = read_draft(self.disk.job_file)
            known = kept.revision if kept else said.get("revision")
            if isinstance(known, int) and not self.disk.changed():
                self.revision = max(self.revision, known)
            return self.ping({})

    def discard(self, said: Data) -> None:
        """Goes back to the job file as it was saved.

        Raises:
            Conflict: Another window kept something that this one has not seen.
        """
        with self.disk.lock:
            self._ask_newest(said)
            drop_draft(self.disk.job_file)
            self.revision += 1
            self.disk.read()

    def save(self, said: Data) -> Data:
        """Writes the job file.

        Raises:
            Conflict: Another window, or another hand, changed it in the meantime.
            OutputRefused: It cannot be written; the draft is kept.
        """
        working = read_state(said.get("state"))
        with self.disk.lock:
            self._ask_newest(said)
            if self.disk.changed() and said.get("over") is not True:
                raise Conflict("file", OTHER_HAND)
            self._write(working, self.disk.job_file)
            return {**self.ping({}), "file": self.disk.job_file.name}

    def save_as(self, said: Data) -> Working:
        """Writes the job under another name and goes on there; the old file stays as it was last saved.

        Raises:
            InputRefused: It is no name, or there is a job file of that name.
            OutputRefused: It cannot be written; nothing has changed.
        """
        working = replace(read_state(said.get("state")), name=job_name(str(said.get("name", ""))))
        with self.disk.lock:
            self._write(working, self.disk.new_file(working.name))
        return working

    def _write(self, working: Working, target: Path) -> None:
        """Writes a job file, drops the draft of the one before and goes on with the new one."""
        disk, before = self.disk, self.disk.job_file
        job = job_of(disk.base, working, only_pinned=False)
        self.tracings.keep(working.tracing, target.parent)
        written_before = not disk.begun and not disk.undrawn
        save_job(target, job, like=before if target != before and written_before else None)
        if target != before and (address := kept_address(before)):
            keep_address(target, address)
        drop_draft(before)
        self.revision += 1
        disk.saved(target)

    def _ask_newest(self, said: Data) -> None:
        kept = read_draft(self.disk.job_file)
        self.revision = max(self.revision, kept.revision if kept else 0)
        if said.get("revision") != self.revision and said.get("over") is not True:
            raise Conflict("draft", OTHER_WINDOW)
