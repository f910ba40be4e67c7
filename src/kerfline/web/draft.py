"""The draft beside the job file: what is on the page and not yet saved, with a running number.

The number goes up with every change that is kept. A window that brings an older number has not seen
what another window kept, and is told so instead of writing over it.
"""

import hashlib
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kerfline.errors import KerflineError
from kerfline.files.atomic import write_all

SCHEMA = "kerfline-draft/1"
LARGEST = 16 * 1024 * 1024
"""A draft of more bytes is none of ours."""


class Conflict(KerflineError):
    """Somebody else changed the same thing in the meantime.

    Attributes:
        which: ``draft`` (another window) or ``file`` (the job file was changed elsewhere).
    """

    def __init__(self, which: str, words: str) -> None:
        super().__init__(words)
        self.which = which


@dataclass(frozen=True, kw_only=True)
class Draft:
    """What was kept last.

    Attributes:
        revision: Running number.
        digest: Digest of the job file that the state began with.
        state: The working state as plain data.
    """

    revision: int
    digest: str
    state: dict[str, Any]


def digest_of(data: bytes) -> str:
    """What tells one state of a file from another."""
    return hashlib.sha256(data).hexdigest()


def draft_path(job_file: Path) -> Path:
    """Where the draft of a job lies."""
    return job_file.with_name(f".{job_file.name}.draft")


def read_draft(job_file: Path) -> Draft | None:
    """The draft of a job; None where there is none, or none that can be read."""
    path = draft_path(job_file)
    try:
        if path.is_symlink() or path.stat().st_size > LARGEST:
            return None
        data = json.loads(path.read_bytes())
        if data["schema"] != SCHEMA or not isinstance(data["state"], dict):
            return None
        return Draft(
            revision=int(data["revision"]), digest=str(data["digest"]), state=data["state"]
        )
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None


def keep_draft(job_file: Path, draft: Draft) -> None:
    """Writes the draft: the old one or the new one is there, never half of either.

    Raises:
        OutputRefused: It cannot be written.
    """
    body = {
        "schema": SCHEMA,
        "about": "Unsaved work of the kerfline page. It is deleted when the job is saved.",
        "revision": draft.revision,
        "digest": draft.digest,
        "state": draft.state,
    }
    path = draft_path(job_file)
    write_all(path.parent, {path.name: json.dumps(body, separators=(",", ":")).encode()})


def drop_draft(job_file: Path) -> None:
    """Takes the draft away."""
    draft_path(job_file).unlink(missing_ok=True)


def set_aside(job_file: Path) -> Path:
    """Moves a draft that belongs to another state of the job file out of the way."""
    path = draft_path(job_file)
    aside = path.with_name(path.name + "-old")
    path.replace(aside)
    return aside
