"""The file that the page was opened on: what is read from it, and where the job is saved."""

import threading
from pathlib import Path
from typing import Any

from kerfline.app.drawing_words import told_in_lines
from kerfline.app.file_names import file_stem
from kerfline.app.open_job import open_job, size_named
from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused, Mistake
from kerfline.files.kinds import DRAWINGS, kind_of
from kerfline.files.written_size import read_size
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Slab
from kerfline.units import Unit
from kerfline.web.draft import digest_of

Data = dict[str, Any]

NAMELESS = "new-slab"
"""What a job that is begun on the page is called until it has a name."""


class OnDisk:
    """The job as it lies on the disk.

    Attributes:
        path: The file that is read: a job file, or a drawing or building model that has none yet.
        job_file: Where the job is saved; beside the drawing where a drawing was named.
        base: The job as it was read; gives what the page does not change.
        digest: What tells the job file as it was read from any other; empty where there was none.
        wishes: What the user said beside a drawing, a building model or a size.
        undrawn: Whether there is only a drawing of which the user must say what it holds.
        blank: Whether nothing is there yet and the page begins with an empty board.
        begun: Whether the slab was begun on the page or by its size, and is not saved yet.
        words: What the user should know of the file that was taken; mostly empty.
        lock: Held while what lies on the disk is read, compared or written.
    """

    def __init__(self, path: Path | None, wishes: Wishes) -> None:
        self.lock = threading.Lock()
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
        self.begun = bool(size)
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
        if self.begun:
            return
        self.digest = self.digest_now()
        if self.blank:
            self.base = self._blank()
            return
        kind_of(self.path)  # says what is wrong with a file that is not there or nothing of ours
        self.base = self._blank() if self.undrawn else open_job(self.path)

    def read_if_changed(self) -> None:
        """Reads the job anew where another hand changed its file.

        Raises:
            InputRefused: It cannot be used.
        """
        if self.changed() and not self.blank:
            self.read()

    def begin(self, job: Job) -> None:
        """Begins a slab where there was none.

        Raises:
            InputRefused: One is begun already, or there is a job of that name here.
        """
        if not self.blank:
            raise InputRefused(
                Mistake(what="a slab is begun already", remedy="load the page again")
            )
        self.job_file = self.path = self.new_file(job.name)
        self.base, self.digest, self.blank, self.begun = job, "", False, True

    def saved(self, job_file: Path) -> None:
        """Goes on with a job file that was just written."""
        self.job_file = self.path = job_file
        self.begun = self.undrawn = False
        self.read()

    def digest_now(self) -> str:
        """The digest of the job file as it is; empty where it is not there yet."""
        return digest_of(self.job_file.read_bytes()) if self.job_file.is_file() else ""

    def changed(self) -> bool:
        """Whether another hand changed the job file since it was read."""
        return self.digest_now() != self.digest

    def told(self) -> list[str]:
        """How the drawing behind the job was read, ten lines at most; none where there is no drawing."""
        if not self.base.reading:
            return []
        return told_in_lines(self.base.reading, self.base.notes, "the page lists them")

    def where(self) -> Data:
        """The job file and its folder, as the page names them."""
        return {"file": self.job_file.name, "folder": str(self.job_file.parent)}

    def new_file(self, name: str) -> Path:
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

    def _blank(self) -> Job:
        """The job that a drawing begins, before anything is known of it."""
        return Job(name=self.path.stem, units=Unit.FT, slab=Slab(outline=Ring(()), thickness=0.0))
