"""The page's own address, kept beside the job file, so that a page that is open finds a server started again.

Whoever reads the file could speak to the server, so it is for its owner's eyes only; where it is not, it
counts for nothing.
"""

import contextlib
import json
import os
import stat
from dataclasses import dataclass
from pathlib import Path

LARGEST = 4096
LEAST_TOKEN = 24
PRIVATE = 0o600


@dataclass(frozen=True, slots=True)
class Address:
    """Where a page was served: the port and the word that its address ends in."""

    port: int
    token: str


def address_path(job_file: Path) -> Path:
    """The file that keeps it."""
    return job_file.with_name(f".{job_file.name}.page")


def kept_address(job_file: Path) -> Address | None:
    """The address that was last served for a job; None where there is none that can be trusted."""
    path = address_path(job_file)
    try:
        status = path.lstat()
        if not stat.S_ISREG(status.st_mode) or status.st_size > LARGEST:
            return None
        if os.name == "posix" and (status.st_mode & 0o077 or status.st_uid != os.getuid()):
            return None
        data = json.loads(path.read_bytes())
        port, token = int(data["port"]), str(data["token"])
    except (OSError, ValueError, KeyError, TypeError):
        return None
    good = token.isascii() and token.replace("-", "").replace("_", "").isalnum()
    return Address(port, token) if good and len(token) >= LEAST_TOKEN else None


def keep_address(job_file: Path, address: Address) -> None:
    """Keeps an address; where the folder cannot be written the page works all the same."""
    path = address_path(job_file)
    body = json.dumps({"port": address.port, "token": address.token})
    with contextlib.suppress(OSError):
        path.unlink(missing_ok=True)
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, PRIVATE)
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(body)
