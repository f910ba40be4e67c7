"""Job files written by a test, and the mistakes that reading them tells."""

from pathlib import Path

import pytest

from kerfline.errors import InputRefused
from kerfline.files.job_file import read_job


def written(folder: Path, text: str) -> Path:
    """The path of a job file that holds a text."""
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def mistakes(path: Path) -> list[str]:
    """The mistakes for which a job file is refused, each as its sentence."""
    with pytest.raises(InputRefused) as refusal:
        read_job(path)
    return [str(mistake) for mistake in refusal.value.mistakes]
