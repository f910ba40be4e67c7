"""What the page can ask for: open, change, complete, keep. Each is a short list of steps of ``app``.

The page holds the working state and sends it along with each question, so that two windows share
nothing but the files beside the job: the draft with what is not yet saved, and the job file.
"""

import threading
from pathlib import Path
from typing import Any

from kerfline.app.deliver import file_stem
from kerfline.app.live import kept_outcome, measured
from kerfline.app.outcome import Outcome
from kerfline.app.save_job import save_job
from kerfline.app.working import Working, job_of, was_kept, working_of
from kerfline.errors import InputRefused, KerflineError, Mistake
from kerfline.model.job import Job
from kerfline.rules.rule_set import load, names
from kerfline.web.actions import apply, read_action
from kerfline.web.draft import (
    Conflict,
    Draft,
    digest_of,
    drop_draft,
    keep_draft,
    read_draft,
    set_aside,
)
from kerfline.web.picture import picture
from kerfline.web.wire import read_state, state_data

Data = dict[str, Any]

OTHER_WINDOW = "Another window has changed this job since this one last did."
OTHER_HAND = "The job file was changed by another hand since this page opened it."


class Desk:
    """One job, open in any number of windows.

    Attributes:
        path: What the user named: a job file or a drawing.
        job_file: Where the job is saved; beside the drawing where a drawing was named.
        base: The job as it is on the disk; gives what the page does not change.
    """

    def __init__(self, path: Path, *, thickness: str | None = None) -> None:
        self.path = path.resolve()
        self.job_file = self.path.with_suffix(".toml")
        self.thickness = thickness
        self.lock = threading.Lock()
        self.revision = 0
        self.read()

    def read(self) -> None:
        """Reads the job anew.

        Raises:
            InputRefused: It cannot be used.
        """
        from kerfline.app.open_job import Wishes, open_job

        self.digest = self._digest()
        self.base = open_job(self.path, Wishes(thickness=self.thickness))
        self.first: Outcome | None = None

    def _digest(self) -> str:
        """The digest of the job file; of nothing where it is not there yet."""
        return digest_of(self.job_file.read_bytes()) if self.job_file.is_file() else ""

    def open(self, _: Data) -> Data:
        """The state to begin with: the draft where there is one, else the layout of the job file."""
        with self.lock:
            if self._digest() != self.digest:
                self.read()
            words = ""
            draft = read_draft(self.job_file)
            if draft:
                self.revision = max(self.revision, draft.revision)
            if draft and draft.digest != self.digest:
                aside = set_aside(self.job_file)
                words = f"The job file was changed since the draft beside it was kept. The draft is set aside as {aside.name}."
                draft = None
            saved = self._saved()
            seen = saved
            if draft:
                try:
                    seen = self._seen(read_state(draft.state))
                    words = "Work that was not saved is back, as it was last kept."
                except KerflineError:
                    aside = set_aside(self.job_file)
                    words = f"The draft beside the job file could not be read. It is set aside as {aside.name}."
            return {
                **seen,
                "revision": self.revision,
                "file": self.job_file.name,
                "saved": saved["state"] if was_kept(self.base) else None,
                "restored": words,
                "ruleSets": [{"name": n, "title": load(n).title} for n in names()],
            }

    def _saved(self) -> Data:
        """The layout of the job as it is on the disk: kept before, or laid out now."""
        if self.first is None:
            self.first = (
                kept_outcome(self.base) if was_kept(self.base) else self._laid_out(self.base)
            )
        return self._shown(self.first)

    def _laid_out(self, job: Job) -> Outcome:
        from kerfline.app.lay_out import lay_out_job

        return lay_out_job(job)

    def _shown(self, outcome: Outcome) -> Data:
        return {"state": state_data(working_of(outcome)), "picture": picture(outcome)}

    def _seen(self, working: Working) -> Data:
        return {"state": state_data(working), "picture": picture(measured(self.base, working))}

    def change(self, said: Data) -> Data:
        """Does one thing to a state, or nothing, and measures it."""
        working = read_state(said.get("state"))
        if said.get("action") is not None:
            working = apply(read_action(said["action"]), working, self.base)
        return self._seen(working)

    def complete(self, said: Data) -> Data:
        """Lets the engine finish around what is pinned."""
        job = job_of(self.base, read_state(said.get("state")), only_pinned=True)
        return self._shown(self._laid_out(job))

    def keep_draft(self, said: Data) -> Data:
        """Keeps a state beside the job file.

        Raises:
            Conflict: Another window kept something that this one has not seen.
        """
        state = state_data(read_state(said.get("state")))
        with self.lock:
            self._ask_newest(said)
            self._write_draft(state)
            return {"revision": self.revision}

    def _ask_newest(self, said: Data) -> None:
        kept = read_draft(self.job_file)
        newest = max(self.revision, kept.revision if kept else 0)
        self.revision = newest
        if said.get("revision") != newest and said.get("over") is not True:
            raise Conflict("draft", OTHER_WINDOW)

    def _write_draft(self, state: Data) -> None:
        keep_draft(
            self.job_file, Draft(revision=self.revision + 1, digest=self.digest, state=state)
        )
        self.revision += 1

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
            job = job_of(self.base, working, only_pinned=False)
            save_job(self.job_file, job)
            drop_draft(self.job_file)
            self.path = self.job_file
            self.revision += 1
            self.read()
        return {"revision": self.revision, "file": self.job_file.name}

    def export(self, said: Data) -> Data:
        """Writes the sheets into the folder beside the job file."""
        from kerfline.app.deliver import deliver

        outcome = measured(self.base, read_state(said.get("state")))
        folder = self.job_file.parent / "out" / file_stem(self.base.name)
        written = deliver(outcome, folder)
        return {
            "folder": str(folder.relative_to(self.job_file.parent)),
            "files": [p.name for p in written],
        }

    def one_file(self, said: Data) -> tuple[str, bytes]:
        """The page that needs no server: its name and its bytes."""
        from kerfline.web.one_file import page_bytes

        outcome = measured(self.base, read_state(said.get("state")))
        return f"{file_stem(self.base.name)}.html", page_bytes(outcome)

    def alternatives(self, said: Data) -> Data:
        """Other good layouts around what is pinned."""
        return {"layouts": [], "why": "There is no other good layout."}

    def look_at_drawing(self, body: bytes, units: str) -> Data:
        """What a drawing holds."""
        raise InputRefused(Mistake(what="drawings cannot be read here yet"))

    def take_drawing(self, said: Data) -> Data:
        """The state that a drawing gives."""
        raise InputRefused(Mistake(what="drawings cannot be read here yet"))
